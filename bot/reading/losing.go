package reading

import (
	"slices"

	"yardbell/rules"
)

// causePhrase is words that say why something was lost, whatever else they mean.
type causePhrase struct {
	words []string
	cause string
}

// causeIn is why something was lost, by the words of some items: of several that say why, the
// longest; empty where none does.
func (l *lattice) causeIn(items []item) (cause string) {
	if len(items) == 0 {
		return ""
	}
	from, to := items[0].from, items[len(items)-1].to
	most := 0
	for i := from; i < to; i++ {
		for _, c := range l.r.lex.causes {
			if len(c.words) > most && i+len(c.words) <= to && slices.EqualFunc(c.words, l.toks[i:i+len(c.words)], func(w string, t token) bool { return w == t.text }) {
				cause, most = c.cause, len(c.words)
			}
		}
	}
	return cause
}

// lostOf fills a loss: how many, or that it is the whole batch, and why.
func (l *lattice) lostOf(f *filled, items []item, es map[entityKind][]*item) {
	a := &f.act
	a.Reason = l.causeIn(items)
	n, named := 0, a.Batch != 0 || a.Builder != "" || a.Yard != ""
	for _, it := range es[eLost] {
		n += it.entity.n
		named = named || it.entity.named
	}
	if n > 0 {
		a.Count, a.All = intPtr(n), false
		if l.isBreeder(n) && !named && len(es[eLost]) == 1 && l.known.Reply == nil {
			f.flag(fSwapped) // "lost 7": of breeder 7, or 7 of them
		}
	}
	if a.Count == nil && (len(es[eRest]) > 0 || a.Builder == "" && a.Yard == "" && (len(es[eBatch]) > 0 || l.meansAny(items, l.r.c.batchWord))) {
		a.All = true
	}
	if a.All {
		f.flags = dropDoubt(f.flags, fNoRecord) // all that there is, however many
	}
	if p := l.known.Asked; p != nil && p.Step == rules.Lose && a.Batch == 0 {
		a.Batch = p.Batch
	}
	if a.Batch == 0 {
		a.Batch = l.onlyUnderWay()
	}
	if a.Count == nil && !a.All {
		f.flag(fNoCount)
	}
}

// whyLost takes the cause of the only loss that a message tells of from all of it: "lost 14,
// dropped".
func (d *draft) whyLost() {
	if len(d.acts) > 0 && d.acts[0].act.Step == rules.Lose && !d.acts[0].act.Stock && d.l.mayBeMissing(d.items) {
		d.doubt("may-be-missing")
	}
	if len(d.acts) > 0 && !d.acts[0].act.Stock && d.l.known.Reply == nil && d.idleLoss(1) {
		cause := d.acts[0].act.Reason
		if cause == rules.CauseDead || cause == "" && hasAny(d.items, eTime, eSpan, ePercent, eAge) {
			d.doubt("idle-loss") // "murieron 3" of what; "perdimos 3 a 1 anoche" may be a game
		}
	}
	if len(d.acts) == 1 && d.acts[0].act.Step == rules.Lose && d.acts[0].act.Reason == "" {
		d.acts[0].act.Reason = d.l.causeIn(d.items)
	}
}

// onlyUnderWay is the only batch of which something is left, 0 where there are several.
func (l *lattice) onlyUnderWay() int {
	if len(l.known.Live) != 1 {
		return 0
	}
	return l.known.Live[0]
}

// mayLose reports whether a loss is told while there is something to lose.
func (l *lattice) mayLose(a Act) bool { return a.Step == rules.Lose && len(l.known.Live) > 0 }

// orBreeder offers the breeder beside so many cells, where a number may be either.
func (d *draft) orBreeder(out [][]Act) [][]Act {
	a := d.acts[0].act
	if a.Step != rules.Lose || !d.acts[0].has(fSwapped) || a.Count == nil {
		return out
	}
	return append(out, []Act{{Kind: Did, Step: rules.Retire, Breeder: *a.Count, When: a.When}})
}

// saysCells reports whether words that were captured name cells: "dead in the cells".
func (l *lattice) saysCells(c captures, name string) bool {
	k, has := c.get(name)
	return has && k.end <= len(l.toks) && slices.ContainsFunc(l.toks[k.tok:k.end], func(t token) bool { return l.wordMeans(t.text, l.r.c.cell) })
}

// tellsGone reports whether acts say themselves what is gone.
func tellsGone(acts []Act) bool {
	return slices.ContainsFunc(acts, func(a Act) bool { return a.Step == rules.Lose || a.Step == rules.Retire })
}

// idleLoss reports whether something was lost of which nothing says that it is the crew's,
// beside words that nobody reads: "lost 7 at poker".
func (d *draft) idleLoss(unread int) bool {
	if d.acts[0].act.Step != rules.Lose || unread == 0 || hasAny(d.items, eBatch, eBuilder, eYard) {
		return false
	}
	return !slices.ContainsFunc(d.items, func(it item) bool {
		return it.is(eLost) && it.entity.named || it.means(d.l.r.c.cell) || it.means(d.l.r.c.batchWord)
	})
}

// lostNucs is the step of a loss that is told without a verb: nucs are told of by their
// state.
func (l *lattice) lostNucs(items []item) rules.Step {
	if slices.ContainsFunc(items, func(it item) bool { return it.is(eLost) && it.entity.whole || it.means(l.r.c.nuc) }) {
		return rules.Nuc
	}
	return rules.Lose
}

// mayBeMissing reports whether what is told as lost may be what a count leaves over, or more
// than one thing: "two didn't hatch, rest are out", "solo fallaron 6", "dropped a frame, lost 3".
func (l *lattice) mayBeMissing(items []item) bool {
	lost, step, named := 0, false, false
	for i := range items {
		if e := items[i].entity; e != nil && e.kind == eLost {
			lost++
			step, named = step || e.name != "", named || e.named
		}
	}
	due := slices.ContainsFunc(l.known.Open, func(o Expect) bool {
		return o.Ready && (o.Step == rules.Accept || o.Step == rules.Capped || o.Step == rules.Emerge || o.Step == rules.Laying)
	})
	return lost > 1 || step || lost > 0 && (hasAny(items, eRest) && !hasAny(items, eBatch) || due && !named && !hasAny(items, eYard, eBuilder, eBatch) && l.causeIn(items) == "")
}

// lossBeside makes a loss of its own of what is told as lost beside cells moved or queens
// caught: "34 to North, dropped 2". The number moved leaves it out, so that nothing else
// would ever tell of it.
func (d *draft) lossBeside() {
	var out []filled
	for i, f := range d.acts {
		out = append(out, f)
		if f.act.Step != rules.Move && f.act.Step != rules.Catch || f.act.Count == nil || f.has(fByLoss) || len(f.flags) > 0 {
			continue
		}
		items := d.items
		switch {
		case len(d.evs) == len(d.acts):
			items = d.evs[i].items
		case len(d.acts) > 1:
			continue
		}
		n := 0
		for k := range items {
			if e := items[k].entity; e != nil && e.kind == eLost && e.nuc == "" {
				n += e.n
			}
		}
		if n == 0 {
			continue
		}
		lost := filled{act: Act{Kind: Did, Step: rules.Lose, Batch: f.act.Batch, Count: intPtr(n), When: f.act.When, Reason: d.l.causeIn(items)}}
		if f.act.Step == rules.Catch {
			lost.act.Yard = f.act.Yard
		}
		out = append(out, lost)
	}
	d.acts = out
}
