package bot

import (
	"strings"

	"yardbell/rules"
)

// subjectFirst are the steps whose first bare number names the breeder.
var subjectFirst = map[rules.Step]bool{rules.Confine: true, rules.Eggs: true, rules.CombOut: true, rules.Feed: true}

// numbers gives every number left a part: "34 of 38" is a count of a count,
// the first bare number of "confine 7" the breeder, any other a count.
func (d *reader) numbers() {
	r := d.r
	for i := range d.toks {
		a, ok := d.number(i)
		if !ok || d.word(i+1) != "of" {
			continue
		}
		if b, ok := d.number(i + 2); ok {
			r.count, r.of = &a, &b
			d.use(i, 3)
			if d.word(i+3) == "of" {
				continue
			}
		}
	}
	for i := range d.toks {
		n, ok := d.number(i)
		if !ok {
			continue
		}
		switch {
		case r.verb == doStep && subjectFirst[r.step] && r.breeder == 0 && r.builder == "" && !(r.step == rules.Feed && r.yard != ""):
			r.breeder = n
		case r.count == nil:
			r.count = &n
		default:
			continue // a second count: left over
		}
		d.use(i, 1)
	}
	for i, t := range d.toks {
		if t.used {
			continue
		}
		switch {
		case t.text == "none" || t.text == "zero":
			if r.count == nil && (r.verb == doStep || r.verb == doDone) {
				zero := 0
				r.count = &zero
				d.use(i, 1)
			}
		case (t.text == "all" || t.text == "everything") && r.count == nil && (r.verb == doStep || r.verb == doDone || r.verb == noVerb):
			if !subjectFirst[r.step] && r.step != rules.Rogue {
				r.all = true
			}
			d.use(i, 1)
		}
	}
	if r.verb == noVerb && (r.count != nil || r.all) {
		r.verb = justCount
	}
}

// leftovers gathers the words nothing was made of.
func (d *reader) leftovers() {
	r := d.r
	for _, t := range d.toks {
		if t.used || strictFillers[t.text] || (r.verb != noVerb && fillers[t.text]) {
			continue
		}
		if strings.Trim(t.orig, "+*-_=~…✅👍☑✔🐝 \ufe0f") == "" {
			continue
		}
		r.rest = append(r.rest, t.orig)
	}
}
