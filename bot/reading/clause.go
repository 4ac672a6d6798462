package reading

import (
	"slices"

	"yardbell/rules"
)

// event is a part of a message that tells of one thing.
type event struct {
	items    []item
	ev       evidence
	carried  bool // it has no words of its own for the step: that of the event before
	verbless bool
	loose    bool // a thing is named behind it of which nothing more is told: "fed B2 and nucs"
}

// split cuts a message into clauses: at signs that end one, at conjunctions, and between
// pairs of count and place.
func (l *lattice) split(items []item) [][]item {
	c := l.r.c
	var out [][]item
	cur := []item{}
	for i, it := range items {
		if it.bound && it.text == ":" && len(cur) > 0 && l.heads(cur) {
			continue // "batch 2: 35 accepted"
		}
		if it.bound && it.text != "(" && it.text != ")" || it.word() && (it.means(l.r.and) || it.means(c.then) && !ends(items, i) || it.means(c.also) || it.means(c.butConj)) {
			out = append(out, cur)
			cur = []item{}
			continue
		}
		if it.bound {
			continue
		}
		cur = append(cur, it)
	}
	out = append(out, cur)
	var res [][]item
	for _, cl := range out {
		if len(cl) > 0 {
			for _, part := range l.runOn(cl) {
				res = append(res, pairs(part)...)
			}
		}
	}
	return res
}

// ends reports whether a clause ends with the item at i: "blue after that".
func ends(items []item, i int) bool { return i+1 == len(items) || items[i+1].bound }

// heads reports whether items only name a thing or a time, so that what follows a colon
// is said of it.
func (l *lattice) heads(items []item) bool {
	for i := range items {
		it := &items[i]
		if it.word() && (l.freeWord(it) || it.means(l.r.c.comb) || it.means(l.r.c.graftN) || l.isNoun(it)) || it.is(ePin) {
			continue
		}
		if it.entity == nil || !(it.is(eBatch) || it.is(eBuilder) || it.is(eYard) || it.is(eBreeder) || it.is(eTime) || it.is(eRound)) {
			return false
		}
	}
	return true
}

// pairs cuts a clause between several counts with a place each: "20 north 14 creek".
func pairs(cl []item) [][]item {
	var counts, places []int
	breeders := map[int]bool{}
	names := map[string]bool{}
	for i := range cl {
		it := &cl[i]
		switch {
		case it.is(eNumber), it.is(eRatio), it.is(eHalf), it.is(eBars):
			counts = append(counts, i)
		case it.is(eYard), it.is(eBuilder), it.is(eCustomer):
			places = append(places, i)
			names[it.entity.name] = true
		case it.is(eBreeder) && !it.entity.from:
			breeders[it.entity.n] = true
		case it.is(eBatch):
			places = append(places, i)
			names["#"+itoa(it.entity.n)] = true
		}
	}
	if named := len(namesOf(cl, eYard)); named > 1 && len(namesOf(cl, eBatch)) == 1 {
		places = slices.DeleteFunc(places, func(i int) bool { return cl[i].is(eBatch) }) // "batch 2 15 creek 10 north"
	}
	if len(counts) < 2 || len(places) < 2 || len(names) < 2 {
		return [][]item{cl}
	}
	first := counts
	if places[0] < counts[0] {
		first = places
	}
	var out [][]item
	from := 0
	for _, i := range first[1:] {
		out = append(out, cl[from:i:i])
		from = i
	}
	return append(out, cl[from:])
}

func hasAny(items []item, kinds ...entityKind) bool {
	for i := range items {
		if e := items[i].entity; e != nil {
			for _, k := range kinds {
				if e.kind == k {
					return true
				}
			}
		}
	}
	return false
}

// events groups the clauses of a message: an event meets a licence; a fragment, which has
// entities alone, fills the event before it or, where the two clash, repeats its step with
// other values; a denial stands for itself; the rest are asides.
func (l *lattice) events(items []item) (evs []event, denials, asides [][]item) {

	clauses := l.split(items)
	var pre []item
	lic := func(its []item) evidence {
		l.work += len(its)
		return l.r.strongLicences(its, l.known)
	}
	add := func(its []item, carried bool) {
		e := lic(its)
		evs = append(evs, event{items: its, ev: e, carried: carried, verbless: len(e.weight) == 0})
	}
	grow := func(i int, cl []item) {
		evs[i].items = append(append([]item{}, evs[i].items...), cl...)
		if e := lic(evs[i].items); len(e.weight) > 0 {
			evs[i].ev, evs[i].verbless = e, false
		}
	}
	for _, cl := range clauses {
		cl = l.withoutFarewell(cl)
		if len(cl) == 0 {
			continue
		}
		e := lic(cl)
		num := hasAny(cl, eNumber, eRatio, eAll, eNone, eAllBut, eBars, eHalf, eLost, eRest)
		some := num || hasAny(cl, eYard, eBuilder, eBatch, eBreeder, ePin, eTime, eAge, eLitres, eBoth, eBuilders, eYards, ePercent, eSpan, eTemp, eRound, eTags, eCustomer) ||
			l.meansAny(cl, l.r.c.beesIn) || l.meansAny(cl, l.r.c.noBees) || l.meansAny(cl, l.r.c.each)
		if len(evs) > 0 && hasAny(cl, eRest) && !hasAny(cl, eNumber, eRatio, eYard, eBuilder, eBatch) && (l.denies(cl) || len(e.weight) == 0) {
			continue // "the rest nothing yet": what is left over, in words
		}
		if n := len(evs) - 1; n >= 0 && hasAny(evs[n].items, eNumber, eRatio, eAll, eAllBut) && (l.onlyAllDone(cl) || l.onlyAllOf(cl, e, evs[n])) && !l.muchLeft(evs) {
			continue // "36 are in Creek, all done"; "caught 25, all caged"
		}
		if n := len(evs) - 1; n >= 0 && len(e.weight) == 0 && l.namesThing(items, cl) {
			evs[n].loose = true
			continue
		}
		if len(clauses) > 1 && l.denies(cl) && !hasAny(cl, eNone, eAllBut, eLost) {
			denials = append(denials, cl)
			continue
		}
		switch {
		case len(e.weight) > 0:
			if n := len(evs) - 1; n >= 0 && e.weight[rules.Feed] > 0 && fedToo(evs[n], cl) {
				grow(n, cl)
				continue
			} else if n >= 0 {
				p := &evs[n]
				both := false
				for s := range e.weight {
					both = both || p.ev.weight[s] > 0
				}
				clash := num && hasAny(p.items, eNumber, eRatio, eAll) || differ(p.items, cl)
				if (both || p.verbless && !p.carried) && !clash {
					grow(n, cl)
					continue
				}
			}
			if len(pre) > 0 && (differ(pre, cl) || hasAny(pre, eNumber, eRatio, eAll, eHalf) && num || hasAny(pre, eNumber, eRatio) && !l.takesCount(e) && !l.ofOneBreeder(pre, e)) {
				add(pre, false) // "16 to North, 20 to Creek, done"
				pre = nil
			}
			add(append(append([]item{}, pre...), cl...), false)
			pre = nil
		case some && len(evs) == 0:
			if hasAny(pre, eNumber, eRatio, eHalf, eAll) && hasAny(cl, eNumber, eRatio, eHalf, eAll, eRest) {
				add(pre, false)
				add(cl, true)
				pre = nil
				continue
			}
			pre = append(pre, cl...)
		case some:
			n := len(evs) - 1
			if fedToo(evs[n], cl) {
				grow(n, cl)
				continue
			}
			if hasAny(cl, eNumber, eRatio, eHalf, eAll, eRest) && hasAny(evs[n].items, eNumber, eRatio, eAll, eHalf) || differ(evs[n].items, cl) {
				add(cl, true)
				continue
			}
			grow(n, cl)
		default:
			switch n := len(evs) - 1; {
			case n >= 0 && l.onlyNoun(cl):
				grow(n, cl)
			case n >= 0 && evs[n].verbless && len(lic(append(append([]item{}, evs[n].items...), cl...)).weight) > 0:
				grow(n, cl)
			case len(pre) > 0 && len(lic(append(append([]item{}, pre...), cl...)).weight) > 0:
				add(append(append([]item{}, pre...), cl...), false)
				pre = nil
			default:
				asides = append(asides, cl)
			}
		}
	}
	if len(pre) > 0 {
		add(pre, false)
	}
	if len(denials) == 0 {
		whole := lic(items)
		var all []item
		for _, it := range items {
			if !it.bound {
				all = append(all, it)
			}
		}
		if len(whole.weight) > 0 && (len(evs) == 0 || len(evs) == 1 && evs[0].verbless) {
			evs = []event{{items: all, ev: whole}}
			asides = nil
		}
	}
	return l.share(evs, items), denials, asides
}

// takesCount reports whether a step that is spoken of has a place for a count.
func (l *lattice) takesCount(e evidence) bool {
	for s := range e.weight {
		if l.r.frames.list[l.r.frames.byStep[s]].slots["count"] {
			return true
		}
	}
	return false
}

// share gives a time at the head of the message to all its events, and the step of a last
// clause that alone has a verb to those before it.
func (l *lattice) share(evs []event, items []item) []event {
	if len(evs) < 2 {
		return evs
	}
	l.shareTime(evs, items)
	evs = l.sharePlace(evs)
	n := len(evs) - 1
	for i := 0; i < n; i++ {
		if !evs[i].verbless || i == 0 && evs[i].carried {
			return evs
		}
	}
	if evs[n].verbless {
		return evs
	}
	last := evs[n]
	breeders := true
	for i := 0; i < n; i++ {
		breeders = breeders && l.ofOneBreeder(evs[i].items, last.ev)
	}
	if !l.takesCount(last.ev) && !breeders {
		return evs // a count is of another step than that one
	}
	switch {
	case !hasAny(last.items, eNumber, eRatio, eYard, eBuilder, eBatch, eBreeder, eAll, eRest):
		evs[0].items = append(append([]item{}, evs[0].items...), last.items...)
		evs[0].ev, evs[0].verbless = last.ev, false
		evs = evs[:n]
	case counts(evs[0].items): // in the order told: batches are numbered by it
		evs[0].ev, evs[0].verbless = last.ev, false
	default:
		evs = append([]event{last}, evs[:n]...)
	}
	for i := 1; i < len(evs); i++ {
		evs[i].carried = true
	}
	return evs
}

// differ reports whether two runs of items name different things of one kind.
func differ(a, b []item) bool {
	for _, k := range []entityKind{eYard, eBuilder, eBreeder, eBatch, eCustomer} {
		x, y := namesOf(a, k), namesOf(b, k)
		if len(x) == 0 || len(y) == 0 {
			continue
		}
		for n := range y {
			if !x[n] {
				return true
			}
		}
	}
	return false
}

func namesOf(items []item, k entityKind) map[string]bool {
	out := map[string]bool{}
	for i := range items {
		if items[i].is(k) {
			out[items[i].entity.name+"#"+itoa(items[i].entity.n)] = true
		}
	}
	return out
}

// denies reports whether a clause has a negation of its own, outside phrases that are a
// report as they stand ("no rogue cells").
func (l *lattice) denies(cl []item) bool {
	for i := range cl {
		it := &cl[i]
		if !it.word() {
			continue
		}
		switch {
		case l.isUnit(it):
		case it.means(l.r.c.neg) || it.means(l.r.c.yet):
			return true
		case it.means(l.r.c.nothing):
			// "nothing in B1" is a find; "no encontré la 12" denies.
			ev := l.r.strongLicences(cl, l.known)
			if ev.weight[rules.Rogue] == 0 && ev.weight[rules.Eggs] == 0 && l.known.Reply == nil {
				return true
			}
		}
	}
	return false
}

// strongLicences are the licences that make a clause an event.
func (r *Reader) strongLicences(items []item, known *Known) evidence {
	ev := r.licences(items, known)
	for s, w := range ev.weight {
		if w < 0.7 {
			delete(ev.weight, s)
			delete(ev.exact, s)
		}
	}
	return ev
}
