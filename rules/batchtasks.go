package rules

import (
	"strconv"
	"strings"
	"time"
)

// overtakes lists the steps that need no answer any more once a later one is logged.
var overtakes = map[Step][]Step{
	Capped: {Accept, Finish},
	Move:   {Accept, Finish, Capped, HandsOff, Nucs},
	Emerge: {Accept, Finish, Capped, HandsOff, Nucs, Move},
	Laying: {Accept, Finish, Capped, HandsOff, Nucs, Move, Emerge, Flights},
	Catch:  {Accept, Finish, Capped, HandsOff, Nucs, Move, Emerge, Flights, Laying},
	Recell: {Accept, Finish, Capped, HandsOff, Nucs, Move, Emerge, Flights, Laying, Catch},
}

// YardSep stands between the yards of a task whose batch is in several.
const YardSep = ", "

// BatchTasks are all tasks of a batch, those already answered among them.
func BatchTasks(b Batch, entries []Entry, s *Settings) []Task {
	subject := BatchSubject(b.Number)
	yard := strings.Join(b.Yards, YardSep)
	cells, stands := b.cells(), b.Stands()
	make_ := func(step Step, variant, occ, reason string, anchor time.Time) Task {
		row := s.Table.Row(step, variant)
		t := Task{Subject: subject, Occ: occ, State: Open, Reason: reason, Anchor: anchor, Batch: b.Number, Breeder: b.Breeder, Mark: b.Mark}.with(row)
		t.Earliest, t.Ideal, t.Latest = row.Window(anchor)
		t.Count, t.From, t.Into = cells, stands, yard
		return t
	}
	tasks := make([]Task, 0, 16)
	add := func(t Task) { t.fit(s); tasks = append(tasks, t) }

	for _, step := range []Step{Accept, Finish, Capped} {
		add(make_(step, "", "", "grafted", b.Grafted))
	}
	move := make_(Move, "", "", "grafted", b.Grafted)
	move.Earliest, move.Ideal, move.Latest = MoveWindow(b.Emergence(s), s.Table.Row(Move, ""), s.MoveAt)
	move.fit(s)

	// Hands off from sealing until ripe; both ends go with the age of the larvae
	// like the move itself.
	off := make_(HandsOff, "", "", "grafted", b.Grafted)
	older := Hours(max(0, b.Age.Hi-24))
	off.Earliest, off.Ideal, off.Latest = off.Earliest.Add(-older), off.Ideal.Add(-older), off.Latest.Add(-older)
	if off.Latest.After(move.Earliest) {
		off.Latest = move.Earliest
	}
	if off.Earliest.Before(off.Latest) {
		add(off)
	}

	nucs := make_(Nucs, "", "", "grafted", b.Grafted)
	shift := move.Latest.Sub(b.Grafted.Add(Hours(s.Table.Row(Move, "").Latest)))
	if shift < 0 {
		nucs.Earliest, nucs.Ideal, nucs.Latest = nucs.Earliest.Add(shift), nucs.Ideal.Add(shift), nucs.Latest.Add(shift)
	}
	if nucs.Latest.After(move.Best) {
		// Nucs stand ready before the cells come, whenever the crew moves them.
		nucs.Latest = move.Best
		nucs.Ideal = clampTime(nucs.Ideal, nucs.Earliest, nucs.Latest)
	}
	add(nucs)

	if rest := b.Rest(Move); rest > 0 {
		move.Count = &rest
	}
	move.hurry(b, entries)
	tasks = append(tasks, move)

	queens := b.Counts.Moved
	if queens == nil {
		queens = cells
	} else if lost := b.Account.Queens.LostAt(Move); lost > 0 {
		left := *queens - lost
		queens = &left
	}
	after := func(step Step, variant, occ, reason string, anchor time.Time, n *int) Task {
		t := make_(step, variant, occ, reason, anchor)
		t.Count, t.From, t.Into = n, yard, ""
		return t
	}
	emerge := after(Emerge, "", "", "emerged", b.Emerges, queens)
	emerge.teach(b, s)
	emerge.lookAgain(b, entries, s)
	emerge.onlyUntold(b)
	add(emerge)
	add(after(Flights, "", "", "emerged", b.Emerges, queens))
	emerged := b.Counts.Emerged
	if emerged == nil {
		emerged = queens
	}
	if lost := b.Account.Queens.LostAt(Emerge); lost > 0 && emerged != nil {
		left := *emerged - lost
		emerged = &left
	}
	look := after(Laying, "", "", "emerged", b.Emerges, emerged)
	look.onlyUntold(b)
	add(look)
	layings := did(entries, Laying)
	if n := len(layings); n > 0 {
		last := layings[n-1].Count
		looks, first := lookings(layings)
		if layings[n-1].Detail.Part {
			last = b.Counts.Laying
		}
		if looks > 1 || (last != nil && emerged != nil && *last < *emerged) {
			second := after(Laying, "second", "2", "emerged", b.Emerges, emerged)
			if first.After(second.Earliest) {
				// The first look was late: give the late starters some days from it.
				d := first.Sub(second.Earliest)
				second.Earliest, second.Ideal, second.Latest = second.Earliest.Add(d), second.Ideal.Add(d), second.Latest.Add(d)
			}
			second.fit(s)
			if looks > 1 {
				second.State = Done
			}
			tasks = append(tasks, second)
		}
	}
	laying := b.Counts.Laying
	if laying == nil || *laying == 0 {
		laying = emerged
	}
	if lost := b.Account.Queens.LostAt(Laying); lost > 0 && laying != nil {
		left := *laying - lost
		laying = &left
	}
	catch := after(Catch, "", "", "emerged", b.Emerges, laying)
	for len(layings) > 0 && layings[0].Count != nil && *layings[0].Count == 0 {
		layings = layings[1:]
	}
	if len(layings) > 0 {
		// Age and days of laying are two tests (Rhodes et al. 2004 for age): the
		// laying seen first has lasted a week by then at the least.
		if week := layings[0].Happened.Add(7 * 24 * time.Hour); week.After(catch.Earliest) {
			catch.Earliest, catch.Reason = week, "laying7"
			catch.Ideal = clampTime(catch.Ideal, catch.Earliest, catch.Latest.Add(7*24*time.Hour))
			if catch.Latest.Before(catch.Ideal) {
				catch.Latest = catch.Ideal.Add(7 * 24 * time.Hour)
			}
		}
	}
	catch.fit(s)
	if rest := b.Rest(Catch); rest > 0 {
		catch.Count = &rest
	}
	tasks = append(tasks, catch)
	for i, c := range did(entries, Catch) {
		occ := ""
		if i > 0 {
			occ = strconv.Itoa(i + 1)
		}
		t := make_(Recell, "", occ, "caught", c.Happened)
		t.Count, t.From, t.Into = c.Count, "", yard
		if c.Into != "" {
			t.Into = c.Into
		}
		add(t)
	}
	settle(tasks, b, entries)
	answers(tasks, entries, s)
	return tasks
}

// settle marks what was done, what was overtaken and what has nothing left.
func settle(tasks []Task, b Batch, entries []Entry) {
	finished := make(map[Step]bool, 8) // steps with a line that closes them
	rest, recells := true, 0           // whether anything is to come of what is left, and how often cells were given anew
	for i := range entries {
		e := &entries[i]
		if e.Action != Did || e.Detail.Unfinished() {
			continue
		}
		// A count of one yard answers for no other.
		if e.Detail.Part && b.Account.Queens.Count(e.Step) == nil {
			continue
		}
		finished[e.Step] = true
		if e.Detail.All {
			rest = false
		}
		if e.Step == Recell {
			recells++
		}
	}
	for i := range tasks {
		t := &tasks[i]
		switch {
		case t.Step == Laying && t.Occ == "2":
		case t.Step == Recell:
			if recells > 0 {
				t.State = Done
				recells--
			}
		case finished[t.Step]:
			t.State = Done
			if (t.Step == Move || t.Step == Catch) && b.Rest(t.Step) > 0 && rest {
				t.State = Open
			}
		}
		if t.State != Open {
			continue
		}
		for step, over := range overtakes {
			if finished[step] && containsStep(over, t.Step) && !(t.Step == Move && b.Rest(Move) > 0 && step == Move) {
				t.State = Passed
			}
		}
		if b.Ended && !finished[t.Step] {
			t.State = Passed
		}
		if b.Ended && t.Step != Recell {
			t.State = Passed
		}
	}
}

// noFinisher takes the move to a finisher out of the tasks of a batch that stays where it was
// grafted.
func noFinisher(tasks []Task) {
	for i := range tasks {
		if t := &tasks[i]; t.Step == Finish && t.State == Open {
			t.State = Passed
		}
	}
}

func containsStep(list []Step, s Step) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// onlyUntold narrows a look to the yards that are still to be counted, once others are.
func (t *Task) onlyUntold(b Batch) {
	if yards, n := b.Account.Untold(t.Step); yards != nil {
		t.From, t.Count = strings.Join(yards, YardSep), n
	}
}
