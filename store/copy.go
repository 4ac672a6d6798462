package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// This file copies database files: whole, readable by their owner alone, on the disk
// before they get their name.

// sideFiles are what SQLite may put beside a file.
var sideFiles = []string{"-wal", "-shm", "-journal"}

// copyInto writes a consistent copy of the database at from into the new file to, also
// while others write to it. Where it fails nothing is left at to.
func copyInto(ctx context.Context, from, to string) (err error) {
	f, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return &FileError{to, "cannot be created: " + reason(err)}
	}
	if err := f.Close(); err != nil {
		return &FileError{to, "cannot be created: " + reason(err)}
	}
	defer func() {
		if err != nil {
			removeFile(to)
		}
	}()
	extra := "&mode=rw"
	if !exists(from+"-wal") && !exists(from+"-journal") {
		if f, err := os.OpenFile(from, os.O_RDWR, 0); err != nil {
			extra = "&mode=ro&immutable=1" // on a medium that is read-only; nobody has it open
		} else if err := f.Close(); err != nil {
			return &FileError{from, "cannot be read: " + reason(err)}
		}
	}
	db, err := sql.Open("sqlite", dsn(from, extra))
	if err != nil {
		return fileError(from, err)
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	db.SetMaxOpenConns(1)
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, to); err != nil {
		return fileError(to, err)
	}
	return syncFile(to)
}

// removeFile takes a database file of ours away with what SQLite put beside it. What
// cannot be removed is found and removed by the next backup.
func removeFile(path string) {
	for _, end := range append([]string{""}, sideFiles...) {
		_ = os.Remove(path + end)
	}
}

// syncFile waits until a file, or a folder's list of names, is on the disk.
func syncFile(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return &FileError{path, "cannot be read: " + reason(err)}
	}
	err = f.Sync()
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return &FileError{path, "cannot be written: " + reason(err)}
	}
	return nil
}

// put gives a finished file its name, for good.
func put(part, path string) error {
	if err := os.Rename(part, path); err != nil {
		return &FileError{path, "cannot be written: " + reason(err)}
	}
	return syncFile(filepath.Dir(path))
}

// reason is what the system says, without the path, which our sentences name already.
func reason(err error) string {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		err = p.Err
	case errors.As(err, &l):
		err = l.Err
	}
	return firstLine(err.Error())
}

// keepBefore keeps a copy of a file that is about to be brought to a newer schema:
// FILE.before-vN, or with a number behind it where another copy has that name. The same
// copy, from an upgrade that came to nothing, is not kept twice.
func keepBefore(ctx context.Context, path string, newest int64) error {
	part := path + ".before.part"
	removeFile(part)
	err := copyInto(ctx, path, part)
	if err == nil {
		defer removeFile(part)
		var found probed
		if found, err = probe(ctx, part); err == nil && !found.ours {
			err = foreign(part)
		}
	}
	if err != nil {
		var fe *FileError
		if errors.As(err, &fe) {
			return &FileError{path, "is not upgraded, since no copy of it can be kept before the upgrade: the copy " + fe.Why}
		}
		return err
	}
	for n := 1; ; n++ {
		name := fmt.Sprintf("%s.before-v%d", path, newest)
		if n > 1 {
			name += fmt.Sprintf("-%d", n)
		}
		if !exists(name) {
			return put(part, name)
		}
		same, err := sameBytes(part, name)
		if err != nil || same {
			return err
		}
	}
}

func sameBytes(a, b string) (bool, error) {
	var sums [2][sha256.Size]byte
	for i, path := range []string{a, b} {
		f, err := os.Open(path)
		if err != nil {
			return false, &FileError{path, "cannot be read: " + reason(err)}
		}
		h := sha256.New()
		_, err = io.Copy(h, f)
		_ = f.Close()
		if err != nil {
			return false, &FileError{path, "cannot be read: " + reason(err)}
		}
		h.Sum(sums[i][:0])
	}
	return sums[0] == sums[1], nil
}

// Exposed lists those of a database's files, given with others, that everybody on the
// machine can read.
func Exposed(paths ...string) (out []string) {
	for _, path := range paths {
		for _, end := range append([]string{"", ".lock"}, sideFiles...) {
			if st, err := os.Stat(path + end); err == nil && st.Mode().Perm()&0o004 != 0 {
				out = append(out, path+end)
			}
		}
	}
	return out
}
