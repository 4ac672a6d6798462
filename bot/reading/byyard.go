package reading

import "yardbell/rules"

// heldByYard reports whether it is known which of several yards hold how many of a batch:
// then each has a count of its own.
func (l *lattice) heldByYard(step rules.Step, batch int) bool {
	for _, o := range l.known.Open {
		if o.Step == step && (batch == 0 || o.Batch == batch) && len(o.Yards) > 1 {
			return true
		}
	}
	return false
}

// sumByYard makes one count of those of one batch by yard, where nothing is kept by yard:
// "emerged: north 18, creek 13" of cells that went nobody said where.
func (d *draft) sumByYard() {
	if len(d.acts) < 2 {
		return
	}
	step, batch := d.acts[0].act.Step, d.acts[0].act.Batch
	keeps := step == rules.Move || step == rules.Nucs || d.l.heldByYard(step, batch)
	if step != rules.Emerge && step != rules.Laying && step != rules.Catch && !keeps {
		return
	}
	var parts, sums []filled
	sum, of, yards := 0, 0, map[string]bool{}
	for _, f := range d.acts {
		switch a := &f.act; {
		case a.Step != step || a.Batch != batch || a.Count == nil && !a.All || yards[a.Yard]:
			return
		case a.Yard == "":
			sums = append(sums, f)
		case a.Count == nil:
			return
		default:
			yards[a.Yard] = true
			parts = append(parts, f)
			sum += *a.Count
			if a.Of != nil {
				of += *a.Of
			}
		}
	}
	if len(parts) == 1 && len(sums) == 1 && len(d.acts) == 2 && !sums[0].whole && !sums[0].act.All && *sums[0].act.Count != sum {
		d.doubt("no-place") // "16 corte, 10 creek": where the others are was said, and not read
	}
	if len(parts) < 2 || len(sums) > 1 {
		return
	}
	for _, f := range sums { // "creek 9, north 16, all those laying"
		if !f.whole && !f.act.All && *f.act.Count != sum {
			return
		}
	}
	if keeps {
		if len(sums) == 1 && sums[0].act.Count != nil && *sums[0].act.Count == sum && len(d.acts) == len(parts)+1 {
			d.acts = parts // "18 in each yard, all done"
		}
		return
	}
	first := parts[0]
	for _, g := range append(parts[1:], sums...) {
		for _, x := range g.flags {
			first.flag(x)
		}
		if first.act.When == nil {
			first.act.When = g.act.When
		}
	}
	first.act.Count, first.act.Yard, first.act.Of = intPtr(sum), "", nil
	if open := first.open; open != nil && of == open.Had {
		first.act.Of = intPtr(of)
	}
	d.acts = []filled{first}
}

// inParts reports whether the counts of a message are those of several yards that together
// make the count of its one act.
func inParts(acts []Act, items []item) bool {
	if len(acts) != 1 || acts[0].Count == nil || acts[0].Yard != "" {
		return false
	}
	sum, yards := 0, map[string]bool{}
	for i := range items {
		switch e := items[i].entity; {
		case e == nil:
		case e.kind == eNumber || e.kind == eRatio:
			sum += e.n
		case e.kind == eYard:
			yards[e.name] = true
		}
	}
	return len(yards) > 1 && sum == *acts[0].Count
}

// inYards fills a step for every yard of the crew, where it is told of each of them: "17 at
// each yard".
func (d *draft) inYards(step rules.Step, e *event) bool {
	l := d.l
	at := -1
	for i := range e.items {
		if e.items[i].is(eYards) {
			at = i
		}
	}
	if at < 0 || !l.r.frames.list[l.r.frames.byStep[step]].slots["yard"] || hasAny(e.items, eYard) {
		return false
	}
	if n := e.items[at].entity.n; n != 0 && n != len(l.known.Yards) {
		d.doubt("yards-of-" + itoa(len(l.known.Yards)))
	}
	if e.items[at].entity.n != 0 && counts(e.items) && !l.meansAny(e.items, l.r.c.each) {
		d.doubt("each-or-together")
	}
	for _, y := range l.known.Yards {
		it := e.items[at]
		it.entity = &entity{kind: eYard, name: y}
		its := append(append(append([]item{}, e.items[:at]...), it), e.items[at+1:]...)
		d.acts = append(d.acts, l.fill(step, its))
	}
	return true
}

// carryBatch gives the batch that was named before to a further count of the same step,
// which names none: "batch one, 20 north, 16 creek".
func (d *draft) carryBatch(step rules.Step, e *event) {
	if !e.carried || len(d.acts) == 0 || hasAny(e.items, eBatch, eBreeder, eBoth, ePin) || step != rules.Finish && hasAny(e.items, eBuilder) {
		return
	}
	last := &d.acts[len(d.acts)-1].act
	if last.Step != step || last.Batch == 0 || last.concluded {
		return
	}
	e.items = append(append([]item{}, e.items...), item{entity: &entity{kind: eBatch, n: last.Batch}})
}
