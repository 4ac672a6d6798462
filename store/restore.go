package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"time"
)

// This file puts a backup in the place of the database.

// Restored is what a restore brought back.
type Restored struct {
	Proof  Proof
	Crews  int
	Aside  string // what was there before, "" where nothing was
	Before Chain  // of that; without lines where it could not be read
}

// Restore puts a copy of the file from in the place of path, after proving that it is
// a file of ours, whole, of a schema this version knows, with its logbook as it was
// written. A file that is at path stays where replace is false, with an error, and else
// is kept under a name with the time in it. The caller holds the lock of path.
//
// What the crew sees of before the restore stays in the chat; what was logged after the
// backup is not in it.
func Restore(ctx context.Context, now time.Time, from, path string, replace bool, o Options) (r Restored, err error) {
	if there, err := os.Stat(path); err == nil {
		src, err := os.Stat(from)
		switch {
		case err == nil && os.SameFile(there, src):
			return r, &FileError{path, "cannot be restored from itself"}
		case !replace:
			return r, &FileError{path, "is there already; it is replaced, and kept under another name, with --force"}
		}
	}
	if err := checkSource(ctx, from); err != nil {
		return r, err
	}
	part := path + ".restore.part"
	removeFile(part)
	if err := copyInto(ctx, from, part); err != nil {
		return r, err
	}
	defer removeFile(part)
	if r.Proof, err = prove(ctx, now, part, o); err != nil {
		return r, err
	}
	if len(r.Proof.Chain.Broken) > 0 {
		return r, fmt.Errorf("%s was not restored: %w; take an older one", from, &BrokenError{"", r.Proof.Chain})
	}
	if r.Crews, err = settle(ctx, now, part, o); err != nil {
		return r, err
	}
	if occupied(path) {
		if r.Before, r.Aside, err = setAside(ctx, now, path, o); err != nil {
			return r, err
		}
	}
	return r, put(part, path)
}

// occupied reports whether a file is at path, or anything that SQLite kept beside one:
// left over it would be taken for a part of the file that comes there.
func occupied(path string) bool {
	for _, end := range append([]string{""}, sideFiles...) {
		if exists(path + end) {
			return true
		}
	}
	return false
}

// checkSource looks at the file before it is copied, since copying would mend an index
// and hide that the file is damaged.
func checkSource(ctx context.Context, from string) error {
	found, err := probe(ctx, from)
	if err != nil {
		return err
	}
	if !exists(from) {
		return &FileError{from, "does not exist"}
	}
	if !found.ours || found.schema == 0 {
		return &FileError{from, "is no database of Yardbell"}
	}
	return nil
}

// settle derives everything anew in the file that is to be the database.
func settle(ctx context.Context, now time.Time, path string, o Options) (crews int, err error) {
	o.noCopy = true
	db, err := Open(ctx, path, o)
	if err != nil {
		return 0, err
	}
	if now, err = db.lived(ctx, now); err != nil {
		return 0, errors.Join(err, db.Close())
	}
	err = db.Update(ctx, now, func(tx *Tx) error {
		list, err := tx.Crews()
		if err != nil {
			return err
		}
		crews = len(list)
		_, err = tx.Rebuild()
		return err
	})
	if err := errors.Join(err, db.Close()); err != nil {
		return crews, err
	}
	return crews, syncFile(path)
}

// setAside gives the file at path a second name, under which it stays. It keeps its
// first until the new one takes it in a single step, so that there is always a file.
func setAside(ctx context.Context, now time.Time, path string, o Options) (c Chain, aside string, err error) {
	if c, err = lastWord(ctx, now, path, o); err != nil {
		return c, "", err
	}
	base := path + ".replaced-" + now.UTC().Format(stampForm)
	aside = base
	for n := 2; exists(aside); n++ {
		aside = fmt.Sprintf("%s-%d", base, n)
	}
	if err := os.Link(path, aside); err != nil && exists(path) {
		// A file system without second names: for a moment there is none at path.
		if err := os.Rename(path, aside); err != nil {
			return c, "", &FileError{path, "cannot be kept under another name: " + reason(err)}
		}
	}
	// Of a file that could not be closed well, what SQLite keeps beside it is part of
	// it, and would spoil the one that takes its place.
	for _, end := range sideFiles {
		if exists(path + end) {
			if err := os.Rename(path+end, aside+end); err != nil {
				return c, "", &FileError{path + end, "cannot be kept under another name: " + reason(err)}
			}
		}
	}
	return c, aside, nil
}

// lastWord brings what stands beside the file into it, which takes having it alone, and
// looks at its logbook. A damaged file is left as it is: it is why one restores.
func lastWord(ctx context.Context, now time.Time, path string, o Options) (c Chain, err error) {
	found, err := probe(ctx, path)
	if err != nil || !found.ours || found.schema == 0 {
		return c, nil // it is damaged, or none of ours
	}
	db, err := sql.Open("sqlite", dsn(path, ""))
	if err != nil {
		return c, fileError(path, err)
	}
	db.SetMaxOpenConns(1)
	// Only who has the file alone may change its journal.
	_, err = db.ExecContext(ctx, `PRAGMA journal_mode = DELETE`)
	if err := errors.Join(err, db.Close()); err != nil {
		if busy(err) {
			return c, &FileError{path, "is open in another program; stop that one first"}
		}
		return c, nil
	}
	if newest, err := newestKnown(); err != nil || found.schema != newest {
		return c, err
	}
	o.ReadOnly = true
	old, err := Open(ctx, path, o)
	if err != nil {
		return c, nil // as above
	}
	err = old.View(ctx, now, func(tx *Tx) (err error) {
		c, err = tx.VerifyChain()
		return err
	})
	if err != nil {
		c = Chain{}
	}
	return c, old.Close()
}
