package bot

import (
	"strconv"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// report answers with the records of a year: a page to print, or a sheet.
func (t *talk) report(r *reading) {
	year := rules.DateOf(t.tx.Now, t.s.Zone).Year
	if r.days != 0 {
		year = r.days
	}
	kind := "report"
	if r.topic == "csv" || r.topic == "spreadsheet" {
		kind = "sheets"
	}
	t.attach = attachment{Kind: kind, Year: year}
	t.say("s_"+kind, "Year", strconv.Itoa(year))
}

func makeReport(v wording.Voice, tx *store.Tx, crew int64, a attachment) ([]made, error) {
	s, err := readSeason(v, tx, crew, a.Year)
	if err != nil {
		return nil, err
	}
	return []made{{name: "season-" + strconv.Itoa(a.Year) + ".html", draw: func() ([]byte, error) { return reportHTML(v, s) }}}, nil
}

func makeSheets(v wording.Voice, tx *store.Tx, crew int64, a attachment) ([]made, error) {
	s, err := readSeason(v, tx, crew, a.Year)
	if err != nil {
		return nil, err
	}
	year := strconv.Itoa(a.Year)
	return []made{
		{name: "rounds-" + year + ".csv", draw: func() ([]byte, error) { return roundsCSV(v, s) }},
		{name: "queens-" + year + ".csv", draw: func() ([]byte, error) { return queensCSV(v, s) }},
	}, nil
}
