package reading

import (
	"yardbell/rules"
)

// withoutDone takes the words of "done" off a reply; the rest fills the ping's step.
func (l *lattice) withoutDone(d *draft) []item {
	if l.known.Reply == nil || !l.known.Reply.Task {
		return d.items
	}
	var out []item
	for _, it := range d.items {
		if it.word() && (it.means(l.r.c.doneWord) || it.means(l.r.c.yes)) {
			continue
		}
		out = append(out, it)
	}
	return out
}

// doneReply reads "done" in a reply to a ping, with nothing else in it.
func (l *lattice) doneReply(d *draft) (Result, bool) {
	p := l.known.Reply
	if p == nil || !p.Task || d.mood.held() || d.mood.hedge {
		return Result{}, false
	}
	if !l.meansAny(d.items, l.r.c.doneWord) && !l.meansAny(d.items, l.r.c.yes) {
		return Result{}, false
	}
	if it := &d.items[0]; it.means(l.r.c.doneWord) && len(d.items) > 1 && d.items[1].word() && l.asks(it) {
		return Result{}, false // "did it rain"
	}
	if hasAny(d.items, eMember) && !l.meansAny(d.items, l.r.c.doneWord) {
		return Result{Outcome: Ask, Acts: []Act{{Kind: Seen}}}, true // "Ash is bringing it": it is not done
	}
	rest := l.withoutDone(d)
	if p.Step == rules.Rogue && (l.meansAny(rest, l.r.c.kill) || l.meansAny(rest, l.r.c.foundC)) {
		return Result{}, false // something was found: how many is not said
	}
	if d.mood.neg || l.meansAny(d.items, l.r.c.yet) || l.meansAny(d.items, l.r.c.notIs) {
		if hasAny(rest, eAllBut, eLost) {
			return Result{}, false
		}
		return Result{Outcome: Ask, Doubts: []string{"denied"}}, true
	}
	evs, denials, asides := l.events(rest)
	unread, soft := l.unexplained(rest, map[rules.Step]bool{p.Step: true})
	unread = append(unread, soft...)
	_ = asides
	if len(evs) == 0 && len(denials) == 0 && len(unread) == 0 {
		return Result{Outcome: Log, Acts: []Act{{Kind: Done, Step: p.Step, All: counted[p.Step] && l.allDone(d.items)}}}, true
	}
	if len(evs) == 1 && evs[0].verbless && onlyTimes(evs[0].items) && len(unread) == 0 {
		f := l.fill(p.Step, evs[0].items)
		if !f.has(fTime) && !f.has(fAhead) && !f.has(fLongAgo) {
			return Result{Outcome: Log, Acts: []Act{{Kind: Done, Step: p.Step, When: f.act.When}}}, true
		}
	}
	return Result{}, false
}

// allDone reports whether a word of "done" says that it is all of them: "all in".
func (l *lattice) allDone(items []item) bool {
	for i := range items {
		it := &items[i]
		if it.word() && it.means(l.r.c.doneWord) && it.means(l.r.c.all) && it.means(l.r.c.in) {
			return true
		}
	}
	return false
}

// onlyAllDone reports whether a clause says that all is done, and nothing else.
func (l *lattice) onlyAllDone(items []item) bool {
	done := false
	for i := range items {
		it := &items[i]
		switch {
		case it.bound, it.is(eAll) && it.entity.n == 0:
		case it.word() && it.means(l.r.c.doneWord):
			done = true
		case !it.word() || it.anyOf(l.r.frames.strong) || len(it.senses) == 0:
			return false
		}
	}
	return done && hasAny(items, eAll)
}

// onlyTimes reports whether times are all that items name.
func onlyTimes(items []item) bool {
	for i := range items {
		if items[i].entity != nil && !items[i].is(eTime) {
			return false
		}
	}
	return hasAny(items, eTime)
}

// asks reports whether a phrase begins with a word that opens a question.
func (l *lattice) asks(it *item) bool {
	p := l.r.lex.single[l.toks[it.from].text]
	return it.to > it.from+1 && p != nil && p.means(l.r.c.aux)
}

// alsoDone adds what a reply says besides: "done. 36 accepted" to a ping about the
// finisher tells of two things.
func (d *draft) alsoDone() {
	l := d.l
	p := l.known.Reply
	if p == nil || !p.Task || len(d.acts) == 0 || !l.meansAny(d.items, l.r.c.doneWord) {
		return
	}
	for i := range d.evs {
		if d.evs[i].verbless {
			return
		}
	}
	for i := range d.acts {
		if d.acts[i].act.Step == p.Step {
			return
		}
	}
	d.acts = append([]filled{{act: Act{Kind: Done, Step: p.Step}}}, d.acts...)
	d.evs = append([]event{{verbless: false, ev: evidence{weight: map[rules.Step]float64{p.Step: 1}, exact: map[rules.Step]bool{p.Step: true}}}}, d.evs...)
}

// onlyAllOf reports whether a clause says of all that was counted before it that it was done,
// and nothing else.
func (l *lattice) onlyAllOf(items []item, e evidence, before event) bool {
	if !hasAny(items, eAll) || l.meansAny(items, l.r.c.inBank) || l.meansAny(items, l.r.c.bank) || hasAny(items, eNumber, eRatio, eYard, eBuilder, eBatch, eBreeder, ePin, eTime, eAllBut, eLost, eRest) || len(before.ev.weight) == 0 || len(e.weight) == 0 {
		return false
	}
	for i := range items {
		if it := &items[i]; it.is(eAll) && it.entity.n != 0 {
			return false
		}
	}
	for s := range e.weight {
		if before.ev.weight[s] == 0 {
			return false
		}
	}
	return true
}

// muchLeft reports whether what was counted is far less than there was of whatever is open:
// "20 to North, all done" of 36 leaves 16 of which nothing is known.
func (l *lattice) muchLeft(evs []event) bool {
	sum := 0
	for i := range evs {
		for _, it := range evs[i].items {
			if it.is(eNumber) && !l.isBreeder(it.entity.n) {
				sum += it.entity.n
			}
		}
	}
	for _, o := range l.known.Open {
		for i := range evs {
			if w := evs[i].ev.weight; sum > 0 && counted[o.Step] && o.Had > 0 && (w[o.Step] > 0 || len(w) == 0 && o.Ready) && 5*sum < 4*o.Had {
				return true
			}
		}
	}
	return false
}

// noneOfAnother reports whether a reply says of nothing that it names, under a ping of one
// step, that there were none at another: "no cells yet" under a ping of the nucs' next cells
// tells of no search.
func (d *draft) noneOfAnother() bool {
	p := d.l.known.Reply
	if p == nil || !p.Task || len(d.acts) != 1 {
		return false
	}
	a := d.acts[0].act
	return a.Step != p.Step && a.Count != nil && *a.Count == 0 && a.Builder == "" && a.Yard == "" && a.Batch == 0
}

// doneBare reads "done" that answers no ping, with a count, a place or a time at most:
// whoever acts on it finds what is open.
func (l *lattice) doneBare(d *draft) (Result, bool) {
	if l.known.Reply != nil && l.known.Reply.Task || d.mood.held() || d.mood.hedge || d.mood.neg || len(d.items) == 0 || !d.items[0].means(l.r.c.doneWord) || l.asks(&d.items[0]) {
		return Result{}, false
	}
	a := Act{Kind: Done}
	f := filled{}
	numbers := 0
	for i := range d.items {
		it := &d.items[i]
		switch e := it.entity; {
		case it.bound, i == 0:
		case e == nil && !(it.word() && (it.means(l.r.c.into) || it.means(l.r.c.at) || it.means(l.r.c.doneWord) && !d.l.r.frames.anyStrong(it))):
			return Result{}, false
		case e == nil:
		case e.kind == eNumber || e.kind == eRatio:
			a.Count, numbers = intPtr(e.n), numbers+1
			if e.kind == eRatio {
				a.Of = intPtr(e.of)
			}
		case e.kind == eAll && !e.named:
			a.All, numbers = true, numbers+1
		case e.kind == eYard && a.Yard == "":
			a.Yard = e.name
		case e.kind == eBuilder && a.Builder == "":
			a.Builder = e.name
		case e.kind == eBatch && a.Batch == 0 && !e.whole:
			a.Batch = e.n
		case e.kind == eTime:
		default:
			return Result{}, false
		}
	}
	if numbers > 1 {
		return Result{}, false
	}
	if times := entitiesOf(d.items); len(times[eTime]) > 0 {
		l.setTime(&f, d.items, times)
		a.When = f.act.When
	}
	if len(f.flags) > 0 {
		return Result{}, false
	}
	return Result{Outcome: Ask, Acts: []Act{a}, Clear: true}, true
}

// anyStrong reports whether a word reports work.
func (f *frames) anyStrong(it *item) bool {
	for _, s := range it.senses {
		if f.strong[s.concept] {
			return true
		}
	}
	return false
}
