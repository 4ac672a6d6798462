package conversation

import (
	"slices"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// This file logs what is not about one batch: feed, the honey flow, drone comb, rogue cells.

func (sc *Scene) feed(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	s := r.subject()
	if s.Kind == rules.BatchKind || s.Zero() {
		s = rules.Subject{}
		for _, k := range []rules.Kind{rules.BuilderKind, rules.YardKind, rules.BreederKind} {
			if c, ok := sc.context(k); ok && !(r.several && sc.opt.subject.Zero()) {
				s = c
				break
			}
		}
	}
	if s.Zero() {
		ans.ask(sc.Voice, "ask_which_none", "What", wording.Upper(sc.Voice.Say("step_feed")), "Example", sc.Voice.Say("form_feed"))
		if r.several && r.litres > 0 && !r.each {
			return ans, nil // each got it, or all together
		}
		n := sc.names()
		for _, b := range n.builders[:min(len(n.builders), mostButtons)] {
			ans.Buttons = append(ans.Buttons, wording.Button(b, sc.rerun("subject="+rules.BuilderSubject(b).String())))
		}
		return ans, nil
	}
	e.Subject, e.Count = s, nil
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.Voice, "e_fed", "Subject", sc.Voice.Head(s), "When", e.Happened)
	if err := ans.take(sc.echoSyrup(s, e)); err != nil {
		return ans, err
	}
	tasks, err := sc.Look.SubjectTasks(sc.Crew.ID, s)
	for _, k := range tasks {
		if k.Step == rules.Feed && k.State == rules.Open {
			if r.litres > 0 {
				ans.join(sc.Voice, "e_fed_dry", "Next", k.Best, "From", k.Earliest)
			} else {
				ans.join(sc.Voice, "e_fed_next", "Next", k.Best)
			}
		}
	}
	if r.honey && !sc.follows {
		ans.say(sc.Voice, "w_fed_honey")
	}
	return ans, err
}

// Honey as feed carries the spores of American foulbrood from colony to colony: State of
// Queensland, Department of Agriculture and Fisheries, How American foulbrood is spread
// (no year; extracted honey is never to be fed); New Zealand American Foulbrood Pest
// Management Plan, Honey and pollen feeding (no year; spores in 12 to 83 % of the retail
// honey that was tested). That it be from the crew's own healthy colonies: common practice.

// echoSyrup says how much was read as given, to each nuc where it was a yard, and warns
// of more than a builder takes before it spoils.
func (sc *Scene) echoSyrup(s rules.Subject, e rules.Entry) (Answer, error) {
	var ans Answer
	if e.Detail.Litres == 0 {
		return ans, nil
	}
	litres := sc.Voice.Number(e.Detail.Litres, 2)
	if s.Kind != rules.YardKind {
		ans.join(sc.Voice, "e_fed_litres", "Litres", litres)
		if s.Kind == rules.BuilderKind && rules.TooMuch(rules.BuilderEater, e.Detail.Litres) {
			ans.join(sc.Voice, "w_fed_much", "Days", rules.BuilderDays)
		}
		return ans, nil
	}
	list, err := sc.Look.Yards(sc.Crew.ID)
	for _, y := range list {
		if y.Name == s.Key {
			if e.Detail.Each {
				ans.join(sc.Voice, "e_fed_each", "Litres", litres)
				break
			}
			ans.join(sc.Voice, "e_fed_nucs", "Litres", litres, "Each", sc.Voice.Number(e.Detail.PerEater(y.Nucs), 2))
		}
	}
	return ans, err
}

func (sc *Scene) season(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	if r.yard != "" {
		e.Subject = rules.YardSubject(r.yard)
	}
	e.Count = nil
	if known, err := sc.flowKnown(e); err != nil {
		return ans, err
	} else if known {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
		return ans, nil
	}
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	at := ""
	if r.yard != "" {
		at = sc.Voice.Say("e_at", "Yard", r.yard)
	}
	if e.Step == rules.Drones {
		// 38 days from egg to flight (bee-math table, 38 ± 5 d, and Metz & Tarpy
		// 2019); virgins fly about 17 days after their graft.
		ripe := e.Happened.Add(38 * 24 * time.Hour)
		ans.say(sc.Voice, "e_drones", "At", at, "When", e.Happened, "Ripe", sc.Voice.Date(rules.DateOf(ripe, sc.Settings.Zone)), "Graft", sc.Voice.Date(rules.DateOf(ripe.Add(-17*24*time.Hour), sc.Settings.Zone)))
		return ans, nil
	}
	ans.say(sc.Voice, "e_"+string(e.Step), "At", at, "When", e.Happened)
	return ans, nil
}

// flowKnown reports whether the newest line about the honey flow of a place says
// the same already.
func (sc *Scene) flowKnown(e rules.Entry) (bool, error) {
	var last rules.Entry
	for _, s := range []rules.Subject{e.Subject, {}} {
		entries := sc.model.Entries(s)
		for _, k := range rules.Effective(entries) {
			if k.Action == rules.Did && (k.Step == rules.Dearth || k.Step == rules.Flow) && k.ID > last.ID {
				last = k
			}
		}
	}
	return last.Step == e.Step && last.Subject == e.Subject, nil
}

func (sc *Scene) rogue(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	name := r.builder
	if r.batch != 0 {
		q, b, ok, err := sc.batchFor(r, e.Step, e.Happened)
		ans.add(q)
		if err != nil || !ok {
			return ans, err
		}
		if name != "" && b.Builder != "" && name != b.Builder && !sc.opt.sure {
			r.rest, r.batch, r.addressed = []string{sc.Voice.Subject(rules.BatchSubject(b.Number))}, 0, true
			ans.is(sc.doubt(r)) // the batch is in another builder
			return ans, nil
		}
		if name == "" {
			name = b.Builder
		}
		if name == "" {
			e.Subject = rules.BatchSubject(b.Number)
		}
	}
	if name == "" && e.Subject.Zero() {
		if s, ok := sc.context(rules.BuilderKind); ok {
			name = s.Key
		}
	}
	if name == "" && e.Subject.Zero() {
		open := sc.open()
		var fit []string
		for _, k := range open {
			if k.Step == rules.Rogue && k.Subject.Kind == rules.BuilderKind && !slices.Contains(fit, k.Subject.Key) && e.Happened.After(k.Earliest.Add(-rules.RogueEarly)) {
				fit = append(fit, k.Subject.Key)
			}
		}
		if s, ok := sc.context(rules.BatchKind); ok && len(fit) == 0 {
			e.Subject = s
		}
		switch {
		case len(fit) == 1:
			name = fit[0]
		case e.Subject.Zero():
			n := sc.names()
			if len(fit) == 0 {
				fit = n.builders
			}
			ans.ask(sc.Voice, "ask_builder", "Example", sc.Voice.Say("form_rogue"))
			for _, b := range fit[:min(len(fit), mostButtons)] {
				ans.Buttons = append(ans.Buttons, wording.Button(b, sc.rerun("subject="+rules.BuilderSubject(b).String())))
			}
			return ans, nil
		}
	}
	if name != "" {
		e.Subject = rules.BuilderSubject(name)
	}
	if e.Count == nil {
		zero := 0
		e.Count = &zero
	}
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	return ans.then(sc.echoRogue(e))
}
