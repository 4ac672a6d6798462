package rules

import "time"

// RoundState is a planned round of an order as it stands: what came of it and what
// is still to be grafted.
type RoundState struct {
	BookedRoundTimes
	Number  int // counts from 1
	Combs   []Comb
	Batches []Batch
	Left    []PlannedBatch // not grafted yet
	Gone    bool           // nothing will come of what is left
}

// TailAfter is how long after a round's last graft another of its builders may still
// be grafted: the comb's window is hardly longer. Derived from the graft row of
// steps.csv.
const TailAfter = 48 * time.Hour

// OrderState is how the rounds of an order stand at now. combs are those of each
// breeder, batches all of the crew; skipped says whether a breeder's part of a round,
// by its occurrence, was let go.
func OrderState(b Booked, book []Booked, combs map[int][]Comb, batches []Batch, skipped func(breeder int, occ string) bool, now time.Time) []RoundState {
	out := make([]RoundState, len(b.Rounds))
	byNumber := map[int]Batch{}
	for _, x := range batches {
		byNumber[x.Number] = x
	}
	off := make([]int, len(b.Rounds))
	for i, r := range b.Rounds {
		out[i] = RoundState{BookedRoundTimes: r, Number: i + 1}
	}
	seen := map[int]bool{}
	for _, r := range b.Rounds {
		for _, n := range r.Breeders {
			if seen[n] {
				continue
			}
			seen[n] = true
			// Rounds of other orders take part: a comb goes to the nearest of all.
			planned := PlannedOf(book, n)
			var grafts []GraftRef
			for _, x := range batches {
				if x.Breeder == n {
					grafts = append(grafts, x.GraftRef())
				}
			}
			for i, real := range Fulfil(planned, combs[n], grafts) {
				if planned[i].Order != b.Number {
					continue
				}
				st := &out[planned[i].Round-1]
				st.Combs = append(st.Combs, real.Combs...)
				for _, k := range real.Batches {
					st.Batches = append(st.Batches, byNumber[k])
				}
				if skipped(n, planned[i].Occ()) && len(real.Combs) == 0 {
					off[planned[i].Round-1]++
				}
			}
		}
	}
	for i := range out {
		out[i].settle(off[i], b.Cancelled, now)
	}
	return out
}

// settle works out what of a round is still to come.
func (st *RoundState) settle(off int, cancelled bool, now time.Time) {
	left := append([]PlannedBatch(nil), st.Round.Batches...)
	take := func(fits func(PlannedBatch) bool) bool {
		for i, p := range left {
			if fits(p) {
				left = append(left[:i], left[i+1:]...)
				return true
			}
		}
		return false
	}
	until := st.Confined.Add(RoundNear)
	for _, c := range st.Combs {
		if at := c.Confined.Add(st.Graft.Sub(st.Confined)).Add(RoundNear); !c.Failed {
			until = later(until, at)
		}
	}
	for i, x := range st.Batches {
		if i == 0 {
			until = x.Grafted.Add(TailAfter)
		}
		until = later(until, x.Grafted.Add(TailAfter))
		if _, counted := PartOf(x); !counted {
			continue // what is planned stands for it until its number is known
		}
		if !take(func(p PlannedBatch) bool { return p.Builder == x.Builder }) {
			take(func(PlannedBatch) bool { return true })
		}
	}
	st.Gone = cancelled || now.After(until) || len(st.Batches) == 0 && off > 0 && off == len(st.Breeders)
	if !st.Gone {
		st.Left = left
	}
}

// PartsOf are the parts of an order as its rounds stand.
func PartsOf(rounds []RoundState, u Unit, s *Settings) (out []Part) {
	for _, r := range rounds {
		for _, x := range r.Batches {
			if p, ok := PartOf(x); ok {
				p.Span = x.nucsWhile(s)
				out = append(out, p)
			}
		}
		left := r.Round
		left.Batches = r.Left
		out = append(out, Plan{Order: Order{Unit: u}, Rounds: []Round{left}}.Parts()...)
	}
	return out
}

// nucsWhile is from when until when the cells of a batch that are not moved yet will need
// nucs, zero where its own are made up or its cells are in.
func (b Batch) nucsWhile(s *Settings) (out Span) {
	if !b.Moved.IsZero() || b.Counts.Nucs != nil || b.Ended {
		return out
	}
	_, out.Earliest, _ = s.Table.Row(Move, "").Window(b.Grafted)
	_, out.Latest, _ = s.Table.Row(Catch, "").Window(b.Emerges)
	return out
}

// Unlikely is the chance below which an order is more likely to fail than not, or,
// where the crew took a plan of little confidence, below three fifths of that. The
// crew is told when a count takes an order below it.
func Unlikely(confidence float64) float64 { return min(0.5, 0.6*confidence) }

// Fell reports that an order has become unlikely, or more so: its chance went below the
// bound, or lies below it and lost another fifth of a tenth or more.
func Fell(before, after, bound float64) bool {
	return after < bound && (before >= bound || before >= 0.1 && after <= 0.8*before)
}
