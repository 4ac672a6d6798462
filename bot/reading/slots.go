package reading

import (
	"slices"
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
	fLoss         doubt = "loss"       // losses that do not add up
	fNoRecord     doubt = "record"     // "all" or "half" of what is not on record
	fPlace        doubt = "place"      // a place that the step does not have
	fMark         doubt = "mark"       // a colour that the step does not have
	fTime         doubt = "time"       // a time that cannot be
	fAhead        doubt = "not-yet"    // a time that lies ahead
	fLongAgo      doubt = "long-ago"   // a time long past
	fNewYard      doubt = "new-yard"   // a yard that is not on the list
	fNewNumber    doubt = "new-number" // a bare number, of a breeder that is not on the list
	fSwapped      doubt = "swapped"    // the count may be a breeder
	fBare         doubt = "bare"       // a bare number was taken for a breeder
	fByLoss       doubt = "by-loss"    // the count was worked out from what was lost
	fHowMany      doubt = "how-many"   // rogue cells that were found, and not counted
	fUnlikely     doubt = "unlikely"   // far fewer than there were
	fSlot         doubt = "slot"       // a value that the step has no place for
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
	whole   bool     // its count is all there was, since "all" was said
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

// mostNumbers is how many bare numbers of one event are weighed: more are no report.
const mostNumbers = 12

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
	l.work += len(items)
	f := filled{act: Act{Kind: Did, Step: step}}
	a := &f.act
	fr := l.r.frames.list[l.r.frames.byStep[step]]
	said := items
	if step == rules.Nuc {
		items = l.numbersOf(&f, items)
	}
	es := entitiesOf(items)
	l.places(&f, fr, items, es)
	l.marks(&f, fr, es)
	l.stockSlots(&f, fr, items, es)
	switch {
	case ofBreeder[step] || step == rules.Feed:
		l.fillBreeder(&f, fr, items, es)
	default:
		for _, it := range es[eBreeder] {
			switch n := it.entity.n; {
			case fr.slots["of"] && it.entity.from && !l.isBreeder(n) && l.onRecord(step, n):
				a.Of = intPtr(n) // "30 emerged from 34"
			case ofBatch[step] && !l.isBreeder(n) && l.openBatch(step, n):
				a.Batch = n // "48 capped from 8", of batch 8
			case !fr.slots["breeder"]:
				f.flag(fSlot)
			case a.Breeder != 0 && a.Breeder != n:
				f.flag(fTwoBreeders)
			default:
				a.Breeder = n
				switch {
				case l.isBreeder(n):
				case step == rules.Graft:
					f.flag(fNewBreeder)
				default:
					f.flag(fNewNumber) // what is counted is from a breeder of the list
				}
			}
		}
		l.subject(&f, fr)
		if fr.slots["count"] {
			l.count(&f, fr, items, es)
		} else {
			l.noCount(&f, fr, items, es)
		}
		l.settleSubject(&f, fr)
	}
	switch step {
	case rules.Graft:
		l.graftFrom(&f, es)
	case rules.Retire:
		l.goneFrom(&f, es)
	case rules.Lose:
		l.lostOf(&f, items, es)
	case rules.Nuc:
		l.nucState(&f, fr, said, es)
	}
	if step == rules.Rogue {
		l.rogueIn(&f, items)
	}
	l.allBars(&f, es)
	l.amounts(&f, fr, items, es)
	l.setTime(&f, items, es)
	if f.open != nil && a.Count != nil && f.open.Had > 0 && *a.Count > f.open.Had && step != rules.Nucs && step != rules.Rogue {
		f.flag(fTooMany)
	}
	if step == rules.Emerge && a.Count == nil && (l.meansAny(items, l.r.c.oneOut) || l.meansAny(items, l.r.c.virginOut)) {
		a.Count = intPtr(1)
		f.flag(fUnlikely)
	}
	if step == rules.Lose {
		l.lostOfStock(&f, items)
	}
	f.countTags()
	if (counted[step] && !countless[step] || ofStock[step]) && a.Count == nil && !a.All {
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

// expectsAny reports whether one of some steps is open, and emergence is not.
func (k *Known) expectsAny(steps map[rules.Step]bool) bool {
	for s := range steps {
		if k.expects(s) && !k.expects(rules.Emerge) {
			return true
		}
	}
	return false
}

// openBatch reports whether a step of a batch is open.
func (l *lattice) openBatch(step rules.Step, batch int) bool {
	return slices.ContainsFunc(l.known.Open, func(o Expect) bool { return o.Step == step && o.Batch == batch })
}

// places takes the yard, the builder and the batch that are named.
func (l *lattice) places(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	for _, it := range es[eYard] {
		switch {
		case a.Yard != "" && a.Yard != it.entity.name:
			f.flag(fTwoPlaces)
		case !fr.slots["yard"]:
			f.flag(fPlace)
			if ofStock[a.Step] {
				f.flag(fSlot) // to offer it without the place would offer another thing
			}
		default:
			a.Yard = it.entity.name
			if !slices.Contains(l.known.Yards, a.Yard) {
				f.flag(fNewYard)
			}
		}
	}
	for _, it := range es[eBuilder] {
		switch {
		case a.Step == rules.Finish && a.Builder != "" && a.Builder != it.entity.name && l.known.Holds[a.Builder] != 0 && (a.Batch == 0 || a.Batch == l.known.Holds[a.Builder]):
			a.Batch, a.Builder = l.known.Holds[a.Builder], it.entity.name // "bar from B1 to B2"
		case a.Builder != "" && a.Builder != it.entity.name:
			f.flag(fTwoPlaces)
		case !fr.slots["builder"] && l.outOf(items, it, f):
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
		case l.markedFrom(f.act.Step, c) != 0:
			f.act.Breeder = l.markedFrom(f.act.Step, c)
		case !fr.slots["mark"]:
			f.flag(fMark)
		default:
			f.act.Mark = c
		}
	}
}

// markedFrom is the breeder whose cells go by the colour of her comb's pin, where one alone
// is open at a step on batches: "39 from red took". It is 0 where none is.
func (l *lattice) markedFrom(step rules.Step, mark string) (breeder int) {
	if !ofBatch[step] || step == rules.Catch {
		return 0
	}
	for _, o := range l.known.Open {
		if o.Step != step || o.Mark != mark || o.Breeder == 0 {
			continue
		}
		if breeder != 0 && breeder != o.Breeder {
			return 0
		}
		breeder = o.Breeder
	}
	return breeder
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
	numbers := es[eNumber]
	if len(numbers) > mostNumbers {
		f.flag(fNumber)
		numbers = numbers[:mostNumbers]
	}
	for _, it := range numbers {
		n := it.entity.n
		switch noun, odd := l.counts(items, it, fr); {
		case !l.isBreeder(n) && a.Step == rules.Confine && !noun && !odd && len(numbers) == 1 && len(list) == 0 && it.text == itoa(n):
			put(n)
			f.flag(fNewNumber)
		case !l.isBreeder(n):
			f.flag(fNumber)
		case odd || noun:
			f.flag(fNoun)
		default:
			put(n)
		}
	}
	for _, it := range es[eAll] {
		if it.entity.named {
			f.flag(fNumber)
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
		if k := l.known.Last; k != nil && k.Since < justSaid && k.Act.Breeder != 0 && ofBreeder[k.Act.Step] {
			if _, on := l.known.Combs[k.Act.Breeder]; !on && len(l.known.Combs) == 1 {
				f.flag(fWhichBreeder) // "comb out 7", "let her go": the only one on a comb may not be meant
				return
			}
		}
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

// justSaid is how long the breeder that was spoken of last is the one that "her" is.
const justSaid = 10 * time.Minute

// within reports whether a number stands behind a word for "in" and counts nothing: it is
// where, and not how many.
func (l *lattice) within(items []item, it *item) bool {
	for i := range items {
		if &items[i] != it {
			continue
		}
		if i == 0 || !items[i-1].means(l.r.c.in) || !items[i-1].means(l.r.c.into) {
			return false
		}
		return i+1 == len(items) || items[i+1].bound || !items[i+1].word()
	}
	return false
}

func (l *lattice) freeWord(it *item) bool {
	for _, s := range it.senses {
		if s.concept == l.r.c.harmless || s.concept == l.r.c.the {
			return true
		}
	}
	return false
}

func intPtr(n int) *int { return &n }

// oldestLarva is the greatest age that is taken for one of larvae to graft.
const oldestLarva = 5 * 24 * time.Hour

// longAgo is how far back a line is told of without being asked about.
const longAgo = 30 * 24 * time.Hour
