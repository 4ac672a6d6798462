package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// The pragmas hold on every connection of both pools, not just on the first.
func TestPragmasOnEveryConnection(t *testing.T) {
	db := fresh(t)
	read := func(c *sql.Conn) map[string]string {
		got := map[string]string{}
		for _, p := range []string{"journal_mode", "synchronous", "foreign_keys", "busy_timeout", "query_only", "application_id"} {
			var v string
			require.NoError(t, c.QueryRowContext(ctx, "PRAGMA "+p).Scan(&v))
			got[p] = v
		}
		return got
	}
	want := map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000", "query_only": "0", "application_id": "1497525356"}
	assert.Equal(t, want, read(db.w.conn), "the writer")
	want["query_only"] = "1"
	for range 4 {
		c, err := db.r.Conn(ctx)
		require.NoError(t, err)
		assert.Equal(t, want, read(c), "a reader")
		defer func() { require.NoError(t, c.Close()) }()
	}
}

// Two handles as two processes would hold them, four writers that read before
// they write: a transaction that began by reading would fail as locked.
func TestReadThenWriteLosesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crew.db")
	handles := []*DB{openFile(t, path), openFile(t, path)}
	var wg sync.WaitGroup
	failed := make(chan error, 100)
	for g := range 4 {
		wg.Go(func() {
			for range 25 {
				err := handles[g%2].Update(ctx, start, func(tx *Tx) error {
					n, err := tx.Offset("count")
					if err != nil {
						return err
					}
					return tx.SetOffset("count", n+1)
				})
				if err != nil {
					failed <- err
				}
			}
		})
	}
	wg.Wait()
	close(failed)
	for err := range failed {
		require.NoError(t, err)
	}
	require.NoError(t, handles[0].View(ctx, start, func(tx *Tx) error {
		n, err := tx.Offset("count")
		assert.EqualValues(t, 100, n)
		return err
	}))
}

func TestLogbookIsAppendOnly(t *testing.T) {
	db := fresh(t)
	d := newDiary(t, db)
	id := d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	for _, q := range []string{`UPDATE entries SET count = 3 WHERE id = ?`, `DELETE FROM entries WHERE id = ?`, `INSERT OR REPLACE INTO entries SELECT * FROM entries WHERE id = ?`} {
		err := db.Update(ctx, start, func(tx *Tx) error { _, err := tx.exec(q, id); return err })
		assert.Error(t, err, q)
	}
	require.NoError(t, db.View(ctx, start, func(tx *Tx) error {
		l, found, err := tx.LineByID(d.crew.ID, id)
		assert.True(t, found)
		assert.Nil(t, l.Count)
		assert.Equal(t, "as typed", l.Raw)
		return err
	}))
}

// What the schema itself refuses, whatever the code above it does.
func TestSchemaRefuses(t *testing.T) {
	db := fresh(t)
	d := newDiary(t, db)
	d.log(rules.Entry{Step: rules.Confine, Subject: rules.BreederSubject(7)})
	for what, q := range map[string]string{
		"a second crew in one chat":          `INSERT INTO crews (source, chat_id, created_at) VALUES ('test', 1, 0)`,
		"a member twice":                     `INSERT INTO members (crew_id, user_key, name) VALUES (1, 'wren', 'Other')`,
		"an update twice":                    `INSERT INTO updates (source, update_id, crew_id, member_id, kind, message_id, said_at, read_at) VALUES ('test', 1, 1, 1, 'message', 1, 0, 0)`,
		"a message key twice":                `INSERT INTO outbox (crew_id, key, kind, fire_at, due_at, priority, state) SELECT crew_id, key, kind, 0, 0, 0, 'queued' FROM outbox LIMIT 1`,
		"a task without a reason":            `UPDATE tasks SET reason = ''`,
		"a window that ends before it began": `UPDATE tasks SET latest = earliest - 1`,
		"a negative count":                   `INSERT INTO entries (crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, raw, message_id) VALUES (1, 1, 1, 0, 0, 'did', 'graft', 'batch', '1', -1, '', 0)`,
		"a void of nothing":                  `INSERT INTO entries (crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, raw, message_id) VALUES (1, 1, 1, 0, 0, 'void', 'graft', 'batch', '1', '', 0)`,
		"a void of a line that is not there": `INSERT INTO entries (crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, ref, raw, message_id) VALUES (1, 1, 1, 0, 0, 'void', 'graft', 'batch', '1', 999, '', 0)`,
		"a line of a crew that is not there": `INSERT INTO entries (crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, raw, message_id) VALUES (99, 1, 1, 0, 0, 'did', 'graft', 'batch', '1', '', 0)`,
		"a state that is none":               `UPDATE outbox SET state = 'lost'`,
		"a change of the logbook":            `UPDATE entries SET raw = ''`,
	} {
		assert.Error(t, db.Update(ctx, start, func(tx *Tx) error { _, err := tx.exec(q); return err }), what)
	}
}

func TestUpdateIsTakenOnce(t *testing.T) {
	db := fresh(t)
	d := newDiary(t, db)
	d.do(func(tx *Tx) error {
		m, err := tx.Member(d.crew, "wren", "Wren")
		require.NoError(t, err)
		u := Update{Source: "chat", UpdateID: 41, Crew: d.crew.ID, Member: m.ID, Kind: "message", Message: 5, Text: "confine 7", Said: start}
		row, isNew, err := tx.MarkUpdate(u)
		require.NoError(t, err)
		assert.True(t, isNew)
		again := u
		again.Text = "something else"
		zero, isNew, err := tx.MarkUpdate(again)
		require.NoError(t, err)
		assert.False(t, isNew)
		assert.Zero(t, zero)
		got, found, err := tx.UpdateRow(row)
		require.NoError(t, err)
		assert.True(t, found)
		assert.Equal(t, "confine 7", got.Text)
		require.NoError(t, tx.Settle(row, "silent", false))
		got, _, err = tx.UpdateRow(row)
		assert.Empty(t, got.Text, "what was not for the bot is not kept")
		return err
	})
}

// A transaction that fails leaves nothing, its update mark among it.
func TestFailedUpdateLeavesNothing(t *testing.T) {
	db := fresh(t)
	d := newDiary(t, db)
	before := d.dump()
	for _, how := range []func(){
		func() {
			err := db.Update(ctx, start, func(tx *Tx) error {
				require.NoError(t, tx.SetOffset("chat", 9))
				return sql.ErrConnDone
			})
			require.ErrorIs(t, err, sql.ErrConnDone)
		},
		func() {
			_ = db.Update(ctx, start, func(tx *Tx) error {
				require.NoError(t, tx.SetOffset("chat", 9))
				panic("at the worst moment")
			})
		},
	} {
		func() {
			defer func() { _ = recover() }()
			how()
		}()
	}
	require.NoError(t, db.View(ctx, start, func(tx *Tx) error {
		n, err := tx.Offset("chat")
		assert.Zero(t, n)
		return err
	}))
	assert.Equal(t, before, d.dump())
}

// A look shows lines that are not written, with the numbers and what follows from them, and
// writes nothing.
func TestALookWritesNothing(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	before := d.dump()
	d.do(func(tx *Tx) error {
		by, err := tx.Member(d.crew, "wren", "Wren")
		require.NoError(t, err)
		eight, nine := rules.Entry{Action: rules.Did, Step: rules.Add, Subject: rules.BreederSubject(8)}, rules.Entry{Action: rules.Did, Step: rules.Add, Subject: rules.BreederSubject(9)}
		one, done, err := tx.Look().With(d.crew.ID, 1, by, 50, "add breeder 8", eight)
		require.NoError(t, err)
		two, more, err := one.With(d.crew.ID, 1, by, 50, "add breeder 9", nine)
		require.NoError(t, err)
		assert.Equal(t, done[0].ID+1, more[0].ID)
		for tx, want := range map[*Tx]int{tx: 1, one: 2, two: 3} {
			list, err := tx.Breeders(d.crew.ID)
			require.NoError(t, err)
			assert.Len(t, list, want)
			book, err := tx.Logbook(d.crew.ID)
			require.NoError(t, err)
			newest, err := tx.LastLines(d.crew.ID, by.ID, 1)
			require.NoError(t, err)
			assert.Equal(t, book[len(book)-1], newest[0])
		}
		l, found, err := two.LineByID(d.crew.ID, done[0].ID)
		assert.True(t, found)
		assert.Equal(t, "add breeder 8", l.Raw)
		require.NoError(t, err)
		of, err := two.UpdateLines(1)
		assert.Len(t, of, 3)
		require.NoError(t, err)
		require.ErrorIs(t, two.SetOffset("x", 1), errLook)
		id, err := tx.Append(d.crew.ID, 1, by, 50, "add breeder 8", eight)
		assert.Equal(t, done[0].ID, id, "it has the number that was foreseen")
		require.NoError(t, err)
		return tx.Replan(d.crew.ID)
	})
	assert.NotEqual(t, before, d.dump())
	require.NoError(t, d.db.CheckModels(ctx, d.now))
}

func TestInstants(t *testing.T) {
	assert.Zero(t, toMS(time.Time{}))
	assert.True(t, fromMS(0).IsZero())
	z := time.FixedZone("", -5*3600)
	at := time.Date(2031, 5, 8, 19, 0, 0, 123_000_000, z)
	assert.Equal(t, at.UTC(), fromMS(toMS(at)))
	assert.Equal(t, time.UTC, fromMS(toMS(at)).Location())
	early := time.Date(1969, 7, 20, 20, 17, 40, 0, time.UTC)
	assert.Equal(t, early, fromMS(toMS(early)))
	for _, bad := range []any{nil, "2031-05-08", 1.5, []byte("1")} {
		var got time.Time
		assert.Error(t, instant{&got}.Scan(bad), "%v", bad)
	}
	for _, bad := range []any{nil, int64(1), "{", ""} {
		var got map[string]string
		assert.Error(t, jsonCol{&got}.Scan(bad), "%v", bad)
	}
}

// A row that somebody wrote past the program is an error, never a zero value.
func TestBadRowsAreErrors(t *testing.T) {
	for what, q := range map[string]string{
		"text for an instant": `UPDATE tasks SET best = 'soon', latest = 'soon'`,
		"text for a number":   `UPDATE tasks SET weight = 'heavy'`,
	} {
		t.Run(what, func(t *testing.T) {
			db := fresh(t)
			d := newDiary(t, db)
			d.log(rules.Entry{Step: rules.Confine, Subject: rules.BreederSubject(7)})
			d.do(func(tx *Tx) error { _, err := tx.exec(q); return err })
			err := db.View(ctx, start, func(tx *Tx) error { _, err := tx.subjectRows(d.crew.ID, rules.BreederSubject(7)); return err })
			require.Error(t, err)
			assert.Contains(t, err.Error(), "scan")
		})
	}
}

func schema(t *testing.T, db *DB) string {
	t.Helper()
	rows, err := db.r.QueryContext(ctx, `SELECT type || ' ' || name || ': ' || coalesce(sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' AND name <> 'goose_db_version' ORDER BY 1`)
	require.NoError(t, err)
	defer func() { _ = rows.Close() }()
	var out []string
	for rows.Next() {
		var s string
		require.NoError(t, rows.Scan(&s))
		out = append(out, s)
	}
	require.NoError(t, rows.Err())
	return strings.Join(out, "\n")
}

// On a disk that is full at the start even the file that SQLite puts beside finds no
// room; that is said, and not that the disk is broken.
func TestOpenOnAFullDisk(t *testing.T) {
	made := filepath.Join(t.TempDir(), "crew.db")
	require.NoError(t, openFile(t, made).Close())
	b, err := os.ReadFile(made)
	require.NoError(t, err)
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, fmt.Sprintf("size=%d", len(b)+8192)); err != nil {
		t.Skip("a small file system cannot be made here: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	path := filepath.Join(dir, "crew.db")
	require.NoError(t, os.WriteFile(path, b, 0o600))
	_, err = Open(ctx, path, Options{})
	require.ErrorContains(t, err, "the disk is full")
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, b, after)
}

// What ended because it was told to is told apart from what failed, also where both did.
func TestInterrupted(t *testing.T) {
	stopped, stop := context.WithCancel(ctx)
	stop()
	_, err := Open(stopped, filepath.Join(t.TempDir(), "crew.db"), Options{})
	require.Error(t, err)
	assert.True(t, Interrupted(err), "%v", err)
	wrapped := fmt.Errorf("migrate: %w", errors.Join(context.Canceled, sql.ErrTxDone))
	assert.True(t, Interrupted(wrapped))
	for _, err := range []error{nil, sql.ErrTxDone, &FileError{"x", "is damaged"}, errors.Join(wrapped, &FileError{"x", "is damaged"}),
		fmt.Errorf("%w, and %w", context.Canceled, os.ErrPermission), context.DeadlineExceeded} {
		assert.False(t, Interrupted(err), "%v", err)
	}
}
