package rules

// HangsOn reports whether a line of a batch makes no sense without another one: what was
// counted or lost in a yard without the cells that came there, what left a place without
// those that were put there.
func HangsOn(base, e Entry) bool {
	if base.Action != Did || e.Action != Did || e.Subject != base.Subject || e.ID == base.ID {
		return false
	}
	switch base.Step {
	case Move:
		return base.Into != "" && e.Into == base.Into && (e.Step == Lose || e.Step == Catch || e.Detail.Part)
	case Placed:
		return e.Detail.Out == base.Into || e.Step == Lose && e.Into == base.Into
	}
	return false
}
