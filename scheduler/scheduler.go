package scheduler

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"time"

	"github.com/robfig/cron/v3"

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
}

// New makes a scheduler that sends through to.
func New(db *store.DB, to Sender, log *slog.Logger) *Scheduler {
	return &Scheduler{db: db, to: to, log: log, wake: make(chan struct{}, 1)}
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

// Run ticks until ctx ends. clock is asked once a tick.
func (s *Scheduler) Run(ctx context.Context, clock func() time.Time) error {
	// SkipIfStillRunning has to wrap Recover: the other way round, one panic would
	// leave the job marked as running for good.
	quiet := cron.DiscardLogger
	c := cron.New(cron.WithChain(cron.SkipIfStillRunning(quiet), cron.Recover(quiet)))
	if _, err := c.AddFunc(tickEvery, s.Wake); err != nil {
		return fmt.Errorf("schedule ticks: %w", err)
	}
	c.Start()
	defer func() { <-c.Stop().Done() }()
	s.Wake()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-s.wake:
			// The tick must end before its leases do.
			tctx, cancel := context.WithTimeout(ctx, store.Lease*4/5)
			err := s.Tick(tctx, clock())
			cancel()
			if err != nil && !errors.Is(err, context.Canceled) {
				s.log.Error("tick failed", "err", err)
			}
		}
	}
}

// Tick sends everything that is due at now.
func (s *Scheduler) Tick(ctx context.Context, now time.Time) error {
	for {
		var work plan
		err := s.db.Update(ctx, now, func(tx *store.Tx) error {
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
			return fmt.Errorf("claim due messages: %w", err)
		}
		for _, out := range work.send {
			if err := s.deliver(ctx, now, out); err != nil {
				return err
			}
		}
		if work.claimed < claimLimit {
			return nil
		}
	}
}

const claimLimit = 200
