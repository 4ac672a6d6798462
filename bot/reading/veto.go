package reading

import (
	"math"
	"slices"
	"strings"

	"yardbell/rules"
)

// openFit is something open that a message without a verb may report.
type openFit struct {
	step   rules.Step
	weight float64
}

// unexplained are the words of a message that keep it out of the log, and those that do
// not: soft ones, which may be how it was done.
func (l *lattice) unexplained(items []item, steps map[rules.Step]bool) (danger, soft []string) {
	l.work += len(items)
	c := l.r.c
	ok := map[concept]bool{}
	for s := range steps {
		if i, has := l.r.frames.byStep[s]; has {
			for x := range l.r.frames.list[i].words {
				ok[x] = true
			}
			for x := range l.r.frames.list[i].nouns {
				ok[x] = true
			}
			if l.r.frames.list[i].slots["each"] {
				ok[c.each] = true
			}
		}
	}
	for i := range items {
		it := &items[i]
		if !it.word() {
			continue
		}
		var prev *item
		if i > 0 {
			prev = &items[i-1]
		}
		if l.aside(items, i) || steps[rules.Lose] && l.causeIn(items[i:i+1]) != "" {
			continue
		}
		if it.unknown() {
			if d, is := l.dangerous(it, prev); is || i+1 < len(items) && items[i+1].is(eNumber) && !l.everyday(it.text) {
				danger = append(danger, d)
			} else if !l.toldBefore(it.text) {
				soft = append(soft, it.text)
			}
			continue
		}
		free, carries, known, hard, work := false, false, false, false, false
		for _, s := range it.senses {
			free = free || l.r.frames.free[s.concept]
			known = known || ok[s.concept]
			hard = hard || l.r.frames.hard[s.concept] && !ok[s.concept]
			work = work || l.r.frames.strong[s.concept]
			carries = carries || l.r.frames.carries[s.concept] || l.r.frames.strong[s.concept]
		}
		switch {
		case hard && !(known && l.isUnit(it)) && !it.means(c.back) && !(it.means(c.greet) && i == 0):
			danger = append(danger, it.text)
		case it.slip && work && prev != nil && prev.word() && prev.means(l.r.one):
			danger = append(danger, it.text) // "una luba"
		case !known && it.slip:
			danger = append(danger, it.text) // read through a slip into what no frame takes
		case !known && l.hasNumber(it):
			danger = append(danger, it.text) // "2a": a number in a phrase that no frame takes
		case it.means(c.neg) && it.means(c.skip) && l.known.Reply == nil:
			danger = append(danger, it.text) // called off
		case work && !known && !(it.anyOf(l.r.frames.vague) && l.speaksOwn(it.text)):
			danger = append(danger, it.text) // it reports something else
		case it.means(c.deadWord) && l.hasNo(it) && i+1 < len(items) && items[i+1].word() && ofTrade(&items[i+1], &l.r.frames):
			danger = append(danger, it.text) // "did not let her go"
		case !known && it.anyOf(l.r.frames.works) && l.apartFromWork(items, i):
			danger = append(danger, it.text) // "and i pulled", of which the rest was not read
		case free || known || it.means(c.neg) || it.means(c.yet):
		case it.means(c.foreign) && l.isTrade(it) && !carries:
		case len(it.senses) > 0:
			danger = append(danger, it.text) // it carries something, and no frame that was read takes it
		}
		if prev != nil && prev.word() && prev.means(c.into) && l.toks[it.from].name && !known && !l.isTrade(it) {
			danger = append(danger, it.text) // "a Ride": a place that is none of the crew's
		}
		if it.means(c.into) && l.intoDone(items, i) {
			danger = append(danger, it.text)
		}
		if (it.means(c.to) || it.means(c.into) && !it.means(c.harmless)) && l.leadsNowhere(items, i) {
			danger = append(danger, it.text)
		}
	}
	return danger, soft
}

// aside reports whether the clause of item i names nothing and speaks of no work: how it
// was, what comes next.
func (l *lattice) aside(items []item, i int) bool {
	from, to := i, i
	for from > 0 && !items[from-1].bound {
		from--
	}
	for to < len(items) && !items[to].bound {
		to++
	}
	if from == 0 && to == len(items) {
		return false
	}
	for k := from; k < to; k++ {
		it := &items[k]
		if it.entity != nil && !it.is(eTime) || it.means(l.r.c.neg) || it.means(l.r.c.no) || it.means(l.r.c.correct) || it.means(l.r.c.hedge) || it.means(l.r.c.foreign) || l.hasNumber(it) || len(digitRuns(it.text)) > 0 {
			return false
		}
		for _, s := range it.senses {
			if f := &l.r.frames; f.strong[s.concept] || f.works[s.concept] || f.hard[s.concept] || f.carries[s.concept] || s.concept == l.r.c.place {
				return false
			}
		}
	}
	return true
}

// apartFromWork reports whether nothing beside item i in its clause speaks of work that is read.
func (l *lattice) apartFromWork(items []item, i int) bool {
	clauses := l.split(items)
	for _, cl := range clauses {
		at := slices.IndexFunc(cl, func(it item) bool { return it.from == items[i].from })
		if at < 0 {
			continue
		}
		return len(clauses) > 1 && !slices.ContainsFunc(cl, func(it item) bool {
			return it.from != items[i].from && it.anyOf(l.r.frames.strong)
		})
	}
	return false
}

// toldBefore reports whether a word that no lexicon has stands in labelled reports, and
// not in talk: how it was done.
func (l *lattice) toldBefore(w string) bool {
	if l.r.model == nil {
		return false
	}
	n := l.r.model.seen[w]
	return n[0] >= 2 && n[0] > 2*n[1]
}

func (l *lattice) isTrade(it *item) bool {
	for _, s := range it.senses {
		if l.r.frames.trade[s.concept] || l.r.frames.free[s.concept] {
			return true
		}
	}
	return false
}

// leadsNowhere reports whether a preposition of place at i has no place that is known
// behind it.
func (l *lattice) leadsNowhere(items []item, i int) bool {
	for k := i + 1; k < len(items); k++ {
		it := &items[k]
		switch {
		case it.bound:
			return true
		case it.entity != nil:
			return false
		case it.means(l.r.c.the) || it.means(l.r.one):
			continue
		case it.unknown():
			return true
		}
		return !l.isTrade(it) || l.onlyHarmless(it) || it.means(l.r.c.doneWord)
	}
	return true
}

// onlyHarmless reports whether a word has no other meaning than a harmless one.
func (l *lattice) onlyHarmless(it *item) bool {
	for _, s := range it.senses {
		if s.concept != l.r.c.harmless {
			return false
		}
	}
	return true
}

// dangerous says whether an unknown word may carry something: it has a figure in it, is
// nearly a name of the crew's, stands where a thing or place is named, or behind a number.
func (l *lattice) dangerous(it, prev *item) (string, bool) {
	w := it.text
	if !strings.ContainsAny(w, "abcdefghijklmnopqrstuvwxyz") {
		return "", false
	}
	if strings.ContainsAny(w, "0123456789") {
		return w, true // "be1", "3o": a number that nothing explains
	}
	for _, name := range append(append([]string{}, l.known.Yards...), l.known.Builders...) {
		for _, p := range l.nameWords(name) {
			if len(p) >= 3 && OneSlip(w, p) {
				return w, true
			}
		}
	}
	switch {
	case l.toks[it.from].name && prev != nil && prev.word() && len(prev.text) <= 3 && (len(prev.text) <= 2 || prev.unknown() || l.onlyHarmless(prev)) && !prev.means(l.r.c.into):
		return w, true // a name behind a word that may have been one of place: "as Ridge"
	case l.toks[it.from].name:
		return w, prev != nil && prev.word() && (prev.means(l.r.c.into) || prev.means(l.r.c.at) || prev.means(l.r.c.the) || prev.means(l.r.c.approx) || !l.freeWord(prev)) || prev != nil && prev.is(eTime)
	case prev == nil:
	case prev.word() && (prev.means(l.r.c.the) || prev.means(l.r.c.into) || prev.means(l.r.one)):
		return w, prev.means(l.r.c.into) || !l.everyday(w) || l.behindPlace(prev.from)
	case prev.is(eNumber) || prev.is(eRatio) || prev.is(eAll):
		return w, true
	}
	return w, false
}

// judge is the one place that decides.
func (d *draft) judge() Result {
	l := d.l
	addressed := l.known.Addressed || l.known.Reply != nil
	talk := l.chance(d.rank, classTalk)
	for i := range d.evs {
		if e := &d.evs[i]; !e.verbless && len(d.evs) > 0 && len(e.items) < len(d.items) {
			talk = math.Min(talk, math.Max(0.5, l.chance(l.rank(e.items), classTalk))) // with talk beside it a report is asked about
		}
	}
	strong := d.isStrong()
	entity := d.names()
	res := Result{Doubts: d.doubts}
	if len(d.acts) == 0 {
		switch {
		case addressed:
			res.Outcome = Ask
		case strong && entity && talk < 0.9 && !l.meansAny(d.items, l.r.c.foreign) && !d.mood.neg, d.touches(talk):
			res.Outcome = Notice
		default:
			res.Outcome = Ignore
		}
		return res
	}
	steps := map[rules.Step]bool{}
	var flags []doubt
	for i := range d.acts {
		a := &d.acts[i]
		steps[a.act.Step] = true
		res.Acts = append(res.Acts, a.act)
		for _, f := range a.flags {
			if !gaps[f] {
				flags = append(flags, f)
			}
		}
	}
	for i := range d.acts {
		if a := d.acts[i].act; a.Step == rules.Rogue && a.Count != nil && *a.Count == 0 && l.meansAny(d.items, l.r.c.kill) {
			flags = append(flags, fNumber) // none found, and yet something was cut out
		}
	}
	if d.noneOfAnother() {
		flags = append(flags, fNumber)
	}
	flags = append(flags, d.together()...)
	danger, soft := l.unexplained(d.told(steps), steps)
	if denies := d.deniedSteps(); len(danger) > 0 && len(denies) > 0 {
		for s := range steps {
			denies[s] = true
		}
		danger, soft = l.unexplained(d.items, denies)
	}
	d.danger = danger
	res.Unread = d.unread(danger, soft)
	for i := range d.items { // a loss that does not add up is not read
		if slices.Contains(flags, fLoss) && d.items[i].is(eLost) {
			res.Unread = append(res.Unread, d.items[i].text)
		}
	}
	neg := d.negated()
	denied := d.deniedToo()
	first := d.acts[0]
	open := false
	for _, o := range l.known.Open {
		open = open || o.Step == first.act.Step
	}
	open = open || l.inStock(first.act.Step)
	open = open || l.mayLose(first.act)
	limit := talkMost
	full := len(danger) == 0 && len(soft) == 0 && !slices.ContainsFunc(d.items, func(it item) bool { return it.unknown() })
	plain := d.evs[0].ev.exact[first.act.Step] && d.evs[0].ev.weight[first.act.Step] >= 0.99
	switch {
	case full && plain && hasAny(d.items, eCustomer, eBuyer) && l.inStock(first.act.Step):
		limit = 1 // a customer of the crew's is named
	case full && open && (plain || d.evs[0].verbless && d.sure):
		limit = talkMostFull
	case full && plain:
		limit = talkMostPlain
	case open && (d.evs[0].verbless || d.evs[0].ev.exact[first.act.Step] && d.evs[0].ev.weight[first.act.Step] >= 0.99):
		limit = talkMostOpen
	}
	for i := range d.evs {
		e := &d.evs[i]
		if e.verbless && l.known.Reply == nil && len(soft) > 0 {
			d.doubt("verbless-unknown")
		}
		if len(d.evs) == len(d.acts) && !e.verbless && nounOnly[d.acts[i].act.Step] && !l.expects(d.acts[i].act) && (!e.ev.exact[d.acts[i].act.Step] || len(soft) > 0) {
			d.doubt("noun-only") // an unknown word beside it may be the verb
		}
		if len(d.evs) == len(d.acts) && len(d.acts) > 1 && nounOnly[d.acts[i].act.Step] && d.acts[i].act.Batch == 0 && !l.awaits(d.acts[i].act.Step) {
			d.doubt("not-awaited") // "they are happy in the finisher"
		}
		if l.mayBeAhead(e) {
			d.doubt("may-be-ahead")
		}
	}
	unbuilt := false
	for s := range steps {
		unbuilt = unbuilt || !l.r.Built(s)
	}
	byLoss := first.has(fByLoss)
	if byLoss && d.evs[0].verbless {
		d.doubt("by-loss")
	}
	told := full && plain && (open || first.act.Step == rules.Graft && first.act.Breeder != 0) // the bot asks for the number
	if first.has(fNoCount) && !told && (talk > talkUncounted || !open) && l.known.Reply == nil {
		d.doubt("uncounted")
	}
	if first.has(fNoCount) && len(soft) > 0 {
		d.doubt("uncounted") // a word that nobody knows may be the number
	}
	for i := range d.acts[1:] {
		if a := &d.acts[i+1]; a.has(fNoCount) && !told {
			d.doubt("uncounted")
		}
	}
	if len(d.acts) > 1 && first.has(fNoCount) {
		d.doubt("uncounted") // beside other work a word for it may mean something else
	}
	if hasAny(d.items, eMember) && !d.byMember() {
		d.doubt("member") // somebody is told of, or spoken to
	}
	for _, f := range flags {
		res.Doubts = append(res.Doubts, string(f))
	}
	held := neg || denied || d.mood.hedge || d.mood.held()
	if d.sure && !held && len(flags) == 0 && len(danger) == 0 && !d.partial && !unbuilt && (talk <= limit || l.known.Addressed && l.known.Reply == nil || l.known.Reply != nil && l.known.Reply.Task) {
		res.Outcome = Log
		return res
	}
	allowed := talk <= limit || addressed
	uncounted := slices.Equal(d.doubts, []string{"uncounted"}) && len(flags) == 0 && (talk <= talkUncounted || !open)
	res.Clear = (d.sure && onlyAsked(flags) || uncounted) && !held && len(danger) == 0 && len(soft) == 0 && !d.partial && !unbuilt && d.plainly() && allowed
	res.Doubts = append(d.doubts, res.Doubts[len(res.Doubts)-len(flags):]...)
	for _, x := range []struct {
		on   bool
		name string
	}{{neg, "neg"}, {denied, "denied"}, {d.mood.hedge, "hedge"}, {d.mood.held(), "mood"}, {unbuilt, "unbuilt"}, {d.partial, "partial"}, {talk > limit, "talk"}, {len(danger) > 0, "words"}} {
		if x.on {
			res.Doubts = append(res.Doubts, x.name)
		}
	}
	serious := false
	for _, f := range flags {
		serious = serious || f != fUnlikely && f != fNoun && f != fPlace && f != fMark && !(f == fSwapped && first.act.Step == rules.Lose)
	}
	if !serious && !d.partial && !neg && !denied && !d.mood.held() {
		res.Others = d.built(d.orBreeder(d.offers()))
	}
	if !addressed && d.idleLoss(len(danger)+len(soft)) {
		res.Others = nil
	}
	if p := l.known.Reply; p != nil && p.Task && slices.Contains(d.doubts, "no-deed") && len(danger)+len(soft) > 0 {
		// "voy temprano": nothing says that it is done. To offer that would let the task go.
		res.Outcome, res.Acts, res.Others = Ask, []Act{{Kind: Seen}}, nil
		return res
	}
	if res.Clear || slices.Contains(d.doubts, "sum") {
		res.Outcome = Ask
		return res
	}
	if len(res.Others) == 0 && first.act.Step != rules.Lose && strong && entity && d.plainly() && d.tells() && !neg && !denied && !d.mood.held() && !unbuilt && (talk <= talkMostPlain || addressed) && !d.foreign() && len(res.Unread) > 0 {
		res.Left, res.Outcome = true, Ask
		return res
	}
	res.Outcome = d.outcome(addressed, talk, strong, entity, open, neg || denied, serious, flags, danger, soft, res.Others)
	return res
}

// negated reports whether an event is denied, where that is not what it says: none took,
// no eggs.
func (d *draft) negated() bool {
	l := d.l
	for i := range d.evs {
		if l.deniesState(d.evs[i].items) {
			return true
		}
		if !l.denies(d.evs[i].items) || hasAny(d.evs[i].items, eAllBut, eLost) {
			continue
		}
		if i < len(d.acts) && len(d.evs) == len(d.acts) {
			a := d.acts[i].act
			if a.None || a.Count != nil && *a.Count == 0 {
				continue
			}
		}
		return true
	}
	return false
}

// countsOf reports whether a step that counts is spoken of.
func countsOf(ev evidence) bool {
	for s := range ev.weight {
		if counted[s] {
			return true
		}
	}
	return false
}

// deniedToo reports whether a clause denies what another reports.
func (d *draft) deniedToo() bool {
	l := d.l
	for _, cl := range d.denials {
		lic := l.r.strongLicences(cl, l.known)
		names := hasAny(cl, eBreeder, eBuilder, eYard, eBatch, eNumber, eLost, eTime)
		same := false
		for i := range d.acts {
			same = same || lic.weight[d.acts[i].act.Step] > 0
		}
		if l.meansAny(cl, l.r.one) && !same && len(d.acts) > 0 && d.acts[0].act.Count != nil {
			continue // "one I did not find" beside a count
		}
		if same && hasAny(cl, eNumber, eRatio) && !hasAny(cl, eRest, eNone) && countsOf(lic) {
			return true // "moved 20 no North and 14 to Creek"
		}
		if len(lic.weight) > 0 && l.deniesThing(cl) || same && l.alsoOf(cl, d.acts) {
			return true
		}
		if len(lic.weight) == 0 && hasAny(cl, eYard) && len(d.evs) > 0 && d.evs[0].verbless {
			return true // "la mitad a North y ala mitad a Creek"
		}
		if !names && (same || len(lic.weight) == 0) || len(lic.weight) == 0 && hasAny(cl, eNumber, eRatio) && !hasAny(cl, eRest) {
			return true
		}
	}
	return false
}
