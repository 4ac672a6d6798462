package bot

import (
	"strings"

	"yardbell/rules"
)

// yesNo presses the first or last button of the question replied to.
func (t *talk) yesNo(r *reading) error {
	if k, ok := t.contextTask(); ok && t.replied != nil && t.replied.TaskKey == k.Key {
		return t.yesToPing(r, k)
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
	t.fail("r_unread", "Understood", "", "Hint", t.v.say("hint_help"))
	return nil
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

// okWords are the answers that say done of a ping whose window is open. Every other
// yes may say that it was seen.
var okWords = words(`ok okay okey oki vale listo hecho`)

// yesToPing takes a plain "ok" in reply to a ping for done. Before the window opens,
// on the evening before, and once the ping said "go now", it may as well say "I take
// it", so it is asked back.
func (t *talk) yesToPing(r *reading, k rules.Task) error {
	said := fold(strings.Trim(r.text, " .!"))
	zone := t.s.Zone
	ahead := t.origin.Said.Before(k.Earliest) || t.replied.Ping == rules.OverPing || t.replied.Ping == rules.Eve && rules.DateOf(t.origin.Said, zone).Before(rules.DateOf(k.Best, zone))
	switch {
	case r.verb == sayNo:
		t.step, t.subject = k.Step, k.Subject
		t.fail("r_negated", "Example", t.example(&reading{step: k.Step}))
		return nil
	case k.State != rules.Open, (okWords[said] || thumbsUp(r.text)) && !ahead:
		return t.done(&reading{verb: doDone, addressed: true, text: r.text})
	}
	t.step, t.subject = k.Step, k.Subject
	t.ask("ask_ok", "Task", upper(t.v.task(k)))
	t.offer("b_done", "task|"+string(doDone)+"|"+k.Key)
	t.offer("b_mine", "task|"+string(doMine)+"|"+k.Key)
	return nil
}

// seen reports whether a bare "listo" only says that the echo of a logged line was
// seen.
func (t *talk) seen(r *reading) (bool, error) {
	if t.replied == nil || t.replied.Kind != "reply" || t.replied.Update == 0 || t.replied.TaskKey != "" || t.opt.rerun || t.opt.task != "" {
		return false, nil
	}
	if r.verb != doDone || r.count != nil || r.all || r.step != "" || r.mark != "" || r.yard != "" || r.when.set || !r.subject().Zero() || !r.clear() {
		return false, nil
	}
	lines, err := t.tx.UpdateLines(t.replied.Update)
	return len(lines) > 0, err
}
