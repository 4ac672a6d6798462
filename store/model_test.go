package store

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// However many crews write, no more lines are kept than the limit allows, and those of the
// crew that wrote last are.
func TestModelsAreBounded(t *testing.T) {
	db := fresh(t)
	db.models.limit = 30
	for n := range 12 {
		d := &diary{t: t, db: db, now: start, update: int64(1000 * n)}
		d.do(func(tx *Tx) (err error) {
			d.crew, err = tx.NewCrew("test", int64(1+n), map[string]string{"zone": "America/Chicago"})
			return err
		})
		for b := range 5 {
			d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(1 + b)})
		}
		lines := 0
		for _, at := range db.models.crews {
			lines += at.Value.(keptModel).model.Len()
		}
		assert.Equal(t, lines, db.models.lines)
		assert.LessOrEqual(t, lines, db.models.limit)
		require.NotNil(t, db.models.get(d.crew.ID), "it wrote last")
	}
	assert.Less(t, len(db.models.crews), 12, "those of long ago have gone")
}

// What was rolled back is in no model: not after an error, not after a part that was taken
// back alone. Without that the bot would tell of lines that the file does not have.
func TestModelForgetsWhatWasRolledBack(t *testing.T) {
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
	add := func(tx *Tx, breeder int) error {
		_, err := tx.Append(d.crew.ID, row, m, 99, "add", rules.Entry{Said: d.now, Happened: d.now, Action: rules.Did, Step: rules.Add, Subject: rules.BreederSubject(breeder)})
		if err != nil {
			return err
		}
		return tx.Replan(d.crew.ID)
	}
	numbers := func(tx *Tx) (out []int) {
		list, err := tx.Breeders(d.crew.ID)
		require.NoError(t, err)
		for _, b := range list {
			out = append(out, b.Number)
		}
		return out
	}
	stop := errors.New("the disk is full")
	require.ErrorIs(t, d.db.Update(ctx, d.now, func(tx *Tx) error {
		require.NoError(t, add(tx, 8))
		assert.Equal(t, []int{7, 8}, numbers(tx), "the transaction sees what it wrote")
		return stop
	}), stop)
	d.do(func(tx *Tx) error { assert.Equal(t, []int{7}, numbers(tx)); return nil })
	d.do(func(tx *Tx) error {
		require.NoError(t, add(tx, 8))
		look, _, err := tx.Look().With(d.crew.ID, 0, Member{}, 0, "", rules.Entry{Action: rules.Did, Step: rules.Add, Subject: rules.BreederSubject(9)})
		require.NoError(t, err)
		assert.Equal(t, []int{7, 8, 9}, numbers(look))
		assert.Equal(t, []int{7, 8}, numbers(tx), "who looks further does not write")
		return add(tx, 10)
	})
	d.do(func(tx *Tx) error { assert.Equal(t, []int{7, 8, 10}, numbers(tx)); return nil })
	require.NoError(t, d.db.CheckModels(ctx, d.now))
}

// Who reads while a message is being saved sees the crew as it was before.
func TestReadersSeeTheLastCommit(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	count := func() (n int) {
		require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
			list, err := tx.Breeders(d.crew.ID)
			n = len(list)
			return err
		}))
		return n
	}
	stop := errors.New("not saved")
	require.ErrorIs(t, d.db.Update(ctx, d.now, func(tx *Tx) error {
		m, err := tx.ownModel(d.crew.ID)
		require.NoError(t, err)
		m.Apply(rules.Entry{ID: m.Last() + 1, Action: rules.Did, Step: rules.Add, Subject: rules.BreederSubject(8), Said: d.now, Happened: d.now})
		m.Settle()
		assert.Equal(t, 1, count())
		return stop
	}), stop)
	assert.Equal(t, 1, count())
}
