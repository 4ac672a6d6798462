package reading

import "yardbell/rules"

// oneTold joins two acts of one step of which one says how many and the other only that it
// is of all: "opened every nuc at North and 31 emerged", "45 grafts in B2, all from 7".
func (d *draft) oneTold() {
	for i := 0; i < len(d.acts); i++ {
		f := &d.acts[i]
		for k := range d.acts {
			g := d.acts[k]
			if k == i || g.act.Step != f.act.Step || g.act.Batch != f.act.Batch || f.act.Count == nil || f.whole || !g.whole && !d.ofAll(g) || !joins(f.act, g.act) {
				continue
			}
			for _, x := range []struct{ to, from *string }{{&f.act.Yard, &g.act.Yard}, {&f.act.Builder, &g.act.Builder}, {&f.act.Mark, &g.act.Mark}} {
				if *x.to == "" {
					*x.to = *x.from
				}
			}
			if f.act.Breeder == 0 {
				f.act.Breeder = g.act.Breeder
			}
			if f.act.When == nil {
				f.act.When = g.act.When
			}
			d.acts = append(d.acts[:k:k], d.acts[k+1:]...)
			d.oneTold()
			return
		}
	}
}

// ofAll reports whether an act of a graft is told of "all" that another counts.
func (d *draft) ofAll(g filled) bool {
	return g.act.Step == rules.Graft && g.act.Count == nil && hasAny(d.items, eAll)
}

// joins reports whether two acts name nothing that differs.
func joins(a, b Act) bool {
	same := func(x, y string) bool { return x == "" || y == "" || x == y }
	if b.Yard == "" && b.Builder == "" && b.Mark == "" && b.Breeder == 0 && b.When == nil {
		return false // "scratch all that"
	}
	return same(a.Yard, b.Yard) && same(a.Builder, b.Builder) && same(a.Mark, b.Mark) && (a.Breeder == 0 || b.Breeder == 0 || a.Breeder == b.Breeder) &&
		(a.When == nil || b.When == nil || *a.When == *b.When)
}

// fullReport reports whether a clause tells of work that is due, done, with how many and
// where: nobody shall believe that it was logged where it was not.
func (l *lattice) fullReport(items []item) bool {
	for _, cl := range l.split(items) {
		ev := l.r.strongLicences(cl, l.known)
		for s := range ev.weight {
			if !ev.exact[s] || ev.weight[s] < 0.99 || !ofBatch[s] || !l.known.expects(s) || l.denies(cl) || l.moodOf(cl).held() {
				continue
			}
			f := l.fill(s, cl)
			fine := f.act.Count != nil && (f.act.Yard != "" || f.act.Builder != "" || f.act.Of != nil)
			for _, x := range f.flags {
				fine = fine && gaps[x]
			}
			if fine {
				return true
			}
		}
	}
	return false
}

// putRightAtOnce leaves out a number that the writer takes back in the same breath:
// "accepted 36 no wait 37".
func (l *lattice) putRightAtOnce(items []item) []item {
	for i := range items {
		if !items[i].is(eNumber) {
			continue
		}
		k, said := i+1, false
		for k < len(items) && (items[k].bound || items[k].word() && (items[k].means(l.r.c.correct) || items[k].means(l.r.c.no))) {
			if items[k].means(l.r.c.notIs) || items[k].means(l.r.c.wasWrong) {
				break // "36 was not 37"
			}
			said = said || items[k].word() && items[k].means(l.r.c.correct)
			k++
		}
		if said && k < len(items) && items[k].is(eNumber) {
			return append(append([]item{}, items[:i]...), items[k:]...)
		}
	}
	return items
}

// outOf reports whether cells are told to come out of a builder, which says of which batch
// they are: "moved all of B2 to North".
func (l *lattice) outOf(items []item, it *item, f *filled) bool {
	if !ofBatch[f.act.Step] {
		return false
	}
	from := false
	for i := range items {
		if &items[i] == it || items[i].from == it.from {
			from = i > 0 && (items[i-1].means(l.r.c.from) || items[i-1].means(l.r.c.of)) && !items[i-1].means(l.r.c.into)
		}
	}
	batch := 0
	for _, o := range l.known.Open {
		if o.Step == f.act.Step && o.Builder == it.entity.name {
			if batch != 0 {
				return false
			}
			batch = o.Batch
		}
	}
	if !from || batch == 0 || f.act.Batch != 0 && f.act.Batch != batch {
		return false
	}
	f.act.Batch, f.act.Out = batch, it.entity.name
	return true
}

// valuesOf is how many values an act puts right.
func valuesOf(a Act) (n int) {
	for _, set := range []bool{a.Count != nil, a.Breeder != 0, a.Builder != "", a.Yard != "", a.Mark != "", a.When != nil, a.Batch != 0, a.Litres != 0, a.AgeLo != nil, a.Bees != nil, a.Customer != "", a.Tags != ""} {
		if set {
			n++
		}
	}
	return n
}

// told are the items without the clauses that only deny other work: "38 accepted, not moved
// to the finisher yet".
func (d *draft) told(steps map[rules.Step]bool) []item {
	l := d.l
	left := map[int]bool{}
	for _, cl := range d.denials {
		lic := l.r.strongLicences(cl, l.known)
		own := len(lic.weight) == 0 || !l.opensDenied(cl) || hasAny(cl, eNumber, eRatio, eLost, eYard, eBatch)
		for s := range lic.weight {
			own = own || steps[s]
		}
		if !own {
			for i := range cl {
				left[cl[i].from] = true
			}
		}
	}
	if len(d.evs) > 0 && !d.evs[0].verbless {
		for _, cl := range l.split(d.items) {
			for i := range cl {
				left[cl[i].from] = left[cl[i].from] || l.restIsBad(cl)
			}
		}
	}
	two := len(d.acts) == 2 && d.acts[0].act.Step == d.acts[1].act.Step
	var out []item
	for _, it := range d.items {
		if !left[it.from] && !(two && it.means(l.r.c.both)) {
			out = append(out, it)
		}
	}
	return out
}

// opensDenied reports whether a clause begins with its negation.
func (l *lattice) opensDenied(cl []item) bool {
	for i := range cl {
		it := &cl[i]
		if it.means(l.r.c.neg) || it.means(l.r.c.yet) {
			return true
		}
		if !it.word() || !l.freeWord(it) {
			return false
		}
	}
	return false
}

// restIsBad reports whether a clause only says that what is left over came to nothing: "31
// of 34 emerged, rest were duds".
func (l *lattice) restIsBad(cl []item) bool {
	rest, bad := false, false
	for i := range cl {
		it := &cl[i]
		switch {
		case it.is(eRest):
			rest = true
		case it.means(l.r.c.deadWord):
			bad = true
		case !it.word() || !l.freeWord(it) && !it.means(l.r.c.aux):
			return false
		}
	}
	return rest && bad
}
