package store

import (
	"crypto/subtle"
	"time"
)

// CalendarEvent is a task as the calendar shows it.
type CalendarEvent struct {
	Key       string // of the task
	Sequence  int
	Cancelled bool
	Changed   time.Time
	End       time.Time
	Body      string // its words and times, in whatever form the caller compares them
}

const calendarColumns = `key, sequence, cancelled, changed_at, end_at, body`

func scanCalendar(s scanner) (e CalendarEvent, err error) {
	err = s.Scan(&e.Key, &e.Sequence, &e.Cancelled, instant{&e.Changed}, instant{&e.End}, &e.Body)
	return e, err
}

// keepCancelled is how long a cancelled event is still told of: a phone that was off
// all that time starts anew anyway.
const keepCancelled = 60 * 24 * time.Hour

// ShowCalendar settles what a crew's calendar shows: the events given, with numbers
// that grow where something changed since the last time, and those that are gone,
// cancelled. Only what changed is written. Events come back by key.
func (t *Tx) ShowCalendar(crew int64, now []CalendarEvent) ([]CalendarEvent, error) {
	old, err := all(t, scanCalendar, `SELECT `+calendarColumns+` FROM calendar_events WHERE crew_id = 0 + ?`, crew)
	if err != nil {
		return nil, err
	}
	had := map[string]CalendarEvent{}
	for _, e := range old {
		had[e.Key] = e
	}
	for _, e := range now {
		was, known := had[e.Key]
		delete(had, e.Key)
		if known && !was.Cancelled && was.Body == e.Body {
			continue
		}
		if known {
			e.Sequence = was.Sequence + 1
		} else {
			e.Sequence = 0
		}
		if err := t.putCalendar(crew, e); err != nil {
			return nil, err
		}
	}
	for _, e := range had {
		switch {
		case t.Now.Sub(e.End) > keepCancelled:
			if _, err := t.exec(`DELETE FROM calendar_events WHERE crew_id = 0 + ? AND key = ?`, crew, e.Key); err != nil {
				return nil, err
			}
		case !e.Cancelled:
			e.Cancelled = true
			e.Sequence++
			if err := t.putCalendar(crew, e); err != nil {
				return nil, err
			}
		}
	}
	return all(t, scanCalendar, `SELECT `+calendarColumns+` FROM calendar_events WHERE crew_id = 0 + ? ORDER BY key`, crew)
}

func (t *Tx) putCalendar(crew int64, e CalendarEvent) error {
	_, err := t.exec(`INSERT OR REPLACE INTO calendar_events (crew_id, `+calendarColumns+`) VALUES (?, ?, ?, ?, ?, ?, ?)`,
		crew, e.Key, e.Sequence, e.Cancelled, toMS(t.Now), toMS(e.End), e.Body)
	return err
}

// NewCalendarLink opens the calendar of a crew under a link, given as its hash; the
// one before is closed.
func (t *Tx) NewCalendarLink(crew int64, hash string) error {
	_, err := t.exec(`INSERT OR REPLACE INTO calendar_links (crew_id, link_hash, made_at) VALUES (?, ?, ?)`, crew, hash, toMS(t.Now))
	return err
}

// CalendarLinked reports whether a crew has a link.
func (t *Tx) CalendarLinked(crew int64) (bool, error) {
	var n int
	return t.one(`SELECT 1 FROM calendar_links WHERE crew_id = 0 + ?`, []any{crew}, &n)
}

// CloseCalendarLink makes the link of a crew void.
func (t *Tx) CloseCalendarLink(crew int64) error {
	_, err := t.exec(`DELETE FROM calendar_links WHERE crew_id = 0 + ?`, crew)
	return err
}

// CalendarOf finds the crew whose calendar a link opens, by the link's hash. Every link
// is compared, each in the same time, so that how long it takes says nothing of any.
func (t *Tx) CalendarOf(hash string) (Crew, bool, error) {
	type link struct {
		crew int64
		hash string
	}
	list, err := all(t, func(s scanner) (l link, err error) {
		err = s.Scan(&l.crew, &l.hash)
		return l, err
	}, `SELECT crew_id, link_hash FROM calendar_links`)
	if err != nil {
		return Crew{}, false, err
	}
	found := int64(0)
	for _, l := range list {
		if sameSecret(l.hash, hash) {
			found = l.crew
		}
	}
	if found == 0 {
		return Crew{}, false, nil
	}
	c, err := t.CrewByID(found)
	return c, c.ID != 0, err
}

// sameSecret compares two hashes of secrets in a time that does not depend on where
// they differ.
func sameSecret(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }
