package bot

import (
	"strings"

	"yardbell/rules"
)

// addKinds are the things that are added, one or several.
var addKinds = map[string]string{
	"breeder": "breeder", "breeders": "breeder", "queen": "breeder", "queens": "breeder",
	"builder": "builder", "builders": "builder", "yard": "yard", "yards": "yard",
}

// adds reads "add breeders 7 and 8", "add builder B2 and yard North 40 nucs". A
// kind said once holds until the next.
func (c *cutter) adds(cuts []part) (out []part, ok bool) {
	d := c.d
	if c.addWord(0) != "add" {
		return nil, false
	}
	kind, typed, plural := "", "", false
	for _, p := range cuts {
		i := p.from
		for i < p.to && (c.addWord(i) == "add" || c.addWord(i) == "the") {
			i++
		}
		if k := addKinds[c.addWord(i)]; k != "" && i < p.to {
			kind, typed, plural = k, k, strings.HasSuffix(d.word(i), "s")
			if c.addWord(0) != d.word(0) {
				typed = addSpanish[k]
			}
			i++
		} else if kind == "yard" && i+1 < p.to && lower(d.toks[i].orig) && !d.toks[i+1].isNum && !lower(d.toks[i+1].orig) {
			return nil, false // "zpiario Rio" is no name of two words
		}
		if kind == "" || i >= p.to {
			return nil, false
		}
		p.text = d.word(0) + " " + typed + " " + c.text(i, p.to)
		p.r = c.read(p.text)
		if p.r.verb != doAdd || len(p.r.rest) > 0 {
			return nil, false
		}
		out = append(out, p)
	}
	// "Breeders 7 and 8 at North" both stand there.
	if last := out[len(out)-1].r; plural && last.yard != "" && kind != "yard" {
		for _, p := range out {
			if p.r.yard == "" {
				p.r.yard = last.yard
			}
		}
	}
	return out, true
}

// heads reports whether a piece only names another batch than the part before it, so
// that it belongs to what follows.
func heads(r, last *reading) bool {
	return r.batch != 0 && last.batch != 0 && r.batch != last.batch && r.count == nil && (r.verb == noVerb || r.verb == askShow) && len(r.rest) == 0
}

// addSpanish are the kinds as a Spanish sentence names them.
var addSpanish = map[string]string{"breeder": "madre", "builder": "criadora", "yard": "apiario"}

// addWord is the word at i in the reader's own words; the message was not put into
// them.
func (c *cutter) addWord(i int) string {
	w := c.d.word(i)
	if v := spanish.single[w]; v != nil && len(v.words) == 1 && !vocabulary[w] {
		return v.words[0]
	}
	if k, _, ok := spanish.slip(w); ok && !vocabulary[w] && addKinds[spanish.single[k].words[0]] != "" {
		return spanish.single[k].words[0]
	}
	return w
}

// carrySpanish spell the deed that a piece repeats where the message is Spanish:
// what stands in the piece is then read as Spanish, too.
var carrySpanish = map[rules.Step]string{
	rules.Confine: "confiné", rules.Eggs: "huevos en", rules.CombOut: "saqué el panal de", rules.Graft: "injerté", rules.Accept: "aceptadas",
	rules.Finish: "a la acabadora", rules.Capped: "operculadas", rules.Rogue: "limpia", rules.Nucs: "núcleos listos", rules.Move: "pasé",
	rules.Emerge: "nacieron", rules.Laying: "en postura", rules.Catch: "capturé", rules.Recell: "repuse", rules.Feed: "alimenté",
	rules.Retire: "retirar madre", rules.Drones: "panal de zángano en", rules.Dearth: "escasez en", rules.Flow: "flujo en",
}

// repeats reads a piece as the deed of a step.
func (c *cutter) repeats(step rules.Step, piece string) (string, *reading) {
	text := carryWords[step] + " " + piece
	r := c.read(text)
	if c.out.whole.lang == "es" && (r.step != step || r.verb != doStep || !r.clear()) {
		word := carrySpanish[step]
		_, last, _ := strings.Cut(word, " ")
		if last != "" {
			piece = strings.TrimPrefix(piece, last[strings.LastIndex(last, " ")+1:]+" ") // "huevos en la 7 y en la 12"
		}
		if es := c.read(word + " " + piece); es.verb == doStep && es.step == step && es.clear() {
			return word + " " + piece, es
		}
	}
	return text, r
}

// share gives what is found in several hives, each named before it, to every one of
// them: "revisé B1 y B2, las dos limpias".
func (c *cutter) share(before []part, p part) (out []part) {
	if len(before) < 2 || c.out.whole.lang != "es" {
		return nil
	}
	n := c.n
	n.spoken = true // "limpias" by itself is talk
	d := newReader(p.text, n)
	p.r = d.read()
	c.out.looks += d.looks
	if p.r.step != rules.Rogue || p.r.verb != doStep || !p.r.clear() || !p.r.subject().Zero() || p.r.count != nil && *p.r.count != 0 {
		return nil
	}
	seen := map[rules.Subject]bool{}
	for _, b := range before {
		b.text, b.r = c.repeats(p.r.step, b.text)
		if !sameDeed(b.r, p.r) || !b.r.clear() || b.r.builder == "" || seen[b.r.subject()] || b.r.count != nil && *b.r.count != 0 {
			return nil
		}
		seen[b.r.subject()] = true
		b.to = 0
		out = append(out, b)
	}
	return out
}

// toYard stand before the yard that cells go to.
var toYard = words(`a to para`)

// doneAgain reads a piece as another part of what was done: "hecho, 20 a North y 14 a
// Creek".
func (c *cutter) doneAgain(was *reading, p part) (part, bool) {
	to := c.says(p, toYard)
	p.text = "done " + p.text
	p.r, p.to, p.carried = c.read(p.text), 0, true
	r := p.r
	if !was.addressed && to && r.verb == doDone {
		was.verb, was.step, r.verb, r.step = doStep, rules.Move, doStep, rules.Move // only cells go to a yard
		return p, r.clear() && r.count != nil && was.count != nil && r.yard != "" && was.yard != "" && r.yard != was.yard
	}
	return p, r.verb == doDone && r.clear() && r.count != nil && was.count != nil && r.yard != "" && was.yard != "" && r.yard != was.yard
}

// eitherYard notes that a ping's form was typed as it is shown, "done 36 to
// Creek/North": which of the yards is not said.
func (d *reader) eitherYard() {
	if d.r.count == nil {
		return
	}
	for _, w := range d.r.rest {
		yards := strings.Split(w, "/")
		known := 0
		for _, y := range yards {
			for _, own := range d.n.yards {
				d.looks++
				if fold(own) == fold(y) {
					known++
				}
			}
		}
		d.r.either = d.r.either || len(yards) > 1 && known == len(yards)
	}
}

// settleYard takes one of the yards that were named for the one that was meant.
func (r *reading) settleYard(yard string) {
	var rest []string
	for _, w := range r.rest {
		if !has(strings.Split(fold(w), "/"), fold(yard)) {
			rest = append(rest, w)
		}
	}
	r.rest, r.yard, r.either = rest, yard, false
}

// yardsNamed offers each of the yards that were named: "done 36 to Creek/North".
func (t *talk) yardsNamed(r *reading) {
	n, err := t.names()
	if err != nil {
		return
	}
	for _, y := range n.yards {
		for _, w := range r.rest {
			if has(strings.Split(fold(w), "/"), fold(y)) && len(t.buttons) < mostButtons {
				t.buttons = append(t.buttons, button(y, t.rerun("yard="+y)))
			}
		}
	}
}
