package bot

import (
	"slices"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
	"yardbell/store"
)

// made is what was made of a text: as the reader gave it, in the situation of whoever wrote
// it, and with the language of the answer settled by it.
func (t *talk) made(text string) (rdg.Result, error) {
	k, err := t.known()
	if err != nil {
		return rdg.Result{}, err
	}
	if err := t.goneNamed(&k, text); err != nil {
		return rdg.Result{}, err
	}
	return t.madeOf(text, k), nil
}

func (t *talk) madeOf(text string, k rdg.Known) rdg.Result {
	text = t.apart(text)
	res := understand().Read(text, k)
	lang := res.Language
	if len(strings.Fields(text)) == 1 {
		lang = "" // a word alone says what is wanted, and not in which language to answer: "due" is typed by all
	}
	t.speak(lang)
	t.addressed = t.addressed || res.Addressed
	return res
}

// hear reads the origin's text and does what it says.
func (t *talk) hear(text string) error {
	res, err := t.made(text)
	if err != nil {
		return err
	}
	if thumbsUp(text) && t.toPing() {
		res = rdg.Result{Outcome: rdg.Log, Acts: []rdg.Act{{Kind: rdg.Seen}}}
	}
	t.reported = tellsOfWork(res)
	if t.spent && !t.reported && res.Outcome == rdg.Log {
		return errFlood // before it is worked out
	}
	if t.chat != 0 {
		return t.hearPrivate(res)
	}
	return t.follow(res)
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

// forBot reports whether a message would be logged, answered or asked about.
func forBot(res rdg.Result) bool { return res.Outcome == rdg.Log || res.Outcome == rdg.Ask }

// follow does what was understood, asks, shows the sign or leaves the message alone.
func (t *talk) follow(res rdg.Result) error {
	if len(res.Acts) == 1 && wordOnly[res.Acts[0].Kind] {
		return t.wordOf(res.Acts[0])
	}
	switch res.Outcome {
	case rdg.Log:
		if a := res.Acts[0]; a.Kind == rdg.Query {
			if done, err := t.command(res); done || err != nil {
				return err
			}
			done, err := t.query(a)
			if !done && err == nil {
				t.unclearTo(res)
			}
			return err
		}
		if done, err := t.command(res); done || err != nil {
			return err
		}
		return t.perform(res.Acts)
	case rdg.Ask:
		if slices.Contains(res.Doubts, "command") {
			return t.unreadCommand(res.Acts)
		}
		if done, err := t.untold(res); done || err != nil {
			return err
		}
		switch {
		case res.Clear:
			return t.perform(res.Acts) // which asks
		case slices.Contains(res.Doubts, "sum"):
			t.sayParts(res.Acts)
			return nil
		case len(res.Others) > 0:
			if done, err := t.answers(res); done || err != nil {
				return err
			}
			t.offerActs(res)
			return nil
		case res.Left:
			t.leftOver(res)
			return nil
		}
	}
	t.unclearTo(res)
	return nil
}

// answers gives the answer to a question or an order that is the likeliest of what was read: it
// changes nothing by itself, so that nothing has to be asked before. The task that somebody
// is likely to take is named.
func (t *talk) answers(res rdg.Result) (bool, error) {
	if len(res.Others[0]) != 1 {
		return false, nil
	}
	a := res.Others[0][0]
	if a.Kind == rdg.Claim && len(res.Others) == 1 {
		k, found, err := t.taskFor(t.asReading(a), "b_mine")
		if found {
			t.askDone(k) // a question that names the task; where there is none it was said
		}
		return true, err
	}
	r, ok := asCommand(a, res.Addressed, t.origin.Text)
	if !ok || !asks[r.verb] {
		return false, nil
	}
	t.kind = "reply"
	return true, t.act(r)
}

// unclearTo answers a message of which nothing was understood: in words where it was said
// to the bot, with the sign where it was meant for it.
func (t *talk) unclearTo(res rdg.Result) {
	switch {
	case t.replied != nil || t.addressed || t.opt.told:
		t.unreadOf(res)
	case res.Outcome == rdg.Ignore:
		t.hush()
	default:
		if !t.sees(res) {
			t.hush()
		}
	}
}

// unreadOf says why what was said to the bot is not logged: it asks, it says that something
// was not done, it gives no time, or it was not read.
func (t *talk) unreadOf(res rdg.Result) {
	step := stepOf(res)
	if k, ok := t.contextTask(); ok && step == "" {
		step = k.Step
	}
	switch {
	case slices.Contains(res.Moods, "question"):
		t.fail("r_question", "Hint", t.v.Say("hint_help"))
	case slices.Contains(res.Moods, "negation"):
		t.fail("r_negated", "Example", t.example(&reading{step: step}))
	default:
		hint := t.v.Say("hint_help")
		if id := "form_" + string(step); step != "" && t.v.Has(id) {
			hint = t.v.Say("hint_form", "Form", t.v.Say(id))
		}
		t.fail("r_unread", "Understood", "", "Hint", hint)
	}
}

// hearPrivate answers in a chat with one person.
func (t *talk) hearPrivate(res rdg.Result) error {
	if res.Outcome == rdg.Log {
		a := res.Acts[0]
		if a.Kind == rdg.Claim {
			return t.inPrivate(&reading{verb: doMine})
		}
		if r, ok := asCommand(a, true, t.origin.Text); ok {
			return t.inPrivate(r)
		}
		if a.Kind == rdg.Query {
			done, err := t.query(a)
			if done || err != nil {
				return err
			}
		}
	}
	return t.inPrivate(&reading{verb: doStep, step: stepOf(res)})
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
func (t *talk) offerAnew(u store.Update, o options) error {
	t.opt = o
	k, err := t.known()
	if err != nil {
		return err
	}
	k.Last, k.Asked, k.Addressed = nil, nil, true
	res := t.madeOf(u.Text, k)
	acts := res.Acts
	if res.Outcome == rdg.Ask && len(res.Others) > 0 {
		acts = res.Others[0]
	}
	if len(acts) == 0 || !loggable(acts) || o.part > len(acts) {
		t.fail("g_stale")
		return nil
	}
	if o.part != 0 && len(acts) > 1 {
		acts = acts[o.part-1 : o.part]
	}
	t.opt.part, t.opt.parts = 0, 0
	t.acts = acts
	t.ask("ask_act", "What", t.actsInWords(acts))
	t.step = acts[0].Step
	t.offer("b_log", t.rerun("sure=1"))
	t.offer("b_no", "no")
	return nil
}
