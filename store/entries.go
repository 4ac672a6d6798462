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
	return all(t, scanLine, entryQuery+where, args...)
}

func (t *Tx) entries(where string, args ...any) ([]rules.Entry, error) {
	lines, err := t.lines(where+` ORDER BY e.id`, args...)
	out := make([]rules.Entry, len(lines))
	for i, l := range lines {
		out[i] = l.Entry
	}
	return out, err
}

// Append writes one line into the logbook, chained to the one before, and returns its
// number. The caller re-plans what it touches before the transaction ends.
func (t *Tx) Append(crew, update int64, by Member, message int64, raw string, e rules.Entry) (int64, error) {
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
	if _, err := t.shelvedExec(`INSERT INTO entries (`+chained+`, hash, salt, raw) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		append(row, hash, salt, raw)...); err != nil {
		return 0, err
	}
	if t.shelf != nil {
		t.shelf.head = &head{last + 1, hash}
	}
	e.ID, e.By = last+1, by.Name
	t.shelveLine(crew, storedEntry(e, detail))
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

// SubjectEntries are all entries about one subject, voids and amends among them.
func (t *Tx) SubjectEntries(crew int64, s rules.Subject) ([]rules.Entry, error) {
	return shelved(t, crew, linesSlot(s), func() ([]rules.Entry, error) { return t.entriesAbout(crew, s) })
}

// LookAtEntries gives them to be looked at only, and only until the next write.
func (t *Tx) LookAtEntries(crew int64, s rules.Subject) ([]rules.Entry, error) {
	return lookAt(t, crew, linesSlot(s), func() ([]rules.Entry, error) { return t.entriesAbout(crew, s) })
}

// entriesAbout reads them. A parameter alone on the right side would have SQLite compile
// the query anew for each kind, since there is an index for one kind alone.
func (t *Tx) entriesAbout(crew int64, s rules.Subject) ([]rules.Entry, error) {
	return t.entries(`e.crew_id = 0 + ? AND e.subject_kind = '' || ? AND e.subject_key = '' || ?`, crew, s.Kind, s.Key)
}

// shelveLine puts a line that was just written at the end of the lists it belongs to,
// as the file has it.
func (t *Tx) shelveLine(crew int64, e rules.Entry) {
	if t.shelf == nil {
		return
	}
	add := func(had []rules.Entry) []rules.Entry { return append(had, e) }
	reshelve(t, crew, linesSlot(e.Subject), add)
	switch e.Step {
	case rules.Dearth, rules.Flow, rules.Drones:
		reshelve(t, crew, groundSlot, add)
	}
	switch e.Subject.Kind {
	case "":
		t.unshelve(crew, settingsSlot)
	case rules.OrderKind:
		reshelve(t, crew, ordersSlot, add)
	}
	reshelve(t, crew, highestSlot(e.Subject.Kind), func(n []int) []int { return []int{max(n[0], e.Subject.Number())} })
}

// UpdateLines are the entries that one update logged.
func (t *Tx) UpdateLines(update int64) ([]Line, error) {
	return t.lines(`e.update_row = ? ORDER BY e.id`, update)
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
	return t.lines(`e.crew_id = 0 + ? AND e.message_id = ? AND e.message_id <> 0 ORDER BY e.id`, crew, message)
}

// LineByID reads one entry.
func (t *Tx) LineByID(crew, id int64) (Line, bool, error) {
	list, err := t.lines(`e.crew_id = 0 + ? AND e.id = ?`, crew, id)
	if err != nil || len(list) == 0 {
		return Line{}, false, err
	}
	return list[0], true, nil
}

// RefLines are the voids and amends of one entry.
func (t *Tx) RefLines(crew, id int64) ([]Line, error) {
	return t.lines(`e.crew_id = 0 + ? AND e.ref = ? ORDER BY e.id`, crew, id)
}

// LastLines are a member's newest entries, newest first.
func (t *Tx) LastLines(crew, member int64, limit int) ([]Line, error) {
	return t.lines(`e.crew_id = 0 + ? AND e.member_id = ? ORDER BY e.id DESC LIMIT ?`, crew, member, limit)
}

// Logbook is the whole logbook of a crew, oldest first.
func (t *Tx) Logbook(crew int64) ([]Line, error) {
	return t.lines(`e.crew_id = 0 + ? ORDER BY e.id`, crew)
}

// LastBatchNumber is the highest batch number ever given out; numbers are not
// used again, so that a reply to an old message never means another batch.
func (t *Tx) LastBatchNumber(crew int64) (n int, err error) { return t.highest(crew, rules.BatchKind) }

// highest is the highest number that any line gives to a subject of a kind, 0 for none.
func (t *Tx) highest(crew int64, kind rules.Kind) (int, error) {
	list, err := shelved(t, crew, highestSlot(kind), func() ([]int, error) {
		n := make([]int, 1)
		_, err := t.one(`SELECT coalesce(max(cast(subject_key AS INTEGER)), 0) FROM entries
			WHERE crew_id = 0 + ? AND subject_kind = '' || ?`, []any{crew, kind}, &n[0])
		return n, err
	})
	if err != nil {
		return 0, err
	}
	return list[0], nil
}

// groundEntries are the lines about the honey flow and about drone comb. Each half has
// an index of its own.
func (t *Tx) groundEntries(crew int64) ([]rules.Entry, error) {
	return shelved(t, crew, groundSlot, func() ([]rules.Entry, error) {
		return t.entries(`e.id IN (SELECT id FROM entries WHERE crew_id = 0 + ? AND step IN ('dearth', 'flow')
			UNION ALL SELECT id FROM entries WHERE crew_id = 0 + ? AND subject_kind IN ('', 'yard', 'builder') AND step = 'drones')`, crew, crew)
	})
}

// subjects lists every subject of a kind that the logbook mentions.
func (t *Tx) subjects(crew int64, kind rules.Kind) ([]rules.Subject, error) {
	return all(t, func(s scanner) (rules.Subject, error) {
		sub := rules.Subject{Kind: kind}
		err := s.Scan(&sub.Key)
		return sub, err
	}, `SELECT DISTINCT subject_key FROM entries WHERE crew_id = 0 + ? AND subject_kind = '' || ? ORDER BY subject_key`, crew, kind)
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
