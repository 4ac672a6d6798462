package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"yardbell/rules"
	"yardbell/store"
)

func sortFaults(f []rules.LineError) {
	slices.SortStableFunc(f, func(a, b rules.LineError) int { return a.Line - b.Line })
}

func checkCommand(e env) *cobra.Command {
	var f fileFlags
	var conf string
	c := &cobra.Command{
		Use:     "check",
		Short:   "Check the configuration, the rules file and the database",
		Long:    "Reads what is named and starts nothing. Every fault is one line: the file, the line in it, what stands there, what to put instead. Exit status 1 where there is any.",
		Example: "  yardbell check --config yardbell.toml --rules steps.csv --db crew.db",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
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
			if f.db != "" {
				db, err := store.Open(c.Context(), f.db, store.Options{Table: table, ReadOnly: true})
				if err == nil {
					err = errors.Join(db.Check(c.Context()), parked(c.Context(), e, db, f.db))
					_ = db.Close()
				}
				if err != nil {
					faults++
					_, _ = fmt.Fprintln(e.out, oneLine(err.Error()))
				} else {
					_, _ = fmt.Fprintf(e.out, "%s: good\n", f.db)
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
	return c
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
