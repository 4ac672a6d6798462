package main

import (
	"bytes"
	"context"
	"database/sql"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

const shortBook = "Wren: add breeder 7\nWren: add builder B2\nWren: graft 45 from 7 into B2\n"

// The whole way: a backup by hand, the file lost, a restore, and on with the season.
func TestBackupAndRestore(t *testing.T) {
	db := crewFile(t, shortBook)
	dir := t.TempDir()
	r := call("", "backup", "--db", db, "--to", dir)
	require.Zero(t, r.code, r.err)
	assert.Regexp(t, `backed up to .*crew-\d{8}-\d{6}Z\.db: 4 lines in the logbook, the newest of 2031-04-24 08:00 CDT, hash [0-9a-f]{16}, 0\.\d MB`, r.out)
	list, err := filepath.Glob(filepath.Join(dir, "*.db"))
	require.NoError(t, err)
	require.Len(t, list, 1)
	before := call("", "export", "--db", db)
	require.NoError(t, os.Remove(db))

	r = call("", "restore", "--from", list[0], "--db", db)
	require.Zero(t, r.code, r.err)
	assert.Contains(t, r.out, "4 lines in the logbook, the newest of 2031-04-24 08:00 CDT")
	assert.Contains(t, r.out, "crews: 1")
	assert.NotContains(t, r.out, "kept as")
	assert.Equal(t, before, call("", "export", "--db", db))
	r = call("Wren: accepted 38\n", "console", "--db", db, "--now", "2031-04-25 08:00")
	require.Zero(t, r.code, r.err)
	assert.Contains(t, r.out, "38")

	r = call("", "restore", "--from", list[0], "--db", db)
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.err, "--force")
	r = call("", "restore", "--from", list[0], "--db", db, "--force")
	require.Zero(t, r.code, r.err)
	assert.Contains(t, r.out, "5 lines in the logbook")
	assert.Contains(t, r.out, ": 1 more")
	assert.Contains(t, r.out, "what was there is kept as "+db+".replaced-")
	assert.Equal(t, before, call("", "export", "--db", db))
}

func TestBackupPrunesOnlyWhenAsked(t *testing.T) {
	db := crewFile(t, shortBook)
	dir := t.TempDir()
	for range 3 {
		require.Zero(t, call("", "backup", "--db", db, "--to", dir).code)
	}
	list, err := store.NamedBackups(db, dir)
	require.NoError(t, err)
	assert.Len(t, list, 3)
	r := call("", "backup", "--db", db, "--to", dir, "--keep", "2")
	require.Zero(t, r.code, r.err)
	assert.Contains(t, r.out, "2 older ones removed")
	list, err = store.NamedBackups(db, dir)
	require.NoError(t, err)
	assert.Len(t, list, 2)
}

func TestBackupBadCalls(t *testing.T) {
	db := crewFile(t, shortBook)
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"backup", "--db", db}, 2, "--to DIR"},
		{[]string{"backup", "--to", t.TempDir()}, 2, "--db FILE"},
		{[]string{"backup", "--db", db, "--to", db + ".none"}, 1, "there is no folder"},
		{[]string{"backup", "--db", db, "--to", t.TempDir(), "--keep", "-1"}, 2, "below 0"},
		{[]string{"restore", "--db", db}, 2, "--from FILE"},
		{[]string{"restore", "--from", db + ".none", "--db", db + ".new"}, 1, "does not exist"},
		{[]string{"restore", "--from", db, "--db", db, "--force"}, 1, "from itself"},
		{[]string{"check", "--backup", t.TempDir()}, 2, "--db FILE"},
	} {
		r := call("", c.args...)
		assert.Equal(t, c.code, r.code, "%v: %s", c.args, r.err)
		assert.Contains(t, r.err, c.want)
		assert.Equal(t, 1, strings.Count(r.err, "\n"))
	}
}

// check names a line that was changed past the program, files that everybody can read,
// and how old the newest backup is.
func TestCheckOfTheLogbook(t *testing.T) {
	db := crewFile(t, shortBook)
	dir := t.TempDir()
	r := call("", "check", "--db", db, "--backup", dir)
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.out, "no backup of")
	require.Zero(t, call("", "backup", "--db", db, "--to", dir).code)
	r = call("", "check", "--db", db, "--backup", dir)
	assert.Zero(t, r.code, r.out)
	assert.Contains(t, r.out, "4 lines in the logbook, the newest of 2031-04-24 08:00 CDT, hash ")
	assert.Contains(t, r.out, "1 backups, the newest 0 minutes old")
	assert.Contains(t, r.out, db+": good")

	require.NoError(t, os.Chmod(db, 0o644))
	r = call("", "check", "--db", db)
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.out, db+": everybody on this machine can read it; chmod 600 it")
	require.NoError(t, os.Chmod(db, 0o600))
	made, err := store.NamedBackups(db, dir)
	require.NoError(t, err)
	require.NoError(t, os.Chmod(made[0].Path, 0o644))
	r = call("", "check", "--db", db, "--backup", dir)
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.out, made[0].Path+": everybody on this machine can read it; chmod 600 it")
	require.NoError(t, os.Chmod(made[0].Path, 0o600))

	c, err := sql.Open("sqlite", db)
	require.NoError(t, err)
	_, err = c.Exec(`DROP TRIGGER entries_no_update; UPDATE entries SET count = 54 WHERE id = 4`)
	require.NoError(t, err)
	require.NoError(t, c.Close())
	r = call("", "check", "--db", db)
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.out, "line 4 of 2031-04-24 08:00 CDT by Wren does not follow")
	assert.NotContains(t, r.out, "good")
	r = call("", "backup", "--db", db, "--to", dir)
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.err, "line 4 of")
	assert.FileExists(t, filepath.Join(dir, "crew-broken.db"))
}

// A file that is served is backed up, and not replaced.
func TestServedFileIsBackedUpNotReplaced(t *testing.T) {
	w := grafted(t)
	dir := t.TempDir()
	var out, errOut bytes.Buffer
	require.Equal(t, 0, run(t.Context(), []string{"backup", "--db", w.db, "--to", dir}, w.env(&out, &errOut)), errOut.String())
	list, err := store.NamedBackups(w.db, dir)
	require.NoError(t, err)
	require.Len(t, list, 1)
	require.Equal(t, 1, run(t.Context(), []string{"restore", "--from", list[0].Path, "--db", w.db, "--force"}, w.env(&out, &errOut)))
	assert.Contains(t, errOut.String(), "is served by another process")
	st, err := os.Stat(w.db + ".lock")
	require.NoError(t, err)
	assert.EqualValues(t, 0o600, st.Mode().Perm())
}

// serve makes one at its start where there is none, and tells the lead where it cannot.
func TestServeMakesBackups(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	dir := t.TempDir()
	w.join("--backup", dir, "--backup-at", "03:15")
	made := func() int {
		list, err := store.NamedBackups(w.db, dir)
		require.NoError(t, err)
		return len(list)
	}
	// Nothing happens in the chat when a backup is made, so that it has to be looked for.
	require.Eventually(t, func() bool { return made() == 1 }, bound, 20*time.Millisecond, "the first backup")
	w.inPrivate(w.wren)
	w.quit()
	w.clock.Advance(24 * time.Hour)
	require.NoError(t, os.RemoveAll(dir))
	require.NoError(t, os.Mkdir(dir, 0o700))
	// What stands in the way of the copy is a folder of its name, which root cannot write
	// into a file either.
	w.look(func(tx *store.Tx) error {
		require.NoError(t, os.MkdirAll(filepath.Join(partOf(t, tx, dir), "x"), 0o700))
		return nil
	})
	n := len(w.Sent(w.wren))
	w.serve("--backup", dir, "--backup-at", "03:15")
	w.await("the note", func() bool { return len(w.Sent(w.wren)) > n })
	assert.Contains(t, w.Sent(w.wren)[n].Text, "the backup of the log failed")
	require.Eventually(t, func() bool { return strings.Contains(w.err.String(), "no backup") }, bound, 20*time.Millisecond, "the log")
	assert.Empty(t, w.Violations())
}

// partOf is where a database's backup is written before it has its name.
func partOf(t *testing.T, tx *store.Tx, dir string) string {
	t.Helper()
	id, err := tx.Identity()
	require.NoError(t, err)
	return filepath.Join(dir, ".crew-"+id[:12]+".part")
}

// When a backup is due: what lies in the folder decides, not what the process remembers.
func TestBackupIsDue(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crew.db")
	db, err := store.Open(t.Context(), path, store.Options{})
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	var said bytes.Buffer
	log := slog.New(slog.NewTextHandler(&said, nil))
	b := bot.New(db, func() {}, log, nil)
	made := func(dir string) (out []string) {
		list, err := store.NamedBackups(path, dir)
		require.NoError(t, err)
		for _, k := range list {
			out = append(out, k.Made.In(chicago(1, 0, 0).Location()).Format("2 15:04"))
		}
		slices.Reverse(out)
		return out
	}
	for name, c := range map[string]struct {
		at    string
		looks []time.Time
		want  []string
	}{
		"at an hour": {"03:15", []time.Time{chicago(1, 12, 0), chicago(2, 3, 14), chicago(2, 3, 15), chicago(2, 3, 16), chicago(2, 23, 0), chicago(3, 3, 20)},
			[]string{"1 12:00", "2 03:15", "3 03:20"}},
		"after days off":         {"03:15", []time.Time{chicago(1, 4, 0), chicago(5, 2, 0), chicago(5, 3, 0), chicago(5, 3, 15)}, []string{"1 04:00", "5 02:00", "5 03:15"}},
		"every 24 hours":         {"", []time.Time{chicago(1, 12, 0), chicago(2, 11, 59), chicago(2, 12, 0), chicago(2, 13, 0)}, []string{"1 12:00", "2 12:00"}},
		"a clock that was ahead": {"", []time.Time{chicago(9, 12, 0), chicago(2, 12, 0), chicago(2, 12, 1), chicago(3, 12, 0)}, []string{"2 12:00", "3 12:00", "9 12:00"}},
		"ahead, at an hour":      {"03:15", []time.Time{chicago(9, 12, 0), chicago(2, 12, 0), chicago(2, 12, 1), chicago(3, 3, 15)}, []string{"2 12:00", "3 03:15", "9 12:00"}},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			for _, now := range c.looks { // each look by a process started anew
				s, err := newSaver(backupFlags{dir: dir, at: c.at, keep: store.Keeping{Newest: 14}}, db, b, log)
				require.NoError(t, err)
				s.look(t.Context(), now)
			}
			assert.Equal(t, c.want, made(dir))
		})
	}
	dir := t.TempDir()
	s, err := newSaver(backupFlags{dir: dir, keep: store.Keeping{Newest: 2}}, db, b, log)
	require.NoError(t, err)
	for day := 1; day < 6; day++ {
		s.look(t.Context(), chicago(day, 12, 0))
	}
	assert.Equal(t, []string{"4 12:00", "5 12:00"}, made(dir), "older ones go")
	stopped, stop := context.WithCancel(t.Context())
	stop()
	s.look(stopped, chicago(6, 12, 0))
	assert.Empty(t, said.String(), "a service that stops has no fault to tell")

	// After a failure it is tried again an hour later.
	var part string
	require.NoError(t, db.View(t.Context(), chicago(6, 12, 0), func(tx *store.Tx) error {
		part = partOf(t, tx, dir)
		return nil
	}))
	require.NoError(t, os.MkdirAll(filepath.Join(part, "x"), 0o700))
	s.look(t.Context(), chicago(6, 12, 0))
	assert.Contains(t, said.String(), "no backup")
	require.NoError(t, os.RemoveAll(part))
	s.look(t.Context(), chicago(6, 12, 59))
	assert.Equal(t, []string{"4 12:00", "5 12:00"}, made(dir))
	s.look(t.Context(), chicago(6, 13, 0))
	assert.Equal(t, []string{"5 12:00", "6 13:00"}, made(dir))

	for _, f := range []backupFlags{{at: "03:15"}, {dir: dir + "x"}, {dir: dir, at: "soon"}, {dir: dir, keep: store.Keeping{Weeks: -1}}} {
		_, err := newSaver(f, db, b, log)
		var u usageError
		assert.ErrorAs(t, err, &u, "%+v", f)
	}
}

// A logbook that is not as written is told to the lead as such, once a day; the good
// backups stay.
func TestScheduledBackupOfABrokenLogbook(t *testing.T) {
	path := crewFile(t, shortBook)
	c, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	_, err = c.Exec(`DROP TRIGGER entries_no_update; UPDATE entries SET count = 54 WHERE id = 4`)
	require.NoError(t, err)
	require.NoError(t, c.Close())
	db, err := store.Open(t.Context(), path, store.Options{})
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	var said bytes.Buffer
	log := slog.New(slog.NewTextHandler(&said, nil))
	dir := t.TempDir()
	good := filepath.Join(dir, "crew-20310401-000000Z.db")
	require.NoError(t, os.WriteFile(good, nil, 0o600))
	s, err := newSaver(backupFlags{dir: dir, keep: store.Keeping{Newest: 1}}, db, bot.New(db, func() {}, log, nil), log)
	require.NoError(t, err)
	notes := func() (out []string) {
		require.NoError(t, db.View(t.Context(), chicago(24, 12, 0), func(tx *store.Tx) error {
			list, err := tx.Notes(1)
			for _, n := range list {
				out = append(out, n.Words)
			}
			return err
		}))
		return out
	}
	for _, at := range []time.Time{chicago(24, 12, 0), chicago(24, 12, 30), chicago(24, 14, 0), chicago(25, 12, 0)} {
		s.look(t.Context(), at)
	}
	assert.Equal(t, []string{"g_note_broken", "g_note_broken"}, notes(), "once a day")
	assert.Equal(t, 3, strings.Count(said.String(), "line 4 of"), "once for each try")
	assert.FileExists(t, good)
	assert.FileExists(t, filepath.Join(dir, "crew-broken.db"))
}
