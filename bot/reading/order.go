package reading

// This file reads orders in plain words: how many queens or cells somebody wants, by a day
// that lies ahead. The rows "loose" of commands.txt say which parts there are; they stand
// anywhere in a message, in any order. Nothing is logged by an order: it is answered with
// what would fill it.

// orderFrom is how far ahead, in days, the day of an order lies at least: what is wanted
// sooner is no round of grafting.
const orderFrom = 2

// span is where a part of a loose row stands.
type span struct {
	from, end int
	caps      captures
}

// order reads an order in plain words, or the question whether it can be filled.
func (l *lattice) order() (Result, bool) {
	if l.known.Reply != nil || l.known.Asked != nil && !l.known.Addressed || len(l.toks) > mostCommand {
		return Result{}, false
	}
	items := l.readings()[0]
	if l.meansAny(items, l.r.c.neg) || hasAny(items, eBuilder, eBatch, eRatio, eBars, eLost, eAllBut, eAll) {
		return Result{}, false
	}
	c := l.commandLattice()
	if !c.holdsPhrase(l.r.cmd.customer) && (l.tellsDone(items) || hasAny(items, eYard, eBreeder)) {
		return Result{}, false
	}
	for i := range l.r.cmd.loose {
		row := &l.r.cmd.loose[i]
		a, ok := c.scattered(row)
		if !ok || a.Count == nil || a.Unit == "" || a.When == nil {
			continue
		}
		a.When.Clock, a.When.Half, a.When.Approx = nil, "", false
		if a.When.Ago != 0 || !someDaysAhead(*a.When) {
			continue
		}
		return Result{Outcome: Log, Acts: []Act{a}, Language: l.answerIn(), Addressed: l.known.Addressed || c.spoken, Why: []Piece{{Words: c.raw(0), As: string(row.kind)}}}, true
	}
	return Result{}, false
}

// holdsPhrase reports whether a phrase of a concept stands in a command.
func (l *lattice) holdsPhrase(x concept) bool {
	for _, edges := range l.edges {
		for _, e := range edges {
			if means(e.senses, x) {
				return true
			}
		}
	}
	return false
}

// tellsDone reports whether work is told as done.
func (l *lattice) tellsDone(items []item) bool {
	for i := range items {
		if it := &items[i]; l.isDone(it) && !it.means(l.r.c.mated) && !it.means(l.r.c.laying) {
			return true
		}
	}
	return false
}

// scattered finds the parts of a row wherever they stand, the longest of each, none of them
// over another, and no number beside them.
func (l *lattice) scattered(row *commandRow) (Act, bool) {
	var taken []span
	caps := append(captures{}, row.fixed...)
	for k := range row.elems {
		best, ok := span{}, false
		for i := range l.toks {
			left := mostSteps
			l.match(row.elems[k:k+1], i, nil, &left, func(end int, c captures) {
				s := span{i, end, append(captures{}, c...)}
				if end > i && (!ok || end-i > best.end-best.from) && !s.meets(taken) {
					best, ok = s, true
				}
			})
		}
		if !ok {
			return Act{}, false
		}
		taken = append(taken, best)
		caps = append(caps, best.caps...)
	}
	for i := range l.toks {
		if l.toks[i].isNum && !(span{from: i, end: i + 1}).meets(taken) {
			return Act{}, false
		}
	}
	acts := l.commandActs(row, caps)
	if len(acts) != 1 {
		return Act{}, false
	}
	return acts[0], true
}

// meets reports whether a part stands over one of others.
func (s span) meets(others []span) bool {
	for _, o := range others {
		if s.from < o.end && o.from < s.end {
			return true
		}
	}
	return false
}

// someDaysAhead reports whether a day lies some days ahead: a date, a weekday, so many days.
func someDaysAhead(w When) bool {
	switch {
	case w.Month != 0, w.Date != 0, w.Weekday != 0:
		return w.Ago == 0
	case w.Day != nil:
		return *w.Day >= orderFrom
	}
	return false
}
