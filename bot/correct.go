package bot

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
func (t *talk) awaiting(r *reading) (store.Line, bool, error) {
	lacks := func(l store.Line) bool {
		if l.Action != rules.Did {
			return false
		}
		count := l.Count == nil && rules.NeedsCount[l.Step] && (r.count != nil || r.all)
		place := l.Into == "" && (r.builder != "" && l.Step == rules.Graft || r.yard != "" && l.Step == rules.Move)
		return count || place
	}
	if t.replied != nil {
		if t.replied.Update == 0 {
			return store.Line{}, false, nil
		}
		lines, err := t.repliedLines()
		if err != nil {
			return store.Line{}, false, err
		}
		var open []store.Line
		for i := len(lines) - 1; i >= 0; i-- {
			if l := lines[i]; l.Action == rules.Did && (lacks(l) || rules.NeedsCount[l.Step]) {
				open = append(open, l)
			}
		}
		return t.openLine(open, lacks)
	}
	lines, err := t.effectiveOwn(10)
	if err != nil || len(lines) == 0 || t.origin.Said.Sub(lines[0].Said) > time.Hour {
		return store.Line{}, false, err
	}
	var open []store.Line
	for _, l := range lines {
		if l.Update == lines[0].Update && lacks(l) {
			open = append(open, l)
		}
	}
	if len(open) == 0 {
		return store.Line{}, false, nil
	}
	return t.openLine(open, lacks)
}

// openLine is the one line of a message that a short answer completes: the only
// one, or the only one that lacks what it says. Where that leaves several, a bare
// number could be any of theirs.
func (t *talk) openLine(lines []store.Line, lacks func(store.Line) bool) (store.Line, bool, error) {
	if len(lines) == 1 {
		return lines[0], true, nil
	}
	var open []store.Line
	for _, l := range lines {
		if lacks(l) {
			open = append(open, l)
		}
	}
	if len(open) == 1 {
		return open[0], true, nil
	}
	if len(lines) > 1 {
		t.ask("ask_which_line", "Example", t.v.Say("form_"+string(lines[len(lines)-1].Step)))
	}
	return store.Line{}, false, nil
}

// complete adds what a short answer says to a line.
func (t *talk) complete(id int64, cur rules.Entry, r *reading) error {
	if stop, err := t.unknown(r); stop || err != nil {
		return err
	}
	if bad := t.allowed(rules.CheckCount(rules.Entry{Step: cur.Step, Count: r.count, Of: r.of})); bad != nil {
		t.refuse(bad)
		return nil
	}
	count := r.count
	known := cur.Count != nil && r.yard != "" && cur.Into == "" // "todas a North" are those that were counted
	if r.all && !known && cur.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, cur.Subject.Number())
		if err != nil {
			return err
		}
		e := cur
		if r.yard != "" {
			e.Into = r.yard
		}
		if count, err = t.allOf(e, b); err != nil {
			return err
		}
		if count == nil {
			t.askCount(cur, nil)
			return nil
		}
	}
	return t.amendLine(id, func(x *rules.Entry) {
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
		if r.when.set {
			if at, ok := t.when(r); ok {
				x.Happened = at
			}
		}
	})
}

// amendLine logs new values for a line, says old and new, and tells what moved.
func (t *talk) amendLine(id int64, change func(*rules.Entry)) error {
	l, found, err := t.tx.LineByID(t.crew.ID, id)
	if err != nil {
		return err
	}
	cur, alive, err := t.current(l)
	if err != nil {
		return err
	}
	if !found || !alive {
		t.say("r_undo_not")
		return nil
	}
	old := cur.Entry
	e := old
	change(&e)
	t.step, t.subject = e.Step, e.Subject
	if bad := t.allowed(rules.CheckCount(e)); bad != nil {
		t.refuse(bad)
		return nil
	}
	if e.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
		if err != nil {
			return err
		}
		e.Detail.NoneYet = b.NoneYet(e, t.s)
		if bad := rules.CheckAmend(e.Step, old.Count, e.Count, b); bad != nil {
			t.refuse(bad)
			return nil
		}
	}
	if e.Step == rules.Graft && (e.From != old.From || e.Mark != old.Mark || !e.Happened.Equal(old.Happened) || e.Detail.AgeHi != old.Detail.AgeHi) {
		combs, err := t.tx.Combs(t.crew.ID, e.From)
		if err != nil {
			return err
		}
		if bad := t.allowed(rules.CheckGraft(e, combs)); bad != nil {
			t.refuse(bad)
			return nil
		}
	}
	if bad, err := t.checkTime(l, old, e); err != nil {
		return err
	} else if bad != nil {
		t.refuse(bad)
		return nil
	}
	e.Action, e.Ref = rules.Amend, id
	if old.SameValues(e) {
		t.say("e_noted", "What", t.v.Line(old))
		return nil
	}
	before, err := t.openTasks()
	if err != nil {
		return err
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	e.Action = rules.Did
	if old.Count == nil && e.Count != nil && e.Subject.Kind == rules.BatchKind {
		// The number that was asked for: answer as if it had been said at once.
		if e.Step == rules.Graft {
			e.ID, e.Said = id, old.Said
			return t.echoGraft(e)
		}
		e.ID = id
		return t.echoBatch(e)
	}
	t.sayChanged(old, e)
	if err := t.warnAmended(old, e); err != nil {
		return err
	}
	if old.Count != nil && e.Count == nil && rules.NeedsCount[e.Step] {
		e.ID = id
		t.askCount(e, nil)
	}
	if e.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
		if err != nil {
			return err
		}
		if b.Ended && e.Count != nil && *e.Count == 0 {
			t.say("e_none", "Batch", t.v.Head(e.Subject), "Past", t.v.Past(e.Step, e.Count))
		}
	}
	return t.changed(before)
}

// warnAmended says again what is said of a line when it is logged, where the change made
// it so.
func (t *talk) warnAmended(old, e rules.Entry) error {
	switch {
	case e.Step == rules.Graft:
		b, found, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
		if err != nil || !found {
			return err
		}
		if w := rules.AgeWarning(b.Age); w != "" && (!reflect.DeepEqual(old.Detail.AgeHi, e.Detail.AgeHi) || !old.Happened.Equal(e.Happened)) {
			t.say("w_"+w, "Hours", b.Age.Hi-24)
		}
	case e.Step == rules.Feed && e.Subject.Kind == rules.BuilderKind && e.Detail.Litres != old.Detail.Litres && rules.TooMuch(rules.BuilderEater, e.Detail.Litres):
		t.say("w_fed_much", "Days", rules.BuilderDays)
	}
	return nil
}

// sayChanged says what a change made of a line: each value as it was and as it is.
func (t *talk) sayChanged(old, e rules.Entry) {
	what := wording.Upper(t.v.Say("task", "Step", e.Step, "Subject", t.v.Subject(e.Subject)))
	list := slices.DeleteFunc(t.v.Details(old, e), func(d wording.Difference) bool { return d.Was == d.Now })
	if !slices.ContainsFunc(list, func(d wording.Difference) bool { return d.Was != "" }) {
		var added []string
		for _, d := range list {
			added = append(added, d.Now)
		}
		t.say("e_filled", "What", what, "New", wording.JoinList(added))
		return
	}
	var parts []string
	for _, d := range list {
		parts = append(parts, t.v.Say("c_change", "Old", cmp.Or(d.Was, t.v.Say("c_unsaid")), "New", cmp.Or(d.Now, t.v.Say("c_unsaid"))))
	}
	t.say("e_changed", "What", what, "Changes", strings.Join(parts, "; "))
}

// fix corrects a count: of the message replied to, or the sender's own newest
// line with that count.
func (t *talk) fix(r *reading) error {
	if r.soft != "" {
		switch l, ok, err := t.awaiting(r); {
		case err != nil:
			return err
		case ok:
			return t.complete(l.ID, l.Entry, r)
		case t.kind == "ask":
			return nil
		}
	}
	var lines []store.Line
	if t.replied != nil && t.replied.Update != 0 {
		list, err := t.repliedLines()
		if err != nil {
			return err
		}
		lines = list
	} else {
		own, err := t.effectiveOwn(10)
		if err != nil {
			return err
		}
		lines = own
	}
	var first *store.Line
	for i := range lines {
		l := &lines[i]
		if l.Action != rules.Did || l.Count == nil || l.Step == rules.Ordered || t.origin.Said.Sub(l.Said) > fixWithin(r) || r.soft != "" && !r.addressed && t.origin.Said.Sub(l.Said) > mendTimeWithin {
			continue
		}
		if r.step != "" && l.Step != r.step || r.batch != 0 && l.Subject != rules.BatchSubject(r.batch) {
			continue // "graft was 44 not 45" is not of the count of cells
		}
		if first == nil {
			first = l
		}
		if first == l && r.old == nil && t.replied == nil && r.soft == "" {
			// "Make that 35" long after a line, or after something that was not logged,
			// may be said of another count.
			open, err := t.questionOpen()
			if err != nil {
				return err
			}
			if open || t.origin.Said.Sub(l.Said) > time.Hour {
				t.ask("ask_fix", "Count", *l.Count, "What", t.v.Line(l.Entry), "When", l.Said, "New", *r.count)
				t.buttons = append(t.buttons, wording.Button(t.v.Say("b_change", "Count", *r.count), amendDo(l.ID, *r.count)), wording.Button(t.v.Say("b_keep", "Count", *l.Count), "no"))
				return nil
			}
		}
		if r.old == nil || *l.Count == *r.old {
			return t.amendLine(l.ID, func(e *rules.Entry) { e.Count = r.count })
		}
	}
	if first == nil && r.old == nil && r.addressed {
		if l, ok, err := t.awaiting(r); err != nil || ok {
			return t.complete(l.ID, l.Entry, r) // "fueron 33" in answer to "how many?"
		} else if t.kind == "ask" {
			return nil
		}
		if k, ok := t.contextTask(); ok && rules.NeedsCount[k.Step] {
			return t.done(r) // "fueron 33" in reply to a ping
		}
	}
	if r.old != nil && t.replied == nil {
		if ok, err := t.fixOthers(r); ok || err != nil {
			return err
		}
	}
	switch {
	case first != nil:
		t.ask("r_fix_old", "Count", *first.Count, "Old", wording.Deref(r.old), "What", t.v.Line(first.Entry))
	case r.addressed || r.old != nil:
		t.ask("r_fix_none")
	default:
		t.hush()
	}
	return nil
}

// fixOthers asks whether a count that somebody else of the crew logged is to be changed: of
// the one line that has the number which a correction says it was. Nobody's count is changed
// by somebody else without a question that names it.
func (t *talk) fixOthers(r *reading) (bool, error) {
	const look = 200
	lines, err := t.tx.LastLines(t.crew.ID, 0, look)
	if err != nil {
		return false, err
	}
	var fit []store.Line
	for _, l := range lines {
		if l.Action != rules.Did || l.Count == nil || l.Step == rules.Ordered || t.origin.Said.Sub(l.Said) > fixWithin(r) || r.step != "" && l.Step != r.step || r.batch != 0 && l.Subject != rules.BatchSubject(r.batch) {
			continue
		}
		cur, alive, err := t.current(l)
		if err != nil {
			return false, err
		}
		if alive && *cur.Count == *r.old {
			fit = append(fit, cur)
		}
	}
	if len(fit) != 1 {
		return false, nil
	}
	l := fit[0]
	t.step = l.Step
	t.ask("ask_fix_other", "Name", l.By, "Count", *l.Count, "What", t.v.Line(l.Entry), "When", l.Said, "New", *r.count)
	t.buttons = append(t.buttons, wording.Button(t.v.Say("b_change", "Count", *r.count), amendDo(l.ID, *r.count)), wording.Button(t.v.Say("b_keep", "Count", *l.Count), "no"))
	return true, nil
}

// fixWithin is how old a line may be whose count is put right; of a step that is named
// with the count that it was, longer.
func fixWithin(r *reading) time.Duration {
	if r.step != "" && r.old != nil {
		return 14 * 24 * time.Hour
	}
	return 48 * time.Hour
}
