package main

import (
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"yardbell/bot"
	"yardbell/rules"
	"yardbell/store"
)

// exportLine is a logbook entry as exported.
type exportLine struct {
	ID   int64  `json:"id"`
	Said string `json:"said"`
	bot.Logged
	Ref   *int64  `json:"ref"`
	Key   *string `json:"setting"`
	Value *string `json:"value"`
	Text  string  `json:"text"`
}

// exportTask is a task as exported, those already answered among them.
type exportTask struct {
	dueTask
	Counted string `json:"counted_from"`
	Anchor  string `json:"anchor"`
	Source  string `json:"source"`
}

func exportCommand(e env) *cobra.Command {
	var f fileFlags
	var what, format, out string
	c := &cobra.Command{
		Use:   "export",
		Short: "Write the logbook or the tasks as JSON or CSV",
		Long:  "Writes every line of the logbook (what people typed among it), or every task. Cells that a spreadsheet would take for a formula are led by an apostrophe in CSV.",
		Example: `  yardbell export --db crew.db --format csv > log.csv
  yardbell export --db crew.db --what tasks --format json --out tasks.json`,
		Args: noArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			if what != "log" && what != "tasks" {
				return usage("--what takes log or tasks")
			}
			if format != "json" && format != "csv" {
				return usage("--format takes json or csv")
			}
			db, now, err := f.open(c.Context(), e, true)
			if err != nil {
				return err
			}
			defer func() { _ = db.Close() }()
			w, done, err := outFile(e, out)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, done()) }()
			return db.View(c.Context(), now, func(tx *store.Tx) error { return export(tx, w, what, format, now) })
		},
	}
	f.register(c)
	c.Flags().StringVar(&what, "what", "log", "log or tasks")
	c.Flags().StringVar(&format, "format", "json", "json or csv")
	c.Flags().StringVar(&out, "out", "", "file to write instead of standard output")
	return c
}

func export(tx *store.Tx, w io.Writer, what, format string, now time.Time) error {
	crews, err := tx.Crews()
	if err != nil {
		return err
	}
	var rows []any
	var cells [][]string
	if what == "log" {
		cells = append(cells, []string{"id", "said", "happened", "by", "action", "step", "subject", "count", "of", "from", "into", "mark", "ref", "setting", "value", "text"})
	} else {
		cells = append(cells, []string{"step", "subject", "earliest", "best", "latest", "weight", "state", "claimed_by", "counted_from", "anchor", "source"})
	}
	for _, crew := range crews {
		s, err := tx.Settings(crew.ID)
		if err != nil {
			return err
		}
		if what == "log" {
			book, err := tx.Logbook(crew.ID)
			if err != nil {
				return err
			}
			for _, l := range book {
				x := asExport(l, s.Zone)
				rows = append(rows, x)
				cells = append(cells, []string{strconv.FormatInt(x.ID, 10), x.Said, x.Happened, x.By, x.Action, str(x.Step), str(x.Subject), num(x.Count), num(x.Of), num(x.From), str(x.Into), str(x.Mark), num(x.Ref), str(x.Key), str(x.Value), x.Text})
			}
			continue
		}
		tasks, err := tx.Tasks(crew.ID)
		if err != nil {
			return err
		}
		for _, t := range tasks {
			x := exportTask{asDue(t, s.Zone, now), t.Reason, bot.LocalTime(t.Anchor, s.Zone), t.Source}
			rows = append(rows, x)
			cells = append(cells, []string{x.Step, x.Subject, x.Earliest, x.Best, x.Latest, x.Weight, x.State, str(x.ClaimedBy), x.Counted, x.Anchor, x.Source})
		}
	}
	if format == "csv" {
		cw := csv.NewWriter(w)
		for _, r := range cells {
			for i := range r {
				r[i] = bot.Inert(r[i])
			}
		}
		return cw.WriteAll(cells)
	}
	for _, r := range rows {
		if err := bot.WriteJSON(w, r); err != nil {
			return err
		}
	}
	return nil
}

func asExport(l store.Line, zone *time.Location) exportLine {
	x := exportLine{ID: l.ID, Said: bot.LocalTime(l.Said, zone), Logged: bot.AsLogged(l.Entry, zone), Text: l.Raw}
	if l.Ref != 0 {
		x.Ref = &l.Ref
	}
	if l.Action == rules.Set || l.Detail.Key != "" {
		x.Key, x.Value = &l.Detail.Key, &l.Detail.Value
	}
	return x
}

func str(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

func num[T int | int64](n *T) string {
	if n == nil {
		return ""
	}
	return strconv.FormatInt(int64(*n), 10)
}
