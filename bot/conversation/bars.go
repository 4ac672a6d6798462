package conversation

import (
	"slices"
	"strings"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// This file makes an act on all bars of a round one act for each of them: "all to finisher",
// "all but B2", an answer to a ping about several bars, its buttons.

// barTasks are the tasks that a ping about several bars is about, those that are still open
// first of all: by its button, or of the message replied to. There are none where the
// context names a single task.
func (sc *Scene) barTasks() (list []rules.Task) {
	keys := sc.bars
	if keys == nil && sc.Replied != nil {
		keys = wording.TasksOf(*sc.Replied)
	}
	if sc.opt.task != "" || len(keys) < 2 {
		return nil
	}
	for _, key := range keys {
		if k, found := sc.model.Task(key); found {
			list = append(list, k)
		}
	}
	return list
}

// spread turns an act that is about all bars of a round into one for each. It gives the acts
// as they are where that says nothing of several; stop where it answers all there is.
func (sc *Scene) spread(acts []rdg.Act) (out []rdg.Act, ans Answer, stop bool) {
	if len(acts) != 1 {
		return acts, ans, false
	}
	a := acts[0]
	mine := sc.barTasks()
	answers := a.Kind == rdg.Done || a.Kind == rdg.Claim || a.Kind == rdg.Later || a.Kind == rdg.Skip
	switch {
	case len(mine) > 0 && answers && (a.Step == "" || a.Step == mine[0].Step):
	case len(mine) > 0 && a.Kind == rdg.Did && a.Step == rules.Finish && a.Batch == 0 && inAny(mine, a.Builder):
		a.Kind = rdg.Done // "B2 done": the bar in it, and not where it went
	case a.Kind == rdg.Done && (a.All || len(a.But) > 0), a.Kind == rdg.Did && (a.All || len(a.But) > 0) && a.Batch == 0 && a.Breeder == 0 && a.Builder == "":
		if len(mine) > 0 && a.Step != "" && a.Step != mine[0].Step {
			mine = nil // of another step than the ping's
		}
	case a.Kind == rdg.Did && a.Step == rules.Nucs && a.Count != nil && a.Batch == 0 && a.Breeder == 0:
		out = sc.nucsOfRound(acts)
		if nucs := sc.nucsAt(a.Yard); len(out) > 1 && nucs > 0 && *a.Count > nucs && !sc.opt.anyway["more_than_nucs"] {
			asked := *sc
			asked.acts = acts
			ans.refuse(&asked, &rules.Refusal{Code: "more_than_nucs", Args: map[string]any{"Yard": a.Yard, "Nucs": nucs, "Count": *a.Count}, Ask: true})
			return nil, ans, true
		}
		return out, ans, false
	default:
		return acts, ans, false
	}
	groups := [][]rules.Task{mine}
	if len(mine) == 0 {
		groups = sc.openBars(a)
	}
	for i, g := range groups {
		groups[i] = slices.DeleteFunc(slices.Clone(g), func(k rules.Task) bool { return !barFits(k, a) || sc.leftOut(k, a.But) })
	}
	groups = slices.DeleteFunc(groups, func(g []rules.Task) bool { return len(g) == 0 })
	switch {
	case len(groups) == 0 && len(mine) > 0:
		ans.ask(sc.Voice, "r_no_bar", "Example", sc.Voice.Say("form_bars", "Name", sc.Voice.BarName(mine[0])))
		return nil, ans, true
	case len(groups) == 0:
		return acts, ans, false // one thing at most: it is sought as ever
	case len(groups) > 1:
		ans.ask(sc.Voice, "ask_which", "What", wording.Upper(sc.Voice.Say("all_of_them")))
		for _, g := range groups[:min(len(groups), mostButtons)] {
			label := sc.Voice.Say("b_task", "Step", wording.Upper(sc.Voice.Say("step_"+string(g[0].Step))), "Subject", sc.roundName(g))
			ans.Buttons = append(ans.Buttons, wording.Button(label, actDo(sc.Origin.ID, "sure=1", sc.actsOn(g, a))))
		}
		return nil, ans, true
	}
	g := groups[0]
	if open := slices.DeleteFunc(slices.Clone(g), func(k rules.Task) bool { return k.State != rules.Open }); len(open) > 0 {
		g = open
	}
	if len(mine) > 0 && a.Count == nil && !slices.ContainsFunc(g, func(k rules.Task) bool { return k.State == rules.Open }) {
		ans.say(sc.Voice, "r_done_already", "Task", wording.Upper(sc.Voice.Say("task", "Step", g[0].Step, "Subject", sc.roundName(g))))
		return nil, ans, true
	}
	if len(g) == 1 && len(a.But) == 0 && len(mine) == 0 {
		return acts, ans, false
	}
	out = sc.actsOn(g, a)
	if (a.Kind == rdg.Did || a.Kind == rdg.Done) && rules.NeedsCount[g[0].Step] && a.Count == nil {
		if !sc.opt.sure || !allCounted(out) {
			ans.add(sc.askCounts(g, out))
			return nil, ans, true
		}
	}
	return out, ans, false
}

// nucsOfRound deals nucs that are as many as all bars of the one round need that waits for
// some: each bar gets its own. Any other number is asked about, and never split.
func (sc *Scene) nucsOfRound(acts []rdg.Act) (out []rdg.Act) {
	groups := [][]rules.Task{sc.barTasks()}
	if g := groups[0]; len(g) == 0 || g[0].Step != rules.Nucs {
		groups = sc.openBars(rdg.Act{Step: rules.Nucs})
	}
	if len(groups) != 1 || len(groups[0]) < 2 {
		return acts
	}
	if sum := wording.SumOf(groups[0]); sum == nil || *sum != *acts[0].Count {
		return acts
	}
	for _, k := range groups[0] {
		one := acts[0]
		one.Batch, one.Count = k.Batch, k.Count
		out = append(out, one)
	}
	return out
}

// inAny reports whether one of the tasks is done in a builder.
func inAny(tasks []rules.Task, builder string) bool {
	return builder != "" && slices.ContainsFunc(tasks, func(k rules.Task) bool { return k.From == builder || k.Subject == rules.BuilderSubject(builder) })
}

// barFits reports whether a bar is one of those that an act names.
func barFits(k rules.Task, a rdg.Act) bool {
	switch {
	case a.Batch != 0 && k.Batch != a.Batch, a.Breeder != 0 && k.Breeder != a.Breeder:
		return false
	case a.Builder != "" && k.From != a.Builder && k.Subject != rules.BuilderSubject(a.Builder):
		return false
	}
	return true
}

// leftOut reports whether a bar is one of those that an act leaves out.
func (sc *Scene) leftOut(k rules.Task, but []string) bool {
	b, _ := sc.model.Batch(k.Batch)
	return slices.ContainsFunc(but, func(name string) bool {
		s := rules.ParseSubject(name)
		return name == b.Builder || name == k.Subject.Key && k.Subject.Kind == rules.BuilderKind || s == rules.BatchSubject(k.Batch) || s.Kind == rules.BreederKind && s.Number() == k.Breeder
	})
}

// openBars are the bars that "all" may mean: what is open at a step, or at the steps that
// are due where none is named, each round by itself.
func (sc *Scene) openBars(a rdg.Act) (groups [][]rules.Task) {
	now := sc.Origin.Said
	rounds := sc.model.Rounds()
	type of struct {
		round rules.Subject
		step  rules.Step
	}
	at := map[of]int{}
	for _, k := range sc.open() {
		if k.Guard || k.Batch == 0 || a.Step != "" && k.Step != a.Step || now.Sub(k.Latest) >= rules.StaleAfter || a.Yard != "" && k.Step != rules.Move && k.Step != rules.Nucs && !inYard(k.From, a.Yard) {
			continue
		}
		early := openEarly
		if a.Step == "" {
			early = 0
		}
		if now.Before(k.Earliest.Add(-early)) || a.Step == "" && k.Weight == rules.Routine {
			continue
		}
		r, found := rules.RoundWith(rounds, k.Batch)
		if !found {
			continue
		}
		i, known := at[of{r.Subject(), k.Step}]
		if !known {
			i = len(groups)
			at[of{r.Subject(), k.Step}] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], k)
	}
	for _, g := range groups {
		slices.SortFunc(g, func(a, b rules.Task) int { return a.Batch - b.Batch })
	}
	return groups
}

// actsOn are the acts on the tasks of one step, each about its own bar alone.
func (sc *Scene) actsOn(tasks []rules.Task, a rdg.Act) (out []rdg.Act) {
	for _, k := range tasks {
		one := a
		one.But, one.All, one.Builder, one.Batch, one.Breeder, one.Step = nil, false, "", k.Batch, 0, k.Step
		if a.Kind == rdg.Done || a.Kind == rdg.Did {
			one.Kind = rdg.Did
			if k.Step == rules.Rogue && k.Subject.Kind == rules.BuilderKind {
				one.Builder, one.Batch = k.Subject.Key, 0
			}
			if b, found := sc.model.Batch(k.Batch); found && rules.NeedsCount[k.Step] && a.Count == nil {
				e := rules.Entry{Step: k.Step, Subject: rules.BatchSubject(k.Batch), Into: a.Yard}
				if k.Step == rules.Nucs {
					one.Count = k.Count
				} else {
					one.Count = sc.allOf(e, b)
				}
			}
		}
		out = append(out, one)
	}
	return out
}

func allCounted(acts []rdg.Act) bool {
	return !slices.ContainsFunc(acts, func(a rdg.Act) bool { return a.Count == nil })
}

// askCounts asks whether all were as many as there are, of each bar by itself: "all done"
// said no number, and a count that nobody took would be a guess in the log.
func (sc *Scene) askCounts(tasks []rules.Task, acts []rdg.Act) Answer {
	var ans Answer
	t := tasks[0]
	ans.Step = t.Step
	names := make([]string, len(tasks))
	for i, k := range tasks {
		names[i] = sc.Voice.Say("bar_of", "N", k.Count, "Bar", sc.Voice.BarName(k))
		if acts[i].Count != nil {
			names[i] = sc.Voice.Say("bar_of", "N", *acts[i].Count, "Bar", sc.Voice.BarName(k))
		}
	}
	somewhere := t.Step == rules.Move || t.Step == rules.Nucs
	yards := sc.names().yards
	for i := range acts {
		switch {
		case !somewhere || acts[i].Yard != "":
		case tasks[i].Into != "" && !strings.Contains(tasks[i].Into, rules.YardSep):
			acts[i].Yard = tasks[i].Into
		case len(yards) == 1:
			acts[i].Yard = yards[0]
		}
	}
	nowhere := slices.ContainsFunc(acts, func(a rdg.Act) bool { return somewhere && (a.Yard == "" || a.Yard != acts[0].Yard) })
	if !allCounted(acts) || nowhere {
		ans.ask(sc.Voice, "ask_bars_counts", "Task", wording.Upper(sc.Voice.Say("step_"+string(t.Step))), "Form", sc.Voice.BarsForm(tasks, yards))
		return ans
	}
	ans.ask(sc.Voice, "ask_bars", "Round", wording.Upper(sc.roundName(tasks)), "Past", sc.Voice.Past(t.Step, wording.SumOf(tasks)), "List", wording.JoinList(names))
	if acts[0].Yard != "" {
		ans.join(sc.Voice, "ask_bars_at", "Yard", acts[0].Yard)
	}
	ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_log"), actDo(sc.Origin.ID, "sure=1", acts)))
	ans.offer(sc.Voice, "b_no", "no")
	return ans
}

// roundName names the round that tasks are of.
func (sc *Scene) roundName(tasks []rules.Task) string {
	if r, found := sc.model.RoundOf(tasks[0].Batch); found {
		return sc.Voice.Subject(r.Subject())
	}
	return sc.Voice.TaskSubject(tasks[0])
}

// sameForAll reports whether acts do one and the same on bars of one round, three of them or
// more: what is said of each would be said of the next word for word.
func (sc *Scene) sameForAll(acts []rdg.Act) (rules.GraftRound, bool) {
	if len(acts) < 2 || acts[0].Kind == rdg.Did && acts[0].Step == rules.Graft {
		return rules.GraftRound{}, false
	}
	first := acts[0]
	var r rules.GraftRound
	for i, a := range acts {
		n := a.Batch
		if a.Kind == rdg.Did && a.Step == rules.Rogue && n == 0 {
			for _, k := range sc.open() {
				if k.Step == rules.Rogue && k.Subject == rules.BuilderSubject(a.Builder) {
					n = k.Batch
				}
			}
		}
		if a.Kind != first.Kind || a.Step != first.Step || a.Kind == rdg.Did && rules.NeedsCount[a.Step] {
			return r, false
		}
		if i == 0 {
			r, _ = sc.model.RoundOf(n)
		}
		if n == 0 || !r.Has(n) {
			return r, false
		}
	}
	return r, true
}

// toldAtOnce says in one line what was logged for several bars, where each was logged and
// nothing is asked of any. Otherwise each answer stands by itself.
func (sc *Scene) toldAtOnce(r rules.GraftRound, acts []rdg.Act, list []happening) (Answer, bool) {
	var ans Answer
	var names []string
	for i, h := range list {
		if !h.in || len(h.Logged) != 1 || h.Kind == "ask" || h.Warned || len(h.Buttons) > 0 {
			return ans, false
		}
		name := acts[i].Builder
		if b, found := sc.model.Batch(acts[i].Batch); found && name == "" {
			name = b.Builder
			if name == "" || h.Logged[0].Step != rules.Finish && h.Logged[0].Step != rules.Move || h.Logged[0].Into != "" {
				name = sc.Voice.Subject(rules.BatchSubject(b.Number))
			}
		}
		names = append(names, name)
		ans.record(h.Answer)
		ans.Reported = ans.Reported || h.Reported
	}
	e := list[0].Logged[0]
	ans.of, ans.Step, ans.Subject = sc, e.Step, list[0].Subject
	kv := []any{"Task", sc.Voice.Say("task", "Step", e.Step, "Subject", r.Subject()), "Count", len(list), "List", wording.JoinList(names), "When", e.Happened, "Name", sc.By.Name, "Reason", strings.TrimSpace(e.Detail.Reason)}
	switch e.Action {
	case rules.Mine:
		ans.say(sc.Voice, "e_bars_mine", kv...)
	case rules.Skip:
		ans.say(sc.Voice, "e_bars_skip", kv...)
	case rules.Later:
		ans.say(sc.Voice, "e_bars_later", append(kv, "Until", rules.LaterAt(time.UnixMilli(e.Detail.Until), sc.taskOf(e.Subject, e.Step, e.Detail.Occ), sc.Settings))...)
	default:
		ans.say(sc.Voice, "e_bars", kv...)
		if close := sc.moveClose(r); !close.IsZero() {
			ans.join(sc.Voice, "e_bars_close", "Close", close)
		}
	}
	return ans, true
}

// moveClose is when the first of a round's cells must be in nucs, zero where none is to move.
func (sc *Scene) moveClose(r rules.GraftRound) (at time.Time) {
	for _, b := range r.Bars {
		if k := sc.taskOf(rules.BatchSubject(b.Number), rules.Move, ""); k.State == rules.Open && (at.IsZero() || k.Latest.Before(at)) {
			at = k.Latest
		}
	}
	return at
}

// yesToBars asks what a plain "ok" in reply to a ping about several bars means, as yesToPing
// does of one.
func (sc *Scene) yesToBars(r *reading, bars []rules.Task) Answer {
	var ans Answer
	t := bars[0]
	ans.Step, ans.Subject = t.Step, t.Subject
	task := wording.Upper(sc.Voice.Say("task", "Step", t.Step, "Subject", sc.roundName(bars)))
	keys := make([]string, len(bars))
	open := false
	for i, k := range bars {
		keys[i] = k.Key
		open = open || k.State == rules.Open
	}
	switch {
	case r.verb == sayNo:
		ans.Fail(sc.Voice, "r_negated", "Example", sc.example(&reading{step: t.Step}))
	case !open:
		ans.say(sc.Voice, "r_done_already", "Task", task)
	default:
		ans.ask(sc.Voice, "ask_ok", "Task", task)
		ans.offer(sc.Voice, "b_take", "tasks|"+string(doMine)+"|"+strings.Join(keys, "|"))
		ans.offer(sc.Voice, "b_all_done", "tasks|"+string(doDone)+"|"+strings.Join(keys, "|"))
	}
	return ans
}

// askSplit asks how a graft was dealt to several builders, and offers equal parts: never
// logged unasked, since most bars are not as long as each other.
func (sc *Scene) askSplit(res rdg.Result) Answer {
	var ans Answer
	var into, form []string
	a := res.Acts[0]
	for i, b := range res.Acts {
		into = append(into, b.Builder)
		id := "split_more"
		if i == 0 {
			id = "split_first"
		}
		form = append(form, sc.Voice.Say(id, "N", max(1, *a.Count/len(res.Acts)), "Breeder", a.Breeder, "Builder", b.Builder))
	}
	ans.Step = a.Step
	ans.ask(sc.Voice, "ask_split", "N", *a.Count, "Breeder", rules.BreederSubject(a.Breeder), "List", wording.JoinList(into), "Form", strings.Join(form, ", "))
	for _, acts := range res.Others {
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_each", "N", *acts[0].Count), actDo(sc.Origin.ID, "sure=1", acts)))
	}
	if len(ans.Buttons) > 0 {
		ans.offer(sc.Voice, "b_no", "no")
	}
	return ans
}

// barsInWords says what an act on all bars would do, where it is about all.
func (sc *Scene) barsInWords(a rdg.Act) (string, bool) {
	if !a.All && len(a.But) == 0 || a.Batch != 0 {
		return "", false
	}
	groups := [][]rules.Task{sc.barTasks()}
	if len(groups[0]) == 0 {
		groups = sc.openBars(a)
	}
	var said []string
	for _, g := range groups {
		var names []string
		for _, k := range g {
			if barFits(k, a) && !sc.leftOut(k, a.But) {
				names = append(names, sc.Voice.BarName(k))
			}
		}
		if len(names) > 0 {
			said = append(said, sc.Voice.Say("bars_said", "Step", g[0].Step, "List", wording.JoinList(names)))
		}
	}
	return strings.Join(said, "; "), len(said) > 0
}

// lists is the voice for lists, which makes one line of the bars of a round.
func (sc *Scene) lists() wording.Voice {
	v := sc.Voice
	v.Rounds, v.Drive = sc.model.Rounds(), sc.model.Drive()
	return v
}
