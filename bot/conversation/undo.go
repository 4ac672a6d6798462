package conversation

import (
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// undo takes back the sender's last message, or the one replied to.
func (sc *Scene) undo(r *reading) (Answer, error) {
	var ans Answer
	var ids []int64
	if sc.Replied != nil {
		if sc.Replied.Update != 0 {
			lines, err := sc.Look.UpdateLines(sc.Replied.Update)
			if err != nil {
				return ans, err
			}
			ids = undoable(lines)
		}
		if len(ids) == 0 {
			ans.ask(sc.Voice, "r_undo_not")
			return ans, nil
		}
		return sc.voidLines(ids, false)
	}
	if r.batch != 0 {
		return sc.undoBatch(r.batch)
	}
	if r.whose == "" && r.step == "" {
		m, open, err := sc.pendingQuestion()
		if err != nil {
			return ans, err
		}
		if open {
			return sc.dropQuestion(m)
		}
	}
	who, err := sc.undoOf(r)
	if err != nil {
		return ans, err
	}
	lines, err := sc.Look.LastLines(sc.Crew.ID, who, 500)
	if err != nil {
		return ans, err
	}
	for i, l := range lines {
		if l.Action == rules.Void {
			continue
		}
		gone, err := sc.gone(l)
		if err != nil {
			return ans, err
		}
		if gone {
			continue
		}
		if r.step != "" && l.Step != r.step {
			break // "undo my graft", where something else was logged since
		}
		var same []store.Line
		for _, m := range lines[i:] {
			if m.Update == l.Update {
				same = append(same, m)
			}
		}
		if sc.Origin.Said.Sub(l.Said) > undoWithin {
			// Days later "undo" is seldom about that line.
			ans.ask(sc.Voice, "ask_undo_old", "What", sc.Voice.Line(l.Entry), "When", l.Said)
			var parts []string
			for _, id := range undoable(same) {
				parts = append(parts, strconv.FormatInt(id, 10))
			}
			ans.offer(sc.Voice, "b_undo", "undo|"+strings.Join(parts, ",")+"|check")
			ans.offer(sc.Voice, "b_no", "no")
			return ans, nil
		}
		return sc.voidLines(undoable(same), false)
	}
	ans.ask(sc.Voice, "r_undo_none")
	return ans, nil
}

// pendingQuestion finds the question that the sender's newest message was answered with,
// where that message logged nothing and no button was pressed: "scratch that" is about
// it, and not about the line logged before.
func (sc *Scene) pendingQuestion() (m store.Message, found bool, err error) {
	list, err := sc.Look.LatestOf(sc.Crew.ID, sc.By.ID, sc.Update.ID, mostLookedBack)
	if err != nil {
		return m, false, err
	}
	for _, u := range list {
		if u.Outcome == "logged" || sc.Origin.Said.Sub(u.Said) > mendTimeWithin {
			break
		}
		m, found, err := sc.Look.AnswerOf(sc.Crew.ID, u.ID)
		if err != nil {
			return m, false, err
		}
		if !found || m.Kind != "ask" || len(m.Buttons) == 0 || m.Chat != sc.Chat {
			continue
		}
		if strings.HasPrefix(m.Buttons[0].Do, "undo|") {
			break // asked how much to undo
		}
		if m.Answered == 0 {
			return m, true, nil
		}
	}
	return m, false, nil
}

// mostLookedBack is how many messages of the sender may lie between a question and the
// word that drops it.
const mostLookedBack = 4

// dropQuestion says that nothing was logged, and which line an undo takes back now. The
// question counts as answered from then on.
func (sc *Scene) dropQuestion(m store.Message) (Answer, error) {
	var ans Answer
	ans.answered(m, sc.Update.ID)
	own, err := sc.effectiveOwn(1)
	if err != nil {
		return ans, err
	}
	last := ""
	if len(own) > 0 {
		last = sc.Voice.Say("undo_next", "What", sc.Voice.Line(own[0].Entry))
	}
	ans.say(sc.Voice, "r_dropped", "Last", last)
	return ans, nil
}

// undoOf is whose newest line is taken back: the sender's, unless another was named.
func (sc *Scene) undoOf(r *reading) (int64, error) {
	if r.whose == "" {
		return sc.By.ID, nil
	}
	members, err := sc.Look.Members(sc.Crew.ID)
	who, n := sc.By.ID, 0
	for _, m := range members {
		if m.Name == r.whose {
			who, n = m.ID, n+1
		}
	}
	if n > 1 {
		return 0, err // of two of one name nobody's
	}
	return who, err
}

// undoWithin is how old a line may be for a bare "undo" to take it back unasked.
const undoWithin = 48 * time.Hour

func undoable(lines []store.Line) (ids []int64) {
	for _, l := range lines {
		if l.Action != rules.Void {
			ids = append(ids, l.ID)
		}
	}
	return ids
}

// gone reports whether a line, or the line it amends, was taken back.
func (sc *Scene) gone(l store.Line) (bool, error) {
	refs, err := sc.Look.RefLines(sc.Crew.ID, l.ID)
	if err != nil {
		return false, err
	}
	for _, r := range refs {
		if r.Action == rules.Void {
			return true, nil
		}
	}
	if l.Action == rules.Amend {
		base, found, err := sc.Look.LineByID(sc.Crew.ID, l.Ref)
		if err != nil || !found {
			return true, err
		}
		return sc.gone(base)
	}
	return false, nil
}

// voidLines takes lines back. Where later lines hang on one of them, it asks first,
// unless all was said.
func (sc *Scene) voidLines(ids []int64, all bool) (Answer, error) {
	var ans Answer
	var lines []store.Line
	for _, id := range ids {
		l, found, err := sc.Look.LineByID(sc.Crew.ID, id)
		if err != nil {
			return ans, err
		}
		if !found {
			continue
		}
		gone, err := sc.gone(l)
		if err != nil {
			return ans, err
		}
		if !gone {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		ans.ask(sc.Voice, "r_undo_not")
		return ans, nil
	}
	for _, l := range lines {
		if l.Member != sc.By.ID {
			if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
				return ans, err
			}
			break
		}
	}
	if !all {
		hanging, err := sc.hanging(lines)
		if err != nil {
			return ans, err
		}
		if len(hanging) == 0 {
			if bad := sc.leavesTooFew(lines); bad != nil {
				ans.refuse(sc, bad)
				return ans, nil
			}
		}
		if len(hanging) > 0 {
			var parts []string
			for _, l := range append(lines, hanging...) {
				parts = append(parts, strconv.FormatInt(l.ID, 10))
			}
			ans.ask(sc.Voice, "ask_undo_more", "Count", len(hanging), "What", sc.Voice.Line(lines[0].Entry))
			ans.offer(sc.Voice, "b_undo_all", "undo|"+strings.Join(parts, ","))
			ans.offer(sc.Voice, "b_no", "no")
			return ans, nil
		}
	}
	before, err := sc.openTasks()
	if err != nil {
		return ans, err
	}
	var entries, was []rules.Entry
	for i := len(lines) - 1; i >= 0; i-- {
		e := lines[i].Entry
		cur, alive, err := sc.current(lines[i])
		if err != nil {
			return ans, err
		}
		if !alive || e.Action == rules.Amend {
			cur.Entry = e
		}
		was = append([]rules.Entry{cur.Entry}, was...)
		e.Action, e.Ref, e.ID = rules.Void, e.ID, 0
		entries = append(entries, e)
	}
	with := sc
	sc, _, err = sc.log(&ans, entries...)
	if err != nil {
		return ans, err
	}
	if len(lines) == 1 && lines[0].Action == rules.Amend {
		base, _, err := sc.Look.LineByID(sc.Crew.ID, lines[0].Ref)
		if err != nil {
			return ans, err
		}
		cur, _, err := sc.current(base)
		if err != nil {
			return ans, err
		}
		ans.say(sc.Voice, "e_undo_amend", "What", sc.Voice.Line(cur.Entry))
		if cur.Step == rules.Graft {
			ans.add(sc.movedRound(with, cur.Subject.Number()))
		}
	} else {
		var what []string // worded last: a language may have been among them
		for _, e := range was {
			what = append(what, sc.Voice.Line(e))
		}
		ans.say(sc.Voice, "e_undo", "What", strings.Join(what, "; "))
	}
	return ans.then(sc.changed(before))
}

// leavesTooFew says what of a batch's accounts would not add up without some lines.
func (sc *Scene) leavesTooFew(lines []store.Line) *rules.Refusal {
	for _, l := range lines {
		if l.Subject.Kind != rules.BatchKind || l.Step == rules.Graft {
			continue
		}
		e := l.Entry
		e.Action, e.Ref, e.ID = rules.Void, e.ID, 0
		if bad := sc.contradicts(e); bad != nil {
			return bad
		}
	}
	return nil
}

// hanging are the lines that make no sense without those to be taken back.
func (sc *Scene) hanging(lines []store.Line) (out []store.Line, err error) {
	book, err := sc.Look.Logbook(sc.Crew.ID)
	if err != nil {
		return nil, err
	}
	going := map[int64]bool{}
	for _, l := range lines {
		going[l.ID] = true
	}
	for _, l := range lines {
		for _, m := range book {
			if m.ID <= l.ID || going[m.ID] || m.Action == rules.Void || m.Action == rules.Amend || m.Action == rules.Set || !hangs(l.Entry, m.Entry) {
				continue
			}
			gone, err := sc.gone(m)
			if err != nil {
				return nil, err
			}
			if !gone {
				going[m.ID] = true
				out = append(out, m)
			}
		}
	}
	return out, nil
}

func hangs(base, e rules.Entry) bool {
	if base.Action != rules.Did {
		return false
	}
	if rules.HangsOn(base, e) {
		return true
	}
	switch base.Step {
	case rules.Graft:
		return e.Subject == base.Subject
	case rules.Ordered:
		return e.Subject == base.Subject && e.Step == rules.Ordered
	case rules.Confine:
		return e.Detail.Comb == base.ID || e.Detail.Occ == rules.Occ(base.ID) && e.Subject == base.Subject
	case rules.Add:
		return e.Subject == base.Subject && e.Step != rules.Add ||
			base.Subject.Kind == rules.BreederKind && e.From == base.Subject.Number() ||
			(base.Subject.Kind == rules.BuilderKind || base.Subject.Kind == rules.YardKind) && e.Into == base.Subject.Key && e.Step != rules.Add
	}
	return false
}

// undoBatch asks whether the graft that a batch was begun with is to be taken back, showing
// its line. The lines that hang on it are shown by the press.
func (sc *Scene) undoBatch(number int) (Answer, error) {
	var ans Answer
	entries := sc.model.Entries(rules.BatchSubject(number))
	for _, e := range rules.Effective(entries) {
		if e.Action == rules.Did && e.Step == rules.Graft {
			ans.Step, ans.Subject = e.Step, e.Subject
			ans.ask(sc.Voice, "ask_undo_batch", "What", sc.Voice.Line(e), "When", e.Said, "By", e.By)
			ans.offer(sc.Voice, "b_undo", "undo|"+strconv.FormatInt(e.ID, 10)+"|check")
			ans.offer(sc.Voice, "b_no", "no")
			return ans, nil
		}
	}
	known, err := sc.knownBatches()
	ans.ask(sc.Voice, "r_no_batch", "Number", number, "Known", known)
	return ans, err
}
