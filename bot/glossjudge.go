package bot

import (
	"unicode"

	"yardbell/rules"
)

// What language each word of a message is of, before any is put into other words.

// shortWords are the one-word answers that every ping shows: they do not tell which
// language somebody speaks.
var shortWords = words(`done mine skip later undo ok okay yes no why help log week due me a i of it in`)

// judge finds the word that each token is, and which language the words are of. A
// slip is read as Spanish only where nothing in English is as near.
func (g *glosser) judge() {
	g.rejoin()
	own := g.d.ownWords()
	for i := range g.in {
		if n := compass[g.in[i].text]; own[n] && !own[g.in[i].text] {
			g.in[i].text = n // a crew that calls its yard North says Norte
		}
	}
	g.ownNames()
	g.key = make([]string, len(g.in))
	var odd []int
	soft := 0 // turns that are Spanish where nothing is English
	for i := range g.in {
		t := &g.in[i]
		g.d.looks++
		w := t.text
		known := spanish.word[w] || esNumber(w)
		if w == "a" && i > 0 && g.yardAt(i+1) {
			g.es++ // "34 a North"
		}
		if (w == "la" || w == "las") && i+1 < len(g.in) && g.in[i+1].isNum {
			soft++ // "la 7"
		}
		switch {
		case g.own[i] > 0, own[w] && !known:
		case t.isNum:
			g.key[i] = "#"
		case known:
			g.key[i] = w
			if accented(t.orig) || !vocabulary[w] && !otherTongues[w] && !weak(w) {
				g.es++
			}
			if v := spanish.single[w]; v != nil && (v.mean == "graft" || v.mean == "larvae" || v.mean == "grafts") {
				g.graft = true
			}
		case vocabulary[w]:
			if !shortWords[w] {
				g.en++
			}
			g.graft = g.graft || stepWords[w] == rules.Graft
		case builderForm.MatchString(w), idleWords[w], calledWords[w], particleWords[w]:
		default:
			odd = append(odd, i)
		}
	}
	if g.en == 0 {
		g.es += soft
	}
	plainES, plainEN := g.es, g.en
	for i := range g.in {
		if shortWords[g.in[i].text] && g.d.speaks("en") {
			plainEN++
		}
	}
	for _, i := range odd {
		g.d.looks++
		t := &g.in[i]
		k, doubt, isES := spanish.slip(t.text)
		if c := colourSlip(t.text); i > 0 && c != "" && (g.es > 0 || g.en == 0 && g.d.speaks("es")) && pinWord(g.in[i-1].text) {
			g.key[i] = c // "pin tojo" is no pin of that name
			g.d.r.typos = append(g.d.r.typos, t.orig)
			g.es++
			continue
		}
		w, isEN := slip(t.text)
		guessES, guessEN := false, false // across languages, and by itself
		if isES && plainES == 0 && g.es == 0 {
			isES, guessES = g.d.slipAlone("es", spanish.single[k].words)
		}
		if isEN && plainEN == 0 && g.es == 0 {
			if isEN, guessEN = g.d.slipAlone("en", []string{w}); !isEN {
				g.firm(i)
			}
		}
		switch {
		case isES && isEN && !spanish.single[k].names(stepWords[w]):
			// As near to a word of either language it is neither, unless the others are
			// all English.
			t.firm = g.es > 0 || g.en == 0
		case isEN && g.es == 0: // as it is in English
			g.d.r.guessed = g.d.r.guessed || guessEN
		case isES && (g.es > 0 || g.en == 0) && spanish.single[k].class == "":
			g.d.r.guessed = g.d.r.guessed || guessES
			g.key[i], t.doubt = k, doubt
			g.d.r.typos = append(g.d.r.typos, t.orig)
			g.es++
			if m := spanish.single[k].mean; m == "graft" || m == "larvae" {
				g.graft = true
			}
		case isEN && g.es > 0 && g.en == 0:
			t.firm = true // in a Spanish sentence it is a Spanish word
		}
	}
	g.mark()
}

// firm takes a word as it is typed, also where no word of the message is put into others.
func (g *glosser) firm(i int) {
	g.in[i].firm = true
	for k := range g.d.toks {
		if g.d.toks[k].at == g.in[i].at {
			g.d.toks[k].firm = true
		}
	}
}

// speaks reports whether a language is one of the crew's, or of the writer's own.
func (d *reader) speaks(lang string) bool { return len(d.n.langs) == 0 || has(d.n.langs, lang) }

// slipAlone says what a slip of words of a language is worth in a message that has no word of
// that language as it is written. In a crew of that language alone it is read. In a crew of
// several it is where it names a step: "list" is a word of its own as often as a slip of
// "listo". In any other crew it is asked back at most, and only where it tells of work
// with a number: a slip across languages logs nothing by itself.
func (d *reader) slipAlone(lang string, words []string) (read, guessed bool) {
	step, told := false, false
	for _, w := range words {
		if stepWords[w] != "" && stepForms[w] != thing {
			step, told = true, told || stepForms[w] == past || stepForms[w] == state
		}
	}
	switch {
	case !d.speaks(lang):
		return told && d.r.digits, true
	case len(d.n.langs) > 1:
		return step, false
	}
	return true, false
}

func pinWord(w string) bool {
	v := spanish.single[w]
	return pinWords[w] || v != nil && v.words[0] == "pin"
}

// colourSlip finds the one Spanish colour that a word was meant to be.
func colourSlip(w string) (best string) {
	if len(w) < 3 || len(w) > 10 {
		return ""
	}
	for _, c := range esColours {
		switch {
		case !oneSlip(w, c):
		case best != "" && spanish.single[best].mean != spanish.single[c].mean:
			return ""
		default:
			best = c
		}
	}
	return best
}

var esColours = splitSpace(`rojo roja azul verde amarillo amarilla blanco blanca naranja negro negra rosado rosada morado morada gris dorado dorada violeta`)

// mark notes what is named anywhere in the message.
func (g *glosser) mark() {
	g.rogue = g.broke()
	for i, k := range g.key {
		if v := spanish.single[k]; v != nil {
			for _, w := range v.words {
				g.first = g.first || subjectFirst[stepWords[w]] || w == "syrup" || w == "pulled" || w == "comb"
			}
		}
		g.first = g.first || subjectFirst[stepWords[g.in[i].text]]
		g.weekday = g.weekday || g.at(i+1) != "pasado" && g.at(i-1) != "pasado" && spanishWeekday(k)
		switch k {
		case "ahora", "ahorita":
			g.now = true
		case "ya":
			g.yet = true
		case "acabadora", "finalizadora", "terminadora":
			g.finisher = true
		case "favor", "porfa":
			g.polite = true
		case "nucleos", "nucleo", "nucs":
			g.nucs = true
		case "reinas", "virgenes":
			g.queens = true
		case "reina", "madre":
			g.mother = true
		case "ajena", "ajenas", "intrusa", "intrusas", "salvajes", "silvestres", "emergencia":
			g.rogue = true
		case "aceptadas", "aceptaron", "prendidas", "prendieron", "selladas", "operculadas", "tapadas", "nacidas", "nacieron", "emergidas", "postura", "poniendo", "ponen", "fecundadas", "ponedoras":
			g.found = true
		case "limpia", "limpio", "limpias", "limpios", "revise", "revisamos", "revisada", "revisado", "cheque", "chequee", "chequeamos", "chequeada":
			g.searched = true
		}
		before := g.at(i - 1)
		if k == "casi" && (g.at(i+1) == "todas" || g.at(i+1) == "todos") {
			g.d.r.digits = true // as good as a number, though nobody knows which
		}
		g.clocked = g.clocked || k == "las" && before == "a" && g.at(i+1) == "#"
		g.ahead = g.ahead || k == "manana" && before != "la" && before != "esta" && before != "de" || k == "proximo" || k == "proxima"
	}
}

// compass are names of yards that are said in the language of the sentence.
var compass = map[string]string{"norte": "north", "sur": "south", "oeste": "west"}

// ownNames finds where the crew's own names stand in full, and how many words each
// has: "La Loma", but not the "la" of "de la 7".
func (g *glosser) ownNames() {
	g.own = make([]int, len(g.in))
	byFirst := map[string][][]string{}
	for _, list := range [][]string{g.d.n.yards, g.d.n.builders} {
		for _, name := range list {
			if parts := splitSpace(fold(name)); len(parts) > 0 {
				byFirst[parts[0]] = append(byFirst[parts[0]], parts)
			}
		}
	}
	for i := range g.in {
		g.d.looks++
		for _, parts := range byFirst[g.in[i].text] {
			n := 0
			for n < len(parts) && i+n < len(g.in) && g.in[i+n].text == parts[n] {
				n++
			}
			if n < len(parts) || g.own[i] > 0 {
				continue
			}
			for k := range parts {
				g.own[i+k] = n - k
			}
		}
	}
}

// ownWords are the words of the crew's own names.
func (d *reader) ownWords() map[string]bool {
	own := map[string]bool{}
	for _, list := range [][]string{d.n.builders, d.n.yards} {
		for _, name := range list {
			for _, p := range splitSpace(fold(name)) {
				own[p] = true
			}
		}
	}
	return own
}

// rejoin makes one word of two that dictation took for two: "in jerté". The second
// half must mean nothing, and both together a word of the trade.
func (g *glosser) rejoin() {
	in := g.in[:0:0]
	own := g.d.ownWords()
	for i, t := range g.in {
		g.d.looks++
		if t.text == "q" && i+1 < len(g.in) && !t.comma {
			t.text = "que"
		}
		if i+1 < len(g.in) && !t.comma && t.text == "d" && (g.in[i+1].isNum || g.in[i+1].text == "la" || esNumber(g.in[i+1].text)) {
			t.text = "de"
		}
		switch next := g.in[min(i+1, len(g.in)-1)]; {
		case t.text == "nace" && (next.isNum || next.text == "una" || next.text == "media" || esNumber(next.text)):
			t.text = "hace" // "nace una hora"
		case t.text == "g" && builderForm.MatchString(next.text):
			t.text, t.firm = "gg", true // no grams of a builder, but a slip of "y"
		}
		if n := len(in); n > 0 && !in[n-1].comma && (in[n-1].text == "be" || in[n-1].text == "b") && own["b"+spokenUnits[t.text]] {
			in[n-1].text, in[n-1].comma = "b"+spokenUnits[t.text], t.comma // "en be dos"
			in[n-1].orig = g.d.text[in[n-1].at:min(t.at+len(t.orig), len(g.d.text))]
			continue
		}
		if n := len(in); n > 0 && !in[n-1].comma && !in[n-1].isNum && !t.isNum && !vocabulary[t.text] && !spanish.word[t.text] {
			w := in[n-1].text + t.text
			if v := spanish.single[w]; v != nil && len(w) >= 6 && len(t.text) > 2 && (v.rank < esPast || v.past != "" || stepWords[v.words[0]] != "") {
				in[n-1].text, in[n-1].comma = w, t.comma
				in[n-1].orig = g.d.text[in[n-1].at:min(t.at+len(t.orig), len(g.d.text))]
				continue
			}
		}
		in = append(in, t)
	}
	g.in = in
}

// spokenUnits are the numbers of builders as they are said.
var spokenUnits = map[string]string{"uno": "1", "dos": "2", "tres": "3", "cuatro": "4", "cinco": "5", "1": "1", "2": "2", "3": "3", "4": "4", "5": "5"}

func accented(s string) bool {
	for _, r := range s {
		if r >= 0x80 && unicode.IsLetter(r) {
			return true
		}
	}
	return false
}

// weak reports whether a word by itself tells no language.
func weak(w string) bool {
	v := spanish.single[w]
	if spanish.shared[w] {
		return true
	}
	if v == nil {
		return len(w) < 3 && w != "de" && w != "en" || w == "once"
	}
	return v.class == "w"
}

func esNumber(w string) bool {
	_, ok := esNumbers[w]
	return ok
}
