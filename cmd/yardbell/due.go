package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"yardbell/bot/console"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// dueTask is one open task as due and export print it. Times are local with
// their offset.
type dueTask struct {
	Step      string  `json:"step"`
	Subject   string  `json:"subject"`
	Earliest  string  `json:"earliest"`
	Best      string  `json:"best"`
	Latest    string  `json:"latest"`
	Weight    string  `json:"weight"`
	State     string  `json:"state"`
	ClaimedBy *string `json:"claimed_by"`
}

func asDue(t rules.Task, zone *time.Location, now time.Time) dueTask {
	d := dueTask{Step: string(t.Step), Subject: t.Subject.String(), Earliest: console.LocalTime(t.Earliest, zone), Best: console.LocalTime(t.Best, zone),
		Latest: console.LocalTime(t.Latest, zone), Weight: t.Weight.String(), State: string(t.State)}
	if t.State == rules.Open {
		d.State = string(t.Phase(now))
	}
	if t.ClaimedBy != "" {
		d.ClaimedBy = &t.ClaimedBy
	}
	return d
}

func dueCommand(e env) *cobra.Command {
	var f fileFlags
	var on string
	var days int
	var asJSON bool
	c := &cobra.Command{
		Use:   "due",
		Short: "Print the open tasks",
		Long:  "Prints every open task, or with --on those that concern a day, with --days those of that many days from today. state is waiting before the window, open in it, over after it.",
		Example: `  yardbell due --db crew.db --on 2031-05-08
  yardbell due --db crew.db --days 7 --json`,
		Args: noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			onDay, someDays := c.Flags().Changed("on"), c.Flags().Changed("days")
			if onDay && someDays {
				return usage("use --on or --days, not both")
			}
			if someDays && (days < 1 || days > 3660) {
				return usage("--days takes 1 to 3660")
			}
			var day rules.Date
			if onDay {
				var err error
				if day, err = rules.ParseDate(on); err != nil {
					return usage("--on: %w", err)
				}
			}
			db, now, err := f.open(c.Context(), e, true)
			if err != nil {
				return err
			}
			defer func() { _ = db.Close() }()
			return db.View(c.Context(), now, func(tx *store.Tx) error {
				crews, err := tx.Crews()
				if err != nil {
					return err
				}
				for _, crew := range crews {
					s, err := tx.Settings(crew.ID)
					if err != nil {
						return err
					}
					open, err := tx.OpenTasks(crew.ID)
					if err != nil {
						return err
					}
					today := rules.DateOf(now, s.Zone)
					switch {
					case onDay:
						open = rules.DueOn(open, day, s, now)
					case someDays:
						open = rules.DueDays(open, today, days, s, now)
					default:
						open = rules.DueDays(open, today, 36600, s, now)
					}
					for _, t := range open {
						d := asDue(t, s.Zone, now)
						if asJSON {
							if err := wording.WriteJSON(e.out, d); err != nil {
								return err
							}
							continue
						}
						claim := ""
						if t.ClaimedBy != "" {
							claim = "  " + printable(t.ClaimedBy)
						}
						l := func(t time.Time) string { return t.In(s.Zone).Format("Mon 2 Jan 15:04") }
						if _, err := fmt.Fprintf(e.out, "%-9s %-12s best %s  before %s  %s, %s%s\n", d.Step, printable(d.Subject), l(t.Best), l(t.Latest), d.Weight, d.State, claim); err != nil {
							return err
						}
					}
				}
				return nil
			})
		},
	}
	f.register(c)
	c.Flags().StringVar(&on, "on", "", "only what concerns this day, YYYY-MM-DD")
	c.Flags().IntVar(&days, "days", 0, "only what concerns that many days from today")
	c.Flags().BoolVar(&asJSON, "json", false, "one JSON object a line")
	return c
}
