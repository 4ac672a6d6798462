package reading

import "slices"

// This file reads a reply to a ping that says that its work waits, is let go of, or is
// somebody's. To be asked again costs little, so that a plain word for it is enough whatever
// else stands there, unless the work is said to be done.

// putOff reads later, skip and mine in a reply to a ping.
func (l *lattice) putOff(items []item, k ranking, m mood) (Result, bool) {
	p := l.known.Reply
	if p == nil || !p.Task || m.hearsay || l.saysDone(items, k, m) {
		return Result{}, false
	}
	c := l.r.c
	later, skip := []Act{l.later(items)}, []Act{{Kind: Skip, Reason: l.reason(items)}}
	waits := l.meansAny(items, c.snooze)
	takes := l.asserts(items, c.claim) && !m.neg
	switch {
	case l.asserts(items, c.remind) && !takes && !hasAny(items, eYard, eBuilder):
		return Result{Outcome: Log, Acts: later}, true
	case m.question:
		return Result{}, false
	case l.drops(items) && (!m.neg || !l.meansAny(items, c.check) || l.ownClause(items, c.skip)):
		switch {
		case l.aheadAlone(items):
			return Result{Outcome: Log, Acts: later}, true // "not today, tomorrow morning"
		case waits || takes || hasAny(items, eSpan, eTime):
			return Result{Outcome: Ask, Acts: skip, Others: [][]Act{later, skip}}, true // what is let go is never pinged again
		}
		return Result{Outcome: Log, Acts: skip}, true
	case takes && l.onlyAfterwards(items) && l.plainClaim(items) && (l.clear(items) || l.phrase(items, c.claim)):
		return Result{Outcome: Log, Acts: []Act{{Kind: Claim}}}, true
	case takes:
		return Result{}, false
	case waits && !l.meansAny(items, c.yet) && (l.clear(items) || l.opens(items, c.snooze) || l.ownClause(items, c.snooze)), l.aheadAlone(items) && (m.neg || m.plan || l.meansAny(items, c.skipWhy)):
		return Result{Outcome: Log, Acts: later}, true
	case waits, l.meansAny(items, c.skipWhy):
		skip[0].Reason = l.typed(items)
		return Result{Outcome: Ask, Acts: skip, Others: [][]Act{later, skip}}, true // a reason alone: not now, or not at all
	}
	return Result{}, false
}

// drops reports whether a word lets the work go. One that takes back is of the sender's last
// line, where that is fresh.
func (l *lattice) drops(items []item) bool {
	last := l.known.Last
	return l.asserts(items, l.r.c.skip) || (last == nil || last.Since > freshFor) && l.asserts(items, l.r.c.void) && !slices.ContainsFunc(items, func(it item) bool { return it.means(l.r.c.void) && l.hasNo(&it) })
}

// saysDone reports whether a reply may tell of work done: by a word for it, by a count, or
// by the work itself, where nothing is denied.
func (l *lattice) saysDone(items []item, k ranking, m mood) bool {
	if counts(items) || hasAny(items, eNone) || hasAny(items, eAll) && !l.drops(items) {
		return true
	}
	return !m.neg && (l.meansAny(items, l.r.c.doneWord) || k.speaksOfBuilt(l) && !l.opens(items, l.r.c.skip))
}

// asserts reports whether a concept is said, and not denied right before. A "no" that stands
// for a whole answer denies nothing: "no remind me at six".
func (l *lattice) asserts(items []item, x concept) bool {
	l.work += len(items)
	for i := range items {
		if items[i].means(x) && !(i > 0 && items[i-1].means(l.r.c.neg) && (!items[i-1].means(l.r.c.no) || items[i-1].means(l.r.c.aux)) && !l.isUnit(&items[i-1])) {
			return true
		}
	}
	return false
}

// onlyAfterwards reports whether what speaks of later says no more than when: "I'll do it
// after lunch".
func (l *lattice) onlyAfterwards(items []item) bool {
	for i := range items {
		if items[i].means(l.r.c.snooze) && !items[i].means(l.r.c.afterwards) {
			return false
		}
	}
	return true
}

// aheadAlone reports whether a clause says no more than a time to come.
func (l *lattice) aheadAlone(items []item) bool {
	for _, cl := range l.split(items) {
		ahead, other := false, false
		for i := range cl {
			it := &cl[i]
			switch {
			case it.is(eTime):
				w := it.entity.when
				ahead = ahead || w.Day != nil && *w.Day > 0 || w.Weekday != 0
			case it.bound, it.word() && l.freeWord(it), it.means(l.r.c.please), it.means(l.r.c.snooze):
			default:
				other = true
			}
		}
		if ahead && !other {
			return true
		}
	}
	return false
}

// untilOf are the times that say when to ask again: behind the word for it where some stand
// there, and none that is denied.
func (l *lattice) untilOf(items []item) []item {
	from := 0
	for i := range items {
		if items[i].means(l.r.c.remind) && hasAny(items[i:], eTime, eSpan, eAge) {
			from = i
			break
		}
	}
	var out []item
	for i := from; i < len(items); i++ {
		it := &items[i]
		if !it.is(eTime) && !it.is(eSpan) && !it.is(eAge) {
			continue
		}
		if l.notThis(items, i) || it.is(eTime) && i+1 < len(items) && items[i+1].means(l.r.c.neg) {
			continue
		}
		out = append(out, *it)
	}
	return out
}
