package bot

import (
	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// query answers a question as it was understood. It reports false where there is nothing
// to say.
func (t *talk) query(a rdg.Act) (bool, error) {
	t.kind = "reply"
	var err error
	switch a.Topic {
	case rdg.AskDue:
		r := &reading{}
		if a.When != nil && a.When.Day != nil {
			r.dueDay = when{set: true, hasDay: true, back: -*a.When.Day}
		}
		err = t.due(r)
	case rdg.AskWho:
		err = t.whoHas(a)
	case rdg.AskWhen:
		err = t.tellOf(a)
	case rdg.AskBatch, rdg.AskBreeder, rdg.AskBuilder, rdg.AskYard:
		err = t.showNamed(a)
	case rdg.AskCount:
		err = t.countsOf(a)
	case rdg.AskFree:
		err = t.capacity()
	case rdg.AskBreeders:
		err = t.breedersKnown()
	default:
		return false, nil
	}
	return len(t.lines) > 0, err
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// mostTold is how many tasks an answer names.
const mostTold = 4

// whoHas says who took what is due, and who did what is on record, of a step where one is
// named.
func (t *talk) whoHas(a rdg.Act) error {
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	s, err := t.scopeOf(a)
	if err != nil {
		return err
	}
	past := a.Step != "" && (a.Done || a.When != nil && a.When.Day != nil && *a.When.Day < 0)
	n := 0
	for _, k := range open {
		if k.Guard || n == mostTold || past || s.named() && !s.holdsTask(k) || a.Step != "" && k.Step != a.Step && !k.Latest.IsZero() && k.ClaimedBy == "" {
			continue
		}
		switch {
		case k.ClaimedBy != "":
			t.say("who_has", "Name", k.ClaimedBy, "Task", t.v.Task(k), "Best", k.Best)
		case a.Step == k.Step || a.Step == "" && k.Weight >= rules.Important && k.Earliest.Sub(t.tx.Now) < openEarly*2:
			t.say("who_none", "Task", t.v.Task(k), "Best", k.Best)
		default:
			continue
		}
		n++
	}
	if past || n == 0 && (a.Step != "" || s.named()) {
		before := len(t.lines)
		if err := t.tellTold(s); err != nil {
			return err
		}
		n += len(t.lines) - before
	}
	switch {
	case a.Step == "" && s.named():
		return t.showNamed(a)
	case n > 0:
		return nil
	case a.Step != "" || s.named():
		return t.nearest(a)
	}
	t.say("who_nothing")
	return nil
}

// countsOf tells how the batches stand that a number is asked of: the one named, else
// those that are under way, the newest last. Of a yard it tells what came there.
func (t *talk) countsOf(a rdg.Act) error {
	if a.Yard != "" {
		s, err := t.scopeOf(a)
		if err != nil {
			return err
		}
		if err := t.tellTold(s); err != nil {
			return err
		}
	}
	told := len(t.lines)
	if err := t.altogether(a); err != nil {
		return err
	}
	if a.Step != "" && !(scope{act: a}).named() && len(t.lines) > told {
		return nil // the number is what was asked for
	}
	n := len(t.lines)
	if err := t.liveBatches(a); err != nil {
		return err
	}
	if len(t.lines) == n {
		return t.nearest(a)
	}
	return nil
}

// breedersKnown lists the crew's breeders.
func (t *talk) breedersKnown() error {
	list, err := t.tx.Breeders(t.crew.ID)
	if err != nil {
		return err
	}
	var names []string
	for _, b := range list {
		names = append(names, t.v.Head(rules.BreederSubject(b.Number)))
	}
	t.say("s_breeders", "List", wording.JoinList(names))
	return nil
}
