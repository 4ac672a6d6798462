package bot

import (
	"strings"

	"yardbell/rules"
)

func (d *reader) undo() bool { return d.is(doUndo) }

// fixForms are the ways to correct a count: NEW is the count it should be, OLD the
// one it was. The forms after the first list are too common in talk: read only
// where the bot is spoken to.
var fixForms = [2][]string{
	{"not OLD NEW", "no OLD NEW", "not OLD but NEW", "not OLD it's NEW", "not OLD its NEW", "not OLD it is NEW", "not OLD it was NEW", "NEW not OLD", "NEW no OLD", "it's NEW not OLD",
		"its NEW not OLD", "it is NEW not OLD", "it was NEW not OLD", "was NEW not OLD", "should be NEW not OLD", "i meant NEW not OLD", "NEW instead of OLD",
		"make that NEW not OLD", "make that NEW", "i meant NEW", "meant NEW", "sorry NEW not OLD", "sorry i meant NEW", "sorry it was NEW", "sorry it's NEW", "correction NEW", "correct to NEW", "change OLD to NEW",
		"OLD should be NEW", "OLD should have been NEW", "that should be NEW", "it was not OLD but NEW", "*NEW", "no NEW not OLD",
		"wasn't OLD was NEW", "it wasn't OLD it was NEW", "it wasn't OLD but NEW", "not OLD was NEW"},
	{"make it NEW", "should be NEW", "should have been NEW", "it was NEW", "fix NEW", "sorry NEW", "no NEW", "it's NEW", "it should be NEW"},
}

// fixSplit is fixForms word by word, by how many words they have.
var fixSplit = func() (split [2]map[int][][]string) {
	for k, list := range fixForms {
		split[k] = map[int][][]string{}
		for _, f := range list {
			ws := splitSpace(f)
			split[k][len(ws)] = append(split[k][len(ws)], ws)
		}
	}
	return split
}()

func (d *reader) fix() bool {
	if d.softly {
		return d.firmFix() && d.soft(doFix)
	}
	return d.firmFix()
}

// firmFix reads a correction of a count by its forms.
func (d *reader) firmFix() bool {
	n := len(d.toks) // what is counted may follow
	for n > 1 && (countedThings[d.word(n-1)] || d.word(n-1) == "please" || d.word(n-1) == "pls") {
		n--
	}
	for k, forms := range fixSplit {
		if k == 1 && !d.r.addressed {
			return false
		}
		for _, f := range forms[n] {
			if d.fits(f) {
				return true
			}
		}
	}
	return false
}

// fits reads the message by one form of a correction.
func (d *reader) fits(form []string) bool {
	var count, old *int
	for i, w := range form {
		v, isNum := d.number(i)
		switch {
		case w == "*NEW":
			s, ok := strings.CutPrefix(d.word(i), "*")
			if v, isNum = numeral(s); !ok || !isNum {
				return false
			}
			count = &v
		case w == "NEW" && isNum:
			count = &v
		case w == "OLD" && isNum:
			old = &v
		case w != d.word(i):
			return false
		}
	}
	d.r.verb, d.r.count, d.r.old = doFix, count, old
	return true
}

// mine reads a claim: of what the context names, or of what is named.
func (d *reader) mine() bool {
	if d.is(doMine) {
		return true
	}
	n := len(d.toks)
	i := 0
	switch {
	case d.word(0) == "mine":
		i = 1
	case d.phrase(0, "i'll take") || d.phrase(0, "ill take") || d.phrase(0, "i'll do") || d.phrase(0, "i take"):
		i = 2
	case n > 2 && d.word(n-1) == "mine" && d.word(n-2) == "is":
		n -= 2
	default:
		return false
	}
	if !d.named(i, n) {
		d.reset()
		if i == 1 && n == len(d.toks) && d.r.addressed && d.toks[0].comma && d.assures(1) {
			d.r.verb = doMine // "mine, I'm 5 min away"
			return true
		}
		return false
	}
	d.r.verb = doMine
	return true
}

// assures reports whether the words from token i on only say how somebody goes about
// what he has taken on: that he is near, or on his way.
func (d *reader) assures(i int) bool {
	for ; i < len(d.toks); i++ {
		w := d.word(i)
		if !d.toks[i].isNum && !assuring[w] {
			return false
		}
	}
	return true
}

var assuring = words(`i i'm im am i'll ill be there in on my way now away out from off min mins minute minutes m h hr hour hours near nearby close by here at the yard truck almost nearly already driving heading
	going over just leaving home soon right coming back have got it this no worries problem guys folks all everyone`)

// named reads a step or a subject, and nothing else, from token i up to n.
func (d *reader) named(i, n int) bool {
	rest := d.partRest(i, n)
	return len(rest) == 0 && (d.r.step != "" || !d.r.subject().Zero())
}

// partRest reads what the tokens from i up to n name and returns the words left.
func (d *reader) partRest(i, n int) []string {
	part := reader{toks: append([]token(nil), d.toks[min(i, n):n]...), text: d.text, n: d.n, r: &reading{}, verbAt: -1, where: map[rules.Kind][]token{}}
	part.things()
	for k := range part.toks {
		if s := stepWords[part.word(k)]; s != "" && !part.toks[k].used && part.r.step == "" {
			part.r.step = s
			part.use(k, 1)
		}
	}
	if part.r.step == "" {
		part.phrases(false)
	}
	for k, t := range part.toks {
		if x := stepFillers[part.r.step]; !t.used && (x[t.text] && !notNow[t.text] || (t.text == "off" || t.text == "hands") && part.r.step == rules.HandsOff) {
			part.use(k, 1)
		}
	}
	part.settleLeads()
	part.r.verb = doStep
	part.leftovers()
	r := d.r
	r.step, r.batch, r.breeder, r.builder, r.yard = part.r.step, part.r.batch, part.r.breeder, part.r.builder, part.r.yard
	d.looks += part.looks
	return part.r.rest
}

// laterLeads open a request to be told again; "tell me" only with "again".
var laterLeads = []string{"later", "snooze", "remind me again", "remind me later", "remind me", "remind us", "tell me again", "ask again", "ask me again"}

var laterSmall = words(`in for until till at by it this that again please pls later to`)

func (d *reader) later() bool {
	r := d.r
	i := d.lead(0, laterLeads)
	if i == 0 {
		// "In two hours" answers a ping.
		if d.word(0) == "in" && r.addressed && d.laterTime(1) == len(d.toks)-1 {
			r.verb = doLater
			return true
		}
		r.when, r.span = when{}, 0
		return false
	}
	if len(d.toks) == i {
		// By itself it is a goodbye.
		if d.word(0) == "later" && !r.addressed {
			return false
		}
		r.verb = doLater
		return true
	}
	found := false
	var rest []token
	for k := i; k < len(d.toks); k++ {
		if laterSmall[d.word(k)] && !found && d.word(k) != "at" {
			continue
		}
		if !found {
			if n := d.laterTime(k); n > 0 {
				found = true
				k += n - 1
				continue
			}
		}
		rest = append(rest, d.toks[k])
	}
	part := reader{toks: rest, text: d.text, n: d.n, r: r, verbAt: -1}
	left := part.partRest(0, len(rest))
	switch {
	case !r.addressed && !found && r.step != "" && d.toks[0].glossed:
		// "Al rato saco el panal": said among people, it is a plan.
	case len(left) == 0 && (found || !r.subject().Zero() || r.step != "" || len(rest) == 0):
		r.verb = doLater
		return true
	case r.addressed && !found && i == 1 && d.toks[0].comma && !d.toks[0].glossed && excuse(rest):
		r.verb = doLater // "later, truck won't start"
		return true
	case found && len(left) < 3 || r.addressed:
		r.verb = doLater
		r.rest = append(r.rest, strings.Join(left, " "))
		return true
	}
	d.reset()
	return false // "later we should …" is talk
}

// excuse reports whether words say why and not until when: there are several of them,
// and none has to do with time.
func excuse(rest []token) bool {
	for _, t := range rest {
		_, weekday := weekdays[t.text]
		_, month := months[t.text]
		if t.isNum || letterOrDigit(t.orig) && !letters(strings.ReplaceAll(t.text, "'", "")) || weekday || month || dayParts[t.text] || hourWords[t.text] || untilWords[t.text] || notNow[t.text] {
			return false
		}
	}
	return len(rest) > 2
}

var untilWords = words(`today tomorrow tonight noon midday midnight minute minutes min mins day days week weeks half quarter past o'clock am pm a.m p.m next coming sunset dark dusk dawn sunrise lunch dinner breakfast`)

// laterTime reads until when, from token k, and says how many tokens it took.
func (d *reader) laterTime(k int) int {
	r := d.r
	if span, n := d.span(k); n > 0 {
		r.span = span
		return n
	}
	day, n := d.day(k)
	at := k + n
	told := n > 0
	if d.word(at) == "at" {
		at++
		told = true
	}
	told = told || d.word(k-1) == "until" || d.word(k-1) == "till"
	c, m := d.clock(at, told)
	if h, ok := d.number(at); ok && m == 0 && (d.word(at-1) == "until" || d.word(at-1) == "till") && h < 24 {
		c, m = when{hasTime: true, clock: rules.Clock(h * 60), half: h > 12 || h == 0}, 1
	}
	switch {
	case n == 0 && m == 0:
		return 0
	case m > 0:
		day.hasTime, day.clock, day.half = true, c.clock, c.half
		n = at + m - k
	}
	if day.weekday > 0 {
		day.back = -1 // the coming one
	}
	day.set = true
	r.when = day
	return n
}

// reasons are the words a reason opens with where no comma parts it.
var reasons = words(`too because cause bc since no not rain raining rained wet cold windy storm hot sick it's its they weather`)

// skip takes the rest of the message as the reason, since that is how crews write
// it: "skip, too wet". Without a comma it must sound like one, else it is talk.
func (d *reader) skip() bool {
	if w := d.word(0); w != "skip" && w != "skipping" && w != "skipped" {
		return false
	}
	r := d.r
	i := 1
	for w := d.word(i); !d.toks[i-1].comma && (w == "it" || w == "this" || w == "that" || w == "one" || w == "today"); w = d.word(i) {
		i++
	}
	if i == len(d.toks) || d.toks[i-1].comma || reasons[d.word(i)] && !determiners[d.word(i+1)] {
		r.verb, r.reason = doSkip, d.from(min(i, len(d.toks)))
		return true
	}
	// "skip accept batch 4, too few": a step and a subject before the reason.
	end := i
	for end < len(d.toks) && !d.toks[end].comma && !reasons[d.word(end)] {
		end++
	}
	if end < len(d.toks) && d.toks[end].comma {
		end++
	}
	if d.named(i, end) {
		r.verb, r.reason = doSkip, d.from(end)
		return true
	}
	d.reset()
	if r.addressed {
		r.verb, r.reason = doSkip, d.from(i)
		return true
	}
	return false // "skip lunch"
}
