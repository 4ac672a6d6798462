package reading

import (
	"io/fs"
	"slices"
	"strconv"
	"strings"
)

// A word that says something stands as it was typed, except in places where it says less
// than a word near it would: "twenty fix", "recd pin", "uno las he movido". The places
// stand in data/slips.txt. Without them the part of a number, the colour or the denial that
// a slip took away is lost unseen.

// The conditions of slips.txt that no concept has a name for.
const (
	standsStart   = "start"  // nothing stands there: the message begins
	standsEnd     = "end"    // the clause ends there
	standsBound   = "bound"  // a sign that ends a clause
	standsComma   = "comma"  // one that does not end the sentence
	standsDash    = "dash"   //
	standsFigure  = "figure" // a number in figures
	standsSmall   = "small"  // one that a batch or a builder may have
	standsDigit   = "digit"  // a number in words
	standsNumber  = "number" // either
	standsPlace   = "place"  // a place, or what leads to its name
	standsName    = "name"   // of a yard or a builder
	standsMember  = "member" // a name of somebody of the crew
	standsDeed    = "deed"   // of the classes of frames.txt
	standsStrong  = "strong"
	standsOther   = "foreign" // not of the language of the message
	lengthOf      = "len"     // len<4: of less than 4 letters
	seenIn        = "seen"    // seen<3: in less than 3 labelled reports
	standsBare    = "infinitive"
	standsUnknown = "unknown" // no lexicon has it as a word of its own
	standsGlued   = "glued"   // to the figure before it
	ofPhrase      = "phrase"  // what makes one with the words beside it
	whatever      = "?"
	nowhere       = "-"
	anything      = "_"
)

// fewBatches is the number that no batch or builder of a crew comes to.
const fewBatches = 10

// standing is a condition on a token.
type standing struct {
	not  bool
	none bool // holds where no token stands
	any  []func(l *lattice, toks []token, i int) bool
}

func (s *standing) holds(l *lattice, toks []token, i int) bool {
	if i < 0 || i >= len(toks) {
		return s.not || s.none
	}
	return slices.ContainsFunc(s.any, func(f func(*lattice, []token, int) bool) bool { return f(l, toks, i) }) != s.not
}

// slipPlace is a place that a word stands in, and what it may be a slip of there.
type slipPlace struct {
	at       int // of the word, among them
	elems    [][]standing
	may      func(*phrase) bool
	phrase   bool // also of what makes a phrase with the words beside it
	doubtful bool // whatever it was a slip of
	firm     bool // of nothing, and no row below says otherwise
}

// loadSlipPlaces reads slips.txt.
func (r *Reader) loadSlipPlaces(fsys fs.FS, file string) error {
	return eachLine(fsys, file, func(n int, line string) error {
		left, right, ok := strings.Cut(line, " > ")
		before, rest, open := strings.Cut(left, "[")
		word, after, closed := strings.Cut(rest, "]")
		if !ok || !open || !closed {
			return fault(file, n, "want WORDS [word] WORDS > CONCEPTS")
		}
		p := slipPlace{at: len(strings.Fields(before))}
		put := func(conditions []string) error {
			var all []standing
			for _, c := range conditions {
				s, err := r.standing(c)
				if err != "" {
					return fault(file, n, "%s", err)
				}
				all = append(all, s)
			}
			p.elems = append(p.elems, all)
			return nil
		}
		for k, side := range [][]string{strings.Fields(before), nil, strings.Fields(after)} {
			if k == 1 {
				if err := put(strings.Fields(word)); err != nil {
					return err
				}
			}
			for _, e := range side {
				if err := put(strings.Split(e, "+")); err != nil {
					return err
				}
			}
		}
		var concepts []concept
		deed, strong := false, false
		for _, w := range strings.Fields(right) {
			c, known := r.lex.concepts[w]
			switch {
			case w == standsDeed:
				deed = true
			case w == standsStrong:
				strong = true
			case w == ofPhrase:
				p.phrase = true
			case w == whatever:
				p.doubtful = true
			case w == nowhere:
				p.firm = true
			case known:
				concepts = append(concepts, c)
			default:
				return fault(file, n, "no lexicon has a word of %q", w)
			}
		}
		p.may = func(p *phrase) bool {
			return deed && p.anyOf(r.frames.deed) || strong && p.anyOf(r.frames.strong) || slices.ContainsFunc(concepts, p.means)
		}
		r.slipPlaces = append(r.slipPlaces, p)
		return nil
	})
}

// standing reads a condition: what a token is or means, alternatives with a stroke between
// them, what it must not be with a sign before it.
func (r *Reader) standing(text string) (s standing, wrong string) {
	text, s.not = strings.CutPrefix(text, "!")
	for _, w := range strings.Split(text, "|") {
		if f := r.standingIn(w); f != nil {
			s.none = s.none || w == standsStart || w == standsEnd
			s.any = append(s.any, f)
			continue
		}
		c, known := r.lex.concepts[w]
		if !known {
			return s, "no lexicon has a word of " + strconv.Quote(w)
		}
		s.any = append(s.any, func(l *lattice, toks []token, i int) bool { return l.wordMeans(toks[i].text, c) })
	}
	return s, ""
}

// standingIn is a condition that is no concept, nil for none.
func (r *Reader) standingIn(name string) func(l *lattice, toks []token, i int) bool {
	digit := func(l *lattice, t *token) bool { return l.isNumberWord(t.text) }
	for _, key := range []string{lengthOf, seenIn} {
		if rest, ok := strings.CutPrefix(name, key); ok && len(rest) > 1 {
			most, err := strconv.Atoi(rest[1:])
			if err != nil {
				return nil
			}
			less := rest[0] == '<'
			return func(l *lattice, toks []token, i int) bool {
				n := len(toks[i].text)
				if key == seenIn {
					n = 0
					if r.model != nil {
						n = r.model.seen[toks[i].text][0]
					}
				}
				return less && n < most || !less && n > most
			}
		}
	}
	switch name {
	case anything:
		return func(*lattice, []token, int) bool { return true }
	case standsStart:
		return func(*lattice, []token, int) bool { return false }
	case standsEnd, standsBound:
		return func(_ *lattice, toks []token, i int) bool { return toks[i].bound }
	case standsComma:
		return func(_ *lattice, toks []token, i int) bool { return toks[i].text == "," }
	case standsDash:
		return func(_ *lattice, toks []token, i int) bool { return toks[i].text == nowhere }
	case standsFigure:
		return func(_ *lattice, toks []token, i int) bool { return toks[i].isNum }
	case standsSmall:
		return func(_ *lattice, toks []token, i int) bool { return toks[i].isNum && toks[i].num < fewBatches }
	case standsDigit:
		return func(l *lattice, toks []token, i int) bool { return digit(l, &toks[i]) }
	case standsNumber:
		return func(l *lattice, toks []token, i int) bool { return toks[i].isNum || digit(l, &toks[i]) }
	case standsPlace:
		return func(l *lattice, toks []token, i int) bool {
			c := &l.r.c
			return l.wordMeans(toks[i].text, c.place, c.finisher, c.the) || l.startsName(toks[i].text)
		}
	case standsName:
		return func(l *lattice, toks []token, i int) bool { return l.startsName(toks[i].text) }
	case standsMember:
		return func(l *lattice, toks []token, i int) bool {
			return slices.ContainsFunc(l.known.Members, func(m string) bool { return fold(m) == toks[i].text })
		}
	case standsDeed:
		return func(l *lattice, toks []token, i int) bool { return l.inClass(toks[i].text, r.frames.deed) }
	case standsStrong:
		return func(l *lattice, toks []token, i int) bool { return l.inClass(toks[i].text, r.frames.strong) }
	case standsBare:
		return func(l *lattice, toks []token, i int) bool {
			p := r.lex.single[toks[i].text]
			return p != nil && slices.ContainsFunc(p.senses, func(s sense) bool { return s.form == formInfinitive })
		}
	case standsGlued:
		return func(_ *lattice, toks []token, i int) bool {
			return i > 0 && toks[i-1].isNum && toks[i-1].to == toks[i].from
		}
	case standsUnknown:
		return func(l *lattice, toks []token, i int) bool {
			return letters(toks[i].text) && l.single(toks[i].text) == nil && !l.startsName(toks[i].text)
		}
	case standsOther:
		return func(l *lattice, toks []token, i int) bool { return !l.speaksOwn(toks[i].text) }
	}
	return nil
}

// standsFor gives the words that a word may be a slip of by where it stands, though it is
// one that says something itself. It is nil for a word that stands nowhere special; doubtful
// tells that something else was due there, whatever it was.
func (l *lattice) standsFor(toks []token, i int) (may func(string) bool, doubtful bool) {
	var fit []*slipPlace
	for k := range l.r.slipPlaces {
		p := &l.r.slipPlaces[k]
		if !p.stands(l, toks, i) {
			continue
		}
		if p.firm {
			break
		}
		fit = append(fit, p)
		doubtful = doubtful || p.doubtful
	}
	if len(fit) == 0 {
		return nil, false
	}
	return func(c string) bool {
		w := l.single(c)
		return slices.ContainsFunc(fit, func(p *slipPlace) bool {
			return w != nil && p.may(w) || p.phrase && l.r.rivals.inPhrase(toks, i, c)
		})
	}, doubtful
}

// stands reports whether token i stands in a place.
func (p *slipPlace) stands(l *lattice, toks []token, i int) bool {
	for k, all := range p.elems {
		for s := range all {
			if !all[s].holds(l, toks, i-p.at+k) {
				return false
			}
		}
	}
	return true
}

// wordMeans reports whether a word means one of some concepts.
func (l *lattice) wordMeans(w string, list ...concept) bool {
	p := l.single(w)
	return p != nil && slices.ContainsFunc(list, p.means)
}

// inClass reports whether a word is of a class of frames.txt.
func (l *lattice) inClass(w string, class map[concept]bool) bool {
	p := l.single(w)
	return p != nil && p.anyOf(class)
}

// single is what a word means by itself, or what it is a spelling of; nil for neither.
func (l *lattice) single(w string) *phrase {
	if p := l.r.lex.single[w]; p != nil {
		return p
	}
	for _, s := range l.r.lex.same[w] {
		if len(s.words) == 1 {
			return l.r.lex.single[s.words[0]]
		}
	}
	return nil
}
