package scheduler

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
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

	// Ticked is told of every part of a tick that ended well, under Run; may be nil.
	Ticked func()

	sending chan struct{} // holds one for each message that is with the chat
	records records
}

// New makes a scheduler that sends through to.
func New(db *store.DB, to Sender, log *slog.Logger) *Scheduler {
	return &Scheduler{db: db, to: to, log: log, wake: make(chan struct{}, 1), cron: tickEvery, sending: make(chan struct{}, sendersAtOnce)}
}

// Wake asks for a tick now: a new row is in the outbox.
func (s *Scheduler) Wake() {
	select {
	case s.wake <- struct{}{}:
	default: // one is asked for already
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

// Run ticks until ctx ends. clock is asked once a tick.
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
	s.Wake()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-last.C:
			s.Wake()
		case <-s.wake:
			if err := s.oneTick(ctx, clock); err != nil && ctx.Err() == nil {
				s.log.Error("tick failed", "err", err)
			}
		}
	}
}

// oneTick ticks once; what panics in it must not end the service. Where much is due
// the clock is asked anew for each part: somebody who asks meanwhile is answered
// with the next part and not behind all of it.
func (s *Scheduler) oneTick(ctx context.Context, clock func() time.Time) (err error) {
	defer func() {
		if p := recover(); p != nil {
			s.log.Error("a tick panicked", "panic", p) // its value is for the log to show or not
			err = errors.New("it panicked")
		}
	}()
	for more := true; more && err == nil; {
		if more, err = s.onePart(ctx, clock()); err == nil && s.Ticked != nil {
			s.Ticked()
		}
	}
	return err
}

// onePart ends before the leases of its claims do.
func (s *Scheduler) onePart(ctx context.Context, now time.Time) (more bool, err error) {
	ctx, cancel := context.WithTimeout(ctx, store.Lease*4/5)
	defer cancel()
	return s.part(ctx, now)
}

// Tick sends everything that is due at now.
func (s *Scheduler) Tick(ctx context.Context, now time.Time) (err error) {
	for more := true; more && err == nil; {
		more, err = s.part(ctx, now)
	}
	return err
}

// part sends the first of what is due at now; more says that there may be more.
func (s *Scheduler) part(ctx context.Context, now time.Time) (more bool, err error) {
	var work plan
	err = s.db.Update(ctx, now, func(tx *store.Tx) error {
		if err := tx.Release(); err != nil {
			return err
		}
		claimed, err := tx.Claim(claimLimit)
		if err != nil {
			return err
		}
		work, err = arrange(tx, claimed, now)
		return err
	})
	if err != nil {
		return false, fmt.Errorf("claim due messages: %w", err)
	}
	return work.claimed == claimLimit, s.sendAll(ctx, now, work.send)
}

const claimLimit = 200

// sendersAtOnce is how many messages are with the chat at the same time. A chat's
// server answers in a few tenths of a second, and allows some thirty messages a second.
const sendersAtOnce = 16

// crewsAtOnce is how many crews are worked on at the same time. Beside those that are
// sent to, some wait for the disk, all for the same turn of it.
const crewsAtOnce = 64

// sendAll sends to several crews at once, but to each crew in order. What is urgent
// for one crew does not wait for what is not for another.
func (s *Scheduler) sendAll(ctx context.Context, now time.Time, list []store.Outgoing) error {
	held := &heldBack{until: map[int64]time.Time{}}
	for _, wave := range waves(list) {
		if err := s.sendWave(ctx, now, wave, held); err != nil {
			return err
		}
	}
	return nil
}

// waves sorts messages by their priority, each crew's own order kept: nothing goes
// in an earlier wave than what stands before it for the same crew.
func waves(list []store.Outgoing) [][]store.Outgoing {
	out := make([][]store.Outgoing, store.DigestLast+1)
	reached := map[int64]int{}
	for _, o := range list {
		w := max(reached[o.Crew.ID], min(o.Messages[0].Priority, store.DigestLast))
		reached[o.Crew.ID] = w
		out[w] = append(out[w], o)
	}
	return out
}

// heldBack are the crews whose chats want nothing more before a time.
type heldBack struct {
	mu    sync.Mutex
	until map[int64]time.Time
}

func (h *heldBack) get(crew int64) time.Time {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.until[crew]
}

func (h *heldBack) set(crew int64, until time.Time) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.until[crew] = until
}

// sendWave sends one message of a crew after the other, and of all crews in turn: a
// chat takes about one message a second, so that whoever has several waits least for
// the next where the others come in between.
func (s *Scheduler) sendWave(ctx context.Context, now time.Time, list []store.Outgoing, held *heldBack) error {
	byCrew := map[int64][]store.Outgoing{}
	var crews []int64
	for _, out := range list {
		if byCrew[out.Crew.ID] == nil {
			crews = append(crews, out.Crew.ID)
		}
		byCrew[out.Crew.ID] = append(byCrew[out.Crew.ID], out)
	}
	if len(crews) == 0 {
		return nil
	}
	// A crew is in here once or in the hands of one sender, so there is always room.
	ready := make(chan []store.Outgoing, len(crews))
	for _, id := range crews {
		ready <- byCrew[id]
	}
	var left atomic.Int64
	left.Store(int64(len(crews)))
	var g errgroup.Group
	for range min(crewsAtOnce, len(crews)) {
		g.Go(func() (failed error) {
			for queue := range ready {
				err := s.sendOne(ctx, now, queue[0], held)
				if err == nil && len(queue) > 1 {
					ready <- queue[1:]
					continue
				}
				failed = cmp.Or(failed, err)
				if left.Add(-1) == 0 {
					close(ready)
				}
			}
			return failed
		})
	}
	return g.Wait()
}

// sendOne sends one message. Once a crew's chat has asked to wait, it is held back
// untried.
func (s *Scheduler) sendOne(ctx context.Context, now time.Time, out store.Outgoing, held *heldBack) error {
	if until := held.get(out.Crew.ID); !until.IsZero() {
		if err := s.holdBack(ctx, now, out, until); err != nil {
			return fmt.Errorf("hold messages back: %w", err)
		}
		return nil
	}
	holdOff, err := s.deliver(ctx, now, out)
	if err != nil {
		return fmt.Errorf("deliver: %w", err)
	}
	held.set(out.Crew.ID, holdOff)
	return nil
}
