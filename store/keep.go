package store

import (
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

// Backups lists the backups of the database at path in the folder dir, newest first.
func Backups(path, dir string) ([]BackupFile, error) {
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

// Prune removes the backups of the database at path that need not stay.
func (k Keeping) Prune(path, dir string) (removed int, err error) {
	list, err := Backups(path, dir)
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
