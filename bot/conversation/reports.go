package conversation

import (
	"strconv"

	"yardbell/bot/attach"
	"yardbell/rules"
)

// report answers with the records of a year: a page to print, or a sheet.
func (sc *Scene) report(r *reading) Answer {
	var ans Answer
	year := rules.DateOf(sc.Look.Now, sc.Settings.Zone).Year
	if r.days != 0 {
		year = r.days
	}
	kind := "report"
	if r.topic == "csv" || r.topic == "spreadsheet" {
		kind = "sheets"
	}
	ans.Attach = attach.Attachment{Kind: kind, Year: year}
	ans.say(sc.Voice, "s_"+kind, "Year", strconv.Itoa(year))
	return ans
}
