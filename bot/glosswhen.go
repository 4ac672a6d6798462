package bot

import (
	"strconv"
	"strings"
)

// cuando reads a question for the time of a step, "cuándo injertamos la 11", "cuándo hay
// que mover el lote 3", by what it is in English. What holds any other word is left to
// the people it was asked.
func (d *reader) cuando() bool {
	i := 0
	for d.word(i) == "y" || d.word(i) == "oye" || d.word(i) == "oigan" {
		i++
	}
	if fold(d.word(i)) != "cuando" || len(d.toks) > 12 {
		return false
	}
	step, of := "", ""
	for i++; i < len(d.toks); i++ {
		t, w := d.toks[i], fold(d.word(i))
		en := cuandoStep(w)
		switch {
		case en != "" && step == "":
			step = en
		case t.isNum && of == "" && i == len(d.toks)-1 && (fold(d.word(i-1)) == "lote" || fold(d.word(i-2)) == "lote"):
			of = " batch " + strconv.Itoa(t.num)
		case t.isNum && of == "" && i == len(d.toks)-1 && cuandoOf[fold(d.word(i-1))]:
			of = " " + strconv.Itoa(t.num)
		case !cuandoSmall[w] && !cuandoOf[w]:
			return false
		}
	}
	if step == "" || step == "move" && of == "" && !d.hasAny(cuandoCells) || step == "confine" && of == "" {
		return false // "cuándo nos movemos" is of people
	}
	r := newReader("when do we "+step+of, d.n).read()
	switch r.verb {
	case askDue, askShow, askFit:
	default:
		return false
	}
	r.text, r.lang, r.addressed = d.r.text, "es", d.r.addressed
	*d.r = *r
	return true
}

// hasAny reports whether one of some words is in the message.
func (d *reader) hasAny(ws map[string]bool) bool {
	for i := range d.toks {
		if ws[fold(d.word(i))] {
			return true
		}
	}
	return false
}

var (
	cuandoOf    = words(`la el las los lote madre numero de del`)
	cuandoCells = words(`celdas celda realeras realera lote`)
	cuandoSmall = words(`hay que toca tocan tengo tenemos tiene tienen se debo debemos deberiamos vamos voy a me nos conviene puedo podemos celdas celda realeras reinas reina larvas mis nuestras proximo proxima siguiente es seria son va van`)
	// cuandoSteps are what is asked for; "cuando injerte" and "cuando injertaste" are no
	// such question.
	cuandoSteps = map[string]map[string]bool{
		"graft":   words(`injertar injertamos injerto injerta injertan traslarvar traslarvamos traslarvo traslarve traslarva`),
		"move":    words(`mover movemos muevo mueve mueven moverlas pasar pasamos pasarlas`),
		"emerge":  words(`nacer nace nacen nacimiento emerger emerge emergen eclosionar eclosiona eclosionan`),
		"catch":   words(`capturar capturamos capturo captura capturan atrapar atrapamos atrapo`),
		"confine": words(`confinar confinamos confino confina enjaular enjaulamos enjaulo`),
	}
)

func cuandoStep(w string) string {
	for step, forms := range cuandoSteps {
		if forms[w] {
			return step
		}
	}
	return ""
}

// present is what a verb in the present tense says beside "ahora" or "ya": that the work
// lies ahead, "will", or that it may, "perhaps", where the form is that of the past as well;
// "" without such a word, or where the verb tells of the past.
func (g *glosser) present(v *gloss, i int) string {
	w, last := g.at(i), lastAccent(g.in[i].orig)
	switch {
	case !g.now && !g.yet, last == 'ó', last == 'é':
	case v.rank == esPast && strings.HasSuffix(w, "amos") && g.now:
		return "perhaps" // "ahorita injertamos": just now, or in a moment
	case v.rank == esSaid && v.words[0] == "i", len(v.words) == 1 && stepForms[v.words[0]] == bare && strings.HasSuffix(w, "o") && !beforeNoun[g.at(i-1)]:
		if g.now || onlyPresent[w] || g.accents() {
			return "will"
		}
		return "perhaps" // "ya injerto": who writes without accents may mean "injertó"
	case v.rank == esSaid && v.words[0] != "you", v.rank == esPlease:
		return "will"
	}
	return ""
}

// beforeNoun stand before "injerto" where it is a thing.
var beforeNoun = words(`el un este ese del primer segundo otro mi su al de`)

// onlyPresent are forms that no past has without its accent.
var onlyPresent = words(`muevo suelto encierro cuento encuentro prendo`)
