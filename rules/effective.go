package rules

import (
	"cmp"
	"reflect"
	"slices"
	"sort"
)

// Effective is the logbook as it counts: voided entries are gone and amended
// ones carry their newest values under their own ID. The order is by when the
// work happened, then by when it was logged. Where every entry counts as it stands, it is
// the list that came in: neither is to be changed.
func Effective(entries []Entry) []Entry {
	if len(entries) == 0 {
		return nil
	}
	if asWritten(entries) {
		return slices.Clip(entries)
	}
	out := standing(entries)
	sort.SliceStable(out, func(i, j int) bool { return before(&out[i], &out[j]) })
	return out
}

// AsLogged is the logbook as it counts in the order in which it was logged, whatever the
// clocks said: of two settings the one logged last holds. By their times, the default
// that the machine wrote, with its clock ahead of the chat's, would overrule what the
// crew said next.
func AsLogged(entries []Entry) []Entry {
	out := standing(entries)
	sort.SliceStable(out, func(i, j int) bool { return out[i].ID < out[j].ID })
	return out
}

// standing are the entries that were not taken back, with their newest values, in the
// order in which they came.
func standing(entries []Entry) []Entry {
	voided := map[int64]bool{}
	// Newest first, so that a void that was itself taken back does not count.
	for i := len(entries) - 1; i >= 0; i-- {
		if e := &entries[i]; e.Action == Void && !voided[e.ID] {
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
			e = e.AmendedBy(a)
		}
		out = append(out, e)
	}
	if len(out) == 0 {
		return nil
	}
	return out
}

// AmendedBy is the entry with the values of an amendment: all that the amendment carries,
// but for which line it is, who logged it when, and what kind of thing it is about.
func (e Entry) AmendedBy(a Entry) Entry {
	a.ID, a.Said, a.By, a.Action, a.Step, a.Subject, a.Ref = e.ID, e.Said, e.By, e.Action, e.Step, e.Subject, e.Ref
	return a
}

// SameValues reports whether an amendment would leave the entry as it is.
func (e Entry) SameValues(a Entry) bool {
	if !e.Happened.Equal(a.Happened) {
		return false
	}
	a.Happened = e.Happened
	return reflect.DeepEqual(e, e.AmendedBy(a))
}

// before reports whether an entry comes before another in the logbook as it counts.
func before(a, b *Entry) bool {
	return a.Happened.Before(b.Happened) || a.Happened.Equal(b.Happened) && a.ID < b.ID
}

// asWritten reports whether nothing was taken back or changed and all was logged in the
// order in which it happened, which is nearly always so.
func asWritten(entries []Entry) bool {
	for i := range entries {
		e := &entries[i]
		if e.Action == Void || e.Action == Amend || i > 0 && !before(&entries[i-1], e) {
			return false
		}
	}
	return true
}

// did are the entries that say a step was done. They are not to be changed.
func did(entries []Entry, step Step) []*Entry {
	n := 0
	for i := range entries {
		if entries[i].Action == Did && entries[i].Step == step {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	out := make([]*Entry, 0, n)
	for i := range entries {
		if entries[i].Action == Did && entries[i].Step == step {
			out = append(out, &entries[i])
		}
	}
	return out
}

// answers settles claims, snoozes and skips on a list of tasks. Entries about a
// task name its step and occurrence.
func answers(tasks []Task, entries []Entry, s *Settings) {
	type about struct {
		subject Subject
		step    Step
		occ     string
	}
	var given map[about][]*Entry // each line is looked at once, however many tasks there are
	for i := range entries {
		switch e := &entries[i]; e.Action {
		case Mine, Later, Skip:
			if given == nil {
				given = map[about][]*Entry{}
			}
			k := about{e.Subject, e.Step, e.Detail.Occ}
			given[k] = append(given[k], e)
		}
	}
	if len(given) == 0 {
		return
	}
	for i := range tasks {
		t := &tasks[i]
		var taken int64 // the line that says who has it
		for _, e := range given[about{t.Subject, t.Step, t.Occ}] {
			switch e.Action {
			case Mine:
				t.ClaimedBy, taken = cmp.Or(e.Whom, e.By), e.ID
			case Later:
				t.Snoozed = millis(e.Detail.Until)
			case Skip:
				if t.State == Open {
					t.State = Skipped
				}
			}
		}
		t.lets(taken, s)
	}
}
