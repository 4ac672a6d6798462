package rules

import (
	"math"
	"time"
)

// RoundTimes is one round seen from its confinement, as the planner will have it
// once the crew logs the round at its best times: a comb in for PlannedStay,
// grafted at the best working time, cells moved and queens caught likewise.
type RoundTimes struct {
	Confined time.Time
	Out      time.Time // comb out, best time
	Graft    time.Time // best time
	Age      AgeSpan   // of the larvae then
	Cells    int       // for which the move is safe
	Move     Span
	Emerges  time.Time
	Catch    Span
	Unfit    []Step // steps without working time in their window
	Comb     *Comb  // the real comb, where there is one: what was seen on it, when it came out
}

// comb is the comb of the round: the real one, else the planned.
func (r RoundTimes) comb(breeder int, bees bool) Comb {
	if r.Comb != nil {
		return *r.Comb
	}
	return Comb{Breeder: breeder, Confined: r.Confined, BeesIn: &bees}
}

// Span is a window with its best time.
type Span struct{ Earliest, Best, Latest time.Time }

// Ready is when the round's cells or queens can be handed over.
func (r RoundTimes) Ready(u Unit) time.Time {
	if u == Cells {
		return r.Move.Best
	}
	return r.Catch.Best
}

// Soonest is the earliest instant at which they can be.
func (r RoundTimes) Soonest(u Unit) time.Time {
	if u == Cells {
		return r.Move.Earliest
	}
	return r.Catch.Earliest
}

// fitter works out rounds. It remembers when batches stop being safe, which
// depends on the ages of the larvae and not on the day. Not for several
// goroutines at once.
type fitter struct {
	s     *Settings
	day   map[dayKey]dayFit
	hours map[dayKey][]candidate
}

type dayKey struct {
	day   Date
	bees  bool
	cells int
}

type dayFit struct {
	r  RoundTimes
	ok bool
}

func newFitter(s *Settings) *fitter {
	return &fitter{s, map[dayKey]dayFit{}, map[dayKey][]candidate{}}
}

// times works out the round of a confinement. bees: shaken in beside her.
func (f *fitter) times(confined time.Time, bees bool, cells int) RoundTimes {
	r := f.toMove(confined, bees, cells)
	f.toCatch(&r)
	return r
}

// toMove is times without the catch, whose window of weeks costs most to fit.
func (f *fitter) toMove(confined time.Time, bees bool, cells int) RoundTimes {
	s := f.s
	c := Comb{Confined: confined, BeesIn: &bees}
	r := RoundTimes{Confined: confined, Cells: cells}
	a, b, l := s.Table.Row(CombOut, "").Window(c.PlannedOut().Add(-Hours(PlannedStay)))
	r.Out = r.fit(CombOut, a, b, l, s).Best
	a, b, l = GraftWindow(c, s.Table.Row(Graft, ""))
	r.Graft = r.fit(Graft, a, b, l, s).Best
	from, to := c.Laying()
	r.Age, _ = GraftAges(from, to, r.Graft)
	f.follow(&r)
	return r
}

// fit sets a step's best time into working hours and notes where it cannot.
func (r *RoundTimes) fit(step Step, earliest, best, latest time.Time, s *Settings) Span {
	t := Task{Step: step, Earliest: earliest, Ideal: best, Latest: latest}
	t.fit(s)
	if t.Unfit {
		r.Unfit = append(r.Unfit, step)
	}
	return Span{t.Earliest, t.Best, t.Latest}
}

// follow fills in what comes between the graft and the nucs.
func (f *fitter) follow(r *RoundTimes) {
	s := f.s
	em := Emergence{r.Graft, r.Age, max(r.Cells, 1), IncubatorShift(r.Graft, r.Age, s.Incubator, TempFrom.warm), s.SigmaBatch, s.SigmaCell, nil}
	a, b, l := MoveWindow(em, s.Table.Row(Move, ""), s.MoveAt)
	r.Move = r.fit(Move, a, b, l, s)
	r.Emerges = em.Middle().Round(time.Hour).UTC()
}

func (f *fitter) toCatch(r *RoundTimes) {
	a, b, l := f.s.Table.Row(Catch, "").Window(r.Emerges)
	r.Catch = r.fit(Catch, a, b, l, f.s)
}

// RoundFrom is the round that a confinement begins: all its times, and which of
// its steps have no working time. cells is the number of grafts it is for, 0 for
// UnknownCells; bees says whether bees are shaken in beside her.
func RoundFrom(confined time.Time, bees bool, cells int, s *Settings) RoundTimes {
	if cells <= 0 {
		cells = UnknownCells
	}
	return newFitter(s).times(confined, bees, cells)
}

// FitConfine is the round of the hour of day on which to confine so that comb,
// graft and move fall in working hours and off the days off, as near to their
// ideal times as can be. ok is false where the day is a day off or no hour of it
// makes all of them fit; the least bad round is given then, zero on a day off.
func FitConfine(day Date, bees bool, cells int, s *Settings) (r RoundTimes, ok bool) {
	if cells <= 0 {
		cells = UnknownCells
	}
	return newFitter(s).on(day, bees, cells)
}

// confineGrid is how finely hours are tried.
const confineGrid = time.Hour

func (f *fitter) on(day Date, bees bool, cells int) (RoundTimes, bool) {
	key := dayKey{day, bees, cells}
	if d, ok := f.day[key]; ok {
		return d.r, d.ok
	}
	var d dayFit
	cost := math.Inf(1)
	if from, to, ok := f.s.workDay(day); ok {
		for t := from; !t.After(to.Add(-startMargin)); t = t.Add(confineGrid) {
			r := f.toMove(t, bees, cells)
			if c := f.cost(r, bees); c < cost {
				cost, d = c, dayFit{r, c < unfitCost}
			}
		}
	}
	if !d.r.Confined.IsZero() {
		f.toCatch(&d.r)
	}
	f.day[key] = d
	return d.r, d.ok
}

// unfitCost outweighs any number of hours away from the ideal.
const unfitCost = 1e4

// cost of a round: hours that graft and move lie away from their ideal times,
// and a great deal for each of comb, graft and move that has no working time. Of
// equals the earliest hour is taken, which leaves most of the day for a late start.
func (f *fitter) cost(r RoundTimes, bees bool) float64 {
	var sum float64
	for _, step := range r.Unfit {
		if step == CombOut || step == Graft || step == Move {
			sum += unfitCost
		}
	}
	_, graft, _ := GraftWindow(Comb{Confined: r.Confined, BeesIn: &bees}, f.s.Table.Row(Graft, ""))
	sum += dist(r.Graft, graft).Hours()
	ideal := r.Graft.Add(Hours(f.s.Table.Row(Move, "").Best))
	if f.s.MoveAt > 0 {
		ideal = r.Graft.Add(f.s.MoveAt)
	}
	return sum + dist(r.Move.Best, ideal).Hours()
}

// Tasks are the round's windows, made by the same planner that will make them
// once the lines are in the logbook. The batch is number 0 until it is grafted.
func (r RoundTimes) Tasks(breeder int, bees bool, cells int, s *Settings) []Task {
	if cells <= 0 {
		cells = r.Cells
	}
	row := s.Table.Row(Confine, "")
	k := Task{Subject: BreederSubject(breeder), State: Open, Reason: "planned", Anchor: r.Confined, Breeder: breeder}.with(row)
	k.Earliest, k.Ideal, k.Latest = r.Graft.Add(Hours(row.Earliest)), r.Confined, r.Graft.Add(Hours(row.Latest))
	k.Earliest, k.Latest = earlier(k.Earliest, k.Ideal), later(k.Latest, k.Ideal)
	k.fit(s)
	tasks := combTasks([]Task{k}, r.comb(breeder, bees), nil, s)
	for i := range tasks {
		if tasks[i].Step == Graft {
			tasks[i].Best = r.Graft
		}
	}
	b := Batch{Breeder: breeder, Grafted: r.Graft, Age: r.Age}
	b.Counts.Grafted = &cells
	b.foresee(s, nil, nil)
	return append(append(tasks, BatchTasks(b, nil, s)...), LooseRogue(b, nil, s))
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// Change is a window as it was and as it would be.
type Change struct {
	Step     Step
	Occ      string
	Was, Now Task
}

// Shift is how far something is moved: whole days by the calendar, then hours.
type Shift struct {
	Days  int
	Hours time.Duration
}

// Apply moves an instant. Days keep the wall-clock time, so that a week over a
// change of clocks is still the same hour.
func (h Shift) Apply(t time.Time, zone *time.Location) time.Time {
	if h.Days != 0 {
		off := t.Sub(t.Truncate(time.Minute))
		t = At(DateOf(t, zone).Add(h.Days), ClockOf(t, zone), zone).Add(off)
	}
	return t.Add(h.Hours)
}

// WhatIf is what would change if a step of a planned round came earlier or
// later: the confinement, or the graft from the same comb. Only windows that
// change are given, in the order of the round; the step that is moved comes
// first. A graft moved to before there are larvae changes nothing and ok is false.
func WhatIf(r RoundTimes, breeder int, bees bool, step Step, by Shift, s *Settings) (now RoundTimes, changed []Change, ok bool) {
	f := newFitter(s)
	switch step {
	case Confine:
		now = f.times(by.Apply(r.Confined, s.Zone), bees, r.Cells)
	case Graft:
		now = r
		now.Graft = by.Apply(r.Graft, s.Zone)
		from, to := r.comb(breeder, bees).Laying()
		now.Age, ok = GraftAges(from, to, now.Graft)
		if !ok {
			return r, nil, false
		}
		now.Unfit = nil
		f.follow(&now)
		f.toCatch(&now)
	default:
		return r, nil, false
	}
	was, is := r.Tasks(breeder, bees, r.Cells, s), now.Tasks(breeder, bees, r.Cells, s)
	for _, b := range is {
		for _, a := range was {
			if step == Graft && a.Step == Confine {
				continue // its window is counted back from the graft, but she was confined when she was
			}
			if a.Step != b.Step || a.Occ != b.Occ || a.Subject != b.Subject {
				continue
			}
			if !a.Earliest.Equal(b.Earliest) || !a.Best.Equal(b.Best) || !a.Latest.Equal(b.Latest) || a.Unfit != b.Unfit {
				changed = append(changed, Change{b.Step, b.Occ, a, b})
			}
		}
	}
	return now, changed, true
}
