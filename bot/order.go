package bot

import (
	"encoding/json"
	"time"

	"yardbell/bot/planning"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// mostOrdered bounds an order: more queens than any crew rears in a season.
const mostOrdered = 2000

// order answers an order or a plan with a proposal. Nothing is logged.
func (t *talk) order(r *reading) error {
	t.step = rules.Ordered
	today := rules.DateOf(t.origin.Said, t.s.Zone)
	if !r.plan.day.set {
		t.ask("ask_order_day", "Example", wording.Clean(t.origin.Text)+" "+t.v.Say("form_order_day"))
		return nil
	}
	day, ok := r.plan.day.dayAfter(today)
	switch {
	case !ok:
		t.fail("r_order_no_day")
		return nil
	case day.Before(today) || rules.DayStart(day, t.s.Zone).Sub(t.origin.Said) > 400*24*time.Hour:
		t.fail("r_order_day", "Day", t.v.Date(day))
		return nil
	case *r.count < 1 || *r.count > mostOrdered:
		t.fail("r_order_count", "Count", *r.count, "Most", mostOrdered)
		return nil
	}
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	if t.placesMissing(o, r.plan.unit) {
		return nil
	}
	return t.propose(o, rules.Order{Want: *r.count, Unit: r.plan.unit, By: rules.OrderBy(day, t.s)}, r.verb == doOrder)
}

// placesMissing says what has to be on the list before anything can be planned.
func (t *talk) placesMissing(o *planning.Outlook, u rules.Unit) bool {
	have := map[rules.Kind]bool{rules.BreederKind: len(o.Limits.Breeders) > 0}
	for _, p := range o.Planned.Places {
		have[p.Subject.Kind] = true
	}
	for _, k := range []rules.Kind{rules.BreederKind, rules.BuilderKind, rules.YardKind} {
		if !have[k] && (k != rules.YardKind || u == rules.Queens) {
			t.ask("r_order_no_" + string(k))
			return true
		}
	}
	return false
}

// propose shows a plan, and offers it where it is to be kept.
func (t *talk) propose(o *planning.Outlook, order rules.Order, keep bool) error {
	p := o.Planner().Plan(order, planning.PlanConfidence, t.tx.Now)
	t.lines = append(t.lines, planning.OrderHead(t.v, p, o.Counted))
	if len(p.Needs) > 0 && p.Needs[0].OK {
		t.lines = append(t.lines, planning.Needs(t.v, p))
	}
	if !p.OK {
		t.lines = append(t.lines, planning.Nofit(t.v, p)...)
		t.kind = "ask"
		return nil
	}
	t.lines = append(t.lines, planning.Rounds(t.v, p)...)
	if !keep {
		t.say("o_plan_end")
		return nil
	}
	t.ask("o_accept")
	t.buttons = append(t.buttons, wording.Button(t.v.Say("b_accept"), planning.Offered{Want: order.Want, Plan: p.Book(o.Limits)}.Do()))
	t.offer("b_no", "no")
	return nil
}

// accept logs a plan that was offered, if it still fits what else was planned since.
func (t *talk) accept(do string) error {
	var a planning.Offered
	if err := json.Unmarshal([]byte(do), &a); err != nil || len(a.Plan.Rounds) == 0 {
		return err
	}
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	order := rules.Order{Want: a.Want, Unit: a.Plan.Unit, By: time.UnixMilli(a.Plan.By).UTC()}
	n, id := a.Order, "e_order_more"
	if n == 0 {
		last, err := t.tx.LastOrderNumber(t.crew.ID)
		if err != nil {
			return err
		}
		n, id = last+1, "e_order"
	} else if b, found := o.Order(n); !found || b.Cancelled {
		t.ask("r_no_order", "Number", n)
		return nil
	}
	first := time.UnixMilli(a.Plan.Rounds[0].Confine)
	for _, r := range a.Plan.Rounds {
		if at := time.UnixMilli(r.Confine); at.Before(first) {
			first = at
		}
	}
	was, now := o.Planned.FirstBreak(t.s.Zone), o.Planned.Add(a.Plan.Uses(n, t.s)...).FirstBreak(t.s.Zone)
	if first.Before(t.tx.Now) || now != nil && (was == nil || *was != *now) {
		if a.Order != 0 {
			t.ask("o_stale")
			return nil
		}
		t.say("o_stale")
		return t.propose(o, order, true)
	}
	if a.Order == 0 && o.OpenOrders() >= mostOpenOrders {
		t.fail("list_full", "Count", o.OpenOrders(), "Most", mostOpenOrders)
		return nil
	}
	e := rules.Entry{Action: rules.Did, Step: rules.Ordered, Subject: rules.OrderSubject(n), Count: &a.Want, Detail: rules.Detail{Plan: &a.Plan}}
	if _, err := t.append(e); err != nil {
		return err
	}
	t.say(id, "Order", t.v.Head(e.Subject), "What", t.v.Wanted(a.Want, order.Unit), "By", t.day(order.By), "Count", len(a.Plan.Rounds))
	tasks, err := t.tx.OpenTasks(t.crew.ID)
	for _, k := range tasks {
		if of, _ := rules.OrderOfTask(k); of == n {
			t.say("e_order_first", "Task", t.v.Task(k), "Best", k.Best)
			break
		}
	}
	return err
}
