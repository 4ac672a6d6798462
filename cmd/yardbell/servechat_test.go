package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

func (w *world) standing() (state string) {
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		state = crews[0].Standing
		return err
	})
	return state
}

// states counts the messages of the outbox by their state.
func (w *world) states() map[string]int {
	n := map[string]int{}
	for _, m := range w.outbox() {
		n[m.State]++
	}
	return n
}

// Put out of the group, the bot sends nothing more there; let in again, it goes on.
func TestServeKicked(t *testing.T) {
	w := grafted(t)
	w.settled()
	w.Kick(w.group, w.wren)
	w.settled()
	assert.Equal(t, "gone", w.standing())
	n := len(w.Requests("sendMessage"))
	w.clock.Set(chicago(24, 19, 1))
	private := w.NewUser("Ines", "")
	w.Say(private, private, "wakes nobody")
	w.settled()
	w.quit()
	w.serve() // the tick at the start looks at everything that is due
	w.noted("that the ping is parked", func() bool { return w.states()["failed"] > 0 })
	w.quit()
	assert.Len(t, w.Requests("sendMessage"), n)
	w.serve()
	w.AddBot(w.group, w.wren)
	w.settled()
	assert.Equal(t, "open", w.standing())
	w.says(w.wren, "due")
}

// Nothing told the bot that it is out; the first send does.
func TestServeFindsItselfOut(t *testing.T) {
	w := grafted(t)
	w.settled()
	w.Script("sendMessage", apidouble.Refuse(403, "Forbidden: bot was kicked from the supergroup chat"))
	n := len(w.Sent(w.group))
	w.Say(w.group, w.wren, "due")
	w.settled()
	w.await("the refusal", func() bool { return w.FaultsLeft("sendMessage") == 0 })
	w.noted("that the answer is parked", func() bool { return w.states()["failed"] > 0 })
	w.quit()
	assert.Equal(t, "gone", w.standing())
	w.serve()
	w.says(w.wren, "due") // somebody writes there: it is in after all
	assert.Equal(t, "open", w.standing())
	assert.Len(t, w.Sent(w.group), n+1)
}

// Muted, what is due waits, and comes once the bot may write again.
func TestServeMuted(t *testing.T) {
	w := grafted(t)
	w.settled()
	w.Mute(w.group, w.wren)
	w.settled()
	assert.Equal(t, "muted", w.standing())
	n := len(w.Sent(w.group))
	w.Say(w.group, w.wren, "due")
	w.pass(chicago(24, 19, 1))
	assert.Len(t, w.Sent(w.group), n)
	w.Unmute(w.group, w.wren)
	w.settled()
	w.pass(chicago(24, 19, 10))
	w.await("what waited", func() bool { return len(w.Sent(w.group)) >= n+2 })
	assert.Zero(t, w.states()["failed"])
}

// In a basic group nobody tells the bot that it may only read; what it cannot say
// waits all the same.
func TestServeMutedUntold(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.group = w.NewGroup("Yard", w.wren, w.ash)
	w.AddBot(w.group, w.wren)
	w.join()
	w.settled()
	w.Mute(w.group, w.wren)
	n, tried := len(w.Sent(w.group)), len(w.Requests("sendMessage"))
	w.Say(w.group, w.wren, "due")
	w.await("the refusal", func() bool { return len(w.Requests("sendMessage")) > tried })
	w.settled()
	w.Unmute(w.group, w.wren)
	// The record of the refusal may come after the clock has moved; then it waits from
	// there, and the clock has to move once more.
	w.later("what waited", 6*time.Minute, func() bool { return len(w.Sent(w.group)) > n })
	assert.Zero(t, w.states()["failed"])
}

// The group becomes a supergroup, and the service message says so.
func TestServeMigrates(t *testing.T) {
	for _, told := range []bool{true, false} {
		w := newWorld(t, apidouble.Options{ReadsAll: true})
		w.group = w.NewGroup("Yard", w.wren, w.ash)
		w.AddBot(w.group, w.wren)
		w.join()
		for _, text := range []string{"set zone America/Chicago", "add breeder 7", "add builder B2"} {
			w.says(w.wren, text)
		}
		first := 0
		w.answer(w.group, func() { first = w.Say(w.group, w.wren, "graft 45 from 7 into B2") })
		book := w.book()
		w.settled()
		if !told {
			// The service messages are lost with an outage of more than a day; the next
			// send learns it from its refusal.
			w.quit()
		}
		old := w.group
		w.group = w.Migrate(old, w.wren)
		if !told {
			w.clock.Advance(25 * time.Hour)
			w.serve()
			w.await("what was due", func() bool { return len(w.Sent(w.group)) > 0 })
		}
		w.settled()
		got := w.says(w.ash, "add breeder 9")
		assert.Contains(t, got.Text, "9")
		assert.Len(t, w.book(), len(book)+1, "the crew and its log came along")
		// The new chat counts its messages anew: one with an old number is not the old.
		for w.Say(w.group, w.ash, "what a day") < first {
			w.settled()
		}
		w.Edit(w.group, w.ash, first, "graft 12 from 7 into B2")
		w.settled()
		assert.NotContains(t, w.book(), "amend graft batch 1 12 Wren")
		assert.NotContains(t, w.book(), "amend graft batch 1 12 Ash")
		w.look(func(tx *store.Tx) error {
			crews, err := tx.Crews()
			require.Len(t, crews, 1)
			assert.Equal(t, w.group, crews[0].Chat)
			return err
		})
		assert.Empty(t, w.Violations())
	}
}

// A message that the chat refuses for good is parked, and the crew is told once.
func TestServeParked(t *testing.T) {
	w := grafted(t)
	w.settled()
	n := len(w.Sent(w.group))
	w.Script("sendMessage", apidouble.Refuse(400, "Bad Request: message is not to our taste"))
	w.Say(w.group, w.wren, "due")
	w.await("the notice", func() bool { return len(w.Sent(w.group)) > n })
	last, _ := w.LastSent(w.group)
	assert.Contains(t, last.Text, "refused a message of mine for good")
	w.says(w.wren, "due")
	assert.Equal(t, 1, w.states()["failed"])
	w.look(func(tx *store.Tx) error {
		list, err := tx.FailedMessages(10)
		require.Len(t, list, 1)
		assert.Contains(t, list[0].Reason, "not to our taste")
		return err
	})
	// `check` shows it, and counts what could not be read.
	w.Poison()
	w.settled()
	w.quit()
	var out, errOut bytes.Buffer
	require.Equal(t, 0, run(t.Context(), []string{"check", "--db", w.db}, w.env(&out, &errOut)), errOut.String())
	assert.Contains(t, out.String(), "not sent, crew 1, reply due 2031-04-24")
	assert.Contains(t, out.String(), "not to our taste")
	assert.Contains(t, out.String(), "1 updates of the chat could not be read")
}

// Asked to wait, the bot does, to the letter.
func TestServeRetryAfter(t *testing.T) {
	w := grafted(t)
	w.settled()
	n := len(w.Sent(w.group))
	w.Script("sendMessage", apidouble.TooMany(40))
	w.Say(w.group, w.wren, "due")
	w.await("the refusal", func() bool { return w.FaultsLeft("sendMessage") == 0 })
	w.later("the answer", 7*time.Second, func() bool { return len(w.Sent(w.group)) > n })
	assert.Empty(t, w.EarlyRetries())
	assert.Len(t, w.Sent(w.group), n+1)
}

// Every way for a send to fail halfway ends with the answer in the chat.
func TestServeUncertainSends(t *testing.T) {
	for name, f := range map[string]apidouble.Fault{
		"cut before": apidouble.CutBefore(), "cut after": apidouble.CutAfter(), "cut inside": apidouble.CutMidAnswer(),
		"page": apidouble.HTMLPage(502), "no JSON": apidouble.BadJSON(), "500": apidouble.ServerError(500),
	} {
		t.Run(name, func(t *testing.T) {
			w := hearing(t)
			w.settled()
			w.Script("sendMessage", f)
			w.Say(w.group, w.wren, "add breeder 7")
			w.await("the fault", func() bool { return w.FaultsLeft("sendMessage") == 0 })
			// The clock moves only once the failure is on record: a reply that is tried
			// again hours later is not worth sending.
			w.noted("the failed attempt", func() bool { return strings.Contains(w.err.String(), "trying again") })
			w.later("the answer", 7*time.Second, func() bool {
				for _, m := range w.outbox() {
					if m.State != "sent" && m.Kind == "reply" {
						return false
					}
				}
				return true
			})
			assert.Equal(t, []string{"did add breeder 7 Wren"}, w.book())
			last, _ := w.LastSent(w.group)
			assert.Contains(t, last.Text, "reeder 7")
		})
	}
}
