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
func (sc *Scene) calendar(r *reading) (Answer, error) {
	var ans Answer
	switch r.topic {
	case "link", "on", "new":
		return sc.calendarLink()
	case "off":
		if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
			return ans, err
		}
		had, err := sc.tx.CalendarLinked(sc.crew.ID)
		if !had {
			ans.say(sc.v, "cal_none")
			return ans, err
		}
		ans.write(func(tx *store.Tx) error { return tx.CloseCalendarLink(sc.crew.ID) })
		ans.say(sc.v, "cal_closed")
		return ans, nil
	}
	ans.attach = attach.Attachment{Kind: "calendar"}
	ans.say(sc.v, "s_calendar")
	if sc.calendarAt != "" {
		ans.say(sc.v, "cal_hint")
	}
	return ans, nil
}

// calendarLink makes a new link. It opens the calendar to whoever has it, so it is
// given to the lead alone, in private, and kept here as a hash only.
func (sc *Scene) calendarLink() (Answer, error) {
	var ans Answer
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, err
	}
	switch {
	case sc.calendarAt == "":
		ans.say(sc.v, "cal_off")
		return ans, nil
	case sc.chat == 0 && sc.private:
		ans.say(sc.v, "cal_private")
		return ans, nil
	}
	raw := make([]byte, 24)
	if _, err := rand.Read(raw); err != nil {
		return ans, err
	}
	secret := base64.RawURLEncoding.EncodeToString(raw)
	ans.write(func(tx *store.Tx) error { return tx.NewCalendarLink(sc.crew.ID, linkHash(secret)) })
	ans.say(sc.v, "cal_link", "Link", strings.TrimSuffix(sc.calendarAt, "/")+"/calendar/"+secret+".ics")
	return ans, nil
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
