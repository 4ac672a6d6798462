package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/rules"
	"yardbell/store"
)

// idle waits until nothing is on its way and nothing is due.
func (w *world) idle() {
	w.t.Helper()
	w.settled()
	w.noted("that nothing is due", func() bool {
		return !slices.ContainsFunc(w.outbox(), func(m store.Message) bool {
			return m.State == "claimed" || m.State == "queued" && !m.Due.After(w.clock.Now())
		})
	})
}

// shownAt is when each message that the bot said in a chat stood there, by its number.
func (w *world) shownAt(chat int64) map[int64]apidouble.Sent {
	by := map[int64]apidouble.Sent{}
	for _, m := range w.Sent(chat) {
		by[int64(m.ID)] = m
	}
	return by
}

// One member reports every one and a half seconds for ten minutes: every ping that falls
// due goes within five seconds of its time, the group's limit is kept, and each report is
// in an answer.
func TestServePingsWhileOneReports(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "set zone America/Chicago")
	w.says(w.wren, "add breeder 7")
	for i := range 8 {
		w.clock.Advance(65 * time.Second)
		w.says(w.wren, fmt.Sprintf("add builder B%d", i+1))
		w.says(w.wren, fmt.Sprintf("graft 45 from 7 into B%d", i+1))
	}
	w.quit()
	// The first of the windows that close within ten minutes of each other.
	var first time.Time
	for _, m := range w.outbox() {
		if m.Ping == rules.Closing2 && m.State == "queued" && (first.IsZero() || m.Fire.Before(first)) {
			first = m.Fire
		}
	}
	w.clock.Set(first.Add(-30 * time.Second))
	w.serve()
	w.idle()
	for w.overdue() {
		w.pass(w.clock.Now().Add(time.Second))
		w.idle()
	}
	from, book := w.clock.Now(), len(w.book())
	n := 0
	for ; w.clock.Now().Before(from.Add(10 * time.Minute)); n++ {
		w.clock.Advance(1500 * time.Millisecond)
		w.Say(w.group, w.ash, fmt.Sprintf("fed B1 %d ml", 100+n))
		w.idle()
	}
	w.drained()
	at, pings := w.shownAt(w.group), 0
	for _, m := range w.outbox() {
		if m.Ping == "" || m.Edits != 0 || m.Fire.Before(from) || m.Fire.After(from.Add(10*time.Minute)) || m.State == "cancelled" {
			continue
		}
		pings++
		require.Equal(t, "sent", m.State, m.Key)
		late := at[m.Message].Date.Sub(m.Fire)
		assert.LessOrEqual(t, late, 5*time.Second, m.Key)
	}
	assert.GreaterOrEqual(t, pings, 6)
	assert.Len(t, w.book(), book+n, "every report is logged")
	covered := 0
	for _, m := range w.outbox() {
		if m.Update != 0 && m.State == "sent" && strings.HasPrefix(m.Text, "B1: fed") && at[m.Message].ID != 0 {
			covered++
		}
	}
	assert.Equal(t, n, covered, "and answered")
	assert.LessOrEqual(t, apidouble.Peak(w.SendTimes(w.group), time.Minute), 20)
	assert.Empty(t, w.TooFast())
	assert.Empty(t, w.Violations())
}

// overdue reports whether something waits past its time, held by a limit of the chat.
func (w *world) overdue() bool {
	return slices.ContainsFunc(w.outbox(), func(m store.Message) bool { return m.State == "queued" && m.Fire.Before(w.clock.Now()) })
}

// After the service was away: the pings that are overdue first, then what somebody asked,
// then one answer to each who reported, in which every line is.
func TestServeOrderAfterAnOutage(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "set zone America/Chicago")
	w.says(w.wren, "add breeder 7")
	w.says(w.wren, "add builder B1")
	w.says(w.wren, "graft 45 from 7 into B1")
	book := len(w.book())
	w.settled()
	w.quit()
	n := len(w.Sent(w.group))
	var fire time.Time
	for _, m := range w.outbox() {
		if m.Ping == rules.Eve && m.Step == rules.Finish {
			fire = m.Fire
		}
	}
	require.False(t, fire.IsZero())
	w.clock.Set(fire.Add(-30 * time.Minute))
	for i := range 120 {
		w.clock.Advance(15 * time.Second)
		w.Say(w.group, []int64{w.ash, w.odile}[i%2], fmt.Sprintf("fed B1 %d ml", 100+i))
	}
	w.Say(w.group, w.wren, "moved 40 to Nowhere")
	w.Say(w.group, w.wren, "due")
	w.clock.Advance(20 * time.Minute)
	w.serve()
	w.settled()
	w.drained()
	var said []string
	for _, m := range w.Sent(w.group)[n:] {
		said = append(said, m.Text)
	}
	place := func(part string) int {
		return slices.IndexFunc(said, func(s string) bool { return strings.Contains(s, part) })
	}
	ping, due, ash, odile := place("move to finisher, batch 1: 45 cells"), place("Nothing due today"), place("Ash, one answer to 60 messages:\nLogged, 60:"), place("Odile, one answer to 60 messages:")
	require.NotContains(t, []int{ping, due, ash, odile}, -1, "%q", said)
	assert.IsIncreasing(t, []int{ping, due, ash}, "%q", said)
	assert.Less(t, due, odile, "%q", said)
	assert.Zero(t, ping)
	assert.Len(t, said, 5, "and the question about what nobody can read: %q", said)
	assert.Len(t, w.book(), book+120)
	assert.Empty(t, w.TooFast())
	assert.Empty(t, w.Violations())
}

// While the chat of one crew hangs, another crew is answered: before the second message of
// the first crew has gone.
func TestServeCrewsDoNotWait(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "add builder B1")
	w.quit()
	w.serve("--join")
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	other := w.NewSupergroup("Creek", w.stranger)
	w.AddBot(other, w.stranger)
	w.answer(other, func() { w.Say(other, w.stranger, "/join@yardbell_bot "+code) })
	w.settled()
	n := len(w.Sent(w.group))
	hang := make(chan struct{})
	w.Script("sendMessage", apidouble.Slow(hang).InChat(w.group))
	for i := range 40 {
		w.Say(w.group, w.ash, fmt.Sprintf("fed B1 %d ml", 100+i))
	}
	w.await("the first to hang", func() bool { return w.FaultsLeft("sendMessage") == 0 })
	w.settled()
	got := w.answer(other, func() { w.Say(other, w.stranger, "due") })
	assert.Contains(t, got.Text, "due today")
	assert.Len(t, w.Sent(w.group), n, "none of the first crew's has gone yet")
	close(hang)
	w.drained()
	assert.Empty(t, w.Violations())
}
