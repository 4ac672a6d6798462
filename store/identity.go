package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
)

// This file tells databases apart. Names of files do not: two crews may both call theirs
// crew.db, and keep the backups of both in one folder.

// Identity is what this database and its backups carry, and no other.
func (t *Tx) Identity() (id string, err error) {
	_, err = t.one(`SELECT id FROM identity`, nil, &id)
	return id, err
}

// identity of the file.
func (d *DB) identity(ctx context.Context) (id string, err error) {
	err = d.View(ctx, fromMS(0), func(tx *Tx) (err error) {
		id, err = tx.Identity()
		return err
	})
	return id, err
}

// origin is what a file says of where it comes from.
type origin struct {
	id   string // "" in a file from before there were identities
	line int64  // the newest of the logbook, 0 for none
	hash []byte // its hash, on which all lines before it rest
}

// originOf reads a file that nobody writes to, and leaves it as it is; ok is false where
// it is none of ours, cannot be read, or is open somewhere.
func originOf(ctx context.Context, path string) (o origin, ok bool) {
	head, err := header(path)
	if err != nil || head == nil || binary.BigEndian.Uint32(head[68:]) != applicationID {
		return o, false
	}
	for _, end := range sideFiles {
		if exists(path + end) {
			return o, false
		}
	}
	db, err := sql.Open("sqlite", dsn(path, "&mode=ro&immutable=1"))
	if err != nil {
		return o, false
	}
	defer func() { _ = db.Close() }()
	db.SetMaxOpenConns(1)
	var has bool
	if err := db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema WHERE name = 'identity'`).Scan(&has); err != nil {
		return o, false
	}
	if has {
		if err := db.QueryRowContext(ctx, `SELECT id FROM identity`).Scan(&o.id); err != nil {
			return o, false
		}
	}
	err = db.QueryRowContext(ctx, `SELECT coalesce(max(id), 0), coalesce((SELECT hash FROM entries ORDER BY id DESC LIMIT 1), x'') FROM entries`).Scan(&o.line, &o.hash)
	return o, err == nil
}

// copied reports whether all that a file has stands in this database: it carries the same
// identity, and its newest line is one of ours, with the same hash. So one that was put
// back to an earlier state, or a copy of it that went its own way, removes no backup with
// lines that it lacks. In a file from before there were identities the line tells alone.
func (t *Tx) copied(o origin) (bool, error) {
	id, err := t.Identity()
	if err != nil || o.id != "" && o.id != id {
		return false, err
	}
	if o.line == 0 {
		return o.id != "", nil
	}
	var hash []byte
	found, err := t.one(`SELECT hash FROM entries WHERE id = ?`, []any{o.line}, &hash)
	return found && len(hash) > 0 && bytes.Equal(hash, o.hash), err
}
