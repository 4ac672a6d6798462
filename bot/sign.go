package bot

import (
	"cmp"
	"slices"
	"time"

	"yardbell/bot/attach"
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
// enough, it is said in words; finish settles which.
func (t *talk) notice() {
	t.noticed, t.silent, t.reported = true, false, true
	t.kind, t.lines, t.buttons, t.later = "notice", nil, nil, nil
}

// sign settles how the update is noticed: by the sign, or in words.
func (t *talk) sign() error {
	if t.chat != 0 || t.update.Kind == "press" || t.update.Message == 0 || t.addressed || t.replied != nil {
		t.noticed = false // it was said to the bot, or there is nothing that could carry the sign
		t.fail("r_unread", "Understood", "", "Hint", t.v.Say("hint_help"))
		return nil
	}
	list, err := t.urgent()
	if err != nil || len(list) == 0 {
		return err
	}
	t.noticed = false
	t.step, t.subject = list[0].Step, list[0].Subject
	t.kind = "ask"
	t.say("ask_seen_head")
	for _, k := range list {
		t.say("ask_seen", "Task", wording.Upper(t.v.Task(k)), "Close", k.Latest)
	}
	// No button: of all critical work the count is to be said, and a tap would lose it.
	t.join("ask_seen_again", "Example", t.example(&reading{step: list[0].Step}))
	return nil
}

// urgent are the tasks that the message may be about and on which much hangs: critical,
// open by now, and their window closes soon or did so a little while ago.
func (t *talk) urgent() ([]rules.Task, error) {
	open, err := t.tx.OpenTasks(t.crew.ID)
	open = slices.DeleteFunc(open, func(k rules.Task) bool {
		left := k.Latest.Sub(t.tx.Now)
		return k.Weight != rules.Critical || k.Guard || t.tx.Now.Before(k.Earliest) || left > hangsOn || left <= -hangsOn
	})
	slices.SortStableFunc(open, func(a, b rules.Task) int { return cmp.Compare(a.Latest.UnixMilli(), b.Latest.UnixMilli()) })
	return open[:min(len(open), mostButtons)], err
}

// signed queues the sign of the update, in the place of what an earlier reading of the
// same message left.
func (t *talk) signed() error {
	if t.update.Kind == "edit" {
		if err := t.tx.Unsign(t.crew.ID, t.update.Message, "changed", true); err != nil {
			return err
		}
	}
	if err := t.tx.Settle(t.update.ID, store.Notice, true); err != nil {
		return err
	}
	return t.tx.QueueSign(t.update, t.s)
}

// unsign removes the sign of the messages that this update saw logged: the one that was
// changed, the one a button was about, the one replied to. Changed into talk it goes, too.
func (t *talk) unsign() error {
	logged := slices.ContainsFunc(t.logged, func(e rules.Entry) bool { return e.Action != rules.Void })
	if logged && t.marked != nil {
		if err := t.tx.Unsign(t.crew.ID, t.marked.Message, "logged", false); err != nil {
			return err
		}
	}
	switch {
	case t.chat != 0, t.origin.Message == 0, t.origin.Kind == "press":
	case logged && (t.update.Kind == "edit" || t.origin.ID != t.update.ID):
		return t.tx.Unsign(t.crew.ID, t.origin.Message, "logged", false)
	case t.silent && t.update.Kind == "edit":
		return t.tx.Unsign(t.crew.ID, t.origin.Message, "changed", false)
	}
	return nil
}

// beneath handles a reply to a message that carries the sign. What the reply says by
// itself counts where it is logged or offered; else it asks why, whatever its words. Only
// a command that names the bot is one here, too.
func (t *talk) beneath() error {
	own := false
	err := t.tx.Nested(func() (bool, error) {
		err := t.message()
		own = !t.silent && !t.noticed && (len(t.logged) > 0 || len(t.buttons) > 0 || t.addressed && t.kind == "reply")
		return own, err
	})
	if err != nil || own {
		return err
	}
	return t.explain(*t.marked)
}

// tellDo spells a button of the evening's list.
// explain says what was made of a message that carries the sign: it is read once more as
// if it had been said to the bot. Nothing is logged by that; what would be is offered.
func (t *talk) explain(u store.Update) error {
	if u.Outcome != store.Notice {
		t.say("r_pressed")
		return nil
	}
	t.reported = true
	t.unsaid()
	var would []rules.Entry
	err := t.tx.Nested(func() (bool, error) {
		t.addressed = true
		if err := t.again(u, options{rerun: true, told: true, anyway: map[string]bool{}}, func(store.Update, options) error { return t.message() }); err != nil {
			return false, err
		}
		would = t.logged
		return len(would) == 0, nil
	})
	if err != nil {
		return err
	}
	switch {
	case len(would) > 0:
		t.unsaid()
		t.step, t.subject = would[0].Step, would[0].Subject
		what := make([]string, len(would))
		for i, e := range would {
			what[i] = t.v.Line(e)
		}
		t.ask("ask_seen_log", "What", wording.JoinList(what))
		t.offer("b_log", t.rerun("sure=1"))
		t.offer("b_no", "no")
	case t.silent || t.noticed || len(t.lines) == 0:
		t.noticed, t.silent = false, false
		t.fail("r_unread", "Understood", "", "Hint", t.v.Say("hint_help"))
	}
	t.lines = append([]string{t.v.Say("seen_about", "Text", wording.Quoted(u.Text))}, t.lines...)
	return nil
}

// unsaid begins the answer anew.
func (t *talk) unsaid() {
	t.noticed, t.silent, t.warned, t.kind = false, false, false, "reply"
	t.logged, t.later, t.lines, t.buttons, t.attach = nil, nil, nil, nil, attach.Attachment{}
	t.step, t.subject = "", rules.Subject{}
}

// reacted answers a thumb that somebody put on a ping: it says that the ping was read, and
// logs nothing. One answer stands in the chat for everybody's.
func (t *talk) reacted() error {
	t.hush()
	m, found, err := t.tx.SentIn(t.crew.ID, t.chat, t.update.Message)
	if err != nil || !found || m.TaskKey == "" || m.Kind != "ping" {
		return err
	}
	if n, err := t.tx.Covers(t.crew.ID, m.Message); err != nil || n > 1 {
		return err // a list: which of its tasks is meant nobody knows
	}
	if before, err := t.tx.Thumbed(t.crew.ID, m.Message, t.update.ID); err != nil || before {
		return err
	}
	k, found, err := t.tx.Task(t.crew.ID, m.TaskKey)
	if err != nil || !found || k.State != rules.Open || k.ClaimedBy != "" {
		return err
	}
	t.silent = false
	t.askDone(k)
	return nil
}
