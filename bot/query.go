package bot

import (
	"fmt"
	"slices"
	"strings"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// due lists what is open on a day or over some days.
func (t *talk) due(r *reading) error {
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	now, today := t.tx.Now, rules.DateOf(t.tx.Now, t.s.Zone)
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
				return t.v.Say("next_is", "Task", t.v.Task(k), "Best", k.Best)
			}
		}
		return ""
	}
	var items []rules.Task
	var head, none string
	switch {
	case r.days > 1:
		items = rules.DueDays(open, from, r.days, t.s, now)
		kv := []any{"From", t.v.Date(from), "To", t.v.Date(from.Add(r.days - 1)), "Next", next(items)}
		head, none = t.v.Say("due_head_days", kv...), t.v.Say("due_none_days", kv...)
	case from == today:
		items = rules.DueOn(open, today, t.s, now)
		kv := []any{"Date", t.v.Date(today), "Next", next(items)}
		head, none = t.v.Say("due_head_today", kv...), t.v.Say("due_none_today", kv...)
	default:
		items = rules.DueOn(open, from, t.s, now)
		kv := []any{"Date", t.v.Date(from), "Next", next(items)}
		head, none = t.v.Say("due_head_day", kv...), t.v.Say("due_none_day", kv...)
	}
	late := 0
	for _, k := range open {
		if !k.Guard && from != today && !now.Before(k.Latest) && now.Sub(k.Latest) <= rules.StaleAfter {
			late++
		}
	}
	if len(items) == 0 {
		t.lines = append(t.lines, none)
		t.dueLate(late)
		return nil
	}
	end := from
	if r.days > 1 {
		end = from.Add(r.days - 1)
	}
	t.lines = append(t.lines, t.v.List(head, items, end))
	t.dueLate(late)
	return nil
}

// dueLate adds to a list of days to come what should have been done before now.
func (t *talk) dueLate(n int) {
	if n > 0 {
		t.say("due_late", "Count", n)
	}
}

// show tells the state of one batch, breeder, builder or yard.
func (t *talk) show(r *reading) error {
	s := r.subject()
	t.subject = s
	switch s.Kind {
	case rules.BatchKind:
		return t.showBatch(s)
	case rules.BreederKind:
		return t.showBreeder(s)
	case rules.BuilderKind:
		return t.showBuilder(s)
	case rules.YardKind:
		return t.showYard(s)
	}
	t.hush()
	return nil
}

func (t *talk) showBatch(s rules.Subject) error {
	b, found, err := t.tx.Batch(t.crew.ID, s.Number())
	if err != nil {
		return err
	}
	if !found {
		known, err := t.knownBatches()
		t.ask("r_not_known_batch", "Number", s.Number())
		if known != "" {
			t.lines[0] += " " + known
		}
		return err
	}
	from, into := "", ""
	if b.Breeder != 0 {
		from = t.v.Say("e_graft_from", "Breeder", rules.BreederSubject(b.Breeder))
	}
	if b.Builder != "" {
		into = t.v.Say("e_graft_into", "Builder", b.Builder)
	}
	t.say("s_batch_head", "Batch", t.v.Head(s), "When", b.Grafted, "From", from, "Into", into, "Ages", t.v.Ages(b.Age))
	var counts []string
	for _, step := range []rules.Step{rules.Graft, rules.Accept, rules.Capped, rules.Nucs, rules.Move, rules.Emerge, rules.Laying, rules.Catch} {
		if n := b.Counts.Of(step); n != nil {
			counts = append(counts, t.v.Say("s_count", "Count", *n, "Past", t.v.Past(step, n)))
		}
	}
	if counts != nil {
		t.say("s_counts", "List", wording.JoinList(counts))
	}
	if len(b.Yards) > 0 {
		t.say("s_yards", "List", wording.JoinList(b.Yards))
	}
	if b.Ended {
		t.say("s_ended")
		return nil
	}
	if b.Moved.IsZero() {
		t.say("s_safe", "Safe", b.Safe, "Emerges", b.Emerges)
	}
	return t.next(func(k rules.Task) bool { return k.Batch == b.Number }, 6)
}

// next lists the open tasks that match.
func (t *talk) next(match func(rules.Task) bool, most int) error {
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	var fit []rules.Task
	for _, k := range open {
		if match(k) && !(k.Guard && !k.Latest.After(t.tx.Now)) {
			fit = append(fit, k)
		}
	}
	if len(fit) == 0 {
		t.say("s_next_none")
		return nil
	}
	t.say("s_next")
	for _, k := range fit[:min(len(fit), most)] {
		t.lines = append(t.lines, t.v.Item(k, true))
	}
	return nil
}

func (t *talk) showBreeder(s rules.Subject) error {
	list, err := t.tx.Breeders(t.crew.ID)
	if err != nil {
		return err
	}
	var found *rules.Breeder
	for i := range list {
		if list[i].Number == s.Number() {
			found = &list[i]
		}
	}
	if found == nil {
		if gone, err := t.retired(s.Number()); err != nil {
			return err
		} else if gone != nil {
			t.say("s_breeder_gone", "Breeder", t.v.Head(s), "Cause", t.v.Cause(*gone), "When", gone.Happened, "By", gone.By)
			return t.next(func(k rules.Task) bool { return k.Subject == s }, 6)
		}
		t.ask("r_not_known", "What", t.v.Head(s), "Form", t.v.Say("form_add", "What", t.v.Named(s)))
		return nil
	}
	combs, err := t.tx.Combs(t.crew.ID, s.Number())
	if err != nil {
		return err
	}
	if c, ok := rules.OpenComb(combs); ok {
		mark := ""
		if c.Mark != "" {
			mark = t.v.Say("with_mark", "Mark", c.Mark)
		}
		t.say("s_breeder_on", "Breeder", t.v.Head(s), "Since", c.Confined, "Mark", mark)
	} else if c, ok := lastComb(combs); ok {
		mark := ""
		if c.Mark != "" {
			mark = t.v.Say("with_mark", "Mark", c.Mark)
		}
		t.say("s_breeder_was", "Breeder", t.v.Head(s), "Since", c.Confined, "Mark", mark, "Out", c.Out)
	} else {
		t.say("s_breeder_off", "Breeder", t.v.Head(s))
	}
	batches, err := t.tx.Batches(t.crew.ID)
	if err != nil {
		return err
	}
	var names []string
	for _, b := range batches {
		if b.Breeder == s.Number() {
			names = append(names, fmt.Sprintf("%s (%s)", t.v.Subject(rules.BatchSubject(b.Number)), t.day(b.Grafted)))
		}
	}
	if n := len(names); n > 0 {
		t.say("s_breeder_batches", "List", wording.JoinList(names[max(0, n-8):]))
	}
	return t.next(func(k rules.Task) bool { return k.Subject == s }, 6)
}

func (t *talk) showBuilder(s rules.Subject) error {
	list, err := t.tx.Builders(t.crew.ID)
	if err != nil {
		return err
	}
	for _, b := range list {
		if b.Name != s.Key {
			continue
		}
		at := ""
		if b.Yard != "" {
			at = t.v.Say("e_at", "Yard", b.Yard)
		}
		t.say("s_builder", "Builder", b.Name, "At", at)
		batches, err := t.tx.Batches(t.crew.ID)
		if err != nil {
			return err
		}
		var names []string
		for _, k := range batches {
			if k.Builder == b.Name && k.Moved.IsZero() && !k.Ended {
				names = append(names, t.v.Subject(rules.BatchSubject(k.Number)))
			}
		}
		if names == nil {
			t.say("s_builder_empty")
		} else {
			t.say("s_builder_holds", "List", wording.JoinList(names))
		}
		return t.next(func(k rules.Task) bool { return k.Subject == s }, 6)
	}
	t.ask("r_not_known", "What", wording.Upper(t.v.Named(s)), "Form", t.v.Say("form_add", "What", t.v.Named(s)))
	return nil
}

func (t *talk) showYard(s rules.Subject) error {
	list, err := t.tx.Yards(t.crew.ID)
	if err != nil {
		return err
	}
	for _, y := range list {
		if y.Name != s.Key {
			continue
		}
		t.say("s_yard", "Yard", y.Name, "Count", y.Nucs)
		batches, err := t.tx.Batches(t.crew.ID)
		if err != nil {
			return err
		}
		var names []string
		for _, b := range batches {
			if slices.Contains(b.Yards, y.Name) && !b.Ended {
				names = append(names, t.v.Subject(rules.BatchSubject(b.Number)))
			}
		}
		if n := len(names); n > 0 {
			t.say("s_yard_holds", "List", wording.JoinList(names[max(0, n-8):]))
		}
		return t.next(func(k rules.Task) bool {
			return inYard(wording.YardOf(k), y.Name) || inYard(k.Into, y.Name) || k.Subject == s
		}, 8)
	}
	t.ask("r_not_known", "What", wording.Upper(t.v.Named(s)), "Form", t.v.Say("form_yard_add", "Key", s.Key))
	return nil
}

// recent shows the newest lines of the log.
func (t *talk) recent() error {
	book, err := t.tx.Logbook(t.crew.ID)
	if err != nil {
		return err
	}
	var lines []string
	for i := len(book) - 1; i >= 0 && len(lines) < 8; i-- {
		l := book[i]
		if l.Message == 0 || l.Action == rules.Void || l.Action == rules.Amend {
			continue
		}
		cur, ok, err := t.current(l)
		if err != nil {
			return err
		}
		if ok {
			lines = append(lines, t.v.Say("s_log_line", "When", cur.Happened, "By", cur.By, "What", t.v.Line(cur.Entry)))
		}
	}
	if lines == nil {
		t.say("s_log_none")
		return nil
	}
	t.say("s_log")
	t.lines = append(t.lines, lines...)
	return nil
}

// help shows what the bot reads.
func (t *talk) help(r *reading) error {
	if r.topic == "" {
		t.say("help")
		return nil
	}
	step := understand().StepOf(r.topic)
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
		t.say("help")
		return nil
	}
	if id := "help_" + string(step); t.v.Has(id) && step != "unknown" {
		t.say(id)
		return nil
	}
	t.say("help_unknown", "Topic", r.topic)
	return nil
}

// inYard reports whether a task's place, which may name several yards, is that one.
func inYard(place, yard string) bool {
	return slices.Contains(strings.Split(place, rules.YardSep), yard)
}
