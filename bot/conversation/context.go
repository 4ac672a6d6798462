package conversation

import (
	"slices"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// contextTask is the task the message is an answer to: chosen by a button, or of
// the ping replied to.
func (sc *Scene) contextTask() (rules.Task, bool) {
	key := sc.opt.task
	if key == "" && sc.Replied != nil && !sc.toBars() {
		key = sc.Replied.TaskKey
	}
	if key == "" {
		return rules.Task{}, false
	}
	return sc.model.Task(key)
}

// context is the subject of a kind that the message is about without naming it:
// chosen by a button, of the message replied to, or the sender's own last within
// the hour.
func (sc *Scene) context(kind rules.Kind) (rules.Subject, bool) {
	if sc.opt.subject.Kind == kind {
		return sc.opt.subject, true
	}
	if k, ok := sc.contextTask(); ok {
		switch {
		case k.Subject.Kind == kind:
			return k.Subject, true
		case kind == rules.BatchKind && k.Batch != 0:
			return rules.BatchSubject(k.Batch), true
		case kind == rules.BreederKind && k.Breeder != 0 && k.Subject.Kind != rules.BatchKind:
			return rules.BreederSubject(k.Breeder), true
		}
	}
	if sc.Replied != nil {
		if s := rules.ParseSubject(sc.Replied.Subject); s.Kind == kind && !sc.toBars() {
			return s, true
		}
		return rules.Subject{}, false
	}
	return rules.Subject{}, false
}

// toBars reports whether the message replies to a ping about several bars.
func (sc *Scene) toBars() bool { return sc.Replied != nil && len(wording.TasksOf(*sc.Replied)) > 1 }

// ownLast is the subject of the sender's own last line within the hour.
func (sc *Scene) ownLast(kind rules.Kind) (rules.Subject, bool, error) {
	lines, err := sc.effectiveOwn(1)
	if err != nil || len(lines) == 0 {
		return rules.Subject{}, false, err
	}
	l := lines[0]
	if sc.Origin.Said.Sub(l.Said) > time.Hour || l.Subject.Kind != kind {
		return rules.Subject{}, false, nil
	}
	return l.Subject, true, nil
}

// effectiveOwn are the newest lines of the sender that still count, with the
// values they have now, newest first.
func (sc *Scene) effectiveOwn(limit int) ([]store.Line, error) {
	const most = 200
	for look := min(most, 8*limit); ; look = most { // what counts is seldom further back
		out, all, err := sc.effectiveOf(limit, look)
		if err != nil || len(out) == limit || len(all) < look || look == most {
			return out, err
		}
	}
}

// effectiveOf looks at so many of the sender's lines, which it gives as they stand as well.
func (sc *Scene) effectiveOf(limit, look int) (out, all []store.Line, err error) {
	lines, err := sc.Look.LastLines(sc.Crew.ID, sc.By.ID, look)
	if err != nil {
		return nil, nil, err
	}
	seen := map[int64]bool{}
	for _, l := range lines {
		if l.Action == rules.Void || seen[l.ID] || seen[l.Ref] {
			continue
		}
		if l.Action == rules.Amend {
			// A line that the sender put right is the sender's own as well.
			gone, err := sc.gone(l)
			if err != nil {
				return nil, nil, err
			}
			base, found, err := sc.Look.LineByID(sc.Crew.ID, l.Ref)
			if err != nil {
				return nil, nil, err
			}
			if gone || !found {
				continue
			}
			l = base
		}
		seen[l.ID] = true
		cur, ok, err := sc.current(l)
		if err != nil {
			return nil, nil, err
		}
		if ok {
			out = append(out, cur)
		}
		if len(out) == limit {
			break
		}
	}
	return out, lines, nil
}

// repliedLines are the lines that the message replied to logged, as they count now:
// those taken back are gone, of one put right the line itself.
func (sc *Scene) repliedLines() (lines []store.Line, err error) {
	list, err := sc.Look.UpdateLines(sc.Replied.Update)
	if err != nil {
		return nil, err
	}
	for _, l := range list {
		if l.Action == rules.Amend {
			if l, _, err = sc.Look.LineByID(sc.Crew.ID, l.Ref); err != nil {
				return nil, err
			}
		}
		cur, ok, err := sc.current(l)
		if err != nil {
			return nil, err
		}
		if ok {
			lines = append(lines, cur)
		}
	}
	return lines, nil
}

// current is a line with the values it has now; ok is false where it was voided.
func (sc *Scene) current(l store.Line) (store.Line, bool, error) {
	refs, err := sc.Look.RefLines(sc.Crew.ID, l.ID)
	if err != nil {
		return l, false, err
	}
	list := []rules.Entry{l.Entry}
	for _, r := range refs {
		list = append(list, r.Entry)
		if r.Action == rules.Amend {
			more, err := sc.Look.RefLines(sc.Crew.ID, r.ID)
			if err != nil {
				return l, false, err
			}
			for _, m := range more {
				list = append(list, m.Entry)
			}
		}
	}
	eff := rules.Effective(list)
	if len(eff) == 0 {
		return l, false, nil
	}
	l.Entry = eff[0]
	return l, true, nil
}

// batchFor finds the batch a step is about. Where there are two, it asks; where
// there is none, it says so. ok is false in both cases.
func (sc *Scene) batchFor(r *reading, step rules.Step, at time.Time) (ans Answer, b rules.Batch, ok bool, err error) {
	if r.batch != 0 {
		b, found, err := sc.Look.Batch(sc.Crew.ID, r.batch)
		if err != nil {
			return ans, b, false, err
		} else if found {
			return sc.asSaid(b, r, step)
		}
		known, err := sc.knownBatches()
		ans.Kind = "ask"
		ans.say(sc.Voice, "r_no_batch", "Number", r.batch, "Known", known)
		return ans, b, false, err
	}
	if s, ok := sc.context(rules.BatchKind); ok {
		b, found, err := sc.Look.Batch(sc.Crew.ID, s.Number())
		if err != nil {
			return ans, b, false, err
		} else if found {
			return sc.asSaid(b, r, step)
		}
	}
	batches := sc.model.Batches()
	if len(batches) == 0 {
		ans.ask(sc.Voice, "r_no_batches")
		return ans, b, false, nil
	}
	open := sc.open()
	waiting := map[int]bool{}
	for _, slack := range []time.Duration{12 * time.Hour, 60 * 24 * time.Hour} {
		for _, k := range open {
			// A window that closed long ago is no candidate beside one that is open.
			if k.Step == step && k.Batch != 0 && at.After(k.Earliest.Add(-slack)) && at.Sub(k.Latest) < rules.StaleAfter {
				waiting[k.Batch] = true
			}
		}
		if len(waiting) > 0 {
			break
		}
	}
	if own, ok, err := sc.ownLast(rules.BatchKind); err != nil {
		return ans, b, false, err
	} else if ok && !sc.toBars() && (waiting[own.Number()] || len(waiting) == 0) {
		b, found, err := sc.Look.Batch(sc.Crew.ID, own.Number())
		if err != nil || found && (r.breeder == 0 || b.Breeder == r.breeder) && !elsewhere(b, r, step) {
			return ans, b, found, err
		}
	}
	var fit []rules.Batch
	for _, c := range batches {
		if waiting[c.Number] {
			fit = append(fit, c)
		}
	}
	if len(fit) == 0 {
		// Nobody waits for it: a repeat or a correction of the newest batch that is
		// still alive, where there is only one.
		for _, c := range batches {
			if !c.Ended && at.Sub(c.Grafted) < 60*24*time.Hour && at.After(c.Grafted.Add(-time.Hour)) {
				fit = append(fit, c)
			}
		}
		if last := batches[len(batches)-1].Number; len(fit) == 0 {
			ans.ask(sc.Voice, "r_no_waiting", "Step", step, "Example", sc.Voice.Say("form_batch", "Form", sc.Voice.Say("form_"+string(step)), "Number", last))
			return ans, b, false, nil
		}
	}
	if bars := sc.barTasks(); len(bars) > 0 && bars[0].Step == step {
		fit = nil
		for _, c := range batches {
			if slices.ContainsFunc(bars, func(k rules.Task) bool { return k.Batch == c.Number }) {
				fit = append(fit, c)
			}
		}
	}
	if r.breeder != 0 {
		fit = ofMother(fit, batches, r.breeder, at)
	}
	fit = byPlace(fit, r, step)
	if len(fit) == 1 {
		return sc.asSaid(fit[0], r, step)
	}
	ans.Step = step
	ans.ask(sc.Voice, "ask_which", "What", wording.Upper(sc.Voice.Say("step_"+string(step))))
	for _, c := range fit[max(0, len(fit)-mostButtons):] {
		s := rules.BatchSubject(c.Number)
		ans.Buttons = append(ans.Buttons, wording.Button(wording.Upper(sc.Voice.Subject(s)), sc.rerun("subject="+s.String())))
	}
	return ans, b, false, nil
}

// ofMother keeps the batches from a breeder; where none of those waiting is, the
// others from her that may be alive.
func ofMother(fit, batches []rules.Batch, breeder int, at time.Time) []rules.Batch {
	own := func(list []rules.Batch) (out []rules.Batch) {
		for _, b := range list {
			if b.Breeder == breeder && !b.Ended && at.Sub(b.Grafted) < 60*24*time.Hour && at.After(b.Grafted.Add(-time.Hour)) {
				out = append(out, b)
			}
		}
		return out
	}
	if hers := own(fit); len(hers) > 0 {
		return hers
	}
	if hers := own(batches); len(hers) > 0 {
		return hers
	}
	return fit
}

// asSaid asks back where the batch is from another breeder, or in another builder,
// than the one named.
func (sc *Scene) asSaid(b rules.Batch, r *reading, step rules.Step) (Answer, rules.Batch, bool, error) {
	var ans Answer
	switch {
	case r.breeder != 0 && b.Breeder != 0 && b.Breeder != r.breeder:
		example := sc.Voice.Say("form_batch", "Form", sc.Voice.Say("form_"+string(step)), "Number", b.Number)
		ans.ask(sc.Voice, "r_not_from", "Batch", sc.Voice.Head(rules.BatchSubject(b.Number)), "From", rules.BreederSubject(b.Breeder), "Breeder", rules.BreederSubject(r.breeder), "Example", example)
		return ans, b, false, nil
	case elsewhere(b, r, step) && !sc.opt.anyway["not_in"]:
		ans.ask(sc.Voice, "r_not_in", "Batch", sc.Voice.Head(rules.BatchSubject(b.Number)), "Has", b.Builder, "Builder", r.builder)
		ans.offer(sc.Voice, "b_anyway", sc.rerun("anyway=not_in"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, b, false, nil
	}
	return ans, b, true, nil
}

// elsewhere reports whether a message names another builder than the batch's own,
// beside a step that leaves the cells where they are or takes them out.
func elsewhere(b rules.Batch, r *reading, step rules.Step) bool {
	stands := slices.ContainsFunc(b.Account.Lots, func(l rules.Lot) bool { return l.Place == r.builder })
	return r.builder != "" && b.Builder != "" && b.Builder != r.builder && !stands && step != rules.Finish && step != rules.Rogue
}

// byPlace keeps the batches whose own nucs, builder or breeder the message names,
// where each of the others has a place or a breeder of its own.
func byPlace(fit []rules.Batch, r *reading, step rules.Step) []rules.Batch {
	keep := func(said bool, known, same func(rules.Batch) bool) {
		var here []rules.Batch
		for _, b := range fit {
			if !said || !known(b) {
				return
			}
			if same(b) {
				here = append(here, b)
			}
		}
		if len(here) > 0 {
			fit = here
		}
	}
	keep(r.builder != "" && step != rules.Finish, func(b rules.Batch) bool { return b.Builder != "" }, func(b rules.Batch) bool { return b.Builder == r.builder })
	keep(r.breeder != 0, func(b rules.Batch) bool { return b.Breeder != 0 }, func(b rules.Batch) bool { return b.Breeder == r.breeder })
	keep(r.yard != "", func(b rules.Batch) bool { return len(b.Yards) > 0 }, func(b rules.Batch) bool { return slices.Contains(b.Yards, r.yard) })
	return fit
}

func (sc *Scene) knownBatches() (string, error) {
	list, err := sc.Look.Batches(sc.Crew.ID)
	if err != nil || len(list) == 0 {
		return "", err
	}
	var names []string
	for _, b := range list[max(0, len(list)-6):] {
		names = append(names, sc.Voice.Subject(rules.BatchSubject(b.Number)))
	}
	return sc.Voice.Say("known_batches", "List", wording.JoinList(names)), nil
}
