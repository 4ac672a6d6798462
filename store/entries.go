package store

import (
	"cmp"
	"slices"

	"yardbell/rules"
)

// Line is a logbook entry with where it came from.
type Line struct {
	rules.Entry
	Crew    int64
	Update  int64 // row of the update that brought it
	Member  int64
	Message int64 // chat message
	Raw     string
}

const entryQuery = `SELECT e.id, e.said_at, e.happened_at, m.name, e.action, e.step, e.subject_kind, e.subject_key,
	e.count, e.of, e.from_breeder, e.into_place, e.mark, e.detail, coalesce(e.ref, 0),
	e.crew_id, e.update_row, e.member_id, e.message_id, e.raw
	FROM entries e JOIN members m ON m.id = e.member_id WHERE `

func scanLine(s scanner) (l Line, err error) {
	err = s.Scan(&l.ID, instant{&l.Said}, instant{&l.Happened}, &l.By, &l.Action, &l.Step, &l.Subject.Kind, &l.Subject.Key,
		&l.Count, &l.Of, &l.From, &l.Into, &l.Mark, jsonCol{&l.Detail}, &l.Ref,
		&l.Crew, &l.Update, &l.Member, &l.Message, &l.Raw)
	return l, err
}

func (t *Tx) lines(where string, args ...any) ([]Line, error) {
	list, err := all(t, scanLine, entryQuery+where, args...)
	if err != nil {
		return nil, err
	}
	names := map[int64]string{}
	for i := range list {
		l := &list[i]
		id := about(l.Entry)
		if id == 0 {
			continue
		}
		if _, known := names[id]; !known {
			name := ""
			if _, err := t.one(`SELECT name FROM members WHERE id = ? AND crew_id = 0 + ?`, []any{id, l.Crew}, &name); err != nil {
				return nil, err
			}
			names[id] = name
		}
		l.Whom = names[id]
	}
	return list, nil
}

// about is the member that a line is about, 0 for none. The line keeps the number alone, so
// that whoever is forgotten goes out of it with the row of the member.
func about(e rules.Entry) int64 {
	if e.Subject.Kind == rules.MemberKind {
		return int64(e.Subject.Number())
	}
	return e.Detail.Member
}

// Append writes one line into the logbook, chained to the one before, and returns its
// number. The caller re-plans what it touches before the transaction ends.
func (t *Tx) Append(crew, update int64, by Member, message int64, raw string, e rules.Entry) (int64, error) {
	m, err := t.ownModel(crew)
	if err != nil {
		return 0, err
	}
	last, before, err := t.newestLine()
	if err != nil {
		return 0, err
	}
	salt, err := newSalt()
	if err != nil {
		return 0, err
	}
	detail := toJSON(e.Detail)
	_, reason := splitReason(detail)
	words := wordsHash(salt, raw, reason)
	row := []any{last + 1, crew, update, by.ID, toMS(e.Said), toMS(e.Happened), string(e.Action), string(e.Step), string(e.Subject.Kind), e.Subject.Key,
		orNull(e.Count), orNull(e.Of), int64(e.From), e.Into, e.Mark, detail, any(nil), message, words}
	if e.Ref != 0 {
		row[16] = e.Ref
	}
	hash := link(before, row)
	if _, err := t.exec(`INSERT INTO entries (`+chained+`, hash, salt, raw) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		append(row, hash, salt, raw)...); err != nil {
		return 0, err
	}
	e.ID, e.By = last+1, by.Name
	m.Apply(storedEntry(e, detail))
	return e.ID, nil
}

// storedEntry is an entry as its row will read.
func storedEntry(e rules.Entry, detail string) rules.Entry {
	e.Said, e.Happened = fromMS(toMS(e.Said)), fromMS(toMS(e.Happened))
	e.Count, e.Of = clone(e.Count), clone(e.Of)
	e.Detail = rules.Detail{}
	if err := (jsonCol{&e.Detail}).Scan(detail); err != nil {
		panic(err) // it was written a moment ago
	}
	return e
}

// clone is a number that nobody else changes.
func clone(n *int) *int {
	if n == nil {
		return nil
	}
	own := *n
	return &own
}

// orNull is a number that may be missing, as the database keeps it.
func orNull(n *int) any {
	if n == nil {
		return nil
	}
	return int64(*n)
}

// SubjectEntries are all entries about one subject, voids and amends among them, to be
// looked at only.
func (t *Tx) SubjectEntries(crew int64, s rules.Subject) ([]rules.Entry, error) {
	m, err := t.atHand(crew)
	if err != nil {
		return nil, err
	}
	if m == nil {
		return t.entries(`e.crew_id = 0 + ? AND e.subject_kind = '' || ? AND e.subject_key = '' || ?`, crew, s.Kind, s.Key)
	}
	return m.Entries(s), nil
}

// UpdateLines are the entries that one update logged.
func (t *Tx) UpdateLines(update int64) ([]Line, error) {
	list, err := t.lines(`e.update_row = ? ORDER BY e.id`, update)
	return t.withUnwritten(list, err, func(l Line) bool { return l.Update == update })
}

// UpdatesLines are the entries that some updates logged, in their order.
func (t *Tx) UpdatesLines(updates []int64) (list []Line, err error) {
	err = manyRows(updates, 1, func(id int64) []any { return []any{id} }, func(values string, args []any) error {
		more, err := t.lines(`e.update_row IN (VALUES `+values+`)`, args...)
		list = append(list, more...)
		return err
	})
	slices.SortFunc(list, func(a, b Line) int { return cmp.Compare(a.ID, b.ID) })
	return list, err
}

// MessageLines are the entries logged from one chat message or its edits.
func (t *Tx) MessageLines(crew, message int64) ([]Line, error) {
	list, err := t.lines(`e.crew_id = 0 + ? AND e.message_id = ? AND e.message_id <> 0 ORDER BY e.id`, crew, message)
	return t.withUnwritten(list, err, func(l Line) bool { return l.Crew == crew && l.Message == message && message != 0 })
}

// LineByID reads one entry.
func (t *Tx) LineByID(crew, id int64) (Line, bool, error) {
	list, err := t.lines(`e.crew_id = 0 + ? AND e.id = ?`, crew, id)
	list, err = t.withUnwritten(list, err, func(l Line) bool { return l.Crew == crew && l.ID == id })
	if err != nil || len(list) == 0 {
		return Line{}, false, err
	}
	return list[0], true, nil
}

// RefLines are the voids and amends of one entry.
func (t *Tx) RefLines(crew, id int64) ([]Line, error) {
	list, err := t.lines(`e.crew_id = 0 + ? AND e.ref = ? ORDER BY e.id`, crew, id)
	return t.withUnwritten(list, err, func(l Line) bool { return l.Crew == crew && l.Ref == id })
}

// LastLines are a member's newest entries, newest first; the crew's for member 0.
func (t *Tx) LastLines(crew, member int64, limit int) ([]Line, error) {
	of, args := `e.crew_id = 0 + ?`, []any{crew}
	if member != 0 {
		of, args = of+` AND e.member_id = ?`, append(args, member)
	}
	written, err := t.lines(of+` ORDER BY e.id DESC LIMIT ?`, append(args, limit)...)
	slices.Reverse(written)
	list, err := t.withUnwritten(written, err, func(l Line) bool { return l.Crew == crew && (member == 0 || l.Member == member) })
	slices.Reverse(list)
	return list[:min(len(list), limit)], err
}

// Logbook is the whole logbook of a crew, oldest first.
func (t *Tx) Logbook(crew int64) ([]Line, error) {
	list, err := t.lines(`e.crew_id = 0 + ? ORDER BY e.id`, crew)
	return t.withUnwritten(list, err, func(l Line) bool { return l.Crew == crew })
}

// CountLines is how many lines the logbook of a crew has, of all crews for 0.
func (t *Tx) CountLines(crew int64) (n int, err error) {
	if crew == 0 { // lines are numbered without a gap and never go
		_, err = t.one(`SELECT coalesce(max(id), 0) FROM entries`, nil, &n)
		return n, err
	}
	_, err = t.one(`SELECT count(*) FROM entries WHERE crew_id = 0 + ?`, []any{crew}, &n)
	return n, err
}
