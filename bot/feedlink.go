package bot

import (
	"context"
	"time"

	"yardbell/bot/attach"
	"yardbell/bot/conversation"
	"yardbell/store"
)

// CalendarFeed is the calendar that a link opens, without its address; found is false
// where the link opens none.
func (b *Bot) CalendarFeed(ctx context.Context, now time.Time, secret string) (file []byte, found bool, err error) {
	// Looked up by reading alone: whoever tries links must not keep the crews waiting for
	// their turn to write.
	err = b.db.View(ctx, now, func(tx *store.Tx) (err error) {
		_, found, err = tx.CalendarOf(conversation.LinkHash(secret))
		return err
	})
	if err != nil || !found {
		return nil, false, err
	}
	err = b.db.Update(ctx, now, func(tx *store.Tx) error {
		crew, ok, err := tx.CalendarOf(conversation.LinkHash(secret))
		if found = ok; err != nil || !ok {
			return err
		}
		file, err = attach.Calendar(tx, crew)
		return err
	})
	return file, found, err
}
