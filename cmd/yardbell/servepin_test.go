package main

import (
	"bytes"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// morning lets the clock run to the morning of a day and gives the list that comes.
func (w *world) morning(day int) apidouble.Sent {
	w.t.Helper()
	n := len(w.Sent(w.group))
	w.pass(chicago(day, 6, 31))
	at := -1
	w.await("the morning's list", func() bool {
		for i, m := range w.Sent(w.group)[n:] {
			if strings.HasPrefix(m.Text, "Today, ") {
				at = n + i
			}
		}
		return at >= 0
	})
	got := w.Sent(w.group)[at]
	w.recorded(got.ID)
	w.stir()
	return got
}

// stir wakes the service with a remark that is not for it, now and after the limits.
func (w *world) stir() {
	w.t.Helper()
	for range 2 {
		w.settled()
		w.clock.Advance(breath)
		w.Say(w.group, w.ash, "what a day")
		w.settled()
	}
}

// row is the outbox row of a kind whose key begins so, once it has left the queue.
func (w *world) row(head string) (got store.Message) {
	w.t.Helper()
	w.noted("the end of "+head, func() bool {
		for _, m := range w.outbox() {
			if strings.HasPrefix(m.Key, head) && m.State != "queued" && m.State != "claimed" {
				got = m
				return true
			}
		}
		return false
	})
	return got
}

// asides waits until no pin or the like is left to be done, and lets the clock run to
// when one that waits is to be tried again. It gives what became of them.
func (w *world) asides(also func() bool) (states map[string]int) {
	w.t.Helper()
	looks := 0
	w.noted("what is done to messages", func() bool {
		states = map[string]int{}
		for _, m := range w.outbox() {
			if m.Aside() {
				states[m.State]++
				if m.State == "queued" && m.Due.After(w.clock.Now()) {
					w.clock.Set(m.Due)
				}
			}
		}
		if looks++; looks%50 == 0 {
			w.Say(w.group, w.ash, "what a day") // wakes the tick
		}
		return states["queued"]+states["claimed"] == 0 && also()
	})
	return states
}

func (w *world) rights() (r string) {
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		r = crews[0].Rights
		return err
	})
	return r
}

// Where the bot may pin, each morning's list is pinned without a sound, and the chat's
// notice of it is taken away again.
func TestServePins(t *testing.T) {
	w := grafted(t)
	assert.Equal(t, "member", w.rights(), "asked when the group was claimed")
	w.Promote(w.group, w.wren)
	w.settled()
	assert.Equal(t, "admin pin delete", w.rights())
	first := w.morning(25)
	assert.Equal(t, "sent", w.row("pin/2031-04-25").State)
	m, _ := w.Message(w.group, first.ID)
	assert.True(t, m.Pinned)
	pins := w.Requests("pinChatMessage")
	require.Len(t, pins, 1)
	assert.Equal(t, "true", pins[0].Params["disable_notification"])
	w.stir()
	assert.Equal(t, "sent", w.row("tidy/").State)
	assert.Zero(t, w.PinNotices(w.group))
	// The list is still changed in place as things get done; no second pin.
	w.says(w.wren, "accepted 38")
	w.stir()
	m, _ = w.Message(w.group, first.ID)
	assert.NotEmpty(t, m.History)
	assert.Len(t, w.Requests("pinChatMessage"), 1)
	// Nor after a restart.
	w.quit()
	w.serve()
	w.stir()
	assert.Len(t, w.Requests("pinChatMessage"), 1)
	// The crew does without.
	w.says(w.wren, "set pin off")
	next := w.morning(29)
	m, _ = w.Message(w.group, next.ID)
	assert.False(t, m.Pinned)
	assert.Empty(t, w.Violations())
	// Without the right nothing is asked for at all.
	w.says(w.wren, "set pin on")
	w.Demote(w.group, w.wren)
	w.settled()
	assert.Equal(t, "member", w.rights())
	w.morning(30)
	assert.Len(t, w.Requests("pinChatMessage"), 1)
}

// The chat refuses a pin: that is remembered, the pings go on, `check` and the crew hear
// nothing of it, and the next word of the chat about the right counts again.
func TestServePinRefused(t *testing.T) {
	w := grafted(t)
	w.Promote(w.group, w.wren)
	w.settled()
	w.Always("pinChatMessage", apidouble.Refuse(400, "Bad Request: not enough rights to manage pinned messages in the chat"))
	w.morning(25)
	got := w.row("pin/2031-04-25")
	assert.Equal(t, "dropped", got.State)
	assert.Contains(t, got.Reason, "not enough rights")
	w.noted("the refusal", func() bool { return w.rights() == "admin delete" })
	n := len(w.Sent(w.group))
	w.says(w.wren, "due")
	w.stir()
	assert.Len(t, w.Sent(w.group), n+1, "the answer to due and nothing about the pin")
	w.morning(26)
	assert.Len(t, w.Requests("pinChatMessage"), 1, "not tried again")
	assert.Zero(t, w.states()["failed"])
	w.ClearFaults()
	w.Demote(w.group, w.wren)
	w.Promote(w.group, w.wren, "can_pin_messages")
	w.settled()
	assert.Equal(t, "admin pin", w.rights())
	last := w.morning(29)
	w.row("pin/2031-04-29")
	m, _ := w.Message(w.group, last.ID)
	assert.True(t, m.Pinned)
	w.stir()
	assert.Empty(t, w.Requests("deleteMessage"), "the notice stays where it may not be deleted")
	assert.Equal(t, 1, w.PinNotices(w.group))
}

// Whatever goes wrong with a pin, it comes in the end where it can, the evening's ping
// is in time, and the token stays inside.
func TestServePinFaults(t *testing.T) {
	for name, f := range map[string]apidouble.Fault{
		"cut before": apidouble.CutBefore(), "cut after": apidouble.CutAfter(), "cut inside": apidouble.CutMidAnswer(),
		"page": apidouble.HTMLPage(502), "no JSON": apidouble.BadJSON(), "500": apidouble.ServerError(500), "429": apidouble.TooMany(30),
	} {
		t.Run(name, func(t *testing.T) {
			w := grafted(t)
			w.Promote(w.group, w.wren)
			w.settled()
			w.Script("pinChatMessage", f)
			w.Script("deleteMessage", f)
			list := w.morning(25)
			// One that took effect unheard is done again, and has a second notice.
			states := w.asides(func() bool {
				return w.Pending() == 0 && w.PinNotices(w.group) == 0 && w.FaultsLeft("pinChatMessage")+w.FaultsLeft("deleteMessage") == 0
			})
			assert.GreaterOrEqual(t, states["sent"], 2)
			m, _ := w.Message(w.group, list.ID)
			assert.True(t, m.Pinned)
			w.pass(chicago(25, 19, 1))
			assert.Empty(t, w.EarlyRetries())
			assert.Zero(t, w.states()["failed"])
			w.quit()
			w.assertSecret(name)
		})
	}
}

// A pin that the chat could not be asked for on its own day is dropped with it.
func TestServePinIsOfItsDay(t *testing.T) {
	w := grafted(t)
	w.Promote(w.group, w.wren)
	w.settled()
	w.Always("pinChatMessage", apidouble.ServerError(500))
	w.morning(25)
	w.await("a try", func() bool { return len(w.Requests("pinChatMessage")) > 0 })
	w.clock.Set(chicago(26, 1, 0))
	assert.Equal(t, map[string]int{"dropped": 1}, w.asides(func() bool { return true }))
	w.ClearFaults()
	assert.Zero(t, w.PinNotices(w.group))
}

// With privacy mode on an admin hears everything all the same; the welcome says so, and
// the group is told when it changes.
func TestServeHears(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	w.Promote(w.group, w.wren)
	assert.Contains(t, w.join().Text, "I hear every message here")
	w.says(w.ash, "add breeder 7") // no slash, no reply
	got := w.answer(w.group, func() { w.Demote(w.group, w.wren) })
	assert.Contains(t, got.Text, "I do not hear every message here any more")
	got = w.answer(w.group, func() { w.Promote(w.group, w.wren, "can_pin_messages") })
	assert.Contains(t, got.Text, "From now on I hear every message here")
	// Other rights change nothing of it, nor does the start.
	w.silence(func() { w.Promote(w.group, w.wren) })
	w.quit()
	w.serve()
	w.silence(func() {})
	// While the service was away for long the update is lost; the start asks.
	w.quit()
	w.Demote(w.group, w.wren)
	w.clock.Advance(25 * time.Hour)
	n := len(w.Sent(w.group))
	w.serve()
	w.await("what changed", func() bool {
		list := w.Sent(w.group)
		return len(list) > n && strings.Contains(list[len(list)-1].Text, "I do not hear every message here any more")
	})
	w.quit()
	var out, errOut bytes.Buffer
	require.Equal(t, 0, run(t.Context(), []string{"check", "--db", w.db}, w.env(&out, &errOut)), errOut.String())
	assert.Contains(t, out.String(), "crew 1: the bot is a plain member, hears what is meant for it")
	assert.Empty(t, w.Violations())
}

// Privacy mode switched off, and the bot added anew: it hears all from then on and says
// so, without a restart.
func TestServePrivacySwitched(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	assert.Contains(t, w.join().Text, "privacy mode is on")
	w.settled()
	w.SetPrivacy(false)
	w.Kick(w.group, w.wren)
	got := w.answer(w.group, func() { w.AddBot(w.group, w.wren) })
	assert.Contains(t, got.Text, "From now on I hear every message here")
	w.says(w.ash, "add breeder 7")
}

// A stranger who tries codes in a group of their own has the bot ask about itself there,
// and gets nothing.
func TestServeStrangerAsAdmin(t *testing.T) {
	w := grafted(t)
	elsewhere := w.NewSupergroup("Elsewhere", w.stranger)
	w.AddBot(elsewhere, w.stranger)
	w.Promote(elsewhere, w.stranger)
	w.silence(func() {
		w.Say(elsewhere, w.stranger, "/join AAAA-AAAA")
		w.Demote(elsewhere, w.stranger)
		w.Promote(elsewhere, w.stranger)
	})
	for _, r := range w.Requests() {
		if r.Params["chat_id"] == strconv.FormatInt(elsewhere, 10) {
			assert.Equal(t, "getChatMember", r.Method)
		}
	}
	assert.Empty(t, w.Sent(elsewhere))
}
