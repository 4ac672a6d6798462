package conversation

import (
	"fmt"
	"slices"
	"strings"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// due lists what is open on a day or over some days.
func (sc *Scene) due(r *reading) (Answer, error) {
	var ans Answer
	open := sc.open()
	now, today := sc.Look.Now, rules.DateOf(sc.Look.Now, sc.Settings.Zone)
	from := today
	if r.dueDay.set || r.dueDay.hasDay {
		from = r.dueDay.dayFrom(today)
	}
	next := func(after []rules.Task) string {
		seen := map[string]bool{}
		for _, k := range after {
			seen[k.Key] = true
		}
		for _, k := range open {
			if !seen[k.Key] && !k.Guard && k.Best.After(now) {
				return sc.Voice.Say("next_is", "Task", sc.Voice.Task(k), "Best", k.Best)
			}
		}
		return ""
	}
	var items []rules.Task
	var head, none string
	switch {
	case r.days > 1:
		items = rules.DueDays(open, from, r.days, sc.Settings, now)
		kv := []any{"From", sc.Voice.Date(from), "To", sc.Voice.Date(from.Add(r.days - 1)), "Next", next(items)}
		head, none = sc.Voice.Say("due_head_days", kv...), sc.Voice.Say("due_none_days", kv...)
	case from == today:
		items = rules.DueOn(open, today, sc.Settings, now)
		kv := []any{"Date", sc.Voice.Date(today), "Next", next(items)}
		head, none = sc.Voice.Say("due_head_today", kv...), sc.Voice.Say("due_none_today", kv...)
	default:
		items = rules.DueOn(open, from, sc.Settings, now)
		kv := []any{"Date", sc.Voice.Date(from), "Next", next(items)}
		head, none = sc.Voice.Say("due_head_day", kv...), sc.Voice.Say("due_none_day", kv...)
	}
	late := 0
	for _, k := range open {
		if !k.Guard && from != today && !now.Before(k.Latest) && now.Sub(k.Latest) <= rules.StaleAfter {
			late++
		}
	}
	if len(items) == 0 {
		ans.Lines = append(ans.Lines, none)
		ans.add(sc.dueLate(late))
		return ans, nil
	}
	end := from
	if r.days > 1 {
		end = from.Add(r.days - 1)
	}
	ans.Lines = append(ans.Lines, sc.lists().List(head, items, end))
	ans.add(sc.dueLate(late))
	return ans, nil
}

// dueLate adds to a list of days to come what should have been done before now.
func (sc *Scene) dueLate(n int) Answer {
	var ans Answer
	if n > 0 {
		ans.say(sc.Voice, "due_late", "Count", n)
	}
	return ans
}

// show tells the state of one batch, breeder, builder or yard.
func (sc *Scene) show(r *reading) (Answer, error) {
	var ans Answer
	s := r.subject()
	ans.Subject = s
	switch s.Kind {
	case rules.BatchKind:
		return ans.then(sc.showBatch(s))
	case rules.BreederKind:
		return ans.then(sc.showBreeder(s))
	case rules.BuilderKind:
		return ans.then(sc.showBuilder(s))
	case rules.YardKind:
		return ans.then(sc.showYard(s))
	}
	if r.incubator != "" {
		ans.add(sc.showIncubator(r))
		return ans, nil
	}
	ans.Ignore()
	return ans, nil
}

func (sc *Scene) showBatch(s rules.Subject) (Answer, error) {
	var ans Answer
	b, found := sc.model.Batch(s.Number())
	if !found {
		known, err := sc.knownBatches()
		ans.ask(sc.Voice, "r_not_known_batch", "Number", s.Number())
		if known != "" {
			ans.Lines[0] += " " + known
		}
		return ans, err
	}
	from, into := "", ""
	if b.Breeder != 0 {
		from = sc.Voice.Say("e_graft_from", "Breeder", rules.BreederSubject(b.Breeder))
	}
	if b.Start != "" {
		into = sc.Voice.Say("e_graft_into", "Builder", b.Start)
	}
	ans.say(sc.Voice, "s_batch_head", "Batch", sc.Voice.Head(s), "When", b.Grafted, "From", from, "Into", into, "Ages", sc.Voice.Ages(b.Age))
	var counts []string
	for _, step := range []rules.Step{rules.Graft, rules.Accept, rules.Capped, rules.Nucs, rules.Move, rules.Emerge, rules.Laying, rules.Catch} {
		if n := b.Counts.Of(step); n != nil {
			counts = append(counts, sc.Voice.Say("s_count", "Count", *n, "Past", sc.Voice.Past(step, n)))
		}
	}
	if counts != nil {
		ans.say(sc.Voice, "s_counts", "List", wording.JoinList(counts))
	}
	ans.add(sc.showLots(b))
	ans.add(sc.showAccount(b))
	if b.Ended {
		ans.say(sc.Voice, "s_ended")
		return ans, nil
	}
	if b.Moved.IsZero() {
		ans.say(sc.Voice, "s_safe", "Safe", b.SafeUntil(sc.Settings), "Emerges", b.Emerges)
	}
	return ans.then(sc.next(func(k rules.Task) bool { return k.Batch == b.Number }, 6))
}

// next lists the open tasks that match.
func (sc *Scene) next(match func(rules.Task) bool, most int) (Answer, error) {
	var ans Answer
	open := sc.open()
	var fit []rules.Task
	for _, k := range open {
		if match(k) && !(k.Guard && !k.Latest.After(sc.Look.Now)) {
			fit = append(fit, k)
		}
	}
	if len(fit) == 0 {
		ans.say(sc.Voice, "s_next_none")
		return ans, nil
	}
	ans.say(sc.Voice, "s_next")
	for _, k := range fit[:min(len(fit), most)] {
		ans.Lines = append(ans.Lines, sc.Voice.Item(k, true))
	}
	return ans, nil
}

func (sc *Scene) showBreeder(s rules.Subject) (Answer, error) {
	var ans Answer
	list := sc.model.Breeders()
	var found *rules.Breeder
	for i := range list {
		if list[i].Number == s.Number() {
			found = &list[i]
		}
	}
	if found == nil {
		if gone, err := sc.retired(s.Number()); err != nil {
			return ans, err
		} else if gone != nil {
			ans.say(sc.Voice, "s_breeder_gone", "Breeder", sc.Voice.Head(s), "Cause", sc.Voice.Cause(*gone), "When", gone.Happened, "By", gone.By)
			return ans.then(sc.next(func(k rules.Task) bool { return k.Subject == s }, 6))
		}
		ans.ask(sc.Voice, "r_not_known", "What", sc.Voice.Head(s), "Form", sc.Voice.Say("form_add", "What", sc.Voice.Named(s)))
		return ans, nil
	}
	combs := sc.model.Combs(s.Number())
	if c, ok := rules.OpenComb(combs); ok {
		mark := ""
		if c.Mark != "" {
			mark = sc.Voice.Say("with_mark", "Mark", c.Mark)
		}
		ans.say(sc.Voice, "s_breeder_on", "Breeder", sc.Voice.Head(s), "Since", c.Confined, "Mark", mark)
	} else if c, ok := lastComb(combs); ok {
		mark := ""
		if c.Mark != "" {
			mark = sc.Voice.Say("with_mark", "Mark", c.Mark)
		}
		ans.say(sc.Voice, "s_breeder_was", "Breeder", sc.Voice.Head(s), "Since", c.Confined, "Mark", mark, "Out", c.Out)
	} else {
		ans.say(sc.Voice, "s_breeder_off", "Breeder", sc.Voice.Head(s))
	}
	batches := sc.model.Batches()
	var names []string
	for _, b := range batches {
		if b.Breeder == s.Number() {
			names = append(names, fmt.Sprintf("%s (%s)", sc.Voice.Subject(rules.BatchSubject(b.Number)), sc.day(b.Grafted)))
		}
	}
	if n := len(names); n > 0 {
		ans.say(sc.Voice, "s_breeder_batches", "List", wording.JoinList(names[max(0, n-8):]))
	}
	return ans.then(sc.next(func(k rules.Task) bool { return k.Subject == s }, 6))
}

func (sc *Scene) showBuilder(s rules.Subject) (Answer, error) {
	var ans Answer
	list := sc.model.Builders()
	for _, b := range list {
		if b.Name != s.Key {
			continue
		}
		at := ""
		if b.Yard != "" {
			at = sc.Voice.Say("e_at", "Yard", b.Yard)
		}
		ans.say(sc.Voice, "s_builder", "Builder", b.Name, "At", at)
		ans.add(sc.showBuilderIs(b))
		batches := sc.model.Batches()
		var names []string
		for _, k := range batches {
			if k.Builder == b.Name && k.Moved.IsZero() && !k.Ended && !k.Left() {
				names = append(names, sc.Voice.Subject(rules.BatchSubject(k.Number)))
			}
		}
		if names == nil {
			ans.say(sc.Voice, "s_builder_empty")
		} else {
			ans.say(sc.Voice, "s_builder_holds", "List", wording.JoinList(names))
		}
		return ans.then(sc.next(func(k rules.Task) bool { return k.Subject == s }, 6))
	}
	ans.ask(sc.Voice, "r_not_known", "What", wording.Upper(sc.Voice.Named(s)), "Form", sc.Voice.Say("form_add", "What", sc.Voice.Named(s)))
	return ans, nil
}

// recent shows the newest lines of the log.
func (sc *Scene) recent() (Answer, error) {
	var ans Answer
	book, err := sc.Look.Logbook(sc.Crew.ID)
	if err != nil {
		return ans, err
	}
	var lines []string
	for i := len(book) - 1; i >= 0 && len(lines) < 8; i-- {
		l := book[i]
		if l.Message == 0 || l.Action == rules.Void || l.Action == rules.Amend {
			continue
		}
		cur, ok, err := sc.current(l)
		if err != nil {
			return ans, err
		}
		if ok {
			lines = append(lines, sc.Voice.Say("s_log_line", "When", cur.Happened, "By", cur.By, "What", sc.Voice.Line(cur.Entry)))
		}
	}
	if lines == nil {
		ans.say(sc.Voice, "s_log_none")
		return ans, nil
	}
	ans.say(sc.Voice, "s_log")
	ans.Lines = append(ans.Lines, lines...)
	return ans, nil
}

// help shows what the bot reads.
func (sc *Scene) help(r *reading) (Answer, error) {
	var ans Answer
	if r.topic == "" {
		ans.say(sc.Voice, "help")
		return ans, nil
	}
	if t, ok := wording.WordTopic(r.topic); ok {
		ans.say(sc.Voice, "help_"+t)
		return ans, nil
	}
	step := Understand().StepOf(r.topic)
	if step == "" {
		step = rules.Step(r.topic)
	}
	if s, ok := wording.WordStep(r.topic); ok {
		step = s
	}
	if step == "comb" {
		step = rules.CombOut
	}
	if slices.Contains([]string{"orders", "plan", "yields", "capacity"}, r.topic) {
		step = rules.Ordered
	}
	if slices.Contains([]string{"me", "please"}, r.topic) {
		ans.say(sc.Voice, "help")
		return ans, nil
	}
	if id := "help_" + string(step); sc.Voice.Has(id) && step != "unknown" {
		ans.say(sc.Voice, id)
		return ans, nil
	}
	ans.say(sc.Voice, "help_unknown", "Topic", r.topic)
	return ans, nil
}

// inYard reports whether a task's place, which may name several yards, is that one.
func inYard(place, yard string) bool {
	return slices.Contains(strings.Split(place, rules.YardSep), yard)
}
