package conversation

import (
	"slices"
	"time"

	"yardbell/bot/planning"
	"yardbell/rules"
)

// whatIf shows which windows a shift would change. Nothing is logged.
func (sc *Scene) whatIf(r *reading) (Answer, error) {
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return Answer{}, err
	}
	switch r.step {
	case rules.Ordered:
		return sc.whatIfOrder(o, r)
	case rules.Confine:
		return sc.whatIfConfine(o, r)
	}
	return sc.whatIfGraft(o, r)
}

// whatIfOrder shifts what is not begun yet of an order.
func (sc *Scene) whatIfOrder(o *planning.Outlook, r *reading) (Answer, error) {
	var ans Answer
	b, found := o.Order(r.plan.order)
	if !found {
		ans.ask(sc.Voice, "r_no_order", "Number", r.plan.order)
		return ans, nil
	}
	for _, x := range o.Rounds(b) {
		if x.Gone || len(x.Left) == 0 || len(x.Combs) > 0 || len(x.Batches) > 0 || len(x.Breeders) == 0 {
			continue
		}
		now, changed, ok := rules.WhatIf(x.RoundTimes, x.Breeders[0], b.BeesIn, rules.Confine, r.plan.shift, sc.Settings)
		if !ok {
			continue
		}
		ans.say(sc.Voice, "if_round", "Order", sc.Voice.Head(rules.OrderSubject(b.Number)), "Number", x.Number)
		ans.add(sc.changes(changed))
		if at := now.Ready(b.Unit); at.After(b.By) {
			ans.say(sc.Voice, "if_after", "At", at, "By", b.By)
		}
	}
	if len(ans.Lines) == 0 {
		ans.say(sc.Voice, "if_no_round", "Order", sc.Voice.Head(rules.OrderSubject(b.Number)))
		return ans, nil
	}
	ans.say(sc.Voice, "if_nothing")
	return ans, nil
}

// whatIfConfine compares with the breeder's next planned round, or shows the round
// where none is planned.
func (sc *Scene) whatIfConfine(o *planning.Outlook, r *reading) (Answer, error) {
	var ans Answer
	q, n, ok, err := sc.breederOf(&reading{breeder: r.breeder, step: rules.Confine}, func(rules.Breeder) bool { return false })
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	if stop, err := ans.taken(sc.unknown(&reading{breeder: n})); stop || err != nil {
		return ans, err
	}
	sc = ans.In(sc)
	var was *rules.RoundTimes
	for _, b := range o.Book {
		for _, x := range o.Rounds(b) {
			for _, m := range x.Breeders {
				if m == n && !x.Gone && len(x.Combs) == 0 && len(x.Batches) == 0 && (was == nil || x.Confined.Before(was.Confined)) {
					k := x.RoundTimes
					was = &k
				}
			}
		}
	}
	sh := r.plan.shift
	if !r.plan.shifts && !r.plan.day.hasTime {
		ans.ask(sc.Voice, "if_no_hour", "Breeder", n)
		return ans, nil
	}
	if !r.plan.shifts {
		today := rules.DateOf(sc.Look.Now, sc.Settings.Zone)
		day := today
		if r.plan.day.hasDay {
			if day, ok = r.plan.day.dayAfter(today); !ok {
				ans.Fail(sc.Voice, "r_order_no_day")
				return ans, nil
			}
		}
		at := sc.workHour(day, r.plan.day)
		if was == nil {
			k := rules.RoundFrom(at, o.Limits.BeesIn, 0, sc.Settings)
			ans.say(sc.Voice, "if_round_new", "Breeder", sc.Voice.Head(rules.BreederSubject(n)), "At", k.Confined)
			tasks := k.Tasks(n, o.Limits.BeesIn, 0, sc.Settings)
			slices.SortStableFunc(tasks, func(a, b rules.Task) int { return a.Best.Compare(b.Best) })
			for _, x := range tasks {
				if x.Weight > rules.Routine && x.Step != rules.Confine && !x.Guard {
					ans.say(sc.Voice, "if_window", "Step", x.Step, "Best", x.Best, "Close", x.Latest, "Unfit", sc.unfit(x))
				}
			}
			ans.say(sc.Voice, "if_nothing")
			return ans, nil
		}
		sh = rules.Shift{Hours: at.Sub(was.Confined)}
	}
	if was == nil {
		ans.ask(sc.Voice, "if_no_plan", "Breeder", rules.BreederSubject(n))
		return ans, nil
	}
	_, changed, _ := rules.WhatIf(*was, n, o.Limits.BeesIn, rules.Confine, sh, sc.Settings)
	return ans.then(sc.windows(n, changed))
}

// workHour settles an hour that lies ahead: "at 4" is the afternoon's where that is in
// working hours and the morning's is not.
func (sc *Scene) workHour(day rules.Date, w when) time.Time {
	if c := w.clock + 12*60; !w.half && w.clock < 12*60 && (w.clock < sc.Settings.WorkFrom || w.clock >= sc.Settings.WorkTo) && c >= sc.Settings.WorkFrom && c < sc.Settings.WorkTo {
		w.clock = c
	}
	return rules.At(day, w.clock, sc.Settings.Zone)
}

// whatIfGraft shifts the next graft: from the comb that is in, or planned.
func (sc *Scene) whatIfGraft(o *planning.Outlook, r *reading) (Answer, error) {
	var ans Answer
	open := sc.open()
	for _, k := range open {
		if k.Step != rules.Graft || r.breeder != 0 && k.Breeder != r.breeder || !sc.Look.Now.Before(k.Latest) {
			continue
		}
		bees, x := o.Limits.BeesIn, rules.RoundTimes{}
		for _, b := range o.Book {
			if n, i := rules.OrderOfTask(k); n == b.Number && i <= len(b.Rounds) {
				bees, x = b.BeesIn, b.Rounds[i-1].RoundTimes
			}
		}
		for _, c := range o.Combs[k.Breeder] {
			if rules.Occ(c.ID) == k.Occ {
				bees = c.BeesIn != nil && *c.BeesIn
				x = rules.RoundFrom(c.Confined, bees, 0, sc.Settings)
				x.Comb, x.Graft = &c, k.Best // as it came out, not as it was planned
				from, to := c.Laying()
				x.Age, _ = rules.GraftAges(from, to, x.Graft)
			}
		}
		if x.Confined.IsZero() {
			continue
		}
		shift := r.plan.shift
		if !r.plan.shifts {
			q, by, err := sc.shiftTo(x.Graft, r.plan.day)
			if ans.add(q); err != nil || by == (rules.Shift{}) {
				return ans, err
			}
			shift = by
		}
		_, changed, ok := rules.WhatIf(x, k.Breeder, bees, rules.Graft, shift, sc.Settings)
		if !ok {
			ans.ask(sc.Voice, "if_no_larvae", "Breeder", k.Subject)
			return ans, nil
		}
		return ans.then(sc.windows(k.Breeder, changed))
	}
	ans.ask(sc.Voice, "if_no_graft")
	return ans, nil
}

// shiftTo is how far a graft is from the day or the hour that was named; zero where that
// was answered already. A day alone keeps the hour.
func (sc *Scene) shiftTo(at time.Time, w when) (Answer, rules.Shift, error) {
	var ans Answer
	planned := rules.DateOf(at, sc.Settings.Zone)
	day := planned
	if w.hasDay {
		var ok bool
		if day, ok = w.dayAfter(rules.DateOf(sc.Look.Now, sc.Settings.Zone)); !ok {
			ans.Fail(sc.Voice, "r_order_no_day")
			return ans, rules.Shift{}, nil
		}
	}
	to := rules.At(day, rules.ClockOf(at, sc.Settings.Zone), sc.Settings.Zone)
	if w.hasTime {
		to = sc.workHour(day, w)
	}
	shift := rules.Shift{Hours: to.Sub(at)}
	if shift.Hours.Abs() < time.Minute {
		ans.ask(sc.Voice, "if_same", "At", at)
		return ans, rules.Shift{}, nil
	}
	return ans, shift, nil
}

func (sc *Scene) windows(breeder int, changed []rules.Change) (Answer, error) {
	var ans Answer
	ans.say(sc.Voice, "if_head", "Breeder", sc.Voice.Head(rules.BreederSubject(breeder)))
	ans.add(sc.changes(changed))
	ans.say(sc.Voice, "if_nothing")
	return ans, nil
}

// changes lists the windows that change, of the steps that are pinged.
func (sc *Scene) changes(list []rules.Change) Answer {
	var ans Answer
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b rules.Change) int { return a.Now.Best.Compare(b.Now.Best) })
	for _, c := range list {
		if c.Now.Weight == rules.Routine || c.Now.Guard || c.Was.Best.Equal(c.Now.Best) && c.Was.Latest.Equal(c.Now.Latest) {
			continue
		}
		if c.Was.Best.Sub(c.Now.Best).Abs() < time.Minute {
			ans.say(sc.Voice, "if_window", "Step", c.Step, "Best", c.Now.Best, "Close", c.Now.Latest, "Unfit", sc.unfit(c.Now))
			continue
		}
		ans.say(sc.Voice, "if_change", "Step", c.Step, "Best", c.Now.Best, "Was", c.Was.Best, "Close", c.Now.Latest, "Unfit", sc.unfit(c.Now))
	}
	return ans
}

func (sc *Scene) unfit(k rules.Task) string {
	if k.Step == rules.Graft && k.Best.After(k.Latest) {
		return sc.Voice.Say("if_over")
	}
	if k.Unfit {
		return sc.Voice.Say("if_unfit_short")
	}
	return ""
}
