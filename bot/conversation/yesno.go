package conversation

import (
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// yesNo presses the first or last button of the question replied to.
func (sc *Scene) yesNo(r *reading) (Answer, error) {
	var ans Answer
	if k, ok := sc.contextTask(); ok && sc.Replied != nil && sc.Replied.TaskKey == k.Key {
		ans.add(sc.yesToPing(r, k))
		return ans, nil
	}
	if bars := sc.barTasks(); len(bars) > 0 && sc.toPing() {
		ans.add(sc.yesToBars(r, bars))
		return ans, nil
	}
	if sc.Replied == nil || len(sc.Replied.Buttons) == 0 || sc.Replied.Kind != "ask" || strings.HasPrefix(sc.Replied.Buttons[0].Do, "task|") || sc.toBars() {
		ans.Ignore()
		return ans, nil
	}
	bs := sc.Replied.Buttons
	last := bs[len(bs)-1]
	switch {
	case r.verb == sayNo && last.Do == "no":
		return sc.pressed(*sc.Replied, last)
	case r.verb == sayYes && len(bs) == 2 && last.Do == "no":
		return sc.pressed(*sc.Replied, bs[0])
	}
	ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", sc.Voice.Say("hint_help"))
	return ans, nil
}

// wordOf answers a word that logs nothing by itself: yes, no, seen, thanks.
func (sc *Scene) wordOf(a rdg.Act) (Answer, error) {
	var ans Answer
	switch a.Kind {
	case rdg.Thanks:
		ans.Ignore()
		return ans, nil
	case rdg.No:
		return sc.yesNo(&reading{verb: sayNo})
	}
	return sc.yesNo(&reading{verb: sayYes})
}

// thumbs are the little pictures that say yes all by themselves.
var thumbs = map[rune]bool{'👍': true, '👌': true, '✅': true, '✔': true, '☑': true}

// ThumbsUp reports whether a text is nothing but such pictures, in any skin.
func ThumbsUp(text string) bool {
	up := false
	for _, r := range text {
		switch {
		case thumbs[r]:
			up = true
		case r >= 0x1F3FB && r <= 0x1F3FF, r == 0xFE0F, r == ' ':
		default:
			return false
		}
	}
	return up
}

// toPing reports whether the message replies to the ping of one task.
func (sc *Scene) toPing() bool {
	return sc.Replied != nil && sc.Replied.TaskKey != "" && sc.Replied.Kind == "ping"
}

// yesToPing asks what a plain "ok" in reply to a ping means. Nothing is logged of it: it may
// say that the ping was read, that somebody goes, or that it is done, and a task that is
// taken for done is never pinged again.
func (sc *Scene) yesToPing(r *reading, k rules.Task) Answer {
	var ans Answer
	ans.Step, ans.Subject = k.Step, k.Subject
	switch {
	case r.verb == sayNo:
		ans.Fail(sc.Voice, "r_negated", "Example", sc.example(&reading{step: k.Step}))
	case k.State == rules.Done || k.State == rules.Passed:
		ans.say(sc.Voice, "r_done_already", "Task", wording.Upper(sc.Voice.Task(k)))
	default:
		ans.add(sc.askDone(k))
	}
	return ans
}

// askDone asks whether a task is done, or taken on.
func (sc *Scene) askDone(k rules.Task) Answer {
	var ans Answer
	ans.Step, ans.Subject = k.Step, k.Subject
	ans.ask(sc.Voice, "ask_ok", "Task", wording.Upper(sc.Voice.Task(k)))
	ans.offer(sc.Voice, "b_take", "task|"+string(doMine)+"|"+k.Key)
	ans.offer(sc.Voice, "b_done", "task|"+string(doDone)+"|"+k.Key)
	return ans
}

// seen reports whether a bare "listo" only says that the echo of a logged line was
// seen.
func (sc *Scene) seen(r *reading) (bool, error) {
	if sc.Replied == nil || sc.Replied.Kind != "reply" || sc.Replied.Update == 0 || sc.Replied.TaskKey != "" || sc.opt.rerun || sc.opt.task != "" {
		return false, nil
	}
	if r.verb != doDone || r.count != nil || r.all || r.step != "" || r.mark != "" || r.yard != "" || r.when.set || !r.subject().Zero() {
		return false, nil
	}
	lines, err := sc.Look.UpdateLines(sc.Replied.Update)
	return len(lines) > 0, err
}
