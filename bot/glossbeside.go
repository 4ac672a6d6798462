package bot

// Words that mean a step only beside something else of the message: a frame that was
// pulled, what was found in a builder, what went to the finisher.

var (
	cleanFinds = []string{"sin novedad", "sin novedades", "sin nada", "no hay nada", "no habia nada", "no encontre nada", "no encontramos nada", "no vi nada", "nada raro", "no hay celdas", "no habia celdas",
		"no encontre celdas", "no encontre ninguna", "no habia ninguna", "no hay ninguna", "ninguna celda", "ninguna", "ni una celda", "ni una", "todo limpio", "toda limpia", "nada", "cero celdas"}
	brokeCells = words(`elimine eliminamos destrui destruimos tumbe tumbamos corte cortamos bote botamos rompi rompimos aplaste aplastamos tire tiramos
		eliminadas destruidas tumbadas cortadas arranque arrancamos mate matamos`)
	hadCells   = words(`habia habian tenia tenian hubo aparecieron aparecio salieron salio`)
	finishMove = words(`subi subimos baje bajamos puse pusimos meti metimos cambie cambiamos mande mandamos`)
	pulledBack = 4
)

// beside reads the words that mean a step beside another word.
func (g *glosser) beside(i int) int {
	w := g.in[i].text
	if w == "hice" || w == "hicimos" {
		k := i + 1
		if g.joined(k) == "el" {
			k++
		}
		if k < len(g.in) && !g.in[k-1].comma && g.in[k].text == "graft" {
			return g.put(i, k+1-i, "grafted")
		}
	}
	switch {
	case (w == "cuadro" || w == "marco") && g.in[i].orig == w && g.after("pulled", "removed") && g.at(i+1) != "de" || (w == "cuadro" || w == "marco") && g.after("pulled", "removed") && g.at(i+1) == "de" && (g.at(i+2) == "la" && g.at(i+3) == "#" || g.at(i+2) == "#" || g.at(i+2) == "madre"):
		return g.put(i, 1, "comb")
	case g.rogue && (brokeCells[w] || hadCells[w]):
		return g.put(i, 1, "found")
	case g.finisher && finishMove[w] && !g.countedFood(i):
		return g.put(i, 1, "moved")
	case w == "salieron" && g.found:
		return g.put(i, 1) // "salieron 38 aceptadas"
	case w == "salieron" && len(g.in) > 4 && !g.queens:
		g.out = append(g.out, g.in[i]) // for a walk, as far as is known
		return 1
	case g.builderNamed(i) && !g.rogue && g.searchedOnly() && (i == 0 || g.in[i-1].comma || g.at(i-1) == "y" || builderForm.MatchString(g.in[i-1].text) || g.at(i-1) == "pero"):
		if n := g.lead(i, cleanFinds...); n > 0 && (i+n == len(g.in) || g.in[i+n-1].comma) {
			if k := len(g.out); k > 0 && g.out[k-1].text == "and" || k > 0 && g.out[k-1].text == "y" {
				g.out = g.out[:k-1]
			}
			return g.put(i, n, "clear")
		}
	}
	return 0
}

// after reports whether one of some words was put shortly before.
func (g *glosser) after(ws ...string) bool {
	for k := max(len(g.out)-pulledBack, 0); k < len(g.out); k++ {
		for _, w := range ws {
			if g.out[k].text == w {
				return true
			}
		}
	}
	return false
}

// builderNamed reports whether a builder stands before i.
func (g *glosser) builderNamed(i int) bool {
	for k := max(i-12, 0); k < i; k++ {
		if builderForm.MatchString(g.in[k].text) || g.own[k] > 0 && has(g.d.n.builders, g.in[k].orig) {
			return true
		}
	}
	return false
}

// searchedOnly reports whether the message tells of a search and of no other deed.
func (g *glosser) searchedOnly() bool {
	if !g.searched && !g.sinNovedad() {
		return false
	}
	for k := range g.in {
		if v := spanish.single[g.key[k]]; v != nil && v.past != "" && v.past != "checked" && v.past != "searched" && v.past != "found" && v.past != "saw" && v.past != "counted" {
			return false
		}
	}
	return g.number < 0
}

func (g *glosser) sinNovedad() bool { return g.has("novedad", "novedades") }

// countedFood reports whether syrup and the like is what was put.
func (g *glosser) countedFood(i int) bool {
	for k := i + 1; k < len(g.in) && k < i+4; k++ {
		if fedFood[g.in[k].text] {
			return true
		}
	}
	return false
}
