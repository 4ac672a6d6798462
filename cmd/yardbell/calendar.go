package main

import (
	"errors"

	"github.com/spf13/cobra"

	"yardbell/bot/attach"
	"yardbell/store"
)

func calendarCommand(e env) *cobra.Command {
	var f fileFlags
	var out string
	var crew int64
	c := &cobra.Command{
		Use:   "calendar",
		Short: "Write the crew's calendar as a file that phones read",
		Long: `Writes the open tasks, and those that were in an earlier calendar and are gone, as an
iCalendar file (RFC 5545). What the calendar showed is noted in the database, so that
a phone knows the newer of two files.`,
		Example: `  yardbell calendar --db crew.db > crew.ics
  yardbell calendar --db crew.db --out crew.ics`,
		Args: noArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			db, now, err := f.open(c.Context(), e, false)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, db.Close()) }()
			var file []byte
			err = db.Update(c.Context(), now, func(tx *store.Tx) error {
				k, err := theCrew(tx, crew)
				if err != nil {
					return err
				}
				file, err = attach.Calendar(tx, k)
				return err
			})
			if err != nil {
				return err
			}
			return writeOut(e, out, file)
		},
	}
	f.register(c)
	c.Flags().StringVar(&out, "out", "", "file to write instead of standard output")
	c.Flags().Int64Var(&crew, "crew", 0, "number of the crew, where the database has several")
	return c
}
