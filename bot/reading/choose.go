package reading

import (
	"math"
	"slices"
	"sort"

	"yardbell/rules"
)

// choose finds the step of an event.
func (d *draft) choose(e *event, rank ranking, base rules.Step) (rules.Step, bool) {
	l := d.l
	n := len(l.r.frames.list)
	share := make([]float64, n)
	total := 0.0
	for i := range share {
		total += rank.p[i]
	}
	for i := range share {
		share[i] = rank.p[i] / (total + 1e-12)
	}
	order := make([]int, 0, n)
	for i := range share {
		order = append(order, i)
	}
	sort.SliceStable(order, func(a, b int) bool { return share[order[a]] > share[order[b]] })
	step := func(i int) rules.Step { return l.r.frames.list[i].step }
	if e.verbless && e.carried && base != "" {
		return base, true
	}
	if e.verbless {
		if p := l.known.Reply; p != nil && p.Step != "" {
			if i, ok := l.r.frames.byStep[p.Step]; ok {
				if fr := l.r.frames.list[i]; !fr.slots["count"] && hasAny(e.items, eNumber, eRatio, eAllBut, eLost) {
					if list := l.openFits(e.items); len(list) > 0 {
						return list[0].step, true // the count answers another step than the ping's
					}
				}
				said := l.meansAny(d.items, l.r.c.doneWord) || l.meansAny(d.items, l.r.c.yes)
				if !said && !hasAny(e.items, eNumber, eRatio, eBars, eAll, eAllBut, eLost, eHalf, eNone, eBoth) {
					d.doubt("no-deed") // a place or an hour alone may be a question of where or when
				}
				return step(i), true
			}
		}
		if p := l.known.Asked; p != nil && p.Step != "" && (p.Need == "count" && hasAny(e.items, eNumber, eRatio, eAll, eNone, eAllBut)) {
			return p.Step, true
		}
		if l.onlyLost(d, e) {
			return l.lostNucs(e.items), true
		}
		list := l.ofSpoken(e.items, l.openFits(e.items))
		if len(list) > 0 {
			sort.SliceStable(list, func(a, b int) bool {
				if list[a].weight != list[b].weight {
					return list[a].weight > list[b].weight
				}
				return share[l.r.frames.byStep[list[a].step]] > share[l.r.frames.byStep[list[b].step]]
			})
			if list[0].weight < 1.5 {
				d.doubt("verbless-weak")
			}
			for _, f := range list[1:] {
				if f.step != list[0].step && f.weight > list[0].weight-0.45 {
					d.doubt("verbless-many")
					break
				}
			}
			for _, f := range list[1:] {
				if f.step != list[0].step {
					d.others = append(d.others, f.step)
				}
			}
			return list[0].step, true
		}
		d.doubt("no-licence")
		telling := hasAny(e.items, eYard, eAll, eBoth, eBuilders, eBuilder, eBatch, eBreeder) || l.speaksTrade(e.items)
		if telling && (l.clear(e.items) || l.slash && named(e.items) > 1) && share[order[0]] > guessLeast && rank.p[order[0]] > 0.05 {
			return step(order[0]), true
		}
		return "", false
	}
	var cand []int
	for _, i := range order {
		if e.ev.weight[step(i)] > 0 && !l.inNucs(step(i), e.items) {
			cand = append(cand, i)
		}
	}
	if len(cand) > 1 && !l.cellsHang() {
		cand = slices.DeleteFunc(cand, func(i int) bool { return step(i) == rules.Virgin })
	}
	if e.ev.weight[rules.Lose] > 0 && hasAny(e.items, eLost) && !lostNucs(e.items) && !hasAny(e.items, eNucs) {
		// "lost 1 at North, robbed" is a loss with its cause.
		cand = slices.DeleteFunc(cand, func(i int) bool { return step(i) == rules.Nuc })
	}
	if len(cand) == 0 {
		d.doubt("no-licence")
		return "", false
	}
	if u, ok := d.notBuilt(e, cand); ok && step(u) == rules.Nuc {
		return rules.Nuc, true // by words that tell of nothing else
	}
	logit := func(i int) float64 { return math.Log(share[i] + 1e-4) }
	first := cand[0]
	if len(cand) > 1 && logit(first)-logit(cand[1]) < marginLeast {
		d.doubt("near " + string(step(cand[1])))
	}
	if s := step(first); (s == rules.Flow || s == rules.Dearth) && len(cand) > 1 && e.ev.weight[step(cand[1])] > e.ev.weight[s] {
		d.doubt("opposite") // "flow it over"
	}
	if e.ev.weight[step(first)] < 0.78 {
		d.doubt("weak")
	}
	if !e.ev.exact[step(first)] && !l.awaits(step(first)) {
		d.doubt("slip-not-open") // a word read through a slip, and nothing waits for that step
	}
	if share[first] < stepLeast {
		d.doubt("unlikely-step")
	}
	if u, ok := d.notBuilt(e, cand); ok {
		return step(u), true
	}
	for _, i := range cand[1:] {
		if logit(first)-logit(i) < offerWithin && len(d.others) < 2 {
			d.others = append(d.others, step(i))
		}
	}
	if order[0] != first && share[order[0]] > 0.3 {
		d.others = append(d.others, step(order[0]))
	}
	return step(first), true
}

// cellsHang reports whether a batch is under way: without one no virgin can be out, and what
// is "out early" is a comb.
func (l *lattice) cellsHang() bool {
	return slices.ContainsFunc(l.known.Open, func(o Expect) bool { return o.Batch != 0 })
}

// named is how many things items name.
func named(items []item) (n int) {
	for i := range items {
		if items[i].entity != nil {
			n++
		}
	}
	return n
}

// speaksTrade reports whether a word of the trade is among the items.
func (l *lattice) speaksTrade(items []item) bool {
	for i := range items {
		for _, s := range items[i].senses {
			if l.r.frames.trade[s.concept] {
				return true
			}
		}
	}
	return false
}
