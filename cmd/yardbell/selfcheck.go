package main

import (
	"context"
	"log/slog"
	"time"

	"yardbell/bot"
	"yardbell/bot/group"
	"yardbell/store"
)

// checker makes the daily checks that leads asked for. It works beside the ticks, since
// walking along a long logbook takes a while.
type checker struct {
	db      *store.DB
	bot     *bot.Bot
	log     *slog.Logger
	backups string // their folder, "" for none
	wake    chan struct{}
	looked  time.Time
}

func newChecker(db *store.DB, b *bot.Bot, log *slog.Logger, backups string) *checker {
	return &checker{db: db, bot: b, log: log, backups: backups, wake: make(chan struct{}, 1)}
}

// nudge has it look; every tick does.
func (c *checker) nudge() {
	select {
	case c.wake <- struct{}{}:
	default: // it will
	}
}

// run looks when it is nudged, until ctx ends.
func (c *checker) run(ctx context.Context, clock func() time.Time) error {
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-c.wake:
			now := clock()
			if since := now.Sub(c.looked); since >= 0 && since < time.Minute {
				continue // the hour of a check is set to the minute
			}
			c.looked = now
			if err := c.look(ctx, now); err != nil && ctx.Err() == nil {
				c.log.Error("no daily check", "err", err)
			}
		}
	}
}

func (c *checker) look(ctx context.Context, now time.Time) error {
	due, err := c.bot.CheckDue(ctx, now)
	if err != nil || !due {
		return err
	}
	f := group.Facts{Backups: c.backups != ""}
	var chain store.Chain
	if err := c.db.View(ctx, now, func(tx *store.Tx) (err error) {
		chain, err = tx.VerifyChain()
		return err
	}); err != nil {
		return err
	}
	f.Good = len(chain.Broken) == 0
	if f.Bytes, err = c.db.Size(); err != nil {
		return err
	}
	if f.Backups {
		if f.Backup, err = lastBackup(ctx, c.db, c.backups); err != nil {
			return err
		}
	}
	return c.bot.Check(ctx, now, f)
}
