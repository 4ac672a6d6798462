package bot

import "yardbell/rules"

// verb finds what was done. Where two deeds are named the first is read and the
// other left over, so that the message is asked back.
func (d *reader) verb() {
	r := d.r
	if r.step != "" {
		r.verb = doStep
		return
	}
	if d.phrases(false) {
		return
	}
	hard := d.candidates(false)
	if len(hard) == 0 {
		if d.phrases(true) {
			return
		}
		hard = d.candidates(true)
	}
	if len(hard) == 0 {
		d.done()
		return
	}
	first := hard[0]
	step := stepWords[d.word(first)]
	d.said, d.verbAt, d.form = d.word(first), first, d.formAt(first)
	for _, i := range hard {
		if s := stepWords[d.word(i)]; s == step {
			d.use(i, 1)
			if stepForms[d.word(i)] == past {
				d.form = past
			}
		}
	}
	// "moved to the finisher" is the finisher.
	if step == rules.Move {
		for i := range d.toks {
			if d.word(i) == "finisher" && i > 0 {
				step = rules.Finish
			}
		}
	}
	r.verb, r.step = doStep, step
	r.release = releaseWords[d.said]
	if step == rules.Laying && d.namedBreeder && r.batch == 0 && r.yard == "" {
		r.step, step = rules.Eggs, rules.Eggs // a breeder that lays has eggs on her comb
	}
	for i, t := range d.toks {
		// A thing beside the deed: "fed the nucs".
		if stepForms[t.text] == thing && !t.used && (i == 0 || !d.toks[i-1].isNum) && (stepFillers[step][t.text] || stepWords[t.text] == step) {
			d.use(i, 1)
		}
		if doneWords[t.text] && !t.used && !determiners[d.word(i-1)] {
			d.use(i, 1)
			if i == first-1 || d.form == bare || d.form == thing {
				d.form, d.twoWords = past, true // "done grafting", "graft done"
			}
		}
	}
}

// done reads the word that says that what was due is done.
func (d *reader) done() {
	for i, t := range d.toks {
		if !doneWords[t.text] || t.used {
			continue
		}
		d.r.verb, d.said, d.verbAt, d.form = doDone, t.text, i, past
		d.use(i, 1)
		if next := d.word(i + 1); next == "with" && d.subjectAt(i+2) {
			d.use(i+1, 1)
		}
		return
	}
}

// phrases reads steps of two words: those that name a deed, or those that name a
// thing.
func (d *reader) phrases(things bool) bool {
	for i := range d.toks {
		if d.toks[i].used {
			continue
		}
		for _, p := range phraseIndex[d.word(i)] {
			for k := i + 1; k <= i+p.within && k < len(d.toks); k++ {
				if !p.then[d.word(k)] || d.toks[k].used || (p.form == thing) != things {
					continue
				}
				d.r.verb, d.r.step = doStep, p.step
				d.said, d.verbAt, d.form = d.word(i), i, p.form
				d.r.release = releaseWords[d.said]
				d.twoWords = true
				if p.step == rules.Move {
					d.r.hedged = true // "34 in nucs" may be what is there
				}
				d.use(i, 1)
				d.use(k, 1)
				return true
			}
		}
	}
	return false
}

type phrase struct {
	then   map[string]bool
	within int
	step   rules.Step
	form   form
}

// phraseIndex is stepPhrases by first word.
var phraseIndex = func() map[string][]phrase {
	m := map[string][]phrase{}
	for _, p := range stepPhrases {
		for w := range words(p.first) {
			m[w] = append(m[w], phrase{words(p.then), p.within, p.step, p.form})
		}
	}
	return m
}()

// candidates are the words that may name the step: deeds first, things only where
// no deed is named.
func (d *reader) candidates(things bool) (out []int) {
	for i, t := range d.toks {
		if t.used || stepWords[t.text] == "" || (stepForms[t.text] == thing) != things || d.isNoun(i) || !d.holds(i) {
			continue
		}
		out = append(out, i)
	}
	return out
}

// isNoun reports whether a deed's word is used as a thing: "the move", "this
// graft", unless it is then said to be done.
func (d *reader) isNoun(i int) bool {
	w := d.word(i)
	if f := stepForms[w]; f != bare && stepWords[w] != rules.Dearth && stepWords[w] != rules.Flow {
		return false
	}
	if doneWords[d.word(i+1)] || doneWords[d.word(i+2)] || doneWords[d.word(i-2)] {
		return false
	}
	return determiners[d.word(i-1)] && d.word(i-2) != "in" // "in a dearth"
}

var determiners = words(`the a an this that these those my our your his her their its another next last first every each no any some cash work`)

// holds reports whether a word of many meanings stands where it means the step:
// "38 took" and not "took the truck".
func (d *reader) holds(i int) bool {
	switch d.word(i) {
	case "took", "started":
		k := i - 1
		for k > 0 && (d.word(k) == "have" || d.word(k) == "cells" || d.word(k) == "of" || d.word(k) == "them" || d.word(k) == "the") {
			k--
		}
		return k >= 0 && (d.toks[k].isNum || d.word(k) == "all" || d.word(k) == "none")
	case "clear", "cleared":
		return d.r.builder != "" || d.r.batch != 0 || d.r.addressed || d.nextTo(hosts)
	}
	return true
}

// formAt is the form of the step's word at i as it stands in the sentence.
func (d *reader) formAt(i int) form {
	f := stepForms[d.word(i)]
	if f == bare && d.word(i-1) == "to" {
		return going // "to move"
	}
	return f
}

// tense judges from the word's form whether the deed is done. What may lie ahead
// is asked back; a plan is left alone.
func (d *reader) tense() {
	r := d.r
	if r.verb != doStep {
		return
	}
	switch d.form {
	case going:
		r.hedged = true
		if d.word(d.verbAt-1) == "to" {
			d.planned = true
		}
	case bare:
		before := d.word(d.verbAt - 1)
		switch {
		case subjectWords[before], before == "please", before == "pls", d.word(len(d.toks)-1) == "please", d.word(len(d.toks)-1) == "pls":
			r.hedged = true // "we move 34", "feed B2 please"
		case r.when.hasDay && (r.when.weekday != 0 || r.when.back < 0):
			r.hedged = true // "graft 45 on monday": the last or the coming one
		case d.wantsCount() && r.count == nil && !r.all:
			r.hedged = true // "move batch 4" is a task as much as a report
		case r.step == rules.Feed, r.step == rules.Finish:
			r.hedged = true
		}
	case thing:
		if r.step == rules.Nucs && r.count != nil && !d.nextTo(needsWord[r.step]) && d.toks[max(d.verbAt-1, 0)].isNum {
			r.hedged = true // "40 nucs" may be what is wanted
		}
	}
	if r.step == rules.Eggs && !d.namedBreeder && r.breeder != 0 && d.nextTo(plural) {
		r.hedged = true // "27 have eggs" is of nucs, "7 has eggs" of a breeder
	}
	if d.said == "caged" && !d.namedBreeder && !d.nextTo(pinWords) && r.bees == nil {
		r.hedged = true // queens are caged when they are caught, too
	}
	if r.step == rules.Laying && r.breeder == 0 && r.count != nil && (d.word(d.verbAt-1) == "is" || d.word(d.verbAt-1) == "she's") {
		r.hedged = true // "7 is laying": breeder seven
	}
}

var plural = words(`have are`)

var subjectWords = words(`i we you they she he`)

// wantsCount are the deeds whose bare word says little without a number.
func (d *reader) wantsCount() bool {
	switch d.r.step {
	case rules.Move, rules.Catch, rules.Emerge, rules.Capped, rules.Accept, rules.Recell:
		return true
	}
	return false
}

func (d *reader) nextTo(ws map[string]bool) bool {
	for _, t := range d.toks {
		if ws[t.text] {
			return true
		}
	}
	return false
}

// subjectAt reports whether a batch, breeder, builder or yard was read at i.
func (d *reader) subjectAt(i int) bool {
	return i < len(d.toks) && d.toks[i].used && !d.r.subject().Zero() || d.word(i) == "the"
}
