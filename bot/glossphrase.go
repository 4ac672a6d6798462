package bot

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Turns of Spanish that take more than a table: times, ages, the small words whose
// sense depends on what they stand before, settings, and names.

// yardAt reports whether one of the crew's yards or builders is named at i.
func (g *glosser) yardAt(i int) bool {
	return i < len(g.in) && g.own[i] > 0
}

func (g *glosser) builderAt(i int) bool {
	if i >= len(g.in) {
		return false
	}
	w := g.at(i)
	return builderForm.MatchString(g.in[i].text) || w == "criadora" || w == "acabadora" || w == "finalizadora" || w == "terminadora" || w == "colmena" && i+1 < len(g.in) && builderForm.MatchString(g.in[i+1].text)
}

// capital reports whether the token at i is typed like a name.
func (g *glosser) capital(i int) bool {
	if i <= 0 || i >= len(g.in) || g.shout {
		return false
	}
	r, _ := utf8.DecodeRuneInString(g.in[i].orig)
	return unicode.IsUpper(r)
}

// nameAt reports whether a name of a place stands at i: "Texas" and "El Paso", but
// not "Postura".
func (g *glosser) nameAt(i int) bool {
	if !g.capital(i) {
		return false
	}
	w := g.in[i].text
	article := w == "el" || w == "la" || w == "los" || w == "las"
	return !spanish.word[w] || article && g.capital(i+1)
}

// beforeName are the words that a name of a place may follow.
var beforeName = words(`a en apiario yarda colmenar de para criadora yard to at in into builder`)

// afterName end the name of what is added.
var afterName = words(`con y en de`)

// name leaves a name as it is: after a word for a place, what is typed with a
// capital; after "agregar apiario", all up to the number.
func (g *glosser) name(i int) int {
	n := 0
	adding := len(g.out) > 1 && (g.out[0].text == "add" || g.out[0].text == "new") && (g.out[len(g.out)-1].text == "yard" || g.out[len(g.out)-1].text == "builder")
	switch {
	case adding:
		for k := i; k < len(g.in) && n < 3 && !g.in[k].isNum && !afterName[g.in[k].text]; k++ {
			n++
			if g.in[k].comma {
				break
			}
		}
	case i > 0 && beforeName[g.in[i-1].text] && !g.builderAt(i):
		for k := i; (k > i && g.capital(k) || k == i && g.nameAt(k)) && n < 3; k++ {
			n++
			if g.in[k].comma {
				break
			}
		}
	}
	for k := i; k < i+n; k++ {
		t := g.in[k]
		t.firm = t.firm || adding
		g.out = append(g.out, t)
	}
	return n
}

// perfect reads "acabo de" and "terminamos de", after which the verb tells what was
// done.
func (g *glosser) perfect(i int) int {
	switch g.at(i) {
	case "acabo", "acabamos", "acaban", "acaba", "termine", "terminamos", "terminaron":
	default:
		return 0
	}
	if g.joined(i+1) != "de" {
		return 0
	}
	v := spanish.single[g.joined(i+2)]
	if v == nil || v.past == "" || v.rank != esBare {
		return 0
	}
	g.just = true
	return g.put(i, 2, "just")
}

// clock reads "a las 4 y media de la tarde", "a la una", "4 de la tarde".
func (g *glosser) clock(i int) int {
	k, announced := i, false
	if w := g.at(i); w == "a" && (g.at(i+1) == "las" || g.at(i+1) == "la" && g.one(i+2)) {
		k, announced = i+2, true
	} else if w == "las" && len(g.out) > 0 && g.out[len(g.out)-1].text == "until" {
		k, announced = i+1, true
	}
	if k >= len(g.in) {
		return 0
	}
	hour, ok := 0, false
	switch {
	case g.at(k) == "#":
		hour, ok = g.in[k].num, true
	case g.at(k) == "una" && announced:
		hour, ok = 1, true
	case announced && clockWord.MatchString(g.in[k].text) || hourWord.MatchString(g.in[k].text):
		if !announced {
			return 0
		}
		n := g.dayPart(k + 1)
		part := ""
		if n > 0 {
			part = g.partOf(k + 1 + n - 1)
		}
		if n > 0 && !strings.HasSuffix(g.in[k].text, "m") && !lateClock(g.in[k].text) {
			g.put(i, k-i+1, "at", g.in[k].text)
			return k - i + g.put(k+1, n, part) + 1
		}
		if w := g.at(k + 1); n == 0 && (w == "horas" || w == "hs" || g.in[min(k+1, len(g.in)-1)].text == "h" && k+1 < len(g.in)) {
			n = 1
		}
		return g.put(i, k-i+1+n, "at", g.in[k].text)
	}
	if !ok || hour < 0 || hour > 24 && announced && hour < 100 {
		return 0
	}
	if announced && countedES[g.at(k+1)] {
		return 0 // "a las 12 reinas"
	}
	end, minute := k+1, 0
	if announced && !g.in[k].comma {
		switch w, next := g.at(end), g.joined(end+1); {
		case w == "y" && next == "media":
			minute, end = 30, end+2
		case w == "y" && next == "cuarto":
			minute, end = 15, end+2
		case w == "y" && next == "#" && g.in[end+1].num < 60 && g.in[end+1].num > 4:
			minute, end = g.in[end+1].num, end+2
		case w == "menos" && next == "cuarto":
			hour, minute, end = (hour+11)%12, 45, end+2
		case w == "en" && next == "punto", w == "horas", w == "hs":
			end++
			if w == "en" {
				end++
			}
		}
	}
	n := 0
	if !g.in[end-1].comma {
		n = g.dayPart(end)
	}
	if !announced && (n == 0 || hour > 12 || g.at(end) != "de" && g.at(end) != "del") || hour > 24 {
		return 0 // "34 en la mañana" is no hour
	}
	text := strconv.Itoa(hour)
	if minute > 0 {
		text += ":" + pad(minute)
	}
	if n == 0 {
		return g.put(i, end-i, "at", text)
	}
	part := g.partOf(end + n - 1)
	switch night := g.at(end + n - 1); {
	case hour == 12 && (night == "noche" || night == "madrugada"):
		return g.put(i, end-i+n, "at", "midnight")
	case hour == 12:
		return g.put(i, end-i+n, "at", "noon")
	case hour > 12:
		return g.put(i, end-i+n, "at", text)
	}
	return g.put(i, end-i+n, "at", text, part)
}

var countedES = words(`celdas reinas nucleos larvas abejas virgenes colmenas`)

func pad(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

func lateClock(s string) bool {
	h, _, _ := strings.Cut(s, ":")
	n, err := strconv.Atoi(h)
	return err == nil && n > 12
}

// one reports whether one o'clock stands at i: "a la una", but not "a la 7".
func (g *glosser) one(i int) bool {
	if i >= len(g.in) {
		return false
	}
	t := g.in[i]
	return g.at(i) == "una" || t.isNum && t.num == 1 || strings.HasPrefix(t.text, "1:") || strings.HasPrefix(t.text, "01:") || strings.HasPrefix(t.text, "13:") || t.text == "1pm" || t.text == "1am"
}

// dayPart says how many words "de la tarde" or "en la mañana" at i are.
func (g *glosser) dayPart(i int) int {
	switch w := g.at(i); {
	case w != "de" && w != "en" && w != "por" && w != "del":
		return 0
	case w == "del" && (g.at(i+1) == "dia" || g.at(i+1) == "mediodia"):
		return 2
	case g.at(i+1) == "la" && esParts[g.at(i+2)] != "":
		return 3
	}
	return 0
}

var esParts = map[string]string{"manana": "am", "madrugada": "am", "tarde": "pm", "noche": "pm", "dia": "pm", "mediodia": "pm"}

func (g *glosser) partOf(i int) string { return esParts[g.at(i)] }

// age reads "de 30 h de edad", "de 12 a 24 horas", of larvae.
func (g *glosser) age(i int) int {
	k := i
	led := g.at(k) == "de"
	if led {
		k++
	}
	if k >= len(g.in) || !g.graft {
		return 0
	}
	var ws []string
	var end int
	switch hours := g.hours(k + 1); {
	case g.at(k) == "#" && hours:
		ws, end = []string{g.in[k].text, "h", "old"}, k+2
	case g.at(k) == "#" && (g.at(k+1) == "a" || g.at(k+1) == "y") && g.at(k+2) == "#" && g.hours(k+3):
		ws, end = []string{g.in[k].text, "to", g.in[k+2].text, "h", "old"}, k+4
	case agesForm.MatchString(g.in[k].text) && hours:
		ws, end = []string{g.in[k].text, "h", "old"}, k+2
	case agesForm.MatchString(g.in[k].text), quantity.MatchString(g.in[k].text) && strings.HasSuffix(g.in[k].text, "h"):
		ws, end = []string{g.in[k].text, "old"}, k+1
	default:
		return 0
	}
	said := false
	if g.at(end) == "de" && g.at(end+1) == "edad" {
		end, said = end+2, true
	}
	if !led && !said {
		return 0
	}
	return g.put(i, end-i, ws...)
}

func (g *glosser) hours(i int) bool {
	if i >= len(g.in) {
		return false
	}
	w := g.in[i].text
	return w == "h" || w == "hs" || w == "hrs" || w == "horas" || w == "hora"
}

// small reads the small words whose sense depends on what follows: de, en, a, para.
func (g *glosser) small(i int) int {
	next := g.at(i + 1)
	k, article := i+1, ""
	if next == "la" || next == "las" || next == "los" || next == "el" {
		k, article = i+2, next
	}
	number := g.at(k) == "#"
	switch w := g.at(i); {
	case w == "que" && lastAccent(g.in[i].orig) == 'é' && !g.phrased(i):
		return g.put(i, 1, "what")
	case g.in[i].text == "in" && g.es > 0 && withoutWords[next], g.in[i].text == "all" && next == "mediodia":
		return g.put(i, 1, "sin") // half of a "sin" or an "al": not read
	case w == "las" && next == "#" && g.in[i+1].num <= 24 && g.number > i && !countedES[g.at(i+2)]:
		g.out = append(g.out, g.in[i]) // an hour that lost its "a", or a count
		g.out[len(g.out)-1].firm = true
		return 1
	case w == "de" && i == 0 && number && g.pastAt(k+1) && g.at(k+2) == "#" && !g.graft:
		return g.outOf(k)
	case w == "de" && i == 0 && number && (g.at(k+1) == "me" || g.at(k+1) == "nos" || g.at(k+1) == "se") && g.pastAt(k+2) && g.at(k+3) == "#" && !g.graft:
		g.in, g.key, g.own = slices.Delete(g.in, k+1, k+2), slices.Delete(g.key, k+1, k+2), slices.Delete(g.own, k+1, k+2)
		return g.outOf(k)
	case w == "sin" && g.searched && (next == "celdas" || next == "realeras"):
		if !g.phrasedBeyond(i, 2) {
			return g.put(i, 2, "no", "rogue", "cells")
		}
	case (w == "una" || w == "un") && g.pastAt(i+1):
		g.out = append(g.out, g.in[i]) // "una aceptada" is a count of one, or the tail of "ni una"
		g.out[len(g.out)-1].firm = true
		return 1
	case w == "yo" && i > 0 && !g.in[i-1].comma && g.pastAt(i-1) && (g.at(i-2) == "la" || g.at(i-2) == "lo" || g.at(i-2) == "las" || g.at(i-2) == "los"):
		return g.put(i, 1) // "la solté yo"
	case (w == "se" || w == "nos" || w == "me") && g.pastAt(i+1):
		return g.put(i, 1, "it")
	case (w == "la" || w == "las") && next == "#" && timeWords[g.before()]:
		g.out = append(g.out, g.in[i]) // "el lunes las 9" lacks its "a": nine what?
		g.out[len(g.out)-1].firm = true
		return 1
	case w == "la" && next == "#" && stepWords[g.before()] == "graft" && g.joined(i+2) != "celdas" && g.joined(i+2) != "larvas":
		return g.put(i, 1, "from") // "injerté la 7"
	case (w == "la" || w == "las") && next == "#" && stepWords[g.before()] != "":
		return g.put(i, 1, "the") // also after a word that was English
	case w == "ya" && (i == 0 || i == len(g.in)-1) && !g.phrasedBeyond(i, 1):
		return g.put(i, 1, "already")
	case w == "no" && next == "#" && (i == 0 || !thingWords[g.before()] && !breederWords[g.before()]):
		return g.put(i, 1, "not")
	case w == "con" && article != "" && pinWord(g.at(k)):
		return g.put(i, 2, "with")
	case (w == "del" || w == "de" && next == "el") && g.graft && (g.comb(i+1) || g.comb(i+2) && w == "de"):
		return g.put(i, k-i, "the") // "del panal rojo de la 7"
	case w == "con" && next == "larvas":
		if len(g.out) > 0 {
			g.out[len(g.out)-1].comma = true // "de la 12 con larvas": not twelve larvae
		}
		return g.put(i, 2, "larvae")
	case w == "de" && g.yardAt(i+1) && i > 0 && (g.at(i-1) == "nucleos" || g.at(i-1) == "nucs"):
		return g.put(i, 1, "at")
	case (w == "de" || w == "del") && g.before() == "due":
		return g.put(i, 1, "for")
	case w == "en" && (next == "un" || next == "el") && (g.at(i+2) == "panal" || g.at(i+2) == "cuadro"):
		return g.put(i, 1, "on")
	case w == "a" && (article == "la" || article == "") && (g.at(k) == "reina" || g.at(k) == "madre"), w == "a" && article == "la" && number && g.first:
		return g.put(i, k-i, "the")
	case w == "a" && (article == "la" || article == "el") && number:
		g.out = append(g.out, g.in[i]) // an hour that lost its s
		g.out[len(g.out)-1].firm, g.out[len(g.out)-1].text = true, "al"
		return 1
	case w == "de":
		before := i > 1 && g.in[i-2].isNum && g.pastAt(i-1) || i > 0 && g.in[i-1].isNum && !g.in[i-1].comma || i > 1 && countedES[g.at(i-1)] && g.in[i-2].isNum
		switch {
		case number && !g.graft && before && article == "":
			return g.put(i, 1, "of")
		case number && before && (article == "las" || article == "los"):
			return g.put(i, 2, "of", "the")
		case number && g.graft && article == "" && i > 0 && !before && g.graftNoun(i-1):
			return g.put(i, 1) // "traslarve de 45"
		case number && g.dateAt(k):
			return g.put(i, 1, "of")
		case number:
			return g.put(i, k-i, "from")
		case i > 0 && g.in[i-1].isNum && months[esMonth(next)] > 0:
			return g.put(i, 1, "of")
		case g.yardAt(i + 1), g.builderAt(k), g.at(k) == "reina", g.at(k) == "madre", g.nameAt(i + 1):
			if article != "" {
				return g.put(i, 2, "from", "the")
			}
			return g.put(i, 1, "from")
		}
		if n := g.phrase(i); n > 0 {
			return n
		}
		return g.put(i, 1, "of")
	case w == "en":
		switch {
		case g.builderAt(k) && g.graft, number && g.graft && !timeUnits[g.in[min(k+1, len(g.in)-1)].text], g.nameAt(i+1) && g.graft && !g.yardAt(i+1):
			if article != "" {
				return g.put(i, 2, "into", "the")
			}
			return g.put(i, 1, "into")
		case g.builderAt(k):
			if i == 0 && len(g.in) <= 3 {
				return g.put(i, 1, "into") // an answer of nothing else
			}
			return g.put(i, 1, "in")
		case g.yardAt(i + 1), g.nameAt(i + 1), g.at(k) == "apiario", g.at(k) == "yarda", g.at(k) == "colmenar":
			return g.put(i, 1, "at")
		}
		if n := g.phrase(i); n > 0 {
			return n // "en la tarde", "en dos horas"
		}
		return g.put(i, 1, "in")
	case w == "a" && (g.plain(i) || g.yardAt(i+1)), (w == "para" || w == "pa") && (g.yardAt(i+1) || g.nameAt(i+1) && g.plain(i)):
		if n := g.phrase(i); n > 0 {
			return n
		}
		return g.put(i, 1, "to")
	case w == "colmena" && i+1 < len(g.in) && (builderForm.MatchString(g.in[i+1].text) || g.yardAt(i+1)):
		return g.put(i, 1, "builder")
	case w == "" && (g.in[i].text == "n°" || g.in[i].text == "nº" || g.in[i].text == "numero"):
		return g.put(i, 1, "number")
	}
	return 0
}

// timeWords stand before a clock.
var timeWords = words(`monday tuesday wednesday thursday friday saturday sunday yesterday today tomorrow night morning afternoon`)

// pastAt reports whether a verb that tells what was done stands at i.
func (g *glosser) pastAt(i int) bool {
	v := spanish.single[g.at(i)]
	return v != nil && (v.past != "" && v.rank == esPast || v.past == "" && len(v.words) == 1 && stepForms[v.words[0]] == past)
}

// withoutWords may follow "sin".
var withoutWords = words(`huevos huevo celdas celda abejas hacer realeras terminar`)

// outOf reads "de 45 aceptaron 38", with the whole, at k, before the part.
func (g *glosser) outOf(k int) int {
	verb, whole, part := spanish.single[g.at(k+1)], g.in[k], g.in[k+2]
	g.put(0, k+2, g.worded(verb, k+1, 1)...)
	whole.comma, part.comma = part.comma, false
	g.out = append(g.out, part, token{text: "of", orig: g.in[0].orig, at: g.in[0].at, glossed: true}, whole)
	return k + 3
}

// phrasedBeyond reports whether the phrase at i has more than n words.
func (g *glosser) phrasedBeyond(i, n int) bool {
	_, k := g.longest(i)
	return k > n
}

// phrased reports whether a phrase stands at i.
func (g *glosser) phrased(i int) bool {
	v, _ := g.longest(i)
	return v != nil
}

// before is the last word put.
func (g *glosser) before() string {
	if len(g.out) == 0 {
		return ""
	}
	return g.out[len(g.out)-1].text
}

// graftNoun reports whether the token at i is the graft as a thing: "traslarve".
func (g *glosser) graftNoun(i int) bool {
	w := g.at(i)
	return (w == "traslarve" || w == "injerto") && lastAccent(g.in[i].orig) < 0x80
}

func esMonth(w string) string {
	if v := spanish.single[w]; v != nil && len(v.words) == 1 {
		return v.words[0]
	}
	return ""
}

// dateAt reports whether a number of a date stands at i: "8 de mayo".
func (g *glosser) dateAt(i int) bool {
	return g.at(i+1) == "de" && months[esMonth(g.at(i+2))] > 0
}
