package conversation

import (
	"slices"
	"strings"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// deed logs a step: it finds the subject, checks that the thing can be, asks
// where it is in doubt, and echoes what follows.
func (sc *Scene) deed(r *reading) (Answer, error) {
	var ans Answer
	q, at, ok := sc.when(r)
	ans.add(q)
	if !ok {
		return ans, nil
	}
	e := r.says()
	e.From, e.Into = 0, "" // once it is known what it is about
	e.Said, e.Happened, e.By, e.Action, e.Step = sc.Origin.Said, at, sc.By.Name, rules.Did, r.step
	if e.Step == "" {
		ans.Ignore()
		return ans, nil
	}
	if bad := sc.allowed(rules.CheckTime(e)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	if inStock[e.Step] || e.Step == rules.Lose && r.stock {
		return ans.then(sc.stockDeed(r, e))
	}
	if e.Step == rules.Catch && (r.mark != "" || r.tags != "") {
		return ans.then(sc.caughtAndMarked(r, e))
	}
	if stop, err := ans.taken(sc.breederDeath(r, e)); stop || err != nil {
		return ans, err
	}
	if stop, err := ans.taken(sc.unknown(r)); stop || err != nil {
		ans.add(sc.alarmAny(r))
		return ans, err
	}
	sc = ans.In(sc)
	if bad := sc.allowed(rules.CheckCount(e)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	switch e.Step {
	case rules.Temp:
		return ans.then(sc.temperature(r, e))
	case rules.Placed:
		return ans.then(sc.place(r, e))
	case rules.Queenless, rules.Brood:
		return ans.then(sc.builderLine(r, e))
	case rules.Virgin:
		return ans.then(sc.virginAmong(r, e))
	case rules.Lose:
		return ans.then(sc.lose(r, e))
	case rules.Confine:
		return ans.then(sc.confine(r, e))
	case rules.Eggs, rules.CombOut:
		return ans.then(sc.comb(r, e))
	case rules.Graft:
		return ans.then(sc.graft(r, e))
	case rules.Rogue:
		return ans.then(sc.rogue(r, e))
	case rules.Feed:
		return ans.then(sc.feed(r, e))
	case rules.Nuc:
		return ans.then(sc.nucs(r, e))
	case rules.Dearth, rules.Flow, rules.Drones:
		return ans.then(sc.season(r, e))
	case rules.HandsOff, rules.Flights:
		ans.Fail(sc.Voice, "r_guard", "Task", sc.Voice.Say("step_"+string(e.Step)))
		return ans, nil
	}
	return ans.then(sc.batchStep(r, e))
}

// allowed drops a refusal that the crew overrode.
func (sc *Scene) allowed(r *rules.Refusal) *rules.Refusal {
	if r == nil || r.Ask && sc.opt.anyway[r.Code] {
		return nil
	}
	return r
}

// hourCritical are the steps whose hour the whole timing hangs on.
var hourCritical = map[rules.Step]bool{rules.Confine: true, rules.CombOut: true, rules.Graft: true}

// when settles the time of the work. ok is false where it was asked back.
func (sc *Scene) when(r *reading) (Answer, time.Time, bool) {
	var ans Answer
	if !sc.at.IsZero() {
		return ans, sc.at, true
	}
	at, exact := r.when.settle(sc.Origin.Said, sc.Settings)
	if !exact && hourCritical[r.step] {
		day := sc.Voice.Date(rules.DateOf(at, sc.Settings.Zone))
		ans.ask(sc.Voice, "ask_time", "Day", day, "Example", wording.Clean(sc.Origin.Text)+" 16:00")
		return ans, at, false
	}
	return ans, at.UTC().Truncate(time.Second), true
}

// unknown asks back breeders, builders and yards that are not on the list, with a
// button that adds them and then logs the message as written.
func (sc *Scene) unknown(r *reading) (ans Answer, stop bool, err error) {
	var missing []rules.Subject
	if r.breeder != 0 {
		if bad := ans.is(sc.badBreeder(r.breeder)); bad {
			return ans, true, nil
		}
		list := sc.model.Breeders()
		known := false
		for _, b := range list {
			known = known || b.Number == r.breeder
		}
		if !known {
			gone, err := sc.retired(r.breeder)
			if err != nil {
				return ans, true, err
			}
			known = gone != nil // and not to be added anew
		}
		if !known {
			missing = append(missing, rules.BreederSubject(r.breeder))
		}
	}
	n := sc.names()
	if r.builder != "" && !slices.Contains(n.builders, r.builder) {
		missing = append(missing, rules.BuilderSubject(r.builder))
	}
	if r.yard != "" && !slices.Contains(n.yards, r.yard) {
		if !isNames(r.yard) {
			ans.Fail(sc.Voice, "r_name", "Name", r.yard)
			return ans, true, nil
		}
		missing = append(missing, rules.YardSubject(r.yard))
	}
	if s := r.subject(); r.incubator != "" && r.incubator != rdg.AnyIncubator && !sc.hasIncubator(r.incubator) {
		if s.Kind != rules.IncubatorKind {
			s = rules.IncubatorSubject(r.incubator)
		}
		missing = append(missing, s)
	}
	if len(missing) == 0 {
		return ans, false, nil
	}
	if full, err := ans.taken(sc.full(missing...)); full || err != nil {
		return ans, true, err
	}
	if sc.opt.add {
		var entries []rules.Entry
		for _, s := range missing {
			entries = append(entries, rules.Entry{Action: rules.Did, Step: rules.Add, Subject: s})
		}
		_, _, err = sc.log(&ans, entries...)
		return ans, false, err
	}
	var names []string
	for _, s := range missing {
		names = append(names, sc.Voice.Named(s))
	}
	what := strings.Join(names, sc.Voice.Say("and"))
	ans.Step = r.step
	ans.ask(sc.Voice, "ask_unknown", "What", what, "Count", len(missing))
	ans.offer(sc.Voice, "b_add", sc.rerun("add=1"), "What", what)
	ans.offer(sc.Voice, "b_no", "no")
	return ans, true, nil
}

func (sc *Scene) badBreeder(n int) (Answer, bool) {
	var ans Answer
	if n < 1 || n > 9999 {
		ans.Fail(sc.Voice, "r_name", "Name", n)
		return ans, true
	}
	return ans, false
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
func (sc *Scene) breederOf(r *reading, fits func(rules.Breeder) bool) (ans Answer, n int, ok bool, err error) {
	if r.breeder != 0 {
		return ans, r.breeder, true, nil
	}
	if s, ok := sc.context(rules.BreederKind); ok {
		return ans, s.Number(), true, nil
	}
	list := sc.model.Breeders()
	var fit []rules.Breeder
	for _, b := range list {
		if fits(b) {
			fit = append(fit, b)
		}
	}
	if len(fit) == 1 {
		own, err := sc.ownBreeder()
		if err != nil {
			return ans, 0, false, err
		}
		if own == 0 || own == fit[0].Number {
			return ans, fit[0].Number, true, nil
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
	ans.ask(sc.Voice, "ask_breeder", "Example", sc.example(r))
	for _, b := range fit[:min(len(fit), mostButtons)] {
		s := rules.BreederSubject(b.Number)
		ans.Buttons = append(ans.Buttons, wording.Button(wording.Upper(sc.Voice.Subject(s)), sc.rerun("subject="+s.String())))
	}
	return ans, 0, false, nil
}

// ownBreeder is the breeder that the sender's own last line told of a moment ago, 0 for
// none.
func (sc *Scene) ownBreeder() (int, error) {
	own, err := sc.effectiveOwn(1)
	if err != nil || len(own) == 0 {
		return 0, err
	}
	l := own[0]
	if l.Action != rules.Did || l.Step == rules.Add || l.Subject.Kind != rules.BreederKind || sc.Origin.Said.Sub(l.Said) > mendTimeWithin {
		return 0, nil
	}
	return l.Subject.Number(), nil
}

const mostButtons = 8

func (sc *Scene) confine(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	q, n, ok, err := sc.breederOf(r, func(rules.Breeder) bool { return false })
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	e.Subject = rules.BreederSubject(n)
	e.Count = nil
	ans.Subject, ans.Step = e.Subject, e.Step
	combs := sc.model.Combs(n)
	if stop, err := ans.taken(sc.afterDeath(n, e)); stop || err != nil {
		return ans, err
	}
	if stop, err := ans.taken(sc.confinedTold(r, e, combs)); stop || err != nil {
		return ans, err
	}
	bad := rules.CheckConfine(e, combs)
	var entries []rules.Entry
	if bad != nil && sc.opt.swap {
		old, _ := rules.OpenComb(combs)
		entries = append(entries, rules.Entry{Action: rules.Did, Step: rules.CombOut, Subject: e.Subject, Happened: e.Happened, Mark: old.Mark, Detail: rules.Detail{Comb: old.ID}})
	} else if bad != nil {
		ans.refuse(sc, bad)
		ans.offer(sc.Voice, "b_swap", sc.rerun("swap=1"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, nil
	}
	sc, done, err := sc.log(&ans, append(entries, e)...)
	if err != nil {
		return ans, err
	}
	if len(done) > 1 {
		ans.add(sc.echoComb(done[0]))
	}
	ans.add(sc.echoConfine(done[len(done)-1]))
	return ans.then(sc.notPlanned(done[len(done)-1]))
}

func (sc *Scene) comb(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	q, n, ok, err := sc.breederOf(r, func(b rules.Breeder) bool { return b.Comb != 0 })
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	e.Subject = rules.BreederSubject(n)
	e.Count = nil
	ans.Subject, ans.Step = e.Subject, e.Step
	combs := sc.model.Combs(n)
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
		ans.refuse(sc, bad)
		return ans, nil
	}
	if e.Step == rules.Eggs && !c.EggsSeen.IsZero() && !e.Detail.NoEggs {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
		return ans, nil
	}
	e.Detail.Comb = c.ID
	if e.Mark == "" {
		e.Mark = c.Mark
	}
	if e.Detail.NoEggs && e.Step == rules.Eggs {
		zero := 0
		e.Count = &zero
	}
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoComb(e)), nil
}

func (sc *Scene) graft(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	if task, ok := sc.contextTask(); ok && task.Step == rules.Graft && r.breeder == 0 {
		r.breeder = task.Breeder
		if e.Mark == "" {
			e.Mark = task.Mark
		}
	}
	open := sc.open()
	q, n, ok, err := sc.breederOf(r, func(b rules.Breeder) bool {
		for _, k := range open {
			if k.Step == rules.Graft && k.Breeder == b.Number && e.Happened.After(k.Earliest.Add(-12*time.Hour)) {
				return true
			}
		}
		return false
	})
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	e.From, e.Into = n, r.builder
	ans.Step = e.Step
	combs := sc.model.Combs(n)
	if bad := sc.allowed(rules.CheckGraft(e, combs)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	if twin, ok, err := sc.twinGraft(e); err != nil {
		return ans, err
	} else if ok && !sc.opt.sure {
		ans.ask(sc.Voice, "ask_twin", "Batch", sc.Voice.Subject(rules.BatchSubject(twin.Number)), "Old", twin.Counts.Grafted, "When", twin.Grafted)
		ans.offer(sc.Voice, "b_second", sc.rerun("sure=1"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, nil
	}
	if stop := ans.is(sc.secondReport(e)); stop {
		return ans, nil
	}
	last := sc.model.Highest(rules.BatchKind)
	e.Subject = rules.BatchSubject(last + 1)
	sc, done, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoGraft(done[0])), nil
}

// twinGraft finds a batch that the same words logged a moment ago: two people log
// one graft, or one person twice in bad coverage.
func (sc *Scene) twinGraft(e rules.Entry) (rules.Batch, bool, error) {
	list, err := sc.Look.Batches(sc.Crew.ID)
	for _, b := range list {
		near := b.Grafted.Sub(e.Happened)
		same := b.Counts.Grafted != nil && e.Count != nil && *b.Counts.Grafted == *e.Count
		if same && b.Breeder == e.From && b.Builder == e.Into && near > -3*time.Hour && near < 3*time.Hour {
			return b, true, nil
		}
	}
	return rules.Batch{}, false, err
}
