package reading

import "yardbell/rules"

// raise sees that a virgin that may be out among cells is never passed over: what tells of
// one is asked about at least, unless it is denied, asked or foreseen.
func (d *draft) raise(res *Result) {
	if res.Outcome == Log || d.mood.held() || d.mood.neg || d.foreign() {
		return
	}
	alarm := false
	for i := range d.acts {
		alarm = alarm || d.acts[i].act.Step == rules.Virgin
	}
	for i := range d.evs {
		ev := d.evs[i].ev
		alarm = alarm || ev.weight[rules.Virgin] >= 0.9 && ev.weight[rules.Emerge] == 0
	}
	if !alarm {
		return
	}
	if len(res.Acts) == 0 {
		res.Acts = []Act{{Kind: Did, Step: rules.Virgin}}
	}
	res.Outcome = Ask
	res.Doubts = append(res.Doubts, DoubtAlarm)
}

// onlyLost reports whether a message tells of nothing but losses: "lost 7 cells" is no
// count of what is left.
func (l *lattice) onlyLost(d *draft, e *event) bool {
	return l.known.Reply == nil && len(d.evs) == 1 && hasAny(e.items, eLost) && !hasAny(e.items, eNumber, eRatio, eAll, eAllBut, eHalf, eBars, eRest, eNone, eBoth)
}

// notBuilt finds a loss, what is told of single nucs, or the step that the log has no line for,
// where the words meet it as plainly as the likeliest of the others: "6 nucs queenless" are no 6 nucs.
func (d *draft) notBuilt(e *event, cand []int) (int, bool) {
	list := d.l.r.frames.list
	nuc := d.l.r.frames.byStep[rules.Nuc]
	numbered, _ := d.l.numbered(e.items)
	if len(numbered) > 0 && e.ev.exact[rules.Nuc] && e.ev.weight[rules.Nuc] >= 1 {
		return nuc, true
	}
	if list[cand[0]].step == rules.Nucs && d.l.awaits(rules.Nucs) && d.madeUp(e.items) {
		return 0, false // queenless nucs are what cells go into
	}
	first := e.ev.weight[list[cand[0]].step]
	own := counted[list[cand[0]].step] && hasAny(e.items, eNumber, eRatio, eAll, eAllBut, eNone)
	best := -1
	for _, i := range cand {
		if list[i].step == rules.Lose && own {
			continue // "34 moved, two were duds"
		}
		s := list[i].step
		if s == rules.Nuc && !d.ofNucs(e, cand) {
			continue
		}
		least := first
		if s == rules.Nuc && list[cand[0]].step == rules.Nucs {
			least = min(first, 1)
		}
		if (list[i].unbuilt || s == rules.Lose || s == rules.Nuc) && e.ev.exact[s] && e.ev.weight[s] >= least && (best < 0 || e.ev.weight[s] > e.ev.weight[list[best].step]) {
			best = i
		}
	}
	return max(best, 0), best >= 0
}

// built leaves of offers what the log has lines for.
func (d *draft) built(offers [][]Act) (out [][]Act) {
	for _, acts := range offers {
		var keep []Act
		for _, a := range acts {
			if a.Kind != Did || d.l.r.Built(a.Step) {
				keep = append(keep, a)
			}
		}
		if len(keep) > 0 {
			out = append(out, keep)
		}
	}
	return out
}

// amongCounted drops what is told of the nucs that a count leaves over: of 31, "28 laying,
// 3 queenless" says where the other three are.
func (d *draft) amongCounted() {
	d.goneAlready()
	had, sum := 0, 0
	for i := range d.acts {
		f := &d.acts[i]
		switch {
		case f.act.Count == nil:
			return
		case f.act.Step != rules.Lose && f.act.Step != rules.Nuc:
			if had > 0 || !counted[f.act.Step] || f.act.Step == rules.Move || f.act.Step == rules.Catch { // those leave out what is lost
				return
			}
			had = f.record()
		case f.has(fNumber) || f.act.Yard != "":
			return
		}
		sum += *f.act.Count
	}
	if had == 0 || sum > had {
		return
	}
	var keep []filled
	for _, f := range d.acts {
		if f.act.Step != rules.Lose && f.act.Step != rules.Nuc {
			keep = append(keep, f)
		}
	}
	d.acts = keep
}

// goneAlready drops a loss without a number behind what says as much: "3 rogue cells, all
// gone now", "none took, total loss".
func (d *draft) goneAlready() {
	if len(d.acts) < 2 || d.acts[len(d.acts)-1].act.Step != rules.Lose {
		return
	}
	last, before := d.acts[len(d.acts)-1], d.acts[len(d.acts)-2].act
	if last.act.Count == nil && last.act.Yard == "" && (before.Step == rules.Rogue || before.Count != nil && *before.Count == 0) {
		d.acts = d.acts[:len(d.acts)-1]
	}
}

// madeUp reports whether nucs are told as made up by more than that they are queenless.
func (d *draft) madeUp(items []item) bool {
	var rest []item
	for _, it := range items {
		if !it.means(d.l.r.c.queenless) {
			rest = append(rest, it)
		}
	}
	return d.l.r.licences(rest, d.l.known).weight[rules.Nucs] >= 0.7
}

// toldUnbuilt reports whether what the log has no line for is told with a number, or with a
// thing of the crew's.
func (d *draft) toldUnbuilt() bool {
	a := d.acts[0].act
	return (!d.l.r.Built(a.Step) || a.Step == rules.Lose) && d.evs[0].ev.weight[a.Step] >= 1 && (a.Count != nil || a.Builder != "" || a.Yard != "" || a.Batch != 0 || a.Breeder != 0)
}

// inNucs reports whether a virgin that is told of is in a yard: no cells hang there.
func (l *lattice) inNucs(step rules.Step, items []item) bool {
	return step == rules.Virgin && hasAny(items, eYard)
}
