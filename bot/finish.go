package bot

import (
	"errors"
	"fmt"
	"strings"

	"yardbell/rules"
	"yardbell/store"
)

// errNoAnswer: everything that is not for others to hear is answered.
var errNoAnswer = errors.New("nothing was said to what was read")

// finish writes what is answered, queues the answer and settles the update, as the scene
// stands that it was given in.
func (sc *Scene) finish(tx *store.Tx, ans Answer) (_ Answer, err error) {
	end := *ans.scene(sc)
	end.tx, sc = tx, &end
	if err := sc.write(ans); err != nil {
		return ans, err
	}
	if end.s, err = tx.Settings(sc.crew.ID); err != nil {
		return ans, err
	}
	if sc.danger.langs != nil {
		if err := sc.helpEmergency(); err != nil {
			return ans, err
		}
		ans.silent = ans.silent || ans.kind == "error" // which would only be in the way
	}
	if ans.noticed {
		if ans, err = sc.sign(ans); err != nil {
			return ans, err
		}
	}
	if ans.noticed {
		return ans, sc.signed()
	}
	if err := sc.unsign(ans); err != nil {
		return ans, err
	}
	outcome := ans.sort()
	switch {
	case ans.silent:
		outcome = "silent"
	case len(ans.logged) > 0:
		outcome = "logged"
	}
	if err := sc.tx.Settle(sc.update.ID, outcome, !ans.silent); err != nil || ans.silent {
		return ans, err
	}
	if err := sc.putRight(); err != nil {
		return ans, err
	}
	if err := sc.captioned(ans); err != nil {
		return ans, err
	}
	if len(ans.lines) == 0 {
		return ans, fmt.Errorf("update %d: %w", sc.update.ID, errNoAnswer)
	}
	if len(sc.crews) > 0 && !sc.which {
		ans.lines = append([]string{sc.v.Say("g_crew", "Crew", sc.title(sc.crew))}, ans.lines...)
	}
	m := store.Message{Crew: sc.crew.ID, Key: fmt.Sprintf("answer/%d", sc.update.ID), Kind: ans.sort(), Update: sc.update.ID,
		Text: strings.Join(ans.lines, "\n"), Buttons: ans.buttons, Step: ans.step, Subject: ans.subject.String()}
	m.Chat, m.Priority = sc.chat, ans.place()
	if ans.attach.Kind != "" {
		ans.attach.Lang = sc.v.Lang
		m.Attach = ans.attach.String()
	}
	if sc.update.Kind != "press" {
		m.Answers = sc.update.Message
	}
	switch {
	case sc.update.Kind == "press":
		m.ReplyTo = sc.update.Message
	case sc.replied != nil:
		m.ReplyTo = sc.replied.Message
	}
	for _, k := range append([]store.Message{m}, ans.later...) {
		if err := sc.tx.Queue(k); err != nil {
			return ans, err
		}
	}
	return ans, nil
}

// write puts into the file what an answer has written: the one place that does.
func (sc *Scene) write(ans Answer) error {
	for _, do := range ans.writes {
		if err := do(sc.tx); err != nil {
			return err
		}
	}
	lines := ans.logged
	for _, n := range ans.goes {
		for _, e := range lines[:n] {
			id, err := sc.tx.Append(sc.crew.ID, sc.update.ID, sc.by, sc.origin.Message, sc.origin.Text, e)
			if err == nil && id != e.ID {
				err = fmt.Errorf("update %d: line %d was to be %d", sc.update.ID, id, e.ID)
			}
			if err != nil {
				return err
			}
		}
		if err := sc.tx.Replan(sc.crew.ID); err != nil {
			return err
		}
		lines = lines[n:]
	}
	return sc.photosFollow(ans.logged)
}

// log has entries logged. after is the scene as it stands then.
func (sc *Scene) log(ans *Answer, entries ...rules.Entry) (after *Scene, done []rules.Entry, err error) {
	was, err := sc.watch(entries)
	if err != nil {
		return sc, nil, err
	}
	for i := range entries {
		e := &entries[i]
		e.Said, e.By = sc.origin.Said, sc.by.Name
		if e.Happened.IsZero() {
			e.Happened = e.Said
		}
	}
	next := *sc
	if next.tx, done, err = sc.tx.With(sc.crew.ID, sc.update.ID, sc.by, sc.origin.Message, sc.origin.Text, entries...); err != nil {
		return sc, nil, err
	}
	if next.s, err = next.tx.Settings(sc.crew.ID); err != nil {
		return sc, nil, err
	}
	ans.log(done...)
	after = next.speaking(next.written)
	ans.of = after
	later, err := after.warn(was, done)
	ans.later = append(ans.later, later...)
	return after, done, err
}
