package rules

import (
	"sort"
	"time"
)

// Place is something that holds batches or queens: a builder (one batch at a
// time, Size 1, of up to Cells grafts) or a mating yard (Size nucs). With From a
// yard can grow or shrink through the season: the newest size counts.
type Place struct {
	Subject Subject
	Size    int
	Cells   int       // builder: grafts it takes at once, 0 for CellsPerBuilder
	From    time.Time // zero: always
}

// CellsPerBuilder is how many grafts a builder takes where the crew has not said:
// common practice for a large colony; it lies between the 100 of a May flow and the
// 15-20 of a September dearth in Penn State Entomology 2020, cell builder basics.
const CellsPerBuilder = 40

// Use takes N of a place from one instant to another, the end not included.
type Use struct {
	Place    Subject
	N        int
	From, To time.Time
	For      Subject // batch or order
}

// Calendar is the places of a crew and what is taken of them.
type Calendar struct {
	Places []Place
	Uses   []Use
}

// Add gives the calendar with more uses; the receiver is left as it was.
func (c Calendar) Add(uses ...Use) Calendar {
	c.Uses = append(c.Uses[:len(c.Uses):len(c.Uses)], uses...)
	return c
}

// Level is how many of a place are taken from an instant on, until the next level.
type Level struct {
	At   time.Time
	Used int
}

// Levels is the occupancy of a place through time, in order, from the first use
// to the last, where it is 0 again. A nuc that is freed and taken at the same
// instant is not counted twice.
func (c Calendar) Levels(place Subject) []Level {
	type step struct {
		at time.Time
		n  int
	}
	var steps []step
	for _, u := range c.Uses {
		if u.Place == place && u.N > 0 && u.From.Before(u.To) {
			steps = append(steps, step{u.From, u.N}, step{u.To, -u.N})
		}
	}
	sort.SliceStable(steps, func(i, j int) bool { return steps[i].at.Before(steps[j].at) })
	var out []Level
	used := 0
	for i, s := range steps {
		used += s.n
		if i+1 < len(steps) && steps[i+1].at.Equal(s.at) {
			continue
		}
		if len(out) > 0 && out[len(out)-1].Used == used {
			continue
		}
		out = append(out, Level{s.at, used})
	}
	return out
}

// size of a place at an instant.
func (c Calendar) size(place Subject, at time.Time) int {
	n := 0
	var since time.Time
	for _, p := range c.Places {
		if p.Subject == place && !p.From.After(at) && !p.From.Before(since) {
			n, since = p.Size, p.From
		}
	}
	return n
}

// changes are the instants in [from, to) at which the size or the use of a place
// may change, from itself first.
func (c Calendar) changes(place Subject, levels []Level, from, to time.Time) []time.Time {
	at := []time.Time{from}
	for _, l := range levels {
		if l.At.After(from) && l.At.Before(to) {
			at = append(at, l.At)
		}
	}
	for _, p := range c.Places {
		if p.Subject == place && p.From.After(from) && p.From.Before(to) {
			at = append(at, p.From)
		}
	}
	sort.Slice(at, func(i, j int) bool { return at[i].Before(at[j]) })
	return at
}

func usedAt(levels []Level, t time.Time) int {
	i := sort.Search(len(levels), func(i int) bool { return levels[i].At.After(t) })
	if i == 0 {
		return 0
	}
	return levels[i-1].Used
}

// Free is how many of a place are free throughout [from, to), never negative,
// and when the fewest are.
func (c Calendar) Free(place Subject, from, to time.Time) (n int, tightest time.Time) {
	return c.free(place, c.Levels(place), from, to)
}

func (c Calendar) free(place Subject, levels []Level, from, to time.Time) (n int, tightest time.Time) {
	for i, t := range c.changes(place, levels, from, to) {
		if f := c.size(place, t) - usedAt(levels, t); i == 0 || f < n {
			n, tightest = f, t
		}
	}
	return max(n, 0), tightest
}

// Peak is the most that is taken of a place in [from, to) and when that is first.
func (c Calendar) Peak(place Subject, from, to time.Time) (n int, at time.Time) {
	levels := c.Levels(place)
	for i, t := range c.changes(place, levels, from, to) {
		if u := usedAt(levels, t); i == 0 || u > n {
			n, at = u, t
		}
	}
	return n, at
}

// Break is a place asked for more than it has: the first local day, and the
// numbers on it. Kind is NoKind and Place zero where time itself is short.
type Break struct {
	Place Subject
	Day   Date
	At    time.Time
	Have  int
	Need  int
}

// FirstBreak is the first instant at which any place is asked for more than it
// has, nil where all fits. A use of a place that is not in the calendar breaks too.
func (c Calendar) FirstBreak(zone *time.Location) *Break {
	var first *Break
	seen := map[Subject]bool{}
	for _, u := range c.Uses {
		if seen[u.Place] {
			continue
		}
		seen[u.Place] = true
		levels := c.Levels(u.Place)
		if len(levels) == 0 {
			continue
		}
		for _, t := range c.changes(u.Place, levels, levels[0].At, levels[len(levels)-1].At) {
			have, need := c.size(u.Place, t), usedAt(levels, t)
			if need > have {
				if first == nil || t.Before(first.At) {
					first = &Break{u.Place, DateOf(t, zone), t, have, need}
				}
				break
			}
		}
	}
	return first
}

// BatchUses is what a batch that is in the logbook takes: its builder from a day
// before the graft until the cells move, and nucs in each yard from the move to
// the catch. entries are its effective ones. Until cells are moved the nucs made
// up for it count, and until those are known its cells do, in yard, "" for none.
func BatchUses(b Batch, entries []Entry, yard string, s *Settings) []Use {
	if b.Grafted.IsZero() {
		return nil
	}
	me := BatchSubject(b.Number)
	em := b.Emergence(s)
	_, move, out := MoveWindow(em, s.Table.Row(Move, ""), s.MoveAt)
	if !b.Moved.IsZero() {
		out = b.Moved
	}
	var uses []Use
	ended := b.Ended && b.Moved.IsZero()
	if b.Builder != "" && !ended {
		uses = append(uses, Use{BuilderSubject(b.Builder), 1, builderFrom(b.Grafted, s), out, me})
	}
	if ended || b.Ended {
		return uses
	}
	_, caught, _ := s.Table.Row(Catch, "").Window(b.Emerges)
	in := map[string]int{}
	take := func(step Step, sign int) {
		for _, e := range did(entries, step) {
			if e.Count != nil && e.Into != "" {
				in[e.Into] += sign * *e.Count
			}
		}
	}
	from := move
	take(Move, 1)
	if len(in) > 0 {
		from = b.Moved
	} else {
		take(Nucs, 1)
	}
	if n := b.Counts.Cells(); len(in) == 0 && n != nil && yard != "" {
		in[yard] = *n
	}
	for _, e := range did(entries, Catch) {
		// Caught nucs are free from then on; what is left in them waits on.
		if e.Count != nil && in[e.Into] > 0 {
			n := min(*e.Count, in[e.Into])
			uses = append(uses, Use{YardSubject(e.Into), n, from, e.Happened, me})
			in[e.Into] -= n
		}
	}
	names := make([]string, 0, len(in))
	for name := range in {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		if in[name] > 0 {
			uses = append(uses, Use{YardSubject(name), in[name], from, caught, me})
		}
	}
	return uses
}

// builderFrom is when a builder is taken for a graft: when it is made the starter.
func builderFrom(grafted time.Time, s *Settings) time.Time {
	return grafted.Add(Hours(s.Table.Row(Graft, "starter").Best))
}
