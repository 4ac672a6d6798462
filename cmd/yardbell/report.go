package main

import (
	"errors"

	"github.com/spf13/cobra"

	"yardbell/bot/attach"
	"yardbell/rules"
	"yardbell/store"
)

func reportCommand(e env) *cobra.Command {
	var f fileFlags
	var format, what, out string
	var year int
	var crew int64
	c := &cobra.Command{
		Use:   "report",
		Short: "Write the records of a year, to print or for a spreadsheet",
		Long: `Writes the rounds of a year and every queen caught in it, with her mother, the date of
her graft, her yard and the date she was caught: as a page to print (html), or one of
the tables for a spreadsheet (csv, with --what queens, rounds or stock). Words are in the
crew's language.`,
		Example: `  yardbell report --db crew.db --year 2031 --out season.html
  yardbell report --db crew.db --year 2031 --format csv > queens.csv`,
		Args: noArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			kind := format
			switch {
			case format != "html" && format != "csv":
				return usage("--format takes html or csv")
			case what != "queens" && what != "rounds" && what != "stock":
				return usage("--what takes queens, rounds or stock")
			case format == "csv":
				kind = what
			case c.Flags().Changed("what"):
				return usage("--what goes with --format csv; the page has both")
			}
			if c.Flags().Changed("year") && (year < 2000 || year > 2199) {
				return usage("--year takes 2000 to 2199")
			}
			db, now, err := f.open(c.Context(), e, true)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, db.Close()) }()
			var file []byte
			err = db.View(c.Context(), now, func(tx *store.Tx) error {
				k, err := theCrew(tx, crew)
				if err != nil {
					return err
				}
				if year == 0 {
					s, err := tx.Settings(k.ID)
					if err != nil {
						return err
					}
					year = rules.DateOf(now, s.Zone).Year
				}
				file, err = attach.Records(tx, k, year, kind)
				return err
			})
			if err != nil {
				return err
			}
			return writeOut(e, out, file)
		},
	}
	f.register(c)
	c.Flags().IntVar(&year, "year", 0, "the year, in the crew's zone (default: this one)")
	c.Flags().StringVar(&format, "format", "html", "html or csv")
	c.Flags().StringVar(&what, "what", "queens", "which table as csv: queens, rounds or stock")
	c.Flags().StringVar(&out, "out", "", "file to write instead of standard output")
	c.Flags().Int64Var(&crew, "crew", 0, "number of the crew, where the database has several")
	return c
}
