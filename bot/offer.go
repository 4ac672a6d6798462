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
