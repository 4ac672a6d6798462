package bot

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
	logged  []rules.Entry
	goes    []int                   // how many of them are logged at a time: tasks are planned after each go
	writes  []func(*store.Tx) error // what else is to be written, before them
	later   []store.Message         // to go out after the answer, because of what was logged
	lines   []string
	joins   bool   // the first line goes on with the last one before it
	cleared bool   // nothing of what was said before stays
	kind    string // ask, error, notice; reply where it is empty
	buttons []store.Button
	step    rules.Step
	subject rules.Subject
	byLine  bool              // they are those of the first line logged, and give way to any other
	attach  attach.Attachment // a file that goes with it
	silent  bool

	noticed  bool // the sign is all of it: see sign.go
	reported bool // the message tells of work, logged or not
	warned   bool // it warns of something
}

// scene is the scene in which the answer was given.
func (a *Answer) scene(sc *Scene) *Scene {
	if a.of != nil {
		return a.of
	}
	return sc
}

// sort is the kind of message that the answer is.
func (a *Answer) sort() string {
	if a.kind == "" {
		return "reply"
	}
	return a.kind
}

// say adds a line.
func (a *Answer) say(v wording.Voice, id string, kv ...any) {
	s := v.Say(id, kv...)
	a.warned = a.warned || strings.HasPrefix(id, "w_")
	if !strings.HasPrefix(id, "help_") { // forms to type stay as they are typed
		s = wording.Upper(s)
	}
	a.lines = append(a.lines, s)
}

// join adds a sentence to the last line.
func (a *Answer) join(v wording.Voice, id string, kv ...any) {
	a.add(Answer{lines: []string{v.Say(id, kv...)}, joins: true, warned: strings.HasPrefix(id, "w_")})
}

func (a *Answer) ask(v wording.Voice, id string, kv ...any) { a.kind = "ask"; a.say(v, id, kv...) }

// fail says that a message could not be taken, and nothing else.
func (a *Answer) fail(v wording.Voice, id string, kv ...any) {
	a.clear()
	a.kind = "error"
	a.say(v, id, kv...)
}

// clear takes back what was said, here and before.
func (a *Answer) clear() { a.lines, a.buttons, a.joins, a.cleared = nil, nil, false, true }

// hush leaves a message alone that was not for the bot.
func (a *Answer) hush() { a.silent = true }

// refuse asks a refusal back, with the button that overrides it where it may be.
func (a *Answer) refuse(sc *Scene, r *rules.Refusal) {
	a.kind = "ask"
	a.lines = append(a.lines, sc.v.Refusal(r))
	if r.Ask {
		a.offer(sc.v, "b_anyway", sc.rerun("anyway="+r.Code))
		a.offer(sc.v, "b_no", "no")
	}
}

func (a *Answer) offer(v wording.Voice, label, do string, kv ...any) {
	a.buttons = append(a.buttons, store.Button{Label: v.Say(label, kv...), Do: do})
}

// log has lines logged in one go.
func (a *Answer) log(entries ...rules.Entry) {
	a.logged, a.goes = append(a.logged, entries...), append(a.goes, len(entries))
	for _, e := range entries {
		if a.subject.Zero() && e.Action != rules.Set && e.Step != rules.Add {
			a.step, a.subject, a.byLine = e.Step, e.Subject, true
		}
	}
}

// write has something else written than lines of the logbook.
func (a *Answer) write(do func(*store.Tx) error) { a.writes = append(a.writes, do) }

// answered marks a question of the bot as answered.
func (a *Answer) answered(m store.Message, update int64) {
	a.write(func(tx *store.Tx) error { _, err := tx.AnswerTo(m, update); return err })
}

// drop has nothing logged or written of all that the answer says.
func (a *Answer) drop() { a.logged, a.goes, a.writes, a.later = nil, nil, nil, nil }

// add puts what was answered next behind it.
func (a *Answer) add(b Answer) {
	if b.of != nil {
		a.of = b.of
	}
	if b.cleared {
		a.clear()
	}
	if n := len(a.lines); b.joins && n > 0 {
		a.lines[n-1] += " " + b.lines[0]
		b.lines = b.lines[1:]
	} else if n == 0 {
		a.joins = b.joins && !a.cleared
	}
	a.lines, a.buttons = append(a.lines, b.lines...), append(a.buttons, b.buttons...)
	a.record(b)
	if b.kind != "" {
		a.kind = b.kind
	}
	switch {
	case b.byLine && !a.subject.Zero():
	case b.byLine || !b.subject.Zero():
		a.step, a.subject, a.byLine = b.step, b.subject, b.byLine
	case b.step != "":
		a.step = b.step
	}
	if b.attach.Kind != "" {
		a.attach = b.attach
	}
	if b.noticed {
		a.later, a.silent = nil, false
	}
	a.silent, a.noticed = a.silent || b.silent, a.noticed || b.noticed
	a.reported, a.warned = a.reported || b.reported, a.warned || b.warned
}

// record has logged and written what another answer has.
func (a *Answer) record(b Answer) {
	a.logged, a.goes = append(a.logged, b.logged...), append(a.goes, b.goes...)
	a.writes, a.later = append(a.writes, b.writes...), append(a.later, b.later...)
}

// with is the answer with another behind it.
func (a Answer) with(b Answer) Answer { a.add(b); return a }

// then is what is answered where the next handler has the last word.
func (a Answer) then(b Answer, err error) (Answer, error) { return a.with(b), err }

func (a Answer) thenIf(b Answer, ok bool, err error) (Answer, bool, error) {
	return a.with(b), ok, err
}

// take adds what a handler answered and passes on what else it says, as is and taken do.
func (a *Answer) take(b Answer, err error) error { a.add(b); return err }

func (a *Answer) is(b Answer, ok bool) bool { a.add(b); return ok }

func (a *Answer) taken(b Answer, ok bool, err error) (bool, error) { a.add(b); return ok, err }
