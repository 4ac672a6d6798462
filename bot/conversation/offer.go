package conversation

import (
	"strings"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// What is offered to be logged is pressed by people who look at the button and not at
// the words. So an offer shows all that would be logged, and one that would leave out a
// number of the message is not made: the number is the part that cannot be guessed later.

// doubt asks back what was read with something left over, or said with a doubt.
func (sc *Scene) doubt(r *reading) (Answer, bool) {
	var ans Answer
	if sc.opt.sure || len(r.rest) == 0 && !r.hedged {
		return ans, false
	}
	what := sc.offered(r)
	if len(r.rest) > 0 {
		ans.ask(sc.Voice, "ask_sure", "What", what, "Rest", strings.Join(r.rest, " "))
	} else {
		ans.ask(sc.Voice, "ask_hedge", "What", what)
	}
	ans.add(sc.alarmAny(r))
	ans.offer(sc.Voice, "b_log", sc.rerun("sure=1"))
	ans.offer(sc.Voice, "b_no", "no")
	return ans, true
}

// alarmAny says what a virgin among the cells asks for, sure or not.
func (sc *Scene) alarmAny(r *reading) Answer {
	var ans Answer
	if r.step == rules.Virgin {
		ans.say(sc.Voice, "alarm_any")
	}
	return ans
}

// offered is what an offer shows: the line, and what of the message does not stand in it.
func (sc *Scene) offered(r *reading) string {
	parts := []string{sc.summary(r)}
	add := func(ok bool, s string) {
		if ok && !strings.Contains(wording.Fold(strings.Join(parts, ", ")), wording.Fold(s)) {
			parts = append(parts, s)
		}
	}
	for _, s := range []rules.Subject{rules.BatchSubject(r.batch), rules.BreederSubject(r.breeder), rules.BuilderSubject(r.builder), rules.YardSubject(r.yard)} {
		add(s.Key != "" && s.Key != "0", sc.Voice.Subject(s))
	}
	if r.ageLo != nil && r.ageHi != nil {
		add(true, sc.Voice.Ages(rules.AgeSpan{Lo: *r.ageLo, Hi: *r.ageHi, Basis: "stated"}))
	}
	add(r.litres > 0, sc.Voice.Number(r.litres, 2)+" l")
	if r.when.set {
		at, _ := r.when.settle(sc.Origin.Said, sc.Settings)
		if r.when.hasTime || r.when.isAgo {
			add(true, sc.Voice.At(at))
		} else {
			add(true, sc.Voice.Date(rules.DateOf(at, sc.Settings.Zone)))
		}
	}
	return strings.Join(parts, ", ")
}
