package conversation

import (
	"reflect"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// edit follows a change of a message that was written before. What it logged is
// amended; what it did not log is read as if it had been written so at once.
func (sc *Scene) edit() (Answer, error) {
	var ans Answer
	if sc.Chat != 0 {
		return sc.message() // nothing is logged in private, so there is nothing to amend
	}
	first, found, err := sc.Look.FirstOfMessage(sc.Crew.ID, sc.Update.Message)
	if err != nil {
		return ans, err
	}
	if !found || sc.Update.Message == 0 || first.Member != sc.Member.ID {
		ans.Fail(sc.Voice, "r_no_edit")
		return ans, nil
	}
	// The words are new, the time is that of the message.
	text, then := sc.Origin.Text, *sc
	then.Origin.Said, then.Origin.ReplyTo = first.Said, first.ReplyTo
	sc = &then
	ans.of = sc
	lines, err := sc.Look.MessageLines(sc.Crew.ID, sc.Update.Message)
	if err != nil {
		return ans, err
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
			base, found, err := sc.Look.LineByID(sc.Crew.ID, l.Ref)
			if err != nil {
				return ans, err
			}
			if gone, err := sc.gone(l); err != nil {
				return ans, err
			} else if found && !gone && base.Message != l.Message {
				amends = append(amends, l.ID)
			}
			continue
		}
		cur, ok, err := sc.current(l)
		if err != nil {
			return ans, err
		}
		if ok && l.Step != rules.Add {
			alive = append(alive, cur)
		}
	}
	if first.ReplyTo != 0 {
		if m, ok, err := sc.Look.SentIn(sc.Crew.ID, sc.Chat, first.ReplyTo); err != nil {
			return ans, err
		} else if ok {
			then.Replied = &m
		}
	}
	switch {
	case len(alive) == 0 && len(amends) > 0:
		return ans.then(sc.inPlaceOf(amends, (*Scene).message)) // "not 45, 54" changed into "not 45, 55"
	case len(alive) == 0:
		return ans.then(sc.message())
	}
	if ids := ofPlaces(alive); ids != nil {
		return ans.then(sc.inPlaceOf(ids, (*Scene).message)) // one message logs several lines of them
	}
	old := alive[len(alive)-1]
	list, sc, err := sc.changedTo(text, alive)
	if err != nil {
		return ans, err
	}
	was, sc, err := sc.saidOf(before, alive)
	if err != nil {
		return ans, err
	}
	ans.of = sc
	if len(alive) > 1 || len(list) > 1 {
		return ans.then(sc.editMany(alive, list, was))
	}
	if len(list) == 0 {
		ans.ask(sc.Voice, "ask_edit", "What", sc.Voice.Line(old.Entry))
		return ans, nil
	}
	r := list[0]
	if r.verb == doDone && old.Action == rules.Did {
		r.verb, r.step = doStep, old.Step
	}
	if old.Action == rules.Did && r.verb == doStep && r.step == old.Step && sc.sameSubject(r, old.Entry) {
		return ans.then(sc.rewrite(old, r, was[old.ID]))
	}
	// Another deed or another subject: the old line goes and the new one comes, or
	// neither.
	return ans.then(sc.inPlaceOf([]int64{old.ID}, func(sc *Scene) (Answer, error) { return sc.act(r) }))
}

// ofPlaces are the numbers of lines that are all about incubators and the cells in them, nil
// for others.
func ofPlaces(lines []store.Line) (ids []int64) {
	for _, l := range lines {
		if l.Step != rules.Temp && l.Step != rules.Placed {
			return nil
		}
		ids = append(ids, l.ID)
	}
	return ids
}

// changedTo is what a changed message tells, as if its lines were not in the log yet, and the
// scene as it is answered in. It is empty where it was not understood, or tells of something
// that no line is changed into.
func (sc *Scene) changedTo(text string, lines []store.Line) ([]*reading, *Scene, error) {
	k, err := sc.Known()
	if err != nil {
		return nil, sc, err
	}
	k.Last, k.Asked = nil, nil
	for _, l := range lines {
		if l.Action != rules.Did || l.Subject.Kind != rules.BatchKind {
			continue
		}
		b, found := sc.model.Batch(l.Subject.Number())
		if found {
			k.Open = append(k.Open, rdg.Expect{Step: l.Step, Batch: b.Number, Breeder: b.Breeder, Builder: b.Builder, Had: wording.Deref(allOf(b, l.Entry)), Ready: true})
		}
	}
	res, sc := sc.madeOf(text, k)
	if res.Outcome != rdg.Log && !res.Clear { // what is clear is asked about by whoever does it
		return nil, sc, nil
	}
	var list []*reading
	for _, a := range res.Acts {
		if r, ok := asCommand(a, true, text); ok && r.verb == doSet {
			list = append(list, r)
			continue
		}
		switch a.Kind {
		case rdg.Did, rdg.Done, rdg.Claim, rdg.Later, rdg.Skip:
			list = append(list, sc.asReading(a))
		default:
			return nil, sc, nil
		}
	}
	return list, sc, nil
}

// inPlaceOf takes lines back and does what logs others, or neither where that logs nothing.
func (sc *Scene) inPlaceOf(ids []int64, do func(*Scene) (Answer, error)) (ans Answer, err error) {
	if ans, err = sc.voidLines(ids, false); err != nil || len(ans.Logged) == 0 {
		return ans, err
	}
	now, err := do(ans.In(sc))
	if len(now.Logged) == 0 {
		now.drop(sc)
		return now, err
	}
	ans.Step, ans.Subject = "", rules.Subject{}
	return ans.then(now, err)
}

// saidOf is what the words that lines come from say of each, by the number of the line, and
// the scene as they are answered in. A line that they are not seen to tell of is missing.
func (sc *Scene) saidOf(text string, lines []store.Line) (map[int64]*reading, *Scene, error) {
	out := map[int64]*reading{}
	list, sc, err := sc.changedTo(text, lines)
	if err != nil {
		return nil, sc, err
	}
	match, ok := matchLines(lines, list, sc.sameSubject)
	if !ok {
		return out, sc, nil
	}
	for i, k := range match {
		if k >= 0 {
			out[lines[k].ID] = list[i]
		}
	}
	return out, sc, nil
}

// rewrite amends a line to what the changed message says of it. was is what it said
// before, nil where that is not known.
func (sc *Scene) rewrite(old store.Line, r, was *reading) (Answer, error) {
	var ans Answer
	if stop, err := ans.taken(sc.unknown(r)); stop || err != nil {
		return ans, err
	}
	sc = ans.In(sc)
	at := old.Happened
	if r.when.set || was != nil && was.when.set {
		q, settled, ok := sc.when(r)
		if ans.add(q); !ok {
			return ans, nil
		}
		at = settled
	}
	now, before := r.says(), rules.Entry{}
	if was != nil {
		before = was.says()
	}
	if r.all && now.Count == nil && old.Subject.Kind == rules.BatchKind {
		b, _ := sc.model.Batch(old.Subject.Number())
		now.Count = allOf(b, old.Entry)
	}
	return ans.then(sc.amendLine(old.ID, func(e *rules.Entry) {
		overwrite(e, before, now)
		e.Happened = at
	}))
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
func (sc *Scene) sameSubject(r *reading, old rules.Entry) bool {
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
		Detail: rules.Detail{C: r.degrees, Power: r.power, Out: r.out, Singly: r.singly, Both: r.both, Rests: r.rests, BeesIn: r.bees, AgeLo: r.ageLo, AgeHi: r.ageHi, NoEggs: r.noEggs, Release: r.release, Litres: r.litres, Each: r.each,
			Customer: r.customer, Tags: r.tags, Back: r.back, Ship: r.ship}}
	switch r.step {
	case rules.Retire:
		e.Detail.Cause = r.reason
	case rules.Nuc:
		e.Detail.State = r.nuc // the yard is what it is about
	case rules.Lose:
		e.Into, e.Detail.Cause = r.place(), r.reason
	case rules.Graft:
		e.From, e.Into = r.breeder, r.builder
	case rules.Finish, rules.Banked:
		e.Into = r.builder
	case rules.Handed:
		e.Detail.Out = r.builder
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
