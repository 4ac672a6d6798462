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

// bigNumber is a word for a ten or a hundred.
type bigNumber struct {
	word    string
	hundred bool
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
