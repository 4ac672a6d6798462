package conversation

import (
	"cmp"
	"reflect"
	"slices"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// awaiting finds the line that a bare number or place completes: the one logged
// by the message replied to, else the sender's own last within the hour where it
// lacks just that.
func (sc *Scene) awaiting(r *reading) (Answer, store.Line, bool, error) {
	lacks := func(l store.Line) bool {
		if l.Action != rules.Did {
			return false
		}
		count := l.Count == nil && rules.NeedsCount[l.Step] && (r.count != nil || r.all)
		place := l.Into == "" && (r.builder != "" && l.Step == rules.Graft || r.yard != "" && l.Step == rules.Move)
		return count || place
	}
	if sc.Replied != nil {
		if sc.Replied.Update == 0 {
			return Answer{}, store.Line{}, false, nil
		}
		lines, err := sc.repliedLines()
		if err != nil {
			return Answer{}, store.Line{}, false, err
		}
		var open []store.Line
		for i := len(lines) - 1; i >= 0; i-- {
			if l := lines[i]; l.Action == rules.Did && (lacks(l) || rules.NeedsCount[l.Step]) {
				open = append(open, l)
			}
		}
		return sc.openLine(open, lacks)
	}
	lines, err := sc.effectiveOwn(10)
	if err != nil || len(lines) == 0 || sc.Origin.Said.Sub(lines[0].Said) > time.Hour {
		return Answer{}, store.Line{}, false, err
	}
	var open []store.Line
	for _, l := range lines {
		if l.Update == lines[0].Update && lacks(l) {
			open = append(open, l)
		}
	}
	if len(open) == 0 {
		return Answer{}, store.Line{}, false, nil
	}
	return sc.openLine(open, lacks)
}

// openLine is the one line of a message that a short answer completes: the only
// one, or the only one that lacks what it says. Where that leaves several, a bare
// number could be any of theirs.
func (sc *Scene) openLine(lines []store.Line, lacks func(store.Line) bool) (Answer, store.Line, bool, error) {
	var ans Answer
	if len(lines) == 1 {
		return ans, lines[0], true, nil
	}
	var open []store.Line
	for _, l := range lines {
		if lacks(l) {
			open = append(open, l)
		}
	}
	if len(open) == 1 {
		return ans, open[0], true, nil
	}
	if len(lines) > 1 {
		ans.ask(sc.Voice, "ask_which_line", "Example", sc.Voice.Say("form_"+string(lines[len(lines)-1].Step)))
	}
	return ans, store.Line{}, false, nil
}

// complete adds what a short answer says to a line.
func (sc *Scene) complete(id int64, cur rules.Entry, r *reading) (Answer, error) {
	var ans Answer
	if stop, err := ans.taken(sc.unknown(r)); stop || err != nil {
		return ans, err
	}
	sc = ans.In(sc)
	if bad := sc.allowed(rules.CheckCount(rules.Entry{Step: cur.Step, Count: r.count, Of: r.of})); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	count := r.count
	known := cur.Count != nil && r.yard != "" && cur.Into == "" // "todas a North" are those that were counted
	if r.all && !known && cur.Subject.Kind == rules.BatchKind {
		b, _ := sc.model.Batch(cur.Subject.Number())
		e := cur
		if r.yard != "" {
			e.Into = r.yard
		}
		if count = sc.allOf(e, b); count == nil {
			ans.add(sc.askCount(cur, nil))
			return ans, nil
		}
	}
	var at time.Time
	if r.when.set {
		q, settled, ok := sc.when(r)
		if ans.add(q); ok {
			at = settled
		}
	}
	return ans.then(sc.amendLine(id, func(x *rules.Entry) {
		if count != nil {
			x.Count, x.Of = count, r.of
		}
		if r.builder != "" {
			x.Into = r.builder
		} else if r.yard != "" {
			x.Into = r.yard
		}
		if r.mark != "" {
			x.Mark = r.mark
		}
		if !at.IsZero() {
			x.Happened = at
		}
	}))
}

// amendLine logs new values for a line, says old and new, and tells what moved.
func (sc *Scene) amendLine(id int64, change func(*rules.Entry)) (Answer, error) {
	var ans Answer
	l, found, err := sc.Look.LineByID(sc.Crew.ID, id)
	if err != nil {
		return ans, err
	}
	cur, alive, err := sc.current(l)
	if err != nil {
		return ans, err
	}
	if !found || !alive {
		ans.say(sc.Voice, "r_undo_not")
		return ans, nil
	}
	old := cur.Entry
	e := old
	change(&e)
	ans.Step, ans.Subject = e.Step, e.Subject
	if bad := sc.allowed(rules.CheckCount(e)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	if e.Subject.Kind == rules.BatchKind {
		b, _ := sc.model.Batch(e.Subject.Number())
		e.Detail.NoneYet, e.Detail.More = b.NoneYet(e, sc.Settings), b.MoreToCome(e, sc.Settings)
		if e.Into != old.Into {
			e.Detail.Part = atOneYard(e, b) && e.Step != rules.Catch
		}
		if bad := rules.CheckAmend(old, e.Count, b); bad != nil {
			ans.refuse(sc, bad)
			return ans, nil
		}
		if e.Step == rules.Lose {
			again := 0
			if e.Into == old.Into {
				again = wording.Deref(old.Count)
			}
			if bad := rules.CheckLose(e, b, again); bad != nil {
				ans.refuse(sc, bad)
				return ans, nil
			}
		}
		change := e
		change.Action, change.Ref, change.ID = rules.Amend, id, 0
		if bad := sc.contradicts(change); bad != nil {
			ans.refuse(sc, bad)
			return ans, nil
		}
	}
	if wording.OfStock(e) {
		if bad := sc.stockAllowed(rules.CheckStock(e, sc.model.StockWithout(id, e.Happened), sc.Settings.Zone)); bad != nil {
			ans.refuse(sc, bad)
			return ans, nil
		}
	}
	if e.Step == rules.Graft && (e.From != old.From || e.Mark != old.Mark || !e.Happened.Equal(old.Happened) || e.Detail.AgeHi != old.Detail.AgeHi) {
		combs := sc.model.Combs(e.From)
		if bad := sc.allowed(rules.CheckGraft(e, combs)); bad != nil {
			ans.refuse(sc, bad)
			return ans, nil
		}
	}
	if bad, err := sc.checkTime(l, old, e); err != nil {
		return ans, err
	} else if bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	e.Action, e.Ref = rules.Amend, id
	if old.SameValues(e) {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(old))
		return ans, nil
	}
	before, err := sc.openTasks()
	if err != nil {
		return ans, err
	}
	was := sc
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	e.Action = rules.Did
	if old.Count == nil && e.Count != nil && e.Subject.Kind == rules.BatchKind {
		// The number that was asked for: answer as if it had been said at once.
		if e.Step == rules.Graft {
			e.ID, e.Said = id, old.Said
			return ans.with(sc.echoGraft(e)), nil
		}
		e.ID = id
		return ans.with(sc.echoBatch(e)), nil
	}
	ans.add(sc.sayChanged(old, e))
	if e.Step == rules.Graft {
		ans.add(sc.movedRound(was, e.Subject.Number()))
	}
	if err := ans.take(sc.warnAmended(old, e)); err != nil {
		return ans, err
	}
	if old.Count != nil && e.Count == nil && rules.NeedsCount[e.Step] {
		e.ID = id
		ans.add(sc.askCount(e, nil))
	}
	if e.Subject.Kind == rules.BatchKind {
		b, _ := sc.model.Batch(e.Subject.Number())
		if b.Ended && e.Count != nil && *e.Count == 0 {
			ans.say(sc.Voice, "e_none", "Batch", sc.Voice.Head(e.Subject), "Past", sc.Voice.Past(e.Step, e.Count))
		}
	}
	return ans.then(sc.changed(before))
}

// warnAmended says again what is said of a line when it is logged, where the change made
// it so.
func (sc *Scene) warnAmended(old, e rules.Entry) (Answer, error) {
	var ans Answer
	switch {
	case e.Step == rules.Graft:
		b, found, err := sc.Look.Batch(sc.Crew.ID, e.Subject.Number())
		if err != nil || !found {
			return ans, err
		}
		if w := rules.AgeWarning(b.Age); w != "" && (!reflect.DeepEqual(old.Detail.AgeHi, e.Detail.AgeHi) || !old.Happened.Equal(e.Happened)) {
			ans.say(sc.Voice, "w_"+w, "Hours", b.Age.Hi-24)
		}
	case e.Step == rules.Feed && e.Subject.Kind == rules.BuilderKind && e.Detail.Litres != old.Detail.Litres && rules.TooMuch(rules.BuilderEater, e.Detail.Litres):
		ans.say(sc.Voice, "w_fed_much", "Days", rules.BuilderDays)
	}
	return ans, nil
}

// sayChanged says what a change made of a line: each value as it was and as it is.
func (sc *Scene) sayChanged(old, e rules.Entry) Answer {
	var ans Answer
	what := wording.Upper(sc.Voice.Say("task", "Step", e.Step, "Subject", sc.Voice.Subject(e.Subject)))
	if e.Subject.Kind == rules.StockKind {
		what = wording.Upper(sc.Voice.Say("step_" + string(e.Step)))
	}
	list := slices.DeleteFunc(sc.Voice.Details(old, e), func(d wording.Difference) bool { return d.Was == d.Now })
	if !slices.ContainsFunc(list, func(d wording.Difference) bool { return d.Was != "" }) {
		var added []string
		for _, d := range list {
			added = append(added, d.Now)
		}
		ans.say(sc.Voice, "e_filled", "What", what, "New", wording.JoinList(added))
		return ans
	}
	var parts []string
	for _, d := range list {
		parts = append(parts, sc.Voice.Say("c_change", "Old", cmp.Or(d.Was, sc.Voice.Say("c_unsaid")), "New", cmp.Or(d.Now, sc.Voice.Say("c_unsaid"))))
	}
	ans.say(sc.Voice, "e_changed", "What", what, "Changes", strings.Join(parts, "; "))
	return ans
}

// fix corrects a count: of the message replied to, or the sender's own newest
// line with that count.
func (sc *Scene) fix(r *reading) (Answer, error) {
	var ans Answer
	var lines []store.Line
	if sc.Replied != nil && sc.Replied.Update != 0 {
		list, err := sc.repliedLines()
		if err != nil {
			return ans, err
		}
		lines = list
	} else {
		own, err := sc.effectiveOwn(10)
		if err != nil {
			return ans, err
		}
		lines = own
	}
	var first *store.Line
	for i := range lines {
		l := &lines[i]
		if l.Action != rules.Did || l.Count == nil || l.Step == rules.Ordered || sc.Origin.Said.Sub(l.Said) > fixWithin(r) {
			continue
		}
		if r.step != "" && l.Step != r.step || r.batch != 0 && l.Subject != rules.BatchSubject(r.batch) {
			continue // "graft was 44 not 45" is not of the count of cells
		}
		if first == nil {
			first = l
		}
		if first == l && r.old == nil && sc.Replied == nil {
			// "Make that 35" long after a line, or after something that was not logged,
			// may be said of another count.
			_, open, err := sc.pendingQuestion()
			if err != nil {
				return ans, err
			}
			if open || sc.Origin.Said.Sub(l.Said) > time.Hour {
				ans.ask(sc.Voice, "ask_fix", "Count", *l.Count, "What", sc.Voice.Line(l.Entry), "When", l.Said, "New", *r.count)
				ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_change", "Count", *r.count), amendDo(l.ID, *r.count)), wording.Button(sc.Voice.Say("b_keep", "Count", *l.Count), "no"))
				return ans, nil
			}
		}
		if r.old == nil || *l.Count == *r.old {
			return ans.then(sc.amendLine(l.ID, func(e *rules.Entry) { e.Count = r.count }))
		}
	}
	if first == nil && r.old == nil && r.addressed {
		q, l, ok, err := sc.awaiting(r)
		if ans.add(q); err != nil || ok {
			return ans.then(sc.complete(l.ID, l.Entry, r)) // "fueron 33" in answer to "how many?"
		} else if ans.Kind == "ask" {
			return ans, nil
		}
		if k, ok := sc.contextTask(); ok && rules.NeedsCount[k.Step] {
			return ans.then(sc.done(r)) // "fueron 33" in reply to a ping
		}
	}
	if r.old != nil && sc.Replied == nil {
		if ok, err := ans.taken(sc.fixOthers(r)); ok || err != nil {
			return ans, err
		}
	}
	switch {
	case first != nil:
		ans.ask(sc.Voice, "r_fix_old", "Count", *first.Count, "Old", wording.Deref(r.old), "What", sc.Voice.Line(first.Entry))
	case r.addressed || r.old != nil:
		ans.ask(sc.Voice, "r_fix_none")
	default:
		ans.Ignore()
	}
	return ans, nil
}

// fixOthers asks whether a count that somebody else of the crew logged is to be changed: of
// the one line that has the number which a correction says it was. Nobody's count is changed
// by somebody else without a question that names it.
func (sc *Scene) fixOthers(r *reading) (ans Answer, ok bool, err error) {
	const look = 200
	lines, err := sc.Look.LastLines(sc.Crew.ID, 0, look)
	if err != nil {
		return ans, false, err
	}
	var fit []store.Line
	for _, l := range lines {
		if l.Action != rules.Did || l.Count == nil || l.Step == rules.Ordered || sc.Origin.Said.Sub(l.Said) > fixWithin(r) || r.step != "" && l.Step != r.step || r.batch != 0 && l.Subject != rules.BatchSubject(r.batch) {
			continue
		}
		cur, alive, err := sc.current(l)
		if err != nil {
			return ans, false, err
		}
		if alive && *cur.Count == *r.old {
			fit = append(fit, cur)
		}
	}
	if len(fit) != 1 {
		return ans, false, nil
	}
	l := fit[0]
	ans.Step = l.Step
	ans.ask(sc.Voice, "ask_fix_other", "Name", l.By, "Count", *l.Count, "What", sc.Voice.Line(l.Entry), "When", l.Said, "New", *r.count)
	ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_change", "Count", *r.count), amendDo(l.ID, *r.count)), wording.Button(sc.Voice.Say("b_keep", "Count", *l.Count), "no"))
	return ans, true, nil
}

// fixWithin is how old a line may be whose count is put right; of a step that is named
// with the count that it was, longer.
func fixWithin(r *reading) time.Duration {
	if r.step != "" && r.old != nil {
		return 45 * 24 * time.Hour
	}
	return 48 * time.Hour
}
