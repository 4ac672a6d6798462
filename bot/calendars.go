package bot

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"strings"
	"time"

	"yardbell/bot/attach"
	"yardbell/store"
)

// calendar answers with the crew's calendar as a file, or with the link that phones
// subscribe to.
func (t *talk) calendar(r *reading) error {
	switch r.topic {
	case "link", "on", "new":
		return t.calendarLink()
	case "off":
		if refused, err := t.onlyLead(); refused || err != nil {
			return err
		}
		had, err := t.tx.CloseCalendarLink(t.crew.ID)
		if err != nil {
			return err
		}
		if had {
			t.say("cal_closed")
		} else {
			t.say("cal_none")
		}
		return nil
	}
	t.attach = attach.Attachment{Kind: "calendar"}
	t.say("s_calendar")
	if t.calendarAt != "" {
		t.say("cal_hint")
	}
	return nil
}

// calendarLink makes a new link. It opens the calendar to whoever has it, so it is
// given to the lead alone, in private, and kept here as a hash only.
func (t *talk) calendarLink() error {
	if refused, err := t.onlyLead(); refused || err != nil {
		return err
	}
	switch {
	case t.calendarAt == "":
		t.say("cal_off")
		return nil
	case t.chat == 0 && t.private:
		t.say("cal_private")
		return nil
	}
	raw := make([]byte, 24)
	if _, err := rand.Read(raw); err != nil {
		return err
	}
	secret := base64.RawURLEncoding.EncodeToString(raw)
	if err := t.tx.NewCalendarLink(t.crew.ID, linkHash(secret)); err != nil {
		return err
	}
	t.say("cal_link", "Link", strings.TrimSuffix(t.calendarAt, "/")+"/calendar/"+secret+".ics")
	return nil
}

// linkHash is what is stored of a link, and what links are compared by: see
// store.CalendarOf.
func linkHash(secret string) string {
	sum := sha256.Sum256([]byte("yardbell calendar " + secret))
	return hex.EncodeToString(sum[:])
}

// CalendarFeed is the calendar that a link opens, without its address; found is false
// where the link opens none.
func (b *Bot) CalendarFeed(ctx context.Context, now time.Time, secret string) (file []byte, found bool, err error) {
	// Looked up by reading alone: whoever tries links must not keep the crews waiting for
	// their turn to write.
	err = b.db.View(ctx, now, func(tx *store.Tx) (err error) {
		_, found, err = tx.CalendarOf(linkHash(secret))
		return err
	})
	if err != nil || !found {
		return nil, false, err
	}
	err = b.db.Update(ctx, now, func(tx *store.Tx) error {
		crew, ok, err := tx.CalendarOf(linkHash(secret))
		if found = ok; err != nil || !ok {
			return err
		}
		file, err = attach.Calendar(tx, crew)
		return err
	})
	return file, found, err
}
