package rules

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// caught is an entry of a catch; count below zero for one that was not counted.
func caught(id int64, batch, count int, yard string, at time.Time) Entry {
	e := Entry{ID: id, Action: Did, Step: Catch, Subject: BatchSubject(batch), Into: yard, Happened: at, Said: at, By: "Wren"}
	if count >= 0 {
		e.Count = &count
	}
	return e
}

// spell writes records in short: number, batch, mother, yard, day caught, by whom.
func spell(list []QueenRecord, zone *time.Location) string {
	var out []string
	for _, q := range list {
		out = append(out, fmt.Sprintf("%d:b%d/m%d/%s/%s/%s", q.Number, q.Batch, q.Mother, q.Yard, DateOf(q.Caught, zone), q.By))
	}
	return strings.Join(out, " ")
}

// Every queen has her mother, her yard and her day, by the lines that count: catches in
// parts, one amended, one voided, one whose void was taken back.
func TestCaughtQueens(t *testing.T) {
	utc := time.UTC
	day := func(d int) time.Time { return time.Date(2031, 6, d, 9, 0, 0, 0, utc) }
	batches := []Batch{
		{Number: 1, Breeder: 7, Grafted: day(1).AddDate(0, 0, -30), Yards: []string{"North", "Creek"}},
		{Number: 2, Grafted: day(1).AddDate(0, 0, -25), Yards: []string{"North"}}, // its mother was not logged
	}
	three, one := 3, 1
	entries := []Entry{
		caught(1, 1, 1, "North", day(9)),
		caught(2, 1, 2, "Creek", day(10)),
		caught(3, 2, 1, "", day(11)),
		caught(4, 1, 5, "North", day(12)),
		{ID: 5, Action: Void, Step: Catch, Subject: BatchSubject(1), Ref: 4, Happened: day(12), By: "Wren"},
		caught(6, 1, 2, "", day(13)),
		{ID: 7, Action: Amend, Step: Catch, Subject: BatchSubject(1), Ref: 6, Count: &one, Happened: day(14), By: "Ash"},
		caught(8, 1, -1, "North", day(15)), // how many nobody knows
		caught(9, 3, 4, "North", day(15)),  // a batch that was taken back
		{ID: 10, Action: Did, Step: Laying, Subject: BatchSubject(1), Count: &three, Happened: day(8), By: "Wren"},
		caught(11, 2, 1, "North", day(16)),
		{ID: 12, Action: Void, Step: Catch, Subject: BatchSubject(2), Ref: 11, Happened: day(16), By: "Wren"},
		{ID: 13, Action: Void, Ref: 12, Happened: day(16), By: "Wren"},
	}
	got := CaughtQueens(batches, entries, 2031, utc)
	both := "North" + YardSep + "Creek"
	require.Equal(t, "1:b1/m7/North/2031-06-09/Wren 2:b1/m7/Creek/2031-06-10/Wren 3:b1/m7/Creek/2031-06-10/Wren 4:b2/m0/North/2031-06-11/Wren "+
		"5:b1/m7/"+both+"/2031-06-14/Wren 6:b2/m0/North/2031-06-16/Wren", spell(got, utc))
	for _, q := range got {
		assert.Equal(t, batches[q.Batch-1].Grafted, q.Grafted)
	}
	assert.Empty(t, CaughtQueens(batches, entries, 2030, utc))
}

// The year is the crew's own: the same hour may be of two years, in two zones.
func TestRecordsYear(t *testing.T) {
	sydney, chicago := zone(t, "Australia/Sydney"), zone(t, "America/Chicago")
	at := time.Date(2031, 12, 31, 20, 0, 0, 0, time.UTC)
	batches := []Batch{{Number: 2, Breeder: 7, Grafted: at}, {Number: 1, Breeder: 12, Grafted: at}, {Number: 3, Grafted: at.Add(-time.Hour)}}
	entries := []Entry{caught(1, 1, 1, "North", at)}
	for _, c := range []struct {
		zone *time.Location
		year int
	}{{sydney, 2032}, {chicago, 2031}} {
		for year := 2030; year <= 2033; year++ {
			n, rounds := 0, []int{}
			if year == c.year {
				n, rounds = 1, []int{3, 1, 2}
			}
			assert.Len(t, CaughtQueens(batches, entries, year, c.zone), n, "%s %d", c.zone, year)
			numbers := []int{}
			for _, b := range RoundsOf(batches, year, c.zone) {
				numbers = append(numbers, b.Number)
			}
			assert.Equal(t, rounds, numbers, "%s %d", c.zone, year)
		}
	}
}
