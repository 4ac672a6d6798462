package conversation

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
	lot     string // the place of the cells that are meant
	told    bool   // it is read as said to the bot: see explain
	part    int    // which event of the message it is about, from 1; 0 for all of it
	parts   int    // of how many
}

// rerun spells a button that reads the origin's message again with more said
// about it. What earlier presses said is kept.
func (sc *Scene) rerun(more string) string {
	var parts []string
	o := sc.opt
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
	if o.lot != "" {
		parts = append(parts, "lot="+o.lot)
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
	if sc.acts != nil {
		return actDo(sc.Origin.ID, o2, sc.acts)
	}
	return fmt.Sprintf("run|%d|%s", sc.Origin.ID, o2)
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
		case "lot":
			o.lot = v
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
func (sc *Scene) press() (Answer, error) {
	var ans Answer
	m, found, err := sc.Look.SentIn(sc.Crew.ID, sc.Chat, sc.Update.Message)
	if err != nil {
		return ans, err
	}
	written, err := sc.writtenIn(m)
	if err != nil {
		return ans, err
	}
	sc = sc.Speaking(written)
	ans.of = sc
	if sc.Stale {
		ans.Fail(sc.Voice, "g_stale")
		return ans, nil
	}
	if !found {
		ans.Fail(sc.Voice, "r_no_message", "Number", sc.Update.Message)
		return ans, nil
	}
	if sc.Button != nil {
		return ans.then(sc.pressed(m, *sc.Button))
	}
	want := wording.Fold(wording.Clean(sc.Update.Text))
	var labels []string
	for _, b := range m.Buttons {
		if wording.SameLabel(b.Label, want) {
			return ans.then(sc.pressed(m, b))
		}
		labels = append(labels, b.Label)
	}
	known := ""
	if labels != nil {
		known = sc.Voice.Say("known_buttons", "List", strings.Join(labels, ", "))
	}
	ans.Fail(sc.Voice, "r_no_button", "Label", wording.Clean(sc.Update.Text), "Known", known)
	return ans, nil
}

// pressed does what a button says. A question is answered once; the buttons of a
// ping may be pressed again, since a task that is done says so itself.
func (sc *Scene) pressed(m store.Message, b store.Button) (Answer, error) {
	var ans Answer
	do, rest, _ := strings.Cut(b.Do, "|")
	if do != "task" && do != "tasks" && do != "set" && do != "forget" && do != "forgetcustomer" && do != "told" { // who may not forget somebody does not use the question up
		if m.Answered != 0 {
			ans.say(sc.Voice, "r_pressed")
			return ans, nil
		}
		ans.answered(m, sc.Update.ID)
	}
	return ans.then(sc.does(do, rest))
}

// does is what a button does.
func (sc *Scene) does(do, rest string) (Answer, error) {
	var ans Answer
	if do == "order" {
		return sc.accept(rest)
	}
	arg, rest, _ := strings.Cut(rest, "|")
	id, _ := strconv.ParseInt(arg, 10, 64)
	switch do {
	case "no":
		ans.say(sc.Voice, "r_left")
		return ans, nil
	case "more":
		ans.say(sc.Voice, "e_more")
		return ans, nil
	case "set":
		return sc.set(&reading{verb: doSet, key: arg, value: rest, addressed: true})
	case "task":
		now := *sc
		now.opt = options{task: rest, verb: verb(arg), anyway: map[string]bool{}}
		if k, known := answerKinds[verb(arg)]; known {
			now.acts = []rdg.Act{{Kind: k}} // what a question about it does again
		}
		return Answer{of: &now}.then(now.act(&reading{verb: verb(arg), addressed: true}))
	case "tasks":
		now := *sc
		now.opt, now.bars = options{anyway: map[string]bool{}}, strings.Split(rest, "|")
		return Answer{of: &now}.then(now.perform([]rdg.Act{{Kind: answerKinds[verb(arg)], All: verb(arg) == doDone}}))
	case "act":
		u, found, err := sc.Look.UpdateRow(id)
		if err != nil || !found {
			return ans, err
		}
		return sc.pressAct(u, rest)
	case "run":
		u, found, err := sc.Look.UpdateRow(id)
		if err != nil || !found {
			return ans, err
		}
		return sc.again(u, parseOptions(rest), (*Scene).offerAnew)
	case "told":
		u, found, err := sc.Look.UpdateRow(id)
		if err != nil || !found {
			return ans, err
		}
		return sc.explain(u)
	case "amend":
		key, value, _ := strings.Cut(rest, "=")
		return sc.amendLine(id, func(e *rules.Entry) {
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
	case "forgetcustomer":
		return sc.customerForgotten(int(id))
	case "forget":
		return sc.forgotten(id)
	case "undo":
		var ids []int64
		for _, s := range strings.Split(arg, ",") {
			n, _ := strconv.ParseInt(s, 10, 64)
			ids = append(ids, n)
		}
		return sc.voidLines(ids, rest != "check")
	}
	return ans, fmt.Errorf("button %q is not known", do)
}

// changedSince says so where the words of a message were changed since: what a button was
// about may be logged by now.
func (sc *Scene) changedSince(u store.Update) (Answer, bool, error) {
	var ans Answer
	if u.Message == 0 || u.Kind == "press" {
		return ans, false, nil
	}
	last, found, err := sc.Look.LastOfMessage(sc.Crew.ID, u.Message)
	if err != nil || !found || last.ID == u.ID {
		return ans, false, err
	}
	ans.Fail(sc.Voice, "g_stale")
	return ans, true, nil
}

// again goes back to an earlier message with what a press adds. The line that it logs
// belongs to who wrote the message, at the time it was written.
func (sc *Scene) again(u store.Update, o options, do func(*Scene) (Answer, error)) (Answer, error) {
	var ans Answer
	if changed, err := ans.taken(sc.changedSince(u)); changed || err != nil {
		return ans, err
	}
	then, err := sc.then(u, o)
	if err != nil {
		return ans, err
	}
	then.Addressed = then.Addressed || o.told
	number := u.ReplyTo
	if u.Kind == "press" {
		number = u.Message
	}
	if number != 0 {
		r, found, err := sc.Look.SentIn(sc.Crew.ID, sc.Chat, number)
		if err != nil {
			return ans, err
		}
		if found {
			then.Replied = &r
		}
	}
	ans.of = then
	return ans.then(do(then))
}

// then is the scene of an earlier message, with what a press adds.
func (sc *Scene) then(u store.Update, o options) (*Scene, error) {
	by, err := sc.Look.MemberByID(u.Member)
	then := *sc
	then.Origin, then.opt, then.By, then.Replied = u, o, by, nil
	return &then, err
}

// forgetDo spells a button that forgets a member.
func forgetDo(id int64) string { return fmt.Sprintf("forget|%d", id) }

// amendDo spells a button that corrects the count of a line.
func amendDo(id int64, count int) string { return fmt.Sprintf("amend|%d|count=%d", id, count) }
