package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"yardbell/store"
)

func rebuildCommand(e env) *cobra.Command {
	var f fileFlags
	c := &cobra.Command{
		Use:     "rebuild",
		Short:   "Derive breeders, batches, tasks and pings anew from the logbook",
		Long:    "Empties everything that follows from the logbook and derives it anew, in one transaction. The logbook and the messages already sent stay. Says how many derived rows came out otherwise than before: none, unless the rules file changed.",
		Example: "  yardbell rebuild --db crew.db",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			db, now, err := f.open(c.Context(), e, false)
			if err != nil {
				return err
			}
			defer func() { _ = db.Close() }()
			var differ int
			err = db.Update(c.Context(), now, func(tx *store.Tx) (err error) {
				differ, err = tx.Rebuild()
				return err
			})
			if err != nil {
				return err
			}
			if differ == 0 {
				_, err = fmt.Fprintln(e.out, "rebuilt: everything as it was")
				return err
			}
			_, err = fmt.Fprintf(e.out, "rebuilt: %d rows differ from before\n", differ)
			return err
		},
	}
	f.register(c)
	return c
}
