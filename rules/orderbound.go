package rules

import (
	"slices"
	"sort"
	"time"
)

// bounds are the most and the fewest rounds that can do it, ok false where even more than
// there can be would not.
func (q *search) bounds() (most, least int, ok bool) {
	// Each builder alone, as often as it can be taken: no plan has more.
	var sizes []int
	top := 0
	for b := range q.builders {
		var last *candidate
		for _, c := range q.list {
			if c.free>>b&1 == 1 && (last == nil || !q.clash(last, c)) {
				sizes, last = append(sizes, q.builders[b].cells), c
			}
		}
	}
	for _, c := range q.list {
		n := 0
		for b := range q.builders {
			if c.free>>b&1 == 1 {
				n += q.builders[b].cells
			}
		}
		if c.comb != nil {
			n = min(n, c.larvae)
		}
		if q.p.Limits.PerRound > 0 {
			n = min(n, q.p.Limits.PerRound)
		}
		top = max(top, n)
	}
	nucs := noRoom
	if q.o.Unit == Queens {
		nucs = q.nucTurns()
	}
	if len(sizes) == 0 || top == 0 || q.ceiling(sizes, nucs) < q.level()-drawnWide {
		return 0, 0, false
	}
	sort.Sort(sort.Reverse(sort.IntSlice(sizes)))
	grafts := 0
	n := sort.Search(len(sizes), func(i int) bool { return q.ceiling(sizes[:i+1], nucs) >= q.level()-drawnWide })
	for _, v := range sizes[:min(n+1, len(sizes))] {
		grafts += v
	}
	grafts -= sizes[min(n, len(sizes)-1)] - 1
	return len(sizes), max(1, (grafts+top-1)/top), true
}

// drawnWide is how far a drawn chance may lie from the exact one where a bound is held
// against it.
const drawnWide = 0.01

// ceiling is a chance that no plan of batches of these sizes exceeds.
func (q *search) ceiling(sizes []int, nucs int) float64 {
	list := slices.Clone(q.base)
	for i := range list {
		list[i].span = Span{}
	}
	for _, n := range sizes {
		list = append(list, source{n: n, from: StageAccepted, room: noRoom, most: noRoom, span: Span{Earliest: q.t.now, Latest: q.t.now.Add(time.Hour)}})
	}
	k := newPooler(q.p.chain, q.o.Unit, Calendar{})
	if k.cap = min(nucs, noRoom-1); q.o.Unit == Cells {
		k.cap = noRoom
	}
	return q.near(k, list)
}

// nucTurns is how often nucs can be filled at the most: whatever is in a nuc as long as the
// shortest round is there at one of a row of instants no further apart than that.
func (q *search) nucTurns() int {
	first, last := q.list[0].times.Move.Best, q.list[0].times.Move.Best
	stay := q.list[0].times.Catch.Best.Sub(first)
	for _, c := range q.list {
		first, last = earlier(first, c.times.Move.Best), later(last, c.times.Move.Best)
		stay = min(stay, c.times.Catch.Best.Sub(c.times.Move.Best))
	}
	if stay < time.Hour {
		return noRoom
	}
	sum := 0
	for _, y := range q.pool.yards {
		least := noRoom
		for part := 1; part <= 8; part++ {
			n := 0
			for t := first.Add(stay*time.Duration(part)/8 - time.Minute); ; t = t.Add(stay) {
				n += q.pool.freeIn(y, t, t.Add(time.Minute))
				if !t.Before(last) {
					break
				}
			}
			least = min(least, n)
		}
		sum += least
	}
	return min(sum, noRoom)
}
