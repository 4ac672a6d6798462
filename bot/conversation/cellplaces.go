package conversation

import (
	"cmp"
	"slices"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// place logs cells that went into an incubator, or back into a builder. It ends no deadline.
func (sc *Scene) place(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	ans.Step = e.Step
	var lines []rules.Entry
	if r.incubator != "" {
		q, key, add, ok := sc.incubatorOf(r)
		if ans.add(q); !ok {
			return ans, nil
		}
		e.Into, lines = rules.IncubatorPlace(key), add
	} else {
		e.Into = r.builder
	}
	r.out = sc.knownOut(r.out)
	q, b, ok := sc.placedOf(r, e)
	if ans.add(q); !ok {
		return ans, nil
	}
	e.Subject, ans.Subject = rules.BatchSubject(b.Number), rules.BatchSubject(b.Number)
	q, ok = sc.lotFor(r, &e, b)
	if ans.add(q); !ok {
		return ans, nil
	}
	if r.all {
		e.Count = nil
	}
	there := !slices.ContainsFunc(b.Account.Lots, func(l rules.Lot) bool { return l.Place != e.Into })
	if there && r.degrees == nil {
		if have := b.Account.Standing(); e.Count != nil && have != nil && *e.Count != *have {
			// Not that it was told before: none of it stands anywhere else.
			ans.ask(sc.Voice, "r_place_there", "Batch", sc.Voice.Head(e.Subject), "Place", sc.Voice.Place(e.Into), "Count", *have)
			return ans, nil
		}
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
		return ans, nil
	}
	if bad := sc.allowed(rules.CheckPlace(e, b)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	added := len(lines) > 0
	if !there {
		lines = append(lines, e)
	}
	if r.degrees != nil {
		lines = append(lines, rules.Entry{Action: rules.Did, Step: rules.Temp, Subject: rules.PlaceSubject(e.Into), Happened: e.Happened, Detail: rules.Detail{C: r.degrees}})
	}
	was, known := sc.model, r.degrees != nil
	sc, done, err := sc.log(&ans, lines...)
	if err != nil {
		return ans, err
	}
	for _, d := range done {
		switch d.Step {
		case rules.Placed:
			if c, told, _ := sc.incubatorNamed(rules.PlaceSubject(d.Into).Key).At(d.Happened); told && !known {
				ans.add(sc.harmful(c))
			}
			ans.add(sc.echoPlace(d))
		case rules.Temp:
			ans.add(sc.echoTemp(d, was, true))
		}
	}
	if added {
		ans.say(sc.Voice, "e_incubator_new", "Incubator", sc.Voice.Subject(rules.IncubatorSubject("1")))
	}
	return ans, nil
}

// knownOut names the incubator that cells came out of, where it was not named and can be one only.
func (sc *Scene) knownOut(out string) string {
	if list := sc.model.Incubators(); out == rules.IncubatorPlace(rdg.AnyIncubator) && len(list) == 1 {
		return rules.IncubatorPlace(list[0].Name)
	}
	return out
}

// placedOf finds the batch whose cells are told of: named, of the message replied to, else the
// only one with cells that may be meant.
func (sc *Scene) placedOf(r *reading, e rules.Entry) (ans Answer, b rules.Batch, ok bool) {
	n := r.batch
	if s, named := sc.context(rules.BatchKind); n == 0 && named {
		n = s.Number()
	}
	var fit []rules.Batch
	for _, c := range sc.model.Batches() {
		lots := c.Account.Lots
		out := slices.ContainsFunc(lots, func(l rules.Lot) bool { return l.Place == r.out })
		enough := slices.ContainsFunc(lots, func(l rules.Lot) bool {
			return e.Count == nil || l.Count == nil || *l.Count >= *e.Count || *l.Count*2 > *e.Count
		})
		if c.Number == n || n == 0 && !c.Ended && len(lots) > 0 && !e.Happened.Before(c.Grafted) && sc.Look.Now.Sub(c.Emerges) < rules.StaleAfter && enough && (r.out == "" || out) {
			fit = append(fit, c)
		}
	}
	if exact := holding(fit, e.Count); len(exact) == 1 {
		fit = exact
	}
	switch {
	case len(fit) == 0 && n != 0:
		known, _ := sc.knownBatches()
		ans.ask(sc.Voice, "r_no_batch", "Number", n, "Known", known)
	case len(fit) == 0:
		ans.ask(sc.Voice, "r_no_cells", "Example", sc.Voice.Say("form_place"))
	case len(fit) > 1:
		ans.ask(sc.Voice, "ask_which", "What", wording.Upper(sc.Voice.Say("step_place")))
		for _, c := range fit[max(0, len(fit)-mostButtons):] {
			s := rules.BatchSubject(c.Number)
			ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Head(s), sc.rerun("subject="+s.String())))
		}
	case fit[0].Ended:
		ans.ask(sc.Voice, "r_batch_ended", "Batch", sc.Voice.Head(rules.BatchSubject(fit[0].Number)))
	case len(fit[0].Account.Lots) == 0:
		ans.ask(sc.Voice, "r_no_lots", "Batch", sc.Voice.Head(rules.BatchSubject(fit[0].Number)))
	default:
		return ans, fit[0], true
	}
	return ans, b, false
}

// holding are the batches of which a lot is exactly so many cells.
func holding(list []rules.Batch, count *int) (out []rules.Batch) {
	for _, b := range list {
		if slices.ContainsFunc(b.Account.Lots, func(l rules.Lot) bool { return equal(l.Count, count) }) {
			out = append(out, b)
		}
	}
	return out
}

// lotFor finds which of the lots of a batch a line is about: named, the only one, or all of
// them. Of several it asks; ok is false then.
func (sc *Scene) lotFor(r *reading, e *rules.Entry, b rules.Batch) (ans Answer, ok bool) {
	lots := b.Account.Lots
	if len(lots) < 2 {
		e.Detail.Out = ""
		return ans, true
	}
	out := cmp.Or(sc.opt.lot, sc.knownOut(r.out), e.Detail.Out)
	if out != "" {
		if e.Detail.Out = out; slices.ContainsFunc(lots, func(l rules.Lot) bool { return l.Place == out }) {
			return ans, true
		}
		e.Detail.Out = ""
	}
	all := b.Account.Standing()
	if sc.opt.anyway["all_lots"] || r.all || e.Count == nil && e.Step != rules.Accept && e.Step != rules.Capped || all != nil && e.Count != nil && *e.Count == *all {
		return ans, true
	}
	var fit []rules.Lot
	for _, l := range lots {
		if l.Place != e.Into && (e.Count == nil || l.Count == nil || *e.Count <= *l.Count) {
			fit = append(fit, l)
		}
	}
	if e.Step == rules.Placed && len(fit) == 1 {
		e.Detail.Out = fit[0].Place
		return ans, true
	}
	ans.ask(sc.Voice, "ask_lot", "Batch", sc.Voice.Head(rules.BatchSubject(b.Number)), "Step", e.Step, "Count", wording.Deref(e.Count))
	for _, l := range fit {
		ans.Buttons = append(ans.Buttons, wording.Button(wording.Upper(sc.Voice.Place(l.Place)), sc.rerun("lot="+l.Place)))
	}
	if e.Step != rules.Placed && e.Step != rules.Move {
		ans.offer(sc.Voice, "b_all_lots", sc.rerun("anyway=all_lots"))
	}
	ans.offer(sc.Voice, "b_no", "no")
	return ans, false
}

// echoPlace repeats where cells went, and that their deadline stays.
func (sc *Scene) echoPlace(e rules.Entry) Answer {
	var ans Answer
	b, _ := sc.model.Batch(e.Subject.Number())
	cells := sc.Voice.Say("cells_all")
	if e.Count != nil {
		cells = sc.Voice.Say("cells_some", "Count", *e.Count)
	}
	kv := []any{"Batch", sc.Voice.Head(e.Subject), "Cells", cells, "Place", sc.Voice.Place(e.Into), "When", e.Happened, "Value", "", "Since", time.Time{}}
	ans.say(sc.Voice, "e_place", kv...)
	if s := rules.PlaceSubject(e.Into); s.Kind == rules.IncubatorKind {
		if c, known, _ := sc.incubatorNamed(s.Key).At(e.Happened); known {
			ans.join(sc.Voice, "e_place_temp", "Value", sc.Voice.Number(c, 1))
		} else {
			ans.join(sc.Voice, "e_place_assumed", "Value", sc.Voice.Number(rules.BroodTemp, 1))
		}
	}
	move := sc.taskOf(e.Subject, rules.Move, "")
	if move.State == rules.Open {
		ans.say(sc.Voice, "e_place_close", "Close", move.Latest, "Best", move.Best)
	}
	row := sc.Settings.Table.Row(rules.Capped, "")
	if h := e.Happened.Sub(b.Grafted).Hours(); h < row.Earliest && rules.PlaceSubject(e.Into).Kind == rules.IncubatorKind {
		ans.say(sc.Voice, "w_place_open", "From", b.Grafted.Add(rules.Hours(row.Best)))
	}
	off := sc.Settings.Table.Row(rules.HandsOff, "")
	if from, _, until := off.Window(b.Grafted); e.Happened.After(from) && e.Happened.Before(until) {
		ans.say(sc.Voice, "w_handsoff", "Until", until)
	}
	return ans
}

// showLots tells where the cells of a batch stand, where that is more than its builder, and
// how long those of each place are safe.
func (sc *Scene) showLots(b rules.Batch) Answer {
	var ans Answer
	lots := b.Account.Lots
	if b.Ended || len(lots) == 0 || len(lots) == 1 && rules.PlaceSubject(lots[0].Place).Kind != rules.IncubatorKind {
		return ans
	}
	for _, l := range lots {
		ans.add(sc.sayLot(b, l, sc.Voice.Place(l.Place)))
	}
	return ans
}

// sayLot tells of the cells of a lot under a head: how many, since when, safe until when.
func (sc *Scene) sayLot(b rules.Batch, l rules.Lot, head string) Answer {
	var ans Answer
	safe := b.LotEmergence(l, sc.Settings).SafeUntil().UTC()
	if move := sc.taskOf(rules.BatchSubject(b.Number), rules.Move, ""); move.State == rules.Open && move.Latest.Before(safe) {
		safe = move.Latest
	}
	count := sc.Voice.Say("cells_uncounted")
	if l.Count != nil {
		count = sc.Voice.Say("cells_some", "Count", *l.Count)
	}
	kv := []any{"Head", wording.Upper(head), "Cells", count, "Since", l.Since, "Safe", safe, "Emerges", b.LotEmergence(l, sc.Settings).Middle().Round(time.Hour).UTC(), "Most", sc.Voice.Number(l.Most, 1)}
	ans.say(sc.Voice, "s_lot", kv...)
	if l.Most > 0.05 {
		ans.join(sc.Voice, "s_lot_power", kv...)
	}
	return ans
}

// showIncubator tells the temperature of an incubator and what is in it.
func (sc *Scene) showIncubator(r *reading) Answer {
	var ans Answer
	list := sc.model.Incubators()
	key := r.incubator
	if key == rdg.AnyIncubator && len(list) == 1 {
		key = list[0].Name
	}
	if !sc.hasIncubator(key) {
		if key == rdg.AnyIncubator {
			key = "1"
			if len(list) > 1 {
				for _, in := range list {
					ans.add(sc.incubatorNow(in))
				}
				return ans
			}
		}
		s := rules.IncubatorSubject(key)
		ans.ask(sc.Voice, "r_not_known", "What", sc.Voice.Head(s), "Form", sc.Voice.Say("form_add", "What", sc.Voice.Named(s)))
		return ans
	}
	ans.Subject = rules.IncubatorSubject(key)
	ans.add(sc.incubatorNow(sc.incubatorNamed(key)))
	return ans
}

func (sc *Scene) incubatorNow(in rules.Incubator) Answer {
	var ans Answer
	s := rules.IncubatorSubject(in.Name)
	id := "s_incubator"
	c, known, _ := in.At(sc.Look.Now)
	if !known {
		id = "s_incubator_assumed"
	}
	ans.say(sc.Voice, id, "Incubator", sc.Voice.Head(s), "Value", sc.Voice.Number(c, 1))
	if in.Singly {
		ans.join(sc.Voice, "s_incubator_singly")
	}
	n := 0
	for _, b := range sc.model.Batches() {
		for _, l := range b.Account.Lots {
			if !b.Ended && l.Place == rules.IncubatorPlace(in.Name) && sc.Look.Now.Sub(b.Emerges) < rules.StaleAfter {
				ans.add(sc.sayLot(b, l, sc.Voice.Subject(rules.BatchSubject(b.Number))))
				n++
			}
		}
	}
	if n == 0 {
		ans.say(sc.Voice, "s_builder_empty")
	}
	return ans
}

// whereCells tells in which builders and incubators cells stand.
func (sc *Scene) whereCells() (Answer, error) {
	var ans Answer
	var places []string
	lines := map[string][]string{}
	for _, b := range sc.model.Batches() {
		if b.Ended || sc.Look.Now.Sub(b.Emerges) > rules.StaleAfter {
			continue
		}
		for _, l := range b.Account.Lots {
			if !slices.Contains(places, l.Place) {
				places = append(places, l.Place)
			}
			count := sc.Voice.Say("cells_uncounted")
			if l.Count != nil {
				count = sc.Voice.Say("cells_some", "Count", *l.Count)
			}
			lines[l.Place] = append(lines[l.Place], sc.Voice.Say("s_where_batch", "Batch", sc.Voice.Subject(rules.BatchSubject(b.Number)), "Cells", count))
		}
	}
	if len(places) == 0 {
		ans.say(sc.Voice, "s_where_none")
		return ans, nil
	}
	slices.Sort(places)
	for _, p := range places {
		name := sc.Voice.Say("place_unknown")
		if p != "" {
			name = sc.Voice.Place(p)
		}
		ans.say(sc.Voice, "s_where", "Place", wording.Upper(name), "List", wording.JoinList(lines[p]))
	}
	return ans, nil
}
