package reading

// This file holds back words that may be others by what stands beside them.

// nearDenial says whether a small word before something that is so by itself may be a
// denial: "do flow", "lo hay flujo", "po limpia"; or one before a pronoun and a verb.
func (l *lattice) nearDenial(items []item, i int) (string, bool) {
	it := &items[i]
	if !it.word() || it.to != it.from+1 || i+1 >= len(items) || it.means(l.r.c.neg) || !l.nearNo(it.text) {
		return "", false
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
	if i > 0 || len(items) < 2 || !it.word() || it.to != it.from+1 || !letters(it.text) || len(it.text) >= shortest || it.means(l.r.c.aux) || !l.onlyHarmless(it) && !it.unknown() {
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
	if i == 0 || !it.slip || !items[i-1].is(eNumber) {
		return "", false
	}
	return it.text, it.means(l.r.mis.bar) || it.means(l.r.mis.litre)
}

// respelled says whether a spelling inside a number, a time or a ratio may stand for a word
// between two things: "7 arnd 12", "38 ov 39".
func (l *lattice) respelled(items []item, i int) (string, bool) {
	it := &items[i]
	if it.entity == nil || i == 0 && it.is(eTime) {
		return "", false
	}
	for k := it.from; k < it.to; k++ {
		t := l.toks[k].typed
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
	if i == 0 || !it.is(eNumber) && !it.is(eBreeder) || !it.is(eBreeder) && !l.known.isBreeder(it.entity.n) {
		return "", false
	}
	prev := &items[i-1]
	if prev.word() && prev.means(l.r.mis.since) {
		return prev.text, true
	}
	if i+1 >= len(items) || !items[i+1].is(eTime) || items[i+1].entity.when.Clock != nil || items[i+1].entity.when.Half == "" || it.is(eBreeder) {
		return "", false
	}
	if prev.word() && !prev.means(l.r.and) && (prev.unknown() || l.onlyHarmless(prev)) && len(prev.text) < shortest {
		return prev.text, true
	}
	return "", false
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
