package conversation

import (
	"slices"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// placeDo spells a button that says from which place or yard.
func placeDo(place string) string { return "yard=" + place }

// lose logs cells, virgins or queens that are gone, at whatever stage their batch stands:
// of the place that is named, else of the only one that holds any.
func (sc *Scene) lose(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	ans.Step = e.Step
	if e.Into = r.place(); sc.opt.yard != "" {
		e.Into = sc.opt.yard
	}
	q, b, ok, err := sc.losing(r, e)
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	e.Subject = rules.BatchSubject(b.Number)
	ans.Subject = e.Subject
	e.Of, e.Detail.All = nil, r.all
	switch {
	case r.all:
		e.Count = nil
	case e.Count == nil:
		ans.ask(sc.Voice, "ask_lost", "Batch", sc.Voice.Head(e.Subject))
		return ans, nil
	}
	if stop := ans.is(sc.lostWhere(&e, b)); stop {
		return ans, nil
	}
	if stop, err := ans.taken(sc.lostAlready(e)); stop || err != nil {
		return ans, err
	}
	if bad := rules.CheckLose(e, b, 0); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	if bad := sc.contradicts(e); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	sc, done, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoLose(done[0])), nil
}

// place is the place or yard that a message names.
func (r *reading) place() string {
	switch {
	case r.yard != "":
		return r.yard
	case r.incubator != "" && r.incubator != rdg.AnyIncubator:
		return rules.IncubatorPlace(r.incubator)
	}
	return r.builder
}

// losing finds the batch that something was lost of: the one named, of the message replied
// to, the only one that the place named holds, the sender's own last.
func (sc *Scene) losing(r *reading, e rules.Entry) (ans Answer, b rules.Batch, ok bool, err error) {
	named := r.batch
	if s, is := sc.context(rules.BatchKind); is && named == 0 {
		named = s.Number()
	}
	if named != 0 {
		b, found := sc.model.Batch(named)
		switch {
		case !found:
			known, err := sc.knownBatches()
			ans.ask(sc.Voice, "r_no_batch", "Number", named, "Known", known)
			return ans, b, false, err
		case b.Ended:
			ans.ask(sc.Voice, "r_batch_ended", "Batch", sc.Voice.Head(rules.BatchSubject(named)))
			return ans, b, false, nil
		}
		return ans, b, true, nil
	}
	var fit []rules.Batch
	for _, b := range sc.model.Batches() {
		holds := !b.Ended && !e.Happened.Before(b.Grafted) && len(b.Account.Holdings()) > 0
		if _, here := b.Account.Holding(e.Into); holds && (e.Into == "" || here) && (r.breeder == 0 || b.Breeder == r.breeder) {
			fit = append(fit, b)
		}
	}
	if own, is, err := sc.ownLast(rules.BatchKind); err != nil {
		return ans, b, false, err
	} else if is && len(fit) > 1 && e.Into == "" {
		if i := slices.IndexFunc(fit, func(b rules.Batch) bool { return b.Number == own.Number() }); i >= 0 {
			fit = fit[i : i+1]
		}
	}
	switch len(fit) {
	case 0:
		at := ""
		if e.Into != "" {
			at = sc.Voice.Say("e_at", "Yard", sc.Voice.Place(e.Into))
		}
		ans.ask(sc.Voice, "r_lost_none", "At", at)
		return ans, b, false, nil
	case 1:
		return ans, fit[0], true, nil
	}
	ans.ask(sc.Voice, "ask_which", "What", wording.Upper(sc.lostWhat(e, fit[0])))
	for _, b := range fit[max(0, len(fit)-mostButtons):] {
		s := rules.BatchSubject(b.Number)
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Head(s), sc.rerun("subject="+s.String())))
	}
	return ans, b, false, nil
}

// lostWhere takes the place from the only one that holds any of the batch, else asks for it.
// A batch that is lost whole needs none.
func (sc *Scene) lostWhere(e *rules.Entry, b rules.Batch) (Answer, bool) {
	var ans Answer
	if e.Into != "" || e.Detail.All {
		return ans, false
	}
	var fit []rules.Holding
	for _, h := range inHand(b, e.Happened) {
		if h.Count == nil || *h.Count >= *e.Count {
			fit = append(fit, h)
		}
	}
	switch len(fit) {
	case 0:
		left := 0
		for _, h := range inHand(b, e.Happened) {
			left = max(left, wording.Deref(h.Count))
		}
		ans.refuse(sc, &rules.Refusal{Code: "lost_most", Args: map[string]any{"Batch": b.Number, "Count": *e.Count, "Had": left}})
		return ans, true
	case 1:
		e.Into = fit[0].Where
		return ans, false
	}
	ans.ask(sc.Voice, "ask_lost_where", "What", wording.Upper(sc.lostWhat(*e, b)), "Batch", sc.Voice.Subject(e.Subject))
	for _, h := range fit[:min(len(fit), mostButtons)] {
		if h.Where != "" {
			ans.Buttons = append(ans.Buttons, wording.Button(wording.Upper(sc.Voice.Place(h.Where)), sc.rerun(placeDo(h.Where))))
		}
	}
	return ans, true
}

// inHand are the places of a batch that something can be lost in: what was left over when
// the cells were moved is none of them once all have emerged.
func inHand(b rules.Batch, at time.Time) []rules.Holding {
	return slices.DeleteFunc(b.Account.Holdings(), func(h rules.Holding) bool {
		return !h.Yard && b.Account.Queens.Stages != nil && !at.Before(b.Emerges)
	})
}

// lostAlready asks whether the same loss was told twice: of the same batch and place, as
// many, within what two watches differ by.
func (sc *Scene) lostAlready(e rules.Entry) (ans Answer, stop bool, err error) {
	if sc.opt.sure {
		return ans, false, nil
	}
	for _, old := range rules.Effective(sc.model.Entries(e.Subject)) {
		if old.Action != rules.Did || old.Step != rules.Lose || e.Happened.Sub(old.Happened).Abs() > sameWithin || old.Into != e.Into {
			continue
		}
		if e.Detail.All && old.Detail.All || equal(e.Count, old.Count) {
			ans.ask(sc.Voice, "ask_lost_told", "Old", sc.Voice.Line(old), "By", old.By, "When", old.Happened)
			ans.offer(sc.Voice, "b_second", sc.rerun("sure=1"))
			ans.offer(sc.Voice, "b_no", "no")
			return ans, true, nil
		}
	}
	return ans, false, nil
}

// contradicts says what of a batch's accounts would not add up with one more line.
func (sc *Scene) contradicts(e rules.Entry) *rules.Refusal {
	lines := sc.model.Entries(e.Subject)
	was, _ := rules.AccountOf(rules.Effective(lines))
	if e.ID == 0 {
		e.ID = sc.model.Last() + 1
	}
	now, _ := rules.AccountOf(rules.Effective(append(slices.Clip(lines), e)))
	return rules.CheckAccount(was, now, e.Subject.Number())
}

// lostWhat says how many of what were lost: cells until they emerge, then virgins, queens
// once they lay.
func (sc *Scene) lostWhat(e rules.Entry, b rules.Batch) string {
	id := "lost_cells"
	switch t := b.Account.At(e.Into); {
	case t.Count(rules.Laying) != nil:
		id = "lost_queens"
	case t.Count(rules.Emerge) != nil:
		id = "lost_virgins"
	}
	if e.Count == nil {
		return sc.Voice.Say("step_lose")
	}
	return sc.Voice.Say(id, "Count", *e.Count)
}

// echoLose says what is left. b is read after replanning.
func (sc *Scene) echoLose(e rules.Entry) Answer {
	var ans Answer
	b, _ := sc.model.Batch(e.Subject.Number())
	at, cause := "", ""
	if e.Into != "" {
		at = sc.Voice.Say("e_at", "Yard", sc.Voice.Place(e.Into))
	}
	if e.Detail.Cause != "" {
		cause = sc.Voice.Say("lost_cause", "Cause", sc.Voice.Cause(e))
	}
	head := sc.Voice.Head(e.Subject)
	if e.Detail.All && e.Into == "" {
		ans.say(sc.Voice, "e_lose_all", "Batch", head, "Cause", cause, "When", e.Happened)
		return ans
	}
	n := 0
	for _, x := range b.Account.Lost {
		if x.Line == e.ID {
			n += x.Count
		}
	}
	e.Count = &n
	ans.say(sc.Voice, "e_lose", "Batch", head, "What", sc.lostWhat(e, b), "At", at, "Cause", cause, "When", e.Happened)
	if b.Ended {
		ans.say(sc.Voice, "e_lose_none")
		return ans
	}
	ans.add(sc.leftAfter(e, b))
	return ans
}

// leftAfter says how many are left where something was lost, and in all where the batch is
// in other places as well.
func (sc *Scene) leftAfter(e rules.Entry, b rules.Batch) Answer {
	var ans Answer
	here, _ := b.Account.Holding(e.Into)
	all, known := 0, true
	list := inHand(b, e.Happened)
	for _, h := range list {
		known = known && h.Count != nil
		all += wording.Deref(h.Count)
	}
	switch n := wording.Deref(here.Count); {
	case len(list) == 1 && here.Count != nil:
		ans.join(sc.Voice, "lost_left", "Count", n)
	case known:
		ans.join(sc.Voice, "lost_left_of", "Count", n, "All", all)
	}
	return ans
}
