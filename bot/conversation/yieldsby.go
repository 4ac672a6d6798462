package conversation

import (
	"strconv"

	"yardbell/bot/planning"
	"yardbell/rules"
)

// mostGroups keeps a comparison on a phone's screen; of weeks the newest stay.
const mostGroups = 12

// yieldsBy sets breeders, builders, grafters or weeks side by side: what was accepted
// of their grafts, and how many laying queens 100 of them would give.
func (sc *Scene) yieldsBy(o *planning.Outlook, dim rules.Dim) Answer {
	var ans Answer
	y := rules.FitYields(o.Trials, sc.Settings.Said)
	groups := y.By[dim]
	if len(groups) == 0 {
		ans.ask(sc.Voice, "yield_none", "Whose", sc.Voice.Say("yield_crew"))
		return ans
	}
	ans.say(sc.Voice, "yield_by_head")
	left := len(groups) - mostGroups
	if dim == rules.ByWeek && left > 0 {
		groups = groups[left:]
	}
	for _, g := range groups[:min(len(groups), mostGroups)] {
		st := g.Stage[rules.StageAccepted]
		lo, hi := st.Interval(0.9)
		one := y.For(dim, g.Key)
		ans.say(sc.Voice, "yield_by_line", "Who", sc.groupName(dim, g.Key), "Percent", sc.Voice.Number(st.Mean*100, 0), "Lo", sc.Voice.Number(lo*100, 0), "Hi", sc.Voice.Number(hi*100, 0),
			"Queens", int(100*one.Over(rules.StageAccepted, rules.StageLaying)+0.5), "Count", st.Batches)
	}
	if left > 0 {
		ans.say(sc.Voice, "yield_by_more", "Count", left)
	}
	ans.say(sc.Voice, "yield_drawn_season")
	return ans
}

// groupName words what a group is called: a week by the Monday it begins on.
func (sc *Scene) groupName(dim rules.Dim, key string) string {
	switch dim {
	case rules.ByBreeder:
		if n, err := strconv.Atoi(key); err == nil {
			return sc.Voice.Subject(rules.BreederSubject(n))
		}
	case rules.ByWeek:
		if d, ok := planning.WeekStart(key); ok {
			return sc.Voice.Say("yield_week", "Date", sc.Voice.Date(d))
		}
	}
	return key
}
