package bot

import (
	"cmp"
	"slices"
	"strings"
)

// People say one thing in many ways: "syrup on B1", "gave B1 a jar". Before a message
// is read, such turns are put into the reader's own plain words by the rules of
// plainwords.go. What was typed stays beside each word, as with the words of another
// language.

// sayElem is one place of a rule: some words, or a class of things.
type sayElem struct {
	words    map[string]bool
	class    byte
	num      bool // a number may stand there as well
	optional bool
}

// The classes: a number; a builder; a yard of the crew's; a breeder or builder, by
// number or name; a pin's colour; somebody's name; the end of the message; a comma.
const (
	anyNumber  = '#'
	anyBuilder = 'B'
	anyYard    = 'Y'
	anyHive    = 'X'
	anyMark    = 'C'
	anyName    = 'N'
	endHere    = '$'
	startHere  = '^'
	commaHere  = ','
)

// sayRule puts one turn into others words. In out, "=3" stands for what the third
// place of the pattern took.
type sayRule struct {
	pat []sayElem
	out []string
	at  int // where it stands among the rules
}

// sayRules are rules by a word that each must have, so that a message meets only the
// rules for words that stand in it.
type sayRules map[string][]*sayRule

// common are words that too many rules have to be found by.
var common = words(`to in into at on of the a is was were are have has for it up out and from`)

// keys are the words of which one must stand in a message for the rule to fit.
func (r *sayRule) keys() (best map[string]bool) {
	for _, e := range r.pat {
		if e.optional || len(e.words) == 0 || e.num {
			continue
		}
		if best == nil {
			best = e.words
		}
		rare := true
		for w := range e.words {
			rare = rare && !common[w]
		}
		if rare {
			return e.words
		}
	}
	return best
}

// sayings reads rules, one a line: "gave X some syrup => fed =2". Words parted by |
// stand for one another, a question mark makes a place optional.
func sayings(table string) sayRules {
	rules, n := sayRules{}, 0
	for _, line := range strings.Split(table, "\n") {
		from, to, ok := strings.Cut(line, "=>")
		if !ok {
			continue
		}
		r := &sayRule{out: splitSpace(to)}
		for _, p := range splitSpace(from) {
			e := sayElem{}
			if len(p) > 1 {
				p, e.optional = strings.CutSuffix(p, "?")
			}
			if len(p) == 1 && strings.Contains("#BYXCN$^,", p) {
				e.class = p[0]
			} else {
				e.words = words(strings.ReplaceAll(p, "|", " "))
				e.num = e.words["#"]
			}
			r.pat = append(r.pat, e)
		}
		r.at = n
		n++
		for w := range r.keys() {
			rules[w] = append(rules[w], r)
		}
	}
	return rules
}

// plain puts the message into plain words.
func (d *reader) plain() {
	if d.glossedAny() && d.r.lang != "en" {
		return
	}
	d.genitives()
	d.spokenStops()
	d.apply(spellings)
	d.dictated()
	d.apply(openTurns)
	d.manners()
	d.apply(asking)
	if d.r.addressed {
		d.apply(replies)
		d.yardPairs()
	}
	d.hatched()
	d.apply(takenBack)
	d.apply(turns)
	d.asides()
	if d.accounted {
		d.apply(shortMoves)
	}
}

// apply goes over the message once; what a rule has made is not looked at again.
func (d *reader) apply(rules sayRules) {
	fit := d.sayingsIn(rules)
	if len(fit) == 0 {
		return
	}
	var out []token
	changed := false
	for i := 0; i < len(d.toks); {
		r, spans, n := d.firstRule(fit, i)
		if r == nil {
			out = append(out, d.toks[i])
			i++
			continue
		}
		changed = true
		out = append(out, d.put(r, spans, i, n)...)
		if m := len(out); m > 0 && n > 0 && d.toks[i+n-1].comma {
			out[m-1].comma = true
		}
		i += n
	}
	if changed {
		d.toks, d.joined = out, ""
	}
}

// put are the tokens that a rule makes of n tokens from i on.
func (d *reader) put(r *sayRule, spans [][2]int, i, n int) (out []token) {
	at := d.toks[i].at
	end := at // of what was taken over: a word put behind it stands there
	for _, w := range r.out {
		w, comma := strings.CutSuffix(w, ",")
		if k, ok := numeral(strings.TrimPrefix(w, "=")); ok && w[0] == '=' {
			for _, t := range d.toks[spans[k-1][0]:spans[k-1][1]] {
				t.comma = false
				at = max(at, t.at)
				t.at = at
				end = max(end, at+len(t.orig))
				out = append(out, t)
			}
			if n := len(out); n > 0 && comma {
				out[n-1].comma = true
			}
			continue
		}
		at = max(at, min(end, len(d.text)))
		t := token{text: w, orig: w, at: at, firm: true, comma: comma}
		t.num, t.isNum = numeral(t.text)
		out = append(out, t)
	}
	return out
}

// sayingsIn are the rules for words of the message, the longest first.
func (d *reader) sayingsIn(rules sayRules) (out []*sayRule) {
	for i := range d.toks {
		out = append(out, rules[d.word(i)]...)
	}
	slices.SortFunc(out, func(a, b *sayRule) int { return cmp.Or(len(b.pat)-len(a.pat), a.at-b.at) })
	return slices.Compact(out)
}

// firstRule is the first rule that fits at i, with the tokens that each place took.
func (d *reader) firstRule(rules []*sayRule, i int) (*sayRule, [][2]int, int) {
	for _, r := range rules {
		if spans, n := d.matches(r, i); n > 0 {
			return r, spans, n
		}
	}
	return nil, nil, 0
}

func (d *reader) matches(r *sayRule, i int) ([][2]int, int) {
	var spans [][2]int
	k, comma := i, true // no comma may stand inside, but where the rule has one
	for _, e := range r.pat {
		d.looks++
		n := 0
		switch {
		case e.class == commaHere:
			comma = true
			spans = append(spans, [2]int{k, k})
			continue
		case e.class == endHere:
			if k != len(d.toks) {
				return nil, 0
			}
			continue
		case e.class == startHere:
			if i != 0 {
				return nil, 0
			}
			spans = append(spans, [2]int{k, k})
			continue
		case k < len(d.toks) && (comma || !d.toks[k-1].comma):
			n = d.takes(e, k)
		}
		if n == 0 && !e.optional {
			return nil, 0
		}
		spans = append(spans, [2]int{k, k + n})
		if k += n; n > 0 {
			comma = false
		}
	}
	return spans, k - i
}

// takes is how many tokens a place takes at i.
func (d *reader) takes(e sayElem, i int) int {
	w := d.word(i)
	switch e.class {
	case 0:
		if e.words[w] || e.num && d.toks[i].isNum {
			return 1
		}
	case anyNumber:
		if d.toks[i].isNum {
			return 1
		}
	case anyMark:
		if marks[w] {
			return 1
		}
	case anyBuilder:
		return d.builderAt(i)
	case anyYard:
		return d.ownAt(i, d.n.yards)
	case anyName:
		for _, name := range d.n.crew {
			if first, _, _ := strings.Cut(fold(name), " "); first == w {
				return 1
			}
		}
	case anyHive:
		if n := d.builderAt(i); n > 0 {
			return n
		}
		if breederWords[w] && i+1 < len(d.toks) && d.toks[i+1].isNum {
			return 2
		}
		if d.toks[i].isNum {
			return 1
		}
		return d.ownAt(i, d.n.yards)
	}
	return 0
}

func (d *reader) builderAt(i int) int {
	switch w := d.word(i); {
	case builderForm.MatchString(w):
		return 1
	case (w == "builder" || w == "b") && i+1 < len(d.toks) && (d.toks[i+1].isNum || builderForm.MatchString(d.word(i+1))):
		return 2
	}
	return d.ownAt(i, d.n.builders)
}

// ownAt is how many tokens one of the crew's own names takes at i.
func (d *reader) ownAt(i int, list []string) (best int) {
	for _, name := range list {
		if f := fold(name); d.phrase(i, f) {
			best = max(best, len(splitSpace(f)))
		}
	}
	return best
}

// genitives part "flow's on" and "B2's clear" into two words.
func (d *reader) genitives() {
	for i := 0; i < len(d.toks); i++ {
		stem, ok := strings.CutSuffix(d.toks[i].text, "'s")
		if !ok {
			continue
		}
		n, isNum := numeral(stem)
		if !isNum && !isThings[stem] && !builderForm.MatchString(stem) {
			continue
		}
		t := d.toks[i]
		is := token{text: "is", orig: t.orig, at: t.at, comma: t.comma}
		t.text, t.num, t.isNum, d.joined = stem, n, isNum, ""
		if d.toks[i] = t; ownedThings[d.word(i+1)] && !t.comma {
			continue // "7's comb"
		}
		d.toks[i].comma, t.comma = false, false
		d.toks = append(d.toks[:i:i], append([]token{t, is}, d.toks[i+1:]...)...)
	}
}

var ownedThings = words(`comb frame cage larvae cells cell bar bars eggs egg brood queen feeder batch grafts`)

var isThings = words(`graft grafting flow dearth comb queen bar batch builder breeder`)

// spokenStops takes the "comma" and "period" of dictation for what they are.
func (d *reader) spokenStops() {
	var out []token
	for i, t := range d.toks {
		n := 1
		switch {
		case t.text == "comma" || t.text == "period" || t.text == "semicolon":
		case t.text == "full" && d.word(i+1) == "stop" && !t.comma:
		case t.text == "stop" && d.word(i-1) == "full" && !d.toks[i-1].comma:
		case t.text == "new" && (d.word(i+1) == "line" || d.word(i+1) == "paragraph") && !t.comma:
		case (t.text == "line" || t.text == "paragraph") && d.word(i-1) == "new" && !d.toks[i-1].comma:
		default:
			n = 0
		}
		if n == 0 || len(out) == 0 {
			out = append(out, t)
			continue
		}
		out[len(out)-1].comma = true
	}
	if len(out) < len(d.toks) {
		d.toks, d.joined = out, ""
	}
}

// dictated puts together "thirty ate", where a number in words was heard as another
// word: beside what is counted only.
func (d *reader) dictated() {
	for i := 0; i+1 < len(d.toks); i++ {
		t, u := &d.toks[i], d.word(i+1)
		if !t.isNum || t.num < 20 || t.num > 90 || t.num%10 != 0 || isDigits(t.orig) || t.comma {
			continue
		}
		if u == "are" && i+2 == len(d.toks) {
			d.r.hedged = true // "thirty are" may be a slip of "thirty ate"
		}
		n, ok := heardAs[u]
		counted := d.word(i + 2)
		beside := countedSteps[stepWords[counted]] || counted == "cells"
		if u == "ate" && counted == "" {
			beside = countedSteps[stepWords[d.word(i-1)]]
		}
		if !ok || !beside {
			continue
		}
		t.num, t.comma = t.num+n, d.toks[i+1].comma
		t.orig += " " + d.toks[i+1].orig
		d.toks = append(d.toks[:i+1:i+1], d.toks[i+2:]...)
		d.joined = ""
	}
}

var heardAs = map[string]int{"ate": 8, "for": 4, "too": 2, "to": 2, "won": 1}

// countedSteps are needsCount: their counts are dictated.
var countedSteps = needsCount
