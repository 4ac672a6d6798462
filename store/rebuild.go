package store

import (
	"fmt"
	"strings"
)

// Rebuild derives the rows of tasks and the queued pings anew from the logbook, in one
// transaction, and gives how many come out otherwise. Messages already sent stay. It goes
// crew by crew: a backup, which is proved so, takes no more memory for many crews than for
// one.
func (t *Tx) Rebuild() (differ int, err error) {
	crews, err := t.Crews()
	if err != nil {
		return 0, err
	}
	for _, c := range crews {
		n, err := t.rebuild(c.ID)
		if err != nil {
			return 0, err
		}
		differ += n
	}
	return differ, nil
}

func (t *Tx) rebuild(crew int64) (differ int, err error) {
	_, used := t.models[crew]
	var before, after strings.Builder
	if err := t.dumpRows(&before, crew); err != nil {
		return 0, err
	}
	if _, err := t.exec(`DELETE FROM tasks WHERE crew_id = 0 + ?`, crew); err != nil {
		return 0, err
	}
	if err := t.replanAll(crew); err != nil {
		return 0, err
	}
	if err := t.dumpRows(&after, crew); err != nil {
		return 0, err
	}
	if !used { // no line was written: whatever is kept of the crew is as good
		delete(t.models, crew)
	}
	t.unshown = nil
	return differing(before.String(), after.String()), nil
}

// Dump writes every crew's model, the rows of tasks and the pings still queued as text,
// for comparing two states byte for byte.
func (t *Tx) Dump() (string, error) {
	var b strings.Builder
	crews, err := t.Crews()
	if err != nil {
		return "", err
	}
	for _, c := range crews {
		m, err := t.Model(c.ID)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&b, "== crew %d\n%s", c.ID, m.Describe())
		if err := t.dumpRows(&b, c.ID); err != nil {
			return "", err
		}
	}
	return b.String(), nil
}

func (t *Tx) dumpRows(b *strings.Builder, crew int64) error {
	if err := t.dump(b, "tasks", `SELECT * FROM tasks WHERE crew_id = 0 + ? ORDER BY key`, crew); err != nil {
		return err
	}
	return t.dump(b, "queued", `SELECT crew_id, key, kind, ping, fire_at, due_at, priority FROM outbox
		WHERE crew_id = 0 + ? AND state = 'queued' AND ping <> '' ORDER BY key`, crew)
}

func (t *Tx) dump(b *strings.Builder, name, query string, crew int64) error {
	rows, err := t.query(query, []any{crew})
	if err != nil {
		return t.wrap(err)
	}
	defer func() { _ = rows.Close() }()
	cols, err := rows.Columns()
	if err != nil {
		return err
	}
	fmt.Fprintf(b, "== %s: %s\n", name, strings.Join(cols, "|"))
	for rows.Next() {
		vals := make([]any, len(cols))
		ptrs := make([]any, len(cols))
		for i := range vals {
			ptrs[i] = &vals[i]
		}
		if err := rows.Scan(ptrs...); err != nil {
			return err
		}
		for i, v := range vals {
			if i > 0 {
				b.WriteByte('|')
			}
			fmt.Fprintf(b, "%v", v)
		}
		b.WriteByte('\n')
	}
	return rows.Err()
}

// differing counts the rows of two dumps that only one of them has, a row that changed
// counted once.
func differing(a, b string) int {
	seen, n, left := map[string]int{}, 0, 0
	for _, l := range strings.Split(a, "\n") {
		seen[l]++
		left++
	}
	for _, l := range strings.Split(b, "\n") {
		if seen[l] == 0 {
			n++
			continue
		}
		seen[l]--
		left--
	}
	return max(n, left)
}
