package store

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

func names(t *testing.T, dir string) (out []string) {
	t.Helper()
	for name := range folder(t, dir) {
		if !strings.HasSuffix(name, ".lock") {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}

func book(t *testing.T, path string) (out []Line) {
	t.Helper()
	db, err := Open(ctx, path, Options{})
	require.NoError(t, err)
	require.NoError(t, db.View(ctx, start, func(tx *Tx) (err error) {
		out, err = tx.Logbook(1)
		return err
	}))
	require.NoError(t, db.Close())
	return out
}

// A backup of a file that is written to all the while holds every line that was there
// when it began, and is proved.
func TestBackupWhileWriting(t *testing.T) {
	d := logged(t)
	dir := t.TempDir()
	stop := make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
				d.log(rules.Entry{Step: rules.Feed, Subject: rules.BreederSubject(7)})
			}
		}
	})
	var last Kept
	for n := range 3 {
		before := d.chain().Lines
		k, err := d.db.Backup(ctx, start.Add(time.Duration(n)*time.Second), dir)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, k.Proof.Chain.Lines, before)
		assert.Zero(t, k.Proof.Differ)
		last = k
	}
	close(stop)
	wg.Wait()
	assert.Equal(t, []string{"crew-20310424-130000Z.db", "crew-20310424-130001Z.db", "crew-20310424-130002Z.db"}, names(t, dir))
	st, err := os.Stat(last.Path)
	require.NoError(t, err)
	assert.EqualValues(t, 0o600, st.Mode().Perm())
	assert.Equal(t, st.Size(), last.Bytes)
	assert.Len(t, book(t, last.Path), last.Proof.Chain.Lines)
}

func TestBackupsOfOneSecondAndUnknownFolder(t *testing.T) {
	d := logged(t)
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(partOf(t, d.db, dir), []byte("half of one that was killed"), 0o600))
	for range 2 {
		_, err := d.db.Backup(ctx, start, dir)
		require.NoError(t, err)
	}
	assert.Equal(t, []string{"crew-20310424-130000Z-2.db", "crew-20310424-130000Z.db"}, names(t, dir))
	list, err := d.db.Backups(ctx, dir)
	require.NoError(t, err)
	require.Len(t, list, 2)
	assert.Equal(t, "crew-20310424-130000Z-2.db", filepath.Base(list[0].Path), "the newest")
	_, err = d.db.Backup(ctx, start, filepath.Join(dir, "none"))
	var fe *FileError
	require.ErrorAs(t, err, &fe)
	assert.Contains(t, fe.Error(), "there is no folder")
}

// A logbook that is not as written is kept apart and pushes no good backup out.
func TestBackupOfABrokenLogbook(t *testing.T) {
	d := logged(t)
	dir := t.TempDir()
	_, err := d.db.Backup(ctx, start, dir)
	require.NoError(t, err)
	d.spoil(`UPDATE entries SET count = 54 WHERE id = 4`)
	for range 2 {
		_, err = d.db.Backup(ctx, start.Add(time.Hour), dir)
		var broken *BrokenError
		require.ErrorAs(t, err, &broken)
		assert.Contains(t, err.Error(), "line 4 of 2031-04-24 13:00 UTC by Wren")
	}
	assert.Equal(t, []string{"crew-20310424-130000Z.db", "crew-broken.db"}, names(t, dir))
	list, err := d.db.Backups(ctx, dir)
	require.NoError(t, err)
	assert.Len(t, list, 1)
}

// Derived rows that something spoiled are counted, and no reason to have no backup.
func TestBackupCountsDifferingRows(t *testing.T) {
	d := logged(t)
	d.do(func(tx *Tx) error {
		_, err := tx.exec(`UPDATE tasks SET count = 1 WHERE key = 'batch 1/move'`)
		return err
	})
	k, err := d.db.Backup(ctx, start, t.TempDir())
	require.NoError(t, err)
	assert.Equal(t, 1, k.Proof.Differ)
}

// backUpForEver makes backups until it is killed, and says after each that it is made.
func backUpForEver(path, dir string) {
	db, err := Open(ctx, path, Options{})
	for n := 0; err == nil; n++ {
		fmt.Println("next")
		_, err = db.Backup(ctx, start.Add(time.Duration(n)*time.Second), dir)
	}
	fmt.Println("failed:", err)
}

// Killed at any moment, no half of a backup stands under a backup's name, and the next
// one is made all the same.
func TestBackupKilled(t *testing.T) {
	d := logged(t)
	bulk(t, d, 300)
	path, dir := d.db.path, t.TempDir()
	part := partOf(t, d.db, dir)
	require.NoError(t, d.db.Close())
	r := rand.New(rand.NewPCG(5, 6))
	halves := 0
	for range 12 {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), "YARDBELL_TEST_BACKUPS="+path, "YARDBELL_TEST_TO="+dir)
		out, err := c.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, c.Start())
		said, err := bufio.NewReader(out).ReadString('\n')
		require.NoError(t, err)
		require.Equal(t, "next\n", said)
		<-time.After(time.Duration(r.IntN(60)) * time.Millisecond)
		require.NoError(t, c.Process.Kill())
		_ = c.Wait()
		if exists(part) {
			halves++
		}
		list, err := NamedBackups(path, dir)
		require.NoError(t, err)
		for _, b := range list {
			p, err := prove(ctx, start, b.Path, Options{})
			require.NoError(t, err)
			assert.Empty(t, p.Chain.Broken)
			assert.Equal(t, 306, p.Chain.Lines)
			require.NoError(t, os.Remove(b.Path))
		}
	}
	assert.Positive(t, halves, "none was killed in the middle")
	db := openFile(t, path)
	_, err := db.Backup(ctx, start.Add(time.Hour), dir)
	require.NoError(t, err)
	assert.Equal(t, []string{"crew-20310424-140000Z.db"}, names(t, dir))
}

// A full disk is said in a sentence, and leaves nothing.
func TestBackupToAFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=128k"); err != nil {
		t.Skip("a small file system cannot be made here: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	d := logged(t)
	_, err := d.db.Backup(ctx, start, dir)
	var fe *FileError
	require.ErrorAs(t, err, &fe)
	assert.Contains(t, fe.Error(), "the disk is full")
	assert.Contains(t, fe.Error(), dir)
	assert.NotContains(t, fe.Error(), ".part")
	assert.Empty(t, names(t, dir))
}

// No room for the copy, no upgrade: the file is as it was.
func TestNoUpgradeWithoutACopy(t *testing.T) {
	made := filepath.Join(t.TempDir(), "crew.db")
	text, err := os.ReadFile("testdata/schema5.sql")
	require.NoError(t, err)
	raw(t, made, string(text))
	b, err := os.ReadFile(made)
	require.NoError(t, err)
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, fmt.Sprintf("size=%d", len(b)+len(b)/2)); err != nil {
		t.Skip("a small file system cannot be made here: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	path := filepath.Join(dir, "crew.db")
	require.NoError(t, os.WriteFile(path, b, 0o600))
	before := folder(t, dir)
	_, err = Open(ctx, path, Options{})
	require.ErrorContains(t, err, "the disk is full")
	assert.Contains(t, err.Error(), "before the upgrade")
	assert.Equal(t, before, folder(t, dir))
}

// The copy of an upgrade that came to nothing is not kept again; one of another state is.
func TestCopiesBeforeUpgrades(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "crew.db")
	text, err := os.ReadFile("testdata/schema5.sql")
	require.NoError(t, err)
	raw(t, path, string(text))
	for range 2 {
		require.NoError(t, keepBefore(ctx, path, 6))
	}
	assert.Equal(t, []string{"crew.db", "crew.db.before-v6"}, names(t, dir))
	raw(t, path, `UPDATE offsets SET next = 99`)
	require.NoError(t, keepBefore(ctx, path, 6))
	assert.Equal(t, []string{"crew.db", "crew.db.before-v6", "crew.db.before-v6-2"}, names(t, dir))
	st, err := os.Stat(path + ".before-v6")
	require.NoError(t, err)
	assert.EqualValues(t, 0o600, st.Mode().Perm())
}

func TestFilesAreForTheirOwner(t *testing.T) {
	d := logged(t)
	for _, end := range []string{"", "-wal", "-shm"} {
		st, err := os.Stat(d.db.path + end)
		require.NoError(t, err)
		assert.EqualValues(t, 0o600, st.Mode().Perm(), end)
	}
	assert.Empty(t, Exposed(d.db.path))
	require.NoError(t, os.Chmod(d.db.path+"-wal", 0o644))
	assert.Equal(t, []string{d.db.path + "-wal"}, Exposed(d.db.path))
}

// Twelve weeks of a backup a day: which stay.
func TestSpare(t *testing.T) {
	var list []BackupFile
	for n := range 84 {
		made := time.Date(2031, 6, 29, 3, 15, 0, 0, time.UTC).AddDate(0, 0, -n) // a Sunday
		list = append(list, BackupFile{Path: made.Format("Mon 2006-01-02"), Made: made})
	}
	stay := func(k Keeping) (out []string) {
		spare := k.Spare(list)
		for _, b := range list {
			if !slices.Contains(spare, b) {
				out = append(out, b.Path)
			}
		}
		return out
	}
	assert.Equal(t, []string{"Sun 2031-06-29"}, stay(Keeping{}))
	assert.Equal(t, []string{"Sun 2031-06-29", "Sat 2031-06-28", "Fri 2031-06-27"}, stay(Keeping{Newest: 3}))
	assert.Equal(t, []string{"Sun 2031-06-29", "Sat 2031-06-28", "Sun 2031-06-22", "Sun 2031-06-15"}, stay(Keeping{Newest: 2, Weeks: 3}))
	assert.Equal(t, []string{"Sun 2031-06-29", "Sat 2031-06-28", "Sun 2031-06-22"}, stay(Keeping{Days: 2, Weeks: 2}))
	assert.Empty(t, Keeping{Newest: 100}.Spare(list))
}

// Whatever stands in the folder under the name of a backup, only this database's own are
// removed: not another one's of the same name, another program's, nor what is no database.
func TestPruneTouchesNothingElse(t *testing.T) {
	d, dir := logged(t), t.TempDir()
	other := logged(t) // its file has the same name
	var mine, others []string
	for n := range 4 {
		k, err := d.db.Backup(ctx, start.Add(time.Duration(n)*time.Hour), dir)
		require.NoError(t, err)
		mine = append(mine, filepath.Base(k.Path))
		k, err = other.db.Backup(ctx, start.Add(time.Duration(n)*time.Hour), dir)
		require.NoError(t, err)
		others = append(others, filepath.Base(k.Path))
	}
	raw(t, filepath.Join(dir, "crew-20310101-000000Z.db"), `CREATE TABLE notes (text); PRAGMA user_version = 3;`)
	raw(t, filepath.Join(dir, "crew-20310101-000003Z.db"), fmt.Sprintf(`PRAGMA application_id = %d; CREATE TABLE identity (id TEXT);`, applicationID))
	for _, n := range []string{"crew-20310101-000001Z.db", "crew-20310424.db", "crew-broken.db", "other-20310424-130000Z.db", "crew-2-20310424-130000Z.db", "crew-20319999-999999Z.db", "notes.txt"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, n), nil, 0o600))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "crew-20310101-000002Z.db"), []byte("somebody's own words"), 0o600))
	before := names(t, dir)
	for range 2 {
		_, err := Keeping{Newest: 2}.Prune(ctx, d.db, dir)
		require.NoError(t, err)
	}
	var gone []string
	left := names(t, dir)
	for _, n := range before {
		if !slices.Contains(left, n) {
			gone = append(gone, n)
		}
	}
	assert.Equal(t, mine[:2], gone)
	list, err := other.db.Backups(ctx, dir)
	require.NoError(t, err)
	assert.Len(t, list, len(others))
	last, found, err := d.db.LastBackup(ctx, dir, start.Add(150*time.Minute))
	require.NoError(t, err)
	assert.True(t, found)
	assert.Equal(t, mine[2], filepath.Base(last.Path))
	_, found, err = d.db.LastBackup(ctx, dir, start.Add(time.Hour))
	require.NoError(t, err)
	assert.False(t, found, "those that were pruned, and another's, are none")
}

// Put back to an earlier state, a database does not remove the backups with what was
// logged after it; nor does the one that goes on remove those of its copy.
func TestPruneLeavesLinesItLacks(t *testing.T) {
	d, dir := logged(t), t.TempDir()
	back := func(d *diary, hour int) string {
		k, err := d.db.Backup(ctx, start.Add(time.Duration(hour)*time.Hour), dir)
		require.NoError(t, err)
		return filepath.Base(k.Path)
	}
	first := back(d, 0)
	d.log(rules.Entry{Step: rules.Feed, Subject: rules.BreederSubject(7)})
	second := back(d, 1)
	path := filepath.Join(t.TempDir(), "crew.db")
	_, err := Restore(ctx, start, filepath.Join(dir, first), path, false, Options{})
	require.NoError(t, err)
	c := &diary{t: t, db: openFile(t, path), crew: d.crew, now: start, update: 500}
	third := back(c, 2)
	n, err := Keeping{}.Prune(ctx, c.db, dir)
	require.NoError(t, err)
	assert.Equal(t, 1, n, "the identity comes back with a backup, so that older ones count")
	assert.Equal(t, []string{second, third}, names(t, dir))
	c.log(rules.Entry{Step: rules.Feed, Subject: rules.BreederSubject(9)})
	fourth := back(c, 3)
	for _, db := range []*DB{c.db, d.db} {
		_, err = Keeping{}.Prune(ctx, db, dir)
		require.NoError(t, err)
	}
	assert.Equal(t, []string{second, fourth}, names(t, dir))
}

// A backup from before there were identities goes where all its lines stand in the
// database, and stays beside any other.
func TestPruneKnowsBackupsFromBefore(t *testing.T) {
	text, err := os.ReadFile("testdata/schema9.sql")
	require.NoError(t, err)
	path, dir := filepath.Join(t.TempDir(), "crew.db"), t.TempDir()
	raw(t, path, string(text))
	raw(t, filepath.Join(dir, "crew-20310423-000000Z.db"), string(text))
	db, other := openFile(t, path), logged(t)
	for n, d := range []*DB{other.db, db} {
		_, err := d.Backup(ctx, start.Add(time.Duration(n)*time.Hour), dir)
		require.NoError(t, err)
	}
	n, err := Keeping{}.Prune(ctx, other.db, dir)
	require.NoError(t, err)
	assert.Zero(t, n)
	n, err = Keeping{}.Prune(ctx, db, dir)
	require.NoError(t, err)
	assert.Equal(t, 1, n)
	assert.Equal(t, []string{"crew-20310424-130000Z.db", "crew-20310424-140000Z.db"}, names(t, dir))
}

// Two databases of one name back up into one folder at once, in the same seconds: each
// has its own, and no name is taken twice.
func TestTwoOfOneNameBackUpAtOnce(t *testing.T) {
	dir := t.TempDir()
	var dbs []*DB
	for range 2 {
		d := logged(t)
		bulk(t, d, 50)
		dbs = append(dbs, d.db)
	}
	var wg sync.WaitGroup
	var kept [2][]string
	for i, db := range dbs {
		wg.Go(func() {
			for n := range 6 {
				k, err := db.Backup(ctx, start.Add(time.Duration(n)*time.Second), dir)
				if !assert.NoError(t, err) {
					return
				}
				kept[i] = append(kept[i], k.Path)
			}
		})
	}
	wg.Wait()
	assert.Len(t, names(t, dir), 12)
	for i, db := range dbs {
		list, err := db.Backups(ctx, dir)
		require.NoError(t, err)
		var paths []string
		for _, b := range list {
			paths = append(paths, b.Path)
		}
		slices.Reverse(paths)
		assert.Equal(t, kept[i], paths)
	}
}

// Of two broken logbooks of one name both are kept apart, each once.
func TestTwoBrokenLogbooks(t *testing.T) {
	dir := t.TempDir()
	for range 2 {
		d := logged(t)
		d.spoil(`UPDATE entries SET count = 54 WHERE id = 4`)
		for range 2 {
			_, err := d.db.Backup(ctx, start, dir)
			var broken *BrokenError
			require.ErrorAs(t, err, &broken)
		}
	}
	assert.Equal(t, []string{"crew-broken-2.db", "crew-broken.db"}, names(t, dir))
}

// partOf is where a database writes its backup before that has a name.
func partOf(t *testing.T, db *DB, dir string) string {
	t.Helper()
	id, err := db.identity(ctx)
	require.NoError(t, err)
	require.Len(t, id, 32)
	return filepath.Join(dir, ".crew-"+id[:12]+".part")
}

// BenchmarkBackup is a backup of a file with 10,000 lines, proof and all.
func BenchmarkBackup(b *testing.B) {
	d := newDiary(b, fresh(b))
	bulk(b, d, 10_000)
	dir := b.TempDir()
	b.ResetTimer()
	for n := range b.N {
		k, err := d.db.Backup(ctx, start.Add(time.Duration(n)*time.Second), dir)
		require.NoError(b, err)
		b.ReportMetric(float64(k.Bytes)/1e6, "MB")
	}
}

// bulk logs rounds of grafts, moves and feeds until there are so many lines.
func bulk(t require.TestingT, d *diary, lines int) {
	var m Member
	d.do(func(tx *Tx) (err error) {
		m, err = tx.Member(d.crew, "wren", "Wren")
		return err
	})
	d.do(func(tx *Tx) error {
		for n := 1; n < lines; n++ {
			batch, count := 1+n/10, 20+n%30
			at := start.Add(time.Duration(batch) * 24 * time.Hour)
			e := rules.Entry{Said: at, Happened: at, Action: rules.Did, Subject: rules.BatchSubject(batch), Count: &count}
			switch n % 10 {
			case 0:
				e.Step, e.From, e.Into = rules.Graft, 7, fmt.Sprintf("B%d", batch%9)
			case 1:
				e.Step = rules.Accept
			case 2:
				e.Step = rules.Capped
			case 3:
				e.Step, e.Into = rules.Move, "North"
			case 4:
				e.Step = rules.Emerge
			case 5:
				e.Step = rules.Laying
			default:
				e.Step, e.Subject, e.Count = rules.Feed, rules.BuilderSubject(fmt.Sprintf("B%d", n%9)), nil
			}
			d.update++
			row, _, err := tx.MarkUpdate(Update{Source: "test", UpdateID: d.update, Crew: d.crew.ID, Member: m.ID, Kind: "message", Message: d.update, Text: "as typed in the yard", Said: at})
			if err != nil {
				return err
			}
			if _, err := tx.Append(d.crew.ID, row, m, d.update, "as typed in the yard", e); err != nil {
				return err
			}
		}
		_, err := tx.Rebuild()
		return err
	})
}
