package rules

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Booking is a plan as the logbook keeps it: what was asked for and the rounds that
// were accepted. All else follows from it and from the crew's settings.
type Booking struct {
	Unit       Unit          `json:"unit"`
	By         int64         `json:"by"` // UTC milliseconds
	Confidence float64       `json:"confidence"`
	BeesIn     bool          `json:"bees,omitempty"`
	Cells      int           `json:"cells"` // the move is safe for so many a builder
	Rounds     []BookedRound `json:"rounds"`
	Batches    []Promise     `json:"batches,omitempty"` // on the way already, counted first
}

// Promise is so many of a batch's queens or cells that are an order's: those that come
// after the first After, which are gone or another order's.
type Promise struct {
	Batch int `json:"batch"`
	N     int `json:"n"`
	After int `json:"after,omitempty"`
}

// BookedRound is one planned round in a booking.
type BookedRound struct {
	Confine  int64         `json:"confine"`         // UTC milliseconds
	Comb     int64         `json:"comb,omitempty"`  // the comb that was in when it was planned
	Graft    int64         `json:"graft,omitempty"` // from that comb, UTC milliseconds
	Breeders []int         `json:"breeders,omitempty"`
	Batches  []BookedBatch `json:"batches"`
}

// BookedBatch is one builder's share of a planned round.
type BookedBatch struct {
	Builder string   `json:"builder,omitempty"`
	Grafts  int      `json:"grafts"`
	Nucs    []NucsIn `json:"nucs,omitempty"`
}

// Book puts a plan into the form in which it is logged.
func (p Plan) Book(l Limits) Booking {
	b := Booking{Unit: p.Order.Unit, By: p.Order.By.UnixMilli(), Confidence: p.Confidence, BeesIn: l.BeesIn, Batches: p.From, Rounds: []BookedRound{}}
	for _, r := range p.Rounds {
		k := BookedRound{Confine: r.Confined.UnixMilli(), Breeders: r.Breeders}
		if r.Comb != nil {
			k.Comb, k.Graft = r.Comb.ID, r.Graft.UnixMilli()
		}
		for _, x := range r.Batches {
			k.Batches = append(k.Batches, BookedBatch{x.Builder, x.Grafts, x.Nucs})
		}
		b.Cells = r.Cells
		b.Rounds = append(b.Rounds, k)
	}
	return b
}

// rounds works out the times of a booking's rounds.
func (b Booking) rounds(f *fitter) (out []Round) {
	for _, k := range b.Rounds {
		r := Round{RoundTimes: f.times(millis(k.Confine), b.BeesIn, max(b.Cells, 1)), Breeders: k.Breeders}
		if k.Comb != 0 {
			r.RoundTimes = f.grafted(Comb{ID: k.Comb, Confined: millis(k.Confine), BeesIn: &b.BeesIn}, millis(k.Graft), max(b.Cells, 1))
		}
		for _, x := range k.Batches {
			r.Batches = append(r.Batches, PlannedBatch{Builder: x.Builder, Grafts: x.Grafts, Nucs: x.Nucs})
		}
		r.Combs = len(r.Breeders)
		out = append(out, r)
	}
	return out
}

// Uses are what a booking's rounds take of the crew's places.
func (b Booking) Uses(order int, s *Settings) (out []Use) {
	for _, r := range b.rounds(newFitter(s)) {
		out = append(out, RoundUses(order, r, s)...)
	}
	return out
}

// Booked is an order of the crew with the plans that were accepted for it.
type Booked struct {
	Order
	Confidence float64
	BeesIn     bool
	Entry      int64  // the line that accepted it
	Who        string // accepted it
	Accepted   time.Time
	Cancelled  bool
	Rounds     []BookedRoundTimes // in the order in which they were accepted
	Batches    []Promise
}

// BookedRoundTimes is a planned round with its times and since when it is planned.
type BookedRoundTimes struct {
	Round
	Since time.Time
}

// BookedOf reads order n out of its effective entries: the first line accepts it,
// later ones add rounds. exists is false where it was never accepted, or that was
// taken back.
func BookedOf(n int, entries []Entry, s *Settings) (b Booked, exists bool) {
	f := newFitter(s)
	for _, e := range entries {
		if e.Step != Ordered {
			continue
		}
		if e.Action == Skip {
			b.Cancelled = true
		}
		k := e.Detail.Plan
		if e.Action != Did || k == nil {
			continue
		}
		if !exists {
			exists = true
			b.Order = Order{Number: n, Unit: k.Unit, By: millis(k.By)}
			if e.Count != nil {
				b.Want = *e.Count
			}
			b.Confidence, b.BeesIn, b.Entry, b.Who, b.Accepted = k.Confidence, k.BeesIn, e.ID, e.By, e.Happened
		}
		b.Batches = append(b.Batches, k.Batches...)
		for _, r := range k.rounds(f) {
			b.Rounds = append(b.Rounds, BookedRoundTimes{r, e.Happened})
		}
	}
	return b, exists
}

// RoundNear is how far from its plan a confinement, or a graft where no comb is
// known, still belongs to a planned round: half of the week that lies between two
// rounds, less half a day. Common practice.
const RoundNear = 72 * time.Hour

// PlannedRound is one breeder's part of a planned round of an order.
type PlannedRound struct {
	Order, Round int // Round counts from 1
	Breeder      int
	Grafts       int    // from her comb
	Into         string // its builders, parted by YardSep
	BeesIn       bool
	Since        time.Time
	RoundTimes
}

// comb is the one that was in when the round was planned, 0 where she is to be confined.
func (p PlannedRound) comb() int64 {
	if p.Comb == nil {
		return 0
	}
	return p.Comb.ID
}

// Occ tells apart the tasks of planned rounds: "o2.1" is round 1 of order 2.
func (p PlannedRound) Occ() string { return fmt.Sprintf("o%d.%d", p.Order, p.Round) }

// OrderOfTask is the order and the round that a planned task belongs to, 0 for none.
func OrderOfTask(t Task) (order, round int) {
	o, r, ok := strings.Cut(strings.TrimPrefix(t.Occ, "o"), ".")
	if !ok || !strings.HasPrefix(t.Occ, "o") {
		return 0, 0
	}
	order, _ = strconv.Atoi(o)
	round, _ = strconv.Atoi(r)
	return order, round
}

// PlannedOf are a breeder's parts of the planned rounds of all orders that stand.
func PlannedOf(book []Booked, breeder int) (out []PlannedRound) {
	for _, b := range book {
		for i, r := range b.Rounds {
			var into []string
			for _, k := range r.Batches {
				if k.Builder != "" {
					into = append(into, k.Builder)
				}
			}
			for _, n := range r.Breeders {
				if n == breeder && !b.Cancelled {
					grafts := (r.Grafts() + len(r.Breeders) - 1) / len(r.Breeders)
					out = append(out, PlannedRound{b.Number, i + 1, n, grafts, strings.Join(into, YardSep), b.BeesIn, r.Since, r.RoundTimes})
				}
			}
		}
	}
	return out
}

// Real is what a planned round of a breeder came to: her combs confined for it and
// the batches grafted from them.
type Real struct {
	Combs   []Comb
	Batches []int
}

// Fulfil gives each of a breeder's combs and grafts to the planned round it is
// nearest to, if any is near enough. A comb that was in before the round was planned
// is none of it, nor is a graft from such a comb, unless the round was planned from that
// comb. What comes back is in the order of
// the planned rounds.
func Fulfil(planned []PlannedRound, combs []Comb, grafts []GraftRef) []Real {
	out := make([]Real, len(planned))
	of := map[int64]int{} // which round a comb is for, counted from 1
	nearest := func(at time.Time, when func(PlannedRound) time.Time) int {
		best := -1
		for i, p := range planned {
			d := dist(at, when(p))
			if d <= RoundNear && !at.Before(p.Since) && p.comb() == 0 && (best < 0 || d < dist(at, when(planned[best]))) {
				best = i
			}
		}
		return best
	}
	for _, c := range combs {
		if i := slices.IndexFunc(planned, func(p PlannedRound) bool { return p.comb() == c.ID }); i >= 0 {
			out[i].Combs = append(out[i].Combs, c)
			of[c.ID] = i + 1
			continue
		}
		if i := nearest(c.Confined, func(p PlannedRound) time.Time { return p.Confined }); i >= 0 {
			out[i].Combs = append(out[i].Combs, c)
			of[c.ID] = i + 1
		}
	}
	for _, g := range grafts {
		i := of[g.Comb] - 1
		if g.Comb == 0 {
			i = nearest(g.At, func(p PlannedRound) time.Time { return p.Graft })
		}
		if i >= 0 {
			out[i].Batches = append(out[i].Batches, g.Batch)
		}
	}
	return out
}

// PlannedTasks are the tasks of a breeder's planned rounds: confine, comb out and
// graft, until the real comb has its own. entries are the breeder's effective ones.
func PlannedTasks(planned []PlannedRound, combs []Comb, grafts []GraftRef, entries []Entry, s *Settings) (out []Task) {
	real, gone := Fulfil(planned, combs, grafts), Retired(entries)
	for i, p := range planned {
		var tasks []Task
		for _, t := range p.Tasks(p.Breeder, p.BeesIn, max(p.Grafts, 1), s) {
			if t.Subject != BreederSubject(p.Breeder) || t.Step != Confine && t.Step != CombOut && t.Step != Graft {
				continue
			}
			t.Occ, t.Reason, t.Anchor = p.Occ(), "planned", p.Confined
			t.Key = TaskKey(t.Subject, t.Step, t.Occ)
			if t.Step == Graft {
				n := p.Grafts
				t.Count, t.Into = &n, p.Into
			}
			tasks = append(tasks, t)
		}
		answers(tasks, entries, s)
		confined, grafted := len(real[i].Combs) > 0, len(real[i].Batches) > 0
		off := false
		for _, t := range tasks {
			switch t.Step {
			case Confine:
				if confined && t.State == Open {
					t.State = Done
				} else if grafted && t.State == Open {
					t.State = Passed
				}
				off = t.State == Skipped
			default:
				if confined {
					continue // the comb that is in has tasks of its own
				}
				if t.State == Open && (off || grafted) {
					t.State = Passed
				}
				if t.Step == Graft && grafted {
					t.State, t.Batch = Done, real[i].Batches[0]
				}
			}
			if gone != nil && t.State == Open {
				t.State = Passed
			}
			out = append(out, t)
		}
	}
	return out
}
