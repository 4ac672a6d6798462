package main

import (
	"bytes"
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/store"
)

// signConsole plays lines. What names a builder beside a word that nobody knows gets the sign.
func signConsole(t *testing.T, lines string, args ...string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	e := testEnv(lines, &out, &errOut)
	all := append([]string{"console", "--db", filepath.Join(t.TempDir(), "crew.db"), "--zone", "America/Chicago", "--now", "2031-05-05 08:00"}, args...)
	require.Equal(t, 0, run(context.Background(), all, e), errOut.String())
	return out.String()
}

const signScript = `Ash: add breeder 7 and builder B1
Wren: flurbed the B1
Wren ~: confine 7 red
Wren: flurbed B1 a bit
Ash >>: hello there
Wren >>: why?
@ 2031-05-05 19:00
Ash *: 1. flurbed B1 a bit
`

// The console shows the sign as a line of its own, without a number and without words in
// the protocol; what became of the message follows as ever.
func TestConsoleShowsTheSign(t *testing.T) {
	out := signConsole(t, signScript)
	assert.Equal(t, 2, strings.Count(out, "🤔 [seen, not logged]\n\n"), out)
	assert.Contains(t, out, "Seen, not logged:\n1. Wren today 08:00: \"flurbed B1 a bit\"\n")
	assert.Equal(t, 2, strings.Count(out, "\n\"flurbed B1 a bit\"\n"), "explained to the reply and to the press: %s", out)
	assert.Contains(t, signConsole(t, "Wren: agregar criadora B1\nWren: flurbar en la B1 otra vez\n", "--lang", "es"), "🤔 [visto, no anotado]\n")

	var signs int
	for _, l := range strings.Split(strings.TrimSpace(signConsole(t, signScript, "--json")), "\n") {
		var m message
		require.NoError(t, json.Unmarshal([]byte(l), &m), l)
		if m.Kind != "notice" {
			assert.NotZero(t, m.N, l)
			continue
		}
		signs++
		assert.Contains(t, []int{2, 4}, m.Line, l)
		assert.Zero(t, m.N)
		assert.Empty(t, m.Text)
		assert.Empty(t, m.Buttons)
		assert.Empty(t, m.Logged)
		assert.Nil(t, m.Ping)
	}
	assert.Equal(t, 2, signs)
}

func TestScriptLinesOfTheSign(t *testing.T) {
	for line, want := range map[string]scriptLine{
		"Wren >>: why?": {kind: beneathLine, who: "Wren", text: "why?"},
		"Wren >: ok":    {kind: replyLine, who: "Wren", text: "ok"},
		"Wren >12: ok":  {kind: replyLine, who: "Wren", text: "ok", number: 12},
		"Wren +: 👍":     {kind: thumbLine, who: "Wren", text: "👍"},
		"Wren +12: 👍🏽":  {kind: thumbLine, who: "Wren", text: "👍🏽", number: 12},
		"Wren ~: graft": {kind: editLine, who: "Wren", text: "graft"},
	} {
		got, err := parseLine(line)
		require.NoError(t, err, line)
		assert.Equal(t, want, got, line)
	}
	_, err := parseLine("Wren +: 👎")
	assert.Error(t, err)
}

// signWorld is a group with a builder: what names it beside a word that nobody knows gets the sign.
func signWorld(t *testing.T) *world {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "set zone America/Chicago")
	w.says(w.wren, "add breeder 7")
	w.says(w.wren, "add builder B1")
	return w
}

// In the chat the sign is a reaction on the person's own message. It goes when the message
// is changed into what can be logged; a reply to it tells why; the evening lists what is left.
func TestServeSigns(t *testing.T) {
	w := signWorld(t)
	said := len(w.Sent(w.group))
	w.clock.Advance(breath)
	first, second := w.Say(w.group, w.ash, "flurbed the B1"), 0
	w.await("the sign", func() bool { return len(w.Reactions(w.group, first)) == 1 })
	assert.Equal(t, []string{wording.SeenSign}, w.Reactions(w.group, first))
	w.settled()
	assert.Len(t, w.Sent(w.group), said, "nothing is said")

	got := w.answer(w.group, func() { w.Edit(w.group, w.ash, first, "confine 7 red") })
	assert.Contains(t, got.Text, "confined")
	w.stir()
	w.await("the sign to go", func() bool { return len(w.Reactions(w.group, first)) == 0 })

	w.settled()
	w.clock.Advance(breath)
	second = w.Say(w.group, w.ash, "flurbed B1 a bit")
	w.await("the sign", func() bool { return len(w.Reactions(w.group, second)) == 1 })
	got = w.says(w.odile, "huh?", apidouble.ReplyTo(second))
	assert.True(t, strings.HasPrefix(got.Text, "\"flurbed B1 a bit\"\n"), got.Text)
	assert.Contains(t, got.Text, "Nothing logged")

	list := w.row("sign/")
	assert.Equal(t, "sent", list.State)
	said = len(w.Sent(w.group))
	w.pass(w.seenDue())
	var seen apidouble.Sent
	w.await("the list of the evening", func() bool {
		for _, m := range w.Sent(w.group)[said:] {
			if strings.HasPrefix(m.Text, "Seen, not logged:") {
				seen = m
			}
		}
		return seen.ID != 0
	})
	assert.Contains(t, seen.Text, "flurbed B1 a bit")
	assert.NotContains(t, seen.Text, "flurbed the B1")
	w.recorded(seen.ID)
	got = w.answer(w.group, func() { w.Press(w.group, w.odile, seen.ID, seen.Labels()[0]) })
	assert.True(t, strings.HasPrefix(got.Text, "\"flurbed B1 a bit\"\n"), got.Text)
	assert.Empty(t, w.Violations())
}

// seenDue is when the list of the evening is due.
func (w *world) seenDue() (at time.Time) {
	for _, m := range w.outbox() {
		if m.Ping == store.Seen {
			at = m.Due
		}
	}
	return at
}

// Where the group has no reactions nothing changes: the sign is dropped and not parked, the
// crew hears nothing of it, and the evening lists the message all the same.
func TestServeSignRefused(t *testing.T) {
	for _, no := range []func(*world){
		func(w *world) { w.NoReactions(w.group) },
		func(w *world) { w.Always("setMessageReaction", apidouble.Refuse(403, "Forbidden: not enough rights")) },
	} {
		w := signWorld(t)
		no(w)
		said := len(w.Sent(w.group))
		w.clock.Advance(breath)
		m := w.Say(w.group, w.ash, "flurbed the B1")
		w.settled()
		assert.Equal(t, "dropped", w.row("sign/").State)
		assert.Empty(t, w.Reactions(w.group, m))
		assert.Len(t, w.Sent(w.group), said)
		w.look(func(tx *store.Tx) error {
			crews, err := tx.Crews()
			assert.Equal(t, "open", crews[0].Standing)
			return err
		})
		w.pass(w.seenDue())
		w.await("the list of the evening", func() bool {
			list := w.Sent(w.group)
			return strings.HasPrefix(list[len(list)-1].Text, "Seen, not logged:")
		})
	}
}

// A thumb on a ping reaches a bot that is an administrator, and is answered once.
func TestServeThumb(t *testing.T) {
	w := grafted(t)
	w.Promote(w.group, w.wren)
	w.settled()
	var ping store.Message
	for ping.Message == 0 {
		w.clock.Advance(6 * time.Hour)
		w.stir()
		for _, m := range w.outbox() {
			if m.Kind == "ping" && m.TaskKey != "" && m.State == "sent" {
				ping = m
			}
		}
	}
	lines := len(w.book())
	got := w.answer(w.group, func() { w.React(w.group, w.ash, int(ping.Message), "👍") })
	assert.Equal(t, []string{"I'm on it", "Done"}, got.Labels())
	assert.Equal(t, int(ping.Message), got.ReplyTo)
	assert.Len(t, w.book(), lines, "nothing is logged")
	w.silence(func() { w.React(w.group, w.odile, int(ping.Message), "👍") })
	w.answer(w.group, func() { w.Press(w.group, w.ash, got.ID, "I'm on it") })
	assert.Contains(t, strings.Join(w.book(), "\n"), "mine ")
	assert.Empty(t, w.Violations())
}
