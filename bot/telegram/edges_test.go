package telegram

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/store"
)

// wire is a connection that does as it is told.
type wire func(*http.Request) (*http.Response, error)

func (w wire) RoundTrip(r *http.Request) (*http.Response, error) { return w(r) }

// What lies below the client knows the token; neither its errors nor its answers bring
// it up.
func TestTokenStaysBelow(t *testing.T) {
	req := httptest.NewRequest(http.MethodPost, "http://127.0.0.1/bot"+placeholder+"/getMe", nil)
	_, err := tokenTransport{wire(func(r *http.Request) (*http.Response, error) {
		return nil, fmt.Errorf("proxy says no to %s", r.URL)
	}), testToken}.RoundTrip(req)
	require.Error(t, err)
	assertNoToken(t, "error", err.Error())
	resp, err := tokenTransport{wire(func(r *http.Request) (*http.Response, error) {
		require.Contains(t, r.URL.Path, testToken)
		return &http.Response{Request: r, Body: http.NoBody}, nil
	}), testToken}.RoundTrip(req)
	require.NoError(t, err)
	assertNoToken(t, "answer", resp.Request.URL.String())
	_ = resp.Body.Close()
}

// A request that is on its way when the service stops is waited for: cut off, it would
// go again and might come twice.
func TestDeliverOutlivesTheStop(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	release := make(chan struct{})
	r.Script("sendMessage", apidouble.Slow(release))
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() {
		_, err := r.send.Deliver(ctx, delivery(r.group, "due"))
		done <- err
	}()
	require.NoError(t, r.Await(t.Context(), func() bool { return len(r.Requests("sendMessage")) == 1 }))
	stop()
	select {
	case err := <-done:
		require.FailNow(t, "cut off", "%v", err)
	case <-time.After(100 * time.Millisecond):
	}
	close(release)
	require.NoError(t, <-done)
	assert.Equal(t, []string{"due"}, r.texts(r.group))
	_, err := r.send.Deliver(ctx, delivery(r.group, "due"))
	require.ErrorIs(t, err, context.Canceled, "nothing is begun any more")
}

// What the server took is not sent again, though its answer cannot be read.
func TestDeliverTook(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.send.c = answering(t, 200, "application/json", `{"ok":true,"result":true}`)
	_, err := r.deliver(delivery(r.group, "due"))
	require.NoError(t, err)
}

// The numbers of an old chat's messages are not named in the new one, nor is the
// general topic in any.
func TestDeliverNamesNoWrongPlace(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	old := r.NewGroup("Yard", r.wren)
	r.AddBot(old, r.wren)
	r.Migrate(old, r.wren)
	d := delivery(old, "due")
	d.Answers = 3
	_, err := r.deliver(d)
	require.NoError(t, err)
	d = delivery(r.group, "due")
	d.Thread = 1
	_, err = r.deliver(d)
	require.NoError(t, err)
	sent := r.Requests("sendMessage")
	require.Len(t, sent, 3)
	assert.Contains(t, sent[0].Params, "reply_parameters")
	assert.NotContains(t, sent[1].Params, "reply_parameters")
	assert.NotContains(t, sent[2].Params, "message_thread_id")
}

// The day's list is pinned without waking anybody.
func TestPinsQuietly(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Promote(r.group, r.wren, "can_pin_messages")
	n, err := r.deliver(delivery(r.group, "Today"))
	require.NoError(t, err)
	d := delivery(r.group, "")
	d.Row.Ping, d.Edits = store.Pin, n
	_, err = r.deliver(d)
	require.NoError(t, err)
	pins := r.Requests("pinChatMessage")
	require.Len(t, pins, 1)
	assert.Equal(t, "true", pins[0].Params["disable_notification"])
}

// Refusals of what is not words, in the server's several ways to say it.
func TestVerdictOfAsides(t *testing.T) {
	for _, why := range []string{"not enough rights to manage pinned messages in the chat", "message can't be deleted", "CHAT_ADMIN_REQUIRED"} {
		not := verdict(ask(answering(t, 400, "application/json", fmt.Sprintf(`{"ok":false,"error_code":400,"description":"Bad Request: %s"}`, why))))
		require.NotNil(t, not, why)
		assert.True(t, not.Final && not.Lacks && !not.Gone && !not.Muted, why)
	}
}

// A file that was refused is not tried again where only its words are late.
func TestDeliverFileRefusedForGood(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Always("sendPhoto", apidouble.Refuse(400, "Bad Request: IMAGE_PROCESS_FAILED"))
	r.Script("sendMessage", apidouble.CutBefore())
	d := delivery(r.group, "week")
	d.Files = []wording.File{{Name: "week.png", Picture: true, Data: drawn(t)}}
	for range 10 {
		if _, err := r.deliver(d); err == nil {
			break
		}
		r.clock.Advance(time.Minute)
	}
	assert.Equal(t, []string{"week"}, r.texts(r.group))
	assert.Len(t, r.Requests("sendPhoto"), 1)
}

// What a person pinned is no notice of the bot's.
func TestPollOthersPins(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	for id, want := range map[int64][]string{r.wren: {"pass"}, r.Me().ID: {"pinned 9", "pass"}} {
		r.DeliverRaw(fmt.Sprintf(`"message":{"message_id":9,"date":1935000000,"chat":{"id":%d,"type":"supergroup"},"from":{"id":%d,"first_name":"X"},"pinned_message":{"message_id":8,"date":1,"chat":{"id":%d,"type":"supergroup"}}}`, r.group, id, r.group))
		assert.Equal(t, want, r.heard())
	}
}

// Without a network the other groups are asked about later; one that is gone keeps
// none of them waiting.
func TestSurvey(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Always("getChatMember", apidouble.CutBefore())
	assert.Equal(t, []int64{-12, -13}, r.poll.survey(t.Context(), []int64{-11, -12, -13}))
	assert.Len(t, r.Requests("getChatMember"), 1)
	r.ClearFaults()
	assert.Empty(t, r.poll.survey(t.Context(), []int64{-11, r.group}))
	assert.Equal(t, []string{"standing open member"}, r.told)
	assert.Len(t, r.poll.survey(t.Context(), make([]int64, surveyAtOnce+3)), 3)
}

func TestRunEndsWithWhatIsNoToken(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Always("", apidouble.Refuse(404, "Not Found"))
	_, err := r.run(1)
	require.ErrorIs(t, err, ErrToken)
}

// The rest of the service begins once all that waited was read, and not behind a
// hundredth of it; and all the same where the chat is away.
func TestRunCatchesUp(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	for range mostUpdates + 30 {
		r.Say(r.group, r.wren, "hello")
	}
	ctx, stop := context.WithCancel(t.Context())
	r.told = nil
	read := 0
	r.poll.CaughtUp = func() {
		for _, s := range r.told {
			if s == "message Wren hello" {
				read++
			}
		}
		stop()
	}
	require.Error(t, r.poll.Run(ctx))
	assert.Equal(t, mostUpdates+30, read)

	r = newChatroom(t, apidouble.Options{})
	caught := 0
	r.poll.CaughtUp = func() { caught++ }
	for n, want := range []int{0, 0, 1, 1} {
		require.NoError(t, r.poll.trouble(t.Context(), errors.New("cut")))
		assert.Equal(t, want, caught, "after %d", n+1)
	}
}

// Of a backlog it is told that more is read until all of it is saved, also where the last
// poll of it was full, or the next one fails.
func TestOnceTellsOfMore(t *testing.T) {
	for name, c := range map[string]struct {
		waiting, polls int
		want           []bool
		cut            bool
	}{
		"one":            {1, 1, nil, false},
		"two":            {2, 1, []bool{true, false}, false},
		"many":           {mostUpdates + 30, 2, []bool{true, false}, false},
		"as many as fit": {mostUpdates, 2, []bool{true, false}, false},
		"the next fails": {mostUpdates, 2, []bool{true, false}, true},
	} {
		r := newChatroom(t, apidouble.Options{})
		r.heard()
		var told []bool
		r.poll.Reading = func(more bool) { told = append(told, more) }
		for range c.waiting {
			r.Say(r.group, r.wren, "hello")
		}
		for i := range c.polls {
			if i > 0 && c.cut {
				r.Script("getUpdates", apidouble.CutBefore())
			}
			_ = r.poll.Once(t.Context(), 0)
		}
		assert.Equal(t, c.want, told, name)
	}
}

// A server that answers at once without anything is not asked without end.
func TestRunIsNotEager(t *testing.T) {
	polls := 0
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		answer := `{"ok":true,"result":[]}`
		switch path.Base(q.URL.Path) {
		case "getMe":
			answer = `{"ok":true,"result":{"id":1,"is_bot":true,"first_name":"Y","username":"y_bot"}}`
		case "getUpdates":
			polls++
		default:
			answer = `{"ok":true,"result":true}`
		}
		w.Header().Set("Content-Type", "application/json")
		_, _ = io.WriteString(w, answer)
	}))
	t.Cleanup(s.Close)
	r := newChatroom(t, apidouble.Options{})
	ctx, stop := context.WithTimeout(t.Context(), 10*time.Second)
	defer stop()
	p := NewPoller(client(t, s.URL), handler{r}, slog.New(slog.DiscardHandler), r.clock.Now, func(_ context.Context, d time.Duration) error {
		assert.Equal(t, mostEager, d)
		return errEnough
	})
	require.ErrorIs(t, p.Run(ctx), errEnough)
	assert.LessOrEqual(t, polls, 3)
}
