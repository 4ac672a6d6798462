package reading

import "slices"

// This file tells how surely a word is the one that was meant, by itself and by where it
// stands.

// established reports whether the word at token i stands as it was typed: labelled lines
// know it, or it says something, by itself or in a phrase that stands here.
func (l *lattice) established(toks []token, i int) bool {
	w := toks[i].text
	if l.r.model != nil {
		least := establishedFrom
		if len(w) < shortest-1 {
			least = shortEstablishedFrom
		}
		if n := l.r.model.seen[w]; n[0] >= least || n[0]+n[1] > least {
			return true
		}
	}
	if p := l.r.lex.single[w]; p != nil && l.carriesAny(p) && (len(w) > 1 || l.speaksOwn(w) || i > 0 && toks[i-1].isNum) {
		return true
	}
	return l.r.rivals.inPhrase(toks, i, w)
}

// borrowed reports whether a short word is of another language than the message, and none
// that reports are known to use.
func (l *lattice) borrowed(w string) bool {
	own := l.mother()
	bits := l.r.lex.words[w]
	if l.r.model != nil && l.r.model.seen[w][0] >= establishedFrom {
		return false
	}
	return own >= 0 && len(w) > 1 && len(w) <= shortest && bits != 0 && bits&(1<<own) == 0
}

// numberBeside reports whether a figure stands right beside token i: "18 may".
func numberBeside(toks []token, i int) bool {
	return i > 0 && toks[i-1].isNum || i+1 < len(toks) && toks[i+1].isNum
}

// namedIn reports whether a word is part of a name that acts take as it was typed, or of a
// command that they are.
func (l *lattice) namedIn(acts []Act, w string) bool {
	for _, a := range acts {
		if a.Kind != Did && l.r.lex.commandSingle[w] != nil {
			return true
		}
		if slices.Contains(phraseWords(fold(a.Reason)), w) {
			return true // why, in the sender's words
		}
		for _, name := range []string{a.Builder, a.Yard, a.Customer, a.Person, a.Value, a.Setting} {
			if slices.Contains(l.nameWords(name), w) {
				return true
			}
		}
	}
	return false
}

// shortDay reports whether a word is a day of three letters, which is one slip from others:
// "wed" from "fed". Where the other makes more of the message, it may be that.
func (l *lattice) shortDay(w string) bool {
	p := l.r.lex.single[w]
	return p != nil && len(w) < shortest && (p.means(l.r.weekday) || p.means(l.r.month))
}

// isDeed reports whether a word is of a class of what somebody does.
func (l *lattice) isDeed(w string, class map[concept]bool) bool {
	p := l.r.lex.single[w]
	return p != nil && p.anyOf(class)
}

// startsName reports whether a word begins the name of a yard or a builder of the crew.
func (l *lattice) startsName(w string) bool {
	for _, name := range append(slices.Clone(l.known.Yards), l.known.Builders...) {
		if words := l.nameWords(name); len(words) > 0 && words[0] == w {
			return true
		}
	}
	return false
}

// placeBefore reports whether a word is a preposition of place.
func (l *lattice) placeBefore(w string) bool {
	p := l.r.lex.single[w]
	return p != nil && (p.means(l.r.c.into) || p.means(l.r.c.to) || p.means(l.r.c.at))
}

func (l *lattice) neutralWord(w string) bool {
	p := l.r.lex.single[w]
	if p == nil {
		return false
	}
	for _, s := range p.senses {
		if l.r.lex.langs[s.lang] == neutral {
			return true
		}
	}
	return false
}

// everyday reports whether a word is one of everyday speech, so that it is hardly ever a slip.
func (l *lattice) everyday(w string) bool {
	if l.r.lex.common[w] {
		return true
	}
	p := l.r.lex.single[w]
	return p != nil && (l.mother() < 0 || l.speaksOwn(w))
}

// usual reports whether crews are known to use a word, and not only dictionaries.
func (l *lattice) usual(w string) bool {
	return len(w) > shortest && (l.r.lex.words[w] != 0 || l.r.model != nil && l.r.model.seen[w] != [2]int{})
}

// closedWord reports whether a word is one of those that turn what is said.
func (l *lattice) closedWord(w string) bool {
	p := l.r.lex.single[w]
	if p == nil {
		return false
	}
	for _, s := range p.senses {
		if l.r.frames.closed[s.concept] || s.concept == l.r.c.foreign || s.concept == l.r.c.place {
			return true
		}
	}
	return false
}
