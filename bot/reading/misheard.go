package reading

import ()

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
