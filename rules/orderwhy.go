package rules

import (
	"fmt"
	"slices"
	"sort"
	"time"
)

// lift is one constraint, and how a planner looks without it.
type lift struct {
	kind Kind // NoKind: time
	off  func(p *Planner, j job) (*Planner, job)
	say  func(p *Planner, j job, others []lift) Break
}

// lifts in the order in which they are named: a builder is free again in the week after,
// nucs are not.
var lifts = []lift{
	{YardKind, func(p *Planner, j job) (*Planner, job) { return p.moreNucs(1 << 20), j }, (*Planner).shortNucs},
	{BuilderKind, func(p *Planner, j job) (*Planner, job) { return p.moreBuilders(4 + min(j.o.Want/10, 40)), j }, (*Planner).shortBuilders},
	{BreederKind, func(p *Planner, j job) (*Planner, job) { return p.anyBreeder(), j }, (*Planner).shortBreeders},
	{NoKind, func(p *Planner, j job) (*Planner, job) { return p, j.begun(lookAhead) }, (*Planner).shortTime},
}

// begun is the job as if it had been asked for so many days ago.
func (j job) begun(days int) job {
	j.now = j.now.Add(-time.Duration(days) * 24 * time.Hour)
	return j
}

// why names what an order that does not fit is short of: one constraint if lifting it is
// enough, else the fewest that are. A reason is never one that is true of a single round
// and not of the order.
func (p *Planner) why(j job) []Break {
	for n := 1; n <= len(lifts); n++ {
		for _, set := range choose(lifts, n) {
			k, w := p, j
			for _, l := range set {
				k, w = l.off(k, w)
			}
			if ok, _ := k.fits(w); !ok {
				continue
			}
			var out []Break
			for i, l := range set {
				others := slices.Delete(slices.Clone(set), i, i+1)
				out = append(out, l.say(p, j, others))
			}
			return out
		}
	}
	return nil
}

// choose are the ways to take n of a list, in its order.
func choose(list []lift, n int) (out [][]lift) {
	if n == 0 {
		return [][]lift{nil}
	}
	for i := range list {
		for _, rest := range choose(list[i+1:], n-1) {
			out = append(out, append([]lift{list[i]}, rest...))
		}
	}
	return out
}

func (p *Planner) without(others []lift, j job) (*Planner, job) {
	for _, l := range others {
		p, j = l.off(p, j)
	}
	return p, j
}

// copied is a planner that can be changed; what it worked out is shared.
func (p *Planner) copied() *Planner {
	k := *p
	k.Calendar.Places = slices.Clone(p.Calendar.Places)
	k.Calendar.Uses = slices.Clone(p.Calendar.Uses)
	return &k
}

func (p *Planner) moreNucs(n int) *Planner {
	k := p.copied()
	k.Calendar.Places = append(k.Calendar.Places, Place{Subject: YardSubject("\x00more"), Size: n})
	return k
}

func (p *Planner) moreBuilders(n int) *Planner {
	k := p.copied()
	for i := range n {
		k.Calendar.Places = append([]Place{{Subject: BuilderSubject(fmt.Sprintf("\x00%d", i)), Size: 1, Cells: p.cells()}}, k.Calendar.Places...)
	}
	return k
}

func (p *Planner) anyBreeder() *Planner {
	k := p.copied()
	k.Limits.Breeders = nil
	return k
}

// atLeast is the smallest number from 1 to most for which it fits.
func atLeast(most int, fits func(n int) bool) int {
	return 1 + sort.Search(most-1, func(i int) bool { return fits(i + 1) })
}

// shortNucs says how many nucs are free when it matters and how many are needed.
func (p *Planner) shortNucs(j job, others []lift) Break {
	k, w := p.without(others, j)
	k = k.copied()
	k.brief = true
	more := atLeast(j.o.Want*8+1, func(n int) bool { ok, _ := k.moreNucs(n).fits(w); return ok })
	b := Break{Place: Subject{YardKind, ""}}
	f, _ := k.moreNucs(more).solve(w, []tier{widest})
	if f.schedule == nil || len(f.picks) == 0 {
		return b
	}
	yards := p.names(YardKind)
	if len(yards) == 1 {
		b.Place = yards[0]
	}
	// The day on which the fewest are free while the rounds have their queens in nucs.
	first := true
	for _, x := range f.picks {
		n, at := 0, x.c.times.Move.Best
		for _, y := range yards {
			free, tight := p.Calendar.Free(y, x.c.times.Move.Best, x.c.times.Catch.Best)
			n += free
			at = tight
		}
		if first || n < b.Have {
			b.Have, b.At, first = n, at, false
		}
	}
	b.At = later(b.At, j.now)
	b.Need, b.Day = b.Have+more, DateOf(b.At, p.s.Zone)
	return b
}

// shortBuilders names the builder that still holds other cells where freeing it is enough,
// else how many grafts the builders take in time and how many are needed.
func (p *Planner) shortBuilders(j job, others []lift) Break {
	k, w := p.without(others, j)
	for _, s := range p.names(BuilderKind) {
		free := k.copied()
		free.Calendar.Uses = slices.DeleteFunc(free.Calendar.Uses, func(u Use) bool { return u.Place == s })
		ok, _ := free.fits(w)
		if !ok {
			continue
		}
		f, _ := free.solve(w, []tier{widest})
		for i := len(f.picks) - 1; i >= 0; i-- {
			r := f.picks[i].c.times
			if n, at := p.Calendar.Free(s, builderFrom(r.Graft, p.s), r.Move.Latest); n < 1 {
				at = later(at, j.now)
				return Break{s, DateOf(at, p.s.Zone), at, 0, 1}
			}
		}
	}
	b := Break{Place: Subject{BuilderKind, ""}, Need: 1}
	q := k.searchFor(w, widest)
	picks, _, sizes := q.fullest()
	b.At = j.now
	if len(picks) > 0 {
		b.At = picks[len(picks)-1].c.times.Graft
	}
	b.Day = DateOf(b.At, p.s.Zone)
	for _, s := range sizes {
		b.Have += s.grafts
	}
	// As many bars as it takes with nucs for all of them.
	cells := p.cells()
	bars := func(n int) (list []int) {
		for ; n > 0; n -= cells {
			list = append(list, min(n, cells))
		}
		return list
	}
	top := j.o.Want * 8
	b.Need = max(b.Have+1, 1+sort.Search(top, func(i int) bool { return q.ceiling(bars(i+1), noRoom) >= q.level() }))
	return b
}

// shortBreeders names the first day of the rounds on which no breeder may be confined.
func (p *Planner) shortBreeders(j job, others []lift) Break {
	k, w := p.without(others, j)
	picks, _, _ := k.anyBreeder().searchFor(w, widest).fullest()
	b := Break{Place: Subject{BreederKind, ""}, Need: 1, At: j.now}
	stays := slices.Clone(p.Limits.Stays)
	for i := len(picks) - 1; i >= 0; i-- {
		c := picks[i].c
		if c.comb != nil {
			continue
		}
		n, ok := p.Limits.Rotation.Choose(p.Limits.Breeders, stays, c.times.Confined, c.times.Out)
		if !ok {
			b.At = c.times.Confined
			break
		}
		stays = append(stays, Stay{n, c.times.Confined, c.times.Out})
	}
	b.Day = DateOf(b.At, p.s.Zone)
	return b
}

// shortTime says when the work would have had to begin at the latest.
func (p *Planner) shortTime(j job, others []lift) Break {
	k, w := p.without(others, j)
	k = k.copied()
	k.brief = true
	days := atLeast(lookAhead, func(n int) bool { ok, _ := k.fits(w.begun(n)); return ok })
	f, _ := k.solve(w.begun(days), []tier{widest})
	b := Break{At: j.now}
	if f.schedule != nil && len(f.picks) > 0 {
		b.At = f.start()
	}
	b.Day = DateOf(b.At, p.s.Zone)
	return b
}
