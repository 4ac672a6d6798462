package telegram

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// A server that sends without end is cut off, whatever was asked and whatever its status:
// what is taken of it stays far below what it sends.
func TestAnswersHaveABound(t *testing.T) {
	const sent = 64 << 20
	fill := strings.Repeat("x", 1<<20)
	for name, c := range map[string]struct {
		method string
		status int
		head   string
		most   uint64
	}{
		"updates":       {"getUpdates", 200, `{"ok":true,"result":[{"update_id":1,"message":{"text":"`, 40 << 20},
		"a message":     {"sendMessage", 200, `{"ok":true,"result":{"text":"`, 4 << 20},
		"a refusal":     {"sendMessage", 400, `{"ok":false,"error_code":400,"description":"`, 4 << 20},
		"nothing in it": {"getMe", 200, strings.Repeat(" ", 1<<20), 4 << 20},
	} {
		t.Run(name, func(t *testing.T) {
			s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
				w.Header().Set("Content-Type", "application/json")
				w.WriteHeader(c.status)
				_, err := io.WriteString(w, c.head)
				for n := 0; n < sent>>20 && err == nil; n++ {
					_, err = io.WriteString(w, fill)
				}
			}))
			t.Cleanup(s.Close)
			cl := client(t, s.URL)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			var out any
			err := cl.call(t.Context(), cl.send, c.method, nil, nil, &out)
			runtime.ReadMemStats(&after)
			require.ErrorIs(t, err, errTooLong)
			assert.NotNil(t, verdict(err), "a message that it answers is sent again")
			taken := after.TotalAlloc - before.TotalAlloc
			t.Logf("%d MB sent, %.1f MB allocated in all", sent>>20, float64(taken)/(1<<20))
			assert.Less(t, taken, c.most)
		})
	}
}

// A hundred updates that are too long together are read a few at a time, each once and in
// their order; then as many as there are again.
func TestPollAsksForFewer(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	r.told = nil
	var want []string
	long := strings.Repeat("word ", 800)
	for n := range 40 {
		text := strings.TrimSpace(fmt.Sprintf("%d %s", n, long))
		r.Say(r.group, r.wren, text)
		want = append(want, "message Wren "+text)
	}
	r.poll.c.mostPoll = 60_000 // some twelve of them
	refused := 0
	for try := 0; r.Pending() > 0 && try < 50; try++ {
		if err := r.poll.Once(t.Context(), 0); err != nil {
			require.ErrorIs(t, err, errTooLong)
			refused++
		}
	}
	assert.Positive(t, refused)
	assert.Equal(t, want, r.told)
	for range 5 {
		r.heard()
	}
	assert.Equal(t, mostUpdates, r.poll.ask)
	assert.Empty(t, r.Violations())
}
