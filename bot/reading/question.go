package reading

import (
	"yardbell/rules"
)

// openSpoken reports whether a step that is open is spoken of.
func (l *lattice) openSpoken(k ranking) bool {
	for _, o := range l.known.Open {
		if k.ev.weight[o.Step] > 0 {
			return true
		}
	}
	return false
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
	if !l.known.Addressed && l.betweenPeople(items) {
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
	case has(c.whenWord) && step != "" && l.foretells(items):
		return Result{}, false
	case has(c.whenWord) && step != "":
		a.Topic, a.Breeder = AskWhen, breeder
	case breeder != 0:
		a.Topic, a.Breeder = AskBreeder, breeder
	case a.Yard != "":
		a.Topic = AskYard
	case has(c.dueWord) || a.When != nil:
		a.Topic = AskDue
	case step != "" && (l.known.Addressed || l.namesNoun(items)):
		a.Topic = AskWhen
	default:
		return Result{}, false
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// foretells reports whether a message says what comes after what: "when the first virgin
// hatches we lose the lot".
func (l *lattice) foretells(items []item) bool {
	work := false
	for i := range items {
		it := &items[i]
		if it.bound && (it.text == "?" || it.text == "¿") {
			return false
		}
		if work && (it.means(l.r.c.speaker) || it.means(l.r.c.lostWord) || it.means(l.r.c.lose)) {
			return true
		}
		for _, s := range it.senses {
			work = work || l.r.frames.strong[s.concept]
		}
	}
	return false
}

// namesNoun reports whether a thing of the trade is named: "anybody bring coffee?" is asked
// of people.
func (l *lattice) namesNoun(items []item) bool {
	for i := range items {
		for _, s := range items[i].senses {
			if l.r.frames.noun[s.concept] && s.concept != l.r.c.honey {
				return true
			}
		}
	}
	return hasAny(items, eNumber, eAll, eRest)
}
