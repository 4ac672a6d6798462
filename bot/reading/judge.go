package reading

import (
	"math"

	"yardbell/rules"
)

// The thresholds of the judge, from stated costs (a wrong line 100, a bad tap 20, silence
// 10, a needless question 1); see README.md here.
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
	res := r.readPlain(text, k)
	if res.Outcome == Log && !res.exact {
		if v, ok := r.rivalOf(text, &k, res); ok {
			return r.doubted(res, v)
		}
	}
	return res
}

// readPlain takes every word for the one that was meant.
func (r *Reader) readPlain(text string, k Known) Result {
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
	if res, ok := l.order(); ok {
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

	graftedEach bool // a graft into several builders, so many into each
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
	d.lossBeside()
	d.whyLost()
	d.matched()
	d.ofTheirOwn()
	d.dealBuilders()
	d.intoSeveral()
	d.allToOneYard()
	d.allIn()
	d.sameQueens()
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
