package conversation

import (
	"fmt"
	"slices"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// part is one event of a message.
type part struct {
	r       *reading
	carried bool // it repeats the deed of the part before
}

// many is a message as a whole and as the events it tells of.
type many struct {
	whole *reading
	parts []part // none where it tells of one event only

	acts   []rdg.Act // what the parts are of, where they do the same on bars of one round
	round  rules.GraftRound
	atOnce bool
}

// happening is what became of one event of a message.
type happening struct {
	Answer
	r  *reading
	in bool // the log, by this or before
}

// events acts on the events of one message, in the one transaction. What is
// clear is logged; what is not is said to be open, and its buttons are about it
// alone.
func (sc *Scene) events(m many) (Answer, error) {
	if sc.opt.part != 0 {
		return sc.onePart(m)
	}
	if sc.opt.rerun || len(m.parts) == 0 {
		return sc.act(m.whole) // a press about the message as a whole
	}
	var list []happening
	now := *sc
	for i, p := range m.parts {
		if p.r == nil {
			continue
		}
		now.follows = i+1 < len(m.parts) && m.parts[i+1].carried
		h, err := now.event(p, list, i, len(m.parts))
		if err != nil {
			return Answer{}, err
		}
		if h.in {
			now = *h.In(&now)
			now.opt = sc.opt
		}
		list = append(list, h)
	}
	if m.atOnce {
		if ans, ok := now.toldAtOnce(m.round, m.acts, list); ok {
			return ans, nil
		}
	}
	return now.tell(list), nil
}

// onePart acts on the one event that a button is about.
func (sc *Scene) onePart(m many) (Answer, error) {
	var ans Answer
	if len(m.parts) != sc.opt.parts || sc.opt.part > len(m.parts) {
		ans.Fail(sc.Voice, "g_stale") // it is read in another way now
		return ans, nil
	}
	r := m.parts[sc.opt.part-1].r
	r.addressed = true
	if m.parts[sc.opt.part-1].r.verb == doAdd {
		return sc.add(r)
	}
	return sc.act(r)
}

// event acts on one event so that nothing of it stays where it logged nothing.
func (sc *Scene) event(p part, before []happening, i, of int) (h happening, err error) {
	one := *sc
	one.opt.part, one.opt.parts = i+1, of
	r := p.r
	h.r = r
	open := false
	for _, b := range before {
		open = open || !b.in
	}
	if p.carried && len(before) > 0 {
		if s := before[len(before)-1].Subject; s.Kind == rules.BatchKind && r.step != rules.Graft && r.batch == 0 {
			one.opt.subject = s
		}
	}
	if open && (p.carried && r.batch == 0 || leansOn(r)) {
		h.Kind = "ask" // what it leans on is not in the log
		return h, nil
	}
	r.addressed = true
	h.Answer, err = one.act(r)
	h.in = len(h.Logged) > 0 || h.Sort() == "reply" && !h.Silent
	if amendsOwn(h.Logged, before) {
		h.in, h.Lines, h.Buttons, h.Kind = false, nil, nil, "ask"
	}
	if !h.in {
		h.drop(sc)
	}
	return h, err
}

// amendsOwn reports whether what was logged corrects a line of the same message: one of
// the two was read amiss.
func amendsOwn(logged []rules.Entry, before []happening) bool {
	for _, e := range logged {
		for _, h := range before {
			if e.Action == rules.Amend && slices.ContainsFunc(h.Logged, func(was rules.Entry) bool { return was.ID == e.Ref }) {
				return true
			}
		}
	}
	return false
}

// leansOn reports whether an event takes its subject from what was logged before.
func leansOn(r *reading) bool {
	switch {
	case r.concluded:
		return true
	case r.verb == doAdd || r.verb == doDone || r.verb == justCount:
		return false
	case r.step == rules.Graft || r.step == rules.Dearth || r.step == rules.Flow || r.step == rules.Drones:
		return false
	case stepTakes[r.step][rules.BreederKind]:
		return r.subject().Zero()
	case r.step == rules.Rogue:
		return r.builder == "" && r.batch == 0
	}
	return r.batch == 0
}

// tell puts the answers together: what is settled, what is asked about a line that
// was logged, then what is not logged. One question has the buttons.
func (sc *Scene) tell(list []happening) Answer {
	ans := Answer{of: sc}
	some := false
	for _, h := range list {
		if some = some || h.in; h.in && ans.Subject.Zero() {
			ans.Step, ans.Subject = h.Step, h.Subject
		}
		ans.record(h.Answer)
		ans.Noticed, ans.Reported, ans.Warned = ans.Noticed || h.Noticed, ans.Reported || h.Reported, ans.Warned || h.Warned
		if h.Attach.Kind != "" {
			ans.Attach = h.Attach
		}
	}
	for _, asks := range []bool{false, true} {
		for _, h := range list {
			if h.in && (h.Kind == "ask") == asks {
				ans.Lines = append(ans.Lines, h.Lines...)
				ans.take1(h)
			}
		}
	}
	if open := uncounted(list); len(open) > 1 {
		// A bare number, or a button, would not say whose it is.
		ans.Buttons = nil
		ans.say(sc.Voice, "many_which", "Example", sc.Voice.Say("form_"+string(open[0])))
	}
	for _, h := range list {
		if h.in {
			continue
		}
		ans.Kind = "ask"
		why := strings.Join(h.Lines, " ")
		for _, id := range []string{"many_nothing", "many_nothing_yet"} { // said at the head already
			why = wording.Without(why, sc.Voice.Say(id))
		}
		why = strings.Join(strings.Fields(why), " ")
		again := h.Lines == nil || len(h.Buttons) > 0 && ans.Buttons != nil
		if again {
			why = strings.TrimSpace(why + " " + sc.Voice.Say("many_again"))
		}
		ans.say(sc.Voice, "many_open", "What", sc.eventSummary(h.r), "Why", why)
		ans.take1(h)
		if !some && ans.Subject.Zero() {
			ans.Step, ans.Subject = h.Step, h.Subject
		}
	}
	return ans
}

// uncounted are the steps of this message's lines that lack their number.
func uncounted(list []happening) (out []rules.Step) {
	for _, h := range list {
		if h.in && h.Kind == "ask" && h.r.count == nil && !h.r.all && rules.NeedsCount[h.Step] {
			out = append(out, h.Step)
		}
	}
	return out
}

// eventSummary says what an event was read as, each thing where it belongs.
func (sc *Scene) eventSummary(r *reading) string {
	switch {
	case r.verb == doAdd:
		return sc.Voice.Line(rules.Entry{Action: rules.Did, Step: rules.Add, Subject: r.subject()})
	case r.step == rules.Catch && r.verb == doStep && (r.mark != "" || r.tags != ""):
		c, m := *r, *r
		c.mark, c.tags, m.step = "", "", rules.Marked
		m.yard = ""
		return wording.JoinList([]string{sc.eventSummary(&c), sc.stockInWords(&m)})
	case !wording.BatchSteps[r.step] || r.verb != doStep || r.batch != 0:
		return sc.summary(r)
	}
	e := rules.Entry{Action: rules.Did, Step: r.step, Count: r.count, Of: r.of, From: r.breeder, Into: r.yard}
	if r.builder != "" && (builderPlaced[r.step] || r.yard == "") {
		e.Into = r.builder
	}
	return sc.Voice.Line(e)
}

// take1 takes an event's question, unless another one has the buttons already.
func (a *Answer) take1(h happening) {
	if h.Kind == "ask" {
		a.Kind = "ask"
	}
	if len(a.Buttons) == 0 {
		a.Buttons = h.Buttons
	}
}

// partDo spells which of the events a button is about.
func partDo(o options) string { return fmt.Sprintf("part=%d/%d", o.part, o.parts) }
