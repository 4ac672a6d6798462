package conversation

import (
	"cmp"
	"slices"

	"yardbell/rules"
	"yardbell/store"
)

// checkTime asks back another time for a line that cannot be: not yet come, before
// what it rests on, or after what rests on it.
func (sc *Scene) checkTime(l store.Line, old, e rules.Entry) (*rules.Refusal, error) {
	if e.Happened.Equal(old.Happened) {
		return nil, nil
	}
	e.Said = sc.Origin.Said
	if bad := sc.allowed(rules.CheckTime(e)); bad != nil {
		return bad, nil
	}
	switch {
	case e.Subject.Kind == rules.BatchKind && e.Step != rules.Graft:
		b, found, err := sc.Look.Batch(sc.Crew.ID, e.Subject.Number())
		if err != nil || found && e.Happened.Before(b.Grafted) {
			return &rules.Refusal{Code: "before_graft", Args: map[string]any{"Batch": b.Number, "When": e.Happened, "Grafted": b.Grafted}}, err
		}
	case e.Detail.Comb != 0:
		return rules.CheckComb(e, e.Subject.Number(), sc.comb1(e.Subject.Number(), e.Detail.Comb), true), nil
	case e.Step == rules.Graft || e.Step == rules.Confine:
		after, err := sc.hanging([]store.Line{l})
		for _, m := range after {
			cur, ok, err := sc.current(m)
			if err != nil {
				return nil, err
			}
			if ok && cur.Action == rules.Did && cur.Happened.Before(e.Happened) {
				return &rules.Refusal{Code: "amend_after", Args: map[string]any{"What": sc.Voice.Line(cur.Entry), "At": cur.Happened, "When": e.Happened}}, nil
			}
		}
		return nil, err
	}
	return nil, nil
}

// openTasks remembers the open tasks, to tell later which of them moved.
func (sc *Scene) openTasks() (map[string]rules.Task, error) {
	list, err := sc.Look.OpenTasks(sc.Crew.ID)
	out := map[string]rules.Task{}
	for _, k := range list {
		out[k.Key] = k
	}
	return out, err
}

// mostMoved is how many moved windows are named one by one.
const mostMoved = 4

// changed tells which windows moved, and only those.
func (sc *Scene) changed(before map[string]rules.Task) (Answer, error) {
	var ans Answer
	list, err := sc.Look.OpenTasks(sc.Crew.ID)
	var moved []rules.Task
	for _, k := range list {
		old, had := before[k.Key]
		if had && !k.Guard && !(old.Best.Equal(k.Best) && old.Latest.Equal(k.Latest)) {
			moved = append(moved, k)
		}
	}
	// What loses a batch is named first, the rest by its time.
	slices.SortStableFunc(moved, func(a, b rules.Task) int { return cmp.Compare(b.Weight, a.Weight) })
	for i, k := range moved {
		if i == mostMoved {
			ans.say(sc.Voice, "e_moves_more", "Count", len(moved)-i)
			break
		}
		ans.say(sc.Voice, "e_moves", "Task", sc.Voice.Task(k), "Best", k.Best, "Close", k.Latest)
	}
	return ans, err
}
