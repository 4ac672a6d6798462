package telegram

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"path"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram/apidouble"
)

// handler writes down what it is told.
type handler struct{ r *chatroom }

func (h handler) tell(id int64, format string, args ...any) error {
	h.r.told = append(h.r.told, fmt.Sprintf(format, args...))
	if id != 0 {
		h.r.next = id + 1
	}
	return nil
}

func (h handler) Handle(_ context.Context, _ time.Time, in bot.Incoming) error {
	if h.r.trip != "" && in.Text == h.r.trip {
		panic("forced")
	}
	if h.r.full != nil {
		return h.r.full
	}
	return h.tell(in.UpdateID, "%s %s %s%s", in.Kind, in.UserName, in.Text, in.Data)
}

func (h handler) Pass(_ context.Context, _ time.Time, _ string, id int64, raw string) error {
	if raw != "" {
		return h.tell(id, "aside")
	}
	return h.tell(id, "pass")
}

func (h handler) Moved(_ context.Context, _ time.Time, _ string, from, to int64) error {
	return h.tell(0, "moved %d %d", from, to)
}

func (h handler) Standing(_ context.Context, _ time.Time, _ string, _ int64, state, rights string) error {
	return h.tell(0, "standing %s %s", state, rights)
}

func (h handler) Private(_ context.Context, _ time.Time, _, key string, chat int64) error {
	return h.tell(0, "private %s %d", key, chat)
}

func (h handler) Pinned(_ context.Context, _ time.Time, _ string, _, notice int64) error {
	return h.tell(0, "pinned %d", notice)
}

func (h handler) Chats(context.Context, time.Time, string) ([]int64, error) {
	return []int64{h.r.group}, nil
}

func (h handler) Ours(_ context.Context, _ time.Time, _ string, chat int64) (bool, error) {
	return chat == h.r.group, nil
}

func (h handler) Opens(_ context.Context, _ time.Time, in bot.Incoming) (bool, error) {
	return strings.HasSuffix(in.Text, "GOOD-CODE"), nil
}

func (h handler) Came(_ context.Context, _ time.Time, _ string, _ int64, _, name string) error {
	return h.tell(0, "came %s", name)
}

func (h handler) Left(_ context.Context, _ time.Time, _ string, _ int64, key string) error {
	return h.tell(0, "left %s", key)
}

func (h handler) Next(context.Context, time.Time, string) (int64, error) { return h.r.next, nil }

func (h handler) Twin(context.Context, time.Time, string) error { return h.tell(0, "twin") }

// heard polls once and gives what the handler was told.
func (r *chatroom) heard() []string {
	r.t.Helper()
	r.told = nil
	require.NoError(r.t, r.poll.Once(r.t.Context(), 0))
	return r.told
}

func TestPoll(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	ash := r.NewUser("Ash", "")
	assert.Equal(t, []string{"standing open member", "pass", "pass"}, r.heard(), "the bot is added")
	n := r.Say(r.group, r.wren, "confine 7")
	r.Edit(r.group, r.wren, n, "confine 9")
	r.AddMember(r.group, r.wren, ash)
	r.RemoveMember(r.group, ash, ash)
	assert.Equal(t, []string{"message Wren confine 7", "edit Wren confine 9", "came Ash", "pass", "left 1002", "pass"}, r.heard())
	r.Mute(r.group, r.wren)
	r.Unmute(r.group, r.wren)
	r.Kick(r.group, r.wren)
	assert.Equal(t, []string{"standing muted member", "pass", "standing open member", "pass", "standing gone member", "pass", "pass"}, r.heard())
	assert.Empty(t, r.heard())
	assert.Zero(t, r.Pending())
	assert.Empty(t, r.Violations())
}

// A press is answered before it is worked on, and worked on where that fails.
func TestPollPress(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	d := delivery(r.group, "open")
	d.Buttons = append(d.Buttons, button("Done"))
	n, err := r.deliver(d)
	require.NoError(t, err)
	id := r.Press(r.group, r.wren, int(n), "Done")
	assert.Equal(t, []string{"press Wren " + bot.ButtonData(0, button("Done"))}, r.heard())
	_, ok := r.AnswerTo(id)
	assert.True(t, ok)
	r.PressData(r.group, r.wren, int(n), "anything")
	r.Script("answerCallbackQuery", apidouble.Refuse(400, "Bad Request: query is too old and response timeout expired or query ID is invalid"))
	assert.Equal(t, []string{"press Wren anything"}, r.heard())
}

func TestPollMoves(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	old := r.NewGroup("Yard", r.wren)
	r.AddBot(old, r.wren)
	r.heard()
	to := r.MigrateWithMembership(old, r.wren)
	moved := fmt.Sprintf("moved %d %d", old, to)
	assert.Equal(t, []string{moved, "pass", "standing open member", "pass", moved, "pass"}, r.heard())
}

// A bad update is set aside; those around it are handled.
func TestPollSetsAside(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	r.Say(r.group, r.wren, "one")
	r.Poison()
	r.Say(r.group, r.wren, "two")
	assert.Equal(t, []string{"message Wren one", "aside", "message Wren two"}, r.heard())
	assert.Empty(t, r.heard())
}

// One on which the handler trips does not stop the service either.
func TestPollTrips(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	r.trip = "one"
	r.Say(r.group, r.wren, "one")
	assert.Equal(t, []string{"aside"}, r.heard())
}

// Of several messages that wait, one on which the handler trips is set aside alone, in its
// place.
func TestPollSetsAsideOne(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	r.trip = "two"
	for _, text := range []string{"one", "two", "three"} {
		r.Say(r.group, r.wren, text)
	}
	assert.Equal(t, []string{"message Wren one", "aside", "message Wren three"}, r.heard())
}

// What is no message of a person moves on where the next poll starts: it waits for those
// before it, which are lost otherwise where they cannot be saved.
func TestPollSavesInOrder(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	finch := r.NewUser("Finch", "")
	say := func() {
		r.Say(r.group, r.wren, "one")
		r.Say(r.group, r.wren, "two")
		r.AddMember(r.group, r.wren, finch)
		r.Say(r.group, r.wren, "three")
		r.Poison()
		r.Say(r.group, finch, "four")
	}
	say()
	assert.Equal(t, []string{"message Wren one", "message Wren two", "came Finch", "pass", "message Wren three", "aside", "message Finch four"}, r.heard())

	r.RemoveMember(r.group, r.wren, finch)
	r.heard()
	before := r.next
	r.told = nil
	r.full = errors.New("the disk is full")
	say()
	require.ErrorIs(t, r.poll.Once(t.Context(), 0), r.full)
	assert.Empty(t, r.told)
	assert.Equal(t, before, r.next)
}

// An update without a number cannot be confirmed, but holds up nothing.
func TestPollUnnumbered(t *testing.T) {
	c := answering(t, 200, "application/json", `{"ok":true,"result":[{"message":{}},{"update_id":5,"poll":{}},17]}`)
	r := newChatroom(t, apidouble.Options{})
	r.poll.c = c
	require.ErrorIs(t, r.poll.Once(t.Context(), 0), errNumber)
	assert.Equal(t, []string{"pass"}, r.told)
	assert.Equal(t, int64(6), r.next)
}

// What came again after it was handled is for the handler to know; nothing is
// confirmed that was not.
func TestPollConfirmsAfter(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	r.Say(r.group, r.wren, "one")
	r.heard()
	assert.Equal(t, 1, r.Pending(), "handled, but the next poll confirms it")
	r.heard()
	assert.Zero(t, r.Pending())
}

// errEnough ends a run in a test.
var errEnough = errors.New("enough")

// run lets the poller run until it has waited n times, and gives the waits.
func (r *chatroom) run(n int) ([]time.Duration, error) {
	var waits []time.Duration
	r.poll.wait = func(_ context.Context, d time.Duration) error {
		if waits = append(waits, d); len(waits) == n {
			return errEnough
		}
		return nil
	}
	return waits, r.poll.Run(r.t.Context())
}

func TestRunBacksOff(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Always("getUpdates", apidouble.HTMLPage(502))
	waits := []time.Duration{}
	r.poll.wait = func(_ context.Context, d time.Duration) error {
		if waits = append(waits, d); len(waits) == 12 {
			return errEnough
		}
		return nil
	}
	require.ErrorIs(t, r.poll.Run(t.Context()), errEnough)
	for i, w := range waits {
		whole := min(time.Second<<(i+1), time.Minute)
		assert.GreaterOrEqual(t, w, whole/2, "wait %d", i)
		assert.LessOrEqual(t, w, whole, "wait %d", i)
	}
}

func TestRunHonoursRetryAfter(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Script("getUpdates", apidouble.TooMany(400))
	waits := 0
	r.poll.wait = func(_ context.Context, d time.Duration) error {
		waits++
		assert.Equal(t, 400*time.Second, d)
		return errEnough
	}
	require.ErrorIs(t, r.poll.Run(t.Context()), errEnough)
	assert.Equal(t, 1, waits)
}

func TestRunStepsBackFromATwin(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Script("getUpdates", apidouble.OtherInstance())
	r.poll.wait = func(_ context.Context, d time.Duration) error {
		assert.GreaterOrEqual(t, d, 10*time.Second)
		return errEnough
	}
	require.ErrorIs(t, r.poll.Run(t.Context()), errEnough)
	assert.Equal(t, []string{"standing open member", "twin"}, r.told)
}

func TestRunEndsWithARefusedToken(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Always("", apidouble.Unauthorized())
	_, err := r.run(1)
	require.ErrorIs(t, err, ErrToken)
}

// Started without a network, it waits for one.
func TestRunWaitsForTheNetwork(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Script("getMe", apidouble.CutBefore(), apidouble.HTMLPage(401))
	r.Script("getUpdates", apidouble.CutBefore())
	_, err := r.run(3)
	require.ErrorIs(t, err, errEnough)
	assert.Equal(t, "yardbell_bot", r.poll.c.Username())
	assert.True(t, r.poll.c.HearsAll())
}

func TestRunEndsWithItsContext(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- r.poll.Run(ctx) }()
	require.NoError(t, r.Await(t.Context(), r.Polling))
	cancel()
	require.ErrorIs(t, <-done, context.Canceled)
}

// The service counts as one that reads the chat where what came was saved, not where the
// server alone is well.
func TestSeenIsSaved(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	seen := 0
	r.poll.Seen = func(time.Time) { seen++ }
	r.heard() // that the bot was added
	require.Positive(t, seen)
	seen = 0
	r.heard()
	require.Equal(t, 1, seen, "nothing came")
	r.Say(r.group, r.wren, "due")
	r.full = errors.New("the disk is full")
	seen = 0
	require.ErrorIs(t, r.poll.Once(t.Context(), 0), r.full)
	assert.Zero(t, seen, "nothing was saved")
	r.full = nil
	r.Say(r.group, r.wren, "due")
	assert.Len(t, r.heard(), 2)
	assert.Equal(t, 3, seen, "after each, a hundred may take a while, and after all")
}

// stopping is a handler that is told to stop while the groups are listed, or while what it
// is told of one is noted.
type stopping struct {
	handler
	at   string
	stop func()
}

func (s stopping) Chats(ctx context.Context, _ time.Time, _ string) ([]int64, error) {
	if s.at == "list" {
		s.stop()
		return nil, ctx.Err()
	}
	return []int64{s.r.group}, nil
}

func (s stopping) Standing(ctx context.Context, _ time.Time, _ string, _ int64, _, _ string) error {
	s.stop()
	return ctx.Err()
}

// Told to stop at a start, it stops and finds nothing wrong with the groups.
func TestStoppedAtTheStart(t *testing.T) {
	for _, at := range []string{"list", "ask", "note"} {
		r := newChatroom(t, apidouble.Options{})
		ctx, stop := context.WithCancel(t.Context())
		c := client(t, r.URL())
		if at == "ask" {
			next := c.send.Transport
			c.send.Transport = wire(func(q *http.Request) (*http.Response, error) {
				if path.Base(q.URL.Path) == "getChatMember" {
					stop()
				}
				return next.RoundTrip(q)
			})
		}
		var said bytes.Buffer
		log := slog.New(slog.NewTextHandler(&said, &slog.HandlerOptions{Level: slog.LevelWarn}))
		p := NewPoller(c, stopping{handler{r}, at, stop}, log, r.clock.Now, func(ctx context.Context, _ time.Duration) error { return ctx.Err() })
		assert.ErrorIs(t, p.Run(ctx), context.Canceled, at)
		assert.Error(t, ctx.Err(), at)
		assert.Empty(t, said.String(), at)
	}
}
