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
		buttons, end, err := t.endOf(m)
		if err != nil {
			return err
		}
		err = t.tx.Queue(store.Message{Crew: t.Crew.ID, Key: fmt.Sprintf("edit/%d/%d", m.ID, t.Update.ID), Kind: "reply",
			Text: m.Text + "\n" + end, Buttons: buttons, Chat: m.Chat, Edits: m.Message})
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

// endOf is what stands below a ping once this update closed a task of it: who did it. Where
// it is about several bars and some are still open, it says which are done, and the buttons
// stay for the rest.
func (t turn) endOf(m store.Message) (buttons []store.Button, end string, err error) {
	// The ping stands in all languages of the crew, so its end does as well.
	each := func(word func(wording.Voice) string) string {
		return wording.Each(wording.All(t.Settings, t.tx.Now), wording.LabelParting, word)
	}
	var done []rules.Task
	open := 0
	for _, key := range wording.TasksOf(m) {
		k, found, err := t.tx.Task(t.Crew.ID, key)
		switch {
		case err != nil:
			return nil, "", err
		case found && k.State == rules.Open:
			open++
		case found:
			done = append(done, k)
		}
	}
	if open > 0 {
		return m.Buttons, each(func(v wording.Voice) string {
			names := make([]string, len(done))
			for i, k := range done {
				names[i] = v.BarName(k)
			}
			return v.Say("edit_some", "List", wording.JoinList(names))
		}), nil
	}
	return nil, each(func(v wording.Voice) string { return v.Say(endOf(t.tx.Closed, m.TaskKey), "Name", t.By.Name) }), nil
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
