package conversation

import (
	"time"

	"yardbell/rules"
)

// partHour is the hour that stands for a part of the day where no other is said.
var partHour = map[string]rules.Clock{"morning": 9 * 60, "afternoon": 15 * 60, "evening": 19 * 60, "night": 21 * 60}

// settle turns a time as said into an instant. said is when the message was
// written. exact is false where only a day was named.
func (w when) settle(said time.Time, s *rules.Settings) (at time.Time, exact bool) {
	if !w.set {
		return said, true
	}
	if w.isAgo {
		return said.Add(-w.ago), true
	}
	today := rules.DateOf(said, s.Zone)
	day := w.dayFrom(today)
	if !w.hasTime {
		at, named := rules.At(day, 12*60, s.Zone), false
		if c, ok := partHour[w.part]; ok {
			at, named = rules.At(day, c, s.Zone), true
		}
		switch {
		case day == today && (!named || !at.Before(said)):
			return said, !named && w.part != "earlier"
		default:
			return at, false
		}
	}
	first := rules.At(day, w.clock, s.Zone)
	if w.half {
		return first, true
	}
	// "at 4" said at five in the afternoon: of the two readings that have happened
	// the one in working hours, else the clock as typed.
	second := rules.At(day, w.clock+12*60, s.Zone)
	works := func(t time.Time) bool {
		c := rules.ClockOf(t, s.Zone)
		return c >= s.WorkFrom && c < s.WorkTo && !t.After(said.Add(10*time.Minute))
	}
	if w.clock < 12*60 && works(second) && !works(first) {
		return second, true
	}
	return first, true
}

// dayFrom is the local day that was named, seen from today. A weekday is the last
// one, or the coming one where back is negative.
func (w when) dayFrom(today rules.Date) rules.Date {
	switch {
	case w.date:
		year := w.year
		if year == 0 {
			year = today.Year
			if d := (rules.Date{Year: year, Month: time.Month(w.month), Day: w.day}); w.back >= 0 && today.Add(30).Before(d) {
				year--
			}
		}
		return rules.Date{Year: year, Month: time.Month(w.month), Day: w.day}
	case w.weekday > 0 && w.back < 0:
		ahead := (w.weekday - 1 - int(today.Weekday()) + 7) % 7
		if ahead == 0 {
			ahead = 7
		}
		return today.Add(ahead)
	case w.weekday > 0:
		return today.Add(-((int(today.Weekday()) - (w.weekday - 1) + 7) % 7))
	}
	return today.Add(-w.back)
}

// dayAfter is the day named, the next one of that name from today on. ok is false for
// a date that there is not, as 31 June.
func (w when) dayAfter(today rules.Date) (d rules.Date, ok bool) {
	if !w.date {
		return w.dayFrom(today), true
	}
	if w.month == 0 {
		d = rules.Date{Year: today.Year, Month: today.Month, Day: w.day}
		if d.Before(today) {
			next := rules.Date{Year: today.Year, Month: today.Month, Day: 1}.Add(31)
			d.Year, d.Month = next.Year, next.Month
		}
		return d, d.Add(0) == d
	}
	d = rules.Date{Year: w.year, Month: time.Month(w.month), Day: w.day}
	if w.year == 0 {
		if d.Year = today.Year; d.Before(today) {
			d.Year++
		}
	}
	return d, d.Add(0) == d
}
