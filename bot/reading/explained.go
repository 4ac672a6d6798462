package reading

import "slices"

// A crew that counts says how it came to the number: "four out of five took, so that's 36",
// "20 y 16, o sea 36". A fraction or the parts of a sum beside the number that they come to
// are accounted for by that, and so is the number beside parts that have a place each.

// fraction is the part of a whole that a pattern captured, a half where it says no other.
func (l *lattice) fraction(e entity, c captures) (entity, bool) {
	e.n, e.of = 1, 2
	if k, has := c.get("p"); has {
		e.of = int(k.num)
	}
	if k, has := c.get("of"); has {
		e.of = int(k.num)
		for _, o := range l.known.Open {
			if o.Had == e.of {
				return e, false // "8 out of 10" of what are ten
			}
		}
	}
	if k, has := c.get("v"); has {
		e.n = int(k.num)
	}
	return e, e.n > 0 && e.n < e.of && e.of <= 10
}

// withoutExplained leaves out what a number of the message already says.
func (l *lattice) withoutExplained(items []item) []item {
	var numbers []int
	for i := range items {
		if items[i].is(eNumber) || items[i].is(eRatio) {
			numbers = append(numbers, i)
		}
	}
	if len(numbers) == 0 || len(numbers) > mostNumbers {
		return items
	}
	items = slices.Clone(items)
	gone := map[int]bool{}
	numbers = l.fractionsSaid(items, numbers, gone)
	l.sumSaid(items, numbers, gone)
	l.moreThanBefore(items, numbers, gone)
	var out []item
	for i, it := range items {
		if !gone[i] {
			out = append(out, it)
		}
	}
	return out
}

// fractionsSaid puts the number that a fraction comes to in its place, where it is said
// behind it, and marks a fraction that explains a number before it. It returns the numbers
// that are left.
func (l *lattice) fractionsSaid(items []item, numbers []int, gone map[int]bool) []int {
	for i := range items {
		e := items[i].entity
		if e == nil || e.kind != eHalf && e.kind != ePercent {
			continue
		}
		part := entity{n: e.n, of: e.of}
		if e.kind == ePercent {
			part = entity{n: int(e.amount), of: 100}
		}
		for k, at := range numbers {
			switch x := items[at].entity; {
			case gone[at] || !l.comesTo(&part, x.n), l.saysWhere(items, i) && l.saysWhere(items, at) && !l.oneClause(items, i, at):
				continue // "half to North, 18 to Creek"
			case at < i, l.saysWhere(items, at):
				gone[i] = true
			default:
				items[i].entity = x
				gone[at] = true
				if said := l.sumBefore(items, at); said >= 0 {
					gone[said] = true
				}
				numbers = slices.Delete(slices.Clone(numbers), k, k+1)
				numbers = append(numbers, i)
			}
			break
		}
	}
	slices.Sort(numbers)
	return numbers
}

// clauseAt are the bounds of the clause in which an item stands.
func (l *lattice) clauseAt(items []item, at int) (from, to int) {
	from, to = at, at
	joins := func(it *item) bool { return it.bound || it.means(l.r.and) }
	for from > 0 && !joins(&items[from-1]) {
		from--
	}
	for to < len(items) && !joins(&items[to]) {
		to++
	}
	return from, to
}

func (l *lattice) oneClause(items []item, i, k int) bool {
	from, to := l.clauseAt(items, i)
	return k >= from && k < to
}

// saysWhere reports whether the clause of an item names a place or a batch.
func (l *lattice) saysWhere(items []item, at int) bool {
	from, to := l.clauseAt(items, at)
	return hasAny(items[from:to], eYard, eBuilder, eBatch)
}

// sumBefore is the word before a number that says what it comes to, -1 where none stands there.
func (l *lattice) sumBefore(items []item, at int) int {
	i := at - 1
	for i >= 0 && items[i].word() && !items[i].means(l.r.c.sum) && l.freeWord(&items[i]) {
		i--
	}
	if i < 0 || !items[i].means(l.r.c.sum) {
		return -1
	}
	return i
}

// sumBehind is the same word behind a number, in its clause.
func (l *lattice) sumBehind(items []item, at int) int {
	for i := at + 1; i < len(items) && items[i].word(); i++ {
		if items[i].means(l.r.c.sum) {
			return i
		}
	}
	return -1
}

// comesTo reports whether a fraction of what is open, or of the sender's last count, is a
// number.
func (l *lattice) comesTo(part *entity, n int) bool {
	fits := func(had int) bool { return had > 1 && abs(n*part.of-had*part.n) < max(part.of, had*part.of/200) }
	for _, o := range l.known.Open {
		if counted[o.Step] && fits(o.Had) {
			return true
		}
	}
	last := l.known.Last
	return last != nil && last.Act.Count != nil && fits(*last.Act.Count)
}

// sumSaid marks the parts of a sum that is said to be one, or the sum of parts that have a
// place each.
func (l *lattice) sumSaid(items []item, numbers []int, gone map[int]bool) {
	if len(numbers) < 3 {
		return
	}
	for _, at := range numbers {
		said := l.sumBefore(items, at)
		if said < 0 {
			said = l.sumBehind(items, at)
		}
		if said < 0 || !items[at].is(eNumber) {
			continue
		}
		sum := 0
		for _, k := range numbers {
			if k != at {
				sum += items[k].entity.n
			}
		}
		if sum != items[at].entity.n {
			continue
		}
		if len(namesOf(items, eYard)) > 1 || len(namesOf(items, eBuilder)) > 1 || len(namesOf(items, eBreeder)) > 1 {
			gone[at], gone[said] = true, true
			return
		}
		for _, k := range numbers {
			gone[k] = gone[k] || k != at
		}
		gone[said] = true
		return
	}
}

// moreThanBefore marks the first of two numbers by which the second differs from the
// sender's last count: of 27 laying, "+2, found them in the last row. 29".
func (l *lattice) moreThanBefore(items []item, numbers []int, gone map[int]bool) {
	last := l.known.Last
	if len(numbers) != 2 || !l.differs(items, numbers[0]) || last == nil || last.Act.Count == nil || last.Since > freshFor || gone[numbers[0]] {
		return
	}
	was, by, now := *last.Act.Count, items[numbers[0]].entity.n, items[numbers[1]].entity.n
	if was+by == now || was-by == now {
		gone[numbers[0]] = true
	}
}

// differs reports whether a number is said to be more or less than what was told: "2 more",
// "dos menos", "+2".
func (l *lattice) differs(items []item, at int) bool {
	if !items[at].is(eNumber) {
		return false
	}
	says := func(i int) bool {
		return i >= 0 && i < len(items) && (items[i].means(l.r.c.more) || items[i].means(l.r.c.less))
	}
	plus := at > 0 && items[at-1].means(l.r.and) && (at == 1 || items[at-2].bound)
	return plus || says(at-1) || says(at+1) || at+2 < len(items) && !items[at+1].bound && says(at+2)
}
