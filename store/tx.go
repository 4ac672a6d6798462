package store

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"yardbell/rules"
)

// Tx is one unit of work at one time.
type Tx struct {
	ctx  context.Context                                            // of the statements
	over context.Context                                            // of the caller: nothing more is run once it ends
	stmt func(ctx context.Context, query string) (*sql.Stmt, error) // compiled
	db   *DB

	Now time.Time // read once by the caller

	// Since is the time from which pings are worth beginning: that of the message
	// at work, which may have waited in the chat while the service was away, or be ahead
	// of a clock that is behind.
	Since time.Time

	// Closed are the tasks that stopped being open in this transaction, so that what
	// the chat shows of them can be put right.
	Closed []rules.Task

	unshown map[crewTask]bool // tasks about which nothing stands in the chat

	gone error // of the disk: SQLite may have ended the transaction, and runs what comes alone

	scrub bool // what was overwritten is not to stay beside the file either

	writes bool
	models map[int64]ofTx // by crew, those that were used

	look      *Tx    // what this is a look at, so that nothing is written by it: see Look
	unwritten []Line // of it, oldest first
}

// Update runs fn in one immediate transaction at now and commits it, or rolls
// all of it back where fn returns an error, or where ctx ends between two statements.
func (d *DB) Update(ctx context.Context, now time.Time, fn func(*Tx) error) error {
	if err := d.w.take(ctx); err != nil {
		return err
	}
	defer d.w.give()
	// The driver would start a goroutine for every statement, to watch the context.
	over := ctx
	ctx = context.WithoutCancel(ctx)
	if err := d.w.begin(ctx); err != nil {
		return fileError(d.path, err)
	}
	t := &Tx{ctx: ctx, over: over, stmt: d.w.statement, db: d, writes: true, Now: now.UTC(), Since: now.UTC()}
	done := false
	defer func() {
		if !done { // or it panicked
			d.w.rollback(ctx)
		}
	}()
	if err := t.sameFile(); err != nil {
		return err
	}
	if err := fn(t); err != nil {
		return err
	}
	if err := t.alive(); err != nil {
		return err
	}
	if err := d.w.commit(ctx); err != nil {
		return fileError(d.path, err)
	}
	done = true
	t.publish()
	d.work.commits.Add(1)
	if t.scrub {
		// Old versions of rows stand in the gaps of pages and in the file beside. Writing
		// the whole file anew leaves none; who reads just now keeps the file beside a
		// while longer, until it is written over. What was to be done is done already.
		_, _ = d.w.conn.ExecContext(ctx, `VACUUM`)
		_, _ = d.w.conn.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`)
	}
	return nil
}

// View runs fn in one read transaction at now.
func (d *DB) View(ctx context.Context, now time.Time, fn func(*Tx) error) error {
	if err := d.reading.compile(ctx); err != nil {
		return fileError(d.path, err)
	}
	tx, err := d.r.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return fileError(d.path, err)
	}
	defer func() { _ = tx.Rollback() }() // after a commit this does nothing
	r := &reading{tx: tx, p: d.reading}
	if err := fn(&Tx{ctx: ctx, over: ctx, stmt: r.statement, db: d, Now: now.UTC(), Since: now.UTC()}); err != nil {
		return err
	}
	if err := tx.Commit(); err != nil {
		return fileError(d.path, err)
	}
	return nil
}

// alive gives the error after which nothing more is run, nor committed.
func (t *Tx) alive() error { return cmp.Or(t.gone, t.over.Err()) }

// statement is a query, compiled and about to be run.
func (t *Tx) statement(query string) (*sql.Stmt, error) {
	if err := t.alive(); err != nil {
		return nil, err
	}
	t.db.work.statements.Add(1)
	return t.stmt(t.ctx, query)
}

func (t *Tx) execute(query string, args []any) (sql.Result, error) {
	if t.look != nil {
		return nil, errLook
	}
	stmt, err := t.statement(query)
	if err != nil {
		return nil, err
	}
	return stmt.ExecContext(t.ctx, args...)
}

func (t *Tx) query(query string, args []any) (*sql.Rows, error) {
	stmt, err := t.statement(query)
	if err != nil {
		return nil, err
	}
	return stmt.QueryContext(t.ctx, args...)
}

func (t *Tx) exec(query string, args ...any) (int64, error) {
	res, err := t.execute(query, args)
	if err != nil {
		return 0, t.wrap(err)
	}
	return res.RowsAffected()
}

func (t *Tx) insert(query string, args ...any) (int64, error) {
	res, err := t.execute(query, args)
	if err != nil {
		return 0, t.wrap(err)
	}
	return res.LastInsertId()
}

func (t *Tx) wrap(err error) error {
	ends := endsTransaction(err)
	err = fileError(t.db.path, err)
	for ; ends && t != nil; t = t.look { // what is looked at ended as well
		if t.gone == nil {
			t.gone = err
		}
	}
	return err
}

// one scans a single row; found is false where there is none.
func (t *Tx) one(query string, args []any, dest ...any) (found bool, err error) {
	rows, err := t.query(query, args)
	if err != nil {
		return false, t.wrap(err)
	}
	defer func() { _ = rows.Close() }()
	if !rows.Next() {
		if err := rows.Err(); err != nil {
			return false, t.wrap(err)
		}
		return false, nil
	}
	t.db.work.rows.Add(1)
	if err := rows.Scan(dest...); err != nil {
		return false, fmt.Errorf("scan: %w", err)
	}
	return true, nil
}

// scanner is the row under the cursor.
type scanner = *sql.Rows

// all reads every row of a query through scan.
func all[T any](t *Tx, scan func(scanner) (T, error), query string, args ...any) ([]T, error) {
	rows, err := t.query(query, args)
	if err != nil {
		return nil, t.wrap(err)
	}
	defer func() { _ = rows.Close() }()
	var out []T
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, fmt.Errorf("scan: %w", err)
		}
		out = append(out, v)
	}
	t.db.work.rows.Add(int64(len(out)))
	if err := rows.Err(); err != nil {
		return nil, t.wrap(err)
	}
	return out, nil
}

// toMS and fromMS are the one encoding of instants: UTC milliseconds, 0 for none.
func toMS(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

func fromMS(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).UTC()
}

// instant scans an instant.
type instant struct{ t *time.Time }

func (i instant) Scan(v any) error {
	ms, ok := v.(int64)
	if !ok {
		return fmt.Errorf("instant is %T, not an integer", v)
	}
	*i.t = fromMS(ms)
	return nil
}

// jsonCol scans a JSON column.
type jsonCol struct{ v any }

func (j jsonCol) Scan(v any) error {
	s, ok := v.(string)
	if !ok {
		return fmt.Errorf("JSON column is %T, not text", v)
	}
	return json.Unmarshal([]byte(s), j.v)
}

func toJSON(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		// Only plain structs of ours come here.
		panic(err)
	}
	return string(b)
}
