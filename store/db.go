package store

import (
	"cmp"
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"math"
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
	w         *writer
	r         *sql.DB
	reading   *prepared // the queries of the reading ones
	models    *models
	work      work
	path      string
	table     *rules.Table
	unchecked bool // not read for damage yet
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
	Late     bool         // the caller reads a large file for damage after it is open: see CheckLate

	noCopy bool  // it is a copy itself: none is kept before an upgrade
	large  int64 // from how many bytes on it is large, 0 for largeFile
}

// Open opens or creates the database file at path and brings it to the newest
// schema. A file that cannot be used (a directory, read-only, locked, of a newer
// version, damaged, of another program, with nothing in it) gives a *FileError and is left as it is,
// byte for byte. Before a file is upgraded a copy of it is kept beside it, or it is
// not upgraded.
func Open(ctx context.Context, path string, o Options) (*DB, error) {
	if err := checkPath(path, o.ReadOnly); err != nil {
		return nil, err
	}
	newest, err := newestKnown()
	if err != nil {
		return nil, err
	}
	large := int64(math.MaxInt64)
	if o.Late && !exists(path+damageMark) {
		large = cmp.Or(o.large, largeFile)
	}
	found, err := probeBelow(ctx, path, large)
	if err == nil && found.unchecked && found.schema < newest { // what is damaged is not to be upgraded
		found, err = probe(ctx, path)
	}
	if err != nil {
		return nil, err
	}
	if o.Late && !found.unchecked {
		_ = os.Remove(path + damageMark) // it is sound, or another by now
	}
	switch {
	case found.schema > newest:
		return nil, &FileError{path, fmt.Sprintf("was written by a newer version of Yardbell (schema %d, this one knows %d); install that version", found.schema, newest)}
	case found.schema < newest && o.ReadOnly && !found.ours:
		return nil, emptyFile(path)
	case found.schema < newest && o.ReadOnly:
		return nil, &FileError{path, fmt.Sprintf("has the older schema %d; open it once with console or serve", found.schema)}
	}
	if !found.ours {
		if exists(path) {
			return nil, emptyFile(path)
		}
		if err := claimFile(ctx, path); err != nil {
			return nil, fileError(path, err)
		}
	}
	if found.schema > 0 && found.schema < newest && !o.noCopy {
		if err := keepBefore(ctx, path, newest); err != nil {
			return nil, fileError(path, err)
		}
	}
	d := &DB{path: path, table: o.Table, unchecked: found.unchecked}
	if d.table == nil {
		d.table = rules.DefaultTable()
	}
	cache := 16_000
	if o.noCopy {
		cache = 2_000 // it is read through once, beside the file in use
	}
	if err := d.open(ctx, cache, found.schema < newest); err != nil {
		_ = d.Close()
		return nil, fileError(path, err)
	}
	return d, nil
}

// newestKnown is the newest schema: migrations are numbered from 1 without a gap.
func newestKnown() (int64, error) {
	sources, err := fs.Glob(migrations, "migrations/*.sql")
	return int64(len(sources)), err
}

// dsn is the one connection recipe; extra are the parameters in which the
// connections differ. Without recursive triggers a REPLACE would delete a line of
// the logbook past the trigger that forbids it.
func dsn(path, extra string) string {
	u := url.URL{Scheme: "file", Opaque: (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath()}
	return u.String() + "?_pragma=busy_timeout(5000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)&_pragma=recursive_triggers(1)" + extra
}

// open opens the connections; cache is how many KB of pages the writing one keeps.
func (d *DB) open(ctx context.Context, cache int, migrate bool) (err error) {
	pool, err := sql.Open("sqlite", dsn(d.path, fmt.Sprintf("&_pragma=journal_mode(WAL)&_pragma=cache_size(-%d)&_txlock=immediate", cache)))
	if err != nil {
		return err
	}
	pool.SetMaxOpenConns(1)
	d.w = newWriter(pool)
	if d.r, err = sql.Open("sqlite", dsn(d.path, "&_pragma=query_only(1)")); err != nil {
		return err
	}
	d.r.SetMaxOpenConns(4)
	d.reading, d.models = newPrepared(d.r), newModels()
	if migrate {
		if err := upgrade(ctx, pool); err != nil {
			return fmt.Errorf("migrate: %w", err)
		}
	}
	if err := readBack(ctx, pool); err != nil {
		return err
	}
	return d.w.open(ctx)
}

// upgrade brings a file to the newest schema.
func upgrade(ctx context.Context, db *sql.DB) error {
	p, err := provider(db)
	if err != nil {
		return err
	}
	_, err = p.Up(ctx)
	return err
}

// provider knows every migration.
func provider(db *sql.DB) (*goose.Provider, error) {
	sub, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return nil, err
	}
	chain, err := chainMigration(sub)
	if err != nil {
		return nil, err
	}
	return goose.NewProvider(goose.DialectSQLite3, db, sub, goose.WithLogger(goose.NopLogger()),
		goose.WithExcludeNames([]string{chainFile}), goose.WithGoMigrations(chain))
}

// readBack makes sure that the pragmas took: a typo in a DSN is silently ignored
// and would cost durability.
func readBack(ctx context.Context, db *sql.DB) error {
	for _, c := range []struct{ pragma, want string }{{"journal_mode", "wal"}, {"synchronous", "2"}, {"foreign_keys", "1"}} {
		var got string
		if err := db.QueryRowContext(ctx, `PRAGMA `+c.pragma).Scan(&got); err != nil {
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
	if d.r != nil {
		errs = append(errs, d.r.Close())
	}
	if d.w != nil {
		errs = append(errs, d.w.Close())
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
		return damaged(d.path, ok)
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
	var fe *FileError
	if errors.As(err, &fe) {
		return fe // said already
	}
	var se *sqlite.Error
	if !errors.As(err, &se) || Fault(err) || Interrupted(err) {
		return fmt.Errorf("database %s: %w", path, err)
	}
	why := "cannot be used: " + firstLine(se.Error())
	code := se.Code() & 0xff
	if se.Code() == sqlite3.SQLITE_IOERR_SHMSIZE {
		code = sqlite3.SQLITE_FULL // no room even for the little file that SQLite puts beside
	}
	switch code {
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

// Interrupted reports whether something ended because its context was cancelled, and for
// nothing else beside. A transaction that is over is what follows from that, no fault.
func Interrupted(err error) bool {
	var cancelled, other bool
	var look func(error)
	look = func(err error) {
		switch e := err.(type) {
		case nil:
		case interface{ Unwrap() []error }:
			for _, part := range e.Unwrap() {
				look(part)
			}
		case interface{ Unwrap() error }:
			look(e.Unwrap())
		default:
			var se *sqlite.Error
			if err == context.Canceled || errors.As(err, &se) && se.Code()&0xff == sqlite3.SQLITE_INTERRUPT {
				cancelled = true
			} else if err != sql.ErrTxDone {
				other = true
			}
		}
	}
	look(err)
	return cancelled && !other
}

// Fault reports whether an error is one of the program's own: what it asked of the file
// cannot be, and will not be the next time either.
func Fault(err error) bool {
	var se *sqlite.Error
	if !errors.As(err, &se) {
		return false
	}
	switch se.Code() & 0xff {
	case sqlite3.SQLITE_CONSTRAINT, sqlite3.SQLITE_MISMATCH, sqlite3.SQLITE_MISUSE, sqlite3.SQLITE_RANGE, sqlite3.SQLITE_TOOBIG:
		return true
	}
	return false
}

// endsTransaction reports whether SQLite may have rolled the transaction back because of
// an error, by itself.
func endsTransaction(err error) bool {
	var se *sqlite.Error
	if !errors.As(err, &se) {
		return false
	}
	switch se.Code() & 0xff {
	case sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_NOMEM, sqlite3.SQLITE_BUSY, sqlite3.SQLITE_INTERRUPT, sqlite3.SQLITE_CORRUPT:
		return true
	}
	return false
}

// busy reports whether another program holds the file.
func busy(err error) bool {
	var se *sqlite.Error
	return errors.As(err, &se) && (se.Code()&0xff == sqlite3.SQLITE_BUSY || se.Code()&0xff == sqlite3.SQLITE_LOCKED)
}

func firstLine(s string) string {
	s, _, _ = strings.Cut(strings.TrimSpace(s), "\n")
	return s
}
