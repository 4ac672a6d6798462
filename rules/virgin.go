package rules

import "time"

// VirginMove is how long after a virgin was reported the other cells should be safe, in
// nucs or cages: then the crew is told again (our choice).
const VirginMove = time.Hour

// ripeFrom is how long after the graft a virgin may be one of the batch's own: a larva
// that was three days old when it was grafted. One that is out before comes of a cell
// that the bees built themselves. Derived from FirstVirgin.
const ripeFrom = FirstVirgin - 48*time.Hour

// AmongCells reports whether a virgin that is out at a time may be among cells of the
// batch: they are there, and not all of them were moved. Two days after most should
// have hatched none can be left.
func (b Batch) AmongCells(at time.Time, s *Settings) bool {
	if b.Ended || at.Before(b.Grafted) || !b.Moved.IsZero() && b.Rest(Move) == 0 {
		return false
	}
	return at.Before(b.checkUntil(s))
}

// Ripe reports whether virgins of the batch's own may be out at a time.
func (b Batch) Ripe(at time.Time) bool { return !at.Before(b.Grafted.Add(ripeFrom)) }

// checkUntil is when the look for emerged queens closes.
func (b Batch) checkUntil(s *Settings) time.Time {
	_, _, latest := s.Table.Row(Emerge, "").Window(b.Emerges)
	return latest
}

// NoneYet reports whether a count of no queens emerged says that none is out yet, and
// not that none will be: virgins may still come.
func (b Batch) NoneYet(e Entry, s *Settings) bool {
	return e.Step == Emerge && e.Count != nil && *e.Count == 0 && e.Happened.Before(b.checkUntil(s))
}

// hurry brings a move forward to when a virgin was last reported among its cells: the
// others are killed, or out themselves, within hours.
func (t *Task) hurry(b Batch, entries []Entry) {
	var seen time.Time
	for _, e := range did(entries, Virgin) {
		at := later(e.Happened, e.Said).Truncate(time.Minute).UTC()
		if b.Ripe(e.Happened) && at.Add(VirginMove).Before(t.Latest) {
			seen = at
		}
	}
	if seen.IsZero() {
		return
	}
	t.Reason, t.Anchor = "virgin", seen
	t.Ideal, t.Best, t.Latest, t.Unfit = seen, seen, seen.Add(VirginMove), false
	if t.Earliest.After(seen) {
		t.Earliest = seen
	}
}

// lookAgain sets a look for emerged queens after the last one that found none.
func (t *Task) lookAgain(entries []Entry) {
	for _, e := range did(entries, Emerge) {
		if next := e.Happened.Add(12 * time.Hour); e.Detail.NoneYet && next.After(t.Ideal) {
			t.Ideal = clampTime(next, t.Earliest, t.Latest)
		}
	}
}
