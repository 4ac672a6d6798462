package bot

import (
	"strings"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// What is offered to be logged is pressed by people who look at the button and not at
// the words. So an offer shows all that would be logged, and one that would leave out a
// number of the message is not made: the number is the part that cannot be guessed later.

// doubt asks back what was read with something left over, or said with a doubt.
func (t *talk) doubt(r *reading) bool {
	if t.opt.sure || len(r.rest) == 0 && !r.hedged {
		return false
	}
	what := t.offered(r)
	if len(r.rest) > 0 {
		t.ask("ask_sure", "What", what, "Rest", strings.Join(r.rest, " "))
	} else {
		t.ask("ask_hedge", "What", what)
	}
	t.alarmAny(r)
	t.offer("b_log", t.rerun("sure=1"))
	t.offer("b_no", "no")
	return true
}

// alarmAny says what a virgin among the cells asks for, sure or not.
func (t *talk) alarmAny(r *reading) {
	if r.step == rules.Virgin || r.among {
		t.say("alarm_any")
	}
}

// offered is what an offer shows: the line, and what of the message does not stand in it.
func (t *talk) offered(r *reading) string {
	parts := []string{t.summary(r)}
	add := func(ok bool, s string) {
		if ok && !strings.Contains(wording.Fold(strings.Join(parts, ", ")), wording.Fold(s)) {
			parts = append(parts, s)
		}
	}
	for _, s := range []rules.Subject{rules.BatchSubject(r.batch), rules.BreederSubject(r.breeder), rules.BuilderSubject(r.builder), rules.YardSubject(r.yard)} {
		add(s.Key != "" && s.Key != "0", t.v.Subject(s))
	}
	if r.ageLo != nil && r.ageHi != nil {
		add(true, t.v.Ages(rules.AgeSpan{Lo: *r.ageLo, Hi: *r.ageHi, Basis: "stated"}))
	}
	add(r.litres > 0, t.v.Number(r.litres, 2)+" l")
	if r.when.set {
		at, _ := r.when.settle(t.origin.Said, t.s)
		if r.when.hasTime || r.when.isAgo {
			add(true, t.v.At(at))
		} else {
			add(true, t.v.Date(rules.DateOf(at, t.s.Zone)))
		}
	}
	return strings.Join(parts, ", ")
}
