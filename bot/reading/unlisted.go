package reading

import (
	"slices"
	"strings"
)

// unlisted is a builder that is called as builders are, by a letter and a number, and is
// not on the list: who acts on it asks.
func (l *lattice) unlisted(i int) string {
	w := l.toks[i].text
	if len(w) < 2 || len(w) > 4 || w[0] < 'a' || strings.Trim(w[1:], "0123456789") != "" || w[1] == '0' {
		return ""
	}
	if p := l.r.lex.single[w[:1]]; p == nil || !p.means(l.r.c.letter) {
		return ""
	}
	return strings.ToUpper(w)
}

// placed reports whether a token stands behind a word of place or was typed with a capital.
func (l *lattice) placed(i int) bool {
	if c := l.text[l.toks[i].from]; c >= 'A' && c <= 'Z' {
		return true
	}
	if i == 0 {
		return false
	}
	p := l.r.lex.single[l.toks[i-1].text]
	return p != nil && p.means(l.r.c.into)
}

// unlistedYard is a yard that is not on the list: a name behind a word of place, with the
// end of the clause behind it, that is no other word and near to none of the crew's names.
func (l *lattice) unlistedYard(i int) string {
	t := &l.toks[i]
	w := t.text
	if i == 0 || !t.name || len(w) < 3 || !letters(w) {
		return ""
	}
	if p := l.r.lex.single[w]; p != nil && !p.means(l.r.c.deadWord) && !p.means(l.r.c.lostWord) {
		for _, s := range p.senses {
			if l.r.frames.trade[s.concept] || l.r.frames.noun[s.concept] && s.concept != l.r.c.foreign || l.r.frames.strong[s.concept] || s.concept == l.r.weekday || s.concept == l.r.month || l.r.c.place == s.concept {
				return "" // "to Finisher", "on Monday"
			}
		}
	}
	before := l.r.lex.single[l.toks[i-1].text]
	if before == nil || !before.means(l.r.c.into) && !before.means(l.r.c.at) {
		return ""
	}
	if end := i + 1; end < len(l.toks) && !l.toks[end].bound {
		if p := l.r.lex.single[l.toks[end].text]; p == nil || !p.means(l.r.and) && !p.means(l.r.c.at) {
			return ""
		}
	}
	for _, name := range slices.Concat(l.known.Yards, l.known.Builders, l.known.Members, l.known.Customers) {
		for _, p := range l.nameWords(name) {
			if p == w || len(p) >= 3 && OneSlip(w, p) {
				return ""
			}
		}
	}
	return l.text[t.from:t.to]
}

// mixed reports whether words of two languages are said.
func (l *lattice) mixed() bool {
	said := uint8(0)
	for _, t := range l.toks {
		if bits := l.r.lex.words[t.text]; len(t.text) > 1 && bits != 0 && bits&(bits-1) == 0 {
			said |= bits
		}
	}
	return said&(said-1) != 0
}
