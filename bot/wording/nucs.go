package wording

import (
	"cmp"
	"slices"
	"strconv"
	"time"

	"yardbell/rules"
)

// Nuc words the state of so many nucs, nil for one.
func (v Voice) Nuc(s rules.NucState, n *int) string {
	if id := "nuc_" + string(s); v.Has(id) {
		return v.Say(id, "Count", max(1, Deref(n)))
	}
	return string(s) // of a newer program
}

// nucLine words what was logged of nucs.
func (v Voice) nucLine(e rules.Entry) string {
	of := ""
	if e.Detail.Batch != 0 {
		of = v.Say("l_nuc_of", "Batch", rules.BatchSubject(e.Detail.Batch))
	}
	if e.Subject.Kind == rules.NucKind {
		return v.Say("l_nuc", "Subject", e.Subject, "State", v.Nuc(e.Detail.State, nil), "Of", of)
	}
	id := "l_nucs_at"
	if e.Subject.Zero() {
		id = "l_nucs_some"
	}
	return v.Say(id, "Count", max(1, Deref(e.Count)), "State", v.Nuc(e.Detail.State, e.Count), "Yard", e.Subject.Key, "Of", of)
}

// Stand is nucs that are told of together.
type Stand struct {
	State   rules.NucState
	Batch   int
	N       int
	Numbers []string // that the crew gave to some of them
}

// Stands gathers a board by state and, of cells and queens, by batch. Those that were lost
// count for the year that it is.
func Stands(b rules.Board, now time.Time, zone *time.Location) (out []Stand) {
	for _, l := range b.Lots {
		batch := 0
		if l.State.Living() {
			batch = l.Batch
		}
		if l.State.Lost() && l.Since.In(zone).Year() != now.In(zone).Year() {
			continue
		}
		i := slices.IndexFunc(out, func(s Stand) bool { return s.State == l.State && s.Batch == batch })
		if i < 0 {
			i = len(out)
			out = append(out, Stand{State: l.State, Batch: batch})
		}
		out[i].N += l.N
		if l.Label != "" {
			out[i].Numbers = append(out[i].Numbers, l.Label)
		}
	}
	slices.SortStableFunc(out, func(a, b Stand) int {
		return cmp.Or(slices.Index(rules.NucStates, a.State)-slices.Index(rules.NucStates, b.State), a.Batch-b.Batch)
	})
	for i := range out {
		slices.SortFunc(out[i].Numbers, func(a, b string) int {
			x, _ := strconv.Atoi(a)
			y, _ := strconv.Atoi(b)
			return cmp.Or(x-y, cmp.Compare(a, b))
		})
	}
	return out
}

// Stand words nucs that are told of together: "24 with a cell (batch 2)".
func (v Voice) Stand(s Stand) string {
	of, marks := "", ""
	if s.Batch != 0 {
		of = v.Say("l_nuc_of", "Batch", rules.BatchSubject(s.Batch))
	}
	if s.Numbers != nil {
		marks = v.Say("nuc_marks", "List", JoinList(s.Numbers))
	}
	return v.Say("nuc_stand", "N", s.N, "State", v.Nuc(s.State, &s.N), "Of", of, "Marks", marks)
}

// Board words how the nucs of a yard stand.
func (v Voice) Board(b rules.Board, now time.Time) string {
	var list []string
	for _, s := range Stands(b, now, v.Settings.Zone) {
		list = append(list, v.Stand(s))
	}
	if list == nil {
		return v.Say("nuc_none")
	}
	return JoinList(list)
}

// LostNucs words what was lost of a yard's nucs in the year that it is.
func (v Voice) LostNucs(b rules.Board, now time.Time) string {
	var list []string
	for _, s := range Stands(b, now, v.Settings.Zone) {
		if s.State.Lost() {
			list = append(list, v.Stand(s))
		}
	}
	return JoinList(list)
}

// FreeBoard words the nucs of a yard that a cell can be given to.
func (v Voice) FreeBoard(b rules.Board) string {
	var list []string
	for _, s := range Stands(b, v.Now, v.Settings.Zone) {
		if s.State.Open() {
			list = append(list, v.Stand(s))
		}
	}
	if list == nil || len(list) == 1 && b.Free() == b.Unnumbered(rules.NucFree) {
		return "" // all are plainly free
	}
	return v.Say("nuc_which", "List", JoinList(list))
}

// Handled words nucs that are opened, or left alone, for the same time.
func (v Voice) Handled(g []rules.Handling) string { return v.Board(BoardOf(g), v.Now) }

// BoardOf is a board of some nucs alone, as they stand by now.
func BoardOf(g []rules.Handling) (b rules.Board) {
	for _, h := range g {
		l := h.NucLot
		l.State = h.State
		b.Lots = append(b.Lots, l)
	}
	return b
}

// FreeNucs words where the nucs stand free that a task to make up nucs does not ask for.
func (v Voice) FreeNucs(t rules.Task) string {
	var list []string
	for _, x := range rules.FreeNucs(t) {
		list = append(list, v.Say("nucs_free_at", "Yard", x.Yard, "Count", x.N))
	}
	return JoinList(list)
}
