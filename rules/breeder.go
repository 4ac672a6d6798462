package rules

import (
	"strconv"
	"time"
)

// Breeder is what the logbook says of one numbered breeder queen.
type Breeder struct {
	Number int
	Yard   string
	Added  time.Time
	Comb   int64 // the comb she is confined on, 0 for none
}

// CauseDied is the cause of a breeder that is dead, as the logbook has it.
const CauseDied = "died"

// Retired finds the line that took a breeder out of every plan, nil where she is in: one
// that was added after it is another queen of the same number.
func Retired(entries []Entry) (gone *Entry) {
	for i := range entries {
		switch e := &entries[i]; {
		case e.Action != Did:
		case e.Step == Retire:
			gone = e
		case e.Step == Add:
			gone = nil
		}
	}
	return gone
}

// withoutHer passes over the tasks that need a breeder who is gone. A comb that was out
// before, or on which eggs were seen, holds larvae of hers: the graft from it stays.
func withoutHer(tasks []Task, combs []Comb, gone *Entry) {
	larvae := map[string]bool{}
	for _, c := range combs {
		larvae[Occ(c.ID)] = !c.Failed && (!c.EggsSeen.IsZero() || !c.Out.IsZero() && !c.Out.After(gone.Happened))
	}
	for i := range tasks {
		if t := &tasks[i]; t.State == Open && !(t.Step == Graft && larvae[t.Occ]) {
			t.State = Passed
		}
	}
}

// GraftRef is all that a breeder's plan looks at in a batch that was grafted from her.
type GraftRef struct {
	Batch int
	Comb  int64
	At    time.Time
}

// GraftRef is the batch as its breeder's plan sees it.
func (b Batch) GraftRef() GraftRef { return GraftRef{Batch: b.Number, Comb: b.Comb, At: b.Grafted} }

func millis(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).UTC()
}

// Combs reads a breeder's confinements out of her effective entries.
func Combs(number int, entries []Entry) []Comb {
	confined := did(entries, Confine)
	if len(confined) == 0 {
		return nil
	}
	combs := make([]Comb, 0, len(confined))
	at := func(e *Entry) *Comb {
		for i := range combs {
			if combs[i].ID == e.Detail.Comb {
				return &combs[i]
			}
		}
		return nil
	}
	for _, e := range confined {
		combs = append(combs, Comb{ID: e.ID, Breeder: number, Mark: e.Mark, Confined: e.Happened, BeesIn: e.Detail.BeesIn})
	}
	for i := range entries {
		e := &entries[i]
		if e.Action != Did {
			continue
		}
		c := at(e)
		if c == nil || e.Happened.Before(c.Confined) {
			continue
		}
		switch e.Step {
		case Eggs:
			if e.Detail.NoEggs {
				if e.Happened.After(c.NoEggs) {
					c.NoEggs = e.Happened
				}
			} else if c.EggsSeen.IsZero() || e.Happened.Before(c.EggsSeen) {
				c.EggsSeen = e.Happened
			}
			if e.Mark != "" && c.Mark == "" {
				c.Mark = e.Mark
			}
		case CombOut:
			if c.Out.IsZero() || e.Happened.Before(c.Out) {
				c.Out, c.Released, c.Failed = e.Happened, e.Detail.Release, e.Detail.NoEggs
			}
			if e.Mark != "" && c.Mark == "" {
				c.Mark = e.Mark
			}
		}
	}
	return combs
}

// PlanBreeder derives a breeder, her combs and her tasks. exists is false for one who is
// gone: nothing is planned with her.
func PlanBreeder(number int, entries []Entry, grafts []GraftRef, flow []FlowLine, s *Settings) (b Breeder, exists bool, combs []Comb, tasks []Task) {
	b.Number = number
	for _, e := range did(entries, Add) {
		exists, b.Added, b.Yard = true, e.Happened, e.Into
	}
	combs = Combs(number, entries)
	tasks = make([]Task, 0, 3*len(combs)+2) // and what the caller may add
	for _, c := range combs {
		if c.Out.IsZero() {
			b.Comb = c.ID
		}
		tasks = combTasks(tasks, c, grafts, s)
	}
	if c, on := OpenComb(combs); on {
		// Shut on her comb she lives on what stands beside her: a slow feeder of a few
		// hundred ml (common practice).
		if since, dearth := DearthAt(flow, b.Yard); dearth {
			if c.Confined.After(since) {
				since = c.Confined
			}
			t := feedTask(BreederSubject(number), BreederEater, 1, since, did(entries, Feed), s)
			t.Breeder = number
			tasks = append(tasks, t)
		}
	}
	answers(tasks, entries, s)
	if gone := Retired(entries); gone != nil {
		exists = false
		withoutHer(tasks, combs, gone)
	}
	return b, exists, combs, tasks
}

// combTasks puts what a comb asks for behind other tasks.
func combTasks(tasks []Task, c Comb, grafts []GraftRef, s *Settings) []Task {
	subject, occ := BreederSubject(c.Breeder), Occ(c.ID)
	base := Task{Subject: subject, Occ: occ, State: Open, Reason: "confined", Anchor: c.Confined, Breeder: c.Breeder, Mark: c.Mark}
	row := s.Table.Row(Eggs, "")
	eggs := base.with(row)
	eggs.Earliest, eggs.Ideal, eggs.Latest = row.Window(c.Confined)
	if !c.NoEggs.IsZero() && c.EggsSeen.IsZero() {
		// Looked and found none: look again after half the usual wait.
		eggs.Reason, eggs.Anchor = "noeggs", c.NoEggs
		eggs.Earliest, eggs.Ideal, eggs.Latest = c.NoEggs.Add(6*time.Hour), c.NoEggs.Add(12*time.Hour), c.NoEggs.Add(24*time.Hour)
	}
	eggs.fit(s)
	switch {
	case !c.EggsSeen.IsZero():
		eggs.State = Done
	case !c.Out.IsZero():
		eggs.State = Passed
	}

	row = s.Table.Row(CombOut, "")
	out := base.with(row)
	from := c.PlannedOut().Add(-Hours(PlannedStay))
	out.Earliest, out.Ideal, out.Latest = row.Window(from)
	if from.After(c.Confined) {
		out.Reason, out.Anchor = "noeggs", c.NoEggs
	}
	out.fit(s)
	if !c.Out.IsZero() {
		out.State = Done
	}

	row = s.Table.Row(Graft, "")
	graft := base.with(row)
	graft.Reason = "laying"
	graft.Anchor, _ = c.Laying()
	graft.Earliest, graft.Ideal, graft.Latest = GraftWindow(c, row)
	graft.fit(s)
	if c.Failed {
		graft.State = Passed
	}
	for _, g := range grafts {
		if g.Comb == c.ID {
			graft.State, graft.Batch = Done, g.Batch
		}
	}
	if graft.State == Done {
		// Larvae were taken from it, so it is out, whether or not anybody said so.
		for _, t := range []*Task{&eggs, &out} {
			if t.State == Open {
				t.State = Passed
			}
		}
	}
	return append(tasks, eggs, out, graft)
}

// with fills in what a task has from its row.
func (t Task) with(r Row) Task {
	t.Step, t.Weight, t.Guard, t.Stake, t.Source = r.Step, r.Weight, r.Kind == "guard", r.Stake, r.Source
	t.Key = TaskKey(t.Subject, r.Step, t.Occ)
	return t
}

// fit sets the best time from the ideal one: inside working hours where the
// window has any. Guards are times to keep away and are not fitted.
func (t *Task) fit(s *Settings) {
	t.Best = t.Ideal
	if !t.Guard {
		var ok bool
		t.Best, ok = s.FitWork(t.Earliest, t.Ideal, t.Latest)
		t.Unfit = !ok
	}
	for _, p := range []*time.Time{&t.Earliest, &t.Best, &t.Latest, &t.Ideal} {
		*p = p.Truncate(time.Minute).UTC()
	}
}

// Occ spells the occurrence of a comb's tasks.
func Occ(comb int64) string { return strconv.FormatInt(comb, 10) }
