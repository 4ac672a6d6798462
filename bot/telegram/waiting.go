package telegram

import (
	"context"
	"encoding/json"

	"yardbell/bot"
)

// waiting are updates of one poll that were read and are to be saved together. Whatever
// else is saved of the poll comes after them, since it moves on where the next poll
// starts.
type waiting struct {
	p    *Poller
	list []bot.Incoming
	raw  []json.RawMessage
}

// add takes one more and saves all where they are many.
func (w *waiting) add(ctx context.Context, in bot.Incoming, raw json.RawMessage) error {
	w.list, w.raw = append(w.list, in), append(w.raw, raw)
	if len(w.list) < bot.MostTogether {
		return nil
	}
	return w.save(ctx)
}

// save saves what waits. What could not be saved is read again.
func (w *waiting) save(ctx context.Context) error {
	list, raw := w.list, w.raw
	w.list, w.raw = nil, nil
	if len(list) == 0 {
		return nil
	}
	trip, err := w.try(ctx, list...)
	if trip != nil {
		err = w.alone(ctx, list, raw)
	}
	if err == nil {
		w.p.seen() // after each: a hundred may take a while
	}
	return err
}

// alone finds the one on which the handler trips, and sets it aside.
func (w *waiting) alone(ctx context.Context, list []bot.Incoming, raw []json.RawMessage) error {
	for i, in := range list {
		trip, err := w.try(ctx, in)
		if trip != nil {
			err = w.p.setAside(ctx, in.UpdateID, raw[i], trip)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (w *waiting) try(ctx context.Context, list ...bot.Incoming) (trip any, err error) {
	defer func() { trip = recover() }()
	return nil, w.p.h.Handle(ctx, w.p.clock(), list...)
}
