package wording

import (
	"slices"
	"strings"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// This file words a ping about several bars of a round: what is the same for all in one
// line, below it a line for each bar.

// BestOf is when the first of the bars is at its best.
func BestOf(bars []rules.Task) time.Time { return bestOf(bars) }

func bestOf(bars []rules.Task) time.Time {
	return slices.MinFunc(bars, func(a, b rules.Task) int { return a.Best.Compare(b.Best) }).Best
}

// whatNow says how many of what a ping is about, and what is known of a look before.
func (v Voice) whatNow(t rules.Task, out store.Outgoing) string {
	what := v.What(t, true)
	if n, looked := out.Laying[t.Key]; looked {
		what += v.Say("what_laying", "N", n)
	}
	return what
}

// whatBars says how many bars there are, and how many cells or queens where all are counted.
func (v Voice) whatBars(bars []rules.Task) string {
	what, sum := v.Say("what_bars", "Count", len(bars)), SumOf(bars)
	if sum != nil && v.What(bars[0], false) != "" {
		what += v.Say("what_in_all", "N", *sum)
	}
	return what
}

// SumOf is how many there are of all tasks together, nil where one is not counted.
func SumOf(tasks []rules.Task) *int {
	sum := 0
	for _, t := range tasks {
		if t.Count == nil {
			return nil
		}
		sum += *t.Count
	}
	return &sum
}

// barLines are the bars of a ping, one a line.
func (v Voice) barLines(out store.Outgoing) (lines []string) {
	for _, t := range out.Bars[:min(len(out.Bars), mostLines)] {
		laying := ""
		if n, looked := out.Laying[t.Key]; looked {
			laying = v.Say("what_laying", "N", n)
		}
		claim := ""
		if t.ClaimedBy != "" {
			claim = v.Say("claim", "Name", t.ClaimedBy)
		}
		lines = append(lines, v.Say("bar_line", "Bar", v.Bar(t), "What", v.whatBar(t)+laying, "Claim", claim))
	}
	if n := len(out.Bars) - mostLines; n > 0 {
		lines = append(lines, v.Say("more_bars", "Count", n))
	}
	return lines
}

// Bar names a bar as a line of its round: by the builder where that holds it, with its batch.
func (v Voice) Bar(t rules.Task) string {
	batch := v.Subject(rules.BatchSubject(t.Batch))
	if b := builderOf(t); b != "" {
		return v.Say("bar", "Builder", b, "Batch", batch)
	}
	return batch
}

// BarName is what a crew calls a bar when it answers.
func (v Voice) BarName(t rules.Task) string {
	if b := builderOf(t); b != "" {
		return b
	}
	return v.Subject(rules.BatchSubject(t.Batch))
}

// builderOf is the builder in which a task is done, "" where it is done elsewhere.
func builderOf(t rules.Task) string {
	switch t.Step {
	case rules.Accept, rules.Finish, rules.Capped, rules.Move:
		return t.From
	case rules.Rogue:
		if t.Subject.Kind == rules.BuilderKind {
			return t.Subject.Key
		}
	}
	return ""
}

// whatBar says how many a bar has, and where they go or are.
func (v Voice) whatBar(t rules.Task) string {
	t.From, t.Into = "", strings.ReplaceAll(t.Into, rules.YardSep, "/")
	if t.Step == rules.Move && t.Into == "" { // the yard is not known, which is no word for each bar
		if t.Count == nil {
			return v.Say("what_unknown")
		}
		return v.Say("what_count", "Count", *t.Count)
	}
	return v.What(t, true)
}

// barForms shows how to answer for all bars at once, in words that work as they stand.
func (v Voice) barForms(out store.Outgoing) string {
	t := out.Bars[0]
	if !rules.NeedsCount[t.Step] && t.Step != rules.Recell {
		return v.Say("forms_bars", "Name", v.BarName(out.Bars[len(out.Bars)-1]))
	}
	return v.Say("forms_bars_count", "Form", v.BarsForm(out.Bars, out.Yards))
}

// BarsForm is how to say how many of each bar, with their own figures.
func (v Voice) BarsForm(bars []rules.Task, yards []string) string {
	t := bars[0]
	counts := make([]string, len(bars))
	for i, b := range bars {
		n := 34
		if b.Count != nil {
			n = *b.Count
		}
		id := "bar_count"
		if builderOf(b) != "" {
			id = "bar_count_in"
			if t.Step == rules.Move { // "in B1" may be where they went
				id = "bar_count_from"
			}
		}
		counts[i] = v.Say(id, "N", n, "Bar", v.BarName(b))
	}
	yard := v.Say("form_yard")
	if t.Into != "" {
		yard = strings.ReplaceAll(t.Into, rules.YardSep, "/")
	} else if len(yards) > 0 {
		yard = strings.Join(yards[:min(len(yards), 3)], "/")
	}
	kv := []any{"List", strings.Join(counts, ", "), "Yard", yard}
	if sum := SumOf(bars); t.Step == rules.Nucs && sum != nil {
		return v.Say("bars_nucs_sum", append(kv, "Sum", *sum)...)
	}
	return v.Say("bars_"+string(t.Step), kv...)
}

// item is one line of a list: a task, or all bars of a round that are the same work.
func (v Voice) item(bars []rules.Task) string {
	if len(bars) == 1 {
		return v.Item(bars[0], false)
	}
	t := bars[0]
	claim := ""
	if t.ClaimedBy != "" && sameClaim(bars) {
		claim = v.Say("claim", "Name", t.ClaimedBy)
	}
	id, until := "line", t.Latest
	switch {
	case t.Guard:
		id, until = "line_guard", bars[len(bars)-1].Latest // the last of them ends it
	case !v.Now.Before(t.Latest):
		id = "line_over"
	}
	task, what := v.Several(bars)
	return v.Say(id, "Task", task, "What", what, "Best", bestOf(bars), "Close", t.Latest, "Claim", claim, "Until", until)
}

func sameClaim(bars []rules.Task) bool {
	return !slices.ContainsFunc(bars, func(b rules.Task) bool { return b.ClaimedBy != bars[0].ClaimedBy })
}

// Several names the work on bars that are told of together, as parted by rules.Together, and
// says how many each has. Of one it is the task itself.
func (v Voice) Several(bars []rules.Task) (task, what string) {
	t := bars[0]
	if len(bars) == 1 {
		return v.Task(t), v.What(t, false)
	}
	apart := slices.ContainsFunc(bars, func(b rules.Task) bool { return b.Into != t.Into }) // they go to several yards
	names := make([]string, len(bars))
	for i, b := range bars {
		names[i] = v.BarName(b)
		if b.Count != nil && v.What(b, false) != "" {
			id := "bar_short"
			if builderOf(b) == "" {
				id = "bar_short_of" // "batch 4 36" would be read as anything
			}
			names[i] = v.Say(id, "Bar", names[i], "N", *b.Count)
		}
		if t.Step == rules.Move && apart && b.Into != "" {
			names[i] += v.Say("what_to", "To", b.Into)
		}
		if b.ClaimedBy != "" && !sameClaim(bars) {
			names[i] += v.Say("claim", "Name", b.ClaimedBy)
		}
	}
	r, _ := rules.RoundWith(v.Rounds, t.Batch)
	what = v.Say("what_list", "List", JoinList(names))
	if t.Step == rules.Move && !apart && t.Into != "" {
		what += v.Say("what_to", "To", t.Into)
	}
	return v.Say("task", "Step", t.Step, "Subject", r.Subject()), what
}

// Items are the lines of a list without headings, so many at most.
func (v Voice) Items(items []rules.Task, most int) (lines []string) {
	for _, part := range rules.Together(items, v.Rounds) {
		if len(lines) < most {
			lines = append(lines, v.item(part))
		}
	}
	return lines
}

// driven puts the groups of a list in the order in which they are driven to: what is at home,
// the yards, what has no yard yet.
func (v Voice) driven(groups, yards []string) []string {
	rank := func(i int) int {
		switch {
		case groups[i] == "":
			return -1
		case yards[i] == "":
			return len(v.Drive) + 1
		}
		first, _, _ := strings.Cut(yards[i], rules.YardSep)
		if n := slices.Index(v.Drive, first); n >= 0 {
			return n
		}
		return len(v.Drive)
	}
	order := make([]int, len(groups))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rank(a) - rank(b) })
	out := make([]string, len(groups))
	for i, k := range order {
		out[i] = groups[k]
	}
	return out
}

// morning is the message of a morning: what is to be done, where, how many, and what to bring
// for all of it.
func (v Voice) morning(items []rules.Task, today rules.Date) string {
	load := v.load(items, today)
	if load != "" {
		v.Room -= Units(load) + 1
		load = "\n" + load
	}
	return v.List(v.Say("digest_head", "Date", v.Date(today)), items, today) + load
}

// load says what to bring for the work of a day, with amounts, by yard in driving order. What
// can be done already and need not is left out.
func (v Voice) load(items []rules.Task, today rules.Date) string {
	type thing struct {
		yard, id string
	}
	sums, some := map[thing]int{}, map[thing]bool{}
	var yards []string
	ids := map[string][]string{}
	for _, t := range items {
		id, yard := "load_"+string(t.Step), strings.ReplaceAll(t.Into, rules.YardSep, "/")
		if t.Step == rules.Catch {
			yard = strings.ReplaceAll(t.From, rules.YardSep, "/")
		}
		if t.Guard || !carried[t.Step] || today.Before(rules.DateOf(t.Best, v.Settings.Zone)) {
			continue
		}
		if !slices.Contains(yards, yard) {
			yards = append(yards, yard)
		}
		if !slices.Contains(ids[yard], id) {
			ids[yard] = append(ids[yard], id)
		}
		if k := (thing{yard, id}); t.Count == nil {
			some[k] = true
		} else {
			sums[k] += *t.Count
		}
	}
	var said []string
	for _, yard := range v.driven(yards, yards) {
		var list []string
		for _, id := range ids[yard] {
			k := thing{yard, id}
			if n := sums[k]; n > 0 {
				list = append(list, v.Say(id, "Count", n))
			}
			if some[k] {
				list = append(list, v.Say(id+"_some"))
			}
		}
		one := JoinList(list)
		if len(yards) > 1 && yard != "" {
			one = v.Say("load_at", "Yard", yard, "List", one)
		}
		said = append(said, one)
	}
	if said == nil {
		return ""
	}
	return v.Say("p_bring", "List", strings.Join(said, "; "))
}

// carried are the steps for which as much is brought as there is to do.
var carried = map[rules.Step]bool{rules.Nucs: true, rules.Move: true, rules.Catch: true, rules.Recell: true}
