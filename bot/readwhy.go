package bot

import "yardbell/rules"

// why reads a question for the reasons of a window: bare, or with a step and what it
// is done to.
func (d *reader) why() bool {
	if d.is(askWhy) {
		return true
	}
	if d.word(0) != "why" || len(d.toks) > 7 || len(d.toks) < 2 {
		return false
	}
	for _, t := range d.toks {
		if negations[t.text] {
			return false // "why not"
		}
	}
	try := &reader{toks: append([]token(nil), d.toks[1:]...), text: d.text, n: d.n, r: &reading{}, verbAt: -1, where: map[rules.Kind][]token{}}
	try.things()
	try.verb()
	try.settleLeads()
	try.whyOf()
	try.leftovers()
	if len(try.r.rest) > 0 || try.r.step == "" && try.r.subject().Zero() {
		return false
	}
	r := d.r
	d.looks += try.looks
	r.batch, r.breeder, r.builder, r.yard, r.step = try.r.batch, try.r.breeder, try.r.builder, try.r.yard, try.r.step
	r.verb, r.question = askWhy, false
	return true
}

// whyOf takes the bare number of "why graft 7" for what the step is done to: nothing
// is counted in a question for reasons.
func (d *reader) whyOf() {
	n, ok := d.number(1)
	switch {
	case len(d.toks) != 2 || !ok || n <= 0 || d.toks[1].used || !d.r.subject().Zero():
	case subjectFirst[d.r.step] || d.r.step == rules.Graft:
		d.r.breeder = n
		d.found(1, 1, rules.BreederKind)
	case d.r.step != "":
		d.r.batch = n
		d.found(1, 1, rules.BatchKind)
	}
}

// softWhy reads a "why" with words that add nothing, said to the bot.
func (d *reader) softWhy() bool {
	if !d.r.addressed || d.word(0) != "why" || len(d.toks) > 6 {
		return false
	}
	for i := 1; i < len(d.toks); i++ {
		if !whySmall[d.word(i)] {
			return false
		}
	}
	d.r.verb, d.r.question = askWhy, false
	return true
}

var whySmall = words(`tho though now then so early late soon today that this the rush hurry exactly again is it are they there much long time hour`)
