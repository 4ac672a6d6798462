package rules

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Clock is a wall-clock time of day in minutes after midnight, 0 to 1439.
type Clock int

func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

var clockForm = regexp.MustCompile(`^(\d{1,2})[:.hH](\d{2})$|^(\d{1,2})$`)

// ParseClock reads "19:00", "6:30" or "19".
func ParseClock(s string) (Clock, error) {
	s = strings.TrimSpace(s)
	pm := strings.HasSuffix(strings.ToLower(s), "pm")
	am := strings.HasSuffix(strings.ToLower(s), "am")
	if pm || am {
		s = strings.TrimSpace(s[:len(s)-2])
	}
	m := clockForm.FindStringSubmatch(s)
	if m == nil {
		return 0, fmt.Errorf("%q is not a time of day like 19:00", s)
	}
	h, _ := strconv.Atoi(m[1] + m[3])
	mi, _ := strconv.Atoi("0" + m[2])
	if (pm || am) && (h < 1 || h > 12) {
		return 0, fmt.Errorf("%q is not a time of day like 7 pm", s)
	}
	if pm && h < 12 {
		h += 12
	}
	if am && h == 12 {
		h = 0
	}
	if h > 23 || mi > 59 {
		return 0, fmt.Errorf("%q is not a time of day like 19:00", s)
	}
	return Clock(h*60 + mi), nil
}

// ClockOf is the wall-clock time of t in zone.
func ClockOf(t time.Time, zone *time.Location) Clock {
	t = t.In(zone)
	return Clock(t.Hour()*60 + t.Minute())
}

// Date is a calendar day in the crew's zone.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf is the local calendar day of t in zone.
func DateOf(t time.Time, zone *time.Location) Date {
	y, m, d := t.In(zone).Date()
	return Date{y, m, d}
}

func (d Date) String() string {
	if d.Year < 1000 || d.Year > 9999 {
		return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
	}
	b := make([]byte, 0, len("2031-05-08"))
	b = strconv.AppendInt(b, int64(d.Year), 10)
	for _, n := range [...]int{int(d.Month), d.Day} {
		b = append(b, '-', byte('0'+n/10), byte('0'+n%10))
	}
	return string(b)
}

// ParseDate reads YYYY-MM-DD.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a date like 2031-05-08", s)
	}
	return DateOf(t, time.UTC), nil
}

// Add moves the date by whole calendar days.
func (d Date) Add(days int) Date {
	t := time.Date(d.Year, d.Month, d.Day+days, 12, 0, 0, 0, time.UTC)
	return DateOf(t, time.UTC)
}

// Before orders dates.
func (d Date) Before(e Date) bool {
	if d.Year != e.Year {
		return d.Year < e.Year
	}
	if d.Month != e.Month {
		return d.Month < e.Month
	}
	return d.Day < e.Day
}

// Weekday of the date.
func (d Date) Weekday() time.Weekday {
	return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC).Weekday()
}

// At is the instant at which the zone's clocks show c on date d, in UTC. A time
// that the spring change skips becomes the first instant after the gap; of a
// time that the autumn change repeats the first occurrence counts.
func At(d Date, c Clock, zone *time.Location) time.Time {
	wall := time.Date(d.Year, d.Month, d.Day, int(c)/60, int(c)%60, 0, 0, time.UTC)
	// No zone moves its clocks twice within a day, so the offsets in force a day
	// before and a day after are the only two that can apply.
	_, before := wall.Add(-26 * time.Hour).In(zone).Zone()
	_, after := wall.Add(26 * time.Hour).In(zone).Zone()
	first := wall.Add(-time.Duration(before) * time.Second)
	if _, then := first.In(zone).Zone(); before == after && then == before {
		return first // on all but two days of the year
	}
	second := wall.Add(-time.Duration(after) * time.Second)
	if second.Before(first) {
		first, second = second, first
	}
	for _, t := range []time.Time{first, second} {
		l := t.In(zone)
		if DateOf(l, zone) == d && ClockOf(l, zone) == c {
			return t
		}
	}
	// In the gap: the later candidate lies behind it, in the period that the
	// change began.
	start, _ := second.In(zone).ZoneBounds()
	if start.IsZero() {
		return second
	}
	return start.UTC()
}

// DayStart is the first instant of the local day.
func DayStart(d Date, zone *time.Location) time.Time { return At(d, 0, zone) }
