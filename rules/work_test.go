package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Design section 3: the best time shifts to the nearest working time inside the
// window that leaves two working hours before the close. A job is begun an hour
// before the working day ends at the latest; a start at closing time is none.
const (
	marginWanted = time.Hour
	leaveWanted  = 2 * time.Hour
)

// minutes walks the window in whole minutes and says for each whether a job may
// be begun then and how many working minutes are left from it to the close. It
// reads the local clock of every minute and knows nothing of days or offsets.
func minutes(s *Settings, earliest, latest time.Time) (at []time.Time, may []bool, left []int) {
	margin := Clock(marginWanted / time.Minute)
	lastStart := s.WorkTo - margin
	if lastStart <= s.WorkFrom {
		lastStart = s.WorkTo
	}
	for t := earliest; !t.After(latest); t = t.Add(time.Minute) {
		l := t.In(s.Zone)
		c := Clock(l.Hour()*60 + l.Minute())
		off := s.DaysOff[l.Weekday()]
		at = append(at, t)
		may = append(may, !off && c >= s.WorkFrom && c <= lastStart)
	}
	left = make([]int, len(at))
	sum := 0
	for i := len(at) - 2; i >= 0; i-- {
		l := at[i].In(s.Zone)
		c := Clock(l.Hour()*60 + l.Minute())
		if !s.DaysOff[l.Weekday()] && c >= s.WorkFrom && c < s.WorkTo {
			sum++
		}
		left[i] = sum
	}
	return at, may, left
}

func anyWork(t *rapid.T, s *Settings) {
	s.WorkFrom = Clock(rapid.IntRange(4*60, 14*60).Draw(t, "from")) // clocks change before four
	s.WorkTo = s.WorkFrom + Clock(rapid.IntRange(30, 9*60).Draw(t, "hours"))
	for d := range s.DaysOff {
		s.DaysOff[d] = rapid.IntRange(0, 4).Draw(t, "off") == 0
	}
}

func TestFitWorkAgainstEveryMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := DefaultSettings()
		s.Zone = anyZone(t)
		anyWork(t, s)
		d := nearChange(t, anyDate(t), s.Zone)
		if s.Zone.String() == "Pacific/Apia" && d.Year == 2011 {
			d.Year = 2012 // the skipped day has no clock to walk; clock_test.go has it
		}
		earliest := At(d, anyClock(t), s.Zone)
		length := rapid.IntRange(1, 4*24*60).Draw(t, "length")
		latest := earliest.Add(time.Duration(length) * time.Minute)
		best := earliest.Add(time.Duration(rapid.IntRange(0, length).Draw(t, "best")) * time.Minute)
		if half := (s.WorkTo - Clock(marginWanted/time.Minute) + s.WorkFrom + 24*60) / 2 % (24 * 60); rapid.Bool().Draw(t, "between two days") {
			best = clampTime(At(DateOf(best, s.Zone), half, s.Zone), earliest, latest) // as far from the one as from the other
		}
		fit, ok := s.FitWork(earliest, best, latest)

		at, may, left := minutes(s, earliest, latest)
		nearest := time.Duration(-1)
		var chosen bool // the first of the nearest
		for i := range at {
			if !may[i] || left[i] < int(leaveWanted/time.Minute) {
				continue
			}
			if dd := at[i].Sub(best).Abs(); nearest < 0 || dd < nearest {
				nearest, chosen = dd, at[i].Equal(fit)
			}
		}
		if ok != (nearest >= 0) {
			t.Fatalf("fit %v %v in %v … %v, a minute that does exists: %v", fit, ok, earliest, latest, nearest >= 0)
		}
		if !ok {
			if !fit.Equal(best) {
				t.Fatalf("with no working time the window is shown as it is, not %v", fit)
			}
			return
		}
		if got := fit.Sub(best).Abs(); got != nearest {
			t.Fatalf("fit %v is %v from the best time, another working time only %v", fit.In(s.Zone), got, nearest)
		}
		if !chosen {
			t.Fatalf("fit %v is no working time inside %v … %v with two hours left, or there is an earlier one as near", fit.In(s.Zone), earliest, latest)
		}
	})
}

func TestWorkBetweenAgainstEveryMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := DefaultSettings()
		s.Zone = anyZone(t)
		anyWork(t, s)
		d := anyDate(t)
		if s.Zone.String() == "Pacific/Apia" && d.Year == 2011 {
			d.Year = 2012
		}
		a := At(d, anyClock(t), s.Zone)
		b := a.Add(time.Duration(rapid.IntRange(0, 3*24*60).Draw(t, "length")) * time.Minute)
		_, _, left := minutes(s, a, b)
		if got := s.WorkBetween(a, b); got != time.Duration(left[0])*time.Minute {
			t.Fatalf("%v, counted %d minutes", got, left[0])
		}
	})
}

func TestFitWork(t *testing.T) {
	sunday := crew()
	sunday.DaysOff[time.Sunday] = true
	weekend := crew()
	weekend.DaysOff[time.Sunday], weekend.DaysOff[time.Saturday] = true, true
	for _, c := range []struct {
		say                    string
		s                      *Settings
		earliest, best, latest string
		want                   string // "" for none
	}{
		{"inside working hours: as it is", crew(), "2031-05-10 14:00", "2031-05-11 10:00", "2031-05-11 14:00", "2031-05-11 10:00"},
		{"before dawn: seven o'clock", crew(), "2031-05-10 09:00", "2031-05-11 05:00", "2031-05-11 09:00", "2031-05-11 07:00"},
		{"less than two hours left then: the evening before", crew(), "2031-05-10 08:00", "2031-05-11 04:00", "2031-05-11 08:00", "2031-05-10 17:00"},
		{"exactly two hours left will do", crew(), "2031-05-10 09:00", "2031-05-11 08:30", "2031-05-11 09:00", "2031-05-11 07:00"},
		{"at night after work: the last start of that day", crew(), "2031-05-10 12:00", "2031-05-10 20:00", "2031-05-11 12:00", "2031-05-10 17:00"},
		{"just before the close: two working hours earlier", crew(), "2031-05-10 12:00", "2031-05-11 15:30", "2031-05-11 16:00", "2031-05-11 14:00"},
		{"a Sunday off: Saturday evening is nearer than Monday", sunday, "2031-05-10 06:00", "2031-05-11 10:00", "2031-05-12 18:00", "2031-05-10 17:00"},
		{"a Sunday off: Monday is nearer", sunday, "2031-05-10 06:00", "2031-05-11 17:00", "2031-05-12 18:00", "2031-05-12 07:00"},
		{"window over the free weekend: none", weekend, "2031-05-10 06:00", "2031-05-11 10:00", "2031-05-12 06:00", ""},
		{"window of an hour: none", crew(), "2031-05-10 09:00", "2031-05-10 09:30", "2031-05-10 10:00", ""},
		{"window at night: none", crew(), "2031-05-10 19:00", "2031-05-10 23:00", "2031-05-11 05:00", ""},
		{"spring change in the night between", crew(), "2031-03-08 12:00", "2031-03-09 05:00", "2031-03-09 12:00", "2031-03-09 07:00"},
		{"autumn change in the night between", crew(), "2031-11-01 12:00", "2031-11-02 05:00", "2031-11-02 12:00", "2031-11-02 07:00"},
	} {
		fit, ok := c.s.FitWork(when(c.earliest), when(c.best), when(c.latest))
		if c.want == "" {
			assert.False(t, ok, c.say)
			assert.Equal(t, c.best, fit.In(chicago).Format("2006-01-02 15:04"), c.say)
			continue
		}
		assert.True(t, ok, c.say)
		assert.Equal(t, c.want, fit.In(chicago).Format("2006-01-02 15:04"), c.say)
	}
}

// Working hours that touch the change itself: 00:00 to 06:00 has five hours on
// the spring Sunday and seven on the autumn one.
func TestWorkOnTheNightOfTheChange(t *testing.T) {
	s := crew()
	s.WorkFrom, s.WorkTo = 0, 6*60
	day := func(d string) (time.Time, time.Time) {
		date, _ := ParseDate(d)
		return DayStart(date, chicago), DayStart(date.Add(1), chicago)
	}
	a, b := day("2031-03-09")
	assert.Equal(t, 23*time.Hour, b.Sub(a))
	assert.Equal(t, 5*time.Hour, s.WorkBetween(a, b))
	a, b = day("2031-11-02")
	assert.Equal(t, 25*time.Hour, b.Sub(a))
	assert.Equal(t, 7*time.Hour, s.WorkBetween(a, b))
}

func TestUnfitTaskIsMarked(t *testing.T) {
	s := crew()
	for d := range s.DaysOff {
		s.DaysOff[d] = d != int(time.Wednesday)
	}
	var b book
	// Grafted on a Thursday, so the move falls on Saturday and Sunday.
	b.add(Graft, BatchSubject(1), grafted, count(45))
	_, tasks := b.batch(t, s)
	move := task(t, tasks, Move, "")
	assert.True(t, move.Unfit, "the crew is warned when the step is planned")
	assert.Equal(t, move.Ideal, move.Best)
	assert.False(t, task(t, tasks, HandsOff, "").Unfit, "a guard needs no working time")
}
