package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"yardbell/store"
)

func backupCommand(e env) *cobra.Command {
	var f fileFlags
	var to string
	var keep store.Keeping
	c := &cobra.Command{
		Use:   "backup",
		Short: "Make a verified backup of the database, also while it is served",
		Long: `Copies the database into a folder, under a name with the time (UTC) in it. The
copy is opened again before it gets that name: SQLite checks the whole of it, the
logbook's chain is walked, everything is derived anew and compared. Whatever fails, no
half of a backup stands there.

Older backups of the same database stay unless --keep, --days or --weeks says which of
them do. A logbook that is not as it was written is copied to NAME-broken.db, counts as
no backup, and ends the command with status 1.`,
		Example: `  yardbell backup --db crew.db --to /media/backup
  yardbell backup --db crew.db --to /media/backup --keep 7 --weeks 8`,
		Args: noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if to == "" {
				return usage("name the folder for the backup with --to DIR")
			}
			if err := keepFault(keep); err != nil {
				return err
			}
			db, now, err := f.open(c.Context(), e, true)
			if err != nil {
				return err
			}
			defer func() { _ = db.Close() }()
			made := e.clock()
			if f.now != "" {
				made = now
			}
			k, err := db.Backup(c.Context(), made, to)
			if err != nil {
				return err
			}
			zone, err := crewZone(c.Context(), db, now, time.UTC)
			if err != nil {
				return err
			}
			_, _ = fmt.Fprintf(e.out, "backed up to %s: %s, %.1f MB\n", k.Path, lineage(k.Proof.Chain, zone), float64(k.Bytes)/1e6)
			if k.Proof.Differ > 0 {
				_, _ = fmt.Fprintf(e.out, "%d rows differ from what the logbook gives: yardbell rebuild\n", k.Proof.Differ)
			}
			if keep == (store.Keeping{}) {
				return nil
			}
			n, err := keep.Prune(c.Context(), db, to)
			if n > 0 {
				_, _ = fmt.Fprintf(e.out, "%d older ones removed\n", n)
			}
			return err
		},
	}
	f.register(c)
	c.Flags().StringVar(&to, "to", "", "folder for the backup")
	keepFlags(c, &keep, "", 0, 0)
	return c
}

// lineage says how long a logbook is and what its newest line and hash are.
func lineage(c store.Chain, zone *time.Location) string {
	if c.Lines == 0 {
		return "no line in the logbook"
	}
	return fmt.Sprintf("%d lines in the logbook, the newest of %s, hash %.16s", c.Lines, c.Newest.In(zone).Format("2006-01-02 15:04 MST"), c.Head)
}

// backupsOf shows the newest of a database's backups in a folder; false where there is
// none.
func backupsOf(e env, path, dir string, list []store.BackupFile) (bool, error) {
	if len(list) == 0 {
		_, err := fmt.Fprintf(e.out, "%s: no backup of %s in it\n", dir, path)
		return false, err
	}
	_, err := fmt.Fprintf(e.out, "%s: %d backups, the newest %s old\n", dir, len(list), age(e.clock().Sub(list[0].Made)))
	return true, err
}

// age is a length of time, roughly.
func age(d time.Duration) string {
	switch {
	case d < 0:
		return "0 minutes"
	case d < 2*time.Hour:
		return fmt.Sprintf("%d minutes", int(d.Minutes()))
	case d < 48*time.Hour:
		return fmt.Sprintf("%d hours", int(d.Hours()))
	}
	return fmt.Sprintf("%d days", int(d.Hours()/24))
}

func restoreCommand(e env) *cobra.Command {
	var f fileFlags
	var from string
	var force bool
	c := &cobra.Command{
		Use:   "restore",
		Short: "Put a backup in the place of the database",
		Long: `Proves the backup first: a whole file of Yardbell, of a schema that this version
knows, its logbook as it was written. Then copies it to --db and derives everything anew
from the logbook. The backup itself is not touched.

A database that is there already is replaced with --force alone, and kept beside it under
a name with the time in it. While it is served, or open in another program, it is not
replaced.`,
		Example: `  yardbell restore --from /media/backup/crew-20310504-081500Z.db --db crew.db`,
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if from == "" || f.db == "" {
				return usage("name the backup with --from FILE and the database with --db FILE")
			}
			return restore(c.Context(), e, f, from, force)
		},
	}
	f.register(c)
	_ = c.Flags().MarkHidden("now")
	c.Flags().StringVar(&from, "from", "", "the backup")
	c.Flags().BoolVar(&force, "force", false, "replace the database that is there, which is kept beside it")
	return c
}

func restore(ctx context.Context, e env, f fileFlags, from string, force bool) error {
	table, err := loadRules(f.rules)
	if err != nil {
		return err
	}
	lock, err := lockFile(f.db)
	if err != nil {
		return err
	}
	defer func() { _ = lock.Unlock() }()
	now := e.clock()
	r, err := store.Restore(ctx, now, from, f.db, force, store.Options{Table: table})
	if err != nil {
		return err
	}
	db, err := store.Open(ctx, f.db, store.Options{Table: table})
	if err != nil {
		return err
	}
	defer func() { _ = db.Close() }()
	zone, err := crewZone(ctx, db, now, time.UTC)
	if err != nil {
		return err
	}
	_, _ = fmt.Fprintf(e.out, "restored %s: %s; crews: %d\n", f.db, lineage(r.Proof.Chain, zone), r.Crews)
	if r.Proof.Differ > 0 {
		_, _ = fmt.Fprintf(e.out, "%d rows came out otherwise than in the backup\n", r.Proof.Differ)
	}
	if r.Aside == "" {
		return nil
	}
	if n := r.Before.Lines - r.Proof.Chain.Lines; n > 0 {
		_, _ = fmt.Fprintf(e.out, "what was there had %s: %d more\n", lineage(r.Before, zone), n)
	}
	_, err = fmt.Fprintf(e.out, "what was there is kept as %s\n", r.Aside)
	return err
}
