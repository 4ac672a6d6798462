package bot

import (
	"fmt"
	"math"
	"slices"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// orders lists the orders that are running, or shows one.
func (t *talk) orders(r *reading) error {
	o, err := outlookOf(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	if r.plan.order != 0 {
		b, found := o.order(r.plan.order)
		if !found {
			t.ask("r_no_order", "Number", r.plan.order)
			return nil
		}
		t.subject = rules.OrderSubject(b.Number)
		return t.showOrder(o, b)
	}
	for _, b := range o.book {
		if !running(b, t.tx.Now) {
			continue
		}
		p, _, _ := o.chance(b)
		t.say("s_order_line", "Order", t.v.Subject(rules.OrderSubject(b.Number)), "What", t.v.Wanted(b.Want, b.Unit), "By", t.day(b.By), "Percent", inHundred(p))
	}
	if len(t.lines) == 0 {
		t.say("s_order_none")
	}
	return nil
}

// inHundred is a chance in whole percent: never none and, while it is one, never all.
func inHundred(p float64) int {
	if p >= 1 {
		return 100
	}
	return int(math.Max(1, math.Min(99, math.Round(p*100))))
}

func (t *talk) showOrder(o *outlook, b rules.Booked) error {
	t.say("s_order", "Order", t.v.Head(rules.OrderSubject(b.Number)), "What", t.v.Wanted(b.Want, b.Unit), "By", t.day(b.By), "Who", b.Who,
		"When", b.Accepted, "Percent", t.v.Number(b.Confidence*100, 0))
	for _, r := range o.rounds(b) {
		t.lines = append(t.lines, roundState(t.v, r)...)
	}
	if b.Cancelled {
		t.say("s_order_off")
		return nil
	}
	p, lo, hi := o.chance(b)
	t.say("s_order_chance", "Percent", inHundred(p), "Lo", lo, "Hi", hi)
	if running(b, t.tx.Now) && p < rules.Unlikely(b.Confidence) {
		lines, do := rescue(t.v, o, b)
		t.lines = append(t.lines, lines...)
		if do != "" {
			t.kind = "ask"
			t.buttons = acceptButtons([]wording.Voice{t.v}, do)
		}
	}
	return nil
}

// roundState words a round of an order as it stands: its batches, what is left of it.
func roundState(v wording.Voice, r rules.RoundState) (lines []string) {
	for _, x := range r.Batches {
		p, counted := rules.PartOf(x)
		what := v.Say("s_order_uncounted")
		switch {
		case x.Ended && p.Count == 0:
			what = v.Say("s_order_closed")
		case counted:
			what = v.Say("s_count", "Count", p.Count, "Past", v.Past(p.Done, &p.Count))
		}
		lines = append(lines, v.Say("s_order_batch", "Number", r.Number, "Batch", v.Subject(rules.BatchSubject(x.Number)), "What", what))
	}
	switch {
	case r.Gone && len(r.Batches) == 0:
		lines = append(lines, v.Say("s_order_gone", "Number", r.Number))
	case len(r.Left) == 0:
	case len(r.Combs) > 0 || len(r.Batches) > 0:
		graft := r.Graft
		for _, c := range r.Combs {
			graft = c.Confined.Add(r.Graft.Sub(r.Confined))
		}
		lines = append(lines, v.Say("s_order_on", "Number", r.Number, "Parts", shares(v, r.Left), "Graft", graft, "Breeders", breeders(v, r.Breeders)))
	default:
		lines = append(lines, v.Say("s_order_wait", "Number", r.Number, "Breeders", breeders(v, r.Breeders), "Confine", r.Confined, "Graft", r.Graft, "Parts", shares(v, r.Left)))
	}
	return lines
}

// rescue says what can still be done for an order in time, and gives the button that
// plans it, "" where nothing more fits.
func rescue(v wording.Voice, o *outlook, b rules.Booked) (lines []string, do string) {
	if len(o.limits.Breeders) == 0 {
		return []string{v.Say("r_order_no_breeder")}, "" // the planner would take any
	}
	p := o.planner().Rescue(b.Order, rules.PartsOf(o.rounds(b), b.Unit), b.Confidence, v.Now)
	switch {
	case p.OK && len(p.Rounds) > 0:
		lines = append(lines, v.Say("o_rescue", "Grafts", p.Grafts, "Percent", v.Number(b.Confidence*100, 0), "Count", len(p.Rounds)))
		for _, r := range p.Rounds {
			lines = append(lines, roundLine(v, r, p))
		}
		if p.Tight {
			lines = append(lines, v.Say("o_tight"))
		}
		lines = append(lines, deadlines(v, p.Deadline))
		return lines, offered{b.Number, b.Want, p.Book(o.limits)}.do()
	case len(p.Rounds) > 0:
		lines = append(lines, v.Say("o_norescue", "Why", broken(v, p)), v.Say("o_rescue_part", "What", v.Wanted(p.Fits, b.Unit), "Percent", v.Number(b.Confidence*100, 0), "Grafts", p.Grafts))
		for _, r := range p.Rounds {
			lines = append(lines, roundLine(v, r, p))
		}
		do = offered{b.Number, b.Want, p.Book(o.limits)}.do()
	default:
		fits := v.Say("o_fits_none")
		if p.Fits > 0 {
			fits = v.Say("o_fits_now", "What", v.Wanted(p.Fits, b.Unit))
		}
		lines = append(lines, v.Say("o_norescue", "Why", broken(v, p)), fits)
	}
	if !p.FitsBy.IsZero() {
		lines[len(lines)-1] += " " + v.Say("o_fits_by", "By", v.Date(rules.DateOf(p.FitsBy, v.Settings.Zone)))
	}
	return append(lines, deadlines(v, p.Deadline)), do
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
	if err != nil || !slices.ContainsFunc(book, func(b rules.Booked) bool { return running(b, t.tx.Now) }) {
		return nil, err
	}
	o, err := outlookOf(t.tx, t.crew.ID, t.s)
	if err != nil {
		return nil, err
	}
	was := map[int]watched{}
	for _, b := range o.book {
		if !running(b, t.tx.Now) {
			continue
		}
		var w watched
		w.chance, _, _ = o.chance(b)
		for _, r := range o.rounds(b) {
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
	o, err := outlookOf(t.tx, t.crew.ID, t.s)
	if err != nil {
		return err
	}
	for _, b := range o.book {
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
			if e.Subject.Kind != rules.BatchKind || !o.has(b, e.Subject.Number()) {
				continue
			}
			p, lo, hi := o.chance(b)
			if p >= bound {
				break
			}
			t.later = append(t.later, t.unlikely(o, b, e, []int{inHundred(before), inHundred(p), lo, hi}))
			break
		}
	}
	return nil
}

// restsOn tells of an order that rests on a breeder who is gone, and what can still be
// done for it.
func (t *talk) restsOn(o *outlook, b rules.Booked, e rules.Entry, w watched) store.Message {
	s := rules.OrderSubject(b.Number)
	p, _, _ := o.chance(b)
	vs, do := wording.All(t.s, t.tx.Now), ""
	text := wording.InEach(vs, func(v wording.Voice) string {
		lines := []string{v.Say("o_rests", "Order", v.Head(s), "What", v.Wanted(b.Want, b.Unit), "By", v.Date(rules.DateOf(b.By, v.Settings.Zone)), "Breeder", e.Subject,
			"Count", w.rests, "Before", inHundred(w.chance), "Percent", inHundred(p))}
		if p < b.Confidence {
			more, press := rescue(v, o, b)
			lines, do = append(lines, more...), press
		}
		return joinLines(lines)
	})
	m := store.Message{Crew: t.crew.ID, Key: fmt.Sprintf("order/%d/rests/%d", b.Number, e.ID), Kind: "reply", Text: text, Step: rules.Ordered, Subject: s.String()}
	if do != "" {
		m.Kind, m.Buttons = "ask", acceptButtons(vs, do)
	}
	return m
}

func (t *talk) unlikely(o *outlook, b rules.Booked, e rules.Entry, n []int) store.Message {
	s := rules.OrderSubject(b.Number)
	vs, do := wording.All(t.s, t.tx.Now), ""
	text := wording.InEach(vs, func(v wording.Voice) string {
		lines := []string{v.Say("o_unlikely", "Order", v.Head(s), "What", v.Wanted(b.Want, b.Unit), "By", v.Date(rules.DateOf(b.By, v.Settings.Zone)), "Batch", v.Subject(e.Subject),
			"Before", n[0], "Percent", n[1], "Lo", n[2], "Hi", n[3])}
		more, press := rescue(v, o, b)
		do = press
		return joinLines(append(lines, more...))
	})
	m := store.Message{Crew: t.crew.ID, Key: fmt.Sprintf("order/%d/unlikely/%d", b.Number, e.ID), Kind: "reply", Text: text, Step: rules.Ordered, Subject: s.String()}
	if do != "" {
		m.Kind, m.Buttons = "ask", acceptButtons(vs, do)
	}
	return m
}
