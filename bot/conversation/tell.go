package conversation

import (
	"slices"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// mostLogged is how many lines of the log an answer names.
const mostLogged = 3

// scope is what a question is about: a subject and all that belongs to it, or, where none
// is named, what is under way.
type scope struct {
	act     rdg.Act
	batches map[int]bool
}

// scopeOf finds the batches that belong to what was named.
func (sc *Scene) scopeOf(a rdg.Act) (scope, error) {
	s := scope{act: a, batches: map[int]bool{}}
	list := sc.model.Batches()
	for _, b := range list {
		switch {
		case a.Batch != 0:
			s.batches[b.Number] = b.Number == a.Batch
		case a.Breeder != 0 && b.Breeder != a.Breeder, a.Builder != "" && b.Builder != a.Builder, a.Yard != "" && !slices.Contains(b.Yards, a.Yard):
		case !b.Ended || a.Breeder != 0:
			s.batches[b.Number] = true
		}
	}
	return s, nil
}

// named reports whether a subject was named.
func (s scope) named() bool {
	return s.act.Batch != 0 || s.act.Breeder != 0 || s.act.Builder != "" || s.act.Yard != ""
}

// holds reports whether something of a subject belongs to what is asked about.
func (s scope) holds(subject rules.Subject) bool {
	switch subject.Kind {
	case rules.BatchKind:
		return s.batches[subject.Number()]
	case rules.BreederKind:
		return !s.named() || subject.Number() == s.act.Breeder
	case rules.BuilderKind:
		return !s.named() || subject.Key == s.act.Builder
	case rules.YardKind:
		return !s.named() || subject.Key == s.act.Yard
	}
	return !s.named()
}

// holdsLine reports whether a line belongs to what is asked about: of a yard only what was
// brought there, or is of no one place.
func (s scope) holdsLine(e rules.Entry) bool {
	if s.act.Yard != "" && e.Into != "" && e.Subject.Kind == rules.BatchKind && !inYard(e.Into, s.act.Yard) {
		return false
	}
	return s.holds(e.Subject)
}

// holdsTask reports whether a task belongs to what is asked about.
func (s scope) holdsTask(k rules.Task) bool {
	switch {
	case s.act.Step != "" && k.Step != s.act.Step:
		return false
	case k.Batch != 0 && s.batches[k.Batch]:
		return true
	case s.act.Breeder != 0 && k.Breeder == s.act.Breeder && k.Batch == 0:
		return true
	}
	return s.holds(k.Subject)
}

// told are the newest lines of a step, the newest last; of the day that was named where
// something stands there.
func (sc *Scene) told(s scope, most int) ([]rules.Entry, error) {
	book, err := sc.Look.Logbook(sc.Crew.ID)
	if err != nil {
		return nil, err
	}
	var all, day []rules.Entry
	for i := len(book) - 1; i >= 0; i-- {
		l := book[i]
		if len(day) == most || len(all) >= most && !sc.maybeOnDay(l.Entry, s.act.When) {
			break // what is asked for lies behind
		}
		if l.Action != rules.Did || s.act.Step != "" && l.Step != s.act.Step {
			continue
		}
		cur, ok, err := sc.current(l)
		if err != nil {
			return nil, err
		}
		if !ok || !s.holdsLine(cur.Entry) {
			continue
		}
		all = append(all, cur.Entry)
		if sc.onDay(cur.Entry, s.act.When) {
			day = append(day, cur.Entry)
		}
	}
	if len(day) > 0 {
		all = day
	}
	all = all[:min(len(all), most)]
	slices.Reverse(all)
	return all, nil
}

// onDay reports whether a line is of a day that was named, today or past.
func (sc *Scene) onDay(e rules.Entry, w *rdg.When) bool {
	return w != nil && w.Day != nil && *w.Day <= 0 && rules.DateOf(e.Happened, sc.Settings.Zone) == rules.DateOf(sc.Look.Now, sc.Settings.Zone).Add(*w.Day)
}

// maybeOnDay reports whether a line, or one that was told before it, may be of a day that was
// named: nothing happens after it is told.
func (sc *Scene) maybeOnDay(e rules.Entry, w *rdg.When) bool {
	return w != nil && w.Day != nil && *w.Day <= 0 && !rules.DateOf(e.Said, sc.Settings.Zone).Before(rules.DateOf(sc.Look.Now, sc.Settings.Zone).Add(*w.Day))
}

// tellOf answers a question about work: what the log holds of it, who did it, and what is due.
// Where it holds nothing of that, what is nearest is told: the subject, what is under way,
// what comes next.
func (sc *Scene) tellOf(a rdg.Act) (Answer, error) {
	var ans Answer
	s, err := sc.scopeOf(a)
	if err != nil {
		return ans, err
	}
	if err := ans.take(sc.tellTold(s)); err != nil {
		return ans, err
	}
	n := len(ans.Lines)
	if err := ans.take(sc.next(s.holdsTask, mostTold)); err != nil {
		return ans, err
	}
	if len(ans.Lines) > n+1 {
		return ans, nil
	}
	if ans.Lines = ans.Lines[:n]; n > 0 && (!s.named() || a.Topic != rdg.AskWhen) {
		return ans, nil
	}
	return ans.then(sc.nearest(a))
}

// tellTold shows the newest lines of the log that a question is about.
func (sc *Scene) tellTold(s scope) (Answer, error) {
	var ans Answer
	lines, err := sc.told(s, mostLogged)
	for _, e := range lines {
		ans.say(sc.Voice, "s_log_line", "When", e.Happened, "By", e.By, "What", sc.Voice.Line(e))
	}
	return ans, err
}

// nearest tells of the subject that was named, else of what is under way, else what comes
// next of all.
func (sc *Scene) nearest(a rdg.Act) (Answer, error) {
	var ans Answer
	if a.Batch != 0 || a.Breeder != 0 || a.Builder != "" || a.Yard != "" {
		return sc.showNamed(a)
	}
	n := len(ans.Lines)
	if err := ans.take(sc.liveBatches(a)); err != nil || len(ans.Lines) > n {
		return ans, err
	}
	return ans.then(sc.next(func(rules.Task) bool { return true }, mostTold))
}

// showNamed shows the state of what was named.
func (sc *Scene) showNamed(a rdg.Act) (Answer, error) {
	r := sc.asReading(rdg.Act{Batch: a.Batch, Breeder: a.Breeder, Builder: a.Builder, Yard: a.Yard})
	return sc.show(&reading{batch: r.batch, breeder: r.breeder * b2i(r.batch == 0), builder: r.builder, yard: r.yard})
}

// liveBatches shows the batches that a question is about and that are under way, the newest
// last.
func (sc *Scene) liveBatches(a rdg.Act) (Answer, error) {
	var ans Answer
	s, err := sc.scopeOf(a)
	if err != nil {
		return ans, err
	}
	list := sc.model.Batches()
	var fit []rules.Batch
	for _, b := range list {
		if s.batches[b.Number] {
			fit = append(fit, b)
		}
	}
	for _, b := range fit[max(0, len(fit)-2):] {
		if err := ans.take(sc.showBatch(rules.BatchSubject(b.Number))); err != nil {
			return ans, err
		}
		ans.add(sc.share(b, a))
	}
	return ans, nil
}

// share says which part of the cells before came to what was counted, where it is asked for.
func (sc *Scene) share(b rules.Batch, a rdg.Act) Answer {
	var ans Answer
	if a.Value != rdg.ShareAsked {
		return ans
	}
	var before *int
	for _, step := range []rules.Step{rules.Graft, rules.Accept, rules.Capped, rules.Move, rules.Emerge, rules.Laying, rules.Catch} {
		n := b.Counts.Of(step)
		if n == nil {
			continue
		}
		if before != nil && *before > 0 && (a.Step == "" || a.Step == step) {
			ans.say(sc.Voice, "s_percent", "Count", *n, "Of", *before, "Past", sc.Voice.Past(step, n), "Percent", (*n*100+*before/2) / *before)
		}
		before = n
	}
	return ans
}

// altogether sums what is on record of a step, else what is still to be done of it where there
// are several: how many lay is not how many are still to be looked at.
func (sc *Scene) altogether(a rdg.Act) (Answer, error) {
	var ans Answer
	s, err := sc.scopeOf(a)
	if err != nil {
		return ans, err
	}
	told := len(ans.Lines)
	if err := ans.take(sc.soFar(a, s)); err != nil || len(ans.Lines) > told {
		return ans, err
	}
	open := sc.open()
	n, sum := 0, 0
	for _, k := range open {
		if k.Count != nil && k.Step == a.Step && s.holdsTask(k) {
			n, sum = n+1, sum+*k.Count
		}
	}
	if n > 1 {
		ans.say(sc.Voice, "s_altogether", "Step", a.Step, "Count", sum)
	}
	return ans, nil
}

// soFar sums the counts of a step that are on record of the batches that are asked about, of
// all where none is named. Of laying queens those that were caught are told beside.
func (sc *Scene) soFar(a rdg.Act, s scope) (Answer, error) {
	var ans Answer
	list, err := sc.Look.Batches(sc.Crew.ID)
	if err != nil || a.Yard != "" {
		return ans, err
	}
	n, caught := 0, 0
	told := 0
	for _, b := range list {
		if s.named() && !s.batches[b.Number] {
			continue
		}
		if c := b.Counts.Of(a.Step); c != nil {
			n, told = n+*c, told+1
			caught += wording.Deref(b.Counts.Caught)
		}
	}
	switch {
	case told < 2:
	case a.Step == rules.Laying && caught > 0:
		ans.say(sc.Voice, "s_so_far_caught", "Count", n, "Past", sc.Voice.Past(a.Step, &n), "Batches", told, "Caught", caught)
	default:
		ans.say(sc.Voice, "s_so_far", "Count", n, "Past", sc.Voice.Past(a.Step, &n), "Batches", told)
	}
	return ans, nil
}

// lastComb is the comb that came out last.
func lastComb(combs []rules.Comb) (last rules.Comb, ok bool) {
	for _, c := range combs {
		if !c.Out.IsZero() && (!ok || c.Out.After(last.Out)) {
			last, ok = c, true
		}
	}
	return last, ok
}
