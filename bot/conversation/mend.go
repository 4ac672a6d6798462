package conversation

import (
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// mending is a correction: what it should be, and what it was where that was said.
type mending struct {
	now, was *reading
	old      *int // a bare number that it was: "from 12 not 7"
}

// mend puts right what a line is about: of the message replied to, or the sender's
// own last within the hour; where the old value is said, the newest line with it.
func (sc *Scene) mend(c mending) (Answer, error) {
	var ans Answer
	lines, mine, err := sc.mendable(c)
	if err != nil {
		return ans, err
	}
	var fit []store.Line
	for _, l := range lines {
		if mendFits(l.Entry, c.now) && sc.wasSo(l.Entry, c) {
			fit = append(fit, l)
		}
	}
	if len(fit) == 0 {
		switch {
		case len(lines) > 0 && (mine && c.now.count == nil || (sc.Addressed || sc.Replied != nil)):
			ans.ask(sc.Voice, "r_mend_none", "What", sc.Voice.Line(lines[0].Entry))
		case (sc.Addressed || sc.Replied != nil):
			ans.ask(sc.Voice, "r_fix_none")
		case ans.is(sc.sees(rdg.Result{})):
		default:
			ans.Ignore()
		}
		return ans, nil
	}
	for _, l := range fit[1:] {
		if l.Update != fit[0].Update || !c.now.subject().Zero() || c.now.mark != "" || c.now.count != nil {
			if l.Update == fit[0].Update && c.was == nil {
				ans.ask(sc.Voice, "ask_which_line", "Example", sc.Voice.Say("form_"+string(l.Step)))
				return ans, nil
			}
			fit = fit[:1] // the newest
			break
		}
	}
	if stop, err := ans.taken(sc.unknown(c.now)); stop || err != nil {
		return ans, err
	}
	sc = ans.In(sc)
	for _, l := range fit {
		if err := ans.take(sc.mendLine(l, c)); err != nil {
			return ans, err
		}
		sc = ans.In(sc)
	}
	return ans, nil
}

// A time by itself is said of many things in talk: it is a correction soon after
// the line only.
const mendTimeWithin = 20 * time.Minute

// mendable are the lines that a correction may be about, newest first. mine says
// that the sender is at it just now.
func (sc *Scene) mendable(c mending) (lines []store.Line, mine bool, err error) {
	if sc.Replied != nil {
		if sc.Replied.Update == 0 {
			return nil, false, nil
		}
		lines, err := sc.repliedLines()
		return lines, err == nil, err
	}
	own, err := sc.effectiveOwn(10)
	if err != nil || len(own) == 0 {
		return nil, false, err
	}
	within := time.Hour
	switch {
	case c.was != nil || c.old != nil:
		within = 48 * time.Hour
	case c.now.subject().Zero() && c.now.mark == "":
		within = mendTimeWithin
	}
	for _, l := range own {
		if sc.Origin.Said.Sub(l.Said) <= within && (c.was != nil || c.old != nil || l.Update == own[0].Update) {
			lines = append(lines, l)
		}
	}
	return lines, len(lines) > 0 && sc.Origin.Said.Sub(own[0].Said) <= time.Hour, nil
}

// mendFits reports whether a line has what a correction names.
func mendFits(e rules.Entry, now *reading) bool {
	if e.Action != rules.Did || e.Step == rules.Add {
		return false
	}
	k := e.Subject.Kind
	loose := e.Step == rules.Feed // may be of any kind
	switch {
	case now.batch != 0 && (k != rules.BatchKind || e.Step == rules.Graft):
		return false
	case now.breeder != 0 && k != rules.BreederKind && e.Step != rules.Graft && !loose:
		return false
	case now.builder != "" && e.Step != rules.Graft && e.Step != rules.Finish && e.Step != rules.Banked && k != rules.BuilderKind && !loose:
		return false
	case now.yard != "" && k != rules.YardKind && !placed[e.Step]:
		return false
	case now.buyer != "" && !(wording.OfStock(e) && e.Detail.Customer != 0), now.tags != "" && !wording.OfStock(e):
		return false
	case now.mark != "" && e.Step != rules.Confine && e.Step != rules.Graft && e.Step != rules.Marked:
		return false
	case now.count != nil && e.Count == nil && !rules.NeedsCount[e.Step],
		now.count != nil && e.Count != nil && (*now.count > 2**e.Count || *e.Count > 2**now.count):
		return false // far from what it was, it counts something else
	}
	return true
}

// wasSo reports whether a line has the values that a correction says it had.
func (sc *Scene) wasSo(e rules.Entry, c mending) bool {
	if c.old != nil {
		if c.now.batch != 0 {
			return e.Subject == rules.BatchSubject(*c.old)
		}
		return e.From == *c.old || e.Subject == rules.BreederSubject(*c.old)
	}
	w := c.was
	if w == nil {
		return true
	}
	at := func(s rules.Subject, place string) bool { return e.Subject == s || e.Into == place && place != "" }
	switch {
	case w.batch != 0 && e.Subject != rules.BatchSubject(w.batch),
		w.breeder != 0 && e.From != w.breeder && e.Subject != rules.BreederSubject(w.breeder),
		w.builder != "" && !at(rules.BuilderSubject(w.builder), w.builder),
		w.yard != "" && !at(rules.YardSubject(w.yard), w.yard),
		w.mark != "" && e.Mark != w.mark:
		return false
	}
	if !w.when.set {
		return true
	}
	said, _ := w.when.settle(sc.Origin.Said, sc.Settings)
	zone := sc.Settings.Zone
	if w.when.hasTime {
		clock := rules.ClockOf(e.Happened, zone)
		if clock != w.when.clock && (w.when.half || clock != (w.when.clock+12*60)%(24*60)) {
			return false
		}
	}
	return !w.when.hasDay || rules.DateOf(said, zone) == rules.DateOf(e.Happened, zone)
}

// mendLine corrects one line: its values by an amendment, its subject by taking it
// back and logging it anew.
func (sc *Scene) mendLine(l store.Line, c mending) (Answer, error) {
	var ans Answer
	now := c.now
	at := l.Happened
	if now.when.set {
		q, settled, ok := sc.when(&reading{step: l.Step, when: sc.sameDay(l.Entry, now.when)})
		if ans.add(q); !ok {
			return ans, nil
		}
		at = settled
	}
	if s := mendSubject(l.Entry, now); s != l.Subject {
		return ans.then(sc.relog(l, s, at, now))
	}
	change := func(x *rules.Entry) {
		switch {
		case now.breeder != 0 && x.Step == rules.Graft:
			x.From = now.breeder
		}
		switch {
		case now.builder != "":
			x.Into = now.builder
		case now.yard != "":
			x.Into = now.yard
		}
		if now.mark != "" {
			x.Mark = now.mark
		}
		if now.customer != 0 {
			x.Detail.Customer = now.customer
		}
		if now.tags != "" {
			x.Detail.Tags = now.tags
		}
		if now.count != nil {
			x.Count = now.count
		}
		if now.bees != nil {
			x.Detail.BeesIn = now.bees
		}
		if now.ageHi != nil {
			x.Detail.AgeLo, x.Detail.AgeHi = now.ageLo, now.ageHi
		}
		if now.litres != 0 {
			x.Detail.Litres = now.litres
		}
		x.Happened = at
	}
	return ans.then(sc.amendLine(l.ID, change))
}

// sameDay fills what a corrected time leaves out from the line: the day beside a
// time of day, the time of day beside another day where one was said.
func (sc *Scene) sameDay(e rules.Entry, w when) when {
	zone := sc.Settings.Zone
	switch {
	case w.isAgo:
	case w.hasTime && !w.hasDay:
		d := rules.DateOf(e.Happened, zone)
		w.hasDay, w.date, w.year, w.month, w.day = true, true, d.Year, int(d.Month), d.Day
	case !w.hasTime && w.part == "" && !e.Happened.Equal(e.Said.Truncate(time.Second)):
		w.hasTime, w.half, w.clock = true, true, rules.ClockOf(e.Happened, zone)
	}
	return w
}

// mendSubject is the subject that a line has after a correction.
func mendSubject(e rules.Entry, now *reading) rules.Subject {
	own := e.Step == rules.Feed || e.Subject.Kind != rules.BatchKind && e.Subject.Kind != rules.StockKind
	switch {
	case now.batch != 0:
		return rules.BatchSubject(now.batch)
	case now.breeder != 0 && own:
		return rules.BreederSubject(now.breeder)
	case now.builder != "" && own && e.Step != rules.Graft:
		return rules.BuilderSubject(now.builder)
	case now.yard != "" && own:
		return rules.YardSubject(now.yard)
	}
	return e.Subject
}

// relog takes a line back and logs it of another subject, or neither.
func (sc *Scene) relog(l store.Line, s rules.Subject, at time.Time, now *reading) (Answer, error) {
	var ans Answer
	if l.Member != sc.By.ID {
		if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
			return ans, err
		}
	}
	hanging, err := sc.hanging([]store.Line{l})
	if err != nil {
		return ans, err
	}
	if len(hanging) > 0 {
		ans.ask(sc.Voice, "r_mend_hangs", "What", sc.Voice.Line(l.Entry), "Later", sc.Voice.Line(hanging[0].Entry))
		return ans, nil
	}
	before, err := sc.openTasks()
	if err != nil {
		return ans, err
	}
	gone := l.Entry
	gone.Action, gone.Ref, gone.ID = rules.Void, l.ID, 0
	after, _, err := sc.log(&ans, gone)
	if err != nil {
		return ans, err
	}
	there := *after
	there.at = at
	anew, err := there.deed(asReading(l.Entry, s, now))
	if err != nil || len(anew.Logged) == 0 {
		anew.drop(sc)
		return anew, err
	}
	sc = anew.In(after)
	said := wording.Upper(sc.Voice.Say("e_amend", "What", sc.Voice.Say("step_"+string(l.Step)), "Old", sc.Voice.Subject(l.Subject), "New", sc.Voice.Subject(s)))
	all := Answer{Lines: []string{said}}
	all.record(ans)
	all.add(anew)
	return all.then(sc.reopened(before, all.Subject))
}

// asReading is what a message would have said to log a line of another subject.
func asReading(e rules.Entry, s rules.Subject, now *reading) *reading {
	r := &reading{verb: doStep, step: e.Step, count: e.Count, of: e.Of, mark: e.Mark, bees: e.Detail.BeesIn, noEggs: e.Detail.NoEggs, release: e.Detail.Release,
		ageLo: e.Detail.AgeLo, ageHi: e.Detail.AgeHi, reason: e.Detail.Cause, nuc: e.Detail.State, addressed: true}
	switch {
	case e.Step == rules.Finish:
		r.builder = e.Into
	case placed[e.Step]:
		r.yard = e.Into
	}
	if now.builder != "" {
		r.builder = now.builder
	}
	if now.yard != "" {
		r.yard = now.yard
	}
	if e.Step == rules.Eggs || e.Step == rules.CombOut {
		r.mark, r.count = now.mark, nil // which comb is for the other breeder's own to say
	}
	switch s.Kind {
	case rules.BatchKind:
		r.batch = s.Number()
	case rules.BreederKind:
		r.breeder = s.Number()
	case rules.BuilderKind:
		r.builder, r.yard = s.Key, ""
	case rules.YardKind:
		r.yard, r.builder = s.Key, ""
	}
	return r
}

// reopened tells what is open again now that a line was taken back, but of one subject.
func (sc *Scene) reopened(before map[string]rules.Task, but rules.Subject) (Answer, error) {
	var ans Answer
	list, err := sc.Look.OpenTasks(sc.Crew.ID)
	n := 0
	for _, k := range list {
		if _, had := before[k.Key]; !had && !k.Guard && k.Subject != but && k.Batch != but.Number() && n < mostMoved {
			ans.say(sc.Voice, "e_reopened", "Task", sc.Voice.Task(k), "Best", k.Best, "Close", k.Latest)
			n++
		}
	}
	if err != nil {
		return ans, err
	}
	return ans.then(sc.changed(before))
}
