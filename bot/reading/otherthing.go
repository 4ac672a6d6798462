package reading

// Whoever reports one thing often says in the same breath that another is still to come:
// "44 from red into B1, blue later", "north has 18 laying, not been to creek". Of that other
// thing nothing is logged, and it keeps nothing of the first out of the log.

// withoutOthers leaves out the clauses that only say of another thing that its turn has not
// come.
func (l *lattice) withoutOthers(items []item) []item {
	for i := range items {
		if items[i].bound && (items[i].text == "?" || items[i].text == "¿") {
			return items
		}
	}
	clauses := l.split(items)
	if len(clauses) < 2 {
		return items
	}
	gone := map[int]bool{} // first tokens of items
	for n, cl := range clauses {
		var rest []item
		for k := range clauses {
			if k != n && !gone[clauses[k][0].from] {
				rest = append(rest, clauses[k]...)
			}
		}
		if !l.toCome(cl) || !l.ofAnother(cl, rest) || !counts(rest) && !hasAny(rest, eAll) && len(l.r.strongLicences(rest, l.known).weight) == 0 {
			continue
		}
		if m := l.moodOf(rest); m.held() {
			continue
		}
		for i := range cl {
			gone[cl[i].from] = true
		}
	}
	return without(items, gone)
}

// toCome reports whether a clause says that something lies ahead, is put off or has not
// been done.
func (l *lattice) toCome(cl []item) bool {
	c := l.r.c
	m := l.moodOf(cl)
	if m.question || m.hearsay || m.hedge || l.meansAny(cl, c.correct) || l.meansAny(cl, c.ifC) {
		return false
	}
	later, deed := m.plan, false
	for i := range cl {
		it := &cl[i]
		if !it.word() {
			continue
		}
		later = later || it.means(c.snooze) || it.means(c.yet) || it.means(c.claim) || it.means(c.toGo) || it.means(c.then) && i+1 == len(cl)
		deed = deed || it.means(c.aux) || it.means(c.have) || len(l.r.licences(cl[i:i+1], l.known).weight) > 0
	}
	return later || m.neg && deed && !l.meansAny(cl, c.no)
}

// ofAnother reports whether a clause names things of which the others name one of the same
// kind, and not these, and counts nothing.
func (l *lattice) ofAnother(cl, rest []item) bool {
	for i := range cl {
		switch e := cl[i].entity; {
		case e == nil:
		case e.kind == eNumber && !l.isBreeder(e.n):
			return false
		case e.kind != eNumber && e.kind != eYard && e.kind != eBuilder && e.kind != eBatch && e.kind != eBreeder && e.kind != ePin && e.kind != eTime:
			return false
		}
	}
	mine, theirs := l.thingsIn(cl), l.thingsIn(rest)
	for t := range mine {
		same := false
		for x := range theirs {
			if x == t {
				return false
			}
			same = same || x.kind == t.kind || x.isBreeder() && t.isBreeder()
		}
		if !same {
			return false
		}
	}
	return len(mine) > 0
}

// thing is something of the crew's that a clause names.
type thing struct {
	kind entityKind
	name string
	n    int
}

func (t thing) isBreeder() bool { return t.kind == eBreeder || t.kind == ePin }

// thingsIn are the things that items name. "The second" is a batch that may be any.
func (l *lattice) thingsIn(items []item) map[thing]bool {
	out := map[thing]bool{}
	for i := range items {
		it := &items[i]
		switch e := it.entity; {
		case e == nil:
			if it.means(l.r.c.ordinal) && !it.means(l.r.c.harmless) {
				out[thing{kind: eBatch}] = true
			}
		case e.kind == eYard, e.kind == eBuilder, e.kind == ePin:
			out[thing{kind: e.kind, name: e.name}] = true
		case e.kind == eBatch, e.kind == eBreeder:
			out[thing{kind: e.kind, n: e.n}] = true
		case e.kind == eNumber && l.isBreeder(e.n):
			out[thing{kind: eBreeder, n: e.n}] = true
		}
	}
	return out
}
