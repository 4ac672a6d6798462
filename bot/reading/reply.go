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
	rest := l.withoutDone(d)
	if d.mood.neg || l.meansAny(d.items, l.r.c.yet) {
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
		return Result{Outcome: Log, Acts: []Act{{Kind: Done, Step: p.Step}}}, true
	}
	if len(evs) == 1 && evs[0].verbless && onlyTimes(evs[0].items) && len(unread) == 0 {
		f := l.fill(p.Step, evs[0].items)
		if !f.has(fTime) {
			return Result{Outcome: Log, Acts: []Act{{Kind: Done, Step: p.Step, When: f.act.When}}}, true
		}
	}
	return Result{}, false
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
