package store

import (
	"context"
	"database/sql/driver"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

func nothing(*Tx) error { return nil }

// A closed file is refused, however often it is written to.
func TestWriteAfterClose(t *testing.T) {
	for name, before := range map[string]func(*DB) error{
		"written before": func(db *DB) error { return db.Update(ctx, start, nothing) },
		"never written":  func(*DB) error { return nil },
	} {
		db := fresh(t)
		require.NoError(t, before(db))
		require.NoError(t, db.Close())
		for range 3 {
			require.Error(t, db.Update(ctx, start, nothing), name)
		}
	}
}

// Where the driver gave the connection up, another takes its place. Its count of changes
// by others is its own and may be the same number, though the file was changed meanwhile.
func TestWriterLosesItsConnection(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	by := func() (name string) {
		d.do(func(tx *Tx) error {
			list, err := tx.SubjectEntries(d.crew.ID, rules.BreederSubject(7))
			require.NoError(t, err)
			name = list[0].By
			return nil
		})
		return name
	}
	require.Equal(t, "Wren", by())
	require.ErrorIs(t, d.db.w.conn.Raw(func(any) error { return driver.ErrBadConn }), driver.ErrBadConn)
	raw(t, d.db.path, `UPDATE members SET name = 'Finch'`)
	assert.Equal(t, "Finch", by())
	require.NoError(t, d.db.CheckModels(ctx, start))
}

// SQLite ends the transaction by itself after some errors of the disk. Whoever goes on
// all the same saves nothing, and the error is that of the disk.
func TestNothingIsSavedBesideATransaction(t *testing.T) {
	d := newDiary(t, fresh(t))
	var pages int
	require.NoError(t, d.db.w.conn.QueryRowContext(ctx, `PRAGMA page_count`).Scan(&pages))
	_, err := d.db.w.conn.ExecContext(ctx, fmt.Sprintf(`PRAGMA max_page_count = %d`, pages+3))
	require.NoError(t, err)
	long := Message{Crew: d.crew.ID, Key: "k", Kind: "reply", Text: strings.Repeat("a", 100_000)}
	for name, fails := range map[string]func(*Tx) error{
		"plain": func(tx *Tx) error { return tx.Queue(long) },
	} {
		err = d.db.Update(ctx, start, func(tx *Tx) error {
			if err := tx.SetOffset("x", 5); err != nil {
				return err
			}
			require.ErrorContains(t, fails(tx), "the disk is full", name)
			_ = tx.SetOffset("x", 9)
			return nil
		})
		require.ErrorContains(t, err, "the disk is full", name)
		d.do(func(tx *Tx) error {
			at, err := tx.Offset("x")
			assert.Zero(t, at, name)
			return err
		})
	}
	require.NoError(t, d.db.CheckModels(ctx, start))
}

// A transaction whose context ended is rolled back, also where nobody minded.
func TestContextEndsInATransaction(t *testing.T) {
	d := newDiary(t, fresh(t))
	over, end := context.WithCancel(ctx)
	err := d.db.Update(over, start, func(tx *Tx) error {
		err := tx.SetOffset("x", 7)
		end()
		return err
	})
	require.ErrorIs(t, err, context.Canceled)
	d.do(func(tx *Tx) error {
		at, err := tx.Offset("x")
		assert.Zero(t, at)
		return err
	})
}
