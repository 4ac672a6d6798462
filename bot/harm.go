package bot

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
	aLoss       = "loss"      // cells, nucs or queens that are gone
	nucState    = "nuc"       // nucs in a state that the log does not know
	inIncubator = "incubator" // cells that went into an incubator
	otherWork   = "other"     // all else
)

// mostHatching is how many virgins out at once are still an alarm: more are a count.
const mostHatching = 3

// What went wrong: a virgin among the cells, a breeder that is gone, and what the log has
// no line for yet.

// virginAmong logs a virgin that is out among cells, for each batch whose cells are there.
// It closes nothing. The answer is the alarm, and stands in the group where all read it.
func (t *talk) virginAmong(r *reading, e rules.Entry) error {
	t.step = e.Step
	if r.batch == 0 && r.builder == "" {
		if s, ok := t.context(rules.BuilderKind); ok {
			r.builder = s.Key
		}
	}
	list, ok, err := t.atRisk(r, e.Happened)
	if err != nil || !ok {
		return err
	}
	if len(list) == 0 && r.builder == "" {
		// All cells are in their nucs: she is one of those that were waited for.
		k := *r
		k.step, k.hedged = rules.Emerge, true
		if stop := t.doubt(&k); stop {
			t.say("alarm_any") // some may hang there that nobody counted
			return nil
		}
		e.Step = rules.Emerge
		return t.batchStep(&k, e)
	}
	return t.alarm(r, e, list)
}

// alarm logs a virgin among the cells of batches, or in a builder that holds none.
func (t *talk) alarm(r *reading, e rules.Entry, list []rules.Batch) error {
	e.Step, e.Into, e.Of, t.step = rules.Virgin, "", nil, rules.Virgin
	told, seen, err := t.virginTold(e, list)
	if err != nil {
		return err
	}
	if told && !t.opt.sure {
		t.say("e_noted", "What", t.v.Line(seen.Entry))
		t.sayAlarm(list, e)
		return nil
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
	if _, err := t.append(lines...); err != nil {
		return err
	}
	if len(list) == 0 {
		t.say("e_virgin_empty", "Builder", r.builder, "When", e.Happened)
		return nil
	}
	var names []string
	in := cmp.Or(r.builder, list[0].Builder)
	for _, b := range list {
		names = append(names, t.v.Subject(rules.BatchSubject(b.Number)))
		if b.Builder != in {
			in = ""
		}
	}
	if in != "" {
		in = t.v.Say("e_virgin_in", "Builder", in)
	}
	t.say("e_virgin", "List", wording.JoinList(names), "In", in, "When", e.Happened)
	t.sayAlarm(list, e)
	return nil
}

// sayAlarm says what to do in the next minutes, and what to tell then.
func (t *talk) sayAlarm(list []rules.Batch, e rules.Entry) {
	b := list[0]
	for _, x := range list {
		if x.Grafted.Before(b.Grafted) {
			b = x
		}
	}
	move, err := t.taskOf(rules.BatchSubject(b.Number), rules.Move, "")
	if err == nil && !b.Ripe(e.Happened) {
		t.say("alarm_young", "Until", move.Earliest)
		return
	}
	t.say("alarm_ripe")
	if nucs, err := t.taskOf(rules.BatchSubject(b.Number), rules.Nucs, ""); err == nil && nucs.State == rules.Open {
		t.say("alarm_nucs")
	}
	n, yard := 34, t.v.Say("form_yard")
	if move.Count != nil {
		n = max(*move.Count-max(wording.Deref(e.Count), 1), 1)
	}
	if names, err := t.names(); err == nil && move.Into != "" {
		yard = move.Into
	} else if err == nil && len(names.yards) == 1 {
		yard = names.yards[0]
	}
	t.say("alarm_then", "Count", n, "Yard", yard)
}

// virginTold finds the same virgin in the log: told of within the hour of the first batch.
func (t *talk) virginTold(e rules.Entry, list []rules.Batch) (bool, store.Line, error) {
	if len(list) == 0 {
		return false, store.Line{}, nil
	}
	entries, err := t.tx.SubjectEntries(t.crew.ID, rules.BatchSubject(list[0].Number))
	if err != nil {
		return false, store.Line{}, err
	}
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
func (t *talk) atRisk(r *reading, at time.Time) (list []rules.Batch, ok bool, err error) {
	all, err := t.tx.Batches(t.crew.ID)
	if err != nil {
		return nil, false, err
	}
	named := r.batch
	if s, ok := t.context(rules.BatchKind); ok && named == 0 && r.builder == "" {
		named = s.Number()
	}
	for _, b := range all {
		if b.AmongCells(at, t.s) && (named == 0 || b.Number == named) && (named != 0 || r.builder == "" || b.Builder == r.builder) {
			list = append(list, b)
		}
	}
	switch {
	case r.batch != 0 && len(list) == 0:
		if _, found, err := t.tx.Batch(t.crew.ID, r.batch); err != nil || found {
			return nil, err == nil, err
		}
		known, err := t.knownBatches()
		t.ask("r_no_batch", "Number", r.batch, "Known", known)
		t.say("alarm_any")
		return nil, false, err
	case r.builder != "" || len(list) < 2:
		return list, true, nil
	}
	var ripe []rules.Batch
	for _, b := range list {
		if b.Ripe(at) {
			ripe = append(ripe, b)
		}
	}
	if len(ripe) == 1 {
		return ripe, true, nil
	}
	t.ask("ask_which", "What", wording.Upper(t.v.Say("step_virgin")))
	t.say("alarm_any")
	for _, b := range list[:min(len(list), mostButtons)] {
		s := rules.BatchSubject(b.Number)
		t.buttons = append(t.buttons, wording.Button(t.v.Head(s), t.rerun("subject="+s.String())))
	}
	return nil, false, nil
}

// emergedAmong deals with queens said to have emerged of a batch whose cells are not moved
// by the log: a few are an alarm, of more it asks where they are. Where a yard is named,
// they are in the nucs, and the move was not told of.
func (t *talk) emergedAmong(r *reading, e rules.Entry, b rules.Batch) (stop bool, err error) {
	if e.Step != rules.Emerge || r.yard != "" || e.Count != nil && *e.Count == 0 || t.opt.anyway["in_nucs"] || !b.AmongCells(e.Happened, t.s) {
		return false, nil
	}
	move, err := t.taskOf(e.Subject, rules.Move, "")
	if err != nil || move.State != rules.Open {
		return false, err
	}
	if t.opt.anyway["among_cells"] || e.Count != nil && *e.Count <= mostHatching && b.Moved.IsZero() {
		return true, t.alarm(r, e, []rules.Batch{b})
	}
	t.ask("ask_among", "Batch", t.v.Head(e.Subject))
	t.say("alarm_any")
	t.offer("b_in_nucs", t.rerun("anyway=in_nucs"))
	t.offer("b_among", t.rerun("anyway=among_cells"))
	t.offer("b_no", "no")
	return true, nil
}

// retire takes a breeder out of every plan.
func (t *talk) retire(r *reading, e rules.Entry) error {
	e.Subject = rules.BreederSubject(r.breeder)
	e.Detail = rules.Detail{Cause: r.reason}
	t.step, t.subject = e.Step, e.Subject
	if gone, err := t.retired(r.breeder); err != nil {
		return err
	} else if gone != nil {
		t.say("e_noted", "What", t.v.Line(*gone))
		return nil
	}
	list, err := t.tx.Breeders(t.crew.ID)
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(list, func(b rules.Breeder) bool { return b.Number == r.breeder }) {
		t.ask("r_not_known", "What", t.v.Head(e.Subject), "Form", t.v.Say("form_add", "What", t.v.Named(e.Subject)))
		return nil
	}
	done, err := t.append(e)
	if err != nil {
		return err
	}
	t.say("e_retire", "Breeder", t.v.Head(e.Subject), "Cause", t.v.Cause(e), "When", e.Happened)
	tasks, err := t.tx.SubjectTasks(t.crew.ID, done[0].Subject)
	for _, k := range tasks {
		if k.Step == rules.Graft && k.State == rules.Open && t.tx.Now.Before(k.Latest) {
			t.say("e_retire_comb", "Best", k.Best, "Close", k.Latest)
			return err
		}
	}
	t.say("e_retire_none")
	return err
}

// retired is the line that took a breeder out of every plan, nil where she is in.
func (t *talk) retired(n int) (*rules.Entry, error) {
	entries, err := t.tx.SubjectEntries(t.crew.ID, rules.BreederSubject(n))
	return rules.Retired(rules.Effective(entries)), err
}

// goneNamed adds the breeders that a text names and that are out of every plan: what is said of
// one is read, and answered by her death.
func (t *talk) goneNamed(k *rdg.Known, text string) error {
	for _, w := range strings.FieldsFunc(text, func(c rune) bool { return c < '0' || c > '9' }) {
		n, err := strconv.Atoi(w)
		if err != nil || slices.Contains(k.Breeders, n) {
			continue
		}
		if e, err := t.retired(n); err != nil {
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
func (t *talk) breederDeath(r *reading, e rules.Entry) (stop bool, err error) {
	if e.Step == rules.Retire {
		return true, t.retire(r, e)
	}
	return t.afterDeath(r.breeder, e)
}

// sayMeanwhile says what to do while a question about a virgin that is out is open.
func (t *talk) sayMeanwhile(e rules.Entry) {
	if e.Step == rules.Virgin && t.kind != "reply" {
		t.say("alarm_any")
	}
}

// afterDeath refuses what a breeder who is gone cannot have done.
func (t *talk) afterDeath(n int, e rules.Entry) (stop bool, err error) {
	if n == 0 || e.Step == rules.Add || larvaeSteps[e.Step] {
		return false, nil
	}
	list, err := t.tx.Breeders(t.crew.ID)
	if err != nil || slices.ContainsFunc(list, func(b rules.Breeder) bool { return b.Number == n }) {
		return false, err
	}
	gone, err := t.retired(n)
	if err != nil || gone == nil || e.Happened.Before(gone.Happened) {
		return false, err
	}
	t.ask("r_retired", "Breeder", t.v.Head(gone.Subject), "Cause", t.v.Cause(*gone), "When", gone.Happened, "By", gone.By, "Number", n)
	return true, nil
}

// cannot says that what was told cannot be logged yet, and what to do instead.
func (t *talk) cannot(r *reading) error {
	if r.topic != inIncubator {
		t.ask("r_cannot_" + r.topic)
		return nil
	}
	t.ask("r_cannot_incubator")
	list, err := t.tx.Batches(t.crew.ID)
	if err != nil {
		return err
	}
	for _, b := range list {
		if r.batch != 0 && b.Number != r.batch || r.builder != "" && b.Builder != r.builder {
			continue
		}
		move, err := t.taskOf(rules.BatchSubject(b.Number), rules.Move, "")
		if err != nil {
			return err
		}
		if move.State == rules.Open && t.tx.Now.Sub(move.Latest) < rules.StaleAfter {
			t.say("cannot_close", "Task", wording.Upper(t.v.Task(move)), "Close", move.Latest)
		}
	}
	return nil
}

// confinedTold finds a confinement in the log that somebody else told of, an hour from
// this one at most and with nothing said otherwise: one event, told twice.
func (t *talk) confinedTold(r *reading, e rules.Entry, combs []rules.Comb) (stop bool, err error) {
	if t.opt.swap || t.opt.sure {
		return false, nil
	}
	for _, c := range combs {
		if e.Happened.Sub(c.Confined).Abs() > sameWithin || e.Mark != "" && c.Mark != "" && e.Mark != c.Mark ||
			e.Detail.BeesIn != nil && c.BeesIn != nil && *e.Detail.BeesIn != *c.BeesIn {
			continue
		}
		l, found, err := t.tx.LineByID(t.crew.ID, c.ID)
		if err != nil {
			return false, err
		}
		if !found || l.Member == t.by.ID {
			continue
		}
		t.say("e_confine_told", "Breeder", t.v.Subject(e.Subject), "When", c.Confined, "By", l.By)
		if e.Mark != "" && c.Mark == "" || e.Detail.BeesIn != nil && c.BeesIn == nil {
			return true, t.amendLine(c.ID, func(x *rules.Entry) {
				x.Mark = cmp.Or(x.Mark, e.Mark)
				if x.Detail.BeesIn == nil {
					x.Detail.BeesIn = e.Detail.BeesIn
				}
			})
		}
		return true, nil
	}
	return false, nil
}

// harmful warns of an incubator's temperature that harms what is in it.
func (t *talk) harmful(c float64) {
	switch {
	case c > rules.TooWarm:
		t.say("w_too_warm", "Value", t.v.Number(c, 1))
	case c < rules.TooCool:
		t.say("w_too_cool", "Value", t.v.Number(c, 1))
	}
}

// askRogues asks for the number of rogue cells that are there.
func (t *talk) askRogues(r *reading) {
	t.ask("ask_rogues", "Builder", cmp.Or(r.builder, "B2"))
	if r.builder != "" {
		t.step, t.subject = rules.Rogue, rules.BuilderSubject(r.builder)
	}
}

// askedRogues reports whether a bare number answers the question how many rogue cells
// there were, and in which builder.
func (t *talk) askedRogues() (builder string, ok bool, err error) {
	var m store.Message
	if t.replied != nil {
		m = *t.replied
	} else {
		list, err := t.tx.LatestOf(t.crew.ID, t.by.ID, t.update.ID, 1)
		if err != nil || len(list) == 0 || list[0].Outcome != "ask" || t.origin.Said.Sub(list[0].Said) > mendTimeWithin {
			return "", false, err
		}
		if m, _, err = t.tx.AnswerOf(t.crew.ID, list[0].ID); err != nil {
			return "", false, err
		}
	}
	s := rules.ParseSubject(m.Subject)
	return s.Key, m.Kind == "ask" && m.Step == rules.Rogue && s.Kind == rules.BuilderKind && len(m.Buttons) == 0, nil
}
