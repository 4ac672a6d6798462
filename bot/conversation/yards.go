package conversation

import (
	"slices"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// ofWhichYard asks of which yard a count is that names none, where the yards of its batch
// are counted one by one: it could be of one that is still to come, or of all.
func (sc *Scene) ofWhichYard(e rules.Entry, b rules.Batch) (Answer, bool) {
	var ans Answer
	if e.Into != "" || e.Count == nil || e.Step != rules.Emerge && e.Step != rules.Laying || sc.opt.sure || len(b.Account.Yards) < 2 {
		return ans, false
	}
	sum, told := 0, []string{}
	for _, k := range rules.Effective(sc.model.Entries(e.Subject)) {
		if k.Action == rules.Did && k.Step == e.Step && k.Detail.Part && k.Into != "" && k.Count != nil {
			told = append(told, k.Into)
		}
	}
	if len(told) == 0 {
		return ans, false
	}
	slices.Sort(told)
	var list []string
	for _, y := range slices.Compact(told) {
		n := wording.Deref(b.Account.At(y).Count(e.Step))
		sum += n
		list = append(list, sc.Voice.Say("part_at", "Count", n, "Yard", y))
	}
	if untold, _ := b.Account.Untold(e.Step); untold == nil && sum == *e.Count {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Say("parts_sum", "Batch", sc.Voice.Subject(e.Subject), "Count", sum, "Past", sc.Voice.Past(e.Step, &sum)))
		return ans, true
	}
	ans.ask(sc.Voice, "ask_part", "Batch", sc.Voice.Head(e.Subject), "List", wording.JoinList(list), "Past", sc.Voice.Past(e.Step, &sum), "Count", *e.Count)
	for _, y := range b.Account.Yards {
		if y.Yard != "" && len(ans.Buttons) < mostButtons {
			ans.Buttons = append(ans.Buttons, wording.Button(y.Yard, sc.rerun(placeDo(y.Yard))))
		}
	}
	ans.offer(sc.Voice, "b_whole_batch", sc.rerun("sure=1"))
	return ans, true
}

// stillToCount says at which yards a count is still to come, once one of them is counted.
func (sc *Scene) stillToCount(e rules.Entry, b rules.Batch) Answer {
	var ans Answer
	yards, _ := b.Account.Untold(e.Step)
	if !e.Detail.Part || len(yards) == 0 || e.Count == nil {
		return ans
	}
	var list []string
	for _, y := range yards {
		if n := b.Account.At(y).Present(); n != nil && *n > 0 {
			list = append(list, sc.Voice.Say("part_at", "Count", *n, "Yard", y))
		}
	}
	if list != nil {
		ans.join(sc.Voice, "e_part_rest", "List", wording.JoinList(list))
	}
	return ans
}

// showAccount tells of a batch where it is by yard, and what was lost of it by which cause.
func (sc *Scene) showAccount(b rules.Batch) Answer {
	var ans Answer
	if len(b.Account.Lost) > 0 {
		ans.say(sc.Voice, "s_lost", "List", sc.Voice.ByCause(b.Account.Lost))
	}
	if len(b.Yards) < 2 {
		if len(b.Yards) > 0 {
			ans.say(sc.Voice, "s_yards", "List", wording.JoinList(b.Yards))
		}
		return ans
	}
	for _, name := range b.Yards {
		y := b.Account.At(name)
		var list []string
		for _, s := range y.Stages {
			list = append(list, sc.Voice.Say("s_count", "Count", s.Count, "Past", sc.Voice.Past(s.Step, &s.Count)))
		}
		if y.Out > 0 {
			list = append(list, sc.Voice.Say("s_count", "Count", y.Out, "Past", sc.Voice.Past(rules.Catch, &y.Out)))
		}
		if n := y.Lost(); n > 0 {
			list = append(list, sc.Voice.Say("s_count", "Count", n, "Past", sc.Voice.Past(rules.Lose, &n)))
		}
		if list == nil {
			ans.say(sc.Voice, "s_yards", "List", name)
			continue
		}
		ans.say(sc.Voice, "s_by_yard", "Yard", name, "List", wording.JoinList(list))
	}
	return ans
}
