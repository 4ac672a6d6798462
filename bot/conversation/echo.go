package conversation

import (
	"math"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// taskOf reads one task of a subject after replanning; the zero task where it
// has none.
func (sc *Scene) taskOf(s rules.Subject, step rules.Step, occ string) rules.Task {
	k, _ := sc.model.Task(rules.TaskKey(s, step, occ))
	return k
}

func (sc *Scene) comb1(breeder int, id int64) rules.Comb {
	for _, c := range sc.model.Combs(breeder) {
		if c.ID == id {
			return c
		}
	}
	return rules.Comb{}
}

func (sc *Scene) echoConfine(e rules.Entry) Answer {
	var ans Answer
	with := ""
	if e.Mark != "" {
		with += sc.Voice.Say("with_mark", "Mark", e.Mark)
	}
	if e.Detail.BeesIn != nil {
		if *e.Detail.BeesIn {
			with += sc.Voice.Say("with_bees")
		} else {
			with += sc.Voice.Say("with_nobees")
		}
	}
	ans.say(sc.Voice, "e_confine", "Breeder", sc.Voice.Head(e.Subject), "When", e.Happened, "With", with)
	eggs, out, graft := sc.combTasks(e.Subject, e.ID)
	next := "e_confine_next"
	if !sc.Look.Now.Before(out.Latest) {
		next = "e_confine_late"
	}
	ans.say(sc.Voice, next, "Eggs", eggs.Best, "Out", out.Best, "OutClose", out.Latest, "Graft", graft.Best, "Opens", graft.Earliest, "Closes", graft.Latest)
	ans.add(sc.warnUnfit(graft))
	return ans
}

func (sc *Scene) combTasks(s rules.Subject, comb int64) (eggs, out, graft rules.Task) {
	occ := rules.Occ(comb)
	return sc.taskOf(s, rules.Eggs, occ), sc.taskOf(s, rules.CombOut, occ), sc.taskOf(s, rules.Graft, occ)
}

func (sc *Scene) warnUnfit(k rules.Task) Answer {
	var ans Answer
	if k.Unfit && k.State == rules.Open {
		ans.say(sc.Voice, "w_unfit")
	}
	return ans
}

func (sc *Scene) echoComb(e rules.Entry) Answer {
	var ans Answer
	c := sc.comb1(e.Subject.Number(), e.Detail.Comb)
	eggs, out, graft := sc.combTasks(e.Subject, c.ID)
	id := map[bool]string{true: "e_eggs", false: "e_eggs_out"}[c.Out.IsZero()]
	switch {
	case e.Step == rules.Eggs && e.Detail.NoEggs:
		id = "e_noeggs"
	case e.Step == rules.CombOut && c.Failed:
		id = "e_comb_empty"
	case e.Step == rules.CombOut && e.Detail.Release:
		id = "e_release"
	case e.Step == rules.CombOut:
		id = "e_combout"
	}
	who := sc.Voice.Head(e.Subject)
	if c.Mark != "" {
		who = sc.Voice.Say("head_comb", "Key", e.Subject.Key, "Mark", c.Mark)
	}
	ans.say(sc.Voice, id, "Breeder", who, "When", e.Happened, "Eggs", eggs.Best, "Out", out.Best, "OutClose", out.Latest, "Graft", graft.Best, "Opens", graft.Earliest, "Closes", graft.Latest)
	if from, to := c.Laying(); e.Step == rules.CombOut && !c.Failed && to.Sub(from) < 6*time.Hour {
		id := "w_short_stay"
		if to.Sub(from) < time.Hour {
			id = "w_no_stay"
		}
		ans.say(sc.Voice, id, "Hours", to.Sub(from).Hours())
	}
	if e.Step == rules.CombOut && !c.Failed {
		ans.add(sc.warnUnfit(graft))
	}
	return ans
}

func (sc *Scene) echoGraft(e rules.Entry) Answer {
	var ans Answer
	b, _ := sc.model.Batch(e.Subject.Number())
	accept := sc.taskOf(e.Subject, rules.Accept, "")
	move := sc.taskOf(e.Subject, rules.Move, "")
	cells := sc.Voice.Say("e_graft_uncounted")
	if e.Count != nil {
		cells = sc.Voice.Say("e_graft_cells", "Count", *e.Count)
	}
	into, at := "", ""
	if e.Into != "" {
		into = sc.Voice.Say("e_graft_into", "Builder", e.Into)
	}
	if !e.Happened.Equal(e.Said.Truncate(time.Second)) {
		at = " " + sc.Voice.At(e.Happened)
	}
	ans.say(sc.Voice, "e_graft", "Batch", sc.Voice.Head(e.Subject), "Cells", cells, "From", sc.Voice.Say("e_graft_from", "Breeder", rules.BreederSubject(e.From)), "Into", into, "Time", at, "Ages", sc.Voice.Ages(b.Age))
	next := "e_graft_next"
	if !sc.Look.Now.Before(accept.Latest) {
		next = "e_graft_next_late"
	}
	ans.say(sc.Voice, next, "Accept", accept.Best, "Close", move.Latest, "Best", move.Best)
	if w := rules.AgeWarning(b.Age); w != "" {
		ans.say(sc.Voice, "w_"+w, "Hours", b.Age.Hi-24)
	}
	ans.add(sc.warnUnfit(move))
	ans.add(sc.warnMove(b))
	ans.add(sc.warnBuilder(e))
	if e.Count == nil {
		ans.add(sc.askCount(e, nil))
	} else if e.Into == "" {
		ans.ask(sc.Voice, "w_no_builder")
		n := sc.names()
		for _, name := range n.builders[:min(len(n.builders), mostButtons)] {
			ans.Buttons = append(ans.Buttons, wording.Button(name, intoDo(e.ID, name)))
		}
	}
	return ans
}

// warnMove says the chance of a virgin where the crew's own move time lies after
// the safe time of this batch.
func (sc *Scene) warnMove(b rules.Batch) Answer {
	var ans Answer
	if sc.Settings.MoveAt == 0 {
		return ans
	}
	// Older larvae are moved sooner, by as much as they are past a day.
	_, at, _ := rules.MoveWindow(b.Emergence(sc.Settings), sc.Settings.Table.Row(rules.Move, ""), sc.Settings.MoveAt)
	if safe := b.SafeUntil(sc.Settings); at.After(safe) {
		ans.say(sc.Voice, "w_move_batches", "Batch", sc.Voice.Head(rules.BatchSubject(b.Number)), "Safe", safe, "Chance", chance(b.Emergence(sc.Settings).AnyOut(at)))
	}
	return ans
}

func chance(p float64) float64 { return math.Max(1, p*100) }

// askCount asks for a missing number below what was logged; the answer completes
// the line.
func (sc *Scene) askCount(e rules.Entry, had *int) Answer {
	var ans Answer
	of, ex := "", ""
	if had != nil {
		of = sc.Voice.Say("ask_of", "Count", *had)
	}
	if id := "ask_count_" + string(e.Step); sc.Voice.Has(id) && e.Into == "" {
		ex = sc.Voice.Say(id)
	}
	id := "ask_count"
	if e.Step == rules.Nucs {
		id = "ask_nucs"
	}
	ans.ask(sc.Voice, id, "Of", of, "Example", ex)
	if had != nil && *had > 0 {
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_all", "Count", *had), amendDo(e.ID, *had)))
	}
	return ans
}

// echoBatch says what a step of a batch leads to. b is read after replanning.
func (sc *Scene) echoBatch(e rules.Entry) Answer {
	var ans Answer
	b, _ := sc.model.Batch(e.Subject.Number())
	get := func(step rules.Step) rules.Task { return sc.taskOf(e.Subject, step, "") }
	head := sc.Voice.Head(e.Subject)
	had, _ := b.Had(e.Step)
	if e.Detail.Part {
		had, _ = b.HadAt(e.Into, e.Step)
	}
	of := ""
	if e.Count != nil && e.Of != nil {
		of = sc.Voice.Say("e_of", "Of", *e.Of)
	} else if e.Count != nil && had != nil {
		of = sc.Voice.Say("e_of", "Of", *had)
	}
	at, to := "", ""
	if e.Into != "" {
		at, to = sc.Voice.Say("e_at", "Yard", e.Into), sc.Voice.Say("e_to", "Yard", e.Into)
	}
	if e.Detail.Part && e.Count != nil {
		of += at
	}
	if e.Detail.Part && sc.follows && e.Count != nil && *e.Count > 0 {
		ans.say(sc.Voice, "e_part", "Batch", head, "Count", *e.Count, "Of", of, "Past", sc.Voice.Past(e.Step, e.Count))
		return ans
	}
	move, finish := get(rules.Move), get(rules.Finish)
	switch e.Step {
	case rules.Accept:
		pc := ""
		if e.Count != nil && had != nil && *had > 0 {
			pc = sc.Voice.Say("e_percent", "Percent", percent(*e.Count, *had))
		}
		id := "e_accept"
		if finish.State != rules.Open {
			id = "e_accept_plain"
		}
		ans.say(sc.Voice, id, "Batch", head, "Count", e.Count, "Of", of, "Percent", pc, "Finish", finish.Latest, "Close", move.Latest)
	case rules.Finish:
		into := ""
		if e.Into != "" {
			into = " " + e.Into
		}
		ans.say(sc.Voice, "e_finish", "Batch", head, "Into", into, "When", e.Happened, "Capped", get(rules.Capped).Best, "Close", move.Latest)
	case rules.Capped:
		off := get(rules.HandsOff)
		ans.say(sc.Voice, "e_capped", "Batch", head, "Count", e.Count, "Of", of, "From", off.Earliest, "Until", off.Latest, "Close", move.Latest, "Best", move.Best)
	case rules.Nucs:
		id := "e_nucs"
		if !sc.Look.Now.Before(move.Earliest) {
			id = "e_nucs_open"
		}
		ans.say(sc.Voice, id, "Count", sc.Voice.Count(e.Step, e.Count), "At", at, "Batch", head, "Open", move.Earliest, "Close", move.Latest, "Best", move.Best)
	case rules.Move:
		ans.say(sc.Voice, "e_move", "Batch", head, "Count", e.Count, "To", to, "When", e.Happened, "Emerge", b.Emerges, "Check", get(rules.Emerge).Best)
		if e.Happened.After(move.Latest) {
			where := b.Builder
			if where == "" {
				where = sc.Voice.Say("prep_builder")
			}
			ans.say(sc.Voice, "w_late_move", "Close", move.Latest, "Builder", where)
		} else if e.Happened.Before(move.Earliest) {
			ans.say(sc.Voice, "w_early_move", "Open", move.Earliest)
		}
	case rules.Emerge:
		if e.Detail.NoneYet {
			if move.State == rules.Open {
				ans.say(sc.Voice, "e_none_yet_cells", "Batch", head, "When", e.Happened, "Close", move.Latest)
				break
			}
			ans.say(sc.Voice, "e_none_yet", "Batch", head, "When", e.Happened, "Emerges", b.Emerges, "Next", get(rules.Emerge).Best)
			break
		}
		if e.Detail.More {
			ans.say(sc.Voice, "e_some_out", "Batch", head, "Count", e.Count, "Of", of, "When", e.Happened, "Next", get(rules.Emerge).Best)
			break
		}
		fl := get(rules.Flights)
		ans.say(sc.Voice, "e_emerge", "Batch", head, "Count", e.Count, "Of", of, "From", sc.day(fl.Earliest), "Until", sc.day(fl.Latest), "Laying", get(rules.Laying).Best)
	case rules.Laying:
		c := get(rules.Catch)
		ans.say(sc.Voice, "e_laying", "Batch", head, "Count", e.Count, "Of", of, "Open", c.Earliest, "Best", c.Best)
		all, n := had, e.Count
		if e.Detail.Part {
			all, _ = b.Had(e.Step)
			n = b.Counts.Laying
		}
		if second := sc.taskOf(e.Subject, rules.Laying, "2"); second.State == rules.Open && all != nil && n != nil && *all > *n {
			ans.join(sc.Voice, "e_laying_second", "Rest", *all-*n, "Second", second.Best)
		}
	case rules.Catch:
		ans.say(sc.Voice, "e_catch", "Batch", head, "Count", e.Count, "At", at, "Recell", e.Happened.Add(72*time.Hour))
	case rules.Recell:
		ans.say(sc.Voice, "e_recell", "Batch", head, "Count", e.Count, "At", at)
	}
	if e.Count == nil && atOneYard(e, b) {
		had = sc.allAt(e, b)
	}
	ans.add(sc.stillToCount(e, b))
	ans.add(sc.afterBatch(e, b, had, move))
	return ans
}

// afterBatch adds what a batch line leaves open: none left, a rest, a missing
// number or yard, fragile days.
func (sc *Scene) afterBatch(e rules.Entry, b rules.Batch, had *int, move rules.Task) Answer {
	var ans Answer
	if b.Ended {
		ans.clear()
		ans.say(sc.Voice, "e_none", "Batch", sc.Voice.Head(e.Subject), "Past", sc.Voice.Past(e.Step, e.Count))
		return ans
	}
	off := sc.Settings.Table.Row(rules.HandsOff, "")
	from, _, until := off.Window(b.Grafted)
	if (e.Step == rules.Move || e.Step == rules.Finish) && e.Happened.After(from) && e.Happened.Before(until) && e.Happened.Before(move.Earliest) {
		ans.say(sc.Voice, "w_handsoff", "Until", move.Earliest)
	}
	switch rest := b.Rest(e.Step); {
	case e.Count == nil && rules.NeedsCount[e.Step]:
		if e.Step == rules.Nucs {
			had = nil // there may be more nucs than cells
		}
		ans.add(sc.askCount(e, had))
	case e.Step == rules.Move && e.Into == "":
		ans.ask(sc.Voice, "ask_yard")
		n := sc.names()
		for _, y := range n.yards[:min(len(n.yards), mostButtons)] {
			ans.Buttons = append(ans.Buttons, wording.Button(y, intoDo(e.ID, y)))
		}
	case sc.follows:
		// The next part of the message says more of the same; it asks for the rest.
	case rest > 0 && e.Step == rules.Move:
		ans.ask(sc.Voice, "e_move_more", "Rest", rest, "Had", wording.Deref(b.Counts.Moved)+rest, "Close", move.Latest)
		ans.offer(sc.Voice, "b_more", "more")
		ans.offer(sc.Voice, "b_none_left", allDo(e.ID))
	case rest > 0 && e.Step == rules.Catch:
		ans.say(sc.Voice, "e_catch_more", "Rest", rest, "Had", wording.Deref(b.Counts.Laying))
	case e.Step == rules.Move && had != nil && *had-wording.Deref(b.Counts.Moved) > 2 && sc.Look.Now.Before(move.Latest):
		ans.say(sc.Voice, "e_move_few", "Rest", *had-wording.Deref(b.Counts.Moved), "Had", *had, "Close", move.Latest)
	}
	return ans
}

func (sc *Scene) day(at time.Time) string { return sc.Voice.Date(rules.DateOf(at, sc.Settings.Zone)) }

func (sc *Scene) echoRogue(e rules.Entry) (Answer, error) {
	var ans Answer
	where := sc.Voice.Head(e.Subject)
	if *e.Count == 0 {
		ans.say(sc.Voice, "e_rogue_clear", "Builder", where, "When", e.Happened)
	} else {
		ans.say(sc.Voice, "e_rogue_found", "Builder", where, "When", e.Happened, "Count", *e.Count)
	}
	tasks, err := sc.Look.SubjectTasks(sc.Crew.ID, e.Subject)
	for _, k := range tasks {
		if k.Step != rules.Rogue || k.Batch == 0 {
			continue
		}
		if b, found, err := sc.Look.Batch(sc.Crew.ID, k.Batch); err != nil {
			return ans, err
		} else if !found || b.Ended {
			continue
		}
		batch := rules.BatchSubject(k.Batch)
		switch {
		case k.State == rules.Open:
			ans.join(sc.Voice, "e_rogue_again", "Batch", sc.Voice.Subject(batch), "Latest", k.Latest)
		case k.State == rules.Done && !e.Happened.Before(k.Earliest.Add(-rules.RogueEarly)) && e.Happened.Sub(k.Latest) < rules.StaleAfter:
			ans.join(sc.Voice, "e_rogue_ok", "Batch", sc.Voice.Subject(batch))
		}
	}
	return ans, err
}
