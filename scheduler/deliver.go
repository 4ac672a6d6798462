package scheduler

import (
	"context"
	"errors"
	"fmt"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// deliver sends one message and records what came of it. The send happens
// between two transactions, never inside one.
func (s *Scheduler) deliver(ctx context.Context, now time.Time, out store.Outgoing) error {
	receipt, err := s.to.Send(ctx, out)
	if err != nil && ctx.Err() != nil {
		return ctx.Err() // the lease will run out and the message go again
	}
	return s.db.Update(context.WithoutCancel(ctx), now, func(tx *store.Tx) error {
		for i, m := range out.Messages {
			if err != nil {
				if err := s.failed(tx, now, m, err); err != nil {
					return err
				}
				continue
			}
			text, buttons := receipt.Text, receipt.Buttons
			if i > 0 {
				text, buttons = "", nil // shown with the first of the list
			}
			reason := "due"
			if !out.Late.IsZero() {
				reason = "late"
			}
			if ok, err := tx.MarkSent(m, receipt.Number, text, buttons, reason); err != nil {
				return fmt.Errorf("record a sent message: %w", err)
			} else if !ok {
				s.log.Warn("another claim took over a message", "row", m.ID)
			}
		}
		return nil
	})
}

func (s *Scheduler) failed(tx *store.Tx, now time.Time, m store.Message, err error) error {
	var se *SendError
	if errors.As(err, &se) && se.Final {
		s.log.Error("message refused for good", "row", m.ID, "err", err)
		return tx.Finish(m, "failed", "refused: "+err.Error())
	}
	wait := rules.NextAttempt(m.Attempt)
	if se != nil && se.After > wait {
		wait = se.After
	}
	s.log.Warn("message not sent, trying again", "row", m.ID, "attempt", m.Attempt, "wait", wait, "err", err)
	return tx.Reschedule(m, now.Add(wait), false, "not sent: "+err.Error())
}
