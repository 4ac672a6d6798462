package reading

import (
	"slices"

	"yardbell/rules"
)

// openFits weighs what is open against the entities of a verbless event.
func (l *lattice) openFits(items []item) []openFit {
	es := entitiesOf(items)
	var nums []int
	for _, it := range es[eNumber] {
		nums = append(nums, it.entity.n)
	}
	whole := !allOf(es[eBatch], func(e *entity) bool { return !e.whole })
	some := whole || hasAny(items, eAll, eHalf, eAllBut, eLost, eBoth) || hasAny(items, eNone) && l.known.Reply != nil
	var out []openFit
	for _, o := range l.known.Open {
		if !allOf(es[eBatch], func(e *entity) bool { return o.Batch == e.n }) || !allOf(es[eBuilder], func(e *entity) bool { return o.Builder == "" || o.Builder == e.name }) ||
			!allOf(es[eBreeder], func(e *entity) bool { return o.Breeder == 0 || o.Breeder == e.n }) ||
			ofBatch[o.Step] && !allOf(es[ePin], func(e *entity) bool { return o.Mark == "" || o.Mark == e.name }) {
			continue
		}
		if o.Step == rules.Graft {
			if len(nums) > 0 && (len(es[eBuilder]) > 0 || len(es[eBreeder]) > 0) || len(es[eBars]) > 0 {
				out = append(out, openFit{o.Step, 2})
			}
			continue
		}
		if !counted[o.Step] || o.Had == 0 {
			continue
		}
		w := 0.0
		if len(es[eRatio]) > 0 {
			of := es[eRatio][0].entity.of
			if len(es[eYard]) > 0 && of != o.Had {
				of = o.Had - o.Yards[es[eYard][0].entity.name] + of // of those at the yard
			}
			if of != o.Had {
				continue
			}
			w += 2
		}
		if len(es[eYard]) > 0 {
			_, there := o.Yards[es[eYard][0].entity.name]
			switch {
			case o.Step == rules.Move:
				w += 2
			case there:
				w++
			case o.Step == rules.Nucs && len(items) > 0 && items[0].means(l.r.c.nuc):
				w += 1.5 // "nucs 20 at North": a form, typed
			case o.Step == rules.Nucs:
			default:
				continue
			}
		}
		if len(es[eYards]) > 0 && o.Step == rules.Move {
			w += 2
		}
		if len(es[eBuilder]) > 0 {
			if o.Step != rules.Accept && o.Step != rules.Capped {
				continue
			}
			w += 2
		}
		if len(es[eBatch])+len(es[eBreeder])+len(es[ePin]) > 0 && o.Step != rules.Nucs {
			w += 1.25
		}
		nuc := l.meansAny(items, l.r.c.nuc) && !l.inside(items, l.r.c.nuc)
		if (o.Step == rules.Nucs) != nuc && (o.Step == rules.Nucs || o.Step != rules.Recell && o.Step != rules.Laying) {
			continue
		}
		if len(nums) > 0 && len(es[eRatio]) == 0 {
			ok := false
			for _, n := range nums {
				ok = ok || n <= o.Had && n*3 >= o.Had
			}
			if !ok {
				continue
			}
		}
		if len(nums) == 0 && len(es[eRatio]) == 0 && !some {
			if o.Step != rules.Move || len(es[eBatch]) == 0 || len(es[eYard]) == 0 {
				continue
			}
			w = 1 // "batch 1 to North": told as done, or as what is to be done
		}
		if len(es[eAllBut])+len(es[eLost]) > 0 {
			w += 1.25
		}
		if good := l.meansAny(items, l.r.c.cell) || l.meansAny(items, l.r.c.larva); good && len(nums) == 1 && nums[0] < o.Had && (o.Step == rules.Accept || o.Step == rules.Capped) {
			w += 1.25 // "33 good cups", of the 45 that were grafted
		} else if l.meansAny(items, l.r.c.cell) && (o.Step == rules.Move || o.Step == rules.Accept || o.Step == rules.Capped) {
			w += 0.5
		}
		if l.meansAny(items, l.r.c.queen) && (o.Step == rules.Emerge || o.Step == rules.Laying || o.Step == rules.Catch) {
			w += 0.5
		}
		for _, n := range nums {
			if n == o.Had {
				w += 0.5
				break
			}
		}
		if o.Ready {
			w += 0.25
		}
		out = append(out, openFit{o.Step, w})
	}
	return out
}

// inside reports whether a thing is where something was put: "all in nucs at Creek".
func (l *lattice) inside(items []item, x concept) bool {
	for i := range items {
		if i > 0 && items[i].means(x) && (items[i-1].means(l.r.c.in) || items[i-1].means(l.r.c.into)) {
			return true
		}
	}
	return false
}

// allOf reports whether all entities of a kind fit.
func allOf(list []*item, ok func(*entity) bool) bool {
	for _, it := range list {
		if !ok(it.entity) {
			return false
		}
	}
	return true
}

// together are the doubts that several acts give each other.
func (d *draft) together() (out []doubt) {
	if len(d.acts) < 2 {
		return nil
	}
	if last := d.acts[len(d.acts)-1].act; last.Mark != "" && d.acts[0].act.Mark == "" && d.acts[0].act.Step == last.Step && ofBreeder[last.Step] {
		out = append(out, fMark) // "confined 7 and 12, red pin": whose it is
	}
	if d.contradict() {
		out = append(out, fNumber)
	}
	sums := map[rules.Step]map[int]int{}
	grafts, homeless, placed, placeless := 0, 0, 0, 0
	bare := map[rules.Step]int{}
	for i := range d.acts {
		a := d.acts[i].act
		if a.Count != nil && a.Batch != 0 {
			if sums[a.Step] == nil {
				sums[a.Step] = map[int]int{}
			}
			sums[a.Step][a.Batch] += *a.Count
			if o := d.acts[i].open; o != nil && o.Had > 0 && sums[a.Step][a.Batch] > o.Had && a.Step != rules.Nucs {
				out = append(out, fTooMany)
			}
		}
		if counted[a.Step] && a.Count != nil && a.Yard == "" && a.Builder == "" && a.Step != rules.Graft && d.rank.p != nil {
			if bare[a.Step]++; bare[a.Step] > 1 && !hasAny(d.items, eBatch, eBoth, eBreeder) {
				out = append(out, fNumber) // two counts of one thing
			}
		}
		if a.Step == rules.Graft {
			grafts++
			if a.Builder == "" {
				homeless++
			}
		}
		if a.Step == rules.Move && a.Count != nil {
			if a.Yard == "" {
				placeless++
			} else {
				placed++
			}
		}
	}
	if grafts > 1 && homeless > 0 {
		out = append(out, fWhichBuilder)
	}
	if placed > 0 && placeless > 0 {
		out = append(out, fNumber)
	}
	return out
}

// offers are the acts that buttons may do: the reading itself, then the next likely ones,
// and a batch each where that alone is open. Each explains every number of the message.
func (d *draft) offers() [][]Act {
	whole := make([]Act, 0, len(d.acts))
	for i := range d.acts {
		whole = append(whole, d.acts[i].act)
	}
	if len(d.acts) == 1 && d.acts[0].has(fWhichBatch) {
		var out [][]Act
		for _, o := range d.acts[0].choices {
			a := d.acts[0].act
			a.Batch = o.Batch
			if len(out) < mostOffers {
				out = append(out, []Act{a})
			}
		}
		return out
	}
	out := [][]Act{whole}
	if slices.Contains(d.doubts, DoubtSplit) {
		return d.splits(whole)
	}
	if len(d.acts) != 1 {
		return d.shares(whole)
	}
	seen := map[rules.Step]bool{d.acts[0].act.Step: true}
	for _, s := range d.others {
		if seen[s] || !d.l.r.Built(s) || len(out) == mostOffers {
			continue
		}
		seen[s] = true
		f := d.l.fill(s, d.evs[0].items)
		fine := true
		for _, x := range f.flags {
			fine = fine && (gaps[x] && x != fNoCount)
		}
		if fine {
			out = append(out, []Act{f.act})
		}
	}
	return out
}

// awaits reports whether a step of batches is open; of the others nothing need be.
func (l *lattice) awaits(s rules.Step) bool {
	for _, o := range l.known.Open {
		if o.Step == s {
			return true
		}
	}
	return !ofBatch[s]
}

// ofSpoken leaves of what is open only the steps that a clause speaks of, where it speaks
// of work that is not told as done: "confining 12" is no count of cells.
func (l *lattice) ofSpoken(items []item, list []openFit) (out []openFit) {
	if !l.stageOf(items).going {
		return list
	}
	ev := l.r.licences(items, l.known)
	if len(ev.weight) == 0 {
		return list
	}
	for _, f := range list {
		if ev.weight[f.step] > 0 {
			out = append(out, f)
		}
	}
	return out
}

// expects reports whether exactly what an act tells of is open: of its breeder, or of its
// builder.
func (l *lattice) expects(a Act) bool {
	for _, o := range l.known.Open {
		if o.Step == a.Step && (a.Breeder != 0 && o.Breeder == a.Breeder || a.Builder != "" && o.Builder == a.Builder) {
			return true
		}
	}
	return false
}
