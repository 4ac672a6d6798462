package bot

import (
	"fmt"
	"slices"

	"yardbell/bot/conversation"
	"yardbell/rules"
	"yardbell/store"
)

// signed queues the sign of the update, in the place of what an earlier reading of the
// same message left.
func (t turn) signed() error {
	if t.Update.Kind == "edit" {
		if err := t.tx.Unsign(t.Crew.ID, t.Update.Message, "changed", true); err != nil {
			return err
		}
	}
	if err := t.tx.Settle(t.Update.ID, store.Notice, true); err != nil {
		return err
	}
	return t.tx.QueueSign(t.Update, t.Settings)
}

// unsign removes the sign of the messages that this update saw logged: the one that was
// changed, the one a button was about, the one replied to. Changed into talk it goes, too.
func (t turn) unsign(ans conversation.Answer) error {
	logged := slices.ContainsFunc(ans.Logged, func(e rules.Entry) bool { return e.Action != rules.Void })
	if logged && t.Marked != nil {
		if err := t.tx.Unsign(t.Crew.ID, t.Marked.Message, "logged", false); err != nil {
			return err
		}
	}
	switch {
	case t.Chat != 0, t.Origin.Message == 0, t.Origin.Kind == "press":
	case logged && (t.Update.Kind == "edit" || t.Origin.ID != t.Update.ID):
		return t.tx.Unsign(t.Crew.ID, t.Origin.Message, "logged", false)
	case ans.Silent && t.Update.Kind == "edit":
		return t.tx.Unsign(t.Crew.ID, t.Origin.Message, "changed", false)
	}
	return nil
}

// helpEmergency queues what to do in an emergency, before all else that is said.
func (t turn) helpEmergency() error {
	m := store.Message{Crew: t.Crew.ID, Key: fmt.Sprintf("emergency/%d", t.Update.ID), Update: t.Update.ID, Chat: t.Chat, Answers: t.Update.Message}
	return conversation.QueueEmergency(t.tx, t.Settings, t.Danger, t.Settings.Own[t.Member.ID], m)
}
