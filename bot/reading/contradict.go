package reading

import "yardbell/rules"

// This file finds what of a message contradicts the rest of it.

// deniesThing reports whether the negation of a clause stands between its verb and a thing
// that it names: "moved 36 no North".
func (l *lattice) deniesThing(cl []item) bool {
	verb := false
	for i := range cl {
		it := &cl[i]
		if it.word() && (it.means(l.r.c.neg) || it.means(l.r.c.no)) && !l.isUnit(it) {
			if verb && i+1 < len(cl) && cl[i+1].entity != nil && !cl[i+1].is(eTime) {
				return true
			}
			continue
		}
		for _, s := range it.senses {
			verb = verb || l.r.frames.strong[s.concept] || l.r.frames.trade[s.concept]
		}
	}
	return false
}

// alsoOf reports whether acts of a step that a clause denies may be of what it names.
func (l *lattice) alsoOf(cl []item, acts []filled) bool {
	lic := l.r.strongLicences(cl, l.known)
	for i := range acts {
		a := acts[i].act
		if lic.weight[a.Step] == 0 {
			continue
		}
		es := entitiesOf(cl)
		if len(es[eYard]) > 0 && a.Yard == "" && a.Count == nil && a.Breeder == 0 && a.Builder == "" && a.Batch == 0 {
			return true
		}
	}
	return false
}

// deniesState reports whether a negation stands right before what is so by itself: "ni
// limpia".
func (l *lattice) deniesState(cl []item) bool {
	for i := 0; i+1 < len(cl); i++ {
		if cl[i].word() && !l.isUnit(&cl[i]) && cl[i].means(l.r.c.neg) && (cl[i+1].means(l.r.c.clear) || cl[i+1].means(l.r.c.aux) && i+2 < len(cl) && cl[i+2].means(l.r.c.clear)) {
			return true
		}
	}
	return false
}

// contradict reports whether acts of one message cannot both be: a flow and a dearth, two
// finds in one builder.
func (d *draft) contradict() bool {
	for i := range d.acts {
		for k := range d.acts[:i] {
			a, b := d.acts[i].act, d.acts[k].act
			if a.Step == rules.Flow && b.Step == rules.Dearth && a.Yard == b.Yard || a.Step == rules.Dearth && b.Step == rules.Flow && a.Yard == b.Yard {
				return true
			}
			if a.Step == rules.Rogue && b.Step == rules.Rogue && a.Builder == b.Builder && a.Count != nil && b.Count != nil && *a.Count != *b.Count {
				return true
			}
		}
	}
	return false
}

// twoFrom reports whether a breeder that something is taken from stands beside another one
// of which the same is told: "desde la 7" for "desde las 7".
func twoFrom(es map[entityKind][]*item) bool {
	from := false
	for _, it := range es[eBreeder] {
		from = from || it.entity.from
	}
	return from && len(es[eBreeder]) > 1
}

// figuresAndWords reports whether some numbers are typed in figures and others spelled out: one of
// them may be no number.
func (l *lattice) figuresAndWords(list []*item) bool {
	figures, words := 0, 0
	for _, it := range list {
		if isDigit(it.text) {
			figures++
		} else {
			words++
		}
	}
	return figures > 0 && words > 0
}

// intoDone reports whether a preposition of place leads to a word that says done: "in the
// finished".
func (l *lattice) intoDone(items []item, i int) bool {
	k := i + 1
	if k < len(items) && items[k].means(l.r.c.the) {
		k++
	}
	return k < len(items) && items[k].word() && items[k].means(l.r.c.doneWord) && items[k].to == items[k].from+1 && !l.speaksPlace(&items[k])
}

// speaksPlace reports whether a word may name a place of the work as well.
func (l *lattice) speaksPlace(it *item) bool {
	for _, s := range it.senses {
		if l.r.frames.strong[s.concept] || l.r.frames.noun[s.concept] {
			return true
		}
	}
	return false
}
