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

// finish queues the answer and settles the update, as the scene stands that the answer
// was given in.
func (sc *Scene) finish(ans Answer) (Answer, error) {
	sc = ans.scene(sc)
	if sc.danger.langs != nil {
		if err := sc.helpEmergency(); err != nil {
			return ans, err
		}
		ans.silent = ans.silent || ans.kind == "error" // which would only be in the way
	}
	if err := sc.photosFollow(ans.logged); err != nil {
		return ans, err
	}
	if ans.noticed {
		var err error
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

// log writes entries and derives what follows. after is the scene as it stands then.
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
		if e.ID, err = sc.tx.Append(sc.crew.ID, sc.update.ID, sc.by, sc.origin.Message, sc.origin.Text, *e); err != nil {
			return sc, nil, err
		}
		ans.log(*e)
	}
	if err := sc.tx.Replan(sc.crew.ID); err != nil {
		return sc, nil, err
	}
	next := *sc
	if next.s, err = sc.tx.Settings(sc.crew.ID); err != nil {
		return sc, nil, err
	}
	after = next.speaking(next.written)
	ans.of = after
	later, err := after.warn(was, entries)
	ans.later = append(ans.later, later...)
	return after, entries, err
}
