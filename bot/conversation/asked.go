package conversation

import (
	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// query answers a question as it was understood. It reports false where there is nothing
// to say.
func (sc *Scene) query(a rdg.Act) (Answer, bool, error) {
	var ans Answer
	ans.Kind = "reply"
	var err error
	switch a.Topic {
	case rdg.AskDue:
		r := &reading{}
		if a.When != nil && a.When.Day != nil {
			r.dueDay = when{set: true, hasDay: true, back: -*a.When.Day}
		}
		err = ans.take(sc.due(r))
	case rdg.AskWho:
		err = ans.take(sc.whoHas(a))
	case rdg.AskWhen:
		if a.Step == foulbrood {
			ans.add(sc.foulbrood(sc.asReading(a)))
			return ans, true, nil
		}
		err = ans.take(sc.tellOf(a))
	case rdg.AskBatch, rdg.AskBreeder, rdg.AskBuilder, rdg.AskYard:
		err = ans.take(sc.showNamed(a))
	case rdg.AskCount:
		err = ans.take(sc.countsOf(a))
	case rdg.AskFree:
		err = ans.take(sc.capacity())
	case rdg.AskStock:
		ans.add(sc.stockAsked(a))
	case rdg.AskCustomer:
		ans.add(sc.customerAsked(a))
	case rdg.AskQueen:
		err = ans.take(sc.queenAsked(a))
	case rdg.AskBreeders:
		err = ans.take(sc.breedersKnown())
	default:
		return ans, false, nil
	}
	return ans, len(ans.Lines) > 0, err
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
func (sc *Scene) whoHas(a rdg.Act) (Answer, error) {
	var ans Answer
	open := sc.open()
	s, err := sc.scopeOf(a)
	if err != nil {
		return ans, err
	}
	past := a.Step != "" && (a.Done || a.When != nil && a.When.Day != nil && *a.When.Day < 0)
	n := 0
	for _, k := range open {
		if k.Guard || n == mostTold || past || s.named() && !s.holdsTask(k) || a.Step != "" && k.Step != a.Step && !k.Latest.IsZero() && k.ClaimedBy == "" {
			continue
		}
		switch {
		case k.ClaimedBy != "":
			ans.say(sc.Voice, "who_has", "Name", k.ClaimedBy, "Task", sc.Voice.Task(k), "Best", k.Best)
		case a.Step == k.Step || a.Step == "" && k.Weight >= rules.Important && k.Earliest.Sub(sc.Look.Now) < openEarly*2:
			ans.say(sc.Voice, "who_none", "Task", sc.Voice.Task(k), "Best", k.Best)
		default:
			continue
		}
		n++
	}
	if past || n == 0 && (a.Step != "" || s.named()) {
		before := len(ans.Lines)
		if err := ans.take(sc.tellTold(s)); err != nil {
			return ans, err
		}
		n += len(ans.Lines) - before
	}
	switch {
	case a.Step == "" && s.named():
		return ans.then(sc.showNamed(a))
	case n > 0:
		return ans, nil
	case a.Step != "" || s.named():
		return ans.then(sc.nearest(a))
	}
	ans.say(sc.Voice, "who_nothing")
	return ans, nil
}

// countsOf tells how the batches stand that a number is asked of: the one named, else
// those that are under way, the newest last. Of a yard it tells what came there.
func (sc *Scene) countsOf(a rdg.Act) (Answer, error) {
	var ans Answer
	if a.Yard != "" {
		s, err := sc.scopeOf(a)
		if err != nil {
			return ans, err
		}
		if err := ans.take(sc.tellTold(s)); err != nil {
			return ans, err
		}
	}
	told := len(ans.Lines)
	if err := ans.take(sc.altogether(a)); err != nil {
		return ans, err
	}
	if a.Step != "" && !(scope{act: a}).named() && len(ans.Lines) > told {
		return ans, nil // the number is what was asked for
	}
	n := len(ans.Lines)
	if err := ans.take(sc.liveBatches(a)); err != nil {
		return ans, err
	}
	if len(ans.Lines) == n {
		return ans.then(sc.nearest(a))
	}
	return ans, nil
}

// breedersKnown lists the crew's breeders.
func (sc *Scene) breedersKnown() (Answer, error) {
	var ans Answer
	list := sc.model.Breeders()
	var names []string
	for _, b := range list {
		names = append(names, sc.Voice.Head(rules.BreederSubject(b.Number)))
	}
	ans.say(sc.Voice, "s_breeders", "List", wording.JoinList(names))
	return ans, nil
}
