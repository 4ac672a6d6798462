package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"yardbell/rules"
	"yardbell/store"
)

func sortFaults(f []rules.LineError) {
	slices.SortStableFunc(f, func(a, b rules.LineError) int { return a.Line - b.Line })
}

func checkCommand(e env) *cobra.Command {
	var f fileFlags
	var conf, backups string
	c := &cobra.Command{
		Use:     "check",
		Short:   "Check the configuration, the rules file and the database",
		Long:    "Reads what is named and starts nothing. Every fault is one line: the file, the line in it, what stands there, what to put instead. Exit status 1 where there is any.",
		Example: "  yardbell check --config yardbell.toml --rules steps.csv --db crew.db",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if backups != "" && f.db == "" {
				return usage("--backup needs --db FILE, whose backups are looked for")
			}
			if conf == "" && f.rules == "" && f.db == "" {
				return usage("name what to check: --config FILE, --rules FILE, --db FILE")
			}
			faults := 0
			report := func(file string, list []rules.LineError) {
				for _, x := range list {
					faults++
					_, _ = fmt.Fprintf(e.out, "%s:%d: %s; put %s\n", file, x.Line, x.What, x.Put)
				}
				if len(list) == 0 {
					_, _ = fmt.Fprintf(e.out, "%s: good\n", file)
				}
			}
			if conf != "" {
				read, list, err := readConfig(conf)
				if err != nil {
					return err
				}
				report(conf, list)
				if f.rules == "" {
					f.rules = read.Rules
				}
			}
			var table *rules.Table
			if f.rules != "" {
				file, err := os.Open(f.rules)
				if err != nil {
					return usage("rules file %s cannot be read", f.rules)
				}
				defer func() { _ = file.Close() }()
				t, list := rules.Override(file)
				report(f.rules, list)
				if len(list) == 0 {
					table = t
				}
			}
			var kept []store.BackupFile
			if backups != "" {
				var err error // what is called so; all that there is to say where the database cannot be read
				if kept, err = store.NamedBackups(f.db, backups); err != nil {
					return err
				}
			}
			named := kept
			if f.db != "" {
				db, err := store.Open(c.Context(), f.db, store.Options{Table: table, ReadOnly: true})
				if err == nil {
					var n int
					n, err = logbook(c.Context(), e, db)
					faults += n
					err = errors.Join(err, db.Check(c.Context()), parked(c.Context(), e, db, f.db))
					if backups != "" {
						var e error
						kept, e = db.Backups(c.Context(), backups)
						err = errors.Join(err, e)
					}
					_ = db.Close()
				}
				faults += exposed(e, f.db, named)
				if err != nil {
					faults++
					_, _ = fmt.Fprintln(e.out, oneLine(err.Error()))
				} else if faults == 0 {
					_, _ = fmt.Fprintf(e.out, "%s: good\n", f.db)
				}
			}
			if backups != "" {
				found, err := backupsOf(e, f.db, backups, kept)
				if err != nil {
					return err
				}
				if !found {
					faults++
				}
			}
			if faults > 0 {
				return &exitStatus{1}
			}
			return nil
		},
	}
	f.register(c)
	c.Flags().StringVar(&conf, "config", "", "configuration file (TOML)")
	c.Flags().StringVar(&backups, "backup", "", "folder in which the newest backup is looked for")
	return c
}

// mostBroken is how many broken lines are shown.
const mostBroken = 20

// logbook walks along the logbook's chain and shows its length, its newest hash and what
// is not as it was written.
func logbook(ctx context.Context, e env, db *store.DB) (faults int, err error) {
	var chain store.Chain
	err = db.View(ctx, e.clock(), func(tx *store.Tx) (err error) {
		chain, err = tx.VerifyChain()
		return err
	})
	if err != nil {
		return 0, err
	}
	zone, err := crewZone(ctx, db, e.clock(), time.UTC)
	if err != nil {
		return 0, err
	}
	_, _ = fmt.Fprintf(e.out, "%s: %s\n", db.Path(), lineage(chain, zone))
	if chain.Blank > 0 {
		_, _ = fmt.Fprintf(e.out, "%s: of %d of them the words were dropped, by somebody's wish to be forgotten\n", db.Path(), chain.Blank)
	}
	for i, b := range chain.Broken {
		if i == mostBroken {
			_, _ = fmt.Fprintf(e.out, "%s: and %d more\n", db.Path(), len(chain.Broken)-i)
			break
		}
		b.Said = b.Said.In(zone)
		_, _ = fmt.Fprintf(e.out, "%s: %s; restore a backup or keep the file as proof\n", db.Path(), oneLine(b.String()))
	}
	return len(chain.Broken), nil
}

// exposed shows the files that everybody on the machine can read.
func exposed(e env, db string, backups []store.BackupFile) int {
	paths := []string{db}
	for _, b := range backups {
		paths = append(paths, b.Path)
	}
	list := store.Exposed(paths...)
	for _, path := range list {
		_, _ = fmt.Fprintf(e.out, "%s: everybody on this machine can read it; chmod 600 it\n", path)
	}
	return len(list)
}

// mostParked is how many refused messages are shown.
const mostParked = 10

// parked shows what the chat refused for good, and counts the updates that could not
// be read. Neither is a fault of the file.
func parked(ctx context.Context, e env, db *store.DB, path string) error {
	return db.View(ctx, e.clock(), func(tx *store.Tx) error {
		list, err := tx.FailedMessages(mostParked)
		if err != nil {
			return err
		}
		for _, m := range list {
			_, _ = fmt.Fprintf(e.out, "%s: not sent, crew %d, %s due %s: %s\n", path, m.Crew, m.Kind, m.Fire.Format("2006-01-02 15:04 MST"), oneLine(m.Reason))
		}
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		for _, c := range crews {
			if c.Rights != "" {
				_, _ = fmt.Fprintf(e.out, "%s: crew %d: the bot %s\n", path, c.ID, place(c))
			}
		}
		n, err := tx.CountNotes()
		if n > 0 {
			_, _ = fmt.Fprintf(e.out, "%s: %d notes wait for a lead to write to the bot in private\n", path, n)
		}
		if err != nil {
			return err
		}
		n, err = tx.CountAside()
		if n > 0 {
			_, _ = fmt.Fprintf(e.out, "%s: %d updates of the chat could not be read and were set aside\n", path, n)
		}
		return err
	})
}

// place says what the bot is in a crew's group, as the chat told it last.
func place(c store.Crew) string {
	switch c.Standing {
	case "gone":
		return "is not in the group any more"
	case "muted":
		return "may not write in the group"
	}
	s := "is a plain member"
	if c.Admin() {
		s = "is an admin"
	}
	if c.MayPin() {
		s += " that may pin"
	}
	if c.Hears == "all" {
		return s + ", hears everything"
	}
	return s + ", hears what is meant for it"
}
