package bot

import (
	"fmt"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// putRight changes what stands in the chat about tasks that this update closed:
// their pings lose the buttons and say who did it, the day's list is written anew.
// The rows keep their buttons, so that a late press is still understood.
func (sc *Scene) putRight() error {
	if len(sc.tx.Closed) == 0 {
		return nil
	}
	shown, err := sc.tx.Shown(sc.crew.ID, sc.tx.Closed...)
	if err != nil {
		return err
	}
	for _, m := range shown {
		// The ping stands in all languages of the crew, so its end does as well.
		end := wording.Each(wording.All(sc.s, sc.tx.Now), wording.LabelParting, func(v wording.Voice) string { return v.Say(endOf(sc.tx.Closed, m.TaskKey), "Name", sc.by.Name) })
		err := sc.tx.Queue(store.Message{Crew: sc.crew.ID, Key: fmt.Sprintf("edit/%d/%d", m.ID, sc.update.ID), Kind: "reply",
			Text: m.Text + "\n" + end, Chat: m.Chat, Edits: m.Message})
		if err != nil {
			return err
		}
	}
	row, number, found, err := sc.tx.ShownDigest(sc.crew.ID, rules.DateOf(sc.tx.Now, sc.s.Zone), sc.s.Zone)
	if err != nil || !found {
		return err
	}
	return sc.tx.Queue(store.Message{Crew: sc.crew.ID, Key: fmt.Sprintf("edit/%d/%d", row, sc.update.ID), Kind: "digest", Ping: rules.Digest, Edits: number})
}

// endOf is the sentence that ends what the chat shows of a task.
func endOf(closed []rules.Task, key string) string {
	for _, k := range closed {
		switch {
		case k.Key != key:
		case k.State == rules.Done:
			return "edit_done"
		case k.State == rules.Skipped:
			return "edit_skipped"
		}
	}
	return "edit_passed"
}
