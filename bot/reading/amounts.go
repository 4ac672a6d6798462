package reading

import (
	"time"

	"yardbell/rules"
)

// amounts takes the age of larvae, litres, bees shaken in.
func (l *lattice) amounts(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	for _, it := range append(append([]*item{}, es[eAge]...), es[eSpan]...) {
		e := it.entity
		lo, hi := e.lo, e.hi
		if e.kind == eSpan {
			lo, hi = e.span.Hours(), e.span.Hours()
		}
		if !fr.slots["age"] || a.AgeLo != nil || e.kind == eSpan && (e.span < 2*time.Hour || e.span > oldestLarva) {
			f.flag(fSlot)
			continue
		}
		a.AgeLo, a.AgeHi = &lo, &hi
	}
	if len(es[eAmount]) > 0 && a.Step == rules.Graft {
		f.flag(fSlot) // "3 jars of 15"
	}
	for _, it := range es[eLitres] {
		if !fr.slots["litres"] || a.Litres != 0 {
			f.flag(fSlot)
			continue
		}
		a.Litres = it.entity.amount
	}
	c := l.r.c
	for i := range items {
		it := &items[i]
		if fr.slots["bees"] {
			if it.means(c.beesIn) {
				a.Bees = boolPtr(true)
			}
			if it.means(c.noBees) {
				a.Bees = boolPtr(false)
			}
		}
		if fr.slots["each"] && it.means(c.each) && a.Yard != "" {
			a.Each = true
		}
		if fr.slots["honey"] && it.means(c.honey) {
			a.Honey = true
		}
		if fr.slots["none"] && (it.means(c.noEggs) || it.means(c.nothing) || it.is(eNone)) {
			a.None = true
		}
	}
	if fr.slots["release"] {
		var comb, free bool
		for i := range items {
			comb = comb || items[i].means(c.comb)
			free = free || items[i].means(c.release)
		}
		a.Release = free && !comb
	}
}

func boolPtr(b bool) *bool { return &b }

// setTime joins the times of an event into one. Two that contradict each other, and one
// that lies ahead, are doubtful.
func (l *lattice) setTime(f *filled, items []item, es map[entityKind][]*item) {
	w := When{}
	if hourCounts[f.act.Step] && l.meansAny(items, l.r.c.earlier) {
		w.Approx = true // "earlier": every later window hangs on the hour, which is asked for
		if len(es[eTime]) == 0 {
			w.Day = intPtr(0)
			f.act.When = &w
		}
	}
	if len(es[eTime]) == 0 {
		return
	}
	for _, it := range es[eTime] {
		if !w.join(it.entity.when) {
			f.flag(fTime)
		}
	}
	f.act.When = &w
	if w.Now {
		return
	}
	switch at, _, ok := w.Settle(l.known.Now); {
	case !ok:
		f.flag(fTime)
	case at.After(l.known.Now.Add(10 * time.Minute)):
		f.flag(fAhead)
	case at.Before(l.known.Now.Add(-longAgo)):
		f.flag(fLongAgo)
	}
}
