package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"github.com/pressly/goose/v3"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"yardbell/rules"
)

//go:embed migrations/*.sql
var migrations embed.FS

// applicationID marks a file as ours in SQLite's header.
const applicationID = 0x59426c6c

// DB is an open database file. One connection writes, a few more read; both see
// a consistent state because the file is in WAL mode.
type DB struct {
	w, r  *sql.DB
	path  string
	table *rules.Table
}

// FileError says in one sentence why a database file cannot be used.
type FileError struct {
	Path string
	Why  string
}

func (e *FileError) Error() string { return fmt.Sprintf("database %s %s", e.Path, e.Why) }

// Options for Open.
type Options struct {
	Table    *rules.Table // nil for the default step table
	ReadOnly bool         // refuse to create or upgrade; the logbook is not written
}

// Open opens or creates the database file at path and brings it to the newest
// schema. A file that cannot be used (a directory, read-only, locked, of a newer
// version, damaged, of another program) gives a *FileError and is left as it is.
func Open(ctx context.Context, path string, o Options) (*DB, error) {
	bad := func(why string, args ...any) error { return &FileError{path, fmt.Sprintf(why, args...)} }
	fresh, err := checkFile(path, o.ReadOnly)
	if err != nil {
		return nil, err
	}
	table := o.Table
	if table == nil {
		table = rules.DefaultTable()
	}
	d := &DB{path: path, table: table}
	closeAll := func() { _ = d.Close() }
	dsn := func(extra string) string {
		u := url.URL{Scheme: "file", Opaque: (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath()}
		return u.String() + "?_pragma=busy_timeout(5000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)" + extra
	}
	if d.w, err = sql.Open("sqlite", dsn("&_pragma=journal_mode(WAL)&_txlock=immediate")); err != nil {
		return nil, bad("cannot be opened: %v", err)
	}
	d.w.SetMaxOpenConns(1)
	if d.r, err = sql.Open("sqlite", dsn("&_pragma=query_only(1)")); err != nil {
		closeAll()
		return nil, bad("cannot be opened: %v", err)
	}
	d.r.SetMaxOpenConns(4)

	var ok string
	if err := d.w.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&ok); err != nil {
		closeAll()
		return nil, fileError(path, err)
	} else if ok != "ok" {
		closeAll()
		return nil, bad("is damaged (%s); keep it as it is and restore a copy", firstLine(ok))
	}
	var app int64
	if err := d.w.QueryRowContext(ctx, `PRAGMA application_id`).Scan(&app); err != nil {
		closeAll()
		return nil, fileError(path, err)
	}
	if !fresh && app != applicationID {
		var tables int
		if err := d.w.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema`).Scan(&tables); err != nil || tables > 0 {
			closeAll()
			return nil, bad("belongs to another program; name another file")
		}
	}
	if err := d.migrate(ctx, o.ReadOnly); err != nil {
		closeAll()
		var fe *FileError
		if errors.As(err, &fe) {
			return nil, err
		}
		return nil, fileError(path, err)
	}
	if err := d.readBack(ctx); err != nil {
		closeAll()
		return nil, fileError(path, err)
	}
	return d, nil
}

// checkFile looks at the path before SQLite does, whose own errors for these
// cases do not say what to do.
func checkFile(path string, readOnly bool) (fresh bool, err error) {
	bad := func(why string) error { return &FileError{path, why} }
	st, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if readOnly {
			return true, bad("does not exist")
		}
		dir := filepath.Dir(path)
		if d, err := os.Stat(dir); err != nil || !d.IsDir() {
			return true, bad("cannot be created: there is no folder " + dir)
		}
		return true, nil
	case err != nil:
		return false, bad("cannot be read: " + err.Error())
	case st.IsDir():
		return false, bad("is a directory; name a file in it")
	case !st.Mode().IsRegular():
		return false, bad("is not a regular file")
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil || st.Mode().Perm()&0o222 == 0 {
		if err == nil {
			_ = f.Close()
		}
		return false, bad("is read-only; allow writing to it and to its folder")
	}
	_ = f.Close()
	return st.Size() == 0, nil
}

func (d *DB) migrate(ctx context.Context, readOnly bool) error {
	sub, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, d.w, sub, goose.WithLogger(goose.NopLogger()))
	if err != nil {
		return fmt.Errorf("read migrations: %w", err)
	}
	sources := p.ListSources()
	newest := sources[len(sources)-1].Version
	var have int64
	var tables int
	if err := d.w.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema WHERE name = 'goose_db_version'`).Scan(&tables); err != nil {
		return err
	}
	if tables > 0 {
		if err := d.w.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version`).Scan(&have); err != nil {
			return err
		}
	}
	switch {
	case have > newest:
		return &FileError{d.path, fmt.Sprintf("was written by a newer version of Yardbell (schema %d, this one knows %d); install that version", have, newest)}
	case have == newest:
		return nil
	case readOnly:
		return &FileError{d.path, fmt.Sprintf("has the older schema %d; open it once with console or serve", have)}
	}
	if _, err := p.Up(ctx); err != nil {
		return fmt.Errorf("migrate: %w", err)
	}
	_, err = d.w.ExecContext(ctx, fmt.Sprintf(`PRAGMA application_id = %d`, applicationID))
	return err
}

// readBack makes sure that the pragmas took: a typo in a DSN is silently ignored
// and would cost durability.
func (d *DB) readBack(ctx context.Context) error {
	for _, c := range []struct{ pragma, want string }{{"journal_mode", "wal"}, {"synchronous", "2"}, {"foreign_keys", "1"}} {
		var got string
		if err := d.w.QueryRowContext(ctx, `PRAGMA `+c.pragma).Scan(&got); err != nil {
			return err
		}
		if got != c.want {
			return fmt.Errorf("pragma %s is %s, not %s", c.pragma, got, c.want)
		}
	}
	return nil
}

// Path of the file.
func (d *DB) Path() string { return d.path }

// Table is the step table in force.
func (d *DB) Table() *rules.Table { return d.table }

// Close closes the file.
func (d *DB) Close() error {
	var errs []error
	for _, db := range []*sql.DB{d.r, d.w} {
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	return errors.Join(errs...)
}

// Check reads the whole file for damage: SQLite's own check, then foreign keys.
func (d *DB) Check(ctx context.Context) error {
	var ok string
	if err := d.r.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&ok); err != nil {
		return fileError(d.path, err)
	}
	if ok != "ok" {
		return &FileError{d.path, "is damaged (" + firstLine(ok) + "); keep it as it is and restore a copy"}
	}
	rows, err := d.r.QueryContext(ctx, `PRAGMA foreign_key_check`)
	if err != nil {
		return fileError(d.path, err)
	}
	defer func() { _ = rows.Close() }()
	if rows.Next() {
		return &FileError{d.path, "has lines that refer to missing ones; restore a copy"}
	}
	return rows.Err()
}

// fileError turns a driver error into a sentence, by its code.
func fileError(path string, err error) error {
	var se *sqlite.Error
	if !errors.As(err, &se) {
		return fmt.Errorf("database %s: %w", path, err)
	}
	why := "cannot be used: " + firstLine(se.Error())
	switch se.Code() & 0xff {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		why = "is locked by another program; stop that one first"
	case sqlite3.SQLITE_NOTADB:
		why = "is damaged or not a database; keep it as it is and restore a copy"
	case sqlite3.SQLITE_CORRUPT:
		why = "is damaged; keep it as it is and restore a copy"
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM:
		why = "is read-only; allow writing to it and to its folder"
	case sqlite3.SQLITE_CANTOPEN:
		why = "cannot be opened; its folder must allow writing"
	case sqlite3.SQLITE_FULL:
		why = "cannot be written: the disk is full"
	case sqlite3.SQLITE_IOERR:
		why = "cannot be read or written: the disk reports an error"
	}
	return &FileError{path, why}
}

func firstLine(s string) string {
	s, _, _ = strings.Cut(strings.TrimSpace(s), "\n")
	return s
}
