package reading

import (
	"strings"

	"yardbell/rules"
)

// This file reads what is answered in a word or two: done, later, skip, yes, no, thanks.
// Said in reply to a message of the bot they are about that. Without one only words that
// people do not say to each other are taken for an answer: ALONE in the lexicons.

// short reads a short answer. ok is false where the message is none.
func (l *lattice) short(items []item, k ranking, m mood) (Result, bool) {
	c := l.r.c
	reply := l.known.Reply
	asTask := reply != nil && reply.Task
	first := 0
	for first < len(items) && (items[first].bound || items[first].means(c.please) || items[first].means(c.greet) && !items[first].means(c.ok)) {
		first++
	}
	if first == len(items) {
		if reply != nil && l.thanks(items) {
			return Result{Outcome: Log, Acts: []Act{{Kind: Thanks}}}, true
		}
		return Result{}, false
	}
	head := &items[first]
	rest := items[first+1:]
	alone := reply == nil && head.means(c.alone)
	switch {
	case reply != nil && l.says(items, c.no, c.neg, c.yet) && (m.neg || l.meansAny(items, c.no)):
		return Result{Outcome: Log, Acts: []Act{{Kind: No}}}, true
	case reply != nil && l.says(items, c.yes, c.ok, c.ifC) && l.thanks(items):
		return Result{Outcome: Log, Acts: []Act{{Kind: Thanks}}}, true
	case reply != nil && l.says(items, c.yes, c.ok, c.ifC) && l.heard(items):
		if asTask {
			return Result{Outcome: Ask, Acts: []Act{{Kind: Seen}}}, true
		}
		return Result{Outcome: Log, Acts: []Act{{Kind: Yes}}}, true
	case (alone || reply != nil && !asTask) && head.means(c.doneWord) && !m.neg && !m.held() && !m.hedge:
		if a, ok := l.doneAlone(rest, items); ok {
			return Result{Outcome: Log, Acts: []Act{a}}, true
		}
	case (alone || asTask) && head.means(c.snooze) && !l.meansAny(items, c.claim):
		return l.laterAlone(rest, items, alone)
	case alone && head.means(c.skip) && !m.hearsay:
		return l.skipAlone(rest, items, k)
	}
	return Result{}, false
}

// says reports whether items are words of these concepts, and greetings and words that
// say nothing beside them.
func (l *lattice) says(items []item, list ...concept) bool {
	c := l.r.c
	for i := range items {
		it := &items[i]
		if it.bound || it.means(c.greet) || it.means(c.please) || it.is(eMember) || it.unknown() && !strings.ContainsAny(it.text, "abcdefghijklmnopqrstuvwxyz0123456789") || it.means(l.r.cmd.bot) {
			continue
		}
		fits := false
		for _, x := range list {
			fits = fits || it.word() && it.means(x)
		}
		if !fits {
			return false
		}
	}
	return true
}

// heard reports whether a word says yes, and is more than thanks.
func (l *lattice) heard(items []item) bool {
	for i := range items {
		if it := &items[i]; (it.means(l.r.c.yes) || it.means(l.r.c.ok) || it.means(l.r.c.ifC)) && !it.means(l.r.c.greet) {
			return true
		}
	}
	return false
}

// thanks reports whether a word of thanks stands in items.
func (l *lattice) thanks(items []item) bool {
	for i := range items {
		if items[i].means(l.r.c.greet) && items[i].means(l.r.c.ok) {
			return true
		}
	}
	return false
}

// doneAlone reads "done", with a count, a place or a time at most.
func (l *lattice) doneAlone(rest, items []item) (Act, bool) {
	c := l.r.c
	a := Act{Kind: Done}
	for i := range rest {
		it := &rest[i]
		switch {
		case it.bound, it.means(c.please), it.means(c.greet), it.means(c.doneWord), it.means(c.ok):
		case it.word() && (it.means(c.into) || it.means(c.to) || it.means(c.at) || it.means(c.in)):
		case it.word() && l.onlyHarmless(it) && len(it.senses) > 0 && !l.known.isCalled(it.text):
		case it.is(eNumber) && a.Count == nil:
			a.Count = intPtr(it.entity.n)
		case it.is(eRatio) && a.Count == nil:
			a.Count, a.Of = intPtr(it.entity.n), intPtr(it.entity.of)
		case it.is(eYard) && a.Yard == "":
			a.Yard = it.entity.name
		case it.is(eTime) && a.When == nil && (i == 0 || !rest[i-1].means(c.greet)):
			w := it.entity.when
			a.When = &w
		default:
			return a, false
		}
	}
	return a, true
}

// laterAlone reads for how long a ping is to wait. What else follows "later" in a reply was
// to be a time, and is asked about.
func (l *lattice) laterAlone(rest, items []item, alone bool) (Result, bool) {
	c := l.r.c
	timed, plain, asked := false, true, false
	for i := range rest {
		it := &rest[i]
		switch {
		case it.bound, it.means(c.please), it.means(c.greet), it.means(c.snooze), it.means(c.ok):
		case it.is(eTime), it.is(eSpan), it.is(eAge):
			timed = true
		case it.word() && (it.means(c.into) || it.means(c.to) || it.means(c.at) || it.means(c.in) || it.means(c.approx) || it.means(l.r.and)):
		default:
			plain = false
			asked = asked || it.means(c.whenWord)
		}
	}
	switch {
	case !plain && asked && !alone:
		a := Act{Kind: Later, Reason: l.typed(rest)}
		return Result{Outcome: Ask, Acts: []Act{a}}, true
	case !plain, alone && !timed && !l.known.Addressed:
		return Result{}, false
	}
	return Result{Outcome: Log, Acts: []Act{l.later(items)}}, true
}

// skipAlone reads "skip" that answers no ping: with a reason behind a comma, or with the
// work that is skipped.
func (l *lattice) skipAlone(rest, items []item, k ranking) (Result, bool) {
	c := l.r.c
	a := Act{Kind: Skip}
	switch {
	case l.says(rest):
		return Result{Outcome: Log, Acts: []Act{a}}, true
	case rest[0].bound:
		a.Reason = l.typed(rest)
		return Result{Outcome: Log, Acts: []Act{a}}, true
	case l.says(rest, c.handsOff):
		a.Step = rules.HandsOff
		return Result{Outcome: Log, Acts: []Act{a}}, true
	}
	best := 0.0
	for s, w := range k.ev.weight {
		if p := k.p[l.r.classOf(string(s))]; w > 0 && l.r.Built(s) && (p > best || p == best && s < a.Step) {
			a.Step, best = s, p
		}
	}
	danger, soft := l.unexplained(rest, map[rules.Step]bool{a.Step: true})
	if a.Step == "" || len(danger)+len(soft) > 0 || counts(rest) || hasAny(rest, eTime, eSpan) {
		return Result{}, false
	}
	es := entitiesOf(rest)
	for _, it := range es[eBatch] {
		a.Batch = it.entity.n
	}
	for _, it := range es[eBreeder] {
		a.Breeder = it.entity.n
	}
	for _, it := range es[eBuilder] {
		a.Builder = it.entity.name
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// typed is what stands in items, as it was typed, without what parts clauses at its ends.
func (l *lattice) typed(items []item) string {
	for len(items) > 0 && items[0].bound {
		items = items[1:]
	}
	for len(items) > 0 && items[len(items)-1].bound {
		items = items[:len(items)-1]
	}
	if len(items) == 0 {
		return ""
	}
	return l.text[l.toks[items[0].from].from:l.toks[items[len(items)-1].to-1].to]
}

// called takes off what says that the bot is spoken to, a slash or its name at the head.
func (r *Reader) called(text string, k *Known) (string, bool) {
	text, slash := unslash(text)
	first, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	w := strings.ToLower(strings.TrimRight(first, ",.:;!"))
	for _, p := range r.lex.commandPhrases[w] {
		if len(p.words) != 1 {
			continue
		}
		for _, s := range p.senses {
			if s.concept == r.cmd.bot && r.lex.langs[s.lang] == neutral {
				text, slash = rest, true
			}
		}
	}
	k.Addressed = k.Addressed || slash
	return text, slash
}
