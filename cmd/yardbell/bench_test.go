package main

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/store"
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
	p := &player{e: testEnv("", &out, &errOut), path: path, files: filepath.Dir(path), first: map[string]string{"zone": "UTC"}, out: &out, json: true}
	require.NoError(tb, p.open(ctx))
	now, err := newest(ctx, p.db)
	require.NoError(tb, err)
	require.NoError(tb, p.begin(ctx, now))
	tb.Cleanup(func() { require.NoError(tb, p.close()) })
	return p
}

// remark is what somebody writes, and how long after what was written before.
type remark struct {
	after time.Duration
	text  string
}

// logs reports whether it becomes a line of the logbook.
func (r remark) logs() bool {
	for _, talk := range []string{"good ", "who ", "see ", "due "} {
		if strings.HasPrefix(r.text, talk) {
			return false
		}
	}
	return true
}

// nextRound is the week that follows on so many rounds of a busy season: what was done,
// with talk and questions in between.
func nextRound(n int) []remark {
	breeder, builder := 7+2*(n%2), fmt.Sprintf("B%d", 1+n%2)
	const day = 24 * time.Hour
	return []remark{
		{day, fmt.Sprintf("confine %d bees in", breeder)}, {time.Hour, "good morning all"},
		{23 * time.Hour, fmt.Sprintf("eggs %d", breeder)}, {time.Minute, fmt.Sprintf("comb out %d", breeder)}, {time.Minute, "who has the van today?"},
		{time.Hour, fmt.Sprintf("fed %d", breeder)}, {71 * time.Hour, fmt.Sprintf("graft 45 from %d into %s", breeder, builder)},
		{time.Minute, fmt.Sprintf("batch %d accepted 38", n-1)}, {time.Minute, fmt.Sprintf("batch %d finisher", n-1)}, {time.Minute, fmt.Sprintf("batch %d capped 36", n-1)},
		{time.Minute, "due tomorrow"}, {time.Minute, fmt.Sprintf("batch %d nucs 36 ready at North", n-2)}, {time.Minute, fmt.Sprintf("batch %d moved 34 to North", n-2)},
		{time.Minute, "see you at the yard"}, {time.Minute, fmt.Sprintf("batch %d emerged 31", n-5)}, {time.Minute, fmt.Sprintf("batch %d laying 27", n-5)},
		{time.Minute, fmt.Sprintf("batch %d caught 24", n-5)}, {time.Hour, "fed B1"}, {day, "see you on Monday"},
	}
}

// baseline inserts one row and waits for the disk, by the same driver with the same
// pragmas beside the same file.
type baseline struct {
	db   *sql.DB
	stmt *sql.Stmt
}

func newBaseline(tb testing.TB) *baseline {
	tb.Helper()
	db, err := sql.Open("sqlite", "file:"+filepath.Join(tb.TempDir(), "bare.db")+"?_pragma=page_size(2048)&_pragma=busy_timeout(5000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)&_pragma=recursive_triggers(1)&_pragma=journal_mode(WAL)&_pragma=cache_size(-16000)&_txlock=immediate")
	require.NoError(tb, err)
	tb.Cleanup(func() { require.NoError(tb, db.Close()) })
	db.SetMaxOpenConns(1)
	_, err = db.Exec(`CREATE TABLE said (id INTEGER PRIMARY KEY, at INTEGER NOT NULL, text TEXT NOT NULL)`)
	require.NoError(tb, err)
	stmt, err := db.Prepare(`INSERT INTO said (at, text) VALUES (?, ?)`)
	require.NoError(tb, err)
	b := &baseline{db, stmt}
	for range warmInserts {
		b.insert(tb, "not counted")
	}
	return b
}

// warmInserts do not count: they fill the file beside the database once, as some fifty
// lines of a crew do. While that file still grows, each sync has to wait for its length as
// well, which makes it a half slower.
const warmInserts = 1500

func (b *baseline) insert(tb testing.TB, text string) {
	tx, err := b.db.Begin()
	if err == nil {
		_, err = tx.Stmt(b.stmt).Exec(time.Now().UnixMilli(), text)
	}
	if err == nil {
		err = tx.Commit()
	}
	if err != nil {
		tb.Fatal(err)
	}
}

// BenchmarkMessage is a message of a crew with a season in the file, taken in, planned
// and saved with its answer, beside a bare insert of a row for each message. The two
// take turns, so that both meet the same noise; the same weeks are played several
// times (-benchtime 5x), and of each message and each insert the best counts. What goes
// out is sent between the rounds and not counted: testdata/bench measures that.
func BenchmarkMessage(b *testing.B) {
	for _, rounds := range []int{6, 25, 100} {
		source := sync.OnceValue(func() string { return seasonFile(b, rounds) }) // only for what is asked for
		b.Run(fmt.Sprintf("rounds=%d", rounds), func(b *testing.B) {
			var ours, theirs []time.Duration
			var all, allTheirs time.Duration
			for range b.N {
				m, i, _ := playWeeks(b, source(), rounds)
				all, allTheirs = all+mean(m), allTheirs+mean(i)
				ours, theirs = best(ours, m), best(theirs, i)
			}
			b.ReportMetric(allTheirs.Seconds()/all.Seconds(), "of-insert-in-all")
			b.ReportMetric(1/mean(ours).Seconds(), "messages/s")
			b.ReportMetric(1/mean(theirs).Seconds(), "inserts/s")
			b.ReportMetric(mean(theirs).Seconds()/mean(ours).Seconds(), "of-insert")
			// What logs nothing is most of what a group says.
			var talk, beside []time.Duration
			for i := range ours {
				if week := nextRound(1); !week[i%len(week)].logs() {
					talk, beside = append(talk, ours[i]), append(beside, theirs[i])
				}
			}
			b.ReportMetric(mean(beside).Seconds()/mean(talk).Seconds(), "talk-of-insert")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// warmRounds are how many weeks do not count: until every batch that is told of was begun
// since the file was opened, as in a service that has run for a while.
const warmRounds = 6

// playWeeks goes on for a few weeks where a file ends and takes the time of every
// message, of every insert, and of the processor for every message.
func playWeeks(b *testing.B, source string, rounds int) (ours, theirs, busy []time.Duration) {
	ctx := b.Context()
	p, bare := service(b, source), newBaseline(b)
	for n := rounds + 1; n <= rounds+warmRounds+4; n++ {
		for _, r := range nextRound(n) {
			p.now = p.now.Add(r.after)
			in, err := p.incoming(ctx, scriptLine{kind: sayLine, who: "Wren", text: r.text})
			require.NoError(b, err)
			began, worked := time.Now(), processor(b)
			require.NoError(b, p.bot.Handle(ctx, p.now, in))
			ours, busy = append(ours, time.Since(began)), append(busy, processor(b)-worked)
			began = time.Now()
			bare.insert(b, r.text)
			theirs = append(theirs, time.Since(began))
		}
		require.NoError(b, p.tick(ctx))
		if n == rounds+warmRounds {
			ours, theirs, busy = nil, nil, nil
		}
	}
	return ours, theirs, busy
}

// processor is the time that the process has been at work, on all processors together:
// unlike the clock it tells little of what else the machine does.
func processor(b *testing.B) time.Duration {
	var use syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &use))
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// best is the shorter of two times for each message.
func best(before, now []time.Duration) []time.Duration {
	for i := range before {
		now[i] = min(now[i], before[i])
	}
	return now
}

func sum(list []time.Duration) (all time.Duration) {
	for _, d := range list {
		all += d
	}
	return all
}

func mean(list []time.Duration) time.Duration { return sum(list) / time.Duration(len(list)) }

// BenchmarkMessageToAnswer is how long it takes from a message until its answer is queued
// and on the disk, of every message of a few weeks: half of them take no longer than p50, 99
// of 100 no longer than p99. -benchtime 10x has 760 messages. Beside them are a bare
// insert, the time of the processor for a message, and the first message of a crew whose
// model is not in memory.
func BenchmarkMessageToAnswer(b *testing.B) {
	for _, rounds := range []int{25, 100} {
		source := sync.OnceValue(func() string { return seasonFile(b, rounds) })
		b.Run(fmt.Sprintf("rounds=%d", rounds), func(b *testing.B) {
			var ours, theirs, busy, first []time.Duration
			for range b.N {
				m, i, w := playWeeks(b, source(), rounds)
				ours, theirs, busy, first = append(ours, m...), append(theirs, i...), append(busy, w...), append(first, firstMessage(b, source()))
			}
			for name, list := range map[string][]time.Duration{"": ours, "insert-": theirs, "processor-": busy, "first-": first} {
				slices.Sort(list)
				at := func(share float64) float64 { return 1000 * list[int(share*float64(len(list)-1))].Seconds() }
				b.ReportMetric(at(0.50), name+"p50-ms")
				b.ReportMetric(at(0.99), name+"p99-ms")
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}

// firstMessage is the time of a crew's first message since the file was opened.
func firstMessage(b *testing.B, source string) time.Duration {
	path := filepath.Join(b.TempDir(), "crew.db")
	require.NoError(b, os.WriteFile(path, []byte(read(b, source)), 0o600))
	db, err := store.Open(b.Context(), path, store.Options{})
	require.NoError(b, err)
	defer func() { require.NoError(b, db.Close()) }()
	now, err := newest(b.Context(), db)
	require.NoError(b, err)
	now = now.Add(time.Hour)
	talk := bot.New(db, func() {}, slog.New(slog.DiscardHandler), map[string]string{"zone": "UTC"})
	began := time.Now()
	require.NoError(b, talk.Handle(b.Context(), now, bot.Incoming{Source: consoleSource, UpdateID: 1 << 50, Chat: consoleChat,
		UserKey: "wren", UserName: "Wren", Said: now, Kind: "message", Message: 1_000_000_000, Text: "fed 7"}))
	return time.Since(began)
}
