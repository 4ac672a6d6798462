package bot

// Messages in Spanish that are read whole, and turns of more words than a phrase of
// the table can have.

var (
	undoVerbs = words(`borra borralo borrala borrar borrenlo bora deshaz deshazlo deshacer anula anulalo anulala anular cancelalo cancelala elimina eliminalo eliminala eliminar quitalo quitala`)
	undoSmall = words(`eso esa ese esto este esta lo la el ultimo ultima linea anotacion registro mensaje que puse anote mande por favor porfa plis me equivoque perdon
		disculpa disculpen estaba estuvo mal fue era un error sin querer ups uy ay mala mia no va ya ahi`)
	doneSure  = words(`listo lista listos listas hecho hecha hechos hechas terminado terminada terminados`)
	doneSmall = words(`ya quedo quedaron esta todo si ok dale eso`)
	fixOpen   = words(`no perdon perdona disculpa disculpen ups uy ay me equivoque mala mia digo error corrijo correccion eh`)
	fixBe     = words(`eran era son fueron fue es sean`)
)

// turns reads a message that is one of these turns as a whole.
func (g *glosser) turns() bool {
	if g.d.r.addressed && len(g.in) > 3 && fixBe[g.in[0].text] && g.at(1) == "#" && (g.at(2) == "a" || g.at(2) == "en") && g.yardAt(3) {
		g.in, g.key, g.own = g.in[1:], g.key[1:], g.own[1:] // "fueron 34 a North"
	}
	if g.d.r.addressed && len(g.in) == 3 && fixBe[g.in[0].text] && (g.at(1) == "a" || g.at(1) == "en") && g.yardAt(2) {
		g.in, g.key, g.own = g.in[1:], g.key[1:], g.own[1:] // "fueron a North"
	}
	g.snoozes()
	if len(g.in) == 3 && g.at(2) == "#" && g.lead(0, "deberian ser", "deberia ser", "deben ser", "debe ser") > 0 {
		g.put(0, 3, "make", "it", "#") // a "should" at the head opens a question
		return true
	}
	return g.finds() || g.claims() || g.nods() || g.gives() || g.tookOver() || g.asksWhen() || g.takesBack() || g.saysDone() || g.asksWhy() || g.mendsCount()
}

// only counts the words of the message that are in a set; ok says that all others
// are in the second.
func (g *glosser) only(core, small map[string]bool) (n int, ok bool) {
	for _, t := range g.in {
		g.d.looks++
		switch {
		case core[t.text]:
			n++
		case !small[t.text]:
			return n, false
		}
	}
	return n, true
}

// takesBack reads "bórralo, me equivoqué" and "eso no" in a reply.
func (g *glosser) takesBack() bool {
	n, ok := g.only(undoVerbs, undoSmall)
	alone := len(g.in) == 1 && (g.at(0) == "cancela" || g.in[0].text == "cancela" || g.in[0].text == "cancelar")
	what := len(g.in) > 1 && g.in[0].text == "cancela" && g.aimed(1)
	if what && !g.has("ultima", "ultimo", "anotacion", "registro", "linea", "mensaje") {
		g.put(0, len(g.in), "delete", "that") // of anything, unless the bot is spoken to
		return true
	}
	if g.d.r.addressed && (alone || g.says("eso no", "eso no va", "no va", "no era eso", "eso no era")) {
		g.put(0, len(g.in), "delete", "that")
		return true
	}
	if !what && (!ok || n != 1 || len(g.in) > 10) {
		return false
	}
	g.put(0, len(g.in), "undo")
	return true
}

func (g *glosser) has(ws ...string) bool {
	for _, t := range g.in {
		for _, w := range ws {
			if t.text == w {
				return true
			}
		}
	}
	return false
}

// aimed reports whether only words for the last line stand from i on.
func (g *glosser) aimed(i int) bool {
	for ; i < len(g.in); i++ {
		if !undoSmall[g.in[i].text] {
			return false
		}
	}
	return true
}

func (g *glosser) says(phrases ...string) bool {
	for _, p := range phrases {
		if len(splitSpace(p)) == len(g.in) && g.spells(0, p) {
			return true
		}
	}
	return false
}

// saysDone reads "listo, ya quedó" as one "done", and a bare "ya" in a reply.
func (g *glosser) saysDone() bool {
	if g.d.r.addressed && g.says("ya", "ya ya", "si ya", "ya si", "ok ya", "ya ok", "si ya po", "ya listos") {
		g.put(0, len(g.in), "done")
		return true
	}
	n, ok := g.only(doneSure, doneSmall)
	for i, t := range g.in {
		if t.text == "quedo" || t.text == "esta" || t.text == "quedaron" {
			if g.at(i-1) != "ya" {
				return false
			}
			n++
		}
	}
	if !ok || n == 0 || len(g.in) < 2 || g.phraseAll() || g.d.r.question {
		return false
	}
	g.put(0, len(g.in), "done")
	return true
}

// phraseAll reports whether the table has the whole message as one phrase.
func (g *glosser) phraseAll() bool {
	_, n := g.longest(0)
	return n == len(g.in)
}

// asksWhy reads a reply that opens with "por qué" as the question for the reasons.
func (g *glosser) asksWhy() bool {
	i := 0
	for i < len(g.in) && (g.in[i].text == "y" || g.in[i].text == "eso" || g.in[i].text == "pero") {
		i++
	}
	n := g.lead(i, "por que", "porque", "xq", "pq", "porq", "x que")
	if n == 0 || !g.d.r.addressed || len(g.in) > 9 || !g.d.r.question && i+n < len(g.in) && !g.spells(i+n, "eso") {
		return false
	}
	for k := i; k < len(g.in); k++ {
		if negations[g.in[k].text] {
			return false
		}
	}
	if v, k := g.longest(i + n); v != nil && stepWords[v.words[0]] != "" && i+n+k == len(g.in) {
		return false // "por qué injertar"
	}
	g.put(0, len(g.in), "why")
	return true
}

// asksWhen reads "¿cuándo se pasan las celdas?", put to the bot, as the question for
// the reasons of a step, which say when it is due.
func (g *glosser) asksWhen() bool {
	bot := 0
	if len(g.in) > 2 && g.in[0].text == "bot" {
		bot = 1 // spoken to
	}
	n := g.lead(bot, "cuando se", "cuando toca", "cuando hay que", "cuando tenemos que", "cuando tengo que", "hasta cuando se puede", "hasta que hora se puede", "hasta que hora puedo", "a que hora se", "a que hora toca", "desde cuando se puede", "cuando puedo", "cuando podemos")
	if n == 0 || !g.d.r.addressed && bot == 0 {
		return false
	}
	for k := bot + n; k < len(g.in); k++ {
		if v := spanish.single[g.key[k]]; v != nil && v.past != "" && stepWords[v.mean] != "" {
			g.put(0, len(g.in), "why", string(stepWords[v.mean]))
			return true
		}
	}
	return false
}

// lead is how many words the first of the phrases that stands at i has.
func (g *glosser) lead(i int, phrases ...string) int {
	for _, p := range phrases {
		if i < len(g.in) && g.spells(i, p) {
			return len(splitSpace(p))
		}
	}
	return 0
}

// mendsCount reads "no, no eran 45, fueron 48" and "perdón, eran 54": two numbers, of
// which one is said not to be, or one after a word of regret.
func (g *glosser) mendsCount() bool {
	i, sorry := 0, false
	for i < len(g.in) && fixOpen[g.in[i].text] && !(g.in[i].text == "no" && (g.at(i+1) == "#" || fixBe[g.in[min(i+1, len(g.in)-1)].text]) && !g.in[i].comma) {
		sorry = sorry || g.in[i].text != "no" && g.in[i].text != "ay"
		i++
	}
	var nums []int // places of the numbers
	not := -1      // before which of them it says no
	was := false
	for k := i; k < len(g.in); k++ {
		w := g.in[k].text
		switch {
		case g.key[k] == "#" && isDigits(g.in[k].text):
			nums = append(nums, k)
		case w == "no" && not < 0 && g.key[min(k+1, len(g.in)-1)] != "":
			not = len(nums)
		case fixBe[w]:
			was = true
		case w == "salieron" && len(g.in) == 2:
		case w == "sino" || w == "y" || w == "que":
		default:
			return false
		}
	}
	switch {
	case len(nums) == 2 && not == 0 && (was || i > 0):
		g.two(nums[1], nums[0])
	case len(nums) == 2 && not == 1 && (was || i > 0):
		g.two(nums[0], nums[1])
	case len(nums) == 1 && nums[0] == 1 && len(g.in) == 2 && g.d.r.addressed && (g.in[0].text == "salieron" || g.in[0].text == "eran"):
		g.put(0, len(g.in), "it", "was", "#")
	case len(nums) == 1 && not < 0 && sorry && was:
		g.put(0, len(g.in), "sorry", "it", "was", "#")
	case len(nums) == 1 && not < 0 && sorry:
		if g.in[0].text == "correccion" || g.in[0].text == "corrijo" {
			g.put(0, len(g.in), "correction", "#")
		} else {
			g.put(0, len(g.in), "sorry", "it", "was", "#")
			g.d.softly = true
		}
	default:
		return false
	}
	return true
}

// two writes the correction of a count.
func (g *glosser) two(now, old int) {
	a, b := g.in[now], g.in[old]
	a.comma, b.comma = false, false
	g.out = append(g.out, a, token{text: "not", orig: "no", at: a.at, glossed: true}, b)
}

var (
	fedVerbs = words(`di dimos dio dieron puse pusimos puso pusieron eche echamos echo echaron`)
	fedFood  = words(`miel jarabe jarabito aguita alimento alimentito torta tortas tortita candi comida fondant azucar pasta comer`)
	fedSmall = words(`un una mas poco poquito de del # litro litros l lt lts su el la con azucar agua otro otra vez media medio bastante`)
)

// litreWords measure what was fed.
var litreWords = words(`l lt lts litro litros`)

// fed reads "le eché un poco de jarabe a", and "jarabe a" at the head of a clause.
func (g *glosser) fed(i int) int {
	k, perhaps := i, false // perhaps: "ahorita echo jarabe" lies ahead, or is done
	if w := g.at(k); w == "le" || w == "les" {
		k++
	}
	switch {
	case k < len(g.in) && fedVerbs[g.in[k].text]:
		perhaps = (g.in[k].text == "echo" && lastAccent(g.in[k].orig) == 'o' && (g.now || g.yet)) || g.in[k].text == "echamos" && g.now
		if k++; k < len(g.in) && g.in[k].text == "ya" {
			k++
		}
	case k == i && (i == 0 || g.in[i-1].comma || g.at(i-1) == "y") && fedFood[g.in[i].text] && g.joined(i+1) == "a":
	default:
		return 0
	}
	food, honey, words := false, false, []string{"fed"}
	for ; k < len(g.in) && k < i+9; k++ {
		w := g.in[k].text
		next := ""
		if k+1 < len(g.in) {
			next = g.in[k+1].text
		}
		switch {
		case g.key[k] == "#" && litreWords[next]:
			food, words = true, []string{"fed", "#", "l"} // how much is kept
		case amountWord.MatchString(w) && litreWords[next]:
			food, words = true, []string{"fed", w, "l"} // "1.5 l"
		case w == "medio" && litreWords[next]:
			food, words = true, []string{"fed", "half", "a", "l"}
		case fedFood[w]:
			food, honey = true, honey || w == "miel"
		case fedSmall[w] && w != "la", amountWord.MatchString(w) && litreWords[next], g.key[k] == "#" && next == "kilos":
		default:
			w = ""
		}
		if w == "" {
			break
		}
		if g.in[k].comma {
			k++
			break
		}
	}
	if !food {
		return 0
	}
	if honey {
		words = append(words, "honey")
	}
	if g.joined(k) == "a" || g.joined(k) == "en" && (g.yardAt(k+1) || g.builderAt(k+1)) {
		k++
	} else if k < len(g.in) && !g.in[k-1].comma && g.at(k) != "al" && g.at(k) != "y" {
		if w := g.at(k); w != "" && w != "hace" && w != "hoy" && w != "ayer" {
			return 0
		}
	}
	if perhaps {
		words = append([]string{"perhaps"}, words...)
	}
	g.told = true
	return g.put(i, k-i, words...)
}

// doer passes over who was along: "con el Beto", "Beto y yo". A name is what is
// typed with a capital and is no word that is known.
func (g *glosser) doer(i int) int {
	k := i
	if g.at(k) == "con" {
		if k++; g.at(k) == "el" || g.at(k) == "la" {
			k++
		}
		if !g.person(k) {
			return 0
		}
		for k++; g.at(k) == "y" && (g.person(k+1) || g.person(k+2) && (g.at(k+1) == "el" || g.at(k+1) == "la")); k += 2 {
			if !g.person(k + 1) {
				k++
			}
		}
		return g.put(i, k-i)
	}
	if i == 0 && g.person(i) && g.at(i+1) == "y" && g.at(i+2) == "yo" {
		return g.put(i, 3)
	}
	return 0
}

func (g *glosser) person(i int) bool {
	if i < 0 || i >= len(g.in) || g.own[i] > 0 || g.in[i].isNum {
		return false
	}
	w := g.in[i].text
	return (i == 0 || g.capital(i)) && g.key[i] == "" && !spanish.word[w] && !vocabulary[w] && letters(w) && len(w) > 2
}
