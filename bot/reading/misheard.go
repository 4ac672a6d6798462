package reading

import (
	"cmp"
	"strings"
)

// hasNumber reports whether a figure is within an item.
func (l *lattice) hasNumber(it *item) bool {
	for i := it.from; i < it.to; i++ {
		if l.toks[i].isNum {
			return true
		}
	}
	return false
}

// shortDay says whether a day or month of three letters may be another short word: "wed" is
// one slip from "fed" and "red", "sat" from "at".
func (l *lattice) shortDay(it *item) (string, bool) {
	if !it.is(eTime) {
		return "", false
	}
	day := func(w string) bool {
		p := l.r.lex.single[w]
		return p != nil && (p.means(l.r.weekday) || p.means(l.r.month))
	}
	for i := it.from; i < it.to; i++ {
		w := l.toks[i].text
		if len(w) > shortest-1 || !day(w) || l.inDate(it, i) {
			continue
		}
		if c, near := l.r.lex.slips.nearOf(w, func(c string) bool { return !day(c) }); near {
			return w + "~" + c, true
		}
		for _, c := range l.r.lex.slips.short {
			if oneSlip(w, c) {
				return w + "~" + c, true
			}
		}
	}
	return "", false
}

// inDate reports whether a month stands beside the day of the month: "5 may".
func (l *lattice) inDate(it *item, i int) bool {
	p := l.r.lex.single[l.toks[i].text]
	return it.entity.when.Month != 0 && p != nil && p.means(l.r.month) && (i > it.from && l.toks[i-1].isNum || i > it.from+1 && l.toks[i-2].isNum || i+1 < it.to && l.toks[i+1].isNum)
}

// misheard says whether a known word may be a slip of one that carries something: behind a
// ten spelled out one that is nearly a digit ("thirty live"), one that is glued to a number
// ("30is"), a word of another language than the message's that is nearly a closed one of its
// own ("now" for "no").
func (l *lattice) misheard(items []item, i int) (string, bool) {
	it := &items[i]
	var prev *item
	if i > 0 {
		prev = &items[i-1]
		if i > 1 && prev.means(l.r.andTen) && items[i-2].is(eNumber) {
			prev = &items[i-2] // "treinta y nuevo"
		}
	}
	w := strings.ReplaceAll(it.text, "'", "")
	if i > 0 && it.word() && items[i-1].is(eNumber) && it.to > it.from+1 && l.toks[it.from].from == l.toks[items[i-1].to-1].to && letters(l.toks[it.from].text) && !l.tokTrade(it.from) {
		return it.text, true // "30is capped"
	}
	if it.to != it.from+1 || !letters(w) || it.slip {
		return "", false
	}
	lex := l.r.lex
	if prev != nil && prev.is(eNumber) {
		if l.toks[it.from].from == l.toks[prev.to-1].to {
			return w, !l.isTrade(it) || it.means(l.r.c.harmless)
		}
		if it.means(l.r.c.harmless) && !l.familiar(it.text) {
			for _, c := range lex.slips.every(w) {
				if p := lex.single[c]; l.speaksOwn(c) && p.anyOf(l.r.frames.noun) {
					return w + "~" + c, true // "28 nuts"
				}
			}
		}
		if n := prev.entity.n; n >= 20 && n%10 == 0 && !isDigit(prev.text) {
			for _, c := range l.r.digits {
				if oneSlip(w, c) || oneSlip(cmp.Or(l.toks[it.from].typed, w), c) {
					return w + "~" + c, true
				}
			}
		}
	}
	lang := l.mother()
	own := func(c string) bool { return lang < 0 || lex.words[c]&(1<<lang) != 0 }
	if t := l.toks[it.from].typed; t != "" && len(t) <= shortest {
		// A short word that a spelling stands for may as well be a slip of another.
		matters := func(c string) bool {
			p := lex.single[c]
			return p != nil && c != w && (own(c) || lex.words[c]&lex.words[w] != 0) && !alikeIn(p, it.senses) && (l.r.isNumber(c) || p.means(l.r.c.neg) || p.means(l.r.c.all) || p.anyOf(l.r.frames.strong))
		}
		if c, near := lex.slips.nearOf(t, matters); near && (len(t) < shortest || lex.single[c].means(l.r.c.all)) {
			return t + "~" + c, true
		}
		if !l.plainWord(t) && !it.means(l.r.c.greet) && !it.means(l.r.c.ok) && lex.slips.ambiguous(t, l.ownForeign) {
			return t, true // "hes are laying"
		}
		for _, c := range lex.slips.every(t) {
			if matters(c) {
				return t + "~" + c, true
			}
		}
		return "", false
	}
	if lang < 0 {
		return "", false
	}
	if !l.speaksOwn(it.text) && ofTrade(it, &l.r.frames) && !it.means(l.r.c.harmless) {
		return l.foreignTrade(it, prev) // a word of the trade is said in two languages at once
	}
	if l.speaksOwn(it.text) {
		return l.unusual(it, prev)
	}
	if prev != nil && prev.word() && (prev.means(l.r.c.into) || prev.means(l.r.c.the)) {
		return w, true // "34 a best": a place that is none
	}
	for _, c := range lex.slips.short {
		if own(c) && oneSlip(w, c) {
			return w + "~" + c, true
		}
	}
	if len(w) < shortest-2 || !it.means(l.r.c.yes) && (l.plainWord(it.text) || len(w) > shortest-2 && l.familiar(it.text)) {
		return "", false
	}
	if c, near := lex.slips.nearOf(w, own); near {
		return w + "~" + c, true
	}
	return l.nearTrade(w)
}

// ofTrade reports whether a word means something of the trade.
func ofTrade(it *item, f *frames) bool {
	for _, s := range it.senses {
		if f.trade[s.concept] || f.strong[s.concept] {
			return true
		}
	}
	return false
}

// speaksOwn reports whether a word by itself is one of the message's language.
func (l *lattice) speaksOwn(w string) bool {
	if p := l.r.lex.single[w]; p != nil {
		for _, s := range p.senses {
			if int(s.lang) == l.mother() || l.r.lex.langs[s.lang] == neutral {
				return true
			}
		}
	}
	return false
}

// nearTrade finds a word of the message's language and of the trade that w may be a slip of.
func (l *lattice) nearTrade(w string) (string, bool) {
	for _, c := range l.r.lex.slips.every(w) {
		if p := l.r.lex.single[c]; l.speaksOwn(c) && (p.anyOf(l.r.frames.trade) || p.anyOf(l.r.frames.strong) || p.anyOf(l.r.frames.carries)) {
			return w + "~" + c, true
		}
	}
	return "", false
}

// numberWord says whether a number that is spelled out may be another word: "nine" for
// "none", or a number of another language than the message's.
func (l *lattice) numberWord(it *item) (string, bool) {
	for i := it.from; it.is(eNumber) && i < it.to; i++ {
		t := l.toks[i]
		if !t.isNum || !letters(t.text) {
			continue
		}
		if c, near := l.r.lex.slips.nearOf(t.text, func(c string) bool {
			p := l.r.lex.single[c]
			return p != nil && (p.means(l.r.none) || p.means(l.r.c.claim)) && !l.r.isNumber(c)
		}); near {
			return t.text + "~" + c, true
		}
		if d, is := l.nearDone(t.text); is {
			return d, true
		}
		if l.mother() >= 0 && !l.speaksOwn(t.text) && len(t.text) <= shortest {
			return t.text, true
		}
	}
	return "", false
}

// isNumber reports whether a word is one for a number.
func (r *Reader) isNumber(w string) bool {
	p := r.lex.single[w]
	return p != nil && (p.means(r.digit) || p.means(r.teen) || p.means(r.tens) || p.means(r.hundred))
}

// bareColour says whether a colour without its pin, with something right behind it, may be
// another word: "red B2" for "fed B2".
func (l *lattice) bareColour(items []item, i int) (string, bool) {
	it := &items[i]
	if !it.is(ePin) || it.to != it.from+1 || i+1 == len(items) || items[i+1].bound || items[i+1].is(eTime) && i > 0 && items[i-1].is(eBreeder) {
		return "", false
	}
	if next := &items[i+1]; next.word() && (!l.freeWord(next) || next.means(l.r.c.into) || next.means(l.r.c.at) || next.means(l.r.and) || ofTrade(next, &l.r.frames)) {
		return "", false
	}
	w := l.toks[it.from].text
	c, near := l.r.lex.slips.nearOf(w, func(c string) bool { return l.r.lex.single[c] != nil && l.r.lex.single[c].anyOf(l.r.frames.strong) })
	return w + "~" + c, near
}

// hidden reports whether a word that nobody knows may be one that changes what is meant: a
// claim, an answer, a correction with such a word beside it is not taken at its word.
func (l *lattice) hidden(items []item) bool {
	for i := range items {
		it := &items[i]
		var prev *item
		if i > 0 {
			prev = &items[i-1]
		}
		if it.unknown() {
			if _, is := l.dangerous(it, prev); is {
				return true
			}
		}
		if _, is := l.shortDay(it); is {
			return true
		}
		if it.word() && !it.unknown() {
			if _, is := l.misheard(items, i); is {
				return true
			}
		}
	}
	return false
}

// familiar reports whether a word stands in several labelled reports, whatever else it
// stands in.
func (l *lattice) familiar(w string) bool {
	return l.r.model != nil && l.r.model.seen[w][0] >= 3
}
