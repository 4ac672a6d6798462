package rules

import (
	"cmp"
	"slices"
	"time"
)

// StaleAfter is how long a task that nobody answered stays on the lists once its
// window has closed.
const StaleAfter = 7 * 24 * time.Hour

// DueOn picks the tasks that concern a local day: their window touches it, or
// closed before without an answer. Those past their close come first, then by
// best time; days to leave things alone come last. A planned step that needs its
// comb first is no work for the day that it is.
func DueOn(tasks []Task, day Date, s *Settings, now time.Time) []Task {
	if day == DateOf(now, s.Zone) {
		tasks = slices.DeleteFunc(slices.Clone(tasks), Task.NeedsComb)
	}
	return dueBetween(tasks, DayStart(day, s.Zone), DayStart(day.Add(1), s.Zone), now)
}

// DueDays picks the tasks that concern a local day or one of the days after it.
func DueDays(tasks []Task, day Date, days int, s *Settings, now time.Time) []Task {
	return dueBetween(tasks, DayStart(day, s.Zone), DayStart(day.Add(days), s.Zone), now)
}

func dueBetween(tasks []Task, from, to, now time.Time) (out []Task) {
	for _, t := range tasks {
		if t.State != Open || !t.Earliest.Before(to) {
			continue
		}
		if t.Guard && (!t.Latest.After(from) || now.Before(to) && !t.Latest.After(now)) {
			continue // over by itself
		}
		if from.After(now) && !t.Latest.After(from) {
			continue // belongs to a day before the one asked for
		}
		if now.Sub(t.Latest) > StaleAfter {
			continue
		}
		out = append(out, t)
	}
	rank := func(t Task) int {
		switch {
		case t.Guard:
			return 2
		case !now.Before(t.Latest):
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(a, b Task) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), a.Best.Compare(b.Best)) })
	return out
}

// WorthTelling says whether a morning list is worth a message: it has work in it,
// or days to leave things alone begin. The same warning every morning would only
// teach the crew not to read.
func WorthTelling(items []Task, day Date, s *Settings) bool {
	for _, t := range items {
		if !t.Guard || DateOf(t.Earliest, s.Zone) == day {
			return true
		}
	}
	return false
}

// NextAttempt is how long to wait after a send has failed for the attempt-th
// time: doubling from five seconds to at most five minutes.
func NextAttempt(attempt int) time.Duration {
	wait := 5 * time.Second
	for i := 1; i < attempt && wait < 5*time.Minute; i++ {
		wait *= 2
	}
	return min(wait, 5*time.Minute)
}
