package conversation

import (
	"encoding/json"
	"strings"
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
	ans.Step = rules.Ordered
	today := rules.DateOf(sc.Origin.Said, sc.Settings.Zone)
	if !r.plan.day.set {
		ans.ask(sc.Voice, "ask_order_day", "Example", strings.Fields(wording.Clean(sc.Origin.Text))[0]+" "+sc.Voice.Wanted(*r.count, r.plan.unit)+" "+sc.Voice.Say("form_order_day"))
		return ans, nil
	}
	day, ok := r.plan.day.dayAfter(today)
	switch {
	case !ok:
		ans.Fail(sc.Voice, "r_order_no_day")
		return ans, nil
	case day.Before(today) || rules.DayStart(day, sc.Settings.Zone).Sub(sc.Origin.Said) > 400*24*time.Hour:
		ans.Fail(sc.Voice, "r_order_day", "Day", sc.Voice.Date(day))
		return ans, nil
	case *r.count < 1 || *r.count > mostOrdered:
		ans.Fail(sc.Voice, "r_order_count", "Count", *r.count, "Most", mostOrdered)
		return ans, nil
	}
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return ans, err
	}
	if ans.is(sc.placesMissing(o, r.plan.unit)) {
		return ans, nil
	}
	return ans.then(sc.propose(o, rules.Order{Want: *r.count, Unit: r.plan.unit, By: rules.OrderBy(day, sc.Settings)}, r.plan.sure(), r.verb == doOrder))
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
			ans.ask(sc.Voice, "r_order_no_"+string(k))
			return ans, true
		}
	}
	return ans, false
}

// propose shows a plan, and offers it where it is to be kept.
func (sc *Scene) propose(o *planning.Outlook, order rules.Order, sure float64, keep bool) (Answer, error) {
	var ans Answer
	p := o.Planner().Plan(order, sure, sc.Look.Now)
	ans.Lines = append(ans.Lines, planning.OrderHead(sc.Voice, p, o.Counted))
	if len(p.Needs) > 0 && p.Needs[0].OK {
		ans.Lines = append(ans.Lines, planning.Needs(sc.Voice, p))
	}
	if !p.OK {
		ans.Lines = append(ans.Lines, planning.Nofit(sc.Voice, p)...)
		ans.Kind = "ask"
		if !keep || len(p.Rounds)+len(p.From) == 0 || p.Mean < 1 {
			return ans, nil
		}
		// The crew may take it at its own word.
		ans.Lines = append(ans.Lines, planning.Rounds(sc.Voice, p)...)
		ans.ask(sc.Voice, "o_accept")
		p.Confidence = max(0.01, p.Chance)
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_take_anyway"), planning.Offered{Want: order.Want, Plan: p.Book(o.Limits)}.Do()))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, nil
	}
	ans.Lines = append(ans.Lines, planning.Rounds(sc.Voice, p)...)
	if !keep {
		ans.say(sc.Voice, "o_plan_end")
		return ans, nil
	}
	ans.ask(sc.Voice, "o_accept")
	ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_accept"), planning.Offered{Want: order.Want, Plan: p.Book(o.Limits)}.Do()))
	ans.offer(sc.Voice, "b_no", "no")
	return ans, nil
}

// accept logs a plan that was offered, if it still fits what else was planned since.
func (sc *Scene) accept(do string) (Answer, error) {
	var ans Answer
	var a planning.Offered
	if err := json.Unmarshal([]byte(do), &a); err != nil || len(a.Plan.Rounds)+len(a.Plan.Batches) == 0 {
		return ans, err
	}
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return ans, err
	}
	order := rules.Order{Want: a.Want, Unit: a.Plan.Unit, By: time.UnixMilli(a.Plan.By).UTC()}
	n, id := a.Order, "e_order_more"
	if n == 0 {
		last := sc.model.Highest(rules.OrderKind)
		n, id = last+1, "e_order"
	} else if b, found := o.Order(n); !found || b.Cancelled {
		ans.ask(sc.Voice, "r_no_order", "Number", n)
		return ans, nil
	}
	was, now := o.Planned.FirstBreak(sc.Settings.Zone), o.Planned.Add(a.Plan.Uses(n, sc.Settings)...).FirstBreak(sc.Settings.Zone)
	if !o.Stands(a.Plan) || now != nil && (was == nil || *was != *now) {
		if a.Order != 0 {
			ans.ask(sc.Voice, "o_stale")
			return ans, nil
		}
		ans.say(sc.Voice, "o_stale")
		return ans.then(sc.propose(o, order, a.Plan.Confidence, true))
	}
	if a.Order == 0 && o.OpenOrders() >= mostOpenOrders {
		ans.Fail(sc.Voice, "list_full", "Count", o.OpenOrders(), "Most", mostOpenOrders)
		return ans, nil
	}
	e := rules.Entry{Action: rules.Did, Step: rules.Ordered, Subject: rules.OrderSubject(n), Count: &a.Want, Detail: rules.Detail{Plan: &a.Plan}}
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.Voice, id, "Order", sc.Voice.Head(e.Subject), "What", sc.Voice.Wanted(a.Want, order.Unit), "By", sc.day(order.By), "Count", len(a.Plan.Rounds))
	tasks, err := sc.Look.OpenTasks(sc.Crew.ID)
	for _, k := range tasks {
		if of, _ := rules.OrderOfTask(k); of == n {
			ans.say(sc.Voice, "e_order_first", "Task", sc.Voice.Task(k), "Best", k.Best)
			break
		}
	}
	return ans, err
}
