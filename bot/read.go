package bot

import (
	"regexp"
	"strconv"
	"strings"

	"yardbell/rules"
)

// reader works on one message.
type reader struct {
	toks []token
	n    names
	r    *reading
}

// botName is how the bot is spoken to by name.
const botName = "yardbell"

var (
	builderForm = regexp.MustCompile(`^b-?(\d{1,3})$`)
	quantity    = regexp.MustCompile(`^(\d+(?:\.\d+)?)(h|hr|hrs|hours?|d|days?|m|min|mins)$`)
)

// read makes out what a message wants. It never fails: what it cannot read is in
// rest, and nothing with a rest is logged without asking.
func read(text string, n names) *reading {
	r := &reading{text: clean(text)}
	s := r.text
	if strings.HasPrefix(s, "/") {
		r.addressed = true
		s = s[1:]
		// A command may carry the bot's name: /done@yardbell_bot 34.
		first, rest, _ := strings.Cut(s, " ")
		first, _, _ = strings.Cut(first, "@")
		s = strings.TrimSpace(first + " " + rest)
	}
	low := fold(s)
	for _, p := range []string{"@" + botName, botName} {
		if strings.HasPrefix(low, p) {
			r.addressed = true
			s = strings.TrimLeft(s[len(p):], " ,:!")
			break
		}
	}
	r.question = strings.HasSuffix(s, "?")
	d := &reader{toks: tokenize(s), n: n, r: r}
	for _, t := range d.toks {
		r.digits = r.digits || t.isNum
	}
	if len(d.toks) == 0 || len(d.toks) > mostTokens {
		for _, t := range d.toks {
			r.rest = append(r.rest, t.orig)
		}
		return r
	}
	if d.whole() {
		return r
	}
	d.steps()
	return r
}

func (d *reader) word(i int) string {
	if i < 0 || i >= len(d.toks) {
		return ""
	}
	return d.toks[i].text
}

func (d *reader) number(i int) (int, bool) {
	if i < 0 || i >= len(d.toks) || !d.toks[i].isNum || d.toks[i].used {
		return 0, false
	}
	return d.toks[i].num, true
}

func (d *reader) use(i, n int) {
	for k := i; k < i+n && k < len(d.toks); k++ {
		d.toks[k].used = true
	}
}

func (d *reader) phrase(i int, s string) bool {
	for k, w := range splitSpace(s) {
		if d.word(i+k) != w {
			return false
		}
	}
	return true
}

// steps reads everything that may log a line.
func (d *reader) steps() {
	d.doubt()
	d.times()
	d.things()
	d.verb()
	d.numbers()
	d.leftovers()
}

// doubt marks questions, negations and hedges.
func (d *reader) doubt() {
	if openers[d.word(0)] && !(doneWords[d.word(0)] && (d.word(1) == "" || d.word(1) == "it")) {
		d.r.question = true
	}
	for i := 0; i < len(d.toks); i++ {
		w := d.word(i)
		switch {
		case w == "no" && (d.word(i+1) == "eggs" || d.word(i+1) == "egg"):
			d.r.noEggs = true
			d.use(i, 1)
			if d.word(i+2) == "yet" {
				d.use(i+2, 1)
			}
		case (w == "not" || w == "isn't" || w == "hasn't") && (d.phrase(i+1, "laying yet") || d.phrase(i+1, "laid yet")):
			d.r.noEggs = true
			d.r.step = rules.Eggs
			d.use(i, 3)
		case w == "no" && (d.word(i+1) == "rogue" || d.word(i+1) == "rogues"):
			zero := 0
			d.r.count = &zero
			d.use(i, 1)
		case (w == "no" || w == "without") && d.word(i+1) == "bees":
			f := false
			d.r.bees = &f
			d.use(i, 2)
		case negations[w]:
			d.r.negated = true
			d.use(i, 1)
		case hedges[w]:
			d.r.hedged = true
			d.use(i, 1)
		}
	}
}

// things reads what is named: breeders, batches, builders, yards, combs' pins,
// bees shaken in, larval ages.
func (d *reader) things() {
	r := d.r
	for i := 0; i < len(d.toks); i++ {
		if d.toks[i].used {
			continue
		}
		w := d.word(i)
		next, isNum := d.number(i + 1)
		switch {
		case (w == "batch" || w == "b#") && isNum:
			r.batch = next
			d.use(i, 2)
		case (w == "breeder" || w == "queen" || w == "mother") && isNum:
			r.breeder = next
			d.use(i, 2)
		case w == "from" && isNum:
			r.breeder = next
			d.use(i, 2)
		case w == "from" && (d.word(i+1) == "breeder" || d.word(i+1) == "queen"):
			d.use(i, 1)
		case w == "builder" && isNum:
			d.builder("B"+strconv.Itoa(next), i, 2)
		case (w == "b") && isNum:
			d.builder("B"+strconv.Itoa(next), i, 2)
		case builderForm.MatchString(w):
			d.builder("B"+builderForm.FindStringSubmatch(w)[1], i, 1)
		case marks[w]:
			r.mark = strings.ReplaceAll(w, "gray", "grey")
			d.use(i, 1)
			for _, k := range []int{i - 1, i + 1} {
				if x := d.word(k); x == "pin" || x == "mark" || x == "comb" {
					d.use(k, 1)
				}
			}
		case w == "pin" && !isNum && d.word(i+1) != "" && !fillers[d.word(i+1)] && !d.toks[i+1].used:
			r.mark = d.word(i + 1)
			d.use(i, 2)
		case w == "bees" && (d.word(i+1) == "in" || d.word(i+1) == "shaken" || d.word(i+1) == "shook"):
			d.bees(i, 2)
			if d.word(i+2) == "in" {
				d.use(i+2, 1)
			}
		case (w == "shook" || w == "shaken" || w == "with") && d.word(i+1) == "bees":
			d.bees(i, 2)
			if d.word(i+2) == "in" {
				d.use(i+2, 1)
			}
		default:
			d.age(i)
		}
	}
	d.places()
}

func (d *reader) bees(i, n int) {
	t := true
	d.r.bees = &t
	d.use(i, n)
}

func (d *reader) builder(name string, i, n int) {
	d.r.builder = name
	d.use(i, n)
}

// age reads "30 h old", "12-24 h old", "12 to 24 hours old".
func (d *reader) age(i int) {
	end := -1
	for k := i; k < i+6 && k < len(d.toks); k++ {
		if d.word(k) == "old" {
			end = k
		}
	}
	if end < 0 {
		return
	}
	var ages []float64
	for k := i; k < end; k++ {
		w := d.word(k)
		if a, b, ok := strings.Cut(strings.TrimSuffix(w, "h"), "-"); ok && isDigits(a) && isDigits(b) {
			x, _ := strconv.ParseFloat(a, 64)
			y, _ := strconv.ParseFloat(b, 64)
			ages = append(ages, x, y)
			continue
		}
		if m := quantity.FindStringSubmatch(w); m != nil && strings.HasPrefix(m[2], "h") {
			x, _ := strconv.ParseFloat(m[1], 64)
			ages = append(ages, x)
			continue
		}
		switch {
		case d.toks[k].isNum && !d.toks[k].used:
			ages = append(ages, float64(d.toks[k].num))
		case w == "h" || w == "hr" || w == "hrs" || w == "hour" || w == "hours" || w == "to" || w == "and":
		default:
			return
		}
	}
	switch len(ages) {
	case 1:
		d.r.ageLo, d.r.ageHi = &ages[0], &ages[0]
	case 2:
		if ages[0] > ages[1] {
			ages[0], ages[1] = ages[1], ages[0]
		}
		d.r.ageLo, d.r.ageHi = &ages[0], &ages[1]
	default:
		return
	}
	d.use(i, end-i+1)
}

// places reads yards: the crew's own names anywhere, an unknown one after "to",
// "at" or "in".
func (d *reader) places() {
	r := d.r
	for _, known := range d.n.builders {
		d.known(known, func(i, n int) { d.builder(known, i, n) })
	}
	for _, known := range d.n.yards {
		d.known(known, func(i, n int) { r.yard = known; d.use(i, n) })
	}
	if r.yard != "" {
		return
	}
	for i := range d.toks {
		w := d.word(i)
		if w != "to" && w != "at" && w != "in" && w != "into" && w != "yard" {
			continue
		}
		j := i + 1
		if d.word(j) == "yard" || d.word(j) == "the" {
			j++
		}
		var name []string
		k := j
		for ; k < len(d.toks) && len(name) < 3; k++ {
			t := d.toks[k]
			if t.used || t.isNum || fillers[t.text] || stepWords[t.text] != "" || doneWords[t.text] || !isName(t.orig) {
				break
			}
			name = append(name, t.orig)
			if t.comma {
				k++
				break
			}
		}
		if len(name) > 0 {
			r.yard = strings.Join(name, " ")
			d.use(i, k-i)
			if d.word(k) == "yard" {
				d.use(k, 1)
			}
			return
		}
	}
}

func (d *reader) known(name string, found func(i, n int)) {
	parts := splitSpace(fold(name))
	for i := range d.toks {
		ok := true
		for k, p := range parts {
			if i+k >= len(d.toks) || d.toks[i+k].used || d.word(i+k) != p {
				ok = false
				break
			}
		}
		if ok {
			found(i, len(parts))
			if x := d.word(i + len(parts)); x == "yard" {
				d.use(i+len(parts), 1)
			}
			return
		}
	}
}

var nameForm = regexp.MustCompile(`^\pL[\pL\pN'\-]{0,23}$`)

func isName(s string) bool { return nameForm.MatchString(s) }

// verb finds the step.
func (d *reader) verb() {
	r := d.r
	if r.step != "" {
		r.verb = doStep
		return
	}
	// Two-word steps first.
	for i := range d.toks {
		w := d.word(i)
		switch {
		case w == "comb" && d.word(i+1) == "out", w == "comb" && d.word(i+1) == "is" && d.word(i+2) == "out":
			d.step(rules.CombOut, i, 2)
		case (w == "pulled" || w == "pull" || w == "removed" || w == "took" || w == "taken") && has(d.after(i), "comb"):
			d.step(rules.CombOut, i, 1)
			d.pass("comb", "out")
		case w == "let" && has(d.after(i), "out"), w == "let" && has(d.after(i), "go"):
			r.release = true
			d.step(rules.CombOut, i, 1)
			d.pass("out", "go")
		case (w == "made" || w == "make" || w == "making") && has(d.after(i), "nucs"):
			d.step(rules.Nucs, i, 1)
			d.pass("nucs", "up")
		case w == "drone" && (d.word(i+1) == "comb" || d.word(i+1) == "frame"):
			d.step(rules.Drones, i, 2)
		case w == "dearth" && (d.word(i+1) == "over" || d.word(i+1) == "ended"), w == "flow" && (d.word(i+1) == "on" || d.word(i+1) == "started"):
			d.step(rules.Flow, i, 2)
		case w == "flow" && (d.word(i+1) == "over" || d.word(i+1) == "ended" || d.word(i+1) == "stopped"), w == "dearth" && (d.word(i+1) == "started" || d.word(i+1) == "on"):
			d.step(rules.Dearth, i, 2)
		case w == "wild" && strings.HasPrefix(d.word(i+1), "cell"):
			d.step(rules.Rogue, i, 2)
		}
		if r.step != "" {
			return
		}
	}
	hard := d.candidates(false)
	if len(hard) == 0 {
		hard = d.candidates(true)
	}
	if len(hard) == 0 {
		d.typo()
		hard = d.candidates(false)
	}
	if len(hard) == 0 {
		for i, t := range d.toks {
			if doneWords[t.text] && !t.used {
				r.verb = doDone
				d.use(i, 1)
				return
			}
		}
		return
	}
	// "moved to the finisher" is the finisher; otherwise two deeds are too many.
	step := stepWords[d.word(hard[0])]
	for _, i := range hard[1:] {
		s := stepWords[d.word(i)]
		if s == step {
			continue
		}
		if (step == rules.Move && s == rules.Finish) || (step == rules.Finish && s == rules.Move) {
			step = rules.Finish
			continue
		}
		r.rest = append(r.rest, d.toks[i].orig)
	}
	if w := d.word(hard[0]); w == "release" || w == "released" {
		r.release = true
	}
	for _, i := range hard {
		d.use(i, 1)
	}
	r.verb, r.step = doStep, step
	for i, t := range d.toks {
		if softSteps[t.text] && !t.used {
			d.use(i, 1) // a thing, not a deed
		}
	}
}

func (d *reader) step(s rules.Step, i, n int) {
	d.r.verb, d.r.step = doStep, s
	d.use(i, n)
}

func (d *reader) after(i int) (out []string) {
	for k := i + 1; k < len(d.toks); k++ {
		out = append(out, d.word(k))
	}
	return out
}

func (d *reader) pass(ws ...string) {
	for i, t := range d.toks {
		if has(ws, t.text) {
			d.use(i, 1)
		}
	}
}

func (d *reader) candidates(soft bool) (out []int) {
	for i, t := range d.toks {
		if !t.used && stepWords[t.text] != "" && softSteps[t.text] == soft {
			out = append(out, i)
		}
	}
	return out
}

// typo corrects the words nothing was made of, where there is one near word.
func (d *reader) typo() {
	for i := range d.toks {
		t := &d.toks[i]
		if t.used || t.isNum || fillers[t.text] || doneWords[t.text] {
			continue
		}
		if w, ok := nearWord(t.text, stepWords); ok && !softSteps[w] {
			d.r.typos = append(d.r.typos, t.orig)
			t.text = w
		}
	}
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}
