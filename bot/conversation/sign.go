package conversation

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

// Notice makes the sign the only answer to the update. Where it cannot stand, or was not
// enough, it is said in words; sign settles which.
func (a *Answer) Notice() {
	a.clear()
	a.Noticed, a.Silent, a.Reported = true, false, true
	a.Kind, a.Later = "notice", nil
}

// Sign settles how the update is noticed: by the sign, or in words.
func (sc *Scene) Sign(ans Answer) (Answer, error) {
	if sc.Chat != 0 || sc.Update.Kind == "press" || sc.Update.Message == 0 || sc.Addressed || sc.Replied != nil {
		ans.Noticed = false // it was said to the bot, or there is nothing that could carry the sign
		ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", sc.Voice.Say("hint_help"))
		return ans, nil
	}
	list, err := sc.urgent()
	if err != nil || len(list) == 0 {
		return ans, err
	}
	ans.Noticed = false
	ans.Step, ans.Subject = list[0].Step, list[0].Subject
	ans.ask(sc.Voice, "ask_seen_head")
	for _, k := range list {
		ans.say(sc.Voice, "ask_seen", "Task", wording.Upper(sc.Voice.Task(k)), "Close", k.Latest)
	}
	// No button: of all critical work the count is to be said, and a tap would lose it.
	ans.join(sc.Voice, "ask_seen_again", "Example", sc.example(&reading{step: list[0].Step}))
	return ans, nil
}

// urgent are the tasks that the message may be about and on which much hangs: critical,
// open by now, and their window closes soon or did so a little while ago.
func (sc *Scene) urgent() ([]rules.Task, error) {
	open, err := sc.Look.OpenTasks(sc.Crew.ID)
	open = slices.DeleteFunc(open, func(k rules.Task) bool {
		left := k.Latest.Sub(sc.Look.Now)
		return k.Weight != rules.Critical || k.Guard || sc.Look.Now.Before(k.Earliest) || left > hangsOn || left <= -hangsOn
	})
	slices.SortStableFunc(open, func(a, b rules.Task) int { return cmp.Compare(a.Latest.UnixMilli(), b.Latest.UnixMilli()) })
	return open[:min(len(open), mostButtons)], err
}

// beneath handles a reply to a message that carries the sign. What the reply says by
// itself counts where it is logged or offered; else it asks why, whatever its words. Only
// a command that names the bot is one here, too.
func (sc *Scene) beneath() (ans Answer, err error) {
	ans, err = sc.message()
	heard := *ans.In(sc)
	if err != nil || !ans.Silent && !ans.Noticed && (len(ans.Logged) > 0 || len(ans.Buttons) > 0 || heard.Addressed && ans.Sort() == "reply") {
		return ans, err
	}
	heard.Look, heard.model, heard.Settings = sc.Look, sc.model, sc.Settings
	return heard.explain(*sc.Marked)
}

// explain says what was made of a message that carries the sign: it is read once more as
// if it had been said to the bot. Nothing is logged by that; what would be is offered.
func (sc *Scene) explain(u store.Update) (ans Answer, err error) {
	if u.Outcome != store.Notice {
		ans.say(sc.Voice, "r_pressed")
		return ans, nil
	}
	told := *sc
	told.Addressed = true
	ans, err = told.again(u, options{rerun: true, told: true, anyway: map[string]bool{}}, (*Scene).message)
	if err != nil {
		return ans, err
	}
	sc = ans.In(&told)
	switch would := ans.Logged; {
	case len(would) > 0:
		ans = Answer{of: sc, Step: would[0].Step, Subject: would[0].Subject}
		what := make([]string, len(would))
		for i, e := range would {
			what[i] = sc.Voice.Line(e)
		}
		ans.ask(sc.Voice, "ask_seen_log", "What", wording.JoinList(what))
		ans.offer(sc.Voice, "b_log", sc.rerun("sure=1"))
		ans.offer(sc.Voice, "b_no", "no")
	case ans.Silent || ans.Noticed || len(ans.Lines) == 0:
		ans.Noticed, ans.Silent = false, false
		ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", sc.Voice.Say("hint_help"))
	}
	ans.Reported = true
	ans.Lines = append([]string{sc.Voice.Say("seen_about", "Text", wording.Quoted(u.Text))}, ans.Lines...)
	return ans, nil
}

// reacted answers a thumb that somebody put on a ping: it says that the ping was read, and
// logs nothing. One answer stands in the chat for everybody's.
func (sc *Scene) reacted() (Answer, error) {
	var ans Answer
	ans.Ignore()
	m, found, err := sc.Look.SentIn(sc.Crew.ID, sc.Chat, sc.Update.Message)
	if err != nil || !found || m.TaskKey == "" || m.Kind != "ping" {
		return ans, err
	}
	if n, err := sc.Look.Covers(sc.Crew.ID, m.Message); err != nil || n > 1 {
		return ans, err // a list: which of its tasks is meant nobody knows
	}
	if before, err := sc.Look.Thumbed(sc.Crew.ID, m.Message, sc.Update.ID); err != nil || before {
		return ans, err
	}
	k, found, err := sc.Look.Task(sc.Crew.ID, m.TaskKey)
	if err != nil || !found || k.State != rules.Open || k.ClaimedBy != "" {
		return ans, err
	}
	ans.Silent = false
	ans.add(sc.askDone(k))
	return ans, nil
}
