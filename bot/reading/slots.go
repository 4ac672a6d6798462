package reading

import (
	"time"

	"yardbell/rules"
)

// doubt is about an act: something of the message that it does not explain, or
// something it needs and lacks.
type doubt string

// The doubts. Those in gaps are asked about by whoever logs the act, and hold nothing up
// here; the rest keep a message out of the log.
const (
	fNumber       doubt = "number"       // a number that nothing explains
	fNoun         doubt = "noun"         // the number counts what nobody knows
	fTwoPlaces    doubt = "two-places"   // two yards, builders or batches
	fTwoMarks     doubt = "two-marks"    //
	fTwoBreeders  doubt = "two-breeders" //
	fNewBreeder   doubt = "new-breeder"  // a breeder that is not on the list
	fWhichBatch   doubt = "which-batch"
	fWhichBreeder doubt = "which-breeder"
	fWhichBuilder doubt = "which-builder"
	fWhichFed     doubt = "which-fed"
	fNoCount      doubt = "no-count"
	fTooMany      doubt = "too-many"
	fLoss         doubt = "loss"     // losses that do not add up
	fNoRecord     doubt = "record"   // "all" or "half" of what is not on record
	fPlace        doubt = "place"    // a place that the step does not have
	fMark         doubt = "mark"     // a colour that the step does not have
	fTime         doubt = "time"     // a time that cannot be
	fSwapped      doubt = "swapped"  // the count may be a breeder
	fBare         doubt = "bare"     // a bare number was taken for a breeder
	fByLoss       doubt = "by-loss"  // the count was worked out from what was lost
	fUnlikely     doubt = "unlikely" // far fewer than there were
	fSlot         doubt = "slot"     // a value that the step has no place for
)

// gaps are the flags that do not count as doubts.
var gaps = map[doubt]bool{fWhichBatch: true, fNoCount: true, fNewBreeder: true, fByLoss: true}

// filled is an act with what is doubtful about it.
type filled struct {
	act     Act
	flags   []doubt
	open    *Expect  // the open thing it reports, where there is one
	choices []Expect // those it may report
	more    []int    // further breeders of one clause
}

func (f *filled) flag(x doubt) {
	for _, h := range f.flags {
		if h == x {
			return
		}
	}
	f.flags = append(f.flags, x)
}

func (f *filled) has(x doubt) bool {
	for _, h := range f.flags {
		if h == x {
			return true
		}
	}
	return false
}

// kinds of steps by what they are about.
var (
	ofBreeder = map[rules.Step]bool{rules.Confine: true, rules.Eggs: true, rules.CombOut: true}
	ofBatch   = map[rules.Step]bool{rules.Accept: true, rules.Finish: true, rules.Capped: true, rules.Nucs: true, rules.Move: true, rules.Emerge: true, rules.Laying: true, rules.Catch: true, rules.Recell: true}
	counted   = map[rules.Step]bool{rules.Graft: true, rules.Accept: true, rules.Capped: true, rules.Nucs: true, rules.Move: true, rules.Emerge: true, rules.Laying: true, rules.Catch: true, rules.Recell: true}
	countless = map[rules.Step]bool{rules.Nucs: true, rules.Move: true, rules.Recell: true} // they may be logged without
	inBuilder = map[rules.Step]bool{rules.Accept: true, rules.Capped: true, rules.Rogue: true, rules.Finish: true}
)

// hourCounts are the steps whose hour all that follows hangs on.
var hourCounts = map[rules.Step]bool{rules.Confine: true, rules.CombOut: true, rules.Graft: true}

// entitiesOf sorts the entities of some items by kind.
func entitiesOf(items []item) map[entityKind][]*item {
	out := map[entityKind][]*item{}
	for i := range items {
		if e := items[i].entity; e != nil {
			out[e.kind] = append(out[e.kind], &items[i])
		}
	}
	return out
}

// fill gives the entities of an event to the slots of a step.
func (l *lattice) fill(step rules.Step, items []item) filled {
	f := filled{act: Act{Kind: Did, Step: step}}
	a := &f.act
	fr := l.r.frames.list[l.r.frames.byStep[step]]
	es := entitiesOf(items)
	l.places(&f, fr, es)
	l.marks(&f, fr, es)
	switch {
	case ofBreeder[step] || step == rules.Feed:
		l.fillBreeder(&f, fr, items, es)
	default:
		for _, it := range es[eBreeder] {
			switch n := it.entity.n; {
			case fr.slots["of"] && it.entity.from && !l.isBreeder(n) && l.onRecord(step, n):
				a.Of = intPtr(n) // "30 emerged from 34"
			case !fr.slots["breeder"]:
				f.flag(fSlot)
			case a.Breeder != 0 && a.Breeder != n:
				f.flag(fTwoBreeders)
			default:
				a.Breeder = n
				if !l.isBreeder(n) {
					f.flag(fNewBreeder)
				}
			}
		}
		l.subject(&f, fr)
		if fr.slots["count"] {
			l.count(&f, fr, items, es)
		} else {
			l.noCount(&f, es)
		}
		l.settleSubject(&f, fr)
	}
	if step == rules.Graft {
		l.graftFrom(&f, es)
	}
	if step == rules.Rogue {
		l.rogueIn(&f, items)
	}
	l.amounts(&f, fr, items, es)
	l.setTime(&f, items, es)
	if f.open != nil && a.Count != nil && f.open.Had > 0 && *a.Count > f.open.Had && step != rules.Nucs && step != rules.Rogue {
		f.flag(fTooMany)
	}
	if counted[step] && !countless[step] && a.Count == nil && !a.All {
		f.flag(fNoCount)
	}
	return f
}

func (l *lattice) isBreeder(n int) bool { return l.known.isBreeder(n) }

func (k *Known) isBreeder(n int) bool {
	for _, b := range k.Breeders {
		if b == n {
			return true
		}
	}
	return false
}

// expects reports whether a step is open.
func (k *Known) expects(s rules.Step) bool {
	for _, o := range k.Open {
		if o.Step == s && o.Ready {
			return true
		}
	}
	return false
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

// places takes the yard, the builder and the batch that are named.
func (l *lattice) places(f *filled, fr *frame, es map[entityKind][]*item) {
	a := &f.act
	for _, it := range es[eYard] {
		switch {
		case a.Yard != "" && a.Yard != it.entity.name:
			f.flag(fTwoPlaces)
		case !fr.slots["yard"]:
			f.flag(fPlace)
		default:
			a.Yard = it.entity.name
		}
	}
	for _, it := range es[eBuilder] {
		switch {
		case a.Builder != "" && a.Builder != it.entity.name:
			f.flag(fTwoPlaces)
		case !fr.slots["builder"]:
			f.flag(fPlace)
		default:
			a.Builder = it.entity.name
		}
	}
	for _, it := range es[eBatch] {
		switch {
		case a.Batch != 0 && a.Batch != it.entity.n:
			f.flag(fTwoPlaces)
		case !fr.slots["batch"]:
			f.flag(fPlace)
		default:
			a.Batch = it.entity.n
		}
	}
}

func (l *lattice) marks(f *filled, fr *frame, es map[entityKind][]*item) {
	for _, it := range es[ePin] {
		switch c := it.entity.name; {
		case f.act.Mark != "" && f.act.Mark != c:
			f.flag(fTwoMarks)
		case !fr.slots["mark"]:
			f.flag(fMark)
		default:
			f.act.Mark = c
		}
	}
}

// fillBreeder finds the breeders of a step on breeders; a bare number of the list is one.
func (l *lattice) fillBreeder(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	var list []int
	put := func(n int) {
		for _, b := range list {
			if b == n {
				return
			}
		}
		list = append(list, n)
	}
	for _, it := range es[eBreeder] {
		put(it.entity.n)
		if !l.isBreeder(it.entity.n) {
			f.flag(fNewBreeder)
		}
	}
	for _, it := range es[eNumber] {
		n := it.entity.n
		switch noun, odd := l.counts(items, it, fr); {
		case !l.isBreeder(n):
			f.flag(fNumber)
		case odd || noun:
			f.flag(fNoun)
		default:
			put(n)
		}
	}
	for _, k := range []entityKind{ePercent, eRatio, eBars, eAllBut, eLost, eHalf, eTemp} {
		if len(es[k]) > 0 {
			f.flag(fNumber)
		}
	}
	if len(list) > 0 {
		a.Breeder, f.more = list[0], list[1:]
	}
	if a.Step == rules.Feed && a.Breeder == 0 && a.Builder == "" && a.Yard == "" && len(es[eBuilders]) == 0 {
		if p := l.known.Reply; p != nil && (p.Yard != "" || p.Builder != "" || p.Breeder != 0) {
			a.Yard, a.Builder, a.Breeder = p.Yard, p.Builder, p.Breeder
		} else {
			f.flag(fWhichFed)
		}
		return
	}
	if a.Breeder != 0 || !ofBreeder[a.Step] {
		return
	}
	// Not named: of the pin, of the ping replied to, of the sender's last line, the only one.
	if a.Mark != "" && a.Step != rules.Confine {
		var fit []int
		for n, mark := range l.known.Combs {
			if mark == a.Mark {
				fit = append(fit, n)
			}
		}
		if len(fit) == 1 {
			a.Breeder = fit[0]
			return
		}
	}
	if p := l.known.Reply; p != nil && p.Breeder != 0 {
		a.Breeder = p.Breeder
		return
	}
	if a.Step != rules.Confine {
		if len(l.known.Combs) == 1 {
			for n := range l.known.Combs {
				a.Breeder = n
			}
			return
		}
		if k := l.known.Last; k != nil && k.Act.Breeder != 0 && ofBreeder[k.Act.Step] {
			a.Breeder = k.Act.Breeder
			return
		}
	}
	f.flag(fWhichBreeder)
}

// counts says of a number which stands before a noun: noun that the noun is none that the
// step counts, odd that it is a word nobody knows.
func (l *lattice) counts(items []item, it *item, fr *frame) (noun, odd bool) {
	for i := range items {
		if &items[i] != it {
			continue
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

func (l *lattice) freeWord(it *item) bool {
	for _, s := range it.senses {
		if s.concept == l.r.c.harmless || s.concept == l.r.c.the {
			return true
		}
	}
	return false
}

// subject collects what is open and may be meant.
func (l *lattice) subject(f *filled, fr *frame) {
	a := &f.act
	if !ofBatch[a.Step] && a.Step != rules.Rogue {
		return
	}
	for _, o := range l.known.Open {
		if o.Step == a.Step {
			f.choices = append(f.choices, o)
		}
	}
	keep := func(ok func(o Expect) bool, must bool) {
		var out []Expect
		for _, o := range f.choices {
			if ok(o) {
				out = append(out, o)
			}
		}
		if must || len(out) > 0 {
			f.choices = out
		}
	}
	switch p := l.known.Reply; {
	case a.Batch != 0:
		keep(func(o Expect) bool { return o.Batch == a.Batch }, true)
	case p != nil && p.Batch != 0 && l.ofBreeder(p.Batch, a.Breeder):
		a.Batch = p.Batch
		keep(func(o Expect) bool { return o.Batch == a.Batch }, true)
	default:
		if a.Builder != "" && inBuilder[a.Step] && (a.Step != rules.Finish || len(f.choices) > 1) {
			keep(func(o Expect) bool { return o.Builder == a.Builder }, false)
		}
		if a.Breeder != 0 {
			keep(func(o Expect) bool { return o.Breeder == a.Breeder }, false)
		}
		if a.Yard != "" && (a.Step == rules.Emerge || a.Step == rules.Laying || a.Step == rules.Catch || a.Step == rules.Recell) {
			keep(func(o Expect) bool { _, there := o.Yards[a.Yard]; return there }, false)
		}
	}
}

// ofBreeder reports whether a batch may be from a breeder that is named, 0 for none.
func (l *lattice) ofBreeder(batch, breeder int) bool {
	for _, o := range l.known.Open {
		if breeder != 0 && o.Batch == batch && o.Breeder != 0 && o.Breeder != breeder {
			return false
		}
	}
	return true
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

func intPtr(n int) *int { return &n }

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
		case len(es[eAll]) > 0 && had > lost && a.Count == nil:
			a.Count = intPtr(had - lost)
		case a.Count == nil && had > lost:
			a.Count = intPtr(had - lost)
			f.flag(fByLoss)
		case a.Count == nil:
			f.flag(fLoss)
		case had > 0 && *a.Count+lost > had || lost > *a.Count:
			f.flag(fLoss)
		}
	case len(es[eHalf]) > 0 && a.Count == nil:
		if had > 1 {
			a.Count = intPtr(had / 2)
		} else {
			f.flag(fNoRecord)
		}
	}
	all := len(es[eAll]) > 0 && a.Step != rules.Rogue
	for _, it := range es[eBatch] {
		all = all || it.entity.whole
	}
	if all && a.Count != nil && had > 0 && *a.Count != had && len(es[eLost]) == 0 && len(es[eRatio]) == 0 {
		f.flag(fNumber) // "all" and another number
	}
	if all && a.Count == nil {
		switch {
		case had > 0:
			a.Count = intPtr(had)
		case len(f.choices) > 1:
			f.flag(fNoRecord)
		default:
			a.All = true
		}
	}
	if a.Count == nil && l.meansAny(items, l.r.c.noneTook) {
		a.Count = intPtr(0)
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
	if a.Of != nil && !fr.slots["of"] {
		if *a.Of != had {
			f.flag(fNumber) // of how many, and that is not on record
		}
		a.Of = nil
	}
}

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
	for _, it := range es[eNumber] {
		wrong, odd := l.counts(items, it, fr)
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
			if o.Had > 0 && o.Had == hi && lo != hi {
				a.Count, a.Of = intPtr(lo), intPtr(hi)
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
func (l *lattice) noCount(f *filled, es map[entityKind][]*item) {
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
	for _, it := range es[eNumber] {
		if !onRecord(it.entity.n) {
			f.flag(fNumber)
		}
	}
	for _, k := range []entityKind{eRatio, ePercent, eBars, eAllBut, eLost, eHalf, eTemp, eNone} {
		if len(es[k]) > 0 {
			f.flag(fNumber)
		}
	}
}

// settleSubject chooses the batch, by the counts where it is not named.
func (l *lattice) settleSubject(f *filled, fr *frame) {
	a := &f.act
	if !ofBatch[a.Step] && a.Step != rules.Rogue {
		return
	}
	if a.Batch == 0 && len(f.choices) > 1 && a.Count != nil {
		var out []Expect
		for _, o := range f.choices {
			switch {
			case a.Of != nil && o.Had > 0 && o.Had == *a.Of:
				out = append(out, o)
			case a.Of == nil && (o.Had == 0 || *a.Count <= o.Had):
				out = append(out, o)
			}
		}
		if len(out) > 0 {
			f.choices = out
		}
	}
	if a.Batch == 0 && len(f.choices) > 1 {
		// One that is due by now is meant before one that is due later.
		var out []Expect
		for _, o := range f.choices {
			if o.Ready {
				out = append(out, o)
			}
		}
		if len(out) == 1 && a.Step != rules.Move {
			f.choices = out
		}
	}
	if len(f.choices) == 1 {
		f.open = &f.choices[0]
		if a.Batch == 0 && a.Step != rules.Rogue {
			a.Batch = f.open.Batch
		}
	}
	if a.Batch == 0 && len(f.choices) > 1 && a.Step != rules.Rogue {
		f.flag(fWhichBatch)
	}
	if f.open != nil && a.Count != nil && *a.Count*4 < f.open.Had && a.Of == nil && (a.Step == rules.Accept || a.Step == rules.Capped || a.Step == rules.Emerge || a.Step == rules.Laying || a.Step == rules.Move) && *a.Count > 0 && a.Yard == "" {
		f.flag(fUnlikely)
	}
}

// graftFrom finds the breeder a graft is from where none is named, and doubts a count that
// may be one.
func (l *lattice) graftFrom(f *filled, es map[entityKind][]*item) {
	a := &f.act
	if a.Breeder == 0 {
		var open []Expect
		for _, o := range l.known.Open {
			if o.Step == rules.Graft {
				open = append(open, o)
			}
		}
		switch p := l.known.Reply; {
		case p != nil && p.Step == rules.Graft && p.Breeder != 0:
			a.Breeder = p.Breeder
		case a.Mark != "":
			var fit []int
			for n, mark := range l.known.Combs {
				if mark == a.Mark {
					fit = append(fit, n)
				}
			}
			for _, o := range open {
				if o.Mark == a.Mark && o.Breeder != 0 {
					fit = []int{o.Breeder}
				}
			}
			if len(fit) == 1 {
				a.Breeder = fit[0]
			}
		}
		if a.Breeder == 0 && len(open) == 1 {
			a.Breeder = open[0].Breeder
		}
	}
	if a.Breeder == 0 {
		f.flag(fWhichBreeder)
	}
	if a.Count != nil && l.isBreeder(*a.Count) && len(es[eBars]) == 0 && *a.Count < 20 {
		f.flag(fSwapped)
	}
}

// rogueIn finds the builder that was searched and how many cells were found.
func (l *lattice) rogueIn(f *filled, items []item) {
	a := &f.act
	c := l.r.c
	if a.Builder == "" {
		switch p := l.known.Reply; {
		case p != nil && p.Builder != "":
			a.Builder = p.Builder
		case len(f.choices) == 1:
			a.Builder = f.choices[0].Builder
		}
	}
	if a.Builder == "" && a.Batch == 0 {
		f.flag(fWhichBuilder)
	}
	var none, found, clear bool
	for i := range items {
		it := &items[i]
		none = none || it.means(c.noRogue)
		clear = clear || it.means(c.clear) || it.means(c.nothing)
		found = found || it.means(c.kill) || it.means(c.foundC) || it.means(c.rogue)
	}
	if a.Count == nil {
		for _, it := range entitiesOf(items)[eLost] {
			a.Count = intPtr(it.entity.n) // "2 destroyed"
		}
	}
	switch {
	case none:
		a.Count = intPtr(0)
	case a.Count == nil && found && l.oneThing(items):
		a.Count = intPtr(1)
	case a.Count == nil && found && !clear:
		f.flag(fNoCount)
		f.flag(fNumber) // found, and how many is not said: never "none"
	case a.Count == nil && clear:
		a.Count = intPtr(0)
	}
}

// oneThing reports whether a single rogue cell is spoken of: "a wild cell", "found one".
func (l *lattice) oneThing(items []item) bool {
	c := l.r.c
	for i := range items {
		if !items[i].means(l.r.one) {
			continue
		}
		before := i > 0 && (items[i-1].means(c.foundC) || items[i-1].means(c.kill)) || i == 0 && l.known.Reply != nil
		after := i+1 < len(items) && (items[i+1].means(c.rogue) || items[i+1].means(c.cell))
		if before || after {
			return true
		}
	}
	return false
}

// amounts takes the age of larvae, litres, bees shaken in.
func (l *lattice) amounts(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	for _, it := range append(append([]*item{}, es[eAge]...), es[eSpan]...) {
		e := it.entity
		lo, hi := e.lo, e.hi
		if e.kind == eSpan {
			lo, hi = e.span.Hours(), e.span.Hours()
		}
		if !fr.slots["age"] || a.AgeLo != nil || e.kind == eSpan && e.span < 2*time.Hour {
			f.flag(fSlot)
			continue
		}
		a.AgeLo, a.AgeHi = &lo, &hi
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
		if fr.slots["each"] && it.means(c.each) {
			a.Each = true
		}
		if fr.slots["none"] && it.means(c.noEggs) {
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

// longAgo is how far back a line is told of without being asked about.
const longAgo = 30 * 24 * time.Hour

// setTime joins the times of an event into one. Two that contradict each other, and one
// that lies ahead, are doubtful.
func (l *lattice) setTime(f *filled, items []item, es map[entityKind][]*item) {
	if hourCounts[f.act.Step] && l.meansAny(items, l.r.c.earlier) {
		f.flag(fTime) // "earlier": every later window hangs on the hour
	}
	if len(es[eTime]) == 0 {
		return
	}
	w := When{}
	for _, it := range es[eTime] {
		if !w.join(it.entity.when) {
			f.flag(fTime)
		}
	}
	f.act.When = &w
	if w.Now {
		return
	}
	if at, _, ok := w.Settle(l.known.Now); !ok || at.After(l.known.Now.Add(10*time.Minute)) || at.Before(l.known.Now.Add(-longAgo)) {
		f.flag(fTime)
	}
}
