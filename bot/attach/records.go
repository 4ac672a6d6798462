package attach

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"html/template"
	"strconv"
	"strings"
	"sync"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

//go:embed report.html
var reportFile embed.FS

var reportPage = sync.OnceValues(func() (*template.Template, error) {
	return template.ParseFS(reportFile, "report.html")
})

// roundStages are the columns of a round.
var roundStages = []rules.Step{rules.Graft, rules.Accept, rules.Capped, rules.Move, rules.Emerge, rules.Laying, rules.Catch}

// season is what the records of one year say.
type season struct {
	year    int
	batches []rules.Batch
	rounds  []rules.GraftRound
	queens  []rules.QueenRecord
	stock   []rules.StockLot // what became of them, where anything was told of that
}

func readSeason(v wording.Voice, tx *store.Tx, crew int64, year int) (s season, err error) {
	s.year = year
	all, err := tx.Batches(crew)
	if err != nil {
		return s, err
	}
	s.batches = rules.RoundsOf(all, year, v.Settings.Zone)
	model, err := tx.Model(crew)
	if err != nil {
		return s, err
	}
	s.rounds = model.Rounds()
	book, err := tx.Logbook(crew)
	if err != nil {
		return s, err
	}
	entries := make([]rules.Entry, len(book))
	for i, l := range book {
		entries[i] = l.Entry
	}
	s.queens = rules.CaughtQueens(all, entries, year, v.Settings.Zone)
	s.stock, err = stockOf(tx, crew, year, v.Settings.Zone)
	return s, err
}

// sum adds what was counted at a stage; ok false where nothing was.
func (s season) sum(step rules.Step) (n int, ok bool) {
	for _, b := range s.batches {
		if c := b.Counts.Of(step); c != nil {
			n, ok = n+*c, true
		}
	}
	return n, ok
}

// Records are those of a year, in the crew's language: the rounds and every queen caught
// as a page to print ("html"), or one of the two for a spreadsheet ("rounds", "queens").
func Records(tx *store.Tx, crew store.Crew, year int, kind string) (file []byte, err error) {
	s, err := tx.Settings(crew.ID)
	if err != nil {
		return nil, err
	}
	v := wording.New(s, tx.Now)
	if v, err = knowing(v, tx, crew.ID); err != nil {
		return nil, err
	}
	data, err := readSeason(v, tx, crew.ID, year)
	if err != nil {
		return nil, err
	}
	switch kind {
	case "html":
		return reportHTML(v, data)
	case "rounds":
		return roundsCSV(v, data)
	case "queens":
		return queensCSV(v, data)
	case "stock":
		return stockCSV(v, data)
	}
	return nil, fmt.Errorf("there are no records as %q", kind)
}

func reportHTML(v wording.Voice, s season) ([]byte, error) {
	type table struct {
		Head []string
		Rows [][]string
		Foot []string
	}
	type page struct {
		Lang, Title, Made, RoundsTitle, QueensTitle, StockTitle, Empty string
		Rounds, Queens, Stock                                          table
	}
	p := page{Lang: v.Say("language_code"), Title: v.Say("rec_title", "Year", strconv.Itoa(s.year)), Made: v.Say("rec_made", "When", v.Date(rules.DateOf(v.Now, v.Settings.Zone))),
		RoundsTitle: v.Say("rec_rounds"), QueensTitle: v.Say("rec_queens", "Count", len(s.queens)), Empty: v.Say("rec_none")}
	p.Rounds.Head = roundHead(v)
	for _, b := range s.batches {
		p.Rounds.Rows = append(p.Rounds.Rows, roundRow(v, s, b, func(t time.Time) string { return v.Date(rules.DateOf(t, v.Settings.Zone)) }))
	}
	if len(s.batches) > 0 {
		p.Rounds.Foot = []string{v.Say("rec_sum"), "", "", ""}
		for _, step := range roundStages {
			cell := ""
			if n, ok := s.sum(step); ok {
				cell = strconv.Itoa(n)
			}
			p.Rounds.Foot = append(p.Rounds.Foot, cell)
		}
		var lost []rules.Loss
		for _, b := range s.batches {
			lost = append(lost, b.Account.Lost...)
		}
		p.Rounds.Foot = append(append(p.Rounds.Foot, lostCells(v, lost)...), "", "", "")
	}
	p.StockTitle = v.Say("rec_stock")
	for _, l := range s.stock {
		p.Stock.Head = stockHead(v)
		p.Stock.Rows = append(p.Stock.Rows, stockRow(v, l, func(t time.Time) string { return v.Date(rules.DateOf(t, v.Settings.Zone)) }))
	}
	p.Queens.Head = queenHead(v)
	for _, q := range s.queens {
		p.Queens.Rows = append(p.Queens.Rows, queenRow(v, q, func(t time.Time) string { return v.Date(rules.DateOf(t, v.Settings.Zone)) }))
	}
	t, err := reportPage()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = t.Execute(&b, p)
	return b.Bytes(), err
}

func roundHead(v wording.Voice) []string {
	head := []string{v.Say("rec_batch"), v.Say("rec_mother"), v.Say("rec_builder"), v.Say("rec_grafted")}
	for _, step := range roundStages {
		head = append(head, v.Say("past_"+string(step)))
	}
	return append(head, v.Say("rec_lost"), v.Say("rec_why"), v.Say("rec_round"), v.Say("rec_grafter"), v.Say("rec_yards"))
}

func roundRow(v wording.Voice, s season, b rules.Batch, day func(time.Time) string) []string {
	r, _ := rules.RoundWith(s.rounds, b.Number)
	row := []string{strconv.Itoa(b.Number), orNone(b.Breeder), b.Start, day(b.Grafted)}
	for _, step := range roundStages {
		cell := ""
		if n := b.Counts.Of(step); n != nil {
			cell = strconv.Itoa(*n)
		}
		row = append(row, cell)
	}
	row = append(row, lostCells(v, b.Account.Lost)...)
	return append(row, roundDay(r), wording.Visible(b.Grafter), wording.JoinList(b.Yards))
}

// lostCells are the cells of a row about losses: how many, and how many by what cause.
func lostCells(v wording.Voice, lost []rules.Loss) []string {
	if len(lost) == 0 {
		return []string{"", ""}
	}
	n := 0
	for _, x := range lost {
		n += x.Count
	}
	return []string{strconv.Itoa(n), v.ByCause(lost)}
}

func queenHead(v wording.Voice) []string {
	return []string{v.Say("rec_queen"), v.Say("rec_mother"), v.Say("rec_batch"), v.Say("rec_grafted"), v.Say("rec_yard"), v.Say("rec_caught"), v.Say("rec_by")}
}

func queenRow(v wording.Voice, q rules.QueenRecord, day func(time.Time) string) []string {
	return []string{strconv.Itoa(q.Number), orNone(q.Mother), strconv.Itoa(q.Batch), day(q.Grafted), strings.ReplaceAll(q.Yard, rules.YardSep, ", "), day(q.Caught), q.By}
}

func orNone(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// queensCSV and roundsCSV are the same records for a spreadsheet: days as YYYY-MM-DD,
// headings in the crew's language, and no cell that a spreadsheet would run.
func queensCSV(v wording.Voice, s season) ([]byte, error) {
	rows := [][]string{queenHead(v)}
	for _, q := range s.queens {
		rows = append(rows, queenRow(v, q, func(at time.Time) string { return isoDay(v, at) }))
	}
	return sheetOf(rows)
}

func roundsCSV(v wording.Voice, s season) ([]byte, error) {
	rows := [][]string{roundHead(v)}
	for _, b := range s.batches {
		rows = append(rows, roundRow(v, s, b, func(at time.Time) string { return isoDay(v, at) }))
	}
	return sheetOf(rows)
}

func isoDay(v wording.Voice, t time.Time) string { return rules.DateOf(t, v.Settings.Zone).String() }

func sheetOf(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	for _, r := range rows {
		for i := range r {
			r[i] = wording.Inert(r[i])
		}
		if err := w.Write(r); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

func makeReport(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	v, err := knowing(v, tx, crew)
	if err != nil {
		return nil, err
	}
	s, err := readSeason(v, tx, crew, a.Year)
	if err != nil {
		return nil, err
	}
	return []made{{name: "season-" + strconv.Itoa(a.Year) + ".html", draw: func() ([]byte, error) { return reportHTML(v, s) }}}, nil
}

func makeSheets(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	v, err := knowing(v, tx, crew)
	if err != nil {
		return nil, err
	}
	s, err := readSeason(v, tx, crew, a.Year)
	if err != nil {
		return nil, err
	}
	year := strconv.Itoa(a.Year)
	sheets := []made{
		{name: "rounds-" + year + ".csv", draw: func() ([]byte, error) { return roundsCSV(v, s) }},
		{name: "queens-" + year + ".csv", draw: func() ([]byte, error) { return queensCSV(v, s) }},
	}
	if len(s.stock) > 0 {
		sheets = append(sheets, made{name: "stock-" + year + ".csv", draw: func() ([]byte, error) { return stockCSV(v, s) }})
	}
	return sheets, nil
}

// roundDay is the name of a round, "" of none.
func roundDay(r rules.GraftRound) string {
	if len(r.Bars) == 0 {
		return ""
	}
	return r.Day.String()
}
