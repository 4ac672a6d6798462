package main

import (
	"context"
	"errors"
	"log/slog"
	"os"
	"time"

	"github.com/spf13/cobra"

	"yardbell/bot"
	"yardbell/rules"
	"yardbell/store"
)

// backupFlags are those of serve.
type backupFlags struct {
	dir  string
	at   string
	keep store.Keeping
}

func (f *backupFlags) register(c *cobra.Command) {
	c.Flags().StringVar(&f.dir, "backup", "", "make backups into this folder while serving")
	c.Flags().StringVar(&f.at, "backup-at", "", "at this hour of the machine's zone, e.g. 03:15 (default: 24 hours after the last one)")
	keepFlags(c, &f.keep, "backup-", 14, 8)
}

// keepFlags say which backups stay.
func keepFlags(c *cobra.Command, k *store.Keeping, prefix string, newest, weeks int) {
	c.Flags().IntVar(&k.Newest, prefix+"keep", newest, "how many of the newest backups stay")
	c.Flags().IntVar(&k.Days, prefix+"days", 0, "keep also the newest of each of so many days")
	c.Flags().IntVar(&k.Weeks, prefix+"weeks", weeks, "keep also the newest of each of so many weeks")
}

func keepFault(k store.Keeping) error {
	if k.Newest < 0 || k.Days < 0 || k.Weeks < 0 {
		return usage("how many backups to keep cannot be below 0")
	}
	return nil
}

// saver makes the backups of a service.
type saver struct {
	db     *store.DB
	bot    *bot.Bot
	log    *slog.Logger
	dir    string
	at     *rules.Clock // nil: 24 hours after the last one
	keep   store.Keeping
	failed time.Time // when the last try came to nothing, zero for none since the last good one
}

// newSaver is nil where no backups are asked for.
func newSaver(f backupFlags, db *store.DB, b *bot.Bot, log *slog.Logger) (*saver, error) {
	if f.dir == "" {
		if f.at != "" {
			return nil, usage("--backup-at needs --backup DIR")
		}
		return nil, nil
	}
	if st, err := os.Stat(f.dir); err != nil || !st.IsDir() {
		return nil, usage("there is no folder %s for backups", f.dir)
	}
	s := &saver{db: db, bot: b, log: log, dir: f.dir, keep: f.keep}
	if f.at != "" {
		at, err := rules.ParseClock(f.at)
		if err != nil {
			return nil, usage("--backup-at %q is not an hour like 03:15", f.at)
		}
		s.at = &at
	}
	return s, keepFault(f.keep)
}

// lookEvery is how often it is asked whether a backup is due. That is decided by what
// lies in the folder, so that one that was missed while the machine was off is made up
// for, and a restart makes none too many.
const lookEvery = time.Minute

// againAfter is how long after a failure it is tried again.
const againAfter = time.Hour

// run makes backups until ctx ends. It is woken by a ticker, which counts on where the
// clock is set back; what is due is decided by the clock.
func (s *saver) run(ctx context.Context, clock func() time.Time) error {
	t := time.NewTicker(lookEvery)
	defer t.Stop()
	for {
		s.look(ctx, clock())
		select {
		case <-ctx.Done():
			return nil
		case <-t.C:
		}
	}
}

// look makes a backup where one is due. What goes wrong is logged and told to the leads;
// the service goes on.
func (s *saver) look(ctx context.Context, now time.Time) {
	due, err := s.due(ctx, now)
	if err == nil && !due {
		return
	}
	if err == nil {
		var k store.Kept
		if k, err = s.db.Backup(ctx, now, s.dir); err == nil && k.Proof.Differ > 0 {
			s.log.Warn("backup made; rows differ from what the logbook gives, see yardbell rebuild", "rows", k.Proof.Differ)
		}
	}
	if ctx.Err() != nil {
		return
	}
	if err == nil {
		s.failed = time.Time{}
		if _, err := s.keep.Prune(ctx, s.db, s.dir); err != nil && ctx.Err() == nil {
			s.log.Warn("backup made; an older one stays", "err", err)
		}
		return
	}
	s.failed = now
	s.log.Error("no backup", "err", err)
	var broken *store.BrokenError
	if err := s.bot.BackupFailed(ctx, now, errors.As(err, &broken)); err != nil {
		s.log.Error("the leads were not told that there is no backup", "err", err)
	}
}

// due reports whether a backup should have been made by now.
func (s *saver) due(ctx context.Context, now time.Time) (bool, error) {
	if !s.failed.IsZero() && now.Sub(s.failed) < againAfter {
		return false, nil
	}
	// One made on a clock that was ahead says nothing until its time has come.
	newest, found, err := s.db.LastBackup(ctx, s.dir, now)
	if err != nil || !found {
		return true, err
	}
	last := newest.Made
	if s.at == nil {
		return now.Sub(last) >= 24*time.Hour, nil
	}
	zone := now.Location()
	day := rules.DateOf(now, zone)
	at := rules.At(day, *s.at, zone)
	if at.After(now) {
		at = rules.At(day.Add(-1), *s.at, zone)
	}
	return last.Before(at), nil
}
