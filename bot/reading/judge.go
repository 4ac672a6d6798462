package reading

import (
	"math"
	"sort"

	"yardbell/rules"
)

// The thresholds of the judge, from stated costs (a wrong line 100, a bad tap 20, silence
// 10, a needless question 1); see the page on reading in bot/README.md.
const (
	talkMost      = 0.35 // talk likelier than this keeps a report out of the log
	talkMostOpen  = 0.60 // the same where exactly this is open and plainly named
	talkMostPlain = 0.80 // where it is plainly named and no word is left over
	talkMostFull  = 0.95 // where it is open besides
	talkUncounted = 0.30 // talk likelier than this keeps a report without its count out
	askTalkMost   = 0.80 // talk likelier than this is not asked about
	askTalkOpen   = 0.97
	askTalkTold   = 0.995 // the same of what the log has no line for, told with a number
	touchTalkMost = 0.97  // talk likelier than this gets no sign
	stepLeast     = 0.15  // a step below this share of all steps is not logged
	marginLeast   = 1.0   // the next step must be this much behind, in logits
	offerWithin   = 3.0
	guessLeast    = 0.25 // a step guessed without any licence is offered from here
	softWordsMost = 3
	mostOffers    = 3
)

// Read makes out what a message says.
func (r *Reader) Read(text string, k Known) Result {
	text, called := r.called(text, &k)
	l := r.newLattice(text, &k)
	l.slash = called
	return l.read()
}

// Language is the language that an answer to a text is due in, empty where it does not say.
func (r *Reader) Language(text, crew string) string {
	return r.newLattice(text, &Known{Language: crew}).answerIn()
}

func (l *lattice) read() Result {
	if len(l.toks) == 0 {
		if l.slash {
			return Result{Outcome: Ask, Addressed: true} // its name alone
		}
		return Result{Outcome: Ignore}
	}
	if res, ok := l.command(); ok {
		return res
	}
	var best Result
	bestScore := math.Inf(-1)
	readings := l.readings()
	if len(readings[0]) > mostItems {
		return l.tooLong(readings[0])
	}
	for i, items := range readings {
		res, score := l.interpret(items)
		score -= 0.3 * float64(i)
		if score > bestScore {
			best, bestScore = res, score
			best.Why = l.why(items)
		}
	}
	if best.Outcome != Log {
		if res, ok := l.unreadCommand(); ok {
			res.Talk, res.Why = best.Talk, best.Why
			best = res
		} else if l.slash && best.Outcome != Ask {
			best = Result{Outcome: Ask, Doubts: []string{kindCommand}, Talk: best.Talk, Why: best.Why}
		}
	}
	best.Language = l.answerIn()
	best.Addressed = best.Addressed || l.slash
	return best
}

// why lists what each run of words was taken for.
func (l *lattice) why(items []item) []Piece {
	var out []Piece
	for i := range items {
		it := &items[i]
		p := Piece{Words: it.text}
		switch {
		case it.bound:
			continue
		case it.entity != nil:
			p.As = string(it.entity.kind)
		default:
			for k, s := range it.senses {
				if k > 0 {
					p.As += " "
				}
				p.As += l.r.lex.names[s.concept]
			}
			if it.slip {
				p.As += " (slip)"
			}
		}
		out = append(out, p)
	}
	return out
}

// draft is what an interpretation of a message is built up in.
type draft struct {
	l       *lattice
	items   []item
	rank    ranking
	mood    mood
	stage   stage
	evs     []event
	denials [][]item
	acts    []filled
	others  []rules.Step // for a single act: steps that are nearly as likely
	sure    bool         // every step was chosen plainly
	full    bool         // a clause of it is a whole report of what is due
	doubts  []string
	danger  []string // words that keep it out of the log
	partial bool     // something of the message is left out
	ahead   []item   // clauses that tell of what lies ahead, left out
	dealt   int      // amounts that several things got, each or together
}

func (d *draft) doubt(why string) { d.sure = false; d.doubts = append(d.doubts, why) }

// interpret reads one way of cutting the message into items. The score compares ways.
func (l *lattice) interpret(items []item) (Result, float64) {
	rank := l.rank(items)
	items = l.withoutRemainder(items)
	d := &draft{l: l, items: items, rank: rank, mood: l.moodOf(items), sure: true}
	res, score := d.interpret()
	res = l.holdWhole(res, items)
	res.Moods = d.mood.names()
	if l.trace != nil {
		l.trace(d, res, score)
	}
	return res, score
}

func (d *draft) interpret() (Result, float64) {
	l, items := d.l, d.items
	talk := l.chance(d.rank, classTalk)
	_, p := d.rank.top()
	score := math.Log(p + 1e-6)
	if res, ok := l.order(items); ok {
		res.Talk = talk
		return res, score
	}
	if res, ok := l.intent(items, d.rank, d.mood); ok {
		res.Talk = talk
		return res, score
	}
	addressed := l.known.Addressed || l.known.Reply != nil
	if d.mood.held() && d.mood.plan && len(d.ahead) == 0 {
		if told, ahead, ok := l.apart(items); ok {
			e := &draft{l: l, items: told, ahead: ahead, rank: l.rank(told), mood: l.moodOf(told), sure: true}
			return e.interpret()
		}
	}
	d.stage = l.stageOf(items)
	d.mood.plan = d.mood.plan || d.stage.ahead()
	d.full = l.fullReport(items)
	if d.full && d.mood.held() && !d.mood.question && !addressed {
		return Result{Outcome: Ask, Doubts: []string{"mood"}, Talk: talk}, score
	}
	if d.mood.held() && !addressed {
		return Result{Outcome: Ignore, Doubts: []string{"mood"}, Talk: talk}, score
	}
	if res, ok := l.doneReply(d); ok {
		res.Talk = talk
		return res, score
	}
	if res, ok := l.doneBare(d); ok {
		res.Talk = talk
		return res, score
	}
	d.items = l.putRightAtOnce(d.items)
	d.evs, d.denials, _ = l.events(l.withoutDone(d))
	if len(d.evs) > mostEvents {
		return l.tooLong(items), score
	}
	if d.stage.unsure() {
		d.doubt(DoubtGoing)
	}
	d.build()
	d.alsoDone()
	d.merge()
	d.summed()
	d.tailed()
	d.amongCounted()
	res := d.judge()
	if len(d.ahead) > 0 {
		res = d.besides(res)
	}
	res.Talk = talk
	d.tellAhead(&res)
	d.raise(&res)
	for i := range d.acts {
		for _, f := range d.acts[i].flags {
			if !gaps[f] {
				score -= 0.8
			}
		}
	}
	return res, score
}

// build chooses a step for every event and fills it.
func (d *draft) build() {
	l := d.l
	var base rules.Step
	for i := range d.evs {
		e := &d.evs[i]
		rank := d.rank
		if len(d.evs) > 1 {
			rank = l.rank(e.items)
		}
		step, ok := d.choose(e, rank, base)
		if !ok {
			if i > 0 && len(d.acts) > 0 {
				d.partial = true
			}
			d.doubt("no-step")
			continue
		}
		if i > 0 && l.empty(e, step) {
			continue // "took her comb out, she ran right back"
		}
		base = step
		d.partial = d.partial || e.loose
		d.add(step, e)
	}
}

// choose finds the step of an event.
func (d *draft) choose(e *event, rank ranking, base rules.Step) (rules.Step, bool) {
	l := d.l
	n := len(l.r.frames.list)
	share := make([]float64, n)
	total := 0.0
	for i := range share {
		total += rank.p[i]
	}
	for i := range share {
		share[i] = rank.p[i] / (total + 1e-12)
	}
	order := make([]int, 0, n)
	for i := range share {
		order = append(order, i)
	}
	sort.SliceStable(order, func(a, b int) bool { return share[order[a]] > share[order[b]] })
	step := func(i int) rules.Step { return l.r.frames.list[i].step }
	if e.verbless && e.carried && base != "" {
		return base, true
	}
	if e.verbless {
		if p := l.known.Reply; p != nil && p.Step != "" {
			if i, ok := l.r.frames.byStep[p.Step]; ok {
				if fr := l.r.frames.list[i]; !fr.slots["count"] && hasAny(e.items, eNumber, eRatio, eAllBut, eLost) {
					if list := l.openFits(e.items); len(list) > 0 {
						return list[0].step, true // the count answers another step than the ping's
					}
				}
				said := l.meansAny(d.items, l.r.c.doneWord) || l.meansAny(d.items, l.r.c.yes)
				if !said && !hasAny(e.items, eNumber, eRatio, eBars, eAll, eAllBut, eLost, eHalf, eNone, eBoth) {
					d.doubt("no-deed") // a place or an hour alone may be a question of where or when
				}
				return step(i), true
			}
		}
		if p := l.known.Asked; p != nil && p.Step != "" && (p.Need == "count" && hasAny(e.items, eNumber, eRatio, eAll, eNone, eAllBut)) {
			return p.Step, true
		}
		if l.onlyLost(d, e) {
			return stepLose, true
		}
		list := l.ofSpoken(e.items, l.openFits(e.items))
		if len(list) > 0 {
			sort.SliceStable(list, func(a, b int) bool {
				if list[a].weight != list[b].weight {
					return list[a].weight > list[b].weight
				}
				return share[l.r.frames.byStep[list[a].step]] > share[l.r.frames.byStep[list[b].step]]
			})
			if list[0].weight < 1.5 {
				d.doubt("verbless-weak")
			}
			for _, f := range list[1:] {
				if f.step != list[0].step && f.weight > list[0].weight-0.45 {
					d.doubt("verbless-many")
					break
				}
			}
			for _, f := range list[1:] {
				if f.step != list[0].step {
					d.others = append(d.others, f.step)
				}
			}
			return list[0].step, true
		}
		d.doubt("no-licence")
		telling := counts(e.items) || hasAny(e.items, eAll, eBoth, eBuilders, eBuilder, eBatch, eBreeder) || l.speaksTrade(e.items)
		if telling && (l.clear(e.items) || l.slash && named(e.items) > 1) && share[order[0]] > guessLeast && rank.p[order[0]] > 0.05 {
			return step(order[0]), true
		}
		return "", false
	}
	var cand []int
	for _, i := range order {
		if e.ev.weight[step(i)] > 0 && !l.inNucs(step(i), e.items) {
			cand = append(cand, i)
		}
	}
	if len(cand) == 0 {
		d.doubt("no-licence")
		return "", false
	}
	logit := func(i int) float64 { return math.Log(share[i] + 1e-4) }
	first := cand[0]
	if len(cand) > 1 && logit(first)-logit(cand[1]) < marginLeast {
		d.doubt("near " + string(step(cand[1])))
	}
	if e.ev.weight[step(first)] < 0.78 {
		d.doubt("weak")
	}
	if !e.ev.exact[step(first)] && !l.awaits(step(first)) {
		d.doubt("slip-not-open") // a word read through a slip, and nothing waits for that step
	}
	if share[first] < stepLeast {
		d.doubt("unlikely-step")
	}
	if u, ok := d.notBuilt(e, cand); ok {
		return step(u), true
	}
	for _, i := range cand[1:] {
		if logit(first)-logit(i) < offerWithin && len(d.others) < 2 {
			d.others = append(d.others, step(i))
		}
	}
	if order[0] != first && share[order[0]] > 0.3 {
		d.others = append(d.others, step(order[0]))
	}
	return step(first), true
}

// named is how many things items name.
func named(items []item) (n int) {
	for i := range items {
		if items[i].entity != nil {
			n++
		}
	}
	return n
}

// speaksTrade reports whether a word of the trade is among the items.
func (l *lattice) speaksTrade(items []item) bool {
	for i := range items {
		for _, s := range items[i].senses {
			if l.r.frames.trade[s.concept] {
				return true
			}
		}
	}
	return false
}

// add fills a step from an event; one that speaks of several things makes several acts.
func (d *draft) add(step rules.Step, e *event) {
	l := d.l
	fr := l.r.frames.list[l.r.frames.byStep[step]]
	es := entitiesOf(e.items)
	without := func(k entityKind, extra entity) []item {
		var out []item
		for _, it := range e.items {
			if it.is(k) {
				continue
			}
			out = append(out, it)
		}
		return append(out, item{entity: &extra})
	}
	switch {
	case len(es[eBoth]) > 0 && fr.slots["batch"]:
		var list []Expect
		for _, o := range l.known.Open {
			if o.Step == step && o.Batch != 0 {
				list = append(list, o)
			}
		}
		if len(list) != 2 {
			d.doubt("both-of-" + itoa(len(list)))
		}
		for _, o := range list {
			d.acts = append(d.acts, l.fill(step, without(eBoth, entity{kind: eBatch, n: o.Batch})))
		}
		return
	case len(es[eBuilders]) > 0 && fr.slots["builder"] && step != rules.Feed:
		if n := es[eBuilders][0].entity.n; n != 0 && n != len(l.known.Builders) {
			d.doubt("builders-of-" + itoa(len(l.known.Builders)))
		}
		for _, b := range l.known.Builders {
			d.acts = append(d.acts, l.fill(step, without(eBuilders, entity{kind: eBuilder, name: b})))
		}
		return
	}
	if step == rules.Feed {
		if list, ok := d.feeds(e); ok {
			d.acts = append(d.acts, list...)
			return
		}
	}
	f := l.fill(step, e.items)
	if f.has(fWhichFed) && len(d.acts) > 0 {
		if last := d.acts[len(d.acts)-1].act; last.Breeder != 0 || last.Step == rules.Feed {
			f.act.Breeder, f.flags = last.Breeder, dropDoubt(f.flags, fWhichFed) // "let 7 out and fed her"
		}
	}
	if n := len(d.acts); n > 0 && e.carried && f.has(fWhichBatch) && d.acts[n-1].act.Step == step && d.acts[n-1].act.Batch != 0 {
		f.act.Batch, f.flags = d.acts[n-1].act.Batch, dropDoubt(f.flags, fWhichBatch)
		f.choices, f.open = d.acts[n-1].choices, d.acts[n-1].open
	}
	if len(es[eRest]) > 0 {
		if f.act.Yard == "" && f.act.Builder == "" && f.act.Batch == 0 && len(es[eLost]) == 0 && len(d.acts) > 0 {
			return // "the rest was too runny": what is left over, in words
		}
		if len(es[eAllBut]) == 0 && (len(es[eLost]) == 0 || f.act.Count == nil) {
			d.rest(&f)
		}
	}
	more := f.more
	f.more = nil
	if twoFrom(es) && len(more) > 0 {
		d.doubt("from-several")
	}
	d.acts = append(d.acts, f)
	for _, n := range more {
		g := f
		g.flags = append([]doubt{}, f.flags...)
		g.act.Breeder = n
		d.acts = append(d.acts, g)
	}
}

// dropDoubt takes a doubt out.
func dropDoubt(list []doubt, x doubt) (out []doubt) {
	for _, f := range list {
		if f != x {
			out = append(out, f)
		}
	}
	return out
}

// rest works out "the rest" against what was on record and told before it.
func (d *draft) rest(f *filled) {
	sum, before := 0, 0
	for i := range d.acts {
		if d.acts[i].act.Step == f.act.Step {
			before++
			if d.acts[i].act.Count == nil {
				f.flag(fNoRecord)
				return
			}
			sum += *d.acts[i].act.Count
		}
	}
	if had := f.record(); before > 0 && had > sum {
		f.act.Count = intPtr(had - sum)
		return
	}
	f.flag(fNoRecord)
}

// merge joins what tells of one thing twice.
func (d *draft) merge() {
	for i := 1; i < len(d.acts); i++ {
		if was, a := d.acts[i-1].act, &d.acts[i].act; a.Step == rules.Move && a.Yard == "" && was.Step == rules.Nucs && was.Yard != "" && was.Batch == a.Batch {
			a.Yard = was.Yard // "nucs at North are ready, 34 cells in"
		}
	}
	// Counts of one batch by yard are one count, where the step keeps none by yard.
	if len(d.acts) > 1 {
		first := d.acts[0]
		sum, same := 0, first.act.Step == rules.Emerge || first.act.Step == rules.Laying || first.act.Step == rules.Catch
		for i := range d.acts {
			a := d.acts[i].act
			same = same && a.Step == first.act.Step && a.Batch == first.act.Batch && a.Count != nil && a.Yard != ""
			if a.Count != nil {
				sum += *a.Count
			}
		}
		if same {
			for _, g := range d.acts[1:] {
				for _, x := range g.flags {
					first.flag(x)
				}
			}
			first.act.Count, first.act.Yard = intPtr(sum), ""
			d.acts = []filled{first}
			return
		}
	}
	d.oneTold()
	type key struct {
		step    rules.Step
		batch   int
		breeder int
		builder string
		yard    string
	}
	var out []filled
	at := map[key]int{}
	for _, f := range d.acts {
		k := key{step: f.act.Step, batch: f.act.Batch, yard: f.act.Yard}
		if ofBreeder[f.act.Step] || f.act.Step == rules.Feed || f.act.Step == rules.Graft {
			k.breeder = f.act.Breeder
		}
		if f.act.Step == rules.Rogue || f.act.Step == rules.Feed || f.act.Step == rules.Graft {
			k.builder, k.batch = f.act.Builder, 0
		}
		i, have := at[k]
		repeats := have && f.act.Yard == "" && f.act.Count != nil && out[i].act.Count != nil && *f.act.Count == *out[i].act.Count || f.act.Step == rules.Rogue && f.act.Count == nil || counted[f.act.Step] && f.act.Count == nil || f.act.Step == rules.Rogue && f.act.Count != nil && *f.act.Count == 0 || !counted[f.act.Step] && f.act.Step != rules.Rogue
		if have && repeats {
			for _, x := range f.flags {
				if x != fNoCount {
					out[i].flag(x)
				}
			}
			continue
		}
		at[k] = len(out)
		out = append(out, f)
	}
	d.acts = out
}
