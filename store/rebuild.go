package store

import (
	"fmt"
	"strings"
)

// derivedTables in an order that Rebuild may empty them.
var derivedTables = []string{"breeders", "combs", "batches", "builders", "yards", "tasks"}

// Rebuild empties the derived tables and derives them anew from the logbook, in
// one transaction. Messages already sent stay; queued pings are brought in line.
func (t *Tx) Rebuild() error {
	for _, table := range derivedTables {
		if _, err := t.exec(`DELETE FROM ` + table); err != nil {
			return err
		}
	}
	crews, err := t.Crews()
	if err != nil {
		return err
	}
	for _, c := range crews {
		r, err := t.replan(c.ID)
		if err != nil {
			return err
		}
		if err := r.everything(); err != nil {
			return err
		}
	}
	return nil
}

// Dump writes every derived row as text, table by table in key order, and the
// pings still queued, for comparing two states byte for byte.
func (t *Tx) Dump() (string, error) {
	var b strings.Builder
	for _, table := range derivedTables {
		if err := t.dump(&b, table, `SELECT * FROM `+table+` ORDER BY 1, 2, 3`); err != nil {
			return "", err
		}
	}
	err := t.dump(&b, "queued", `SELECT crew_id, key, kind, ping, fire_at, due_at, priority FROM outbox
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
