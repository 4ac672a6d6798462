package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// copiesOf lists the backups in a folder by the breeder that is in them.
func copiesOf(t *testing.T, dir, breeder string) (out []string) {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(dir, "crew-*.db"))
	require.NoError(t, err)
	for _, path := range list {
		if strings.Contains(path, "-2020") {
			continue // the foreign one
		}
		r := call("", "export", "--db", path)
		require.Zero(t, r.code, r.err)
		if strings.Contains(r.out, "add breeder "+breeder+`"`) {
			out = append(out, path)
		}
	}
	return out
}

// Two processes, two databases called crew.db, one folder: both keep their own two newest
// and nothing of the other's goes, nor a file that somebody put there.
func TestTwoDatabasesBackUpIntoOneFolder(t *testing.T) {
	program, err := binary()
	require.NoError(t, err)
	dir := t.TempDir()
	foreign := filepath.Join(dir, "crew-20200101-000000Z.db")
	require.NoError(t, os.WriteFile(foreign, []byte("somebody's own words"), 0o600))
	breeders := []string{"7", "12"}
	var dbs []string
	for _, breeder := range breeders {
		dbs = append(dbs, crewFile(t, "Wren: add breeder "+breeder+"\n"))
	}
	require.NotEqual(t, dbs[0], dbs[1])
	require.Equal(t, filepath.Base(dbs[0]), filepath.Base(dbs[1]))
	var wg sync.WaitGroup
	for _, db := range dbs {
		wg.Go(func() {
			for range 4 {
				out, err := exec.Command(program, "backup", "--db", db, "--to", dir, "--keep", "2").CombinedOutput()
				assert.NoError(t, err, string(out))
			}
		})
	}
	wg.Wait()
	for i, breeder := range breeders {
		assert.Len(t, copiesOf(t, dir, breeder), 2, breeder)
		assert.Contains(t, call("", "check", "--db", dbs[i], "--backup", dir).out, "2 backups, the newest ")
	}
	assert.FileExists(t, foreign)
}

// Under serve a backup of another database of that name is none of ours: ours is made.
func TestServeBacksUpBesideAnother(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	dir := t.TempDir()
	other := crewFile(t, "Wren: add breeder 12\n")
	require.Zero(t, call("", "backup", "--db", other, "--to", dir).code)
	list, err := filepath.Glob(filepath.Join(dir, "crew-*.db"))
	require.NoError(t, err)
	require.Len(t, list, 1)
	late := filepath.Join(dir, "crew-"+w.clock.Now().Format("20060102-150405Z")+".db")
	require.NoError(t, os.Rename(list[0], late))
	w.join("--backup", dir, "--backup-keep", "1", "--backup-weeks", "0")
	w.noted("a backup of its own", func() bool {
		all, err := filepath.Glob(filepath.Join(dir, "crew-*.db"))
		return err == nil && len(all) == 2
	})
	w.quit()
	assert.FileExists(t, late)
	assert.NotContains(t, w.err.String(), "backup")
}
