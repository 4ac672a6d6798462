package conversation

import (
	"fmt"
	"slices"
	"time"

	"yardbell/bot/planning"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// orders lists the orders that are running, or shows one.
func (sc *Scene) orders(r *reading) (Answer, error) {
	var ans Answer
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return ans, err
	}
	if r.plan.order != 0 {
		b, found := o.Order(r.plan.order)
		if !found {
			ans.ask(sc.Voice, "r_no_order", "Number", r.plan.order)
			return ans, nil
		}
		ans.Subject = rules.OrderSubject(b.Number)
		return ans.then(sc.showOrder(o, b))
	}
	for _, b := range o.Book {
		if !planning.Running(b, sc.Look.Now) {
			continue
		}
		p := o.Chance(b).Chance
		ans.say(sc.Voice, "s_order_line", "Order", sc.Voice.Subject(rules.OrderSubject(b.Number)), "What", sc.Voice.Wanted(b.Want, b.Unit), "By", sc.day(b.By), "Percent", planning.InHundred(p))
	}
	if len(ans.Lines) == 0 {
		ans.say(sc.Voice, "s_order_none")
	}
	return ans, nil
}

func (sc *Scene) showOrder(o *planning.Outlook, b rules.Booked) (Answer, error) {
	var ans Answer
	ans.say(sc.Voice, "s_order", "Order", sc.Voice.Head(rules.OrderSubject(b.Number)), "What", sc.Voice.Wanted(b.Want, b.Unit), "By", sc.day(b.By), "Who", b.Who,
		"When", b.Accepted, "Percent", sc.Voice.Number(b.Confidence*100, 0))
	for _, k := range b.Batches {
		ans.say(sc.Voice, "s_order_from", "Count", k.N, "Batch", sc.Voice.Subject(rules.BatchSubject(k.Batch)))
	}
	for _, r := range o.Rounds(b) {
		ans.Lines = append(ans.Lines, planning.RoundState(sc.Voice, r)...)
	}
	if b.Cancelled {
		ans.say(sc.Voice, "s_order_off")
		return ans, nil
	}
	now := o.Chance(b)
	p := now.Chance
	ans.say(sc.Voice, "s_order_chance", "Percent", planning.InHundred(p), "Mean", sc.Voice.Number(now.Mean, 0), "Lo", now.Lo, "Hi", now.Hi)
	if planning.Running(b, sc.Look.Now) && p < rules.Unlikely(b.Confidence) {
		lines, do := planning.Rescue(sc.Voice, o, b)
		ans.Lines = append(ans.Lines, lines...)
		if do != "" {
			ans.Kind = "ask"
			ans.Buttons = planning.AcceptButtons([]wording.Voice{sc.Voice}, do)
		}
	}
	return ans, nil
}

// cancelOrder calls an order off: by a lead, or who accepted it.
func (sc *Scene) cancelOrder(r *reading) (Answer, error) {
	var ans Answer
	n := r.plan.order
	book := sc.model.Booked()
	for _, b := range book {
		if b.Number != n {
			continue
		}
		e := rules.Entry{Action: rules.Skip, Step: rules.Ordered, Subject: rules.OrderSubject(n)}
		if b.Cancelled {
			ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
			return ans, nil
		}
		line, _, err := sc.Look.LineByID(sc.Crew.ID, b.Entry)
		if err != nil {
			return ans, err
		}
		if line.Member != sc.By.ID {
			if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
				return ans, err
			}
		}
		sc, _, err = sc.log(&ans, e)
		if err != nil {
			return ans, err
		}
		ans.say(sc.Voice, "e_order_off", "Order", sc.Voice.Head(e.Subject), "What", sc.Voice.Wanted(b.Want, b.Unit), "By", sc.day(b.By))
		return ans, nil
	}
	ans.ask(sc.Voice, "r_no_order", "Number", n)
	return ans, nil
}

// notPlanned says so where a breeder is confined at the time that an order has another
// one planned for: her comb does not count for it.
func (sc *Scene) notPlanned(e rules.Entry) (Answer, error) {
	var ans Answer
	open, err := sc.Look.OpenTasks(sc.Crew.ID)
	for _, k := range open {
		n, _ := rules.OrderOfTask(k)
		if n == 0 || k.Step != rules.Confine || k.Subject == e.Subject || k.Best.Sub(e.Happened).Abs() > 24*time.Hour {
			continue
		}
		ans.say(sc.Voice, "w_other_planned", "Order", sc.Voice.Head(rules.OrderSubject(n)), "Planned", k.Subject, "Best", k.Best, "Breeder", e.Subject)
	}
	return ans, err
}

// watched is how an order stood before lines were logged.
type watched struct {
	chance float64
	rests  int // rounds not begun that rest on a breeder who is now gone
}

// watch remembers how likely the running orders are, where lines about a batch are to
// be logged, or a breeder is taken out of every plan.
func (sc *Scene) watch(entries []rules.Entry) (map[int]watched, error) {
	batch, gone := false, 0
	for _, e := range entries {
		batch = batch || e.Subject.Kind == rules.BatchKind
		if e.Step == rules.Retire && e.Action == rules.Did {
			gone = e.Subject.Number()
		}
	}
	if !batch && gone == 0 {
		return nil, nil
	}
	book, err := sc.Look.Book(sc.Crew.ID)
	if err != nil || !slices.ContainsFunc(book, func(b rules.Booked) bool { return planning.Running(b, sc.Look.Now) }) {
		return nil, err
	}
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return nil, err
	}
	was := map[int]watched{}
	for _, b := range o.Book {
		if !planning.Running(b, sc.Look.Now) {
			continue
		}
		var w watched
		w.chance = o.Chance(b).Chance
		for _, r := range o.Rounds(b) {
			if len(r.Left) > 0 && len(r.Combs) == 0 && slices.Contains(r.Breeders, gone) {
				w.rests++
			}
		}
		was[b.Number] = w
	}
	return was, nil
}

// warn tells the crew of an order that lines just logged made unlikely, once for each
// fall below the bound and each fifth lost beneath it, in a message of its own after the answer.
func (sc *Scene) warn(was map[int]watched, entries []rules.Entry) (later []store.Message, err error) {
	if len(was) == 0 {
		return nil, nil
	}
	o, err := planning.Of(sc.Look, sc.Crew.ID, sc.Settings)
	if err != nil {
		return nil, err
	}
	for _, b := range o.Book {
		w, watched := was[b.Number]
		bound, before := rules.Unlikely(b.Confidence), w.chance
		for _, e := range entries {
			if e.Step == rules.Retire && w.rests > 0 {
				later = append(later, sc.restsOn(o, b, e, w))
			}
		}
		if !watched {
			continue
		}
		for _, e := range entries {
			if e.Subject.Kind != rules.BatchKind || !o.Uses(b, e.Subject.Number()) {
				continue
			}
			is := o.Chance(b)
			p, lo, hi := is.Chance, is.Lo, is.Hi
			if !rules.Fell(before, p, bound) {
				break
			}
			later = append(later, sc.unlikely(o, b, e, []int{planning.InHundred(before), planning.InHundred(p), lo, hi}))
			break
		}
	}
	return later, nil
}

// restsOn tells of an order that rests on a breeder who is gone, and what can still be
// done for it.
func (sc *Scene) restsOn(o *planning.Outlook, b rules.Booked, e rules.Entry, w watched) store.Message {
	s := rules.OrderSubject(b.Number)
	p := o.Chance(b).Chance
	vs, do := wording.All(sc.Settings, sc.Look.Now), ""
	text := wording.InEach(vs, func(v wording.Voice) string {
		lines := []string{v.Say("o_rests", "Order", v.Head(s), "What", v.Wanted(b.Want, b.Unit), "By", v.Date(rules.DateOf(b.By, v.Settings.Zone)), "Breeder", e.Subject,
			"Count", w.rests, "Before", planning.InHundred(w.chance), "Percent", planning.InHundred(p))}
		if p < b.Confidence {
			more, press := planning.Rescue(v, o, b)
			lines, do = append(lines, more...), press
		}
		return joinLines(lines)
	})
	m := store.Message{Crew: sc.Crew.ID, Key: fmt.Sprintf("order/%d/rests/%d", b.Number, e.ID), Kind: "reply", Text: text, Step: rules.Ordered, Subject: s.String()}
	if do != "" {
		m.Kind, m.Buttons = "ask", planning.AcceptButtons(vs, do)
	}
	return m
}

func (sc *Scene) unlikely(o *planning.Outlook, b rules.Booked, e rules.Entry, n []int) store.Message {
	s := rules.OrderSubject(b.Number)
	vs, do := wording.All(sc.Settings, sc.Look.Now), ""
	text := wording.InEach(vs, func(v wording.Voice) string {
		lines := []string{v.Say("o_unlikely", "Order", v.Head(s), "What", v.Wanted(b.Want, b.Unit), "By", v.Date(rules.DateOf(b.By, v.Settings.Zone)), "Batch", v.Subject(e.Subject),
			"Before", n[0], "Percent", n[1], "Lo", n[2], "Hi", n[3])}
		more, press := planning.Rescue(v, o, b)
		do = press
		return joinLines(append(lines, more...))
	})
	m := store.Message{Crew: sc.Crew.ID, Key: fmt.Sprintf("order/%d/unlikely/%d", b.Number, e.ID), Kind: "reply", Text: text, Step: rules.Ordered, Subject: s.String()}
	if do != "" {
		m.Kind, m.Buttons = "ask", planning.AcceptButtons(vs, do)
	}
	return m
}
