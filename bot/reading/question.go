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

// queried is what a question names.
type queried struct {
	act      Act
	breeders int  // how many breeders it names
	strong   bool // a step is plainly spoken of
	things   bool // cells, nucs, queens, a batch or a breeder are spoken of
}

// named reports whether something of the crew's is named.
func (q queried) named() bool {
	return q.breeders > 0 || q.act.Batch != 0 || q.act.Builder != "" || q.act.Yard != ""
}

// aboutWeight is what a noun counts for the step that a question is of.
const aboutWeight = 0.3

// about reports whether a noun makes a question one of a step.
func (l *lattice) about(items []item, f *frame) bool {
	for i := range items {
		for _, s := range items[i].senses {
			if f.about[s.concept] {
				return true
			}
		}
	}
	return false
}

// askedOf finds what a question names.
func (l *lattice) askedOf(items []item, k ranking) queried {
	c := l.r.c
	q := queried{act: Act{Kind: Query}}
	best := 0.0
	for _, f := range l.r.frames.list {
		w := k.ev.weight[f.step]
		q.strong = q.strong || w >= 0.7
		if w == 0 && l.about(items, f) {
			w = aboutWeight
		}
		if p := k.p[l.r.classOf(string(f.step))] + w; w > 0 && p > best {
			q.act.Step, best = f.step, p
		}
	}
	for i := range items {
		it := &items[i]
		switch {
		case it.is(eTime):
			w := it.entity.when
			q.act.When = &w
		case it.is(eBreeder) && (l.isBreeder(it.entity.n) || !l.meansAny(items, c.howMany)), it.is(eNumber) && l.isBreeder(it.entity.n) && !it.entity.dozens:
			q.breeders++
			q.act.Breeder = it.entity.n
		case it.is(eBatch):
			q.act.Batch = it.entity.n
		case it.is(eBuilder):
			q.act.Builder = it.entity.name
		case it.is(eYard):
			q.act.Yard = it.entity.name
		case it.is(ePercent), it.means(c.share):
			q.act.Value = ShareAsked
		}
		q.things = q.things || it.word() && l.isThing(it)
		for _, s := range it.senses {
			q.act.Done = q.act.Done || s.form == formDone && l.r.frames.strong[s.concept]
		}
	}
	return q
}

// question reads what is asked of the bot. A question between people is none of it.
func (l *lattice) question(items []item, k ranking) (Result, bool) {
	c := l.r.c
	has := func(x concept) bool { return l.meansAny(items, x) }
	q := l.askedOf(items, k)
	if !l.known.Addressed && (l.betweenPeople(items, q) || l.beside(items, q)) {
		return Result{}, false
	}
	a := q.act
	asks := has(c.qword) || has(c.whoWord) || has(c.howMany) || has(c.whenWord) || has(c.dueWord) || has(c.whereWord)
	sure := l.known.Addressed || q.named() || q.strong || has(c.dueWord) || asks && (q.things || a.Step != "" && l.clear(items) && !has(c.whoWord) || (has(c.whereWord) || has(c.howMany) && l.chance(k, classQuery) > 0.5) && counts(items)) || q.things && l.questionSign()
	likely := l.speaksTrade(items) && (asks || l.chance(k, classQuery) > 0.5) && (l.chance(k, classTalk) <= talkQuestion || has(c.whoWord) && l.openSpoken(k))
	if !sure && !likely {
		return Result{}, false
	}
	switch {
	case q.breeders > 1 && has(c.dueWord):
		a.Topic, a.Breeder, a.When = AskDue, 0, today(a.When)
	case has(c.whoWord):
		if !l.openSpoken(k) && !q.named() && a.Step == "" && !q.things && !l.known.Addressed {
			return Result{}, false
		}
		a.Topic = AskWho
	case has(c.breederWord) && q.breeders == 0 && a.Step == "" && a.Batch == 0 && !has(c.howMany):
		a.Topic = AskBreeders
	case has(c.nuc) && a.Yard != "":
		a.Topic = AskYard
	case has(c.nuc) && has(c.freeWord), has(c.nuc) && has(c.howMany) && !l.known.expects(rules.Nucs):
		a.Topic = AskFree
	case a.Value == ShareAsked, has(c.howMany) && (a.Step != "" || q.things || q.named() || counts(items)) && !has(c.whenWord):
		a.Topic = AskCount
	case a.Batch != 0:
		a.Topic = AskBatch
	case q.breeders > 0 && (has(c.batchWord) || has(c.status) && a.Step != "" && !l.known.expects(a.Step)):
		a.Topic = AskCount
	case q.breeders > 0 && has(c.whenWord) && q.strong:
		a.Topic = AskWhen
	case q.breeders > 0:
		a.Topic = AskBreeder
	case has(c.whenWord) && a.Step != "" && l.foretells(items):
		return Result{}, false
	case a.Builder != "" && a.Step != "" && q.strong:
		a.Topic = AskWhen
	case a.Builder != "":
		a.Topic = AskBuilder
	case has(c.whenWord) && a.Step != "":
		a.Topic = AskWhen
	case a.Yard != "":
		a.Topic = AskYard
	case has(c.dueWord) || a.When != nil && !q.strong:
		a.Topic = AskDue
		if a.When == nil {
			a.When = l.dayWithin(items)
		}
	case has(c.whereWord) && (q.things || counts(items)):
		a.Topic = AskCount
	case a.Step != "" && (q.strong || l.known.Addressed || l.namesNoun(items)):
		a.Topic = AskWhen
	case q.things && (asks || l.known.Addressed):
		a.Topic, a.Step = AskCount, ""
	default:
		return Result{}, false
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// dayWithin is the day that a phrase for what is due has in it: "what's up tomorrow".
func (l *lattice) dayWithin(items []item) *When {
	for i := range items {
		if !items[i].means(l.r.c.dueWord) {
			continue
		}
		for _, t := range l.toks[items[i].from:items[i].to] {
			p := l.r.lex.single[t.text]
			if p == nil {
				continue
			}
			for _, s := range p.senses {
				if s.concept == l.r.day {
					d := int(atof(s.value))
					return &When{Day: &d}
				}
			}
		}
	}
	return nil
}

// today is the day that was named, else today.
func today(w *When) *When {
	if w == nil {
		w = &When{Day: intPtr(0)}
	}
	return w
}

// beside reports whether a question is about things that are none of the crew's work.
func (l *lattice) beside(items []item, q queried) bool {
	if q.named() || q.things {
		return false
	}
	if i, ok := l.r.frames.byStep[q.act.Step]; ok && hasAny(items, ePin) && !l.r.frames.list[i].slots["mark"] {
		return true // what somebody brought is of a colour: it is no pin
	}
	for i := range items {
		if items[i].means(l.r.c.foreign) && !l.isTrade(&items[i]) {
			return true
		}
	}
	return false
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
