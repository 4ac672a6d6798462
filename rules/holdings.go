package rules

import "time"

// Holding is a place or a yard that holds something of a batch.
type Holding struct {
	Where string // name of the builder, incubator or yard, as in Entry.Into; "" where it is not known
	Yard  bool   // it is in nucs
	Count *int   // nil where nobody counted
	Since time.Time
}

// Holdings are the places that hold something of a batch, those of cells first. Lots in one
// place are one holding.
func (a Account) Holdings() (out []Holding) {
	for _, l := range a.Lots {
		at := -1
		for i := range out {
			if out[i].Where == l.Place {
				at = i
			}
		}
		if at < 0 {
			out = append(out, Holding{Where: l.Place, Count: l.Count, Since: l.Since})
			continue
		}
		if l.Since.Before(out[at].Since) {
			out[at].Since = l.Since
		}
		if out[at].Count == nil || l.Count == nil {
			out[at].Count = nil
			continue
		}
		out[at].Count = plus(out[at].Count, l.Count)
	}
	for _, y := range a.Yards {
		if n := y.Present(); n == nil || *n > 0 {
			h := Holding{Where: y.Yard, Yard: true, Count: n}
			if c := y.stage(Move); c != nil {
				h.Since = c.At
			}
			out = append(out, h)
		}
	}
	return out
}

// Holding is what a place holds of a batch, ok false where it is nothing.
func (a Account) Holding(where string) (h Holding, ok bool) {
	for _, h := range a.Holdings() {
		if h.Where == where {
			return h, true
		}
	}
	return h, false
}

// HadAt is the newest count of one yard up to a step, less what was lost there since, and
// the step it was counted at.
func (b Batch) HadAt(yard string, before Step) (n *int, at Step) {
	for _, s := range b.Account.At(yard).Stages {
		if s.Step == before {
			break
		}
		left := s.Count - s.Lost
		n, at = &left, s.Step
	}
	return n, at
}

// lookings are the looks at the queens of a batch: how often all of it was looked at, or its
// yards one by one, and when the first look with any laying was. A count of one yard is no
// second look at another.
func lookings(layings []*Entry) (times int, first time.Time) {
	byYard := map[string]int{}
	whole := 0
	for _, e := range layings {
		if first.IsZero() {
			first = e.Happened
		}
		if !e.Detail.Part {
			whole++
			continue
		}
		byYard[e.Into]++
	}
	most := 0
	for _, n := range byYard {
		most = max(most, n)
	}
	return whole + most, first
}
