package reading

// sameUnit reads a number behind an amount as one more of its unit, where it says what
// another thing got: "3 litres to B1 and two to B2".
func (l *lattice) sameUnit(items []item) []item {
	var out []item
	unit := 0.0
	place := func(i int) bool { return i >= 0 && i < len(items) && (items[i].is(eBuilder) || items[i].is(eYard)) }
	for i := range items {
		it := &items[i]
		if it.is(eLitres) {
			unit = it.entity.hi
		}
		n := 0.0
		switch {
		case it.is(eNumber):
			n = float64(it.entity.n)
		case it.word() && it.means(l.r.one):
			n = 1
		}
		if unit == 0 || n == 0 {
			continue
		}
		to := i + 1
		for to < len(items) && items[to].word() && items[to].means(l.r.c.into) {
			to++
		}
		before := place(i-1) && it.is(eNumber) && (i+1 == len(items) || items[i+1].bound)
		if !(to > i+1 && place(to)) && !before {
			continue
		}
		if out == nil {
			out = append([]item{}, items...)
		}
		out[i].senses = nil
		out[i].entity = &entity{kind: eLitres, amount: n * unit, hi: unit}
	}
	if out == nil {
		return items
	}
	return out
}
