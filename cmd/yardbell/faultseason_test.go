//go:build linux && !race

package main

import (
	"bytes"
	"flag"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var seasonSeed = flag.Uint64("season", 0, "seed of the fault season, 0 to take 1")

// seasonSize is how much is played.
type seasonSize struct {
	crews, batches int
	days           int // from the first to the last
	counts         faultCounts
}

var (
	shortSeason = seasonSize{crews: 3, batches: 2, days: 60, counts: countsOf(24, 1, 1, 2)}
	longSeason  = seasonSize{crews: 50, batches: 9, days: 116, counts: countsOf(500, 30, 15, 30)}
)

// seasonStart has the clocks of both sides of the ocean change within the season.
var seasonStart = time.Date(2031, time.March, 3, 0, 0, 0, 0, time.UTC)

// A season of many crews against a service that is killed over and over, whose disk is
// full or read-only, whose clock jumps and whose network fails, is the season without all
// that: every line once, every ping, nothing else, and no message twice but where the
// service could not know that the chat had taken it.
func TestFaultSeason(t *testing.T) {
	if !allTests && *seasonSeed == 0 && os.Getenv("YARDBELL_SEASON") == "" {
		t.Skip("takes half a minute: YARDBELL_TESTS=all or -season 1 plays it")
	}
	size := shortSeason
	if os.Getenv("YARDBELL_SEASON") == "long" {
		size = longSeason
	}
	seed := max(*seasonSeed, 1)
	began := time.Now()
	script := seasonScript(seed, size.crews, size.batches, seasonStart)
	end := seasonStart.AddDate(0, 0, size.days)

	calm := newSeason(t, size.crews, seasonStart)
	steps := calm.play(script, nil, end)
	calm.finish()
	want := calm.reckon()
	require.Zero(t, calm.fig["kills"])
	require.Empty(t, calm.missed)
	t.Logf("seed %d; without faults: %d steps, %s, %s", seed, steps, calm.fig, time.Since(began).Round(time.Second))
	calm.sound()

	began = time.Now()
	s := newSeason(t, size.crews, seasonStart)
	s.play(script, newPlan(seed, size.counts, steps), end)
	s.finish()
	s.judge(want)
	s.sound()
	for kind, n := range size.counts {
		if s.disk.mounted {
			assert.GreaterOrEqual(t, s.fig[figureOf(kind)], n, kind)
		}
	}
	assert.Positive(t, s.fig["disk full, felt"]+s.fig["writes refused, felt"], "no write met a full disk")
	assert.Positive(t, s.fig["read-only file, felt"])
	t.Logf("seed %d; with faults: %d said, %s, %s", seed, len(script), s.fig, time.Since(began).Round(time.Second))
}

// figureOf is under which name a fault is counted.
func figureOf(kind string) string {
	switch kind {
	case "kill":
		return "kills"
	case "disk full, then a line":
		return "disk full"
	}
	return kind
}

// sound has the file checked, and derived anew from its logbook.
func (s *season) sound() {
	var out, errOut bytes.Buffer
	e := env{out: &out, errOut: &errOut, get: os.Getenv, clock: s.clock.Now}
	require.Equal(s.t, 0, run(s.t.Context(), []string{"check", "--db", s.disk.path()}, e), out.String()+errOut.String())
	out.Reset()
	require.Equal(s.t, 0, run(s.t.Context(), []string{"rebuild", "--db", s.disk.path()}, e), errOut.String())
	assert.Equal(s.t, "rebuilt: everything as it was\n", out.String())
}
