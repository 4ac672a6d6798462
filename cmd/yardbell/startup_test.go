package main

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// BenchmarkStart opens a file of ten seasons of one crew as serve does, up to the first
// tick. All of the file is checked for damage before anything is written to it.
func BenchmarkStart(b *testing.B) {
	source := seasonFile(b, 10*seasonRounds)
	st, err := os.Stat(source)
	require.NoError(b, err)
	shortest := time.Duration(0)
	for range b.N {
		began := time.Now()
		db, err := store.Open(b.Context(), source, store.Options{})
		require.NoError(b, err)
		require.NoError(b, db.Update(b.Context(), began, func(tx *store.Tx) error { return tx.ReleaseAll() }))
		if d := time.Since(began); shortest == 0 || d < shortest {
			shortest = d
		}
		require.NoError(b, db.Close())
	}
	b.ReportMetric(float64(shortest.Milliseconds()), "ms/start")
	b.ReportMetric(float64(st.Size())/10/(1<<20), "MB/season")
	b.ReportMetric(0, "ns/op")
}
