package bot

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// awaiting finds the line that a bare number or place completes: the one logged
// by the message replied to, else the sender's own last within the hour where it
// lacks just that.
func (t *talk) awaiting(r *reading) (store.Line, bool, error) {
	lacks := func(l store.Line) bool {
		if l.Action != rules.Did {
			return false
		}
		count := l.Count == nil && needsCount[l.Step] && (r.count != nil || r.all)
		place := l.Into == "" && (r.builder != "" && l.Step == rules.Graft || r.yard != "" && l.Step == rules.Move)
		return count || place
	}
	if t.replied != nil {
		if t.replied.Update == 0 {
			return store.Line{}, false, nil
		}
		lines, err := t.tx.UpdateLines(t.replied.Update)
		if err != nil {
			return store.Line{}, false, err
		}
		for i := len(lines) - 1; i >= 0; i-- {
			l := lines[i]
			if l.Action == rules.Amend {
				if l, _, err = t.tx.LineByID(t.crew.ID, l.Ref); err != nil {
					return l, false, err
				}
			}
			cur, ok, err := t.current(l)
			if err != nil {
				return cur, false, err
			}
			if ok && cur.Action == rules.Did && (lacks(cur) || needsCount[cur.Step]) {
				return cur, true, nil
			}
		}
		return store.Line{}, false, nil
	}
	lines, err := t.effectiveOwn(1)
	if err != nil || len(lines) == 0 || t.origin.Said.Sub(lines[0].Said) > time.Hour || !lacks(lines[0]) {
		return store.Line{}, false, err
	}
	return lines[0], true, nil
}

// complete adds what a short answer says to a line.
func (t *talk) complete(id int64, cur rules.Entry, r *reading) error {
	if stop, err := t.unknown(r); stop || err != nil {
		return err
	}
	if bad := t.allowed(rules.CheckCount(rules.Entry{Step: cur.Step, Count: r.count, Of: r.of})); bad != nil {
		t.refuse(bad)
		return nil
	}
	count := r.count
	if r.all && cur.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, cur.Subject.Number())
		if err != nil {
			return err
		}
		if count, _ = b.Counts.Stage(cur.Step); count == nil {
			t.askCount(cur, nil)
			return nil
		}
	}
	return t.amendLine(id, func(x *rules.Entry) {
		if count != nil {
			x.Count, x.Of = count, r.of
		}
		if r.builder != "" {
			x.Into = r.builder
		} else if r.yard != "" {
			x.Into = r.yard
		}
		if r.mark != "" {
			x.Mark = r.mark
		}
		if r.when.set {
			if at, ok := t.when(r); ok {
				x.Happened = at
			}
		}
	})
}

// amendLine logs new values for a line, says old and new, and tells what moved.
func (t *talk) amendLine(id int64, change func(*rules.Entry)) error {
	l, found, err := t.tx.LineByID(t.crew.ID, id)
	if err != nil {
		return err
	}
	cur, alive, err := t.current(l)
	if err != nil {
		return err
	}
	if !found || !alive {
		t.say("r_undo_not")
		return nil
	}
	old := cur.Entry
	e := old
	change(&e)
	t.step, t.subject = e.Step, e.Subject
	if bad := t.allowed(rules.CheckCount(e)); bad != nil {
		t.refuse(bad)
		return nil
	}
	if e.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
		if err != nil {
			return err
		}
		if bad := rules.CheckAmend(e.Step, old.Count, e.Count, b); bad != nil {
			t.refuse(bad)
			return nil
		}
	}
	if bad, err := t.checkTime(l, old, e); err != nil {
		return err
	} else if bad != nil {
		t.refuse(bad)
		return nil
	}
	e.Action, e.Ref = rules.Amend, id
	if t.v.line(old) == t.v.line(e) && old.Happened.Equal(e.Happened) && old.Detail.All == e.Detail.All {
		t.say("e_noted", "What", t.v.line(old))
		return nil
	}
	before, err := t.openTasks()
	if err != nil {
		return err
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	e.Action = rules.Did
	if old.Count == nil && e.Count != nil && e.Subject.Kind == rules.BatchKind {
		// The number that was asked for: answer as if it had been said at once.
		if e.Step == rules.Graft {
			e.ID, e.Said = id, old.Said
			return t.echoGraft(e)
		}
		e.ID = id
		return t.echoBatch(e)
	}
	what, was := upper(t.v.say("task", "Step", e.Step, "Subject", t.v.subject(e.Subject))), t.values(old, e)
	word := "e_amend"
	if was == orDash("") {
		word = "e_filled"
	}
	t.say(word, "What", what, "Old", was, "New", t.values(e, old))
	if e.Subject.Kind == rules.BatchKind {
		b, _, err := t.tx.Batch(t.crew.ID, e.Subject.Number())
		if err != nil {
			return err
		}
		if b.Ended && e.Count != nil && *e.Count == 0 {
			t.say("e_none", "Batch", t.v.head(e.Subject), "Past", t.v.say("past_"+string(e.Step)))
		}
	}
	return t.changed(before)
}

// values words what differs between two versions of a line.
func (t *talk) values(e, other rules.Entry) string {
	var parts []string
	if (e.Count == nil) != (other.Count == nil) || !equal(e.Count, other.Count) && e.Count != nil {
		parts = append(parts, fmt.Sprint(t.v.value(e.Count)))
	}
	if e.From != other.From {
		parts = append(parts, t.v.subject(rules.BreederSubject(e.From)))
	}
	if e.Into != other.Into {
		parts = append(parts, orDash(e.Into))
	}
	if e.Mark != other.Mark {
		parts = append(parts, orDash(e.Mark))
	}
	if !e.Happened.Equal(other.Happened) {
		parts = append(parts, t.v.at(e.Happened))
	}
	if e.Detail.AgeHi != nil && (other.Detail.AgeHi == nil || *e.Detail.AgeHi != *other.Detail.AgeHi) {
		parts = append(parts, t.v.say("ages_stated", "Ages", *e.Detail.AgeHi))
	}
	if e.Detail.All && !other.Detail.All {
		parts = append(parts, t.v.say("none_left"))
	}
	return orDash(joinList(parts))
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// fix corrects a count: of the message replied to, or the sender's own newest
// line with that count.
func (t *talk) fix(r *reading) error {
	var lines []store.Line
	if t.replied != nil && t.replied.Update != 0 {
		list, err := t.tx.UpdateLines(t.replied.Update)
		if err != nil {
			return err
		}
		for _, l := range list {
			if l.Action == rules.Amend {
				if l, _, err = t.tx.LineByID(t.crew.ID, l.Ref); err != nil {
					return err
				}
			}
			if cur, ok, err := t.current(l); err != nil {
				return err
			} else if ok {
				lines = append(lines, cur)
			}
		}
	} else {
		own, err := t.effectiveOwn(10)
		if err != nil {
			return err
		}
		lines = own
	}
	var first *store.Line
	for i := range lines {
		l := &lines[i]
		if l.Action != rules.Did || l.Count == nil || t.origin.Said.Sub(l.Said) > 48*time.Hour {
			continue
		}
		if first == nil {
			first = l
		}
		if r.old == nil || *l.Count == *r.old {
			return t.amendLine(l.ID, func(e *rules.Entry) { e.Count = r.count })
		}
	}
	switch {
	case first != nil:
		t.ask("r_fix_old", "Count", *first.Count, "Old", deref(r.old), "What", t.v.line(first.Entry))
	case r.addressed || r.old != nil:
		t.ask("r_fix_none")
	default:
		t.hush()
	}
	return nil
}

// undo takes back the sender's last message, or the one replied to.
func (t *talk) undo() error {
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
	lines, err := t.tx.LastLines(t.crew.ID, t.by.ID, 500)
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
		var same []store.Line
		for _, m := range lines[i:] {
			if m.Update == l.Update {
				same = append(same, m)
			}
		}
		if t.origin.Said.Sub(l.Said) > undoWithin {
			// Days later "undo" is seldom about that line.
			t.ask("ask_undo_old", "What", t.v.line(l.Entry), "When", l.Said)
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
	t.ask("r_undo_none")
	return nil
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
			t.ask("ask_undo_more", "Count", len(hanging), "What", t.v.line(lines[0].Entry))
			t.offer("b_undo_all", "undo|"+strings.Join(parts, ","))
			t.offer("b_no", "no")
			return nil
		}
	}
	before, err := t.openTasks()
	if err != nil {
		return err
	}
	var entries []rules.Entry
	var what []string
	for i := len(lines) - 1; i >= 0; i-- {
		e := lines[i].Entry
		what = append([]string{t.v.line(e)}, what...)
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
		t.say("e_undo_amend", "What", t.v.line(cur.Entry))
	} else {
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
	case rules.Confine:
		return e.Detail.Comb == base.ID || e.Detail.Occ == rules.Occ(base.ID) && e.Subject == base.Subject
	case rules.Add:
		return e.Subject == base.Subject && e.Step != rules.Add ||
			base.Subject.Kind == rules.BreederKind && e.From == base.Subject.Number() ||
			(base.Subject.Kind == rules.BuilderKind || base.Subject.Kind == rules.YardKind) && e.Into == base.Subject.Key && e.Step != rules.Add
	}
	return false
}
