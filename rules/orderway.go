package rules

import (
	"slices"
	"time"
)

// forgotten is how long after its catch a batch still counts as standing where nobody said
// what became of it. Our choice: three weeks after the last day the queens are seldom where
// the log has them.
const forgotten = 3 * week

// WayOf is what of the crew's batches no order has: those in theirs are the batches of
// running orders' own rounds, promised what running orders were promised of others.
func WayOf(batches []Batch, theirs map[int]bool, promised []Promise, s *Settings, now time.Time) (out []OnTheWay) {
	for _, b := range batches {
		p, counted := PartOf(b)
		if !counted || b.Ended || theirs[b.Number] || p.Count <= 0 {
			continue
		}
		w := OnTheWay{Part: p}
		gone := 0
		if c := b.Counts.Caught; c != nil {
			gone = *c // what was caught may be with a customer
		}
		var taken []Promise
		for _, k := range promised {
			if k.Batch == b.Number {
				taken = append(taken, k)
			}
		}
		var n int
		w.After, n = widestGap(p.Count, gone, taken)
		if n <= 0 {
			continue
		}
		w.Most = n
		w.Span = b.nucsWhile(s)
		w.Move = s.windowOf(Move, b.Grafted)
		w.Catch = s.windowOf(Catch, b.Emerges)
		if now.After(w.Catch.Latest.Add(forgotten)) {
			continue
		}
		out = append(out, w)
	}
	return out
}

// windowOf is a step's window with its best time in working hours.
func (s *Settings) windowOf(step Step, anchor time.Time) Span {
	t := Task{Step: step}
	t.Earliest, t.Ideal, t.Latest = s.Table.Row(step, "").Window(anchor)
	t.fit(s)
	return Span{t.Earliest, t.Best, t.Latest}
}

// widestGap is the longest run of a batch's queens, after the first gone, that nobody was
// promised.
func widestGap(count, gone int, taken []Promise) (after, n int) {
	taken = slices.Clone(taken)
	slices.SortFunc(taken, func(a, b Promise) int { return a.After - b.After })
	at := gone
	for _, k := range append(taken, Promise{After: count}) {
		if k.After-at > n {
			after, n = at, k.After-at
		}
		at = max(at, k.After+k.N)
	}
	return after, n
}

// PromisedParts are the parts of an order that batches on the way were promised to it.
func PromisedParts(b Booked, batches []Batch, s *Settings) (out []Part) {
	for _, k := range b.Batches {
		i := slices.IndexFunc(batches, func(x Batch) bool { return x.Number == k.Batch })
		if i < 0 {
			continue
		}
		if p, ok := PartOf(batches[i]); ok {
			p.After, p.Most, p.Span = k.After, k.N, batches[i].nucsWhile(s)
			out = append(out, p)
		}
	}
	return out
}
