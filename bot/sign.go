package bot

import (
	"cmp"
	"slices"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// This file is about the sign "seen, not logged": a reaction that the bot puts on a
// person's own message in place of an answer. The message is work for all the bot knows,
// but nothing of it was read; silence would be taken for a logged line, and text under
// every such message would bury the pings. A reply to the message, or a button of the
// evening's list, has it read once more as if it had been said to the bot.

// hangsOn is how near the close of a window is so that the sign alone is not enough: who
// overlooks it would lose the work.
const hangsOn = 12 * time.Hour

// notice makes the sign the only answer to the update. Where it cannot stand, or was not
// enough, it is said in words; sign settles which.
func (a *Answer) notice() {
	a.clear()
	a.noticed, a.silent, a.reported = true, false, true
	a.kind, a.later = "notice", nil
}

// sign settles how the update is noticed: by the sign, or in words.
func (sc *Scene) sign(ans Answer) (Answer, error) {
	if sc.chat != 0 || sc.update.Kind == "press" || sc.update.Message == 0 || sc.addressed || sc.replied != nil {
		ans.noticed = false // it was said to the bot, or there is nothing that could carry the sign
		ans.fail(sc.v, "r_unread", "Understood", "", "Hint", sc.v.Say("hint_help"))
		return ans, nil
	}
	list, err := sc.urgent()
	if err != nil || len(list) == 0 {
		return ans, err
	}
	ans.noticed = false
	ans.step, ans.subject = list[0].Step, list[0].Subject
	ans.ask(sc.v, "ask_seen_head")
	for _, k := range list {
		ans.say(sc.v, "ask_seen", "Task", wording.Upper(sc.v.Task(k)), "Close", k.Latest)
	}
	// No button: of all critical work the count is to be said, and a tap would lose it.
	ans.join(sc.v, "ask_seen_again", "Example", sc.example(&reading{step: list[0].Step}))
	return ans, nil
}

// urgent are the tasks that the message may be about and on which much hangs: critical,
// open by now, and their window closes soon or did so a little while ago.
func (sc *Scene) urgent() ([]rules.Task, error) {
	open, err := sc.tx.OpenTasks(sc.crew.ID)
	open = slices.DeleteFunc(open, func(k rules.Task) bool {
		left := k.Latest.Sub(sc.tx.Now)
		return k.Weight != rules.Critical || k.Guard || sc.tx.Now.Before(k.Earliest) || left > hangsOn || left <= -hangsOn
	})
	slices.SortStableFunc(open, func(a, b rules.Task) int { return cmp.Compare(a.Latest.UnixMilli(), b.Latest.UnixMilli()) })
	return open[:min(len(open), mostButtons)], err
}

// signed queues the sign of the update, in the place of what an earlier reading of the
// same message left.
func (sc *Scene) signed() error {
	if sc.update.Kind == "edit" {
		if err := sc.tx.Unsign(sc.crew.ID, sc.update.Message, "changed", true); err != nil {
			return err
		}
	}
	if err := sc.tx.Settle(sc.update.ID, store.Notice, true); err != nil {
		return err
	}
	return sc.tx.QueueSign(sc.update, sc.s)
}

// unsign removes the sign of the messages that this update saw logged: the one that was
// changed, the one a button was about, the one replied to. Changed into talk it goes, too.
func (sc *Scene) unsign(ans Answer) error {
	logged := slices.ContainsFunc(ans.logged, func(e rules.Entry) bool { return e.Action != rules.Void })
	if logged && sc.marked != nil {
		if err := sc.tx.Unsign(sc.crew.ID, sc.marked.Message, "logged", false); err != nil {
			return err
		}
	}
	switch {
	case sc.chat != 0, sc.origin.Message == 0, sc.origin.Kind == "press":
	case logged && (sc.update.Kind == "edit" || sc.origin.ID != sc.update.ID):
		return sc.tx.Unsign(sc.crew.ID, sc.origin.Message, "logged", false)
	case ans.silent && sc.update.Kind == "edit":
		return sc.tx.Unsign(sc.crew.ID, sc.origin.Message, "changed", false)
	}
	return nil
}

// beneath handles a reply to a message that carries the sign. What the reply says by
// itself counts where it is logged or offered; else it asks why, whatever its words. Only
// a command that names the bot is one here, too.
func (sc *Scene) beneath() (ans Answer, err error) {
	ans, err = sc.message()
	heard := *ans.scene(sc)
	if err != nil || !ans.silent && !ans.noticed && (len(ans.logged) > 0 || len(ans.buttons) > 0 || heard.addressed && ans.sort() == "reply") {
		return ans, err
	}
	heard.tx, heard.s = sc.tx, sc.s
	return heard.explain(*sc.marked)
}

// explain says what was made of a message that carries the sign: it is read once more as
// if it had been said to the bot. Nothing is logged by that; what would be is offered.
func (sc *Scene) explain(u store.Update) (ans Answer, err error) {
	if u.Outcome != store.Notice {
		ans.say(sc.v, "r_pressed")
		return ans, nil
	}
	told := *sc
	told.addressed = true
	ans, err = told.again(u, options{rerun: true, told: true, anyway: map[string]bool{}}, (*Scene).message)
	if err != nil {
		return ans, err
	}
	sc = ans.scene(&told)
	switch would := ans.logged; {
	case len(would) > 0:
		ans = Answer{of: sc, step: would[0].Step, subject: would[0].Subject}
		what := make([]string, len(would))
		for i, e := range would {
			what[i] = sc.v.Line(e)
		}
		ans.ask(sc.v, "ask_seen_log", "What", wording.JoinList(what))
		ans.offer(sc.v, "b_log", sc.rerun("sure=1"))
		ans.offer(sc.v, "b_no", "no")
	case ans.silent || ans.noticed || len(ans.lines) == 0:
		ans.noticed, ans.silent = false, false
		ans.fail(sc.v, "r_unread", "Understood", "", "Hint", sc.v.Say("hint_help"))
	}
	ans.reported = true
	ans.lines = append([]string{sc.v.Say("seen_about", "Text", wording.Quoted(u.Text))}, ans.lines...)
	return ans, nil
}

// reacted answers a thumb that somebody put on a ping: it says that the ping was read, and
// logs nothing. One answer stands in the chat for everybody's.
func (sc *Scene) reacted() (Answer, error) {
	var ans Answer
	ans.hush()
	m, found, err := sc.tx.SentIn(sc.crew.ID, sc.chat, sc.update.Message)
	if err != nil || !found || m.TaskKey == "" || m.Kind != "ping" {
		return ans, err
	}
	if n, err := sc.tx.Covers(sc.crew.ID, m.Message); err != nil || n > 1 {
		return ans, err // a list: which of its tasks is meant nobody knows
	}
	if before, err := sc.tx.Thumbed(sc.crew.ID, m.Message, sc.update.ID); err != nil || before {
		return ans, err
	}
	k, found, err := sc.tx.Task(sc.crew.ID, m.TaskKey)
	if err != nil || !found || k.State != rules.Open || k.ClaimedBy != "" {
		return ans, err
	}
	ans.silent = false
	ans.add(sc.askDone(k))
	return ans, nil
}
