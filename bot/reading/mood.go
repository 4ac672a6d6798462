package reading

// mood is what a message is beside a report: a question, a plan, a denial, hearsay, a
// guess. None of it is ever outvoted.
type mood struct {
	question bool
	plan     bool
	hearsay  bool
	hedge    bool
	neg      bool
}

// held reports whether the message as a whole tells of nothing that was done.
func (m mood) held() bool { return m.question || m.plan || m.hearsay }

// names are the moods that hold.
func (m mood) names() (out []string) {
	for _, x := range []struct {
		on   bool
		name string
	}{{m.question, "question"}, {m.plan, "plan"}, {m.hearsay, "hearsay"}, {m.hedge, "hedge"}, {m.neg, "negation"}} {
		if x.on {
			out = append(out, x.name)
		}
	}
	return out
}

// isUnit reports whether a phrase is one that stands for a whole, so that a "no" in it
// denies nothing.
func (l *lattice) isUnit(it *item) bool {
	for _, s := range it.senses {
		if l.r.frames.unit[s.concept] {
			return true
		}
	}
	return false
}

// moodOf finds the mood of a message.
func (l *lattice) moodOf(items []item) (m mood) {
	c := l.r.c
	first := -1
	for i := range items {
		it := &items[i]
		switch {
		case it.bound:
			m.question = m.question || (it.text == "?" || it.text == "¿") && !l.exclamation(items, i)
			continue
		case it.entity != nil:
			if it.is(eTime) && it.entity.when.Day != nil && *it.entity.when.Day > 0 {
				m.plan = true
			}
			m.hedge = m.hedge || it.is(ePercent) || it.entity.vague
			if first < 0 {
				first = i
			}
			continue
		}
		if first < 0 && !it.means(c.greet) {
			first = i
		}
		if it.means(c.ifC) { // "sí" and "si", the accent left out
			alone := i+1 == len(items) || items[i+1].bound
			m.plan = m.plan || !alone && l.known.Reply == nil
			continue
		}
		if l.isUnit(it) {
			continue
		}
		m.neg = m.neg || it.means(c.neg)
		if (it.means(c.deadWord) || it.means(c.lostWord)) && l.hasNo(it) {
			m.neg = true // "not capped yet", beside no number
		}
		m.plan = m.plan || it.means(c.plan) && !(it.means(c.please) && l.meansAny(items, c.correct))
		m.hearsay = m.hearsay || it.means(c.hearsay) || it.means(c.habit)
		m.hedge = m.hedge || it.means(c.hedge)
		if it.means(c.into) && i+1 < len(items) && items[i+1].is(eSpan) {
			m.plan = true // "in two hours"
		}
		if it.means(c.approx) && i+1 < len(items) && (items[i+1].is(eNumber) || items[i+1].is(eRatio)) {
			m.hedge = true
		}
	}
	if l.meansAny(items, c.dueWord) && !counts(items) {
		strong := false
		for i := range items {
			for _, s := range items[i].senses {
				strong = strong || l.r.frames.strong[s.concept]
			}
		}
		m.question = m.question || !strong
	}
	m.question = m.question || l.meansAny(items, c.qtail) || l.opensQuestion(items, first)
	return m
}

// exclamation reports whether a question mark at i only ends an exclamation: "can you believe it?".
func (l *lattice) exclamation(items []item, i int) bool {
	for _, step := range []int{-1, 1} {
		k := i + step
		for k >= 0 && k < len(items) && items[k].bound && (step < 0 || items[k].text != ",") {
			k += step
		}
		if k >= 0 && k < len(items) && items[k].means(l.r.c.exclaim) {
			return true
		}
	}
	return false
}

// hasNo reports whether a phrase holds a word that alone is a negation.
func (l *lattice) hasNo(it *item) bool {
	for k := it.from; k < it.to; k++ {
		if p := l.r.lex.single[l.toks[k].text]; p != nil && p.means(l.r.c.neg) {
			return true
		}
	}
	return false
}

// opensQuestion reports whether a message opens like a question: with a word that asks,
// behind a preposition too, or with an auxiliary before what it is about.
func (l *lattice) opensQuestion(items []item, first int) bool {
	c := l.r.c
	if first < 0 || !items[first].word() {
		return false
	}
	head, next := &items[first], &item{}
	if first+1 < len(items) {
		next = &items[first+1]
	}
	switch {
	case head.means(c.share) && l.meansAny(items, c.qword), head.means(c.whoWord), head.means(c.status), head.means(c.howMany), head.means(c.whenWord), head.means(c.dueWord), head.means(c.whereWord):
		return true
	case head.means(c.qword):
		return !head.means(c.harmless) || next.word() && l.isThing(next)
	case next.word() && head.means(c.harmless) && (next.means(c.whoWord) || next.means(c.whenWord) || next.means(c.howMany)):
		return !head.means(c.the)
	case next.word() && next.means(c.qword) && !next.means(c.harmless):
		return head.means(c.from) || head.means(c.of) || head.means(c.into) || head.means(c.to) || head.means(c.at) || head.means(c.and) || head.means(c.ok) || head.means(c.greet) || head.means(c.snooze)
	case !head.means(c.aux):
		return false
	case next.is(eNumber):
		return head.means(c.state) && l.isBreeder(next.entity.n)
	case next.entity != nil:
		return !next.is(eRatio) && !next.is(eTime)
	}
	return next.word() && (next.means(c.harmless) || next.means(c.the))
}

// isThing reports whether a word names a thing of the crew's.
func (l *lattice) isThing(it *item) bool {
	c := l.r.c
	return it.means(c.cell) || it.means(c.nuc) || it.means(c.queen) || it.means(c.batchWord) || it.means(c.breederWord) || it.means(c.builderWord)
}
