package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/store"
)

// setting reads one of the first crew's settings.
func (w *world) setting(key string) (value string) {
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		s, err := tx.Settings(crews[0].ID)
		if err == nil {
			value = s.Value(key)
		}
		return err
	})
	return value
}

// What the first buttons do, the words do as well: the same answer, the same setting,
// in every language there is.
func TestServeFirstWords(t *testing.T) {
	const zone = "America/Denver"
	plain := ""
	// The buttons' labels, and the words as a crew of the language types them: an answer
	// is in the language that its message is plainly in.
	words := map[string]struct{ label, language, zone string }{
		"en": {"English", "set language en", "set zone "},
		"es": {"Español", "ajustar idioma español", "ajustar zona "},
	}
	for _, lang := range wording.Languages {
		t.Run(lang, func(t *testing.T) {
			pressed, typed := newWorld(t, apidouble.Options{ReadsAll: true}), newWorld(t, apidouble.Options{ReadsAll: true})
			welcome := pressed.join()
			typed.join()
			w := words[lang]
			require.Contains(t, welcome.Labels(), w.label)
			press := func(label string) string {
				return pressed.answer(pressed.group, func() { pressed.Press(pressed.group, pressed.wren, welcome.ID, label) }).Text
			}
			assert.Equal(t, press(w.label), typed.says(typed.wren, w.language).Text)
			assert.Equal(t, lang, pressed.setting("language"))
			assert.Equal(t, lang, typed.setting("language"))
			said := typed.says(typed.wren, w.zone+zone).Text
			assert.Equal(t, press(zone), said)
			assert.Equal(t, zone, pressed.setting("zone"))
			assert.Equal(t, zone, typed.setting("zone"))
			assert.Contains(t, said, zone)
			if lang == "en" {
				plain = said
			} else {
				assert.NotEqual(t, plain, said, "the answer is in the crew's language")
			}
			// A slash and other cases are the same words.
			typed.says(typed.wren, "/set@yardbell_bot Zone America/Chicago")
			assert.Equal(t, "America/Chicago", typed.setting("zone"))
			// Neither is taken as it comes: what there is not, is asked back.
			n := len(typed.says(typed.wren, "set language xx").Buttons)
			assert.Zero(t, n)
			typed.says(typed.wren, "set zone Nowhere/Atall")
			assert.Equal(t, lang, typed.setting("language"))
			assert.Equal(t, "America/Chicago", typed.setting("zone"))
			// Only the lead's word counts.
			typed.says(typed.ash, "set zone "+zone)
			assert.Equal(t, "America/Chicago", typed.setting("zone"))
		})
	}
}
