package reading

import (
	"yardbell/rules"
)

// subject collects what is open and may be meant.
func (l *lattice) subject(f *filled, fr *frame) {
	a := &f.act
	if !ofBatch[a.Step] && a.Step != rules.Rogue {
		return
	}
	for _, o := range l.known.Open {
		if o.Step == a.Step {
			f.choices = append(f.choices, o)
		}
	}
	keep := func(ok func(o Expect) bool, must bool) {
		var out []Expect
		for _, o := range f.choices {
			if ok(o) {
				out = append(out, o)
			}
		}
		if must || len(out) > 0 {
			f.choices = out
		}
	}
	switch p := l.known.Reply; {
	case a.Batch != 0:
		keep(func(o Expect) bool { return o.Batch == a.Batch }, true)
	case p != nil && p.Batch != 0 && l.ofBreeder(p.Batch, a.Breeder) && l.inBuilder(a.Step, p.Batch, a.Builder):
		a.Batch = p.Batch
		keep(func(o Expect) bool { return o.Batch == a.Batch }, true)
	default:
		if a.Builder != "" && inBuilder[a.Step] && (a.Step != rules.Finish || len(f.choices) > 1) {
			keep(func(o Expect) bool { return o.Builder == a.Builder }, false)
		}
		if a.Breeder != 0 {
			keep(func(o Expect) bool { return o.Breeder == a.Breeder }, false)
		}
		if a.Yard != "" && (a.Step == rules.Emerge || a.Step == rules.Laying || a.Step == rules.Catch || a.Step == rules.Recell) {
			keep(func(o Expect) bool { _, there := o.Yards[a.Yard]; return there }, false)
		}
	}
}

// settleSubject chooses the batch, by the counts where it is not named.
func (l *lattice) settleSubject(f *filled, fr *frame) {
	a := &f.act
	if !ofBatch[a.Step] && a.Step != rules.Rogue {
		return
	}
	if a.Batch == 0 && len(f.choices) > 1 && a.Count != nil && a.Step != rules.Nucs {
		var out []Expect
		for _, o := range f.choices {
			switch {
			case a.Of != nil && o.Had > 0 && o.Had == *a.Of:
				out = append(out, o)
			case a.Of == nil && (o.Had == 0 || *a.Count <= o.Had):
				out = append(out, o)
			}
		}
		if len(out) > 0 {
			f.choices = out
		}
	}
	if a.Batch == 0 && len(f.choices) > 1 {
		// One that is due by now is meant before one that is due later.
		var out []Expect
		for _, o := range f.choices {
			if o.Ready {
				out = append(out, o)
			}
		}
		if len(out) == 1 && a.Step != rules.Move {
			f.choices = out
		}
	}
	if len(f.choices) == 1 {
		f.open = &f.choices[0]
		if a.Batch == 0 && a.Step != rules.Rogue {
			a.Batch, a.concluded = f.open.Batch, true
		}
	}
	if a.Batch == 0 && len(f.choices) > 1 && a.Step != rules.Rogue {
		f.flag(fWhichBatch)
	}
	if f.open != nil && a.Count != nil && *a.Count*4 < f.open.Had && a.Of == nil && (a.Step == rules.Accept || a.Step == rules.Capped || a.Step == rules.Emerge || a.Step == rules.Laying || a.Step == rules.Move) && *a.Count > 0 && a.Yard == "" {
		f.flag(fUnlikely)
	}
}

// ofBreeder reports whether a batch may be from a breeder that is named, 0 for none.
func (l *lattice) ofBreeder(batch, breeder int) bool {
	for _, o := range l.known.Open {
		if breeder != 0 && o.Batch == batch && o.Breeder != 0 && o.Breeder != breeder {
			return false
		}
	}
	return true
}

// inBuilder reports whether a batch may be in a builder that is named, empty for none.
func (l *lattice) inBuilder(step rules.Step, batch int, builder string) bool {
	if builder == "" || !inBuilder[step] {
		return true
	}
	other := false
	for _, o := range l.known.Open {
		switch {
		case o.Step != step || o.Builder == "":
		case o.Batch == batch && o.Builder != builder:
			other = true
		case o.Batch == batch:
			return true
		}
	}
	return !other
}

// graftFrom finds the breeder a graft is from where none is named, and doubts a count that
// may be one.
func (l *lattice) graftFrom(f *filled, es map[entityKind][]*item) {
	a := &f.act
	if a.Breeder == 0 {
		var open []Expect
		for _, o := range l.known.Open {
			if o.Step == rules.Graft {
				open = append(open, o)
			}
		}
		switch p := l.known.Reply; {
		case p != nil && p.Step == rules.Graft && p.Breeder != 0:
			a.Breeder = p.Breeder
		case a.Mark != "":
			var fit []int
			for n, mark := range l.known.Combs {
				if mark == a.Mark {
					fit = append(fit, n)
				}
			}
			for _, o := range open {
				if o.Mark == a.Mark && o.Breeder != 0 {
					fit = []int{o.Breeder}
				}
			}
			if len(fit) == 1 {
				a.Breeder = fit[0]
			}
		}
		if a.Breeder == 0 && len(open) == 1 {
			a.Breeder = open[0].Breeder
		}
	}
	if a.Breeder == 0 {
		f.flag(fWhichBreeder)
	}
	if a.Count != nil && l.isBreeder(*a.Count) && len(es[eBars]) == 0 && *a.Count < 20 {
		f.flag(fSwapped)
	}
}

// rogueIn finds the builder that was searched and how many cells were found.
func (l *lattice) rogueIn(f *filled, items []item) {
	a := &f.act
	c := l.r.c
	if a.Builder == "" {
		switch p := l.known.Reply; {
		case p != nil && p.Builder != "":
			a.Builder = p.Builder
		case l.known.Asked != nil && l.known.Asked.Step == a.Step && l.known.Asked.Builder != "":
			a.Builder = l.known.Asked.Builder
		case len(f.choices) == 1:
			a.Builder = f.choices[0].Builder
		}
	}
	if a.Builder == "" && a.Batch == 0 {
		f.flag(fWhichBuilder)
	}
	var none, found, clear bool
	for i := range items {
		it := &items[i]
		none = none || it.means(c.noRogue)
		clear = clear || it.means(c.clear) || it.means(c.nothing)
		found = found || it.means(c.kill) || it.means(c.foundC) || it.means(c.rogue)
	}
	if a.Count == nil {
		for _, it := range entitiesOf(items)[eLost] {
			a.Count = intPtr(it.entity.n) // "2 destroyed"
		}
	}
	if a.Count != nil && *a.Count != 1 && l.oneThing(items) {
		f.flag(fNumber) // one is told of, and another number
	}
	switch {
	case none && l.meansAny(items, c.kill):
		f.flag(fNumber) // none, and yet something was cut out
	case none:
		a.Count = intPtr(0)
	case a.Count == nil && found && l.oneThing(items):
		a.Count = intPtr(1)
	case a.Count == nil && found && !clear:
		f.flag(fNoCount)
		f.flag(fHowMany) // found, and how many is not said: never "none"
	case a.Count == nil && clear:
		a.Count = intPtr(0)
	}
}

// oneThing reports whether a single rogue cell is spoken of: "a wild cell", "found one".
func (l *lattice) oneThing(items []item) bool {
	c := l.r.c
	for i := range items {
		if !items[i].means(l.r.one) {
			continue
		}
		before := i > 0 && (items[i-1].means(c.foundC) || items[i-1].means(c.kill)) || i == 0 && l.known.Reply != nil
		after := i+1 < len(items) && (items[i+1].means(c.rogue) || items[i+1].means(c.cell))
		if before || after {
			return true
		}
	}
	return false
}

// goneFrom finds the breeder that is gone, and how.
func (l *lattice) goneFrom(f *filled, es map[entityKind][]*item) {
	for i, it := range es[eGone] {
		n := it.entity.n
		switch {
		case i > 0 && n != f.act.Breeder || f.act.Breeder != 0 && f.act.Breeder != n:
			f.flag(fTwoBreeders)
		default:
			f.act.Breeder, f.act.Reason = n, it.entity.name
			if !l.isBreeder(n) {
				f.flag(fNewBreeder)
			}
		}
	}
	if len(es[eGone]) == 0 {
		f.flag(fWhichBreeder)
	}
}
