package main

import (
	"context"
	"errors"
	"log/slog"
	"path/filepath"
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/rules"
	"yardbell/scheduler"
	"yardbell/store"
)

// answers is a chat that has one answer to all.
type answers struct{ err error }

func (a answers) Send(context.Context, store.Outgoing) (store.Receipt, error) {
	return store.Receipt{}, a.err
}

// passes confirms whatever comes.
type passes struct{ telegram.Handler }

func (passes) Pass(context.Context, time.Time, string, int64, string) error { return nil }

// Handle saves all but a message "full".
func (passes) Handle(_ context.Context, _ time.Time, in bot.Incoming) error {
	if in.Text == "full" {
		return errors.New("the disk is full")
	}
	return nil
}

// What a message is counted as, and that a list which is changed in its place does not
// count as one that came hours late.
func TestMeterCounts(t *testing.T) {
	m := newMeter(&heartbeats{})
	now := chicago(24, 8, 0)
	clock := func() time.Time { return now }
	list := store.Outgoing{Messages: []store.Message{{Kind: "digest", Ping: rules.Digest, Fire: now.Add(-6 * time.Hour)}}}
	changed := store.Outgoing{Messages: []store.Message{{Kind: "digest", Ping: rules.Digest, Fire: now.Add(-6 * time.Hour), Edits: 5}}}
	pin := store.Outgoing{Messages: []store.Message{{Kind: "digest", Ping: store.Pin, Edits: 5}}}
	send := func(out store.Outgoing, err error) {
		_, _ = meteredSender{answers{err}, m, clock}.Send(t.Context(), out)
	}
	// count is what a counter with these labels says, or how often a histogram was told.
	count := func(name string, labels ...string) (n int) {
		all, err := m.reg.Gather()
		require.NoError(t, err)
		for _, f := range all {
			for _, x := range f.GetMetric() {
				var got []string
				for _, l := range x.GetLabel() {
					got = append(got, l.GetValue())
				}
				if f.GetName() == name && slices.Equal(got, labels) {
					n += int(x.GetCounter().GetValue()) + int(x.GetHistogram().GetSampleCount())
				}
			}
		}
		return n
	}
	delays := func() int { return count("yardbell_ping_delay_seconds") }
	send(changed, nil)
	send(pin, nil)
	assert.Zero(t, delays())
	send(list, errors.New("cut"))
	send(list, &scheduler.SendError{Held: true, Err: errors.New("wait")})
	send(list, &scheduler.SendError{Final: true, Err: errors.New("no")})
	assert.Zero(t, delays(), "not in the chat")
	send(list, nil)
	assert.Equal(t, 1, delays())
	for labels, want := range map[[2]string]int{{"digest", "sent"}: 2, {"aside", "sent"}: 1, {"digest", "again"}: 1, {"digest", "held"}: 1, {"digest", "refused"}: 1} {
		assert.Equal(t, want, count("yardbell_messages_total", labels[0], labels[1]), labels)
	}
	h := meteredHandler{passes{}, m, clock}
	ok, full := bot.Incoming{Kind: "message"}, bot.Incoming{Kind: "message", Text: "full"}
	for _, in := range []bot.Incoming{ok, {Kind: "press"}, ok, ok} {
		require.NoError(t, h.Handle(t.Context(), now, in))
	}
	require.Error(t, h.Handle(t.Context(), now, full))
	for kind, want := range map[string]int{"message": 3, "press": 1, "failed": 1} {
		assert.Equal(t, want, count("yardbell_updates_total", kind), kind)
	}
	assert.Equal(t, 5, count("yardbell_update_duration_seconds"))
	require.NoError(t, h.Pass(t.Context(), now, "test", 1, "{}"))
	require.NoError(t, h.Pass(t.Context(), now, "test", 2, ""))
	assert.Equal(t, 1, count("yardbell_updates_total", "unread"))
	assert.Equal(t, 1, count("yardbell_updates_total", "other"))
}

// A clock that is set back by a day does not put off the daily check by one.
func TestCheckerLooksWhereTheClockWentBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "crew.db"), store.Options{})
		require.NoError(t, err)
		quiet := slog.New(slog.DiscardHandler)
		c := newChecker(db, bot.New(db, func() {}, quiet, nil), quiet, "")
		ctx, stop := context.WithCancel(context.Background())
		now := chicago(24, 8, 0)
		done := make(chan error, 1)
		go func() { done <- c.run(ctx, func() time.Time { return now }) }()
		for _, at := range []time.Time{chicago(24, 8, 0), chicago(24, 8, 1), chicago(23, 8, 1)} {
			now = at
			c.nudge()
			synctest.Wait()
			assert.Equal(t, at, c.looked)
		}
		now = now.Add(59 * time.Second)
		c.nudge()
		synctest.Wait()
		assert.Equal(t, chicago(23, 8, 1), c.looked, "once a minute")
		stop()
		require.NoError(t, <-done)
		require.NoError(t, db.Close())
	})
}
