package bot

import (
	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// query answers a question as it was understood. It reports false where there is nothing
// to say.
func (t *talk) query(a rdg.Act) (bool, error) {
	t.kind = "reply"
	r := t.asReading(rdg.Act{Batch: a.Batch, Breeder: a.Breeder, Builder: a.Builder, Yard: a.Yard})
	var err error
	switch a.Topic {
	case rdg.AskDue:
		if a.When != nil && a.When.Day != nil {
			r.dueDay = when{set: true, hasDay: true, back: -*a.When.Day}
		}
		err = t.due(r)
	case rdg.AskWho:
		err = t.whoHas(a)
	case rdg.AskWhen:
		err = t.next(func(k rules.Task) bool {
			return k.Step == a.Step && (a.Batch == 0 || k.Batch == a.Batch) && (a.Breeder == 0 || k.Breeder == a.Breeder)
		}, mostTold)
	case rdg.AskBatch, rdg.AskBreeder, rdg.AskBuilder, rdg.AskYard:
		err = t.show(&reading{batch: r.batch, breeder: r.breeder * b2i(r.batch == 0), builder: r.builder, yard: r.yard})
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

// whoHas says who took what is due next, of a step where one is named.
func (t *talk) whoHas(a rdg.Act) error {
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	n := 0
	for _, k := range open {
		if k.Guard || n == mostTold || a.Batch != 0 && k.Batch != a.Batch || a.Step != "" && k.Step != a.Step && !k.Latest.IsZero() && k.ClaimedBy == "" {
			continue
		}
		switch {
		case k.ClaimedBy != "":
			t.say("who_has", "Name", k.ClaimedBy, "Task", t.v.task(k), "Best", k.Best)
		case a.Step == k.Step || a.Step == "" && k.Weight >= rules.Important && k.Earliest.Sub(t.tx.Now) < openEarly*2:
			t.say("who_none", "Task", t.v.task(k), "Best", k.Best)
		default:
			continue
		}
		n++
	}
	if n == 0 {
		t.say("who_nothing")
	}
	return nil
}

// countsOf tells how the batches stand that a number is asked of: the one named, else
// those that are under way, the newest last.
func (t *talk) countsOf(a rdg.Act) error {
	if a.Batch != 0 {
		return t.showBatch(rules.BatchSubject(a.Batch))
	}
	list, err := t.tx.Batches(t.crew.ID)
	if err != nil {
		return err
	}
	var fit []rules.Batch
	for _, b := range list {
		if !b.Ended && (a.Builder == "" || b.Builder == a.Builder) && (a.Yard == "" || has(b.Yards, a.Yard)) {
			fit = append(fit, b)
		}
	}
	for _, b := range fit[max(0, len(fit)-2):] {
		if err := t.showBatch(rules.BatchSubject(b.Number)); err != nil {
			return err
		}
	}
	if len(fit) == 0 {
		t.say("s_next_none")
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
		names = append(names, t.v.head(rules.BreederSubject(b.Number)))
	}
	t.say("s_breeders", "List", joinList(names))
	return nil
}
