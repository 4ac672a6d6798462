package bot

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
func (t *talk) scopeOf(a rdg.Act) (scope, error) {
	s := scope{act: a, batches: map[int]bool{}}
	list, err := t.tx.Batches(t.crew.ID)
	if err != nil {
		return s, err
	}
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
func (t *talk) told(s scope, most int) ([]rules.Entry, error) {
	book, err := t.tx.Logbook(t.crew.ID)
	if err != nil {
		return nil, err
	}
	var all, day []rules.Entry
	for i := len(book) - 1; i >= 0; i-- {
		l := book[i]
		if len(day) == most || len(all) >= most && !t.maybeOnDay(l.Entry, s.act.When) {
			break // what is asked for lies behind
		}
		if l.Action != rules.Did || s.act.Step != "" && l.Step != s.act.Step {
			continue
		}
		cur, ok, err := t.current(l)
		if err != nil {
			return nil, err
		}
		if !ok || !s.holdsLine(cur.Entry) {
			continue
		}
		all = append(all, cur.Entry)
		if t.onDay(cur.Entry, s.act.When) {
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
func (t *talk) onDay(e rules.Entry, w *rdg.When) bool {
	return w != nil && w.Day != nil && *w.Day <= 0 && rules.DateOf(e.Happened, t.s.Zone) == rules.DateOf(t.tx.Now, t.s.Zone).Add(*w.Day)
}

// maybeOnDay reports whether a line, or one that was told before it, may be of a day that was
// named: nothing happens after it is told.
func (t *talk) maybeOnDay(e rules.Entry, w *rdg.When) bool {
	return w != nil && w.Day != nil && *w.Day <= 0 && !rules.DateOf(e.Said, t.s.Zone).Before(rules.DateOf(t.tx.Now, t.s.Zone).Add(*w.Day))
}

// tellOf answers a question about work: what the log holds of it, who did it, and what is due.
// Where it holds nothing of that, what is nearest is told: the subject, what is under way,
// what comes next.
func (t *talk) tellOf(a rdg.Act) error {
	s, err := t.scopeOf(a)
	if err != nil {
		return err
	}
	if err := t.tellTold(s); err != nil {
		return err
	}
	n := len(t.lines)
	if err := t.next(s.holdsTask, mostTold); err != nil {
		return err
	}
	if len(t.lines) > n+1 {
		return nil
	}
	if t.lines = t.lines[:n]; n > 0 && (!s.named() || a.Topic != rdg.AskWhen) {
		return nil
	}
	return t.nearest(a)
}

// tellTold shows the newest lines of the log that a question is about.
func (t *talk) tellTold(s scope) error {
	lines, err := t.told(s, mostLogged)
	for _, e := range lines {
		t.say("s_log_line", "When", e.Happened, "By", e.By, "What", t.v.Line(e))
	}
	return err
}

// nearest tells of the subject that was named, else of what is under way, else what comes
// next of all.
func (t *talk) nearest(a rdg.Act) error {
	if a.Batch != 0 || a.Breeder != 0 || a.Builder != "" || a.Yard != "" {
		return t.showNamed(a)
	}
	n := len(t.lines)
	if err := t.liveBatches(a); err != nil || len(t.lines) > n {
		return err
	}
	return t.next(func(rules.Task) bool { return true }, mostTold)
}

// showNamed shows the state of what was named.
func (t *talk) showNamed(a rdg.Act) error {
	r := t.asReading(rdg.Act{Batch: a.Batch, Breeder: a.Breeder, Builder: a.Builder, Yard: a.Yard})
	return t.show(&reading{batch: r.batch, breeder: r.breeder * b2i(r.batch == 0), builder: r.builder, yard: r.yard})
}

// liveBatches shows the batches that a question is about and that are under way, the newest
// last.
func (t *talk) liveBatches(a rdg.Act) error {
	s, err := t.scopeOf(a)
	if err != nil {
		return err
	}
	list, err := t.tx.Batches(t.crew.ID)
	if err != nil {
		return err
	}
	var fit []rules.Batch
	for _, b := range list {
		if s.batches[b.Number] {
			fit = append(fit, b)
		}
	}
	for _, b := range fit[max(0, len(fit)-2):] {
		if err := t.showBatch(rules.BatchSubject(b.Number)); err != nil {
			return err
		}
		t.share(b, a)
	}
	return nil
}

// share says which part of the cells before came to what was counted, where it is asked for.
func (t *talk) share(b rules.Batch, a rdg.Act) {
	if a.Value != rdg.ShareAsked {
		return
	}
	var before *int
	for _, step := range []rules.Step{rules.Graft, rules.Accept, rules.Capped, rules.Move, rules.Emerge, rules.Laying, rules.Catch} {
		n := b.Counts.Of(step)
		if n == nil {
			continue
		}
		if before != nil && *before > 0 && (a.Step == "" || a.Step == step) {
			t.say("s_percent", "Count", *n, "Of", *before, "Past", t.v.Past(step, n), "Percent", (*n*100+*before/2) / *before)
		}
		before = n
	}
}

// altogether sums what is on record of a step, else what is still to be done of it where there
// are several: how many lay is not how many are still to be looked at.
func (t *talk) altogether(a rdg.Act) error {
	s, err := t.scopeOf(a)
	if err != nil {
		return err
	}
	told := len(t.lines)
	if err := t.soFar(a, s); err != nil || len(t.lines) > told {
		return err
	}
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	n, sum := 0, 0
	for _, k := range open {
		if k.Count != nil && k.Step == a.Step && s.holdsTask(k) {
			n, sum = n+1, sum+*k.Count
		}
	}
	if n > 1 {
		t.say("s_altogether", "Step", a.Step, "Count", sum)
	}
	return nil
}

// soFar sums the counts of a step that are on record of the batches that are asked about, of
// all where none is named. Of laying queens those that were caught are told beside.
func (t *talk) soFar(a rdg.Act, s scope) error {
	list, err := t.tx.Batches(t.crew.ID)
	if err != nil || a.Yard != "" {
		return err
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
		t.say("s_so_far_caught", "Count", n, "Past", t.v.Past(a.Step, &n), "Batches", told, "Caught", caught)
	default:
		t.say("s_so_far", "Count", n, "Past", t.v.Past(a.Step, &n), "Batches", told)
	}
	return nil
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
