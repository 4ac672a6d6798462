package bot

import (
	"fmt"
	"strconv"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// options are what a press adds to the message it is about.
type options struct {
	rerun   bool
	add     bool            // add what is not on the list
	sure    bool            // it was read right
	anyway  map[string]bool // refusals that were overridden
	swap    bool            // the old comb came out
	subject rules.Subject
	task    string
	verb    verb
	yard    string // the one of several that were named
	told    bool   // it is read as said to the bot: see explain
	part    int    // which event of the message it is about, from 1; 0 for all of it
	parts   int    // of how many
}

// rerun spells a button that reads the origin's message again with more said
// about it. What earlier presses said is kept.
func (t *talk) rerun(more string) string {
	var parts []string
	o := t.opt
	if o.add {
		parts = append(parts, "add=1")
	}
	if o.sure {
		parts = append(parts, "sure=1")
	}
	for code := range o.anyway {
		parts = append(parts, "anyway="+code)
	}
	if o.swap {
		parts = append(parts, "swap=1")
	}
	if !o.subject.Zero() {
		parts = append(parts, "subject="+o.subject.String())
	}
	if o.task != "" {
		parts = append(parts, "task="+o.task)
	}
	if o.verb != "" {
		parts = append(parts, "verb="+string(o.verb))
	}
	if o.yard != "" {
		parts = append(parts, "yard="+o.yard)
	}
	if o.told {
		parts = append(parts, "told=1")
	}
	if o.part != 0 {
		parts = append(parts, partDo(o))
	}
	o2 := strings.Join(append(parts, more), ";")
	if t.acts != nil {
		return actDo(t.origin.ID, o2, t.acts)
	}
	return fmt.Sprintf("run|%d|%s", t.origin.ID, o2)
}

func parseOptions(s string) options {
	o := options{rerun: true, anyway: map[string]bool{}}
	for _, p := range strings.Split(s, ";") {
		k, v, _ := strings.Cut(p, "=")
		switch k {
		case "add":
			o.add = true
		case "sure":
			o.sure = true
		case "anyway":
			o.anyway[v] = true
		case "swap":
			o.swap = true
		case "subject":
			o.subject = rules.ParseSubject(v)
		case "task":
			o.task = v
		case "verb":
			o.verb = verb(v)
		case "yard":
			o.yard = v
		case "told":
			o.told = true
		case "part":
			_, _ = fmt.Sscanf(v, "%d/%d", &o.part, &o.parts)
		}
	}
	return o
}

// answerKinds are the acts of a ping's buttons.
var answerKinds = map[verb]rdg.Kind{doDone: rdg.Done, doMine: rdg.Claim, doLater: rdg.Later, doSkip: rdg.Skip}

// press acts on a button.
func (t *talk) press() error {
	m, found, err := t.tx.SentIn(t.crew.ID, t.chat, t.update.Message)
	if err != nil {
		return err
	}
	written, err := t.writtenIn(m)
	if err != nil {
		return err
	}
	t.speak(written)
	if t.stale {
		t.fail("g_stale")
		return nil
	}
	if !found {
		t.fail("r_no_message", "Number", t.update.Message)
		return nil
	}
	if t.button != nil {
		return t.pressed(m, *t.button)
	}
	want := wording.Fold(wording.Clean(t.update.Text))
	var labels []string
	for _, b := range m.Buttons {
		if wording.SameLabel(b.Label, want) {
			return t.pressed(m, b)
		}
		labels = append(labels, b.Label)
	}
	known := ""
	if labels != nil {
		known = t.v.Say("known_buttons", "List", strings.Join(labels, ", "))
	}
	t.fail("r_no_button", "Label", wording.Clean(t.update.Text), "Known", known)
	return nil
}

// pressed does what a button says. A question is answered once; the buttons of a
// ping may be pressed again, since a task that is done says so itself.
func (t *talk) pressed(m store.Message, b store.Button) error {
	do, rest, _ := strings.Cut(b.Do, "|")
	if do != "task" && do != "set" && do != "forget" && do != "told" { // who may not forget somebody does not use the question up
		fresh, err := t.tx.AnswerTo(m, t.update.ID)
		if err != nil {
			return err
		}
		if !fresh {
			t.say("r_pressed")
			return nil
		}
	}
	if do == "order" {
		return t.accept(rest)
	}
	arg, rest, _ := strings.Cut(rest, "|")
	id, _ := strconv.ParseInt(arg, 10, 64)
	switch do {
	case "no":
		t.say("r_left")
		return nil
	case "more":
		t.say("e_more")
		return nil
	case "set":
		return t.set(&reading{verb: doSet, key: arg, value: rest, addressed: true})
	case "task":
		t.opt = options{task: rest, verb: verb(arg), anyway: map[string]bool{}}
		if k, known := answerKinds[verb(arg)]; known {
			t.acts = []rdg.Act{{Kind: k}} // what a question about it does again
		}
		return t.act(&reading{verb: verb(arg), addressed: true})
	case "act":
		u, found, err := t.tx.UpdateRow(id)
		if err != nil || !found {
			return err
		}
		return t.pressAct(u, rest)
	case "run":
		u, found, err := t.tx.UpdateRow(id)
		if err != nil || !found {
			return err
		}
		return t.again(u, parseOptions(rest), t.offerAnew)
	case "told":
		u, found, err := t.tx.UpdateRow(id)
		if err != nil || !found {
			return err
		}
		return t.explain(u)
	case "amend":
		key, value, _ := strings.Cut(rest, "=")
		return t.amendLine(id, func(e *rules.Entry) {
			switch key {
			case "count":
				n, _ := strconv.Atoi(value)
				e.Count = &n
			case "into":
				e.Into = value
			case "all":
				e.Detail.All = true
			}
		})
	case "forget":
		return t.forgotten(id)
	case "undo":
		var ids []int64
		for _, s := range strings.Split(arg, ",") {
			n, _ := strconv.ParseInt(s, 10, 64)
			ids = append(ids, n)
		}
		return t.voidLines(ids, rest != "check")
	}
	return fmt.Errorf("button %q is not known", b.Do)
}

// changedSince says so where the words of a message were changed since: what a button was
// about may be logged by now.
func (t *talk) changedSince(u store.Update) (bool, error) {
	if u.Message == 0 || u.Kind == "press" {
		return false, nil
	}
	last, found, err := t.tx.LastOfMessage(t.crew.ID, u.Message)
	if err != nil || !found || last.ID == u.ID {
		return false, err
	}
	t.fail("g_stale")
	return true, nil
}

// again goes back to an earlier message with what a press adds. The line that it logs
// belongs to who wrote the message, at the time it was written.
func (t *talk) again(u store.Update, o options, do func(store.Update, options) error) error {
	if changed, err := t.changedSince(u); changed || err != nil {
		return err
	}
	t.origin, t.opt = u, o
	t.addressed = t.addressed || o.told
	m, err := t.tx.MemberByID(u.Member)
	if err != nil {
		return err
	}
	t.by = m
	t.replied = nil
	number := u.ReplyTo
	if u.Kind == "press" {
		number = u.Message
	}
	if number != 0 {
		r, found, err := t.tx.SentIn(t.crew.ID, t.chat, number)
		if err != nil {
			return err
		}
		if found {
			t.replied = &r
		}
	}
	return do(u, o)
}

// forgetDo spells a button that forgets a member.
func forgetDo(id int64) string { return fmt.Sprintf("forget|%d", id) }

// amendDo spells a button that corrects the count of a line.
func amendDo(id int64, count int) string { return fmt.Sprintf("amend|%d|count=%d", id, count) }
