package bot

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// A summary says first what is not logged, in the words that were written, then what is,
// with the figures of its echo; much of it is cut, and counted.
func TestSummaryWords(t *testing.T) {
	at := time.Date(2031, 4, 24, 13, 0, 0, 0, time.UTC)
	s := rules.DefaultSettings()
	entry := rules.Entry{Action: rules.Did, Step: rules.Rogue, Subject: rules.Subject{Kind: rules.BuilderKind, Key: "B1"}, Count: new(int)}
	few := store.Summary{Name: "Wren", Not: []string{"mvoed 34\nto North", "what now"}, Logged: []store.Told{
		{Text: "B2: fed today 08:00. Given: 1.5 l.\nand more", Entries: []rules.Entry{entry}},
		{Text: "B2: fed today 08:00. Given: 1.5 l.", Entries: []rules.Entry{entry}},
		{Text: "two things", Entries: []rules.Entry{entry, entry}},
	}}
	en, es := wording.In("en", s, at), wording.In("es", s, at)
	en.Room, es.Room = wording.ListUnits, wording.ListUnits
	line := en.Line(entry)
	assert.Equal(t, "Wren, one answer to 5 messages:\nNot logged, 2:\n- \"mvoed 34 to North\"\n- \"what now\"\nLogged, 4:\n- B2: fed today 08:00. Given: 1.5 l., 2 times\n- "+line+", 2 times", en.Summary(few, 5))
	assert.True(t, strings.HasPrefix(es.Summary(few, 5), "Wren, una respuesta a 5 mensajes:\nNo anotado, 2:\n"), es.Summary(few, 5))

	many := store.Summary{Name: "Wren"}
	for i := range 500 {
		many.Logged = append(many.Logged, store.Told{Text: fmt.Sprint(i, " ", strings.Repeat("long ", 30))})
		many.Not = append(many.Not, fmt.Sprint(i, strings.Repeat(" words", 40)))
	}
	text := en.Summary(many, 1000)
	assert.LessOrEqual(t, wording.Units(text), wording.ListUnits)
	assert.Contains(t, text, "Not logged, 500:")
	require.Contains(t, text, "Logged, 500:")
	assert.Contains(t, text, " more.")
}
