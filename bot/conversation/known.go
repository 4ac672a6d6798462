package conversation

import (
	"slices"
	"strings"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// openEarly is how long before its window a task may be reported all the same.
const openEarly = 12 * time.Hour

// Known gathers what the reader is told beside the text: the crew's names, what is open
// with its counts, the message replied to, the sender's last line.
func (sc *Scene) Known() (rdg.Known, error) {
	k := rdg.Known{Now: sc.Origin.Said.In(sc.Settings.Zone), Language: sc.Settings.Lang, Combs: map[int]string{}, Holds: map[string]int{},
		Addressed: sc.Addressed || sc.Replied != nil}
	var err error
	if k.Builders, k.Yards, err = sc.Look.Names(sc.Crew.ID); err != nil {
		return k, err
	}
	list := sc.model.Breeders()
	for _, b := range list {
		k.Breeders = append(k.Breeders, b.Number)
		if b.Comb == 0 {
			continue
		}
		combs := sc.model.Combs(b.Number)
		for _, c := range combs {
			if c.ID == b.Comb {
				k.Combs[b.Number] = c.Mark
			}
		}
	}
	members, err := sc.Look.Members(sc.Crew.ID)
	if err != nil {
		return k, err
	}
	for _, m := range members {
		k.Members = append(k.Members, m.Name)
	}
	for _, c := range sc.buyers {
		if !c.Forgotten {
			k.Customers = append(k.Customers, c.Name)
		}
	}
	k.Stock = sc.model.Stock().Free(sc.Origin.Said)
	if err := sc.openNow(&k); err != nil {
		return k, err
	}
	if m := sc.Replied; m != nil {
		k.Reply = &rdg.Ping{Step: m.Step, Task: m.TaskKey != ""}
		if bars := sc.barTasks(); len(bars) > 0 {
			k.Open = onlyBars(k.Open, bars)
			return k, sc.lastLine(&k)
		}
		subjectInto(k.Reply, rules.ParseSubject(m.Subject))
		if task, ok := sc.contextTask(); ok {
			k.Reply.Step = task.Step
			subjectInto(k.Reply, task.Subject)
			if k.Reply.Batch == 0 {
				k.Reply.Batch = task.Batch
			}
			if k.Reply.Breeder == 0 && task.Subject.Kind != rules.BatchKind {
				k.Reply.Breeder = task.Breeder
			}
		}
	}
	return k, sc.lastLine(&k)
}

// onlyBars leaves of what is open at the step of a ping the bars that it is about.
func onlyBars(open []rdg.Expect, bars []rules.Task) []rdg.Expect {
	return slices.DeleteFunc(open, func(o rdg.Expect) bool {
		return o.Step == bars[0].Step && !slices.ContainsFunc(bars, func(k rules.Task) bool { return k.Batch == o.Batch })
	})
}

func subjectInto(p *rdg.Ping, s rules.Subject) {
	switch s.Kind {
	case rules.BatchKind:
		p.Batch = s.Number()
	case rules.BreederKind:
		p.Breeder = s.Number()
	case rules.BuilderKind:
		p.Builder = s.Key
	case rules.YardKind:
		p.Yard = s.Key
	}
}

// openNow puts in what may be reported now, with how many there are to count from.
func (sc *Scene) openNow(k *rdg.Known) error {
	tasks := sc.open()
	batches := sc.model.Batches()
	byNumber := map[int]rules.Batch{}
	for _, b := range batches {
		if b.Ended {
			continue
		}
		byNumber[b.Number] = b
		if len(b.Account.Holdings()) > 0 {
			k.Live = append(k.Live, b.Number)
		}
		if b.Builder != "" {
			k.Holds[b.Builder] = b.Number
		}
	}
	now := sc.Origin.Said
	for _, task := range tasks {
		if task.Guard || now.Before(task.Earliest.Add(-openEarly)) || now.Sub(task.Latest) > rules.StaleAfter {
			continue
		}
		o := rdg.Expect{Step: task.Step, Batch: task.Batch, Breeder: task.Breeder, Ready: !now.Before(task.Earliest), Mark: task.Mark}
		if task.Subject.Kind == rules.BuilderKind {
			o.Builder = task.Subject.Key
		}
		if b, ok := byNumber[task.Batch]; ok {
			if o.Builder == "" {
				o.Builder = b.Builder
			}
			o.Breeder = b.Breeder
			o.Had, o.Yards = had(b, task.Step)
		}
		k.Open = append(k.Open, o)
	}
	sc.toldByYard(k, batches)
	return nil
}

// toldByYard puts in counts by yard that were given a moment ago: somebody else of the crew
// may give the same.
func (sc *Scene) toldByYard(k *rdg.Known, batches []rules.Batch) {
	for _, b := range batches {
		if b.Ended || len(b.Account.Yards) < 2 {
			continue
		}
		for _, step := range []rules.Step{rules.Emerge, rules.Laying} {
			open := slices.ContainsFunc(k.Open, func(o rdg.Expect) bool { return o.Step == step && o.Batch == b.Number })
			if open || !sc.justCounted(b, step) {
				continue
			}
			o := rdg.Expect{Step: step, Batch: b.Number, Breeder: b.Breeder, Builder: b.Builder, Ready: true}
			o.Had, o.Yards = had(b, step)
			k.Open = append(k.Open, o)
		}
	}
}

// justCounted reports whether a yard of a batch was counted at a step within the hours in
// which two people tell of one look.
func (sc *Scene) justCounted(b rules.Batch, step rules.Step) bool {
	return slices.ContainsFunc(sc.model.Effective(rules.BatchSubject(b.Number)), func(e rules.Entry) bool {
		return e.Action == rules.Did && e.Step == step && e.Detail.Part && sc.Origin.Said.Sub(e.Said) < toldWithin
	})
}

// had is how many there are to count from at a step of a batch, and how many of them in
// each yard.
func had(b rules.Batch, step rules.Step) (n int, yards map[string]int) {
	before := step
	if step == rules.Nucs {
		before = rules.Move
	}
	if c, _ := b.Had(before); c != nil {
		n = *c
	}
	if step == rules.Move && b.Counts.Moved != nil {
		n -= *b.Counts.Moved
	}
	for _, y := range b.Account.Yards {
		if y.Yard == "" {
			continue
		}
		if yards == nil {
			yards = map[string]int{}
		}
		c, _ := b.HadAt(y.Yard, step)
		yards[y.Yard] = wording.Deref(c)
	}
	return n, yards
}

// lastLine puts in the sender's last line, while it may be put right.
func (sc *Scene) lastLine(k *rdg.Known) error {
	if len(strings.Fields(sc.Origin.Text)) <= mostInAnswer {
		p, ok, err := sc.askedHowMany()
		if err != nil {
			return err
		}
		if ok {
			k.Asked = &p
		}
	}
	var lines, near []store.Line
	var err error
	if sc.Replied != nil && sc.Replied.Update != 0 {
		lines, err = sc.repliedLines()
	} else if lines, near, err = sc.effectiveOf(1, mostOfMessage); err == nil && len(lines) == 0 && len(near) == mostOfMessage {
		lines, err = sc.effectiveOwn(1)
	}
	if err != nil || len(lines) == 0 {
		return err
	}
	l := lines[0]
	if l.Action != rules.Did || l.Step == rules.Add || l.Step == rules.Ordered {
		return nil
	}
	act := actOf(l.Entry)
	act.Customer = sc.customerNames()[l.Detail.Customer]
	k.Last = &rdg.Line{Act: act, At: l.Happened.In(sc.Settings.Zone), Since: sc.Origin.Said.Sub(l.Said)}
	if k.Asked != nil {
		return nil
	}
	return sc.stillAsked(k, l, near)
}

// mostInAnswer is how many words an answer to "how many?" has: what is longer needs no look
// at what was asked.
const mostInAnswer = 6

// mostOfMessage is how many of the newest lines are looked at for those of one message.
const mostOfMessage = 8

// stillAsked puts in what a line of the sender's last message, or of the one replied to,
// waits for: its number, or its place. near are the sender's newest lines as they stand.
func (sc *Scene) stillAsked(k *rdg.Known, last store.Line, near []store.Line) error {
	var lines []store.Line
	replied := sc.Replied != nil && sc.Replied.Update != 0
	switch {
	case replied:
		list, err := sc.repliedLines()
		if err != nil {
			return err
		}
		lines = list
	case k.Last.Since > time.Hour:
		return nil
	default:
		for _, l := range near {
			if l.Update != last.Update || l.Action != rules.Did {
				continue
			}
			if l.ID == last.ID {
				lines = append(lines, last)
				continue
			}
			cur, ok, err := sc.current(l)
			if err != nil {
				return err
			}
			if ok {
				lines = append(lines, cur)
			}
		}
		if len(lines) == 0 {
			lines = []store.Line{last} // it was put right by a later message
		}
	}
	for _, l := range lines {
		if l.Action != rules.Did {
			continue
		}
		p := &rdg.Ping{Step: l.Step}
		switch {
		case l.Into == "" && l.Step == rules.Graft:
			p.Place = "builder"
		case l.Into == "" && l.Step == rules.Move:
			p.Place = "yard"
		}
		if l.Count == nil && rules.NeedsCount[l.Step] {
			p.Need = "count"
		} else {
			p.Need = p.Place
		}
		if p.Need != "" {
			subjectInto(p, l.Subject)
			if l.Detail.Part {
				p.Yard = l.Into
			}
			k.Asked = p
			return nil
		}
	}
	return nil
}

// lastLines are the lines that a correction without a name is about: of the message
// replied to, else the sender's last.
func (sc *Scene) lastLines() ([]store.Line, error) {
	if sc.Replied != nil && sc.Replied.Update != 0 {
		return sc.repliedLines()
	}
	return sc.effectiveOwn(1)
}

// actOf spells a line as the act that would log it.
func actOf(e rules.Entry) rdg.Act {
	a := rdg.Act{Kind: rdg.Did, Step: e.Step, Count: e.Count, Of: e.Of, Mark: e.Mark, Bees: e.Detail.BeesIn, AgeLo: e.Detail.AgeLo, AgeHi: e.Detail.AgeHi,
		Tags: e.Detail.Tags, Back: e.Detail.Back, Ship: e.Detail.Ship, Litres: e.Detail.Litres, Each: e.Detail.Each, None: e.Detail.NoEggs, Release: e.Detail.Release}
	switch e.Subject.Kind {
	case rules.BatchKind:
		a.Batch = e.Subject.Number()
	case rules.BreederKind:
		a.Breeder = e.Subject.Number()
	case rules.BuilderKind:
		a.Builder = e.Subject.Key
	case rules.YardKind:
		a.Yard = e.Subject.Key
	}
	switch e.Step {
	case rules.Graft:
		a.Breeder, a.Builder = e.From, e.Into
	case rules.Finish, rules.Banked:
		a.Builder = e.Into
	case rules.Handed:
		a.Builder = e.Detail.Out
	default:
		if a.Yard == "" {
			a.Yard = e.Into
		}
	}
	return a
}
