package rules

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
	"sort"
	"time"
)

// The search goes as far as these, all together about a second. Past them it has not
// looked at everything, and says so.
const (
	mostNodes  = 4_000
	mostLeaves = 100        // plans of the fewest rounds that are compared
	mostDraws  = 8_000_000  // batches drawn for one question, and
	allDraws   = 16_000_000 // for all that one plan asks
)

// mostChosen is how many rounds are chosen one by one. Where more are needed they are as
// many as there can be, from the latest back.
const mostChosen = 10

// search looks for the rounds of an order. It is complete: what it says does not fit, no
// choice of rounds, builders and breeders would make fit, unless partial is set.
//
// Rounds are chosen from the latest to the earliest. Of the rounds that are free for the
// same builders, breeders and nucs only the latest is tried: putting a round later leaves
// whatever is before it more room and takes nothing from what is after, which the classes
// and the overlaps in the key see to. Without that there would be thousands of hours to
// choose each round from.
type search struct {
	p        *Planner
	o        Order
	t        terms
	base     []source // what the order has already
	conf     float64
	builders []builder
	pool     *pooler
	list     []*candidate

	quick         bool // only whether anything does
	nodes, leaves int
	partial       bool
	best          *schedule
	sums          map[string]bool
}

// chosen is a round taken up into a plan, with the builders it uses.
type chosen struct {
	c   *candidate
	use uint64
}

// schedule is a plan found: its rounds from the latest to the earliest, the grafts of each
// builder, and the breeders.
type schedule struct {
	picks    []chosen
	sizes    []share
	breeders [][]int
	law      []float64
	batches  int
	grafts   int
}

// share is one builder's part of a round.
type share struct{ pick, builder, grafts int }

func (s *schedule) start() time.Time {
	at := s.picks[0].c.begins()
	for _, k := range s.picks {
		at = earlier(at, k.c.begins())
	}
	return at
}

// begins is when the first work on a round is.
func (c *candidate) begins() time.Time {
	if c.comb != nil {
		return c.times.Graft
	}
	return c.times.Confined
}

// better: fewest rounds, then fewest builders, which the next order may need, then fewest
// grafts, then the latest start.
func (s *schedule) better(than *schedule) bool {
	if than == nil {
		return true
	}
	return cmp.Or(cmp.Compare(len(s.picks), len(than.picks)), cmp.Compare(s.batches, than.batches),
		cmp.Compare(s.grafts, than.grafts), than.start().Compare(s.start())) < 0
}

// clash reports that two rounds cannot have the same builder.
func (q *search) clash(a, b *candidate) bool {
	from, to := builderFrom(a.times.Graft, q.p.s), a.times.Move.Latest
	return from.Before(b.times.Move.Latest) && builderFrom(b.times.Graft, q.p.s).Before(to)
}

func shareNucs(a, b *candidate) bool {
	return a.times.Move.Best.Before(b.times.Catch.Best) && b.times.Move.Best.Before(a.times.Catch.Best)
}

// open are the builders that the rounds taken up leave for another.
func (q *search) open(picks []chosen, c *candidate) uint64 {
	free := c.free
	for _, k := range picks {
		if free&k.use != 0 && q.clash(k.c, c) {
			free &^= k.use
		}
	}
	return free
}

// sources are the parts of the plan with so many grafts each.
func (q *search) sources(picks []chosen, sizes []share) []source {
	out := slices.Clone(q.base)
	for _, s := range sizes {
		r := picks[s.pick].c.times
		k := source{n: s.grafts, from: StageAccepted, room: noRoom, most: noRoom}
		if q.o.Unit == Queens {
			k.span = Span{Earliest: r.Move.Best, Latest: r.Catch.Best}
		}
		out = append(out, k)
	}
	return out
}

func (q *search) law(picks []chosen, sizes []share) []float64 {
	return q.pool.sum(q.sources(picks, sizes), max(q.o.Want, 0))
}

// rough is how near the level a chance from few draws has to be for more to be drawn.
const rough = 0.04

// fewBatches is how many batches a plan may have for its chance to be drawn again, more
// often: with more of them a point or two is neither here nor there.
const fewBatches = 24

// does reports whether a plan reaches the level, remembered by what that hangs on.
func (q *search) does(picks []chosen, sizes []share) bool {
	key := make([]byte, 0, 8*len(sizes))
	for _, s := range sizes {
		key = append(key, byte(s.grafts), byte(s.grafts>>8))
		if q.o.Unit == Queens {
			k := picks[s.pick].c
			m := k.times.Move.Best.Unix() / 60
			c := k.times.Catch.Best.Unix() / 60
			key = append(key, byte(m), byte(m>>8), byte(m>>16), byte(c), byte(c>>8), byte(c>>16))
		}
	}
	ok, known := q.sums[string(key)]
	if !known {
		ok = q.near(q.pool, q.sources(picks, sizes)) >= q.level()
		q.sums[string(key)] = ok
	}
	return ok
}

// near is a chance, well drawn where it is near the level.
func (q *search) near(k *pooler, list []source) float64 {
	p := k.rough(list, max(q.o.Want, 0))
	if math.Abs(p-q.conf) < rough && len(list) <= fewBatches {
		law := k.sum(list, max(q.o.Want, 0))
		p = law[len(law)-1]
	}
	return p
}

// shares are the builders that the rounds use, each with all the cells it takes.
func (q *search) shares(picks []chosen) (out []share) {
	for i, k := range picks {
		for b := range q.builders {
			if k.use>>b&1 == 1 {
				out = append(out, share{i, b, q.builders[b].cells})
			}
		}
	}
	return out
}

// limit cuts the batches of each round down to the larvae there are and to the crew's own
// limit, evenly.
func (q *search) limit(picks []chosen, breeders [][]int, list []share) (out []share) {
	for i, k := range picks {
		var of []share
		all := 0
		for _, s := range list {
			if s.pick == i {
				of, all = append(of, s), all+s.grafts
			}
		}
		if most := q.larvae(k, breeders[i]); most < all {
			of = spreadOver(of, most)
		}
		out = append(out, of...)
	}
	return slices.DeleteFunc(out, func(s share) bool { return s.grafts <= 0 })
}

// larvae is how many a round may graft in all.
func (q *search) larvae(k chosen, breeders []int) int {
	n := k.c.larvae
	if k.c.comb == nil {
		if len(q.p.Limits.Breeders) == 0 {
			n = noRoom
		} else {
			n *= len(breeders)
		}
	}
	if q.p.Limits.PerRound > 0 {
		n = min(n, q.p.Limits.PerRound)
	}
	return n
}

// level is the chance that counts as reached.
func (q *search) level() float64 { return q.conf - 1e-12 }

// run finds the best plan with the fewest rounds.
func (q *search) run() *schedule {
	law := q.pool.sum(q.base, max(q.o.Want, 0))
	if law[len(law)-1] >= q.level() {
		return &schedule{law: law}
	}
	if len(q.list) == 0 {
		return nil
	}
	if q.o.Unit == Cells {
		return q.runCells()
	}
	return q.rounds()
}

// runCells looks for a time of hand-over, the latest first, at which all cells are ripe and
// none is over.
func (q *search) runCells() (found *schedule) {
	q.handovers(func() bool {
		found = q.rounds()
		return found != nil
	})
	return found
}

// handovers narrows the list to the rounds that are ripe at one time of hand-over after
// the other, until stop says that it is enough.
func (q *search) handovers(stop func() bool) {
	all := q.list
	at := []time.Time{q.t.by}
	for _, c := range all {
		if k := c.times.keeps(Cells); k.Before(q.t.by) {
			at = append(at, k)
		}
	}
	slices.SortFunc(at, func(a, b time.Time) int { return b.Compare(a) })
	tried := map[string]bool{}
	for _, t := range slices.CompactFunc(at, time.Time.Equal) {
		var key []byte
		q.list = nil
		for _, c := range all {
			if !c.times.ready(Cells, q.t.soonest).After(t) && !c.times.keeps(Cells).Before(t) {
				q.list = append(q.list, c)
				key = append(key, byte(c.class), byte(c.class>>8))
			}
		}
		if len(q.list) == 0 || tried[string(key)] {
			continue
		}
		tried[string(key)] = true
		if stop() {
			break
		}
	}
	q.list = all
}

// fullest is the most that can be done for an order, and what it comes to.
func (q *search) fullest() (picks []chosen, breeders [][]int, sizes []share) {
	most := 0
	try := func() bool {
		p, b := q.everything()
		list, n := q.limit(p, b, q.shares(p)), 0
		for _, s := range list {
			n += s.grafts
		}
		if n > most {
			picks, breeders, sizes, most = p, b, list, n
		}
		return false
	}
	if q.o.Unit == Cells {
		q.handovers(try)
	} else {
		try()
	}
	return picks, breeders, sizes
}

func (q *search) rounds() *schedule {
	q.best = nil
	most, least, ok := q.bounds()
	if !ok {
		return nil
	}
	picks, breeders := q.everything()
	all := len(picks) > 0 && q.does(picks, q.limit(picks, breeders, q.shares(picks)))
	if all && q.quick {
		return &schedule{}
	}
	for k := least; k <= min(most, mostChosen) && q.best == nil && !q.p.brief && !q.spent(); k++ {
		if all && k >= len(picks) {
			break
		}
		q.leaves = 0
		q.descend(0, nil, k)
	}
	if q.best == nil && all {
		// The latest of all rounds, as few as will do.
		n := 1 + sort.Search(len(picks)-1, func(i int) bool {
			return q.does(picks[:i+1], q.limit(picks[:i+1], breeders, q.shares(picks[:i+1])))
		})
		q.leaf(picks[:n], breeders[:n])
	}
	q.partial = q.best == nil && (q.partial || q.spent() || q.p.brief || least > mostChosen)
	if q.best != nil && !q.quick {
		q.polish()
	}
	return q.best
}

// spent reports that the search has gone as far as it may.
func (q *search) spent() bool {
	nodes, draws := mostNodes, mostDraws
	if q.quick {
		nodes, draws = nodes/4, draws/4
	}
	return q.nodes > nodes || q.pool.work > draws || q.p.drawn+q.pool.work > allDraws
}

// descend takes up one more round, k being still to come, from the i-th of the list on.
func (q *search) descend(i int, picks []chosen, k int) {
	if q.nodes++; q.leaves > mostLeaves || q.spent() || q.quick && q.best != nil {
		return
	}
	if k == 0 {
		if breeders, ok := q.assign(picks); ok {
			q.leaf(picks, breeders)
		}
		return
	}
	seen := map[[3]uint64]bool{}
	for ; i < len(q.list); i++ {
		c := q.list[i]
		if len(picks) > 0 && !c.times.Graft.Before(picks[len(picks)-1].c.times.Graft) {
			continue
		}
		free := q.open(picks, c)
		if free == 0 {
			continue
		}
		overlaps := uint64(0)
		twice := false
		for n, k := range picks {
			if shareNucs(k.c, c) {
				overlaps |= 1 << min(n, 63)
			}
			twice = twice || c.comb != nil && k.c.comb != nil && k.c.comb.ID == c.comb.ID
		}
		key := [3]uint64{uint64(c.class), free, overlaps}
		if twice || seen[key] {
			continue
		}
		next := append(picks[:len(picks):len(picks)], chosen{c, free})
		if _, ok := q.assign(next); !ok {
			continue // an earlier one of the same class may do
		}
		seen[key] = true
		for _, use := range q.subsets(free, k) {
			next[len(next)-1].use = use
			q.descend(i+1, slices.Clone(next), k-1)
		}
	}
}

// subsets of the builders free, all of them first. Leaving one out can only help where
// another round is to come that needs it.
func (q *search) subsets(free uint64, k int) (out []uint64) {
	out = append(out, free)
	if k == 1 || bits.OnesCount64(free) > 6 {
		q.partial = q.partial || k > 1
		return out
	}
	for sub := (free - 1) & free; sub != 0; sub = (sub - 1) & free {
		if q.first(free, sub) {
			out = append(out, sub)
		}
	}
	slices.SortStableFunc(out, func(a, b uint64) int { return cmp.Compare(bits.OnesCount64(b), bits.OnesCount64(a)) })
	return out
}

// first reports that of builders that are the same in all a subset has the first ones.
func (q *search) first(free, sub uint64) bool {
	for a := range q.builders {
		for b := range a {
			if free>>a&1 == 1 && free>>b&1 == 1 && sub>>a&1 == 1 && sub>>b&1 == 0 &&
				q.builders[a].cells == q.builders[b].cells && slices.Equal(q.builders[a].levels, q.builders[b].levels) {
				return false
			}
		}
	}
	return true
}

// everything is as many rounds as there can be, the latest first.
func (q *search) everything() (picks []chosen, breeders [][]int) {
	for _, c := range q.list {
		if len(picks) > 0 && !c.times.Graft.Before(picks[len(picks)-1].c.times.Graft) {
			continue
		}
		twice := slices.ContainsFunc(picks, func(k chosen) bool { return c.comb != nil && k.c.comb != nil && k.c.comb.ID == c.comb.ID })
		free := q.open(picks, c)
		if free == 0 || twice {
			continue
		}
		next := append(picks[:len(picks):len(picks)], chosen{c, free})
		if who, ok := q.assign(next); ok {
			picks, breeders = next, who
		}
	}
	return picks, breeders
}
