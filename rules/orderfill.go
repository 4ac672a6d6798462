package rules

import "sort"

// Unit is what an order asks for.
type Unit string

// An order is for ripe cells, ready at the move, or for laying queens, ready at
// the catch.
const (
	Cells  Unit = "cells"
	Queens Unit = "queens"
)

// last is the stage at which the unit is counted.
func (u Unit) last() Stage {
	if u == Cells {
		return StageCapped
	}
	return StageLaying
}

// Confidences are those a plan is shown at.
var Confidences = []float64{0.5, 0.8, 0.9, 0.95}

// Slot is room for one batch: at most Grafts larvae in one builder, and nucs for
// Room of its cells (no limit for an order of cells, or where Room is negative).
type Slot struct {
	Grafts int
	Room   int
}

// Need is how many grafts fill an order with a chance of at least Confidence,
// and in which batches.
type Need struct {
	Confidence float64
	OK         bool    // false: the slots do not reach it, Grafts is all they hold
	Grafts     int     // in all
	Sizes      []int   // grafts per slot, in the order of the slots
	Chance     float64 // that the order is filled by them, with what it has already
}

func (u Unit) leg(n, room int) leg {
	if u == Cells || room < 0 {
		room = noRoom
	}
	return leg{n, min(room, noRoom), StageAccepted, u.last()}
}

// fill finds the needs for several confidences. Slots are filled one after the
// other, each to the brim before the next: with one graft more every sum is then
// at least as likely, so that more confidence never asks for fewer grafts. slot
// gives the slots one by one and is asked for no more than it takes.
func (c *chain) fill(have total, u Unit, slot func(i int) (Slot, bool), confidences []float64) []Need {
	order := append([]float64(nil), confidences...)
	sort.Float64s(order)
	var out []Need
	var sizes []int
	grafts := 0
	at := have.chance()
	for len(order) > 0 && at >= order[0]-1e-12 {
		out = append(out, Need{Confidence: order[0], OK: true, Chance: at})
		order = order[1:]
	}
	for i := 0; len(order) > 0; i++ {
		s, ok := slot(i)
		if !ok {
			break
		}
		full, tails := c.law(u.leg(s.Grafts, s.Room)), have.tails()
		at = tails.with(full)
		for len(order) > 0 && at >= order[0]-1e-12 {
			n := 1 + sort.Search(s.Grafts-1, func(i int) bool {
				return tails.with(c.law(u.leg(i+1, s.Room))) >= order[0]-1e-12
			})
			chance := tails.with(c.law(u.leg(n, s.Room)))
			out = append(out, Need{order[0], true, grafts + n, append(append([]int(nil), sizes...), n), chance})
			order = order[1:]
		}
		have = have.plus(full)
		sizes, grafts = append(sizes, s.Grafts), grafts+s.Grafts
	}
	for _, conf := range order {
		out = append(out, Need{conf, false, grafts, append([]int(nil), sizes...), at})
	}
	return out
}

// GraftsFor is how many to graft for want cells or queens at each of the
// confidences, given the yields and slots that are filled in turn.
func GraftsFor(y Yields, want int, u Unit, slots []Slot, confidences []float64) []Need {
	c := newChain(y)
	return c.fill(c.certain(0, want), u, inTurn(slots), confidences)
}

func inTurn(slots []Slot) func(int) (Slot, bool) {
	return func(i int) (Slot, bool) {
		if i >= len(slots) {
			return Slot{}, false
		}
		return slots[i], true
	}
}

// EvenSlots are count slots of the same size, for a crew that has set no limits.
func EvenSlots(grafts, room, count int) []Slot {
	out := make([]Slot, count)
	for i := range out {
		out[i] = Slot{grafts, room}
	}
	return out
}

// Part is a batch on the way to an order: the newest count and the stage that
// count was at. A batch that is planned and not grafted yet has its grafts.
type Part struct {
	Batch int
	Count int
	Done  Step // Graft, Accept, Capped, Move, Emerge, Laying or Catch
	Room  int  // nucs for its cells, negative where not known
	Span  Span // nucs that are free are taken from Earliest to Latest; zero where it has its own
	After int  // its first so many are gone or another order's
	Most  int  // no more than so many are for this order, 0 for all
}

// PartOf reads a batch as a part of an order, ok false where nothing was counted.
// Once any of it was caught, laying queens not caught yet still count.
func PartOf(b Batch) (p Part, ok bool) {
	p = Part{Batch: b.Number, Room: -1}
	if b.Counts.Nucs != nil {
		p.Room = *b.Counts.Nucs
	}
	n, at := b.Had("") // what was lost since is not there
	if n == nil {
		return p, false
	}
	p.Count, p.Done = *n, at
	if at == Catch && b.Counts.Laying != nil {
		p.Count = max(p.Count, *b.Counts.Laying)
	}
	if at == Laying && !b.Ended && *n == 0 && b.Counts.Emerged != nil {
		// None at a first look may only be early.
		p.Count, p.Done = *b.Counts.Emerged, Emerge
	}
	if b.Ended {
		p.Count, p.Done = 0, Catch
		if c := b.Counts.Caught; c != nil {
			p.Count = *c
		}
	}
	return p, true
}

// leg is what the part still has before it, done where it is certain.
func (p Part) leg(u Unit) (l leg, done bool) {
	room := p.Room
	if room < 0 || u == Cells {
		room = noRoom
	}
	from := map[Step]Stage{
		Graft: StageAccepted, Accept: StageCapped, Finish: StageCapped, Capped: StageEmerged, Nucs: StageEmerged,
		Move: StageEmerged, Emerge: StageLaying, Laying: Stages, Catch: Stages,
	}[p.Done]
	if p.Done == Move {
		room = noRoom // they are in
	}
	return leg{p.Count, room, from, u.last()}, from > u.last()
}

// source is the part as the planner draws on it. Without a calendar of nucs to share it
// has the room that is kept for it.
func (p Part) source(u Unit, pooled bool) source {
	l, done := p.leg(u)
	s := source{n: max(p.Count, 0), from: l.from, room: l.room, skip: p.After, most: noRoom}
	if done {
		s.from = Stages
	}
	if p.Most > 0 {
		s.most = p.Most
	}
	if pooled && u == Queens && p.Done != Move && s.from <= StageEmerged && !p.Span.Earliest.IsZero() {
		s.span, s.room = p.Span, noRoom
	}
	return s
}

// ChanceFilled is the chance that an order for want is filled by the parts as
// they stand now, and the numbers they give with nine chances in ten.
func ChanceFilled(y Yields, want int, u Unit, parts []Part) (chance float64, lo, hi int) {
	o := outcome(newPooler(newChain(y), u, Calendar{}), want, parts, false)
	return o.Chance, o.Lo, o.Hi
}

// Outcome is what the parts of an order come to.
type Outcome struct {
	Chance float64 // that the order is filled
	Mean   float64 // the number to expect
	Safe   int     // the number that holds with the confidence asked for
	Lo, Hi int     // the numbers that it gives with nine chances in ten
}

func outcome(k *pooler, want int, parts []Part, pooled bool) (o Outcome) {
	most := want
	var list []source
	for _, p := range parts {
		s := p.source(k.u, pooled)
		most += max(min(s.n-s.skip, s.most), 0)
		list = append(list, s)
	}
	law := k.sum(list, most)
	for _, v := range law[min(want, len(law)-1):] {
		o.Chance += v
	}
	o.Chance, o.Mean, o.Lo, o.Hi = clamp(o.Chance, 0, 1), lawMean(law), quantileOf(law, 0.05), quantileOf(law, 0.95)
	return o
}
