package bot

import (
	"strings"
	"time"

	"yardbell/rules"
)

// whole reads messages that are not about one step: questions to the bot, claims,
// corrections, settings. It reports whether the message was one of them.
func (d *reader) whole() bool {
	for _, form := range []func() bool{d.undo, d.fix, d.set, d.add, d.due, d.show, d.why, d.help, d.mine, d.later, d.skip, d.yesNo, d.other} {
		if form() {
			return true
		}
	}
	return false
}

// text of the message from token i on, as typed.
func (d *reader) from(i int) string {
	var out []string
	for _, t := range d.toks[min(i, len(d.toks)):] {
		out = append(out, t.orig)
	}
	return strings.Join(out, " ")
}

func (d *reader) is(v verb, exact ...string) bool {
	for _, e := range exact {
		if n := len(splitSpace(e)); n == len(d.toks) && d.phrase(0, e) {
			d.r.verb = v
			d.r.question = false
			return true
		}
	}
	return false
}

func (d *reader) undo() bool {
	return d.is(doUndo, "undo", "undo that", "undo it", "undo last", "undo this", "scratch that", "take that back", "take it back",
		"wrong one", "delete that", "remove that", "undo please")
}

func (d *reader) fix() bool {
	count := func(newAt, oldAt int) bool {
		n, ok := d.number(newAt)
		if !ok {
			return false
		}
		d.r.verb, d.r.count = doFix, &n
		if oldAt >= 0 {
			o, ok := d.number(oldAt)
			if !ok {
				d.r.verb, d.r.count = noVerb, nil
				return false
			}
			d.r.old = &o
		}
		return true
	}
	n := len(d.toks)
	switch {
	case d.word(0) == "not" && n == 3:
		return count(2, 1)
	case d.word(0) == "not" && n == 4 && (d.word(2) == "but" || d.word(2) == "it's" || d.word(2) == "its"):
		return count(3, 1)
	case n == 3 && d.word(1) == "not":
		return count(0, 2)
	case n == 3 && (d.phrase(0, "make that") || d.phrase(0, "i meant") || d.phrase(0, "should be") || d.phrase(0, "make it") || d.phrase(0, "correct to")):
		return count(2, -1)
	case n == 4 && (d.phrase(0, "it was not") || d.phrase(0, "that should be") || d.phrase(0, "should have been")):
		return count(3, -1)
	case n == 2 && (d.word(0) == "correction" || d.word(0) == "fix"):
		return count(1, -1)
	}
	return false
}

// settings words as typed, by their first words.
var settingWords = []struct{ typed, key string }{
	{"days off", "days off"}, {"day off", "days off"}, {"daysoff", "days off"}, {"zone", "zone"}, {"timezone", "zone"}, {"time zone", "zone"},
	{"language", "language"}, {"lang", "language"}, {"evening", "evening"}, {"eve", "evening"}, {"morning", "morning"},
	{"quiet hours", "quiet"}, {"quiet", "quiet"}, {"working hours", "work"}, {"work hours", "work"}, {"work", "work"},
	{"wake", "wake"}, {"move", "move"}, {"incubator", "incubator"}, {"spread", "spread"},
}

func (d *reader) set() bool {
	i := 1
	if d.word(0) != "set" {
		if d.word(0) != "incubator" || len(d.toks) != 2 {
			return false
		}
		i = 0
	}
	if d.word(0) == "set" && len(d.toks) == 1 || d.is(doSet, "settings", "show settings") {
		d.r.verb = doSet
		return true
	}
	for _, w := range settingWords {
		if d.phrase(i, w.typed) {
			v := strings.TrimPrefix(d.from(i+len(splitSpace(w.typed))), "to ")
			v = strings.TrimPrefix(v, "at ")
			d.r.verb, d.r.key, d.r.value = doSet, w.key, v
			if w.key != "zone" {
				d.r.value = strings.ToLower(v)
			}
			return true
		}
	}
	// "set 40 nucs out" is talk about work; only a single unknown name is a setting.
	if len(d.toks) == 3 && !d.toks[1].isNum {
		d.r.verb, d.r.key, d.r.value = doSet, d.word(1), d.toks[2].orig
		return true
	}
	return false
}

func (d *reader) add() bool {
	if d.word(0) != "add" && d.word(0) != "new" || len(d.toks) < 3 {
		return false
	}
	r := d.r
	kind := d.word(1)
	name := d.toks[2]
	i := 3
	switch kind {
	case "breeder", "queen":
		if !name.isNum {
			return false
		}
		r.breeder = name.num
	case "builder":
		if m := builderForm.FindStringSubmatch(name.text); m != nil {
			r.builder = "B" + m[1]
		} else if name.isNum {
			r.builder = "B" + name.text
		} else if isName(name.orig) {
			r.builder = name.orig
		} else {
			return false
		}
	case "yard":
		var parts []string
		for i = 2; i < len(d.toks) && !d.toks[i].isNum && isName(d.toks[i].orig) && d.word(i) != "with" && len(parts) < 3; i++ {
			parts = append(parts, d.toks[i].orig)
			if d.toks[i].comma {
				i++
				break
			}
		}
		if len(parts) == 0 {
			return false
		}
		r.yard = strings.Join(parts, " ")
	default:
		return false
	}
	r.verb, r.step = doAdd, rules.Add
	for ; i < len(d.toks); i++ {
		w := d.word(i)
		switch {
		case d.toks[i].isNum && kind == "yard" && r.count == nil:
			n := d.toks[i].num
			r.count = &n
		case w == "nucs" || w == "nuc" || w == "with" || w == "and":
		case (w == "at" || w == "in") && kind != "yard" && i+1 < len(d.toks):
			r.yard = d.from(i + 1)
			for _, y := range d.n.yards {
				if fold(y) == fold(r.yard) {
					r.yard = y
				}
			}
			i = len(d.toks)
		default:
			r.rest = append(r.rest, d.toks[i].orig)
		}
	}
	return true
}

func (d *reader) due() bool {
	r := d.r
	i := 0
	for _, lead := range []string{"what's", "whats", "what is", "what are", "show", "list", "anything", "is anything", "what"} {
		if d.phrase(0, lead) {
			i = len(splitSpace(lead))
			break
		}
	}
	if d.word(i) == "open" && len(d.toks) == i+1 && i > 0 {
		r.verb, r.question = askDue, false
		return true
	}
	if d.word(i) != "due" && d.word(i) != "todo" {
		return false
	}
	i++
	for d.word(i) == "on" || d.word(i) == "for" || d.word(i) == "the" || d.word(i) == "in" {
		i++
	}
	day := when{}
	days := 0
	switch rest := strings.ToLower(d.from(i)); rest {
	case "":
	case "today", "now":
	case "tomorrow":
		day, days = when{set: true, hasDay: true, back: -1}, 1
	case "this week", "week", "next days", "next 7 days", "7 days":
		days = 7
	case "next week":
		day, days = when{set: true, hasDay: true, back: -7}, 7
	default:
		n, used := d.day(i)
		if used > 0 && i+used == len(d.toks) {
			day, days = n, 1
			if n.weekday > 0 {
				day.back = -1 // the coming one
			}
			break
		}
		if k, ok := d.number(i); ok && d.word(i+1) == "days" && len(d.toks) == i+2 && k > 0 && k < 400 {
			days = k
			break
		}
		return false
	}
	r.verb, r.dueDay, r.days, r.question = askDue, day, days, false
	return true
}

func (d *reader) show() bool {
	r := d.r
	i := 0
	for _, lead := range []string{"show", "how is", "how's", "status", "status of"} {
		if d.phrase(0, lead) {
			i = len(splitSpace(lead))
		}
	}
	n := len(d.toks)
	if v, ok := d.number(i + 1); ok && n == i+2 {
		switch d.word(i) {
		case "batch":
			r.batch = v
		case "breeder", "queen":
			r.breeder = v
		case "builder":
			r.builder = "B" + d.word(i+1)
		default:
			return false
		}
		r.verb, r.question = askShow, false
		return true
	}
	if d.word(i) == "builder" || d.word(i) == "yard" {
		name := d.from(i + 1)
		list := d.n.builders
		if d.word(i) == "yard" {
			list = d.n.yards
		}
		for _, k := range list {
			if fold(k) == fold(name) {
				if d.word(i) == "yard" {
					r.yard = k
				} else {
					r.builder = k
				}
				r.verb, r.question = askShow, false
				return true
			}
		}
		if n == i+2 && isName(name) {
			if d.word(i) == "yard" {
				r.yard = name
			} else {
				r.builder = strings.ToUpper(name[:1]) + name[1:]
			}
			r.verb, r.question = askShow, false
			return true
		}
	}
	return d.is(askLog, "log", "recent", "last", "show log")
}

func (d *reader) why() bool {
	if d.is(askWhy, "why", "why is that", "why so", "how come", "why that") {
		return true
	}
	if d.word(0) != "why" || len(d.toks) > 4 {
		return false
	}
	d.use(0, 1)
	d.things()
	d.verb()
	for _, t := range d.toks {
		if !t.used && !fillers[t.text] {
			return false
		}
	}
	d.r.verb, d.r.question = askWhy, false
	return true
}

func (d *reader) help() bool {
	if d.is(askHelp, "help", "?", "commands", "start") {
		return true
	}
	if d.word(0) == "help" && len(d.toks) == 2 {
		d.r.verb, d.r.topic = askHelp, d.word(1)
		return true
	}
	return false
}

func (d *reader) mine() bool {
	return d.is(doMine, "mine", "i'll do it", "ill do it", "i got it", "i've got it", "ive got it", "on it", "i'm on it", "im on it",
		"my job", "i'll take it", "ill take it", "i will do it", "that's mine", "thats mine", "i have it", "got it, mine")
}

func (d *reader) later() bool {
	r := d.r
	i := 0
	switch {
	case d.word(0) == "later" || d.word(0) == "snooze":
		i = 1
	case d.phrase(0, "remind me"), d.phrase(0, "tell me"):
		i = 2
		if d.word(2) == "again" {
			i = 3
		}
		if d.word(i) == "later" {
			i++
		}
		if i == len(d.toks) && d.word(0) == "tell" {
			return false
		}
	default:
		return false
	}
	if d.word(i) == "in" || d.word(i) == "for" {
		i++
	}
	if i >= len(d.toks) {
		r.verb = doLater
		return true
	}
	if span, n := d.span(i); n > 0 && i+n == len(d.toks) {
		r.verb, r.span = doLater, span
		return true
	}
	w, n := d.clock(i)
	if day, k := d.day(i); k > 0 && w.hasTime == false {
		if d.word(i+k) == "at" {
			k++
		}
		w, n = d.clock(i + k)
		n += k
		w.hasDay, w.back, w.weekday, w.date, w.year, w.month, w.day = true, day.back, day.weekday, day.date, day.year, day.month, day.day
	}
	if n > 0 && i+n == len(d.toks) {
		w.set = true
		r.verb, r.when = doLater, w
		return true
	}
	if d.word(0) == "later" && d.toks[0].comma || r.addressed {
		r.verb = doLater
		r.rest = append(r.rest, d.from(i))
		return true
	}
	return false // "later we should …" is talk
}

// span reads a length of time from token i: "2h", "2 hours", "30 min", "an hour".
func (d *reader) span(i int) (time.Duration, int) {
	if m := quantity.FindStringSubmatch(d.word(i)); m != nil {
		if s, err := rules.ParseSpan(m[1] + m[2][:1]); err == nil {
			return s, 1
		}
	}
	if s, err := rules.ParseSpan(d.word(i)); err == nil && !d.toks[i].isNum {
		return s, 1
	}
	n, ok := d.number(i)
	if !ok && (d.word(i) == "an" || d.word(i) == "a" || d.word(i) == "one") {
		n, ok = 1, true
	}
	if !ok || n < 0 || n > 10000 {
		return 0, 0
	}
	switch w := d.word(i + 1); {
	case w == "h" || strings.HasPrefix(w, "hour") || w == "hr" || w == "hrs":
		return time.Duration(n) * time.Hour, 2
	case w == "m" || strings.HasPrefix(w, "min"):
		return time.Duration(n) * time.Minute, 2
	case w == "d" || w == "day" || w == "days":
		return time.Duration(n) * 24 * time.Hour, 2
	}
	return 0, 0
}

// skip takes the rest of the message as the reason, since that is how crews write
// it: "skip, too wet".
func (d *reader) skip() bool {
	if d.word(0) != "skip" && !d.phrase(0, "skip it") && d.word(0) != "skipping" {
		return false
	}
	r := d.r
	r.verb = doSkip
	i := 1
	if d.word(1) == "it" || d.word(1) == "this" || d.word(1) == "that" {
		i = 2
	}
	if i > 1 || len(d.toks) == 1 || d.toks[0].comma {
		r.reason = d.from(i)
		return true
	}
	// "skip accept batch 4": a step and a subject instead of a reason.
	if s, ok := stepWords[d.word(1)]; ok {
		r.step = s
		d.use(0, 2)
		d.things()
		var rest []string
		for _, t := range d.toks {
			if !t.used && !fillers[t.text] {
				rest = append(rest, t.orig)
			}
		}
		r.reason = strings.Join(rest, " ")
		return true
	}
	r.reason = d.from(1)
	return true
}

func (d *reader) yesNo() bool {
	return d.is(sayYes, "yes", "y", "yep", "yeah", "yes please", "ok", "okay", "sure") || d.is(sayNo, "no", "n", "nope", "no thanks")
}

func (d *reader) other() bool {
	if d.is(askPicture, "week", "season") {
		return true
	}
	if (d.word(0) == "plan" || d.word(0) == "order") && len(d.toks) > 2 && d.toks[1].isNum {
		d.r.verb = askPlan
		return true
	}
	return false
}
