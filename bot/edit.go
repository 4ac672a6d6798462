package bot

import (
	"yardbell/rules"
	"yardbell/store"
)

// edit follows a change of a message that was written before. What it logged is
// amended; what it did not log is read as if it had been written so at once.
func (t *talk) edit() error {
	if t.chat != 0 {
		return t.message() // nothing is logged in private, so there is nothing to amend
	}
	first, found, err := t.tx.FirstOfMessage(t.crew.ID, t.update.Message)
	if err != nil {
		return err
	}
	if !found || t.update.Message == 0 || first.Member != t.member.ID {
		t.fail("r_no_edit")
		return nil
	}
	// The words are new, the time is that of the message.
	text := t.origin.Text
	t.origin.Said, t.origin.ReplyTo = first.Said, first.ReplyTo
	lines, err := t.tx.MessageLines(t.crew.ID, t.update.Message)
	if err != nil {
		return err
	}
	var alive []store.Line
	for _, l := range lines {
		// A line of before the first update belongs to another message: the group has
		// moved since, and its new chat counts anew.
		if l.Action == rules.Void || l.Action == rules.Amend || l.Update < first.ID {
			continue
		}
		cur, ok, err := t.current(l)
		if err != nil {
			return err
		}
		if ok && l.Step != rules.Add {
			alive = append(alive, cur)
		}
	}
	if first.ReplyTo != 0 {
		if m, ok, err := t.tx.SentIn(t.crew.ID, t.chat, first.ReplyTo); err != nil {
			return err
		} else if ok {
			t.replied = &m
		}
	}
	if len(alive) == 0 {
		return t.message()
	}
	old := alive[len(alive)-1]
	m, err := t.read(text)
	if err != nil {
		return err
	}
	if len(alive) > 1 || len(m.parts) > 1 {
		return t.editMany(alive, m)
	}
	r := m.whole
	if r.verb == doDone && old.Action == rules.Did {
		r.verb, r.step = doStep, old.Step
	}
	if !r.clear() || r.verb != doStep || old.Action != rules.Did {
		t.ask("ask_edit", "What", t.v.line(old.Entry))
		return nil
	}
	if r.step == old.Step && t.sameSubject(r, old.Entry) {
		return t.rewrite(old, r)
	}
	// Another deed or another subject: the old line goes and the new one comes, or
	// neither.
	return t.tx.Nested(func() (bool, error) {
		if err := t.voidLines([]int64{old.ID}, false); err != nil || len(t.logged) == 0 {
			return false, err
		}
		t.step, t.subject = "", rules.Subject{}
		n := len(t.logged)
		if err := t.act(r); err != nil {
			return false, err
		}
		keep := len(t.logged) > n
		if !keep {
			t.logged = nil
			if t.kind != "error" { // which has put itself in the place of all lines
				t.lines = t.lines[1:]
			}
		}
		return keep, nil
	})
}

// rewrite amends a line to what the edited message says of it.
func (t *talk) rewrite(old store.Line, r *reading) error {
	if stop, err := t.unknown(r); stop || err != nil {
		return err
	}
	at, ok := t.when(r)
	if !ok {
		return nil
	}
	return t.amendLine(old.ID, func(e *rules.Entry) {
		overwrite(e, r)
		e.Happened = at
	})
}

// sameSubject reports whether an edited message is still about the same thing.
func (t *talk) sameSubject(r *reading, old rules.Entry) bool {
	switch old.Subject.Kind {
	case rules.BatchKind:
		return old.Step == rules.Graft || r.batch == 0 || r.batch == old.Subject.Number()
	case rules.BreederKind:
		return r.breeder == old.Subject.Number()
	}
	s := r.subject()
	return s == old.Subject || s.Zero()
}

// overwrite puts what an edited message says in the place of what it said.
func overwrite(e *rules.Entry, r *reading) {
	e.Count, e.Of = r.count, r.of
	if r.count == nil && (e.Step == rules.Rogue || e.Step == rules.Eggs) {
		zero := 0
		e.Count = &zero
		if e.Step == rules.Eggs && !r.noEggs {
			e.Count = nil
		}
	}
	if r.breeder != 0 && e.Step == rules.Graft {
		e.From = r.breeder
	}
	switch {
	case r.builder != "" && (e.Step == rules.Graft || e.Step == rules.Finish):
		e.Into = r.builder
	case r.yard != "":
		e.Into = r.yard
	}
	if r.mark != "" {
		e.Mark = r.mark
	}
	if r.bees != nil {
		e.Detail.BeesIn = r.bees
	}
	if r.ageLo != nil {
		e.Detail.AgeLo, e.Detail.AgeHi = r.ageLo, r.ageHi
	}
	e.Detail.NoEggs, e.Detail.Release = r.noEggs, r.release
}
