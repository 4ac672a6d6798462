package store

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// What was backed up comes back; what was there meanwhile is kept.
func TestRestore(t *testing.T) {
	d := logged(t)
	k, err := d.db.Backup(ctx, start, t.TempDir())
	require.NoError(t, err)
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(9)})
	path := d.db.path
	require.NoError(t, d.db.Close())
	want := book(t, k.Path)
	changedBook := book(t, path)

	_, err = Restore(ctx, start, k.Path, path, false, Options{})
	require.ErrorContains(t, err, "--force")
	_, err = Restore(ctx, start, path, path, true, Options{})
	require.ErrorContains(t, err, "from itself")
	r, err := Restore(ctx, start, k.Path, path, true, Options{})
	require.NoError(t, err)
	assert.Equal(t, 7, r.Proof.Chain.Lines)
	assert.Equal(t, 8, r.Before.Lines)
	assert.Equal(t, 1, r.Crews)
	assert.Equal(t, path+".replaced-20310424-130000Z", r.Aside)
	assert.Equal(t, want, book(t, path))
	assert.Equal(t, changedBook, book(t, r.Aside))
	assert.Equal(t, []string{"crew.db", "crew.db.replaced-20310424-130000Z"}, names(t, filepath.Dir(path)))

	other := filepath.Join(t.TempDir(), "new.db")
	r, err = Restore(ctx, start, k.Path, other, false, Options{})
	require.NoError(t, err)
	assert.Empty(t, r.Aside)
	assert.Equal(t, want, book(t, other))
}

// A damaged database is replaced with what stands beside it, and kept.
func TestRestoreOverADamagedFile(t *testing.T) {
	d := logged(t)
	k, err := d.db.Backup(ctx, start, t.TempDir())
	require.NoError(t, err)
	require.NoError(t, d.db.Close())
	path := d.db.path
	change(t, path, func(b []byte) []byte { return b[:4*4096] })
	require.NoError(t, os.WriteFile(path+"-wal", []byte("left over"), 0o600))
	r, err := Restore(ctx, start, k.Path, path, true, Options{})
	require.NoError(t, err)
	assert.Zero(t, r.Before.Lines)
	assert.FileExists(t, r.Aside+"-wal")
	assert.NoFileExists(t, path+"-wal")
	assert.Len(t, book(t, path), 7)
}

// What a lost file left beside it is no part of the one that comes back.
func TestRestoreBesideALeftOver(t *testing.T) {
	d := logged(t)
	k, err := d.db.Backup(ctx, start, t.TempDir())
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "crew.db")
	b, err := os.ReadFile(d.db.path + "-wal")
	require.NoError(t, err)
	require.NotEmpty(t, b)
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(9)})
	require.NoError(t, os.WriteFile(path+"-wal", b, 0o600))
	r, err := Restore(ctx, start, k.Path, path, false, Options{})
	require.NoError(t, err)
	assert.FileExists(t, r.Aside+"-wal")
	assert.NoFileExists(t, path+"-wal")
	assert.Len(t, book(t, path), 7)
}

// What is not a whole backup of ours, with its logbook as written, is not restored, and
// nothing is changed.
func TestRestoreRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(t *testing.T, from string)
		want  string
	}{
		"a line changed": {func(t *testing.T, from string) {
			raw(t, from, `DROP TRIGGER entries_no_update; UPDATE entries SET count = 54 WHERE id = 4`)
		}, "line 4 of"},
		"its words changed": {func(t *testing.T, from string) {
			raw(t, from, `DROP TRIGGER entries_no_update; UPDATE entries SET raw = 'x' WHERE id = 3`)
		}, "other words"},
		"a line removed": {func(t *testing.T, from string) {
			raw(t, from, `DROP TRIGGER entries_no_delete; DELETE FROM entries WHERE id = 7`)
		}, "line 7 is not there"},
		"cut short": {func(t *testing.T, from string) { change(t, from, func(b []byte) []byte { return b[:len(b)-5*4096] }) }, "is damaged"},
		"a newer schema": {func(t *testing.T, from string) {
			raw(t, from, `INSERT INTO goose_db_version (version_id, is_applied) VALUES (900, 1)`)
		}, "newer version"},
		"another program's": {func(t *testing.T, from string) { raw(t, from, `PRAGMA application_id = 7`) }, "another program"},
		"a text": {func(t *testing.T, from string) {
			require.NoError(t, os.WriteFile(from, bytes.Repeat([]byte("bees "), 90), 0o600))
		}, "not a database"},
		"nothing at all": {func(t *testing.T, from string) { require.NoError(t, os.WriteFile(from, nil, 0o600)) }, "no database of Yardbell"},
		"not there":      {func(t *testing.T, from string) { require.NoError(t, os.Remove(from)) }, "does not exist"},
		"a line that is not": {func(t *testing.T, from string) {
			raw(t, from, `DROP TRIGGER entries_no_update; UPDATE entries SET happened_at = 'soon' WHERE id = 4`)
		}, "scan"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := logged(t)
			k, err := d.db.Backup(ctx, start, t.TempDir())
			require.NoError(t, err)
			require.NoError(t, d.db.Close())
			c.spoil(t, k.Path)
			before := folder(t, filepath.Dir(d.db.path))
			_, err = Restore(ctx, start, k.Path, d.db.path, true, Options{})
			require.ErrorContains(t, err, c.want)
			assert.Equal(t, before, folder(t, filepath.Dir(d.db.path)))
		})
	}
}

// While somebody has the file open it is not replaced under them.
func TestRestoreRefusesAnOpenFile(t *testing.T) {
	d := logged(t)
	k, err := d.db.Backup(ctx, start, t.TempDir())
	require.NoError(t, err)
	_, err = Restore(ctx, start, k.Path, d.db.path, true, Options{})
	require.ErrorContains(t, err, "open in another program")
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(9)})
	assert.Equal(t, 8, d.chain().Lines)
}

// Backups of earlier schemas are restored too.
func TestRestoreOfEverySchema(t *testing.T) {
	files, err := filepath.Glob("testdata/schema*.sql")
	require.NoError(t, err)
	for _, f := range files {
		from := filepath.Join(t.TempDir(), "old.db")
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		raw(t, from, string(text))
		path := filepath.Join(t.TempDir(), "crew.db")
		r, err := Restore(ctx, start, from, path, false, Options{})
		require.NoError(t, err, f)
		assert.Positive(t, r.Proof.Chain.Lines)
		assert.Equal(t, []string{"crew.db"}, names(t, filepath.Dir(path)), "no copies of copies")
		assert.NotEmpty(t, book(t, path))
	}
}
