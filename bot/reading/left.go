package reading

import (
	"math"
	"slices"

	"yardbell/rules"
)

// asked are the doubts about which whoever does an act asks in its own words: of which
// thing, how many there were, when.
var asked = map[doubt]bool{fTooMany: true, fWhichFed: true, fWhichBreeder: true, fWhichBuilder: true, fAhead: true, fLongAgo: true, fNewYard: true, fNewNumber: true}

// plainly reports whether every act was told in plain words of its step.
func (d *draft) plainly() bool {
	if len(d.acts) == 0 || len(d.evs) == 0 {
		return false
	}
	for i := range d.acts {
		said := false
		for k := range d.evs {
			e := &d.evs[k]
			said = said || e.ev.exact[d.acts[i].act.Step] && e.ev.weight[d.acts[i].act.Step] >= 0.99
		}
		if !said {
			return false
		}
	}
	return true
}

// onlyAsked reports whether whoever does the acts asks about all that is doubtful of them.
func onlyAsked(flags []doubt) bool {
	for _, f := range flags {
		if !asked[f] {
			return false
		}
	}
	return len(flags) > 0
}

// unread are the words of a message that nobody explained, as they were typed and in
// their order, with the numbers that no act keeps.
func (d *draft) unread(danger, soft []string) (out []string) {
	odd := map[string]bool{}
	for _, w := range append(append([]string{}, danger...), soft...) {
		odd[w] = true
	}
	at := map[int]bool{}
	for i := range d.items {
		it := &d.items[i]
		switch {
		case it.word() && odd[it.text]:
			at[i] = true
		case it.entity != nil && !d.keeps(it.entity):
			at[i] = true
			if i+1 < len(d.items) && d.items[i+1].word() && (d.l.countsOf(&d.items[i+1]) || d.items[i+1].unknown()) {
				at[i+1] = true
			} else if i > 0 && d.items[i-1].word() && !d.l.small(&d.items[i-1]) {
				at[i-1] = true
			}
		}
	}
	for i, last := 0, -1; i < len(d.items); i++ {
		// What stands between two of them belongs to them, and so do the words behind one.
		if last >= 0 && !at[i] && d.loose(i) {
			at[i] = true
		}
		if last = -1; at[i] {
			last = i
		}
	}
	for i := range d.items {
		if at[i] {
			it := &d.items[i]
			out = append(out, d.l.text[d.l.toks[it.from].from:d.l.toks[it.to-1].to])
		}
	}
	return out
}

// loose reports whether an item is a word that tells nothing by itself.
func (d *draft) loose(i int) bool {
	it := &d.items[i]
	return it.word() && !ofTrade(it, &d.l.r.frames) && !it.means(d.l.r.and) && !it.means(d.l.r.c.then)
}

// countsOf reports whether a word is a noun that may be counted.
func (l *lattice) countsOf(it *item) bool {
	for _, s := range it.senses {
		if l.r.frames.noun[s.concept] {
			return true
		}
	}
	return false
}

// small reports whether a word is one that joins others.
func (l *lattice) small(it *item) bool {
	return it.means(l.r.c.the) || it.means(l.r.c.into) || it.means(l.r.c.at) || it.means(l.r.and) || it.means(l.r.one) || ofTrade(it, &l.r.frames)
}

// keeps reports whether an act has a value of the message.
func (d *draft) keeps(e *entity) bool {
	is := func(p *int) bool { return p != nil && *p == e.n }
	if len(d.acts) == 1 && (e.kind == eNumber || e.kind == eRatio || e.kind == eYard) && inParts([]Act{d.acts[0].act}, d.items) {
		return true
	}
	for i := range d.acts {
		a := &d.acts[i].act
		switch e.kind {
		case eNumber, eBars, eRatio, eBatch, eBreeder:
			if is(a.Count) || is(a.Of) || a.Batch == e.n || a.Breeder == e.n {
				return true
			}
		case eBuilder, eYard:
			if a.Builder == e.name || a.Yard == e.name {
				return true
			}
		case ePin:
			if a.Mark == e.name || a.Breeder != 0 && a.Breeder == d.l.markedFrom(a.Step, e.name) {
				return true
			}
		case eLitres:
			if math.Abs(a.Litres-e.amount) < 1e-6 {
				return true
			}
		case eAge, eSpan:
			if a.AgeLo != nil {
				return true
			}
		case ePercent, eTemp, eAmount:
		default:
			return true
		}
	}
	return false
}

// names reports whether the message has a number or a name of the crew's.
func (d *draft) names() bool {
	for i := range d.items {
		if d.items[i].is(eYard) && slices.Contains(d.l.known.Yards, d.items[i].entity.name) {
			return true
		}
	}
	return hasAny(d.items, eNumber, eRatio, eBars, eAllBut, eLost, eBuilder, eBatch, eBreeder)
}

// tells reports whether an act has a subject or a count that was said.
func (d *draft) tells() bool {
	for i := range d.acts {
		if a := d.acts[i].act; a.Count != nil || a.Breeder != 0 || a.Builder != "" || a.Yard != "" || a.Batch != 0 {
			return true
		}
	}
	return false
}

// summed takes the sum that stands before its parts for what it is: "34 moved, 20 to North
// and 14 to Creek". It doubts a sum that is none.
func (d *draft) summed() {
	if len(d.acts) < 3 {
		return
	}
	first := d.acts[0].act
	place := func(a Act) string {
		if a.Step == rules.Graft {
			return a.Builder
		}
		if ofStock[a.Step] {
			return a.Customer + a.Yard + a.Builder
		}
		return a.Yard
	}
	if first.Count == nil || place(first) != "" || !counted[first.Step] && !ofStock[first.Step] && first.Step != rules.Graft {
		return
	}
	breeders := 0 // named; the parts of one are hers, whichever else is due
	for i := range d.items {
		if d.items[i].is(eBreeder) {
			breeders++
		}
	}
	sum := 0
	for _, f := range d.acts[1:] {
		if f.act.Step != first.Step || f.act.Count == nil || place(f.act) == "" || breeders > 1 && f.act.Breeder != first.Breeder || f.act.Batch != 0 && first.Batch != 0 && f.act.Batch != first.Batch {
			return
		}
		sum += *f.act.Count
	}
	if sum != *first.Count {
		d.doubt("sum")
		return
	}
	d.acts = d.acts[1:]
	for i := range d.acts {
		f := &d.acts[i]
		if f.act.Batch == 0 && first.Batch != 0 {
			f.act.Batch, f.flags = first.Batch, dropDoubt(f.flags, fWhichBatch)
		}
		if breeders == 1 && first.Breeder != 0 {
			f.act.Breeder, f.act.Mark, f.flags = first.Breeder, first.Mark, dropDoubt(f.flags, fWhichBreeder)
		}
	}
}

// apart takes out the clauses that tell of what lies ahead, where others tell of what was
// done: "moved 17 to North and will feed B1 tomorrow". ok is false where there are none of
// both.
func (l *lattice) apart(items []item) (told, ahead []item, ok bool) {
	for _, cl := range l.split(items) {
		m := l.moodOf(cl)
		switch {
		case m.question || m.hearsay || l.meansAny(cl, l.r.c.ifC):
			return nil, nil, false
		case m.plan && len(told) == 0:
			return nil, nil, false
		case m.plan:
			ahead = append(ahead, cl...)
		default:
			told = append(told, cl...)
		}
	}
	ev := l.r.strongLicences(told, l.known)
	plain := false
	for s, w := range ev.weight {
		plain = plain || w >= 0.99 && ev.exact[s]
	}
	return told, ahead, plain && len(ahead) > 0
}

// deniedSteps are the steps that clauses deny which the others do not tell of: "and not fed
// B2". Their words are accounted for.
func (d *draft) deniedSteps() map[rules.Step]bool {
	out := map[rules.Step]bool{}
	for _, cl := range d.denials {
		if !hasAny(cl, eBreeder, eBuilder, eYard, eBatch) || hasAny(cl, eNumber, eRatio) {
			continue
		}
		for s := range d.l.r.strongLicences(cl, d.l.known).weight {
			out[s] = true
		}
	}
	return out
}

// besides has what was done asked about where the message tells of what lies ahead as well.
func (d *draft) besides(res Result) Result {
	l := d.l
	if res.Outcome == Log {
		res.Outcome = Ask
		res.Others = [][]Act{res.Acts}
	}
	for i := range d.ahead {
		it := &d.ahead[i]
		res.Unread = append(res.Unread, l.text[l.toks[it.from].from:l.toks[it.to-1].to])
	}
	if hasAny(d.ahead, eNumber, eRatio, eBars, eBreeder, eBatch) && len(res.Others) > 0 {
		res.Others, res.Left = nil, true
	}
	res.Clear = false
	return res
}

// tailed gives the batch that the last of several counts of one step names to those before
// it: "30 ready at North and 20 at Creek for batch 1".
func (d *draft) tailed() {
	n := len(d.acts) - 1
	if n < 1 {
		return
	}
	last := &d.acts[n]
	if last.act.Batch == 0 || last.act.concluded || last.act.Yard == "" {
		return
	}
	for i := range d.acts[:n] {
		f := &d.acts[i]
		if f.act.Step != last.act.Step || f.act.Yard == "" || f.act.Yard == last.act.Yard || f.act.Batch != 0 && !f.act.concluded {
			return
		}
	}
	for i := range d.acts[:n] {
		f := &d.acts[i]
		f.act.Batch, f.act.concluded = last.act.Batch, false
		f.flags = dropDoubt(f.flags, fWhichBatch)
		f.choices, f.open = last.choices, last.open
	}
}
