package bot

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

var (
	clockWord = regexp.MustCompile(`^(\d{1,2})[:.](\d{2})(am|pm|h)?$`)
	hourWord  = regexp.MustCompile(`^(\d{1,2})(am|pm)$`)
	dateWord  = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})$`)
)

// times reads when the work was done and takes its words out of the message.
func (d *reader) times() {
	w := &d.r.when
	for i := 0; i < len(d.toks); i++ {
		if d.toks[i].used {
			continue
		}
		if span, n := d.span(i); n > 0 && d.word(i+n) == "ago" {
			w.set, w.isAgo, w.ago = true, true, span
			d.use(i, n+1)
			i += n
			continue
		}
		if day, n := d.day(i); n > 0 {
			if d.word(i-1) == "on" {
				d.use(i-1, 1)
			}
			w.set, w.hasDay = true, true
			w.back, w.weekday, w.date, w.year, w.month, w.day = day.back, day.weekday, day.date, day.year, day.month, day.day
			if day.hasTime {
				w.hasTime, w.clock, w.half = true, day.clock, day.half
			}
			d.use(i, n)
			i += n - 1
			continue
		}
		at := d.word(i) == "at" || d.word(i) == "@"
		k := i
		if at {
			k = i + 1
		}
		if c, n := d.clock(k); n > 0 && (at || d.word(k) != strconv.Itoa(d.toks[k].num)) {
			w.set, w.hasTime, w.clock, w.half = true, true, c.clock, c.half
			d.use(i, k-i+n)
			i = k + n - 1
		}
	}
}

// clock reads a time of day from token i and says how many tokens it took.
func (d *reader) clock(i int) (w when, n int) {
	t := d.word(i)
	half := func(h int, ap string) (rules.Clock, bool) {
		c, err := rules.ParseClock(strconv.Itoa(h) + ap)
		return c, err == nil
	}
	if m := clockWord.FindStringSubmatch(t); m != nil {
		h, _ := strconv.Atoi(m[1])
		mi, _ := strconv.Atoi(m[2])
		ap, n := strings.TrimSuffix(m[3], "h"), 1
		if ap == "" && (d.word(i+1) == "am" || d.word(i+1) == "pm") {
			ap, n = d.word(i+1), 2
		}
		if h > 23 || mi > 59 {
			return w, 0
		}
		c := rules.Clock(h*60 + mi)
		if ap != "" {
			hc, ok := half(h, ap)
			if !ok {
				return w, 0
			}
			c = hc + rules.Clock(mi)
		}
		return when{set: true, hasTime: true, clock: c, half: ap != "" || h > 12 || h == 0 || len(m[1]) == 2 && m[1][0] == '0'}, n
	}
	if m := hourWord.FindStringSubmatch(t); m != nil {
		h, _ := strconv.Atoi(m[1])
		if c, ok := half(h, m[2]); ok {
			return when{set: true, hasTime: true, clock: c, half: true}, 1
		}
	}
	if t == "noon" || t == "midday" {
		return when{set: true, hasTime: true, clock: 12 * 60, half: true}, 1
	}
	if h, ok := d.number(i); ok && h >= 0 && h < 24 {
		if ap := d.word(i + 1); ap == "am" || ap == "pm" {
			if c, ok := half(h, ap); ok {
				return when{set: true, hasTime: true, clock: c, half: true}, 2
			}
		}
		return when{set: true, hasTime: true, clock: rules.Clock(h * 60), half: h > 12 || h == 0}, 1
	}
	return w, 0
}

// day reads a day from token i: yesterday, a weekday, a date.
func (d *reader) day(i int) (w when, n int) {
	t := d.word(i)
	w.hasDay = true
	switch t {
	case "today":
		return w, 1
	case "tomorrow":
		w.back = -1
		return w, 1
	case "yesterday":
		w.back = 1
		if d.word(i+1) == "morning" || d.word(i+1) == "evening" || d.word(i+1) == "afternoon" {
			return w, 2
		}
		return w, 1
	}
	if t == "this" && (d.word(i+1) == "morning" || d.word(i+1) == "afternoon") {
		return w, 2
	}
	if wd, ok := weekdays[t]; ok && t != "sun" && t != "sat" {
		w.weekday = wd + 1
		return w, 1
	}
	if m := dateWord.FindStringSubmatch(t); m != nil {
		if _, err := rules.ParseDate(t); err != nil {
			return when{}, 0
		}
		w.date = true
		w.year, _ = strconv.Atoi(m[1])
		w.month, _ = strconv.Atoi(m[2])
		w.day, _ = strconv.Atoi(m[3])
		return w, 1
	}
	if k, ok := d.number(i); ok && k >= 1 && k <= 31 {
		if m, ok := months[d.word(i+1)]; ok {
			w.date, w.month, w.day = true, m, k
			return w, 2
		}
	}
	if m, ok := months[t]; ok && t != "may" {
		if k, ok := d.number(i + 1); ok && k >= 1 && k <= 31 {
			w.date, w.month, w.day = true, m, k
			return w, 2
		}
	}
	return when{}, 0
}

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
		if day == today {
			return said, true
		}
		return rules.At(day, 12*60, s.Zone), false
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
