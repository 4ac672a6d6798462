package bot

import (
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
	"yardbell/store"
)

// attempt is what an attempt to act on a message came to, so that another may take its place.
type attempt struct {
	lines   []string
	kind    string
	buttons []store.Button
	step    rules.Step
	subject rules.Subject
	silent  bool
	logged  int
	later   int
	attach  attachment
}

func (t *talk) saved() attempt {
	return attempt{t.lines, t.kind, t.buttons, t.step, t.subject, t.silent, len(t.logged), len(t.later), t.attach}
}

func (t *talk) restore(s attempt) {
	t.lines, t.kind, t.buttons, t.step, t.subject, t.silent, t.attach = s.lines, s.kind, s.buttons, s.step, s.subject, s.silent, s.attach
	t.logged, t.later = t.logged[:s.logged], t.later[:s.later]
}

// settled reports whether a message was dealt with: something was logged or answered.
func (t *talk) settled(before attempt) bool {
	return len(t.logged) > before.logged || !t.silent && t.kind == "reply"
}

// offersAll reports whether the question offers to log what was read as it stands, words
// left over and all.
func (t *talk) offersAll() bool {
	for _, b := range t.buttons {
		if strings.HasPrefix(b.Do, "run|") && strings.HasSuffix(b.Do, "sure=1") {
			return true
		}
	}
	return false
}

// both acts on a message by the first reader and, where that comes to nothing because of
// how it read the message, by the second: what that understood in full is logged, else it
// offers what it read, or shows that the message was seen and not logged.
func (t *talk) both(m many) error {
	if !t.second || t.opt.rerun || t.forwarded {
		return t.events(m)
	}
	k, err := t.known()
	if err != nil {
		return err
	}
	before := t.saved()
	t.unclear = false
	var first attempt
	if err := t.tx.Nested(func() (bool, error) {
		if err := t.events(m); err != nil {
			return false, err
		}
		first = t.saved()
		return t.settled(before) || !t.unclear, nil
	}); err != nil {
		return err
	}
	if t.settled(before) || !t.unclear {
		return nil
	}
	res := understand().Read(t.origin.Text, k)
	if !first.silent {
		// The first reader doubted it: what the second made of it is offered, not logged.
		if res.Outcome == rdg.Log && loggable(res.Acts) {
			res.Outcome, res.Others = rdg.Ask, [][]rdg.Act{res.Acts}
		}
		if res.Outcome != rdg.Log && !(t.offersAll() && len(res.Others) > 0) {
			return nil
		}
	}
	done, err := t.attempt(before, res)
	if err != nil {
		return err
	}
	if !done {
		t.logged, t.later = t.logged[:before.logged], t.later[:before.later]
		t.restore(first)
	}
	return nil
}

// loggable reports whether acts would log work. A command is none: every word of it was
// read.
func loggable(acts []rdg.Act) bool {
	for _, a := range acts {
		if _, command := asCommand(a, false, ""); !command && a.Kind != rdg.Query && a.Kind != rdg.Seen {
			return true
		}
	}
	return false
}

// attempt does what was made of a message, or nothing.
func (t *talk) attempt(before attempt, res rdg.Result) (done bool, err error) {
	acts := t.acts
	err = t.tx.Nested(func() (bool, error) {
		t.restore(before)
		t.silent, t.kind, t.lines, t.buttons = false, "reply", nil, nil
		var err error
		done, err = t.understood(res)
		return done, err
	})
	if !done {
		t.acts = acts
		t.logged, t.later = t.logged[:before.logged], t.later[:before.later]
		t.restore(before)
	}
	return done, err
}

// understood acts on what was made of a message. It reports false where that comes to
// nothing.
func (t *talk) understood(res rdg.Result) (bool, error) {
	switch res.Outcome {
	case rdg.Log:
		if done, err := t.command(res); done || err != nil {
			return done, err
		}
		switch res.Acts[0].Kind {
		case rdg.Query:
			return t.query(res.Acts[0])
		case rdg.Seen, rdg.Remove, rdg.Lead, rdg.Forget:
			return false, nil
		}
		err := t.perform(res.Acts)
		return !t.silent && len(t.lines) > 0, err
	case rdg.Ask:
		if has(res.Doubts, "command") {
			return true, t.unreadCommand(res.Acts)
		}
		if len(res.Others) == 0 {
			return t.sees(res), nil
		}
		t.offerActs(res)
		return true, nil
	case rdg.Notice:
		return t.sees(res), nil
	}
	return false, nil
}

// sees shows that the message was seen and not logged.
func (t *talk) sees(res rdg.Result) bool {
	if t.update.Kind != "message" || t.replied != nil || t.addressed || t.chat != 0 {
		return false
	}
	t.notice()
	return true
}

// perform does acts, all of one message.
func (t *talk) perform(acts []rdg.Act) error {
	t.acts = acts
	if len(acts) == 1 && acts[0].Kind == rdg.Amend {
		return t.amendBy(acts[0])
	}
	return t.events(t.asReadings(acts))
}

// amendBy puts the sender's last line right.
func (t *talk) amendBy(a rdg.Act) error {
	own, err := t.lastLines()
	if err != nil {
		return err
	}
	if len(own) != 1 || own[0].Step != a.Step {
		t.ask("r_mend_none", "What", t.v.say("step_"+string(a.Step)))
		return nil
	}
	now := t.asReading(a)
	if stop, err := t.unknown(now); stop || err != nil {
		return err
	}
	if own[0].Count == nil && (now.count != nil || now.all) {
		return t.complete(own[0].ID, own[0].Entry, now)
	}
	return t.mendLine(own[0], mending{now: now})
}

// offerActs asks whether what was read is meant. The words of each button say what it
// logs.
func (t *talk) offerActs(res rdg.Result) {
	t.kind = "ask"
	list := res.Others
	var said []string
	for _, acts := range list {
		said = append(said, t.actsInWords(acts))
	}
	rest := strings.Join(res.Unread, " ")
	switch {
	case len(list) > 1:
		t.ask("ask_act_which")
	case rest != "":
		t.ask("ask_act_sure", "What", said[0], "Rest", rest)
	default:
		t.ask("ask_act", "What", said[0])
	}
	t.step = list[0][0].Step
	for i, acts := range list {
		label := t.v.say("b_log")
		if len(list) > 1 {
			label = upper(said[i])
		}
		t.buttons = append(t.buttons, button(label, actDo(t.origin.ID, "sure=1", acts)))
	}
	t.offer("b_no", "no")
}

// actsInWords says what acts would log.
func (t *talk) actsInWords(acts []rdg.Act) string {
	var out []string
	for _, a := range acts {
		out = append(out, t.actInWords(a))
	}
	return joinList(out)
}

func (t *talk) actInWords(a rdg.Act) string {
	r := t.asReading(a)
	if a.Kind == rdg.Void {
		return t.v.say("b_undo")
	}
	if r.count == nil && a.Count != nil {
		r.count = a.Count
	}
	s := t.eventSummary(r)
	if r.when.set {
		if at, exact := r.when.settle(t.origin.Said, t.s); exact {
			s += ", " + t.v.at(at)
		}
	}
	return s
}

// pressAct does the acts that lie under a button, for who wrote the message.
func (t *talk) pressAct(u store.Update, rest string) error {
	o, acts, err := parseActs(rest)
	if err != nil {
		return err
	}
	t.origin, t.opt = u, o
	t.opt.rerun = o.part != 0
	m, err := t.tx.MemberByID(u.Member)
	if err != nil {
		return err
	}
	t.by = m
	t.replied = nil
	return t.perform(acts)
}
