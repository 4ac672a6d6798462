package store

import (
	"fmt"
	"strings"
)

// Rebuild empties the rows of tasks and derives them anew from the logbook, in one
// transaction. Messages already sent stay; queued pings are brought in line.
func (t *Tx) Rebuild() error {
	if _, err := t.exec(`DELETE FROM tasks`); err != nil {
		return err
	}
	crews, err := t.Crews()
	if err != nil {
		return err
	}
	for _, c := range crews {
		if err := t.replanAll(c.ID); err != nil {
			return err
		}
	}
	return nil
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
	}
	if err := t.dump(&b, "tasks", `SELECT * FROM tasks ORDER BY 1, 2, 3`); err != nil {
		return "", err
	}
	err = t.dump(&b, "queued", `SELECT crew_id, key, kind, ping, fire_at, due_at, priority FROM outbox
		WHERE state = 'queued' AND ping <> '' ORDER BY crew_id, key`)
	return b.String(), err
}

func (t *Tx) dump(b *strings.Builder, name, query string) error {
	rows, err := t.query(query, nil)
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
