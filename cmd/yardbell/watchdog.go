package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"time"

	"golang.org/x/sync/errgroup"
)

// watchdog ends the service where it lives on without doing its work: no tick ended well,
// or nothing of the chat was read, for too long. The supervisor starts it anew,
// which frees whatever it hangs on. Where the chat itself is away a restart does no
// harm: what is due waits in the outbox, what people write waits with the chat.
type watchdog struct {
	heartbeats *heartbeats
	limit      time.Duration // without a heartbeat; 0 for no limit
	stay       bool          // nobody would start it again: say so and go on
	log        *slog.Logger
	alive      func() // told at every check, may be nil

	stopped chan error // what look found, for await

	count  [heartbeatKinds]int64
	checks [heartbeatKinds]int // in a row without a new heartbeat
	said   [heartbeatKinds]bool
}

// watchdogEvery is how often the watchdog is looked at by default.
const watchdogEvery = 20 * time.Second

// fewestChecks without a heartbeat make a silence, however long it is by the clock: a machine
// that slept, or whose clock was set, gets the time to give one.
const fewestChecks = 3

// leastHeartbeat is longer than a tick and a poll may take: a tick has four minutes
// before its claims run out.
const leastHeartbeat = 5 * time.Minute

// stoppedError says what the service did without for too long.
type stoppedError struct {
	of     heartbeat
	silent time.Duration
}

func (e *stoppedError) Error() string {
	what := "no tick has ended well"
	if e.of == reached {
		what = "nothing of the chat could be read"
	}
	return fmt.Sprintf("%s for %s; ending, to be started again", what, e.silent.Round(time.Second))
}

// run checks until ctx ends or the service has stood still for too long.
func (h *watchdog) run(ctx context.Context, clock func() time.Time, every time.Duration) error {
	if every == 0 {
		every = watchdogEvery
	}
	t := time.NewTicker(every)
	defer t.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-t.C:
			if err := h.look(clock()); err != nil {
				h.stopped <- err
				return err
			}
		}
	}
}

// look gives an error where the service has stood still for too long: of the part that
// has for longest, since it may hold up the other.
func (h *watchdog) look(now time.Time) error {
	var worst *stoppedError
	for s := range heartbeatKinds {
		if !h.heartbeats.expects(s) {
			continue // it is the chat that it waits for
		}
		last, n := h.heartbeats.of(s)
		h.checks[s]++
		if n != h.count[s] {
			h.count[s], h.checks[s], h.said[s] = n, 0, false
		}
		silent := now.Sub(last)
		if h.limit == 0 || silent < h.limit || h.checks[s] < fewestChecks || h.said[s] {
			continue
		}
		if !h.stay {
			if worst == nil || silent > worst.silent {
				worst = &stoppedError{s, silent}
			}
			continue
		}
		h.said[s] = true
		h.log.Error("standing still; nobody would start it again, so it goes on", "part", s.String(), "silent", silent.Round(time.Second))
	}
	if worst != nil {
		h.log.Error("standing still, ending for the supervisor to start it again", "part", worst.of.String(), "silent", worst.silent.Round(time.Second))
		return worst
	}
	if h.alive != nil {
		h.alive()
	}
	return nil
}

// lastBreath is how long the parts may take to end once the watchdog has stopped.
const lastBreath = 10 * time.Second

// errHangs: a part of the service did not end when it was told to.
var errHangs = errors.New("a part of the service hangs")

// await waits for the end of the service. Where the watchdog has stopped, what hangs is not
// waited for: the process ends around it.
func (h *watchdog) await(g *errgroup.Group) error {
	ended := make(chan error, 1)
	go func() { ended <- g.Wait() }()
	select {
	case err := <-ended:
		return err
	case err := <-h.stopped:
		select {
		case <-ended:
			return err
		case <-time.After(lastBreath):
			return errors.Join(err, errHangs)
		}
	}
}

// supervisor tells systemd, where it started the service, how it is: the protocol of
// sd_notify(3). Elsewhere it tells nobody.
func supervisor(e env) func(state string) {
	at := e.get("NOTIFY_SOCKET")
	if at == "" {
		return func(string) {}
	}
	return func(state string) {
		c, err := net.DialUnix("unixgram", nil, &net.UnixAddr{Name: at, Net: "unixgram"})
		if err != nil {
			return // it has no ear: it will act on the silence
		}
		defer func() { _ = c.Close() }()
		_, _ = c.Write([]byte(state))
	}
}
