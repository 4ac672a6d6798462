package main

import (
	"context"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/scheduler"
	"yardbell/store"
)

// allowedRate is what the Bot API lets a bot send in a second, over all chats.
const allowedRate = 30.0

// crowd is a database with many crews whose evening pings fall due in the same
// minute, every fifth a critical one.
type crowd struct {
	*apidouble.Double
	t      *testing.T
	db     *store.DB
	bot    *bot.Bot
	groups []int64
	pings  int
	due    time.Time
}

// silentChat takes everything and numbers it: for the days before the evening.
type silentChat struct {
	mu sync.Mutex
	n  int64
}

func (s *silentChat) Deliver(context.Context, wording.Delivery) (int64, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.n++
	return s.n, nil
}

// newCrowd makes the crews; every one of them has so many batches, each of which is
// pinged about in the evening.
func newCrowd(t *testing.T, crews, batches int, clock apidouble.Clock) *crowd {
	c := &crowd{t: t, due: chicago(27, 19, 0)}
	c.Double = apidouble.Start(t, apidouble.Options{Token: markerToken, ReadsAll: true, Clock: clock})
	db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "crew.db"), store.Options{})
	require.NoError(t, err)
	t.Cleanup(func() { _ = db.Close() })
	quiet := slog.New(slog.DiscardHandler)
	c.db, c.bot = db, bot.New(db, func() {}, quiet, map[string]string{"zone": "America/Chicago"})
	id := int64(0)
	for i := range crews {
		wren := c.NewUser(fmt.Sprint("Wren ", i), "")
		group := c.NewSupergroup(fmt.Sprint("Yard ", i), wren)
		c.AddBot(group, wren)
		c.groups = append(c.groups, group)
		say := func(at time.Time, format string, args ...any) {
			id++
			require.NoError(t, c.bot.Handle(t.Context(), at, bot.Incoming{Source: telegram.Source, UpdateID: id, Chat: group, UserKey: fmt.Sprint(wren),
				UserName: "Wren", Said: at, Kind: "message", Message: 1_000_000 + id, Text: fmt.Sprintf(format, args...)}))
		}
		for n := 1; n <= batches; n++ {
			// Rogue cells are searched for on the fifth day, the bar goes to the finisher on
			// the second: both crews are pinged on the evening of the fourth.
			grafted := chicago(27, 10, 0)
			if c.critical(i) {
				grafted = chicago(24, 10, 0)
			}
			say(grafted, "add breeder %d", n)
			say(grafted, "add builder B%d", n)
			say(grafted, "graft 45 from %d into B%d", n, n)
			if c.critical(i) {
				say(grafted.Add(24*time.Hour), "accepted 38 batch %d", n)
				say(grafted.Add(24*time.Hour), "finisher batch %d", n)
			}
		}
	}
	// What was due before goes to a chat that takes all.
	before := scheduler.New(db, bot.Post{To: &silentChat{}}, quiet)
	require.NoError(t, before.Tick(t.Context(), c.due.Add(-time.Hour)))
	c.pings = crews * batches
	return c
}

func (c *crowd) critical(crew int) bool { return crew%5 == 0 }

// send lets everything out that is due, by that clock; rest is how the test itself
// waits for what is due a little later.
func (c *crowd) send(clock func() time.Time, wait func(context.Context, time.Duration) error, rest func(time.Duration), around func(scheduler.Sender) scheduler.Sender) {
	client, err := telegram.NewClient(c.URL(), markerToken)
	require.NoError(c.t, err)
	out := telegram.NewSender(client, clock, wait, func(context.Context, int64, int64) error { return nil })
	quiet := slog.New(slog.DiscardHandler)
	sched := scheduler.New(c.db, around(senderAdapter{bot.Post{To: out}, c.bot, clock}), quiet)
	// What a chat's limit held back falls due a little later.
	for {
		require.NoError(c.t, sched.Tick(c.t.Context(), clock()))
		var next time.Time
		require.NoError(c.t, c.db.View(c.t.Context(), clock(), func(tx *store.Tx) (err error) {
			next, _, err = tx.NextDue()
			return err
		}))
		if next.IsZero() || next.After(c.due.Add(10*time.Minute)) {
			return
		}
		rest(next.Sub(clock()) + time.Millisecond)
	}
}

// judge holds what was sent against the limits and the order. within is the stretch
// at the beginning over which the rate is taken.
func (c *crowd) judge(within time.Duration) {
	t := c.t
	all := c.SendTimes(0)
	require.Len(t, all, c.pings, "every ping once")
	assert.Empty(t, c.TooFast(), "no limit was overstepped")
	assert.Empty(t, c.Violations())
	n := 0
	for n < len(all) && all[n].Sub(all[0]) <= within {
		n++
	}
	rate := float64(n-1) / all[n-1].Sub(all[0]).Seconds()
	t.Logf("%d messages in %s, %.1f a second, %.0f %% of what is allowed", n, all[n-1].Sub(all[0]).Round(time.Millisecond), rate, 100*rate/allowedRate)
	assert.GreaterOrEqual(t, rate, 0.9*allowedRate)
	assert.LessOrEqual(t, apidouble.Peak(all, time.Second), 31)
	var lastCritical, firstOther time.Time
	for i, g := range c.groups {
		times := c.SendTimes(g)
		assert.LessOrEqual(t, apidouble.Peak(times, time.Minute), 20)
		texts := map[string]bool{}
		for _, m := range c.Sent(g) {
			assert.True(t, strings.HasPrefix(m.Text, "Tomorrow: "), m.Text)
			assert.False(t, texts[m.Text], "twice: %s", m.Text)
			texts[m.Text] = true
		}
		if c.critical(i) {
			lastCritical = maxTime(lastCritical, slices.MaxFunc(times, time.Time.Compare))
		} else if first := slices.MinFunc(times, time.Time.Compare); firstOther.IsZero() || first.Before(firstOther) {
			firstOther = first
		}
	}
	assert.False(t, firstOther.Before(lastCritical), "critical pings go first")
}

func maxTime(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// simClock moves only while nobody works: to the next moment at which somebody who
// waits goes on.
type simClock struct {
	mu      sync.Mutex
	now     time.Time
	working int
	waiting []sleeper
}

type sleeper struct {
	at    time.Time
	awake chan struct{}
}

func (c *simClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *simClock) begin() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.working++
}

func (c *simClock) end() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.working--
	c.turn()
}

// turn wakes the next one where nobody works. The lock is held.
func (c *simClock) turn() {
	if c.working > 0 || len(c.waiting) == 0 {
		return
	}
	slices.SortStableFunc(c.waiting, func(a, b sleeper) int { return a.at.Compare(b.at) })
	next := c.waiting[0]
	c.waiting = c.waiting[1:]
	c.now = maxTime(c.now, next.at)
	c.working++
	close(next.awake)
}

func (c *simClock) wait(ctx context.Context, d time.Duration) error {
	c.mu.Lock()
	s := sleeper{c.now.Add(d), make(chan struct{})}
	c.waiting = append(c.waiting, s)
	c.working--
	c.turn()
	c.mu.Unlock()
	<-s.awake
	return ctx.Err()
}

// timed tells the clock who works.
type timed struct {
	scheduler.Sender
	clock *simClock
}

func (s timed) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	s.clock.begin()
	defer s.clock.end()
	return s.Sender.Send(ctx, out)
}

func TestLoadEvening(t *testing.T) {
	clock := &simClock{now: chicago(27, 19, 0)}
	c := newCrowd(t, crewsAtOnce, 1, apidouble.ClockFunc(clock.Now))
	rest := func(d time.Duration) {
		clock.begin()
		defer clock.end()
		_ = clock.wait(t.Context(), d)
	}
	c.send(clock.Now, clock.wait, rest, func(s scheduler.Sender) scheduler.Sender { return timed{s, clock} })
	c.judge(time.Hour)
}

// crewsAtOnce is how many crews have a ping in the same minute; fewer under the race
// detector, which is after races, not rates.
var crewsAtOnce = 500

// The same in real time, with four pings a crew, which last for more than a minute.
// It takes that long, so it is asked for.
func TestLoadRealMinute(t *testing.T) {
	if os.Getenv("YARDBELL_REALTIME") == "" {
		t.Skip("takes two minutes; YARDBELL_REALTIME=1 runs it")
	}
	var began time.Time
	clock := func() time.Time {
		if began.IsZero() {
			return chicago(27, 19, 0)
		}
		return chicago(27, 19, 0).Add(time.Since(began))
	}
	c := newCrowd(t, 500, 4, apidouble.ClockFunc(clock))
	began = time.Now()
	c.send(clock, pause, func(d time.Duration) { _ = pause(t.Context(), d) }, func(s scheduler.Sender) scheduler.Sender { return s })
	c.judge(time.Minute)
}
