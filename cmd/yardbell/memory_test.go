package main

import (
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/scheduler"
	"yardbell/store"
)

// mostMemory is what a service with 10,000 crews may take, all of the process.
const mostMemory = 200 << 20

// A service whose crews all write and are all reminded stays within its memory, however
// many there are: what is at hand of each is bounded. YARDBELL_CREWS=10000 plays the
// stated number, YARDBELL_ACTIVE how many of them write, YARDBELL_ROUNDS=1 with a week of each instead of a season, since the
// file has 5 GB otherwise. It takes a minute with 150; the bound itself is tested in
// package store.
func TestMemoryOfManyCrews(t *testing.T) {
	crews, err := strconv.Atoi(os.Getenv("YARDBELL_CREWS"))
	if err != nil {
		t.Skip("set YARDBELL_CREWS to a number of crews")
	}
	rounds := seasonRounds
	if n, err := strconv.Atoi(os.Getenv("YARDBELL_ROUNDS")); err == nil {
		rounds = n
	}
	active := crews
	if n, err := strconv.Atoi(os.Getenv("YARDBELL_ACTIVE")); err == nil {
		active = min(n, crews)
	}
	ctx := t.Context()
	path := filepath.Join(t.TempDir(), "crews.db")
	require.NoError(t, os.WriteFile(path, []byte(read(t, seasonFile(t, rounds))), 0o600))
	copyCrew(t, path, crews)
	size, err := os.Stat(path)
	require.NoError(t, err)
	runtime.GC()
	debug.FreeOSMemory()
	before := resident(t)

	began := time.Now()
	db, err := store.Open(ctx, path, store.Options{})
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	opened := time.Since(began)
	b := bot.New(db, func() {}, slog.New(slog.DiscardHandler), map[string]string{"zone": "UTC"})
	out := &silentChat{}
	sched := scheduler.New(db, bot.Post{To: out}, slog.New(slog.DiscardHandler))
	now := time.Time{}
	require.NoError(t, db.View(ctx, time.Time{}, func(tx *store.Tx) (err error) { now, err = tx.Newest(); return err }))
	most := int64(0)
	for n, text := range []string{"fed 7", "due tomorrow"} {
		for crew := range active {
			at := now.Add(time.Duration(n) * time.Hour)
			require.NoError(t, b.Handle(ctx, at, bot.Incoming{Source: consoleSource, UpdateID: 1<<50 + int64(n*crews+crew), Chat: int64(consoleChat + crew),
				UserKey: "wren", UserName: "Wren", Said: at, Kind: "message", Message: 1_000_000_000 + int64(n), Text: text}))
			if crew%100 == 0 {
				most = max(most, resident(t))
			}
		}
		require.NoError(t, sched.Tick(ctx, now.Add(time.Duration(n)*time.Hour)))
		most = max(most, resident(t))
	}
	// In the evening all of them are reminded of what tomorrow brings.
	answers := out.n
	require.NoError(t, sched.Tick(ctx, now.Add(11*time.Hour)))
	most = max(most, resident(t))
	require.EqualValues(t, 2*active, answers, "each was answered")
	require.GreaterOrEqual(t, out.n, answers+int64(crews), "and reminded")
	// A backup is proved by deriving every crew anew.
	saved, most := most, int64(0)
	done := make(chan error)
	go func() {
		_, err := db.Backup(ctx, now.Add(12*time.Hour), t.TempDir())
		done <- err
	}()
	for err, over := error(nil), false; !over; most = max(most, resident(t)) {
		select {
		case err = <-done:
			var broken *store.BrokenError // of a crew copied as rows
			require.ErrorAs(t, err, &broken)
			over = true
		case <-time.After(10 * time.Millisecond):
		}
	}
	most, saved = max(most, saved), most
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	t.Logf("%d crews, %d of them writing: %s; file %s, opened in %s; resident %s at most (%s before, %s during a backup), heap %s", crews, active, fmt.Sprint(out.n, " messages out"),
		mega(size.Size()), opened.Round(time.Millisecond), mega(most), mega(before), mega(saved), mega(int64(m.HeapInuse)))
	require.Less(t, most, int64(mostMemory))
}

// seasonRounds are those of a crew's year: twenty weeks, a round a week.
const seasonRounds = 20

func mega(n int64) string { return fmt.Sprintf("%.1f MB", float64(n)/(1<<20)) }

// resident is the memory that the process takes.
func resident(t testing.TB) int64 {
	t.Helper()
	b, err := os.ReadFile("/proc/self/status")
	if err != nil {
		t.Skip("needs /proc")
	}
	for _, l := range strings.Split(string(b), "\n") {
		if rest, ok := strings.CutPrefix(l, "VmRSS:"); ok {
			n, err := strconv.ParseInt(strings.Fields(rest)[0], 10, 64)
			require.NoError(t, err)
			return n << 10
		}
	}
	t.Fatal("no VmRSS")
	return 0
}
