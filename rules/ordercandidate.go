package rules

import (
	"math"
	"slices"
	"time"
)

// CombLeft is a comb that is in or out already and not promised to a planned round.
type CombLeft struct {
	Comb
	Taken int // larvae grafted from it so far
}

// candidate is a round that could be done: at every hour at which she may be confined or a
// comb that is in may be grafted, one.
type candidate struct {
	times  RoundTimes
	comb   *CombLeft // a comb in progress, nil where she has to be confined
	larvae int       // that one comb gives
	cost   float64   // hours away from the ideal, for choosing the hour of a day
	free   uint64    // builders that the calendar leaves free for it
	class  int       // those of a class have the same builders, breeders and nucs
}

// terms say which rounds of the calendar serve: those ready by an instant, and where an
// hour is past or a step has no working time.
type terms struct {
	by      time.Time
	from    time.Time // ready no earlier
	soonest bool      // taken at the earliest end of the catch or move window
	unfit   bool      // rounds with a step outside working hours serve too
	now     time.Time
}

// keeps is until when what is ready keeps where it is.
func (r RoundTimes) keeps(u Unit) time.Time {
	if u == Cells {
		return r.Move.Latest
	}
	return r.Catch.Latest
}

func (r RoundTimes) ready(u Unit, soonest bool) time.Time {
	if soonest {
		return r.Soonest(u)
	}
	return r.Ready(u)
}

// longestRound is more days than any round takes from the confinement to the catch.
const longestRound = 70

// builder is one that a plan may take.
type builder struct {
	name   Subject
	cells  int
	levels []Level
}

// mostBuilders is how many builders a search looks at: they are bits of a word.
const mostBuilders = 60

func (p *Planner) builders() (out []builder) {
	for _, s := range p.names(BuilderKind) {
		if len(out) < mostBuilders {
			out = append(out, builder{s, p.place(s).grafts(), p.Calendar.Levels(s)})
		}
	}
	return out
}

// rounds are all rounds that a day's hours begin, confined on it.
func (f *fitter) rounds(day Date, bees bool, cells int) []candidate {
	key := dayKey{day, bees, cells}
	if list, ok := f.hours[key]; ok {
		return list
	}
	var list []candidate
	if from, to, ok := f.s.workDay(day); ok {
		per := Comb{BeesIn: &bees}
		for t := from; !t.After(to.Add(-startMargin)); t = t.Add(confineGrid) {
			r := f.times(t, bees, cells)
			per.Confined = t
			list = append(list, candidate{times: r, cost: f.cost(r, bees), larvae: per.Larvae(r.Graft)})
		}
	}
	f.hours[key] = list
	return list
}

// grafted is the round of a comb that is in, grafted at an instant.
func (f *fitter) grafted(c Comb, at time.Time, cells int) RoundTimes {
	r := RoundTimes{Confined: c.Confined, Out: c.Out, Graft: at, Cells: cells, Comb: &c}
	if r.Out.IsZero() {
		r.Out = earlier(c.PlannedOut(), at)
	}
	from, to := c.Laying()
	r.Age, _ = GraftAges(from, to, at)
	f.follow(&r)
	f.toCatch(&r)
	return r
}

// fromComb are the hours at which a comb in progress can be grafted.
func (f *fitter) fromComb(c CombLeft, now time.Time, cells int) (out []candidate) {
	a, best, l := GraftWindow(c.Comb, f.s.Table.Row(Graft, ""))
	fit := Task{Step: Graft, Earliest: a, Ideal: best, Latest: l}
	fit.fit(f.s)
	at := []time.Time{fit.Best} // the hour that its own task names
	for d := DateOf(a, f.s.Zone); !DayStart(d, f.s.Zone).After(l); d = d.Add(1) {
		from, to, ok := f.s.workDay(d)
		if !ok {
			continue
		}
		for t := from; !t.After(to.Add(-startMargin)); t = t.Add(confineGrid) {
			if !t.Before(a) && t.Before(l) && !t.Equal(fit.Best) {
				at = append(at, t)
			}
		}
	}
	for _, t := range at {
		left := c.Larvae(t) - c.Taken
		if t.Before(now) || t.After(l) || left <= 0 {
			continue
		}
		r := f.grafted(c.Comb, t, cells)
		if t.Equal(fit.Best) && fit.Unfit {
			r.Unfit = append(r.Unfit, Graft)
		}
		ideal := r.Graft.Add(Hours(f.s.Table.Row(Move, "").Best))
		out = append(out, candidate{times: r, comb: &c, larvae: left, cost: dist(t, best).Hours() + dist(r.Move.Best, ideal).Hours()})
	}
	return out
}

// candidates are all rounds that serve, the latest graft first.
func (q *search) candidates() (out []*candidate) {
	p, f, cells := q.p, q.p.fitter, q.p.cells()
	take := func(c candidate) {
		r := c.times
		at := r.ready(q.o.Unit, q.t.soonest)
		switch {
		case at.After(q.t.by) || at.Before(q.t.from):
			return
		case !q.t.unfit && len(r.Unfit) > 0 && (len(r.Unfit) > 1 || r.Unfit[0] != Catch):
			return
		}
		for i, b := range q.builders {
			if n, _ := p.Calendar.free(b.name, b.levels, builderFrom(r.Graft, p.s), r.Move.Latest); n > 0 && b.cells > 0 {
				c.free |= 1 << i
			}
		}
		if c.free != 0 && c.larvae > 0 {
			out = append(out, &c)
		}
	}
	for _, c := range p.Limits.Combs {
		for _, k := range f.fromComb(c, q.t.now, cells) {
			take(k)
		}
	}
	day := DateOf(q.t.now, p.s.Zone)
	if from := DateOf(q.t.from, p.s.Zone).Add(-longestRound); day.Before(from) {
		day = from
	}
	for last := DateOf(q.t.by, p.s.Zone); !last.Before(day); day = day.Add(1) {
		list := f.rounds(day, p.Limits.BeesIn, cells)
		if len(list) > 0 && list[0].times.ready(q.o.Unit, true).After(q.t.by.Add(4*24*time.Hour)) {
			break // days off shift a round by a day or two, no more
		}
		for _, c := range list {
			if !c.times.Confined.Before(q.t.now) {
				take(c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b *candidate) int { return b.times.Graft.Compare(a.times.Graft) })
	q.classify(out)
	return out
}

// classify gives the rounds that are the same but for their time one number.
func (q *search) classify(list []*candidate) {
	known := map[string]int{}
	for _, c := range list {
		key := make([]byte, 0, 64)
		num := func(n int) { key = append(key, byte(n), byte(n>>8), byte(n>>16), byte(n>>24)) }
		for i := range q.builders {
			num(int(c.free >> i & 1))
		}
		num(c.larvae)
		if c.comb != nil {
			num(int(c.comb.ID))
		} else {
			num(-1)
			for _, n := range q.p.Limits.Breeders {
				against, _ := q.p.Limits.Rotation.Check(q.p.Limits.Stays, n, c.times.Confined, c.times.Out)
				num(len(against))
			}
		}
		if q.o.Unit == Queens {
			for _, y := range q.pool.yards {
				num(q.pool.freeIn(y, c.times.Move.Best, c.times.Catch.Best))
			}
		}
		n, ok := known[string(key)]
		if !ok {
			n = len(known)
			known[string(key)] = n
		}
		c.class = n
	}
}

// hours are those of a round's day that serve as well, the best first.
func (q *search) hours(c *candidate) (out []*candidate) {
	day := DateOf(c.times.Confined, q.p.s.Zone)
	for _, k := range q.list {
		if k.class == c.class && k.comb == nil && DateOf(k.times.Confined, q.p.s.Zone) == day {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b *candidate) int {
		switch {
		case math.Abs(a.cost-b.cost) > 1e-9 && a.cost < b.cost:
			return -1
		case math.Abs(a.cost-b.cost) > 1e-9:
			return 1
		}
		return a.times.Confined.Compare(b.times.Confined)
	})
	return out
}
