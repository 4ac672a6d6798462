package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"strings"
	"time"

	"github.com/mattn/go-isatty"
	"github.com/spf13/cobra"

	"yardbell/rules"
	"yardbell/store"
)

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}

// oneLine makes a text one line that does nothing to a terminal.
func oneLine(s string) string { return strings.Join(strings.Fields(printable(s)), " ") }

func logger(e env) *slog.Logger {
	return slog.New(located{slog.NewTextHandler(e.errOut, &slog.HandlerOptions{Level: slog.LevelError, ReplaceAttr: discreet}), nil})
}

// loadRules reads a crew's own rules file; "" gives the default table.
func loadRules(path string) (*rules.Table, error) {
	if path == "" {
		return rules.DefaultTable(), nil
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, usage("rules file %s cannot be read", path)
	}
	defer func() { _ = f.Close() }()
	table, errs := rules.Override(f)
	if len(errs) > 0 {
		return nil, usage("rules file %s, %v (yardbell check --rules %s lists all)", path, errs[0], path)
	}
	return table, nil
}

// loadZone reads an IANA zone name.
func loadZone(name string) (*time.Location, error) {
	s := rules.DefaultSettings()
	if err := s.Apply("zone", name, time.Time{}); err != nil {
		return nil, usage("%q is not a time zone like America/Chicago", name)
	}
	return s.Zone, nil
}

// parseNow reads a local time "2031-05-08 19:00" in a zone.
func parseNow(s string, zone *time.Location) (time.Time, error) {
	day, clock, ok := strings.Cut(strings.TrimSpace(strings.Replace(s, "T", " ", 1)), " ")
	d, err := rules.ParseDate(day)
	if err == nil && !ok {
		return rules.DayStart(d, zone), nil
	}
	if err == nil {
		var c rules.Clock
		if c, err = rules.ParseClock(strings.TrimSpace(clock)); err == nil {
			return rules.At(d, c, zone), nil
		}
	}
	return time.Time{}, usage("%q is not a time like '2031-05-08 19:00'", s)
}

// crewZone is the zone of the first crew in a file, other where it has none.
func crewZone(ctx context.Context, db *store.DB, now time.Time, other *time.Location) (zone *time.Location, err error) {
	zone = other
	err = db.View(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil || len(crews) == 0 {
			return err
		}
		s, err := tx.Settings(crews[0].ID)
		if err == nil {
			zone = s.Zone
		}
		return err
	})
	return zone, err
}

// newest is the latest time that a file has seen.
func newest(ctx context.Context, db *store.DB) (last time.Time, err error) {
	err = db.View(ctx, last, func(tx *store.Tx) (err error) {
		last, err = tx.Newest()
		return err
	})
	return last, err
}

// fileFlags are the flags of every command that works on a database file.
type fileFlags struct {
	db    string
	rules string
	now   string
}

func (f *fileFlags) register(c *cobra.Command) {
	c.Flags().StringVar(&f.db, "db", "", "database file")
	c.Flags().StringVar(&f.rules, "rules", "", "the crew's own step table (CSV)")
	c.Flags().StringVar(&f.now, "now", "", "take this local time for now, 'YYYY-MM-DD HH:MM'")
}

// open opens an existing database and settles what time it is.
func (f *fileFlags) open(ctx context.Context, e env, readOnly bool) (*store.DB, time.Time, error) {
	if f.db == "" {
		return nil, time.Time{}, usage("name the database with --db FILE")
	}
	table, err := loadRules(f.rules)
	if err != nil {
		return nil, time.Time{}, err
	}
	if _, err := os.Stat(f.db); os.IsNotExist(err) {
		return nil, time.Time{}, fmt.Errorf("database %s does not exist", f.db)
	}
	db, err := store.Open(ctx, f.db, store.Options{Table: table, ReadOnly: readOnly})
	if err != nil {
		return nil, time.Time{}, err
	}
	now := e.clock()
	if f.now == "" {
		// A file played on a simulated clock may be ahead of the real one. Planning
		// it at an hour that it has lived through would queue again what is settled.
		last, err := newest(ctx, db)
		if err != nil {
			_ = db.Close()
			return nil, time.Time{}, err
		}
		if last.After(now) {
			now = last
		}
	}
	if f.now != "" {
		zone, err := crewZone(ctx, db, now, time.UTC)
		if err == nil {
			now, err = parseNow(f.now, zone)
		}
		if err != nil {
			_ = db.Close()
			return nil, time.Time{}, err
		}
	}
	return db, now, nil
}
