package conversation

import (
	"slices"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// This file does what a crew says of its people and its days: a task is given to somebody,
// somebody is off, the crew wants to be told of something. Of a person the log keeps the
// number alone, so that the name goes with whoever is forgotten.

// member is the one of the crew who goes by a name; it asks where two do, and says who is
// known where nobody does.
func (sc *Scene) member(name string) (m store.Member, ans Answer, ok bool, err error) {
	list, err := sc.Look.Members(sc.Crew.ID)
	if err != nil {
		return m, ans, false, err
	}
	who := Called(list, name)
	switch len(who) {
	case 0:
		var names []string
		for _, k := range list {
			names = append(names, k.Name)
		}
		ans.ask(sc.Voice, "r_nobody", "Name", name, "List", wording.JoinList(names))
	case 1:
		return who[0], ans, true, nil
	default:
		ans.ask(sc.Voice, "g_two_names", "Name", name)
	}
	return m, ans, false, nil
}

// awayThen asks whether somebody is given a task of a day on which he is off.
func (sc *Scene) awayThen(name string, k rules.Task) (ans Answer, stop bool) {
	day := rules.DateOf(k.Best, sc.Settings.Zone)
	if sc.opt.anyway["away"] || !sc.model.Settings().AwayOn(name, 0, day) {
		return ans, false
	}
	ans.ask(sc.Voice, "ask_away", "Name", name, "Task", sc.Voice.Task(k), "Best", k.Best)
	ans.offer(sc.Voice, "b_give", sc.rerun("anyway=away"))
	ans.offer(sc.Voice, "b_no", "no")
	return ans, true
}

// away logs days off, and asks who takes what was to be done on them by whoever is off.
func (sc *Scene) away(r *reading) (Answer, error) {
	var ans Answer
	who := sc.By
	if r.whose != "" {
		m, q, ok, err := sc.member(r.whose)
		if err != nil || !ok {
			return q, err
		}
		who = m
	}
	days, bad := sc.daysOff(r)
	if bad {
		ans.ask(sc.Voice, "r_days_off", "Most", rules.MostDaysOff)
		return ans, nil
	}
	e := rules.Entry{Action: rules.Did, Step: rules.Away, Subject: rules.MemberSubject(who.ID), Whom: who.Name, Detail: rules.Detail{Days: rules.DaysText(days)}}
	ans.Step, ans.Subject = e.Step, e.Subject
	for _, l := range sc.model.Settings().Leaves {
		if l.Name == who.Name && !slices.ContainsFunc(days, func(d rules.Date) bool { return !slices.Contains(l.Days, d) }) {
			ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
			return ans, nil
		}
	}
	before := sc
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.Voice, "e_away", "Name", who.Name, "List", sc.Voice.Days(days))
	for _, k := range before.open() {
		if now, found := sc.model.Task(k.Key); k.ClaimedBy == who.Name && found && now.ClaimedBy == "" {
			ans.say(sc.Voice, "e_away_task", "Name", who.Name, "Task", wording.Upper(sc.Voice.Task(k)), "Best", k.Best, "Close", k.Latest)
			ans.offer(sc.Voice, "b_take", "task|"+string(doMine)+"|"+k.Key)
		}
	}
	return ans, nil
}

// daysOff are the days that were said, from today on. bad is true where there are none, or
// more than one line may take.
func (sc *Scene) daysOff(r *reading) (days []rules.Date, bad bool) {
	today := rules.DateOf(sc.Origin.Said, sc.Settings.Zone)
	next := func(weekday int, from rules.Date) rules.Date {
		return from.Add((weekday%7 - int(from.Weekday()) + 7) % 7)
	}
	span := func(from, to rules.Date) {
		for d := from; !to.Before(d) && len(days) <= rules.MostDaysOff; d = d.Add(1) {
			days = append(days, d)
		}
	}
	switch {
	case len(r.weekdays) == 2 && r.through:
		from := next(r.weekdays[0], today)
		span(from, next(r.weekdays[1], from))
	case len(r.weekdays) > 0:
		from := today
		for _, w := range r.weekdays {
			from = next(w, from)
			days = append(days, from)
		}
	default:
		day, ok := r.plan.day.dayAfter(today)
		if !ok || day.Before(today) {
			return nil, true
		}
		if r.through { // back on that day
			span(today, day.Add(-1))
		} else {
			days = []rules.Date{day}
		}
	}
	return days, len(days) == 0 || len(days) > rules.MostDaysOff
}

// remind logs a reminder of the crew's own.
func (sc *Scene) remind(r *reading) (Answer, error) {
	var ans Answer
	at := sc.againAt(r, rules.Task{})
	if !at.After(sc.Origin.Said) {
		ans.ask(sc.Voice, "r_later_past", "Until", at)
		return ans, nil
	}
	e := rules.Entry{Action: rules.Did, Step: rules.Remind, Subject: rules.ReminderSubject(sc.model.Highest(rules.ReminderKind) + 1),
		Detail: rules.Detail{Until: at.UnixMilli(), Reason: r.typed}}
	ans.Step, ans.Subject = e.Step, e.Subject
	for _, k := range sc.model.Open() {
		if k.Step == rules.Remind && k.Best.Equal(time.UnixMilli(e.Detail.Until)) && wording.Fold(k.Mark) == wording.Fold(e.Detail.Reason) {
			ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
			return ans, nil
		}
	}
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.Voice, "e_remind", "When", at, "Words", r.typed)
	return ans, nil
}

// peopleOf turns an act about people into what its handler takes.
func (sc *Scene) peopleOf(r *reading, a rdg.Act) {
	r.whose, r.weekdays, r.through = a.Person, a.Weekdays, a.Through
	switch {
	case a.When == nil:
	case a.Kind == rdg.Remind:
		r.when = sc.whenAgain(*a.When)
	default:
		r.plan.day = aheadOf(*a.When)
	}
	if a.Kind == rdg.Remind {
		r.step, r.typed = "", a.Value
	}
}
