package store

import (
	"context"
	"path/filepath"
	"testing"
	"time"
	_ "time/tzdata" // the zones under test must not depend on the machine

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

var ctx = context.Background()

// start is when the crews of these tests begin: Thursday, 08:00 in Chicago.
var start = time.Date(2031, 4, 24, 13, 0, 0, 0, time.UTC)

func openFile(t testing.TB, path string) *DB {
	t.Helper()
	db, err := Open(ctx, path, Options{})
	require.NoError(t, err)
	t.Cleanup(func() { _ = db.Close() })
	return db
}

func fresh(t testing.TB) *DB {
	t.Helper()
	return openFile(t, filepath.Join(t.TempDir(), "crew.db"))
}

// diary is a crew that logs.
type diary struct {
	t      require.TestingT
	db     *DB
	crew   Crew
	now    time.Time
	update int64
}

func newDiary(t require.TestingT, db *DB) *diary {
	d := &diary{t: t, db: db, now: start}
	d.do(func(tx *Tx) (err error) {
		d.crew, err = tx.NewCrew("test", 1, map[string]string{"zone": "America/Chicago"})
		return err
	})
	return d
}

func (d *diary) do(fn func(*Tx) error) { require.NoError(d.t, d.db.Update(ctx, d.now, fn)) }

// log appends an entry as an incoming message would and plans what it touches.
func (d *diary) log(e rules.Entry) (id int64) {
	if e.Happened.IsZero() {
		e.Happened = d.now
	}
	if e.Said.IsZero() {
		e.Said = d.now
	}
	if e.Action == "" {
		e.Action = rules.Did
	}
	d.do(func(tx *Tx) error {
		m, err := tx.Member(d.crew, "wren", "Wren")
		if err != nil {
			return err
		}
		d.update++
		row, _, err := tx.MarkUpdate(Update{Source: "test", UpdateID: d.update, Crew: d.crew.ID, Member: m.ID, Kind: "message", Message: d.update, Said: d.now})
		if err != nil {
			return err
		}
		if id, err = tx.Append(d.crew.ID, row, m, d.update, "as typed", e); err != nil {
			return err
		}
		return tx.Replan(d.crew.ID)
	})
	return id
}

func (d *diary) set(key, value string) {
	d.log(rules.Entry{Action: rules.Set, Detail: rules.Detail{Key: key, Value: value}})
}

func (d *diary) outbox() (out []Message) {
	require.NoError(d.t, d.db.View(ctx, d.now, func(tx *Tx) (err error) {
		out, err = tx.Outbox(d.crew.ID)
		return err
	}))
	return out
}

// message finds the outbox row with that key.
func (d *diary) message(key string) Message {
	for _, m := range d.outbox() {
		if m.Key == key {
			return m
		}
	}
	require.FailNow(d.t, "no message "+key)
	return Message{}
}

func (d *diary) dump() (s string) {
	require.NoError(d.t, d.db.View(ctx, d.now, func(tx *Tx) (err error) {
		s, err = tx.Dump()
		return err
	}))
	return s
}

func (d *diary) graft(breeder, cells int, into string, batch int) int64 {
	return d.log(rules.Entry{Step: rules.Graft, Subject: rules.BatchSubject(batch), Count: &cells, From: breeder, Into: into})
}

// claimDue takes the first of what is due.
func claimDue(tx *Tx, limit int) ([]Message, error) {
	due, err := tx.Due()
	var ids []int64
	for _, d := range due[:min(limit, len(due))] {
		ids = append(ids, d.ID)
	}
	if err != nil {
		return nil, err
	}
	return tx.Claim(ids)
}
