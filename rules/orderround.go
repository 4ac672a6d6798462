package rules

import (
	"cmp"
	"slices"
	"time"
)

// tier is one way of reading "by that day", the best first. Each later one that fits more
// takes in all that those before it do.
type tier struct{ early, soonest, unfit bool }

var tiers = []tier{{}, {soonest: true}, {early: true}, {early: true, soonest: true}, {early: true, unfit: true}, {early: true, soonest: true, unfit: true}}

// widest is the tier in which everything that fits at all does.
var widest = tiers[len(tiers)-1]

// job is an order to plan for: what it has already, how sure it is to be.
type job struct {
	o     Order
	parts []Part
	conf  float64
	now   time.Time
}

func (j job) with(want int) job { j.o.Want = want; return j }

func (j job) until(by time.Time) job { j.o.By = by; return j }

// found is what the search made of a job.
type found struct {
	*schedule
	q    *search
	tier tier
	from []Promise
}

// terms of a job in a tier.
func (p *Planner) terms(j job, t tier) terms {
	out := terms{by: j.o.By, soonest: t.soonest, unfit: t.unfit, now: j.now}
	if !t.early && j.o.Unit == Queens {
		out.from = j.o.By.Add(-p.Limits.Hold)
	}
	return out
}

// pooler for an order: what it has itself of the nucs is free for it.
func (p *Planner) poolerFor(o Order, parts []Part) *pooler {
	own := map[Subject]bool{}
	if o.Number > 0 {
		own[OrderSubject(o.Number)] = true
	}
	for _, k := range parts {
		if k.Batch > 0 && !k.Span.Earliest.IsZero() {
			own[BatchSubject(k.Batch)] = true
		}
	}
	cal := Calendar{Places: p.Calendar.Places}
	for _, u := range p.Calendar.Uses {
		if !own[u.For] {
			cal.Uses = append(cal.Uses, u)
		}
	}
	return newPooler(p.chain, o.Unit, cal)
}

// Chance is what an order's parts come to as the calendar stands.
func (p *Planner) Chance(o Order, parts []Part) Outcome {
	return outcome(p.poolerFor(o, parts), o.Want, parts, true)
}

// solve finds the best plan of the first tier that has one; the search tells whether it
// looked at everything.
func (p *Planner) solve(j job, list []tier) (f found, partial bool) {
	for _, t := range list {
		f = found{q: p.searchFor(j, t), tier: t}
		f.count(p, j)
		f.schedule = f.q.run()
		p.drawn += f.q.pool.work
		partial = partial || f.q.partial
		if f.schedule != nil {
			return f, false
		}
	}
	return f, partial
}

// fits reports whether a job fits at all.
func (p *Planner) fits(j job) (ok, partial bool) {
	for _, t := range []tier{{soonest: true}, widest} { // most that fit do by the first, which is soon seen
		f := found{q: p.searchFor(j, t)}
		f.count(p, j)
		f.q.quick = true
		ok = f.q.run() != nil
		p.drawn += f.q.pool.work
		if partial = f.q.partial; ok {
			break
		}
	}
	return ok, partial
}

func (p *Planner) searchFor(j job, t tier) *search {
	q := &search{p: p, o: j.o, t: p.terms(j, t), conf: j.conf, builders: p.builders(), sums: map[string]bool{}}
	all := slices.Clone(j.parts)
	for _, w := range p.Limits.OnTheWay {
		all = append(all, w.Part)
	}
	q.pool = p.poolerFor(j.o, all)
	for _, k := range j.parts {
		q.base = append(q.base, k.source(j.o.Unit, true))
	}
	q.list = q.candidates()
	return q
}

// count takes what is on the way, the surest first, as far as it is needed.
func (f *found) count(p *Planner, j job) {
	q := f.q
	sure := 0
	for _, s := range q.base {
		if s.from == Stages {
			sure += s.promise(s.n)
		}
	}
	list := slices.Clone(p.Limits.OnTheWay)
	slices.SortStableFunc(list, func(a, b OnTheWay) int {
		return cmp.Or(-cmp.Compare(a.source(j.o.Unit, true).from, b.source(j.o.Unit, true).from), a.Catch.Best.Compare(b.Catch.Best))
	})
	for _, w := range list {
		s := w.source(j.o.Unit, true)
		s.most = min(s.most, j.o.Want-sure)
		at := w.times().ready(j.o.Unit, q.t.soonest)
		if s.n <= s.skip || s.most <= 0 || at.After(j.o.By) || at.IsZero() || slices.ContainsFunc(j.parts, func(k Part) bool { return k.Batch == w.Batch }) {
			continue
		}
		if j.o.Unit == Cells && (w.Move.Latest.Before(j.o.By) || w.Done == Move || s.from > StageEmerged) {
			continue // ripe cells do not keep
		}
		if law := q.pool.sum(q.base, j.o.Want); law[len(law)-1] >= q.level() {
			return
		}
		q.base = append(q.base, s)
		f.from = append(f.from, Promise{w.Batch, min(s.most, s.n-s.skip), s.skip})
		if s.from == Stages {
			sure += s.promise(s.n)
		}
	}
}

// Rescue is Plan for an order on its way: parts are its batches as they stand,
// and the rounds proposed are those needed on top of them. No rounds and OK mean
// that nothing more is needed.
func (p *Planner) Rescue(o Order, parts []Part, confidence float64, now time.Time) Plan {
	o.Want, p.drawn = max(o.Want, 0), 0
	j := job{o, parts, clamp(confidence, 0.01, 0.99), now}
	fits, partial := p.fits(j)
	plan := Plan{Order: o, Confidence: j.conf, OK: fits, Partial: partial, Deadline: p.Deadline(o)}
	if fits {
		f, _ := p.solve(j, tiers)
		plan.Fits = o.Want
		p.fill(&plan, j, f)
		plan.Needs = p.needs(j, f)
		return plan
	}
	q := p.searchFor(j, widest)
	f := found{q: q, tier: widest}
	f.count(p, j)
	picks, _, sizes := q.fullest()
	law := q.law(picks, sizes)
	plan.Breaks = p.why(j)
	plan.Fits, plan.FitsBy = p.most(j, lawMost(law, j.conf)), p.firstDay(j)
	if f, ok := p.nearest(j, plan.Fits, law[len(law)-1]); ok {
		p.fill(&plan, j, f)
		plan.Needs = p.needs(j, f)
	}
	return plan
}

// most is the largest number that fits with the confidence asked for; sure does, but for what
// a sum of chances may be out at its edge.
func (p *Planner) most(j job, sure int) int {
	lo, hi := sure, j.o.Want // fits, does not
	for ; lo > 0; lo-- {
		if ok, _ := p.fits(j.with(lo)); ok {
			break
		}
		hi = lo
	}
	for step := 1; hi-lo > 1; step *= 2 {
		mid := min(lo+step, (lo+hi)/2)
		if ok, _ := p.fits(j.with(mid)); !ok {
			hi = mid
			break
		}
		lo = mid
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if ok, _ := p.fits(j.with(mid)); ok {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// lookAhead is how many days after the wanted one are looked at for one that would do.
const lookAhead = 84

// firstDay is the first day after the wanted one by which all of it fits, zero for none.
func (p *Planner) firstDay(j job) time.Time {
	at := func(d int) time.Time { return OrderBy(DateOf(j.o.By, p.s.Zone).Add(d), p.s) }
	if ok, _ := p.fits(j.until(at(lookAhead))); !ok {
		return time.Time{}
	}
	lo, hi := 0, lookAhead
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if ok, _ := p.fits(j.until(at(mid))); ok {
			hi = mid
		} else {
			lo = mid
		}
	}
	return at(hi)
}

// nearest is the plan that comes closest to an order that does not fit: the chance that it
// is filled is as high as can be, or where that is next to none, what does fit.
func (p *Planner) nearest(j job, fits int, chance float64) (f found, ok bool) {
	switch {
	case chance > 0.05:
		j.conf = chance - 0.005
		f, _ = p.solve(j, []tier{widest})
	case fits > 0:
		f, _ = p.solve(j.with(fits), tiers)
	}
	return f, f.schedule != nil
}

// needs are the grafts for each of Confidences, in the rounds of the plan where these do.
func (p *Planner) needs(j job, f found) (out []Need) {
	grafts := 0
	has := f.q.pool.sum(f.q.base, j.o.Want)
	for _, conf := range Confidences {
		n := Need{Confidence: conf, Grafts: grafts}
		if n.OK = has[len(has)-1] >= conf-1e-12; !n.OK && len(f.picks) > 0 {
			n.Grafts, n.OK = f.q.sized(f.schedule, conf)
		}
		if !n.OK {
			k := j
			k.conf = conf
			if ok, _ := p.fits(k); ok {
				if g, _ := p.solve(k, tiers); g.schedule != nil {
					n.OK, n.Grafts = true, g.grafts
				}
			}
		}
		n.Grafts = max(n.Grafts, grafts)
		grafts = n.Grafts
		out = append(out, n)
	}
	return out
}

// fill writes a schedule into a plan.
func (p *Planner) fill(plan *Plan, j job, f found) {
	o := j.o
	plan.From, plan.Grafts = f.from, f.grafts
	law := f.q.pool.sum(f.q.sources(f.picks, f.sizes), o.Want)
	plan.Chance = law[len(law)-1]
	rounds := make([]Round, len(f.picks))
	for i, k := range f.picks {
		rounds[i] = Round{RoundTimes: k.c.times, Breeders: f.breeders[i]}
		if k.c.comb != nil {
			rounds[i].Breeders = []int{k.c.comb.Breeder}
		}
		if plan.Keeps.IsZero() || k.c.times.keeps(o.Unit).Before(plan.Keeps) {
			plan.Keeps = k.c.times.keeps(o.Unit)
		}
		plan.Early = plan.Early || k.c.times.keeps(o.Unit).Before(o.By)
		plan.Tight = plan.Tight || k.c.times.Ready(o.Unit).After(o.By)
		plan.Unfit = plan.Unfit || k.c.off()
	}
	for _, s := range f.sizes {
		r := &rounds[s.pick]
		b := PlannedBatch{Builder: f.q.builders[s.builder].name.Key, Grafts: s.grafts}
		b.Cells = p.chain.mean(Cells.leg(s.grafts, noRoom))
		b.Give = p.chain.mean(o.Unit.leg(s.grafts, noRoom))
		r.Batches = append(r.Batches, b)
	}
	for i := range rounds {
		r := &rounds[i]
		slices.SortFunc(r.Batches, func(a, b PlannedBatch) int { return cmp.Compare(a.Builder, b.Builder) })
		if r.Comb == nil {
			r.Combs = CombsFor(r.Grafts(), r.RoundTimes, p.Limits.BeesIn)
			r.Breeders = r.Breeders[:min(r.Combs, len(r.Breeders))]
			for _, n := range r.Breeders {
				plan.Stays = append(plan.Stays, Stay{n, r.Confined, r.Out})
			}
		}
	}
	slices.SortStableFunc(rounds, func(a, b Round) int { return a.Graft.Compare(b.Graft) })
	plan.Rounds = rounds
	if o.Unit == Queens {
		p.reserve(rounds)
	}
	for _, r := range rounds {
		plan.Uses = append(plan.Uses, RoundUses(o.Number, r, p.s)...)
	}
	plan.Mean = p.expected(f, o)
}

// expected is the number that a plan gives on average, over the wanted one too.
func (p *Planner) expected(f found, o Order) float64 {
	list := f.q.sources(f.picks, f.sizes)
	most := 0
	for _, s := range list {
		most += min(s.n, s.most)
	}
	return lawMean(f.q.pool.sum(list, max(most, o.Want)))
}

// reserve keeps nucs for each batch: for as many cells as it has in nineteen cases of
// twenty, and where there are too few for all of them in even parts.
func (p *Planner) reserve(rounds []Round) {
	cal := Calendar{Places: p.Calendar.Places, Uses: slices.Clone(p.Calendar.Uses)}
	for quarter := 1; quarter <= 4; quarter++ {
		for i := range rounds {
			r := &rounds[i]
			for k := range r.Batches {
				b := &r.Batches[k]
				need := (p.chain.upper(Cells.leg(b.Grafts, noRoom), 0.95)*quarter + 3) / 4
				for _, n := range b.Nucs {
					need -= n.N
				}
				for _, y := range p.names(YardKind) {
					free, _ := cal.Free(y, r.Move.Best, r.Catch.Best)
					n := min(need, free)
					if n <= 0 {
						continue
					}
					need -= n
					cal.Uses = append(cal.Uses, Use{y, n, r.Move.Best, r.Catch.Best, Subject{}})
					at := slices.IndexFunc(b.Nucs, func(x NucsIn) bool { return x.Yard == y.Key })
					if at < 0 {
						b.Nucs = append(b.Nucs, NucsIn{y.Key, n})
					} else {
						b.Nucs[at].N += n
					}
				}
			}
		}
	}
}

// off reports that a step of the round other than the catch has no working time.
func (c *candidate) off() bool {
	return slices.ContainsFunc(c.times.Unfit, func(s Step) bool { return s != Catch })
}

// RoundUses are what a round of an order takes: builders from the starter to the end of the
// move window, nucs from the move to the catch.
func RoundUses(order int, r Round, s *Settings) []Use {
	me := Subject{}
	if order > 0 {
		me = OrderSubject(order)
	}
	var out []Use
	for _, b := range r.Batches {
		if b.Builder != "" {
			out = append(out, Use{BuilderSubject(b.Builder), 1, builderFrom(r.Graft, s), r.Move.Latest, me})
		}
		for _, n := range b.Nucs {
			out = append(out, Use{YardSubject(n.Yard), n.N, r.Move.Best, r.Catch.Best, me})
		}
	}
	return out
}

// OrderSubject is order n of the crew.
func OrderSubject(n int) Subject { return Subject{OrderKind, BatchSubject(n).Key} }

// cells is the most that a builder of the crew takes: a move that is safe for so
// many is safe for fewer.
func (p *Planner) cells() int {
	n := 0
	for _, b := range p.Calendar.Places {
		if b.Subject.Kind == BuilderKind {
			n = max(n, b.grafts())
		}
	}
	if n == 0 {
		return CellsPerBuilder
	}
	return n
}

func (b Place) grafts() int {
	if b.Cells > 0 {
		return b.Cells
	}
	return CellsPerBuilder
}

// names of the places of a kind, each once, in the order the calendar has them.
func (p *Planner) names(k Kind) []Subject {
	var out []Subject
	seen := map[Subject]bool{}
	for _, b := range p.Calendar.Places {
		if b.Subject.Kind == k && !seen[b.Subject] {
			seen[b.Subject] = true
			out = append(out, b.Subject)
		}
	}
	return out
}

func (p *Planner) place(s Subject) (out Place) {
	for _, b := range p.Calendar.Places {
		if b.Subject == s {
			out = b
		}
	}
	return out
}
