package wording

import (
	"slices"
	"strings"
	"time"

	"yardbell/rules"
)

// Place words a builder, yard or incubator by its name as a place.
func (v Voice) Place(name string) string {
	if s := rules.PlaceSubject(name); s.Kind == rules.IncubatorKind {
		return v.Subject(s)
	}
	return name
}

// Places words the places of a task, which may be several.
func (v Voice) Places(names string) string {
	list := strings.Split(names, rules.YardSep)
	for i, n := range list {
		list[i] = v.Place(n)
	}
	return strings.Join(list, rules.YardSep)
}

// temperature words what a line says of an incubator, behind its name.
func (v Voice) temperature(e rules.Entry) (s string) {
	if e.Detail.C != nil {
		s = v.Say("l_and", "What", v.Say("c_degrees", "Value", v.Number(*e.Detail.C, 1)))
	}
	if e.Detail.Power {
		s += v.Say("l_and", "What", v.Say("c_power"))
	}
	if e.Detail.Until != 0 {
		s += v.Say("l_until", "From", e.Happened, "Until", time.UnixMilli(e.Detail.Until))
	}
	return s
}

// builderIs words what a line says of a builder, behind its name.
func (v Voice) builderIs(e rules.Entry) (s string) {
	if e.Count != nil {
		s = v.Say("l_and", "What", v.Say("cells_some", "Count", *e.Count))
	}
	if b := e.Detail.Both; b != nil {
		s += v.Say("l_and", "What", v.Say(map[bool]string{true: "c_both", false: "c_both_not"}[*b]))
	}
	if b := e.Detail.Rests; b != nil {
		s += v.Say("l_and", "What", v.Say(map[bool]string{true: "c_rests", false: "c_rests_not"}[*b]))
	}
	return s
}

// Cause words why something is gone, "" for a loss of which nobody said why.
func (v Voice) Cause(e rules.Entry) string {
	switch {
	case e.Step == rules.Lose && e.Detail.Cause == "":
		return ""
	case e.Step == rules.Lose:
		return v.Say("lost_" + e.Detail.Cause)
	case e.Detail.Cause == rules.CauseDied:
		return v.Say("cause_died")
	}
	return v.Say("cause_none")
}

// ByCause words how many were lost by each cause, in the order of the causes; those of which
// nobody said why come last.
func (v Voice) ByCause(lost []rules.Loss) string {
	by := map[string]int{}
	for _, x := range lost {
		by[x.Cause] += x.Count
	}
	var list []string
	for _, c := range append(slices.Clone(rules.Causes), "") {
		if n := by[c]; n > 0 {
			why := v.Say("lost_unsaid")
			if c != "" {
				why = v.Say("lost_" + c)
			}
			list = append(list, v.Say("lost_by", "Count", n, "Cause", why))
		}
	}
	return strings.Join(list, ", ")
}

// lost words a line about a loss.
func (v Voice) lost(e rules.Entry) string {
	who, into, cause := "", "", ""
	if !e.Subject.Zero() {
		who = v.Say("l_who", "Subject", e.Subject)
	}
	if e.Into != "" {
		into = v.Say("l_into", "Into", v.Place(e.Into))
	}
	if c := v.Cause(e); c != "" {
		cause = v.Say("lost_cause", "Cause", c)
	}
	if e.Count == nil {
		return v.Say("l_lose_all", "Who", who, "Into", into, "Cause", cause)
	}
	return v.Say("l_lose", "Who", who, "Count", *e.Count, "Into", into, "Cause", cause)
}

// orderEntry words a line about an order.
func (v Voice) orderEntry(e rules.Entry) string {
	if k := e.Detail.Plan; e.Action == rules.Did && k != nil {
		return v.Say("l_order", "Order", e.Subject, "What", v.Wanted(Deref(e.Count), k.Unit), "By", v.Date(rules.DateOf(time.UnixMilli(k.By), v.Settings.Zone)))
	}
	return v.Say("l_order_off", "Order", e.Subject)
}

// Wanted words a number of queens or cells.
func (v Voice) Wanted(n int, u rules.Unit) string { return v.Say("unit_"+string(u), "Count", n) }
