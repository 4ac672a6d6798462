package bot

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
func (t *talk) orders(r *reading) error {
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	if r.plan.order != 0 {
		b, found := o.Order(r.plan.order)
		if !found {
			t.ask("r_no_order", "Number", r.plan.order)
			return nil
		}
		t.subject = rules.OrderSubject(b.Number)
		return t.showOrder(o, b)
	}
	for _, b := range o.Book {
		if !planning.Running(b, t.tx.Now) {
			continue
		}
		p, _, _ := o.Chance(b)
		t.say("s_order_line", "Order", t.v.Subject(rules.OrderSubject(b.Number)), "What", t.v.Wanted(b.Want, b.Unit), "By", t.day(b.By), "Percent", planning.InHundred(p))
	}
	if len(t.lines) == 0 {
		t.say("s_order_none")
	}
	return nil
}

func (t *talk) showOrder(o *planning.Outlook, b rules.Booked) error {
	t.say("s_order", "Order", t.v.Head(rules.OrderSubject(b.Number)), "What", t.v.Wanted(b.Want, b.Unit), "By", t.day(b.By), "Who", b.Who,
		"When", b.Accepted, "Percent", t.v.Number(b.Confidence*100, 0))
	for _, r := range o.Rounds(b) {
		t.lines = append(t.lines, planning.RoundState(t.v, r)...)
	}
	if b.Cancelled {
		t.say("s_order_off")
		return nil
	}
	p, lo, hi := o.Chance(b)
	t.say("s_order_chance", "Percent", planning.InHundred(p), "Lo", lo, "Hi", hi)
	if planning.Running(b, t.tx.Now) && p < rules.Unlikely(b.Confidence) {
		lines, do := planning.Rescue(t.v, o, b)
		t.lines = append(t.lines, lines...)
		if do != "" {
			t.kind = "ask"
			t.buttons = planning.AcceptButtons([]wording.Voice{t.v}, do)
		}
	}
	return nil
}

// cancelOrder calls an order off: by a lead, or who accepted it.
func (t *talk) cancelOrder(r *reading) error {
	n := r.plan.order
	book, err := t.tx.Book(t.crew.ID)
	if err != nil {
		return err
	}
	for _, b := range book {
		if b.Number != n {
			continue
		}
		e := rules.Entry{Action: rules.Skip, Step: rules.Ordered, Subject: rules.OrderSubject(n)}
		if b.Cancelled {
			t.say("e_noted", "What", t.v.Line(e))
			return nil
		}
		line, _, err := t.tx.LineByID(t.crew.ID, b.Entry)
		if err != nil {
			return err
		}
		if line.Member != t.by.ID {
			if refused, err := t.onlyLead(); refused || err != nil {
				return err
			}
		}
		if _, err := t.append(e); err != nil {
			return err
		}
		t.say("e_order_off", "Order", t.v.Head(e.Subject), "What", t.v.Wanted(b.Want, b.Unit), "By", t.day(b.By))
		return nil
	}
	t.ask("r_no_order", "Number", n)
	return nil
}

// notPlanned says so where a breeder is confined at the time that an order has another
// one planned for: her comb does not count for it.
func (t *talk) notPlanned(e rules.Entry) error {
	open, err := t.tx.OpenTasks(t.crew.ID)
	for _, k := range open {
		n, _ := rules.OrderOfTask(k)
		if n == 0 || k.Step != rules.Confine || k.Subject == e.Subject || k.Best.Sub(e.Happened).Abs() > 24*time.Hour {
			continue
		}
		t.say("w_other_planned", "Order", t.v.Head(rules.OrderSubject(n)), "Planned", k.Subject, "Best", k.Best, "Breeder", e.Subject)
	}
	return err
}

// watched is how an order stood before lines were logged.
type watched struct {
	chance float64
	rests  int // rounds not begun that rest on a breeder who is now gone
}

// watch remembers how likely the running orders are, where lines about a batch are to
// be logged, or a breeder is taken out of every plan.
func (t *talk) watch(entries []rules.Entry) (map[int]watched, error) {
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
	book, err := t.tx.Book(t.crew.ID)
	if err != nil || !slices.ContainsFunc(book, func(b rules.Booked) bool { return planning.Running(b, t.tx.Now) }) {
		return nil, err
	}
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return nil, err
	}
	was := map[int]watched{}
	for _, b := range o.Book {
		if !planning.Running(b, t.tx.Now) {
			continue
		}
		var w watched
		w.chance, _, _ = o.Chance(b)
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
// time that it drops below the bound, in a message of its own after the answer.
func (t *talk) warn(was map[int]watched, entries []rules.Entry) error {
	if len(was) == 0 {
		return nil
	}
	o, err := planning.Of(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	for _, b := range o.Book {
		w, watched := was[b.Number]
		bound, before := rules.Unlikely(b.Confidence), w.chance
		for _, e := range entries {
			if e.Step == rules.Retire && w.rests > 0 {
				t.later = append(t.later, t.restsOn(o, b, e, w))
			}
		}
		if !watched || before < bound {
			continue
		}
		for _, e := range entries {
			if e.Subject.Kind != rules.BatchKind || !o.Uses(b, e.Subject.Number()) {
				continue
			}
			p, lo, hi := o.Chance(b)
			if p >= bound {
				break
			}
			t.later = append(t.later, t.unlikely(o, b, e, []int{planning.InHundred(before), planning.InHundred(p), lo, hi}))
			break
		}
	}
	return nil
}

// restsOn tells of an order that rests on a breeder who is gone, and what can still be
// done for it.
func (t *talk) restsOn(o *planning.Outlook, b rules.Booked, e rules.Entry, w watched) store.Message {
	s := rules.OrderSubject(b.Number)
	p, _, _ := o.Chance(b)
	vs, do := wording.All(t.s, t.tx.Now), ""
	text := wording.InEach(vs, func(v wording.Voice) string {
		lines := []string{v.Say("o_rests", "Order", v.Head(s), "What", v.Wanted(b.Want, b.Unit), "By", v.Date(rules.DateOf(b.By, v.Settings.Zone)), "Breeder", e.Subject,
			"Count", w.rests, "Before", planning.InHundred(w.chance), "Percent", planning.InHundred(p))}
		if p < b.Confidence {
			more, press := planning.Rescue(v, o, b)
			lines, do = append(lines, more...), press
		}
		return joinLines(lines)
	})
	m := store.Message{Crew: t.crew.ID, Key: fmt.Sprintf("order/%d/rests/%d", b.Number, e.ID), Kind: "reply", Text: text, Step: rules.Ordered, Subject: s.String()}
	if do != "" {
		m.Kind, m.Buttons = "ask", planning.AcceptButtons(vs, do)
	}
	return m
}

func (t *talk) unlikely(o *planning.Outlook, b rules.Booked, e rules.Entry, n []int) store.Message {
	s := rules.OrderSubject(b.Number)
	vs, do := wording.All(t.s, t.tx.Now), ""
	text := wording.InEach(vs, func(v wording.Voice) string {
		lines := []string{v.Say("o_unlikely", "Order", v.Head(s), "What", v.Wanted(b.Want, b.Unit), "By", v.Date(rules.DateOf(b.By, v.Settings.Zone)), "Batch", v.Subject(e.Subject),
			"Before", n[0], "Percent", n[1], "Lo", n[2], "Hi", n[3])}
		more, press := planning.Rescue(v, o, b)
		do = press
		return joinLines(append(lines, more...))
	})
	m := store.Message{Crew: t.crew.ID, Key: fmt.Sprintf("order/%d/unlikely/%d", b.Number, e.ID), Kind: "reply", Text: text, Step: rules.Ordered, Subject: s.String()}
	if do != "" {
		m.Kind, m.Buttons = "ask", planning.AcceptButtons(vs, do)
	}
	return m
}
