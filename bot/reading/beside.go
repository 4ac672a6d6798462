package reading

import (
	"yardbell/rules"
)

// This file holds back words that may be others by what stands beside them.

// nearDay reports whether a word that is taken for a name may be a day, or, where it is
// not typed like a name, any word that carries something: "by iFriday".
func (l *lattice) nearDay(t *token) bool {
	small := l.lower(t)
	_, near := l.r.lex.slips.nearOf(t.text, func(c string) bool {
		p := l.r.lex.single[c]
		return p != nil && (small || p.means(l.r.weekday) || p.means(l.r.month))
	})
	return near
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
