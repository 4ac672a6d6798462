package conversation

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
func (sc *Scene) yields(r *reading) (Answer, error) {
	var ans Answer
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return ans, err
	}
	if r.plan.by != "" {
		ans.add(sc.yieldsBy(o, r.plan.by))
		return ans, nil
	}
	y, whose := o.Season, sc.Voice.Say("yield_crew")
	dim, key := rules.Dim(""), ""
	switch {
	case r.breeder != 0:
		dim, key, whose = rules.ByBreeder, fmt.Sprint(r.breeder), sc.Voice.Subject(rules.BreederSubject(r.breeder))
	case r.builder != "":
		dim, key, whose = rules.ByBuilder, r.builder, r.builder
	case r.plan.person != "":
		list, err := sc.Look.Members(sc.Crew.ID)
		if err != nil {
			return ans, err
		}
		for _, m := range list {
			if wording.Fold(m.Name) == wording.Fold(r.plan.person) {
				dim, key, whose = rules.ByGrafter, m.Name, m.Name
			}
		}
		if key == "" {
			if !r.addressed {
				ans.Ignore() // "yields Monday": none of the crew
				return ans, nil
			}
			ans.ask(sc.Voice, "yield_nobody", "Who", r.plan.person)
			return ans, nil
		}
	}
	if dim != "" {
		known := false
		for _, tr := range o.Trials {
			known = known || dim.Key(tr) == key
		}
		if !known {
			ans.ask(sc.Voice, "yield_none", "Whose", whose)
			return ans, nil
		}
		y = rules.FitYields(o.Trials, sc.Settings.Said).For(dim, key)
	}
	ans.say(sc.Voice, "yield_head", "Whose", whose)
	few := false
	for g, st := range y.Stage {
		lo, hi := st.Interval(0.9)
		id := "yield_line"
		if st.Batches == 0 {
			id = "yield_line_none"
		}
		few = few || st.Batches < 10
		ans.say(sc.Voice, id, "Stage", sc.Voice.Say("yield_stage_"+string(rules.Stage(g).Step())), "Percent", sc.Voice.Number(st.Mean*100, 0), "Lo", sc.Voice.Number(lo*100, 0), "Hi", sc.Voice.Number(hi*100, 0),
			"Count", st.Batches, "Got", st.Got, "Of", st.Of)
	}
	ans.say(sc.Voice, "yield_total", "Cells", int(100*y.Over(rules.StageAccepted, rules.StageCapped)+0.5), "Queens", int(100*y.Over(rules.StageAccepted, rules.StageLaying)+0.5))
	switch {
	case dim != "":
		ans.say(sc.Voice, "yield_drawn_season")
	case few:
		ans.say(sc.Voice, "yield_drawn")
	}
	if dim == "" {
		ans.add(sc.shift(sc.model.Learnt()))
	}
	return ans, nil
}

// capacityDays is how far the answer about builders and nucs looks.
const capacityDays = 60

// capacity tells which builders and how many nucs are free, now and on the tightest
// day to come.
func (sc *Scene) capacity() (Answer, error) {
	var ans Answer
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return ans, err
	}
	if len(o.Planned.Places) == 0 {
		ans.ask(sc.Voice, "cap_none")
		return ans, nil
	}
	now := sc.Look.Now
	end := now.Add(capacityDays * 24 * time.Hour)
	ans.say(sc.Voice, "cap_head", "Days", capacityDays)
	for _, p := range o.Planned.Places {
		if p.Subject.Kind == rules.BuilderKind {
			ans.add(sc.builderFree(o, p.Subject, end))
			continue
		}
		free, _ := o.Planned.Free(p.Subject, now, now.Add(time.Minute))
		fewest, at := o.Planned.Free(p.Subject, now, end)
		if fewest == free {
			ans.say(sc.Voice, "cap_yard_free", "Yard", p.Subject.Key, "Count", free, "Size", p.Size)
		} else {
			ans.say(sc.Voice, "cap_yard", "Yard", p.Subject.Key, "Count", free, "Size", p.Size, "Fewest", fewest, "Day", sc.day(at))
		}
	}
	return ans, nil
}

// builderFree says when a builder is taken, now or next, and by what.
func (sc *Scene) builderFree(o *planning.Outlook, s rules.Subject, end time.Time) Answer {
	var ans Answer
	var next *rules.Use
	for i, u := range o.Planned.Uses {
		if u.Place == s && u.To.After(sc.Look.Now) && u.From.Before(end) && (next == nil || u.From.Before(next.From)) {
			next = &o.Planned.Uses[i]
		}
	}
	switch {
	case next == nil:
		ans.say(sc.Voice, "cap_builder_free", "Builder", s.Key)
	case next.From.After(sc.Look.Now):
		ans.say(sc.Voice, "cap_builder_next", "Builder", s.Key, "From", sc.day(next.From), "Until", sc.day(next.To), "For", next.For)
	default:
		ans.say(sc.Voice, "cap_builder_taken", "Builder", s.Key, "Until", sc.day(next.To), "For", next.For)
	}
	return ans
}

// mostFits is how many hours a question for one is answered with.
const mostFits = 3

// fit gives hours to confine at from which graft and move fall into working hours: the
// next ones, or those from which a step falls on the day asked for.
func (sc *Scene) fit(r *reading) (Answer, error) {
	var ans Answer
	today := rules.DateOf(sc.Look.Now, sc.Settings.Zone)
	from, days, want := today, 21, rules.Date{}
	if r.step != "" {
		day, ok := r.plan.day.dayAfter(today)
		if !ok || day.Before(today) {
			ans.Fail(sc.Voice, "r_order_no_day")
			return ans, nil
		}
		want = day
		if r.plan.day.weekday > 0 {
			days += 21 // the first such day that will do
		} else if from = day.Add(-20); from.Before(today) {
			from = today
		}
	}
	if r.breeder != 0 {
		if stop, err := ans.taken(sc.unknown(&reading{breeder: r.breeder})); stop || err != nil {
			return ans, err
		}
		sc = ans.In(sc)
	}
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return ans, err
	}
	var lines []string
	for d := range days {
		k, ok := rules.FitConfine(from.Add(d), o.Limits.BeesIn, 0, sc.Settings)
		step := k.Graft
		if r.step == rules.Move {
			step = k.Move.Best
		}
		if !ok || k.Confined.Before(sc.Look.Now) || want != (rules.Date{}) && !sameDay(r.plan.day, rules.DateOf(step, sc.Settings.Zone), want) {
			continue
		}
		if r.breeder != 0 {
			if against, _ := o.Limits.Rotation.Check(o.Limits.Stays, r.breeder, k.Confined, k.Out); against != "" {
				continue
			}
		}
		lines = append(lines, sc.Voice.Say("fit_line", "Confine", k.Confined, "Graft", k.Graft, "Move", k.Move.Best, "Close", k.Move.Latest))
		if len(lines) == mostFits {
			break
		}
	}
	who := sc.Voice.Say("fit_any")
	if r.breeder != 0 {
		who = sc.Voice.Subject(rules.BreederSubject(r.breeder))
	}
	if len(lines) == 0 {
		ans.ask(sc.Voice, "fit_none", "Who", who)
		return ans, nil
	}
	ans.say(sc.Voice, "fit_head", "Who", who)
	ans.Lines = append(ans.Lines, lines...)
	return ans, nil
}

// sameDay reports whether a day is the one asked for, any of its name where only a
// weekday was said.
func sameDay(w when, day, want rules.Date) bool {
	return day == want || w.weekday > 0 && day.Weekday() == want.Weekday()
}

func joinLines(lines []string) string { return strings.Join(lines, "\n") }
