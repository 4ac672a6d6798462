package rules

import "sort"

// Effective is the logbook as it counts: voided entries are gone and amended
// ones carry their newest values under their own ID. The order is by when the
// work happened, then by when it was logged.
func Effective(entries []Entry) []Entry {
	if len(entries) == 0 {
		return nil
	}
	voided := map[int64]bool{}
	// Newest first, so that a void that was itself taken back does not count.
	for i := len(entries) - 1; i >= 0; i-- {
		if e := entries[i]; e.Action == Void && !voided[e.ID] {
			voided[e.Ref] = true
		}
	}
	amends := map[int64]Entry{}
	for _, e := range entries {
		if e.Action == Amend && !voided[e.ID] {
			amends[e.Ref] = e
		}
	}
	out := make([]Entry, 0, len(entries))
	for _, e := range entries {
		if e.Action == Void || e.Action == Amend || voided[e.ID] {
			continue
		}
		if a, ok := amends[e.ID]; ok {
			e.Happened, e.Count, e.Of = a.Happened, a.Count, a.Of
			e.From, e.Into, e.Mark, e.Detail = a.From, a.Into, a.Mark, a.Detail
		}
		out = append(out, e)
	}
	if len(out) == 0 {
		return nil
	}
	byTime := func(i, j int) bool {
		if !out[i].Happened.Equal(out[j].Happened) {
			return out[i].Happened.Before(out[j].Happened)
		}
		return out[i].ID < out[j].ID
	}
	if !sort.SliceIsSorted(out, byTime) { // it nearly always is
		sort.SliceStable(out, byTime)
	}
	return out
}

func did(entries []Entry, step Step) []Entry {
	n := 0
	for i := range entries {
		if entries[i].Action == Did && entries[i].Step == step {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	out := make([]Entry, 0, n)
	for i := range entries {
		if entries[i].Action == Did && entries[i].Step == step {
			out = append(out, entries[i])
		}
	}
	return out
}

// answers settles claims, snoozes and skips on a list of tasks. Entries about a
// task name its step and occurrence.
func answers(tasks []Task, entries []Entry) {
	type about struct {
		subject Subject
		step    Step
		occ     string
	}
	given := map[about][]Entry{} // each line is looked at once, however many tasks there are
	for _, e := range entries {
		switch e.Action {
		case Mine, Later, Skip:
			k := about{e.Subject, e.Step, e.Detail.Occ}
			given[k] = append(given[k], e)
		}
	}
	if len(given) == 0 {
		return
	}
	for i := range tasks {
		t := &tasks[i]
		for _, e := range given[about{t.Subject, t.Step, t.Occ}] {
			switch e.Action {
			case Mine:
				t.ClaimedBy = e.By
			case Later:
				t.Snoozed = millis(e.Detail.Until)
			case Skip:
				if t.State == Open {
					t.State = Skipped
				}
			}
		}
	}
}
