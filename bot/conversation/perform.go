package conversation

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
func (sc *Scene) sees(res rdg.Result) (Answer, bool) {
	var ans Answer
	if sc.Update.Kind != "message" || sc.Replied != nil || sc.Addressed || sc.Chat != 0 {
		return ans, false
	}
	ans.Notice()
	return ans, true
}

// perform does acts, all of one message.
func (sc *Scene) perform(acts []rdg.Act) (Answer, error) {
	now := *sc
	read := len(acts)
	acts, ans, stop := now.spread(acts)
	if stop {
		return Answer{of: &now}.with(ans), nil
	}
	now.acts = acts
	ans = Answer{of: &now}
	if len(acts) == 1 && acts[0].Kind == rdg.Amend {
		return ans.then(now.amendBy(acts[0]))
	}
	m := now.asReadings(acts)
	if m.round, m.atOnce = now.sameForAll(acts); read < len(acts) || len(acts) > 2 {
		m.acts = acts
	} else {
		m.atOnce = false
	}
	return ans.then(now.events(m))
}

// amendBy puts a line right: the one that has the old value where that is said, the one
// that waits for what is said now, else the sender's last.
func (sc *Scene) amendBy(a rdg.Act) (Answer, error) {
	var ans Answer
	now := sc.asReading(a)
	now.when = bareClock(now.when, a.When)
	if stop, err := ans.taken(sc.unknown(now)); stop || err != nil {
		return ans, err
	}
	sc = ans.In(sc)
	if stop := ans.is(sc.whoGot(now)); stop {
		return ans, nil
	}
	sc = ans.In(sc)
	if a.Old != nil && a.Count != nil {
		now.old = a.Old
		return ans.then(sc.fix(now))
	}
	now.step = ""
	if a.Old != nil || a.Was != nil {
		c := mending{now: now, old: a.Old}
		if a.Was != nil {
			c.was = sc.asReading(*a.Was)
			c.was.when = bareClock(c.was.when, a.Was.When)
		}
		return ans.then(sc.mend(c))
	}
	q, l, ok, err := sc.awaiting(now)
	if ans.add(q); ok || err != nil || ans.Kind == "ask" {
		if ok && err == nil {
			err = ans.take(sc.complete(l.ID, l.Entry, now))
		}
		return ans, err
	}
	own, err := sc.lastLines()
	switch {
	case err != nil:
		return ans, err
	case len(own) > 1:
		return ans.then(sc.mend(mending{now: now}))
	case len(own) == 1 && !sc.opt.sure && !mendFits(own[0].Entry, now):
		ans.ask(sc.Voice, "r_mend_none", "What", sc.Voice.Line(own[0].Entry))
		return ans, nil
	case len(own) == 0 || own[0].Step != a.Step:
		ans.ask(sc.Voice, "r_mend_none", "What", sc.Voice.Say("step_"+string(a.Step)))
		return ans, nil
	}
	return ans.then(sc.mendLine(own[0], mending{now: now}))
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
func (sc *Scene) offerActs(res rdg.Result) Answer {
	var ans Answer
	ans.Kind = "ask"
	list := res.Others
	if ans.is(sc.offerChange(list)) || ans.is(sc.offerAgain(list)) {
		return ans
	}
	var said []string
	for _, acts := range list {
		said = append(said, sc.actsInWords(acts))
	}
	rest := strings.Join(res.Unread, " ")
	switch {
	case len(list) > 1:
		ans.ask(sc.Voice, "ask_act_which")
	case rest != "":
		ans.ask(sc.Voice, "ask_act_sure", "What", said[0], "Rest", rest)
	case slices.Contains(res.Moods, "hedge"):
		ans.ask(sc.Voice, "ask_hedge", "What", said[0])
	default:
		ans.ask(sc.Voice, "ask_act", "What", said[0])
	}
	ans.Step = list[0][0].Step
	if slices.Contains(res.Doubts, rdg.DoubtAlarm) {
		ans.say(sc.Voice, "alarm_any")
	}
	for i, acts := range list {
		label := sc.Voice.Say("b_log")
		if len(list) > 1 {
			label = wording.Upper(said[i])
		}
		ans.Buttons = append(ans.Buttons, wording.Button(label, actDo(sc.Origin.ID, "sure=1", acts)))
	}
	ans.offer(sc.Voice, "b_no", "no")
	return ans
}

// offerChange asks whether the sender's last count is to be changed, showing both.
func (sc *Scene) offerChange(list [][]rdg.Act) (Answer, bool) {
	var ans Answer
	if len(list) != 1 || len(list[0]) != 1 {
		return ans, false
	}
	a := list[0][0]
	own, err := sc.lastLines()
	if err != nil || a.Kind != rdg.Amend || a.Count == nil || a.Old != nil || len(own) != 1 || own[0].Count == nil {
		return ans, false
	}
	l := own[0]
	ans.Step = l.Step
	ans.ask(sc.Voice, "ask_fix", "Count", *l.Count, "What", sc.Voice.Line(l.Entry), "When", l.Said, "New", *a.Count)
	ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_change", "Count", *a.Count), amendDo(l.ID, *a.Count)), wording.Button(sc.Voice.Say("b_keep", "Count", *l.Count), "no"))
	return ans, true
}

// actsInWords says what acts would log.
func (sc *Scene) actsInWords(acts []rdg.Act) string {
	var out []string
	for _, a := range acts {
		out = append(out, sc.actInWords(a))
	}
	return wording.JoinList(out)
}

func (sc *Scene) actInWords(a rdg.Act) string {
	r := sc.asReading(a)
	if said, ok := sc.barsInWords(a); ok {
		return said
	}
	if said, ok := sc.answerInWords(a, r); ok {
		return said
	}
	if r.count == nil && a.Count != nil {
		r.count = a.Count
	}
	out := []string{sc.eventSummary(r)}
	if a.Step == rules.Retire {
		e := rules.Entry{Action: rules.Did, Step: a.Step, Subject: rules.BreederSubject(a.Breeder), Detail: rules.Detail{Cause: a.Reason}}
		out[0] = sc.Voice.Line(e)
	}
	if r.ageLo != nil && r.ageHi != nil {
		out = append(out, sc.Voice.Ages(rules.AgeSpan{Lo: *r.ageLo, Hi: *r.ageHi, Basis: "stated"}))
	}
	if r.litres > 0 {
		out = append(out, sc.Voice.Number(r.litres, 2)+" l")
	}
	if r.when.set {
		if at, exact := r.when.settle(sc.Origin.Said, sc.Settings); exact {
			out = append(out, sc.Voice.At(at))
		}
	}
	return wording.JoinList(out)
}

// leftOver says what was read of a report and what was not: a number of it would be lost.
func (sc *Scene) leftOver(res rdg.Result) Answer {
	var ans Answer
	ans.Step = res.Acts[0].Step
	if !sc.Voice.Has("form_"+string(ans.Step)) || len(res.Unread) == 0 {
		ans.add(sc.unclearTo(res)) // there is no form to send it by, or nothing to name
		return ans
	}
	ans.ask(sc.Voice, "ask_left", "What", sc.actsInWords(res.Acts), "Rest", strings.Join(res.Unread, " "), "Example", sc.Voice.Say("form_"+string(ans.Step)))
	return ans
}

// sayParts says that the parts of what was told do not make the sum that stands before
// them.
func (sc *Scene) sayParts(acts []rdg.Act) Answer {
	var ans Answer
	sum := 0
	for _, a := range acts[1:] {
		sum += *a.Count
	}
	ans.ask(sc.Voice, "r_sum", "Sum", sum, "Said", *acts[0].Count)
	return ans
}

// pressAct does the acts that lie under a button, for who wrote the message.
func (sc *Scene) pressAct(u store.Update, rest string) (Answer, error) {
	var ans Answer
	o, acts, err := parseActs(rest)
	if err != nil {
		return ans, err
	}
	if changed, err := ans.taken(sc.changedSince(u)); changed || err != nil {
		return ans, err
	}
	o.rerun = o.part != 0
	then, err := sc.then(u, o)
	if err != nil {
		return ans, err
	}
	ans.of = then
	return ans.then(then.perform(acts))
}
