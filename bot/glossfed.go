package bot

// Feeding and searching said without a verb of their own, and said again behind the
// report.

// syrup reads "B1 y B2 con jarabe": nothing but hives may stand before it.
func (g *glosser) syrup(i int) int {
	switch {
	case g.at(i) == "con" && i > 0 && i+1 < len(g.in) && fedFood[g.in[i+1].text] && g.ended(i+2):
		for k := i - 1; k >= 0; k-- {
			if !builderForm.MatchString(g.in[k].text) && g.own[k] == 0 && !hivesSmall[g.in[k].text] {
				return 0
			}
		}
		g.told = true
		if g.in[i+1].text == "miel" {
			return g.put(i, 2, "fed", "honey")
		}
		return g.put(i, 2, "fed")
	case i > 0 && g.in[i-1].comma && g.after("fed"):
		if n := g.fedAgain(i); n > 0 && g.ended(i+n) {
			return g.put(i, n)
		}
		if n := g.each(i); n > 0 && g.ended(i+n) {
			if litreWords[g.joined(i+1)] || i+1 < len(g.in) && litreWords[g.in[i+1].text] {
				amount := []string{"#", "l"}
				if g.at(i) != "#" {
					amount[0] = g.in[i].text
				}
				if n > 2 && g.in[i+n-1].text != "jarabe" { // "cada una", "por cabeza"
					amount = append(amount, "each")
				}
				if g.at(i) == "#" || amountWord.MatchString(amount[0]) {
					return g.put(i, n, amount...)
				}
			}
			return g.put(i, n)
		}
	case g.searched && (g.at(i) == "las" || g.at(i) == "los") && g.at(i+1) == "#" && (g.at(i+2) == "limpias" || g.at(i+2) == "limpios") && g.ended(i+3):
		if n := g.hives(); n == 0 && len(g.in) == 3 || n == g.in[i+1].num {
			return g.put(i, 3, "clear") // "B1 y B2, las dos limpias"
		}
	case g.searched && (g.in[i].text == "ambas" || g.in[i].text == "ambos") && (g.at(i+1) == "limpias" || g.at(i+1) == "limpios") && g.ended(i+2) && (g.hives() == 2 || len(g.in) == 2):
		return g.put(i, 2, "clear")
	case (g.in[i].text == "toda" || g.in[i].text == "todo") && g.searched && (g.at(i+1) == "la" || g.at(i+1) == "el") && g.builderAt(i+2):
		return g.put(i, 2, "the") // "revisé toda la B2"
	}
	return 0
}

var hivesSmall = words(`y la las el los ya criadora criadoras tambien`)

// ended reports whether the clause ends before i.
func (g *glosser) ended(i int) bool { return i >= len(g.in) || i > 0 && g.in[i-1].comma }

// hives counts the builders that are named.
func (g *glosser) hives() (n int) {
	for i := range g.in {
		if builderForm.MatchString(g.in[i].text) {
			n++
		}
	}
	return n
}

// fedAgain is how many words "ya la alimenté" at i are.
func (g *glosser) fedAgain(i int) int {
	k := i
	if g.at(k) == "ya" {
		k++
	}
	switch g.at(k) {
	case "la", "lo", "las", "los":
	default:
		return 0
	}
	if v := spanish.single[g.joined(k+1)]; v == nil || v.past != "fed" || v.rank != esPast {
		return 0
	}
	if k += 2; g.joined(k) == "ya" {
		k++
	}
	return k - i
}

// each is how many words of "un litro cada una" stand at i: how much is kept in litres alone.
func (g *glosser) each(i int) int {
	k := i
	switch w := g.in[k].text; {
	case w == "un" || w == "una" || w == "medio" || w == "media" || g.at(k) == "#", amountWord.MatchString(w):
		k++
	case measured[w]:
	default:
		return 0
	}
	if k >= len(g.in) || !measured[g.in[k].text] {
		return 0
	}
	for k++; k < len(g.in) && !g.in[k-1].comma && eachSmall[g.in[k].text]; k++ {
	}
	return k - i
}

var (
	measured  = words(`l lt lts litro litros kilo kilos frasco frascos jarra jarras bolsa bolsas botella botellas taza tazas galon galones`)
	eachSmall = words(`cada una uno a por cabeza colmena criadora c/u y medio media de jarabe azucar agua alimento mas o menos`)
)
