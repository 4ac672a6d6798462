package main

import (
	"fmt"
	"log/slog"

	"github.com/spf13/cobra"

	"yardbell/bot"
	"yardbell/bot/telegram"
)

func joinCommand(e env) *cobra.Command {
	var f fileFlags
	c := &cobra.Command{
		Use:   "join",
		Short: "Print a join code for one more group, also while the database is served",
		Long: `Opens a join code and prints it: /join with that code in a group claims the group,
once. A code that was printed before and not used is void from then on. The service that
serves the database takes it at once; it need not be started again.`,
		Example: "  yardbell join --db crew.db",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			db, _, err := f.open(c.Context(), e, true)
			if err != nil {
				return err
			}
			defer func() { _ = db.Close() }()
			now := e.clock()
			own, other, err := whose(c.Context(), db, now, telegram.Source)
			if err != nil {
				return err
			}
			if other != "" && !own {
				return usage("database %s was played at the %s; a group joins one that is served", f.db, other)
			}
			code, err := bot.New(db, func() {}, slog.New(slog.DiscardHandler), nil).OpenJoin(c.Context(), now)
			if err != nil {
				return err
			}
			_, err = fmt.Fprintf(e.out, "join code: %s\n", code)
			return err
		},
	}
	f.register(c)
	_ = c.Flags().MarkHidden("now")
	_ = c.Flags().MarkHidden("rules")
	return c
}
