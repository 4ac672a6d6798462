package conversation

import (
	"cmp"
	"math"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// batchStep logs a step of a batch.
func (sc *Scene) batchStep(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	if sc.opt.yard != "" {
		r.yard = sc.opt.yard
	}
	q, b, ok, err := sc.batchFor(r, e.Step, e.Happened)
	ans.add(q)
	if err != nil || !ok {
		if e.Step == rules.Nucs && r.yard != "" && len(ans.Buttons) == 0 {
			return sc.looseNucs(r, e) // and nothing of what was asked
		}
		return ans, err
	}
	e.Subject = rules.BatchSubject(b.Number)
	ans.Step, ans.Subject = e.Step, e.Subject
	if b.Ended {
		ans.ask(sc.Voice, "r_batch_ended", "Batch", sc.Voice.Head(e.Subject))
		return ans, nil
	}
	if e.Step == rules.Finish {
		e.Into = r.builder
		e.Count = nil
	} else {
		e.Into = r.yard
	}
	if r.all {
		e.Count = sc.allOf(e, b)
	}
	sc.fillYard(&e, b)
	if e.Step == rules.Move || e.Step == rules.Accept || e.Step == rules.Capped {
		e.Detail.Out = cmp.Or(r.out, r.builder)
		if q, ok := sc.lotFor(r, &e, b); !ok {
			return ans.with(q), nil
		}
	}
	nucs := sc.nucsAt(e.Into)
	e.Detail.NoneYet, e.Detail.More = b.NoneYet(e, sc.Settings), b.MoreToCome(e, sc.Settings)
	e.Detail.Part = atOneYard(e, b) && e.Step != rules.Catch
	if stop, err := ans.taken(sc.emergedAmong(r, e, b)); stop || err != nil {
		return ans, err
	}
	if atOneYard(e, b) && e.Count != nil {
		if bad := rules.CheckYard(e, b, sc.allAt(e, b)); bad != nil {
			ans.refuse(sc, bad)
			return ans, nil
		}
	}
	if stop := ans.is(sc.ofWhichYard(e, b)); stop {
		return ans, nil
	}
	if stop, err := ans.taken(sc.repeated(r, e, b)); stop || err != nil {
		return ans, err
	}
	if stop, err := ans.taken(sc.toldAlready(r, e)); stop || err != nil {
		return ans, err
	}
	if bad := sc.allowed(rules.CheckBatch(e, b, nucs)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	if bad := sc.contradicts(e); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	before := sc
	sc, done, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans = ans.with(sc.echoBatch(done[0]))
	if e.Step == rules.Emerge {
		ans.add(sc.closesSooner(before, done))
	}
	ans.add(sc.nucsUsed(before.model.Board(e.Into), done[0]))
	return ans, nil
}

// allOf is how many "all" of a step are: what the batch stands at, and in one of several
// yards no more than went there; nil where that is not known.
func (sc *Scene) allOf(e rules.Entry, b rules.Batch) *int {
	had, _ := b.Had(e.Step)
	if atOneYard(e, b) {
		return sc.allAt(e, b)
	}
	if had == nil {
		return nil
	}
	n := *had
	if got := b.Counts.Of(e.Step); got != nil && (e.Step == rules.Move || e.Step == rules.Catch) {
		n -= *got
	}
	return &n
}

// atOneYard reports whether a count is of the queens in one of a batch's several yards.
func atOneYard(e rules.Entry, b rules.Batch) bool {
	return e.Into != "" && len(b.Yards) > 1 && (e.Step == rules.Emerge || e.Step == rules.Laying || e.Step == rules.Catch)
}

// allAt is how many of a batch are at a yard for a step: the newest count of that yard
// before it, without what was lost there and those that were caught. It is nil where a move
// does not say how many went where.
func (sc *Scene) allAt(e rules.Entry, b rules.Batch) *int {
	there, _ := b.HadAt(e.Into, e.Step)
	if there == nil || b.Account.At("").Present() != nil || b.Account.At(e.Into).Untold {
		return nil
	}
	n := *there
	if e.Step == rules.Catch {
		n -= b.Account.At(e.Into).Out
	}
	if had, _ := b.Had(e.Step); had != nil {
		n = min(n, *had) // fewer are left of the whole batch
	}
	n = max(0, n)
	return &n
}

// looseNucs logs nucs that no batch is waiting for.
func (sc *Scene) looseNucs(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	e.Subject = rules.YardSubject(r.yard)
	e.Into = r.yard
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.Voice, "e_nucs_plain", "Count", sc.Voice.Count(e.Step, e.Count), "At", sc.Voice.Say("e_at", "Yard", r.yard))
	return ans, nil
}

// fillYard takes the yard for granted where there is one reading only: the batch's
// own nucs, or the crew's only yard.
func (sc *Scene) fillYard(e *rules.Entry, b rules.Batch) {
	if e.Into != "" || e.Step != rules.Move && e.Step != rules.Nucs && e.Step != rules.Recell && e.Step != rules.Catch {
		return
	}
	if len(b.Yards) == 1 {
		e.Into = b.Yards[0]
		return
	}
	if e.Step == rules.Catch || e.Step == rules.Recell || len(b.Yards) > 1 {
		return
	}
	if n := sc.names(); len(n.yards) == 1 {
		e.Into = n.yards[0]
	}
}

func (sc *Scene) nucsAt(yard string) int {
	for _, y := range sc.model.Yards() {
		if y.Name == yard {
			return y.Nucs
		}
	}
	return 0
}

// inParts are the steps that are done in several goes.
var inParts = map[rules.Step]bool{rules.Move: true, rules.Catch: true, rules.Recell: true, rules.Nucs: true}

// repeated deals with a step that is in the log already: the same again is noted,
// another count is asked back, a part more is logged.
func (sc *Scene) repeated(r *reading, e rules.Entry, b rules.Batch) (ans Answer, stop bool, err error) {
	entries, err := sc.Look.SubjectEntries(sc.Crew.ID, e.Subject)
	if err != nil || sc.opt.sure {
		return ans, false, err
	}
	var last *rules.Entry
	counts := rules.Effective(entries)
	for i := range counts {
		if old := &counts[i]; old.Action == rules.Did && old.Step == e.Step && old.ID != 0 && !old.Detail.Unfinished() && old.Detail.Part == e.Detail.Part && (!e.Detail.Part || old.Into == e.Into) {
			last = old
		}
	}
	if last == nil {
		return ans, false, nil
	}
	same := e.Count == nil && !inParts[e.Step] || equal(e.Count, last.Count)
	again := same && r.when.set && !e.Happened.Equal(last.Happened) // the same thing with its time put right
	if k, ok := sc.contextTask(); ok && k.Step != e.Step && again && e.Count == nil {
		ans.ask(sc.Voice, "r_no_task", "Example", sc.example(r)) // "finisher at 8" under the ping to move is a slip of "finished"
		return ans, true, nil
	}
	switch {
	case inParts[e.Step]:
		if e.Count == nil && b.Rest(e.Step) == 0 && last.Count != nil && (e.Step == rules.Move || e.Step == rules.Catch) {
			ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(*last))
			return ans, true, nil
		}
		if !same || e.Into != last.Into || e.Happened.Sub(last.Happened) > 12*time.Hour || last.Count == nil {
			if last.Count == nil && e.Count != nil && (last.Into == "" || e.Into == last.Into) {
				more, err := sc.amendLine(last.ID, func(x *rules.Entry) { sc.take(x, r, e) })
				return more, true, err
			}
			return ans, false, nil
		}
		if again && b.Rest(e.Step) == 0 {
			more, err := sc.amendLine(last.ID, func(x *rules.Entry) { sc.take(x, r, e) })
			return more, true, err
		}
		ans.ask(sc.Voice, "ask_more", "Batch", sc.Voice.Head(e.Subject), "Old", last.Count, "Past", sc.Voice.Past(e.Step, last.Count), "By", last.By, "When", last.Happened)
		ans.offer(sc.Voice, "b_second", sc.rerun("sure=1"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, true, nil
	case e.Step == rules.Laying && e.Happened.Sub(last.Happened) > 24*time.Hour:
		return ans, false, nil // a second look
	case again, same && e.Into != "" && last.Into == "":
		more, err := sc.amendLine(last.ID, func(x *rules.Entry) { sc.take(x, r, e) })
		return more, true, err
	case same:
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(*last))
		return ans, true, nil
	case last.Count == nil:
		more, err := sc.amendLine(last.ID, func(x *rules.Entry) { sc.take(x, r, e) })
		return more, true, err
	}
	if bad := rules.CheckAmend(*last, e.Count, b); bad != nil {
		ans.refuse(sc, bad)
		return ans, true, nil
	}
	head := sc.Voice.Head(e.Subject)
	if e.Detail.Part {
		head += sc.Voice.Say("e_at", "Yard", e.Into)
	}
	ans.ask(sc.Voice, "ask_dup", "Batch", head, "Old", last.Count, "Past", sc.Voice.Past(e.Step, last.Count), "By", last.By, "When", last.Happened)
	ans.Buttons = append(ans.Buttons,
		wording.Button(sc.Voice.Say("b_change", "Count", *e.Count), amendDo(last.ID, *e.Count)),
		wording.Button(sc.Voice.Say("b_keep", "Count", last.Count), "no"))
	return ans, true, nil
}

// toldAlready asks back where a move without its batch would be logged for one, while the
// same count went to the same yard from another a moment ago: two people tell of one
// move, and the only batch that still waits is another.
func (sc *Scene) toldAlready(r *reading, e rules.Entry) (ans Answer, stop bool, err error) {
	if e.Step != rules.Move || e.Count == nil || e.Into == "" || r.batch != 0 && !r.concluded || r.breeder != 0 || r.all || sc.Replied != nil || sc.opt.sure || sc.opt.task != "" || !sc.opt.subject.Zero() {
		return ans, false, nil
	}
	crew, err := sc.Look.Members(sc.Crew.ID)
	if err != nil {
		return ans, false, err
	}
	for _, m := range crew {
		cur, found, err := sc.toldBy(m.ID, e)
		if err != nil {
			return ans, false, err
		}
		if found {
			ans.ask(sc.Voice, "ask_told", "Batch", sc.Voice.Subject(e.Subject), "Old", sc.Voice.Line(cur), "By", cur.By, "When", cur.Happened)
			ans.offer(sc.Voice, "b_second", sc.rerun("sure=1"))
			ans.offer(sc.Voice, "b_no", "no")
			return ans, true, nil
		}
	}
	return ans, false, nil
}

// toldBy finds the same move among what a member told of another batch a moment ago.
func (sc *Scene) toldBy(member int64, e rules.Entry) (cur rules.Entry, found bool, err error) {
	lines, err := sc.Look.LastLines(sc.Crew.ID, member, 30)
	for _, l := range lines {
		if sc.Origin.Said.Sub(l.Said) > toldWithin {
			break
		}
		if l.Action != rules.Did || l.Step != e.Step || l.Update == sc.Update.ID || l.Subject == e.Subject {
			continue
		}
		cur, alive, err := sc.current(l)
		if err != nil || alive && equal(cur.Count, e.Count) && cur.Into == e.Into {
			return cur.Entry, err == nil, err
		}
	}
	return cur, false, err
}

// toldWithin is how long ago the same may have been told by somebody else.
const toldWithin = 3 * time.Hour

// take moves what a message said into an entry that it completes.
func (sc *Scene) take(x *rules.Entry, r *reading, e rules.Entry) {
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
