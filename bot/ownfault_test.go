package bot

import (
	"database/sql"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// A message that cannot be written, not now and not the next time, is owned up to and
// passed: those behind it are read. What cannot be written for want of a disk is tried
// again.
func TestOwnFaultPassesOneMessageAlone(t *testing.T) {
	g := newGroup(t, map[string]string{"zone": "America/Chicago"})
	g.says("Wren", "add breeder 7")
	other, err := sql.Open("sqlite", "file:"+g.db.Path())
	require.NoError(t, err)
	defer func() { require.NoError(t, other.Close()) }()
	_, err = other.Exec(`CREATE TRIGGER ours BEFORE INSERT ON entries WHEN NEW.raw LIKE '%11%' BEGIN SELECT RAISE(ABORT, 'as a fault of ours would'); END`)
	require.NoError(t, err)

	said, _ := g.says("Wren", "add breeder 11")
	assert.Contains(t, said, "nothing was logged")
	said, _ = g.says("Wren", "add breeder 12")
	assert.Contains(t, said, "breeder 12")
	g.look(func(tx *store.Tx, crew int64) error {
		list, err := tx.Breeders(crew)
		assert.Len(t, list, 2)
		return err
	})
	require.NoError(t, g.db.CheckShelf(t.Context(), g.now))

	assert.False(t, store.Fault(&store.FileError{Path: "crew.db", Why: "cannot be written: the disk is full"}))
}
