package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"yardbell/bot"
	"yardbell/store"
)

func readCommand(e env) *cobra.Command {
	var f fileFlags
	var who string
	c := &cobra.Command{
		Use:   "read TEXT",
		Short: "Print what would be made of a message, and why",
		Long: `Reads a message as one to the group and logs nothing. First comes what would be done: log,
ask (with what each button would log), notice (seen, not logged) or ignore. Then each way of
reading it: what its words were taken for, what the ranker holds likely, which steps the words
license, what each act lacks, what kept it out of the log. With --db the names and the open
tasks of the first crew in that file count; without, nothing is known and nothing is open.`,
		Example: `  yardbell read 'moved 34 to North'
  yardbell read --db crew.db --now '2031-05-14 17:10' '34 into North'`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("give the message to read, in quotes")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			text := strings.Join(args, " ")
			show := func(tx *store.Tx, crew store.Crew) error {
				lines, err := bot.Explain(tx, crew, who, text)
				for _, l := range lines {
					if _, err := fmt.Fprintln(e.out, printable(l)); err != nil {
						return err
					}
				}
				return err
			}
			if f.db == "" {
				return show(&store.Tx{Now: e.clock()}, store.Crew{})
			}
			db, now, err := f.open(c.Context(), e, true)
			if err != nil {
				return err
			}
			defer func() { _ = db.Close() }()
			return db.View(c.Context(), now, func(tx *store.Tx) error {
				crews, err := tx.Crews()
				if err != nil || len(crews) == 0 {
					return err
				}
				return show(tx, crews[0])
			})
		},
	}
	f.register(c)
	c.Flags().StringVar(&who, "as", "", "the member who writes it: a correction or a count alone is about their last line")
	return c
}
