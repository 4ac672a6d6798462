//go:build linux && !race

package main

import (
	"os"
	"os/signal"
	"strings"
	"syscall"
	"testing"
	"time"
)

// seasonChild names the address at which the process of a season asks for the time,
// whether it may write, and whether to die.
const seasonChild = "YARDBELL_TEST_SEASON"

// fileSize is RLIMIT_FSIZE, which the standard library has no name for.
const fileSize = 1

// TestSeasonChild is the process that suffers the season.
func TestSeasonChild(t *testing.T) {
	base := os.Getenv(seasonChild)
	if base == "" {
		t.Skip("only as a child of TestFaultSeason")
	}
	signal.Ignore(syscall.SIGXFSZ) // a write above the limit fails, as on a disk that takes none
	ask := asks(base)
	var whole syscall.Rlimit
	if err := syscall.Getrlimit(fileSize, &whole); err != nil {
		os.Exit(3)
	}
	serveMortal(ask, "/reached?", "die", func() time.Time {
		at, _, refused := strings.Cut(ask("/now"), " refused")
		limit := whole
		if refused {
			limit.Cur = 0
		}
		if syscall.Setrlimit(fileSize, &limit) != nil {
			os.Exit(3)
		}
		return instantOf(at)
	})
}
