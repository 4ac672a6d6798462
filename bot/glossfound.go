package bot

import "yardbell/rules"

// What is said in reply to the ping to search a builder for rogue cells: a number is
// of the cells that were found there.

var (
	foundVerbs = words(`encontre encontramos halle hallamos vi vimos habia habian hay tenia hubo saque sacamos quite quitamos`)
	foundSmall = words(`y las la los lo les le ya celda celdas realera realeras de emergencia ajena ajenas nomas solo nada mas solamente todas ambas listo lista hecho hecha revisada revisado
		revise revisamos gracias afuera fuera encontradas halladas`)
	// foundNone say that there were none.
	foundNone = phrasesOf(`nada|nadita|nada de nada|ninguna|ni una|ni una sola|ni una celda|cero|cero celdas|no habia|no hay|no tenia|no tiene|no tenia nada|no tiene nada|no habia nada|no hay nada|no habia ninguna|no hay ninguna|no tenia ninguna
		|no encontre|no encontre nada|no encontre ninguna|no encontramos nada|no encontramos ninguna|no vi nada|no vi ninguna|no vimos nada|no vimos ninguna|no halle nada|no halle ninguna|no le encontre nada|sin nada|sin novedad|sin novedades|nada raro|todo limpio|toda limpia|todo bien
		|sin celdas|no hubo|no hubo nada|no hubo ninguna|esta limpia|limpiecita|ningunita`)
	foundOpen = phrasesOf(`listo|lista|hecho|hecha|revisada|revisado|ya revisada|revise|la revise|ya la revise|ya revise|revisamos|la revisamos|ya la revisamos|listo revisada|ya`)
)

// finds reads "tumbé 2" and "revisada, nada" in reply to that ping.
func (g *glosser) finds() bool {
	if g.d.n.ping != rules.Rogue || g.d.r.question || len(g.in) == 0 {
		return false
	}
	if g.none(0) {
		g.put(0, len(g.in), "clear")
		return true
	}
	count, told := -1, false
	for i, t := range g.in {
		g.d.looks++
		switch w := t.text; {
		case g.key[i] == "#" && isDigits(w), (w == "una" || w == "uno") && (i == len(g.in)-1 || t.comma || foundSmall[g.in[i+1].text]):
			if count >= 0 {
				return false
			}
			count = i
		case g.own[i] > 0:
			return false
		case brokeCells[w], foundVerbs[w]:
			told = true
		case (w == "todas" || w == "ambas") && count < 0:
			return false // how many that is nobody said
		case w == "nada" && (i+1 == len(g.in) || g.in[i+1].text != "mas"), w == "mas" && (i == 0 || g.in[i-1].text != "nada"):
			return false
		case !foundSmall[w]:
			return false
		}
	}
	switch {
	case count < 0 || !told:
		return false
	case g.in[count].isNum:
		g.put(0, len(g.in), "#")
	default:
		g.put(0, len(g.in), "1")
	}
	return true
}

// none reports whether the message from i on says that there was nothing, with or
// without a word that the builder was searched before it.
func (g *glosser) none(i int) bool {
	if foundNone[g.spell(i, len(g.in))] {
		return true
	}
	for n := min(4, len(g.in)-1-i); n > 0 && i == 0; n-- {
		if foundOpen[g.spell(0, n)] && g.none(n) {
			return true
		}
	}
	return false
}

var (
	// lostWords are what became of the cells and queens that are not in the count.
	lostWords = words(`huerfano huerfanos zanganero zanganeros vacios perdidos muertos seca secas mala malas muerta muertas vacia vacias rota rotas perdida perdidas danada danadas chupada chupadas aplastada aplastadas abortada abortadas fallada falladas
		podrida podridas mordida mordidas roida roidas fallaron murieron secaron cayeron rompieron perdieron aplastaron abortaron`)
	lostSmall  = words(`en la su adentro las los el y con se estaban venian salieron nos me celda celdas`)
	bornWords  = words(`nacieron nacio nace nacen salieron salio emergieron emergio`)
	takenCount = words(`tapadas cerradas taparon ponen poniendo capture capturamos capturadas enjauladas enjaule caught aceptadas prendieron prendidas pegaron agarraron operculadas selladas nacieron nacidas emergieron hecho hechas listo listas done accepted capped emerged moved movi pase pasamos llevamos lleve postura laying`)
)

// lost reports whether the clause from a up to b says how many were lost beside
// those that a clause before it counts: "40 aceptadas, 5 secas".
func (g *glosser) lost(a, b int) bool {
	number, core := false, false
	for i := a; i < b; i++ {
		switch w := g.in[i].text; {
		case (g.in[i].isNum && isDigits(w) || esNumber(w) || w == "una" || w == "un" || w == "demas" || w == "resto" || w == "otras") && !number:
			number = true
		case lostWords[w] && number:
			core = true
		case w == "no" && number && i+1 < b && bornWords[g.in[i+1].text]:
			core = true // "3 no nacieron"
			i++
		case !lostSmall[w] || g.in[i].isNum || g.own[i] > 0:
			return false
		}
	}
	counted, told := false, g.d.r.addressed && g.in[0].isNum
	for i := 0; i < a; i++ {
		g.d.looks++
		counted = counted || g.in[i].isNum || esNumber(g.in[i].text)
		told = told || takenCount[g.in[i].text]
	}
	return core && counted && told
}

// partLost parts what was lost from the count before it: "38 aceptadas y 7 secas".
func (g *glosser) partLost() {
	for i := 1; i < len(g.in); i++ {
		if w := g.in[i].text; w != "y" && w != "con" {
			continue
		}
		b := i + 1
		for b < len(g.in) && !g.in[b-1].comma && g.in[b].text != "y" {
			b++
		}
		if g.lost(i, b) {
			g.in[i-1].comma = true
		}
	}
}

// broke reports whether cells are said to be broken in reply to that ping.
func (g *glosser) broke() bool {
	if g.d.n.ping != rules.Rogue {
		return false
	}
	for _, t := range g.in {
		if brokeCells[t.text] {
			return true
		}
	}
	return false
}
