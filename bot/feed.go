package bot

import (
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// This file logs what is not about one batch: feed, the honey flow, drone comb.

func (t *talk) feed(r *reading, e rules.Entry) error {
	s := r.subject()
	if s.Kind == rules.BatchKind || s.Zero() {
		s = rules.Subject{}
		for _, k := range []rules.Kind{rules.BuilderKind, rules.YardKind, rules.BreederKind} {
			if c, ok := t.context(k); ok && !(r.several && t.opt.subject.Zero()) {
				s = c
				break
			}
		}
	}
	if s.Zero() {
		t.ask("ask_which_none", "What", wording.Upper(t.v.Say("step_feed")), "Example", t.v.Say("form_feed"))
		if r.several && r.litres > 0 && !r.each {
			return nil // each got it, or all together
		}
		n, err := t.names()
		for _, b := range n.builders[:min(len(n.builders), mostButtons)] {
			t.buttons = append(t.buttons, wording.Button(b, t.rerun("subject="+rules.BuilderSubject(b).String())))
		}
		return err
	}
	e.Subject, e.Count = s, nil
	if _, err := t.append(e); err != nil {
		return err
	}
	t.say("e_fed", "Subject", t.v.Head(s), "When", e.Happened)
	if err := t.echoSyrup(s, e); err != nil {
		return err
	}
	tasks, err := t.tx.SubjectTasks(t.crew.ID, s)
	for _, k := range tasks {
		if k.Step == rules.Feed && k.State == rules.Open {
			if r.litres > 0 {
				t.join("e_fed_dry", "Next", k.Best, "From", k.Earliest)
			} else {
				t.join("e_fed_next", "Next", k.Best)
			}
		}
	}
	if r.honey && !t.follows {
		t.say("w_fed_honey")
	}
	return err
}

// Honey as feed carries the spores of American foulbrood from colony to colony: State of
// Queensland, Department of Agriculture and Fisheries, How American foulbrood is spread
// (no year; extracted honey is never to be fed); New Zealand American Foulbrood Pest
// Management Plan, Honey and pollen feeding (no year; spores in 12 to 83 % of the retail
// honey that was tested). That it be from the crew's own healthy colonies: common practice.

// echoSyrup says how much was read as given, to each nuc where it was a yard, and warns
// of more than a builder takes before it spoils.
func (t *talk) echoSyrup(s rules.Subject, e rules.Entry) error {
	if e.Detail.Litres == 0 {
		return nil
	}
	litres := t.v.Number(e.Detail.Litres, 2)
	if s.Kind != rules.YardKind {
		t.join("e_fed_litres", "Litres", litres)
		if s.Kind == rules.BuilderKind && rules.TooMuch(rules.BuilderEater, e.Detail.Litres) {
			t.join("w_fed_much", "Days", rules.BuilderDays)
		}
		return nil
	}
	list, err := t.tx.Yards(t.crew.ID)
	for _, y := range list {
		if y.Name == s.Key {
			if e.Detail.Each {
				t.join("e_fed_each", "Litres", litres)
				break
			}
			t.join("e_fed_nucs", "Litres", litres, "Each", t.v.Number(e.Detail.PerEater(y.Nucs), 2))
		}
	}
	return err
}

func (t *talk) season(r *reading, e rules.Entry) error {
	if r.yard != "" {
		e.Subject = rules.YardSubject(r.yard)
	}
	e.Count = nil
	if known, err := t.flowKnown(e); err != nil {
		return err
	} else if known {
		t.say("e_noted", "What", t.v.Line(e))
		return nil
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	at := ""
	if r.yard != "" {
		at = t.v.Say("e_at", "Yard", r.yard)
	}
	if e.Step == rules.Drones {
		// 38 days from egg to flight (bee-math table, 38 ± 5 d, and Metz & Tarpy
		// 2019); virgins fly about 17 days after their graft.
		ripe := e.Happened.Add(38 * 24 * time.Hour)
		t.say("e_drones", "At", at, "When", e.Happened, "Ripe", t.v.Date(rules.DateOf(ripe, t.s.Zone)), "Graft", t.v.Date(rules.DateOf(ripe.Add(-17*24*time.Hour), t.s.Zone)))
		return nil
	}
	t.say("e_"+string(e.Step), "At", at, "When", e.Happened)
	return nil
}

// flowKnown reports whether the newest line about the honey flow of a place says
// the same already.
func (t *talk) flowKnown(e rules.Entry) (bool, error) {
	var last rules.Entry
	for _, s := range []rules.Subject{e.Subject, {}} {
		entries, err := t.tx.SubjectEntries(t.crew.ID, s)
		if err != nil {
			return false, err
		}
		for _, k := range rules.Effective(entries) {
			if k.Action == rules.Did && (k.Step == rules.Dearth || k.Step == rules.Flow) && k.ID > last.ID {
				last = k
			}
		}
	}
	return last.Step == e.Step && last.Subject == e.Subject, nil
}
