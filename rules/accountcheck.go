package rules

// CheckLose asks back a loss of more than are in the place that it names, or of what never
// was there. again is what the line counted before it was put right, 0 for a new one.
func CheckLose(e Entry, b Batch, again int) *Refusal {
	if e.Happened.Before(b.Grafted) {
		return refuse("before_graft", "Batch", b.Number, "When", e.Happened, "Grafted", b.Grafted)
	}
	if e.Into == "" {
		return nil
	}
	h, holds := b.Account.Holding(e.Into)
	if c := b.Account.At(e.Into).stage(Move); c != nil {
		h.Since = c.At
	}
	switch {
	case !holds && again == 0:
		return refuse("lost_elsewhere", "Batch", b.Number, "Where", e.Into)
	case e.Happened.Before(h.Since):
		return refuse("lost_before", "Batch", b.Number, "Where", e.Into, "When", h.Since)
	case e.Count != nil && holds && h.Count != nil && *e.Count > *h.Count+again:
		return refuse("lost_more", "Batch", b.Number, "Count", *e.Count, "Had", *h.Count+again, "Where", e.Into)
	}
	return nil
}

// CheckAccount asks back a line that has the accounts of a batch contradict themselves: more
// were counted, or moved on, than the count before leaves. What contradicted itself before
// the line is not asked about anew.
func CheckAccount(was, now Account, batch int) *Refusal {
	if now.Short > was.Short {
		return refuse("short_of", "Batch", batch, "Count", now.Short-was.Short)
	}
	if bad := now.Cells.overdrawn(was.Cells, Move); bad != nil {
		return bad.of(batch, "")
	}
	if bad := now.Queens.overdrawn(was.Queens, Catch); bad != nil {
		return bad.of(batch, "")
	}
	for _, y := range now.Yards {
		if bad := y.overdrawn(was.At(y.Yard), Catch); bad != nil {
			return bad.of(batch, y.Yard)
		}
	}
	return nil
}

// overdraft is a count that is more than the count before it leaves.
type overdraft struct {
	left, count int
	at          Step
}

func (o overdraft) of(batch int, yard string) *Refusal {
	return refuse("overdrawn", "Batch", batch, "Had", max(0, o.left), "Count", o.count, "At", o.at, "Where", yard)
}

// overdrawn is the first stage of which more came on than there were, and that did not do so
// before; out is the step that takes the last of them away.
func (t Tally) overdrawn(was Tally, out Step) *overdraft {
	for i, s := range t.Stages {
		o := overdraft{s.Count - s.Lost, t.Out, out}
		if i+1 < len(t.Stages) {
			o.count, o.at = t.Stages[i+1].Count, t.Stages[i+1].Step
		}
		if o.left >= o.count {
			continue
		}
		if old, ok := was.short(o.at); !ok || old > o.left-o.count {
			return &o
		}
	}
	return nil
}

// short is how many are missing at a step, negative where more came on than there were.
func (t Tally) short(at Step) (n int, ok bool) {
	if n, ok := t.Missing(at); ok {
		return n, true
	}
	if p := t.Present(); p != nil {
		return *p, true
	}
	return 0, false
}
