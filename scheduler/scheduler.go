package scheduler

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"github.com/robfig/cron/v3"
	"golang.org/x/sync/errgroup"

	"yardbell/store"
)

// Sender words an outgoing message and gives it to the chat. It returns the
// message's number in the chat with the text and buttons that were shown. An
// error may be a *SendError; any other is taken as passing.
type Sender interface {
	Send(ctx context.Context, out store.Outgoing) (store.Receipt, error)
}

// SendError is the chat's own word on a message that it did not take.
type SendError struct {
	Final bool          // it never will
	Held  bool          // it was not tried; the attempt is given back
	Share bool          // held, but only by the share that answers of its kind have of the chat's rate
	Spare bool          // final, but nothing is lost without it: dropped, not parked
	After time.Duration // not before
	Err   error
}

func (e *SendError) Error() string { return e.Err.Error() }
func (e *SendError) Unwrap() error { return e.Err }

// Scheduler delivers what is due.
type Scheduler struct {
	db   *store.DB
	to   Sender
	log  *slog.Logger
	wake chan struct{}
	cron string // the schedule of ticks

	// Ticked is told, under Run, of every look at what is due that ended well, while
	// nothing hangs that an earlier one began; may be nil.
	Ticked func()

	records records

	reading atomic.Bool // more is being read that people wrote

	mu   sync.Mutex
	busy map[store.Lane]time.Time // the chats that are worked on, and since when
}

// New makes a scheduler that sends through to.
func New(db *store.DB, to Sender, log *slog.Logger) *Scheduler {
	return &Scheduler{db: db, to: to, log: log, wake: make(chan struct{}, 1), cron: tickEvery, busy: map[store.Lane]time.Time{}}
}

// Wake asks for a tick now: a new row is in the outbox.
func (s *Scheduler) Wake() {
	select {
	case s.wake <- struct{}{}:
	default: // one is asked for already
	}
}

// Reading is told whether more is being read that people wrote. Echoes wait for that: what
// one member reported through an outage is answered once, not once for each part of it.
func (s *Scheduler) Reading(more bool) {
	s.reading.Store(more)
	if !more {
		s.Wake()
	}
}

// Recover makes messages due again that were claimed when the service stopped.
// It is for the start, when no other process works on the database.
func (s *Scheduler) Recover(ctx context.Context, now time.Time) error {
	return s.db.Update(ctx, now, func(tx *store.Tx) error { return tx.ReleaseAll() })
}

// tickEvery is the cron schedule of ticks; a minute is the grain of every window.
const tickEvery = "@every 20s"

// tickAtLast is when a tick comes at the latest. cron reckons by the wall clock: where
// that is set back by a day it would sleep for a day. A ticker counts on.
const tickAtLast = time.Minute

// tickAtMost is the least time between two ticks that nobody asked for.
const tickAtMost = 20 * time.Millisecond

// Run ticks until ctx ends: when asked to, when the next message falls due, and now and
// then. clock is asked once a tick. No chat waits for another: what goes to one is sent
// beside the ticks, and when that is done the next tick looks what else is due there.
func (s *Scheduler) Run(ctx context.Context, clock func() time.Time) error {
	// SkipIfStillRunning has to wrap Recover: the other way round, one panic would
	// leave the job marked as running for good.
	quiet := cron.DiscardLogger
	c := cron.New(cron.WithChain(cron.SkipIfStillRunning(quiet), cron.Recover(quiet)))
	if _, err := c.AddFunc(s.cron, s.Wake); err != nil {
		return fmt.Errorf("schedule ticks: %w", err)
	}
	c.Start()
	defer func() { <-c.Stop().Done() }()
	last := time.NewTicker(tickAtLast)
	defer last.Stop()
	due := time.NewTimer(tickAtLast)
	defer due.Stop()
	var sending sync.WaitGroup
	defer sending.Wait()
	s.Wake()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-last.C:
			s.Wake()
		case <-due.C:
			s.Wake()
		case <-s.wake:
			next, err := s.oneTick(ctx, clock, &sending)
			if err != nil && ctx.Err() == nil {
				s.log.Error("tick failed", "err", err)
			}
			if !next.IsZero() {
				due.Reset(max(next.Sub(clock()), tickAtMost))
			}
		}
	}
}

// oneTick begins to send what is due, and gives when the next message will be; what
// panics in it must not end the service.
func (s *Scheduler) oneTick(ctx context.Context, clock func() time.Time, sending *sync.WaitGroup) (next time.Time, err error) {
	defer func() {
		if p := recover(); p != nil {
			s.log.Error("a tick panicked", "panic", p) // its value is for the log to show or not
			err = errors.New("it panicked")
		}
	}()
	for more := true; more; {
		now := clock()
		var work []lane
		if work, more, err = s.claim(ctx, now); err != nil {
			return next, err
		}
		for _, l := range work {
			sending.Go(func() {
				defer s.Wake()
				if err := s.work(ctx, now, l); err != nil && ctx.Err() == nil {
					s.log.Error("tick failed", "err", err)
				}
			})
		}
		if s.Ticked != nil && !s.hangs(now) {
			s.Ticked()
		}
	}
	now := clock()
	err = s.db.View(ctx, now, func(tx *store.Tx) (err error) {
		next, _, err = tx.NextAfter(now)
		return err
	})
	return next, err
}

// Tick sends everything that is due at now.
func (s *Scheduler) Tick(ctx context.Context, now time.Time) error {
	for {
		work, more, err := s.claim(ctx, now)
		if err != nil || !more {
			return err
		}
		var g errgroup.Group
		for _, l := range work {
			g.Go(func() error { return s.work(ctx, now, l) })
		}
		if err := g.Wait(); err != nil {
			return err
		}
	}
}

// lane is what goes to one chat, in that order.
type lane struct {
	store.Lane
	send []store.Outgoing
}

// workAtMost ends before the leases of what is worked on do.
const workAtMost = store.Lease * 4 / 5

// hangs reports whether a chat has been worked on for longer than can be.
func (s *Scheduler) hangs(now time.Time) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, since := range s.busy {
		if now.Sub(since) > workAtMost {
			return true
		}
	}
	return false
}

// claim takes what goes next to chats that nobody works on. more says that there was
// something, so that there may be something else.
func (s *Scheduler) claim(ctx context.Context, now time.Time) (work []lane, more bool, err error) {
	ctx, cancel := context.WithTimeout(ctx, workAtMost)
	defer cancel()
	s.mu.Lock()
	busy := maps.Clone(s.busy)
	s.mu.Unlock()
	err = s.db.Update(ctx, now, func(tx *store.Tx) error {
		work, more = nil, false
		if err := tx.Release(func(l store.Lane) bool { _, ok := busy[l]; return ok }); err != nil {
			return err
		}
		due, err := tx.Due()
		if err != nil {
			return err
		}
		if s.reading.Load() {
			due = slices.DeleteFunc(due, func(d store.Due) bool { return d.Priority >= store.Echo })
		}
		for _, first := range pick(due, busy, lanesAtOnce-len(busy)) {
			more = true
			l := lane{Lane: first[0].Lane}
			if l.send, err = take(tx, first, due, now); err != nil {
				return err
			}
			if len(l.send) > 0 {
				work = append(work, l)
			}
		}
		return nil
	})
	if err != nil {
		return nil, false, fmt.Errorf("claim due messages: %w", err)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, l := range work {
		s.busy[l.Lane] = now
	}
	return work, more, nil
}

// take claims what was picked of one chat, with what belongs to it, and decides on it.
func take(tx *store.Tx, picked, due []store.Due, now time.Time) ([]store.Outgoing, error) {
	ids := make([]int64, len(picked))
	for i, d := range picked {
		ids[i] = d.ID
	}
	if picked[0].Priority > store.DigestPing {
		var err error
		if ids, err = backlog(tx, picked[0], due, now); err != nil {
			return nil, err
		}
	}
	claimed, err := tx.Claim(ids)
	if err != nil || len(claimed) == 0 {
		return nil, err
	}
	return arrange(tx, claimed, now)
}

// work sends to one chat, in order. Once it has asked to wait, the rest is held back
// untried.
func (s *Scheduler) work(ctx context.Context, now time.Time, l lane) (err error) {
	defer func() {
		if p := recover(); p != nil {
			s.log.Error("a tick panicked", "panic", p)
			err = errors.New("it panicked")
		}
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.busy, l.Lane)
	}()
	ctx, cancel := context.WithTimeout(ctx, workAtMost)
	defer cancel()
	var until time.Time
	for _, out := range l.send {
		if !until.IsZero() {
			if err := s.holdBack(ctx, now, out, until); err != nil {
				return fmt.Errorf("hold messages back: %w", err)
			}
			continue
		}
		if until, err = s.deliver(ctx, now, out); err != nil {
			return fmt.Errorf("deliver: %w", err)
		}
	}
	return nil
}
