package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// photo is a way to write with a photo.
var photo = apidouble.WithPhoto()

// photos are those that go with lines of the logbook.
func (w *world) photos() (list []store.Photo) {
	w.look(func(tx *store.Tx) (err error) {
		list, err = tx.Photos(1)
		return err
	})
	return list
}

// shows asks for photos and gives the answer, and the chat's names of what came with it.
func (w *world) shows(text string, n int) (answer apidouble.Sent, names []string) {
	w.t.Helper()
	before := len(w.Sent(w.group))
	answer = w.says(w.wren, text)
	w.await("the photos", func() bool {
		names = nil
		for _, m := range w.Sent(w.group)[before:] {
			if m.File != nil {
				names = append(names, m.File.ID)
			}
		}
		return len(names) >= n
	})
	w.settled()
	require.Len(w.t, names, n)
	return answer, names
}

// counting is a world with a batch that may be counted.
func counting(t *testing.T) *world {
	w := hearing(t)
	for _, text := range []string{"add breeder 7", "add builder B2", "add yard North 40 nucs", "graft 45 from 7 into B2 yesterday 8:00"} {
		w.says(w.wren, text)
	}
	require.Contains(t, w.book(), "did graft batch 1 45 Wren")
	return w
}

// A caption is read as any message is, and its photo stays with what it logged; it
// comes back as the same picture in its full size, nothing being uploaded.
func TestServePhotoCaption(t *testing.T) {
	w := counting(t)
	got := w.says(w.ash, "accepted 38", photo)
	assert.Contains(t, got.Text, "Batch 1: 38 of 45 accepted")
	require.Len(t, w.photos(), 1)
	w.says(w.wren, "B2 clear", photo)
	uploads := len(w.Requests("sendPhoto"))
	answer, names := w.shows("photos of batch 1", 1)
	assert.Equal(t, []string{"file1"}, names)
	assert.Contains(t, answer.Text, "1 photo of batch 1:")
	assert.Contains(t, answer.Text, "Ash: batch 1, 38 accepted")
	_, names = w.shows("photos B2", 1)
	assert.Equal(t, []string{"file2"}, names)
	answer, names = w.shows("photos", 2)
	assert.Equal(t, []string{"file1", "file2"}, names)
	assert.Contains(t, answer.Text, "2 photos:")
	assert.Nil(t, answer.File, "the words come first")
	for _, r := range w.Requests("sendPhoto")[uploads:] {
		assert.Empty(t, r.Files, "named, not uploaded")
	}
	assert.Contains(t, w.says(w.wren, "photos batch 3").Text, "No photos of batch 3 yet.")
	assert.Contains(t, w.says(w.wren, "fotos lote 3").Text, "Todavía no hay fotos de lote 3.")
	assert.Empty(t, w.Violations())
}

// Nothing is logged from a photo: without words, with words that log nothing, or with
// words that are asked back, the book stays as it is, and the photos of talk are not
// kept.
func TestServePhotoLogsNothing(t *testing.T) {
	w := counting(t)
	was := w.book()
	w.silence(func() { w.Say(w.group, w.ash, "", photo) })
	w.silence(func() { w.Say(w.group, w.ash, "  ", photo) })
	w.silence(func() { w.Say(w.group, w.ash, "what a view", photo) })
	w.silence(func() { w.Say(w.group, w.ash, "", apidouble.InAlbum("lunch")) })
	w.silence(func() { w.Say(w.group, w.ash, "not grafted yet", photo) })
	asked := w.says(w.ash, "accepted 54", photo)
	assert.Equal(t, was, w.book())
	assert.Empty(t, w.photos())
	// What was refused is put right by the same message: then its photo stays.
	assert.Contains(t, asked.Text, "54")
	// A ping, or an answer that logged nothing, is nothing to keep a photo with.
	due := w.says(w.wren, "due")
	got := w.says(w.ash, "", photo, apidouble.ReplyTo(due.ID))
	assert.Contains(t, got.Text, "Write under it what was done")
	assert.Equal(t, was, w.book())
	assert.Empty(t, w.photos())
	assert.Empty(t, w.Violations())
}

// A photo in reply to an answer stays with what that answer logged, as long as it
// stands; of an album all do, and only the first is answered.
func TestServePhotoReply(t *testing.T) {
	w := counting(t)
	echo := w.says(w.ash, "accepted 38")
	was := w.book()
	got := w.says(w.ash, "", photo, apidouble.ReplyTo(echo.ID))
	assert.Equal(t, "Photo kept with: batch 1, 38 accepted.", got.Text)
	got = w.says(w.wren, "", apidouble.InAlbum("a"), apidouble.ReplyTo(echo.ID))
	assert.Contains(t, got.Text, "Photo kept")
	w.silence(func() { w.Say(w.group, w.wren, "", apidouble.InAlbum("a"), apidouble.ReplyTo(echo.ID)) })
	assert.Equal(t, was, w.book())
	_, names := w.shows("photos batch 1", 3)
	assert.Equal(t, []string{"file1", "file2", "file3"}, names)
	w.says(w.ash, "undo")
	assert.Contains(t, w.says(w.ash, "photos batch 1").Text, "No photos of batch 1 yet.")
	got = w.says(w.ash, "", photo, apidouble.ReplyTo(echo.ID))
	assert.Contains(t, got.Text, "Write under it what was done", "the line is taken back")
}

// An album comes as one message a photo, and the first has the caption.
func TestServePhotoAlbum(t *testing.T) {
	w := counting(t)
	w.says(w.ash, "accepted 38", apidouble.InAlbum("a"))
	w.silence(func() {
		w.Say(w.group, w.ash, "", apidouble.InAlbum("a"))
		w.Say(w.group, w.ash, "", apidouble.InAlbum("b"))
	})
	_, names := w.shows("photos batch 1", 2)
	assert.Equal(t, []string{"file1", "file2"}, names)
}

// Where the caption is asked back, its photos stay with what the answer logs; where a
// line is logged anew of another batch, they go along.
func TestServePhotoFollows(t *testing.T) {
	w := counting(t)
	for _, m := range []string{"add builder B3", "graft 40 from 7 into B3 yesterday 8:30"} {
		w.says(w.wren, m)
	}
	asked := w.says(w.ash, "accepted 31", apidouble.InAlbum("a"))
	require.NotEmpty(t, asked.Labels(), asked.Text)
	require.Contains(t, asked.Labels(), "Batch 1", asked.Text)
	w.silence(func() { w.Say(w.group, w.ash, "", apidouble.InAlbum("a")) })
	n := len(w.photos())
	w.answer(w.group, func() { w.Press(w.group, w.ash, asked.ID, "Batch 1") })
	require.Len(t, w.photos(), n+2)
	w.says(w.ash, "it was batch 2")
	_, names := w.shows("photos batch 2", 2)
	assert.NotEmpty(t, names)
	assert.Contains(t, w.says(w.ash, "photos batch 1").Text, "No photos of batch 1 yet.")
}

// A chat that has a picture no longer gets the words alone.
func TestServePhotoGone(t *testing.T) {
	w := counting(t)
	w.says(w.ash, "accepted 38", photo)
	w.Forget("file1")
	got, _ := w.shows("photos batch 1", 0)
	assert.Contains(t, got.Text, "1 photo of batch 1:")
	assert.Nil(t, got.File)
}
