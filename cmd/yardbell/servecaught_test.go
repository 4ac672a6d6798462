package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"yardbell/bot/telegram/apidouble"
)

// What the crew wrote while the service was away is read before anything goes out: a ping
// that fell due meanwhile is not sent for what they said is done.
func TestServeReadsBeforeItPings(t *testing.T) {
	w := grafted(t)
	w.quit()
	w.clock.Set(chicago(24, 19, 30))
	w.Say(w.group, w.ash, "finisher batch 1", apidouble.At(chicago(24, 18, 30)))
	w.clock.Set(chicago(24, 20, 0))
	n := len(w.Sent(w.group))
	w.serve()
	w.await("the answer", func() bool { return len(w.Sent(w.group)) > n })
	w.says(w.wren, "/due@yardbell_bot")
	said := w.Sent(w.group)[n:]
	assert.Contains(t, said[0].Text, "in the finisher since")
	for _, m := range said {
		assert.False(t, strings.HasPrefix(m.Text, "Tomorrow: "), m.Text)
	}
}
