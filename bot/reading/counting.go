package reading

import (
	"yardbell/rules"
)

// count works the count of a step out: a number, a ratio, bars, all, all but some, half,
// none, or what is left of the count on record.
func (l *lattice) count(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	switch {
	case len(es[eBars]) == 1 && a.Step == rules.Graft:
		a.Count = intPtr(es[eBars][0].entity.n)
	case len(es[eBars]) > 0:
		f.flag(fNumber)
	}
	for i, it := range es[eRatio] {
		if i > 0 || a.Step == rules.Graft || a.Count != nil {
			f.flag(fNumber)
			continue
		}
		a.Count, a.Of = intPtr(it.entity.n), intPtr(it.entity.of)
		if it.entity.n > it.entity.of {
			f.flag(fTooMany)
		}
	}
	l.bareNumbers(f, fr, items, es)
	if len(es[ePercent]) > 0 || len(es[eTemp]) > 0 || a.Step == rules.Graft && len(es[eLost]) > 0 {
		f.flag(fNumber)
	}
	had := f.record()
	switch {
	case len(es[eAllBut]) > 0:
		if k := es[eAllBut][0].entity.n; had > k && a.Count == nil {
			a.Count = intPtr(had - k)
		} else {
			f.flag(fNoRecord)
		}
	case len(es[eLost]) > 0 && a.Step != "lose" && a.Step != rules.Rogue:
		lost := 0
		for _, it := range es[eLost] {
			lost += it.entity.n
		}
		switch {
		case ofStock[a.Step]:
			f.flag(fLoss) // "6 back from Haskett, 1 dead"
		case len(es[eAll]) > 0 && had > lost && a.Count == nil:
			a.Count = intPtr(had - lost)
		case a.Count == nil && had > lost:
			a.Count = intPtr(had - lost)
			f.flag(fByLoss)
			if lost*2 > had {
				f.flag(fUnlikely)
			}
		case a.Count == nil:
			f.flag(fLoss)
		case had > 0 && *a.Count+lost > had || lost > *a.Count:
			f.flag(fLoss)
		case had > 0 && *a.Count+lost < had && a.Step == rules.Capped && a.Of == nil:
			f.flag(fLoss) // "capped 36, one flat" of 38: of the 36, or beside them
		}
	case len(es[eHalf]) > 0 && a.Count == nil:
		part := es[eHalf][0].entity
		if had > 1 {
			a.Count = intPtr(had * part.n / part.of)
		} else {
			f.flag(fNoRecord)
		}
		if part.of > 2 && had*part.n%part.of != 0 {
			f.flag(fUnlikely) // "two thirds" of what has no third
		}
	case len(es[eHalf]) > 0 && es[eHalf][0].entity.of > 2:
		f.flag(fNumber) // a fraction that does not come to the number beside it
	}
	all := len(es[eAll]) > 0 && a.Step != rules.Rogue
	for _, it := range es[eBatch] {
		all = all || it.entity.whole
	}
	for _, it := range es[eAll] {
		switch n := it.entity.n; {
		case !it.entity.named || a.Count != nil && *a.Count == n:
		case all && a.Count == nil && had == 0:
			a.Count = intPtr(n)
		case !all || n != had:
			f.flag(fNumber) // "all 36" of what are not 36
		}
	}
	if all && a.Count != nil && had > 0 && *a.Count != had && len(es[eLost]) == 0 && len(es[eAllBut]) == 0 && len(es[eRatio]) == 0 {
		f.flag(fNumber) // "all" and another number
	}
	if all && a.Count == nil {
		switch {
		case had > 0:
			a.Count = intPtr(had)
			f.whole = true
		case len(f.choices) > 1 && a.Yard != "" && a.Step != rules.Move || a.Step == rules.Nucs || a.Step == rules.Recell:
			f.flag(fNoRecord)
		default:
			a.All = true
		}
	}
	if a.Count == nil && l.meansAny(items, l.r.c.noneTook) {
		a.Count = intPtr(0)
	}
	if len(es[eNone]) > 0 && a.Count != nil && *a.Count > 0 && len(es[eRatio]) == 0 {
		f.flag(fNumber) // "none 45"
	}
	if len(es[eNone]) > 0 && a.Count == nil {
		if a.Step == rules.Accept || a.Step == rules.Capped || a.Step == rules.Rogue || a.Step == rules.Emerge || a.Step == rules.Laying {
			a.Count = intPtr(0)
		} else {
			f.flag(fNumber)
		}
	}
	if !fr.slots["all"] {
		a.All = false
	}
	if a.Step == rules.Virgin && a.Count != nil && *a.Count > mostLoose {
		f.flag(fUnlikely) // "31 virgin out": they emerged, where they should
	}
	if a.Of != nil && !fr.slots["of"] {
		if *a.Of != had {
			f.flag(fNumber) // of how many, and that is not on record
		}
		a.Of = nil
	}
}

// near reports whether little stands between the first two numbers: "34 of them 36 hung",
// and no "diez" at the head of a message that tells of 36 at its end.
func near(numbers []*item) bool {
	return numbers[1].from-numbers[0].to <= 3
}

// mostLoose is how many virgins are out among cells at most before anybody sees them.
const mostLoose = 5

// bareNumbers gives the bare numbers of an event: to the count, to the breeder of a graft,
// else they stay unexplained.
func (l *lattice) bareNumbers(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	type number struct {
		n     int
		wrong bool // it counts something else
		odd   bool
	}
	var rest []number
	if len(es[eNumber]) > mostNumbers {
		f.flag(fNumber)
		return
	}
	for _, it := range es[eNumber] {
		wrong, odd := l.counts(items, it, fr)
		wrong = wrong || fr.slots["builder"] && l.within(items, it)
		rest = append(rest, number{it.entity.n, wrong, odd})
	}
	drop := func(i int) { rest = append(rest[:i:i], rest[i+1:]...) }
	if a.Step == rules.Graft && a.Breeder == 0 && len(rest) == 2 {
		known := -1
		for i, x := range rest {
			if l.isBreeder(x.n) {
				if known >= 0 {
					known = -2
					break
				}
				known = i
			}
		}
		if known >= 0 {
			a.Breeder = rest[known].n
			f.flag(fBare)
			drop(known)
		}
	}
	if a.Count == nil && len(rest) == 2 && !rest[0].wrong && !rest[1].wrong && a.Step != rules.Graft && fr.slots["of"] {
		hi, lo := max(rest[0].n, rest[1].n), min(rest[0].n, rest[1].n)
		for _, o := range f.choices {
			if o.Had > 0 && o.Had == hi && lo != hi && (rest[0].n == hi || near(es[eNumber])) {
				a.Count, a.Of = intPtr(lo), intPtr(hi)
				if l.isBreeder(lo) || l.figuresAndWords(es[eNumber]) {
					f.flag(fNumber) // "12 moved 25": of breeder 12, or 12 of them
				}
				return
			}
		}
	}
	if a.Count == nil {
		pick := -1
		for i, x := range rest {
			if x.wrong {
				continue
			}
			if pick < 0 {
				pick = i
			}
			for _, o := range f.choices {
				if o.Had > 0 && x.n <= o.Had && x.n*3 >= o.Had && !fits(rest[pick].n, f.choices) {
					pick = i
				}
			}
		}
		if pick >= 0 {
			a.Count = intPtr(rest[pick].n)
			if rest[pick].odd {
				f.flag(fNoun)
			}
			drop(pick)
		}
	}
	for _, x := range rest {
		switch {
		case a.Count != nil && (x.n == *a.Count || a.Of != nil && x.n == *a.Of) && !x.wrong:
		case a.Step == rules.Graft && a.Breeder == 0 && l.isBreeder(x.n) && !x.wrong:
			a.Breeder = x.n
			f.flag(fBare)
		case x.wrong:
			f.flag(fNoun)
		default:
			f.flag(fNumber)
		}
	}
}

func fits(n int, list []Expect) bool {
	for _, o := range list {
		if o.Had > 0 && n <= o.Had && n*3 >= o.Had {
			return true
		}
	}
	return false
}

// noCount flags the numbers of a step that counts nothing, unless they repeat what is on
// record.
func (l *lattice) noCount(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	onRecord := func(n int) bool {
		if f.act.Step != rules.Finish {
			return false
		}
		for _, o := range l.known.Open {
			if o.Had == n {
				return true
			}
		}
		return false
	}
	inHives := func(n *item) bool {
		for i := range items[:max(0, len(items)-1)] {
			if items[i].from == n.from {
				return items[i+1].word() && f.act.Step == rules.Drones && items[i+1].anyOf(fr.nouns)
			}
		}
		return false
	}
	for _, it := range es[eNumber] {
		if !onRecord(it.entity.n) && !inHives(it) {
			f.flag(fNumber)
		}
	}
	for _, it := range es[eAll] {
		if it.entity.named && !onRecord(it.entity.n) && !(wholeRound[f.act.Step] && it.entity.n == len(f.choices)) {
			f.flag(fNumber)
		}
	}
	for _, k := range []entityKind{eRatio, ePercent, eBars, eAllBut, eLost, eHalf, eTemp, eNone} {
		if len(es[k]) > 0 {
			f.flag(fNumber)
		}
	}
}

// record is how many there are to count from: at the yard named, else in all.
func (f *filled) record() int {
	if len(f.choices) != 1 {
		return 0
	}
	o := f.choices[0]
	if n, ok := o.Yards[f.act.Yard]; ok && f.act.Yard != "" && n > 0 && (f.act.Step == rules.Emerge || f.act.Step == rules.Laying || f.act.Step == rules.Catch) {
		return n
	}
	return o.Had
}

// onRecord reports whether so many are there to count from at a step.
func (l *lattice) onRecord(step rules.Step, n int) bool {
	for _, o := range l.known.Open {
		if o.Step == step && o.Had == n {
			return true
		}
	}
	return false
}

// counts says of a number which stands before a noun: noun that the noun is none that the
// step counts, odd that it is a word nobody knows.
func (l *lattice) counts(items []item, it *item, fr *frame) (noun, odd bool) {
	l.work += len(items)
	for i := range items {
		if &items[i] != it {
			continue
		}
		if i > 0 && items[i-1].means(l.r.c.since) {
			return true, false // "hace 20": of what is not said
		}
		for k := i + 1; k < len(items); k++ {
			next := &items[k]
			if !next.word() {
				return false, false
			}
			if next.unknown() {
				return false, true
			}
			some, fits := false, false
			for _, s := range next.senses {
				some = some || l.r.frames.noun[s.concept]
				fits = fits || fr.nouns[s.concept]
			}
			if some {
				return !fits, false
			}
			if !l.freeWord(next) {
				return false, false
			}
		}
	}
	return false, false
}
