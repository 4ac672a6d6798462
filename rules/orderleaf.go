package rules

import (
	"cmp"
	"slices"
	"sort"
)

// leaf sizes the batches of a choice of rounds, and keeps the plan if it is the best so
// far.
func (q *search) leaf(picks []chosen, breeders [][]int) {
	q.leaves++
	all := q.limit(picks, breeders, q.shares(picks))
	if len(all) == 0 || !q.does(picks, all) {
		return
	}
	if q.quick {
		q.best = &schedule{}
		return
	}
	// The largest batches, one of each round first: every round is needed, or there
	// would have been a plan with fewer.
	order := q.shares(picks)
	has := map[int]bool{}
	slices.SortStableFunc(order, func(a, b share) int { return cmp.Compare(b.grafts, a.grafts) })
	var first, rest []share
	for _, s := range order {
		if !has[s.pick] {
			has[s.pick] = true
			first = append(first, s)
		} else {
			rest = append(rest, s)
		}
	}
	order = append(first, rest...)
	least := len(first)
	n := least + sort.Search(len(order)-least, func(i int) bool {
		return q.does(picks, q.limit(picks, breeders, order[:least+i]))
	})
	if q.best != nil && n > q.best.batches {
		return
	}
	caps := q.limit(picks, breeders, order[:n])
	total := 0
	for _, c := range caps {
		total += c.grafts
	}
	grafts := len(caps) + sort.Search(total-len(caps), func(i int) bool { return q.does(picks, spreadOver(caps, len(caps)+i)) })
	s := &schedule{picks: slices.Clone(picks), breeders: breeders, batches: n, sizes: spreadOver(caps, grafts), grafts: grafts}
	if !s.better(q.best) {
		return
	}
	s.law = q.law(picks, s.sizes)
	q.best = s
}

// sized is how many grafts a plan's rounds need for another confidence, ok false where they
// do not reach it.
func (q *search) sized(s *schedule, conf float64) (grafts int, ok bool) {
	k := *q
	k.conf, k.best, k.sums = conf, nil, map[string]bool{}
	if k.leaf(s.picks, s.breeders); k.best == nil {
		return 0, false
	}
	return k.best.grafts, true
}

// spreadOver gives so many grafts to batches as evenly as their builders allow: batches
// fail apart, so that even ones are the surest.
func spreadOver(caps []share, grafts int) []share {
	out := slices.Clone(caps)
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(caps[a].grafts, caps[b].grafts) })
	left := grafts
	for i, k := range order {
		out[k].grafts = min(caps[k].grafts, left/(len(order)-i))
		left -= out[k].grafts
	}
	for k := range out { // what was cut off by whole numbers
		if left > 0 && out[k].grafts < caps[k].grafts {
			out[k].grafts++
			left--
		}
	}
	return out
}

// assign finds breeders for the rounds, nil where none is to be confined. Of rounds that
// more than one comb serves each gets as many as there are; ok is false where one gets none.
func (q *search) assign(picks []chosen) (out [][]int, ok bool) {
	out = make([][]int, len(picks))
	if len(q.p.Limits.Breeders) == 0 {
		return out, true
	}
	steps := 0
	var place func(i int, stays []Stay) bool
	place = func(i int, stays []Stay) bool {
		if steps++; steps > 500 {
			q.partial = true
			return false
		}
		if i < 0 {
			return true
		}
		c := picks[i].c
		if c.comb != nil {
			return place(i-1, stays)
		}
		want := 0
		for b := range q.builders {
			if picks[i].use>>b&1 == 1 {
				want += q.builders[b].cells
			}
		}
		if q.p.Limits.PerRound > 0 {
			want = min(want, q.p.Limits.PerRound)
		}
		want = (want + c.larvae - 1) / c.larvae
		list := q.p.Limits.Rotation.rank(q.p.Limits.Breeders, stays, c.times.Confined, c.times.Out)
		for n := min(want, len(list)); n > 0; n-- {
			for at := 0; at+n <= len(list); at++ {
				now := stays[:len(stays):len(stays)]
				for _, b := range list[at : at+n] {
					now = append(now, Stay{b, c.times.Confined, c.times.Out})
				}
				if place(i-1, now) {
					out[i] = slices.Clone(list[at : at+n])
					return true
				}
			}
			q.partial = q.partial || n > 1
		}
		return false
	}
	return out, place(len(picks)-1, q.p.Limits.Stays)
}

// polish moves each round to the best hour of its day that serves as well.
func (q *search) polish() {
	s := q.best
	for i := range s.picks {
		for _, c := range q.hours(s.picks[i].c) {
			if c == s.picks[i].c {
				break
			}
			try := slices.Clone(s.picks)
			try[i].c = c
			if !q.stands(try) {
				continue
			}
			breeders, ok := q.assign(try)
			if !ok {
				continue
			}
			if law := q.law(try, s.sizes); law[len(law)-1] >= q.level() && q.fed(try, breeders, s.sizes) {
				s.picks, s.breeders, s.law = try, breeders, law
				break
			}
		}
	}
}

// stands reports that no builder is taken twice.
func (q *search) stands(picks []chosen) bool {
	for i, a := range picks {
		if a.use&^a.c.free != 0 {
			return false
		}
		for _, b := range picks[:i] {
			if a.use&b.use != 0 && q.clash(a.c, b.c) {
				return false
			}
		}
	}
	return true
}

// fed reports that the larvae are enough.
func (q *search) fed(picks []chosen, breeders [][]int, sizes []share) bool {
	left := make([]int, len(picks))
	for i, k := range picks {
		left[i] = q.larvae(k, breeders[i])
	}
	for _, s := range sizes {
		if left[s.pick] -= s.grafts; left[s.pick] < 0 {
			return false
		}
	}
	return true
}
