package store

import (
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
)

// This file judges a database file before it is opened for work. Opening one in
// WAL mode already writes to it, and a file that is refused must stay as it was.

// probed is what a file turns out to be.
type probed struct {
	ours      bool  // it carries our mark
	schema    int64 // 0 before the first migration
	unchecked bool  // too large to be read for damage first
}

// largeFile is from how many bytes on a file may be opened before it was read for damage.
// Reading takes about a second for each hundred megabytes, and pings wait meanwhile.
const largeFile = 64 << 20

// checkPath looks at the path before SQLite does, whose own errors for these
// cases do not say what to do.
func checkPath(path string, mustExist bool) error {
	bad := func(why string) error { return &FileError{path, why} }
	st, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if mustExist {
			return bad("does not exist")
		}
		dir := filepath.Dir(path)
		if d, err := os.Stat(dir); err != nil || !d.IsDir() {
			return bad("cannot be created: there is no folder " + dir)
		}
		return nil
	case err != nil:
		return bad("cannot be read: " + err.Error())
	case st.IsDir():
		return bad("is a directory; name a file in it")
	case !st.Mode().IsRegular():
		return bad("is not a regular file")
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil || st.Mode().Perm()&0o222 == 0 {
		if err == nil {
			_ = f.Close()
		}
		return bad("is read-only; allow writing to it and to its folder")
	}
	return f.Close()
}

// headerSize is the length of the header of every SQLite file.
const headerSize = 100

// probe says what the file at path is, without changing it: no lock that lasts,
// no file left beside it.
func probe(ctx context.Context, path string) (probed, error) {
	return probeBelow(ctx, path, math.MaxInt64)
}

// probeBelow reads a file for damage only where it has less than large bytes.
func probeBelow(ctx context.Context, path string, large int64) (probed, error) {
	head, err := header(path)
	if err != nil || head == nil {
		return probed{}, err
	}
	ours := binary.BigEndian.Uint32(head[68:]) == applicationID
	mode := "&mode=ro"
	switch {
	case exists(path + "-journal"):
		// A crash left it half written, and only a writer may set that right.
		if !ours {
			return probed{}, foreign(path)
		}
		mode = "&mode=rw"
	case !exists(path + "-wal"):
		// Nobody has it open. Without this SQLite would put its two side files
		// beside it and, having read only, leave them there.
		mode += "&immutable=1"
	case !ours:
		return probed{}, foreign(path)
	}
	db, err := sql.Open("sqlite", dsn(path, mode))
	if err != nil {
		return probed{}, fileError(path, err)
	}
	defer func() { _ = db.Close() }()
	db.SetMaxOpenConns(1)
	st, err := os.Stat(path)
	if err != nil {
		return probed{}, &FileError{path, "cannot be read: " + reason(err)}
	}
	p, err := examine(ctx, db, path, ours, st.Size() >= large)
	if err != nil {
		return p, fileError(path, err)
	}
	return p, nil
}

func examine(ctx context.Context, db *sql.DB, path string, ours, later bool) (probed, error) {
	p := probed{ours: ours, unchecked: later}
	if !ours {
		var tables int
		if err := db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema`).Scan(&tables); err != nil {
			return p, err
		}
		if tables > 0 {
			return p, foreign(path)
		}
		return p, nil
	}
	if !later {
		if err := quickCheck(ctx, db, path); err != nil {
			return p, err
		}
	}
	var tables int
	if err := db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema WHERE name = 'goose_db_version'`).Scan(&tables); err != nil || tables == 0 {
		return p, err
	}
	return p, db.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version`).Scan(&p.schema)
}

func quickCheck(ctx context.Context, db *sql.DB, path string) error {
	var ok string
	if err := db.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&ok); err != nil {
		return err
	}
	if ok != "ok" {
		return damaged(path, ok)
	}
	return nil
}

// CheckLate reads a file for damage that was too large to be read before it was opened.
// Where it was read then, there is nothing to do.
func (d *DB) CheckLate(ctx context.Context) error {
	if !d.unchecked {
		return nil
	}
	err := quickCheck(ctx, d.r, d.path)
	if err == nil || ctx.Err() != nil {
		return err
	}
	err = fileError(d.path, err)
	_ = os.WriteFile(d.path+damageMark, []byte(err.Error()+"\n"), 0o600) // at worst it is found again
	return err
}

// damageMark ends the name of a file that stands beside one in which damage was found
// late: while it is there, the damaged one is read before it is opened.
const damageMark = "-damaged"

func foreign(path string) error {
	return &FileError{path, "belongs to another program; name another file"}
}

func damaged(path, how string) error {
	how = strings.TrimPrefix(how, "*** in database main ***\n") // SQLite's heading
	return &FileError{path, fmt.Sprintf("is damaged (%s); keep it as it is and restore a copy", firstLine(how))}
}

// emptyFile refuses a file that is there and has nothing in it. We never leave one: where
// one stands, something else made it, or took away what was in it, and a crew that began
// afresh on it would not see that its logbook is gone.
func emptyFile(path string) error {
	found := "0 bytes"
	if st, err := os.Stat(path); err == nil && st.Size() > 0 {
		found = fmt.Sprintf("%d bytes of SQLite without a table", st.Size())
	}
	if st, err := os.Stat(path + "-wal"); err == nil && st.Size() > 0 {
		found += fmt.Sprintf(", beside it %s-wal with %d", filepath.Base(path), st.Size())
	}
	return &FileError{path, "is there but empty (" + found + "): no crew's logbook is in it; restore a backup, or name a file that is not there yet to begin a new one"}
}

// header reads the header of an SQLite file; nil where there is no file yet or
// nothing in it.
func header(path string) ([]byte, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, &FileError{path, "cannot be read: " + err.Error()}
	}
	defer func() { _ = f.Close() }()
	head := make([]byte, headerSize)
	n, err := io.ReadFull(f, head)
	switch {
	case errors.Is(err, io.EOF):
		return nil, nil
	case err != nil && !errors.Is(err, io.ErrUnexpectedEOF):
		return nil, &FileError{path, "cannot be read: " + err.Error()}
	case n < headerSize || string(head[:16]) != "SQLite format 3\x00":
		return nil, &FileError{path, "is damaged or not a database; keep it as it is and restore a copy"}
	}
	return head, nil
}

// claimFile makes a new file with our mark, before anything else is written and before
// it is put into WAL mode. It gets its name only with the mark in it: wherever a crash
// comes, the file is not there or is known for ours.
//
// Its pages are half as large as SQLite makes them: a line changes a few rows on each of
// some twenty pages, and what is written and waited for is pages.
func claimFile(ctx context.Context, path string) error {
	// SQLite would let everybody on the machine read it; what it puts beside the file
	// has the rights of the file.
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-new-*")
	if err != nil {
		return &FileError{path, "cannot be created: " + reason(err)}
	}
	defer removeFile(f.Name())
	if err := f.Close(); err != nil {
		return err
	}
	db, err := sql.Open("sqlite", dsn(f.Name(), "&_pragma=page_size(2048)")) // stays with the file
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, fmt.Sprintf(`PRAGMA application_id = %d`, applicationID))
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	// A link, since a rename would take the place of what another process put there. Where
	// the disk knows no links there is nothing else.
	err = os.Link(f.Name(), path)
	switch {
	case errors.Is(err, fs.ErrExist) && !exists(path):
		return &FileError{path, "is a link to a file that is not there"}
	case err != nil && !errors.Is(err, fs.ErrExist):
		if err := os.Rename(f.Name(), path); err != nil {
			return &FileError{path, "cannot be created: " + reason(err)}
		}
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
