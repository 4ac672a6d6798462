package reading

import (
	"slices"
	"strings"
)

// A line is logged only where no word of it may be a slip of the thumb for another that
// makes it say something else. Words that reports are known to use stand as they were
// typed; each other word is exchanged for those one slip away from it, and the message is
// read again: if it comes to the same each time, the slip does not matter. Without this
// "moved 36 no North" or "thirty fix capped" would log what nobody said.

// rivals are the words that others may be slips of.
type rivals struct {
	index neighbours
	words map[string]bool      // that may have been meant
	in    map[string][]*phrase // the phrases of several words that a word stands in
}

// In how many labelled reports a word stands that nobody takes for a slip.
const (
	establishedFrom      = 3
	shortEstablishedFrom = 20 // of one or two letters
)

// mostRivals is how often a message is read again at most; one with more words that nobody
// knows is asked about.
const mostRivals = 24

func newRivals(l *lexicon, m *model) *rivals {
	v := &rivals{words: map[string]bool{}, in: map[string][]*phrase{}}
	words := v.words
	for _, list := range l.byFirst {
		for _, p := range list {
			for _, w := range p.words {
				if spelt(w) {
					words[w] = true
				}
				if len(p.words) > 1 {
					v.in[w] = append(v.in[w], p)
				}
			}
		}
	}
	if m != nil {
		for w := range m.seen {
			if spelt(w) {
				words[w] = true
			}
		}
	}
	for w := range l.same {
		if spelt(w) {
			words[w] = true
		}
	}
	for _, list := range l.commandPhrases {
		for _, p := range list {
			for _, w := range p.words {
				if spelt(w) {
					words[w] = true
				}
			}
		}
	}
	return v
}

// of are the words one slip away from w, sorted.
func (v *rivals) of(w string) []string { return v.index.of(w, v.words) }

// rival is another reading of a message, by one word that may be a slip of another.
type rival struct {
	typed, meant string
	res          Result
}

// trust is how surely a word is the one that was meant.
type trust uint8

const (
	unknownWord  trust = iota // no list has it: anything near it may have been meant
	everydayWord              // of everyday speech
	shortWord                 // a short spelling, or a day of three letters
	certainWord
)

// rivalOf finds what else a message may say that would be logged as res.
func (r *Reader) rivalOf(text string, k *Known, res Result) (rival, bool) {
	if !slices.ContainsFunc(res.Acts, changesSomething) {
		return rival{}, false
	}
	l := r.newLattice(text, k)
	toks := tokenize(text)
	work, left := 0, mostHidden
	for i := range toks {
		t := &toks[i]
		sure := l.trustIn(toks, i, res.Acts)
		if (sure >= everydayWord || len(t.text) == 1) && spelt(t.text) && !commandAct(res.Acts[0]) {
			if v, ok := l.hidden(toks, i, k, res, &left); ok {
				return v, true
			}
		}
		var only func(string) bool
		if spelt(t.text) {
			may, doubtful := l.standsFor(toks, i)
			if doubtful {
				return rival{typed: t.text}, true
			}
			if sure >= everydayWord {
				only = may
			}
		}
		switch {
		case !letters(t.text) && (sure == unknownWord || only != nil && (l.holdsPhrase(l.r.c.snooze) || l.holdsPhrase(l.r.c.afterwards))):
			return rival{typed: t.text}, true // what is shortened by an apostrophe may be a denial
		}
		idiom := sure >= everydayWord && letters(t.text) && !l.inPhraseAsSpelt(toks, i) && !(i+1 < len(toks) && l.startsName(toks[i+1].text))
		for _, c := range r.rivals.of(t.text) {
			sure, placed := sure, only != nil && only(c)
			if idiom && len(c) > 1 && l.inIdiom(toks, i, c) || placed && !(l.speaksOwn(t.text) && l.foreignTo(t.text, c) && !l.besideKin(toks, i, c)) {
				sure = unknownWord
			} else if sure == certainWord || !l.mayBe(toks, i, c, sure) {
				continue
			}
			if work++; work > mostRivals {
				return rival{typed: t.text, meant: c}, true
			}
			other := r.readPlain(text[:t.from]+c+text[t.to:], *k)
			if l.weighs(sure, placed, t.text, c, res, other) {
				return rival{t.text, c, other}, true
			}
		}
	}
	return rival{}, false
}

// changesSomething reports whether an act writes: a question does not.
func changesSomething(a Act) bool {
	switch a.Kind {
	case Query, Seen, Plan, WhatIf, Fit, Thanks:
		return false
	}
	return a.Kind != Set || a.Setting != ""
}

// trustIn is how surely the word at token i was meant, in a message that is read as acts.
func (l *lattice) trustIn(toks []token, i int, acts []Act) trust {
	w := toks[i].text
	command := commandAct(acts[0])
	_, short := l.r.lex.same[w]
	known := l.established(toks, i) || l.namedIn(acts, w)
	switch {
	case (acts[0].Kind == Skip || acts[0].Kind == Later) && slices.ContainsFunc(toks[:i], func(t token) bool { return t.bound }):
		return certainWord // why, in the sender's words
	case !spelt(w), command && (len(w) == 1 || l.everyday(w)):
		return certainWord
	case i > 0 && l.placeBefore(toks[i-1].text) && l.namedIn(acts, w):
		return certainWord // "24 to Mesa": where the crew has a place of that name
	case !command && known && (l.shortDay(w) && !numberBeside(toks, i) || l.borrowed(w)), !known && short && len(w) > 1:
		return shortWord
	case known:
		return certainWord
	case l.everyday(w):
		return everydayWord
	}
	return unknownWord
}

// weighs reports whether another reading, with c in the place of a word, is one to ask about;
// placed tells that the word stands where slips.txt expects it.
func (l *lattice) weighs(sure trust, placed bool, w, c string, res, other Result) bool {
	switch {
	case commandAct(res.Acts[0]) && other.Outcome != Log:
		return false // a row of commands explains every word of it
	case !placed && l.allDue(res.Acts) && l.noneDue(other.Acts):
		return false // "35 caped" while cells are to be counted, and no queens to be caged
	case sure == shortWord && slices.ContainsFunc(other.Acts, func(a Act) bool { return a.Kind == Amend }):
		return false
	case sure == shortWord && !(tellsMore(other, res) && (other.Outcome == Log && len(c) == shortest-1 && l.shortDay(w) || len(c) >= shortest)):
		return false
	case sure == everydayWord && other.Outcome != Log && (l.usual(w) || !l.closedWord(c)) && !tellsMore(other, res):
		return false // it is no slip for a word that makes less sense
	}
	return !sameActs(res, other) && (placed || sure == unknownWord && l.closedWord(c) || !leftOver(other, c))
}

// allDue reports whether all acts are work that may be done now, and noneDue whether they are
// work none of which may be: it is no slip for what cannot have been done.
func (l *lattice) allDue(acts []Act) bool {
	for _, a := range acts {
		if a.Kind != Did || !l.known.expects(a.Step) {
			return false
		}
	}
	return len(acts) > 0
}

func (l *lattice) noneDue(acts []Act) bool {
	for _, a := range acts {
		if a.Kind != Did || l.known.expects(a.Step) {
			return false
		}
	}
	return len(acts) > 0
}

// spelt reports whether a word is made of letters, and apostrophes between them.
func spelt(w string) bool { return letters(strings.ReplaceAll(w, "'", "")) }

// foreignTo reports whether c is of another language than a word, so that neither is a slip
// of the other.
func (l *lattice) foreignTo(w, c string) bool {
	langs := l.r.lex.words[w]
	return langs != 0 && !l.borrowed(w) && l.r.lex.words[c] != 0 && l.r.lex.words[c]&langs == 0 && !l.neutralWord(c)
}

// besideKin reports whether c may have been meant at token i though the word there is of
// another language: a word right beside it is of the language of c alone, as in "thirty sip
// selladas", or no other word of the message is of another one.
func (l *lattice) besideKin(toks []token, i int, c string) bool {
	tongues := func(w string) (bits uint8) {
		if p := l.r.lex.single[w]; p != nil {
			for _, s := range p.senses {
				bits |= 1 << s.lang
			}
		}
		return bits
	}
	own, beside, against := tongues(c), false, false
	for k := range toks {
		bits := tongues(toks[k].text)
		if k == i || bits == 0 {
			continue
		}
		beside = beside || (k == i-1 || k == i+1) && bits&^own == 0
		against = against || bits&own == 0
	}
	return beside || !against
}

// mayBe reports whether the word at token i may stand for c, and whether that matters.
func (l *lattice) mayBe(toks []token, i int, c string, sure trust) bool {
	lex := l.r.lex
	was, is := lex.single[toks[i].text], lex.single[c]
	if l.foreignTo(toks[i].text, c) && !(sure == unknownWord && was == nil) {
		return false // one that is known in phrases alone is of no language by itself
	}
	deny := is != nil && (is.means(l.r.c.neg) || is.means(l.r.c.no))
	switch {
	case sure == everydayWord && len(c) == 1:
		return false
	case len(toks[i].text) == 1 && !deny && !(i > 0 && i+1 < len(toks) && l.isNumberWord(toks[i-1].text) && l.isNumberWord(toks[i+1].text)):
		return false // "w", "r", "q": nobody types them for something else, but for a "no" or within a number
	case deny && i > 0 && l.placeBefore(toks[i-1].text):
		return false // no denial stands behind a preposition of place
	case sure == unknownWord && was == nil:
		return true
	}
	if is != nil && !(was != nil && alikeIn(is, was.senses)) && l.carriesAny(is) {
		return true
	}
	if _, spelling := lex.same[c]; spelling || lex.commandSingle[c] != nil {
		return true
	}
	return l.r.rivals.inPhrase(toks, i, c)
}

// inPhrase reports whether a word at token i makes a phrase of several words with those
// beside it.
func (v *rivals) inPhrase(toks []token, i int, w string) bool {
	for _, p := range v.in[w] {
		for at, x := range p.words {
			if x == w && stand(toks, i-at, p.words, at) {
				return true
			}
		}
	}
	return false
}

// inPhraseAsSpelt reports whether the word at token i, or what it is a spelling of, makes a
// phrase with those beside it.
func (l *lattice) inPhraseAsSpelt(toks []token, i int) bool {
	for _, s := range l.r.lex.same[toks[i].text] {
		if l.r.rivals.inPhrase(toks, i, s.words[len(s.words)-1]) || len(s.words) > 1 {
			return true
		}
	}
	return l.r.rivals.inPhrase(toks, i, toks[i].text)
}

// inIdiom reports whether a word at token i makes a phrase of three words and more with
// those beside it, or one that says that it lies ahead, which means nothing of the kind without it: "go with the flow".
func (l *lattice) inIdiom(toks []token, i int, w string) bool {
	was := l.r.lex.single[toks[i].text]
	if was != nil && was.means(l.r.and) {
		return false
	}
	says := len(toks[i].text) < shortest-1 || was != nil && l.carriesAny(was) || l.speaksOwn(toks[i].text) && l.foreignTo(toks[i].text, w)
	for _, p := range l.r.rivals.in[w] {
		for at, x := range p.words {
			if x != w || len(p.words) < 3 && (says || !p.means(l.r.c.plan)) || !stand(toks, i-at, p.words, at) {
				continue
			}
			rest := l.r.lex.phrases[strings.Join(slices.Delete(slices.Clone(p.words), at, at+1), " ")]
			if rest == nil || !alikeIn(rest, p.senses) {
				return true
			}
		}
	}
	return false
}

// isNumberWord reports whether a word is one for a number.
func (l *lattice) isNumberWord(w string) bool {
	p := l.r.lex.single[w]
	return p != nil && (p.means(l.r.digit) || p.means(l.r.teen) || p.means(l.r.tens) || p.means(l.r.hundred))
}

// carriesAny reports whether a phrase means more than words that say nothing.
func (l *lattice) carriesAny(p *phrase) bool {
	for _, s := range p.senses {
		if s.concept != l.r.c.harmless {
			return true
		}
	}
	return false
}

// stand reports whether words stand at token i, but for the one at position but.
func stand(toks []token, i int, words []string, but int) bool {
	if i < 0 || i+len(words) > len(toks) {
		return false
	}
	for k, w := range words {
		if k != but && toks[i+k].text != w {
			return false
		}
	}
	return true
}

// tellsMore reports whether a reading has something that the other has not: a step, a kind
// of act, a count.
func tellsMore(a, b Result) bool {
	if len(a.Acts) > len(b.Acts) {
		return true
	}
	for _, x := range a.Acts {
		if x.Kind == Amend && valuesOf(x) == 0 {
			continue
		}
		if !slices.ContainsFunc(b.Acts, func(y Act) bool {
			return x.Kind == y.Kind && x.Step == y.Step && (x.Count == nil || y.Count != nil) && (!x.All || y.All)
		}) {
			return true
		}
	}
	return false
}

// leftOver reports whether a reading could make nothing of a word.
func leftOver(res Result, w string) bool {
	if res.Outcome != Ask && res.Outcome != Notice || len(res.Moods) > 0 || slices.Contains(res.Doubts, "talk") {
		return false
	}
	for _, u := range res.Unread {
		if fold(u) == w {
			return true
		}
	}
	return false
}

// sameActs reports whether two readings log the same. A reason that was typed freely may
// differ.
func sameActs(a, b Result) bool {
	if b.Outcome != Log || len(a.Acts) != len(b.Acts) {
		return false
	}
	bare := func(list []Act) string {
		out := append([]Act{}, list...)
		for i := range out {
			out[i].Reason = ""
		}
		return actsText(out)
	}
	return bare(a.Acts) == bare(b.Acts)
}

func actsText(acts []Act) string {
	var b strings.Builder
	for _, a := range acts {
		b.WriteString(a.String())
	}
	return b.String()
}

// doubted is a result that a rival keeps out of the log: both are offered.
func (r *Reader) doubted(res Result, v rival) Result {
	res.Outcome, res.Clear = Ask, false
	res.Doubts = append(res.Doubts, "slip "+v.typed+"~"+v.meant)
	res.Others = [][]Act{res.Acts}
	if v.res.Outcome == Log && len(v.res.Acts) > 0 {
		res.Others = append(res.Others, v.res.Acts)
	}
	return res
}
