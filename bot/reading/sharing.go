package reading

// shareTime gives the time of a message to all its events: one that stands at its head, and
// one that a sentence of several events has but once.
func (l *lattice) shareTime(evs []event, items []item) {
	give := func(from, to int, t item) {
		for i := from; i < to; i++ {
			if !hasAny(evs[i].items, eTime) {
				evs[i].items = append(append([]item{}, evs[i].items...), t)
			}
		}
	}
	if len(items) > 0 && items[0].is(eTime) {
		give(0, len(evs), items[0])
		return
	}
	for from := 0; from < len(evs); {
		to := from + 1
		for to < len(evs) && !l.ended(items, evs[to-1], evs[to]) {
			to++
		}
		var times []item
		for i := from; i < to; i++ {
			for _, it := range evs[i].items {
				if it.is(eTime) {
					times = append(times, it)
				}
			}
		}
		if len(times) == 1 {
			give(from, to, times[0])
		}
		from = to
	}
}

// ended reports whether a sentence ends between two events.
func (l *lattice) ended(items []item, a, b event) bool {
	from, to := lastOf(a.items), firstOf(b.items)
	for i := range items {
		if it := &items[i]; it.bound && it.from >= from && it.from < to && (it.text == "." || it.text == "!" || it.text == ";" || it.text == "\n") {
			return true
		}
	}
	return false
}

// withoutFarewell takes a time off that only says when people meet again: "see you Monday".
func (l *lattice) withoutFarewell(cl []item) []item {
	if len(cl) == 2 && cl[0].word() && cl[0].means(l.r.c.greet) && cl[1].is(eTime) {
		return cl[:1]
	}
	return cl
}

// namesThing reports whether a clause behind "and" names a thing of the work and says
// nothing of it.
func (l *lattice) namesThing(items, cl []item) bool {
	for i := range items {
		if items[i].from == cl[0].from && (i == 0 || !items[i-1].means(l.r.and)) {
			return false
		}
	}
	return l.onlyNoun(cl)
}

// onlyNoun reports whether a clause is a noun of the trade and nothing else: "40 in North
// ready, the nucs" says what was counted before.
func (l *lattice) onlyNoun(cl []item) bool {
	thing := false
	for i := range cl {
		it := &cl[i]
		switch noun := l.isNoun(it); {
		case noun:
			thing = true
		case it.is(eTime), it.means(l.r.c.the), it.means(l.r.one):
		default:
			return false
		}
	}
	return thing
}

// mayBeAhead reports whether an event of a weekday has a verb that tells of what was done
// with an accent alone, which was not typed: "el lunes armo los 40".
func (l *lattice) mayBeAhead(e *event) bool {
	day, accent := false, false
	for i := range e.items {
		it := &e.items[i]
		day = day || it.is(eTime) && it.entity.when.Weekday != 0
		for _, s := range it.senses {
			accent = accent || s.accent && l.r.frames.trade[s.concept]
		}
	}
	return day && accent
}

// isNoun reports whether a word is one of the things that the work is about.
func (l *lattice) isNoun(it *item) bool {
	for _, s := range it.senses {
		if l.r.frames.noun[s.concept] && l.r.frames.trade[s.concept] {
			return true
		}
	}
	return false
}

// firstOf is the token at which items begin, and lastOf the one behind them.
func firstOf(items []item) int {
	at := 1 << 30
	for i := range items {
		at = min(at, items[i].from)
	}
	return at
}

func lastOf(items []item) (at int) {
	for i := range items {
		at = max(at, items[i].to)
	}
	return at
}

// sharePlace gives the place of a last clause that says where all of them are to the counts
// before it, of which none has a place: "25 from 12 and 30 from 7, all in North".
func (l *lattice) sharePlace(evs []event) []event {
	n := len(evs) - 1
	last := &evs[n]
	if n < 2 || !hasAny(last.items, eAll) || counts(last.items) || hasAny(last.items, eBatch, eBreeder, ePin, eTime) || !last.verbless {
		return evs
	}
	var places []item
	for _, it := range last.items {
		switch {
		case it.is(eAll) && it.entity.named:
			return evs
		case it.is(eYard), it.is(eBuilder):
			places = append(places, it)
		case it.is(eAll), it.word() && l.freeWord(&it), it.means(l.r.c.in), it.means(l.r.c.state):
		default:
			return evs
		}
	}
	for i := range evs[:n] {
		if !hasAny(evs[i].items, eNumber) || hasAny(evs[i].items, eYard, eBuilder) {
			return evs
		}
	}
	if len(places) != 1 {
		return evs
	}
	for i := range evs[:n] {
		evs[i].items = append(append([]item{}, evs[i].items...), places...)
	}
	return evs[:n]
}
