package attach

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// knowing is the voice with the customers' names: records are the crew's own, and go to
// whoever of it asks. Pictures and calendars are given on, and have numbers.
func knowing(v wording.Voice, tx *store.Tx, crew int64) (wording.Voice, error) {
	list, err := tx.Customers(crew)
	v.Customers = map[int]string{}
	for _, c := range list {
		if !c.Forgotten {
			v.Customers[c.Number] = c.Name
		}
	}
	return v, err
}

// stockOf are the queens caught in a local year and where they are, in the order of their
// catches; none where nothing was told of any after its catch.
func stockOf(tx *store.Tx, crew int64, year int, zone *time.Location) ([]rules.StockLot, error) {
	m, err := tx.Model(crew)
	if err != nil {
		return nil, err
	}
	told := false
	lots := m.Stock().There(func(l *rules.StockLot) bool {
		at := l.Caught
		if at.IsZero() {
			at = l.Since
		}
		if rules.DateOf(at, zone).Year != year {
			return false
		}
		told = told || l.Line != l.Catch || l.Colour != ""
		return true
	})
	if !told {
		return nil, nil
	}
	slices.SortStableFunc(lots, func(a, b rules.StockLot) int { return a.Caught.Compare(b.Caught) })
	return lots, nil
}

func stockHead(v wording.Voice) []string {
	return []string{v.Say("rec_number"), v.Say("rec_where"), v.Say("rec_since"), v.Say("rec_batch"), v.Say("rec_yard"), v.Say("rec_caught"), v.Say("rec_mark"), v.Say("rec_tags")}
}

// stockRow is a lot: how many, where and since when, from where, how marked. Of queens of
// whom it was not told which went where, all the numbers stand that they may have.
func stockRow(v wording.Voice, l rules.StockLot, day func(time.Time) string) []string {
	caught := ""
	if !l.Caught.IsZero() {
		caught = day(l.Caught)
	}
	colour := ""
	if l.Colour != "" {
		colour = v.Mark(l.Colour)
	}
	return []string{strconv.Itoa(l.Count), v.WhereIs(l), day(l.Since), orNone(l.Batch), strings.ReplaceAll(l.Yard, rules.YardSep, ", "), caught, colour, v.Tags(l.Tags.String())}
}

func stockCSV(v wording.Voice, s season) ([]byte, error) {
	rows := [][]string{stockHead(v)}
	for _, l := range s.stock {
		rows = append(rows, stockRow(v, l, func(at time.Time) string { return isoDay(v, at) }))
	}
	return sheetOf(rows)
}
