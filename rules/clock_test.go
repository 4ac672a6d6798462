package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAtOnChangedClocks(t *testing.T) {
	for _, c := range []struct {
		zone, date, clock string
		want              string // local time with offset
		say               string
	}{
		{"America/Chicago", "2031-03-09", "02:30", "2031-03-09T03:00:00-05:00", "spring gap: the first instant after it"},
		{"America/Chicago", "2031-03-09", "02:00", "2031-03-09T03:00:00-05:00", "the gap begins"},
		{"America/Chicago", "2031-03-09", "01:59", "2031-03-09T01:59:00-06:00", "just before"},
		{"America/Chicago", "2031-03-09", "03:00", "2031-03-09T03:00:00-05:00", "just after"},
		{"America/Chicago", "2031-11-02", "01:30", "2031-11-02T01:30:00-05:00", "repeated hour: the first counts"},
		{"America/Chicago", "2031-11-02", "01:00", "2031-11-02T01:00:00-05:00", ""},
		{"America/Chicago", "2031-11-02", "02:00", "2031-11-02T02:00:00-06:00", "only once, after the repetition"},
		{"America/Chicago", "2031-11-02", "00:59", "2031-11-02T00:59:00-05:00", ""},
		{"Europe/Berlin", "2031-03-30", "02:30", "2031-03-30T03:00:00+02:00", ""},
		{"Europe/Berlin", "2031-10-26", "02:30", "2031-10-26T02:30:00+02:00", ""},
		{"Australia/Sydney", "2031-10-05", "02:15", "2031-10-05T03:00:00+11:00", "southern spring"},
		{"Australia/Sydney", "2031-04-06", "02:15", "2031-04-06T02:15:00+11:00", ""},
		{"Pacific/Auckland", "2031-09-28", "02:45", "2031-09-28T03:00:00+13:00", ""},
		{"Pacific/Auckland", "2031-04-06", "02:45", "2031-04-06T02:45:00+13:00", ""},
		{"America/Santiago", "2023-09-03", "00:00", "2023-09-03T01:00:00-03:00", "the gap is at midnight: the day starts at one"},
		{"America/Santiago", "2023-09-03", "00:30", "2023-09-03T01:00:00-03:00", ""},
		{"America/Santiago", "2023-04-01", "23:30", "2023-04-01T23:30:00-03:00", "the last hour of the day comes twice"},
		{"America/Santiago", "2023-04-02", "00:00", "2023-04-02T00:00:00-04:00", ""},
		{"Australia/Lord_Howe", "2031-10-05", "02:15", "2031-10-05T02:30:00+11:00", "half an hour is skipped"},
		{"Australia/Lord_Howe", "2031-10-05", "02:30", "2031-10-05T02:30:00+11:00", ""},
		{"Australia/Lord_Howe", "2031-04-06", "01:45", "2031-04-06T01:45:00+11:00", "half an hour comes twice"},
		{"Australia/Lord_Howe", "2031-04-06", "02:15", "2031-04-06T02:15:00+10:30", ""},
		{"Pacific/Apia", "2011-12-30", "10:00", "2011-12-31T00:00:00+14:00", "the whole day was skipped"},
		{"Pacific/Apia", "2011-12-29", "10:00", "2011-12-29T10:00:00-10:00", ""},
		{"Pacific/Apia", "2011-12-31", "10:00", "2011-12-31T10:00:00+14:00", ""},
		{"Asia/Kathmandu", "2031-05-08", "19:00", "2031-05-08T19:00:00+05:45", "an odd offset, no changes"},
		{"UTC", "2031-05-08", "00:00", "2031-05-08T00:00:00Z", ""},
	} {
		z := zone(t, c.zone)
		d, err := ParseDate(c.date)
		require.NoError(t, err)
		k, err := ParseClock(c.clock)
		require.NoError(t, err)
		got := At(d, k, z)
		assert.Equal(t, c.want, got.In(z).Format(time.RFC3339), "%s %s %s %s", c.zone, c.date, c.clock, c.say)
		assert.Equal(t, time.UTC, got.Location(), "instants are UTC")
	}
}

var zones = []string{
	"America/Chicago", "Europe/Berlin", "Australia/Sydney", "Pacific/Auckland", "America/Santiago",
	"Australia/Lord_Howe", "Pacific/Apia", "Asia/Kathmandu", "America/St_Johns", "Africa/Casablanca",
	"Africa/Cairo", "America/Havana", "Asia/Tehran", "Pacific/Chatham", "Pacific/Kiritimati", "Europe/Dublin",
}

func anyZone(t *rapid.T) *time.Location {
	z, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(t, "zone"))
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func anyDate(t *rapid.T) Date {
	return Date{rapid.IntRange(2005, 2040).Draw(t, "year"), time.January, 1}.Add(rapid.IntRange(0, 365).Draw(t, "day"))
}

func anyClock(t *rapid.T) Clock { return Clock(rapid.IntRange(0, 1439).Draw(t, "clock")) }

// nearChange moves about half of the drawn dates to a clock change: at random
// they would hardly ever meet one.
func nearChange(t *rapid.T, d Date, z *time.Location) Date {
	if !rapid.Bool().Draw(t, "near a change") {
		return d
	}
	_, end := At(d, 12*60, z).In(z).ZoneBounds()
	if end.IsZero() {
		return d
	}
	return DateOf(end, z).Add(rapid.IntRange(-1, 1).Draw(t, "days from the change"))
}

// wall is the local date and time as one number that sorts.
func wall(t time.Time, z *time.Location) string { return t.In(z).Format("2006-01-02 15:04") }

func TestAtHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := anyZone(t)
		d, c := nearChange(t, anyDate(t), z), anyClock(t)
		got := At(d, c, z)
		want := d.String() + " " + c.String()
		if wall(got, z) == want {
			// The first of two: no earlier instant shows the same time. Clocks are
			// never set back by more than a few hours.
			for back := 15 * time.Minute; back <= 6*time.Hour; back += 15 * time.Minute {
				if wall(got.Add(-back), z) == want {
					t.Fatalf("%s %s: %v is not the first", z, want, got)
				}
			}
			return
		}
		start, _ := got.In(z).ZoneBounds()
		if !start.Equal(got) {
			t.Fatalf("%s %s became %v, which is no clock change", z, want, got.In(z))
		}
		if before := wall(got.Add(-time.Minute), z); before >= want || wall(got, z) <= want {
			t.Fatalf("%s %s: the change at %v skips from %s to %s", z, want, got, before, wall(got, z))
		}
	})
}

func TestAtIsOrderedWithinADay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := anyZone(t)
		d := nearChange(t, anyDate(t), z)
		a, b := anyClock(t), anyClock(t)
		if a > b {
			a, b = b, a
		}
		// In a repeated hour the first counts, so only across its end may the
		// distance be longer than the clock says; the order never turns.
		if At(d, a, z).After(At(d, b, z)) {
			t.Fatalf("%s on %s comes after %s", a, d, b)
		}
		if DayStart(d, z).After(At(d, a, z)) || DayStart(d.Add(1), z).Before(At(d, a, z)) {
			t.Fatalf("%s on %s lies outside its day", a, d)
		}
	})
}

func TestParseClock(t *testing.T) {
	for s, want := range map[string]string{
		"19:00": "19:00", "6:30": "06:30", "06.30": "06:30", "6h30": "06:30", "19": "19:00", "0": "00:00", "23:59": "23:59",
		"7pm": "19:00", "7 pm": "19:00", "7:15PM": "19:15", "12am": "00:00", "12pm": "12:00", "12:30 am": "00:30", " 8:05 ": "08:05",
	} {
		c, err := ParseClock(s)
		if assert.NoError(t, err, s) {
			assert.Equal(t, want, c.String(), s)
		}
	}
	for _, s := range []string{"", "24:00", "24", "7:60", "13pm", "0am", "noon", "7:5", "-1", "19:00:00", "pm", "1900"} {
		_, err := ParseClock(s)
		assert.Error(t, err, "%q", s)
	}
	rapid.Check(t, func(t *rapid.T) {
		c := anyClock(t)
		if got, err := ParseClock(c.String()); err != nil || got != c {
			t.Fatalf("%s came back as %s, %v", c, got, err)
		}
	})
}

func TestDates(t *testing.T) {
	d, err := ParseDate("2032-02-28")
	require.NoError(t, err)
	assert.Equal(t, "2032-02-29", d.Add(1).String())
	assert.Equal(t, "2032-03-01", d.Add(2).String())
	assert.Equal(t, "2031-12-31", d.Add(-59).String())
	assert.Equal(t, time.Saturday, d.Weekday())
	assert.True(t, d.Before(d.Add(1)))
	assert.False(t, d.Before(d))
	for _, s := range []string{"", "2031-2-1", "2031-02-30", "8 May"} {
		_, err := ParseDate(s)
		assert.Error(t, err, "%q", s)
	}
}

func TestParseSpan(t *testing.T) {
	for s, want := range map[string]time.Duration{
		"9d20h": 236 * time.Hour, "236h": 236 * time.Hour, "236": 236 * time.Hour, "10d": 240 * time.Hour,
		"2h30m": 150 * time.Minute, "30m": 30 * time.Minute, "90m": 90 * time.Minute, "1d 15m": 24*time.Hour + 15*time.Minute,
		"9D 20H": 236 * time.Hour, "0h": 0,
	} {
		got, err := ParseSpan(s)
		if assert.NoError(t, err, s) {
			assert.Equal(t, want, got, s)
		}
	}
	for _, s := range []string{"", "d", "h", "9x", "tomorrow", "-3h", "3h2d", "1.5h"} {
		_, err := ParseSpan(s)
		assert.Error(t, err, "%q", s)
	}
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.IntRange(0, 999*24*60).Draw(t, "minutes")) * time.Minute
		if got, err := ParseSpan(SpanString(d)); err != nil || got != d {
			t.Fatalf("%v is written %q and read as %v, %v", d, SpanString(d), got, err)
		}
	})
}
