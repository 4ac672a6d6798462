package rules

import (
	"math"
	"strings"
	"time"
)

// Batch is what the logbook says of one graft and the cells from it.
type Batch struct {
	Number  int
	Graft   int64 // the entry that logged it
	Breeder int
	Comb    int64 // 0 where no comb is known
	Mark    string
	Grafter string // who logged the graft
	Start   string // the builder it was grafted into
	Builder string // where it is, or was last: that one, else the finisher
	Grafted time.Time
	Age     AgeSpan
	Shift   float64 // hours by incubator temperatures
	Warmed  Effect  // of that, what the incubators did that the earliest of its cells stood in
	Counts  Counts
	Yards   []string  // where its nucs and cells are
	Emerges time.Time // the model's middle
	Ended   bool      // nothing of it is left
	Moved   time.Time // zero, or when its first cells went to nucs
	Account Account   // where all of it is, and where it went
	Learnt  *Learnt   `json:",omitempty"` // what the crew's other batches taught by then, nil for the books
	Late    float64   // hours by which what was seen of it moves Emerges against the books
}

// Counts of a batch at each stage; nil where none was logged.
type Counts struct {
	Grafted, Accepted, Capped, Nucs, Moved, Emerged, Laying, Caught *int
}

// Cells is the newest count of cells before they move, nil where none was given.
func (c Counts) Cells() *int {
	for _, n := range []*int{c.Capped, c.Accepted, c.Grafted} {
		if n != nil {
			return n
		}
	}
	return nil
}

// Stage is the newest count up to a step, and the step it was counted at.
func (c Counts) Stage(before Step) (n *int, at Step) {
	order := []struct {
		step Step
		n    *int
	}{{Graft, c.Grafted}, {Accept, c.Accepted}, {Capped, c.Capped}, {Move, c.Moved}, {Emerge, c.Emerged}, {Laying, c.Laying}, {Catch, c.Caught}}
	for _, o := range order {
		if o.step == before {
			break
		}
		if o.n != nil {
			n, at = o.n, o.step
		}
	}
	return n, at
}

// Of is the count logged at a step.
func (c Counts) Of(step Step) *int {
	return map[Step]*int{
		Graft: c.Grafted, Accept: c.Accepted, Capped: c.Capped, Nucs: c.Nucs, Move: c.Moved,
		Emerge: c.Emerged, Laying: c.Laying, Catch: c.Caught,
	}[step]
}

// Had is the newest count up to a step, less what was lost since, and the step it was
// counted at.
func (b Batch) Had(before Step) (n *int, at Step) {
	n, at = b.Counts.Stage(before)
	lost := b.Account.Cells.LostAt(at) + b.Account.Queens.LostAt(at)
	if n == nil || lost == 0 {
		return n, at
	}
	left := *n - lost
	return &left, at
}

// cells is how many of them there are before any goes to a nuc, nil where it is not known.
func (b Batch) cells() *int {
	n := b.Counts.Cells()
	if n == nil || len(b.Account.Lost) == 0 {
		return n
	}
	left := *n - b.Account.lostSince(Move)
	return &left
}

// Emergence is the model for the batch.
func (b Batch) Emergence(s *Settings) Emergence {
	cells := UnknownCells
	if n := b.Counts.Cells(); n != nil && *n > 0 {
		cells = *n
	}
	return Emergence{b.Grafted, b.Age, cells, b.Shift, s.SigmaBatch, s.SigmaCell, b.Learnt}
}

// Stands names the places of its cells, where some are in an incubator; else its builder.
func (b Batch) Stands() string {
	var places []string
	in := false
	for _, l := range b.Account.Lots {
		in = in || PlaceSubject(l.Place).Kind == IncubatorKind
		if l.Place != "" && !has(places, l.Place) {
			places = append(places, l.Place)
		}
	}
	if !in {
		return b.Builder
	}
	return strings.Join(places, YardSep)
}

// ChooseComb finds the comb that a graft at t was taken from: of those whose
// brood could give larvae then (and that carry the mark, if one was named) the
// one with most larvae of 12-24 h, and of equals the later.
func ChooseComb(combs []Comb, mark string, t time.Time) (Comb, bool) {
	var best Comb
	score := -1.0
	for _, c := range combs {
		from, to := c.Laying()
		lo, hi := Ages(from, to, t)
		if c.Failed || (mark != "" && c.Mark != mark) || hi < 0 || lo > 96 || t.Before(c.Confined) {
			continue
		}
		sh := SharesAt(from, to, t)
		v := sh.To24 + sh.To12/10 + sh.To36/100
		if v >= score {
			best, score = c, v
		}
	}
	return best, score >= 0
}

// BatchOf reads a batch out of its effective entries and its breeder's combs, of a crew
// without incubators. exists is false where the graft was taken back.
func BatchOf(number int, entries []Entry, combs []Comb, s *Settings) (b Batch, exists bool) {
	return batchOf(number, entries, combs, nil, s, nil, nil)
}

// batchOf is BatchOf with the incubators, by name, that its cells may be in, what the crew has
// learnt, and what was seen of the batch.
func batchOf(number int, entries []Entry, combs []Comb, in map[string]Incubator, s *Settings, l *learning, v *seen) (b Batch, exists bool) {
	grafts := did(entries, Graft)
	if len(grafts) == 0 {
		return b, false
	}
	g := grafts[0]
	b = Batch{Number: number, Graft: g.ID, Breeder: g.From, Grafter: g.By, Mark: g.Mark, Start: g.Into, Builder: g.Into, Grafted: g.Happened, Age: AssumedAge}
	b.Counts.Grafted = g.Count
	if c, ok := ChooseComb(combs, g.Mark, g.Happened); ok {
		b.Comb, b.Mark = c.ID, c.Mark
		if !c.Out.IsZero() && c.Out.After(g.Happened) || c.Out.IsZero() {
			c.Out = g.Happened
		}
		from, to := c.Laying()
		if span, ok := GraftAges(from, to, g.Happened); ok {
			b.Age = span
		}
	}
	if g.Detail.AgeLo != nil && g.Detail.AgeHi != nil {
		b.Age = AgeSpan{*g.Detail.AgeLo, *g.Detail.AgeHi, "stated"}
	}
	var gone, parts bool
	b.Account, gone = AccountOf(entries)
	for _, e := range entries {
		if e.Action != Did {
			continue
		}
		parts = parts || e.Detail.Part
		switch e.Step {
		case Accept:
			b.Counts.Accepted = e.Count
		case Capped:
			b.Counts.Capped = e.Count
		case Finish, Placed:
			if e.Into != "" && PlaceSubject(e.Into).Kind == BuilderKind {
				b.Builder = e.Into
			}
		case Nucs:
			b.Counts.Nucs = plus(b.Counts.Nucs, e.Count)
			b.yard(e.Into)
		case Move:
			if b.Moved.IsZero() {
				b.Moved = e.Happened
			}
			b.Counts.Moved = plus(b.Counts.Moved, e.Count)
			b.yard(e.Into)
		case Emerge:
			if !e.Detail.Unfinished() {
				b.Counts.Emerged = e.Count
			}
		case Laying:
			b.Counts.Laying = e.Count
		case Catch:
			b.Counts.Caught = plus(b.Counts.Caught, e.Count)
		}
	}
	if parts {
		b.Counts.Emerged, b.Counts.Laying = b.Account.Queens.Count(Emerge), b.Account.Queens.Count(Laying)
	}
	for _, n := range []*int{b.Counts.Accepted, b.Counts.Capped, b.Counts.Emerged} {
		if n != nil && *n == 0 {
			b.Ended = true
		}
	}
	b.Ended = b.Ended || gone || b.Account.lostAll()
	b.warm(in)
	b.foresee(s, l, v)
	// No queen laying at a first look may only be early or after rain (Szabo et
	// al. 1987: first eggs at 4-22 d); from the second look on it ends the batch.
	if n := b.Counts.Laying; n != nil && *n == 0 {
		looks, first := lookings(did(entries, Laying))
		second := b.Emerges.Add(Hours(s.Table.Row(Laying, "second").Earliest))
		b.Ended = b.Ended || looks > 1 || !first.Before(second)
	}
	return b, true
}

// warm works out what incubators did to each lot of the batch.
func (b *Batch) warm(in map[string]Incubator) {
	if len(in) == 0 {
		return
	}
	sealed, out := sealedStage(b.Grafted, b.Age)
	for _, list := range [][]Lot{b.Account.Lots, b.Account.Moved} {
		for i := range list {
			l := &list[i]
			l.Effect = l.effect(in, sealed, out)
			if s := PlaceSubject(l.Place); s.Kind == IncubatorKind {
				l.Singly = in[s.Key].Singly
			}
		}
	}
	standing, some := earliestLot(b.Account.Lots)
	if !some {
		standing, _ = earliestLot(b.Account.Moved)
	}
	b.Warmed = standing
}

// foresee works out when the queens come. The temperatures of the crew's setting are of no
// place: of those a cool one counts for nothing in Shift, and so in how long the cells are
// safe where they are, since the log does not say which cells were in it, and a close put
// off for cells that hung in a warm builder loses the batch. Those of an incubator count in
// full for the cells in it.
func (b *Batch) foresee(s *Settings, l *learning, v *seen) {
	b.Shift = IncubatorShift(b.Grafted, b.Age, s.Incubator, TempFrom.warm) + b.Warmed.Shift
	b.Learnt = l.by(b.learnsUntil(s), b.Number)
	b.Late = b.Learnt.Hours()
	if v != nil {
		if late := l.grid.lateBy(b.Learnt, v.given); math.Abs(late-b.Late) >= OwnWorth {
			b.Late = math.Round(late)
		}
	}
	// The model is good to half a day; minutes would pretend to more.
	b.Emerges = b.hatching(s).Middle().Add(Hours(b.Late)).Round(time.Hour).UTC()
	if v == nil {
		return
	}
	for _, look := range v.looks { // whatever the model makes of it
		if most := !look.Some && 2*look.Out > look.Of; most && look.At.Before(b.Emerges) {
			at := look.At.Truncate(time.Hour).UTC()
			b.Late, b.Emerges = b.Late-b.Emerges.Sub(at).Hours(), at
		}
	}
}

// SafeUntil is how long the cells are safe where they are. It is worked out when asked: it
// is dear, and few batches are ever asked about.
func (b Batch) SafeUntil(s *Settings) time.Time { return b.Emergence(s).SafeUntil().UTC() }

// hatching is by the books when the queens come out. Once the cells are in their nucs no
// close hangs on it that loses them, and what was logged of the incubator before counts in
// full.
func (b Batch) hatching(s *Settings) Emergence {
	e := b.Emergence(s)
	e.Learnt = nil
	if !b.Moved.IsZero() {
		e.Shift = IncubatorShift(b.Grafted, b.Age, s.Incubator, func(t TempFrom) bool { return t.warm() || !t.At.After(b.Moved) }) + b.Warmed.Shift
		if first, some := earliestLot(b.Account.Moved); some { // those in nucs may come before the rest
			e.Shift += min(0, first.Shift-b.Warmed.Shift)
		}
	}
	return e
}

func (b *Batch) yard(name string) {
	if name != "" && !has(b.Yards, name) {
		b.Yards = append(b.Yards, name)
	}
}

func plus(a, b *int) *int {
	if a == nil {
		return b
	}
	if b == nil {
		return a
	}
	n := *a + *b
	return &n
}

// restIsSmall is the share of cells or queens that may be unaccounted for before
// a step that is done in parts counts as done: some are always culled.
const restIsSmall = 0.2

// Rest is how many of the batch are left to do at a step that may be done in
// parts (move, catch), 0 where the step counts as done or nothing is known.
func (b Batch) Rest(step Step) int {
	var had, got *int
	switch step {
	case Move:
		had, got = b.Counts.Capped, b.Counts.Moved
		if had == nil {
			had = b.Counts.Accepted
		}
	case Catch:
		had, got = b.Counts.Laying, b.Counts.Caught
	}
	if had == nil || got == nil {
		return 0
	}
	rest := *had - *got - b.Account.lostSince(step)
	if rest <= 2 || float64(rest) <= restIsSmall*float64(*had) {
		return 0
	}
	return rest
}
