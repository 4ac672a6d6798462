package bot

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"yardbell/rules"
)

// Spanish is read by putting its words and phrases into the reader's own words,
// before anything else is made of the message. What was typed stays beside each
// word, for names, reasons and what is asked back. Nothing else in the reader knows
// Spanish; and a message without a Spanish word goes through untouched.

// glosser works on one message. It goes over the words a fixed number of times and
// looks ahead no further than the longest phrase.
type glosser struct {
	d      *reader
	in     []token
	key    []string // the Spanish word that each token is, put right; "#" for a number; "" for a name
	out    []token
	own    []int // where the crew's own names stand: how many words of one are left
	es, en int   // how many words are plainly of either language
	graft  bool  // it is about a graft, where "45 de 7" names the breeder
	shout  bool  // no small letters, so that capitals mark no names
	ahead  bool  // a day to come is named
	nucs   bool  // so are nucs
	now    bool  // "ahora", "ahorita"
	yet    bool  // "ya"
	polite bool  // it asks for something
	told   bool  // a verb before told of work done
	// weekday says that a day of the week is named, and not as one that is past.
	weekday bool
	first   bool // a step that is told of a breeder, so that "a la 7" is one
	queens  bool // queens, of whom there are several
	mother  bool // one queen
	// searched says that a builder was searched, so that cells are rogue cells.
	searched bool
	rogue    bool // rogue cells are named, so that what was taken out are these
	found    bool // what was found is told by another verb, so that "conté" says no more
	finisher bool // the finisher is named
	clocked  bool // an hour is named
	number   int  // where the first number stands
	just     bool // "acabo de": the next verb tells what was done
	eager    bool // what is asked for by its name, so that a common verb means the step
}

// gloss puts the Spanish of a message into the reader's own words and says which
// language the message is plainly in.
func (d *reader) gloss() {
	g := &glosser{d: d, in: d.toks, shout: !smallLetters(d.text)}
	g.judge()
	if g.es > 0 || g.pattern() || g.d.n.ping == rules.Rogue {
		g.trim()
		g.numbers()
		if !g.turns() {
			g.walk()
		}
		d.toks = g.out
		for _, t := range d.toks {
			d.r.digits = d.r.digits || t.isNum
		}
	}
	if g.es == 0 && g.en == 0 {
		d.r.courtesy = d.r.courtesy || g.idle(0, len(g.in)) // "perfecto"
	}
	switch { // in a mixed message one of them must be plainly the main one
	case g.d.r.guessed: // one slip tells no language
	case g.es > 0 && g.es >= 3*g.en, len(g.in) == 1 && g.at(0) == "si":
		d.r.lang = "es"
	case g.en > 0 && g.en >= 3*max(g.es, g.foreign()):
		d.r.lang = "en"
	}
}

// foreign counts the words that may be Spanish and are not English: "era batch 1".
func (g *glosser) foreign() (n int) {
	for i, t := range g.in {
		if (spanish.single[t.text] != nil || otherTongues[t.text]) && !vocabulary[t.text] && g.own[i] == 0 {
			n++
		}
	}
	return n
}

func smallLetters(s string) bool {
	for _, r := range s {
		if unicode.IsLower(r) {
			return true
		}
	}
	return false
}

// pattern finds the few Spanish turns that no plainly Spanish word is part of:
// "moved 34 a North".
func (g *glosser) pattern() bool {
	for i := range g.in {
		if otherTongues[g.in[i].text] && (i == 0 && g.at(1) == "#" || g.d.r.addressed) {
			return true
		}
	}
	for i := range g.in {
		if w := g.at(i); (w == "la" || w == "las") && g.joined(i+1) == "#" || w == "ya" && (i == 0 || i == len(g.in)-1) {
			return true
		}
	}
	if g.en > 0 {
		return false
	}
	if g.d.r.addressed && len(g.in) == 2 && g.at(0) == "a" && g.yardAt(1) {
		return true // "a North", asked to which yard
	}
	for i := range g.in {
		if w := g.at(i); w != "" && w != "#" && !vocabulary[w] && !otherTongues[w] && !spanish.shared[w] {
			return true // "34 a las 7:30": no word that is English, some that may be Spanish
		}
	}
	return false
}

func (g *glosser) at(i int) string {
	g.d.looks++
	if i < 0 || i >= len(g.in) {
		return ""
	}
	return g.key[i]
}

// joined is the key at i of a word that goes on from the one before, with no comma
// between.
func (g *glosser) joined(i int) string {
	if i > 0 && i <= len(g.in) && g.in[i-1].comma {
		return ""
	}
	return g.at(i)
}

// numbers makes one number of "treinta y cuatro" and "ciento veinte".
func (g *glosser) numbers() {
	var in []token
	var key []string
	var own []int
	for i := 0; i < len(g.in); i++ {
		n, used := g.spoken(i)
		t, k, o := g.in[i], g.key[i], g.own[i]
		if used > 0 {
			for _, more := range g.in[i+1 : i+used] {
				t.orig += " " + more.orig
			}
			t.num, t.isNum, t.text, t.comma = n, true, strconv.Itoa(n), g.in[i+used-1].comma
			k = "#"
			i += used - 1
		}
		in, key, own = append(in, t), append(key, k), append(own, o)
	}
	g.in, g.key, g.own = in, key, own
	g.number = slices.Index(key, "#")
}

func (g *glosser) spoken(i int) (n, used int) {
	w := g.at(i)
	v, ok := esNumbers[w]
	if before := g.at(i - 1); (w == "uno" || w == "una") && (before == "lote" || before == "madre" || before == "reina" || before == "criadora") {
		return 1, 1
	}
	if !ok || g.in[i].isNum || w == "once" && !g.plain(i) {
		return 0, 0
	}
	next, isNum := esNumbers[g.joined(i+1)]
	switch {
	case v >= 100 && isNum && next > 0 && next < 100:
		below, k := g.spoken(i + 1)
		return v + below, 1 + k
	case v >= 30 && v < 100 && g.joined(i+1) == "y":
		unit, ok := esNumbers[g.joined(i+2)]
		if g.joined(i+2) == "#" && isDigits(g.in[i+2].text) {
			unit, ok = g.in[i+2].num, true // "treinta y 4"
		}
		if w := g.joined(i + 2); w == "uno" || w == "una" || w == "un" {
			unit, ok = 1, true
		}
		if ok && unit > 0 && unit < 10 {
			return v + unit, 3
		}
	}
	return v, 1
}

// plain reports whether the sentence around token i is Spanish, so that a word of
// other languages is Spanish here: there are more Spanish words than English, or
// one stands beside it.
func (g *glosser) plain(i int) bool {
	if g.es >= g.en && (g.es > 0 || !vocabulary[g.in[i].text]) || accented(g.in[i].orig) {
		return true
	}
	for _, k := range []int{i - 1, i + 1} {
		if w := g.at(k); w != "" && w != "#" && !vocabulary[w] && !otherTongues[w] && !weak(w) {
			return true
		}
	}
	return false
}

// walk puts word after word, or phrase after phrase, into the reader's own.
func (g *glosser) walk() {
	i := g.settings()
	for i < len(g.in) {
		n := 0
		for _, turn := range []func(int) int{g.doer, g.name, g.syrup, g.fed, g.beside, g.justLooked, g.perfect, g.toClock, g.wasClock, g.clock, g.age, g.small, g.phrase} {
			if n = turn(i); n > 0 {
				break
			}
		}
		if n == 0 {
			t := g.in[i]
			t.firm = t.firm || spanish.word[t.text] && g.plain(i) && !vocabulary[t.text]
			g.out = append(g.out, t)
			n = 1
		}
		i += n
	}
}

// put writes words for the n tokens from i. "#" takes the next number among them.
func (g *glosser) put(i, n int, ws ...string) int {
	first, last := g.in[i], g.in[i+n-1]
	orig := g.d.text[first.at:min(last.at+len(last.orig), len(g.d.text))]
	k := i
	for _, w := range ws {
		t := token{text: w, orig: orig, at: first.at, glossed: true}
		if w == "#" {
			for k < i+n && !g.in[k].isNum {
				k++
			}
			t = g.in[min(k, i+n-1)]
			t.comma = false
			k++
		} else if v, ok := numeral(w); ok {
			t.num, t.isNum = v, true
		} else if v, ok := numberWords[w]; ok {
			t.num, t.isNum = v, true
		}
		g.out = append(g.out, t)
	}
	if len(ws) > 0 {
		g.out[len(g.out)-1].comma = last.comma
	} else if last.comma && len(g.out) > 0 {
		g.out[len(g.out)-1].comma = true
	}
	return n
}

// phrase puts the longest phrase that stands at i.
func (g *glosser) phrase(i int) int {
	v, n := g.longest(i)
	if v == nil {
		return 0
	}
	ws := g.worded(v, i, n)
	g.told = g.told || v.rank == esPast && v.past != "" || v.mean == "done"
	return g.put(i, n, ws...)
}

// longest finds the longest phrase that stands at i, and how many words it has.
func (g *glosser) longest(i int) (best *gloss, n int) {
	b := &spanish.root
	for k := i; k < len(g.in) && k < i+longestPhrase; k++ {
		w := g.joined(k)
		if k == i {
			w = g.at(k)
		}
		if b = b.next[w]; w == "" || b == nil {
			break
		}
		if b.g != nil && g.fits(b.g, i, k-i+1) {
			best, n = b.g, k-i+1
		}
	}
	return best, n
}

// fits reports whether a phrase of n words may be read as Spanish at i.
func (g *glosser) fits(v *gloss, i, n int) bool {
	if v.words[0] == "moved" && v.words[len(v.words)-1] == "in" && (!g.yardAt(i+n) || g.builderAt(i+n)) {
		return false // cells are left at many places
	}
	switch v.class {
	case "t":
		return false
	case "a":
		return g.d.r.addressed
	case "w":
		return g.plain(i)
	case "d":
		next := g.at(i + n)
		return i == 0 && (i+n < len(g.in) && next != "de" || g.d.r.addressed && v.words[0] != "show" && len(g.in) == n)
	case "c":
		return g.eager || g.counted(i, n)
	}
	return n > 1 || !vocabulary[g.in[i].text] && !otherTongues[g.in[i].text] || g.plain(i) || otherTongues[g.in[i].text] && g.at(i+1) == "#"
}

// countable may stand beside a verb that is said of many things, and make it one of
// the trade's.
var countable = words(`celdas celda lote todas todos ninguna ninguno resto demas realeras acabadora panal cuadro marco`)

// counted reports whether a count, cells or a batch stand beside the n words at i.
func (g *glosser) counted(i, n int) bool {
	for k := i + n; k < i+n+3; k++ {
		if notCounted[g.at(k)] {
			return false // "puse 3 alzas"
		}
	}
	for k := max(i-3, 0); k < i+n+4 && k < len(g.in); k++ {
		if k >= i && k < i+n {
			continue
		}
		if w := g.at(k); countable[w] || w == "#" && !timeUnits[g.at(k+1)] && !timeUnits[g.in[min(k+1, len(g.in)-1)].text] && (g.at(k-1) != "las" || g.in[k].num > 24 && g.at(k-2) != "a") {
			return true
		}
	}
	return false
}

// notCounted are things of the yard that the log does not count.
var notCounted = words(`alza alzas caja cajas piso pisos techo techos tapa tapas colmena colmenas tambor tambores bolsa bolsas kilos litros frascos trampa trampas`)

var timeUnits = words(`h hora horas hs hrs min minutos dias dia semanas meses anos hours days pesos dolares veces km kilometros`)

// worded are the words of a phrase as they stand in this sentence.
func (g *glosser) worded(v *gloss, i, n int) []string {
	t := g.in[i]
	alone := len(g.in) == n
	switch w := g.at(i); {
	case len(v.words) == 1 && v.words[0] == "laying" && g.oneBreeder():
		return []string{"perhaps", "laying"} // "la 7 poniendo": she, not seven
	case n == 1 && t.doubt:
		return []string{"perhaps", v.mean}
	case n == 1 && g.rogue && (v.past == "pulled" || v.past == "removed") && v.rank == esPast:
		return []string{"found"} // "quité 2 celdas ajenas"
	case n == 1 && v.past == "placed" && w == "puso" && g.at(i-1) == "#" && i > 1 && g.key[i-2] != "":
		return []string{"has", "laid"} // "la 7 puso"
	case n == 1 && v.past == "placed" && (w == "puso" || w == "pusieron") && g.joined(i+1) != "#" && g.at(i+2) != "celdas" && g.at(i+1) != "celdas":
		return []string{w} // "27 pusieron": eggs, or cells
	case n == 1 && v.past == "accepted" && strings.HasPrefix(w, "agarr") && g.queens && v.rank == esPast:
		return []string{"caught"}
	case n == 1 && g.found && (v.past == "counted" || v.past == "saw") && v.rank == esPast:
		return nil // "conté 26 en postura"
	case n == 1 && g.clocked && v.rank == esSaid && v.past != "" && strings.HasSuffix(w, "emos"):
		return []string{"will", v.mean} // "a las 9 movemos las 34"
	case n == 1 && v.past == "caged" && (strings.HasSuffix(w, "adas") || strings.HasSuffix(w, "ados")) && g.number >= 0:
		return []string{"caught"} // several: "enjauladas 24"
	case n == 1 && v.past == "caged" && v.rank == esPast:
		return g.caged()
	case n == 1 && v.past == "placed" && g.comb(i+1):
		return []string{"put"}
	case n == 1 && v.past != "" && v.mean != "emerge" && g.present(v, i) == "will":
		return []string{"will", v.mean}
	case n == 1 && v.past != "" && v.mean != "emerge" && g.present(v, i) == "perhaps":
		return []string{"perhaps", v.mean}
	case n == 1 && g.polite && v.rank == esPast && v.past != "" && strings.HasSuffix(w, "e") && lastAccent(t.orig) != 'é':
		return []string{"please", v.mean} // "por favor alimente la 7"
	case n == 1 && g.weekday && v.rank == esPast && v.past != "" && strings.HasSuffix(w, "amos"):
		return []string{"perhaps", v.mean} // the last or the coming one
	case n == 1 && (g.weekday || g.ahead) && v.rank == esSaid && v.words[0] == "i" && g.accents() && lastAccent(t.orig) == 'o' && i > 0:
		return []string{"will", v.mean} // "el lunes armo 40": who writes accents would have set one on "armó"
	case n == 1 && (w == "falta" || w == "faltan") && g.told:
		return []string{"missing"} // "nacieron 31, faltan 3" tells of what is done, too
	case n == 1 && g.ahead && v.rank == esPast && v.past != "" && strings.HasSuffix(w, "amos"):
		return []string{"will", v.mean} // "mañana injertamos": the ending is the same for both
	case n == 1 && g.just && v.past != "":
		g.just = false
		return splitSpace(v.past)
	case n == 1 && v.past != "" && t.text == w && lastAccent(t.orig) == 'ó':
		return splitSpace(v.past) // "injertó", not "injerto"
	case n == 1 && w == "si" && !alone && !t.comma && lastAccent(t.orig) != 'í':
		return []string{"if"}
	case n == 1 && w == "nada" && alone:
		return []string{"none"} // an answer
	case n == 1 && w == "y" && alone:
		return []string{"y"}
	case n == 1 && (w == "listo" || w == "lista" || w == "listos" || w == "listas") && g.nucs:
		return []string{"ready"}
	case n == 1 && w == "lista" && t.text == w && !t.comma && g.number >= 0:
		return []string{"ready"} // 34 of anything are "listas"
	case n == 1 && (w == "hecho" || w == "hechos") && g.nucs:
		return []string{"made"}
	case len(v.words) == 1 && v.words[0] == "is" && len(g.out) == 0:
		return []string{"been"} // at the head it would open a question
	case w == "mas" && n == 1 && i+1 < len(g.in) && g.at(i+1) == "tarde":
		return []string{"later"}
	}
	return v.words
}

// accents reports whether the message is typed with accents.
func (g *glosser) accents() bool {
	for _, t := range g.in {
		if accented(t.orig) {
			return true
		}
	}
	return false
}

// oneBreeder reports whether a number has the article of one breeder: "la 7".
func (g *glosser) oneBreeder() bool {
	for k := range g.key {
		if g.key[k] == "la" && g.joined(k+1) == "#" {
			return true
		}
	}
	return false
}

func lastAccent(s string) rune {
	rs := []rune(s)
	if len(rs) == 0 {
		return 0
	}
	return unicode.ToLower(rs[len(rs)-1])
}

// comb reports whether a comb is named at i, with or without its article.
func (g *glosser) comb(i int) bool {
	if w := g.at(i); w == "el" || w == "un" || w == "los" {
		i++
	}
	w := g.at(i)
	return w == "panal" || w == "cuadro" || w == "marco" || w == "panales" || w == "cuadros"
}

// caged are the words for queens put into cages: caught, if there are several, or
// confined, if it is a breeder.
func (g *glosser) caged() []string {
	switch {
	case g.queens:
		return []string{"caught"}
	case g.mother:
		return []string{"caged"}
	}
	return []string{"perhaps", "caught"}
}
