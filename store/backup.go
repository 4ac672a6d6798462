package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// This file makes backups: a copy of the file while it is in use, opened again and
// proved before it gets its name.

// Kept is a backup that was made.
type Kept struct {
	Path  string
	Bytes int64
	Proof Proof
}

// Proof is what was found on opening a copy.
type Proof struct {
	Chain  Chain
	Differ int // rows that come out otherwise when derived anew: a rules file changed, or another version wrote them
}

// BrokenError says that a copy was made and its logbook is not as it was written.
type BrokenError struct {
	Path  string // where the copy is, "" where none was kept
	Chain Chain
}

func (e *BrokenError) Error() string {
	s := fmt.Sprintf("the logbook is not as it was written: %s", e.Chain.Broken[0])
	if n := len(e.Chain.Broken) - 1; n > 0 {
		s += fmt.Sprintf(", and %d more", n)
	}
	if e.Path != "" {
		s += "; kept apart as " + e.Path
	}
	return s
}

// Backup copies the file into the folder dir, under a name with the time in it. The
// copy is proved and on the disk before it has that name: whatever fails, and whenever
// the machine stops, no half of one stands there. A logbook that is not as it was
// written is kept under one name that stays the same, does not count as a backup and
// pushes none out; the error is then a *BrokenError.
func (d *DB) Backup(ctx context.Context, now time.Time, dir string) (k Kept, err error) {
	if st, err := os.Stat(dir); err != nil || !st.IsDir() {
		return k, &FileError{d.path, fmt.Sprintf("cannot be backed up: there is no folder %s", dir)}
	}
	id, err := d.identity(ctx)
	if err != nil {
		return k, err
	}
	base := backupBase(d.path)
	own := filepath.Join(dir, fmt.Sprintf(".%s-%.12s", base, id)) // another of the same name may be at work here
	lock := flock.New(own + ".lock")
	if ok, err := lock.TryLock(); err != nil {
		return k, &FileError{d.path, fmt.Sprintf("cannot be backed up: the folder %s must allow writing", dir)}
	} else if !ok {
		return k, &FileError{d.path, fmt.Sprintf("is being backed up to %s already", dir)}
	}
	defer func() { _ = lock.Unlock() }()
	part := own + ".part"
	removeFile(part) // of one that was killed
	if err := copyInto(ctx, d.path, part); err != nil {
		return k, backupError(d.path, dir, part, err)
	}
	defer removeFile(part)
	if k.Proof, err = prove(ctx, now, part, Options{Table: d.table}); err != nil {
		return k, backupError(d.path, dir, part, err)
	}
	// Between looking for a name and taking it nobody else may take it.
	naming := flock.New(filepath.Join(dir, "."+base+".lock"))
	if _, err := naming.TryLockContext(ctx, 10*time.Millisecond); err != nil {
		return k, &FileError{d.path, fmt.Sprintf("cannot be backed up: the folder %s cannot be locked", dir)}
	}
	defer func() { _ = naming.Unlock() }()
	if len(k.Proof.Chain.Broken) > 0 {
		broken := brokenName(ctx, dir, base, id)
		if err := put(part, broken); err != nil {
			return k, backupError(d.path, dir, part, err)
		}
		return k, &BrokenError{broken, k.Proof.Chain}
	}
	k.Path = freeName(dir, base, now)
	if err := put(part, k.Path); err != nil {
		return k, backupError(d.path, dir, part, err)
	}
	st, err := os.Stat(k.Path)
	if err != nil {
		return k, backupError(d.path, dir, part, err)
	}
	k.Bytes = st.Size()
	return k, nil
}

// backupError says of a part what is true of the backup: nobody ever sees the part.
func backupError(path, dir, part string, err error) error {
	var fe *FileError
	if errors.As(err, &fe) && fe.Path == part {
		return &FileError{path, fmt.Sprintf("was not backed up to %s: the copy %s", dir, fe.Why)}
	}
	return err
}

// errUndone takes back what was done only to look at it.
var errUndone = errors.New("only looked at")

// prove opens a file, has SQLite check it, walks its chain and derives everything anew
// for comparison. The rows stay as they were; the file is then on the disk.
func prove(ctx context.Context, now time.Time, path string, o Options) (p Proof, err error) {
	o.noCopy = true
	db, err := Open(ctx, path, o)
	if err != nil {
		return p, err
	}
	if err := db.Check(ctx); err != nil {
		return p, errors.Join(err, db.Close())
	}
	if now, err = db.lived(ctx, now); err != nil {
		return p, errors.Join(err, db.Close())
	}
	err = db.Update(ctx, now, func(tx *Tx) (err error) {
		if p.Chain, err = tx.VerifyChain(); err != nil {
			return err
		}
		if p.Differ, err = tx.Rebuild(); err != nil {
			return err
		}
		return errUndone
	})
	if errors.Is(err, errUndone) {
		err = nil
	}
	if err := errors.Join(err, db.Close()); err != nil {
		return p, err
	}
	return p, syncFile(path)
}

// lived is now, or the latest time that the file has seen where that is later: a file
// played on a simulated clock may be ahead, and planning it at an hour that it has lived
// through would queue again what is settled.
func (d *DB) lived(ctx context.Context, now time.Time) (time.Time, error) {
	err := d.View(ctx, now, func(tx *Tx) error {
		last, err := tx.Newest()
		if last.After(now) {
			now = last
		}
		return err
	})
	return now, err
}
