package conversation

import (
	"strings"

	"yardbell/bot/attach"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Answer is what a handler makes of a scene: the lines that it logs, and what it says. It is
// a value: what several handlers make of one message is put together by add.
type Answer struct {
	of      *Scene // the scene as it was changed on the way, nil where it was not
	Logged  []rules.Entry
	Goes    []int                   // how many of them are logged at a time: tasks are planned after each go
	Leads   bool                    // another leads from now on
	Writes  []func(*store.Tx) error // what else is to be written, before them
	Later   []store.Message         // to go out after the answer, because of what was logged
	Lines   []string
	joins   bool   // the first line goes on with the last one before it
	cleared bool   // nothing of what was said before stays
	Kind    string // ask, error, notice; reply where it is empty
	Buttons []store.Button
	Step    rules.Step
	Subject rules.Subject
	byLine  bool              // they are those of the first line logged, and give way to any other
	Attach  attach.Attachment // a file that goes with it
	Silent  bool

	Noticed  bool // the sign is all of it: see sign.go
	Reported bool // the message tells of work, logged or not
	Warned   bool // it warns of something
}

// In is the scene in which the answer was given.
func (a *Answer) In(sc *Scene) *Scene {
	if a.of != nil {
		return a.of
	}
	return sc
}

// Sort is the kind of message that the answer is.
func (a *Answer) Sort() string {
	if a.Kind == "" {
		return "reply"
	}
	return a.Kind
}

// say adds a line.
func (a *Answer) say(v wording.Voice, id string, kv ...any) {
	s := v.Say(id, kv...)
	a.Warned = a.Warned || strings.HasPrefix(id, "w_")
	if !strings.HasPrefix(id, "help_") { // forms to type stay as they are typed
		s = wording.Upper(s)
	}
	a.Lines = append(a.Lines, s)
}

// join adds a sentence to the last line.
func (a *Answer) join(v wording.Voice, id string, kv ...any) {
	a.add(Answer{Lines: []string{v.Say(id, kv...)}, joins: true, Warned: strings.HasPrefix(id, "w_")})
}

func (a *Answer) ask(v wording.Voice, id string, kv ...any) { a.Kind = "ask"; a.say(v, id, kv...) }

// Fail says that a message could not be taken, and nothing else.
func (a *Answer) Fail(v wording.Voice, id string, kv ...any) {
	a.clear()
	a.Kind = "error"
	a.say(v, id, kv...)
}

// clear takes back what was said, here and before.
func (a *Answer) clear() { a.Lines, a.Buttons, a.joins, a.cleared = nil, nil, false, true }

// Ignore leaves a message alone that was not for the bot.
func (a *Answer) Ignore() { a.Silent = true }

// refuse asks a refusal back, with the button that overrides it where it may be.
func (a *Answer) refuse(sc *Scene, r *rules.Refusal) {
	a.Kind = "ask"
	a.Lines = append(a.Lines, sc.Voice.Refusal(r))
	if r.Ask {
		a.offer(sc.Voice, "b_anyway", sc.rerun("anyway="+r.Code))
		a.offer(sc.Voice, "b_no", "no")
	}
}

func (a *Answer) offer(v wording.Voice, label, do string, kv ...any) {
	a.Buttons = append(a.Buttons, store.Button{Label: v.Say(label, kv...), Do: do})
}

// log has lines logged in one go.
func (a *Answer) log(entries ...rules.Entry) {
	a.Logged, a.Goes = append(a.Logged, entries...), append(a.Goes, len(entries))
	for _, e := range entries {
		if a.Subject.Zero() && e.Action != rules.Set && e.Step != rules.Add {
			a.Step, a.Subject, a.byLine = e.Step, e.Subject, true
		}
	}
}

// write has something else written than lines of the logbook.
func (a *Answer) write(do func(*store.Tx) error) { a.Writes = append(a.Writes, do) }

// answered marks a question of the bot as answered.
func (a *Answer) answered(m store.Message, update int64) {
	a.write(func(tx *store.Tx) error { _, err := tx.AnswerTo(m, update); return err })
}

// drop has nothing logged or written of all that the answer says, nor seen from here on.
func (a *Answer) drop(sc *Scene) {
	a.Logged, a.Goes, a.Writes, a.Later = nil, nil, nil, nil
	if a.of != nil {
		back := *a.of
		back.Look, back.model, back.Settings = sc.Look, sc.model, sc.Settings
		a.of = &back
	}
}

// add puts what was answered next behind it.
func (a *Answer) add(b Answer) {
	if b.of != nil {
		a.of = b.of
	}
	if b.cleared {
		a.clear()
	}
	if n := len(a.Lines); b.joins && n > 0 {
		a.Lines[n-1] += " " + b.Lines[0]
		b.Lines = b.Lines[1:]
	} else if n == 0 {
		a.joins = b.joins && !a.cleared
	}
	a.Lines, a.Buttons = append(a.Lines, b.Lines...), append(a.Buttons, b.Buttons...)
	a.record(b)
	if b.Kind != "" {
		a.Kind = b.Kind
	}
	switch {
	case b.byLine && !a.Subject.Zero():
	case b.byLine || !b.Subject.Zero():
		a.Step, a.Subject, a.byLine = b.Step, b.Subject, b.byLine
	case b.Step != "":
		a.Step = b.Step
	}
	if b.Attach.Kind != "" {
		a.Attach = b.Attach
	}
	if b.Noticed {
		a.Later, a.Silent = nil, false
	}
	a.Leads = a.Leads || b.Leads
	a.Silent, a.Noticed = a.Silent || b.Silent, a.Noticed || b.Noticed
	a.Reported, a.Warned = a.Reported || b.Reported, a.Warned || b.Warned
}

// record has logged and written what another answer has.
func (a *Answer) record(b Answer) {
	a.Logged, a.Goes = append(a.Logged, b.Logged...), append(a.Goes, b.Goes...)
	a.Writes, a.Later = append(a.Writes, b.Writes...), append(a.Later, b.Later...)
}

// with is the answer with another behind it.
func (a Answer) with(b Answer) Answer { a.add(b); return a }

// then is what is answered where the next handler has the last word.
func (a Answer) then(b Answer, err error) (Answer, error) { return a.with(b), err }

// take adds what a handler answered and passes on what else it says, as is and taken do.
func (a *Answer) take(b Answer, err error) error { a.add(b); return err }

func (a *Answer) is(b Answer, ok bool) bool { a.add(b); return ok }

func (a *Answer) taken(b Answer, ok bool, err error) (bool, error) { a.add(b); return ok, err }
