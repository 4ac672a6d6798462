package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// busySeason is a season of many rounds, one a week, each from the confinement to
// caught queens.
func busySeason(rounds int) string {
	var b strings.Builder
	at := time.Date(2031, 4, 21, 8, 0, 0, 0, time.UTC)
	say := func(after time.Duration, text string) {
		at = at.Add(after)
		fmt.Fprintf(&b, "@ %s\nWren: %s\n", at.Format("2006-01-02 15:04"), text)
	}
	b.WriteString("Wren: add breeder 7\nWren: add breeder 9\nWren: add builder B1\nWren: add builder B2\nWren: add yard North 60 nucs\n")
	for n := 1; n <= rounds; n++ {
		breeder, builder := 7+2*(n%2), fmt.Sprintf("B%d", 1+n%2)
		first := at
		say(24*time.Hour, fmt.Sprintf("confine %d bees in", breeder))
		say(24*time.Hour, fmt.Sprintf("eggs %d", breeder))
		say(time.Minute, fmt.Sprintf("comb out %d", breeder))
		say(72*time.Hour, fmt.Sprintf("graft 45 from %d into %s", breeder, builder))
		if n > 1 {
			say(time.Minute, fmt.Sprintf("batch %d accepted 38", n-1))
			say(time.Minute, fmt.Sprintf("batch %d finisher", n-1))
			say(time.Minute, fmt.Sprintf("batch %d capped 36", n-1))
		}
		if n > 2 {
			say(time.Minute, fmt.Sprintf("batch %d nucs 36 ready at North", n-2))
			say(time.Minute, fmt.Sprintf("batch %d moved 34 to North", n-2))
		}
		if n > 5 {
			say(time.Minute, fmt.Sprintf("batch %d emerged 31", n-5))
			say(time.Minute, fmt.Sprintf("batch %d laying 27", n-5))
			say(time.Minute, fmt.Sprintf("batch %d caught 24", n-5))
		}
		at = first.Add(7 * 24 * time.Hour)
	}
	return b.String()
}

// seasonFile plays a season into a file.
func seasonFile(tb testing.TB, rounds int) string {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), "crew.db")
	var out, errOut bytes.Buffer
	e := testEnv(busySeason(rounds), &out, &errOut)
	require.Zero(tb, run(context.Background(), []string{"console", "--db", path, "--now", "2031-04-21 08:00", "--json"}, e), errOut.String())
	return path
}

// service opens a copy of a file as the service does, at the last hour it has seen.
func service(tb testing.TB, source string) *player {
	tb.Helper()
	ctx := context.Background()
	path := filepath.Join(tb.TempDir(), "crew.db")
	require.NoError(tb, os.WriteFile(path, []byte(read(tb, source)), 0o600))
	var out, errOut bytes.Buffer
	p := &player{e: testEnv("", &out, &errOut), path: path, first: map[string]string{"zone": "UTC"}, out: &out, json: true}
	require.NoError(tb, p.open(ctx))
	now, err := newest(ctx, p.db)
	require.NoError(tb, err)
	require.NoError(tb, p.begin(ctx, now))
	tb.Cleanup(func() { require.NoError(tb, p.close()) })
	return p
}

// BenchmarkMessage is one message taken in, planned and saved, and its answer
// delivered, with a season in the file already.
func BenchmarkMessage(b *testing.B) {
	ctx := context.Background()
	for _, rounds := range []int{2, 25, 100} {
		source := seasonFile(b, rounds)
		for _, text := range []string{"fed 7", "due", "batch 1 laying 27", "good morning all"} {
			b.Run(fmt.Sprintf("rounds=%d/%s", rounds, strings.ReplaceAll(text, " ", "_")), func(b *testing.B) {
				p := service(b, source)
				b.ResetTimer()
				for range b.N {
					p.now = p.now.Add(time.Second)
					in, err := p.incoming(ctx, scriptLine{kind: sayLine, who: "Wren", text: text})
					if err != nil {
						b.Fatal(err)
					}
					if err := p.bot.Handle(ctx, p.now, in); err != nil {
						b.Fatal(err)
					}
					if err := p.tick(ctx); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "messages/s")
			})
		}
	}
}
