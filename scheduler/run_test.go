package scheduler

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

type ctx2 = context.Context

// Run ticks when it starts, when it is woken and as its schedule says; a send that
// panics does not end it, and the end of its context does.
func TestRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		begin := time.Now()
		clock := func() time.Time { return s.now.Add(time.Since(begin)) }
		running, stop := context.WithCancel(ctx)
		ended := make(chan error, 1)
		s.answer("answer/1")
		go func() { ended <- s.sched.Run(running, clock) }()
		synctest.Wait()
		assert.Equal(t, []string{"answer/1"}, s.chat.take(), "at the start")

		s.answer("answer/2")
		s.sched.Wake()
		s.sched.Wake()
		synctest.Wait()
		assert.Equal(t, []string{"answer/2"}, s.chat.take(), "woken")

		s.answer("answer/3")
		synctest.Wait()
		assert.Empty(t, s.chat.take())
		time.Sleep(20 * time.Second) // in the bubble: no time passes
		synctest.Wait()
		assert.Equal(t, []string{"answer/3"}, s.chat.take(), "by its schedule")

		s.chat.script = []func(ctx2) error{func(ctx2) error { panic("no such word") }}
		s.answer("answer/4")
		s.sched.Wake()
		synctest.Wait()
		assert.Empty(t, s.chat.take())
		time.Sleep(20 * time.Second)
		synctest.Wait()
		assert.Equal(t, []string{"answer/4"}, s.chat.take(), "after a panic")

		stop()
		require.NoError(t, <-ended)
		require.NoError(t, s.db.Close())
	})
}

// A chat that hangs is given up after a while and the message goes again; a
// service that is stopped meanwhile stops at once.
func TestHangingSend(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		hang := func(ctx ctx2) error { <-ctx.Done(); return ctx.Err() }
		s.answer("answer/1")
		s.answer("answer/2")
		s.chat.script = []func(ctx2) error{hang}
		began := time.Now()
		require.NoError(t, s.tick())
		assert.Equal(t, sendTimeout, time.Since(began))
		assert.Equal(t, []string{"answer/2"}, s.chat.take())
		assert.Equal(t, 1, s.row("answer/1").Attempt)
		assert.Equal(t, []string{"answer/1"}, s.tickAt(s.now.Add(5*time.Second)))

		s.answer("answer/3")
		s.chat.script = []func(ctx2) error{hang}
		running, stop := context.WithCancel(ctx)
		time.AfterFunc(time.Second, stop)
		began = time.Now()
		require.ErrorIs(t, s.sched.Tick(running, s.now), context.Canceled)
		assert.Equal(t, time.Second, time.Since(began))
		assert.Equal(t, "claimed", s.row("answer/3").State)
		assert.Less(t, sendTimeout, store.Lease)
		require.NoError(t, s.db.Close())
	})
}

// A schedule that sleeps, as cron does for a day where the clock was set back by one,
// holds up no ping for longer than a minute.
func TestRunTicksWhereCronSleeps(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		s.sched.cron = "@every 24h"
		running, stop := context.WithCancel(ctx)
		ended := make(chan error, 1)
		go func() { ended <- s.sched.Run(running, func() time.Time { return s.now }) }()
		synctest.Wait()
		for _, key := range []string{"answer/1", "answer/2"} {
			s.answer(key)
			time.Sleep(time.Minute)
			synctest.Wait()
			assert.Equal(t, []string{key}, s.chat.take())
		}
		stop()
		require.NoError(t, <-ended)
		require.NoError(t, s.db.Close())
	})
}
