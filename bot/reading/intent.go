package reading

import (
	"time"

	"yardbell/rules"
)

// freshFor is how long the sender's last line may be put right without being named.
const freshFor = 2 * time.Hour

// talkQuestion is the chance of talk above which a question is left to people.
const talkQuestion = 0.97

func (l *lattice) meansAny(items []item, c concept) bool {
	for i := range items {
		if items[i].means(c) {
			return true
		}
	}
	return false
}

// number reports whether items hold a number that a report may count.
func counts(items []item) bool {
	return hasAny(items, eNumber, eRatio, eBars, eAllBut, eLost)
}

// top is the likeliest class and its chance.
func (r ranking) top() (int, float64) {
	best := 0
	for i, p := range r.p {
		if p > r.p[best] {
			best = i
		}
	}
	return best, r.p[best]
}

func (l *lattice) chance(k ranking, class string) float64 { return k.p[l.r.classOf(class)] }

// words are the items that are words, without those that say nothing.
func (l *lattice) telling(items []item) (out []*item) {
	for i := range items {
		it := &items[i]
		if it.bound || it.word() && l.freeWord(it) {
			continue
		}
		out = append(out, it)
	}
	return out
}

// intent reads what is no report: taking back, putting right, claims, snoozes, skips,
// "done" and "ok" in a reply, questions. ok is false where the message is none of them.
func (l *lattice) intent(items []item, k ranking, m mood) (Result, bool) {
	c := l.r.c
	top, p := k.top()
	is := func(class string, least float64) bool { return top == l.r.classOf(class) && p >= least }
	if m.question {
		return l.question(items, k)
	}
	last := l.known.Last
	if last != nil && last.Since > freshFor {
		last = nil
	}
	reply := l.known.Reply
	asTask := reply != nil && reply.Task
	switch {
	case asTask && l.meansAny(items, c.skip) && !l.hidden(items) && !counts(items) && !l.meansAny(items, c.doneWord) && (!k.speaksOfBuilt(l) || l.opens(items, c.skip)):
		return Result{Outcome: Log, Acts: []Act{{Kind: Skip, Reason: l.reason(items)}}}, true
	case last != nil && !asTask && l.meansAny(items, c.skip) && !l.hidden(items) && !counts(items) && l.only(items, c.skip):
		return Result{Outcome: Log, Acts: []Act{{Kind: Void}}}, true
	case l.meansAny(items, c.void) && !counts(items) && !m.hearsay && (l.only(items, c.void) && !l.hidden(items) || last != nil && l.ownClause(items, c.void)) && (last != nil || l.known.Addressed || is(classVoid, 0.5)):
		return Result{Outcome: Log, Acts: []Act{{Kind: Void}}}, true

	}
	if r, ok := l.amend(items, k, m, last); ok {
		return r, true
	}
	if r, ok := l.completes(items, k, m); ok {
		return r, true
	}
	if asTask {
		if r, ok := l.answer(items, k, m); ok {
			return r, true
		}
	}
	if r, ok := l.claim(items, k, m); ok {
		return r, true
	}
	return l.skipNamed(items, k, m)
}

// skipNamed reads that an open task which is named will not be done.
func (l *lattice) skipNamed(items []item, k ranking, m mood) (Result, bool) {
	if !l.meansAny(items, l.r.c.skip) || m.hearsay || counts(items) {
		return Result{}, false
	}
	var fit []Act
	for _, o := range l.known.Open {
		if k.ev.weight[o.Step] > 0 && (len(fit) == 0 || fit[0].Step != o.Step) {
			fit = append(fit, Act{Kind: Skip, Step: o.Step, Batch: o.Batch})
		}
	}
	if len(fit) != 1 {
		return Result{}, false
	}
	return Result{Outcome: Ask, Acts: fit, Others: [][]Act{fit}}, true
}

// opens reports whether the first word that says something is of a concept.
func (l *lattice) opens(items []item, x concept) bool {
	for i := range items {
		it := &items[i]
		if it.bound || it.word() && l.freeWord(it) {
			continue
		}
		return it.means(x)
	}
	return false
}

// ownClause reports whether a concept fills a clause of its own: "cancel that, had hold of
// the wrong queen".
func (l *lattice) ownClause(items []item, x concept) bool {
	for _, cl := range l.split(items) {
		if l.meansAny(cl, x) && l.only(cl, x) {
			return true
		}
	}
	return false
}

// openSpoken reports whether a step that is open is spoken of.
func (l *lattice) openSpoken(k ranking) bool {
	for _, o := range l.known.Open {
		if k.ev.weight[o.Step] > 0 {
			return true
		}
	}
	return false
}

// only reports whether beside words of a concept nothing stands that says anything.
func (l *lattice) only(items []item, x concept) bool {
	c := l.r.c
	for i := range items {
		it := &items[i]
		switch {
		case it.means(c.neg) && !it.means(x):
			return false
		case it.bound || it.means(x) || it.means(c.greet) || it.means(c.correct) || it.means(c.ok) || it.means(c.yes) || it.means(l.r.one) || it.means(c.lastC) || it.means(c.no) || it.means(c.please) || it.is(eNumber) && it.entity.n == 1:
		case it.word() && l.freeWord(it):
		case it.is(eMember):
		default:
			return false
		}
	}
	return true
}

// speaksOfBuilt reports whether a step that the log has lines for is plainly reported.
func (r ranking) speaksOfBuilt(l *lattice) bool {
	for s := range r.strong(l) {
		if l.r.Built(s) {
			return true
		}
	}
	return false
}

// strong are the steps with a strong licence.
func (r ranking) strong(_ *lattice) map[rules.Step]bool {
	out := map[rules.Step]bool{}
	for s, w := range r.ev.weight {
		if w >= 0.7 {
			out[s] = true
		}
	}
	return out
}

// reason is what stands in a message beside the words that skip.
func (l *lattice) reason(items []item) string {
	from, to := -1, -1
	for i := range items {
		it := &items[i]
		if it.bound || it.means(l.r.c.skip) {
			if from >= 0 && it.means(l.r.c.skip) {
				break
			}
			continue
		}
		a, b := l.toks[it.from].from, l.toks[it.to-1].to
		if from < 0 {
			from = a
		}
		to = b
	}
	if from < 0 || to <= from {
		return ""
	}
	return l.text[from:to]
}

// answer reads a reply to a ping that is no report of its own: later, mine, seen, done.
func (l *lattice) answer(items []item, k ranking, m mood) (Result, bool) {
	c := l.r.c
	top, p := k.top()
	is := func(class string, least float64) bool { return top == l.r.classOf(class) && p >= least }
	done := l.meansAny(items, c.doneWord) || l.meansAny(items, c.yes)
	lic := k.strong(l)
	if l.hidden(items) {
		return Result{}, false
	}
	if l.meansAny(items, c.snooze) && l.meansAny(items, c.claim) || m.neg && !l.meansAny(items, c.snooze) && !counts(items) && !hasAny(items, eNone) {
		return Result{}, false
	}
	if (l.meansAny(items, c.snooze) || is(classLater, 0.6) && l.clear(items) && len(l.telling(items)) <= 3) && !l.meansAny(items, c.doneWord) && len(lic) == 0 && !counts(items) {
		a := l.later(items)
		if !l.clear(items) {
			return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}}, true
		}
		return Result{Outcome: Log, Acts: []Act{a}}, true
	}
	if m.neg && !counts(items) && !hasAny(items, eNone) {
		return Result{}, false
	}
	delete(lic, l.known.Reply.Step)
	if l.meansAny(items, c.claim) && !counts(items) && !done && len(lic) == 0 && len(k.strong(l)) == 0 && !m.hearsay && l.clear(items) && !l.meansAny(items, c.skip) {
		return Result{Outcome: Log, Acts: []Act{{Kind: Claim}}}, true
	}
	// "ok", a thumb: heard, not done.
	heard := false
	for _, it := range l.telling(items) {
		if !it.word() || !it.means(c.ok) && !it.means(c.greet) {
			return Result{}, false
		}
		heard = heard || it.means(c.ok)
	}
	if heard {
		return Result{Outcome: Ask, Acts: []Act{{Kind: Seen}}}, true
	}
	return Result{}, false
}

// later reads how long a ping is to wait.
func (l *lattice) later(items []item) Act {
	a := Act{Kind: Later}
	for i := range items {
		switch e := items[i].entity; {
		case e == nil:
		case e.kind == eSpan:
			a.Span = int(e.span / time.Minute)
		case e.kind == eAge:
			a.Span = int(e.lo * 60)
		case e.kind == eTime:
			w := e.when
			if w.Ago != 0 {
				a.Span = int(w.Ago / time.Minute)
				continue
			}
			a.When = &w
		}
	}
	return a
}

// claim reads who takes a task that is named: "I'll take the move".
func (l *lattice) claim(items []item, k ranking, m mood) (Result, bool) {
	if !l.meansAny(items, l.r.c.claim) || counts(items) || m.hearsay || m.neg || l.hidden(items) {
		return Result{}, false
	}
	top, p := k.top()
	mine := top == l.r.classOf(classMine)
	var fit []Act
	seen := map[rules.Step]bool{}
	for _, o := range l.known.Open {
		if seen[o.Step] {
			continue
		}
		if w, speaks := k.ev.weight[o.Step]; speaks && w <= 0.6 {
			seen[o.Step] = true
			fit = append(fit, Act{Kind: Claim, Step: o.Step})
		}
	}
	switch {
	case len(fit) == 1 && (mine && p > 0.5 || l.clear(items) && l.phrase(items, l.r.c.claim)):
		return Result{Outcome: Log, Acts: fit}, true
	case len(fit) >= 1:
		var others [][]Act
		for _, a := range fit {
			others = append(others, []Act{a})
		}
		return Result{Outcome: Ask, Acts: fit[:1], Others: others[:min(3, len(others))]}, true
	case mine && p > 0.6 && len(k.ev.weight) == 0:
		return Result{Outcome: Log, Acts: []Act{{Kind: Claim}}}, true
	}
	return Result{}, false
}

// phrase reports whether a concept is said in more than one word.
func (l *lattice) phrase(items []item, x concept) bool {
	for i := range items {
		if items[i].means(x) && items[i].to > items[i].from+1 {
			return true
		}
	}
	return false
}

// clear reports whether no word is left that nobody knows or that speaks of other things.
func (l *lattice) clear(items []item) bool {
	for i := range items {
		it := &items[i]
		if it.unknown() || it.means(l.r.c.foreign) {
			return false
		}
	}
	return true
}

// amend reads a correction: a new value of one slot of the sender's last line.
func (l *lattice) amend(items []item, k ranking, m mood, last *Line) (Result, bool) {
	if last == nil || m.plan || m.hearsay {
		return Result{}, false
	}
	c := l.r.c
	corrects := l.meansAny(items, c.correct)
	says := corrects || m.neg && hasAny(items, eNumber, eYard, eBuilder, eBreeder, ePin)
	pa := l.chance(k, classAmend)
	strong := k.strong(l)
	fragment := len(strong) == 0
	if !(pa > 0.5 || says && (fragment || strong[last.Act.Step])) {
		return Result{}, false
	}
	a, n := l.newValues(items, last)
	if n == 0 {
		if says && pa > 0.5 {
			return Result{Outcome: Ask, Acts: nil, Doubts: []string{"no-value"}}, true
		}
		return Result{}, false
	}
	if a.Count != nil && last.Act.Count != nil && last.Act.Step != rules.Rogue {
		if o, v := *last.Act.Count, *a.Count; v*2 < o || v > o*2 {
			return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}, Doubts: []string{string(fUnlikely)}}, true
		}
	}
	res := Result{Outcome: Log, Acts: []Act{a}}
	if !says && a.Count != nil && numbersIn(items) > 1 {
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}}, true // two numbers and no word that says which is right
	}
	if hasAny(items, ePercent, eBars, eLost, eAllBut, eTemp, eAmount, eHalf) || hasAny(items, eSpan) && a.AgeLo == nil {
		n++ // a number that no slot of a correction takes
	}
	danger, soft := l.unexplained(l.uncorrected(items), map[rules.Step]bool{last.Act.Step: true})
	switch {
	case !says && pa <= 0.7, n > 1, len(danger) > 0, !corrects && (m.hedge || len(soft) > 0):
		res.Outcome, res.Others, res.Unread = Ask, [][]Act{{a}}, append(danger, soft...)
	}
	return res, true
}

// completes reads the number that the bot asked for: alone, or with words of the step.
func (l *lattice) completes(items []item, k ranking, m mood) (Result, bool) {
	p := l.known.Asked
	if p == nil || p.Need != "count" || l.known.Last == nil || m.held() || m.neg || m.hedge || !hasAny(items, eNumber, eRatio, eAll, eNone, eAllBut) {
		return Result{}, false
	}
	for s := range k.strong(l) {
		if s != p.Step {
			return Result{}, false
		}
	}
	if hasAny(items, eYard, eBuilder, eBatch, eBreeder, eTime, ePin, eSpan, eAge, eLitres, ePercent) {
		return Result{}, false
	}
	f := l.fill(p.Step, items)
	if f.act.Count == nil && !f.act.All {
		return Result{}, false
	}
	for _, x := range f.flags {
		if !gaps[x] {
			return Result{}, false
		}
	}
	danger, soft := l.unexplained(items, map[rules.Step]bool{p.Step: true})
	a := Act{Kind: Amend, Step: p.Step, Count: f.act.Count, Of: f.act.Of, All: f.act.All}
	if len(danger)+len(soft) > 0 {
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}, Unread: append(danger, soft...)}, true
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// numbersIn is how many numbers stand in a message.
func numbersIn(items []item) int {
	return len(entitiesOf(items)[eNumber]) + len(entitiesOf(items)[eRatio])
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
	denied := map[int]bool{} // "not 38, 36"
	for _, it := range es[eNumber] {
		if l.deniedAt(items, it) {
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
	for _, it := range breeders {
		if l.deniedAt(items, it) {
			denied[it.entity.n] = true
			continue
		}
		setBreeder(it.entity.n)
	}
	if ofBreeder[was.Step] {
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
	n += over // two new numbers: which of them is asked
	if best >= 0 {
		a.Count, n = intPtr(best), n+1
		for _, it := range es[eRatio] {
			if it.entity.n == best {
				a.Of = intPtr(it.entity.of)
			}
		}
	}
	if a.Old != nil && (was.Count == nil || *a.Old != *was.Count) && !ofBreeder[was.Step] {
		return a, 0 // it says that another count was wrong
	}
	place := was.Yard
	for _, it := range es[eYard] {
		if it.entity.name != place && a.Yard == "" {
			a.Yard, n = it.entity.name, n+1
		}
	}
	for _, it := range es[eBuilder] {
		if it.entity.name != was.Builder && a.Builder == "" {
			a.Builder, n = it.entity.name, n+1
		}
	}
	for _, it := range es[ePin] {
		if it.entity.name != was.Mark && a.Mark == "" {
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
	if len(es[eTime]) > 0 {
		w := When{}
		fine := true
		for _, it := range es[eTime] {
			fine = w.join(it.entity.when) && fine
		}
		if fine && !w.Now && !(w.Clock == nil && w.Ago == 0 && w.Weekday == 0 && w.Month == 0 && w.Day != nil && *w.Day == 0) {
			a.When, n = &w, n+1
		}
	}
	return a, n
}

// deniedAt reports whether a negation stands right before a number.
func (l *lattice) deniedAt(items []item, it *item) bool {
	for i := range items {
		if &items[i] == it {
			return i > 0 && (items[i-1].means(l.r.c.neg) || items[i-1].means(l.r.c.correct) && l.hasNo(&items[i-1])) || i > 1 && items[i-2].means(l.r.c.neg) && items[i-1].word()
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

// question reads what is asked of the bot. A question between people is none of it.
func (l *lattice) question(items []item, k ranking) (Result, bool) {
	c := l.r.c
	has := func(x concept) bool { return l.meansAny(items, x) }
	named := hasAny(items, eYard, eBuilder, eBatch, eBreeder)
	trade := false
	for i := range items {
		for _, s := range items[i].senses {
			trade = trade || l.r.frames.trade[s.concept]
		}
	}
	asks := has(c.qword) || has(c.whoWord) || has(c.howMany) || has(c.whenWord) || has(c.dueWord)
	if !(trade || named || has(c.dueWord) || has(c.breederWord)) || !(asks || l.known.Addressed || l.chance(k, classQuery) > 0.5) {
		return Result{}, false
	}
	if l.chance(k, classTalk) > talkQuestion && !l.known.Addressed && !(has(c.whoWord) && l.openSpoken(k)) {
		return Result{}, false
	}
	a := Act{Kind: Query}
	es := entitiesOf(items)
	step, best := rules.Step(""), 0.0
	for s, w := range k.ev.weight {
		if p := k.p[l.r.classOf(string(s))]; w > 0 && (best == 0 || p > best) {
			step, best = s, p
		}
	}
	for _, it := range es[eTime] {
		w := it.entity.when
		a.When = &w
	}
	a.Step = step
	breeder := 0
	for _, it := range es[eBreeder] {
		breeder = it.entity.n
	}
	for _, it := range es[eNumber] {
		if l.isBreeder(it.entity.n) {
			breeder = it.entity.n
		}
	}
	for _, it := range es[eBatch] {
		a.Batch = it.entity.n
	}
	for _, it := range es[eBuilder] {
		a.Builder = it.entity.name
	}
	for _, it := range es[eYard] {
		a.Yard = it.entity.name
	}
	switch {
	case has(c.whoWord):
		if !l.openSpoken(k) && !named && !has(c.cell) && !has(c.nuc) && !l.known.Addressed {
			return Result{}, false
		}
		a.Topic = AskWho
	case has(c.breederWord) && breeder == 0 && step == "" && a.Batch == 0:
		a.Topic = AskBreeders
	case has(c.nuc) && a.Yard != "":
		a.Topic = AskYard
	case has(c.nuc) && (has(c.freeWord) || has(c.howMany)):
		a.Topic = AskFree
	case has(c.howMany) && (step != "" || has(c.cell) || has(c.queen)):
		a.Topic = AskCount
	case a.Batch != 0:
		a.Topic = AskBatch
	case a.Builder != "":
		a.Topic = AskBuilder
	case has(c.whenWord) && step != "":
		a.Topic, a.Breeder = AskWhen, breeder
	case breeder != 0:
		a.Topic, a.Breeder = AskBreeder, breeder
	case a.Yard != "":
		a.Topic = AskYard
	case has(c.dueWord) || a.When != nil:
		a.Topic = AskDue
	case step != "":
		a.Topic = AskWhen
	default:
		return Result{}, false
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}
