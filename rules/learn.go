package rules

import (
	"cmp"
	"slices"
	"sort"
	"time"
)

// taught is what a look that teaches adds to what is known of the crew's mean.
type taught struct {
	at    time.Time
	batch int
	line  int64
	log   []float64 // of the likelihood at each shift, given the looks at the batch before
}

// seen is what was seen of one batch.
type seen struct {
	of     Emergence // by the books
	looks  []Look
	taught []taught
	given  []float64 // likelihood of all looks by how late the batch is
}

// sight is what was seen of a batch; nil where no look at it teaches anything, which is so of
// nearly all batches, and costs nothing more.
func sight(b Batch, entries []Entry, s *Settings) *seen {
	v := &seen{of: b.hatching(s), looks: LooksOf(b, entries)}
	none := b.Ended && b.Counts.Emerged != nil && *b.Counts.Emerged == 0
	if none || !slices.ContainsFunc(v.looks, func(l Look) bool { return l.teaches(v.of) }) {
		return nil
	}
	return v
}

// weigh works out what was seen tells. Looks that teach nothing by themselves count from the
// next one that does.
func (v *seen) weigh(batch int, g *shiftGrid) {
	was := make([]float64, shiftPoints)
	for i, l := range v.looks {
		if !l.teaches(v.of) {
			continue
		}
		v.given = g.given(v.of, v.looks[:i+1])
		now := g.tells(v.given)
		t := taught{at: l.At, batch: batch, line: l.Line, log: make([]float64, shiftPoints)}
		for k := range now {
			t.log[k] = now[k] - was[k]
		}
		was = now
		v.taught = append(v.taught, t)
	}
}

// same reports whether a batch was seen as before.
func (v *seen) same(w *seen) bool {
	if v == nil || w == nil {
		return v == w
	}
	return v.of == w.of && slices.Equal(v.looks, w.looks)
}

// learning is all that a crew's looks tell, in the order of their time. It is replaced, never
// written into: copies of a crew share it.
type learning struct {
	grid  *shiftGrid
	looks []taught
	sums  [][]float64 // sums[i] is the logarithm of the likelihood of looks[:i]
}

// learningOf puts the looks at batches in order.
func learningOf(g *shiftGrid, batches map[int]*seen) *learning {
	l := &learning{grid: g, sums: [][]float64{make([]float64, shiftPoints)}}
	for _, v := range batches {
		l.looks = append(l.looks, v.taught...)
	}
	slices.SortFunc(l.looks, func(a, b taught) int {
		return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.batch, b.batch), cmp.Compare(a.line, b.line))
	})
	for i, t := range l.looks {
		sum := slices.Clone(l.sums[i])
		for k, v := range t.log {
			sum[k] += v
		}
		l.sums = append(l.sums, sum)
	}
	return l
}

// by is what was learnt by a time from the looks at other batches than one; nil where none
// of them teaches, and the books hold as they stand.
func (l *learning) by(at time.Time, but int) *Learnt {
	if l == nil || len(l.looks) == 0 {
		return nil
	}
	after := func(t time.Time) int {
		return sort.Search(len(l.looks), func(i int) bool { return l.looks[i].at.After(t) })
	}
	from, to := after(at.Add(-LookMemory)), after(at)
	log, n := make([]float64, shiftPoints), to-from
	for k := range log {
		log[k] = l.sums[to][k] - l.sums[from][k]
	}
	for _, t := range l.looks[from:to] {
		if t.batch != but {
			continue
		}
		n--
		for k, v := range t.log {
			log[k] -= v
		}
	}
	if n <= 0 {
		return nil
	}
	return l.grid.learn(log, n)
}

// Learnt is what all looks of the season tell of when the crew's cells come out, nil where
// none teaches.
func (c *Crew) Learnt() *Learnt {
	if c.learning == nil || len(c.learning.looks) == 0 {
		return nil
	}
	return c.learning.by(c.learning.looks[len(c.learning.looks)-1].at, 0)
}

// learnsUntil is until when looks at other batches count for a batch: its cells' move, or the
// last hour at which they may. After that nothing moves its windows but what is seen of it,
// so that nothing long closed is opened again.
func (b Batch) learnsUntil(s *Settings) time.Time {
	last := b.Grafted.Add(Hours(s.Table.Row(Move, "").Latest))
	if !b.Moved.IsZero() && b.Moved.Before(last) {
		return b.Moved
	}
	return last
}

// look has what was seen of a batch read again, before any batch is planned.
func (p *settling) look(s Subject) {
	c, n := p.c, s.Number()
	entries := c.withNucs(n, p.effective(s))
	var now *seen
	if slices.ContainsFunc(entries, func(e Entry) bool { return e.Action == Did && (e.Step == Emerge || e.Step == Virgin) }) {
		if b, exists := batchOf(n, entries, c.combsOf(entries), c.incubators, c.settings, nil, nil); exists {
			if now = sight(b, entries, c.settings); now == nil {
				p.plain[n] = b
			}
		}
	}
	old := c.seen[n]
	if now.same(old) {
		return
	}
	p.note(old)
	if p.note(now); now == nil {
		delete(c.seen, n)
		return
	}
	if p.grid == nil {
		if p.grid = c.learning.grid; p.grid == nil || p.grid.batch != c.settings.SigmaBatch || p.grid.cell != c.settings.SigmaCell {
			p.grid = newShiftGrid(c.settings.SigmaBatch, c.settings.SigmaCell)
		}
	}
	now.weigh(n, p.grid)
	c.seen[n] = now
}

// note keeps since when what was seen is not as it was.
func (p *settling) note(v *seen) {
	if v != nil && (p.since.IsZero() || v.looks[0].At.Before(p.since)) {
		p.since = v.looks[0].At
	}
}

// learn puts together what all looks tell, and has those batches planned again for which
// that makes a difference.
func (p *settling) learn() {
	if p.since.IsZero() {
		return
	}
	c, since := p.c, p.since
	p.since = time.Time{}
	if p.grid == nil {
		p.grid = c.learning.grid
	}
	c.learning = learningOf(p.grid, c.seen)
	for _, b := range c.Batches() {
		until := b.learnsUntil(c.settings)
		if !until.Before(since) && until.Before(since.Add(2*LookMemory)) && !c.learning.by(until, b.Number).same(b.Learnt) {
			p.add(BatchSubject(b.Number))
		}
	}
}

// same reports whether as much is known.
func (l *Learnt) same(o *Learnt) bool {
	if l == nil || o == nil {
		return l == o
	}
	return l.Looks == o.Looks && slices.Equal(l.chance, o.chance)
}
