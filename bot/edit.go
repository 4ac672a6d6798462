package bot

import (
	"reflect"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
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
	var amends []int64 // of lines that other messages logged
	before := ""       // the words that the lines come from
	for _, l := range lines {
		// A line of before the first update belongs to another message: the group has
		// moved since, and its new chat counts anew.
		if l.Update < first.ID {
			continue
		}
		before = l.Raw
		if l.Action == rules.Void {
			continue
		}
		if l.Action == rules.Amend {
			base, found, err := t.tx.LineByID(t.crew.ID, l.Ref)
			if err != nil {
				return err
			}
			if gone, err := t.gone(l); err != nil {
				return err
			} else if found && !gone && base.Message != l.Message {
				amends = append(amends, l.ID)
			}
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
	switch {
	case len(alive) == 0 && len(amends) > 0:
		return t.inPlaceOf(amends, t.message) // "not 45, 54" changed into "not 45, 55"
	case len(alive) == 0:
		return t.message()
	}
	old := alive[len(alive)-1]
	list, err := t.changedTo(text, alive)
	if err != nil {
		return err
	}
	was, err := t.saidOf(before, alive)
	if err != nil {
		return err
	}
	if len(alive) > 1 || len(list) > 1 {
		return t.editMany(alive, list, was)
	}
	if len(list) == 0 {
		t.ask("ask_edit", "What", t.v.Line(old.Entry))
		return nil
	}
	r := list[0]
	if r.verb == doDone && old.Action == rules.Did {
		r.verb, r.step = doStep, old.Step
	}
	if old.Action == rules.Did && r.verb == doStep && r.step == old.Step && t.sameSubject(r, old.Entry) {
		return t.rewrite(old, r, was[old.ID])
	}
	// Another deed or another subject: the old line goes and the new one comes, or
	// neither.
	return t.inPlaceOf([]int64{old.ID}, func() error { return t.act(r) })
}

// changedTo is what a changed message tells, as if its lines were not in the log yet. It is
// empty where it was not understood, or tells of something that no line is changed into.
func (t *talk) changedTo(text string, lines []store.Line) ([]*reading, error) {
	k, err := t.known()
	if err != nil {
		return nil, err
	}
	k.Last, k.Asked = nil, nil
	for _, l := range lines {
		if l.Action != rules.Did || l.Subject.Kind != rules.BatchKind {
			continue
		}
		b, found, err := t.tx.Batch(t.crew.ID, l.Subject.Number())
		if err != nil {
			return nil, err
		}
		if found {
			k.Open = append(k.Open, rdg.Expect{Step: l.Step, Batch: b.Number, Breeder: b.Breeder, Builder: b.Builder, Had: wording.Deref(allOf(b, l.Entry)), Ready: true})
		}
	}
	res := t.madeOf(text, k)
	if res.Outcome != rdg.Log && !res.Clear { // what is clear is asked about by whoever does it
		return nil, nil
	}
	var list []*reading
	for _, a := range res.Acts {
		if r, ok := asCommand(a, true, text); ok && r.verb == doSet {
			list = append(list, r)
			continue
		}
		switch a.Kind {
		case rdg.Did, rdg.Done, rdg.Claim, rdg.Later, rdg.Skip:
			list = append(list, t.asReading(a))
		default:
			return nil, nil
		}
	}
	return list, nil
}

// inPlaceOf takes lines back and does what logs others, or neither where that logs nothing.
func (t *talk) inPlaceOf(ids []int64, do func() error) error {
	return t.tx.Nested(func() (bool, error) {
		if err := t.voidLines(ids, false); err != nil || len(t.logged) == 0 {
			return false, err
		}
		t.step, t.subject = "", rules.Subject{}
		n, said := len(t.logged), len(t.lines)
		if err := do(); err != nil {
			return false, err
		}
		keep := len(t.logged) > n
		if !keep {
			t.logged = nil
			if t.kind != "error" { // which has put itself in the place of all lines
				t.lines = t.lines[said:]
			}
		}
		return keep, nil
	})
}

// saidOf is what the words that lines come from say of each, by the number of the line.
// A line that they are not seen to tell of is missing.
func (t *talk) saidOf(text string, lines []store.Line) (map[int64]*reading, error) {
	out := map[int64]*reading{}
	list, err := t.changedTo(text, lines)
	if err != nil {
		return nil, err
	}
	match, ok := matchLines(lines, list, t.sameSubject)
	if !ok {
		return out, nil
	}
	for i, k := range match {
		if k >= 0 {
			out[lines[k].ID] = list[i]
		}
	}
	return out, nil
}

// rewrite amends a line to what the changed message says of it. was is what it said
// before, nil where that is not known.
func (t *talk) rewrite(old store.Line, r, was *reading) error {
	if stop, err := t.unknown(r); stop || err != nil {
		return err
	}
	at := old.Happened
	if r.when.set || was != nil && was.when.set {
		var ok bool
		if at, ok = t.when(r); !ok {
			return nil
		}
	}
	now, before := r.says(), rules.Entry{}
	if was != nil {
		before = was.says()
	}
	if r.all && now.Count == nil && old.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, old.Subject.Number())
		if err != nil {
			return err
		}
		now.Count = allOf(b, old.Entry)
	}
	return t.amendLine(old.ID, func(e *rules.Entry) {
		overwrite(e, before, now)
		e.Happened = at
	})
}

// allOf is how many "all" are in a line of a batch: what there was, less what its other
// lines took.
func allOf(b rules.Batch, e rules.Entry) *int {
	had, _ := b.Counts.Stage(e.Step)
	if had == nil {
		return nil
	}
	n := *had
	if got := b.Counts.Of(e.Step); got != nil && (e.Step == rules.Move || e.Step == rules.Catch) {
		n -= *got - wording.Deref(e.Count)
	}
	return &n
}

// sameSubject reports whether an edited message is still about the same thing.
func (t *talk) sameSubject(r *reading, old rules.Entry) bool {
	if (old.Step == rules.Eggs || old.Step == rules.CombOut) && r.mark != "" && old.Mark != "" && r.mark != old.Mark {
		return false // another comb
	}
	switch old.Subject.Kind {
	case rules.BatchKind:
		return old.Step == rules.Graft || r.batch == 0 || r.batch == old.Subject.Number()
	case rules.BreederKind:
		return r.breeder == old.Subject.Number()
	}
	s := r.subject()
	return s == old.Subject || s.Zero()
}

// says is what a message by itself says of a line, apart from its time. All else in a line
// comes from a ping, a button, the only one that fits, or a later word.
func (r *reading) says() rules.Entry {
	e := rules.Entry{Count: r.count, Of: r.of, Mark: r.mark,
		Detail: rules.Detail{BeesIn: r.bees, AgeLo: r.ageLo, AgeHi: r.ageHi, NoEggs: r.noEggs, Release: r.release, Litres: r.litres, Each: r.each}}
	switch r.step {
	case rules.Retire:
		e.Detail.Cause = r.reason
	case rules.Graft:
		e.From, e.Into = r.breeder, r.builder
	case rules.Finish:
		e.Into = r.builder
	case rules.Confine, rules.Eggs, rules.CombOut, rules.Rogue, rules.Feed, rules.Drones, rules.Dearth, rules.Flow:
		// The place is what they are about.
	default:
		e.Into = r.yard
	}
	return e
}

// overwrite brings a line to what a changed message says: what it says now holds, what it
// said before and says no more goes, and what it never said stays. It goes over the fields
// of the type: one that was left out would keep its old value, with the answer that
// nothing changed.
func overwrite(e *rules.Entry, was, now rules.Entry) {
	var merge func(e, was, now reflect.Value)
	merge = func(e, was, now reflect.Value) {
		for i := range e.NumField() {
			switch f := e.Field(i); {
			case f.Type() == reflect.TypeFor[rules.Detail]():
				merge(f, was.Field(i), now.Field(i))
			case !now.Field(i).IsZero():
				f.Set(now.Field(i))
			case !was.Field(i).IsZero():
				f.SetZero()
			}
		}
	}
	merge(reflect.ValueOf(e).Elem(), reflect.ValueOf(was), reflect.ValueOf(now))
	settleCount(e)
}

// settleCount gives a line the count that its step has by itself.
func settleCount(e *rules.Entry) {
	zero := 0
	switch e.Step {
	case rules.Eggs:
		if e.Count = nil; e.Detail.NoEggs {
			e.Count = &zero
		}
	case rules.Confine, rules.CombOut, rules.Finish, rules.Feed, rules.Drones, rules.Dearth, rules.Flow:
		e.Count = nil
	case rules.Rogue:
		if e.Count == nil {
			e.Count = &zero
		}
	}
}
