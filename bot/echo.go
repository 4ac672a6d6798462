package bot

import (
	"math"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// taskOf reads one task of a subject after replanning; the zero task where it
// has none.
func (t *talk) taskOf(s rules.Subject, step rules.Step, occ string) (rules.Task, error) {
	k, _, err := t.tx.Task(t.crew.ID, rules.TaskKey(s, step, occ))
	return k, err
}

func (t *talk) comb1(breeder int, id int64) (rules.Comb, error) {
	combs, err := t.tx.Combs(t.crew.ID, breeder)
	for _, c := range combs {
		if c.ID == id {
			return c, err
		}
	}
	return rules.Comb{}, err
}

func (t *talk) echoConfine(e rules.Entry) error {
	with := ""
	if e.Mark != "" {
		with += t.v.Say("with_mark", "Mark", e.Mark)
	}
	if e.Detail.BeesIn != nil {
		if *e.Detail.BeesIn {
			with += t.v.Say("with_bees")
		} else {
			with += t.v.Say("with_nobees")
		}
	}
	t.say("e_confine", "Breeder", t.v.Head(e.Subject), "When", e.Happened, "With", with)
	eggs, out, graft, err := t.combTasks(e.Subject, e.ID)
	if err != nil {
		return err
	}
	next := "e_confine_next"
	if !t.tx.Now.Before(out.Latest) {
		next = "e_confine_late"
	}
	t.say(next, "Eggs", eggs.Best, "Out", out.Best, "OutClose", out.Latest, "Graft", graft.Best, "Opens", graft.Earliest, "Closes", graft.Latest)
	t.warnUnfit(graft)
	return nil
}

func (t *talk) combTasks(s rules.Subject, comb int64) (eggs, out, graft rules.Task, err error) {
	occ := rules.Occ(comb)
	if eggs, err = t.taskOf(s, rules.Eggs, occ); err != nil {
		return
	}
	if out, err = t.taskOf(s, rules.CombOut, occ); err != nil {
		return
	}
	graft, err = t.taskOf(s, rules.Graft, occ)
	return
}

func (t *talk) warnUnfit(k rules.Task) {
	if k.Unfit && k.State == rules.Open {
		t.say("w_unfit")
	}
}

func (t *talk) echoComb(e rules.Entry) error {
	c, err := t.comb1(e.Subject.Number(), e.Detail.Comb)
	if err != nil {
		return err
	}
	eggs, out, graft, err := t.combTasks(e.Subject, c.ID)
	if err != nil {
		return err
	}
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
	who := t.v.Head(e.Subject)
	if c.Mark != "" {
		who = wording.Upper(t.v.Say("subject_comb", "Key", e.Subject.Key, "Mark", c.Mark))
	}
	t.say(id, "Breeder", who, "When", e.Happened, "Eggs", eggs.Best, "Out", out.Best, "OutClose", out.Latest, "Graft", graft.Best, "Opens", graft.Earliest, "Closes", graft.Latest)
	if from, to := c.Laying(); e.Step == rules.CombOut && !c.Failed && to.Sub(from) < 6*time.Hour {
		id := "w_short_stay"
		if to.Sub(from) < time.Hour {
			id = "w_no_stay"
		}
		t.say(id, "Hours", to.Sub(from).Hours())
	}
	if e.Step == rules.CombOut && !c.Failed {
		t.warnUnfit(graft)
	}
	return nil
}

func (t *talk) echoGraft(e rules.Entry) error {
	b, _, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
	if err != nil {
		return err
	}
	accept, err := t.taskOf(e.Subject, rules.Accept, "")
	if err != nil {
		return err
	}
	move, err := t.taskOf(e.Subject, rules.Move, "")
	if err != nil {
		return err
	}
	cells := t.v.Say("e_graft_uncounted")
	if e.Count != nil {
		cells = t.v.Say("e_graft_cells", "Count", *e.Count)
	}
	into, at := "", ""
	if e.Into != "" {
		into = t.v.Say("e_graft_into", "Builder", e.Into)
	}
	if !e.Happened.Equal(e.Said.Truncate(time.Second)) {
		at = " " + t.v.At(e.Happened)
	}
	t.say("e_graft", "Batch", t.v.Head(e.Subject), "Cells", cells, "From", t.v.Say("e_graft_from", "Breeder", rules.BreederSubject(e.From)), "Into", into, "Time", at, "Ages", t.v.Ages(b.Age))
	next := "e_graft_next"
	if !t.tx.Now.Before(accept.Latest) {
		next = "e_graft_next_late"
	}
	t.say(next, "Accept", accept.Best, "Close", move.Latest, "Best", move.Best)
	if w := rules.AgeWarning(b.Age); w != "" {
		t.say("w_"+w, "Hours", b.Age.Hi-24)
	}
	t.warnUnfit(move)
	t.warnMove(b)
	if e.Count == nil {
		t.askCount(e, nil)
	} else if e.Into == "" {
		t.ask("w_no_builder")
		n, err := t.names()
		if err != nil {
			return err
		}
		for _, name := range n.builders[:min(len(n.builders), mostButtons)] {
			t.buttons = append(t.buttons, wording.Button(name, intoDo(e.ID, name)))
		}
	}
	return nil
}

// warnMove says the chance of a virgin where the crew's own move time lies after
// the safe time of this batch.
func (t *talk) warnMove(b rules.Batch) {
	if t.s.MoveAt == 0 {
		return
	}
	at := b.Grafted.Add(t.s.MoveAt)
	if at.After(b.Safe) {
		t.say("w_move_batches", "Batch", t.v.Head(rules.BatchSubject(b.Number)), "Safe", b.Safe, "Chance", chance(b.Emergence(t.s).AnyOut(at)))
	}
}

func chance(p float64) float64 { return math.Max(1, p*100) }

// askCount asks for a missing number below what was logged; the answer completes
// the line.
func (t *talk) askCount(e rules.Entry, had *int) {
	of, ex := "", ""
	if had != nil {
		of = t.v.Say("ask_of", "Count", *had)
	}
	if id := "ask_count_" + string(e.Step); t.v.Has(id) && e.Into == "" {
		ex = t.v.Say(id)
	}
	id := "ask_count"
	if e.Step == rules.Nucs {
		id = "ask_nucs"
	}
	t.ask(id, "Of", of, "Example", ex)
	if had != nil && *had > 0 {
		t.buttons = append(t.buttons, wording.Button(t.v.Say("b_all", "Count", *had), amendDo(e.ID, *had)))
	}
}

// echoBatch says what a step of a batch leads to. b is read after replanning.
func (t *talk) echoBatch(e rules.Entry) error {
	b, _, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
	if err != nil {
		return err
	}
	get := func(step rules.Step) rules.Task {
		k, e2 := t.taskOf(e.Subject, step, "")
		if e2 != nil {
			err = e2
		}
		return k
	}
	head := t.v.Head(e.Subject)
	before := b.Counts // counts up to the step, without the step's own
	had, _ := before.Stage(e.Step)
	of := ""
	if e.Count != nil && e.Of != nil {
		of = t.v.Say("e_of", "Of", *e.Of)
	} else if e.Count != nil && had != nil {
		of = t.v.Say("e_of", "Of", *had)
	}
	at, to := "", ""
	if e.Into != "" {
		at, to = t.v.Say("e_at", "Yard", e.Into), t.v.Say("e_to", "Yard", e.Into)
	}
	move, finish := get(rules.Move), get(rules.Finish)
	switch e.Step {
	case rules.Accept:
		pc := ""
		if e.Count != nil && had != nil && *had > 0 {
			pc = t.v.Say("e_percent", "Percent", percent(*e.Count, *had))
		}
		id := "e_accept"
		if finish.State != rules.Open {
			id = "e_accept_plain"
		}
		t.say(id, "Batch", head, "Count", e.Count, "Of", of, "Percent", pc, "Finish", finish.Latest, "Close", move.Latest)
	case rules.Finish:
		into := ""
		if e.Into != "" {
			into = " " + e.Into
		}
		t.say("e_finish", "Batch", head, "Into", into, "When", e.Happened, "Capped", get(rules.Capped).Best, "Close", move.Latest)
	case rules.Capped:
		off := get(rules.HandsOff)
		t.say("e_capped", "Batch", head, "Count", e.Count, "Of", of, "From", off.Earliest, "Until", off.Latest, "Close", move.Latest, "Best", move.Best)
	case rules.Nucs:
		id := "e_nucs"
		if !t.tx.Now.Before(move.Earliest) {
			id = "e_nucs_open"
		}
		t.say(id, "Count", t.v.Count(e.Step, e.Count), "At", at, "Batch", head, "Open", move.Earliest, "Close", move.Latest, "Best", move.Best)
	case rules.Move:
		t.say("e_move", "Batch", head, "Count", e.Count, "To", to, "When", e.Happened, "Emerge", b.Emerges, "Check", get(rules.Emerge).Best)
		if e.Happened.After(move.Latest) {
			where := b.Builder
			if where == "" {
				where = t.v.Say("prep_builder")
			}
			t.say("w_late_move", "Close", move.Latest, "Builder", where)
		} else if e.Happened.Before(move.Earliest) {
			t.say("w_early_move", "Open", move.Earliest)
		}
	case rules.Emerge:
		if e.Detail.NoneYet {
			if move.State == rules.Open {
				t.say("e_none_yet_cells", "Batch", head, "When", e.Happened, "Close", move.Latest)
				break
			}
			t.say("e_none_yet", "Batch", head, "When", e.Happened, "Emerges", b.Emerges, "Next", get(rules.Emerge).Best)
			break
		}
		fl := get(rules.Flights)
		t.say("e_emerge", "Batch", head, "Count", e.Count, "Of", of, "From", t.day(fl.Earliest), "Until", t.day(fl.Latest), "Laying", get(rules.Laying).Best)
	case rules.Laying:
		c := get(rules.Catch)
		t.say("e_laying", "Batch", head, "Count", e.Count, "Of", of, "Open", c.Earliest, "Best", c.Best)
		if second, e2 := t.taskOf(e.Subject, rules.Laying, "2"); e2 != nil {
			err = e2
		} else if second.State == rules.Open && had != nil && e.Count != nil {
			t.join("e_laying_second", "Rest", *had-*e.Count, "Second", second.Best)
		}
	case rules.Catch:
		t.say("e_catch", "Batch", head, "Count", e.Count, "At", at, "Recell", e.Happened.Add(72*time.Hour))
	case rules.Recell:
		t.say("e_recell", "Batch", head, "Count", e.Count, "At", at)
	}
	if err == nil && e.Count == nil && atOneYard(e, b) {
		had, err = t.allAt(e, b)
	}
	if err != nil {
		return err
	}
	t.afterBatch(e, b, had, move)
	return nil
}

// afterBatch adds what a batch line leaves open: none left, a rest, a missing
// number or yard, fragile days.
func (t *talk) afterBatch(e rules.Entry, b rules.Batch, had *int, move rules.Task) {
	if b.Ended {
		t.lines = nil
		t.say("e_none", "Batch", t.v.Head(e.Subject), "Past", t.v.Past(e.Step, e.Count))
		return
	}
	off := t.s.Table.Row(rules.HandsOff, "")
	from, _, until := off.Window(b.Grafted)
	if (e.Step == rules.Move || e.Step == rules.Finish) && e.Happened.After(from) && e.Happened.Before(until) && e.Happened.Before(move.Earliest) {
		t.say("w_handsoff", "Until", move.Earliest)
	}
	switch rest := b.Rest(e.Step); {
	case e.Count == nil && rules.NeedsCount[e.Step]:
		if e.Step == rules.Nucs {
			had = nil // there may be more nucs than cells
		}
		t.askCount(e, had)
	case e.Step == rules.Move && e.Into == "":
		t.ask("ask_yard")
		n, err := t.names()
		if err == nil {
			for _, y := range n.yards[:min(len(n.yards), mostButtons)] {
				t.buttons = append(t.buttons, wording.Button(y, intoDo(e.ID, y)))
			}
		}
	case t.follows:
		// The next part of the message says more of the same; it asks for the rest.
	case rest > 0 && e.Step == rules.Move:
		t.ask("e_move_more", "Rest", rest, "Had", wording.Deref(b.Counts.Moved)+rest, "Close", move.Latest)
		t.offer("b_more", "more")
		t.offer("b_none_left", allDo(e.ID))
	case rest > 0 && e.Step == rules.Catch:
		t.say("e_catch_more", "Rest", rest, "Had", wording.Deref(b.Counts.Laying))
	case e.Step == rules.Move && had != nil && *had-wording.Deref(b.Counts.Moved) > 2 && t.tx.Now.Before(move.Latest):
		t.say("e_move_few", "Rest", *had-wording.Deref(b.Counts.Moved), "Had", *had, "Close", move.Latest)
	}
}

func (t *talk) day(at time.Time) string { return t.v.Date(rules.DateOf(at, t.s.Zone)) }

func (t *talk) echoRogue(e rules.Entry) error {
	where := t.v.Head(e.Subject)
	if *e.Count == 0 {
		t.say("e_rogue_clear", "Builder", where, "When", e.Happened)
	} else {
		t.say("e_rogue_found", "Builder", where, "When", e.Happened, "Count", *e.Count)
	}
	tasks, err := t.tx.SubjectTasks(t.crew.ID, e.Subject)
	for _, k := range tasks {
		if k.Step != rules.Rogue || k.Batch == 0 {
			continue
		}
		if b, found, err := t.tx.Batch(t.crew.ID, k.Batch); err != nil {
			return err
		} else if !found || b.Ended {
			continue
		}
		batch := t.v.Subject(rules.BatchSubject(k.Batch))
		switch {
		case k.State == rules.Open:
			t.join("e_rogue_again", "Batch", batch, "Latest", k.Latest)
		case k.State == rules.Done && !e.Happened.Before(k.Earliest.Add(-rules.RogueEarly)) && e.Happened.Sub(k.Latest) < rules.StaleAfter:
			t.join("e_rogue_ok", "Batch", wording.Upper(batch))
		}
	}
	return err
}
