package rules

import (
	"math"
	"time"
)

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
	return s.workUpTo(a, b, math.MaxInt64)
}

// workUpTo stops counting once enough is found, so that a window of weeks costs
// no more than one of days.
func (s *Settings) workUpTo(a, b time.Time, enough time.Duration) time.Duration {
	var sum time.Duration
	for d := DateOf(a, s.Zone); sum < enough && !DayStart(d, s.Zone).After(b); d = d.Add(1) {
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
	var found time.Time
	consider := func(t time.Time) {
		if t.Before(earliest) || t.After(latest) || s.workUpTo(t, latest, beforeClose) < beforeClose {
			return
		}
		if found.IsZero() || dist(t, best) < dist(found, best) {
			found = t
		}
	}
	last := DateOf(latest, s.Zone)
	for d := DateOf(earliest, s.Zone); !last.Before(d); d = d.Add(1) {
		from, to, ok := s.workDay(d)
		if !ok {
			continue
		}
		if end := to.Add(-startMargin); end.After(from) {
			to = end
		}
		if from.Before(earliest) {
			from = earliest
		}
		if to.Before(from) {
			continue
		}
		consider(clampTime(best, from, to))
		// Where less than two working hours are left at the end of this day, the
		// latest start that still leaves them lies earlier in it.
		if left := s.workUpTo(from, latest, to.Sub(from)+beforeClose); left >= beforeClose {
			if t := from.Add(left - beforeClose); t.Before(to) {
				consider(clampTime(best, from, t))
			}
		}
	}
	if found.IsZero() {
		return best, false
	}
	return found, true
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
