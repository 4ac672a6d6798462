package reading

import (
	"yardbell/rules"
)

// add fills a step from an event; one that speaks of several things makes several acts.
func (d *draft) add(step rules.Step, e *event) {
	l := d.l
	fr := l.r.frames.list[l.r.frames.byStep[step]]
	es := entitiesOf(e.items)
	without := func(k entityKind, extra entity) []item {
		var out []item
		for _, it := range e.items {
			if it.is(k) {
				continue
			}
			out = append(out, it)
		}
		return append(out, item{entity: &extra})
	}
	switch {
	case len(es[eBoth]) > 0 && fr.slots["batch"]:
		var list []Expect
		for _, o := range l.known.Open {
			if o.Step == step && o.Batch != 0 {
				list = append(list, o)
			}
		}
		if len(list) != 2 {
			d.doubt("both-of-" + itoa(len(list)))
		}
		for _, o := range list {
			d.acts = append(d.acts, l.fill(step, without(eBoth, entity{kind: eBatch, n: o.Batch})))
		}
		return
	case len(es[eBuilders]) > 0 && fr.slots["builder"] && step != rules.Feed:
		if n := es[eBuilders][0].entity.n; n != 0 && n != len(l.known.Builders) {
			d.doubt("builders-of-" + itoa(len(l.known.Builders)))
		}
		for _, b := range l.known.Builders {
			d.acts = append(d.acts, l.fill(step, without(eBuilders, entity{kind: eBuilder, name: b})))
		}
		return
	}
	d.carryBatch(step, e)
	if d.inYards(step, e) {
		return
	}
	if step == rules.Feed {
		if list, ok := d.feeds(e); ok {
			d.acts = append(d.acts, list...)
			return
		}
	}
	f := l.fill(step, e.items)
	if f.has(fWhichFed) && len(d.acts) > 0 {
		if last := d.acts[len(d.acts)-1].act; last.Breeder != 0 || last.Step == rules.Feed {
			f.act.Breeder, f.flags = last.Breeder, dropDoubt(f.flags, fWhichFed) // "let 7 out and fed her"
		} else if last.Yard != "" && last.Breeder == 0 && last.Builder == "" {
			f.act.Yard, f.flags = last.Yard, dropDoubt(f.flags, fWhichFed) // "60 made up at North and fed them"
		}
	}
	if n := len(d.acts); n > 0 && e.carried && f.has(fWhichBatch) && d.acts[n-1].act.Step == step && d.acts[n-1].act.Batch != 0 {
		f.act.Batch, f.flags = d.acts[n-1].act.Batch, dropDoubt(f.flags, fWhichBatch)
		f.choices, f.open = d.acts[n-1].choices, d.acts[n-1].open
	}
	if len(es[eRest]) > 0 {
		if f.act.Yard == "" && f.act.Builder == "" && f.act.Batch == 0 && len(es[eLost]) == 0 && len(d.acts) > 0 {
			return // "the rest was too runny": what is left over, in words
		}
		if len(es[eAllBut]) == 0 && (len(es[eLost]) == 0 || f.act.Count == nil) {
			d.rest(&f)
		}
	}
	more := f.more
	f.more = nil
	if twoFrom(es) && len(more) > 0 {
		d.doubt("from-several")
	}
	d.acts = append(d.acts, f)
	for _, n := range more {
		g := f
		g.flags = append([]doubt{}, f.flags...)
		g.act.Breeder = n
		d.acts = append(d.acts, g)
	}
}

// dropDoubt takes a doubt out.
func dropDoubt(list []doubt, x doubt) (out []doubt) {
	for _, f := range list {
		if f != x {
			out = append(out, f)
		}
	}
	return out
}

// rest works out "the rest" against what was on record and told before it.
func (d *draft) rest(f *filled) {
	sum, before := 0, 0
	for i := range d.acts {
		if d.acts[i].act.Step == f.act.Step {
			before++
			if d.acts[i].act.Count == nil {
				f.flag(fNoRecord)
				return
			}
			sum += *d.acts[i].act.Count
		}
	}
	if had := f.record(); before > 0 && had > sum {
		f.act.Count = intPtr(had - sum)
		return
	}
	f.flag(fNoRecord)
}

// merge joins what tells of one thing twice.
func (d *draft) merge() {
	for i := 1; i < len(d.acts); i++ {
		if was, a := d.acts[i-1].act, &d.acts[i].act; a.Step == rules.Move && a.Yard == "" && was.Step == rules.Nucs && was.Yard != "" && was.Batch == a.Batch {
			a.Yard = was.Yard // "nucs at North are ready, 34 cells in"
		}
	}
	d.sumByYard()
	d.oneTold()
	type key struct {
		step    rules.Step
		batch   int
		breeder int
		builder string
		yard    string
		to      string
	}
	var out []filled
	at := map[key]int{}
	for _, f := range d.acts {
		k := key{step: f.act.Step, batch: f.act.Batch, yard: f.act.Yard}
		if ofBreeder[f.act.Step] || f.act.Step == rules.Feed || f.act.Step == rules.Graft {
			k.breeder = f.act.Breeder
		}
		if f.act.Step == rules.Rogue || f.act.Step == rules.Feed || f.act.Step == rules.Graft {
			k.builder, k.batch = f.act.Builder, 0
		}
		if ofStock[f.act.Step] {
			k.builder, k.to = f.act.Builder, f.act.Customer+"/"+f.act.Tags+"/"+f.act.Mark
		}
		i, have := at[k]
		repeats := have && f.act.Yard == "" && f.act.Count != nil && out[i].act.Count != nil && *f.act.Count == *out[i].act.Count || f.act.Step == rules.Rogue && f.act.Count == nil || counted[f.act.Step] && f.act.Count == nil || f.act.Step == rules.Rogue && f.act.Count != nil && *f.act.Count == 0 || !counted[f.act.Step] && f.act.Step != rules.Rogue && !ofStock[f.act.Step]
		if have && repeats {
			for _, x := range f.flags {
				if x != fNoCount {
					out[i].flag(x)
				}
			}
			continue
		}
		at[k] = len(out)
		out = append(out, f)
	}
	d.acts = out
}
