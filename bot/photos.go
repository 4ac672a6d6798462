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
func (t *talk) photoAlone() error {
	t.reported = true
	if t.replied == nil && !t.addressed {
		first, found, err := t.tx.Album(t.crew.ID, t.album)
		t.hush()
		if err != nil || !found {
			return err
		}
		return t.keepPhoto(first.About, first.Lines...)
	}
	var lines []int64
	var what []string
	if t.replied != nil && t.replied.Update != 0 && t.chat == 0 {
		logged, err := t.tx.UpdateLines(t.replied.Update)
		if err != nil {
			return err
		}
		for _, l := range logged {
			if l.Ref != 0 {
				if l, _, err = t.tx.LineByID(t.crew.ID, l.Ref); err != nil {
					return err
				}
			}
			cur, alive, err := t.current(l)
			if err != nil {
				return err
			}
			if alive && cur.Action == rules.Did {
				lines, what = append(lines, cur.ID), append(what, t.v.Line(cur.Entry))
			}
		}
	}
	if lines == nil {
		t.fail("photo_unread")
		return nil
	}
	if _, more, err := t.tx.Album(t.crew.ID, t.album); err != nil || more {
		t.hush() // one answer to an album is enough
		if err != nil {
			return err
		}
		return t.keepPhoto(0, lines...)
	}
	t.say("e_photo", "List", wording.JoinList(what))
	return t.keepPhoto(0, lines...)
}

// keepPhoto keeps a photo, as far as its lines have not enough of them.
func (t *talk) keepPhoto(about int64, lines ...int64) error {
	for _, l := range lines {
		n, err := t.tx.CountPhotos(l)
		if err != nil || n >= mostLinePhotos {
			return err
		}
	}
	return t.tx.KeepPhoto(store.Photo{Crew: t.crew.ID, Update: t.update.ID, About: about, Album: t.album, File: t.photo}, lines...)
}

// captioned keeps a photo whose caption logged something, or will once a question is
// answered. The photos of talk are not kept.
func (t *talk) captioned() error {
	if t.photo == "" || t.chat != 0 || wording.Clean(t.update.Text) == "" || t.update.Kind != "message" || len(t.logged) == 0 && t.kind != "ask" {
		return nil
	}
	var lines []int64
	for _, e := range t.logged {
		if e.Action == rules.Did {
			lines = append(lines, e.ID)
		}
	}
	return t.keepPhoto(t.update.Message, lines...)
}

// photosFollow brings photos to a line that was just logged: those of its message, and
// those of the line that was taken back for it.
func (t *talk) photosFollow(e rules.Entry) error {
	if e.Action != rules.Did {
		return nil
	}
	if err := t.tx.PhotosJoin(t.crew.ID, t.origin.Message, e.ID); err != nil {
		return err
	}
	for _, gone := range t.logged {
		if gone.Action == rules.Void && gone.Step == e.Step {
			if err := t.tx.PhotosFollow(gone.Ref, e.ID); err != nil {
				return err
			}
		}
	}
	return nil
}

// photos answers with the photos of a batch, breeder, builder or yard, or the newest.
func (t *talk) photos(r *reading) error {
	s := r.subject()
	t.subject = s
	list, err := t.tx.Photos(t.crew.ID)
	if err != nil {
		return err
	}
	book, err := t.tx.Logbook(t.crew.ID)
	if err != nil {
		return err
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
				e, what = x, append(what, t.v.Line(x))
			}
		}
		if what != nil {
			ids, lines = append(ids, p.ID), append(lines, t.v.Say("s_log_line", "When", e.Happened, "By", e.By, "What", wording.JoinList(what)))
		}
	}
	about := ""
	if !s.Zero() {
		about = t.v.Say("s_photos_of", "Subject", t.v.Subject(s))
	}
	if ids == nil {
		t.say("s_photos_none", "Of", about)
		return nil
	}
	older := max(0, len(ids)-mostPhotos)
	t.attach = attach.Attachment{Kind: "photos", Photos: ids[older:]}
	t.say("s_photos", "Of", about, "Count", len(ids))
	t.lines = append(t.lines, lines[older:]...)
	if older > 0 {
		t.say("s_photos_older", "Count", older)
	}
	return nil
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
