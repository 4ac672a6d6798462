package telegram

import (
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// testToken has the form of a token and stands nowhere else.
const testToken = "700100:MARKER-aBcDeF_0123456789"

// answering is a server that answers every request in the same way.
func answering(t *testing.T, status int, kind, body string) *Client {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", kind)
		w.WriteHeader(status)
		_, _ = w.Write([]byte(body))
	}))
	t.Cleanup(s.Close)
	return client(t, s.URL)
}

func client(t *testing.T, api string) *Client {
	t.Helper()
	c, err := NewClient(api, testToken)
	require.NoError(t, err)
	return c
}

// chatroom is a double with a group that Wren made, and a sender and poller on it.
type chatroom struct {
	*apidouble.Double
	t     *testing.T
	clock *apidouble.ManualClock
	send  *Sender
	poll  *Poller
	wren  int64
	group int64
	waits []time.Duration
	moves [][2]int64
	told  []string // what the handler was told, in order
	next  int64
	trip  string // the handler trips on this text
	full  error  // nothing can be saved
}

func newChatroom(t *testing.T, o apidouble.Options) *chatroom {
	t.Helper()
	r := &chatroom{t: t, clock: apidouble.NewManualClock(apidouble.DefaultStart)}
	o.Token, o.Clock, o.ReadsAll = testToken, r.clock, true
	r.Double = apidouble.Start(t, o)
	r.wren = r.NewUser("Wren", "wren_q")
	r.group = r.NewSupergroup("Yard", r.wren)
	r.AddBot(r.group, r.wren)
	c := client(t, r.URL())
	require.NoError(t, c.Connect(t.Context()))
	wait := func(_ context.Context, d time.Duration) error {
		r.waits = append(r.waits, d)
		r.clock.Advance(d)
		return nil
	}
	r.send = NewSender(c, r.clock.Now, wait, func(_ context.Context, from, to int64) error {
		r.moves = append(r.moves, [2]int64{from, to})
		return nil
	})
	r.poll = NewPoller(c, handler{r}, slog.New(slog.DiscardHandler), r.clock.Now, wait)
	return r
}

// delivery is a message for a chat.
func delivery(chat int64, text string, buttons ...store.Button) wording.Delivery {
	s := rules.DefaultSettings()
	out := store.Outgoing{Crew: store.Crew{ID: 1, Chat: chat}, Settings: s, Messages: []store.Message{{ID: 1, Crew: 1}}}
	return wording.Delivery{Out: out, Row: out.Messages[0], Kind: "reply", Text: text, Buttons: buttons}
}

func (r *chatroom) deliver(d wording.Delivery) (int64, error) {
	return r.send.Deliver(r.t.Context(), d)
}

// texts are the bot's messages in a chat.
func (r *chatroom) texts(chat int64) (out []string) {
	for _, m := range r.Sent(chat) {
		out = append(out, m.Text)
	}
	return out
}
