package reading

import (
	"cmp"
	"slices"

	"yardbell/rules"
)

// amend reads a correction: a new value of one slot of the sender's last line.
func (l *lattice) amend(items []item, k ranking, m mood, last *Line) (Result, bool) {
	if rest := l.withoutWhich(items); last != nil && len(rest) < len(items) {
		items, k, m = rest, l.rank(rest), l.moodOf(rest)
	}
	if last == nil || m.plan || m.hearsay {
		return Result{}, false
	}
	c := l.r.c
	corrects := l.meansAny(items, c.correct)
	says := corrects || m.neg && hasAny(items, eNumber, eYard, eBuilder, eBreeder, eBatch, ePin)
	pa := l.chance(k, classAmend)
	if p := l.known.Reply; p != nil && p.Task && !says && l.opens(items, c.doneWord) {
		return Result{}, false // "done 34 at 7:20" answers the ping, whatever was logged before
	}
	if p := l.known.Asked; p != nil && p.Need == "count" && !says && (last.Act.Count == nil || p.New) {
		return Result{}, false // a number answers what was asked
	}
	if !says && last.Act.Step != rules.Nuc && k.ev.exact[rules.Nuc] && k.ev.weight[rules.Nuc] >= 1 {
		return Result{}, false // what is told of nucs corrects no count of queens
	}
	strong := k.strong(l)
	fragment := len(strong) == 0
	for s := range strong {
		if !says && ofStock[s] {
			return Result{}, false // "banked 7" after "6 to Haskett" is of others
		}
	}
	if !says && last.Act.Step == rules.Lose && (!fragment || hasAny(items, eLost)) {
		return Result{}, false // a second loss
	}
	if !(pa > 0.5 || says && (fragment || strong[last.Act.Step])) {
		return Result{}, false
	}
	if m.neg && !corrects && !fragment && !strong[last.Act.Step] {
		return Result{Outcome: Ignore}, l.known.Reply == nil && !l.known.Addressed // "I neither moved nor fed them": of other work, and none was done
	}
	a, n := l.newValues(items, last)
	if n == 0 {
		if says && pa > 0.5 {
			return Result{Outcome: Ask, Acts: nil, Doubts: []string{"no-value"}}, true
		}
		return Result{}, false
	}
	if !says && a.Count != nil && (*a.Count == 0 || m.hedge) || !corrects && !l.clear(items) {
		return Result{}, false // "moved 0"; "few flipped, maybe 3"; "261, as if we were a factory"
	}
	if a.Count != nil && last.Act.Count != nil && last.Act.Step != rules.Rogue {
		if o, v := *last.Act.Count, *a.Count; v*2 < o || v > o*2 {
			return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}, Doubts: []string{string(fUnlikely)}}, true
		}
	}
	if !says && (a.Count == nil && hasAny(items, eAll) || valuesOf(a) == 1 && a.When != nil && !l.onlyTime(items)) {
		return Result{}, false // "all gone on Wednesday, she was pleased": an hour in talk is no correction
	}
	if !says && a.Mark != "" && !l.meansAny(items, l.r.pinWord) && len(l.telling(items)) > 1 {
		return Result{}, false // "big and yellow", of larvae
	}
	if a.Breeder != 0 && !l.isBreeder(a.Breeder) && last.Act.Breeder == 0 {
		return Result{}, false // "that was number 142", of a builder that was fed
	}
	if !corrects && l.meansAny(items, c.yet) {
		return Result{}, false // "creek not yet"
	}
	res := Result{Outcome: Log, Acts: []Act{a}}
	if !says && a.Count != nil && numbersIn(items) > 1 {
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}}, true // two numbers and no word that says which is right
	}
	if !says && a.Count != nil && l.besideStep(items, last.Act.Step) {
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}}, true
	}
	if hasAny(items, eLost) && !l.lessLost(items, a, last) {
		n++
	}
	if hasAny(items, ePercent, eBars, eAllBut, eTemp, eAmount, eHalf) || hasAny(items, eSpan) && a.AgeLo == nil {
		n++ // a number that no slot of a correction takes
	}
	if !corrects && !m.neg && l.meansAny(items, c.doneWord) && numbersIn(items) > 0 {
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}}, true // "done 33": it may be another job
	}
	danger, soft := l.unexplained(l.uncorrected(items), map[rules.Step]bool{last.Act.Step: true})
	for i := range items {
		if items[i].slip && !says {
			danger = append(danger, items[i].text) // nothing says that anything is put right
		}
	}
	switch {
	case !says && pa <= 0.7, n > 1 && !(corrects && n == valuesOf(a)), len(danger) > 0, !corrects && (m.hedge || len(soft) > 0):
		res.Outcome, res.Others, res.Unread = Ask, [][]Act{{a}}, append(danger, soft...)
	}
	return res, true
}

// besideStep reports whether a word says something that no frame of a step takes: "saw 33",
// "bar 33" of what was moved corrects nothing.
func (l *lattice) besideStep(items []item, step rules.Step) bool {
	i, ok := l.r.frames.byStep[step]
	if !ok {
		return false
	}
	f := l.r.frames.list[i]
	return slices.ContainsFunc(items, func(it item) bool {
		return it.word() && len(it.senses) > 0 && !l.onlyHarmless(&it) && (ofTrade(&it, &l.r.frames) || it.anyOf(l.r.frames.vague)) && !it.anyOf(f.nouns) && !it.anyOf(f.words)
	})
}

// onlyTime reports whether a message names an hour or a day, and beside it has no more than
// single words that tell nothing: "what a day, 142" names none.
func (l *lattice) onlyTime(items []item) bool {
	for i := range items {
		if it := &items[i]; it.word() && (it.to > it.from+1 || !l.freeWord(it) || it.anyOf(l.r.frames.strong) || it.anyOf(l.r.frames.trade)) {
			return false
		}
	}
	return true
}

// withoutWhich leaves out the clause by which a correction says of which work it is: "it was
// ten to four when I closed her up".
func (l *lattice) withoutWhich(items []item) []item {
	if !l.opens(items, l.r.c.correct) {
		return items
	}
	for i := range items {
		if i == 0 || !items[i].means(l.r.c.whenWord) || !hasAny(items[:i], eTime) {
			continue
		}
		end := i
		for end < len(items) && !items[end].bound {
			end++
		}
		return append(append([]item{}, items[:i]...), items[end:]...)
	}
	return items
}

// numbersIn is how many numbers stand in a message.
func numbersIn(items []item) int {
	return len(entitiesOf(items)[eNumber]) + len(entitiesOf(items)[eRatio])
}

// ofLine are doubts that the line which is completed has settled.
var ofLine = map[doubt]bool{fWhichBreeder: true, fWhichBuilder: true, fWhichBatch: true}

// completes reads what the bot asked for: a number, the place, or both, alone or with words
// of the step.
func (l *lattice) completes(items []item, k ranking, m mood) (Result, bool) {
	if numbersIn(items) > 1 {
		return Result{}, false // "36, no wait, 37": which of them it is is not for this to say
	}
	p := l.known.Asked
	if p == nil || p.Need == "" || l.known.Last == nil || p.New || m.held() || m.neg || m.hedge {
		return Result{}, false
	}
	number := p.Need == "count" && hasAny(items, eNumber, eRatio, eAll, eNone, eAllBut)
	place := map[string]entityKind{"yard": eYard, "builder": eBuilder}[cmp.Or(p.Place, p.Need)]
	if !number && (place == "" || !hasAny(items, place)) {
		return Result{}, false
	}
	for s := range k.strong(l) {
		if s != p.Step {
			return Result{}, false
		}
	}
	for _, kind := range []entityKind{eYard, eBuilder, eBatch, eBreeder, eTime, ePin, eSpan, eAge, eLitres, ePercent} {
		if kind != place && hasAny(items, kind) && !l.sameAsLast(items, kind) {
			return Result{}, false
		}
	}
	of := items
	if i, ok := l.r.frames.byStep[p.Step]; ok && p.Batch != 0 && l.r.frames.list[i].slots["batch"] && !hasAny(items, eBatch) {
		of = append(slices.Clone(items), item{entity: &entity{kind: eBatch, n: p.Batch}}) // the number is of that batch
	}
	if p.Yard != "" && !hasAny(items, eYard) {
		of = append(slices.Clone(of), item{entity: &entity{kind: eYard, name: p.Yard}}) // and of that yard alone
	}
	f := l.fill(p.Step, of)
	a := Act{Kind: Amend, Step: p.Step}
	if number {
		a.Count, a.Of, a.All = f.act.Count, f.act.Of, f.act.All
	} else if counts(items) {
		return Result{}, false
	}
	for _, it := range entitiesOf(items)[place] {
		if place == eYard {
			a.Yard = it.entity.name
		} else {
			a.Builder = it.entity.name
		}
	}
	if number && a.Count == nil && !a.All {
		return Result{}, false
	}
	for _, x := range f.flags {
		if !gaps[x] && !ofLine[x] {
			return Result{}, false
		}
	}
	danger, soft := l.unexplained(items, map[rules.Step]bool{p.Step: true})
	for i := range items {
		if items[i].slip {
			soft = append(soft, items[i].text)
		}
	}
	if len(danger)+len(soft) > 0 {
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}, Unread: append(danger, soft...)}, true
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// sameAsLast reports whether a place that is named is that of the sender's last line: "34 to
// North" completes what was moved to North.
func (l *lattice) sameAsLast(items []item, kind entityKind) bool {
	was := map[entityKind]string{eYard: l.known.Last.Act.Yard, eBuilder: l.known.Last.Act.Builder}[kind]
	return was != "" && allOf(entitiesOf(items)[kind], func(e *entity) bool { return e.name == was })
}

// uncorrected are the items without the words that say that something is put right, and
// without negations: "not 38, 36".
func (l *lattice) uncorrected(items []item) (out []item) {
	for _, it := range items {
		if it.word() && (it.means(l.r.c.correct) || it.means(l.r.c.neg)) {
			continue
		}
		out = append(out, it)
	}
	return out
}

// newValues are the values of a correction that differ from the line, and how many.
func (l *lattice) newValues(items []item, last *Line) (a Act, n int) {
	was := last.Act
	a = Act{Kind: Amend, Step: was.Step}
	es := entitiesOf(items)
	var nums []int
	for _, it := range es[eRatio] {
		nums = append(nums, it.entity.n)
	}
	for _, it := range es[eHalf] { // "make it half that"
		if part := it.entity; was.Count != nil && *was.Count*part.n%part.of == 0 {
			nums = append(nums, *was.Count*part.n/part.of)
		}
	}
	denied := map[int]bool{} // "not 38, 36"
	for _, it := range es[eNumber] {
		if l.deniedAt(items, it) && !l.exclaims(items, it, was) {
			denied[it.entity.n] = true
			a.Old = intPtr(it.entity.n)
			continue
		}
		nums = append(nums, it.entity.n)
	}
	breeders := es[eBreeder]
	setBreeder := func(b int) {
		if b != was.Breeder && a.Breeder == 0 {
			a.Breeder, n = b, n+1
		}
	}
	other := false // "it was not 7, it was 12": the numbers are breeders
	for _, it := range breeders {
		if l.deniedAt(items, it) {
			denied[it.entity.n] = true
			other = other || it.entity.n == was.Breeder && len(nums) == 1 && l.isBreeder(nums[0])
			continue
		}
		setBreeder(it.entity.n)
	}
	if ofBreeder[was.Step] || other {
		for _, x := range nums {
			setBreeder(x)
		}
		nums = nil
	}
	best, over := -1, 0
	for _, x := range nums {
		if was.Count != nil && x == *was.Count {
			continue
		}
		if best >= 0 && x != best {
			over++
		}
		if best < 0 || was.Count != nil && abs(x-*was.Count) < abs(best-*was.Count) {
			best = x
		}
	}
	if denied[best] {
		return a, 0 // the same number is denied and told
	}
	n += over // two new numbers: which of them is asked
	if best >= 0 {
		a.Count, n = intPtr(best), n+1
		for _, it := range es[eRatio] {
			if it.entity.n == best {
				a.Of = intPtr(it.entity.of)
			}
		}
	}
	if a.Old != nil && !ofBreeder[was.Step] && (was.Count == nil || *a.Old != *was.Count) {
		if !l.wasOther(*a.Old, last, a.Breeder != 0, len(es[eTime]) > 0) {
			return a, 0 // it says that another count was wrong
		}
		a.Old = nil
	}
	place := was.Yard
	for _, kind := range []entityKind{eYard, eBuilder} { // "not in B1, B3 is full, it was B2": which of them is asked
		names := map[string]bool{}
		for _, it := range es[kind] {
			if it.entity.name != was.Yard && it.entity.name != was.Builder && !l.deniedAt(items, it) {
				names[it.entity.name] = true
			}
		}
		n += max(0, len(names)-1)
	}
	takes := func(slot string) bool {
		i, ok := l.r.frames.byStep[was.Step]
		return ok && l.r.frames.list[i].slots[slot]
	}
	for _, it := range es[eYard] {
		if it.entity.name != place && a.Yard == "" && takes("yard") {
			a.Yard, n = it.entity.name, n+1
		} else if !takes("yard") {
			n++ // it is of another line
		}
	}
	for _, it := range es[eBuilder] {
		if it.entity.name != was.Builder && a.Builder == "" && takes("builder") {
			a.Builder, n = it.entity.name, n+1
		} else if !takes("builder") {
			n++
		}
	}
	for _, it := range append(es[eCustomer], es[eBuyer]...) {
		switch {
		case !takes("customer"):
			n++
		case it.entity.name != was.Customer && a.Customer == "":
			a.Customer, n = it.entity.name, n+1
		}
	}
	for _, it := range es[eTags] {
		if takes("tags") && a.Tags == "" {
			a.Tags = it.entity.name
		}
		n++
	}
	for _, it := range es[eBatch] {
		if was.Batch != 0 && was.Step != rules.Graft && it.entity.n != was.Batch && a.Batch == 0 {
			a.Batch, n = it.entity.n, n+1
		}
	}
	for _, it := range es[ePin] {
		if it.entity.name != was.Mark && a.Mark == "" && takes("mark") {
			a.Mark, n = it.entity.name, n+1
		}
	}
	for _, it := range es[eLitres] {
		a.Litres, n = it.entity.amount, n+1
	}
	for _, it := range es[eAge] {
		lo, hi := it.entity.lo, it.entity.hi
		a.AgeLo, a.AgeHi, n = &lo, &hi, n+1
	}
	for _, it := range es[eSpan] {
		if was.Step == rules.Graft && a.AgeLo == nil {
			h := it.entity.span.Hours()
			a.AgeLo, a.AgeHi, n = &h, &h, n+1
		}
	}
	for i := range items {
		if items[i].means(l.r.c.beesIn) && was.Step == rules.Confine {
			a.Bees, n = boolPtr(true), n+1
		}
		if items[i].means(l.r.c.noBees) && was.Step == rules.Confine {
			a.Bees, n = boolPtr(false), n+1
		}
	}
	var times []*item
	for _, it := range es[eTime] {
		if !l.deniedAt(items, it) {
			times = append(times, it)
		}
	}
	if len(times) > 0 {
		w := When{}
		fine := true
		for _, it := range times {
			fine = w.join(it.entity.when) && fine
		}
		if fine && !w.Now && !(w.Clock == nil && w.Ago == 0 && w.Weekday == 0 && w.Month == 0 && w.Day != nil && *w.Day == 0) {
			a.When, n = &w, n+1
		}
	}
	return a, n
}

// exclaims reports whether the word for no before a number says that another was wrong:
// "no 47", and nothing else, of a line with another number.
func (l *lattice) exclaims(items []item, it *item, was Act) bool {
	return len(items) == 2 && items[0].means(l.r.c.no) && was.Count != nil && *was.Count != it.entity.n
}

// putRight is the sender's last line where a message is about it though it is not fresh: it
// names the work and the number that was wrong.
func (l *lattice) putRight(items []item, k ranking, last *Line) *Line {
	if last.Since <= freshFor {
		return last
	}
	if last.Act.Count == nil || !k.strong(l)[last.Act.Step] {
		return nil
	}
	for i := range items {
		if it := &items[i]; it.is(eNumber) && it.entity.n == *last.Act.Count && l.deniedAt(items, it) {
			return last
		}
	}
	return nil
}

// wasOther reports whether a number that is said to be wrong was the breeder or the hour of
// the line, and a new one is said: "from 12, not 7", "at 9:30 not 10".
func (l *lattice) wasOther(n int, last *Line, breeder, time bool) bool {
	return breeder && n == last.Act.Breeder || time && (n == last.At.Hour() || n == last.At.Hour()-12)
}

// deniedAt reports whether a negation stands right before a number.
func (l *lattice) deniedAt(items []item, it *item) bool {
	l.work += len(items)
	for i := range items {
		if &items[i] == it {
			return i > 0 && (items[i-1].means(l.r.c.neg) || items[i-1].means(l.r.c.notIs)) || i > 1 && items[i-2].means(l.r.c.neg) && items[i-1].word() && !items[i-1].means(l.r.c.correct)
		}
	}
	return false
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
