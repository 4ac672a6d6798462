package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"time"

	"github.com/spf13/cobra"

	"yardbell/bot/console"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// exportLine is a logbook entry as exported: all of it, which a test holds against the
// type. What does not apply is null, or false.
type exportLine struct {
	ID       int64   `json:"id"`
	Said     string  `json:"said"`
	Happened string  `json:"happened"`
	By       string  `json:"by"`
	Action   string  `json:"action"`
	Step     *string `json:"step"`
	Subject  *string `json:"subject"`
	Count    *int    `json:"count"`
	Of       *int    `json:"of"`
	From     *int    `json:"from"`
	Into     *string `json:"into"`
	Mark     *string `json:"mark"`
	Ref      *int64  `json:"ref"` // the line that it corrects or takes back
	Key      *string `json:"setting"`
	Value    *string `json:"value"`
	Text     string  `json:"text"`

	BeesIn   *bool          `json:"bees_in"`  // confined with bees shaken in
	AgeFrom  *float64       `json:"age_from"` // larval age as stated, hours since hatching
	AgeTo    *float64       `json:"age_to"`
	Litres   *float64       `json:"litres"`
	Each     bool           `json:"each"` // litres to each nuc, not to the yard
	NoEggs   bool           `json:"no_eggs"`
	NoneYet  bool           `json:"none_yet"` // looked for emerged queens while they may still come
	More     bool           `json:"more"`     // a count of emerged queens after which more may come
	Cause    *string        `json:"cause"`    // why a breeder is out of every plan, or why something was lost
	Out      *string        `json:"out_of"`   // the place that cells were in
	Part     bool           `json:"part"`     // a count of this yard alone
	State    *string        `json:"state"`    // of nucs
	Batch    *int           `json:"batch"`    // nucs: the batch whose cells or queens were in them
	Customer *int           `json:"customer"` // who got the queens, by number
	Tags     *string        `json:"tags"`     // the numbers on them
	Back     bool           `json:"back"`     // the customer gave them back
	Ship     bool           `json:"ship"`     // sent by post or carrier
	C        *float64       `json:"celsius"`
	Power    bool           `json:"power_out"`
	Singly   bool           `json:"caged_singly"`
	Both     *bool          `json:"starts_and_finishes"`
	Rests    *bool          `json:"rests"`
	Released bool           `json:"released"`
	All      bool           `json:"all"` // nothing is left to do for the rest of the batch; lost: all of it
	Occ      *string        `json:"occurrence"`
	Until    *string        `json:"until"`
	Reason   *string        `json:"reason"`   // skip: why; remind: of what
	Who      *string        `json:"who"`      // whom a task was given to, or who is off
	Days     *string        `json:"days"`     // off: 2031-05-02 2031-05-03
	Comb     *int64         `json:"comb"`     // the line of the confinement that it is about
	Anyway   bool           `json:"warned"`   // logged though the crew was warned
	Plan     *rules.Booking `json:"plan"`     // of an order
	Given    *int64         `json:"given_to"` // the number of the member that a task is given to
	Crew     int64          `json:"crew"`     // numbers of rows from here on
	Member   int64          `json:"member"`   //
	Update   int64          `json:"update"`   //
	Message  int64          `json:"message"`  // of the chat
}

// exportTask is a task as exported, those already answered among them.
type exportTask struct {
	dueTask
	Counted string `json:"counted_from"`
	Anchor  string `json:"anchor"`
	Source  string `json:"source"`

	Key     string  `json:"key"`
	Occ     *string `json:"occurrence"`
	Ideal   *string `json:"ideal"` // the best time before it was fitted to working hours
	Unfit   bool    `json:"unfit"` // no working hours in the window
	Guard   bool    `json:"guard"`
	Snoozed *string `json:"snoozed"`
	Batch   *int    `json:"batch"`
	Round   *string `json:"round"` // the round whose bar the batch is
	Breeder *int    `json:"breeder"`
	Count   *int    `json:"count"`
	From    *string `json:"from"`
	Into    *string `json:"into"`
	Mark    *string `json:"mark"`
	Stake   *string `json:"stake"`
	Crew    int64   `json:"crew"`
}

func exportCommand(e env) *cobra.Command {
	var f fileFlags
	var what, format, out string
	var asJSON bool
	c := &cobra.Command{
		Use:   "export",
		Short: "Write the logbook or the tasks as JSON or CSV",
		Long:  "Writes every line of the logbook (what people typed among it), or every task, with all that is kept of it. Cells that a spreadsheet would take for a formula are led by an apostrophe in CSV.",
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
			if asJSON && format != "json" {
				return usage("use --json or --format %s, not both", format)
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
	c.Flags().BoolVar(&asJSON, "json", false, "one JSON object a line, as --format json")
	c.Flags().StringVar(&out, "out", "", "file to write instead of standard output")
	return c
}

func export(tx *store.Tx, w io.Writer, what, format string, now time.Time) error {
	crews, err := tx.Crews()
	if err != nil {
		return err
	}
	cw := csv.NewWriter(w)
	put := func(x any) error {
		if format == "csv" {
			return cw.Write(cells(x, false))
		}
		return wording.WriteJSON(w, x)
	}
	if format == "csv" {
		head := any(exportLine{})
		if what == "tasks" {
			head = exportTask{}
		}
		if err := cw.Write(cells(head, true)); err != nil {
			return err
		}
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
				if err := put(asExport(l, s.Zone)); err != nil {
					return err
				}
			}
			continue
		}
		tasks, err := tx.Tasks(crew.ID)
		if err != nil {
			return err
		}
		model, err := tx.Model(crew.ID)
		if err != nil {
			return err
		}
		rounds := model.Rounds()
		for _, t := range tasks {
			x := asExportTask(t, crew.ID, s.Zone, now)
			if r, found := rules.RoundWith(rounds, t.Batch); found {
				x.Round = some(r.Subject().String())
			}
			if err := put(x); err != nil {
				return err
			}
		}
	}
	cw.Flush()
	return cw.Error()
}

func asExport(l store.Line, zone *time.Location) exportLine {
	g, d := console.AsLogged(l.Entry, zone), l.Detail
	x := exportLine{ID: l.ID, Said: console.LocalTime(l.Said, zone), Happened: g.Happened, By: g.By, Action: g.Action, Step: g.Step, Subject: g.Subject,
		Count: g.Count, Of: g.Of, From: g.From, Into: g.Into, Mark: g.Mark, Ref: some(l.Ref), Text: l.Raw,
		BeesIn: d.BeesIn, AgeFrom: d.AgeLo, AgeTo: d.AgeHi, Litres: some(d.Litres), Each: d.Each, NoEggs: d.NoEggs, NoneYet: d.NoneYet, More: d.More, Cause: some(d.Cause), Out: some(d.Out), Part: d.Part, C: d.C, Power: d.Power, Singly: d.Singly, Both: d.Both, Rests: d.Rests, State: some(string(d.State)), Batch: some(d.Batch), Customer: some(d.Customer), Tags: some(d.Tags), Back: d.Back, Ship: d.Ship, Released: d.Release, All: d.All,
		Occ: some(d.Occ), Reason: some(d.Reason), Who: some(l.Whom), Days: some(d.Days), Comb: some(d.Comb), Anyway: d.Accepted, Plan: d.Plan,
		Given: some(d.Member), Crew: l.Crew, Member: l.Member, Update: l.Update, Message: l.Message}
	if d.Until != 0 {
		x.Until = localOr(time.UnixMilli(d.Until), zone)
	}
	if l.Action == rules.Set || d.Key != "" || d.Value != "" {
		x.Key, x.Value = &d.Key, &d.Value
	}
	return x
}

func asExportTask(t rules.Task, crew int64, zone *time.Location, now time.Time) exportTask {
	return exportTask{dueTask: asDue(t, zone, now), Counted: t.Reason, Anchor: console.LocalTime(t.Anchor, zone), Source: t.Source,
		Key: t.Key, Occ: some(t.Occ), Ideal: localOr(t.Ideal, zone), Unfit: t.Unfit, Guard: t.Guard, Snoozed: localOr(t.Snoozed, zone),
		Batch: some(t.Batch), Breeder: some(t.Breeder), Count: t.Count, From: some(t.From), Into: some(t.Into), Mark: some(t.Mark), Stake: some(t.Stake), Crew: crew}
}

// some is a value, nil where there is none.
func some[T comparable](v T) *T {
	var none T
	if v == none {
		return nil
	}
	return &v
}

// localOr is a time in a zone, nil where there is none.
func localOr(t time.Time, zone *time.Location) *string {
	if t.IsZero() {
		return nil
	}
	s := console.LocalTime(t, zone)
	return &s
}

// cells are the columns of a sheet, or with names their heads: the fields of x, as JSON
// calls them. What is neither text nor a number stands as JSON.
func cells(x any, names bool) []string { return cellsOf(reflect.ValueOf(x), names) }

func cellsOf(v reflect.Value, names bool) (row []string) {
	for i := range v.NumField() {
		f, t := v.Field(i), v.Type().Field(i)
		switch {
		case t.Anonymous:
			row = append(row, cellsOf(f, names)...)
		case names:
			row = append(row, t.Tag.Get("json"))
		case f.Kind() == reflect.Pointer && f.IsNil():
			row = append(row, "")
		case reflect.Indirect(f).Kind() == reflect.Struct:
			text, _ := json.Marshal(f.Interface()) // of plain values, which cannot fail
			row = append(row, wording.Inert(string(text)))
		default:
			row = append(row, wording.Inert(fmt.Sprint(reflect.Indirect(f).Interface())))
		}
	}
	return row
}
