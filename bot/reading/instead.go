package reading

import "yardbell/rules"

// instead reads what was said amiss together with what holds: "not 44, 54", "into B1 not
// B2", "at 8:50 not 8:30". It is about the newest line that has the old value, so that the
// sender's last one need not be it.
func (l *lattice) instead(items []item, k ranking, m mood) (Result, bool) {
	if m.plan || m.hearsay || m.hedge {
		return Result{}, false
	}
	var was, now *item
	a := Act{Kind: Amend}
	for i := range items {
		it := &items[i]
		switch {
		case it.entity == nil:
		case l.notThis(items, i):
			if was != nil {
				return Result{}, false
			}
			if i+1 < len(items) && items[i+1].means(l.r.and) {
				return Result{}, false // "37 nor 38", "no B1 and B2"
			}
			was = it
		case it.is(eBatch) && hasAny(items, eNumber, eRatio) && !l.deniedAny(items, eBatch) && a.Batch == 0:
			a.Batch = it.entity.n // of which batch the count was
		default:
			if now != nil {
				return Result{}, false
			}
			now = it
		}
	}
	if was == nil || now == nil {
		if a.Batch == 0 || was == nil {
			return Result{}, false
		}
		a.Batch = 0
		for i := range items {
			if items[i].is(eBatch) {
				now = &items[i] // "batch 1 not 2"
			}
		}
	}
	steps := map[rules.Step]bool{}
	for s := range k.strong(l) {
		steps[s], a.Step = true, s
	}
	last := l.known.Last
	if len(steps) > 1 || !l.replaces(&a, was, now, last) {
		return Result{}, false
	}
	if len(steps) == 0 && last != nil && l.known.Reply == nil {
		steps[last.Act.Step] = true
	}
	if i, ok := l.r.frames.byStep[a.Step]; ok && a.Count != nil && !l.r.frames.list[i].slots["count"] {
		return Result{}, false // "coops 46 not 45": no step of which anything is counted
	}
	danger, soft := l.unexplained(l.uncorrected(items), steps)
	if len(danger) > 0 || len(soft) > 0 && !a.replacesOf(last) {
		return Result{}, false
	}
	if a.Count != nil && (*a.Count*2 < *a.Old || *a.Count > *a.Old*2) {
		return Result{Outcome: Ask, Acts: []Act{a}, Doubts: []string{string(fUnlikely)}, Clear: true}, true // which line has the old value shows whether it is meant
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// notThis reports whether a value is said to be none: a negation stands right before it, small
// words between, or a word behind it says that it is wrong, or what it should be.
func (l *lattice) notThis(items []item, i int) bool {
	c := l.r.c
	if i+1 < len(items) && items[i+1].means(c.wasWrong) {
		return true
	}
	for k := i - 1; k >= 0; k-- {
		it := &items[k]
		switch {
		case !it.word():
			return false
		case it.means(c.neg) && !l.isUnit(it), it.means(c.notIs):
			return true
		case ofTrade(it, &l.r.frames) || !it.means(c.the) && !it.means(c.into) && !it.means(c.to) && !it.means(c.at) && !it.means(c.in):
			return false
		}
	}
	return false
}

// deniedAny reports whether something of a kind is denied.
func (l *lattice) deniedAny(items []item, kind entityKind) bool {
	for i := range items {
		if items[i].is(kind) && l.notThis(items, i) {
			return true
		}
	}
	return false
}

// replaces fills in the old and the new value. It reports false where they are no values
// of one kind.
func (l *lattice) replaces(a *Act, was, now *item, last *Line) bool {
	old, e := was.entity, now.entity
	number := func(it *item) bool { return it.is(eNumber) || it.is(eRatio) }
	switch {
	case number(was) && number(now):
		if last != nil && last.Act.Breeder == old.n && (last.Act.Count == nil || *last.Act.Count != old.n) && l.known.Reply == nil {
			a.Breeder, a.Old = e.n, intPtr(old.n)
			return true
		}
		a.Count, a.Old = intPtr(e.n), intPtr(old.n)
		if now.is(eRatio) {
			a.Of = intPtr(e.of)
		}
	case (now.is(eBreeder) || was.is(eBreeder)) && (number(was) || was.is(eBreeder)) && (number(now) || now.is(eBreeder)):
		a.Breeder, a.Old = e.n, intPtr(old.n)
	case (now.is(eBatch) || was.is(eBatch)) && (number(was) || was.is(eBatch)) && (number(now) || now.is(eBatch)):
		a.Batch, a.Old = e.n, intPtr(old.n)
	case was.is(eBuilder) && now.is(eBuilder):
		a.Builder, a.Was = e.name, &Act{Builder: old.name}
	case was.is(eYard) && now.is(eYard):
		a.Yard, a.Was = e.name, &Act{Yard: old.name}
	case was.is(ePin) && now.is(ePin):
		a.Mark, a.Was = e.name, &Act{Mark: old.name}
	case was.is(eTime) && now.is(eTime):
		w, o := e.when, old.when
		a.When, a.Was = &w, &Act{When: &o}
	default:
		return false
	}
	return true
}

// replacesOf reports whether the old value that is named is that of a line: then it is that
// line which is put right, whatever harmless word stands beside.
func (a *Act) replacesOf(last *Line) bool {
	switch {
	case last == nil:
		return false
	case a.Count != nil && a.Old != nil:
		return last.Act.Count != nil && *last.Act.Count == *a.Old
	case a.Was == nil:
		return false
	}
	return a.Was.Builder != "" && a.Was.Builder == last.Act.Builder || a.Was.Yard != "" && a.Was.Yard == last.Act.Yard || a.Was.Mark != "" && a.Was.Mark == last.Act.Mark
}
