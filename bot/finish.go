package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"yardbell/bot/conversation"
	"yardbell/bot/group"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// errNoAnswer: everything that is not for others to hear is answered.
var errNoAnswer = errors.New("nothing was said to what was read")

// turn is the end of an update: what was answered in a scene is written here, and nowhere
// else.
type turn struct {
	*conversation.Scene
	tx *store.Tx
}

// finish writes what is answered, queues the answer and settles the update, as the scene
// stands that it was given in.
func finish(tx *store.Tx, sc *conversation.Scene, ans conversation.Answer) (_ conversation.Answer, err error) {
	t := turn{ans.In(sc), tx}
	if err := t.write(ans); err != nil {
		return ans, err
	}
	if t.Danger.Langs != nil {
		if err := t.helpEmergency(); err != nil {
			return ans, err
		}
		ans.Silent = ans.Silent || ans.Kind == "error" // which would only be in the way
	}
	if ans.Noticed {
		if ans, err = t.Sign(ans); err != nil {
			return ans, err
		}
	}
	if ans.Noticed {
		return ans, t.signed()
	}
	if err := t.unsign(ans); err != nil {
		return ans, err
	}
	outcome := ans.Sort()
	switch {
	case ans.Silent:
		outcome = "silent"
	case len(ans.Logged) > 0:
		outcome = "logged"
	}
	if err := t.tx.Settle(t.Update.ID, outcome, !ans.Silent); err != nil || ans.Silent {
		return ans, err
	}
	if err := t.putRight(); err != nil {
		return ans, err
	}
	if err := t.captioned(ans); err != nil {
		return ans, err
	}
	if len(ans.Lines) == 0 {
		return ans, fmt.Errorf("update %d: %w", t.Update.ID, errNoAnswer)
	}
	if len(t.Crews) > 0 && !t.Which {
		ans.Lines = append([]string{t.Voice.Say("g_crew", "Crew", t.Title(t.Crew))}, ans.Lines...)
	}
	m := store.Message{Crew: t.Crew.ID, Key: fmt.Sprintf("answer/%d", t.Update.ID), Kind: ans.Sort(), Update: t.Update.ID,
		Text: strings.Join(ans.Lines, "\n"), Buttons: ans.Buttons, Step: ans.Step, Subject: ans.Subject.String()}
	m.Chat, m.Priority = t.Chat, ans.Place()
	if ans.Attach.Kind != "" {
		ans.Attach.Lang = t.Voice.Lang
		m.Attach = ans.Attach.String()
	}
	if t.Update.Kind != "press" {
		m.Answers = t.Update.Message
	}
	switch {
	case t.Update.Kind == "press":
		m.ReplyTo = t.Update.Message
	case t.Replied != nil:
		m.ReplyTo = t.Replied.Message
	}
	for _, k := range append([]store.Message{m}, ans.Later...) {
		if err := t.tx.Queue(k); err != nil {
			return ans, err
		}
	}
	return ans, nil
}

// write puts into the file what an answer has written.
func (t turn) write(ans conversation.Answer) error {
	for _, do := range ans.Writes {
		if err := do(t.tx); err != nil {
			return err
		}
	}
	if ans.Leads {
		if err := group.TellLeads(t.tx, t.Crew); err != nil {
			return err
		}
	}
	lines := ans.Logged
	for _, n := range ans.Goes {
		for _, e := range lines[:n] {
			id, err := t.tx.Append(t.Crew.ID, t.Update.ID, t.By, t.Origin.Message, t.Origin.Text, e)
			if err == nil && id != e.ID {
				err = fmt.Errorf("update %d: line %d was to be %d", t.Update.ID, id, e.ID)
			}
			if err != nil {
				return err
			}
		}
		if err := t.tx.Replan(t.Crew.ID); err != nil {
			return err
		}
		lines = lines[n:]
	}
	return t.photosFollow(ans.Logged)
}

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

// captioned keeps a photo whose caption logged something, or will once a question is
// answered. The photos of talk are not kept.
func (t turn) captioned(ans conversation.Answer) error {
	if t.Photo == "" || t.Chat != 0 || wording.Clean(t.Update.Text) == "" || t.Update.Kind != "message" || len(ans.Logged) == 0 && ans.Kind != "ask" {
		return nil
	}
	var lines []int64
	for _, e := range ans.Logged {
		if e.Action == rules.Did {
			lines = append(lines, e.ID)
		}
	}
	return t.KeepPhoto(t.tx, t.Update.Message, lines...)
}

// photosFollow brings photos to the lines that were just logged: those of their message, and
// those of the line that was taken back for one.
func (t turn) photosFollow(logged []rules.Entry) error {
	for i, e := range logged {
		if e.Action != rules.Did {
			continue
		}
		if err := t.tx.PhotosJoin(t.Crew.ID, t.Origin.Message, e.ID); err != nil {
			return err
		}
		for _, gone := range logged[:i] {
			if gone.Action == rules.Void && gone.Step == e.Step {
				if err := t.tx.PhotosFollow(gone.Ref, e.ID); err != nil {
					return err
				}
			}
		}
	}
	return nil
}
