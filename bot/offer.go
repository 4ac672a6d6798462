package bot

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

// What is offered to be logged is pressed by people who look at the button and not at
// the words. So an offer shows all that would be logged, and one that would leave out a
// number of the message is not made: the number is the part that cannot be guessed later.

// ahead answers somebody who says that work lies ahead, or is under way. Under its ping they
// may be on their way; what lies ahead is not offered to be logged.
func (t *talk) ahead(r *reading) bool {
	if !r.ahead && !r.going || !r.addressed || t.opt.sure || r.negated || r.question {
		return false
	}
	if k, ok := t.contextTask(); ok && t.toPing() && k.Step == r.step && k.State == rules.Open {
		t.askDone(k)
		return true
	}
	if r.ahead {
		t.fail("r_ahead", "Example", t.example(r))
	}
	return r.ahead
}

// doubt deals with messages that must not log as they stand: negations and
// questions never do, words that were not read and hedges are asked back.
func (t *talk) doubt(r *reading) bool {
	switch {
	case t.opt.sure:
		return false
	case r.negated:
		if r.addressed {
			t.fail("r_negated", "Example", t.example(r))
		} else {
			t.hush()
		}
		return true
	case r.question:
		if r.addressed {
			t.unclear = true
			t.fail("r_question", "Hint", t.v.say("hint_help"))
		} else {
			t.hush()
		}
		return true
	case r.both && len(r.rest) == 0:
		t.step = r.step
		t.ask("ask_both", "Example", t.v.say("form_finish"))
		return true
	case len(r.rest) == 0 && !r.hedged:
		return false
	}
	if !r.addressed && (!r.firm() || len(r.rest) > 8 || r.verb == doDone) {
		t.hush()
		return true
	}
	t.unclear = !r.found
	if r.found {
		t.askRogues(r)
		return true
	}
	if r.either {
		t.ask("ask_yard")
		t.yardsNamed(r)
		return true
	}
	what := t.offered(r)
	if left := r.leftOut(); len(left) > 0 {
		rest := slices.Clone(r.rest)
		for _, n := range left {
			if !has(rest, n) {
				rest = append(rest, n)
			}
		}
		t.ask("ask_left", "What", what, "Rest", strings.Join(rest, " "), "Example", t.example(r))
		t.alarmAny(r)
		return true
	}
	switch {
	case r.bare:
		t.ask("ask_bare", "What", what)
	case len(r.rest) > 0:
		t.ask("ask_sure", "What", what, "Rest", strings.Join(r.rest, " "))
	default:
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
		if ok && !strings.Contains(fold(strings.Join(parts, ", ")), fold(s)) {
			parts = append(parts, s)
		}
	}
	for _, s := range []rules.Subject{rules.BatchSubject(r.batch), rules.BreederSubject(r.breeder), rules.BuilderSubject(r.builder), rules.YardSubject(r.yard)} {
		add(s.Key != "" && s.Key != "0", t.v.subject(s))
	}
	if r.ageLo != nil && r.ageHi != nil {
		add(true, t.v.ages(rules.AgeSpan{Lo: *r.ageLo, Hi: *r.ageHi, Basis: "stated"}))
	}
	add(r.litres > 0, t.v.number(r.litres, 2)+" l")
	if r.when.set {
		at, _ := r.when.settle(t.origin.Said, t.s)
		if r.when.hasTime || r.when.isAgo {
			add(true, t.v.at(at))
		} else {
			add(true, t.v.date(rules.DateOf(at, t.s.Zone)))
		}
	}
	return strings.Join(parts, ", ")
}

// leftOut are the words with a number in them that logging the reading would leave out.
func (r *reading) leftOut() (out []string) {
	known := r.figures()
	for _, t := range tokenize(r.text) {
		switch {
		case has(r.rest, t.orig):
			if t.isNum || strings.ContainsAny(t.orig, "0123456789") || esNumber(t.text) {
				out = append(out, t.orig)
			}
		case t.isNum && isDigits(strings.TrimPrefix(t.orig, "#")) && !slices.Contains(known, t.num):
			out = append(out, t.orig)
		}
	}
	return out
}

// figures are the whole numbers that a reading keeps, as they may have been typed.
func (r *reading) figures() (out []int) {
	for _, n := range []*int{r.count, r.of, r.old} {
		if n != nil {
			out = append(out, *n)
		}
	}
	out = append(out, r.breeder, r.batch)
	for _, name := range []string{r.builder, r.yard, r.mark} {
		for _, f := range strings.FieldsFunc(name, func(c rune) bool { return c < '0' || c > '9' }) {
			n, _ := strconv.Atoi(f)
			out = append(out, n)
		}
	}
	for _, x := range []*float64{r.ageLo, r.ageHi} {
		if x != nil {
			out = append(out, int(*x), int(*x/24))
		}
	}
	for _, x := range []float64{r.litres, r.litres * 1000, r.litres / litresIn["gal"], r.litres / litresIn["quart"], r.litres / litresIn["pint"]} {
		out = append(out, int(x+0.001))
	}
	if w := r.when; w.set {
		hour, minute := int(w.clock)/60, int(w.clock)%60
		out = append(out, hour, (hour+11)%12+1, minute, 60-minute, w.day, w.month, w.year, w.year%100, w.back,
			int(w.ago/time.Hour), int(w.ago/time.Minute), int(w.ago/(24*time.Hour)))
	}
	return out
}
