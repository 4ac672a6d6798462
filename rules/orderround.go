package rules

import (
	"sort"
	"time"
)

// offer is a round that could be done, with the slots it has.
type offer struct {
	times    RoundTimes
	breeders []int
	batches  []PlannedBatch // at their fullest
	slots    []Slot
}

// try makes a plan, or the most that fits. soonest takes the windows at their
// earliest instead of their best.
func (p *Planner) try(o Order, parts []Part, confidence float64, now time.Time, soonest bool) Plan {
	plan := Plan{Order: o, Confidence: confidence}
	want := max(o.Want, 0)
	have := p.chain.sum(parts, o.Unit, want)
	search := p.search(o, now, soonest)
	var offers []offer
	var slots []Slot
	slot := func(i int) (Slot, bool) {
		for i >= len(slots) {
			f, ok := search.next()
			if !ok {
				return Slot{}, false
			}
			offers, slots = append(offers, f), append(slots, f.slots...)
		}
		return slots[i], true
	}
	asked := append([]float64{confidence}, Confidences...)
	var own Need
	for _, n := range p.chain.fill(have, o.Unit, slot, asked) {
		if n.Confidence == confidence && own.Confidence == 0 {
			own = n
			continue
		}
		plan.Needs = append(plan.Needs, n)
	}
	plan.OK, plan.Grafts, plan.Chance = own.OK, own.Grafts, own.Chance
	sizes := own.Sizes
	if own.OK {
		sizes = even(offers, own)
		plan.Fits = want
	}
	rooms, t := p.rooms(have, o.Unit, slots, sizes, confidence)
	if own.OK && t.chance() < confidence {
		sizes = own.Sizes
		rooms, t = p.rooms(have, o.Unit, slots, sizes, confidence)
	}
	i := 0
	for _, f := range offers {
		r := Round{RoundTimes: f.times, Breeders: f.breeders}
		for _, b := range f.batches {
			if i >= len(sizes) {
				break
			}
			if b.Grafts = sizes[i]; b.Grafts == 0 {
				i++
				continue
			}
			if o.Unit == Queens {
				b.Nucs = trim(b.Nucs, rooms[i])
			}
			b.Cells = p.chain.mean(Cells.leg(b.Grafts, noRoom))
			b.Give = p.chain.mean(o.Unit.leg(b.Grafts, rooms[i]))
			r.Batches = append(r.Batches, b)
			i++
		}
		if len(r.Batches) > 0 {
			r.Combs = CombsFor(r.Grafts(), r.RoundTimes, p.Limits.BeesIn)
			if r.Combs < len(r.Breeders) {
				r.Breeders = r.Breeders[:r.Combs]
			}
			plan.Rounds = append(plan.Rounds, r)
			plan.Uses = append(plan.Uses, p.uses(o, r)...)
			for _, n := range r.Breeders {
				plan.Stays = append(plan.Stays, Stay{n, r.Confined, r.Out})
			}
		}
	}
	sort.SliceStable(plan.Rounds, func(i, j int) bool { return plan.Rounds[i].Confined.Before(plan.Rounds[j].Confined) })
	plan.Chance = t.chance()
	if !own.OK {
		plan.Fits = t.most(confidence)
		if plan.Break = search.short; plan.Break == nil && len(plan.Rounds) > 0 {
			// Every round is full: there are too few builders for the number.
			first := plan.Rounds[0].Graft
			need := max(own.Grafts+1, (own.Grafts*want+max(plan.Fits, 1)-1)/max(plan.Fits, 1))
			plan.Break = &Break{Subject{BuilderKind, ""}, DateOf(first, p.s.Zone), first, own.Grafts, need}
		}
	}
	return plan
}

// even spreads the last round's grafts over its builders: one bar of 40 and one
// of 2 is no work for anybody.
func even(offers []offer, n Need) []int {
	sizes := append([]int(nil), n.Sizes...)
	at := 0
	for _, f := range offers {
		end := min(at+len(f.slots), len(sizes))
		if end == len(sizes) && end > at {
			left := 0
			for _, v := range sizes[at:end] {
				left += v
			}
			for i := at; i < end; i++ {
				sizes[i] = min(left/(end-i), f.slots[i-at].Grafts)
				left -= sizes[i]
			}
			if left > 0 {
				return n.Sizes // the builders differ too much
			}
			return sizes
		}
		at += len(f.slots)
	}
	return sizes
}

// rooms are the nucs to keep free for batches of these sizes, and what the
// batches give in all. A batch that is not full seldom needs a nuc for every
// larva; where keeping fewer would cost the confidence, it gets them all the same.
func (p *Planner) rooms(have total, u Unit, slots []Slot, sizes []int, confidence float64) (rooms []int, t total) {
	for _, scarce := range []bool{true, false} {
		rooms, t = nil, have
		for i, n := range sizes {
			room := slots[i].Room
			if u == Queens && n > 0 && n < slots[i].Grafts {
				room = min(room, n)
				if scarce {
					room = min(room, p.chain.upper(Cells.leg(n, noRoom), 0.99))
				}
			}
			rooms = append(rooms, room)
			if n > 0 {
				t = t.plus(p.chain.law(u.leg(n, room)))
			}
		}
		if t.chance() >= confidence {
			break
		}
	}
	return rooms, t
}

// trim keeps no more nucs than n.
func trim(nucs []NucsIn, n int) []NucsIn {
	var out []NucsIn
	for _, y := range nucs {
		if y.N = min(y.N, n); y.N > 0 {
			out = append(out, y)
			n -= y.N
		}
	}
	return out
}

// uses of a round: builders from the starter to the end of the move window, nucs
// from the move to the catch.
func (p *Planner) uses(o Order, r Round) []Use { return RoundUses(o.Number, r, p.s) }

// RoundUses are what a round of an order takes.
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

// search looks for the rounds that could be done for an order, the latest first.
// Each takes its places, so that all of them together fit.
type search struct {
	p       *Planner
	o       Order
	now     time.Time
	soonest bool
	days    int // the next round is ready so many days before the order's time
	hold    time.Duration
	cal     Calendar
	stays   []Stay
	short   *Break // first in time of what was short on the way
	over    bool
}

func (p *Planner) search(o Order, now time.Time, soonest bool) *search {
	hold := p.Limits.Hold
	if o.Unit == Cells {
		hold = 0 // ripe cells do not keep
	}
	return &search{p: p, o: o, now: now, soonest: soonest, hold: hold, cal: p.Calendar, stays: p.Limits.Stays}
}

func (q *search) note(b *Break) {
	// A builder is free again in the week after; nucs are not, so that they are named
	// where both are short.
	scarce := func(b *Break) bool { return b.Place.Kind == YardKind }
	switch {
	case b == nil:
	case q.short == nil, scarce(b) && !scarce(q.short), scarce(b) == scarce(q.short) && b.At.Before(q.short.At):
		q.short = b
	}
}

// next is the next round with any room, ok false where there is none.
func (q *search) next() (offer, bool) {
	p := q.p
	for !q.over {
		ready := Shift{Days: -q.days}.Apply(q.o.By, p.s.Zone)
		if q.o.By.Sub(ready) > q.hold+12*time.Hour {
			break
		}
		q.days += p.Limits.EveryDay
		// Where the day is taken, one of the days before may do.
		for back := 0; back < min(p.Limits.EveryDay, 3); back++ {
			r, _ := p.fitter.before(Shift{Days: -back}.Apply(ready, p.s.Zone), q.o.Unit, q.soonest, p.Limits.BeesIn, p.cells())
			if r.Confined.IsZero() {
				continue
			}
			if r.Confined.Before(q.now) {
				if q.short == nil {
					q.note(&Break{Day: DateOf(r.Confined, p.s.Zone), At: r.Confined})
				}
				q.over = true
				break
			}
			f, b := p.offer(q.o, r, q.cal, q.stays)
			q.note(b)
			if len(f.slots) == 0 {
				continue
			}
			q.cal = q.cal.Add(p.uses(q.o, Round{RoundTimes: r, Batches: f.batches})...)
			q.stays = append(q.stays[:len(q.stays):len(q.stays)], staysOf(f)...)
			return f, true
		}
	}
	q.over = true
	return offer{}, false
}

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

// offer is what one round has room for as the calendar stands, and what is short.
func (p *Planner) offer(o Order, r RoundTimes, cal Calendar, stays []Stay) (f offer, short *Break) {
	f.times = r
	left := p.Limits.PerRound
	builders := p.names(BuilderKind)
	room := 0
	for _, b := range builders {
		if n, _ := cal.Free(b, builderFrom(r.Graft, p.s), r.Move.Latest); n > 0 {
			room += p.place(b).grafts()
		}
	}
	if left <= 0 || left > room {
		left = room
	}
	if len(builders) == 0 {
		return f, &Break{Subject{BuilderKind, ""}, DateOf(r.Graft, p.s.Zone), r.Graft, 0, 1}
	}
	if left > 0 && len(p.Limits.Breeders) > 0 {
		per := Comb{Confined: r.Confined, BeesIn: &p.Limits.BeesIn}.Larvae(r.Graft)
		for len(f.breeders)*per < left {
			taken := append(stays[:len(stays):len(stays)], staysOf(f)...)
			n, ok := p.Limits.Rotation.Choose(p.Limits.Breeders, taken, r.Confined, r.Out)
			if !ok {
				break
			}
			f.breeders = append(f.breeders, n)
		}
		if len(f.breeders) == 0 {
			return f, &Break{Subject{BreederKind, ""}, DateOf(r.Confined, p.s.Zone), r.Confined, 0, 1}
		}
		left = min(left, len(f.breeders)*per)
	}
	type free struct {
		yard string
		n    int
	}
	var yards []free
	nucs, tightest := 0, r.Move.Best
	for _, y := range p.names(YardKind) {
		n, at := cal.Free(y, r.Move.Best, r.Catch.Best)
		if nucs += n; len(yards) == 0 || n < yards[0].n {
			tightest = at
		}
		yards = append(yards, free{y.Key, n})
	}
	for _, b := range builders {
		from, to := builderFrom(r.Graft, p.s), r.Move.Latest
		if n, at := cal.Free(b, from, to); n < 1 {
			if short == nil {
				short = &Break{b, DateOf(at, p.s.Zone), at, 0, 1}
			}
			continue
		}
		grafts := min(p.place(b).grafts(), left)
		if grafts <= 0 {
			break
		}
		batch, slot := PlannedBatch{Builder: b.Key}, Slot{grafts, -1}
		if o.Unit == Queens {
			slot.Room = p.chain.upper(Cells.leg(grafts, noRoom), 0.95)
			if slot.Room > nucs {
				where := Subject{YardKind, ""}
				if len(yards) == 1 {
					where = YardSubject(yards[0].yard)
				}
				short = &Break{where, DateOf(tightest, p.s.Zone), tightest, nucs, slot.Room}
				if nucs == 0 {
					break
				}
				slot.Room = nucs
				// Larvae are cheap and nucs are not: enough to fill them nine times in ten.
				slot.Grafts = 1 + sort.Search(grafts-1, func(i int) bool {
					return p.chain.upper(Cells.leg(i+1, noRoom), 0.1) >= nucs
				})
			}
			need := slot.Room
			for i := range yards {
				if n := min(need, yards[i].n); n > 0 {
					batch.Nucs = append(batch.Nucs, NucsIn{yards[i].yard, n})
					yards[i].n -= n
					need -= n
				}
			}
			nucs -= slot.Room
		}
		batch.Grafts = slot.Grafts
		left -= slot.Grafts
		f.batches, f.slots = append(f.batches, batch), append(f.slots, slot)
	}
	grafts := 0
	for _, b := range f.batches {
		grafts += b.Grafts
	}
	if n := CombsFor(grafts, r, p.Limits.BeesIn); n < len(f.breeders) {
		f.breeders = f.breeders[:n]
	}
	return f, short
}

func staysOf(f offer) []Stay {
	var out []Stay
	for _, n := range f.breeders {
		out = append(out, Stay{n, f.times.Confined, f.times.Out})
	}
	return out
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
