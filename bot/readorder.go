package bot

import (
	"strings"
	"time"

	"yardbell/rules"
)

// planAsk is what a question about the weeks ahead names beside its subject.
type planAsk struct {
	unit   rules.Unit
	day    when // by which day, or for a step on which day
	order  int
	shift  rules.Shift
	shifts bool      // "a day later", and not a time of its own
	person string    // whose yields
	by     rules.Dim // yields side by side
}

var (
	orderedUnits = map[string]rules.Unit{"queens": rules.Queens, "queen": rules.Queens, "cells": rules.Cells, "cell": rules.Cells}
	orderedKinds = words(`mated laying ripe queen capped more`)
	byWords      = words(`by for until till before on`)
	cancelLeads  = []string{"cancel order", "cancel the order", "call off order", "drop order"}
	orderLeads   = []string{"how is", "how's", "hows", "how far is", "show me", "show", "status of", "the", "open", "our"}
	yieldsBy     = map[string]rules.Dim{"week": rules.ByWeek, "weeks": rules.ByWeek, "breeder": rules.ByBreeder, "breeders": rules.ByBreeder, "queen": rules.ByBreeder,
		"builder": rules.ByBuilder, "builders": rules.ByBuilder, "grafter": rules.ByGrafter, "grafters": rules.ByGrafter, "person": rules.ByGrafter}
	yieldLeads   = []string{"show me", "show", "our", "the", "what are our", "what are the"}
	capacityAsks = []string{"capacity", "show capacity", "the capacity", "our capacity", "show the capacity", "free nucs", "how many nucs are free", "which nucs are free"}
	fitLeads     = []string{"when to confine", "when should i confine", "when should we confine", "when do i confine", "when do we confine", "when confine", "fit"}
)

// ahead reads the questions about the weeks ahead, and an order, which is one until
// its plan is accepted.
func (d *reader) weeksAhead() bool {
	for _, form := range []func() bool{d.orders, d.yields, d.capacity, d.whatIf, d.fit} {
		if form() {
			d.r.question = false
			return true
		}
		d.reset() // what it had read belongs to no other form
	}
	return false
}

// end reports whether nothing but a polite word stands from token i on.
func (d *reader) end(i int) bool {
	for ; i < len(d.toks); i++ {
		if w := d.word(i); w != "please" && w != "pls" && w != "?" {
			return false
		}
	}
	return true
}

// orders reads "order 100 queens by 20 June", "plan 40 cells for 3 June", "order 2"
// and "orders".
func (d *reader) orders() bool {
	r := d.r
	i := d.lead(0, orderLeads)
	if d.word(i) == "orders" && d.end(i+1) {
		r.verb = askOrders
		return true
	}
	if n, ok := d.number(i + 1); ok && d.word(i) == "order" && d.end(i+2) && n > 0 {
		r.verb, r.plan.order = askOrders, n
		return true
	}
	if d.word(0) == "new" || d.word(0) == "a" || d.word(0) == "an" {
		i = 1
	} else {
		i = 0
	}
	v := map[string]verb{"order": doOrder, "plan": askPlan}[d.word(i)]
	if i++; d.word(i) == "for" || d.word(i) == "of" {
		i++
	}
	n, ok := d.number(i)
	if v == "" || !ok {
		return false
	}
	for i++; orderedKinds[d.word(i)] && orderedUnits[d.word(i+1)] != ""; i++ {
	}
	unit := orderedUnits[d.word(i)]
	if unit == "" {
		return false
	}
	i++
	if !d.end(i) {
		if byWords[d.word(i)] {
			i++
		}
		day, used := d.dayAhead(i)
		if used == 0 || !d.end(i+used) {
			return false
		}
		r.plan.day = day
	}
	if r.question && v == doOrder {
		v = askPlan
	}
	r.verb, r.count, r.plan.unit = v, &n, unit
	return true
}

// dayAhead reads a day that lies ahead from token i: a date, a weekday, "in 8 weeks".
func (d *reader) dayAhead(i int) (w when, n int) {
	from := i
	if d.word(i) == "the" || d.word(i) == "next" {
		i++
	}
	if d.word(i) == "in" {
		if span, k := d.span(i + 1); k > 0 && span%(24*time.Hour) == 0 {
			return when{set: true, hasDay: true, back: -int(span / (24 * time.Hour))}, i + 1 + k - from
		}
		return when{}, 0
	}
	if w, n = d.plainDay(i); n == 0 {
		if wd, ok := weekdays[d.word(i)]; ok {
			w, n = when{weekday: wd + 1}, 1
		}
	}
	if n == 0 || w.back > 0 {
		return when{}, 0
	}
	w.set, w.hasDay = true, true
	if w.weekday > 0 {
		w.back = -1 // the coming one
	}
	if w.date && w.year == 0 {
		k := i + n
		if d.word(k) == "of" || d.word(k) == "from" {
			k++
		}
		if y, ok := d.number(k); ok && y >= 2000 && y < 2200 {
			w.year, n = y, k+1-i
		}
	}
	return w, i + n - from
}

// dayAfter is the day named, the next one of that name from today on. ok is false for
// a date that there is not, as 31 June.
func (w when) dayAfter(today rules.Date) (d rules.Date, ok bool) {
	if !w.date {
		return w.dayFrom(today), true
	}
	d = rules.Date{Year: w.year, Month: time.Month(w.month), Day: w.day}
	if w.year == 0 {
		if d.Year = today.Year; d.Before(today) {
			d.Year++
		}
	}
	return d, d.Add(0) == d
}

// cancelled reads "cancel order 2".
func (d *reader) cancelled() bool {
	i := d.lead(0, cancelLeads)
	n, ok := d.number(i)
	if i == 0 || !ok || n <= 0 || !d.end(i+1) {
		return false
	}
	d.r.verb, d.r.plan.order = doCancel, n
	return true
}

// yields reads "yields", "yields breeder 7", "yields B2" and "yields Wren".
func (d *reader) yields() bool {
	r := d.r
	i := d.lead(0, yieldLeads)
	if d.word(i) != "yields" && (d.word(i) != "yield" || !r.addressed && i+1 == len(d.toks)) {
		return false
	}
	if i++; d.word(i) == "of" || d.word(i) == "for" || d.word(i) == "by" || d.word(i) == "from" {
		i++
	}
	switch n, isNum := d.number(i + 1); {
	case d.end(i):
	case yieldsBy[d.word(i)] != "" && d.word(i-1) == "by" && d.end(i+1):
		r.plan.by = yieldsBy[d.word(i)]
	case breederWords[d.word(i)] && isNum && d.end(i+2):
		r.breeder = n
	case d.word(i) == "builder" && !d.end(i+1) && d.end(i+2):
		r.builder = d.builderNamed(i + 1)
	case d.end(i+1) && d.builderNamed(i) != "":
		r.builder = d.builderNamed(i)
	case d.end(i+1) && isName(d.toks[i].orig) && (r.addressed || !d.lower(d.toks[i].orig)):
		r.plan.person = d.toks[i].orig
	default:
		return false
	}
	r.verb = askYields
	return true
}

// builderNamed is the builder that token i names, "" for none.
func (d *reader) builderNamed(i int) string {
	if name, found := d.ownName(i, i+1, d.n.builders); found {
		return name
	}
	if m := builderForm.FindStringSubmatch(d.word(i)); m != nil {
		return "B" + m[1]
	}
	return ""
}

func (d *reader) capacity() bool {
	if !has(capacityAsks, strings.TrimSuffix(d.all(), " please")) {
		return false
	}
	d.r.verb = askCapacity
	return true
}

// whatIf reads "what if confine 7 tomorrow 16:00", "what if graft 6 h later" and
// "what if order 2 a day later".
func (d *reader) whatIf() bool {
	r := d.r
	i := d.lead(0, []string{"what if", "what happens if"})
	if i == 0 {
		return false
	}
	people := subjectWords[d.word(i)] && !d.r.addressed
	for subjectWords[d.word(i)] || d.word(i) == "we" || d.word(i) == "i" || d.word(i) == "the" || d.word(i) == "will" || d.word(i) == "perhaps" {
		i++
	}
	step := stepWords[d.word(i)]
	n, isNum := d.number(i + 1)
	switch {
	case d.word(i) == "order" && isNum:
		r.plan.order, r.step = n, rules.Ordered
		i += 2
	case step == rules.Confine || step == rules.Graft:
		r.step = step
		for i++; breederWords[d.word(i)] || d.word(i) == "from" || d.word(i) == "the"; {
			i++
		}
		if n, ok := d.number(i); ok && !d.spanAt(i) {
			r.breeder = n
			i++
		}
	default:
		return false
	}
	if d.word(i) == "is" || d.word(i) == "was" || d.word(i) == "were" {
		i++
	}
	if sh, k, ok := d.shift(i); ok && d.end(i+k) {
		r.plan.shift, r.plan.shifts = sh, true
	} else if r.plan.order != 0 || !d.timeAhead(i) || people && !r.plan.day.hasTime {
		return false // "what if we graft on Friday" is said among people
	}
	r.verb = askWhatIf
	return true
}

// shift reads "6 h later", "a day earlier", "2 days sooner".
func (d *reader) shift(i int) (sh rules.Shift, n int, ok bool) {
	span, n := d.span(i)
	if n == 0 {
		return sh, 0, false
	}
	sign := map[string]int{"later": 1, "after": 1, "earlier": -1, "sooner": -1, "before": -1}[d.word(i+n)]
	if sign == 0 || span > 60*24*time.Hour {
		return sh, 0, false
	}
	if unit := d.word(i + n - 1); strings.HasPrefix(unit, "d") || strings.HasPrefix(unit, "w") {
		sh.Days = sign * int(span/(24*time.Hour))
	} else {
		sh.Hours = time.Duration(sign) * span
	}
	return sh, n + 1, true
}

// timeAhead reads a day or an hour that lies ahead, or both, to the end of the message.
func (d *reader) timeAhead(i int) bool {
	d.use(0, i)
	for i < len(d.toks) {
		w := d.word(i)
		if w == "at" || w == "@" || w == "on" {
			i++
			if i == len(d.toks) {
				return false
			}
		}
		day, n := d.dayAhead(i)
		c, k := d.clock(i, true)
		switch to := &d.r.plan.day; {
		case n > 0 && !to.hasDay:
			day.hasTime, day.clock, day.half = to.hasTime, to.clock, to.half
			*to = day
			i += n
		case k > 0 && !to.hasTime:
			to.set, to.hasTime, to.clock, to.half = true, true, c.clock, c.half
			i += k
		default:
			return d.end(i) && to.set
		}
	}
	return d.r.plan.day.set
}

// fit reads "fit 7" and "when to confine 7 for move on Thursday".
func (d *reader) fit() bool {
	r := d.r
	i := d.lead(0, fitLeads)
	if i == 0 {
		return false
	}
	bare := d.word(0) == "fit"
	if breederWords[d.word(i)] {
		i++
	}
	if n, ok := d.number(i); ok {
		r.breeder, bare = n, false
		i++
	}
	if bare && !r.addressed {
		r.breeder = 0
		return false
	}
	if !d.end(i) {
		if w := d.word(i); w == "for" || w == "so" || w == "to" {
			i++
		}
		for d.word(i) == "the" || d.word(i) == "a" {
			i++
		}
		if r.step = stepWords[d.word(i)]; r.step != rules.Graft && r.step != rules.Move {
			return false
		}
		if i++; d.word(i) == "on" || d.word(i) == "for" {
			i++
		}
		day, n := d.dayAhead(i)
		if n == 0 || !d.end(i+n) {
			return false
		}
		r.plan.day = day
	}
	r.verb = askFit
	return true
}
