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
		for _, name := range []string{a.Builder, a.Yard, a.Person, a.Value, a.Setting} {
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

// standsFor gives the words that a word may be a slip of by where it stands, though it is
// one that says something itself: a part of a number that is spelled out ("twenty fix",
// "treinta by cinco", "fifth two"), a colour ("recd pin"), a denial that opens a message
// ("uno las he movido"). It is nil for a word that stands nowhere special.
func (l *lattice) standsFor(toks []token, i int) func(string) bool {
	means := func(k int, list ...concept) bool {
		if k < 0 || k >= len(toks) {
			return false
		}
		p := l.r.lex.single[toks[k].text]
		return p != nil && slices.ContainsFunc(list, p.means)
	}
	word := func(list ...concept) func(string) bool {
		return func(c string) bool {
			p := l.r.lex.single[c]
			return p != nil && slices.ContainsFunc(list, p.means)
		}
	}
	r, c := l.r, &l.r.c
	ten := func(k int) bool { return means(k, r.tens, r.hundred) }
	digit := func(k int) bool { return means(k, r.digit, r.teen, r.tens, r.hundred) }
	number := func(k int) bool { return k >= 0 && k < len(toks) && (toks[k].isNum || digit(k)) }
	place := func(k int) bool {
		return k >= 0 && k < len(toks) && (means(k, c.place, c.finisher, c.the) || l.startsName(toks[k].text))
	}
	batch := func(k int) bool { // few enough for the number of a batch
		return k < len(toks) && toks[k].isNum && toks[k].num < 10
	}
	switch {
	case ten(i-1) && digit(i+1) && !means(i, r.andTen):
		return word(r.andTen)
	case ten(i-1) && !means(i, r.digit, r.one, r.andTen) && !(means(i, c.into, c.to, c.at) && place(i+1)):
		return word(r.digit)
	case means(i-1, r.andTen) && ten(i-2) && !digit(i):
		return word(r.digit)
	case means(i-1, c.all) && number(i+1) && !means(i, c.but):
		return word(c.but)
	case number(i-1) && len(toks[i].text) >= shortest && means(i, c.harmless) && (r.model == nil || r.model.seen[toks[i].text][0] < establishedFrom):
		return word(c.foreign)
	case i == 0 && len(toks[0].text) < shortest-1 && !means(0, c.neg, c.no) && (number(1) && !l.isDeed(toks[0].text, r.frames.deed) || means(1, c.the) && number(2) && !means(0, c.into, c.to, c.from)):
		return word(c.ifC, c.plan, c.hedge)
	case i == 0 && means(2, c.clear) && l.startsName(toks[1].text):
		return word(c.aux, c.ifC)
	case means(i+1, c.clear) && !means(i, c.neg) && !digit(i):
		return word(c.neg)
	case means(i-1, c.butConj) && !means(i, c.neg):
		return word(c.neg)
	case means(i-1, c.the, c.at) && number(i+1) && !digit(i) && !means(i, c.the, c.from, c.of, c.letter):
		return word(c.the, c.from)
	case number(i-1) && place(i+1) && !means(i, c.into, c.to, c.at, c.neg, r.and) && !digit(i):
		return word(c.into, c.to, c.at)
	case digit(i) && place(i+1):
		return word(c.to, c.in)
	case i > 0 && slices.ContainsFunc(l.known.Members, func(m string) bool { return fold(m) == toks[i-1].text }):
		return word(c.hearsay)
	case means(i-1, c.speaker) && i+1 < len(toks) && l.isDeed(toks[i+1].text, r.frames.deed) && !means(i, c.justDone, c.already) && (r.model == nil || r.model.seen[toks[i].text][0] < shortEstablishedFrom):
		return word(c.plan)
	case len(toks[i].text) < shortest && (!l.speaksOwn(toks[i].text) || digit(i) && i > 0 && !toks[i-1].bound && !means(i-1, c.letter) || means(i, c.ok)) && i+1 < len(toks) && l.isDeed(toks[i+1].text, r.frames.deed):
		return word(c.neg)
	case means(i+1, c.batchWord) && !means(i, c.both):
		return word(c.both)
	case means(i-1, c.comb) && means(i, c.put):
		return word(c.out)
	case means(i-1, c.state) && means(i, r.one) && (i+1 == len(toks) || toks[i+1].bound || means(i+1, r.and)):
		return word(c.doneWord)
	case digit(i) && !l.speaksOwn(toks[i].text) && !(i > 0 && toks[i-1].text == "-"):
		return word(r.digit, r.one, c.neg)
	case i == 0 && (means(1, c.aux) || means(2, c.aux) || means(1, c.the) && len(toks) > 3 && l.isDeed(toks[3].text, r.frames.deed)) && !l.isDeed(toks[0].text, r.frames.deed) && !means(0, c.speaker, c.already, c.at, c.the, c.neg, c.no):
		return word(c.neg)
	case means(i-1, c.neg) && i == 1 && !means(i, c.yet) && len(toks[i].text) <= shortest && i+1 < len(toks) && toks[i+1].bound:
		return word(c.yet)
	case i == 0 && len(toks) > 1 && (toks[1].bound && toks[1].text != "," || digit(0) && means(1, c.at)) && !means(0, c.doneWord):
		return word(c.doneWord)
	case means(i-1, c.voidVerb) && means(i, c.qword):
		return word(c.lastLine, c.harmless)
	case number(i-1) && means(i+1, c.into) && l.isDeed(toks[i].text, r.frames.deed):
		return word(r.colour)
	case means(i, r.one) && i+1 < len(toks) && toks[i+1].isNum:
		return word(c.approx, r.and)
	case batch(i+1) && l.isDeed(toks[i].text, r.frames.strong):
		return word(c.batchWord)
	case digit(i), means(i, c.into, c.at, c.to, r.pinWord, c.speaker, c.already, c.neg):
	case digit(i + 1):
		return word(r.tens, r.hundred)
	case (means(i-1, r.pinWord, c.comb) || means(i+1, r.pinWord, c.comb)) && !means(i, r.colour):
		return word(r.colour)
	case means(i-1, r.colour) && !means(i, r.pinWord):
		return word(r.pinWord)
	case means(i, r.colour) && !means(i-1, r.pinWord, c.comb) && !means(i+1, r.pinWord, c.comb) && i+1 < len(toks) && !toks[i+1].isNum && !toks[i+1].bound && !means(i-1, c.from, c.of) && !means(i+1, r.and, c.into, c.at, c.to, c.in) && (means(i-1, r.and) || means(i+1, c.harmless) || place(i+1)):
		return func(w string) bool { p := r.lex.single[w]; return p != nil && p.anyOf(r.frames.deed) }
	}
	return nil
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
