package reading

import (
	"strings"
)

// lattice is a message with every sense that its words may have.
type lattice struct {
	r         *Reader
	known     *Known
	text      string
	toks      []token
	ways      [][]item            // into which it may be cut, once that was asked for
	asCommand *lattice            // what commands are read from, once that was asked for
	spelt     map[string][]string // of the crew: their words
	edges     [][]edge            // from each token: phrases, numbers, names, the longest first
	work      int                 // items looked at so far: what reading it costs
	lang      int                 // index of the language it is written in, -1 where it does not say

	inDoubt bool                          // of a command: a sign of a question stands in it
	exact   bool                          // no word may be read through a slip: the row reports work
	spoken  bool                          // of a command: the bot is called by its name
	trace   func(*draft, Result, float64) // is told of each way of reading it, nil for nobody
	slash   bool                          // the message began with a stroke, as commands may
}

// newLattice cuts a message and looks its words up.
func (r *Reader) newLattice(text string, k *Known) *lattice {
	l := &lattice{r: r, known: k, text: text, toks: tokenize(text), lang: -1}
	l.lang = l.language()
	l.toks = l.respell(l.toks)
	l.lang = l.language()
	l.numberWords()
	l.dottedClocks()
	l.edges = make([][]edge, len(l.toks))
	for i := range l.toks {
		l.edges[i] = l.lookup(i)
	}
	return l
}

// respell puts the words for which a spelling stands in its place. A spelling may run over
// tokens that were typed together: "2moro", "w/". A word of the language that the message
// is written in is no misspelt one of another: German "im" is not "I'm", and an English
// "ala" not Spanish "a la".
func (l *lattice) respell(toks []token) []token {
	own := l.mother()
	out := make([]token, 0, len(toks))
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		full, n := []string(nil), 0
		joined := ""
		for k := i; k < len(toks) && k < i+4; k++ {
			if k > i && toks[k].from > toks[k-1].to {
				joined += " "
			}
			joined += toks[k].text
			for _, s := range l.r.lex.same[joined] {
				if k == i && l.unlisted(i) != "" && l.placed(i) {
					continue // "into B4" is no "before"
				}
				if own < 0 || int(s.lang) == own || l.lang < 0 && l.r.lex.words[joined]&(1<<own) == 0 {
					full, n = s.words, k-i+1
				}
			}
		}
		if n == 0 {
			t.text = l.r.fullEnding(t.text)
			out = append(out, t)
			continue
		}
		for _, w := range full {
			k := token{text: w, clock: -1, of: -1}
			if isDigit(w) {
				k = tokenize(w)[0] // a spelling may stand for a number or a time
			}
			k.from, k.to, k.name = t.from, toks[i+n-1].to, t.name
			if n == 1 && len(full) == 1 {
				k.typed = t.text
			}
			out = append(out, k)
		}
		i += n - 1
	}
	return out
}

// fullEnding puts an ending that is left off in speech back, where that makes a word of a
// lexicon of one that is none.
func (r *Reader) fullEnding(w string) string {
	if r.lex.words[w] != 0 || r.lex.common[w] {
		return w
	}
	for _, e := range r.lex.endings {
		if stem, ok := strings.CutSuffix(w, e.short); ok && len(stem) >= 3 && r.lex.words[stem+e.full] != 0 {
			return stem + e.full
		}
	}
	return w
}

// language is the one whose words, known to no other, are the most; -1 for a draw.
func (l *lattice) language() int {
	votes := make([]int, len(l.r.lex.langs))
	names := map[string]bool{} // what is called a name says nothing
	for _, list := range [][]string{l.known.Yards, l.known.Builders, l.known.Members, l.known.Customers} {
		for _, n := range list {
			for _, w := range l.nameWords(n) {
				names[w] = true
			}
		}
	}
	for _, t := range l.toks {
		bits := l.r.lex.words[t.text]
		if bits != 0 && bits&(bits-1) == 0 && !names[t.text] && letters(t.text) {
			for i := range votes {
				if bits == 1<<i {
					votes[i]++
				}
			}
		}
	}
	best, second, at := 0, 0, -1
	for i, v := range votes {
		if l.r.lex.langs[i] == neutral {
			continue
		}
		switch {
		case v > best:
			best, second, at = v, best, i
		case v > second:
			second = v
		}
	}
	if best == second {
		return -1
	}
	return at
}

// answerIn is the language that an answer is due in, empty where the message does not say:
// who borrows words of another language still speaks the crew's.
func (l *lattice) answerIn() string {
	if l.lang < 0 {
		return ""
	}
	crew, own, shared, other := l.lang, 0, 0, 0
	for i, n := range l.r.lex.langs {
		if n == l.known.Language {
			crew = i
		}
	}
	for _, t := range l.toks {
		switch bits := l.r.lex.words[t.text]; {
		case bits == 1<<crew:
			own++
		case bits&(1<<crew) != 0:
			shared++
		case bits != 0:
			other++
		}
	}
	if own > 0 || shared > other {
		return l.r.lex.langs[crew]
	}
	return l.r.lex.langs[l.lang]
}

// mother is the language of the message or, where that does not say, of the crew; -1 for
// none that is known.
func (l *lattice) mother() int {
	if l.lang >= 0 {
		return l.lang
	}
	for i, n := range l.r.lex.langs {
		if n == l.known.Language {
			return i
		}
	}
	return -1
}

// neutral is the lexicon of signs that belong to no language.
const neutral = "signs"

// speaks reports whether a sense may count: of a word that two languages share, the
// one of the language that the message is written in.
func (l *lattice) speaks(senses []sense) []sense {
	lang := l.mother()
	if lang < 0 {
		return senses
	}
	own := false
	for _, s := range senses {
		own = own || int(s.lang) == lang
	}
	if !own {
		return senses
	}
	var out []sense
	for _, s := range senses {
		if int(s.lang) == lang || l.r.lex.langs[s.lang] == neutral {
			out = append(out, s)
		}
	}
	return out
}

// value is the number of a token by a concept with values: DIGIT, TEEN, TENS.
func (l *lattice) value(i int, c concept) (float64, bool) {
	if i >= len(l.toks) {
		return 0, false
	}
	p := l.r.lex.single[l.toks[i].text]
	if p == nil {
		return 0, false
	}
	for _, s := range l.speaks(p.senses) {
		if s.concept == c {
			return atof(s.value), true
		}
	}
	return 0, false
}

// numberWords puts a number in place of the words for it: "thirty eight", "treinta y
// ocho". What may be an article as well stays a word.
func (l *lattice) numberWords() {
	var out []token
	put := func(i, n int, v float64) {
		t := l.toks[i]
		t.to, t.isNum, t.num, t.clock, t.of = l.toks[i+n-1].to, true, v, -1, -1
		for k := 1; k < n; k++ {
			t.text += " " + l.toks[i+k].text
		}
		out = append(out, t)
	}
	for i := 0; i < len(l.toks); i++ {
		if t, n, from, ok := l.dozens(i, out); ok {
			out = append(out[:from], t)
			i += n - 1
			continue
		}
		if h, ok := l.value(i, l.r.hundred); ok {
			n, v := 1, h
			if t, ok := l.value(i+1, l.r.tens); ok {
				v, n = v+t, 2
				if u, more := l.unit(i + 2); more > 0 {
					v, n = v+u, 2+more
				}
			} else if t, ok := l.value(i+1, l.r.teen); ok {
				v, n = v+t, 2
			} else if u, ok := l.value(i+1, l.r.digit); ok {
				v, n = v+u, 2
			}
			put(i, n, v)
			i += n - 1
			continue
		}
		if t, ok := l.value(i, l.r.tens); ok {
			n := 1
			if u, more := l.unit(i + 1); more > 0 {
				t, n = t+u, 1+more
			}
			put(i, n, t)
			i += n - 1
			continue
		}
		if v, ok := l.value(i, l.r.teen); ok {
			put(i, 1, v)
			continue
		}
		if v, ok := l.value(i, l.r.digit); ok {
			if _, article := l.has(i, l.r.one); !article {
				put(i, 1, v)
				continue
			}
		}
		out = append(out, l.toks[i])
	}
	l.toks = out
}

// unit reads the digit after a ten: "eight", "y ocho", "y uno".
func (l *lattice) unit(i int) (v float64, n int) {
	if i < len(l.toks) && l.toks[i].text == "-" {
		i, n = i+1, 1
	}
	if v, ok := l.value(i, l.r.digit); ok {
		return v, n + 1
	}
	if _, ok := l.value(i, l.r.one); ok && n == 1 {
		return 1, n + 1
	}
	if _, and := l.has(i, l.r.andTen); and && n == 0 {
		if v, ok := l.value(i+1, l.r.digit); ok {
			return v, 2
		}
		if _, ok := l.value(i+1, l.r.one); ok {
			return 1, 2
		}
	}
	return 0, 0
}

func (l *lattice) has(i int, c concept) (string, bool) {
	if i < 0 || i >= len(l.toks) {
		return "", false
	}
	p := l.r.lex.single[l.toks[i].text]
	if p == nil {
		return "", false
	}
	for _, s := range p.senses {
		if s.concept == c {
			return s.value, true
		}
	}
	return "", false
}

// lookup finds what may begin at token i.
func (l *lattice) lookup(i int) []edge {
	if c := l.unlistedCustomer(i); c != "" {
		return []edge{{n: 1, senses: []sense{{concept: l.r.newCustomer, value: c}}}}
	}
	if y := l.unlistedYard(i); y != "" {
		return []edge{{n: 1, senses: []sense{{concept: l.r.ownYard, value: y}}}}
	}
	var out []edge
	t := l.toks[i]
	for _, p := range l.r.lex.byFirst[t.text] {
		if l.stands(p.words, i) {
			if p.means(l.r.poss) && i > 0 && t.from > l.toks[i-1].to {
				continue // "7 s": the sign stands at its word
			}
			if t.isNum && p.means(l.r.c.ordinal) && len(p.words) == 2 && l.toks[i+1].from > t.to {
				continue // "2 a Anna" is no second
			}
			out = append(out, edge{n: len(p.words), senses: l.speaks(p.senses)})
		}
	}
	if strings.Contains(t.text, " ") {
		// A number of several words may begin a phrase by its first.
		out = append(out, edge{n: 1})
	}
	out = append(out, l.ownNames(i)...)
	if t.isNum || t.clock >= 0 {
		out = append(out, edge{n: 1, senses: l.numeric(t)})
	}
	return out
}

func (l *lattice) stands(words []string, i int) bool {
	if i+len(words) > len(l.toks) {
		return false
	}
	for k, w := range words {
		if l.toks[i+k].text != w {
			return false
		}
	}
	return true
}

// ownNames finds the crew's own yards, builders and members at token i, also with one
// slip in a word of five letters and more.
func (l *lattice) ownNames(i int) []edge {
	var out []edge
	add := func(names []string, c concept) {
		for _, name := range names {
			words := l.nameWords(name)
			if len(words) == 0 {
				continue
			}
			if l.stands(words, i) {
				out = append(out, edge{n: len(words), senses: []sense{{concept: c, value: name}}})
				continue
			}
			w := l.toks[i].text
			if len(words) == 1 && len(words[0]) >= 5 && len(w) >= 4 && letters(w) && letters(words[0]) && l.r.lex.words[w] == 0 && !l.r.lex.common[w] && OneSlip(w, words[0]) {
				out = append(out, edge{n: 1, senses: []sense{{concept: c, value: name + "\x00"}}})
			}
		}
	}
	add(l.known.Yards, l.r.ownYard)
	out = append(out, l.translated(i)...)
	add(l.known.Builders, l.r.ownBuilder)
	add(l.known.Members, l.r.member)
	add(l.known.Customers, l.r.ownCustomer)
	if b := l.unlisted(i); len(out) == 0 && b != "" {
		out = append(out, edge{n: 1, senses: []sense{{concept: l.r.ownBuilder, value: b}}})
	}
	return out
}

// translated finds a yard that is named by a word of the lexicons in its word of another
// language: "norte" for a yard called North.
func (l *lattice) translated(i int) []edge {
	place := func(w string) string {
		if p := l.r.lex.single[w]; p != nil {
			for _, s := range p.senses {
				if s.concept == l.r.c.place {
					return s.value
				}
			}
		}
		return ""
	}
	said := place(l.toks[i].text)
	if said == "" {
		return nil
	}
	for _, y := range l.known.Yards {
		if words := l.nameWords(y); len(words) == 1 && words[0] != l.toks[i].text && place(words[0]) == said {
			return []edge{{n: 1, senses: []sense{{concept: l.r.ownYard, value: y}}}}
		}
	}
	return nil
}

// nameWords are the words of a name of the crew.
func (l *lattice) nameWords(name string) []string {
	w, ok := l.spelt[name]
	if !ok {
		if l.spelt == nil {
			l.spelt = map[string][]string{}
		}
		w = l.r.nameWords(name)
		l.spelt[name] = w
	}
	return w
}

// nameWords cuts a name of the crew into tokens, without an article at its head: "El Roble" is
// also where "al Roble" and "Roble" say. What is a number without it keeps it.
func (r *Reader) nameWords(name string) []string {
	words := phraseWords(name)
	if len(words) < 2 || len(words[1]) < shortest || strings.ContainsAny(words[1], "0123456789") {
		return words
	}
	if p := r.lex.single[words[0]]; p != nil && p.means(r.c.the) && !p.means(r.one) {
		return words[1:]
	}
	return words
}
