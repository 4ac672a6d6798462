package bot

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"yardbell/rules"
)

var (
	builderForm = regexp.MustCompile(`^b-?(\d{1,3})$`)
	quantity    = regexp.MustCompile(`^(\d+(?:\.\d+)?)(h|hr|hrs|hours?|d|days?|m|min|mins)$`)
	agesForm    = regexp.MustCompile(`^(\d{1,3})-(\d{1,3})h?$`)
	nameForm    = regexp.MustCompile(`^\pL[\pL\pN'\-]{0,23}$`)
)

func isName(s string) bool { return nameForm.MatchString(s) }

// lead is a word such as "from" that was said before a thing. Which of them fits
// is known once the step is.
type lead struct {
	at   int
	kind rules.Kind
}

// things reads what is named: the crew's own builders and yards, breeders,
// batches, combs' pins, bees shaken in, larval ages. A second thing of one kind is
// left over, since one line has one of each.
func (d *reader) things() {
	d.ownNames()
	r := d.r
	for i := 0; i < len(d.toks); i++ {
		if d.toks[i].used {
			continue
		}
		w := d.word(i)
		k := i + 1
		for numberSigns[d.word(k)] && k == i+1 {
			k++
		}
		next, isNum := d.number(k)
		isNum = isNum && (k == i+1 || next >= 0)
		switch {
		case w == "batch" && isNum:
			if r.batch == 0 {
				r.batch = next
				d.found(i, k-i+1, rules.BatchKind)
				d.strong = true
			}
			i = k
		case breederWords[w] && isNum:
			if r.breeder == 0 {
				r.breeder = next
				d.found(i, k-i+1, rules.BreederKind)
				d.strong, d.namedBreeder = true, true
			}
			i = k
		case w == "from" && isNum && k == i+1 && !d.spanAt(k) && (d.toks[k].comma || !countedThings[d.word(k+1)]):
			if r.breeder == 0 {
				r.breeder = next
				d.place(i, 2, rules.BreederKind)
				d.strong, d.namedBreeder = true, true
			}
			i++
		case (w == "builder" || w == "b") && isNum:
			d.builder("B"+strconv.Itoa(next), i, k-i+1)
			i = k
		case builderForm.MatchString(w):
			name, n := "B"+builderForm.FindStringSubmatch(w)[1], 1
			if d.word(i-1) == "builder" {
				i, n = i-1, 2
			}
			d.builder(name, i, n)
			i += n - 1
		case marks[w]:
			d.mark(strings.ReplaceAll(w, "gray", "grey"), i, 1)
		case w == "pin" && len(d.word(i+1)) > 2 && !d.known(d.word(i+1)) && !d.toks[i+1].used && isName(d.word(i+1)) && !nearMark(d.word(i+1)):
			d.mark(d.word(i+1), i, 2)
		case bees(d, i):
		case w == "old":
			d.age(i)
		}
	}
}

var (
	breederWords = words(`breeder queen mother`)
	numberSigns  = words(`no nr number num #`)
	pinWords     = words(`pin mark marked pinned dot top`)
	beesIn       = words(`in shaken shook`)
)

// found takes the words of a thing and remembers the lead before it.
func (d *reader) found(i, n int, kind rules.Kind) {
	d.place(i, n, kind)
	j := i - 1
	for w := d.word(j); w == "the" || w == string(kind) && (kind == rules.YardKind || kind == rules.BuilderKind); w = d.word(j) {
		d.use(j, 1)
		j--
	}
	if leads[d.word(j)] && !d.toks[j].used {
		d.leadAt = append(d.leadAt, lead{j, kind})
	}
}

// place takes the words of a thing and remembers where they stand.
func (d *reader) place(i, n int, kind rules.Kind) {
	d.use(i, n)
	d.where[kind] = d.toks[i:min(i+n, len(d.toks))]
}

// misfits leaves over the things that the step has no place for: what would be
// dropped without a word may be what the message is about.
func (d *reader) misfits() {
	r := d.r
	d.about = things{r.breeder, r.batch, r.builder}
	if r.verb != doStep {
		return
	}
	over := func(kind rules.Kind) {
		for _, t := range d.where[kind] {
			r.rest = append(r.rest, t.orig)
		}
	}
	takes := stepTakes[r.step]
	if r.breeder != 0 && !takes[rules.BreederKind] {
		r.breeder = 0
		over(rules.BreederKind)
	}
	if r.batch != 0 && !takes[rules.BatchKind] {
		r.batch = 0
		over(rules.BatchKind)
	}
	if r.builder != "" && (!takes[rules.BuilderKind] || r.step == rules.Feed && r.breeder != 0) {
		r.builder = ""
		over(rules.BuilderKind)
	}
}

// stepTakes are the kinds of things that one line of each step has, beside a yard.
var stepTakes = func() map[rules.Step]map[rules.Kind]bool {
	m := map[rules.Step]map[rules.Kind]bool{}
	for _, s := range rules.Steps {
		m[s] = map[rules.Kind]bool{rules.BatchKind: true, rules.BuilderKind: true, rules.BreederKind: true}
	}
	for _, s := range []rules.Step{rules.Confine, rules.Eggs, rules.CombOut} {
		m[s] = map[rules.Kind]bool{rules.BreederKind: true}
	}
	m[rules.Graft] = map[rules.Kind]bool{rules.BreederKind: true, rules.BuilderKind: true}
	m[rules.Feed] = m[rules.Graft]
	m[rules.Rogue] = map[rules.Kind]bool{rules.BuilderKind: true, rules.BatchKind: true}
	m[rules.Drones] = map[rules.Kind]bool{rules.BuilderKind: true}
	m[rules.Dearth], m[rules.Flow] = nil, nil
	return m
}()

func (d *reader) mark(name string, i, n int) {
	if d.r.mark != "" || i > 0 && d.toks[i-1].comma && n == 1 && d.builderNamed(i+1) != "" {
		return // ", red B1" may be a slip of ", fed B1"
	}
	if n == 1 && d.word(i+1) == "her" {
		return // and "red her" one of "fed her"
	}
	d.r.mark, d.markAt = name, i
	d.use(i, n)
	for _, k := range []int{i - 1, i + n} {
		if pinWords[d.word(k)] && !d.toks[k].used {
			d.use(k, 1)
			if x := d.word(k - 1); k < i && (x == "with" || x == "a") {
				d.use(k-1, 1)
			}
		}
	}
	for k := i - 1; k >= 0 && k >= i-2 && (d.word(k) == "a" || d.word(k) == "with"); k-- {
		d.use(k, 1)
	}
}

// nearMark reports whether a word is a colour with a slip in it, and so no name of a
// pin's own.
func nearMark(w string) bool {
	for m := range marks {
		if oneSlip(w, m) {
			return true
		}
	}
	for m := range otherColours {
		if oneSlip(w, m) {
			return true
		}
	}
	return false
}

var otherColours = words(`rojo roja azul verde amarillo amarilla blanco blanca negro negra naranja rosa morado morada cafe gris`)

// marked are the steps that have to do with a comb, and so with its pin.
var marked = map[rules.Step]bool{rules.Confine: true, rules.Eggs: true, rules.CombOut: true, rules.Graft: true, "": true}

// settleMark leaves a colour over that is no pin's.
func (d *reader) settleMark() {
	if d.r.mark != "" && !marked[d.r.step] {
		d.r.mark, d.toks[d.markAt].used = "", false
	}
	if d.r.mark != "" && d.markAt == 0 && d.ownAt(1, d.n.builders) > 0 {
		d.r.mark, d.toks[0].used = "", false // "red B2" is no pin, it may be a slip of "fed B2"
	}
}

// bees reads whether bees were shaken in with her.
func bees(d *reader, i int) bool {
	w, yes, n := d.word(i), true, 0
	switch {
	case w == "bees" && beesIn[d.word(i+1)]:
		n = 2
	case (w == "shook" || w == "shaken" || w == "with") && d.word(i+1) == "bees":
		n = 2
	case (w == "no" || w == "without") && d.word(i+1) == "bees":
		yes, n = false, 2
	default:
		return false
	}
	if d.word(i+n) == "in" {
		n++
	}
	d.r.bees = &yes
	d.use(i, n)
	return true
}

func (d *reader) builder(name string, i, n int) {
	if d.r.builder != "" && d.r.builder != name {
		return
	}
	d.r.builder = name
	d.found(i, n, rules.BuilderKind)
	d.strong = true
}

func (d *reader) yard(name string, i, n int) {
	if d.r.yard != "" && d.r.yard != name {
		return
	}
	d.r.yard = name
	if d.word(i+n) == "yard" {
		n++
	}
	d.found(i, n, rules.YardKind)
	d.strong = true
}

// ownNames finds the crew's own builders and yards, by their first word, the
// longest first.
func (d *reader) ownNames() {
	type own struct {
		name    string
		parts   []string
		builder bool
	}
	byFirst := map[string][]own{}
	for k, list := range [][]string{d.n.builders, d.n.yards} {
		for _, name := range list {
			if parts := splitSpace(fold(name)); len(parts) > 0 {
				byFirst[parts[0]] = append(byFirst[parts[0]], own{name, parts, k == 0})
			}
		}
	}
	for i := 0; i < len(d.toks); i++ {
		best := own{}
		for _, o := range byFirst[d.word(i)] {
			fits := len(o.parts) > len(best.parts)
			for k := 0; fits && k < len(o.parts); k++ {
				fits = d.word(i+k) == o.parts[k] && !d.toks[i+k].used
			}
			if fits {
				best = o
			}
		}
		switch n := len(best.parts); {
		case n == 0:
			continue
		case best.builder:
			d.builder(best.name, i, n)
		default:
			d.yard(best.name, i, n)
		}
		i += len(best.parts) - 1
	}
}

// age reads "30 h old", "12-24 h old", "12 to 24 hours old" and "one day old",
// which end at token end.
func (d *reader) age(end int) {
	r := d.r
	if r.ageHi != nil {
		return
	}
	var ages []float64
	hours, i := 1.0, end-1
scan:
	for ; i >= 0 && i >= end-5 && len(ages) < 2 && !d.toks[i].used; i-- {
		w := d.word(i)
		switch {
		case hourWords[w] && len(ages) == 0:
		case (w == "day" || w == "days") && len(ages) == 0:
			hours = 24
		case (w == "to" || w == "and") && len(ages) == 1:
		case agesForm.MatchString(w) && len(ages) == 0:
			m := agesForm.FindStringSubmatch(w)
			lo, _ := strconv.ParseFloat(m[1], 64)
			hi, _ := strconv.ParseFloat(m[2], 64)
			ages = append(ages, hi*hours, lo*hours)
		case d.toks[i].isNum && (len(ages) == 0 || d.word(i+1) == "to" || d.word(i+1) == "and"):
			ages = append(ages, float64(d.toks[i].num)*hours)
		case quantity.MatchString(w) && (len(ages) == 0 || d.word(i+1) == "to"):
			m := quantity.FindStringSubmatch(w)
			x, _ := strconv.ParseFloat(m[1], 64)
			if m[2][0] == 'd' {
				x *= 24
			}
			if m[2][0] != 'm' {
				ages = append(ages, x)
			}
		default:
			break scan
		}
	}
	if len(ages) == 0 {
		return
	}
	if x := d.word(i + 1); x == "to" || x == "and" {
		i++ // it led to no second age
	}
	lo, hi := ages[len(ages)-1], ages[0]
	if lo > hi {
		lo, hi = hi, lo
	}
	r.ageLo, r.ageHi = &lo, &hi
	d.use(i+1, end-i)
}

var hourWords = words(`h hr hrs hour hours`)

// places reads a name that nobody knows yet after "to", "at", "in" or "into":
// a yard, or the builder of a step that happens at one.
func (d *reader) places() {
	r := d.r
	if r.verb != noVerb && (r.verb != doStep || !placed[r.step] && !builderPlaced[r.step]) {
		return
	}
	for i := range d.toks {
		w := d.word(i)
		if d.toks[i].used || w != "to" && w != "at" && w != "in" && w != "into" && w != "yard" {
			continue
		}
		j := i + 1
		if d.word(j) == "yard" || d.word(j) == "builder" {
			j++
		}
		if n, ok := d.number(j); ok && builderPlaced[r.step] && (w == "to" || w == "into") && r.builder == "" {
			d.builder("B"+strconv.Itoa(n), i, j-i+1)
			return
		}
		var name []string
		k := j
		for ; k < len(d.toks) && len(name) < 3; k++ {
			t := d.toks[k]
			if t.used || t.isNum || d.known(t.text) || !isName(t.orig) || len(name) > 0 && d.toks[k-1].comma {
				break
			}
			if len(name) > 0 && d.lower(t.orig) != d.lower(name[0]) {
				break // "North with" is not a name of two words
			}
			name = append(name, t.orig)
		}
		// "Caught 24 in total" names no place; "in Texas" does.
		if len(name) == 0 || d.lower(name[0]) && (len(name) > 1 || w == "in") {
			continue
		}
		if d.word(k) == "yard" {
			k++
		}
		switch {
		case r.verb == noVerb && (i > 0 || k < len(d.toks)):
			return // without a deed only an answer of nothing else names a place
		case r.verb == noVerb && w == "into", builderPlaced[r.step] && r.builder == "":
			r.builder = strings.Join(name, " ")
		case r.verb == noVerb, placed[r.step] && r.yard == "":
			r.yard = strings.Join(name, " ")
		default:
			continue
		}
		d.use(i, k-i)
		return
	}
}

// lower reports whether a name was typed without a capital, or in a message of nothing
// but capitals, where they mark no name: "CAUGHT IN TRAFFIC".
func (d *reader) lower(s string) bool { return lower(s) || !smallLetters(d.text) }

// lower reports whether a name was typed without a capital, in a script that has
// capitals.
func lower(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLower(r)
}

// settleLeads takes the words before things where they fit the step: "moved 34
// from North" does not say where they went.
func (d *reader) settleLeads() {
	for _, l := range d.leadAt {
		w := d.word(l.at)
		if d.leadFits(w, l.kind) {
			d.use(l.at, 1)
		}
	}
}

func (d *reader) leadFits(w string, kind rules.Kind) bool {
	step := d.r.step
	if step == "" {
		return true // an answer: "into B2"
	}
	if w == "for" || w == "in" || w == "at" || w == "on" {
		return w != "on" || kind != rules.YardKind
	}
	switch kind {
	case rules.BatchKind:
		return w == "of" || w == "from" || w == "to" && step == rules.Finish
	case rules.BreederKind:
		return w == "from" || w == "of"
	case rules.BuilderKind:
		if w == "from" || w == "of" {
			return step != rules.Graft && step != rules.Finish && step != rules.Feed
		}
		return builderPlaced[step] || step == rules.Feed
	case rules.YardKind:
		if w == "to" || w == "into" {
			return step == rules.Move || step == rules.Nucs || step == rules.Recell
		}
		return step == rules.Catch || step == rules.Emerge || step == rules.Laying
	}
	return false
}
