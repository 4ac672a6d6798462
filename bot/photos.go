package bot

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
	ans.reported = true
	if sc.replied == nil && !sc.addressed {
		first, found, err := sc.tx.Album(sc.crew.ID, sc.album)
		ans.hush()
		if err != nil || !found {
			return ans, err
		}
		ans.write(func(tx *store.Tx) error { return sc.keepPhoto(tx, first.About, first.Lines...) })
		return ans, nil
	}
	var lines []int64
	var what []string
	if sc.replied != nil && sc.replied.Update != 0 && sc.chat == 0 {
		logged, err := sc.tx.UpdateLines(sc.replied.Update)
		if err != nil {
			return ans, err
		}
		for _, l := range logged {
			if l.Ref != 0 {
				if l, _, err = sc.tx.LineByID(sc.crew.ID, l.Ref); err != nil {
					return ans, err
				}
			}
			cur, alive, err := sc.current(l)
			if err != nil {
				return ans, err
			}
			if alive && cur.Action == rules.Did {
				lines, what = append(lines, cur.ID), append(what, sc.v.Line(cur.Entry))
			}
		}
	}
	if lines == nil {
		ans.fail(sc.v, "photo_unread")
		return ans, nil
	}
	ans.write(func(tx *store.Tx) error { return sc.keepPhoto(tx, 0, lines...) })
	_, more, err := sc.tx.Album(sc.crew.ID, sc.album)
	if more {
		ans.hush() // one answer to an album is enough
		return ans, err
	}
	ans.say(sc.v, "e_photo", "List", wording.JoinList(what))
	return ans, err
}

// keepPhoto keeps a photo, as far as its lines have not enough of them.
func (sc *Scene) keepPhoto(tx *store.Tx, about int64, lines ...int64) error {
	for _, l := range lines {
		n, err := tx.CountPhotos(l)
		if err != nil || n >= mostLinePhotos {
			return err
		}
	}
	return tx.KeepPhoto(store.Photo{Crew: sc.crew.ID, Update: sc.update.ID, About: about, Album: sc.album, File: sc.photo}, lines...)
}

// captioned keeps a photo whose caption logged something, or will once a question is
// answered. The photos of talk are not kept.
func (sc *Scene) captioned(ans Answer) error {
	if sc.photo == "" || sc.chat != 0 || wording.Clean(sc.update.Text) == "" || sc.update.Kind != "message" || len(ans.logged) == 0 && ans.kind != "ask" {
		return nil
	}
	var lines []int64
	for _, e := range ans.logged {
		if e.Action == rules.Did {
			lines = append(lines, e.ID)
		}
	}
	return sc.keepPhoto(sc.tx, sc.update.Message, lines...)
}

// photosFollow brings photos to the lines that were just logged: those of their message, and
// those of the line that was taken back for one.
func (sc *Scene) photosFollow(logged []rules.Entry) error {
	for i, e := range logged {
		if e.Action != rules.Did {
			continue
		}
		if err := sc.tx.PhotosJoin(sc.crew.ID, sc.origin.Message, e.ID); err != nil {
			return err
		}
		for _, gone := range logged[:i] {
			if gone.Action == rules.Void && gone.Step == e.Step {
				if err := sc.tx.PhotosFollow(gone.Ref, e.ID); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// photos answers with the photos of a batch, breeder, builder or yard, or the newest.
func (sc *Scene) photos(r *reading) (Answer, error) {
	var ans Answer
	s := r.subject()
	ans.subject = s
	list, err := sc.tx.Photos(sc.crew.ID)
	if err != nil {
		return ans, err
	}
	book, err := sc.tx.Logbook(sc.crew.ID)
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
				e, what = x, append(what, sc.v.Line(x))
			}
		}
		if what != nil {
			ids, lines = append(ids, p.ID), append(lines, sc.v.Say("s_log_line", "When", e.Happened, "By", e.By, "What", wording.JoinList(what)))
		}
	}
	about := ""
	if !s.Zero() {
		about = sc.v.Say("s_photos_of", "Subject", sc.v.Subject(s))
	}
	if ids == nil {
		ans.say(sc.v, "s_photos_none", "Of", about)
		return ans, nil
	}
	older := max(0, len(ids)-mostPhotos)
	ans.attach = attach.Attachment{Kind: "photos", Photos: ids[older:]}
	ans.say(sc.v, "s_photos", "Of", about, "Count", len(ids))
	ans.lines = append(ans.lines, lines[older:]...)
	if older > 0 {
		ans.say(sc.v, "s_photos_older", "Count", older)
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
