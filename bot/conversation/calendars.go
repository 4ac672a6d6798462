package conversation

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"strings"

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
		had, err := sc.Look.CalendarLinked(sc.Crew.ID)
		if !had {
			ans.say(sc.Voice, "cal_none")
			return ans, err
		}
		ans.write(func(tx *store.Tx) error { return tx.CloseCalendarLink(sc.Crew.ID) })
		ans.say(sc.Voice, "cal_closed")
		return ans, nil
	}
	ans.Attach = attach.Attachment{Kind: "calendar"}
	ans.say(sc.Voice, "s_calendar")
	if sc.CalendarAt != "" {
		ans.say(sc.Voice, "cal_hint")
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
	case sc.CalendarAt == "":
		ans.say(sc.Voice, "cal_off")
		return ans, nil
	case sc.Chat == 0 && sc.Private:
		ans.say(sc.Voice, "cal_private")
		return ans, nil
	}
	raw := make([]byte, 24)
	if _, err := rand.Read(raw); err != nil {
		return ans, err
	}
	secret := base64.RawURLEncoding.EncodeToString(raw)
	ans.write(func(tx *store.Tx) error { return tx.NewCalendarLink(sc.Crew.ID, LinkHash(secret)) })
	ans.say(sc.Voice, "cal_link", "Link", strings.TrimSuffix(sc.CalendarAt, "/")+"/calendar/"+secret+".ics")
	return ans, nil
}

// LinkHash is what is stored of a link, and what links are compared by: see
// store.CalendarOf.
func LinkHash(secret string) string {
	sum := sha256.Sum256([]byte("yardbell calendar " + secret))
	return hex.EncodeToString(sum[:])
}
