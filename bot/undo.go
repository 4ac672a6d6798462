package bot

import (
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// undo takes back the sender's last message, or the one replied to.
func (t *talk) undo(r *reading) error {
	var ids []int64
	if t.replied != nil {
		if t.replied.Update != 0 {
			lines, err := t.tx.UpdateLines(t.replied.Update)
			if err != nil {
				return err
			}
			ids = undoable(lines)
		}
		if len(ids) == 0 {
			t.ask("r_undo_not")
			return nil
		}
		return t.voidLines(ids, false)
	}
	if r.batch != 0 {
		return t.undoBatch(r.batch)
	}
	if open, err := t.openQuestion(r); err != nil {
		return err
	} else if open {
		return t.dropQuestion()
	}
	who, err := t.undoOf(r)
	if err != nil {
		return err
	}
	lines, err := t.tx.LastLines(t.crew.ID, who, 500)
	if err != nil {
		return err
	}
	for i, l := range lines {
		if l.Action == rules.Void {
			continue
		}
		gone, err := t.gone(l)
		if err != nil {
			return err
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
		if r.soft != "" && !r.addressed && t.origin.Said.Sub(l.Said) > mendTimeWithin {
			t.hush() // long after a line these words are talk
			return nil
		}
		if t.origin.Said.Sub(l.Said) > undoWithin {
			// Days later "undo" is seldom about that line.
			t.ask("ask_undo_old", "What", t.v.Line(l.Entry), "When", l.Said)
			var parts []string
			for _, id := range undoable(same) {
				parts = append(parts, strconv.FormatInt(id, 10))
			}
			t.offer("b_undo", "undo|"+strings.Join(parts, ",")+"|check")
			t.offer("b_no", "no")
			return nil
		}
		return t.voidLines(undoable(same), false)
	}
	if r.soft != "" && !r.addressed {
		t.hush()
		return nil
	}
	t.ask("r_undo_none")
	return nil
}

// openQuestion finds the question that the sender's newest message was answered with,
// where that message logged nothing and no button was pressed: "scratch that" is about
// it, and not about the line logged before. It counts as answered from then on.
func (t *talk) openQuestion(r *reading) (bool, error) {
	if r.whose != "" || r.step != "" {
		return false, nil
	}
	m, found, err := t.pendingQuestion()
	if err != nil || !found {
		return false, err
	}
	return t.tx.AnswerTo(m, t.update.ID)
}

// questionOpen reports whether the sender has such a question.
func (t *talk) questionOpen() (bool, error) {
	_, found, err := t.pendingQuestion()
	return found, err
}

func (t *talk) pendingQuestion() (m store.Message, found bool, err error) {
	list, err := t.tx.LatestOf(t.crew.ID, t.by.ID, t.update.ID, mostLookedBack)
	if err != nil {
		return m, false, err
	}
	for _, u := range list {
		if u.Outcome == "logged" || t.origin.Said.Sub(u.Said) > mendTimeWithin {
			break
		}
		m, found, err := t.tx.AnswerOf(t.crew.ID, u.ID)
		if err != nil {
			return m, false, err
		}
		if !found || m.Kind != "ask" || len(m.Buttons) == 0 || m.Chat != t.chat {
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

// dropQuestion says that nothing was logged, and which line an undo takes back now.
func (t *talk) dropQuestion() error {
	own, err := t.effectiveOwn(1)
	if err != nil {
		return err
	}
	last := ""
	if len(own) > 0 {
		last = t.v.Say("undo_next", "What", t.v.Line(own[0].Entry))
	}
	t.say("r_dropped", "Last", last)
	return nil
}

// undoOf is whose newest line is taken back: the sender's, unless another was named.
func (t *talk) undoOf(r *reading) (int64, error) {
	if r.whose == "" {
		return t.by.ID, nil
	}
	members, err := t.tx.Members(t.crew.ID)
	who, n := t.by.ID, 0
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
func (t *talk) gone(l store.Line) (bool, error) {
	refs, err := t.tx.RefLines(t.crew.ID, l.ID)
	if err != nil {
		return false, err
	}
	for _, r := range refs {
		if r.Action == rules.Void {
			return true, nil
		}
	}
	if l.Action == rules.Amend {
		base, found, err := t.tx.LineByID(t.crew.ID, l.Ref)
		if err != nil || !found {
			return true, err
		}
		return t.gone(base)
	}
	return false, nil
}

// voidLines takes lines back. Where later lines hang on one of them, it asks first,
// unless all was said.
func (t *talk) voidLines(ids []int64, all bool) error {
	var lines []store.Line
	for _, id := range ids {
		l, found, err := t.tx.LineByID(t.crew.ID, id)
		if err != nil {
			return err
		}
		if !found {
			continue
		}
		gone, err := t.gone(l)
		if err != nil {
			return err
		}
		if !gone {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		t.ask("r_undo_not")
		return nil
	}
	for _, l := range lines {
		if l.Member != t.by.ID {
			if refused, err := t.onlyLead(); refused || err != nil {
				return err
			}
			break
		}
	}
	if !all {
		hanging, err := t.hanging(lines)
		if err != nil {
			return err
		}
		if len(hanging) > 0 {
			var parts []string
			for _, l := range append(lines, hanging...) {
				parts = append(parts, strconv.FormatInt(l.ID, 10))
			}
			t.ask("ask_undo_more", "Count", len(hanging), "What", t.v.Line(lines[0].Entry))
			t.offer("b_undo_all", "undo|"+strings.Join(parts, ","))
			t.offer("b_no", "no")
			return nil
		}
	}
	before, err := t.openTasks()
	if err != nil {
		return err
	}
	var entries, was []rules.Entry
	for i := len(lines) - 1; i >= 0; i-- {
		e := lines[i].Entry
		cur, alive, err := t.current(lines[i])
		if err != nil {
			return err
		}
		if !alive || e.Action == rules.Amend {
			cur.Entry = e
		}
		was = append([]rules.Entry{cur.Entry}, was...)
		e.Action, e.Ref, e.ID = rules.Void, e.ID, 0
		entries = append(entries, e)
	}
	if _, err := t.append(entries...); err != nil {
		return err
	}
	if len(lines) == 1 && lines[0].Action == rules.Amend {
		base, _, err := t.tx.LineByID(t.crew.ID, lines[0].Ref)
		if err != nil {
			return err
		}
		cur, _, err := t.current(base)
		if err != nil {
			return err
		}
		t.say("e_undo_amend", "What", t.v.Line(cur.Entry))
	} else {
		var what []string // worded last: a language may have been among them
		for _, e := range was {
			what = append(what, t.v.Line(e))
		}
		t.say("e_undo", "What", strings.Join(what, "; "))
	}
	return t.changed(before)
}

// hanging are the lines that make no sense without those to be taken back.
func (t *talk) hanging(lines []store.Line) (out []store.Line, err error) {
	book, err := t.tx.Logbook(t.crew.ID)
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
			gone, err := t.gone(m)
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
func (t *talk) undoBatch(number int) error {
	entries, err := t.tx.SubjectEntries(t.crew.ID, rules.BatchSubject(number))
	if err != nil {
		return err
	}
	for _, e := range rules.Effective(entries) {
		if e.Action == rules.Did && e.Step == rules.Graft {
			t.step, t.subject = e.Step, e.Subject
			t.ask("ask_undo_batch", "What", t.v.Line(e), "When", e.Said, "By", e.By)
			t.offer("b_undo", "undo|"+strconv.FormatInt(e.ID, 10)+"|check")
			t.offer("b_no", "no")
			return nil
		}
	}
	known, err := t.knownBatches()
	t.ask("r_no_batch", "Number", number, "Known", known)
	return err
}
