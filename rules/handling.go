package rules

import (
	"slices"
	"time"
)

// Handling says of nucs that stand alike whether they may be opened, and how long that
// holds.
type Handling struct {
	NucLot
	State NucState  // as it is by now: a cell is a virgin once most of them are out
	Alone bool      // leave them shut
	Until time.Time // when that changes, zero where it does not
	Next  Step      // the look that is due from then on, or now where they may be opened
}

// Handle says which nucs of a yard to open at an instant, and which to leave alone: cells
// until they can be looked at for emergence, virgins while they fly. The hours are those of
// the batch's own windows (steps.csv).
func (c *Crew) Handle(yard string, now time.Time) (out []Handling) {
	for _, l := range c.Board(yard).Lots {
		if l.State.Lost() {
			continue
		}
		h := Handling{NucLot: l, State: l.State}
		if b, known := c.batches[l.Batch]; known && (l.State == NucCell || l.State == NucVirgin) {
			c.shut(&h, b, now)
		}
		switch {
		case l.State == NucLaying:
			h.Next = Catch
		case l.State.Open():
			h.Next = Recell
		}
		out = append(out, h)
	}
	return out
}

// shut follows a virgin from the cell to her first eggs.
func (c *Crew) shut(h *Handling, b Batch, now time.Time) {
	task := func(step Step) Task {
		k, _ := c.Task(TaskKey(BatchSubject(b.Number), step, ""))
		return k
	}
	emerge, flights := task(Emerge), task(Flights)
	if h.State == NucCell && !now.Before(b.Emerges) {
		h.State = NucVirgin
	}
	switch {
	case h.State == NucCell && now.Before(emerge.Earliest):
		h.Alone, h.Until, h.Next = true, emerge.Earliest, Emerge
	case now.Before(flights.Earliest):
		h.Until, h.Next = flights.Earliest, Emerge
	case now.Before(flights.Latest):
		h.Alone, h.Until, h.Next = true, flights.Latest, Laying
	default:
		h.Next = Laying
	}
}

// HandleGroups puts together the nucs that may be opened, or have to be left alone, until the
// same time: those to leave alone first, then by that time.
func HandleGroups(list []Handling) (out [][]Handling) {
	for _, h := range list {
		i := slices.IndexFunc(out, func(g []Handling) bool { return g[0].Alone == h.Alone && g[0].Until.Equal(h.Until) })
		if i < 0 {
			out = append(out, []Handling{h})
			continue
		}
		out[i] = append(out[i], h)
	}
	slices.SortStableFunc(out, func(a, b []Handling) int {
		switch x, y := a[0], b[0]; {
		case x.Alone != y.Alone && x.Alone:
			return -1
		case x.Alone != y.Alone:
			return 1
		case x.Until.IsZero() != y.Until.IsZero():
			if x.Until.IsZero() {
				return 1
			}
			return -1
		default:
			return x.Until.Compare(y.Until)
		}
	})
	return out
}
