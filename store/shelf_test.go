package store

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// However many crews write, no more rows are at hand than the limit allows, and those of
// the crew that wrote last are.
func TestShelfIsBounded(t *testing.T) {
	db := fresh(t)
	db.shelf.limit = 60
	for n := range 12 {
		d := &diary{t: t, db: db, now: start, update: int64(1000 * n)}
		d.do(func(tx *Tx) (err error) {
			d.crew, err = tx.NewCrew("test", int64(1+n), map[string]string{"zone": "America/Chicago"})
			return err
		})
		for b := range 5 {
			d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(1 + b)})
		}
		rows := 0
		for _, c := range db.shelf.crews {
			rows += c.rows
			kept := 1
			for _, list := range c.at {
				kept += list.size
			}
			assert.Equal(t, kept, c.rows, "what was taken off counts no more")
		}
		assert.Equal(t, rows, db.shelf.rows)
		assert.LessOrEqual(t, rows, db.shelf.limit)
		require.Contains(t, db.shelf.crews, d.crew.ID)
	}
	assert.Less(t, len(db.shelf.crews), 12, "those of long ago have gone")
}

// A transaction that only wrote, and looked at nothing before, leaves no line at hand
// that the file does not have.
func TestShelfForgetsWhatWasRolledBack(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	var m Member
	var row int64
	d.do(func(tx *Tx) (err error) {
		if m, err = tx.Member(d.crew, "wren", "Wren"); err == nil {
			row, _, err = tx.MarkUpdate(Update{Source: "test", UpdateID: 99, Crew: d.crew.ID, Member: m.ID, Kind: "message", Message: 99, Said: d.now})
		}
		return err
	})
	stop := errors.New("the disk is full")
	require.ErrorIs(t, d.db.Update(ctx, d.now, func(tx *Tx) error {
		if _, err := tx.Append(d.crew.ID, row, m, 99, "confine 7", rules.Entry{Said: d.now, Happened: d.now, Action: rules.Did, Step: rules.Confine, Subject: rules.BreederSubject(7)}); err != nil {
			return err
		}
		return stop
	}), stop)
	require.NoError(t, d.db.CheckShelf(ctx, d.now))
}

// The digest at hand is the one that stands in the chat: a newer one takes its place when
// it was sent, and none is there once the crew has moved to another chat.
func TestDigestAtHand(t *testing.T) {
	d := newDiary(t, fresh(t))
	shown := func() (row, number int64, found bool) {
		d.do(func(tx *Tx) (err error) {
			s, err := tx.Settings(d.crew.ID)
			require.NoError(t, err)
			row, number, found, err = tx.ShownDigest(d.crew.ID, rules.DateOf(d.now, s.Zone), s.Zone)
			return err
		})
		require.NoError(t, d.db.CheckShelf(ctx, d.now))
		return row, number, found
	}
	_, _, found := shown()
	assert.False(t, found)
	for number := range int64(2) {
		key := fmt.Sprintf("digest/2031-05-0%d", 1+number)
		d.do(func(tx *Tx) error {
			return tx.Queue(Message{Crew: d.crew.ID, Key: key, Kind: "digest", Ping: rules.Digest})
		})
		var m Message
		for _, c := range d.claim() {
			if c.Key == key {
				m = c
			}
		}
		_, _, before := shown()
		assert.Equal(t, number > 0, before, "what was not sent yet changes nothing")
		require.True(t, d.sent(m, 70+number))
		row, n, found := shown()
		assert.True(t, found)
		assert.Equal(t, m.ID, row)
		assert.Equal(t, 70+number, n)
	}
	d.now = d.now.Add(24 * time.Hour)
	_, _, found = shown()
	assert.False(t, found, "yesterday's is not today's")
	d.now = d.now.Add(-24 * time.Hour)
	d.do(func(tx *Tx) error { return tx.MoveChat("test", d.crew.Chat, d.crew.Chat-1000) })
	_, _, found = shown()
	assert.False(t, found, "it stands in the old chat")
}
