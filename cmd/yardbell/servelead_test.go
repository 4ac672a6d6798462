package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// kept counts the notes that wait for a lead.
func (w *world) kept() (n int) {
	w.look(func(tx *store.Tx) (err error) {
		n, err = tx.CountNotes()
		return err
	})
	return n
}

// inPrivate has somebody write to the bot alone, so that it may write to them.
func (w *world) inPrivate(who int64) {
	w.t.Helper()
	w.answer(who, func() { w.Say(who, who, "due") })
}

// The lead, who has a private chat with the bot, is told there that it was put out;
// nobody else is.
func TestServeTellsOfBeingPutOut(t *testing.T) {
	w := grafted(t)
	w.says(w.ash, "due")
	w.inPrivate(w.wren)
	w.inPrivate(w.ash)
	ash := len(w.Sent(w.ash))
	got := w.answer(w.wren, func() { w.Kick(w.group, w.wren) })
	assert.Contains(t, got.Text, "I was removed from your crew's group")
	assert.Len(t, w.Sent(w.ash), ash)
	w.AddBot(w.group, w.wren)
	w.settled()
	// A second time is told of as well.
	got = w.answer(w.wren, func() { w.Kick(w.group, w.wren) })
	assert.Contains(t, got.Text, "I was removed from your crew's group")
	assert.Zero(t, w.kept())
	assert.Empty(t, w.Violations())
}

// Without a private chat it is kept until the lead writes there, also across a restart,
// and says when it was.
func TestServeKeepsForTheLead(t *testing.T) {
	w := grafted(t)
	w.Kick(w.group, w.wren)
	w.settled()
	assert.Equal(t, 1, w.kept())
	assert.Empty(t, w.Sent(w.wren))
	w.quit()
	var out, errOut bytes.Buffer
	require.Equal(t, 0, run(t.Context(), []string{"check", "--db", w.db}, w.env(&out, &errOut)), errOut.String())
	assert.Contains(t, out.String(), "1 notes wait for a lead to write to the bot in private")
	assert.Contains(t, out.String(), "crew 1: the bot is not in the group any more")
	w.clock.Advance(50 * time.Hour)
	w.serve()
	w.settled()
	w.Say(w.wren, w.wren, "due")
	w.await("the note and the answer", func() bool { return len(w.Sent(w.wren)) == 2 })
	all := w.Sent(w.wren)[0].Text + "\n" + w.Sent(w.wren)[1].Text
	assert.Contains(t, all, "Thu 24 Apr 08:")
	assert.Contains(t, all, "I was removed from your crew's group")
	assert.Contains(t, all, "batch 1")
	assert.Zero(t, w.kept())
	w.inPrivate(w.wren)
	assert.Len(t, w.Sent(w.wren), 3, "it is told once")
}

// Muted, the lead is told in private, once a day; told by an update or by a refusal.
func TestServeTellsOfBeingMuted(t *testing.T) {
	for _, basic := range []bool{false, true} {
		w := newWorld(t, apidouble.Options{ReadsAll: true})
		if basic { // no update tells there
			w.group = w.NewGroup("Yard", w.wren, w.ash)
			w.AddBot(w.group, w.wren)
		}
		w.join()
		w.inPrivate(w.wren)
		got := w.answer(w.wren, func() {
			w.Mute(w.group, w.wren)
			if basic {
				w.Say(w.group, w.ash, "due")
			}
		})
		assert.Contains(t, got.Text, "I may not write in your crew's group")
		n := len(w.Sent(w.wren))
		w.Unmute(w.group, w.wren)
		w.settled()
		w.Mute(w.group, w.wren)
		w.Say(w.group, w.ash, "due")
		w.stir()
		assert.Len(t, w.Sent(w.wren), n, "once a day")
	}
}

// A message that the group refuses for good is told to the lead as well, once a day.
func TestServeTellsOfTheParked(t *testing.T) {
	w := grafted(t)
	w.inPrivate(w.wren)
	for i := range 2 {
		w.Script("sendMessage", apidouble.Refuse(400, "Bad Request: message is not to our taste").InChat(w.group))
		n := len(w.Sent(w.group))
		w.Say(w.group, w.wren, "due")
		w.await("the notice", func() bool { return len(w.Sent(w.group)) > n })
		w.settled()
		w.await("the note", func() bool { return len(w.Sent(w.wren)) == 2 })
		assert.Contains(t, w.Sent(w.wren)[1].Text, "refused a message of mine for good")
		w.noted("the refusal", func() bool { return w.states()["failed"] == i+1 })
		w.clock.Advance(breath)
	}
	assert.Len(t, w.Sent(w.wren), 2)
}

// Another process reads the same updates while the group cannot be written: the lead is
// told; one whose group can is not told twice.
func TestServeTellsOfATwin(t *testing.T) {
	w := grafted(t)
	w.inPrivate(w.wren)
	w.Mute(w.group, w.wren)
	w.settled()
	w.await("the note of the muting", func() bool { return len(w.Sent(w.wren)) == 2 })
	n := len(w.Sent(w.group))
	for range 2 { // once a day
		w.Script("getUpdates", apidouble.OtherInstance(), apidouble.OtherInstance())
		w.clock.Advance(time.Minute) // ends the poll that waits
		w.await("the faults", func() bool { return w.FaultsLeft("getUpdates") == 0 })
		w.await("the warning", func() bool { return len(w.Sent(w.wren)) == 3 })
		w.settled()
	}
	assert.Contains(t, w.Sent(w.wren)[2].Text, "another program reads this bot's messages")
	assert.Len(t, w.Sent(w.wren), 3)
	assert.Len(t, w.Sent(w.group), n)
}

// A lead who has blocked the bot is told on coming back, and the refusal is no matter of
// the crew's.
func TestServeLeadBlocks(t *testing.T) {
	for _, told := range []bool{true, false} {
		w := grafted(t)
		w.inPrivate(w.wren)
		if told {
			w.Block(w.wren)
			w.settled()
			w.Kick(w.group, w.wren)
			w.settled()
		} else {
			w.Script("sendMessage", apidouble.Refuse(403, "Forbidden: bot was blocked by the user").InChat(w.wren))
			w.Kick(w.group, w.wren)
			w.await("the refusal", func() bool { return w.FaultsLeft("sendMessage") == 0 })
		}
		w.noted("that the note is kept", func() bool { return w.kept() == 1 })
		n := len(w.Sent(w.wren))
		if told {
			w.answer(w.wren, func() { w.Unblock(w.wren) })
		} else {
			w.Say(w.wren, w.wren, "due")
		}
		w.await("the note", func() bool {
			return slices.ContainsFunc(w.Sent(w.wren)[n:], func(m apidouble.Sent) bool { return strings.Contains(m.Text, "I was removed from") })
		})
		assert.Zero(t, w.kept())
		assert.Equal(t, "gone", w.standing(), "the private chat says nothing of the group")
	}
}

// Where the lead is handed over, what is kept goes to the new one.
func TestServeTellsTheNewLead(t *testing.T) {
	w := grafted(t)
	w.says(w.ash, "due")
	w.inPrivate(w.ash)
	n := len(w.Sent(w.group))
	w.Script("sendMessage", apidouble.Refuse(400, "Bad Request: message is not to our taste").InChat(w.group))
	w.Say(w.group, w.wren, "due")
	w.await("the notice", func() bool { return len(w.Sent(w.group)) > n })
	w.noted("that a note is kept", func() bool { return w.kept() == 1 })
	got := w.answer(w.ash, func() { w.Say(w.group, w.wren, "make Ash lead") })
	assert.Contains(t, got.Text, "refused a message of mine for good")
}
