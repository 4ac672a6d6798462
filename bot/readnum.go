package bot

import (
	"strconv"
	"strings"

	"yardbell/rules"
)

// numberWords are numbers up to ninety. "One" is not among them: it stands for a
// thing as often as for a number, and is a number only in "one hundred".
var numberWords = map[string]int{
	"zero": 0, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40,
	"fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// numeral reads "45", "#45" and "-5". A number below zero is read, so that it can
// be refused in words.
func numeral(s string) (int, bool) {
	s = strings.TrimPrefix(s, "#")
	if !isDigits(strings.TrimPrefix(s, "-")) {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}

// joinNumbers makes "forty five", "forty-one" and "a hundred and twenty" one number.
func joinNumbers(in []token) []token {
	out := in[:0:0]
	for i := 0; i < len(in); i++ {
		t := in[i]
		if a, b, ok := strings.Cut(t.text, "-"); ok && !t.isNum {
			if n, ok := tensUnits(a, b); ok {
				t.num, t.isNum = n, true
			}
		}
		n, used := spokenNumber(in[i:])
		if used > 1 {
			t.num, t.isNum, t.comma = n, true, in[i+used-1].comma
			for _, more := range in[i+1 : i+used] {
				t.orig += " " + more.orig
			}
			i += used - 1
		}
		out = append(out, t)
	}
	return out
}

func tensUnits(a, b string) (int, bool) {
	x, okA := numberWords[a]
	y, okB := numberWords[b]
	if b == "one" {
		y, okB = 1, true
	}
	return x + y, okA && okB && x >= 20 && y > 0 && y < 10
}

// spokenNumber reads a number of several words and says how many it took.
func spokenNumber(in []token) (n, used int) {
	word := func(i int) string {
		if i < len(in) && (i == 0 || !in[i-1].comma) {
			return in[i].text
		}
		return ""
	}
	below := func(i int) (int, int) {
		if i > 0 && word(i) == "" {
			return 0, 0
		}
		if v, ok := tensUnits(word(i), word(i+1)); ok {
			return v, 2
		}
		if v, ok := numberWords[word(i)]; ok {
			return v, 1
		}
		return 0, 0
	}
	hundreds := 0
	if word(1) == "hundred" {
		if w := word(0); w == "a" || w == "one" {
			hundreds = 1
		} else if v, ok := numberWords[w]; ok && v > 0 && v < 10 {
			hundreds = v
		}
	}
	if hundreds == 0 {
		return below(0)
	}
	i := 2
	if word(i) == "and" {
		i++
	}
	v, k := below(i)
	if k == 0 {
		return hundreds * 100, 2
	}
	return hundreds*100 + v, i + k
}

// numbers gives every number left a part: "34 of 38" is a count of a count, the
// first bare number of "confine 7" the breeder, any other a count. A number that
// fits nowhere is left over, and so the message is asked back.
func (d *reader) numbers() {
	r := d.r
	for i := 0; i+2 < len(d.toks); i++ {
		a, ok := d.number(i)
		if !ok || r.count != nil || !d.counts() {
			continue
		}
		k := i + 1 // "34 of 38", "34 out of the 38", "34 cells of 38", "36 capped of 38"
		if d.fitsCount(d.word(k)) || k == d.verbAt {
			k++
		}
		if d.word(k) == "out" {
			k++
		}
		if d.word(k) != "of" || d.toks[k].used {
			continue
		}
		if k++; d.word(k) == "the" {
			k++
		}
		if b, ok := d.number(k); ok {
			r.count, r.of = &a, &b
			d.use(i, k-i+1)
			d.counted(k, false)
		}
	}
	for i := range d.toks {
		n, ok := d.number(i)
		if !ok {
			continue
		}
		switch {
		case d.word(i-1) == "but" || d.word(i-1) == "except":
			continue // "all but 4" is not four
		case d.word(i-1) == "missing":
			continue // nor is "done, missing 4"
		case beforeOther[d.word(i-1)] && !d.toks[i-1].used && !countedThings[d.word(i+1)] && !(r.verb == doStep && subjectFirst[r.step]):
			continue // "in 2019", "to 12"
		case r.step == rules.Feed && measureWords[d.word(i+1)] && (i == 0 || fold(d.toks[i-1].orig) != "la"): // "a la 7 g a B1" is breeder 7 with a slip
			d.use(i+1, 1) // by weight, or in jars: not turned into litres
		case r.step == rules.Feed && (severalHosts[d.word(i+1)] || d.word(i+1) == "of" && severalHosts[d.word(i+2)] || d.word(i+1) == "of" && severalHosts[d.word(i+3)]) && !d.toks[i].comma:
			r.several = true // which of them is asked
			if w := d.word(i - 1); w == "las" || w == "los" {
				d.use(i-1, 1)
			}
			d.use(i, 1)
			continue
		case d.wantsBreeder(i):
			r.breeder = n
			d.where[rules.BreederKind] = d.toks[i : i+1]
		case d.counts() && r.count == nil:
			if !d.counted(i, true) {
				continue
			}
			r.count = &n
			if d.word(i) == "nine" {
				r.hedged = true // one slip from "none" and "mine"
			}
		default:
			continue
		}
		d.use(i, 1)
	}
	d.allNone()
	if r.verb == noVerb && (r.count != nil || r.all) {
		r.verb = justCount
	}
}

// beforeOther are words that make something else than a count of a number.
var beforeOther = words(`in on to for by`)

// counts reports whether a bare number can be a count here.
func (d *reader) counts() bool {
	if d.r.verb != doStep {
		return d.r.verb != noVerb || d.r.mark == "" // "red 7" counts nothing
	}
	return needsCount[d.r.step] || d.r.step == rules.Recell || d.r.step == rules.Finish || d.r.step == rules.Rogue && !clearWords[d.said]
}

// severalHosts are things that are fed or confined of which the number before says how many.
var severalHosts = words(`builders breeders yards hives colonies boxes feeders mothers`)

// wantsBreeder reports whether the number at i is the breeder of a step whose
// first bare number names her.
func (d *reader) wantsBreeder(i int) bool {
	r := d.r
	if r.verb != doStep || !subjectFirst[r.step] || r.breeder != 0 || r.step == rules.Feed && (r.builder != "" || r.yard != "") {
		return false
	}
	if next := d.word(i + 1); (countedThings[next] || severalHosts[next]) && !d.toks[i].comma && (severalHosts[next] || !d.toks[i+1].used) {
		return false // "fed 12 nucs", "fed three builders"
	}
	if next := d.word(i + 1); next != "" && !d.toks[i].comma && !d.toks[i+1].used && !d.toks[i+1].isNum && !d.known(next) && letterOrDigit(d.toks[i+1].orig) {
		d.oddThing = true // "released 2 songs"
	}
	if r.step == rules.Eggs && i+1 == d.verbAt && !d.toks[i].comma && stepForms[d.said] == thing {
		r.hedged = true // "12 eggs" may be breakfast
	}

	return true
}

// counted looks at the thing that the number at i counts. It takes the word where
// it is what the step counts, and reports false where it is something else: "moved
// 3 frames" is not three cells.
func (d *reader) counted(i int, judge bool) bool {
	k := i + 1
	if judge && d.r.verb == doStep && !d.toks[i].comma && !d.toks[min(k, len(d.toks)-1)].glossed && (hiveThings[d.word(k)] || hiveThings[d.word(k+1)] && stuffWords[d.word(k)]) {
		d.foreign = true
	}
	if judge && measureWords[d.word(k)] && d.word(k+1) == "of" && d.word(k+2) == "honey" {
		d.foreign = true // jars are capped too
	}
	for (plainKinds[d.word(k)] || praised[d.word(k)]) && !d.toks[k-1].comma {
		k++
	}
	w := d.word(k)
	if w == "" || d.toks[k-1].comma || d.toks[k].isNum {
		return true
	}
	switch {
	case judge && (w == "batch" || w == "batches") && (k+1 >= len(d.toks) || !d.toks[k+1].isNum && !numberSigns[d.word(k+1)]):
		d.oddThing = true // "moved two batches" counts no cells
		return false
	case d.fitsCount(w):
		d.use(i+1, k-i)
		if k != d.verbAt {
			d.strong = true
		}
	case !judge:
	case countedThings[w] && k != d.verbAt && !d.toks[k].used:
		return false
	case hiveThings[w], !d.toks[k].used && !d.known(w) && letterOrDigit(d.toks[k].orig):
		d.oddThing = true
	}
	return true
}

func (d *reader) fitsCount(w string) bool {
	if d.r.verb != doStep {
		return countedBy[rules.Move][w] || countedBy[rules.Emerge][w] || countedBy[rules.Nucs][w]
	}
	return countedBy[d.r.step][w]
}

// allNone reads "all", "everything", "the rest" and "none".
func (d *reader) allNone() {
	r := d.r
	for i, t := range d.toks {
		if t.used {
			continue
		}
		next := d.word(i + 1)
		switch {
		case t.text == "half" && d.half(i):
			continue
		case t.text == "dozen":
			r.digits = true // a count was said, but nobody means exactly twelve
			continue
		case t.text == "none" && r.count == nil && !r.all && (r.verb == doStep || r.verb == doDone || r.addressed):
			// Nothing accepted is a count; nothing moved is work not done.
			if r.verb == doStep && !outcome[r.step] {
				r.negated = true
			} else {
				zero := 0
				r.count = &zero
			}
		case t.text == "all" && (doneWords[next] || next == "clear"):
			// "all done" is a way to say done
		case (t.text == "all" || t.text == "everything") && next != "but" && next != "except":
			if r.count == nil && !subjectFirst[r.step] && r.step != rules.Rogue && r.step != rules.Finish && d.counts() {
				r.all = true
			}
		case (t.text == "rest" || t.text == "remaining") && r.count == nil && (r.step == rules.Move || r.step == rules.Catch):
			r.all = true
		default:
			continue
		}
		d.use(i, 1)
		if next == "of" {
			d.use(i+1, 1)
		}
	}
}

// half reads "half of 38" as a count of a count. Half of what is not said, or of an
// odd number, is left over and asked back: nobody moves half a cell.
func (d *reader) half(i int) bool {
	r := d.r
	r.digits = true
	k := i + 1
	for w := d.word(k); w == "of" || w == "the"; w = d.word(k) {
		k++
	}
	of, ok := d.toks[min(k, len(d.toks)-1)].num, k < len(d.toks) && d.toks[k].isNum
	if ok && r.count != nil && *r.count == of {
		r.count, d.toks[k].used = nil, false // not the whole of it
	}
	if !ok || k == i+1 || of%2 != 0 || of <= 0 || r.verb != doStep || !d.counts() || r.of != nil {
		return true
	}
	count := of / 2
	r.count, r.of = &count, &of
	d.use(i, k-i+1)
	d.counted(k, false)
	return true
}
