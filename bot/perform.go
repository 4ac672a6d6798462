package bot

import (
	"slices"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// wordOnly are the answers that log nothing by themselves.
var wordOnly = map[rdg.Kind]bool{rdg.Seen: true, rdg.Yes: true, rdg.No: true, rdg.Thanks: true}

// loggable reports whether acts would log work. A command is none: every word of it was
// read.
func loggable(acts []rdg.Act) bool {
	for _, a := range acts {
		if _, command := asCommand(a, false, ""); !command && a.Kind != rdg.Query && !wordOnly[a.Kind] {
			return true
		}
	}
	return false
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

// amendBy puts a line right: the one that has the old value where that is said, the one
// that waits for what is said now, else the sender's last.
func (t *talk) amendBy(a rdg.Act) error {
	now := t.asReading(a)
	now.when = bareClock(now.when, a.When)
	if stop, err := t.unknown(now); stop || err != nil {
		return err
	}
	if a.Old != nil && a.Count != nil {
		now.old = a.Old
		return t.fix(now)
	}
	now.step = ""
	if a.Old != nil || a.Was != nil {
		c := mending{now: now, old: a.Old}
		if a.Was != nil {
			c.was = t.asReading(*a.Was)
			c.was.when = bareClock(c.was.when, a.Was.When)
		}
		return t.mend(c)
	}
	if l, ok, err := t.awaiting(now); ok || err != nil || t.kind == "ask" {
		if ok && err == nil {
			err = t.complete(l.ID, l.Entry, now)
		}
		return err
	}
	own, err := t.lastLines()
	switch {
	case err != nil:
		return err
	case len(own) > 1:
		return t.mend(mending{now: now})
	case len(own) == 1 && !t.opt.sure && !mendFits(own[0].Entry, now):
		t.ask("r_mend_none", "What", t.v.Line(own[0].Entry))
		return nil
	case len(own) == 0 || own[0].Step != a.Step:
		t.ask("r_mend_none", "What", t.v.Say("step_"+string(a.Step)))
		return nil
	}
	return t.mendLine(own[0], mending{now: now})
}

// bareClock leaves the day of a corrected time to the line, where none was said.
func bareClock(w when, said *rdg.When) when {
	if w.hasTime && w.date && said != nil && said.Day == nil && said.Weekday == 0 && said.Month == 0 && said.Ago == 0 {
		w.hasDay, w.date, w.year, w.month, w.day = false, false, 0, 0, 0
	}
	return w
}

// offerActs asks whether what was read is meant. The words of each button say what it
// logs.
func (t *talk) offerActs(res rdg.Result) {
	t.kind = "ask"
	list := res.Others
	if t.offerChange(list) || t.offerAgain(list) {
		return
	}
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
	case slices.Contains(res.Moods, "hedge"):
		t.ask("ask_hedge", "What", said[0])
	default:
		t.ask("ask_act", "What", said[0])
	}
	t.step = list[0][0].Step
	if slices.Contains(res.Doubts, rdg.DoubtAlarm) {
		t.say("alarm_any")
	}
	for i, acts := range list {
		label := t.v.Say("b_log")
		if len(list) > 1 {
			label = wording.Upper(said[i])
		}
		t.buttons = append(t.buttons, wording.Button(label, actDo(t.origin.ID, "sure=1", acts)))
	}
	t.offer("b_no", "no")
}

// offerChange asks whether the sender's last count is to be changed, showing both.
func (t *talk) offerChange(list [][]rdg.Act) bool {
	if len(list) != 1 || len(list[0]) != 1 {
		return false
	}
	a := list[0][0]
	own, err := t.lastLines()
	if err != nil || a.Kind != rdg.Amend || a.Count == nil || a.Old != nil || len(own) != 1 || own[0].Count == nil {
		return false
	}
	l := own[0]
	t.step = l.Step
	t.ask("ask_fix", "Count", *l.Count, "What", t.v.Line(l.Entry), "When", l.Said, "New", *a.Count)
	t.buttons = append(t.buttons, wording.Button(t.v.Say("b_change", "Count", *a.Count), amendDo(l.ID, *a.Count)), wording.Button(t.v.Say("b_keep", "Count", *l.Count), "no"))
	return true
}

// actsInWords says what acts would log.
func (t *talk) actsInWords(acts []rdg.Act) string {
	var out []string
	for _, a := range acts {
		out = append(out, t.actInWords(a))
	}
	return wording.JoinList(out)
}

func (t *talk) actInWords(a rdg.Act) string {
	r := t.asReading(a)
	if said, ok := t.answerInWords(a, r); ok {
		return said
	}
	if r.count == nil && a.Count != nil {
		r.count = a.Count
	}
	out := []string{t.eventSummary(r)}
	if a.Step == rules.Retire {
		e := rules.Entry{Action: rules.Did, Step: a.Step, Subject: rules.BreederSubject(a.Breeder), Detail: rules.Detail{Cause: a.Reason}}
		out[0] = t.v.Line(e)
	}
	if r.ageLo != nil && r.ageHi != nil {
		out = append(out, t.v.Ages(rules.AgeSpan{Lo: *r.ageLo, Hi: *r.ageHi, Basis: "stated"}))
	}
	if r.litres > 0 {
		out = append(out, t.v.Number(r.litres, 2)+" l")
	}
	if r.when.set {
		if at, exact := r.when.settle(t.origin.Said, t.s); exact {
			out = append(out, t.v.At(at))
		}
	}
	return wording.JoinList(out)
}

// leftOver says what was read of a report and what was not: a number of it would be lost.
func (t *talk) leftOver(res rdg.Result) {
	t.step = res.Acts[0].Step
	if !t.v.Has("form_"+string(t.step)) || len(res.Unread) == 0 {
		t.unclearTo(res) // there is no form to send it by, or nothing to name
		return
	}
	t.ask("ask_left", "What", t.actsInWords(res.Acts), "Rest", strings.Join(res.Unread, " "), "Example", t.v.Say("form_"+string(t.step)))
}

// sayParts says that the parts of what was told do not make the sum that stands before
// them.
func (t *talk) sayParts(acts []rdg.Act) {
	sum := 0
	for _, a := range acts[1:] {
		sum += *a.Count
	}
	t.ask("r_sum", "Sum", sum, "Said", *acts[0].Count)
}

// pressAct does the acts that lie under a button, for who wrote the message.
func (t *talk) pressAct(u store.Update, rest string) error {
	o, acts, err := parseActs(rest)
	if err != nil {
		return err
	}
	if changed, err := t.changedSince(u); changed || err != nil {
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
