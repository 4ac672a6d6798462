package bench

import (
	"context"
	"database/sql"
	"fmt"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/riverqueue/river"
	"github.com/riverqueue/river/riverdriver/riversqlite"
	"github.com/riverqueue/river/rivermigrate"
	_ "modernc.org/sqlite"
)

// riverReminder is a reminder as a job of River's.
type riverReminder struct {
	Crew int64  `json:"crew"`
	Text string `json:"text"`
}

func (riverReminder) Kind() string { return "reminder" }

// riverSender sends nowhere.
type riverSender struct {
	river.WorkerDefaults[riverReminder]
}

func (riverSender) Work(context.Context, *river.Job[riverReminder]) error { return nil }

// riverSetting is how River is run.
type riverSetting struct {
	name     string
	workers  int
	cooldown time.Duration // between fetches; 0 for its default, 100 ms
}

var riverSettings = []riverSetting{
	{"defaults", 100, 0}, // as its documentation shows it
	{"fetching without pause", 100, time.Millisecond},
	{"more workers", 500, time.Millisecond},
	{"many workers", 2000, time.Millisecond},
}

// riverRate works off so many reminders that are due and gives how many a second. They
// are due at the start: making scheduled jobs available is not counted.
func riverRate(tb testing.TB, n int, how riverSetting) float64 {
	tb.Helper()
	ctx := context.Background()
	db, err := sql.Open("sqlite", "file:"+filepath.Join(tb.TempDir(), "river.db")+pragmas)
	must(tb, err)
	defer func() { _ = db.Close() }()
	db.SetMaxOpenConns(1) // as its driver asks for
	driver := riversqlite.New(db)
	m, err := rivermigrate.New(driver, nil)
	must(tb, err)
	_, err = m.Migrate(ctx, rivermigrate.DirectionUp, nil)
	must(tb, err)
	workers := river.NewWorkers()
	river.AddWorker(workers, &riverSender{})
	client, err := river.NewClient(driver, &river.Config{
		Queues:        map[string]river.QueueConfig{river.QueueDefault: {MaxWorkers: how.workers}},
		Workers:       workers,
		FetchCooldown: how.cooldown,
		Logger:        slog.New(slog.DiscardHandler),
	})
	must(tb, err)
	jobs := make([]river.InsertManyParams, n)
	for i := range jobs {
		jobs[i].Args = riverReminder{Crew: int64(i), Text: fmt.Sprintf("Tomorrow: move 34 cells, batch %d.", i)}
	}
	_, err = client.InsertMany(ctx, jobs)
	must(tb, err)
	done, cancel := client.SubscribeConfig(&river.SubscribeConfig{ChanSize: n, Kinds: []river.EventKind{river.EventKindJobCompleted}})
	defer cancel()
	began := time.Now()
	must(tb, client.Start(ctx))
	for range n {
		<-done
	}
	rate := float64(n) / time.Since(began).Seconds()
	must(tb, client.Stop(ctx))
	var left int
	must(tb, db.QueryRowContext(ctx, `SELECT count(*) FROM river_job WHERE state <> 'completed'`).Scan(&left))
	if left > 0 {
		tb.Fatalf("%d reminders were not worked off", left)
	}
	return rate
}
