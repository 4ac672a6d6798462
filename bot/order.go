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
func (sc *Scene) order(r *reading) (Answer, error) {
	var ans Answer
	ans.step = rules.Ordered
	today := rules.DateOf(sc.origin.Said, sc.s.Zone)
	if !r.plan.day.set {
		ans.ask(sc.v, "ask_order_day", "Example", wording.Clean(sc.origin.Text)+" "+sc.v.Say("form_order_day"))
		return ans, nil
	}
	day, ok := r.plan.day.dayAfter(today)
	switch {
	case !ok:
		ans.fail(sc.v, "r_order_no_day")
		return ans, nil
	case day.Before(today) || rules.DayStart(day, sc.s.Zone).Sub(sc.origin.Said) > 400*24*time.Hour:
		ans.fail(sc.v, "r_order_day", "Day", sc.v.Date(day))
		return ans, nil
	case *r.count < 1 || *r.count > mostOrdered:
		ans.fail(sc.v, "r_order_count", "Count", *r.count, "Most", mostOrdered)
		return ans, nil
	}
	o, err := planning.Of(sc.tx, sc.crew.ID, sc.s)
	if err != nil {
		return ans, err
	}
	if ans.is(sc.placesMissing(o, r.plan.unit)) {
		return ans, nil
	}
	return ans.then(sc.propose(o, rules.Order{Want: *r.count, Unit: r.plan.unit, By: rules.OrderBy(day, sc.s)}, r.verb == doOrder))
}

// placesMissing says what has to be on the list before anything can be planned.
func (sc *Scene) placesMissing(o *planning.Outlook, u rules.Unit) (Answer, bool) {
	var ans Answer
	have := map[rules.Kind]bool{rules.BreederKind: len(o.Limits.Breeders) > 0}
	for _, p := range o.Planned.Places {
		have[p.Subject.Kind] = true
	}
	for _, k := range []rules.Kind{rules.BreederKind, rules.BuilderKind, rules.YardKind} {
		if !have[k] && (k != rules.YardKind || u == rules.Queens) {
			ans.ask(sc.v, "r_order_no_"+string(k))
			return ans, true
		}
	}
	return ans, false
}

// propose shows a plan, and offers it where it is to be kept.
func (sc *Scene) propose(o *planning.Outlook, order rules.Order, keep bool) (Answer, error) {
	var ans Answer
	p := o.Planner().Plan(order, planning.PlanConfidence, sc.tx.Now)
	ans.lines = append(ans.lines, planning.OrderHead(sc.v, p, o.Counted))
	if len(p.Needs) > 0 && p.Needs[0].OK {
		ans.lines = append(ans.lines, planning.Needs(sc.v, p))
	}
	if !p.OK {
		ans.lines = append(ans.lines, planning.Nofit(sc.v, p)...)
		ans.kind = "ask"
		return ans, nil
	}
	ans.lines = append(ans.lines, planning.Rounds(sc.v, p)...)
	if !keep {
		ans.say(sc.v, "o_plan_end")
		return ans, nil
	}
	ans.ask(sc.v, "o_accept")
	ans.buttons = append(ans.buttons, wording.Button(sc.v.Say("b_accept"), planning.Offered{Want: order.Want, Plan: p.Book(o.Limits)}.Do()))
	ans.offer(sc.v, "b_no", "no")
	return ans, nil
}

// accept logs a plan that was offered, if it still fits what else was planned since.
func (sc *Scene) accept(do string) (Answer, error) {
	var ans Answer
	var a planning.Offered
	if err := json.Unmarshal([]byte(do), &a); err != nil || len(a.Plan.Rounds) == 0 {
		return ans, err
	}
	o, err := planning.Of(sc.tx, sc.crew.ID, sc.s)
	if err != nil {
		return ans, err
	}
	order := rules.Order{Want: a.Want, Unit: a.Plan.Unit, By: time.UnixMilli(a.Plan.By).UTC()}
	n, id := a.Order, "e_order_more"
	if n == 0 {
		last, err := sc.tx.LastOrderNumber(sc.crew.ID)
		if err != nil {
			return ans, err
		}
		n, id = last+1, "e_order"
	} else if b, found := o.Order(n); !found || b.Cancelled {
		ans.ask(sc.v, "r_no_order", "Number", n)
		return ans, nil
	}
	first := time.UnixMilli(a.Plan.Rounds[0].Confine)
	for _, r := range a.Plan.Rounds {
		if at := time.UnixMilli(r.Confine); at.Before(first) {
			first = at
		}
	}
	was, now := o.Planned.FirstBreak(sc.s.Zone), o.Planned.Add(a.Plan.Uses(n, sc.s)...).FirstBreak(sc.s.Zone)
	if first.Before(sc.tx.Now) || now != nil && (was == nil || *was != *now) {
		if a.Order != 0 {
			ans.ask(sc.v, "o_stale")
			return ans, nil
		}
		ans.say(sc.v, "o_stale")
		return ans.then(sc.propose(o, order, true))
	}
	if a.Order == 0 && o.OpenOrders() >= mostOpenOrders {
		ans.fail(sc.v, "list_full", "Count", o.OpenOrders(), "Most", mostOpenOrders)
		return ans, nil
	}
	e := rules.Entry{Action: rules.Did, Step: rules.Ordered, Subject: rules.OrderSubject(n), Count: &a.Want, Detail: rules.Detail{Plan: &a.Plan}}
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.v, id, "Order", sc.v.Head(e.Subject), "What", sc.v.Wanted(a.Want, order.Unit), "By", sc.day(order.By), "Count", len(a.Plan.Rounds))
	tasks, err := sc.tx.OpenTasks(sc.crew.ID)
	for _, k := range tasks {
		if of, _ := rules.OrderOfTask(k); of == n {
			ans.say(sc.v, "e_order_first", "Task", sc.v.Task(k), "Best", k.Best)
			break
		}
	}
	return ans, err
}
