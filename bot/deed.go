package bot

import (
	"slices"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// deed logs a step: it finds the subject, checks that the thing can be, asks
// where it is in doubt, and echoes what follows.
func (t *talk) deed(r *reading) error {
	at, ok := t.when(r)
	if !ok {
		return nil
	}
	e := r.says()
	e.From, e.Into = 0, "" // once it is known what it is about
	e.Said, e.Happened, e.By, e.Action, e.Step = t.origin.Said, at, t.by.Name, rules.Did, r.step
	if e.Step == "" {
		t.hush()
		return nil
	}
	if bad := t.allowed(rules.CheckTime(e)); bad != nil {
		t.refuse(bad)
		return nil
	}
	if stop, err := t.breederDeath(r, e); stop || err != nil {
		return err
	}
	if stop, err := t.unknown(r); stop || err != nil {
		t.sayMeanwhile(e)
		return err
	}
	if bad := t.allowed(rules.CheckCount(e)); bad != nil {
		t.refuse(bad)
		return nil
	}
	switch e.Step {
	case rules.Virgin:
		return t.virginAmong(r, e)
	case rules.Confine:
		return t.confine(r, e)
	case rules.Eggs, rules.CombOut:
		return t.comb(r, e)
	case rules.Graft:
		return t.graft(r, e)
	case rules.Rogue:
		return t.rogue(r, e)
	case rules.Feed:
		return t.feed(r, e)
	case rules.Dearth, rules.Flow, rules.Drones:
		return t.season(r, e)
	case rules.HandsOff, rules.Flights:
		t.fail("r_guard", "Task", t.v.Say("step_"+string(e.Step)))
		return nil
	}
	return t.batchStep(r, e)
}

// allowed drops a refusal that the crew overrode.
func (t *talk) allowed(r *rules.Refusal) *rules.Refusal {
	if r == nil || r.Ask && t.opt.anyway[r.Code] {
		return nil
	}
	return r
}

// hourCritical are the steps whose hour the whole timing hangs on.
var hourCritical = map[rules.Step]bool{rules.Confine: true, rules.CombOut: true, rules.Graft: true}

// when settles the time of the work. ok is false where it was asked back.
func (t *talk) when(r *reading) (time.Time, bool) {
	if !t.at.IsZero() {
		return t.at, true
	}
	at, exact := r.when.settle(t.origin.Said, t.s)
	if !exact && hourCritical[r.step] {
		day := t.v.Date(rules.DateOf(at, t.s.Zone))
		t.ask("ask_time", "Day", day, "Example", wording.Clean(t.origin.Text)+" 16:00")
		return at, false
	}
	return at.UTC().Truncate(time.Second), true
}

// unknown asks back breeders, builders and yards that are not on the list, with a
// button that adds them and then logs the message as written.
func (t *talk) unknown(r *reading) (stop bool, err error) {
	var missing []rules.Subject
	if r.breeder != 0 {
		if bad := t.badBreeder(r.breeder); bad {
			return true, nil
		}
		list, err := t.tx.Breeders(t.crew.ID)
		if err != nil {
			return true, err
		}
		known := false
		for _, b := range list {
			known = known || b.Number == r.breeder
		}
		if !known {
			gone, err := t.retired(r.breeder)
			if err != nil {
				return true, err
			}
			known = gone != nil // and not to be added anew
		}
		if !known {
			missing = append(missing, rules.BreederSubject(r.breeder))
		}
	}
	n, err := t.names()
	if err != nil {
		return true, err
	}
	if r.builder != "" && !slices.Contains(n.builders, r.builder) {
		missing = append(missing, rules.BuilderSubject(r.builder))
	}
	if r.yard != "" && !slices.Contains(n.yards, r.yard) {
		if !isNames(r.yard) {
			t.fail("r_name", "Name", r.yard)
			return true, nil
		}
		missing = append(missing, rules.YardSubject(r.yard))
	}
	if len(missing) == 0 {
		return false, nil
	}
	if full, err := t.full(missing...); full || err != nil {
		return true, err
	}
	if t.opt.add {
		var entries []rules.Entry
		for _, s := range missing {
			entries = append(entries, rules.Entry{Action: rules.Did, Step: rules.Add, Subject: s})
		}
		_, err := t.append(entries...)
		return false, err
	}
	var names []string
	for _, s := range missing {
		names = append(names, t.v.Named(s))
	}
	what := strings.Join(names, t.v.Say("and"))
	t.step = r.step
	t.ask("ask_unknown", "What", wording.Upper(what), "Count", len(missing))
	t.offer("b_add", t.rerun("add=1"), "What", what)
	t.offer("b_no", "no")
	return true, nil
}

func (t *talk) badBreeder(n int) bool {
	if n < 1 || n > 9999 {
		t.fail("r_name", "Name", n)
		return true
	}
	return false
}

// isNames allows names of up to three words.
func isNames(s string) bool {
	parts := strings.Fields(s)
	for _, p := range parts {
		if !wording.IsName(p) {
			return false
		}
	}
	return len(parts) > 0 && len(parts) <= 3 && len([]rune(s)) <= 24
}

// breederOf finds the breeder a message is about: named, of the ping replied to,
// or the only one that fits.
func (t *talk) breederOf(r *reading, fits func(rules.Breeder) bool) (n int, ok bool, err error) {
	if r.breeder != 0 {
		return r.breeder, true, nil
	}
	if s, ok := t.context(rules.BreederKind); ok {
		return s.Number(), true, nil
	}
	list, err := t.tx.Breeders(t.crew.ID)
	if err != nil {
		return 0, false, err
	}
	var fit []rules.Breeder
	for _, b := range list {
		if fits(b) {
			fit = append(fit, b)
		}
	}
	if len(fit) == 1 {
		own, err := t.ownBreeder()
		if err != nil {
			return 0, false, err
		}
		if own == 0 || own == fit[0].Number {
			return fit[0].Number, true, nil
		}
		for _, b := range list { // "comb out 7", "let her go": the only one on a comb may not be meant
			if b.Number == own {
				fit = append(fit, b)
			}
		}
	}
	if len(fit) == 0 {
		fit = list
	}
	t.ask("ask_breeder", "Example", t.example(r))
	for _, b := range fit[:min(len(fit), mostButtons)] {
		s := rules.BreederSubject(b.Number)
		t.buttons = append(t.buttons, wording.Button(t.v.Head(s), t.rerun("subject="+s.String())))
	}
	return 0, false, nil
}

// ownBreeder is the breeder that the sender's own last line told of a moment ago, 0 for
// none.
func (t *talk) ownBreeder() (int, error) {
	own, err := t.effectiveOwn(1)
	if err != nil || len(own) == 0 {
		return 0, err
	}
	l := own[0]
	if l.Action != rules.Did || l.Step == rules.Add || l.Subject.Kind != rules.BreederKind || t.origin.Said.Sub(l.Said) > mendTimeWithin {
		return 0, nil
	}
	return l.Subject.Number(), nil
}

const mostButtons = 8

func (t *talk) confine(r *reading, e rules.Entry) error {
	n, ok, err := t.breederOf(r, func(rules.Breeder) bool { return false })
	if err != nil || !ok {
		return err
	}
	e.Subject = rules.BreederSubject(n)
	e.Count = nil
	t.subject, t.step = e.Subject, e.Step
	combs, err := t.tx.Combs(t.crew.ID, n)
	if err != nil {
		return err
	}
	if stop, err := t.afterDeath(n, e); stop || err != nil {
		return err
	}
	if stop, err := t.confinedTold(r, e, combs); stop || err != nil {
		return err
	}
	bad := rules.CheckConfine(e, combs)
	var entries []rules.Entry
	if bad != nil && t.opt.swap {
		old, _ := rules.OpenComb(combs)
		entries = append(entries, rules.Entry{Action: rules.Did, Step: rules.CombOut, Subject: e.Subject, Happened: e.Happened, Mark: old.Mark, Detail: rules.Detail{Comb: old.ID}})
	} else if bad != nil {
		t.refuse(bad)
		t.offer("b_swap", t.rerun("swap=1"))
		t.offer("b_no", "no")
		return nil
	}
	done, err := t.append(append(entries, e)...)
	if err != nil {
		return err
	}
	if len(done) > 1 {
		if err := t.echoComb(done[0]); err != nil {
			return err
		}
	}
	if err := t.echoConfine(done[len(done)-1]); err != nil {
		return err
	}
	return t.notPlanned(done[len(done)-1])
}

func (t *talk) comb(r *reading, e rules.Entry) error {
	n, ok, err := t.breederOf(r, func(b rules.Breeder) bool { return b.Comb != 0 })
	if err != nil || !ok {
		return err
	}
	e.Subject = rules.BreederSubject(n)
	e.Count = nil
	t.subject, t.step = e.Subject, e.Step
	combs, err := t.tx.Combs(t.crew.ID, n)
	if err != nil {
		return err
	}
	var c rules.Comb
	found := false
	for i := len(combs) - 1; i >= 0 && !found; i-- {
		k := combs[i]
		open := k.Out.IsZero() || e.Step == rules.Eggs && k.EggsSeen.IsZero() && !k.Failed && e.Happened.Sub(k.Confined) < 4*24*time.Hour
		if open && (e.Mark == "" || k.Mark == "" || k.Mark == e.Mark) {
			c, found = k, true
		}
	}
	bad := rules.CheckComb(e, n, c, found)
	if !found && e.Mark != "" && len(combs) > 0 {
		bad = &rules.Refusal{Code: "no_such_comb", Args: map[string]any{"Breeder": n, "Mark": e.Mark}}
	}
	if bad != nil {
		t.refuse(bad)
		return nil
	}
	if e.Step == rules.Eggs && !c.EggsSeen.IsZero() && !e.Detail.NoEggs {
		t.say("e_noted", "What", t.v.Line(e))
		return nil
	}
	e.Detail.Comb = c.ID
	if e.Mark == "" {
		e.Mark = c.Mark
	}
	if e.Detail.NoEggs && e.Step == rules.Eggs {
		zero := 0
		e.Count = &zero
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	return t.echoComb(e)
}

func (t *talk) graft(r *reading, e rules.Entry) error {
	if task, ok := t.contextTask(); ok && task.Step == rules.Graft && r.breeder == 0 {
		r.breeder = task.Breeder
		if e.Mark == "" {
			e.Mark = task.Mark
		}
	}
	open, err := t.tx.OpenTasks(t.crew.ID)
	if err != nil {
		return err
	}
	n, ok, err := t.breederOf(r, func(b rules.Breeder) bool {
		for _, k := range open {
			if k.Step == rules.Graft && k.Breeder == b.Number && e.Happened.After(k.Earliest.Add(-12*time.Hour)) {
				return true
			}
		}
		return false
	})
	if err != nil || !ok {
		return err
	}
	e.From, e.Into = n, r.builder
	t.step = e.Step
	combs, err := t.tx.Combs(t.crew.ID, n)
	if err != nil {
		return err
	}
	if bad := t.allowed(rules.CheckGraft(e, combs)); bad != nil {
		t.refuse(bad)
		return nil
	}
	if twin, ok, err := t.twinGraft(e); err != nil {
		return err
	} else if ok && !t.opt.sure {
		t.ask("ask_twin", "Batch", t.v.Subject(rules.BatchSubject(twin.Number)), "Old", twin.Counts.Grafted, "When", twin.Grafted)
		t.offer("b_second", t.rerun("sure=1"))
		t.offer("b_no", "no")
		return nil
	}
	last, err := t.tx.LastBatchNumber(t.crew.ID)
	if err != nil {
		return err
	}
	e.Subject = rules.BatchSubject(last + 1)
	done, err := t.append(e)
	if err != nil {
		return err
	}
	return t.echoGraft(done[0])
}

// twinGraft finds a batch that the same words logged a moment ago: two people log
// one graft, or one person twice in bad coverage.
func (t *talk) twinGraft(e rules.Entry) (rules.Batch, bool, error) {
	list, err := t.tx.Batches(t.crew.ID)
	for _, b := range list {
		near := b.Grafted.Sub(e.Happened)
		same := b.Counts.Grafted != nil && e.Count != nil && *b.Counts.Grafted == *e.Count
		if same && b.Breeder == e.From && b.Builder == e.Into && near > -3*time.Hour && near < 3*time.Hour {
			return b, true, nil
		}
	}
	return rules.Batch{}, false, err
}

func (t *talk) rogue(r *reading, e rules.Entry) error {
	name := r.builder
	if r.batch != 0 {
		b, ok, err := t.batchFor(r, e.Step, e.Happened)
		if err != nil || !ok {
			return err
		}
		if name != "" && b.Builder != "" && name != b.Builder && !t.opt.sure {
			r.rest, r.batch, r.addressed = []string{t.v.Subject(rules.BatchSubject(b.Number))}, 0, true
			t.doubt(r) // the batch is in another builder
			return nil
		}
		if name == "" {
			name = b.Builder
		}
		if name == "" {
			e.Subject = rules.BatchSubject(b.Number)
		}
	}
	if name == "" && e.Subject.Zero() {
		if s, ok := t.context(rules.BuilderKind); ok {
			name = s.Key
		}
	}
	if name == "" && e.Subject.Zero() {
		open, err := t.tx.OpenTasks(t.crew.ID)
		if err != nil {
			return err
		}
		var fit []string
		for _, k := range open {
			if k.Step == rules.Rogue && k.Subject.Kind == rules.BuilderKind && !slices.Contains(fit, k.Subject.Key) && e.Happened.After(k.Earliest.Add(-rules.RogueEarly)) {
				fit = append(fit, k.Subject.Key)
			}
		}
		if s, ok := t.context(rules.BatchKind); ok && len(fit) == 0 {
			e.Subject = s
		}
		switch {
		case len(fit) == 1:
			name = fit[0]
		case e.Subject.Zero():
			n, err := t.names()
			if err != nil {
				return err
			}
			if len(fit) == 0 {
				fit = n.builders
			}
			t.ask("ask_builder", "Example", t.v.Say("form_rogue"))
			for _, b := range fit[:min(len(fit), mostButtons)] {
				t.buttons = append(t.buttons, wording.Button(b, t.rerun("subject="+rules.BuilderSubject(b).String())))
			}
			return nil
		}
	}
	if name != "" {
		e.Subject = rules.BuilderSubject(name)
	}
	if e.Count == nil {
		zero := 0
		e.Count = &zero
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	return t.echoRogue(e)
}
