package bot

import (
	"slices"
	"strings"

	"yardbell/rules"
)

// What stands around a report in Spanish and is more than single words: what opens
// it, what closes it, why it comes late, and how a miscount came about. All of it is
// listed; what is not listed stays.

var (
	// opensReport may stand before what is told, with or without a "que" at its end.
	opensReport = phrasesOf(`les aviso que|les aviso|anota|anota por favor|anota por favor que|anoten por favor|por favor anota|anota que|anoten|anoten que|anota porfa|anota ahi|apunta|apunta por favor|apunta que|apunten|apunten que|registra|registra que|registra por favor|ponle|bot anota|favor anotar|favor de anotar|aviso que|les cuento que|les cuento|te cuento que|les informo que|les informo|informo que|informo|les reporto que|les reporto|reporto que|reporto
		|les comento que|les comento|comento que|para avisar que|para avisarles que|solo para avisar que|solo aviso que|nomas aviso que|nada mas aviso que|quiero avisar que|les digo que|para que sepan|para que conste
		|quiero reportar que|me toca reportar que|tengo que avisar que|por fin|al fin|gracias a dios|bendito dios|bendito sea dios|a dios gracias|la verdad
		|buenas noticias|puchica|pucha|puchis|hijole|orale|caray|caramba|ah|oh|ey|ahora si|ya por fin|ahora si por fin|a ver|listos muchachos|va pues|fijate que|fijense que|resulta que|ya saben|con la novedad de que|con la novedad que`)
	// closesReport may stand after it.
	closesReport = phrasesOf(`puso bonito|puso bien|puso parejo|puso mucho|bonita postura|buena postura|linda postura|muy buena postura|gracias a dios|bendito dios|bendito sea dios|a dios gracias|por suerte|por fin|al fin|que bueno|que bien|nada mal|todo bien|sin problema|sin problemas|voy de regreso|ya voy de regreso|vamos de regreso|ya vamos de regreso|voy de vuelta|ya voy de vuelta|vengo de regreso|ya vengo de regreso|ando de regreso|voy para la casa|voy para alla|me voy a descansar|me voy a almorzar|me voy a comer|sin contratiempos|sin golpear ninguna|sin golpes|sin perder ninguna|sin perder ni una|sin romper ninguna
		|sin bajas|sin accidentes|la verdad|ojo|eh ojo|vos|para que sepan|para que conste|para el registro|para la bitacora|aviso|aviso nomas|por las dudas|por si acaso|nada mas|en total|de una|al toque|como un reloj|la neta`)
	// lateReport says that something was not written down in time.
	lateReport = phrasesOf(`se me paso avisar|se me paso anotar|se me paso anotarlo|se me paso anotarla|se me paso reportar|se me paso reportarlo|se me paso decirles|se me paso|se me olvido avisar|se me olvido anotar|se me olvido anotarlo|se me olvido anotarla|se me olvido reportar|se me olvido reportarlo
		|se me olvido decirles|olvide avisar|olvide anotar|olvide anotarlo|olvide reportar|no habia avisado|no lo habia anotado|no la habia anotado|no avise|no lo anote|no alcance a avisar|no tenia senal|no habia senal|no habia internet|perdon la demora|perdon por la demora|perdon por avisar tarde|disculpen la demora|disculpen la tardanza|aviso tarde|apenas agarro senal|recien agarro senal|recien tengo senal`)
	// miscounted says how a wrong number came about, or what became of the odd one.
	miscounted = phrasesOf(`me comi una|me comi una en la cuenta|me comi uno|me comi dos|conte mal|conte dos veces|conte una de mas|conte uno de mas|conte una dos veces|conte doble|conte una doble|habia contado mal|los conte mal|las conte mal|la conte mal|error de dedo|error mio|dedazo|fue dedazo|error de cuenta|mal contado
		|mal contadas|se me fue el dedo|se me fue una|se me fue|se me paso una|se me escapo una|una se aplasto|se aplasto una|una se cayo|se cayo una|se me cayo una|una se rompio|se rompio una|una se dano|se dano una|una se murio|una se perdio|se perdio una|una salio mala|una no servia|una estaba mala|una venia vacia|una estaba vacia
		|se nos cayo una|perdimos una|perdi una|se quebro una|una se quebro|cuenta mal hecha|volvi a contar|las volvi a contar|los volvi a contar|reconte|recontando|los guantes|con los guantes|el autocorrector|maldito autocorrector|corrector|el corrector|tecle mal|escribi mal|lo escribi mal|puse mal|lo puse mal|me falla la vista`)
	// noNectar and nectar say a dearth and a flow over again.
	noNectar = phrasesOf(`no entra ni gota|no entra ni una gota|no hay ni gota|ni una gota|ni gota|ni gota de nectar|no entra nada|no esta entrando nada|no hay flor|no hay flores|no hay nada de flor|todo seco|esta todo seco|esta seco|nada de nectar|nada de flor|no entra nada de nectar|no traen nada|se acabo la flor|ya no hay flor`)
	nectar   = phrasesOf(`esta todo florecido|todo florecido|esta todo en flor|todo en flor|hay mucha flor|hay flor|hay flores|entra bastante|entra mucho|entra fuerte|esta entrando fuerte|estan trayendo mucho|se ve bueno|hay un monton de flor|puro girasol|huele rico|huele a miel`)
)

func phrasesOf(s string) map[string]bool {
	m := map[string]bool{}
	for _, p := range strings.Split(s, "|") {
		m[strings.Join(strings.Fields(p), " ")] = true
	}
	return m
}

// longestAround is how many words the longest of these phrases has.
const longestAround = 7

// spell is the words from a up to b, as they were typed and folded.
func (g *glosser) spell(a, b int) string {
	said := make([]string, 0, b-a)
	for i := a; i < b; i++ {
		g.d.looks++
		if g.own[i] > 0 {
			return ""
		}
		said = append(said, g.in[i].text)
	}
	return strings.Join(said, " ")
}

// aside reports whether the clause from a up to b adds nothing to what the others
// say.
func (g *glosser) aside(a, b int) bool {
	if b-a > longestAround || b-a == len(g.in) {
		return false
	}
	for b > a+1 && particleWords[g.in[b-1].text] {
		b--
	}
	s := g.spell(a, b)
	switch {
	case lateReport[s] && a > 0, closesReport[s] && a > 0 && s != "en total":
		return true
	case miscounted[s] && a > 0 && g.counts():
		return true
	case noNectar[s]:
		return g.has("escasez")
	case nectar[s]:
		return g.has("flujo", "mielada")
	}
	return false
}

// head is how many words at a open the report.
func (g *glosser) head(a, b int) (n int) {
	for a+n < b-1 {
		called := 0
		for a+n+called < b-2 && calledWords[g.in[a+n+called].text] && g.in[a+n+called].text != "todos" && g.own[a+n+called] == 0 {
			called++
		}
		n += called
		k := min(longestAround, b-1-a-n)
		for ; k > 0 && !opensReport[g.spell(a+n, a+n+k)]; k-- {
		}
		if k == 0 {
			return n - called // "gente" by itself may be the subject
		}
		n += k
	}
	return n
}

// tail is how many words before b close it.
func (g *glosser) tail(a, b int) int {
	for k := min(longestAround, b-1-a); k > 0; k-- {
		if s := g.spell(b-k, b); closesReport[s] && !(s == "ojo" && (pinWord(g.in[b-k-1].text) || g.in[b-k-1].text == "panal")) && !(s == "vos" && leadsOn[g.in[b-k-1].text]) || k > 2 && lateReport[s] {
			return k
		}
	}
	return 0
}

// admired are the things of the trade that are admired: "qué chulada de criadora".
var admired = words(`criadora madre reina reinas celdas celda larvas tanda lote traslarve injerto panal postura aceptacion abejas colmena nucleos resultado cosecha`)

// admires reports whether a clause is such praise.
func (g *glosser) admires(a, b int) bool {
	if b-a < 3 || b-a > 6 || g.in[a].text != "que" {
		return false
	}
	idle := false
	for i := a + 1; i < b; i++ {
		w := g.in[i].text
		switch {
		case g.in[i].isNum || g.own[i] > 0:
			return false
		case idleWords[w] || w == "buena" || w == "buenas" || w == "buen":
			idle = true
		case admired[w] || w == "de" || w == "la" || w == "esta" || w == "las" || w == "estas" || w == "mas" || w == "tan" || calledWords[w]:
		default:
			return false
		}
	}
	return idle
}

// covered reports whether a clause is made of idle phrases, and of idle words
// between them.
func (g *glosser) covered(a, b int) bool {
	some := false
	for i := a; i < b; {
		k := min(longestAround, b-i)
		for ; k > 0; k-- {
			if s := g.spell(i, i+k); s != "" && (idleClause[s] || closesReport[s]) && s != "en total" {
				break
			}
		}
		w := g.in[i].text
		switch {
		case k > 0:
			some = true
			i += k
		case g.in[i].isNum || g.own[i] > 0:
			return false
		case idleWords[w] || calledWords[w] && w != "todos" || w == "muy" || w == "que" || w == "y" || w == "tan":
			i++
		default:
			return false
		}
	}
	return some
}

// afterPo may have a "po" behind them in the middle of a clause.
var afterPo = words(`ya si no listo lista claro bueno dale`)

// claims reads "yo la reviso" and "va, yo lo saco", said to the bot: who says it does
// what the ping was about.
func (g *glosser) claims() bool {
	if !g.d.r.addressed || g.d.r.question {
		return false
	}
	if claimTurns[g.spell(0, len(g.in))] {
		g.put(0, len(g.in), "mine")
		return true
	}
	if len(g.in) > 1 && claimFirst[g.in[0].text] && g.in[0].comma && g.comes(1) {
		g.put(0, len(g.in), "mine")
		return true
	}
	i := 0
	for i < len(g.in) && claimOpen[g.in[i].text] {
		i++
	}
	n := len(g.in)
	for n > i+2 && claimTail[g.in[n-1].text] {
		n--
	}
	verb := 0
	switch {
	case n-i == 3 && g.in[i].text == "yo" && claimWhat[g.in[i+1].text]:
		verb = i + 2
	case n-i == 3 && claimWhat[g.in[i].text] && g.in[i+2].text == "yo":
		verb = i + 1
	default:
		return false
	}
	v := spanish.single[g.at(verb)]
	w := g.in[verb].text
	now := v != nil && v.past != "" && strings.HasSuffix(w, "o") && lastAccent(g.in[verb].orig) == 'o'
	if !now && !claimVerbs[w] {
		return false
	}
	g.put(0, len(g.in), "mine")
	return true
}

var (
	claimOpen  = words(`va vale dale ok oki listo si bueno ya tranquilos tranquilo deja dejen`)
	claimTail  = words(`hoy ahorita ahora porfa tranquilos jefe ya pues`)
	claimWhat  = words(`la lo las los`)
	claimVerbs = words(`agarro tomo hago veo cubro cuento muevo paso reviso saco suelto llevo armo atiendo termino`)
)

// claimTurns are claims as they stand.
var (
	claimTurns = phrasesOf(`yo|yo mero|yo merito|yo mismo|yo misma|ahi voy|ahi voy yo|alla voy|alla voy yo|lo hago|la hago|los hago|las hago|lo tomo|la tomo|las tomo|los tomo|lo agarro|la agarro|va yo|va voy yo|dale voy yo|ok voy yo|dale yo|yo entonces
		|voy saliendo yo|yo voy saliendo|yo ya voy|ya voy saliendo|dejamelas|dejamelos|dejamela|dejenmelas|me las dejan|anotame|apuntame|yo les entro|de eso me encargo yo|me encargo de eso|yo me encargo de eso`)
	claimFirst = words(`mio mia mios mias`)
)

// comes reports whether what stands from i on only says that somebody is on the way.
func (g *glosser) comes(i int) bool {
	if !comingWords[g.in[i].text] {
		return false
	}
	for k := i; k < len(g.in); k++ {
		if g.pastAt(k) || negations[g.in[k].text] || g.in[k].isNum && g.at(k-1) != "en" {
			return false
		}
	}
	return true
}

var comingWords = words(`voy ya llego salgo estoy ando ahi ahorita ahora`)

// nods reads the ways to say that a ping was seen.
func (g *glosser) nods() bool {
	if !g.d.r.addressed || !nodTurns[g.spell(0, len(g.in))] {
		return false
	}
	g.put(0, len(g.in), "yes")
	return true
}

var nodTurns = phrasesOf(`va|va va|va que va|va pues|sale|sale pues|sale y vale|orale|orale pues|dale pues|dale va|esta bien|ta bueno|de acuerdo|a la orden|ok va|ok dale|ok sale|si va|si dale`)

// gives reads "dame 30 min" and "mejor en 2 horas" as a wish to be told again.
func (g *glosser) gives() bool {
	if !g.d.r.addressed || len(g.in) < 2 || len(g.in) > 5 {
		return false
	}
	switch w := g.in[0].text; {
	case (w == "dame" || w == "denme" || w == "deme") && (g.at(1) == "#" || g.in[1].text == "una" || g.in[1].text == "media" || g.in[1].text == "un"):
	case w == "mejor" && g.at(1) == "en" && (g.at(2) == "#" || len(g.in) > 3):
		g.in, g.key, g.own = g.in[1:], g.key[1:], g.own[1:]
	default:
		return false
	}
	last := g.in[len(g.in)-1].text
	if !(timeUnits[last] && last != "veces" && last != "pesos") && last != "rato" && last != "ratito" && !(last == "mas" && timeUnits[g.in[len(g.in)-2].text]) {
		return false
	}
	if last == "mas" {
		g.in, g.key, g.own = g.in[:len(g.in)-1], g.key[:len(g.in)-1], g.own[:len(g.in)-1]
	}
	g.put(0, 1, "later")
	if g.in[0].text != "en" && (last == "rato" || last == "ratito") {
		return true
	}
	g.rewalk(1)
	return true
}

// rewalk puts what stands from i on as it is read elsewhere.
func (g *glosser) rewalk(i int) {
	for i < len(g.in) {
		n := g.phrase(i)
		if n == 0 {
			g.out = append(g.out, g.in[i])
			n = 1
		}
		i += n
	}
}

// tookOver reads "ya las pasé" in reply to a ping: what the ping was about was done.
func (g *glosser) tookOver() bool {
	if !g.d.r.addressed {
		return false
	}
	i, n := 0, len(g.in)
	for i < n && tookSmall[g.in[i].text] {
		i++
	}
	for n > i+2 && (g.in[n-1].text == "ya" || g.in[n-1].text == "yo") {
		n--
	}
	if n-i != 2 || !claimWhat[g.in[i].text] && g.in[i].text != "se" || g.in[i].comma || !tookVerbs[g.in[i+1].text] && !(g.d.n.ping == rules.CombOut && tookComb[g.in[i+1].text]) {
		return false
	}
	g.put(0, len(g.in), "done")
	return true
}

var (
	tookSmall = words(`ya si listo ok ahi`)
	tookComb  = words(`saque sacamos solte soltamos libere liberamos`)
	tookVerbs = words(`pase pasamos pasaron lleve llevamos llevaron movi movimos movieron`)
)

// snoozes cuts off why something is put off: "más tarde 2h, estoy puliendo copas".
// What tells of a deed, or has a number or a name in it, stays.
func (g *glosser) snoozes() {
	v, n := g.longest(0)
	if v == nil || v.words[0] != "later" && v.words[0] != "remind" || !g.d.r.addressed {
		return
	}
	for i := n; i < len(g.in); i++ {
		if g.in[i].text != "porque" && (!g.in[i-1].comma || !busyWords[g.in[i].text]) {
			continue
		}
		for k := i; k < len(g.in); k++ {
			if g.in[k].isNum || g.pastAt(k) {
				return
			}
		}
		g.in, g.key, g.own = g.in[:i], g.key[:i], g.own[:i]
		g.in[i-1].comma = false
		return
	}
}

// busyWords open the reason.
var busyWords = words(`estoy estamos ando andamos sigo seguimos tengo tenemos que porque pues hay esta voy vamos ahorita ahora primero no me todavia aun es falta faltan llueve lloviendo`)

// sure opens "acabo de contar y son 39": what was found is told after it.
func (g *glosser) justLooked(i int) int {
	if w := g.at(i); w != "acabo" && w != "acabamos" && w != "termine" && w != "terminamos" {
		return 0
	}
	v := spanish.single[g.joined(i+2)]
	if g.joined(i+1) != "de" || v == nil || !g.found || v.past != "counted" && v.past != "checked" && v.past != "saw" {
		return 0
	}
	n := 3
	for i+n < len(g.in) && (lookedSmall[g.in[i+n].text] || fixBe[g.in[i+n].text]) {
		n++
	}
	return g.put(i, n)
}

var lookedSmall = words(`y e que las los la lo`)

// wasClock reads a clock that is told as what it was: "eran las nueve y media".
func (g *glosser) wasClock(i int) int {
	w := g.at(i)
	if (w != "eran" || g.at(i+1) != "las") && (w != "era" || g.at(i+1) != "la" || g.at(i+2) != "una") || len(g.in) < i+3 || i > 0 && !g.in[i-1].comma {
		return 0
	}
	if w == "eran" && i == 0 && g.at(3) != "y" && g.at(3) != "menos" && g.at(3) != "de" {
		return 0
	}
	was := g.in[i].text
	g.key[i], g.in[i].text = "a", "a"
	if n := g.clock(i); n > 0 && (i+n == len(g.in) || g.in[i+n-1].comma) {
		return n
	}
	g.key[i], g.in[i].text = w, was
	return 0
}

// toClock reads "un cuarto para las 8" and "a las 10 para las 8".
func (g *glosser) toClock(i int) int {
	k := i
	led := false
	for k < len(g.in) && (g.at(k) == "a" || g.at(k) == "faltando" || g.in[k].text == "faltando" || led && (g.at(k) == "las" || g.at(k) == "un")) {
		led = true
		k++
	}
	if g.at(k) == "un" {
		k++
	}
	before := 0
	switch {
	case g.at(k) == "cuarto" || k < len(g.in) && g.in[k].text == "cuarto":
		before = 15
	case led && g.at(k) == "#" && slices.Contains([]int{5, 10, 15, 20, 25}, g.in[k].num):
		before = g.in[k].num
	default:
		return 0
	}
	if k++; g.at(k) == "minutos" {
		k++
	}
	if g.joined(k) != "para" || g.at(k+1) != "las" && g.at(k+1) != "la" {
		return 0
	}
	k += 2
	hour := 0
	switch {
	case g.at(k) == "una":
		hour = 1
	case g.at(k) == "#" && g.in[k].num >= 1 && g.in[k].num <= 12:
		hour = g.in[k].num
	default:
		return 0
	}
	n := 0
	if !g.in[k].comma {
		n = g.dayPart(k + 1)
	}
	text := pad((hour+10)%12+1) + ":" + pad(60-before)
	if n == 0 {
		return g.put(i, k+1-i, "at", text)
	}
	part := g.partOf(k + n)
	return g.put(i, k+1+n-i, "at", text, part)
}
