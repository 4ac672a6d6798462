package bot

import (
	"fmt"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

func intoDo(id int64, place string) string { return fmt.Sprintf("amend|%d|into=%s", id, place) }
func allDo(id int64) string                { return fmt.Sprintf("amend|%d|all=1", id) }

// longOver is how long after its close a step is no longer taken for done at the moment
// of the answer, where all that follows hangs on its hour (our choice).
const longOver = 24 * time.Hour

// done logs the step that the context names.
func (t *talk) done(r *reading) error {
	if seen, err := t.seen(r); seen || err != nil {
		t.hush()
		return err
	}
	k, ok, err := t.taskFor(r, "b_done")
	if err != nil || !ok {
		return err
	}
	t.step, t.subject = k.Step, k.Subject
	at, ok := t.when(&reading{step: k.Step, when: r.when})
	if !ok {
		return nil
	}
	switch {
	case k.State == rules.Done || k.State == rules.Passed:
		if r.count != nil || r.all {
			break // a count may still be missing: the step says so
		}
		t.say("r_done_already", "Task", wording.Upper(t.v.Task(k)))
		return nil
	case k.Guard:
		t.ask("r_guard", "Task", wording.Upper(t.v.Task(k)))
		return nil
	case at.Before(k.Earliest.Add(-12*time.Hour)) && k.Step != rules.Move && !t.opt.anyway["not_open"]:
		t.ask("r_not_open", "Open", k.Earliest, "When", at)
		t.opt.task = k.Key
		t.offer("b_anyway", t.rerun("anyway=not_open"))
		t.offer("b_no", "no")
		return nil
	}
	if hourCritical[k.Step] && !r.when.set && at.Sub(k.Latest) > longOver && !t.opt.anyway["long_over"] {
		// Every later window hangs on this hour, and it was hardly done just now.
		t.ask("r_long_over", "Task", wording.Upper(t.v.Task(k)), "Close", k.Latest, "When", at)
		t.opt.task = k.Key
		t.offer("b_anyway", t.rerun("anyway=long_over"))
		t.offer("b_no", "no")
		return nil
	}
	t.opt.task = k.Key
	if r.mark != "" && !marked[k.Step] && !t.opt.sure {
		// A colour is a pin's; what else it may be of was not read.
		r.rest = append(r.rest, r.mark)
		r.addressed = true
		t.doubt(r)
		return nil
	}
	d := *r
	if !marked[k.Step] {
		d.mark = ""
	}
	d.verb, d.step = doStep, k.Step
	switch k.Step {
	case rules.Graft:
		if d.count == nil && d.builder == "" && t.update.Kind == "press" && t.opt.verb == doDone && !t.opt.sure {
			// A graft makes a batch of its own; without a number the line is still kept.
			break
		}
	case rules.Finish, rules.Rogue:
		if k.Subject.Kind == rules.BuilderKind && d.builder == "" {
			d.builder = k.Subject.Key
		}
	}
	if k.Subject.Kind == rules.BreederKind && d.breeder == 0 {
		d.breeder = k.Subject.Number()
		if k.Mark != "" && d.mark == "" {
			d.mark = k.Mark
		}
	}
	if k.Subject.Kind == rules.BatchKind && d.batch == 0 {
		d.batch = k.Subject.Number()
	}
	return t.deed(&d)
}

// taskFor finds the task that a short answer is about: chosen by a button, of the
// ping replied to, named by step or subject, of the sender's own last subject, or
// the only one open. Where there are several it asks. label names the button's
// word in the question.
func (t *talk) taskFor(r *reading, label string) (rules.Task, bool, error) {
	if k, ok := t.contextTask(); ok {
		return k, true, nil
	}
	if r.step == rules.HandsOff || r.step == rules.Flights {
		t.ask("r_guard", "Task", wording.Upper(t.v.Say("step_"+string(r.step))))
		return rules.Task{}, false, nil
	}
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return rules.Task{}, false, err
	}
	named := r.subject()
	if named.Zero() && t.replied != nil {
		named = rules.ParseSubject(t.replied.Subject)
	}
	if t.opt.subject.Kind != rules.NoKind {
		named = t.opt.subject
	}
	where := named == rules.YardSubject(r.yard) && r.count != nil // "done, 35 in Creek": where they are now
	var fit []rules.Task
	for _, k := range open {
		if k.Guard || r.step != "" && k.Step != r.step {
			continue
		}
		if !named.Zero() && k.Subject != named && !taskOf(k, named) && !(where && k.Batch != 0 && placed[k.Step]) {
			continue
		}
		if r.count != nil && !rules.NeedsCount[k.Step] && k.Step != rules.Rogue && k.Step != rules.Recell {
			continue // a number answers no task that has none
		}
		ready := !t.tx.Now.Before(k.Earliest) && t.tx.Now.Sub(k.Latest) < rules.StaleAfter
		if r.verb != doDone && k.Weight >= rules.Important {
			// It was spoken of on the evening before, so it may be taken from then on.
			eve := rules.At(rules.DateOf(k.Best, t.s.Zone).Add(-1), t.s.Evening, t.s.Zone)
			ready = ready || !t.tx.Now.Before(eve) && t.tx.Now.Before(k.Latest)
		}
		if ready || r.step != "" && (!named.Zero() || r.verb == doMine) { // a task may be taken ahead of its ping
			fit = append(fit, k)
		}
	}
	if own := ofClaimer(fit, t.by.Name); len(own) == 1 {
		fit = own // who took it tells of it
	}
	if named.Zero() && r.step == "" && len(fit) > 1 {
		if own, ok, err := t.ownLastAny(); err != nil {
			return rules.Task{}, false, err
		} else if ok {
			var mine []rules.Task
			for _, k := range fit {
				if k.Subject == own {
					mine = append(mine, k)
				}
			}
			if len(mine) == 1 {
				fit = mine
			}
		}
	}
	switch len(fit) {
	case 1:
		return fit[0], true, nil
	case 0:
		next := ""
		for _, k := range open {
			if !k.Guard && k.Earliest.After(t.tx.Now) {
				next = t.v.Say("next_is", "Task", t.v.Task(k), "Best", k.Best)
				break
			}
		}
		if !named.Zero() && r.step != "" {
			// It may be done already, which the caller says.
			k, found, err := t.tx.Task(t.crew.ID, rules.TaskKey(named, r.step, ""))
			if err != nil || found {
				return k, found, err
			}
		}
		if !named.Zero() || r.step != "" {
			t.ask("r_no_task", "Example", t.example(r))
		} else {
			t.ask("r_nothing_open", "Next", next)
		}
		return rules.Task{}, false, nil
	}
	t.ask("ask_which", "What", t.v.Say(label))
	for _, k := range fit[:min(len(fit), mostButtons)] {
		t.buttons = append(t.buttons, wording.Button(t.v.Say("b_task", "Step", wording.Upper(t.v.Say("step_"+string(k.Step))), "Subject", t.v.TaskSubject(k)), t.rerun("task="+k.Key)))
	}
	return rules.Task{}, false, nil
}

// taskOf reports whether a task of a batch is one of what is named: the batch, or its breeder.
func taskOf(k rules.Task, named rules.Subject) bool {
	return named.Kind == rules.BatchKind && k.Batch == named.Number() || named.Kind == rules.BreederKind && k.Breeder == named.Number()
}

// ofClaimer are the tasks that a member has taken.
func ofClaimer(tasks []rules.Task, name string) (own []rules.Task) {
	for _, k := range tasks {
		if k.ClaimedBy == name {
			own = append(own, k)
		}
	}
	return own
}

// ownLastAny is the subject of the sender's own last line within the hour.
func (t *talk) ownLastAny() (rules.Subject, bool, error) {
	lines, err := t.effectiveOwn(1)
	if err != nil || len(lines) == 0 || t.origin.Said.Sub(lines[0].Said) > time.Hour {
		return rules.Subject{}, false, err
	}
	return lines[0].Subject, !lines[0].Subject.Zero(), nil
}

// claim takes a task, snoozes it or lets it go.
func (t *talk) claim(r *reading) error {
	k, ok, err := t.taskFor(r, "b_"+string(r.verb))
	if err != nil || !ok {
		return err
	}
	t.step, t.subject = k.Step, k.Subject
	if s := r.subject(); !s.Zero() && s != k.Subject && s != rules.BatchSubject(k.Batch) && s != rules.BreederSubject(k.Breeder) {
		t.ask("r_no_task", "Example", t.example(r)) // it answers one thing and names another
		return nil
	}
	switch {
	case k.State != rules.Open:
		t.say("r_done_already", "Task", wording.Upper(t.v.Task(k)))
		return nil
	case k.Guard:
		t.ask("r_guard", "Task", wording.Upper(t.v.Task(k)))
		return nil
	}
	e := rules.Entry{Action: rules.Action(r.verb), Step: k.Step, Subject: k.Subject, Mark: k.Mark, Detail: rules.Detail{Occ: k.Occ}}
	switch r.verb {
	case doMine:
		if k.ClaimedBy == t.by.Name {
			t.say("e_mine", "Name", k.ClaimedBy, "Task", t.v.Task(k), "Best", k.Best, "Close", k.Latest)
			return nil
		}
	case doSkip:
		e.Detail.Reason = r.reason
	case doLater:
		until := t.againAt(r, k)
		if !until.After(t.origin.Said) {
			t.ask("r_later_past", "Until", until)
			return nil
		}
		if t.origin.Said.Before(k.Latest) && !until.Before(k.Latest) {
			t.ask("r_later_close", "Until", until, "Close", k.Latest)
			return nil
		}
		e.Detail.Until = until.UnixMilli()
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	task := t.v.Task(k)
	switch r.verb {
	case doMine:
		id := "e_mine"
		if k.ClaimedBy != "" {
			id = "e_mine_over"
		}
		t.say(id, "Name", t.by.Name, "Old", k.ClaimedBy, "Task", task, "Best", k.Best, "Close", k.Latest)
	case doSkip:
		reason := ""
		if r.reason != "" {
			reason = t.v.Say("e_skip_reason", "Reason", r.reason)
		}
		t.say("e_skip", "Task", task, "Reason", reason, "Stake", t.v.Say("stake_"+k.Stake))
	case doLater:
		at := rules.LaterAt(time.UnixMilli(e.Detail.Until), k, t.s)
		t.say("e_later", "Until", at, "Task", task, "Close", k.Latest)
	}
	return nil
}
