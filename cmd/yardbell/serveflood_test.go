package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// flooded writes many messages while the service is away, which are then read at once;
// it gives what the bot said to them.
func (w *world) flooded(write func()) (said []string) {
	w.t.Helper()
	w.settled()
	w.quit()
	n := len(w.Sent(w.group))
	write()
	w.serve()
	w.settled()
	w.drained()
	for _, m := range w.Sent(w.group)[n:] {
		said = append(said, m.Text)
	}
	return said
}

// drained lets the clock run until the chat has taken all answers.
func (w *world) drained() {
	w.t.Helper()
	w.settled()
	late, again := time.After(bound), time.NewTicker(5*time.Millisecond)
	defer again.Stop()
	for w.unsent() > 0 {
		w.pass(w.clock.Now().Add(10 * time.Second))
		select {
		case <-again.C:
		case <-late:
			for _, m := range w.outbox() {
				if m.State == "queued" && m.Update != 0 {
					w.t.Log(m.ID, m.Kind, m.Due, w.clock.Now(), m.Attempt, m.Reason)
				}
			}
			require.FailNow(w.t, "answers stay", "%d of them", w.unsent())
		}
	}
}

// unsent counts answers that wait.
func (w *world) unsent() (n int) {
	for _, m := range w.outbox() {
		if m.Update != 0 && (m.State == "queued" || m.State == "claimed") {
			n++
		}
	}
	return n
}

func matching(said []string, part string) (n int) {
	for _, s := range said {
		if strings.Contains(s, part) {
			n++
		}
	}
	return n
}

// Whoever asks without end is answered to a point, told once, and heard again after a
// pause. The same question asked again and again is answered once; what is reported
// meanwhile is logged and answered together; others notice nothing.
func TestServeFloodOfQuestions(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "add builder B2")
	w.says(w.wren, "add breeder 7")
	book := len(w.book())
	said := w.flooded(func() {
		for i := range 150 {
			w.Say(w.group, w.ash, []string{"due", "week", "/nonsense to you", "plan 100 queens by 20 August", "log"}[i%5])
			if i%15 == 14 {
				w.Say(w.group, w.ash, fmt.Sprintf("fed B2 %d ml", 100+i))
			}
		}
		w.Say(w.group, w.odile, "due")
	})
	assert.Equal(t, 1, matching(said, "That is a lot at once, Ash."), "told once")
	assert.Contains(t, strings.Join(said, "\n"), "What you report clearly is still logged")
	assert.Len(t, w.book(), book+10, "every report is in the log")
	assert.Equal(t, 1, matching(said, "Ash, one answer to "), "and answered: %q", said)
	assert.Equal(t, 2, matching(said, "Nothing due today"), "one to each who asked")
	assert.Equal(t, 1, matching(said, "Newest in the log"))
	assert.LessOrEqual(t, len(said), 20, "%d answers to 161 messages", len(said))
	w.clock.Advance(2 * time.Minute)
	assert.Contains(t, w.says(w.ash, "due").Text, "due today", "after a pause")
	assert.Empty(t, w.Violations())
}

// Whoever reports without end has every line logged, and one answer that says so.
func TestServeFloodOfReports(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "add builder B2")
	book := len(w.book())
	said := w.flooded(func() {
		for i := range 140 {
			w.Say(w.group, w.ash, fmt.Sprintf("fed B2 %d ml", 100+i))
		}
	})
	assert.Len(t, w.book(), book+140)
	require.Len(t, said, 1)
	assert.Contains(t, said[0], "Ash, one answer to 140 messages:\nLogged, 140:\n- B2: fed")
	// A day's work that is read at once, since the service was away, is no other.
	said = w.flooded(func() {
		for i := range 140 {
			w.clock.Advance(3 * time.Minute)
			w.Say(w.group, w.odile, fmt.Sprintf("fed B2 %d ml", 100+i))
		}
	})
	assert.Equal(t, 1, matching(said, "Odile, one answer to 140 messages:"), "%q", said)
	require.Len(t, w.book(), book+280)
}

// Pressing one button again and again is no way around it.
func TestServeFloodOfPresses(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	welcome := w.join()
	w.answer(w.group, func() { w.Press(w.group, w.wren, welcome.ID, "English") })
	n := len(w.Sent(w.group))
	w.settled()
	for range 200 {
		w.Press(w.group, w.ash, welcome.ID, "America/Denver")
	}
	w.settled()
	w.drained()
	said := w.Sent(w.group)[n:]
	assert.Less(t, len(said), 120, "each answer takes the clock on, and a press counts as made when it is read")
	assert.Contains(t, w.says(w.wren, "due").Text, "due today", "others are answered")
}

// Words of an emergency are answered however much their author wrote before; so are those of
// an anonymous admin, and those that somebody passes on.
func TestServeFloodThenEmergency(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.PromoteMember(w.group, w.wren, w.odile)
	said := w.flooded(func() {
		for range 100 {
			w.Say(w.group, w.ash, "/nonsense to you")
		}
		w.Say(w.group, w.ash, "Odile can't breathe")
		w.Say(w.group, w.ash, "/nonsense, call 911")
		w.Say(w.group, w.odile, "Tomas passed out", apidouble.As(w.group))
		w.Say(w.group, w.odile, "allergic reaction at North", apidouble.Forwarded())
	})
	assert.Equal(t, 1, matching(said, "That is a lot at once, Ash."), "%q", said)
	assert.Equal(t, 4, matching(said, "Call your emergency number now"), "%q", said)
}
