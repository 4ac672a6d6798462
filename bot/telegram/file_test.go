package telegram

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/store"
)

func drawn(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30))))
	return b.Bytes()
}

// One file with few words is one message; its words are shown as they are written.
func TestDeliverPicture(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	d := delivery(r.group, "a < b & week", store.Button{Label: "Done", Do: "task|done|x"})
	d.Files = []wording.File{{Name: "week.png", Picture: true, Data: drawn(t)}}
	n, err := r.deliver(d)
	require.NoError(t, err)
	sent := r.Sent(r.group)
	require.Len(t, sent, 1)
	assert.Equal(t, int64(sent[0].ID), n)
	assert.Equal(t, "a < b & week", sent[0].Text)
	assert.Equal(t, []string{"Done"}, sent[0].Labels())
	require.NotNil(t, sent[0].File)
	assert.Equal(t, d.Files[0].Data, sent[0].File.Data)
	assert.Empty(t, r.Violations())
}

// Several files, or many words, come after the words; the words' number is the
// message's, since it is they that are replied to.
func TestDeliverFiles(t *testing.T) {
	for _, text := range []string{"sheets", strings.Repeat("many words ", 120), strings.Repeat("very many words\n", 400)} {
		r := newChatroom(t, apidouble.Options{})
		d := delivery(r.group, text)
		d.Files = []wording.File{{Name: "rounds.csv", Data: []byte("a,b\n")}, {Name: "queens.csv", Data: []byte("c\n")}}
		n, err := r.deliver(d)
		require.NoError(t, err)
		sent := r.Sent(r.group)
		words := len(split(text, mostUnits))
		require.Len(t, sent, words+2)
		assert.Equal(t, int64(sent[words-1].ID), n)
		assert.Equal(t, "rounds.csv", sent[words].File.Name)
		assert.Equal(t, []byte("c\n"), sent[words+1].File.Data)
		assert.Empty(t, r.Violations())
	}
}

// A file that the chat will not take does not keep the words back; a limit or a fault
// on the way is tried again, and what is in the chat already is not sent twice.
func TestDeliverFileRefused(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Script("sendPhoto", apidouble.Refuse(400, "Bad Request: not enough rights to send photos to the chat"))
	d := delivery(r.group, "week")
	d.Files = []wording.File{{Name: "week.png", Picture: true, Data: drawn(t)}}
	_, err := r.deliver(d)
	for err != nil { // the words have to wait for their turn
		r.clock.Advance(notSent(t, err).After)
		_, err = r.deliver(d)
	}
	assert.Equal(t, []string{"week"}, r.texts(r.group))
	assert.Zero(t, r.FaultsLeft("sendPhoto"))

	r.clock.Advance(time.Minute) // the limits are another test's matter
	d = delivery(r.group, "sheets")
	d.Files = []wording.File{{Name: "rounds.csv", Data: []byte("a,b\n")}, {Name: "queens.csv", Data: []byte("c\n")}}
	r.Script("sendDocument", apidouble.Pass(), apidouble.TooMany(7))
	_, err = r.deliver(d)
	for err != nil {
		not := notSent(t, err)
		assert.True(t, not.Held, "a limit is no fault of the message")
		r.clock.Advance(not.After)
		_, err = r.deliver(d)
	}
	assert.Zero(t, r.FaultsLeft("sendDocument"))
	assert.Equal(t, []string{"week", "sheets", "", ""}, r.texts(r.group))

	r.clock.Advance(time.Minute)
	r.Script("sendPhoto", apidouble.Refuse(403, "Forbidden: bot was kicked from the supergroup chat"))
	d = delivery(r.group, "week")
	d.Files = []wording.File{{Name: "week.png", Picture: true, Data: drawn(t)}}
	_, err = r.deliver(d)
	assert.True(t, notSent(t, err).Gone, "the code survives the upload")
}

// The token does not show in the faults of uploads either.
func TestUploadHidesToken(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Always("sendDocument", apidouble.CutBefore())
	d := delivery(r.group, "x")
	d.Files = []wording.File{{Name: "x.csv", Data: []byte("a")}}
	_, err := r.deliver(d)
	require.Error(t, err)
	assert.NotContains(t, err.Error(), "MARKER")
}
