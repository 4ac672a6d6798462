package reading

import "yardbell/rules"

// A crew that counts says what became of the others: "27 laying, 4 with nothing". Where the
// two numbers make up what there was on record, the second clause is accounted for by that,
// whatever its words are, in any language.

// withoutRemainder leaves out the clauses that tell of what is missing from a count to the
// number on record. Those that speak of another step, or name a thing, stay.
func (l *lattice) withoutRemainder(items []item) []item {
	items = l.withoutOthers(l.sameUnit(l.withoutExplained(items)))
	clauses := l.split(items)
	if len(clauses) < 2 {
		return items
	}
	gone := map[int]bool{} // first tokens of items
	for n, cl := range clauses[1:] {
		k, ok := l.loneCount(cl)
		lost := hasAny(cl, eLost)
		if !ok || l.speaksOfAnother(cl) {
			continue
		}
		for _, before := range clauses[:n+1] {
			if c, ok := countIn(before); ok && l.addsUp(before, c, k, lost) {
				for i := range cl {
					gone[cl[i].from] = true
				}
				break
			}
		}
	}
	return without(items, gone)
}

// without leaves out the items that begin at some tokens.
func without(items []item, gone map[int]bool) []item {
	if len(gone) == 0 {
		return items
	}
	var out []item
	for _, it := range items {
		if !gone[it.from] {
			out = append(out, it)
		}
	}
	return out
}

// loneCount is the one number of a clause that names nothing else.
func (l *lattice) loneCount(cl []item) (n int, ok bool) {
	said := false // "fed B1 and 7": a number alone tells of nothing missing
	for i := range cl {
		e := cl[i].entity
		switch {
		case e == nil && (cl[i].means(l.r.c.into) || cl[i].means(l.r.c.to) || cl[i].means(l.r.c.at)) && l.leadsNowhere(cl, i):
			return 0, false // "and 16 to Creer": where they are was said
		case e == nil:
			said = said || !cl[i].bound
		case e.kind == eLost && ok && (e.n <= 1 || e.n == n): // "1 was a dud"
		case e.kind == eNone && ok:
			said = true // "the other 2 nothing"
		case (e.kind == eNumber || e.kind == eLost) && !ok:
			n, ok, said = e.n, true, said || e.kind == eLost
		default:
			return 0, false
		}
	}
	return n, ok && said && !l.meansAny(cl, l.r.c.clear) && !l.meansAny(cl, l.r.c.plan) && !l.meansAny(cl, l.r.c.correct)
}

// countIn is the one count of a clause.
func countIn(cl []item) (n int, ok bool) {
	for i := range cl {
		e := cl[i].entity
		if e == nil || e.kind != eNumber && e.kind != eRatio {
			continue
		}
		if ok {
			return 0, false
		}
		n, ok = e.n, true
	}
	return n, ok
}

// speaksOfAnother reports whether a clause plainly tells of a step that the log has lines
// for and that is no count of what is open.
func (l *lattice) speaksOfAnother(cl []item) bool {
	for s := range l.r.strongLicences(cl, l.known).weight {
		if l.r.Built(s) && s != rules.Nuc && (!counted[s] || s == rules.Rogue) {
			return true
		}
	}
	return false
}

// addsUp reports whether a count of a clause and another number are all that there was of
// something that is open, and that the clause may tell of.
func (l *lattice) addsUp(cl []item, c, k int, lost bool) bool {
	if l.denies(cl) || c == 0 || k == 0 {
		return false
	}
	lic := l.r.strongLicences(cl, l.known)
	for _, o := range l.known.Open {
		if lost && o.Step == rules.Move {
			continue // what is lost on the way is of the move
		}
		if counted[o.Step] && o.Had > 0 && c+k == o.Had && (len(lic.weight) == 0 || lic.weight[o.Step] > 0) {
			return true
		}
	}
	return false
}
