package rules

import "time"

// startMargin is how long before the end of the working day a job may still be
// begun; beforeClose is how much working time must be left before a window closes.
const (
	startMargin = time.Hour
	beforeClose = 2 * time.Hour
)

// workDay gives the working hours of a local day, ok false on a day off.
func (s *Settings) workDay(d Date) (from, to time.Time, ok bool) {
	if s.DaysOff[d.Weekday()] || s.WorkTo <= s.WorkFrom {
		return from, to, false
	}
	return At(d, s.WorkFrom, s.Zone), At(d, s.WorkTo, s.Zone), true
}

// WorkBetween is how much working time lies between two instants.
func (s *Settings) WorkBetween(a, b time.Time) time.Duration {
	var sum time.Duration
	for d := DateOf(a, s.Zone); !DayStart(d, s.Zone).After(b); d = d.Add(1) {
		from, to, ok := s.workDay(d)
		if !ok {
			continue
		}
		if from.Before(a) {
			from = a
		}
		if to.After(b) {
			to = b
		}
		if to.After(from) {
			sum += to.Sub(from)
		}
	}
	return sum
}

// FitWork shifts the best time of a window to the nearest working time inside it
// that leaves at least two working hours before the close. ok is false where
// there is none; the window is then shown as it is and the crew is warned.
func (s *Settings) FitWork(earliest, best, latest time.Time) (fit time.Time, ok bool) {
	last, ok := s.lastStart(earliest, latest)
	if !ok {
		return best, false
	}
	first, final, middle := DateOf(earliest, s.Zone), DateOf(last, s.Zone), DateOf(best, s.Zone)
	// Days lie one after another, so that of those up to the middle and of those after it
	// the nearest that will do is the best. Of two as near the earlier one is.
	var found time.Time
	try := func(d Date) (t time.Time, ok bool) {
		t, ok = s.startOn(d, earliest, best, last)
		if near := dist(t, best); ok && (found.IsZero() || near < dist(found, best) || near == dist(found, best) && t.Before(found)) {
			found = t
		}
		return t, ok
	}
	for d := middle; !d.Before(first); d = d.Add(-1) {
		if final.Before(d) {
			continue
		}
		if t, ok := try(d); ok && !t.After(best) {
			break
		}
	}
	for d := middle.Add(1); !final.Before(d) && !found.Equal(best); d = d.Add(1) {
		if d.Before(first) {
			continue
		}
		if _, ok := try(d); ok {
			break
		}
	}
	if found.IsZero() {
		return best, false
	}
	return found, true
}

// lastStart is the latest instant that leaves enough working time before a window
// closes; ok is false where there is none in the window.
func (s *Settings) lastStart(earliest, latest time.Time) (at time.Time, ok bool) {
	missing := beforeClose
	first := DateOf(earliest, s.Zone)
	for d := DateOf(latest, s.Zone); !d.Before(first); d = d.Add(-1) {
		from, to, ok := s.workDay(d)
		if !ok {
			continue
		}
		if to.After(latest) {
			to = latest
		}
		if left := to.Sub(from); left >= missing {
			at = to.Add(-missing)
			return at, !at.Before(earliest)
		} else if left > 0 {
			missing -= left
		}
	}
	return at, false
}

// startOn is the time nearest to best at which a job may be begun on a day, from
// earliest to last.
func (s *Settings) startOn(d Date, earliest, best, last time.Time) (t time.Time, ok bool) {
	from, to, ok := s.workDay(d)
	if !ok {
		return t, false
	}
	if end := to.Add(-startMargin); end.After(from) {
		to = end
	}
	if from.Before(earliest) {
		from = earliest
	}
	if to.After(last) {
		to = last
	}
	return clampTime(best, from, to), !to.Before(from)
}

func clampTime(t, lo, hi time.Time) time.Time {
	if t.Before(lo) {
		return lo
	}
	if t.After(hi) {
		return hi
	}
	return t
}

func dist(a, b time.Time) time.Duration {
	if a.After(b) {
		return a.Sub(b)
	}
	return b.Sub(a)
}
