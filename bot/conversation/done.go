package conversation

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
func (sc *Scene) done(r *reading) (Answer, error) {
	var ans Answer
	if seen, err := sc.seen(r); seen || err != nil {
		ans.Ignore()
		return ans, err
	}
	q, k, ok, err := sc.taskFor(r, "b_done")
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	ans.Step, ans.Subject = k.Step, k.Subject
	about := *sc
	about.opt.task = k.Key
	q, at, ok := sc.when(&reading{step: k.Step, when: r.when})
	ans.add(q)
	if !ok {
		return ans, nil
	}
	switch {
	case k.State == rules.Done || k.State == rules.Passed:
		if r.count != nil || r.all {
			break // a count may still be missing: the step says so
		}
		ans.say(sc.Voice, "r_done_already", "Task", wording.Upper(sc.Voice.Task(k)))
		return ans, nil
	case k.Guard:
		ans.ask(sc.Voice, "r_guard", "Task", wording.Upper(sc.Voice.Task(k)))
		return ans, nil
	case at.Before(k.Earliest.Add(-12*time.Hour)) && k.Step != rules.Move && !sc.opt.anyway["not_open"]:
		ans.ask(sc.Voice, "r_not_open", "Open", k.Earliest, "When", at)
		ans.offer(sc.Voice, "b_anyway", about.rerun("anyway=not_open"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, nil
	}
	if hourCritical[k.Step] && !r.when.set && at.Sub(k.Latest) > longOver && !sc.opt.anyway["long_over"] {
		// Every later window hangs on this hour, and it was hardly done just now.
		ans.ask(sc.Voice, "r_long_over", "Task", wording.Upper(sc.Voice.Task(k)), "Close", k.Latest, "When", at)
		ans.offer(sc.Voice, "b_anyway", about.rerun("anyway=long_over"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, nil
	}
	ans.of = &about
	if r.mark != "" && !marked[k.Step] && !sc.opt.sure {
		// A colour is a pin's; what else it may be of was not read.
		r.rest = append(r.rest, r.mark)
		r.addressed = true
		ans.is(about.doubt(r))
		return ans, nil
	}
	d := *r
	if !marked[k.Step] {
		d.mark = ""
	}
	d.verb, d.step = doStep, k.Step
	switch k.Step {
	case rules.Graft:
		if d.count == nil && d.builder == "" && sc.Update.Kind == "press" && sc.opt.verb == doDone && !sc.opt.sure {
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
	return ans.then(about.deed(&d))
}

// taskFor finds the task that a short answer is about: chosen by a button, of the
// ping replied to, named by step or subject, of the sender's own last subject, or
// the only one open. Where there are several it asks. label names the button's
// word in the question.
func (sc *Scene) taskFor(r *reading, label string) (Answer, rules.Task, bool, error) {
	var ans Answer
	if k, ok := sc.contextTask(); ok {
		return ans, k, true, nil
	}
	if r.step == rules.HandsOff || r.step == rules.Flights {
		ans.ask(sc.Voice, "r_guard", "Task", wording.Upper(sc.Voice.Say("step_"+string(r.step))))
		return ans, rules.Task{}, false, nil
	}
	open := sc.open()
	named := r.subject()
	if named.Zero() && sc.Replied != nil && !sc.toBars() {
		named = rules.ParseSubject(sc.Replied.Subject)
	}
	if sc.opt.subject.Kind != rules.NoKind {
		named = sc.opt.subject
	}
	of, err := sc.batchesOf(named)
	if err != nil {
		return ans, rules.Task{}, false, err
	}
	where := named == rules.YardSubject(r.yard) && r.count != nil // "done, 35 in Creek": where they are now
	var fit []rules.Task
	for _, k := range open {
		if k.Guard || r.step != "" && k.Step != r.step {
			continue
		}
		if !named.Zero() && k.Subject != named && !of[k.Batch] && !(where && k.Batch != 0 && placed[k.Step]) {
			continue
		}
		if r.count != nil && !rules.NeedsCount[k.Step] && k.Step != rules.Rogue && k.Step != rules.Recell {
			continue // a number answers no task that has none
		}
		ready := !sc.Look.Now.Before(k.Earliest) && sc.Look.Now.Sub(k.Latest) < rules.StaleAfter
		if r.verb != doDone && k.Weight >= rules.Important {
			// It was spoken of on the evening before, so it may be taken from then on.
			eve := rules.At(rules.DateOf(k.Best, sc.Settings.Zone).Add(-1), sc.Settings.Evening, sc.Settings.Zone)
			ready = ready || !sc.Look.Now.Before(eve) && sc.Look.Now.Before(k.Latest)
		}
		if ready || r.step != "" && (!named.Zero() || r.verb == doMine || r.verb == doAssign) { // a task may be taken ahead of its ping
			fit = append(fit, k)
		}
	}
	if own := ofClaimer(fit, sc.By.Name); len(own) == 1 {
		fit = own // who took it tells of it
	}
	if named.Zero() && r.step == "" && len(fit) > 1 {
		if own, ok, err := sc.ownLastAny(); err != nil {
			return ans, rules.Task{}, false, err
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
		return ans, fit[0], true, nil
	case 0:
		next := ""
		for _, k := range open {
			if !k.Guard && k.Earliest.After(sc.Look.Now) {
				next = sc.Voice.Say("next_is", "Task", sc.Voice.Task(k), "Best", k.Best)
				break
			}
		}
		if !named.Zero() && r.step != "" {
			// It may be done already, which the caller says.
			k, found, err := sc.Look.Task(sc.Crew.ID, rules.TaskKey(named, r.step, ""))
			if err != nil || found {
				return ans, k, found, err
			}
		}
		if !named.Zero() || r.step != "" {
			ans.ask(sc.Voice, "r_no_task", "Example", sc.example(r))
		} else {
			ans.ask(sc.Voice, "r_nothing_open", "Next", next)
		}
		return ans, rules.Task{}, false, nil
	}
	ans.ask(sc.Voice, "ask_which", "What", sc.Voice.Say(label))
	for _, k := range fit[:min(len(fit), mostButtons)] {
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_task", "Step", wording.Upper(sc.Voice.Say("step_"+string(k.Step))), "Subject", sc.Voice.TaskSubject(k)), sc.rerun("task="+k.Key)))
	}
	return ans, rules.Task{}, false, nil
}

// batchesOf are the batches that belong to what is named: the batch itself, those of a
// breeder, those in a builder.
func (sc *Scene) batchesOf(named rules.Subject) (map[int]bool, error) {
	of := map[int]bool{}
	if named.Kind == rules.BatchKind {
		of[named.Number()] = true
		return of, nil
	}
	list, err := sc.Look.Batches(sc.Crew.ID)
	if err != nil {
		return nil, err
	}
	for _, b := range list {
		of[b.Number] = !b.Ended && (named == rules.BreederSubject(b.Breeder) || b.Builder != "" && named == rules.BuilderSubject(b.Builder))
	}
	return of, nil
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
func (sc *Scene) ownLastAny() (rules.Subject, bool, error) {
	lines, err := sc.effectiveOwn(1)
	if err != nil || len(lines) == 0 || sc.Origin.Said.Sub(lines[0].Said) > time.Hour {
		return rules.Subject{}, false, err
	}
	return lines[0].Subject, !lines[0].Subject.Zero(), nil
}

// claim takes a task, snoozes it or lets it go.
func (sc *Scene) claim(r *reading) (Answer, error) {
	var ans Answer
	who := sc.By
	if r.verb == doAssign {
		m, q, ok, err := sc.member(r.whose)
		if err != nil || !ok {
			return q, err
		}
		who = m
	}
	q, k, ok, err := sc.taskFor(r, "b_"+string(r.verb))
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	ans.Step, ans.Subject = k.Step, k.Subject
	if s := r.subject(); !s.Zero() && s != k.Subject && s != rules.BatchSubject(k.Batch) && s != rules.BreederSubject(k.Breeder) {
		ans.ask(sc.Voice, "r_no_task", "Example", sc.example(r)) // it answers one thing and names another
		return ans, nil
	}
	switch {
	case k.State != rules.Open:
		ans.say(sc.Voice, "r_done_already", "Task", wording.Upper(sc.Voice.Task(k)))
		return ans, nil
	case k.Guard:
		ans.ask(sc.Voice, "r_guard", "Task", wording.Upper(sc.Voice.Task(k)))
		return ans, nil
	}
	e := rules.Entry{Action: rules.Action(r.verb), Step: k.Step, Subject: k.Subject, Mark: k.Mark, Detail: rules.Detail{Occ: k.Occ}}
	switch r.verb {
	case doMine, doAssign:
		if k.ClaimedBy == who.Name {
			ans.say(sc.Voice, "e_mine", "Name", k.ClaimedBy, "Task", sc.Voice.Task(k), "Best", k.Best, "Close", k.Latest)
			return ans, nil
		}
		if r.verb == doAssign {
			if stop := ans.is(sc.awayThen(who.Name, k)); stop {
				return ans, nil
			}
			e.Action, e.Whom, e.Detail.Member = rules.Mine, who.Name, who.ID
		}
	case doSkip:
		e.Detail.Reason = r.reason
	case doLater:
		until := sc.againAt(r, k)
		if !until.After(sc.Origin.Said) {
			ans.ask(sc.Voice, "r_later_past", "Until", until)
			return ans, nil
		}
		if sc.Origin.Said.Before(k.Latest) && !until.Before(k.Latest) {
			ans.ask(sc.Voice, "r_later_close", "Until", until, "Close", k.Latest)
			return ans, nil
		}
		e.Detail.Until = until.UnixMilli()
	}
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	task := sc.Voice.Task(k)
	switch r.verb {
	case doMine, doAssign:
		id := "e_mine"
		if k.ClaimedBy != "" {
			id = "e_mine_over"
		}
		ans.say(sc.Voice, id, "Name", who.Name, "Old", k.ClaimedBy, "Task", task, "Best", k.Best, "Close", k.Latest)
	case doSkip:
		reason := ""
		if r.reason != "" {
			reason = sc.Voice.Say("e_skip_reason", "Reason", r.reason)
		}
		ans.say(sc.Voice, "e_skip", "Task", task, "Reason", reason, "Stake", sc.Voice.Say("stake_"+k.Stake))
	case doLater:
		at := rules.LaterAt(time.UnixMilli(e.Detail.Until), k, sc.Settings)
		ans.say(sc.Voice, "e_later", "Until", at, "Task", task, "Close", k.Latest)
	}
	return ans, nil
}
