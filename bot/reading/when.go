package reading

import (
	"strings"
	"time"

	"yardbell/rules"
)

// join adds what another time says. It reports false where the two contradict each other.
func (w *When) join(o When) bool {
	ok := true
	if o.Now {
		w.Now = true
	}
	if o.Ago != 0 {
		ok = ok && w.Ago == 0 && w.Clock == nil
		w.Ago = o.Ago
	}
	if o.Day != nil {
		ok = ok && (w.Day == nil || *w.Day == *o.Day)
		w.Day = o.Day
	}
	if o.Weekday != 0 {
		ok = ok && (w.Weekday == 0 || w.Weekday == o.Weekday)
		w.Weekday = o.Weekday
	}
	if o.Month != 0 {
		ok = ok && w.Month == 0
		w.Month, w.Date = o.Month, o.Date
	}
	if o.Clock != nil {
		ok = ok && (w.Clock == nil || *w.Clock == *o.Clock) && w.Ago == 0
		w.Clock, w.Fixed = o.Clock, o.Fixed
	}
	if o.Half != "" {
		ok = ok && (w.Half == "" || w.Half == o.Half)
		w.Half = o.Half
	}
	w.Approx = w.Approx || o.Approx
	return ok
}

// Settle gives the instant that is meant by a time said at now, in now's zone. exact is
// false where only a day was said. A bare hour takes the reading that lies in the past.
// ok is false where there is none.
func (w When) Settle(now time.Time) (at time.Time, exact, ok bool) {
	if w.Ago != 0 {
		return now.Add(-w.Ago), true, true
	}
	y, m, d := now.Date()
	switch {
	case w.Month != 0:
		day := time.Date(y, time.Month(w.Month), w.Date, 0, 0, 0, 0, now.Location())
		if day.After(now.AddDate(0, 1, 0)) {
			day = day.AddDate(-1, 0, 0)
		}
		y, m, d = day.Date()
	case w.Weekday != 0:
		back := (int(now.Weekday()) - w.Weekday%7 + 7) % 7
		y, m, d = now.AddDate(0, 0, -back).Date()
	case w.Day != nil:
		y, m, d = now.AddDate(0, 0, *w.Day).Date()
	}
	at2 := func(min int) time.Time {
		// An hour that the clocks skip is the first one after it.
		return rules.At(rules.Date{Year: y, Month: m, Day: d}, rules.Clock(min), now.Location()).In(now.Location())
	}
	if w.Clock == nil {
		part := func(hour int) (time.Time, bool, bool) {
			if t := at2(hour * 60); !t.After(now) {
				return t, false, true
			}
			if y == now.Year() && d == now.Day() && m == now.Month() {
				return now, false, true // today, and no later than now
			}
			return at2(hour * 60), false, true
		}
		switch {
		case w.Now || w == (When{}):
			return now, true, true
		case w.Half == "am":
			return part(9)
		case w.Half == "pm":
			return part(15)
		}
		return part(12)
	}
	c := *w.Clock
	switch {
	case w.Fixed || c >= 13*60:
		return at2(c), true, true
	case w.Half == "am":
		return at2(c % (12 * 60)), true, true
	case w.Half == "pm":
		return at2(c%(12*60) + 12*60), true, true
	}
	early, late := at2(c%(12*60)), at2(c%(12*60)+12*60)
	today := y == now.Year() && d == now.Day() && m == now.Month()
	switch {
	case !today:
		// Of another day: the hour that people work at.
		if h := early.Hour(); h >= 6 {
			return early, true, true
		}
		return late, true, true
	case !late.After(now.Add(5 * time.Minute)):
		return late, true, true
	case !early.After(now.Add(5 * time.Minute)):
		return early, true, true
	}
	return early, true, false
}

// said takes in what one capture of a pattern says of a day or of a part of it.
func (w *When) said(k capture) {
	day := func(d int) { w.Day = &d }
	switch k.name {
	case "d":
		day(int(k.num))
	case "pd":
		v := strings.TrimSuffix(strings.TrimSuffix(k.value, halfAM), halfPM)
		day(int(atof(v)))
		w.Half = k.value[len(v):]
	case "p":
		w.Half = k.value
	case "wd":
		w.Weekday = int(k.num)
	case "mo":
		w.Month = int(k.num)
	case "dd":
		w.Date = int(k.num)
	}
}
