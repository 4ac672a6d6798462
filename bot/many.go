package bot

import (
	"fmt"
	"strings"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
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
}

// happening is what became of one event of a message.
type happening struct {
	r       *reading
	lines   []string
	buttons []store.Button
	kind    string
	logged  bool // or in the log already
	step    rules.Step
	subject rules.Subject
}

// events acts on the events of one message, in the one transaction. What is
// clear is logged; what is not is said to be open, and its buttons are about it
// alone.
func (t *talk) events(m many) error {
	if t.opt.part != 0 {
		return t.onePart(m)
	}
	if t.opt.rerun || len(m.parts) == 0 {
		return t.act(m.whole) // a press about the message as a whole
	}
	var list []happening
	for i, p := range m.parts {
		if p.r == nil {
			continue
		}
		t.follows = i+1 < len(m.parts) && m.parts[i+1].carried
		h, err := t.event(p, list, i, len(m.parts))
		if err != nil {
			return err
		}
		list = append(list, h)
	}
	t.tell(list)
	return nil
}

// onePart acts on the one event that a button is about.
func (t *talk) onePart(m many) error {
	if len(m.parts) != t.opt.parts || t.opt.part > len(m.parts) {
		t.fail("g_stale") // it is read in another way now
		return nil
	}
	r := m.parts[t.opt.part-1].r
	r.addressed = true
	if m.parts[t.opt.part-1].r.verb == doAdd {
		return t.add(r)
	}
	return t.act(r)
}

// event acts on one event so that nothing of it stays where it logged nothing.
func (t *talk) event(p part, before []happening, i, of int) (h happening, err error) {
	opt := t.opt
	t.opt.part, t.opt.parts = i+1, of
	t.lines, t.buttons, t.kind, t.silent, t.step, t.subject = nil, nil, "reply", false, "", rules.Subject{}
	n, waiting := len(t.logged), len(t.later)
	r := p.r
	h.r = r
	open := false
	for _, b := range before {
		open = open || !b.logged
	}
	if p.carried && len(before) > 0 {
		if s := before[len(before)-1].subject; s.Kind == rules.BatchKind && r.step != rules.Graft && r.batch == 0 {
			t.opt.subject = s
		}
	}
	switch {
	case open && (p.carried && r.batch == 0 || leansOn(r)):
		h.kind = "ask" // what it leans on is not in the log
	default:
		err = t.tx.Nested(func() (bool, error) {
			r.addressed = true
			if err := t.act(r); err != nil {
				return false, err
			}
			h.logged = len(t.logged) > n || t.kind == "reply" && !t.silent
			if t.amendsOwn(n) {
				h.logged, t.lines, t.buttons, t.kind = false, nil, nil, "ask"
			}
			return h.logged, nil
		})
		h.lines, h.buttons, h.kind, h.step, h.subject = t.lines, t.buttons, t.kind, t.step, t.subject
	}
	if !h.logged {
		t.logged, t.later = t.logged[:n], t.later[:waiting]
	}
	t.opt = opt
	return h, err
}

// amendsOwn reports whether what was logged from the n-th entry on corrects a line of
// the same message: one of the two was read amiss.
func (t *talk) amendsOwn(n int) bool {
	for _, e := range t.logged[n:] {
		for _, was := range t.logged[:n] {
			if e.Action == rules.Amend && e.Ref == was.ID {
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
func (t *talk) tell(list []happening) {
	t.lines, t.buttons, t.kind, t.silent, t.step, t.subject = nil, nil, "reply", false, "", rules.Subject{}
	some := false
	for _, h := range list {
		if some = some || h.logged; h.logged && t.subject.Zero() {
			t.step, t.subject = h.step, h.subject
		}
	}
	for _, asks := range []bool{false, true} {
		for _, h := range list {
			if h.logged && (h.kind == "ask") == asks {
				t.lines = append(t.lines, h.lines...)
				t.take1(h)
			}
		}
	}
	if open := t.uncounted(list); len(open) > 1 {
		// A bare number, or a button, would not say whose it is.
		t.buttons = nil
		t.say("many_which", "Example", t.v.Say("form_"+string(open[0])))
	}
	for _, h := range list {
		if h.logged {
			continue
		}
		t.kind = "ask"
		why := strings.Join(h.lines, " ")
		for _, id := range []string{"many_nothing", "many_nothing_yet"} { // said at the head already
			why = strings.ReplaceAll(why, t.v.Say(id), "")
		}
		why = strings.Join(strings.Fields(why), " ")
		again := h.lines == nil || len(h.buttons) > 0 && t.buttons != nil
		if again {
			why = strings.TrimSpace(why + " " + t.v.Say("many_again"))
		}
		t.say("many_open", "What", t.eventSummary(h.r), "Why", why)
		t.take1(h)
		if !some && t.subject.Zero() {
			t.step, t.subject = h.step, h.subject
		}
	}
}

// uncounted are the steps of this message's lines that lack their number.
func (t *talk) uncounted(list []happening) (out []rules.Step) {
	for _, h := range list {
		if h.logged && h.kind == "ask" && h.r.count == nil && !h.r.all && rules.NeedsCount[h.step] {
			out = append(out, h.step)
		}
	}
	return out
}

// eventSummary says what an event was read as, each thing where it belongs.
func (t *talk) eventSummary(r *reading) string {
	switch {
	case r.verb == doAdd:
		return t.v.Line(rules.Entry{Action: rules.Did, Step: rules.Add, Subject: r.subject()})
	case !wording.BatchSteps[r.step] || r.verb != doStep || r.batch != 0:
		return t.summary(r)
	}
	e := rules.Entry{Action: rules.Did, Step: r.step, Count: r.count, Of: r.of, From: r.breeder, Into: r.yard}
	if r.builder != "" && (builderPlaced[r.step] || r.yard == "") {
		e.Into = r.builder
	}
	return t.v.Line(e)
}

// take1 takes an event's question, unless another one has the buttons already.
func (t *talk) take1(h happening) {
	if h.kind == "ask" {
		t.kind = "ask"
	}
	if len(t.buttons) == 0 {
		t.buttons = h.buttons
	}
}

// partDo spells which of the events a button is about.
func partDo(o options) string { return fmt.Sprintf("part=%d/%d", o.part, o.parts) }
