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
func (t turn) putRight() error {
	if len(t.tx.Closed) == 0 {
		return nil
	}
	shown, err := t.tx.Shown(t.Crew.ID, t.tx.Closed...)
	if err != nil {
		return err
	}
	for _, m := range shown {
		// The ping stands in all languages of the crew, so its end does as well.
		end := wording.Each(wording.All(t.Settings, t.tx.Now), wording.LabelParting, func(v wording.Voice) string { return v.Say(endOf(t.tx.Closed, m.TaskKey), "Name", t.By.Name) })
		err := t.tx.Queue(store.Message{Crew: t.Crew.ID, Key: fmt.Sprintf("edit/%d/%d", m.ID, t.Update.ID), Kind: "reply",
			Text: m.Text + "\n" + end, Chat: m.Chat, Edits: m.Message})
		if err != nil {
			return err
		}
	}
	row, number, found, err := t.tx.ShownDigest(t.Crew.ID, rules.DateOf(t.tx.Now, t.Settings.Zone), t.Settings.Zone)
	if err != nil || !found {
		return err
	}
	return t.tx.Queue(store.Message{Crew: t.Crew.ID, Key: fmt.Sprintf("edit/%d/%d", row, t.Update.ID), Kind: "digest", Ping: rules.Digest, Edits: number})
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
