package rules

import (
	"cmp"
	"slices"
	"time"
)

// source is cells or queens that an order draws on: a batch as it stands, or one that
// is planned.
type source struct {
	n    int
	from Stage // the first stage still before it, Stages where none is
	room int   // nucs made up for it, noRoom where its yard's free ones bound it
	span Span  // its nucs are taken from Earliest to Latest; zero where it takes none
	skip int   // its first queens are promised to somebody else
	most int   // no more than so many are this order's
}

func (s source) nucs(u Unit) bool {
	return u == Queens && s.from <= StageEmerged && !s.span.Earliest.IsZero()
}

// promise takes a promise off a count: the first skip are another's, no more than most
// are for this order.
func (s source) promise(k int) int { return min(max(k-s.skip, 0), s.most) }

// drawsPerSeason is how often a state of the season is played where nucs are shared, and
// fewestDraws how many draws there are at the least. Every number that a batch uses is
// spread over its law in even steps (a Latin hypercube; McKay, Beckman & Conover 1979,
// Technometrics 21(2):239-245, from memory), so that chances come to within 0.3 points of
// the exact ones, which a test holds against a computation in Python.
const (
	drawsPerSeason = 32
	fewestDraws    = 8192
	roughPerSeason = 3
	fewestRough    = 768
)

// mostExact is how many batches are added up count by count. With more of them it would
// take seconds, and one count more or less means little.
const mostExact = 8

// pooler works out the chance of an order whose batches share nucs. Each batch, in the
// order of their moves, takes of its ripe cells as many as there are nucs free from its
// move to its catch; cells beyond go nowhere.
type pooler struct {
	c     *chain
	u     Unit
	yards []Subject
	cal   Calendar            // of the yards, without what the order itself takes
	level map[Subject][]Level // of cal

	free map[freeKey]int // of a yard over a span
	cap  int             // nucs in all, where no yard is looked at: see ceiling
	work int             // draws made so far, batch by batch
}

type freeKey struct {
	yard     Subject
	from, to int64
}

func newPooler(c *chain, u Unit, cal Calendar) *pooler {
	p := &pooler{c: c, u: u, cap: noRoom, level: map[Subject][]Level{}, free: map[freeKey]int{}}
	seen := map[Subject]bool{}
	for _, b := range cal.Places {
		if b.Subject.Kind == YardKind && !seen[b.Subject] {
			seen[b.Subject] = true
			p.yards = append(p.yards, b.Subject)
		}
	}
	p.cal = cal
	for _, y := range p.yards {
		p.level[y] = cal.Levels(y)
	}
	return p
}

func (p *pooler) freeIn(y Subject, from, to time.Time) int {
	k := freeKey{y, from.UnixMilli(), to.UnixMilli()}
	n, ok := p.free[k]
	if !ok {
		n, _ = p.cal.free(y, p.level[y], from, to)
		p.free[k] = n
	}
	return n
}

// taking is how the nucs of one batch hang on what batches before it took.
type taking struct {
	yards []yardTaking
	most  int // all that is free for it where no other of the order's takes any
}

// yardTaking is a yard cut where batches that were moved before are caught: up to each
// cut free of them hold less than the batch may take, and the batches named are still in.
type yardTaking struct {
	free  []int
	still [][]int
}

func (p *pooler) takings(list []source) (out []taking, alone, ample bool) {
	out, alone, ample = make([]taking, len(list)), true, true
	for j, s := range list {
		if !s.nucs(p.u) {
			continue
		}
		var before []int
		need := p.upperOf(s)
		for i := range j {
			if list[i].nucs(p.u) && list[i].span.Latest.After(s.span.Earliest) {
				before = append(before, i)
				need += p.upperOf(list[i])
			}
		}
		alone = alone && len(before) == 0
		slices.SortStableFunc(before, func(a, b int) int { return list[a].span.Latest.Compare(list[b].span.Latest) })
		for _, y := range p.yards {
			var t yardTaking
			from := s.span.Earliest
			least := noRoom
			for k, i := range before {
				to := earlier(list[i].span.Latest, s.span.Latest)
				if to.After(from) {
					t.free = append(t.free, p.freeIn(y, from, to))
					t.still = append(t.still, before[k:])
					least = min(least, t.free[len(t.free)-1])
				}
				from = later(from, to)
			}
			if s.span.Latest.After(from) {
				t.free = append(t.free, p.freeIn(y, from, s.span.Latest))
				t.still = append(t.still, nil)
				least = min(least, t.free[len(t.free)-1])
			}
			out[j].yards = append(out[j].yards, t)
			out[j].most += least
		}
		ample = ample && need <= out[j].most
	}
	return out, alone, ample
}

// upperOf is what a source has at its move in all but one case of ten thousand.
func (p *pooler) upperOf(s source) int {
	if s.from > StageCapped {
		return min(s.n, s.room)
	}
	return min(s.room, p.c.upper(leg{s.n, noRoom, s.from, StageCapped}, 0.9999))
}

// sum is the chance of each number of cells or queens up to want, the last entry that of
// want or more.
func (p *pooler) sum(list []source, want int) []float64 {
	return p.summed(list, want, max(drawsPerSeason, fewestDraws/len(p.c.points)))
}

// rough is the chance alone, from a few draws where it is drawn: good to three points.
func (p *pooler) rough(list []source, want int) float64 {
	law := p.summed(list, want, max(roughPerSeason, fewestRough/len(p.c.points)))
	return law[len(law)-1]
}

func (p *pooler) summed(list []source, want, per int) []float64 {
	list = slices.Clone(list)
	list = slices.DeleteFunc(list, func(s source) bool { return s.n <= 0 || s.most <= 0 })
	slices.SortStableFunc(list, func(a, b source) int {
		return cmp.Or(a.span.Earliest.Compare(b.span.Earliest), a.span.Latest.Compare(b.span.Latest))
	})
	certain := 0
	rest := list[:0]
	for _, s := range list {
		if s.from > p.u.last() {
			certain += s.promise(s.n)
			continue
		}
		rest = append(rest, s)
	}
	if p.cap < noRoom {
		return p.drawn(rest, nil, certain, want, per)
	}
	takes, alone, ample := p.takings(rest)
	switch {
	case p.u == Cells && len(rest) <= mostExact, (alone || ample) && len(rest) <= mostExact:
		for i, t := range takes {
			if rest[i].nucs(p.u) && !ample {
				rest[i].room = min(rest[i].room, t.most)
			}
		}
		return p.exact(rest, certain, want)
	}
	if ample {
		takes = nil
	}
	// Of many batches one more or less hangs on luck, and all of them on the season.
	if n := len(rest); n > mostExact && len(p.c.points) > 1 {
		per = max(roughPerSeason, min(per, per*mostExact/n))
	}
	return p.drawn(rest, takes, certain, want, per)
}

// exact adds the laws up.
func (p *pooler) exact(list []source, certain, want int) []float64 {
	t := p.c.certain(certain, want)
	for _, s := range list {
		t = t.plus(promised(p.c.law(leg{s.n, s.room, s.from, p.u.last()}), s))
	}
	out := make([]float64, want+1)
	for _, q := range t {
		for k, v := range q {
			out[k] += v / float64(len(t))
		}
	}
	return out
}

// promised is the law of what a source leaves to this order.
func promised(law [][]float64, s source) [][]float64 {
	if s.skip == 0 && s.most >= s.n {
		return law
	}
	out := make([][]float64, len(law))
	for i, q := range law {
		out[i] = make([]float64, min(s.most, max(s.n-s.skip, 0))+1)
		for k, v := range q {
			out[i][s.promise(k)] += v
		}
	}
	return out
}

// drawn plays the season often, each state of it per times.
func (p *pooler) drawn(list []source, takes []taking, certain, want, per int) []float64 {
	draws := len(p.c.points) * per
	p.work += draws * len(list)
	if takes != nil {
		p.work += draws * len(list) * len(list) * len(p.yards) / 16
	}
	hist := make([]float64, want+1)
	took := make([][]int, len(list)) // by batch and yard
	for j := range took {
		took[j] = make([]int, len(p.yards))
	}
	places := p.c.places(Stages*len(list), draws)
	tables := make([][Stages][][]inverse, len(list)) // by batch, stage and count
	for j, s := range list {
		for g := range tables[j] {
			tables[j][g] = p.c.tables(Stage(g), s.n)
		}
	}
	last := p.u.last()
	for d := range draws {
		at := d / per
		got, left := certain, p.cap
		for j := range list {
			s := &list[j]
			n := s.n
			for g := s.from; g <= last && n > 0; g++ {
				if g == StageEmerged || g == s.from && g > StageEmerged {
					n = min(n, s.room)
					if g == StageEmerged && takes != nil && s.nucs(p.u) {
						n = takes[j].fill(took, j, n)
					} else if g == StageEmerged && s.nucs(p.u) {
						n = min(n, left)
						left -= n
					}
					if n == 0 {
						break
					}
				}
				cum := tables[j][g][n]
				if cum == nil {
					cum = p.c.cumulative(g, n)
				}
				u := (float64(places[Stages*j+int(g)][d]) + 0.5) / float64(draws)
				n = cum[at].at(u)
			}
			got += s.promise(n)
		}
		hist[min(got, want)]++
	}
	for k := range hist {
		hist[k] /= float64(draws)
	}
	return hist
}

// inverse finds the count that a chance falls on: the first at which the chances added up
// reach it. guide tells for even steps of the chance where to begin to look.
type inverse struct {
	cum   []float64 // without the last count
	guide [guides]uint16
}

const guides = 32

func (v *inverse) at(u float64) int {
	k := int(v.guide[int(u*guides)])
	for k < len(v.cum) && v.cum[k] < u {
		k++
	}
	return k
}

// fill gives a batch the nucs that are free for its cells, yard by yard.
func (t *taking) fill(took [][]int, j, cells int) int {
	filled := 0
	for y := range t.yards {
		n := min(t.yards[y].left(took, y), cells-filled)
		took[j][y] = n
		filled += n
	}
	return filled
}

// left is how many nucs of the yard are left for a batch.
func (t *yardTaking) left(took [][]int, yard int) int {
	n := noRoom
	for i, f := range t.free {
		for _, b := range t.still[i] {
			f -= took[b][yard]
		}
		n = min(n, f)
	}
	if n == noRoom {
		return 0
	}
	return max(n, 0)
}

// tables are what a stage's counts are drawn from, by how many there were before it.
func (c *chain) tables(g Stage, most int) [][]inverse {
	for len(c.cum[g]) <= most {
		c.cum[g] = append(c.cum[g], nil)
	}
	return c.cum[g]
}

// cumulative is the chance of up to each count but the last, of n at a stage, for each
// point.
func (c *chain) cumulative(g Stage, n int) []inverse {
	list := c.tables(g, n)
	if list[n] == nil {
		out := make([]inverse, len(c.points))
		one := make([]float64, n+1)
		for i, p := range c.points {
			alpha, beta := p[g].shapes()
			betaBinInto(one, alpha, beta)
			v := &out[i]
			v.cum = make([]float64, n)
			sum, at := 0.0, 0
			for k := range v.cum {
				sum += one[k]
				v.cum[k] = sum
				for at < guides && float64(at)/guides <= sum {
					v.guide[at] = uint16(k)
					at++
				}
			}
			for ; at < guides; at++ {
				v.guide[at] = uint16(n)
			}
		}
		list[n] = out
	}
	return list[n]
}

// places are n orders of the draws, the same each time, so that two plans are compared
// over the same seasons.
func (c *chain) places(n, draws int) [][]uint16 {
	for len(c.spread[draws]) < n {
		list := make([]uint16, draws)
		seed := uint64(len(c.spread[draws])) + 1
		for i := range list {
			list[i] = uint16(i)
		}
		for i := draws - 1; i > 0; i-- {
			seed = mixed(seed)
			j := int(seed % uint64(i+1))
			list[i], list[j] = list[j], list[i]
		}
		c.spread[draws] = append(c.spread[draws], list)
	}
	return c.spread[draws]
}

// mixed is the next number of a fixed row that has no order to be seen (splitmix64; Steele,
// Lea & Flood 2014, OOPSLA, from memory): no chance enters, so that the same logbook gives
// the same plan.
func mixed(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// lawMean is the expected number; of a law that ends at want or more it is short of it.
func lawMean(law []float64) float64 {
	var sum float64
	for k, v := range law {
		sum += float64(k) * v
	}
	return sum
}

// lawMost is the largest number that is reached with at least the chance level.
func lawMost(law []float64, level float64) int {
	tail := 0.0
	for k := len(law) - 1; k > 0; k-- {
		if tail += law[k]; tail >= level-1e-12 {
			return k
		}
	}
	return 0
}
