package reading

import (
	"slices"
	"time"

	"yardbell/rules"
)

// freshFor is how long the sender's last line may be put right without being named.
const freshFor = 2 * time.Hour

// talkQuestion is the chance of talk above which a question is left to people.
const talkQuestion = 0.97

func (l *lattice) meansAny(items []item, c concept) bool {
	l.work += len(items)
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
	if r, ok := l.putOff(items, k, m); ok {
		return r, true
	}
	if m.question {
		return l.question(items, k)
	}
	if r, ok := l.voidOf(items, m); ok {
		return r, true
	}
	if r, ok := l.barsOf(items, m); ok {
		return r, true
	}
	if r, ok := l.takeBackBatch(items, m); ok {
		return r, true
	}
	if r, ok := l.takeBack(items, k, m); ok {
		return r, true
	}
	if r, ok := l.short(items, k, m); ok {
		return r, true
	}
	last := l.known.Last
	if last != nil {
		last = l.putRight(items, k, last)
	}
	reply := l.known.Reply
	asTask := reply != nil && reply.Task
	switch {
	case last != nil && !asTask && l.meansAny(items, c.skip) && !counts(items) && l.only(items, c.skip):
		// "forget it" right after a line: of that line, or of something else.
		return Result{Outcome: Ask, Acts: []Act{{Kind: Void}}, Others: [][]Act{{{Kind: Void}}}}, true
	case l.asserts(items, c.void) && !(items[0].means(c.neg) && items[0].means(c.aux)) && !counts(items) && !m.hearsay && (l.only(items, c.void) || last != nil && l.ownClause(items, c.void)) && (last != nil || l.known.Addressed || is(classVoid, 0.5)):
		return Result{Outcome: Log, Acts: []Act{{Kind: Void}}}, true

	}
	if r, ok := l.instead(items, k, m); ok {
		return r, true
	}
	if !l.meansAny(items, c.correct) {
		if r, ok := l.completes(items, k, m); ok {
			return r, true
		}
	}
	if r, ok := l.amend(items, k, m, last); ok {
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
	if !l.meansAny(items, l.r.c.skip) {
		return Result{}, false
	}
	head := l.beforeWhy(items)
	lic := l.r.licences(head, l.known)
	plain := l.opens(head, l.r.c.skip) && l.clear(head) && !l.denies(head) && !l.moodOf(head).hearsay && len(lic.weight) > 0 && !l.countsMore(head)
	if !plain && (l.countsMore(items) || m.hearsay || l.justTalk(k)) {
		return Result{}, false
	}
	if !plain {
		lic = k.ev
	}
	of := ofNamed(head)
	var fit []Act
	for _, o := range l.known.Open {
		if lic.weight[o.Step] > 0 && o.of(of) && (len(fit) == 0 || fit[0].Step != o.Step) {
			fit = append(fit, Act{Kind: Skip, Step: o.Step, Batch: o.Batch, Breeder: of.Breeder})
		}
	}
	if plain && len(fit) == 0 && len(lic.weight) == 1 {
		a := of // nothing of it is open yet, or any more: a line that says "skip" is answered all the same
		a.Kind = Skip
		for a.Step = range lic.weight {
			break
		}
		fit = []Act{a}
	}
	switch {
	case len(fit) != 1:
		return Result{}, false
	case plain:
		fit[0].Reason = l.typed(items[len(head):])
		return Result{Outcome: Log, Acts: fit}, true
	}
	return Result{Outcome: Ask, Acts: fit, Others: [][]Act{fit}}, true
}

// beforeWhy is the first clause of a message that lets work go. What follows is why, in
// words of any kind, of others too: "skip accept batch 1, Ash says it's too cold".
func (l *lattice) beforeWhy(items []item) []item {
	for i := range items {
		if items[i].bound || i > 0 && items[i].means(l.r.c.reason) {
			return items[:i]
		}
	}
	return items
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

// reason is what stands in a message beside the word that skips: behind it, else before.
func (l *lattice) reason(items []item) string {
	for i := range items {
		if !items[i].means(l.r.c.skip) {
			continue
		}
		if behind := l.typed(items[i+1:]); behind != "" {
			return behind
		}
		return l.typed(items[:i])
	}
	return ""
}

// answer reads a reply to a ping that is no report of its own: later, mine, seen, done.
func (l *lattice) answer(items []item, k ranking, m mood) (Result, bool) {
	c := l.r.c
	top, p := k.top()
	is := func(class string, least float64) bool { return top == l.r.classOf(class) && p >= least }
	done := l.meansAny(items, c.doneWord) || l.meansAny(items, c.yes)
	lic := k.strong(l)
	if l.meansAny(items, c.snooze) && l.meansAny(items, c.claim) || m.neg && !l.meansAny(items, c.snooze) && !counts(items) && !hasAny(items, eNone) {
		return Result{}, false
	}
	if is(classLater, 0.6) && l.clear(items) && len(l.telling(items)) <= 3 && !l.meansAny(items, c.doneWord) && len(lic) == 0 && !counts(items) {
		later := []Act{l.later(items)}
		if len(items) == 1 && items[0].is(eSpan) && (l.toks[items[0].from].isNum || l.isNumberWord(l.toks[items[0].from].text)) {
			return Result{Outcome: Ask, Acts: later, Others: [][]Act{later}}, true // "2 hours": in two, or for two
		}
		return Result{Outcome: Log, Acts: later}, true
	}
	if m.neg && !counts(items) && !hasAny(items, eNone) {
		return Result{}, false
	}
	delete(lic, l.known.Reply.Step)
	if l.meansAny(items, c.claim) && !counts(items) && !done && len(lic) == 0 && len(k.strong(l)) == 0 && !m.hearsay && l.clear(items) && !l.meansAny(items, c.skip) && l.plainClaim(items) {
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
	times := l.untilOf(items)
	for i := range times {
		switch e := times[i].entity; {
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
			if w.Now {
				continue
			}
			if a.When != nil {
				if both := *a.When; both.join(w) {
					w = both // "today", "at six"
				}
			}
			a.When = &w
		}
	}
	return a
}

// claim reads who takes a task that is named: "I'll take the move".
func (l *lattice) claim(items []item, k ranking, m mood) (Result, bool) {
	if !l.meansAny(items, l.r.c.claim) || l.countsMore(items) || m.hearsay || m.neg {
		return Result{}, false
	}
	top, p := k.top()
	mine := top == l.r.classOf(classMine)
	of := ofNamed(items)
	take := func(s rules.Step) Act {
		a := of
		a.Kind, a.Step = Claim, s
		return a
	}
	later := (m.plan || l.laterToday(items)) && !l.stageOf(items).done
	var fit, spoken []Act
	noun := len(k.ev.weight) == 0 && mine && p > 0.5 // "the graft", of which nothing is told
	seen := map[rules.Step]bool{}
	for _, o := range l.known.Open {
		w, speaks := k.ev.weight[o.Step]
		if noun {
			speaks = l.about(items, l.r.frames.list[l.r.frames.byStep[o.Step]])
		}
		switch {
		case seen[o.Step] || !speaks || !o.of(of):
			continue
		case w <= 0.6 || later:
			fit = append(fit, take(o.Step)) // spoken of as a thing, or as ahead: nothing is done
		default:
			spoken = append(spoken, take(o.Step))
		}
		seen[o.Step] = true
	}
	switch {
	case len(fit) == 1 && (mine && p > 0.5 || l.clear(items) && l.phrase(items, l.r.c.claim)) && l.plainClaim(items):
		return Result{Outcome: Log, Acts: fit}, true
	case len(fit) >= 1 && !noun && !l.justTalk(k):
		var others [][]Act
		for _, a := range fit {
			others = append(others, []Act{a})
		}
		return Result{Outcome: Ask, Acts: fit[:1], Others: others[:min(3, len(others))]}, true
	case mine && p > 0.6 && len(k.ev.weight) == 0 && l.plainClaim(items):
		return Result{Outcome: Log, Acts: []Act{take("")}}, true
	case mine && p > 0.5 && l.only(items, l.r.c.claim) && l.phrase(items, l.r.c.claim),
		len(fit) == 0 && len(spoken) == 0 && l.clear(items) && l.phrase(items, l.r.c.claim) && l.speaksTrade(items) && !l.justTalk(k):
		a := take("")
		if len(k.ev.weight) == 1 {
			for a.Step = range k.ev.weight { // it may be ahead of its ping
				break
			}
		}
		return Result{Outcome: Ask, Acts: []Act{a}, Others: [][]Act{{a}}}, true // "I got the graft"
	case len(fit) == 0 && len(spoken) == 1 && l.opens(items, l.r.c.claim) && l.phrase(items, l.r.c.claim) && !l.meansAny(items, l.r.c.doneWord):
		return Result{Outcome: Ask, Acts: spoken, Others: [][]Act{spoken}}, true // "I got the search of B1": taken, or done
	}
	return Result{}, false
}

// laterToday reports whether a part of today is named that has not begun.
func (l *lattice) laterToday(items []item) bool {
	return slices.ContainsFunc(items, func(it item) bool {
		return it.is(eTime) && it.entity.when.Half == "pm" && it.entity.when.Clock == nil && (it.entity.when.Day == nil || *it.entity.when.Day == 0) && l.known.Now.Hour() < 12
	})
}

// ofNamed is what items name of the crew's, where it is one thing of its kind: the batch, else
// the breeder, else the builder.
func ofNamed(items []item) (a Act) {
	es := entitiesOf(items)
	switch {
	case len(es[eBatch]) == 1:
		a.Batch = es[eBatch][0].entity.n
	case len(es[eBreeder]) == 1:
		a.Breeder = es[eBreeder][0].entity.n
	case len(es[eBuilder]) == 1:
		a.Builder = es[eBuilder][0].entity.name
	case len(es[eNumber]) == 1:
		a.Breeder = es[eNumber][0].entity.n // of a claim, which counts nothing: "mine, graft 7"
	}
	return a
}

// of reports whether an open task may be one of what an act names.
func (o Expect) of(a Act) bool {
	return (a.Batch == 0 || o.Batch == a.Batch) && (a.Breeder == 0 || o.Breeder == a.Breeder) && (a.Builder == "" || o.Builder == "" || o.Builder == a.Builder)
}

// countsMore reports whether items hold a number that names no breeder of the crew: "I take
// the graft of 21" counts nothing.
func (l *lattice) countsMore(items []item) bool {
	if hasAny(items, eRatio, eBars, eAllBut, eLost) {
		return true
	}
	return slices.ContainsFunc(items, func(it item) bool { return it.is(eNumber) && !l.isBreeder(it.entity.n) })
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

// plainClaim reports whether a claim says nothing beside who does it: no number, no word
// that may be another; and where the work is told as done, the word for "mine" is one that
// says nothing else.
func (l *lattice) plainClaim(items []item) bool {
	if l.meansAny(items, l.r.c.yet) {
		return false
	}
	plain := false
	for i := range items {
		it := &items[i]
		plain = plain || it.means(l.r.c.claim) && !it.means(l.r.c.harmless)
		if it.is(eBreeder) && !l.isBreeder(it.entity.n) || it.is(eSpan) {
			return false
		}
	}
	if plain {
		return true
	}
	for i := range items {
		if it := &items[i]; it.word() && !l.freeWord(it) && !it.means(l.r.c.yes) && !it.means(l.r.c.ok) && !it.means(l.r.c.greet) {
			return false // "yo las paso": one letter from "ya" and from "no"
		}
	}
	return true
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
