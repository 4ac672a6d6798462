package bot

import (
	"context"
	"fmt"
	"time"

	"yardbell/store"
)

// MostTogether is how many updates a transport is to hand in at a time at most, half of
// what a poll may bring. More of them save little, and what ticks waits meanwhile, here
// some 15 ms.
const MostTogether = 50

// together takes in several updates in one transaction and gives how many: all, or none
// where one of them has to be looked at alone, because it cannot be saved, trips a fault,
// or its answer may be one too many. Nothing is said or counted of those that were taken
// back; alone each meets again what it met.
func (b *Bot) together(ctx context.Context, now time.Time, list []Incoming) (done int) {
	if len(list) < 2 {
		return 0
	}
	var all []*talk
	err := b.db.Update(ctx, now, func(tx *store.Tx) (err error) {
		defer func() {
			if p := recover(); p != nil {
				err = fmt.Errorf("%v", p)
			}
		}()
		last := list[len(list)-1]
		if err := tx.SetOffset(last.Source, last.UpdateID+1); err != nil {
			return err
		}
		taken := takings{}
		for _, in := range list {
			tx.Afresh()
			t, fresh, err := b.begin(tx, in)
			switch {
			case err != nil:
				return err
			case !fresh:
				all = append(all, nil)
				continue
			}
			if err := t.run(); err != nil {
				return err
			}
			if b.limits(t) && !b.flood.has(t.member.ID, written(in, now), taken) {
				return errFlood
			}
			if err := t.finish(); err != nil {
				return err
			}
			all = append(all, t)
		}
		return nil
	})
	if err != nil {
		return 0
	}
	for i, t := range all {
		if t == nil {
			continue
		}
		if b.limits(t) {
			_, _ = b.flood.take(t.member.ID, written(list[i], now))
		}
		b.handled(list[i], t)
	}
	return len(list)
}
