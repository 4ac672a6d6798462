package rules

import (
	"cmp"
	"slices"
	"time"
)

// QueenRecord is one caught queen: who her mother is, when she was grafted, where she
// mated and when she was caught.
type QueenRecord struct {
	Number  int // running in the year, in the order caught
	Batch   int
	Mother  int       // breeder number, 0 where it was not logged
	Grafted time.Time // UTC
	Caught  time.Time // UTC
	Yard    string    // where she was caught; every yard of the batch where it was not said
	By      string    // who logged the catch
}

// CaughtQueens lists the queens caught in a local year, by the catches that count in the
// logbook. A catch without a number is left out: nobody knows how many they were.
func CaughtQueens(batches []Batch, entries []Entry, year int, zone *time.Location) []QueenRecord {
	by := map[int]Batch{}
	for _, b := range batches {
		by[b.Number] = b
	}
	var out []QueenRecord
	for _, e := range did(Effective(entries), Catch) {
		b, known := by[e.Subject.Number()]
		if !known || e.Subject.Kind != BatchKind || e.Count == nil || DateOf(e.Happened, zone).Year != year {
			continue
		}
		yard := e.Into
		if yard == "" {
			yard = joinYards(b.Yards)
		}
		for range *e.Count {
			out = append(out, QueenRecord{Number: len(out) + 1, Batch: b.Number, Mother: b.Breeder, Grafted: b.Grafted, Caught: e.Happened, Yard: yard, By: e.By})
		}
	}
	return out
}

// RoundsOf lists the batches grafted in a local year, by the time of their graft.
func RoundsOf(batches []Batch, year int, zone *time.Location) (out []Batch) {
	for _, b := range batches {
		if DateOf(b.Grafted, zone).Year == year {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b Batch) int {
		return cmp.Or(a.Grafted.Compare(b.Grafted), cmp.Compare(a.Number, b.Number))
	})
	return out
}

func joinYards(yards []string) string {
	s := ""
	for i, y := range yards {
		if i > 0 {
			s += YardSep
		}
		s += y
	}
	return s
}
