package store

import (
	"testing"

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
