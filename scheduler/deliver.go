package scheduler

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// sendTimeout bounds one send: a chat that hangs on one crew's message must not
// keep the others waiting until the tick ends. Whether the message arrived is
// then uncertain, and it goes again.
const sendTimeout = 30 * time.Second

// mostPanics is how often a message is tried that makes its wording or its
// transport panic. It would do so for ever.
const mostPanics = 5

// panicked is a panic of the Sender, taken as a failed send so that the messages
// behind it still go out.
type panicked struct{ value any }

func (p *panicked) Error() string { return fmt.Sprint("panic: ", p.value) }

// LogValue leaves the value out: it may hold somebody's words.
func (p *panicked) LogValue() slog.Value { return slog.StringValue(fmt.Sprintf("panic: %T", p.value)) }

// deliver sends one message and records what came of it. The send happens
// between two transactions, never inside one. holdOff is not zero where the chat
// wants nothing more before then.
func (s *Scheduler) deliver(ctx context.Context, now time.Time, out store.Outgoing) (holdOff time.Time, err error) {
	receipt, err := s.send(ctx, out)
	if err != nil && ctx.Err() != nil {
		return holdOff, ctx.Err() // the lease will run out and the message go again
	}
	return s.record(ctx, &outcome{now: now, out: out, receipt: receipt, err: err})
}

func (s *Scheduler) send(ctx context.Context, out store.Outgoing) (r store.Receipt, err error) {
	ctx, cancel := context.WithTimeout(ctx, sendTimeout)
	defer cancel()
	defer func() {
		if p := recover(); p != nil {
			s.log.Error("a send panicked", "row", out.Messages[0].ID, "panic", p)
			err = &panicked{p}
		}
	}()
	return s.to.Send(ctx, out)
}

// write records what came of one message.
func (s *Scheduler) write(tx *store.Tx, o *outcome) error {
	o.holdOff = time.Time{}
	if o.err != nil {
		return s.writeFailed(tx, o)
	}
	for i, m := range o.out.Messages {
		if err := tx.QueuePin(m, o.receipt.Number, o.out.Settings); err != nil {
			return fmt.Errorf("queue a pin: %w", err)
		}
		text, buttons := o.receipt.Text, o.receipt.Buttons
		if i > 0 {
			text, buttons = "", nil // shown with the first of the list
		}
		reason := "due"
		switch {
		case o.out.Summary != nil || i > 0 && m.Update != 0:
			text, buttons, reason = m.Text, nil, store.Summed
		case !o.out.Late.IsZero():
			reason = "late"
		}
		if len(o.out.Bars) > 1 {
			reason += ", " + merged(o.out)
		}
		if ok, err := tx.MarkSent(m, o.receipt.Number, text, buttons, reason); err != nil {
			return fmt.Errorf("record a sent message: %w", err)
		} else if !ok {
			s.log.Warn("another claim took over a message", "row", m.ID)
		}
	}
	return nil
}

// writeFailed records a message that was not sent, and holds off what waits behind it
// where the chat wants nothing more.
func (s *Scheduler) writeFailed(tx *store.Tx, o *outcome) error {
	for _, m := range o.out.Messages {
		until, err := s.failed(tx, o.now, m, o.err)
		if err != nil {
			return err
		}
		o.holdOff = until
	}
	if o.holdOff.IsZero() {
		return nil
	}
	first, from := o.out.Messages[0], store.CriticalPing
	if se := (*SendError)(nil); errors.As(o.err, &se) && se.Share {
		from = first.Priority
	}
	return tx.Hold(first.Lane(), from, o.holdOff)
}

// failed ends or reschedules a message that was not sent. The time it gives is
// when the chat, having said so, takes messages again.
func (s *Scheduler) failed(tx *store.Tx, now time.Time, m store.Message, err error) (holdOff time.Time, _ error) {
	var se *SendError
	var p *panicked
	switch errors.As(err, &se); {
	case se != nil && se.Final && se.Spare:
		s.log.Warn("refused for good, done without", "row", m.ID, "err", err)
		return holdOff, tx.Finish(m, "dropped", "refused: "+err.Error())
	case se != nil && se.Final:
		s.log.Error("message refused for good", "row", m.ID, "err", err)
		return holdOff, tx.Finish(m, "failed", "refused: "+err.Error())
	case errors.As(err, &p) && m.Attempt >= mostPanics:
		s.log.Error("message given up", "row", m.ID, "attempt", m.Attempt, "err", err)
		return holdOff, tx.Finish(m, "failed", "given up: "+err.Error())
	case p != nil:
		s.log.Warn("a send panicked, trying again", "row", m.ID, "attempt", m.Attempt, "err", err)
	case se != nil && se.Share:
		s.log.Debug("message held by its share", "row", m.ID)
	default:
		s.log.Warn("message not sent, trying again", "row", m.ID, "attempt", m.Attempt, "err", err)
	}
	wait := rules.NextAttempt(m.Attempt)
	if se != nil && (se.After > 0 || se.Held) {
		after := cmp.Or(se.After, time.Second)
		wait = max(wait, after)
		holdOff = now.Add(after)
	}
	if se != nil && se.Held {
		return holdOff, tx.Reschedule(m, holdOff, true, "held: "+err.Error())
	}
	return holdOff, tx.Reschedule(m, now.Add(wait), false, "not sent: "+err.Error())
}

// holdBack puts a message off that was not tried, because the chat wants nothing
// before then. It costs no attempt.
func (s *Scheduler) holdBack(ctx context.Context, now time.Time, out store.Outgoing, until time.Time) error {
	return s.db.Update(ctx, now, func(tx *store.Tx) error {
		for _, m := range out.Messages {
			if err := tx.Reschedule(m, until, true, "the chat asked to wait"); err != nil {
				return err
			}
		}
		return nil
	})
}
