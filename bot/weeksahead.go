package bot

import (
	"fmt"
	"strings"
	"time"

	"yardbell/bot/planning"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// yields tells what the crew's counts say, of the season or of one breeder, builder or
// grafter.
func (t *talk) yields(r *reading) error {
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	if r.plan.by != "" {
		t.yieldsBy(o, r.plan.by)
		return nil
	}
	y, whose := o.Season, t.v.Say("yield_crew")
	dim, key := rules.Dim(""), ""
	switch {
	case r.breeder != 0:
		dim, key, whose = rules.ByBreeder, fmt.Sprint(r.breeder), t.v.Subject(rules.BreederSubject(r.breeder))
	case r.builder != "":
		dim, key, whose = rules.ByBuilder, r.builder, r.builder
	case r.plan.person != "":
		list, err := t.tx.Members(t.crew.ID)
		if err != nil {
			return err
		}
		for _, m := range list {
			if wording.Fold(m.Name) == wording.Fold(r.plan.person) {
				dim, key, whose = rules.ByGrafter, m.Name, m.Name
			}
		}
		if key == "" {
			if !r.addressed {
				t.hush() // "yields Monday": none of the crew
				return nil
			}
			t.ask("yield_nobody", "Who", r.plan.person)
			return nil
		}
	}
	if dim != "" {
		known := false
		for _, tr := range o.Trials {
			known = known || dim.Key(tr) == key
		}
		if !known {
			t.ask("yield_none", "Whose", whose)
			return nil
		}
		y = rules.FitYields(o.Trials).For(dim, key)
	}
	t.say("yield_head", "Whose", whose)
	few := false
	for g, st := range y.Stage {
		lo, hi := st.Interval(0.9)
		id := "yield_line"
		if st.Batches == 0 {
			id = "yield_line_none"
		}
		few = few || st.Batches < 10
		t.say(id, "Stage", t.v.Say("yield_stage_"+string(rules.Stage(g).Step())), "Percent", t.v.Number(st.Mean*100, 0), "Lo", t.v.Number(lo*100, 0), "Hi", t.v.Number(hi*100, 0),
			"Count", st.Batches, "Got", st.Got, "Of", st.Of)
	}
	t.say("yield_total", "Cells", int(100*y.Over(rules.StageAccepted, rules.StageCapped)+0.5), "Queens", int(100*y.Over(rules.StageAccepted, rules.StageLaying)+0.5))
	switch {
	case dim != "":
		t.say("yield_drawn_season")
	case few:
		t.say("yield_drawn")
	}
	return nil
}

// capacityDays is how far the answer about builders and nucs looks.
const capacityDays = 60

// capacity tells which builders and how many nucs are free, now and on the tightest
// day to come.
func (t *talk) capacity() error {
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	if len(o.Planned.Places) == 0 {
		t.ask("cap_none")
		return nil
	}
	now := t.tx.Now
	end := now.Add(capacityDays * 24 * time.Hour)
	t.say("cap_head", "Days", capacityDays)
	for _, p := range o.Planned.Places {
		if p.Subject.Kind == rules.BuilderKind {
			t.builderFree(o, p.Subject, end)
			continue
		}
		free, _ := o.Planned.Free(p.Subject, now, now.Add(time.Minute))
		fewest, at := o.Planned.Free(p.Subject, now, end)
		if fewest == free {
			t.say("cap_yard_free", "Yard", p.Subject.Key, "Count", free, "Size", p.Size)
		} else {
			t.say("cap_yard", "Yard", p.Subject.Key, "Count", free, "Size", p.Size, "Fewest", fewest, "Day", t.day(at))
		}
	}
	return nil
}

// builderFree says when a builder is taken, now or next, and by what.
func (t *talk) builderFree(o *planning.Outlook, s rules.Subject, end time.Time) {
	var next *rules.Use
	for i, u := range o.Planned.Uses {
		if u.Place == s && u.To.After(t.tx.Now) && u.From.Before(end) && (next == nil || u.From.Before(next.From)) {
			next = &o.Planned.Uses[i]
		}
	}
	switch {
	case next == nil:
		t.say("cap_builder_free", "Builder", s.Key)
	case next.From.After(t.tx.Now):
		t.say("cap_builder_next", "Builder", s.Key, "From", t.day(next.From), "Until", t.day(next.To), "For", next.For)
	default:
		t.say("cap_builder_taken", "Builder", s.Key, "Until", t.day(next.To), "For", next.For)
	}
}

// mostFits is how many hours a question for one is answered with.
const mostFits = 3

// fit gives hours to confine at from which graft and move fall into working hours: the
// next ones, or those from which a step falls on the day asked for.
func (t *talk) fit(r *reading) error {
	today := rules.DateOf(t.tx.Now, t.s.Zone)
	from, days, want := today, 21, rules.Date{}
	if r.step != "" {
		day, ok := r.plan.day.dayAfter(today)
		if !ok || day.Before(today) {
			t.fail("r_order_no_day")
			return nil
		}
		want = day
		if r.plan.day.weekday > 0 {
			days += 21 // the first such day that will do
		} else if from = day.Add(-20); from.Before(today) {
			from = today
		}
	}
	if r.breeder != 0 {
		if stop, err := t.unknown(&reading{breeder: r.breeder}); stop || err != nil {
			return err
		}
	}
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	var lines []string
	for d := range days {
		k, ok := rules.FitConfine(from.Add(d), o.Limits.BeesIn, 0, t.s)
		step := k.Graft
		if r.step == rules.Move {
			step = k.Move.Best
		}
		if !ok || k.Confined.Before(t.tx.Now) || want != (rules.Date{}) && !sameDay(r.plan.day, rules.DateOf(step, t.s.Zone), want) {
			continue
		}
		if r.breeder != 0 {
			if against, _ := o.Limits.Rotation.Check(o.Limits.Stays, r.breeder, k.Confined, k.Out); against != "" {
				continue
			}
		}
		lines = append(lines, t.v.Say("fit_line", "Confine", k.Confined, "Graft", k.Graft, "Move", k.Move.Best, "Close", k.Move.Latest))
		if len(lines) == mostFits {
			break
		}
	}
	who := t.v.Say("fit_any")
	if r.breeder != 0 {
		who = t.v.Subject(rules.BreederSubject(r.breeder))
	}
	if len(lines) == 0 {
		t.ask("fit_none", "Who", who)
		return nil
	}
	t.say("fit_head", "Who", who)
	t.lines = append(t.lines, lines...)
	return nil
}

// sameDay reports whether a day is the one asked for, any of its name where only a
// weekday was said.
func sameDay(w when, day, want rules.Date) bool {
	return day == want || w.weekday > 0 && day.Weekday() == want.Weekday()
}

func joinLines(lines []string) string { return strings.Join(lines, "\n") }
