package bot

import (
	"context"
	"io"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/conversation"
	"yardbell/rules"
	"yardbell/store"
)

// gathering is a crew's chat as the bot hears it and what is queued for it.
type gathering struct {
	t   *testing.T
	db  *store.DB
	b   *Bot
	now time.Time
	id  int64

	answered int64 // the newest update that was answered
}

func newGroup(t *testing.T, first map[string]string) *gathering {
	t.Helper()
	db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "crew.db"), store.Options{Table: rules.DefaultTable()})
	require.NoError(t, err)
	t.Cleanup(func() { _ = db.Close() })
	g := &gathering{t: t, db: db, now: time.Date(2031, 5, 5, 12, 0, 0, 0, time.UTC)}
	g.b = New(db, func() {}, slog.New(slog.NewTextHandler(io.Discard, nil)), first)
	return g
}

// says hands a message in and gives the answer to it, with its buttons.
func (g *gathering) says(who, text string) (string, []store.Button) { return g.hands(who, text, false) }

func (g *gathering) hands(who, text string, private bool) (answer string, buttons []store.Button) {
	g.t.Helper()
	g.id++
	in := Incoming{Source: "test", UpdateID: g.id, Chat: 1, UserKey: who, UserName: who, Said: g.now, Kind: "message", Message: g.id, Text: text, Private: private}
	if private {
		in.Chat = 2
	}
	require.NoError(g.t, g.b.Handle(context.Background(), g.now, in))
	newest := int64(0)
	g.look(func(tx *store.Tx, crew int64) error {
		list, err := tx.Outbox(crew)
		for _, m := range list {
			if m.Update > newest {
				newest, answer, buttons = m.Update, m.Text, m.Buttons
			}
		}
		return err
	})
	require.Greater(g.t, newest, g.answered, "no answer to %q", text)
	g.answered = newest
	return answer, buttons
}

func (g *gathering) look(see func(tx *store.Tx, crew int64) error) {
	g.t.Helper()
	require.NoError(g.t, g.db.View(context.Background(), g.now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		return see(tx, crews[0].ID)
	}))
}

func (g *gathering) own() (own map[int64]string) {
	g.look(func(tx *store.Tx, crew int64) error {
		s, err := tx.Settings(crew)
		own = s.Own
		return err
	})
	return own
}

// Everybody has a language of their own or none; it is a line of the log, may be
// said in private, and taken back.
func TestOwnLanguage(t *testing.T) {
	g := newGroup(t, map[string]string{"zone": "America/Chicago"})
	text, _ := g.says("Ash", "due")
	assert.Contains(t, text, "Nothing due today")
	text, _ = g.says("Ash", "mi idioma español")
	assert.Contains(t, text, "Ash: le contesto en español")
	text, _ = g.says("Ash", "due")
	assert.Contains(t, text, "Hoy no hay nada pendiente")
	text, _ = g.says("Wren", "due")
	assert.Contains(t, text, "Nothing due today", "Wren chose nothing")
	text, _ = g.says("Wren", "undo")
	assert.Contains(t, text, "nothing in the log", "what Ash chose is not Wren's to take back")
	assert.Len(t, g.own(), 1)
	text, _ = g.says("Ash", "undo")
	assert.Contains(t, text, "Undone: setting my language es")
	assert.Empty(t, g.own())
	text, _ = g.hands("Ash", "my language es", true)
	assert.Contains(t, text, "contesto en español")
	text, _ = g.hands("Ash", "due", true)
	assert.Contains(t, text, "Hoy no hay nada pendiente")
	text, _ = g.says("Ash", "my language off")
	assert.Contains(t, text, "no language of your own")
	assert.Empty(t, g.own())
	text, _ = g.says("Ash", "/my language klingon")
	assert.Contains(t, text, `"klingon" is no language spoken here`)
}

// A crew that starts in Spanish is answered so, and one in both starts with its
// first.
func TestFirstLanguage(t *testing.T) {
	for first, want := range map[string]string{"es": "Hoy no hay nada pendiente", "es+en": "Hoy no hay nada pendiente", "en+es": "Nothing due today", "both": "Nothing due today", "": "Nothing due today"} {
		settings := map[string]string{}
		if first != "" {
			settings["language"] = first
		}
		text, _ := newGroup(t, settings).says("Ash", "due")
		assert.Contains(t, text, want, first)
	}
}

// The sender's own language comes first, then that of the message, then the crew's.
func TestOrderOfLanguages(t *testing.T) {
	for _, c := range []struct{ own, written, crew, want string }{
		{"", "", "en", "en"}, {"", "", "es", "es"}, {"", "", "es+en", "es"}, {"", "", "en+es", "en"},
		{"", "es", "en", "es"}, {"", "en", "es", "en"}, {"", "en", "es+en", "en"}, {"", "fr", "es", "es"},
		{"es", "en", "en", "es"}, {"en", "es", "es+en", "en"}, {"es", "", "en", "es"},
	} {
		s := rules.DefaultSettings()
		s.Lang = c.crew
		if c.own != "" {
			s.Own = map[int64]string{3: c.own, 4: "xx"}
		}
		sc := &conversation.Scene{Look: &store.Tx{}, Settings: s, Member: store.Member{ID: 3}}
		assert.Equal(t, c.want, sc.Speaking(c.written).Voice.Lang, "%+v", c)
	}
}

// The first questions of a group offer each language and both.
func TestWelcomeOffersLanguages(t *testing.T) {
	s := rules.DefaultSettings()
	s.Lang = "es+en"
	welcome := (&conversation.Scene{Look: &store.Tx{}, Settings: s, By: store.Member{Name: "Ash"}}).Welcome()
	require.Len(t, welcome.Lines, 1)
	assert.Regexp(t, `(?s)^Desde ahora llevo.*\n\nI keep`, welcome.Lines[0])
	var labels, does []string
	for _, b := range welcome.Buttons[len(welcome.Buttons)-3:] {
		labels, does = append(labels, b.Label), append(does, b.Do)
	}
	assert.Equal(t, []string{"English", "Español", "English + Español"}, labels)
	assert.Equal(t, []string{"set|language|en", "set|language|es", "set|language|en+es"}, does)
}
