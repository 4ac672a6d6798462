package bot

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

var (
	clockWord = regexp.MustCompile(`^(\d{1,2})([:.h])(\d{2})(am|pm|h)?$`)
	hourWord  = regexp.MustCompile(`^(\d{1,2})(am|pm)$`)
	dateWord  = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})$`)
	ordinal   = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)$`)
)

// dayParts are the parts of a day that are named, with the hour that stands for
// each where no other is said.
var (
	dayParts = words(`morning afternoon evening night`)
	partHour = map[string]rules.Clock{"morning": 9 * 60, "afternoon": 15 * 60, "evening": 19 * 60, "night": 21 * 60}
)

// times reads when the work was done and takes its words out of the message. A
// second time is left over: one line has one.
func (d *reader) times() {
	w := &d.r.when
	for i := 0; i < len(d.toks); i++ {
		if d.toks[i].used {
			continue
		}
		if ago, n := d.ago(i); n > 0 && !w.set {
			*w = ago
			d.use(i, n)
			i += n - 1
			continue
		}
		if day, n := d.day(i); n > 0 && !w.hasDay && !w.isAgo {
			day.set, day.hasDay = true, true
			if w.hasTime {
				day.hasTime, day.clock, day.half = true, w.clock, w.half
			}
			*w = day
			d.use(i, n)
			if day.back < 0 {
				d.ahead, d.r.hedged = true, true
				d.planned = d.planned || d.word(i-1) == "to" // "moved to tomorrow"
			}
			i += n - 1
			continue
		}
		at := d.word(i) == "at" || d.word(i) == "@"
		k := i
		if at {
			k++
		}
		if c, n := d.clock(k, at || w.hasDay && i > 0 && d.toks[i-1].used); n > 0 && !w.hasTime && !w.isAgo {
			w.set, w.hasTime, w.clock, w.half = true, true, c.clock, c.half
			d.use(i, k-i+n)
			i = k + n - 1
			if d.word(i+1) == "in" && d.word(i+2) == "the" && dayParts[d.word(i+3)] {
				w.part = d.word(i + 3)
				d.use(i+1, 3)
				i += 3
			}
			continue
		}
		// "In two hours" lies ahead.
		if d.word(i) == "in" {
			if _, n := d.span(i + 1); n > 0 && d.word(i+1+n) != "old" {
				d.planned, d.r.hedged = true, true
				d.use(i, n+1)
				i += n
			}
		}
	}
	if d.midnight && w.hasDay {
		d.r.hedged = true // "yesterday at midnight": its first hour or its last
	}
	if w.part != "" && w.hasTime && !w.half {
		// "At 4 this afternoon" leaves no doubt.
		w.half = true
		if w.part != "morning" && w.clock < 12*60 {
			w.clock += 12 * 60
		}
	}
}

// ago reads "2 hours ago", "half an hour ago", "three days ago" from token i.
func (d *reader) ago(i int) (w when, n int) {
	span, n := d.span(i)
	if d.word(i) == "half" && (d.word(i+1) == "an" || d.word(i+1) == "a") && d.word(i+2) == "hour" {
		span, n = 30*time.Minute, 3
	}
	if n == 0 || d.word(i+n) != "ago" {
		return w, 0
	}
	if unit := d.word(i + n - 1); strings.HasPrefix(unit, "day") || unit == "d" || strings.HasPrefix(unit, "week") {
		return when{set: true, hasDay: true, back: int(span / (24 * time.Hour))}, n + 1
	}
	return when{set: true, isAgo: true, ago: span}, n + 1
}

// span reads a length of time from token i: "2h", "2 hours", "30 min", "an hour".
func (d *reader) span(i int) (time.Duration, int) {
	if i >= len(d.toks) {
		return 0, 0
	}
	if w := d.word(i); !d.toks[i].isNum && w != "" && '0' <= w[0] && w[0] <= '9' {
		if m := quantity.FindStringSubmatch(w); m != nil {
			if s, err := rules.ParseSpan(m[1] + m[2][:1]); err == nil {
				return s, 1
			}
		}
		if s, err := rules.ParseSpan(w); err == nil {
			return s, 1
		}
	}
	n, ok := d.number(i)
	if !ok && (d.word(i) == "an" || d.word(i) == "a" || d.word(i) == "one") {
		n, ok = 1, true
	}
	if !ok || n < 0 || n > 10000 {
		return 0, 0
	}
	unit, known := spanUnits[d.word(i+1)]
	if !known {
		return 0, 0
	}
	return time.Duration(n) * unit, 2
}

var spanUnits = map[string]time.Duration{
	"h": time.Hour, "hr": time.Hour, "hrs": time.Hour, "hour": time.Hour, "hours": time.Hour,
	"m": time.Minute, "min": time.Minute, "mins": time.Minute, "minute": time.Minute, "minutes": time.Minute,
	"d": 24 * time.Hour, "day": 24 * time.Hour, "days": 24 * time.Hour, "week": 7 * 24 * time.Hour, "weeks": 7 * 24 * time.Hour,
}

func (d *reader) spanAt(i int) bool {
	_, n := d.span(i)
	return n > 0
}

// clock reads a time of day from token i and says how many tokens it took. sure
// says that a word before it announced a time, so that a bare number is one.
func (d *reader) clock(i int, sure bool) (w when, n int) {
	if i >= len(d.toks) || d.toks[i].used {
		return w, 0
	}
	at := func(c rules.Clock, half bool, n int) (when, int) {
		return when{set: true, hasTime: true, clock: c, half: half}, n
	}
	halved := func(h, m int, ap string, n int) (when, int) {
		c, err := rules.ParseClock(strconv.Itoa(h) + ap)
		if err != nil {
			return when{}, 0
		}
		return at(c+rules.Clock(m), true, n)
	}
	t, next := d.word(i), d.word(i+1)
	afternoon := next == "am" || next == "pm"
	if m := clockWord.FindStringSubmatch(t); m != nil {
		h, _ := strconv.Atoi(m[1])
		mi, _ := strconv.Atoi(m[3])
		ap := strings.TrimSuffix(m[4], "h")
		switch {
		case h > 23 || mi > 59:
			return w, 0
		case ap != "":
			return halved(h, mi, ap, 1)
		case afternoon:
			return halved(h, mi, next, 2)
		case m[2] != ":" && !sure:
			return w, 0 // "2.50" is a time only where a time is due
		}
		return at(rules.Clock(h*60+mi), h > 12 || h == 0 || len(m[1]) == 2 && m[1][0] == '0', 1)
	}
	if m := hourWord.FindStringSubmatch(t); m != nil {
		h, _ := strconv.Atoi(m[1])
		return halved(h, 0, m[2], 1)
	}
	if t == "noon" || t == "midday" {
		return at(12*60, true, 1)
	}
	if t == "midnight" {
		d.midnight = true
		return at(0, true, 1)
	}
	if mi, ok := map[string]int{"half": 30, "quarter": 15}[t]; ok && (next == "past" || next == "to" && t == "quarter") {
		h, ok := d.number(i + 2)
		if !ok || h < 1 || h > 12 {
			return w, 0
		}
		if next == "to" {
			h, mi = (h+11)%12, 45
		}
		return at(rules.Clock(h*60+mi), false, 3)
	}
	if h, ok := d.number(i + 1); t == "half" && ok && h > 0 && h <= 12 && !d.toks[i].comma && d.r.lang != "es" && (d.word(i-1) == "at" || d.word(i-1) == "@") {
		return at(rules.Clock(h*60+30), false, 2) // "at half nine", as in Britain and Ireland
	}
	if c, n := d.pastHour(i, sure); n > 0 {
		return at(c, false, n)
	}
	h, ok := d.number(i)
	switch {
	case !ok || h < 0:
	case afternoon:
		return halved(h, 0, next, 2)
	case next == "o'clock" && h < 24:
		return at(rules.Clock(h*60), h > 12 || h == 0, 2)
	case !sure || d.word(i-1) != "at" && d.word(i-1) != "@":
	case h > 0 && h <= 12 && letters(d.toks[i].orig) && !d.toks[i].comma && i+1 < len(d.toks) && letters(d.toks[i+1].orig) && d.toks[i+1].num >= 10 && d.toks[i+1].num < 60:
		return at(rules.Clock(h*60+d.toks[i+1].num), false, 2) // "at eight fifteen"
	case h < 24:
		return at(rules.Clock(h*60), h > 12 || h == 0, 1)
	case len(t) >= 3 && len(t) <= 4 && h/100 < 24 && h%100 < 60:
		return at(rules.Clock(h/100*60+h%100), h >= 1300 || t[0] == '0', 1) // "at 0730"
	}
	return w, 0
}

// pastHour reads "ten past four" and, where a time is due, "twenty to nine".
func (d *reader) pastHour(i int, sure bool) (c rules.Clock, n int) {
	mi, ok := d.number(i)
	if !ok || mi < 1 || mi > 29 {
		return 0, 0
	}
	k := i + 1
	if d.word(k) == "minutes" || d.word(k) == "min" {
		k++
	}
	way := d.word(k)
	h, ok := d.number(k + 1)
	if !ok || h < 1 || h > 12 || way != "past" && !(way == "to" && sure && mi%5 == 0) {
		return 0, 0
	}
	if way == "to" {
		h, mi = (h+11)%12, 60-mi
	}
	return rules.Clock(h*60 + mi), k + 2 - i
}

// day reads a day from token i: yesterday, a weekday, a date.
func (d *reader) day(i int) (w when, n int) {
	if i >= len(d.toks) || d.toks[i].used {
		return w, 0
	}
	w, n = d.plainDay(i)
	if n > 0 && dayParts[d.word(i+n)] {
		w.part = d.word(i + n)
		n++
	}
	return w, n
}

func (d *reader) plainDay(i int) (w when, n int) {
	t, next := d.word(i), d.word(i+1)
	w.hasDay = true
	on := t == "on" || t == "last"
	switch {
	case t == "today":
		return w, 1
	case t == "earlier" && !d.toks[i].glossed:
		w.part = t
		if next == "today" {
			return w, 2
		}
		return w, 1
	case t == "tomorrow":
		w.back = -1
		return w, 1
	case t == "overmorrow": // the day after tomorrow
		w.back = -2
		return w, 1
	case t == "yesterday":
		w.back = 1
		return w, 1
	case t == "last" && next == "night":
		w.back, w.part = 1, next
		return w, 2
	case t == "this" && dayParts[next]:
		w.part = next
		return w, 2
	case on:
		if w, n := d.plainDay(i + 1); n > 0 && w.back <= 0 && (w.weekday > 0 || w.date) {
			return w, n + 1
		}
		if wd, ok := weekdays[next]; ok {
			w.weekday = wd + 1
			return w, 2
		}
		return when{}, 0
	}
	if wd, ok := weekdays[t]; ok && t != "sun" && t != "sat" {
		w.weekday = wd + 1
		if d.word(i-1) == "next" || d.word(i-1) == "coming" {
			w.back = -1
		}
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
	if k, ok := d.dayNumber(i); ok {
		j := i + 1
		if d.word(j) == "of" {
			j++
		}
		if m, ok := months[d.word(j)]; ok {
			w.date, w.month, w.day = true, m, k
			return w, j - i + 1
		}
	}
	if m, ok := months[t]; ok && (t != "may" && t != "mar" || d.word(i-1) == "on") {
		if k, ok := d.dayNumber(i + 1); ok {
			w.date, w.month, w.day = true, m, k
			return w, 2
		}
	}
	return when{}, 0
}

func (d *reader) dayNumber(i int) (int, bool) {
	k, ok := d.number(i)
	if m := ordinal.FindStringSubmatch(d.word(i)); m != nil {
		k, _ = strconv.Atoi(m[1])
		ok = true
	}
	return k, ok && k >= 1 && k <= 31
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
