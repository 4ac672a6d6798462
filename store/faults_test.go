package store

import (
	"bufio"
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// The test binary is also the second process that holds a lock.
func TestMain(m *testing.M) {
	if path := os.Getenv("YARDBELL_TEST_HOLD"); path != "" {
		holdLock(path, os.Getenv("YARDBELL_TEST_MODE"))
		return
	}
	if path := os.Getenv("YARDBELL_TEST_BACKUPS"); path != "" {
		backUpForEver(path, os.Getenv("YARDBELL_TEST_TO"))
		return
	}
	os.Exit(m.Run())
}

// holdLock takes the write lock, says so and keeps it until its input ends.
func holdLock(path, mode string) {
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=locking_mode("+mode+")")
	if err == nil {
		db.SetMaxOpenConns(1)
		_, err = db.Exec(`BEGIN EXCLUSIVE`)
	}
	if err != nil {
		fmt.Println("failed:", err)
		return
	}
	fmt.Println("held")
	_, _ = io.Copy(io.Discard, os.Stdin)
}

// lockedBy runs a process that holds the lock until the test ends.
func lockedBy(t *testing.T, path, mode string) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), "YARDBELL_TEST_HOLD="+path, "YARDBELL_TEST_MODE="+mode)
	in, err := c.StdinPipe()
	require.NoError(t, err)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = in.Close()
		_ = c.Wait()
	})
	said, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, "held\n", said)
}

// folder is what a folder holds, byte for byte.
func folder(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range list {
		if e.IsDir() {
			out[e.Name()] = "folder"
			continue
		}
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		out[e.Name()] = fmt.Sprintf("%x", sha256.Sum256(b))
	}
	return out
}

// used makes a database file with a crew in it and closes it.
func used(t *testing.T, path string) {
	t.Helper()
	db, err := Open(ctx, path, Options{})
	require.NoError(t, err)
	d := newDiary(t, db)
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	d.log(rules.Entry{Step: rules.Confine, Subject: rules.BreederSubject(7)})
	require.NoError(t, db.Close())
}

func raw(t *testing.T, path, query string) {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path)
	require.NoError(t, err)
	_, err = db.Exec(query)
	require.NoError(t, err)
	require.NoError(t, db.Close())
}

func change(t *testing.T, path string, fn func([]byte) []byte) {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, fn(b), 0o600))
}

// A file that cannot be used is refused in one sentence and left as it is, with
// nothing beside it.
func TestUnusableFiles(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(t *testing.T, path string)
		want string
	}{
		{"directory", func(t *testing.T, path string) { require.NoError(t, os.Mkdir(path, 0o700)) }, "is a directory"},
		{"read-only", func(t *testing.T, path string) { used(t, path); require.NoError(t, os.Chmod(path, 0o400)) }, "is read-only"},
		{"newer version", func(t *testing.T, path string) {
			used(t, path)
			raw(t, path, `INSERT INTO goose_db_version (version_id, is_applied) VALUES (900, 1)`)
		}, "newer version of Yardbell (schema 900"},
		{"another program's", func(t *testing.T, path string) { raw(t, path, `CREATE TABLE notes (t)`) }, "another program"},
		{"another program's, in WAL mode", func(t *testing.T, path string) {
			raw(t, path, `PRAGMA journal_mode=WAL; PRAGMA application_id=7; CREATE TABLE notes (t)`)
		}, "another program"},
		{"text", func(t *testing.T, path string) {
			require.NoError(t, os.WriteFile(path, []byte(strings.Repeat("breeder 7 confined\n", 300)), 0o600))
		}, "not a database"},
		{"short text", func(t *testing.T, path string) { require.NoError(t, os.WriteFile(path, []byte("7\n"), 0o600)) }, "not a database"},
		{"truncated inside a page", func(t *testing.T, path string) {
			used(t, path)
			change(t, path, func(b []byte) []byte { return b[:len(b)/2-100] })
		}, "is damaged"},
		{"truncated after a page", func(t *testing.T, path string) {
			used(t, path)
			change(t, path, func(b []byte) []byte { return b[:4*4096] })
		}, "is damaged"},
		{"truncated in the header", func(t *testing.T, path string) {
			used(t, path)
			change(t, path, func(b []byte) []byte { return b[:60] })
		}, "not a database"},
		{"a page overwritten", func(t *testing.T, path string) {
			used(t, path)
			change(t, path, func(b []byte) []byte {
				r := rand.New(rand.NewPCG(1, 2))
				for i := 5 * 4096; i < 6*4096; i++ {
					b[i] = byte(r.IntN(256))
				}
				return b
			})
		}, "is damaged"},
		{"a page of nothing", func(t *testing.T, path string) {
			used(t, path)
			change(t, path, func(b []byte) []byte { clear(b[2*4096 : 3*4096]); return b })
		}, "is damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			path := filepath.Join(dir, "crew.db")
			c.make(t, path)
			before := folder(t, dir)
			_, err := Open(ctx, path, Options{})
			var fe *FileError
			require.ErrorAs(t, err, &fe)
			assert.Contains(t, fe.Error(), c.want)
			assert.Contains(t, fe.Error(), path)
			assert.NotContains(t, fe.Error(), "\n")
			assert.Equal(t, before, folder(t, dir), "the folder after the refusal")
			_, err = Open(ctx, path, Options{ReadOnly: true})
			assert.Error(t, err)
			assert.Equal(t, before, folder(t, dir), "the folder after a second refusal")
		})
	}
}

// A large file is opened before it was read for damage, unless it is to be upgraded, and
// what is damaged in it is said then; a small one is read first in any case.
func TestLargeFileIsCheckedLate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crew.db")
	used(t, path)
	late := Options{Late: true, large: 1}
	open := func(o Options) error {
		db, err := Open(ctx, path, o)
		if err == nil {
			err = db.CheckLate(ctx)
			require.NoError(t, db.Close())
		}
		return err
	}
	require.NoError(t, open(late))
	change(t, path, func(b []byte) []byte { clear(b[len(b)-4096:]); return b })
	assert.ErrorContains(t, open(Options{}), "is damaged")
	assert.NotContains(t, open(Options{}).Error(), "***", "what is wrong is said, not a heading")
	assert.ErrorContains(t, open(Options{Late: true}), "is damaged", "it is not large")
	db, err := Open(ctx, path, late)
	require.NoError(t, err, "nobody is kept waiting")
	assert.ErrorContains(t, db.CheckLate(ctx), "is damaged")
	require.NoError(t, db.Close())
	_, err = Open(ctx, path, late)
	assert.ErrorContains(t, err, "is damaged", "nothing is logged into it again")
	for _, f := range []string{path, path + "-wal", path + "-shm"} {
		_ = os.Remove(f)
	}
	used(t, path)
	require.NoError(t, open(late), "another file in its place")
	assert.NoFileExists(t, path+damageMark)

	old := filepath.Join(t.TempDir(), "old.db")
	migrateTo(t, old, newestSchema(t)-1)
	change(t, old, func(b []byte) []byte { clear(b[len(b)-4096:]); return b })
	_, err = Open(ctx, old, late)
	assert.ErrorContains(t, err, "is damaged", "no upgrade of a damaged file")
}

// headers is how many spoiled headers are tried.
var headers = 60

// Whatever bytes stand in the header: refused in a sentence, unchanged, or, where
// the byte means nothing to SQLite, opened.
func TestRandomHeaders(t *testing.T) {
	source := filepath.Join(t.TempDir(), "crew.db")
	used(t, source)
	good, err := os.ReadFile(source)
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(3, 4))
	refused := 0
	for range headers {
		dir := t.TempDir()
		path := filepath.Join(dir, "crew.db")
		b := append([]byte{}, good...)
		for range 1 + r.IntN(3) {
			b[r.IntN(100)] = byte(r.IntN(256))
		}
		require.NoError(t, os.WriteFile(path, b, 0o600))
		before := folder(t, dir)
		db, err := Open(ctx, path, Options{})
		if err == nil {
			require.NoError(t, db.Close())
			continue
		}
		refused++
		var fe *FileError
		require.ErrorAs(t, err, &fe)
		assert.NotContains(t, fe.Error(), "\n")
		assert.Equal(t, before, folder(t, dir), "%s; header % x", fe, b[:100])
	}
	assert.Greater(t, refused, headers/3)
}

func TestMissingFolder(t *testing.T) {
	dir := t.TempDir()
	_, err := Open(ctx, filepath.Join(dir, "none", "crew.db"), Options{})
	var fe *FileError
	require.ErrorAs(t, err, &fe)
	assert.Contains(t, fe.Error(), "there is no folder")
	assert.Empty(t, folder(t, dir))
}

func TestReadersMakeNoFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "crew.db")
	_, err := Open(ctx, path, Options{ReadOnly: true})
	require.ErrorContains(t, err, "does not exist")
	assert.Empty(t, folder(t, dir))
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	_, err = Open(ctx, path, Options{ReadOnly: true})
	require.ErrorContains(t, err, "is there but empty")
	assert.Len(t, folder(t, dir), 1)
}

// Another process that keeps the file to itself is waited for, then named.
func TestLockedByAnotherProcess(t *testing.T) {
	t.Run("for itself alone", func(t *testing.T) {
		t.Parallel()
		path := filepath.Join(t.TempDir(), "crew.db")
		used(t, path)
		lockedBy(t, path, "exclusive")
		_, err := Open(ctx, path, Options{})
		var fe *FileError
		require.ErrorAs(t, err, &fe)
		assert.Contains(t, fe.Error(), "is locked by another program")
	})
	t.Run("for writing", func(t *testing.T) {
		t.Parallel()
		path := filepath.Join(t.TempDir(), "crew.db")
		used(t, path)
		db := openFile(t, path)
		lockedBy(t, path, "normal")
		require.NoError(t, db.View(ctx, start, func(tx *Tx) error { _, err := tx.Crews(); return err }), "reading goes on")
		err := db.Update(ctx, start, func(*Tx) error { return nil })
		var fe *FileError
		require.ErrorAs(t, err, &fe)
		assert.Contains(t, fe.Error(), "is locked by another program")
	})
}

// A file that is there with nothing in it is refused, with what was found, and left as it
// is; so is a database of SQLite with nothing in it. A crew that began afresh on it would
// not see that its logbook is gone.
func TestEmptyFileIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		prepare func(path string)
		found   string
	}{
		"no byte":  {func(path string) { require.NoError(t, os.WriteFile(path, nil, 0o600)) }, "is there but empty (0 bytes)"},
		"no table": {func(path string) { raw(t, path, `CREATE TABLE t (a); DROP TABLE t`) }, "bytes of SQLite without a table)"},
		"no byte, and what was to come": {func(path string) {
			require.NoError(t, errors.Join(os.WriteFile(path, nil, 0o600), os.WriteFile(path+"-wal", []byte("something"), 0o600)))
		}, "is there but empty (0 bytes, beside it crew.db-wal with 9)"},
	} {
		dir := t.TempDir()
		path := filepath.Join(dir, "crew.db")
		c.prepare(path)
		before := folder(t, dir)
		for _, o := range []Options{{}, {ReadOnly: true}, {Late: true}} {
			_, err := Open(ctx, path, o)
			var fe *FileError
			require.ErrorAs(t, err, &fe, name)
			assert.Contains(t, err.Error(), c.found)
			assert.Contains(t, err.Error(), "restore a backup, or name a file that is not there yet")
			assert.Equal(t, before, folder(t, dir), name)
		}
	}
}

// A new file has its name only with our mark in it, so that no crash leaves an empty one,
// which would be refused.
func TestNewFileIsMarkedFromTheFirst(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "crew.db")
	require.NoError(t, claimFile(ctx, path))
	head, err := header(path)
	require.NoError(t, err)
	require.NotNil(t, head)
	assert.Equal(t, uint32(applicationID), binary.BigEndian.Uint32(head[68:]))
	assert.Len(t, folder(t, dir), 1, "nothing else is left")
	// Stopped in between, nothing has the name.
	stopped, stop := context.WithCancel(ctx)
	stop()
	path = filepath.Join(dir, "other.db")
	require.ErrorIs(t, claimFile(stopped, path), context.Canceled)
	assert.NoFileExists(t, path)
	// What another put there meanwhile stays, and a link to nothing is no place.
	require.NoError(t, os.WriteFile(path, []byte("theirs"), 0o600))
	require.NoError(t, claimFile(ctx, path))
	theirs, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "theirs", string(theirs))
	link := filepath.Join(dir, "link.db")
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), link))
	require.ErrorContains(t, claimFile(ctx, link), "is a link to a file that is not there")
	require.NoError(t, os.Remove(link))
	assert.Len(t, folder(t, dir), 2)
}

// A file of the first schema comes to the schema of a new one, its logbook with it.
func TestOldSchemaIsBroughtForward(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crew.db")
	old, err := os.ReadFile("testdata/schema1.sql")
	require.NoError(t, err)
	raw(t, path, string(old))
	_, err = Open(ctx, path, Options{ReadOnly: true})
	require.ErrorContains(t, err, "older schema 1")
	db := openFile(t, path)
	assert.Equal(t, schema(t, fresh(t)), schema(t, db))
	require.NoError(t, db.View(ctx, start, func(tx *Tx) error {
		book, err := tx.Logbook(1)
		require.NoError(t, err)
		require.Len(t, book, 1)
		assert.Equal(t, rules.BreederSubject(7), book[0].Subject)
		assert.Equal(t, "add breeder 7", book[0].Raw)
		return nil
	}))
}

// A crash while the file is made leaves it with our mark and nothing else.
func TestHalfMadeFileIsFinished(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crew.db")
	require.NoError(t, claimFile(ctx, path))
	assert.Equal(t, schema(t, fresh(t)), schema(t, openFile(t, path)))
}

// What was committed is there after a crash, though it stands only beside the
// file; a copy of both is what a crash leaves.
func TestCommittedSurvivesACrash(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crew.db")
	db := openFile(t, path)
	newDiary(t, db).log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	left := filepath.Join(t.TempDir(), "crew.db")
	for _, end := range []string{"", "-wal"} {
		b, err := os.ReadFile(path + end)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(left+end, b, 0o600))
	}
	again := openFile(t, left)
	require.NoError(t, again.View(ctx, start, func(tx *Tx) error {
		list, err := tx.Breeders(1)
		assert.Len(t, list, 1)
		return err
	}))
	require.NoError(t, again.Check(ctx))
}
