package main

import (
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// Ticks that waited for a long reading of the chat are not missed when it is done.
func TestWatchdogAfterALongReading(t *testing.T) {
	now := chicago(24, 8, 0)
	p := &heartbeats{}
	p.begin(now)
	p.hold()
	h := &watchdog{heartbeats: p, limit: 15 * time.Minute, log: slog.New(slog.DiscardHandler)}
	for range 40 {
		now = now.Add(time.Minute)
		p.beat(reached, now)
		require.NoError(t, h.look(now))
	}
	p.free(now)
	for range 10 {
		now = now.Add(time.Minute)
		p.beat(reached, now)
		require.NoError(t, h.look(now), "no tick came yet, but none was due long")
	}
}

// A clock that is set back does not have an old answer of the disk taken for a new one.
func TestReadyWhereTheClockWentBack(t *testing.T) {
	db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "crew.db"), store.Options{})
	require.NoError(t, err)
	now := chicago(24, 8, 0)
	p := &heartbeats{}
	r := &readiness{heartbeats: p, db: db, clock: func() time.Time { return now }}
	p.beat(ticked, now)
	p.beat(reached, now)
	lines, ready := r.look(t.Context())
	require.True(t, ready, "%v", lines)
	require.NoError(t, db.Close())
	now = now.Add(-24 * time.Hour)
	lines, ready = r.look(t.Context())
	assert.False(t, ready)
	assert.Equal(t, "database: cannot be written", lines[0])
}
