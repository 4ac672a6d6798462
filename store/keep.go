package store

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// This file names backups and says which of them stay.

// stampForm is the time in a backup's name, UTC, so that names sort by age whatever
// the zone.
const stampForm = "20060102-150405Z"

var backupName = regexp.MustCompile(`^(.+)-(\d{8}-\d{6}Z)(?:-(\d+))?\.db$`)

// BackupFile is a backup in a folder.
type BackupFile struct {
	Path string
	Made time.Time
	nth  string // of the same second
}

// backupBase is what the names of a file's backups begin with.
func backupBase(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}

func freeName(dir, base string, now time.Time) string {
	name := filepath.Join(dir, base+"-"+now.UTC().Format(stampForm))
	path := name + ".db"
	for n := 2; exists(path); n++ {
		path = fmt.Sprintf("%s-%d.db", name, n)
	}
	return path
}

// brokenName is where a logbook that is not as it was written is kept apart: always the
// same name for one database, another where it is taken by another one's.
func brokenName(ctx context.Context, dir, base, id string) string {
	path := filepath.Join(dir, base+"-broken.db")
	for n := 2; exists(path); n++ {
		if o, ok := originOf(ctx, path); ok && o.id == id {
			break
		}
		path = filepath.Join(dir, fmt.Sprintf("%s-broken-%d.db", base, n))
	}
	return path
}

// NamedBackups lists what is called as backups of the database at path are, in the folder
// dir, newest first. Another database's may be among them.
func NamedBackups(path, dir string) ([]BackupFile, error) {
	list, err := os.ReadDir(dir)
	if err != nil {
		return nil, &FileError{path, fmt.Sprintf("has no backups in %s: %s", dir, reason(err))}
	}
	var out []BackupFile
	for _, e := range list {
		m := backupName.FindStringSubmatch(e.Name())
		if m == nil || m[1] != backupBase(path) || !e.Type().IsRegular() {
			continue
		}
		made, err := time.Parse(stampForm, m[2])
		if err != nil {
			continue
		}
		out = append(out, BackupFile{filepath.Join(dir, e.Name()), made, m[3]})
	}
	slices.SortFunc(out, func(a, b BackupFile) int {
		if c := b.Made.Compare(a.Made); c != 0 {
			return c
		}
		if c := len(b.nth) - len(a.nth); c != 0 {
			return c
		}
		return strings.Compare(b.nth, a.nth)
	})
	return out, nil
}

// Keeping says which backups stay: the newest ones, and beyond them the newest of each
// of the last days and weeks (Monday to Sunday, UTC) that have one. Zero of a kind
// keeps none by it.
type Keeping struct {
	Newest, Days, Weeks int
}

// Spare are the backups, given newest first, that need not stay. The newest always
// stays, whatever is asked for.
func (k Keeping) Spare(list []BackupFile) (spare []BackupFile) {
	days, weeks := map[string]bool{}, map[string]bool{}
	for i, b := range list {
		y, w := b.Made.ISOWeek()
		day, week := b.Made.Format(time.DateOnly), fmt.Sprintf("%d-%d", y, w)
		stays := i == 0 || i < k.Newest
		if !days[day] && len(days) < k.Days {
			days[day], stays = true, true
		}
		if !weeks[week] && len(weeks) < k.Weeks {
			weeks[week], stays = true, true
		}
		if !stays {
			spare = append(spare, b)
		}
	}
	return spare
}

// Backups lists the backups of this database in the folder dir, newest first: those that
// say so themselves, whatever else has such a name. See Tx.copied.
func (d *DB) Backups(ctx context.Context, dir string) ([]BackupFile, error) {
	return d.backups(ctx, dir, func(BackupFile) bool { return false })
}

// LastBackup is the newest backup of this database that was not made after a time; false
// where there is none.
func (d *DB) LastBackup(ctx context.Context, dir string, until time.Time) (last BackupFile, found bool, err error) {
	list, err := d.backups(ctx, dir, func(b BackupFile) bool { return !b.Made.After(until) })
	for _, b := range list {
		if !b.Made.After(until) {
			return b, true, nil
		}
	}
	return last, false, err
}

// backups reads no more files once enough is true of one.
func (d *DB) backups(ctx context.Context, dir string, enough func(BackupFile) bool) (out []BackupFile, err error) {
	list, err := NamedBackups(d.path, dir)
	if err != nil {
		return nil, err
	}
	err = d.View(ctx, fromMS(0), func(tx *Tx) error {
		for _, b := range list {
			o, ok := originOf(ctx, b.Path)
			if err := ctx.Err(); err != nil { // nothing was found out of the file
				return err
			}
			if !ok {
				continue
			}
			if ok, err = tx.copied(o); err != nil {
				return err
			}
			if !ok {
				continue
			}
			if out = append(out, b); enough(b) {
				return nil
			}
		}
		return nil
	})
	return out, err
}

// Prune removes the backups of a database in the folder dir that need not stay.
func (k Keeping) Prune(ctx context.Context, db *DB, dir string) (removed int, err error) {
	list, err := db.Backups(ctx, dir)
	if err != nil {
		return 0, err
	}
	for _, b := range k.Spare(list) {
		if err := os.Remove(b.Path); err != nil {
			return removed, &FileError{b.Path, "cannot be removed: " + reason(err)}
		}
		removed++
	}
	return removed, nil
}
