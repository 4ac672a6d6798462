package reading

import (
	"slices"

	"yardbell/rules"
)

// This file reads what is said of all bars of a round at once: "all to finisher", "all but
// B2", "all done", and a graft that went into several builders. Which bars those are is
// known to whoever acts on it.

// wholeRound are the steps that are done with a bar as a whole: nothing of it is counted.
var wholeRound = map[rules.Step]bool{rules.Finish: true, rules.Rogue: true}

// allBars takes "all" of a step without a count for all bars that are open at it.
func (l *lattice) allBars(f *filled, es map[entityKind][]*item) {
	a := &f.act
	if !wholeRound[a.Step] || a.Batch != 0 || len(f.choices) < 2 || len(es[eAll]) == 0 || a.Builder != "" {
		return
	}
	for _, it := range es[eAll] {
		if n := it.entity.n; it.entity.named && n != len(f.choices) {
			return
		}
	}
	a.All = true
	f.flags = dropDoubt(f.flags, fWhichBuilder)
}

// barsOf reads an answer for all bars: "all done", "all but B2 to finisher", and in reply to
// a ping about several "all but B2". Every word of it is accounted for.
func (l *lattice) barsOf(items []item, m mood) (Result, bool) {
	if m.question || m.neg || m.held() || m.hedge {
		return Result{}, false
	}
	c := l.r.c
	reply := l.known.Reply
	several := reply != nil && reply.Task && reply.Batch == 0 && reply.Breeder == 0 && reply.Builder == "" && reply.Yard == ""
	if reply != nil && reply.Task && !several {
		return Result{}, false
	}
	all, done, but := false, false, -1
	for i := range items {
		it := &items[i]
		all = all || it.is(eAll) && it.entity.n == 0 || it.word() && it.means(c.all) && it.means(c.doneWord)
		done = done || it.word() && it.means(c.doneWord)
		if but < 0 && it.word() && it.means(c.but) && all {
			but = i
		}
	}
	if !all {
		return Result{}, false
	}
	a := Act{All: true}
	rest := items
	if but >= 0 {
		names, n := l.leftOut(items[but+1:])
		if len(names) == 0 {
			return Result{}, false
		}
		a.But = names
		rest = slices.Concat(items[:but], items[but+1+n:])
	}
	var work []item
	for _, it := range rest {
		switch {
		case it.is(eAll) && it.entity.n == 0, it.is(eTime), it.bound:
		case it.entity != nil:
			return Result{}, false
		default:
			work = append(work, it)
		}
	}
	ev := l.r.strongLicences(work, l.known)
	clean := l.meansAny(work, c.clear) || l.meansAny(work, c.noRogue) // searched, and nothing found
	switch {
	case clean && len(ev.weight) == 0:
		a.Kind, a.Step = Did, rules.Rogue
	case len(ev.weight) == 1 && (but >= 0 || several):
		for s := range ev.weight {
			a.Kind, a.Step = Did, s
		}
		if !l.r.Built(a.Step) || !ofBatch[a.Step] && a.Step != rules.Rogue || a.Step == rules.Rogue && !clean || l.stageOf(work).going {
			return Result{}, false
		}
	case len(ev.weight) == 0 && (done || but >= 0):
		a.Kind = Done
		if several {
			a.Step = reply.Step
		}
	default:
		return Result{}, false
	}
	if danger, soft := l.unexplained(work, map[rules.Step]bool{a.Step: true}); len(danger)+len(soft) > 0 {
		return Result{}, false
	}
	if a.Kind == Done {
		for i := range work {
			if it := &work[i]; !it.means(c.doneWord) && !l.freeWord(it) && !it.means(c.all) {
				return Result{}, false
			}
		}
	}
	if !several && len(l.barsOpen(a.Step)) < 2 {
		return Result{}, false
	}
	if es := entitiesOf(items); len(es[eTime]) > 0 {
		f := filled{}
		l.setTime(&f, items, es)
		if len(f.flags) > 0 {
			return Result{}, false
		}
		a.When = f.act.When
	}
	acts := []Act{a}
	switch {
	case a.Kind == Done && !several && !done, a.Step == rules.Rogue && !several && but < 0:
		return Result{Outcome: Ask, Acts: acts, Others: [][]Act{acts}}, true // "all but B2", "all clear": of what was not said
	case a.Kind == Done && !several:
		return Result{Outcome: Ask, Acts: acts, Clear: true}, true // whoever acts on it finds what is open
	}
	return Result{Outcome: Log, Acts: acts}, true
}

// leftOut are the bars named behind "but", and how many items that takes.
func (l *lattice) leftOut(items []item) (names []string, n int) {
	for i := range items {
		it := &items[i]
		switch {
		case it.is(eBuilder), it.is(eBatch) && !it.entity.whole, it.is(eBreeder) && it.entity.named:
			names = append(names, nameOf(it.entity))
		case it.bound && it.text == ",", it.word() && (it.means(l.r.and) || it.means(l.r.c.the) || it.means(l.r.c.builderWord)):
			continue
		default:
			return names, n
		}
		n = i + 1
	}
	return names, n
}

// nameOf is what a bar is called by that is left out of all.
func nameOf(e *entity) string {
	switch e.kind {
	case eBuilder:
		return e.name
	case eBatch:
		return rules.BatchSubject(e.n).String()
	case eBreeder:
		return rules.BreederSubject(e.n).String()
	}
	return ""
}

// barsOpen are the batches that are open and ready at a step, at any where none is named.
func (l *lattice) barsOpen(step rules.Step) (batches []int) {
	for _, o := range l.known.Open {
		if o.Batch != 0 && (step == "" && o.Ready || o.Step == step) && !slices.Contains(batches, o.Batch) {
			batches = append(batches, o.Batch)
		}
	}
	return batches
}

// mostEach is how many larvae are grafted into one builder at most: more is the sum of
// several. Common practice, as rules.MostCells says.
const mostEach = 100

// intoSeveral reads one graft that went into several builders: so many each where that is
// said, else in equal parts, or so many in each, which is asked.
func (d *draft) intoSeveral() {
	n := len(d.acts)
	if n < 2 {
		return
	}
	first := d.acts[0].act
	if first.Step != rules.Graft || first.Breeder == 0 || first.Builder == "" || first.Count == nil || len(entitiesOf(d.items)[eNumber]) > 1 {
		return
	}
	for _, f := range d.acts[1:] {
		a := f.act
		if a.Step != rules.Graft || a.Builder == "" || a.Count != nil || a.Breeder != 0 && a.Breeder != first.Breeder || a.Mark != "" {
			return
		}
	}
	each := d.l.meansAny(d.items, d.l.r.c.each) || d.l.meansAny(d.items, d.l.r.c.intoEach)
	for i := range d.acts {
		f := &d.acts[i]
		f.act.Breeder, f.act.Count = first.Breeder, intPtr(*first.Count)
		f.act.AgeLo, f.act.AgeHi, f.act.When = first.AgeLo, first.AgeHi, first.When
		f.flags = dropDoubt(dropDoubt(f.flags, fWhichBreeder), fNoCount)
	}
	d.graftedEach = each
	if !each {
		d.doubt(DoubtSplit)
	}
}

// DoubtSplit is of a graft into several builders of which the split was not said.
const DoubtSplit = "split"

// splits are the ways in which a graft may have gone into several builders: in equal parts,
// where it can be divided so, and as many in each, where one builder takes that many.
func (d *draft) splits(whole []Act) (out [][]Act) {
	n := *whole[0].Count
	if n%len(whole) == 0 {
		parts := slices.Clone(whole)
		for i := range parts {
			parts[i].Count = intPtr(n / len(whole))
		}
		out = append(out, parts)
	}
	if n <= mostEach {
		out = append(out, whole)
	}
	return out
}

// allToOneYard gives the yard that stands behind several counts to all of them, where each is
// of a bar of its own: "moved 36 from B1, 38 from B2 to North".
func (d *draft) allToOneYard() {
	n := len(d.acts) - 1
	if n < 1 {
		return
	}
	last := d.acts[n].act
	if last.Step != rules.Move && last.Step != rules.Nucs || last.Yard == "" || !d.items[len(d.items)-1].is(eYard) {
		return
	}
	seen := map[int]bool{}
	for i, f := range d.acts {
		a := f.act
		if a.Kind != Did || a.Step != last.Step || a.Count == nil || a.Batch == 0 || a.concluded || seen[a.Batch] || i < n && a.Yard != "" || i > 0 && d.l.ended(d.items, d.evs[min(i, len(d.evs))-1], d.evs[min(i, len(d.evs)-1)]) {
			return
		}
		seen[a.Batch] = true
	}
	for i := range d.acts[:n] {
		d.acts[i].act.Yard = last.Yard
	}
}

// graftedInAll is how many larvae acts graft together, 0 where they do anything else.
func graftedInAll(acts []Act) (sum int) {
	for _, a := range acts {
		if a.Kind != Did || a.Step != rules.Graft || a.Count == nil {
			return 0
		}
		sum += *a.Count
	}
	return sum
}
