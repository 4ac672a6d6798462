package bot

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"yardbell/rules"
)

//go:embed words/gloss-es.tsv
var glossTable string

// gloss is what a Spanish word or phrase is in the reader's own words.
type gloss struct {
	words []string
	class string
	mean  string // what two words must share for a slip to be read as either
	rank  int    // of a verb: how sure the form is that the deed was done
	past  string // of a verb: the reader's word for the deed done
}

// branch is where a phrase stands after some of its words.
type branch struct {
	next map[string]*branch
	g    *gloss
}

// glossary is every Spanish word and phrase that is known.
type glossary struct {
	root   branch
	single map[string]*gloss   // the words that stand alone
	word   map[string]bool     // every word of a phrase
	shared map[string]bool     // those that the reader's own words have too: "min"
	cuts   map[string][]string // the long words by what is left without one letter
}

// longestPhrase is how many words the longest phrase has.
const longestPhrase = 8

var spanish = newGlossary()

func newGlossary() *glossary {
	g := &glossary{single: map[string]*gloss{}, word: map[string]bool{}, shared: map[string]bool{}, cuts: map[string][]string{}}
	g.verbForms()
	for i, line := range strings.Split(glossTable, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		cols := append(strings.Split(line, "\t"), "", "")
		if cols[1] == "" {
			panic(fmt.Sprintf("gloss-es.tsv:%d: no words of the reader in %q", i+1, line))
		}
		for _, p := range strings.Split(cols[0], " | ") {
			g.add(p, cols[1], cols[2], cols[1], esPast)
		}
	}
	for w, v := range g.single {
		if len(w) >= 4 && v.class != "d" && v.words[0] != "you" && !(v.mean == "emerge" && v.rank == esPlease) { // nobody is told "nácelos"
			for _, c := range cuts(w) {
				g.cuts[c] = append(g.cuts[c], w)
			}
		}
	}
	for _, list := range g.cuts {
		slices.Sort(list) // the same word wins each time
	}
	return g
}

// add puts a phrase in; what is added later stands over what was added before. Of
// two forms of verbs with the same letters the surer stands.
func (g *glossary) add(phrase, means, class, mean string, rank int) {
	b := &g.root
	ws := splitSpace(phrase)
	for _, w := range ws {
		if b.next == nil {
			b.next = map[string]*branch{}
		}
		if b.next[w] == nil {
			b.next[w] = &branch{}
		}
		b = b.next[w]
		g.word[w] = true
		if slices.Contains(splitSpace(means), w) {
			g.shared[w] = true
		}
	}
	v := &gloss{words: splitSpace(means), class: class, mean: mean, rank: rank}
	if b.g != nil && b.g.past != "" {
		v.past = b.g.past
	}
	b.g = v
	if len(ws) == 1 {
		g.single[ws[0]] = v
	}
}

// slip finds the Spanish word that w was meant to be. Forms of one verb are as good
// as one word; the least sure of them is taken, and doubt says that another would
// have told of work done.
func (g *glossary) slip(w string) (best string, doubt, ok bool) {
	if len(w) < 4 || len(w) > longestWord+2 || realWords[w] || realSpanish[w] || !letters(w) {
		return "", false, false
	}
	low, high := esPast, esPlan
	for _, c := range cuts(w) {
		for _, k := range g.cuts[c] {
			switch {
			case k == best || !slipped(w, k):
				continue
			case best == "":
				best = k
			case g.single[k].mean != g.single[best].mean:
				return "", false, false
			case g.single[k].rank < g.single[best].rank || g.single[k].rank == g.single[best].rank && k < best:
				best = k
			}
			low, high = min(low, g.single[k].rank), max(high, g.single[k].rank)
		}
	}
	return best, low < esBare && high >= esBare, best != "" && g.single[best].class != "t"
}

// greets reports whether a word may stand before the one a sentence opens with.
func (g *glossary) greets(w string) bool {
	v := g.single[w]
	return v != nil && chatter[v.words[0]]
}

// thing reports whether a word says what kind of thing a number after it is.
func (g *glossary) thing(w string) bool {
	v := g.single[w]
	return v != nil && len(v.words) == 1 && (thingWords[v.words[0]] || breederWords[v.words[0]])
}

// names reports whether a gloss names a step.
func (v *gloss) names(step rules.Step) bool {
	for _, w := range v.words {
		if step != "" && stepWords[w] == step {
			return true
		}
	}
	return false
}

// stepOf is the step that a Spanish word names, for a hint. It takes a slip.
func (g *glossary) stepOf(w string) (rules.Step, bool) {
	v := g.single[w]
	if k, _, ok := g.slip(w); v == nil && ok {
		v = g.single[k]
	}
	if v == nil {
		// "Injertaje": the head of a verb that names one step only.
		for _, verb := range esVerbs {
			stem, _, _ := strings.Cut(verb.stems, " ")
			if step := stepWords[verb.past]; len(stem) >= 5 && strings.HasPrefix(w, stem) && step != "" {
				return step, true
			}
		}
		return "", false
	}
	for _, x := range v.words {
		if s := stepWords[x]; s != "" {
			return s, true
		}
	}
	return "", false
}

// realSpanish are words of everyday talk that lie one slip from a word of the
// glossary: they mean what they say.
var realSpanish = func() map[string]bool {
	m := words(`abeja abrir acabador aceite acento aceptable acera acero acido adios alguna algunas algun altar aliento amigas ancla angosto angulo anual
		aporte arabe arco arma armas armario armazon aro asco asilo aula aviario banca banco barba barca barril barro bici blando bosque busto cabo cabra
		calda cama caro carta cantidad cerca cerdo cerveza chico chica cinta ciento claras clavo cobre codo cola coma comienzo conde contable contador contra
		copa corta corto costa costo coto cuarta cuatro cuenca cuento cuesta cuneta cuñada cunado deber decena domino donada empeño empiezo encargo energia enero entero
		entierro falda falla falso febrero fiera flojo fuego fuerza fuente gracia haber hacha hacia hacha harto hembra hoja hueco huecos huella hueso hueva huevera hueya
		huevon juevos juevo juevs jueves llas impio indicio inerte isla julio junco junta junto juntos kilo larga largo larvario lasto lava lejos leve libra libro libros liebre ligero limite limpiar
		limpieza liso lista litera llama llena lleno lluvioso lujo luna luto luz madera madero manada manga mano manta manzana marca marcha marea martillo marzo masa mayor
		medio mejora melada mente mercado mesa mesas metro miedo miel mirada mitades modelo modo mojar molino moneda mono monte morado morena moto movil muchacho muela muerta
		muertas muerto muertos muestra mueble multa nacion nadie nave negar nido nivel nota novia novio nube nuera nuera nueve nula ojal panel pana panadero papel parada paraje
		parcela pared parque parte pasaje paseo pastel pata pausa pecado pelado pelota pena perder persona pieza pilar pinal pino piso plaza poder polen polvo porta poste
		postura pozo predio prensa prenda prisa pronta puente puesto puno queda quedar quede queja queso quien quieta quinta quinto rama ramo rastro rato realeza rebelde
		reino reina recuerdo relato remedio reparto reposo resina respuesta retiro reto revista ribera risa robado rodado roja rota roto ruina sabana sabana sala salado saldo
		salga salsa salto salud salva sano santo seco seda segura sello selva seña senal seto silla sillas sobra sol sola solar soldado soleado solo soltero sonido sopa sorda
		sucia sudor suela suelo suelos suerte suelto sueldo tabla tanta tanto tapa tarea tarro techo tela tierra tina toda tonto torta traje trampa trapo trato tras traves trigo tropa
		valle vaca vela verdad vereda vena venas venta vera viejo viene villa violenta virgo vuelta vueltas zapato zona`)
	for _, v := range []esVerb{
		{stems: "salt sec salv sold salud sal san inset insert acert aceit cant cort cost confi lleg llen lav libr amarr am ar anud aport limpi qued repar repas revel robo rod", ending: "ar"},
		{stems: "sum sald busc merc marc peg pel par pis pos pag pint pens pele tom tir trab arrastr enterr encer encarg entr cerr compr cambi llam plant trasplant ayud acab", ending: "ar"},
		{stems: "mol mor com corr perd pod vend vol deb beb", ending: "er"},
	} {
		for _, stem := range splitSpace(v.stems) {
			for _, f := range esForms[v.ending] {
				for e := range words(f.endings) {
					m[stem+e] = true
				}
			}
		}
	}
	return m
}()

// otherTongues are words of the glossary that are words of other languages too. By
// themselves they tell no language, and are read only in a Spanish sentence.
var otherTongues = words(`mover capture prepare hay arme sale pase para era peon pin once nada mil madre panel`)

// esNumbers are numbers in words; "uno" stands for a thing as often as for a number
// and is one only after tens. Tens and units are also written as one word, as they
// are heard: "treintaicuatro".
var esNumbers = func() map[string]int {
	m := map[string]int{}
	for w, n := range esPlainNumbers {
		m[w] = n
		if n < 30 || n > 90 {
			continue
		}
		for u, k := range esPlainNumbers {
			if k > 0 && k < 10 {
				m[w+"i"+u], m[w+"y"+u], m[w[:len(w)-1]+"i"+u] = n+k, n+k, n+k
			}
		}
	}
	return m
}()

var esPlainNumbers = map[string]int{
	"cero": 0, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10,
	"once": 11, "doce": 12, "trece": 13, "catorce": 14, "quince": 15, "dieciseis": 16, "diecisiete": 17, "dieciocho": 18, "diecinueve": 19,
	"veinte": 20, "veintiuno": 21, "veintiuna": 21, "veintiun": 21, "veintidos": 22, "veintitres": 23, "veinticuatro": 24, "veinticinco": 25,
	"veintiseis": 26, "veintisiete": 27, "veintiocho": 28, "veintinueve": 29, "treinta": 30, "cuarenta": 40, "cincuenta": 50,
	"sesenta": 60, "setenta": 70, "ochenta": 80, "noventa": 90, "cien": 100, "ciento": 100, "doscientos": 200, "doscientas": 200,
}
