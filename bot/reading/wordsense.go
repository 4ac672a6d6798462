package reading

// hasNumber reports whether a figure is within an item.
func (l *lattice) hasNumber(it *item) bool {
	for i := it.from; i < it.to; i++ {
		if l.toks[i].isNum {
			return true
		}
	}
	return false
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

// alikeIn reports whether a phrase means what some senses mean.
func alikeIn(p *phrase, senses []sense) bool {
	for _, s := range senses {
		if p.means(s.concept) {
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
