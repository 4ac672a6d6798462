package bot

import (
	"os"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// onlyNew has bot/reading read all messages.
var onlyNew = os.Getenv("YARDBELL_OLD") == ""

// hear reads the origin's text and does what it says.
func (t *talk) hear(text string) error {
	k, err := t.known()
	if err != nil {
		return err
	}
	text = t.apart(text)
	res := understand().Read(text, k)
	t.speak(res.Language)
	t.addressed = t.addressed || res.Addressed
	if thumbsUp(text) && t.toPing() {
		res = rdg.Result{Outcome: rdg.Log, Acts: []rdg.Act{{Kind: rdg.Seen}}}
	}
	t.reported = reportsWork(res)
	if t.spent && !t.reported && res.Outcome == rdg.Log {
		return errFlood // before it is worked out
	}
	if t.chat != 0 {
		return t.hearPrivate(res)
	}
	return t.follow(res)
}

// reportsWork reports whether a message tells of work, understood or not.
func reportsWork(res rdg.Result) bool {
	return res.Outcome == rdg.Log && loggable(res.Acts) || res.Outcome == rdg.Ask && len(res.Acts) > 0 && loggable(res.Acts)
}

// follow does what was understood, asks, shows the sign or leaves the message alone.
func (t *talk) follow(res rdg.Result) error {
	switch res.Outcome {
	case rdg.Log:
		if a := res.Acts[0]; a.Kind == rdg.Seen {
			return t.yesNo(&reading{verb: sayYes})
		} else if a.Kind == rdg.Query {
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
		if len(res.Acts) == 1 && res.Acts[0].Kind == rdg.Seen {
			return t.yesNo(&reading{verb: sayYes})
		}
		if has(res.Doubts, "command") {
			return t.unreadCommand(res.Acts)
		}
		if len(res.Others) > 0 {
			t.offerActs(res)
			return nil
		}
	}
	t.unclearTo(res)
	return nil
}

// unclearTo answers a message of which nothing was understood: in words where it was said
// to the bot, with the sign where it was meant for it.
func (t *talk) unclearTo(res rdg.Result) {
	switch {
	case t.replied != nil || t.addressed || t.opt.told:
		t.fail("r_unread", "Understood", "", "Hint", t.v.say("hint_help"))
	case res.Outcome == rdg.Ignore:
		t.hush()
	default:
		if !t.sees(res) {
			t.hush()
		}
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
	step := rules.Step("")
	if len(res.Acts) > 0 {
		step = res.Acts[0].Step
	}
	return t.inPrivate(&reading{verb: doStep, step: step})
}
