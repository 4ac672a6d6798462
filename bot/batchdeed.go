package bot

import (
	"math"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// batchStep logs a step of a batch.
func (t *talk) batchStep(r *reading, e rules.Entry) error {
	b, ok, err := t.batchFor(r, e.Step, e.Happened)
	if err != nil || !ok {
		if e.Step == rules.Nucs && r.yard != "" && !t.asked() {
			return t.looseNucs(r, e)
		}
		return err
	}
	e.Subject = rules.BatchSubject(b.Number)
	t.step, t.subject = e.Step, e.Subject
	if b.Ended {
		t.ask("r_batch_ended", "Batch", t.v.Head(e.Subject))
		return nil
	}
	if e.Step == rules.Finish {
		e.Into = r.builder
		e.Count = nil
	} else {
		e.Into = r.yard
	}
	if r.all {
		if e.Count, err = t.allOf(e, b); err != nil {
			return err
		}
	}
	if err := t.fillYard(&e, b); err != nil {
		return err
	}
	nucs, err := t.nucsAt(e.Into)
	if err != nil {
		return err
	}
	e.Detail.NoneYet = b.NoneYet(e, t.s)
	if stop, err := t.emergedAmong(r, e, b); stop || err != nil {
		return err
	}
	if stop, err := t.repeated(r, e, b); stop || err != nil {
		return err
	}
	if stop, err := t.toldAlready(r, e); stop || err != nil {
		return err
	}
	if bad := t.allowed(rules.CheckBatch(e, b, nucs)); bad != nil {
		t.refuse(bad)
		return nil
	}
	if atOneYard(e, b) && e.Count != nil {
		there, err := t.allAt(e, b)
		if err != nil {
			return err
		}
		if bad := rules.CheckYard(e, b, there); bad != nil {
			t.refuse(bad)
			return nil
		}
	}
	done, err := t.append(e)
	if err != nil {
		return err
	}
	return t.echoBatch(done[0])
}

// allOf is how many "all" of a step are: what the batch stands at, and in one of several
// yards no more than went there; nil where that is not known.
func (t *talk) allOf(e rules.Entry, b rules.Batch) (*int, error) {
	had, _ := b.Counts.Stage(e.Step)
	if atOneYard(e, b) {
		return t.allAt(e, b)
	}
	if had == nil {
		return nil, nil
	}
	n := *had
	if got := b.Counts.Of(e.Step); got != nil && (e.Step == rules.Move || e.Step == rules.Catch) {
		n -= *got
	}
	return &n, nil
}

// atOneYard reports whether a count is of the queens in one of a batch's several yards.
func atOneYard(e rules.Entry, b rules.Batch) bool {
	return e.Into != "" && len(b.Yards) > 1 && (e.Step == rules.Emerge || e.Step == rules.Laying || e.Step == rules.Catch)
}

// allAt is how many of a batch are at a yard for a step: those that were moved there, or
// fewer where a later count of that yard says so, without those that were caught. It is nil
// where a move does not say how many went where.
func (t *talk) allAt(e rules.Entry, b rules.Batch) (*int, error) {
	entries, err := t.tx.SubjectEntries(t.crew.ID, rules.BatchSubject(b.Number))
	if err != nil {
		return nil, err
	}
	n, caught := 0, 0
	for _, k := range rules.Effective(entries) {
		switch {
		case k.Action != rules.Did || k.Subject != rules.BatchSubject(b.Number):
		case k.Step == rules.Move && (k.Count == nil || k.Into == ""):
			return nil, nil
		case k.Into != e.Into || k.Count == nil:
		case k.Step == rules.Move:
			n += *k.Count
		case (k.Step == rules.Emerge || k.Step == rules.Laying) && k.Step != e.Step:
			n = min(n, *k.Count)
		case k.Step == rules.Catch && e.Step == rules.Catch:
			caught += *k.Count
		}
	}
	if had, _ := b.Counts.Stage(e.Step); had != nil {
		n = min(n, *had) // fewer are left of the whole batch
	}
	n = max(0, n-caught)
	return &n, nil
}

// asked reports whether a question with buttons is on its way already.
func (t *talk) asked() bool { return len(t.buttons) > 0 }

// looseNucs logs nucs that no batch is waiting for.
func (t *talk) looseNucs(r *reading, e rules.Entry) error {
	t.kind, t.lines, t.buttons = "reply", nil, nil
	e.Subject = rules.YardSubject(r.yard)
	e.Into = r.yard
	if _, err := t.append(e); err != nil {
		return err
	}
	t.say("e_nucs_plain", "Count", t.v.Count(e.Step, e.Count), "At", t.v.Say("e_at", "Yard", r.yard))
	return nil
}

// fillYard takes the yard for granted where there is one reading only: the batch's
// own nucs, or the crew's only yard.
func (t *talk) fillYard(e *rules.Entry, b rules.Batch) error {
	if e.Into != "" || e.Step != rules.Move && e.Step != rules.Nucs && e.Step != rules.Recell && e.Step != rules.Catch {
		return nil
	}
	if len(b.Yards) == 1 {
		e.Into = b.Yards[0]
		return nil
	}
	if e.Step == rules.Catch || e.Step == rules.Recell || len(b.Yards) > 1 {
		return nil
	}
	n, err := t.names()
	if len(n.yards) == 1 {
		e.Into = n.yards[0]
	}
	return err
}

func (t *talk) nucsAt(yard string) (int, error) {
	list, err := t.tx.Yards(t.crew.ID)
	for _, y := range list {
		if y.Name == yard {
			return y.Nucs, err
		}
	}
	return 0, err
}

// inParts are the steps that are done in several goes.
var inParts = map[rules.Step]bool{rules.Move: true, rules.Catch: true, rules.Recell: true, rules.Nucs: true}

// repeated deals with a step that is in the log already: the same again is noted,
// another count is asked back, a part more is logged.
func (t *talk) repeated(r *reading, e rules.Entry, b rules.Batch) (stop bool, err error) {
	entries, err := t.tx.SubjectEntries(t.crew.ID, e.Subject)
	if err != nil || t.opt.sure {
		return false, err
	}
	var last *rules.Entry
	counts := rules.Effective(entries)
	for i := range counts {
		if old := &counts[i]; old.Action == rules.Did && old.Step == e.Step && old.ID != 0 && !old.Detail.NoneYet {
			last = old
		}
	}
	if last == nil {
		return false, nil
	}
	same := e.Count == nil && !inParts[e.Step] || equal(e.Count, last.Count)
	again := same && r.when.set && !e.Happened.Equal(last.Happened) // the same thing with its time put right
	if k, ok := t.contextTask(); ok && k.Step != e.Step && again && e.Count == nil {
		t.ask("r_no_task", "Example", t.example(r)) // "finisher at 8" under the ping to move is a slip of "finished"
		return true, nil
	}
	switch {
	case inParts[e.Step]:
		if e.Count == nil && b.Rest(e.Step) == 0 && last.Count != nil && (e.Step == rules.Move || e.Step == rules.Catch) {
			t.say("e_noted", "What", t.v.Line(*last))
			return true, nil
		}
		if !same || e.Into != last.Into || e.Happened.Sub(last.Happened) > 12*time.Hour || last.Count == nil {
			if last.Count == nil && e.Count != nil && (last.Into == "" || e.Into == last.Into) {
				return true, t.amendLine(last.ID, func(x *rules.Entry) { t.take(x, r, e) })
			}
			return false, nil
		}
		if again && b.Rest(e.Step) == 0 {
			return true, t.amendLine(last.ID, func(x *rules.Entry) { t.take(x, r, e) })
		}
		t.ask("ask_more", "Batch", t.v.Head(e.Subject), "Old", last.Count, "Past", t.v.Past(e.Step, last.Count), "By", last.By, "When", last.Happened)
		t.offer("b_second", t.rerun("sure=1"))
		t.offer("b_no", "no")
		return true, nil
	case e.Step == rules.Laying && e.Happened.Sub(last.Happened) > 24*time.Hour:
		return false, nil // a second look
	case again, same && e.Into != "" && last.Into == "":
		return true, t.amendLine(last.ID, func(x *rules.Entry) { t.take(x, r, e) })
	case same:
		t.say("e_noted", "What", t.v.Line(*last))
		return true, nil
	case last.Count == nil:
		return true, t.amendLine(last.ID, func(x *rules.Entry) { t.take(x, r, e) })
	}
	if bad := rules.CheckAmend(e.Step, last.Count, e.Count, b); bad != nil {
		t.refuse(bad)
		return true, nil
	}
	t.ask("ask_dup", "Batch", t.v.Head(e.Subject), "Old", last.Count, "Past", t.v.Past(e.Step, last.Count), "By", last.By, "When", last.Happened)
	t.buttons = append(t.buttons,
		wording.Button(t.v.Say("b_change", "Count", *e.Count), amendDo(last.ID, *e.Count)),
		wording.Button(t.v.Say("b_keep", "Count", last.Count), "no"))
	return true, nil
}

// toldAlready asks back where a move without its batch would be logged for one, while the
// same count went to the same yard from another a moment ago: two people tell of one
// move, and the only batch that still waits is another.
func (t *talk) toldAlready(r *reading, e rules.Entry) (stop bool, err error) {
	if e.Step != rules.Move || e.Count == nil || e.Into == "" || r.batch != 0 && !r.concluded || r.breeder != 0 || r.all || t.replied != nil || t.opt.sure || t.opt.task != "" || !t.opt.subject.Zero() {
		return false, nil
	}
	crew, err := t.tx.Members(t.crew.ID)
	if err != nil {
		return false, err
	}
	for _, m := range crew {
		cur, found, err := t.toldBy(m.ID, e)
		if err != nil {
			return false, err
		}
		if found {
			t.ask("ask_told", "Batch", t.v.Subject(e.Subject), "Old", t.v.Line(cur), "By", cur.By, "When", cur.Happened)
			t.offer("b_second", t.rerun("sure=1"))
			t.offer("b_no", "no")
			return true, nil
		}
	}
	return false, nil
}

// toldBy finds the same move among what a member told of another batch a moment ago.
func (t *talk) toldBy(member int64, e rules.Entry) (cur rules.Entry, found bool, err error) {
	lines, err := t.tx.LastLines(t.crew.ID, member, 30)
	for _, l := range lines {
		if t.origin.Said.Sub(l.Said) > toldWithin {
			break
		}
		if l.Action != rules.Did || l.Step != e.Step || l.Update == t.update.ID || l.Subject == e.Subject {
			continue
		}
		cur, alive, err := t.current(l)
		if err != nil || alive && equal(cur.Count, e.Count) && cur.Into == e.Into {
			return cur.Entry, err == nil, err
		}
	}
	return cur, false, err
}

// toldWithin is how long ago the same may have been told by somebody else.
const toldWithin = 3 * time.Hour

// take moves what a message said into an entry that it completes.
func (t *talk) take(x *rules.Entry, r *reading, e rules.Entry) {
	if e.Count != nil {
		x.Count, x.Of = e.Count, e.Of
	}
	if e.Into != "" {
		x.Into = e.Into
	}
	if e.Mark != "" {
		x.Mark = e.Mark
	}
	if r.when.set {
		x.Happened = e.Happened
	}
}

func equal(a, b *int) bool { return a != nil && b != nil && *a == *b }

// percent of a count of another, as whole number.
func percent(n, of int) int { return int(math.Round(100 * float64(n) / float64(of))) }
