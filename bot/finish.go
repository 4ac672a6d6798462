package bot

import (
	"errors"
	"fmt"
	"strings"

	"yardbell/bot/conversation"
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
		if err := tellLeads(t.tx, t.Crew); err != nil {
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
