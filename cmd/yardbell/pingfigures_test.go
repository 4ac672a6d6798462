//go:build linux && !race

package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/bot/telegram/apidouble"
	"yardbell/rules"
	"yardbell/scheduler"
	"yardbell/store"
)

// This file measures, in real time, how long pings and answers take: `serve` as a process
// of its own against a chat server on loopback. The figures stand in
// testdata/bench/README.md; what must hold is tested on a simulated clock
// (servelanes_test.go, package scheduler).

// timedChild is how far the clock of a child process is ahead, in nanoseconds.
const timedChild = "YARDBELL_TEST_TIMED"

// TestTimedChild is the process that is measured.
func TestTimedChild(t *testing.T) {
	ahead, err := strconv.ParseInt(os.Getenv(timedChild), 10, 64)
	if err != nil {
		t.Skip("only as a child of the benchmarks of pings")
	}
	e := env{in: strings.NewReader(""), out: os.Stdout, errOut: os.Stderr, get: os.Getenv, tty: func(io.Writer) bool { return false },
		clock: func() time.Time { return time.Now().Add(time.Duration(ahead)) }}
	os.Exit(run(context.Background(), []string{"serve", "--db", os.Getenv(mortalDB), "--api", os.Getenv(mortalAPI)}, e))
}

// live is a chat server in real time, and crews with a database that nobody serves yet.
type live struct {
	*apidouble.Double
	b      *testing.B
	db     string
	ahead  time.Duration
	groups []int64
	people [][]int64
	child  *exec.Cmd
	said   int64
}

// newLive makes crews of so many members that say what set gives for them, a time each,
// and begins at a time that is chosen once that is in the database. What was due until
// then went to a chat that takes all.
func newLive(b *testing.B, crews, members int, set func(crew int) map[time.Time][]string, begin func([]store.Message) time.Time) *live {
	l := &live{b: b, db: filepath.Join(b.TempDir(), "crew.db")}
	l.Double = apidouble.Start(b, apidouble.Options{Token: markerToken, ReadsAll: true, Clock: apidouble.WallClock(l.now)})
	db, err := store.Open(b.Context(), l.db, store.Options{})
	require.NoError(b, err)
	quiet := slog.New(slog.DiscardHandler)
	writer := bot.New(db, func() {}, quiet, map[string]string{"zone": "America/Chicago"})
	for crew := range crews {
		var people []int64
		for m := range members {
			people = append(people, l.NewUser(fmt.Sprint("Wren", m), ""))
		}
		group := l.NewSupergroup(fmt.Sprint("Yard ", crew), people[0], people[1:]...)
		l.AddBot(group, people[0])
		l.groups, l.people = append(l.groups, group), append(l.people, people)
		lines := set(crew)
		var times []time.Time
		for at := range lines {
			times = append(times, at)
		}
		slices.SortFunc(times, time.Time.Compare)
		for _, at := range times {
			for _, text := range lines[at] {
				l.said++
				require.NoError(b, writer.Handle(b.Context(), at, bot.Incoming{Source: telegram.Source, UpdateID: l.said, Chat: group, UserKey: fmt.Sprint(people[0]),
					UserName: "Wren0", Said: at, Kind: "message", Message: 1_000_000 + l.said, Text: text}))
			}
		}
	}
	start := begin(l.rows(db))
	require.NoError(b, scheduler.New(db, bot.Post{To: &silentChat{}}, quiet).Tick(b.Context(), start))
	require.NoError(b, db.Close())
	l.ahead = time.Until(start)
	b.Cleanup(l.kill)
	return l
}

func (l *live) now() time.Time { return time.Now().Add(l.ahead) }

// rows are the messages of all crews.
func (l *live) rows(db *store.DB) (list []store.Message) {
	require.NoError(l.b, db.View(l.b.Context(), l.now(), func(tx *store.Tx) error {
		crews, err := tx.Crews()
		for _, c := range crews {
			own, err := tx.Outbox(c.ID)
			if err != nil {
				return err
			}
			list = append(list, own...)
		}
		return err
	}))
	return list
}

func (l *live) outbox() []store.Message {
	db, err := store.Open(l.b.Context(), l.db, store.Options{ReadOnly: true})
	require.NoError(l.b, err)
	defer func() { _ = db.Close() }()
	return l.rows(db)
}

func (l *live) serve() {
	c := exec.Command(os.Args[0], "-test.run=^TestTimedChild$")
	c.Env = append(os.Environ(), timedChild+"="+strconv.FormatInt(int64(l.ahead), 10), mortalAPI+"="+l.URL(), mortalDB+"="+l.db, "YARDBELL_TOKEN="+markerToken)
	c.Stderr = os.Stderr
	require.NoError(l.b, c.Start())
	l.child = c
}

func (l *live) kill() {
	if l.child != nil {
		_ = l.child.Process.Kill()
		_ = l.child.Wait()
		l.child = nil
	}
}

// until waits until something holds, and gives how long that took; at most so long.
func (l *live) until(most time.Duration, cond func() bool) time.Duration {
	began := time.Now()
	for !cond() && time.Since(began) < most {
		time.Sleep(5 * time.Millisecond)
	}
	return time.Since(began)
}

func (l *live) read() bool { return l.Polling() && l.Pending() == 0 }

// saidWith is when the bot first said something with these words in a chat, since a time.
func (l *live) saidWith(group int64, since time.Time, words string) (at time.Time) {
	for _, m := range l.Sent(group) {
		if !m.Date.Before(since) && strings.Contains(m.Text, words) {
			return m.Date
		}
	}
	return at
}

// grafts are batches that are grafted so long after each other.
func grafts(n int, apart time.Duration) map[time.Time][]string {
	lines := map[time.Time][]string{}
	for i := range n {
		lines[chicago(24, 8, 1).Add(time.Duration(i)*apart)] = []string{fmt.Sprint("add breeder ", i+1), fmt.Sprint("add builder B", i+1), fmt.Sprintf("graft 45 from %d into B%d", i+1, i+1)}
	}
	return lines
}

// firstOf is the first ping of a kind.
func firstOf(kind rules.PingKind) func([]store.Message) time.Time {
	return func(list []store.Message) (at time.Time) {
		for _, m := range list {
			if m.Ping == kind && (at.IsZero() || m.Fire.Before(at)) {
				at = m.Fire
			}
		}
		return at
	}
}

// worst is how late the latest ping went that was to go between two times, counted from
// after where it was due before, and how many there were. One that has not gone counts to now.
func (l *live) worst(from, to, after time.Time) (late time.Duration, pings, unsent int) {
	for _, m := range l.outbox() {
		if m.Ping == "" || m.Edits != 0 || m.Aside() || m.Fire.Before(from) || m.Fire.After(to) || m.State == "dropped" || m.State == "cancelled" || m.Message == 0 && m.State == "sent" {
			continue
		}
		pings++
		gone, wanted := l.now(), maxTime(m.Fire, after)
		if m.State == "sent" {
			gone = l.dateOf(m)
		} else {
			unsent++
		}
		late = max(late, gone.Sub(wanted))
	}
	return late, pings, unsent
}

func (l *live) dateOf(m store.Message) time.Time {
	for _, s := range l.Sent(l.groups[m.Crew-1]) {
		if int64(s.ID) == m.Message {
			return s.Date
		}
	}
	return m.Sent
}

// BenchmarkPingsWhileOneReports: a member reports every one and a half seconds for ten
// minutes, in which windows close.
func BenchmarkPingsWhileOneReports(b *testing.B) {
	for range b.N {
		l := newLive(b, 1, 2, func(int) map[time.Time][]string { return grafts(8, 65*time.Second) },
			func(list []store.Message) time.Time { return firstOf(rules.Closing2)(list).Add(-30 * time.Second) })
		l.serve()
		l.until(time.Minute, l.read)
		from := l.now()
		n := 0
		every := time.NewTicker(1500 * time.Millisecond)
		for ; l.now().Sub(from) < 10*time.Minute; n++ {
			<-every.C
			l.Say(l.groups[0], l.people[0][1], fmt.Sprintf("fed B1 %d ml", 100+n))
		}
		every.Stop()
		to := l.now()
		late, pings, unsent := l.worst(from, to.Add(-5*time.Second), from)
		b.ReportMetric(float64(n), "reports")
		b.ReportMetric(float64(pings), "pings")
		b.ReportMetric(float64(unsent), "pings-not-out")
		b.ReportMetric(late.Seconds(), "s-latest-ping")
		b.ReportMetric(float64(len(l.Sent(l.groups[0]))), "messages")
		b.ReportMetric(float64(len(l.TooFast())), "too-fast")
		l.kill()
	}
	b.ReportMetric(0, "ns/op")
}

// BenchmarkPingsAfterAnOutage: 10,000 updates wait, not half of them reports, in four
// groups, where pings fell due meanwhile.
func BenchmarkPingsAfterAnOutage(b *testing.B) {
	const updates, crews, members = 10_000, 4, 5
	for range b.N {
		l := newLive(b, crews, members, func(int) map[time.Time][]string { return grafts(3, time.Minute) },
			func(list []store.Message) time.Time { return firstOf(rules.Eve)(list).Add(-time.Minute) })
		from := l.now()
		l.ahead += 2 * time.Hour
		for i := range updates {
			crew, who := i%crews, i/crews%members
			text := []string{"fed B1 %d ml", "what a day, %d", "fed B2 %d ml", "%d of us had lunch", "that was number %d"}[i/crews/members%5]
			if i%1000 == 999 {
				text = "/nonsense@yardbell_bot %d"
			}
			l.Say(l.groups[crew], l.people[crew][who], fmt.Sprintf(text, 100+i%800), apidouble.At(from.Add(time.Duration(i)*2*time.Hour/updates)))
		}
		l.Say(l.groups[0], l.people[0][0], "due")
		began := l.now()
		l.serve()
		reading := l.until(10*time.Minute, l.read)
		behind := l.now()
		owed := func() (pings, answers int) {
			for _, m := range l.outbox() {
				if m.State == "queued" && m.Fire.Before(l.now()) || m.State == "claimed" {
					if m.Ping != "" && m.Edits == 0 {
						pings++
					} else {
						answers++
					}
				}
			}
			return pings, answers
		}
		gone := func() bool { pings, answers := owed(); return pings+answers == 0 }
		all := l.until(4*time.Minute, gone)
		_, left := owed()
		late, pings, unsent := l.worst(from, behind, behind)
		b.ReportMetric(reading.Seconds(), "s-reading")
		b.ReportMetric(float64(pings), "pings")
		b.ReportMetric(float64(unsent), "pings-not-out")
		b.ReportMetric(max(0, late.Seconds()), "s-latest-ping")
		asked := l.saidWith(l.groups[0], began, "pen today, ")
		if asked.IsZero() {
			asked = l.now()
		}
		b.ReportMetric(max(0, asked.Sub(behind).Seconds()), "s-question")
		b.ReportMetric(all.Seconds(), "s-all-answered")
		b.ReportMetric(float64(left), "answers-left")
		n := 0
		for _, g := range l.groups {
			n += len(l.Sent(g))
		}
		b.ReportMetric(float64(n), "messages")
		b.ReportMetric(float64(len(l.TooFast())), "too-fast")
		l.kill()
	}
	b.ReportMetric(0, "ns/op")
}

// two crews with a builder each, whose morning it is.
func twoCrews(b *testing.B) *live {
	l := newLive(b, 2, 2, func(int) map[time.Time][]string {
		return map[time.Time][]string{chicago(24, 8, 1): {"add builder B1"}}
	}, func([]store.Message) time.Time { return chicago(24, 9, 0) })
	l.serve()
	l.until(time.Minute, l.read)
	return l
}

// BenchmarkAnswerBesideAnotherCrew: one crew has forty reports, another asks.
func BenchmarkAnswerBesideAnotherCrew(b *testing.B) {
	for range b.N {
		l := twoCrews(b)
		for i := range 40 {
			l.Say(l.groups[0], l.people[0][1], fmt.Sprintf("fed B1 %d ml", 100+i))
		}
		l.until(time.Minute, l.read)
		asked := l.now()
		l.Say(l.groups[1], l.people[1][0], "due")
		took := l.until(2*time.Minute, func() bool { return !l.saidWith(l.groups[1], asked, "due today").IsZero() })
		b.ReportMetric(took.Seconds(), "s-answer")
		l.kill()
	}
	b.ReportMetric(0, "ns/op")
}

// BenchmarkAnswerRefused: the chat refuses an answer for three seconds.
func BenchmarkAnswerRefused(b *testing.B) {
	for range b.N {
		l := twoCrews(b)
		l.Script("sendMessage", apidouble.TooMany(3))
		l.Say(l.groups[1], l.people[1][0], "due")
		l.until(time.Minute, func() bool { return l.FaultsLeft("sendMessage") == 0 })
		refused := l.now()
		l.until(2*time.Minute, func() bool { return !l.saidWith(l.groups[1], refused, "due today").IsZero() })
		b.ReportMetric(l.saidWith(l.groups[1], refused, "due today").Sub(refused).Seconds()-3, "s-behind-retry-after")
		b.ReportMetric(float64(len(l.EarlyRetries())), "early")
		l.kill()
	}
	b.ReportMetric(0, "ns/op")
}

// BenchmarkPingAfterKills: the service is killed five times with a message on its way, then
// a connection is reset.
func BenchmarkPingAfterKills(b *testing.B) {
	for range b.N {
		l := twoCrews(b)
		hang := make(chan struct{})
		gone := func() bool { return l.FaultsLeft("sendMessage") == 0 }
		l.Script("sendMessage", apidouble.Slow(hang))
		l.Say(l.groups[1], l.people[1][0], "due")
		l.until(time.Minute, gone)
		for i := range 5 {
			l.kill()
			if i == 4 {
				l.Script("sendMessage", apidouble.CutBefore())
			} else {
				l.Script("sendMessage", apidouble.Slow(hang))
			}
			l.serve()
			l.until(time.Minute, gone)
		}
		reset := l.now()
		l.until(6*time.Minute, func() bool { return !l.saidWith(l.groups[1], reset, "due today").IsZero() })
		b.ReportMetric(l.now().Sub(reset).Seconds(), "s-behind-reset")
		l.kill()
	}
	b.ReportMetric(0, "ns/op")
}
