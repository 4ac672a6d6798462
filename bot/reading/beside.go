package reading

import (
	"cmp"

	"yardbell/rules"
)

// This file holds back words that may be others by what stands beside them.

// nearDenial says whether a small word before something that is so by itself may be a
// denial: "do flow", "lo hay flujo", "po limpia"; or one before a pronoun and a verb.
func (l *lattice) nearDenial(items []item, i int) (string, bool) {
	it := &items[i]
	if !it.word() || it.to != it.from+1 || i+1 >= len(items) || it.means(l.r.c.neg) || !l.nearNo(it.text) && !l.nearNo(l.toks[it.from].typed) {
		return "", false
	}
	if l.beforeVerb(items, i) {
		return it.text, true
	}
	for k := i + 1; k < len(items) && k <= i+2; k++ {
		next := &items[k]
		if !next.word() {
			return "", false
		}
		for _, s := range next.senses {
			if l.r.frames.unit[s.concept] && l.r.frames.trade[s.concept] && s.form != formDone {
				return it.text, true
			}
		}
		if !next.means(l.r.c.aux) && !(next.means(l.r.c.harmless) && next.to == next.from+1 && len(next.text) < shortest) {
			return "", false
		}
	}
	return "", false
}

// nearQuestion says whether the first word may be one that asks: "as B1 clear".
func (l *lattice) nearQuestion(items []item, i int) (string, bool) {
	it := &items[i]
	if i > 0 || len(items) < 2 || !it.word() || it.to != it.from+1 || !letters(it.text) || len(it.text) >= shortest || it.means(l.r.c.aux) || !l.onlyHarmless(it) && !it.unknown() && l.speaksOwn(it.text) && !it.means(l.r.c.yes) || it.means(l.r.c.doneWord) {
		return "", false
	}
	if next := &items[1]; next.entity == nil || next.is(eNumber) || next.is(eRatio) || next.is(eTime) {
		return "", false
	}
	for _, c := range l.r.mis.small {
		if p := l.r.lex.single[c]; p.means(l.r.c.aux) && l.speaksOwn(c) && oneSlip(it.text, c) && c != it.text {
			return it.text + "~" + c, true
		}
	}
	return "", false
}

// nearPlan says whether a word right before a bare verb may be one of a plan: "we well
// graft".
func (l *lattice) nearPlan(items []item, i int) (string, bool) {
	it := &items[i]
	if i+1 >= len(items) || !it.word() || it.to != it.from+1 || it.means(l.r.c.plan) || len(it.text) < shortest {
		return "", false
	}
	bare := false
	for _, s := range items[i+1].senses {
		bare = bare || l.r.frames.strong[s.concept] && s.form == formBare
	}
	if !bare {
		return "", false
	}
	c, near := l.r.lex.slips.nearOf(it.text, func(c string) bool {
		p := l.r.lex.single[c]
		return p != nil && p.means(l.r.c.plan) && l.speaksOwn(c)
	})
	return it.text + "~" + c, near
}

// nearMember says whether a word may be the name of somebody of the crew, who then did it:
// "Ah injertó" for "Ash injertó".
func (l *lattice) nearMember(items []item, i int) (string, bool) {
	it := &items[i]
	if i > 0 || !it.word() || it.to != it.from+1 || !letters(it.text) || len(items) < 2 || !items[1].word() || !l.onlyHarmless(it) && !it.unknown() {
		return "", false
	}
	for _, m := range l.known.Members {
		for _, w := range l.r.nameWords(m) {
			if len(w) >= 3 && w != it.text && oneSlip(it.text, w) {
				return it.text + "~" + w, true
			}
		}
	}
	return "", false
}

// nearBatch says whether a word before a number may be one for a batch.
func (l *lattice) nearBatch(items []item, i int) (string, bool) {
	it := &items[i]
	if i+1 >= len(items) || !it.word() || it.to != it.from+1 || !items[i+1].is(eNumber) || len(it.text) < shortest || !l.onlyHarmless(it) && !it.unknown() || l.plainWord(it.text) {
		return "", false
	}
	c, near := l.r.lex.slips.nearOf(it.text, func(c string) bool {
		p := l.r.lex.single[c]
		return p != nil && p.means(l.r.mis.batchWord) && l.speaksOwn(c) && !alikeIn(p, it.senses)
	})
	return it.text + "~" + c, near
}

// slipUnit says whether the word behind a number is one of bars or litres read through a
// slip: the number counts those.
func (l *lattice) slipUnit(items []item, i int) (string, bool) {
	it := &items[i]
	if i == 0 || !items[i-1].is(eNumber) || !it.slip && !(it.means(l.r.mis.bar) && l.meansAny(items, l.r.mis.graft)) {
		return "", false
	}
	return it.text, it.means(l.r.mis.bar) || it.means(l.r.mis.litre)
}

// respelled says whether a spelling inside a number, a time or a ratio may stand for a word
// between two things: "7 arnd 12", "38 ov 39".
func (l *lattice) respelled(items []item, i int) (string, bool) {
	it := &items[i]
	if it.entity == nil || it.is(eTime) && (i == 0 || items[i-1].bound) {
		return "", false
	}
	for k := it.from; k < it.to; k++ {
		t := l.toks[k].typed
		if w := l.toks[k].text; it.is(eTime) && letters(w) && (l.lang < 0 || !l.speaksOwn(w)) {
			if c, near := l.r.lex.slips.nearOf(w, func(c string) bool { return l.tokSingle(c, l.r.c.all) && l.maySpeak(c) }); near {
				return w + "~" + c, true // "moví today"
			}
		}
		if it.is(eSpan) && k == it.to-1 && i+1 < len(items) && items[i+1].is(eNumber) && len(l.toks[k].text) < shortest {
			t = cmp.Or(t, l.toks[k].text) // "40 hr 42" for "40 or 42"
		}
		if !letters(t) {
			continue
		}
		for _, c := range l.r.mis.links {
			if l.speaksOwn(c) && c != l.toks[k].text && oneSlip(t, c) {
				return t + "~" + c, true
			}
		}
	}
	return "", false
}

// strayAnd says whether an "and" of one letter may be an article: "moví e lote 2".
func (l *lattice) strayAnd(items []item, i int) (string, bool) {
	it := &items[i]
	if i == 0 || i+1 >= len(items) || !it.means(l.r.and) || it.to != it.from+1 || len(it.text) != 1 || !letters(it.text) || it.means(l.r.andTen) {
		return "", false
	}
	next := &items[i+1]
	if next.word() {
		for _, s := range next.senses {
			if l.r.frames.strong[s.concept] && !l.r.frames.noun[s.concept] {
				return "", false
			}
		}
	}
	for _, c := range l.r.mis.small {
		if p := l.r.lex.single[c]; p.means(l.r.c.the) && l.speaksOwn(c) && oneSlip(it.text, c) {
			return it.text + "~" + c, true
		}
	}
	return "", false
}

// strayHour says whether a bare number that stands before a part of the day may be an hour
// whose preposition was lost: "fed B2 a 7 this morning", "desde la 7".
func (l *lattice) strayHour(items []item, i int) (string, bool) {
	it := &items[i]
	if i > 0 && i+1 == len(items) && it.is(eNumber) && it.entity.n <= 12 && l.nearAt(&items[i-1]) {
		return items[i-1].text, true // "North am 9"
	}
	if i == 0 || !it.is(eNumber) && !it.is(eBreeder) || !it.is(eBreeder) && !l.known.isBreeder(it.entity.n) {
		return "", false
	}
	prev := &items[i-1]
	if prev.word() && prev.means(l.r.mis.since) {
		return prev.text, true
	}
	if i > 1 && prev.word() && prev.to == prev.from+1 && len(prev.text) < shortest && items[i-2].means(l.r.c.at) && !items[i-2].means(l.r.c.into) {
		return prev.text, true // "desde les 7"
	}
	if i+1 >= len(items) || !items[i+1].is(eTime) || items[i+1].entity.when.Clock != nil || items[i+1].entity.when.Half == "" || it.is(eBreeder) {
		return "", false
	}
	return prev.text, l.nearAt(prev)
}

// nearAt reports whether a small word may be an "at".
func (l *lattice) nearAt(it *item) bool {
	if !it.word() || it.means(l.r.and) || it.to != it.from+1 {
		return false
	}
	for _, c := range l.r.mis.small {
		if p := l.r.lex.single[c]; len(c) > 1 && c != it.text && p.means(l.r.c.at) && l.speaksOwn(c) && oneSlip(it.text, c) {
			return true
		}
	}
	return false
}

// nearDay reports whether a word that is taken for a name may be a day, or, where it is
// not typed like a name, any word that carries something: "by iFriday".
func (l *lattice) nearDay(t *token) bool {
	small := l.lower(t)
	_, near := l.r.lex.slips.nearOf(t.text, func(c string) bool {
		p := l.r.lex.single[c]
		return p != nil && (small || p.means(l.r.weekday) || p.means(l.r.month))
	})
	return near
}

// nearApprox says whether a small word right before a number may make it a rough one: "una
// 25", "comb 30" for "como 30".
func (l *lattice) nearApprox(items []item, i int) (string, bool) {
	it := &items[i]
	if i+1 >= len(items) || !items[i+1].is(eNumber) && !items[i+1].is(eAll) || !it.word() || it.to != it.from+1 || it.means(l.r.c.approx) {
		return "", false
	}
	if w := it.text; !l.onlyHarmless(it) && !it.means(l.r.one) && l.speaksOwn(w) && l.r.lex.words[w]&(l.r.lex.words[w]-1) == 0 {
		return "", false
	}
	for _, c := range l.r.mis.approx {
		if l.maySpeak(c) && oneSlip(it.text, c) {
			return it.text + "~" + c, true
		}
	}
	return "", false
}

// nearNew says whether a small word before a queen may call her new.
func (l *lattice) nearNew(items []item, i int) (string, bool) {
	it := &items[i]
	if i+1 >= len(items) || !it.word() || it.to != it.from+1 || !items[i+1].means(l.r.c.queen) && !items[i+1].means(l.r.c.breederWord) && !items[i+1].is(eBreeder) {
		return "", false
	}
	for _, c := range l.r.mis.news {
		if c != it.text && l.speaksOwn(c) && oneSlip(it.text, c) && !l.plainWord(it.text) {
			return it.text + "~" + c, true
		}
	}
	return "", false
}

// intoDone reports whether a preposition of place leads to a word that says done: "in the
// finished".
func (l *lattice) intoDone(items []item, i int) bool {
	k := i + 1
	if k < len(items) && items[k].means(l.r.c.the) {
		k++
	}
	return k < len(items) && items[k].word() && items[k].means(l.r.c.doneWord) && items[k].to == items[k].from+1 && !l.speaksPlace(&items[k])
}

// speaksPlace reports whether a word may name a place of the work as well.
func (l *lattice) speaksPlace(it *item) bool {
	for _, s := range it.senses {
		if l.r.frames.strong[s.concept] || l.r.frames.noun[s.concept] {
			return true
		}
	}
	return false
}

// deniesState reports whether a negation stands right before what is so by itself: "ni
// limpia".
func (l *lattice) deniesState(cl []item) bool {
	for i := 0; i+1 < len(cl); i++ {
		if cl[i].word() && !l.isUnit(&cl[i]) && cl[i].means(l.r.c.neg) && (cl[i+1].means(l.r.c.clear) || cl[i+1].means(l.r.c.aux) && i+2 < len(cl) && cl[i+2].means(l.r.c.clear)) {
			return true
		}
	}
	return false
}

// beforeVerb reports whether the word at i, which may be one that denies verbs, stands
// before a pronoun and a verb, as no pronoun does: "lo se injertó", "uno las he movido".
func (l *lattice) beforeVerb(items []item, i int) bool {
	if i+2 >= len(items) {
		return false
	}
	near := false
	for _, c := range l.r.mis.denials {
		for _, s := range l.r.lex.single[c].senses {
			near = near || s.concept == l.r.mis.denial && int(s.lang) == l.mother() && oneSlip(items[i].text, c)
		}
	}
	next, verb := &items[i+1], &items[i+2]
	if !near || !next.word() || next.to != next.from+1 || len(next.text) >= shortest || !next.means(l.r.c.harmless) {
		return false
	}
	if items[i].means(l.r.c.claim) && next.means(l.r.c.the) {
		return false // "yo las he movido"
	}
	if items[i].means(l.r.c.into) || next.means(l.r.c.into) || next.means(l.r.c.already) {
		return false
	}
	for _, s := range verb.senses {
		if l.r.frames.strong[s.concept] && !l.r.frames.noun[s.concept] && (s.form == formDone || s.form == formState || s.form == anyForm) {
			return true
		}
	}
	return verb.word() && verb.to == verb.from+1 && len(verb.text) < shortest && verb.means(l.r.c.harmless) && i+3 < len(items) && ofTrade(&items[i+3], &l.r.frames)
}

// figuresAndWords reports whether some numbers are typed in figures and others spelled out: one of
// them may be no number.
func (l *lattice) figuresAndWords(list []*item) bool {
	figures, words := 0, 0
	for _, it := range list {
		if isDigit(it.text) {
			figures++
		} else {
			words++
		}
	}
	return figures > 0 && words > 0
}

// contradict reports whether acts of one message cannot both be: a flow and a dearth, two
// finds in one builder.
func (d *draft) contradict() bool {
	for i := range d.acts {
		for k := range d.acts[:i] {
			a, b := d.acts[i].act, d.acts[k].act
			if a.Step == rules.Flow && b.Step == rules.Dearth && a.Yard == b.Yard || a.Step == rules.Dearth && b.Step == rules.Flow && a.Yard == b.Yard {
				return true
			}
			if a.Step == rules.Rogue && b.Step == rules.Rogue && a.Builder == b.Builder && a.Count != nil && b.Count != nil && *a.Count != *b.Count {
				return true
			}
		}
	}
	return false
}

// twoFrom reports whether a breeder that something is taken from stands beside another one
// of which the same is told: "desde la 7" for "desde las 7".
func twoFrom(es map[entityKind][]*item) bool {
	from := false
	for _, it := range es[eBreeder] {
		from = from || it.entity.from
	}
	return from && len(es[eBreeder]) > 1
}

// nearPlaceWord says whether a small number that is spelled out right before a place may be
// a preposition: "36 two North".
func (l *lattice) nearPlaceWord(items []item, i int) (string, bool) {
	it := &items[i]
	if i+1 >= len(items) || i == 0 || !it.is(eNumber) || isDigit(it.text) || it.to != it.from+1 || !items[i+1].is(eYard) && !items[i+1].is(eBuilder) && !items[i+1].means(l.r.c.the) {
		return "", false
	}
	for _, c := range l.r.mis.small {
		if p := l.r.lex.single[c]; (p.means(l.r.c.into) || p.means(l.r.c.to)) && oneSlip(it.text, c) {
			return it.text + "~" + c, true
		}
	}
	return "", false
}

// slipsOfLoss says whether a loss was made of a preposition and a word that is none of its
// language: "a nor".
func (l *lattice) slipsOfLoss(items []item, i int) (string, bool) {
	it := &items[i]
	return it.text, it.is(eLost) && l.tokMeans(it.from, l.r.c.into) && !l.hasNumber(it)
}

// slipped reports whether a word was read through a slip.
func (l *lattice) slipped(items []item) bool {
	for i := range items {
		if items[i].slip {
			return true
		}
	}
	return false
}

// nearLink reports whether a negation may be an "or".
func (l *lattice) nearLink(items []item, i int) bool {
	for _, c := range l.r.mis.links {
		if i >= 0 && len(c) > 1 && c != items[i].text && l.speaksOwn(c) && oneSlip(items[i].text, c) {
			return true
		}
	}
	return false
}

// tokSingle reports whether a word by itself means a concept.
func (l *lattice) tokSingle(w string, c concept) bool {
	p := l.r.lex.single[w]
	return p != nil && p.means(c)
}

// refuses reports whether a negation is a verb, which puts no number in the place of
// another: "capturé 24, refuse 22".
func (l *lattice) refuses(items []item, i int) bool {
	return i >= 0 && items[i].means(l.r.c.neg) && items[i].to == items[i].from+1 && len(items[i].text) > shortest+1
}

// strangeYes reports whether a yes of another language may be a small word of the
// message's: "yo yas paso".
func (l *lattice) strangeYes(it *item) bool {
	if it.to != it.from+1 || l.lang >= 0 && l.speaksOwn(it.text) {
		return false
	}
	for _, c := range l.r.mis.small {
		if p := l.r.lex.single[c]; l.maySpeak(c) && !p.means(l.r.c.yes) && p.means(l.r.c.the) && oneSlip(it.text, c) {
			return true
		}
	}
	return false
}

// maySpeak reports whether a word is one of the message's language, or that is not known.
func (l *lattice) maySpeak(w string) bool { return l.lang < 0 || l.speaksOwn(w) }
