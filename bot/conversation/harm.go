package conversation

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// What the log has no line for yet, by the topic of what is said of it.
const (
	InIncubator = "incubator" // cells that went into an incubator
	OtherWork   = "other"     // all else
	Foulbrood   = "foulbrood" // signs of it: never logged, see safety.go
)

// mostHatching is how many virgins out at once are still an alarm: more are a count.
const mostHatching = 3

// What went wrong: a virgin among the cells, a breeder that is gone, and what the log has
// no line for yet.

// virginAmong logs a virgin that is out among cells, for each batch whose cells are there.
// It closes nothing. The answer is the alarm, and stands in the group where all read it.
func (sc *Scene) virginAmong(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	ans.Step = e.Step
	if r.batch == 0 && r.builder == "" {
		if s, ok := sc.context(rules.BuilderKind); ok {
			r.builder = s.Key
		}
	}
	q, list, ok, err := sc.atRisk(r, e.Happened)
	ans.add(q)
	if err != nil || !ok {
		return ans, err
	}
	if len(list) == 0 && r.builder == "" {
		// All cells are in their nucs: she is one of those that were waited for.
		k := *r
		k.step, k.hedged = rules.Emerge, true
		if stop := ans.is(sc.doubt(&k)); stop {
			ans.say(sc.Voice, "alarm_any") // some may hang there that nobody counted
			return ans, nil
		}
		e.Step = rules.Emerge
		return ans.then(sc.batchStep(&k, e))
	}
	return ans.then(sc.alarm(r, e, list))
}

// alarm logs a virgin among the cells of batches, or in a builder that holds none.
func (sc *Scene) alarm(r *reading, e rules.Entry, list []rules.Batch) (Answer, error) {
	var ans Answer
	e.Step, e.Into, e.Of, ans.Step = rules.Virgin, "", nil, rules.Virgin
	told, seen, err := sc.virginTold(e, list)
	if err != nil {
		return ans, err
	}
	if told && !sc.opt.sure {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(seen.Entry))
		ans.add(sc.sayAlarm(list, e))
		return ans, nil
	}
	var lines []rules.Entry
	for _, b := range list {
		e.Subject = rules.BatchSubject(b.Number)
		lines = append(lines, e)
	}
	if len(list) == 0 {
		e.Subject = rules.BuilderSubject(r.builder)
		lines = append(lines, e)
	}
	ans.Subject = lines[0].Subject
	before := sc
	sc, done, err := sc.log(&ans, lines...)
	if err != nil {
		return ans, err
	}
	if len(list) == 0 {
		ans.say(sc.Voice, "e_virgin_empty", "Builder", r.builder, "When", e.Happened)
		return ans, nil
	}
	var names []string
	in := cmp.Or(r.builder, list[0].Stands())
	for _, b := range list {
		names = append(names, sc.Voice.Subject(rules.BatchSubject(b.Number)))
		if b.Stands() != in && b.Builder != in {
			in = ""
		}
	}
	if in != "" {
		in = sc.Voice.Say("e_virgin_in", "Builder", sc.Voice.Places(in))
	}
	id := "e_virgin"
	if allSingly(list) {
		id = "e_virgin_caged"
	}
	ans.say(sc.Voice, id, "List", wording.JoinList(names), "In", in, "When", e.Happened)
	ans.add(sc.sayAlarm(list, e))
	ans.add(sc.closesSooner(before, done))
	return ans, nil
}

// allSingly reports whether all cells of batches are caged one by one: there a virgin out is
// no alarm.
func allSingly(list []rules.Batch) bool {
	return len(list) > 0 && !slices.ContainsFunc(list, func(b rules.Batch) bool { return !b.Singly() })
}

// sayAlarm says what to do in the next minutes, and what to tell then.
func (sc *Scene) sayAlarm(list []rules.Batch, e rules.Entry) Answer {
	var ans Answer
	b := list[0]
	for _, x := range list {
		if x.Grafted.Before(b.Grafted) {
			b = x
		}
	}
	move := sc.taskOf(rules.BatchSubject(b.Number), rules.Move, "")
	if allSingly(list) {
		ans.say(sc.Voice, "alarm_caged", "Next", e.Happened.Add(rules.FeedWithin), "Until", e.Happened.Add(rules.IntroduceWithin))
		return ans
	}
	if !b.Ripe(e.Happened) {
		ans.say(sc.Voice, "alarm_young", "Until", move.Earliest)
		return ans
	}
	ans.say(sc.Voice, "alarm_ripe")
	if nucs := sc.taskOf(rules.BatchSubject(b.Number), rules.Nucs, ""); nucs.State == rules.Open {
		ans.say(sc.Voice, "alarm_nucs")
	}
	n, yard := 34, sc.Voice.Say("form_yard")
	if move.Count != nil {
		n = max(*move.Count-max(wording.Deref(e.Count), 1), 1)
	}
	if names := sc.names(); move.Into != "" {
		yard = move.Into
	} else if len(names.yards) == 1 {
		yard = names.yards[0]
	}
	ans.say(sc.Voice, "alarm_then", "Count", n, "Yard", yard)
	return ans
}

// virginTold finds the same virgin in the log: told of within the hour of the first batch.
func (sc *Scene) virginTold(e rules.Entry, list []rules.Batch) (bool, store.Line, error) {
	if len(list) == 0 {
		return false, store.Line{}, nil
	}
	entries := sc.model.Entries(rules.BatchSubject(list[0].Number))
	for _, old := range rules.Effective(entries) {
		same := old.Action == rules.Did && old.Step == rules.Virgin && max(wording.Deref(e.Count), 1) <= max(wording.Deref(old.Count), 1)
		if same && e.Happened.Sub(old.Happened).Abs() <= sameWithin {
			return true, store.Line{Entry: old}, nil
		}
	}
	return false, store.Line{}, nil
}

// sameWithin is how far apart two people may put the hour of one thing: what two watches
// and two memories differ by.
const sameWithin = time.Hour

// atRisk are the batches among whose cells a virgin may be. ok is false where it was asked
// back; the question says what to do meanwhile.
func (sc *Scene) atRisk(r *reading, at time.Time) (ans Answer, list []rules.Batch, ok bool, err error) {
	all := sc.model.Batches()
	named := r.batch
	if s, ok := sc.context(rules.BatchKind); ok && named == 0 && r.builder == "" {
		named = s.Number()
	}
	for _, b := range all {
		if b.AmongCells(at, sc.Settings) && (named == 0 || b.Number == named) && (named != 0 || r.builder == "" || b.Builder == r.builder) {
			list = append(list, b)
		}
	}
	switch {
	case r.batch != 0 && len(list) == 0:
		if _, found, err := sc.Look.Batch(sc.Crew.ID, r.batch); err != nil || found {
			return ans, nil, err == nil, err
		}
		known, err := sc.knownBatches()
		ans.ask(sc.Voice, "r_no_batch", "Number", r.batch, "Known", known)
		ans.say(sc.Voice, "alarm_any")
		return ans, nil, false, err
	case r.builder != "" || len(list) < 2:
		return ans, list, true, nil
	}
	var ripe []rules.Batch
	for _, b := range list {
		if b.Ripe(at) {
			ripe = append(ripe, b)
		}
	}
	if len(ripe) == 1 {
		return ans, ripe, true, nil
	}
	ans.ask(sc.Voice, "ask_which", "What", wording.Upper(sc.Voice.Say("step_virgin")))
	ans.say(sc.Voice, "alarm_any")
	for _, b := range list[:min(len(list), mostButtons)] {
		s := rules.BatchSubject(b.Number)
		ans.Buttons = append(ans.Buttons, wording.Button(wording.Upper(sc.Voice.Subject(s)), sc.rerun("subject="+s.String())))
	}
	return ans, nil, false, nil
}

// emergedAmong deals with queens said to have emerged of a batch whose cells are not moved
// by the log: a few are an alarm, of more it asks where they are. Where a yard is named,
// they are in the nucs, and the move was not told of.
func (sc *Scene) emergedAmong(r *reading, e rules.Entry, b rules.Batch) (ans Answer, stop bool, err error) {
	if e.Step != rules.Emerge || r.yard != "" || e.Count != nil && *e.Count == 0 || sc.opt.anyway["in_nucs"] || !b.AmongCells(e.Happened, sc.Settings) {
		return ans, false, nil
	}
	move := sc.taskOf(e.Subject, rules.Move, "")
	if move.State != rules.Open {
		return ans, false, nil
	}
	if sc.opt.anyway["among_cells"] || e.Count != nil && *e.Count <= mostHatching && b.Moved.IsZero() {
		more, err := sc.alarm(r, e, []rules.Batch{b})
		return more, true, err
	}
	ans.ask(sc.Voice, "ask_among", "Batch", sc.Voice.Head(e.Subject))
	ans.say(sc.Voice, "alarm_any")
	ans.offer(sc.Voice, "b_in_nucs", sc.rerun("anyway=in_nucs"))
	ans.offer(sc.Voice, "b_among", sc.rerun("anyway=among_cells"))
	ans.offer(sc.Voice, "b_no", "no")
	return ans, true, nil
}

// retire takes a breeder out of every plan.
func (sc *Scene) retire(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	e.Subject = rules.BreederSubject(r.breeder)
	e.Detail = rules.Detail{Cause: r.reason}
	ans.Step, ans.Subject = e.Step, e.Subject
	if gone, err := sc.retired(r.breeder); err != nil {
		return ans, err
	} else if gone != nil {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(*gone))
		return ans, nil
	}
	list := sc.model.Breeders()
	if !slices.ContainsFunc(list, func(b rules.Breeder) bool { return b.Number == r.breeder }) {
		ans.ask(sc.Voice, "r_not_known", "What", sc.Voice.Head(e.Subject), "Form", sc.Voice.Say("form_add", "What", sc.Voice.Named(e.Subject)))
		return ans, nil
	}
	sc, done, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	ans.say(sc.Voice, "e_retire", "Breeder", sc.Voice.Head(e.Subject), "Cause", sc.Voice.Cause(e), "When", e.Happened)
	tasks, err := sc.Look.SubjectTasks(sc.Crew.ID, done[0].Subject)
	for _, k := range tasks {
		if k.Step == rules.Graft && k.State == rules.Open && sc.Look.Now.Before(k.Latest) {
			ans.say(sc.Voice, "e_retire_comb", "Best", k.Best, "Close", k.Latest)
			return ans, err
		}
	}
	ans.say(sc.Voice, "e_retire_none")
	return ans, err
}

// retired is the line that took a breeder out of every plan, nil where she is in.
func (sc *Scene) retired(n int) (*rules.Entry, error) {
	entries, err := sc.Look.SubjectEntries(sc.Crew.ID, rules.BreederSubject(n))
	return rules.Retired(rules.Effective(entries)), err
}

// goneNamed adds the breeders that a text names and that are out of every plan: what is said of
// one is read, and answered by her death.
func (sc *Scene) goneNamed(k *rdg.Known, text string) error {
	for _, w := range strings.FieldsFunc(text, func(c rune) bool { return c < '0' || c > '9' }) {
		n, err := strconv.Atoi(w)
		if err != nil || slices.Contains(k.Breeders, n) {
			continue
		}
		if e, err := sc.retired(n); err != nil {
			return err
		} else if e != nil {
			k.Breeders = append(k.Breeders, n)
		}
	}
	return nil
}

// larvaeSteps can still be done of a breeder who is gone, with the comb that she left.
var larvaeSteps = map[rules.Step]bool{rules.Graft: true, rules.Eggs: true, rules.CombOut: true}

// breederDeath deals with a breeder who is gone, as she is said to be or is by the log.
func (sc *Scene) breederDeath(r *reading, e rules.Entry) (ans Answer, stop bool, err error) {
	if e.Step == rules.Retire {
		more, err := sc.retire(r, e)
		return more, true, err
	}
	return sc.afterDeath(r.breeder, e)
}

// afterDeath refuses what a breeder who is gone cannot have done.
func (sc *Scene) afterDeath(n int, e rules.Entry) (ans Answer, stop bool, err error) {
	if n == 0 || e.Step == rules.Add || larvaeSteps[e.Step] {
		return ans, false, nil
	}
	list, err := sc.Look.Breeders(sc.Crew.ID)
	if err != nil || slices.ContainsFunc(list, func(b rules.Breeder) bool { return b.Number == n }) {
		return ans, false, err
	}
	gone, err := sc.retired(n)
	if err != nil || gone == nil || e.Happened.Before(gone.Happened) {
		return ans, false, err
	}
	ans.ask(sc.Voice, "r_retired", "Breeder", sc.Voice.Head(gone.Subject), "Cause", sc.Voice.Cause(*gone), "When", gone.Happened, "By", gone.By, "Number", n)
	return ans, true, nil
}

// cannot says that what was told cannot be logged yet, and what to do instead.
func (sc *Scene) cannot(r *reading) (Answer, error) {
	var ans Answer
	if r.topic != InIncubator {
		ans.ask(sc.Voice, "r_cannot_"+r.topic)
		return ans, nil
	}
	ans.ask(sc.Voice, "r_cannot_incubator", "Place", sc.Voice.Say("form_place"), "Temp", sc.Voice.Say("form_temp"))
	list := sc.model.Batches()
	for _, b := range list {
		if r.batch != 0 && b.Number != r.batch || r.builder != "" && b.Builder != r.builder {
			continue
		}
		move := sc.taskOf(rules.BatchSubject(b.Number), rules.Move, "")
		if move.State == rules.Open && sc.Look.Now.Sub(move.Latest) < rules.StaleAfter {
			ans.say(sc.Voice, "cannot_close", "Task", wording.Upper(sc.Voice.Task(move)), "Close", move.Latest)
		}
	}
	return ans, nil
}

// confinedTold finds a confinement in the log that somebody else told of, an hour from
// this one at most and with nothing said otherwise: one event, told twice.
func (sc *Scene) confinedTold(r *reading, e rules.Entry, combs []rules.Comb) (ans Answer, stop bool, err error) {
	if sc.opt.swap || sc.opt.sure {
		return ans, false, nil
	}
	for _, c := range combs {
		if e.Happened.Sub(c.Confined).Abs() > sameWithin || e.Mark != "" && c.Mark != "" && e.Mark != c.Mark ||
			e.Detail.BeesIn != nil && c.BeesIn != nil && *e.Detail.BeesIn != *c.BeesIn {
			continue
		}
		l, found, err := sc.Look.LineByID(sc.Crew.ID, c.ID)
		if err != nil {
			return ans, false, err
		}
		if !found || l.Member == sc.By.ID {
			continue
		}
		ans.say(sc.Voice, "e_confine_told", "Breeder", sc.Voice.Subject(e.Subject), "When", c.Confined, "By", l.By)
		if e.Mark != "" && c.Mark == "" || e.Detail.BeesIn != nil && c.BeesIn == nil {
			more, err := sc.amendLine(c.ID, func(x *rules.Entry) {
				x.Mark = cmp.Or(x.Mark, e.Mark)
				if x.Detail.BeesIn == nil {
					x.Detail.BeesIn = e.Detail.BeesIn
				}
			})
			return ans.with(more), true, err
		}
		return ans, true, nil
	}
	return ans, false, nil
}

// harmful warns of an incubator's temperature that harms what is in it.
func (sc *Scene) harmful(c float64) Answer {
	var ans Answer
	switch {
	case c > rules.TooWarm:
		ans.say(sc.Voice, "w_too_warm", "Value", sc.Voice.Number(c, 1))
	case c < rules.TooCool:
		ans.say(sc.Voice, "w_too_cool", "Value", sc.Voice.Number(c, 1))
	}
	return ans
}

// askRogues asks for the number of rogue cells that are there.
func (sc *Scene) askRogues(r *reading) Answer {
	var ans Answer
	ans.ask(sc.Voice, "ask_rogues", "Builder", cmp.Or(r.builder, "B2"))
	if r.builder != "" {
		ans.Step, ans.Subject = rules.Rogue, rules.BuilderSubject(r.builder)
	}
	return ans
}

// askedHowMany finds what a bare number answers: how many rogue cells there were, and in
// which builder, or how many were lost of which batch.
func (sc *Scene) askedHowMany() (p rdg.Ping, ok bool, err error) {
	var m store.Message
	if sc.Replied != nil {
		m = *sc.Replied
	} else {
		list, err := sc.Look.LatestOf(sc.Crew.ID, sc.By.ID, sc.Update.ID, 1)
		if err != nil || len(list) == 0 || list[0].Outcome != "ask" || sc.Origin.Said.Sub(list[0].Said) > mendTimeWithin {
			return p, false, err
		}
		if m, _, err = sc.Look.AnswerOf(sc.Crew.ID, list[0].ID); err != nil {
			return p, false, err
		}
	}
	s := rules.ParseSubject(m.Subject)
	p = rdg.Ping{Step: m.Step, Need: "count", New: true}
	subjectInto(&p, s)
	rogues, lost := m.Step == rules.Rogue && s.Kind == rules.BuilderKind, m.Step == rules.Lose && s.Kind == rules.BatchKind
	return p, m.Kind == "ask" && (rogues || lost) && len(m.Buttons) == 0, nil
}
