//go:build linux && !race

package main

import (
	"context"
	"io"
	"net/http"
	"net/url"
	"os"
	"os/signal"
	"strconv"
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
	ask := func(what string) string {
		resp, err := http.Get(base + what)
		if err != nil {
			os.Exit(3) // the parent has gone
		}
		defer func() { _ = resp.Body.Close() }()
		b, err := io.ReadAll(resp.Body)
		if err != nil {
			os.Exit(3)
		}
		return string(b)
	}
	var whole syscall.Rlimit
	if err := syscall.Getrlimit(fileSize, &whole); err != nil {
		os.Exit(3)
	}
	e := env{in: strings.NewReader(""), out: os.Stdout, errOut: os.Stderr, get: os.Getenv, tty: func(io.Writer) bool { return false },
		clock: func() time.Time {
			at, _, refused := strings.Cut(ask("/now"), " refused")
			limit := whole
			if refused {
				limit.Cur = 0
			}
			n, err := strconv.ParseInt(at, 10, 64)
			if err != nil || syscall.Setrlimit(fileSize, &limit) != nil {
				os.Exit(3)
			}
			return time.Unix(0, n)
		},
		wait: func(ctx context.Context, d time.Duration) error {
			ask("/wait?d=" + strconv.FormatInt(int64(d), 10))
			return ctx.Err()
		},
		around: func(s seams) seams {
			reached := func(point, what string) {
				if ask("/reached?"+url.Values{"point": {point}, "what": {what}}.Encode()) == "die" {
					dieNow()
				}
			}
			return seams{killedHandler{s.in, reached}, killedSender{s.to, reached}}
		}}
	os.Exit(run(context.Background(), []string{"serve", "--db", os.Getenv(mortalDB), "--api", os.Getenv(mortalAPI)}, e))
}
