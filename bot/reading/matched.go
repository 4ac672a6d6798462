package reading

import "yardbell/rules"

// matched gives counts that name no batch to the batches that had just as many, where each
// of several counts of one step has one of its own: "36 to North, 25 to Creek" with 36 and
// 25 waiting. A single count is asked about as before: it may be a part of either.
func (d *draft) matched() {
	if len(d.acts) < 2 {
		return
	}
	named := hasAny(d.items, eBatch, eBreeder, eBuilder, ePin)
	taken := map[int]int{} // batch: the act that has it
	given := make([]int, len(d.acts))
	free := false
	for i := range d.acts {
		f := &d.acts[i]
		if f.act.Step != d.acts[0].act.Step || f.act.Count == nil || !counted[f.act.Step] {
			return
		}
		free = free || f.has(fWhichBatch) || !named
		batch := 0
		for _, o := range d.l.known.Open {
			if o.Step != f.act.Step || o.Had != *f.act.Count || f.act.Batch != 0 && named && !f.act.concluded && o.Batch != f.act.Batch {
				continue
			}
			if batch != 0 {
				return // two that had as many
			}
			batch = o.Batch
		}
		if _, twice := taken[batch]; batch == 0 || twice {
			return
		}
		taken[batch], given[i] = i, batch
	}
	if !free {
		return
	}
	for i := range d.acts {
		f := &d.acts[i]
		f.act.Batch, f.flags = given[i], dropDoubt(dropDoubt(f.flags, fWhichBatch), fTooMany)
		for k := range d.l.known.Open {
			if o := &d.l.known.Open[k]; o.Step == f.act.Step && o.Batch == given[i] {
				f.open = o
			}
		}
	}
}

// dealBuilders gives builders that are named behind several grafts to those in turn, where
// there are as many: "45 from 7 and 30 from 12, B1 and B2". They were read as the builder of
// the last one and grafts of nothing.
func (d *draft) dealBuilders() {
	var grafts []int
	var builders []string
	for i := range d.acts {
		a := d.acts[i].act
		switch {
		case a.Step != rules.Graft:
			return
		case a.Count != nil && len(builders) == 0:
			grafts = append(grafts, i)
			if a.Builder != "" {
				builders = append(builders, a.Builder)
			}
		case a.Count == nil && a.Breeder == 0 && a.Builder != "" && len(builders) > 0:
			builders = append(builders, a.Builder)
		default:
			return
		}
	}
	if len(grafts) < 2 || len(builders) != len(grafts) || len(d.acts) == len(grafts) {
		return
	}
	for k, i := range grafts {
		d.acts[i].act.Builder = builders[k]
	}
	d.acts = d.acts[:len(grafts)]
}

// ofTheirOwn leaves out what "both" made of a clause that names one of them: the other is
// told of by itself.
func (d *draft) ofTheirOwn() {
	var out []filled
	for i := range d.acts {
		a := d.acts[i].act
		twice := false
		for k := range d.acts {
			b := d.acts[k].act
			twice = twice || k > i && a.Step == b.Step && a.Batch != 0 && a.Batch == b.Batch && a.Breeder != 0 && b.Breeder != 0 && a.Breeder != b.Breeder
		}
		if !twice {
			out = append(out, d.acts[i])
		}
	}
	d.acts = out
}

// allIn takes "all in", which says done, for the number on record too.
func (d *draft) allIn() {
	if p := d.l.known.Reply; p != nil && !p.Task || len(d.acts) != 1 || !d.l.allDone(d.items) {
		return
	}
	if f := &d.acts[0]; f.act.Count == nil && counted[f.act.Step] && f.open != nil && f.open.Had > 0 {
		f.act.Count, f.whole, f.flags = intPtr(f.open.Had), true, dropDoubt(f.flags, fNoCount)
	}
}
