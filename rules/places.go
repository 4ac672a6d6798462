package rules

import (
	"slices"
	"strconv"
	"time"
)

// Builder is a cell builder: a colony that starts and finishes cells.
type Builder struct {
	Name      string
	Yard      string
	Room      int         // how many cells it takes, 0 where nobody said
	Both      bool        // it starts and finishes its cells: they go to no finisher
	Rests     bool        // it is not to be grafted into
	Queenless time.Time   // since when by the newest line, zero where nobody said
	Brood     []time.Time // when brood or bees were given to it
}

// Yard is a mating yard.
type Yard struct {
	Name string
	Nucs int
}

// The queen is out of a builder for one to three days before a graft: the steps graft starter
// and rogue before have their sources; three days from memory.
const (
	QueenlessLeast = 24 * time.Hour
	QueenlessMost  = 72 * time.Hour
)

// FlowLine is one line about the honey flow: in a dearth nothing comes in and
// colonies are fed, in a flow they are not.
type FlowLine struct {
	Yard   string // "" for all yards
	Dearth bool
	Since  time.Time
}

// FlowLines reads the honey flow out of effective entries about it.
func FlowLines(entries []Entry) (out []FlowLine) {
	for _, e := range entries {
		if e.Action == Did && (e.Step == Dearth || e.Step == Flow) {
			out = append(out, FlowLine{e.Subject.Key, e.Step == Dearth, e.Happened})
		}
	}
	return out
}

// DearthAt says whether a yard is in a dearth by the newest line about it, and
// since when. A yard nobody said anything about is not.
func DearthAt(lines []FlowLine, yard string) (since time.Time, dearth bool) {
	for _, l := range lines {
		if l.Yard != "" && l.Yard != yard {
			continue
		}
		if l.Dearth && !dearth {
			since = l.Since
		}
		dearth = l.Dearth
	}
	return since, dearth
}

// BarRef is all that a builder's plan looks at in a batch whose cells it holds or held.
type BarRef struct {
	Batch, Breeder int
	Grafted, Moved time.Time
	Ended          bool
}

// Bar is the batch as its builder's plan sees it.
func (b Batch) Bar() BarRef {
	return BarRef{b.Number, b.Breeder, b.Grafted, b.Moved, b.Ended || b.Moved.IsZero() && b.Left()}
}

// Left reports whether no cells of the batch are in its builder any more: they all went
// into an incubator, and what the bees start there harms them no more.
func (b Batch) Left() bool {
	lots := b.Account.Lots
	return len(lots) > 0 && !slices.ContainsFunc(lots, func(l Lot) bool { return PlaceSubject(l.Place).Kind == BuilderKind })
}

// PlanBuilder derives a builder and its tasks from its own entries and the
// batches whose cells it holds or held.
func PlanBuilder(name string, entries []Entry, batches []BarRef, flow []FlowLine, s *Settings) (b Builder, exists bool, tasks []Task) {
	b, exists = FoldBuilder(name, entries)
	subject := BuilderSubject(name)
	clears := did(entries, Rogue)
	tasks = make([]Task, 0, len(batches)+1)
	var needsFood time.Time
	var feedFor BarRef
	for _, batch := range batches {
		tasks = append(tasks, rogueTask(subject, strconv.Itoa(batch.Batch), batch, clears, s))
		// Feed between graft and sealing.
		if until := batch.Grafted.Add(Hours(s.Table.Row(Capped, "").Best)); !batch.Ended && batch.Moved.IsZero() && until.After(needsFood) {
			needsFood, feedFor = until, batch
		}
	}
	if since, dearth := DearthAt(flow, b.Yard); dearth && feedFor.Batch > 0 {
		from := since
		if feedFor.Grafted.After(from) {
			from = feedFor.Grafted
		}
		if t := feedTask(subject, BuilderEater, 1, from, did(entries, Feed), s); t.Earliest.Before(needsFood) {
			t.Batch = feedFor.Batch
			tasks = append(tasks, t)
		}
	}
	held := false
	for _, batch := range batches {
		held = held || !batch.Ended && batch.Moved.IsZero()
	}
	for i, at := range b.Brood {
		if i == len(b.Brood)-1 { // it covers what was given before
			tasks = append(tasks, broodRogue(subject, at, held, clears, s))
		}
	}
	answers(tasks, entries, s)
	return b, exists, tasks
}

// FoldBuilder reads a builder out of its own effective entries. What a line of it does not
// speak of stays as it was, but for the yard of a line that says nothing else.
func FoldBuilder(name string, entries []Entry) (b Builder, exists bool) {
	b.Name = name
	for i := range entries {
		e := &entries[i]
		if e.Action != Did {
			continue
		}
		switch d := e.Detail; e.Step {
		case Add:
			exists = true
			if e.Into != "" || e.Count == nil && d.Both == nil && d.Rests == nil {
				b.Yard = e.Into
			}
			if e.Count != nil {
				b.Room = *e.Count
			}
			if d.Both != nil {
				b.Both = *d.Both
			}
			if d.Rests != nil {
				b.Rests = *d.Rests
			}
		case Queenless:
			b.Queenless = e.Happened
		case Brood:
			b.Brood = append(b.Brood, e.Happened)
		}
	}
	return b, exists
}

// broodRogue is the search for cells that the bees start on brood that was given to them. It
// stands whether cells hang there or not: a queen from such a cell kills the next bar as well.
func broodRogue(subject Subject, at time.Time, held bool, clears []*Entry, s *Settings) Task {
	row := s.Table.Row(Rogue, "brood")
	t := Task{Subject: subject, Occ: "b" + strconv.FormatInt(at.Unix(), 10), State: Open, Reason: "brood", Anchor: at}.with(row)
	t.Earliest, t.Ideal, t.Latest = row.Window(at)
	if !held {
		t.Weight = Important
	}
	t.fit(s)
	for _, c := range clears {
		if !c.Happened.Before(t.Earliest.Add(-RogueEarly)) {
			t.State = Done
		}
	}
	return t
}

// rogueTask is the search for cells the bees started themselves. It sits on the
// builder, or on the batch where no builder is known.
func rogueTask(subject Subject, occ string, batch BarRef, clears []*Entry, s *Settings) Task {
	row := s.Table.Row(Rogue, "")
	t := Task{Subject: subject, Occ: occ, State: Open, Reason: "grafted", Anchor: batch.Grafted, Batch: batch.Batch, Breeder: batch.Breeder}.with(row)
	t.Earliest, t.Ideal, t.Latest = row.Window(batch.Grafted)
	t.fit(s)
	for _, c := range clears {
		// A search soon after the graft proves nothing: a cell can still be begun.
		if !c.Happened.Before(t.Earliest.Add(-RogueEarly)) && (batch.Moved.IsZero() || c.Happened.Before(batch.Moved)) {
			t.State = Done
		}
	}
	if t.State == Open && (batch.Ended || !batch.Moved.IsZero()) {
		t.State = Passed
	}
	return t
}

// RogueEarly is how long before its window a search of the builder still counts.
// Common practice.
const RogueEarly = 24 * time.Hour

// feedTask is the next feeding of a subject on which so many eaters live. Where the
// last line about it says how much was given, it comes when that runs dry, else after
// the usual time.
func feedTask(subject Subject, e Eater, eaters int, from time.Time, fed []*Entry, s *Settings) Task {
	// Named by the start of the dearth: a feed skipped in one must not count as
	// skipped in the next.
	reason, occ, litres := "dearth", "d"+strconv.FormatInt(from.Unix(), 10), 0.0
	for _, f := range fed {
		if !f.Happened.Before(from) {
			from, reason, occ, litres = f.Happened, "fed", strconv.FormatInt(f.ID, 10), f.Detail.PerEater(eaters)
		}
	}
	t := Task{Subject: subject, Occ: occ, State: Open, Reason: reason, Anchor: from}
	if litres > 0 {
		if t, ok := t.refill(e, litres, s); ok {
			return t
		}
	}
	row := s.Table.Row(Feed, e.variant())
	t = t.with(row)
	t.Earliest, t.Ideal, t.Latest = row.Window(from)
	if reason == "dearth" {
		// Nothing was given yet: now is the time.
		t.Earliest, t.Ideal = from, from.Add(t.Ideal.Sub(t.Earliest)/2)
	}
	t.fit(s)
	return t
}

// PlanYard derives a mating yard and its tasks.
func PlanYard(name string, entries []Entry, flow []FlowLine, s *Settings) (y Yard, exists bool, tasks []Task) {
	y.Name = name
	for _, e := range did(entries, Add) {
		exists = true
		if e.Count != nil {
			y.Nucs = *e.Count
		}
	}
	if since, dearth := DearthAt(flow, name); dearth && y.Nucs > 0 {
		tasks = append(tasks, feedTask(YardSubject(name), NucEater, y.Nucs, since, did(entries, Feed), s))
	}
	answers(tasks, entries, s)
	return y, exists, tasks
}

// LooseRogue is the search of the builder for a batch of which the builder is not known.
func LooseRogue(b Batch, entries []Entry, s *Settings) Task {
	t := rogueTask(BatchSubject(b.Number), "", b.Bar(), did(entries, Rogue), s)
	list := []Task{t}
	answers(list, entries, s)
	return list[0]
}
