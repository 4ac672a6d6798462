package main

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The week comes as a photo with its words under it, in the language of who asked:
// the same picture for the same language, another for another.
func TestServePictures(t *testing.T) {
	drawn := map[string][]byte{}
	for _, lang := range []string{"en", "es"} {
		w := grafted(t)
		w.says(w.wren, "set language "+lang)
		for text, of := range map[string]string{"/week@yardbell_bot": lang, "week": "en", "semana": "es"} {
			if text == "/week@yardbell_bot" && lang == "es" {
				w.says(w.ash, "mi idioma español")
			}
			got := w.says(w.ash, text)
			require.NotNil(t, got.File, got.Text)
			assert.True(t, got.File.Photo)
			assert.Equal(t, map[string]string{"en": "Thu 24 Apr to Wed 30 Apr. As text: due this week", "es": "Del jue 24 abr al mié 30 abr. En texto: pendiente esta semana"}[words(got.Text)], got.Text)
			of = words(got.Text)
			top := title(t, got.File.Data)
			if before := drawn[of]; before != nil {
				assert.True(t, bytes.Equal(before, top), "the title in %s is the same, whoever asks", of)
			}
			drawn[of] = top
		}
		assert.Empty(t, w.Violations())
	}
	require.Len(t, drawn, 2)
	assert.False(t, bytes.Equal(drawn["en"], drawn["es"]), "the title on the picture is in its language")
}

// title is the top of a picture, where its title stands; the line for now, which moves,
// begins below.
func title(t *testing.T, data []byte) (pixels []byte) {
	t.Helper()
	picture, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Greater(t, picture.Bounds().Dy(), 300)
	for y := range 60 {
		for x := range picture.Bounds().Dx() {
			r, _, _, _ := picture.At(x, y).RGBA()
			pixels = append(pixels, byte(r>>8))
		}
	}
	return pixels
}

// words tells the language of the words under a week.
func words(text string) string {
	if strings.HasPrefix(text, "Del ") {
		return "es"
	}
	return "en"
}

// The records come as a file to open, the sheets as two behind their words.
func TestServeRecords(t *testing.T) {
	w := grafted(t)
	got := w.says(w.wren, "report")
	require.NotNil(t, got.File)
	assert.Equal(t, "season-2031.html", got.File.Name)
	assert.False(t, got.File.Photo)
	assert.Contains(t, string(got.File.Data), "<title>Season 2031</title>")
	n := len(w.Sent(w.group))
	got = w.says(w.wren, "csv")
	assert.Nil(t, got.File)
	names := func() (list []string) {
		for _, m := range w.Sent(w.group)[n:] {
			if m.File != nil {
				list = append(list, m.File.Name)
			}
		}
		return list
	}
	w.await("both sheets", func() bool { return len(names()) == 2 })
	assert.Equal(t, []string{"rounds-2031.csv", "queens-2031.csv"}, names())
	got = w.says(w.wren, "calendar")
	require.NotNil(t, got.File)
	assert.Equal(t, "yardbell.ics", got.File.Name)
	assert.True(t, strings.HasPrefix(string(got.File.Data), "BEGIN:VCALENDAR\r\n"))
	assert.Empty(t, w.Violations())
}
