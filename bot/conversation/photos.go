package conversation

import (
	"yardbell/bot/attach"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// A photo is kept with what was logged from its caption, or with the lines of the
// answer it replies to. Nothing is ever logged from a photo itself.

// mostPhotos are sent at once: every photo is a message of its own in the chat.
const mostPhotos = 6

// photoAlone takes in a photo without words: one in reply to an answer goes with what
// that answer logged, one of an album with the photo that had the caption.
func (sc *Scene) photoAlone() (Answer, error) {
	var ans Answer
	ans.Reported = true
	if sc.Replied == nil && !sc.Addressed {
		first, found, err := sc.Look.Album(sc.Crew.ID, sc.Album)
		ans.Ignore()
		if err != nil || !found {
			return ans, err
		}
		ans.write(func(tx *store.Tx) error { return sc.KeepPhoto(tx, first.About, first.Lines...) })
		return ans, nil
	}
	var lines []int64
	var what []string
	if sc.Replied != nil && sc.Replied.Update != 0 && sc.Chat == 0 {
		logged, err := sc.Look.UpdateLines(sc.Replied.Update)
		if err != nil {
			return ans, err
		}
		for _, l := range logged {
			if l.Ref != 0 {
				if l, _, err = sc.Look.LineByID(sc.Crew.ID, l.Ref); err != nil {
					return ans, err
				}
			}
			cur, alive, err := sc.current(l)
			if err != nil {
				return ans, err
			}
			if alive && cur.Action == rules.Did {
				lines, what = append(lines, cur.ID), append(what, sc.Voice.Line(cur.Entry))
			}
		}
	}
	if lines == nil {
		ans.Fail(sc.Voice, "photo_unread")
		return ans, nil
	}
	ans.write(func(tx *store.Tx) error { return sc.KeepPhoto(tx, 0, lines...) })
	_, more, err := sc.Look.Album(sc.Crew.ID, sc.Album)
	if more {
		ans.Ignore() // one answer to an album is enough
		return ans, err
	}
	ans.say(sc.Voice, "e_photo", "List", wording.JoinList(what))
	return ans, err
}

// KeepPhoto keeps a photo, as far as its lines have not enough of them.
func (sc *Scene) KeepPhoto(tx *store.Tx, about int64, lines ...int64) error {
	for _, l := range lines {
		n, err := tx.CountPhotos(l)
		if err != nil || n >= mostLinePhotos {
			return err
		}
	}
	return tx.KeepPhoto(store.Photo{Crew: sc.Crew.ID, Update: sc.Update.ID, About: about, Album: sc.Album, File: sc.Photo}, lines...)
}

// photos answers with the photos of a batch, breeder, builder or yard, or the newest.
func (sc *Scene) photos(r *reading) (Answer, error) {
	var ans Answer
	s := r.subject()
	ans.Subject = s
	list, err := sc.Look.Photos(sc.Crew.ID)
	if err != nil {
		return ans, err
	}
	book, err := sc.Look.Logbook(sc.Crew.ID)
	if err != nil {
		return ans, err
	}
	entries := make([]rules.Entry, len(book))
	for i, l := range book {
		entries[i] = l.Entry
	}
	of := map[int64]rules.Entry{}
	for _, e := range rules.Effective(entries) {
		if e.Action == rules.Did && concerns(e, s) {
			of[e.ID] = e
		}
	}
	var ids []int64
	var lines []string
	for _, p := range list {
		var what []string
		var e rules.Entry
		for _, id := range p.Lines {
			if x, ok := of[id]; ok {
				e, what = x, append(what, sc.Voice.Line(x))
			}
		}
		if what != nil {
			ids, lines = append(ids, p.ID), append(lines, sc.Voice.Say("s_log_line", "When", e.Happened, "By", e.By, "What", wording.JoinList(what)))
		}
	}
	about := ""
	if !s.Zero() {
		about = sc.Voice.Say("s_photos_of", "Subject", sc.Voice.Subject(s))
	}
	if ids == nil {
		ans.say(sc.Voice, "s_photos_none", "Of", about)
		return ans, nil
	}
	older := max(0, len(ids)-mostPhotos)
	ans.Attach = attach.Attachment{Kind: "photos", Photos: ids[older:]}
	ans.say(sc.Voice, "s_photos", "Of", about, "Count", len(ids))
	ans.Lines = append(ans.Lines, lines[older:]...)
	if older > 0 {
		ans.say(sc.Voice, "s_photos_older", "Count", older)
	}
	return ans, nil
}

// concerns reports whether a line is about something, or names it as its source or
// place; every line is about nothing in particular.
func concerns(e rules.Entry, s rules.Subject) bool {
	switch {
	case s.Zero(), e.Subject == s:
		return true
	case s.Kind == rules.BreederKind:
		return e.From == s.Number()
	case s.Kind == rules.BuilderKind, s.Kind == rules.YardKind:
		return e.Into == s.Key
	}
	return false
}
