package bot

import (
	"slices"
	"time"

	"yardbell/bot/planning"
	"yardbell/rules"
)

// whatIf shows which windows a shift would change. Nothing is logged.
func (t *talk) whatIf(r *reading) error {
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	switch r.step {
	case rules.Ordered:
		return t.whatIfOrder(o, r)
	case rules.Confine:
		return t.whatIfConfine(o, r)
	}
	return t.whatIfGraft(o, r)
}

// whatIfOrder shifts what is not begun yet of an order.
func (t *talk) whatIfOrder(o *planning.Outlook, r *reading) error {
	b, found := o.Order(r.plan.order)
	if !found {
		t.ask("r_no_order", "Number", r.plan.order)
		return nil
	}
	for _, x := range o.Rounds(b) {
		if x.Gone || len(x.Left) == 0 || len(x.Combs) > 0 || len(x.Batches) > 0 || len(x.Breeders) == 0 {
			continue
		}
		now, changed, ok := rules.WhatIf(x.RoundTimes, x.Breeders[0], b.BeesIn, rules.Confine, r.plan.shift, t.s)
		if !ok {
			continue
		}
		t.say("if_round", "Order", t.v.Head(rules.OrderSubject(b.Number)), "Number", x.Number)
		t.changes(changed)
		if at := now.Ready(b.Unit); at.After(b.By) {
			t.say("if_after", "At", at, "By", b.By)
		}
	}
	if len(t.lines) == 0 {
		t.say("if_no_round", "Order", t.v.Head(rules.OrderSubject(b.Number)))
		return nil
	}
	t.say("if_nothing")
	return nil
}

// whatIfConfine compares with the breeder's next planned round, or shows the round
// where none is planned.
func (t *talk) whatIfConfine(o *planning.Outlook, r *reading) error {
	n, ok, err := t.breederOf(&reading{breeder: r.breeder, step: rules.Confine}, func(rules.Breeder) bool { return false })
	if err != nil || !ok {
		return err
	}
	if stop, err := t.unknown(&reading{breeder: n}); stop || err != nil {
		return err
	}
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
		t.ask("if_no_hour", "Breeder", n)
		return nil
	}
	if !r.plan.shifts {
		today := rules.DateOf(t.tx.Now, t.s.Zone)
		day := today
		if r.plan.day.hasDay {
			if day, ok = r.plan.day.dayAfter(today); !ok {
				t.fail("r_order_no_day")
				return nil
			}
		}
		at := t.workHour(day, r.plan.day)
		if was == nil {
			k := rules.RoundFrom(at, o.Limits.BeesIn, 0, t.s)
			t.say("if_round_new", "Breeder", t.v.Head(rules.BreederSubject(n)), "At", k.Confined)
			tasks := k.Tasks(n, o.Limits.BeesIn, 0, t.s)
			slices.SortStableFunc(tasks, func(a, b rules.Task) int { return a.Best.Compare(b.Best) })
			for _, x := range tasks {
				if x.Weight > rules.Routine && x.Step != rules.Confine && !x.Guard {
					t.say("if_window", "Step", x.Step, "Best", x.Best, "Close", x.Latest, "Unfit", t.unfit(x))
				}
			}
			t.say("if_nothing")
			return nil
		}
		sh = rules.Shift{Hours: at.Sub(was.Confined)}
	}
	if was == nil {
		t.ask("if_no_plan", "Breeder", rules.BreederSubject(n))
		return nil
	}
	_, changed, _ := rules.WhatIf(*was, n, o.Limits.BeesIn, rules.Confine, sh, t.s)
	return t.windows(n, changed)
}

// workHour settles an hour that lies ahead: "at 4" is the afternoon's where that is in
// working hours and the morning's is not.
func (t *talk) workHour(day rules.Date, w when) time.Time {
	if c := w.clock + 12*60; !w.half && w.clock < 12*60 && (w.clock < t.s.WorkFrom || w.clock >= t.s.WorkTo) && c >= t.s.WorkFrom && c < t.s.WorkTo {
		w.clock = c
	}
	return rules.At(day, w.clock, t.s.Zone)
}

// whatIfGraft shifts the next graft: from the comb that is in, or planned.
func (t *talk) whatIfGraft(o *planning.Outlook, r *reading) error {
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	for _, k := range open {
		if k.Step != rules.Graft || r.breeder != 0 && k.Breeder != r.breeder || !t.tx.Now.Before(k.Latest) {
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
				x = rules.RoundFrom(c.Confined, bees, 0, t.s)
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
			if shift, err = t.shiftTo(x.Graft, r.plan.day); err != nil || shift == (rules.Shift{}) {
				return err
			}
		}
		_, changed, ok := rules.WhatIf(x, k.Breeder, bees, rules.Graft, shift, t.s)
		if !ok {
			t.ask("if_no_larvae", "Breeder", k.Subject)
			return nil
		}
		return t.windows(k.Breeder, changed)
	}
	t.ask("if_no_graft")
	return nil
}

// shiftTo is how far a graft is from the day or the hour that was named; zero where that
// was answered already. A day alone keeps the hour.
func (t *talk) shiftTo(at time.Time, w when) (rules.Shift, error) {
	planned := rules.DateOf(at, t.s.Zone)
	day := planned
	if w.hasDay {
		var ok bool
		if day, ok = w.dayAfter(rules.DateOf(t.tx.Now, t.s.Zone)); !ok {
			t.fail("r_order_no_day")
			return rules.Shift{}, nil
		}
	}
	to := rules.At(day, rules.ClockOf(at, t.s.Zone), t.s.Zone)
	if w.hasTime {
		to = t.workHour(day, w)
	}
	shift := rules.Shift{Hours: to.Sub(at)}
	if shift.Hours.Abs() < time.Minute {
		t.ask("if_same", "At", at)
		return rules.Shift{}, nil
	}
	return shift, nil
}

func (t *talk) windows(breeder int, changed []rules.Change) error {
	t.say("if_head", "Breeder", t.v.Head(rules.BreederSubject(breeder)))
	t.changes(changed)
	t.say("if_nothing")
	return nil
}

// changes lists the windows that change, of the steps that are pinged.
func (t *talk) changes(list []rules.Change) {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b rules.Change) int { return a.Now.Best.Compare(b.Now.Best) })
	for _, c := range list {
		if c.Now.Weight == rules.Routine || c.Now.Guard || c.Was.Best.Equal(c.Now.Best) && c.Was.Latest.Equal(c.Now.Latest) {
			continue
		}
		if c.Was.Best.Sub(c.Now.Best).Abs() < time.Minute {
			t.say("if_window", "Step", c.Step, "Best", c.Now.Best, "Close", c.Now.Latest, "Unfit", t.unfit(c.Now))
			continue
		}
		t.say("if_change", "Step", c.Step, "Best", c.Now.Best, "Was", c.Was.Best, "Close", c.Now.Latest, "Unfit", t.unfit(c.Now))
	}
}

func (t *talk) unfit(k rules.Task) string {
	if k.Step == rules.Graft && k.Best.After(k.Latest) {
		return t.v.Say("if_over")
	}
	if k.Unfit {
		return t.v.Say("if_unfit_short")
	}
	return ""
}
