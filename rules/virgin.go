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
	if seen.IsZero() || b.Singly() { // where each is caged she kills none
		return
	}
	t.Reason, t.Anchor = "virgin", seen
	t.Ideal, t.Best, t.Latest, t.Unfit = seen, seen, seen.Add(VirginMove), false
	if t.Earliest.After(seen) {
		t.Earliest = seen
	}
}

// MoreToCome reports whether a count of emerged queens leaves so many that more may come:
// taken for the last one, it would write off all that hatch a few hours later.
func (b Batch) MoreToCome(e Entry, s *Settings) bool {
	if e.Step != Emerge || e.Count == nil || *e.Count == 0 || b.Moved.IsZero() || !e.Happened.Before(b.Emerges.Add(Hours(s.Table.Row(Emerge, "").Best))) {
		return false
	}
	had := e.Of
	if had == nil {
		had = b.Account.At(e.Into).Count(Move)
	}
	if had == nil {
		had = b.Counts.Moved
	}
	return had != nil && float64(*had-*e.Count) > restIsSmall*float64(*had)
}

// Unfinished reports whether a count of emerged queens is not the last one.
func (d Detail) Unfinished() bool { return d.NoneYet || d.More }

// Emergence is asked after when its count teaches most while the crew's own cells are not
// known: about the middle, which for larvae of 12-24 h is 295 h after the graft. Derived: by
// the table's hour, a day on, the books have all of them out.
const (
	teachFrom = -7.0
	teachBest = 0.0
)

// Teaches reports whether the look for a batch's queens is asked for at an hour that teaches:
// the crew's own cells are not known yet, and it has no hours of its own for the look.
func (b Batch) Teaches(s *Settings) bool {
	own := s.Table.Row(Emerge, "") != DefaultTable().Row(Emerge, "")
	return !own && (b.Learnt == nil || b.Learnt.Looks < KnownLooks)
}

// teach brings the look for emerged queens forward to such an hour.
func (t *Task) teach(b Batch, s *Settings) {
	if !b.Teaches(s) {
		return
	}
	t.Earliest, t.Ideal = b.Emerges.Add(Hours(teachFrom)), b.Emerges.Add(Hours(teachBest))
}

// lookAgain sets a look for emerged queens after the last one that did not find all.
func (t *Task) lookAgain(b Batch, entries []Entry, s *Settings) {
	for _, e := range did(entries, Emerge) {
		next := e.Happened.Add(12 * time.Hour)
		if e.Detail.More {
			next = later(next, b.Emerges.Add(Hours(s.Table.Row(Emerge, "").Best)))
		}
		if e.Detail.Unfinished() && next.After(t.Ideal) {
			t.Ideal = clampTime(next, t.Earliest, t.Latest)
		}
	}
}
