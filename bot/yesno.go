package bot

import (
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// yesNo presses the first or last button of the question replied to.
func (t *talk) yesNo(r *reading) error {
	if k, ok := t.contextTask(); ok && t.replied != nil && t.replied.TaskKey == k.Key {
		t.yesToPing(r, k)
		return nil
	}
	if t.replied == nil || len(t.replied.Buttons) == 0 || t.replied.Kind != "ask" || strings.HasPrefix(t.replied.Buttons[0].Do, "task|") {
		t.hush()
		return nil
	}
	bs := t.replied.Buttons
	last := bs[len(bs)-1]
	switch {
	case r.verb == sayNo && last.Do == "no":
		return t.pressed(*t.replied, last)
	case r.verb == sayYes && len(bs) == 2 && last.Do == "no":
		return t.pressed(*t.replied, bs[0])
	}
	t.fail("r_unread", "Understood", "", "Hint", t.v.Say("hint_help"))
	return nil
}

// wordOf answers a word that logs nothing by itself: yes, no, seen, thanks.
func (t *talk) wordOf(a rdg.Act) error {
	switch a.Kind {
	case rdg.Thanks:
		t.hush()
		return nil
	case rdg.No:
		return t.yesNo(&reading{verb: sayNo})
	}
	return t.yesNo(&reading{verb: sayYes})
}

// thumbs are the little pictures that say yes all by themselves.
var thumbs = map[rune]bool{'👍': true, '👌': true, '✅': true, '✔': true, '☑': true}

// ThumbsUp reports whether a reaction says that something was read.
func ThumbsUp(emoji string) bool { return thumbsUp(emoji) }

// thumbsUp reports whether a text is nothing but such pictures, in any skin.
func thumbsUp(text string) bool {
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
func (t *talk) toPing() bool {
	return t.replied != nil && t.replied.TaskKey != "" && t.replied.Kind == "ping"
}

// yesToPing asks what a plain "ok" in reply to a ping means. Nothing is logged of it: it may
// say that the ping was read, that somebody goes, or that it is done, and a task that is
// taken for done is never pinged again.
func (t *talk) yesToPing(r *reading, k rules.Task) {
	t.step, t.subject = k.Step, k.Subject
	switch {
	case r.verb == sayNo:
		t.fail("r_negated", "Example", t.example(&reading{step: k.Step}))
	case k.State == rules.Done || k.State == rules.Passed:
		t.say("r_done_already", "Task", wording.Upper(t.v.Task(k)))
	default:
		t.askDone(k)
	}
}

// askDone asks whether a task is done, or taken on.
func (t *talk) askDone(k rules.Task) {
	t.step, t.subject = k.Step, k.Subject
	t.ask("ask_ok", "Task", wording.Upper(t.v.Task(k)))
	t.offer("b_take", "task|"+string(doMine)+"|"+k.Key)
	t.offer("b_done", "task|"+string(doDone)+"|"+k.Key)
}

// seen reports whether a bare "listo" only says that the echo of a logged line was
// seen.
func (t *talk) seen(r *reading) (bool, error) {
	if t.replied == nil || t.replied.Kind != "reply" || t.replied.Update == 0 || t.replied.TaskKey != "" || t.opt.rerun || t.opt.task != "" {
		return false, nil
	}
	if r.verb != doDone || r.count != nil || r.all || r.step != "" || r.mark != "" || r.yard != "" || r.when.set || !r.subject().Zero() {
		return false, nil
	}
	lines, err := t.tx.UpdateLines(t.replied.Update)
	return len(lines) > 0, err
}
