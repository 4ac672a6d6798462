package bot

import "strings"

// addKinds are the things that are added, one or several.
var addKinds = map[string]string{
	"breeder": "breeder", "breeders": "breeder", "queen": "breeder", "queens": "breeder",
	"builder": "builder", "builders": "builder", "yard": "yard", "yards": "yard",
}

// adds reads "add breeders 7 and 8", "add builder B2 and yard North 40 nucs". A
// kind said once holds until the next.
func (c *cutter) adds(cuts []part) (out []part, ok bool) {
	d := c.d
	if d.word(0) != "add" {
		return nil, false
	}
	kind, plural := "", false
	for _, p := range cuts {
		i := p.from
		for i < p.to && (d.word(i) == "add" || d.word(i) == "the") {
			i++
		}
		if k := addKinds[d.word(i)]; k != "" && i < p.to {
			kind, plural = k, strings.HasSuffix(d.word(i), "s")
			i++
		}
		if kind == "" || i >= p.to {
			return nil, false
		}
		p.text = "add " + kind + " " + c.text(i, p.to)
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
