package bot

import (
	"strconv"

	"yardbell/bot/attach"
	"yardbell/rules"
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
	t.attach = attach.Attachment{Kind: kind, Year: year}
	t.say("s_"+kind, "Year", strconv.Itoa(year))
}
