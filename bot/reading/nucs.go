package reading

import (
	"slices"

	"yardbell/rules"
)

// This file reads what is told of single nucs.

// ofNucs reports whether a message tells of nucs by themselves. "Free" is said of nucs beside
// other work, too: "20 into the free nucs" are cells.
func (d *draft) ofNucs(e *event, cand []int) bool {
	list := d.l.r.frames.list
	fr := list[d.l.r.frames.byStep[rules.Nuc]]
	states := d.l.statesIn(fr, e.items)
	if len(states) != 1 || states[0] != rules.NucFree {
		return true
	}
	for _, i := range cand {
		if s := list[i].step; s != rules.Nuc && s != rules.Nucs && e.ev.weight[s] > 0 {
			return false
		}
	}
	return true
}

// statesIn are the states that words tell, each once.
func (l *lattice) statesIn(fr *frame, items []item) (out []rules.NucState) {
	for i := range items {
		if e := items[i].entity; e != nil && e.kind == eLost && e.nuc != "" && !slices.Contains(out, e.nuc) {
			out = append(out, e.nuc)
		}
		for _, s := range items[i].senses {
			if x, tells := fr.states[s.concept]; tells && !slices.Contains(out, x) {
				out = append(out, x)
			}
		}
	}
	return out
}

// nucTold is what a word of loss tells of nucs: "2 absconded".
func (l *lattice) nucTold(w capture) rules.NucState {
	fr := l.r.frames.list[l.r.frames.byStep[rules.Nuc]]
	for _, g := range l.edges[w.tok] {
		for _, s := range g.senses {
			if x, tells := fr.states[s.concept]; tells && x != rules.NucFree && w.tok+g.n == w.end {
				return x
			}
		}
	}
	return ""
}

// lostNucs reports whether items tell of lost nucs by a word for that, and of no count beside
// them: "2 absconded", and not "27 laying, 2 absconded".
func lostNucs(items []item) bool {
	lost := false
	for i := range items {
		if e := items[i].entity; e != nil && e.kind == eLost {
			if e.nuc == "" || lost {
				return false
			}
			lost = true
		}
	}
	return lost && !hasAny(items, eNumber, eRatio, eAll, eAllBut, eBars, eHalf, eRest, eNone, eBoth)
}

// nucState says what is told of nucs, and of how many where it is not of numbered ones.
func (l *lattice) nucState(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	switch states := l.statesIn(fr, items); {
	case len(states) == 1:
		a.State = states[0]
	case len(states) == 2 && slices.Contains(states, rules.NucFree): // "3 open nucs robbed"
		a.State = states[1-slices.Index(states, rules.NucFree)]
	case len(states) > 1:
		f.flag(fSlot)
	case len(a.Nucs) > 0:
		a.State = rules.NucQueenless // a dud
	default:
		a.State = rules.NucDead
	}
	if len(a.Nucs) > 1 {
		a.Count = nil
	}
	f.flags = slices.DeleteFunc(f.flags, func(x doubt) bool { return x == fLoss || x == fNoRecord })
	if n := len(es[eLost]); n == 1 && a.Count == nil && len(a.Nucs) == 0 {
		a.Count = intPtr(es[eLost][0].entity.n)
	}
}

// numbersOf takes the numbers of single nucs out of what is said: those that stand right
// behind their yard, "North 3, 7 and 12", or behind the word for a nuc.
func (l *lattice) numbersOf(f *filled, items []item) []item {
	labels, rest := l.numbered(items)
	if len(labels) == 1 && l.eitherWay(items) {
		f.act.Count = intPtr(labels[0])
	}
	for _, n := range labels {
		if s := itoa(n); !slices.Contains(f.act.Nucs, s) {
			f.act.Nucs = append(f.act.Nucs, s)
		}
	}
	return rest
}

// eitherWay reports whether one number behind a yard may count: "North 3 queenless" is the
// third, or three. Both are kept, and whoever knows the yard asks.
func (l *lattice) eitherWay(items []item) bool {
	fr := l.r.frames.list[l.r.frames.byStep[rules.Nuc]]
	for i := range items {
		if items[i].is(eNumber) {
			return i > 0 && items[i-1].is(eYard) && len(l.statesIn(fr, items[:i])) == 0
		}
	}
	return false
}

// numbered finds them, and what else is said.
func (l *lattice) numbered(items []item) (labels []int, rest []item) {
	chain := false
	for i := range items {
		it := &items[i]
		if it.is(eNucs) {
			for _, t := range l.toks[it.from:it.to] {
				if t.isNum {
					labels = append(labels, int(t.num))
				}
			}
			yard := *it.entity
			yard.kind = eYard
			rest = append(rest, item{from: it.from, to: it.to, text: it.text, entity: &yard})
			chain = false
			continue
		}
		number := it.is(eNumber) && !it.entity.vague && !it.entity.dozens || it.is(eLost) && l.plainNumber(it)
		switch {
		case chain && number && l.joined(items[i-1].to, it.from):
			labels = append(labels, it.entity.n)
			if it.is(eLost) {
				chain = false
			}
			continue
		case it.is(eYard), it.means(l.r.c.nucOne):
			chain = true
		case chain && it.means(l.r.c.and):
		default:
			chain = false
		}
		rest = append(rest, *it)
	}
	return labels, rest
}

// joined reports whether nothing but a comma, a sign for a number or an "and" stands between
// two tokens: behind a colon a number counts.
func (l *lattice) joined(from, to int) bool {
	for _, t := range l.toks[from:to] {
		if t.text == ":" || t.text == "-" || t.text == "=" || t.text == "." || t.text == ";" {
			return false
		}
	}
	return true
}

// plainNumber reports whether a loss begins with its number: "12 dud".
func (l *lattice) plainNumber(it *item) bool { return l.toks[it.from].num == float64(it.entity.n) }

// numberOf reports whether numbers of nucs account for a number.
func numberOf(acts []Act, n int) bool {
	for _, a := range acts {
		if slices.Contains(a.Nucs, itoa(n)) {
			return true
		}
	}
	return false
}
