package conversation

import (
	"errors"
	"slices"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// Made is what was made of a text: as the reader gave it, in the situation of whoever wrote
// it, and the scene with the language of the answer settled by it.
func (sc *Scene) Made(text string) (rdg.Result, *Scene, error) {
	k, err := sc.Known()
	if err != nil {
		return rdg.Result{}, sc, err
	}
	if err := sc.goneNamed(&k, text); err != nil {
		return rdg.Result{}, sc, err
	}
	res, sc := sc.madeOf(text, k)
	return res, sc, nil
}

func (sc *Scene) madeOf(text string, k rdg.Known) (rdg.Result, *Scene) {
	text = sc.apart(text)
	res := Understand().Read(text, k)
	lang := res.Language
	if len(strings.Fields(text)) == 1 {
		lang = "" // a word alone says what is wanted, and not in which language to answer: "due" is typed by all
	}
	heard := *sc.Speaking(lang)
	heard.Addressed = heard.Addressed || res.Addressed
	return res, &heard
}

// hear reads the origin's text and does what it says.
func (sc *Scene) hear(text string) (Answer, error) {
	var ans Answer
	res, sc, err := sc.Made(text)
	if err != nil {
		return ans, err
	}
	ans.of = sc
	if ThumbsUp(text) && sc.toPing() {
		res = rdg.Result{Outcome: rdg.Log, Acts: []rdg.Act{{Kind: rdg.Seen}}}
	}
	ans.Reported = tellsOfWork(res)
	if sc.Spent && !ans.Reported && res.Outcome == rdg.Log {
		return ans, ErrFlood // before it is worked out
	}
	if sc.Chat != 0 {
		return ans.then(sc.hearPrivate(res))
	}
	return ans.then(sc.follow(res))
}

// tellsOfWork reports whether a message tells of work, understood or not.
func tellsOfWork(res rdg.Result) bool {
	return (res.Outcome == rdg.Log || res.Outcome == rdg.Ask) && loggable(res.Acts)
}

// asksBot reports whether a message is a question that the bot has an answer to.
func asksBot(res rdg.Result) bool {
	if res.Outcome != rdg.Log || len(res.Acts) == 0 {
		return false
	}
	a := res.Acts[0]
	if r, ok := asCommand(a, false, ""); ok {
		return asks[r.verb]
	}
	return a.Kind == rdg.Query
}

// ForBot reports whether a message would be logged, answered or asked about.
func ForBot(res rdg.Result) bool { return res.Outcome == rdg.Log || res.Outcome == rdg.Ask }

// follow does what was understood, asks, shows the sign or leaves the message alone.
func (sc *Scene) follow(res rdg.Result) (Answer, error) {
	var ans Answer
	if len(res.Acts) == 1 && wordOnly[res.Acts[0].Kind] {
		return sc.wordOf(res.Acts[0])
	}
	switch res.Outcome {
	case rdg.Log:
		if a := res.Acts[0]; a.Kind == rdg.Query {
			if done, err := ans.taken(sc.command(res)); done || err != nil {
				return ans, err
			}
			done, err := ans.taken(sc.query(a))
			if !done && err == nil {
				ans.add(sc.unclearTo(res))
			}
			return ans, err
		}
		if done, err := ans.taken(sc.command(res)); done || err != nil {
			return ans, err
		}
		return ans.then(sc.perform(res.Acts))
	case rdg.Ask:
		if slices.Contains(res.Doubts, "command") {
			return sc.unreadCommand(res.Acts)
		}
		if done, err := ans.taken(sc.untold(res)); done || err != nil {
			return ans, err
		}
		switch {
		case slices.Contains(res.Doubts, rdg.DoubtSplit):
			ans.add(sc.askSplit(res))
			return ans, nil
		case res.Clear:
			return ans.then(sc.perform(res.Acts)) // which asks
		case slices.Contains(res.Doubts, "sum"):
			ans.add(sc.sayParts(res.Acts))
			return ans, nil
		case len(res.Others) > 0:
			if done, err := ans.taken(sc.answers(res)); done || err != nil {
				return ans, err
			}
			ans.add(sc.offerActs(res))
			return ans, nil
		case res.Left:
			ans.add(sc.leftOver(res))
			return ans, nil
		}
	}
	ans.add(sc.unclearTo(res))
	return ans, nil
}

// answers gives the answer to a question or an order that is the likeliest of what was read: it
// changes nothing by itself, so that nothing has to be asked before. The task that somebody
// is likely to take is named.
func (sc *Scene) answers(res rdg.Result) (Answer, bool, error) {
	var ans Answer
	if len(res.Others[0]) != 1 {
		return ans, false, nil
	}
	a := res.Others[0][0]
	if a.Kind == rdg.Claim && len(res.Others) == 1 {
		q, k, found, err := sc.taskFor(sc.asReading(a), "b_mine")
		ans.add(q)
		if found {
			ans.add(sc.askDone(k)) // a question that names the task; where there is none it was said
		}
		return ans, true, err
	}
	r, ok := asCommand(a, res.Addressed, sc.Origin.Text)
	if !ok || !asks[r.verb] {
		return ans, false, nil
	}
	ans.Kind = "reply"
	more, err := sc.act(r)
	return ans.with(more), true, err
}

// unclearTo answers a message of which nothing was understood: in words where it was said
// to the bot, with the sign where it was meant for it.
func (sc *Scene) unclearTo(res rdg.Result) Answer {
	var ans Answer
	switch {
	case sc.Replied != nil || sc.Addressed || sc.opt.told:
		ans.add(sc.unreadOf(res))
	case res.Outcome == rdg.Ignore:
		ans.Ignore()
	default:
		if !ans.is(sc.sees(res)) {
			ans.Ignore()
		}
	}
	return ans
}

// unreadOf says why what was said to the bot is not logged: it asks, it says that something
// was not done, it gives no time, or it was not read.
func (sc *Scene) unreadOf(res rdg.Result) Answer {
	var ans Answer
	step := stepOf(res)
	if k, ok := sc.contextTask(); ok && step == "" {
		step = k.Step
	}
	switch {
	case slices.Contains(res.Moods, "question"):
		ans.Fail(sc.Voice, "r_question", "Hint", sc.Voice.Say("hint_help"))
	case slices.Contains(res.Moods, "negation"):
		ans.Fail(sc.Voice, "r_negated", "Example", sc.example(&reading{step: step}))
	default:
		hint := sc.Voice.Say("hint_help")
		if id := "form_" + string(step); step != "" && sc.Voice.Has(id) {
			hint = sc.Voice.Say("hint_form", "Form", sc.Voice.Say(id))
		}
		ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", hint)
	}
	return ans
}

// hearPrivate answers in a chat with one person.
func (sc *Scene) hearPrivate(res rdg.Result) (Answer, error) {
	var ans Answer
	if res.Outcome == rdg.Log {
		a := res.Acts[0]
		if a.Kind == rdg.Claim {
			return sc.inPrivate(&reading{verb: doMine})
		}
		if r, ok := asCommand(a, true, sc.Origin.Text); ok {
			return sc.inPrivate(r)
		}
		if a.Kind == rdg.Query {
			done, err := ans.taken(sc.query(a))
			if done || err != nil {
				return ans, err
			}
		}
	}
	return ans.then(sc.inPrivate(&reading{verb: doStep, step: stepOf(res)}))
}

// stepOf is the step that a message tells of, empty for none.
func stepOf(res rdg.Result) rules.Step {
	if len(res.Acts) > 0 {
		return res.Acts[0].Step
	}
	return ""
}

// offerAnew reads a message once more that a button of an earlier release names, and asks
// whether it is meant: what the button did by its words then may be read in another way
// now, so that the question says what it will log.
func (sc *Scene) offerAnew() (Answer, error) {
	var ans Answer
	o := sc.opt
	k, err := sc.Known()
	if err != nil {
		return ans, err
	}
	k.Last, k.Asked, k.Addressed = nil, nil, true
	res, sc := sc.madeOf(sc.Origin.Text, k)
	ans.of = sc
	acts := res.Acts
	if res.Outcome == rdg.Ask && len(res.Others) > 0 {
		acts = res.Others[0]
	}
	if len(acts) == 0 || !loggable(acts) || o.part > len(acts) {
		ans.Fail(sc.Voice, "g_stale")
		return ans, nil
	}
	if o.part != 0 && len(acts) > 1 {
		acts = acts[o.part-1 : o.part]
	}
	anew := *sc
	anew.opt.part, anew.opt.parts, anew.acts = 0, 0, acts
	sc = &anew
	ans.of = sc
	ans.ask(sc.Voice, "ask_act", "What", sc.actsInWords(acts))
	ans.Step = acts[0].Step
	ans.offer(sc.Voice, "b_log", sc.rerun("sure=1"))
	ans.offer(sc.Voice, "b_no", "no")
	return ans, nil
}

// asks are worked out before it is known whether they are answered, some at length.
var asks = map[verb]bool{askDue: true, askShow: true, askWhy: true, askHelp: true, askLog: true, askPicture: true, askReport: true, askCal: true,
	askPhotos: true, askRound: true, askOrders: true, askYields: true, askCapacity: true, askWhatIf: true, askFit: true, askPlan: true, doOrder: true}

// ErrFlood takes back all that a message did which is not answered: what nobody is told
// of must not have happened.
var ErrFlood = errors.New("too much at once")
