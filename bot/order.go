package bot

import (
	"encoding/json"
	"strconv"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// planConfidence is that of the plan that is proposed: the crew fails one order in
// ten. The needs at other chances stand beside it.
const planConfidence = 0.9

// offered is a plan under a button. It is accepted as it was shown, or not at all.
type offered struct {
	Order int           `json:"order,omitempty"` // the order that the rounds are added to
	Want  int           `json:"want"`
	Plan  rules.Booking `json:"plan"`
}

func (o offered) do() string {
	b, err := json.Marshal(o)
	if err != nil {
		panic(err) // only plain values come here
	}
	return "order|" + string(b)
}

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
	o, err := outlookOf(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	if t.placesMissing(o, r.plan.unit) {
		return nil
	}
	return t.propose(o, rules.Order{Want: *r.count, Unit: r.plan.unit, By: rules.OrderBy(day, t.s)}, r.verb == doOrder)
}

// placesMissing says what has to be on the list before anything can be planned.
func (t *talk) placesMissing(o *outlook, u rules.Unit) bool {
	have := map[rules.Kind]bool{rules.BreederKind: len(o.limits.Breeders) > 0}
	for _, p := range o.planned.Places {
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
func (t *talk) propose(o *outlook, order rules.Order, keep bool) error {
	p := o.planner().Plan(order, planConfidence, t.tx.Now)
	t.lines = append(t.lines, orderHead(t.v, p, o.counted))
	if len(p.Needs) > 0 && p.Needs[0].OK {
		t.lines = append(t.lines, needs(t.v, p))
	}
	if !p.OK {
		t.lines = append(t.lines, nofit(t.v, p)...)
		t.kind = "ask"
		return nil
	}
	t.lines = append(t.lines, rounds(t.v, p)...)
	if !keep {
		t.say("o_plan_end")
		return nil
	}
	t.ask("o_accept")
	t.buttons = append(t.buttons, wording.Button(t.v.Say("b_accept"), offered{0, order.Want, p.Book(o.limits)}.do()))
	t.offer("b_no", "no")
	return nil
}

// accept logs a plan that was offered, if it still fits what else was planned since.
func (t *talk) accept(do string) error {
	var a offered
	if err := json.Unmarshal([]byte(do), &a); err != nil || len(a.Plan.Rounds) == 0 {
		return err
	}
	o, err := outlookOf(t.tx, t.crew.ID, t.s)
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
	} else if b, found := o.order(n); !found || b.Cancelled {
		t.ask("r_no_order", "Number", n)
		return nil
	}
	first := time.UnixMilli(a.Plan.Rounds[0].Confine)
	for _, r := range a.Plan.Rounds {
		if at := time.UnixMilli(r.Confine); at.Before(first) {
			first = at
		}
	}
	was, now := o.planned.FirstBreak(t.s.Zone), o.planned.Add(a.Plan.Uses(n, t.s)...).FirstBreak(t.s.Zone)
	if first.Before(t.tx.Now) || now != nil && (was == nil || *was != *now) {
		if a.Order != 0 {
			t.ask("o_stale")
			return nil
		}
		t.say("o_stale")
		return t.propose(o, order, true)
	}
	if a.Order == 0 && o.openOrders() >= mostOpenOrders {
		t.fail("list_full", "Count", o.openOrders(), "Most", mostOpenOrders)
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

// orderHead says what is asked for and on whose yields the plan rests.
func orderHead(v wording.Voice, p rules.Plan, counted int) string {
	yields := v.Say("o_published")
	if counted > 0 {
		yields = v.Say("o_own", "Count", counted)
	}
	return v.Say("o_head", "What", v.Wanted(p.Order.Want, p.Order.Unit), "By", p.Order.By, "Yields", yields)
}

// needs says how many to graft for each chance.
func needs(v wording.Voice, p rules.Plan) string {
	var list []string
	for _, n := range p.Needs {
		id := "o_need"
		if !n.OK {
			id = "o_need_not"
		}
		list = append(list, v.Say(id, "Percent", v.Number(n.Confidence*100, 0), "Grafts", n.Grafts))
	}
	return v.Say("o_needs", "List", wording.JoinList(list))
}

// mostRoundLines keeps a plan on a few screens of a phone.
const mostRoundLines = 12

// rounds words the rounds of a plan, one line each.
func rounds(v wording.Voice, p rules.Plan) []string {
	lines := []string{v.Say("o_rounds", "Percent", v.Number(p.Confidence*100, 0), "Grafts", p.Grafts, "Count", len(p.Rounds))}
	for i, r := range p.Rounds {
		if i == mostRoundLines {
			lines = append(lines, v.Say("o_more", "Count", len(p.Rounds)-i))
			break
		}
		lines = append(lines, roundLine(v, r, p))
	}
	if p.Tight {
		lines = append(lines, v.Say("o_tight"))
	}
	return lines
}

func roundLine(v wording.Voice, r rules.Round, p rules.Plan) string {
	u := p.Order.Unit
	ready := v.At(r.Ready(u))
	if p.Tight {
		ready = v.Date(rules.DateOf(r.Soonest(u), v.Settings.Zone))
	}
	return v.Say("o_round", "Breeders", breeders(v, r.Breeders), "Confine", r.Confined, "Graft", r.Graft, "Parts", shares(v, r.Batches),
		"Ready", v.Say("o_ready_"+string(u), "At", ready))
}

func breeders(v wording.Voice, list []int) string {
	var names []string
	for _, n := range list {
		names = append(names, v.Subject(rules.BreederSubject(n)))
	}
	return wording.JoinList(names)
}

// shares words who takes how many of a round.
func shares(v wording.Voice, list []rules.PlannedBatch) string {
	var parts []string
	for _, b := range list {
		s := strconv.Itoa(b.Grafts)
		if b.Builder != "" {
			s = v.Say("o_share", "Grafts", b.Grafts, "Builder", b.Builder)
		}
		parts = append(parts, s)
	}
	return wording.JoinList(parts)
}

// nofit says why a plan does not fit, what would, and until when anything can be
// begun.
func nofit(v wording.Voice, p rules.Plan) (lines []string) {
	lines = append(lines, v.Say("o_nofit", "Why", broken(v, p)))
	fits := v.Say("o_fits_none")
	if p.Fits > 0 {
		fits = v.Say("o_fits", "What", v.Wanted(p.Fits, p.Order.Unit), "Grafts", p.Grafts)
	}
	if !p.FitsBy.IsZero() {
		fits += " " + v.Say("o_fits_by", "By", v.Date(rules.DateOf(p.FitsBy, v.Settings.Zone)))
	}
	return append(lines, fits)
}

// broken names the first day on which something is short.
func broken(v wording.Voice, p rules.Plan) string {
	b := p.Break
	switch {
	case b == nil:
		return v.Say("o_break")
	case b.Place.Zero():
		return v.Say("o_break_time", "At", b.At)
	case b.Place.Kind == rules.BreederKind:
		return v.Say("o_break_breeder", "Day", v.Date(b.Day))
	case b.Place.Kind == rules.YardKind:
		at := ""
		if b.Place.Key != "" {
			at = v.Say("e_at", "Yard", b.Place.Key)
		}
		return v.Say("o_break_yard", "Day", v.Date(b.Day), "Count", b.Have, "At", at, "Need", b.Need)
	case b.Place.Key == "":
		return v.Say("o_break_builders", "Day", v.Date(b.Day), "Have", b.Have, "Need", b.Need)
	}
	return v.Say("o_break_builder", "Day", v.Date(b.Day), "Builder", b.Place.Key)
}

// deadlines says until when something can still be begun for an order, "" where it is
// too late for all.
func deadlines(v wording.Voice, d rules.Deadline) string {
	switch {
	case v.Now.After(d.Graft):
		return v.Say("o_too_late")
	case v.Now.After(d.Confine):
		return v.Say("o_last_graft", "Graft", d.Graft)
	}
	return v.Say("o_last", "Graft", d.Graft, "Confine", d.Confine)
}

// acceptButtons are under a plan that the whole crew is shown.
func acceptButtons(vs []wording.Voice, do string) []store.Button {
	label := func(id string) string {
		return wording.Each(vs, wording.LabelParting, func(v wording.Voice) string { return v.Say(id) })
	}
	return []store.Button{wording.Button(label("b_accept"), do), wording.Button(label("b_no"), "no")}
}
