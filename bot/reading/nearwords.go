package reading

import "sort"

// misWords are words that others may be slips of.
type misWords struct {
	newWord, graft, colour, denial, since, batchWord, bar, litre concept
	links                                                        []string // words between two things: and, or
	approx, news, dones                                          []string
	denials                                                      []string // that stand before a verb
	bigNumbers                                                   []bigNumber
	negations                                                    []string             // of one word
	small                                                        []string             // words of one to three letters
	phrases                                                      map[string][]*phrase // of several words that carry something, by each of their words
}

func (m *misWords) load(r *Reader) {
	for w, p := range r.lex.single {
		if p.means(m.denial) && letters(w) {
			m.denials = append(m.denials, w)
		}
		if p.means(r.c.approx) && letters(w) {
			m.approx = append(m.approx, w)
		}
		if p.means(m.newWord) && letters(w) {
			m.news = append(m.news, w)
		}
		if p.means(r.c.doneWord) && letters(w) {
			m.dones = append(m.dones, w)
		}
		if len(w) < shortest && letters(w) {
			m.small = append(m.small, w)
		}
		if p.means(r.c.neg) && p.means(r.c.no) && letters(w) && len(w) > 1 {
			m.negations = append(m.negations, w)
		}
		if p.means(r.tens) || p.means(r.hundred) {
			m.bigNumbers = append(m.bigNumbers, bigNumber{word: w, hundred: p.means(r.hundred)})
		}
	}
	sort.Strings(m.negations)
	sort.Strings(m.approx)
	sort.Strings(m.news)
	sort.Strings(m.dones)
	for _, w := range m.small {
		if p := r.lex.single[w]; p.means(r.and) || p.means(r.c.hedge) || p.means(r.c.butConj) {
			m.links = append(m.links, w)
		}
	}
	sort.Strings(m.small)
	m.loadPhrases(r)
	sort.Slice(m.bigNumbers, func(i, k int) bool { return m.bigNumbers[i].word < m.bigNumbers[k].word })
}

// beforeNumber says whether a word right before a number that is spelled out may be a part
// of it: "thirsty six", "cuento veinte", "treinta by dos".
func (l *lattice) beforeNumber(items []item, i int) (string, bool) {
	if i+1 == len(items) {
		return "", false
	}
	it, next := &items[i], &items[i+1]
	if !it.word() || it.to != it.from+1 {
		return "", false
	}
	and := next.means(l.r.andTen) && i+2 < len(items)
	if and {
		next = &items[i+2]
	}
	n := l.spelledNumber(next.from)
	if !next.is(eNumber) && !next.is(eRatio) || n < 0 {
		return "", false
	}
	w := it.text
	if i > 0 && n < 10 && items[i-1].is(eNumber) && !isDigit(items[i-1].text) && items[i-1].entity.n >= 20 && items[i-1].entity.n%10 == 0 {
		return w, true // "thirty an six"
	}
	for _, x := range l.r.mis.bigNumbers {
		if (n < 10 || n < 100 && x.hundred && !and) && oneSlip(w, x.word) {
			return w + "~" + x.word, true
		}
	}
	return "", false
}

// bigNumber is a word for a ten or a hundred.
type bigNumber struct {
	word    string
	hundred bool
}

// unusual says whether a word of the message's own language that says nothing, and that is
// seldom said in reports, may be one that does.
func (l *lattice) unusual(it, prev *item) (string, bool) {
	w := it.text
	if !l.onlyHarmless(it) || len(it.senses) == 0 || l.familiar(w) {
		return "", false
	}
	lex := l.r.lex
	own := func(c string) bool { return l.speaksOwn(c) }
	if len(w) <= shortest-1 {
		c, near := lex.slips.nearOf(w, func(c string) bool { return own(c) && lex.single[c] != nil && lex.single[c].means(l.r.mis.colour) })
		if near && len(w) == shortest-1 && prev != nil && l.tokMeans(prev.to-1, l.r.c.comb) {
			return w + "~" + c, true // "el panal ojo"
		}
		return w, l.nearNo(w) // "po limpia"
	}
	c, near := lex.slips.nearOf(w, func(c string) bool {
		p := lex.single[c]
		return len(w) == shortest && p != nil && own(c) && (p.means(l.r.c.neg) || p.means(l.r.c.plan) || p.means(l.r.c.hedge) || p.means(l.r.c.all) || p.means(l.r.none))
	})
	return w + "~" + c, near // "moved sore"
}

// deniesThing reports whether the negation of a clause stands between its verb and a thing
// that it names: "moved 36 no North".
func (l *lattice) deniesThing(cl []item) bool {
	verb := false
	for i := range cl {
		it := &cl[i]
		if it.word() && (it.means(l.r.c.neg) || it.means(l.r.c.no)) && !l.isUnit(it) {
			if verb && i+1 < len(cl) && cl[i+1].entity != nil && !cl[i+1].is(eTime) {
				return true
			}
			continue
		}
		for _, s := range it.senses {
			verb = verb || l.r.frames.strong[s.concept] || l.r.frames.trade[s.concept]
		}
	}
	return false
}

// alsoOf reports whether acts of a step that a clause denies may be of what it names.
func (l *lattice) alsoOf(cl []item, acts []filled) bool {
	lic := l.r.strongLicences(cl, l.known)
	for i := range acts {
		a := acts[i].act
		if lic.weight[a.Step] == 0 {
			continue
		}
		es := entitiesOf(cl)
		if len(es[eYard]) > 0 && a.Yard == "" && a.Count == nil && a.Breeder == 0 && a.Builder == "" && a.Batch == 0 {
			return true
		}
	}
	return false
}

// nearNo reports whether a word is one slip from a negation of the message's language.
func (l *lattice) nearNo(w string) bool {
	for _, c := range l.r.mis.negations {
		if c != w && l.speaksOwn(c) && oneSlip(w, c) {
			return true
		}
	}
	return false
}

// behindPlace reports whether a preposition of place stands before token i.
func (l *lattice) behindPlace(i int) bool {
	if i == 0 {
		return false
	}
	p := l.r.lex.single[l.toks[i-1].text]
	return p != nil && (p.means(l.r.c.into) || p.means(l.r.c.to) || p.means(l.r.c.at))
}

// alikeIn reports whether a phrase means what some senses mean.
func alikeIn(p *phrase, senses []sense) bool {
	for _, s := range senses {
		if p.means(s.concept) {
			return true
		}
	}
	return false
}

// foreignTrade says whether a word of the trade in another language than the message's may
// be a word of its own: "mande up" for "made up", "pone" for "one", "lay 12" for "la 12".
func (l *lattice) foreignTrade(it, prev *item) (string, bool) {
	w, lex := it.text, l.r.lex
	if l.lang < 0 || prev != nil && prev.word() && prev.means(l.r.c.the) {
		return "", false
	}
	noun := false
	for _, s := range it.senses {
		noun = noun || l.r.frames.noun[s.concept]
	}
	differs := func(c string) bool {
		p := lex.single[c]
		return p != nil && c != w && l.speaksOwn(c) && !alikeIn(p, it.senses)
	}
	if !noun {
		for _, c := range l.r.mis.small {
			if differs(c) && oneSlip(w, c) {
				return w + "~" + c, true
			}
		}
		if !l.plainWord(w) && lex.slips.ambiguous(w, differs) {
			return w, true
		}
	}
	if len(w) < shortest || l.plainWord(w) {
		return "", false
	}
	if c, near := lex.slips.nearOf(w, differs); near {
		return w + "~" + c, true
	}
	for _, c := range lex.slips.every(w) {
		if differs(c) {
			return w + "~" + c, true
		}
	}
	return "", false
}

// shakyClaim reports whether a short word of a claim may be another word of its language,
// and other things are said beside it: "mio madre llega".
func (l *lattice) shakyClaim(items []item, i int) bool {
	it := &items[i]
	if !it.means(l.r.c.claim) || it.to != it.from+1 || len(it.text) > shortest || it.means(l.r.c.harmless) {
		return false
	}
	if i+1 < len(items) && (items[i+1].means(l.r.c.breederWord) || items[i+1].means(l.r.c.queen)) {
		return true
	}
	beside := false
	for k := range items {
		o := &items[k]
		beside = beside || k != i && !o.bound && (o.is(eTime) || o.is(eNumber) || o.word() && !o.means(l.r.c.claim) && !o.means(l.r.c.yes) && !o.means(l.r.c.ok) && !o.means(l.r.c.greet))
	}
	if !beside || l.plainWord(it.text) {
		return false
	}
	for _, c := range l.r.mis.small {
		if c != it.text && l.speaksOwn(c) && oneSlip(it.text, c) && !alikeIn(l.r.lex.single[c], it.senses) {
			return true
		}
	}
	return false
}

// skipDenies reports whether a phrase of skipping with a negation in it may deny what
// stands behind it: "no va he revisado".
func (l *lattice) skipDenies(items []item) bool {
	for i := range items {
		if !items[i].means(l.r.c.skip) || !l.hasNo(&items[i]) {
			continue
		}
		for k := i + 1; k < len(items) && k <= i+2 && !items[k].bound; k++ {
			if items[k].means(l.r.c.check) {
				return true
			}
		}
	}
	return false
}

// nearDone says whether a number in another language than the crew's may be a "done" of
// theirs: "doce".
func (l *lattice) nearDone(w string) (string, bool) {
	for i, name := range l.r.lex.langs {
		if name != l.known.Language {
			continue
		}
		if l.r.lex.words[w]&(1<<i) != 0 {
			return "", false
		}
		for _, c := range l.r.mis.dones {
			if l.r.lex.words[c]&(1<<i) != 0 && oneSlip(w, c) {
				return w + "~" + c, true
			}
		}
	}
	return "", false
}

// ownForeign reports whether a word of the message's language is of another world.
func (l *lattice) ownForeign(w string) bool {
	p := l.r.lex.single[w]
	return p != nil && p.means(l.r.c.foreign) && !p.means(l.r.c.harmless) && l.speaksOwn(w)
}
