package reading

import "yardbell/rules"

// orderFrom is how far ahead, in days, the day of an order lies at least: what is wanted
// sooner is no round of grafting.
const orderFrom = 2

// order reads an order in plain words: how many queens or cells somebody wants, by a day
// that lies ahead. Nothing is logged by it: it is answered with what would fill it.
func (l *lattice) order(items []item) (Result, bool) {
	c := l.r.c
	if !l.meansAny(items, c.wants) || hasAny(items, eYard, eBuilder, eBreeder, eBatch, eRatio, eBars, eLost, eAllBut, eAll) {
		return Result{}, false
	}
	es := entitiesOf(items)
	if len(es[eNumber]) != 1 || len(es[eTime]) == 0 {
		return Result{}, false
	}
	unit := ""
	for i := range items {
		switch it := &items[i]; {
		case !it.word():
		case it.means(c.cell):
			unit = string(rules.Cells)
		case it.means(c.queen) && unit == "":
			unit = string(rules.Queens)
		}
	}
	w := When{}
	for _, it := range es[eTime] {
		if !w.join(it.entity.when) {
			return Result{}, false
		}
	}
	w.Clock, w.Half, w.Approx = nil, "", false
	if unit == "" || !someDaysAhead(w) {
		return Result{}, false
	}
	a := Act{Kind: Order, Unit: unit, Count: intPtr(es[eNumber][0].entity.n), When: &w}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// someDaysAhead reports whether a day lies some days ahead: a date, a weekday, so many days.
func someDaysAhead(w When) bool {
	switch {
	case w.Month != 0, w.Weekday != 0:
		return w.Ago == 0
	case w.Day != nil:
		return *w.Day >= orderFrom
	}
	return false
}
