package reading

import (
	"slices"

	"yardbell/rules"
)

// feeds makes a line of each thing that one clause says was fed, in the order told. What
// was given holds for the things before it, or for those behind it where it stands first.
// ok is false where at most one thing is named.
func (d *draft) feeds(e *event) (out []filled, ok bool) {
	l := d.l
	fr := l.r.frames.list[l.r.frames.byStep[rules.Feed]]
	thing := func(it *item) bool {
		if it.is(eNumber) {
			noun, odd := l.counts(e.items, it, fr)
			return !noun && !odd && l.isBreeder(it.entity.n)
		}
		return it.is(eBuilder) || it.is(eYard) || it.is(eBreeder) || it.is(eBuilders)
	}
	var things, amounts []int
	groups := false
	for i := range e.items {
		it := &e.items[i]
		switch {
		case it.is(eBuilders) && it.entity.n != 0 && it.entity.n != len(l.known.Builders):
			return d.fedSome(e), true // "fed two builders", of three
		case thing(it):
			things = append(things, i)
			groups = groups || it.is(eBuilders)
		case it.is(eLitres):
			amounts = append(amounts, i)
		}
	}
	if len(things) < 2 && !groups {
		return nil, false
	}
	each := l.meansAny(e.items, l.r.c.each) || hasAny(e.items, eYards)
	given := give(things, amounts)
	for k := 1; k < len(things); k++ {
		i, before := things[k], things[k-1]
		if a, has := given[i]; has && a < before && slices.ContainsFunc(e.items[before+1:i], func(it item) bool { return it.anyOf(l.r.frames.deed) }) {
			delete(given, i) // "5 l in B2 and fed North as well"
		}
	}
	shared := map[int]int{}
	add := func(i int, t item) {
		var its []item
		for k := range e.items {
			it := &e.items[k]
			if k == i || !(thing(it) || it.is(eLitres)) || k == given[i] && it.is(eLitres) {
				if k == i {
					its = append(its, t)
				} else {
					its = append(its, *it)
				}
			}
		}
		if a, has := given[i]; has {
			shared[a]++
		}
		f := l.fill(rules.Feed, its)
		f.act.Each = f.act.Yard != "" && f.act.Each && (l.meansAny(e.items, l.r.c.nuc) || d.eachOf(e, given, i, things))
		out = append(out, f)
	}
	for _, i := range things {
		if !e.items[i].is(eBuilders) {
			add(i, e.items[i])
			continue
		}
		for _, b := range l.known.Builders {
			add(i, item{from: e.items[i].from, to: e.items[i].to, text: e.items[i].text, entity: &entity{kind: eBuilder, name: b}})
		}
	}
	for _, n := range shared {
		if n > 1 && !each {
			d.dealt++
			d.doubt("each-or-together")
		}
	}
	return out, true
}

// eachOf reports whether "each" is said of what one thing alone was given: "fed North 2 l each
// and B1 1.5 l" is of North's nucs, "fed North and Creek 2 l each" of the two.
func (d *draft) eachOf(e *event, given map[int]int, i int, things []int) bool {
	a, has := given[i]
	if !has {
		return false
	}
	for k, b := range given {
		if b == a && k != i {
			return false
		}
	}
	for k := a + 1; k < len(e.items); k++ {
		if slices.Contains(things, k) {
			return false
		}
		if e.items[k].means(d.l.r.c.each) {
			return true
		}
	}
	return false
}

// fedToo reports whether a clause goes on telling what was fed: another thing, with its
// amount or without.
func fedToo(e event, cl []item) bool {
	return e.ev.weight[rules.Feed] > 0 && !hasAny(cl, eNumber, eRatio, eAll, eNone, eAllBut, eBars, eHalf, eLost, eRest) && !(hasAny(cl, eTime) && hasAny(e.items, eTime))
}

// give says which amount was given to which thing.
func give(things, amounts []int) map[int]int {
	out := map[int]int{}
	if len(amounts) == 0 || len(things) == 0 {
		return out
	}
	if amounts[0] < things[0] {
		for _, t := range things {
			for _, a := range amounts {
				if a < t {
					out[t] = a
				}
			}
		}
		return out
	}
	for _, t := range things {
		for k := len(amounts) - 1; k >= 0; k-- {
			if amounts[k] > t {
				out[t] = amounts[k]
			}
		}
	}
	return out
}

// fedSome is of some builders that are not named: who acts on it asks which.
func (d *draft) fedSome(e *event) []filled {
	var its []item
	for _, it := range e.items {
		if !it.is(eBuilders) {
			its = append(its, it)
		}
	}
	f := d.l.fill(rules.Feed, its)
	if len(entitiesOf(its)[eLitres]) > 0 {
		f.flag(fNumber)
	}
	return []filled{f}
}

// shares are both that may be meant where an amount was given to several things: each got
// it, or all of them together.
func (d *draft) shares(whole []Act) [][]Act {
	if d.dealt != 1 {
		return [][]Act{whole}
	}
	n := 0
	for _, a := range whole {
		if a.Litres > 0 {
			n++
		}
	}
	split := append([]Act{}, whole...)
	for i := range split {
		split[i].Litres /= float64(n)
	}
	return [][]Act{whole, split}
}
