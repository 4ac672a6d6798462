package bot

import (
	"database/sql"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// trips has a file stumble over every line whose words hold some, by an expression that
// fails, until it is healed.
func trips(t *testing.T, path, words, how string) (heal func()) {
	t.Helper()
	do := func(query string) {
		db, err := sql.Open("sqlite", "file:"+path)
		require.NoError(t, err)
		_, err = db.Exec(query)
		require.NoError(t, err)
		require.NoError(t, db.Close())
	}
	do(`CREATE TRIGGER ours BEFORE INSERT ON entries WHEN NEW.raw LIKE '%` + words + `%' BEGIN SELECT ` + how + `; END`)
	return func() { do(`DROP TRIGGER ours`) }
}

// A message that cannot be written, not now and not the next time, is owned up to and
// passed: those behind it are read. What cannot be written for want of a disk is tried
// again.
func TestOwnFaultPassesOneMessageAlone(t *testing.T) {
	g := newGroup(t, map[string]string{"zone": "America/Chicago"})
	g.says("Wren", "add breeder 7")
	trips(t, g.db.Path(), "11", `RAISE(ABORT, 'as a fault of ours would')`)

	said, _ := g.says("Wren", "add breeder 11")
	assert.Contains(t, said, "nothing was logged")
	said, _ = g.says("Wren", "add breeder 12")
	assert.Contains(t, said, "breeder 12")
	g.look(func(tx *store.Tx, crew int64) error {
		list, err := tx.Breeders(crew)
		assert.Len(t, list, 2)
		return err
	})
	require.NoError(t, g.db.CheckModels(t.Context(), g.now))

	assert.False(t, store.Fault(&store.FileError{Path: "crew.db", Why: "cannot be written: the disk is full"}))
}
