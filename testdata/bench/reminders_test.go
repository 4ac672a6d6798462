// Package bench measures Yardbell beside a job queue by others, which is no part of
// Yardbell and so has a module of its own.
package bench

import (
	"context"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"
	_ "time/tzdata" // the zone must not depend on the machine

	"yardbell/bot"
	"yardbell/bot/wording"
	"yardbell/scheduler"
	"yardbell/store"
)

// pragmas are those of Yardbell's own writing connection.
const pragmas = "?_pragma=busy_timeout(5000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)&_pragma=recursive_triggers(1)&_pragma=journal_mode(WAL)&_txlock=immediate"

// What is due in the measured minute: so many crews, with so many reminders each.
const (
	crews   = 250
	batches = 4
	due     = crews * batches
)

// nowhere takes every message.
type nowhere struct{ n atomic.Int64 }

func (c *nowhere) Deliver(context.Context, wording.Delivery) (int64, error) { return c.n.Add(1), nil }

// evening is when all of it is due.
func evening(tb testing.TB) time.Time {
	tb.Helper()
	zone, err := time.LoadLocation("America/Chicago")
	must(tb, err)
	return time.Date(2031, 4, 27, 19, 0, 0, 0, zone)
}

var quiet = slog.New(slog.DiscardHandler)

// dueFile makes a file in which the reminders are due, by what the crews wrote.
func dueFile(tb testing.TB) string {
	tb.Helper()
	ctx := context.Background()
	path := filepath.Join(tb.TempDir(), "crew.db")
	db, err := store.Open(ctx, path, store.Options{})
	must(tb, err)
	b := bot.New(db, func() {}, quiet, map[string]string{"zone": "America/Chicago"})
	grafted := evening(tb).Add(-9 * time.Hour)
	id := int64(0)
	for crew := range crews {
		say := func(format string, args ...any) {
			id++
			must(tb, b.Handle(ctx, grafted, bot.Incoming{Source: "bench", UpdateID: id, Chat: int64(crew + 1), UserKey: fmt.Sprint(crew),
				UserName: "Wren", Said: grafted, Kind: "message", Message: 1_000_000 + id, Text: fmt.Sprintf(format, args...)}))
		}
		for n := 1; n <= batches; n++ {
			say("add breeder %d", n)
			say("add builder B%d", n)
			say("graft 45 from %d into B%d", n, n)
		}
	}
	// What was due before is out of the way.
	must(tb, scheduler.New(db, bot.Post{To: &nowhere{}}, quiet).Tick(ctx, evening(tb).Add(-time.Hour)))
	must(tb, db.Close())
	return path
}

// yardbellRate is how many reminders a second Yardbell words, sends nowhere and
// records.
func yardbellRate(tb testing.TB, source string) float64 {
	tb.Helper()
	ctx := context.Background()
	file, err := os.ReadFile(source)
	must(tb, err)
	path := filepath.Join(tb.TempDir(), "crew.db")
	must(tb, os.WriteFile(path, file, 0o600))
	db, err := store.Open(ctx, path, store.Options{})
	must(tb, err)
	defer func() { _ = db.Close() }()
	// A service that took in the crews' messages has their rows at hand and a log beside
	// the file that has grown already, as River's connection has from the jobs that it was
	// just given.
	must(tb, db.Update(ctx, evening(tb), func(tx *store.Tx) error { _, err := tx.Rebuild(); return err }))
	must(tb, db.Update(ctx, evening(tb), func(tx *store.Tx) error {
		list, err := tx.Crews()
		for _, c := range list {
			for _, read := range []func(int64) error{
				func(id int64) error { _, err := tx.OpenTasks(id); return err },
				func(id int64) error { _, err := tx.Batches(id); return err },
				func(id int64) error { _, err := tx.Settings(id); return err },
				func(id int64) error { _, _, err := tx.Names(id); return err },
				func(id int64) error { _, err := tx.Outbox(id); return err },
			} {
				if err := read(c.ID); err != nil {
					return err
				}
			}
		}
		return err
	}))
	sent := &nowhere{}
	s := scheduler.New(db, bot.Post{To: sent}, quiet)
	began, before := time.Now(), db.Work()
	must(tb, s.Tick(ctx, evening(tb)))
	rate := due / time.Since(began).Seconds()
	w := db.Work().Less(before)
	if sent.n.Load() != due {
		tb.Fatalf("%d reminders of %d went out", sent.n.Load(), due)
	}
	tb.Logf("Yardbell: %.0f a second; %d reminders, %d statements, %d rows, %d commits", rate, due, w.Statements, w.Rows, w.Commits)
	return rate
}

// BenchmarkReminders works off the same number of reminders by Yardbell and by River,
// in turn, on the same disk with the same pragmas; the best of each counts.
func BenchmarkReminders(b *testing.B) {
	var ours float64
	source := dueFile(b)
	theirs := map[string]float64{}
	for range b.N {
		ours = max(ours, yardbellRate(b, source))
		for _, how := range riverSettings {
			theirs[how.name] = max(theirs[how.name], riverRate(b, due, how))
		}
	}
	best := 0.0
	for _, how := range riverSettings {
		b.Logf("River, %s (%d workers): %.0f a second", how.name, how.workers, theirs[how.name])
		best = max(best, theirs[how.name])
	}
	b.Logf("Yardbell: %.0f a second", ours)
	b.ReportMetric(ours, "reminders/s")
	b.ReportMetric(theirs["defaults"], "river-reminders/s")
	b.ReportMetric(ours/theirs["defaults"], "times-river")
	b.ReportMetric(ours/best, "times-river-tuned")
	b.ReportMetric(0, "ns/op")
}

func must(tb testing.TB, err error) {
	tb.Helper()
	if err != nil {
		tb.Fatal(err)
	}
}
