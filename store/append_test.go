package store

import (
	"testing"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// BenchmarkAppend is a line written into the logbook: alone in its transaction, and
// as one of a hundred in the same.
func BenchmarkAppend(b *testing.B) {
	for name, each := range map[string]int{"one_a_transaction": 1, "hundred_a_transaction": 100} {
		b.Run(name, func(b *testing.B) {
			d := newDiary(b, fresh(b))
			var row int64
			var member Member
			d.do(func(tx *Tx) error {
				m, err := tx.Member(d.crew, "wren", "Wren")
				if err != nil {
					return err
				}
				member = m
				row, _, err = tx.MarkUpdate(Update{Source: "test", UpdateID: 1, Crew: d.crew.ID, Member: m.ID, Kind: "message", Message: 1, Said: d.now})
				return err
			})
			count := 34
			e := rules.Entry{Said: d.now, Happened: d.now, Action: rules.Did, Step: rules.Move, Subject: rules.BatchSubject(4), Count: &count, Into: "North"}
			b.ResetTimer()
			for range b.N {
				require.NoError(b, d.db.Update(ctx, d.now, func(tx *Tx) error {
					for range each {
						if _, err := tx.Append(d.crew.ID, row, member, 1, "batch 4 moved 34 to North", e); err != nil {
							return err
						}
					}
					return nil
				}))
			}
			b.ReportMetric(float64(b.N*each)/b.Elapsed().Seconds(), "lines/s")
		})
	}
}
