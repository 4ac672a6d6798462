package scheduler

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"sync"
	"testing"
	"time"
	_ "time/tzdata" // the zones under test must not depend on the machine

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

var ctx = context.Background()

var chicago = func() *time.Location {
	z, err := time.LoadLocation("America/Chicago")
	if err != nil {
		panic(err)
	}
	return z
}()

// at reads a local time of the crew.
func at(s string) time.Time {
	t, err := time.ParseInLocation("2006-01-02 15:04", s, chicago)
	if err != nil {
		panic(err)
	}
	return t.UTC()
}

// chat is the crew's chat: it takes messages, or does what the script says for
// the next one.
type chat struct {
	mu     sync.Mutex
	script []func(context.Context) error
	got    []store.Outgoing
	keys   []string
}

func (c *chat) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	if do := c.next(); do != nil {
		if err := do(ctx); err != nil {
			return store.Receipt{}, err
		}
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.got = append(c.got, out)
	for _, m := range out.Messages {
		c.keys = append(c.keys, m.Key)
	}
	return store.Receipt{Number: int64(len(c.got)), Text: out.Messages[0].Key}, nil
}

func (c *chat) next() (do func(context.Context) error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.script) > 0 {
		do, c.script = c.script[0], c.script[1:]
	}
	return do
}

func (c *chat) take() (keys []string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	keys, c.keys, c.got = c.keys, nil, nil
	return keys
}

// service is a crew, its file, its chat and the scheduler between.
type service struct {
	t      *testing.T
	db     *store.DB
	chat   *chat
	sched  *Scheduler
	crew   store.Crew
	now    time.Time
	update int64
}

func newService(t *testing.T, begin string) *service {
	t.Helper()
	db, err := store.Open(ctx, filepath.Join(t.TempDir(), "crew.db"), store.Options{})
	require.NoError(t, err)
	t.Cleanup(func() { _ = db.Close() })
	s := &service{t: t, db: db, chat: &chat{}, now: at(begin)}
	s.sched = New(db, s.chat, slog.New(slog.NewTextHandler(io.Discard, nil)))
	s.do(func(tx *store.Tx) (err error) {
		s.crew, err = tx.NewCrew("test", 1, map[string]string{"zone": "America/Chicago"})
		return err
	})
	return s
}

func (s *service) do(fn func(*store.Tx) error) { require.NoError(s.t, s.db.Update(ctx, s.now, fn)) }

func (s *service) log(e rules.Entry) {
	e.Said = s.now
	if e.Happened.IsZero() {
		e.Happened = s.now
	}
	if e.Action == "" {
		e.Action = rules.Did
	}
	s.do(func(tx *store.Tx) error {
		m, err := tx.Member(s.crew, "wren", "Wren")
		if err != nil {
			return err
		}
		s.update++
		row, _, err := tx.MarkUpdate(store.Update{Source: "test", UpdateID: s.update, Crew: s.crew.ID, Member: m.ID, Kind: "message", Message: s.update, Said: s.now})
		if err != nil {
			return err
		}
		if _, err := tx.Append(s.crew.ID, row, m, s.update, "", e); err != nil {
			return err
		}
		return tx.Replan(s.crew.ID)
	})
}

func (s *service) graft(batch int) {
	cells := 45
	s.log(rules.Entry{Step: rules.Graft, Subject: rules.BatchSubject(batch), Count: &cells, From: 7, Into: fmt.Sprintf("B%d", batch)})
}

func (s *service) done(step rules.Step, batch, n int) {
	s.log(rules.Entry{Step: step, Subject: rules.BatchSubject(batch), Count: &n})
}

func (s *service) set(key, value string) {
	s.log(rules.Entry{Action: rules.Set, Detail: rules.Detail{Key: key, Value: value}})
}

func (s *service) answer(key string) {
	s.do(func(tx *store.Tx) error {
		return tx.Queue(store.Message{Crew: s.crew.ID, Key: key, Kind: "reply", Text: key})
	})
}

// claimDue takes the first of what is due.
func claimDue(tx *store.Tx, limit int) ([]store.Message, error) {
	due, err := tx.Due()
	if err != nil {
		return nil, err
	}
	var ids []int64
	for _, d := range due[:min(limit, len(due))] {
		ids = append(ids, d.ID)
	}
	return tx.Claim(ids)
}

func (s *service) tick() error { return s.sched.Tick(ctx, s.now) }

// tickAt moves the clock there and ticks.
func (s *service) tickAt(when time.Time) []string {
	s.t.Helper()
	s.now = when
	require.NoError(s.t, s.tick())
	return s.chat.take()
}

// live ticks at every time at which something is due, up to the end.
func (s *service) live(end string) {
	s.t.Helper()
	for {
		var next time.Time
		var found bool
		s.do(func(tx *store.Tx) (err error) {
			next, found, err = tx.NextDue()
			return err
		})
		if !found || next.After(at(end)) {
			s.now = at(end)
			return
		}
		if next.After(s.now) {
			s.now = next
		}
		require.NoError(s.t, s.tick())
	}
}

func (s *service) row(key string) store.Message {
	s.t.Helper()
	var out []store.Message
	s.do(func(tx *store.Tx) (err error) {
		out, err = tx.Outbox(s.crew.ID)
		return err
	})
	for _, m := range out {
		if m.Key == key {
			return m
		}
	}
	require.FailNow(s.t, "no message "+key)
	return store.Message{}
}

func fails(err error) func(context.Context) error { return func(context.Context) error { return err } }

var errAway = errors.New("the chat is away")

// A send that fails is tried again after a wait that grows, and the message goes
// out once the chat is back.
func TestFailedSendIsTriedAgain(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	s.chat.script = []func(context.Context) error{fails(errAway), fails(errAway), fails(errAway)}
	require.NoError(t, s.tick())
	for i, wait := range []time.Duration{5 * time.Second, 10 * time.Second, 20 * time.Second} {
		m := s.row("answer/1")
		assert.Equal(t, "queued", m.State)
		assert.Equal(t, i+1, m.Attempt)
		assert.Equal(t, s.now.Add(wait), m.Due)
		assert.Contains(t, m.Reason, "the chat is away")
		assert.Empty(t, s.tickAt(s.now.Add(wait-time.Second)), "not before")
		s.now = s.now.Add(time.Second)
		require.NoError(t, s.tick())
	}
	assert.Equal(t, []string{"answer/1"}, s.chat.take())
	assert.Equal(t, "sent", s.row("answer/1").State)
	for n := 1; n < 40; n++ {
		assert.LessOrEqual(t, rules.NextAttempt(n), 5*time.Minute)
	}
}

func TestFinalErrorStops(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	s.answer("answer/2")
	s.chat.script = []func(context.Context) error{fails(&SendError{Final: true, Err: errors.New("chat not found")})}
	require.NoError(t, s.tick())
	assert.Equal(t, "failed", s.row("answer/1").State)
	assert.Contains(t, s.row("answer/1").Reason, "chat not found")
	assert.Equal(t, []string{"answer/2"}, s.chat.take(), "those behind it still go")
	assert.Empty(t, s.tickAt(s.now.Add(time.Hour)))
}

// A chat that asks to wait gets nothing more before then, in any message; those
// held back lose no attempt and keep their order.
func TestRateLimitHoldsTheCrew(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	for i := range 3 {
		s.answer(fmt.Sprint("answer/", i))
	}
	s.chat.script = []func(context.Context) error{fails(&SendError{After: 40 * time.Second, Err: errors.New("too many requests")})}
	require.NoError(t, s.tick())
	assert.Empty(t, s.chat.take())
	assert.Equal(t, 1, s.row("answer/0").Attempt)
	assert.Equal(t, 0, s.row("answer/2").Attempt)
	assert.Equal(t, "the chat asked to wait", s.row("answer/2").Reason)
	assert.Empty(t, s.tickAt(s.now.Add(39*time.Second)))
	assert.Equal(t, []string{"answer/0", "answer/1", "answer/2"}, s.tickAt(s.now.Add(time.Second)))
}

// The process ends after the chat took a message and before that was recorded:
// it goes once more when the lease has run out, and only once.
func TestCrashAfterSendResendsOnce(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	crash, stop := context.WithCancel(ctx)
	s.chat.script = []func(context.Context) error{func(context.Context) error {
		s.chat.keys = append(s.chat.keys, "answer/1") // the chat has it
		stop()
		return context.Canceled
	}}
	require.Error(t, s.sched.Tick(crash, s.now))
	assert.Equal(t, []string{"answer/1"}, s.chat.take())
	assert.Equal(t, "claimed", s.row("answer/1").State)
	assert.Empty(t, s.tickAt(s.now.Add(store.Lease)))
	assert.Equal(t, []string{"answer/1"}, s.tickAt(s.now.Add(time.Second)))
	assert.Empty(t, s.tickAt(s.now.Add(24*time.Hour-8*time.Hour)))

	// After a restart it need not wait for the lease.
	s.answer("answer/2")
	s.do(func(tx *store.Tx) error { _, err := claimDue(tx, 10); return err })
	require.NoError(t, s.sched.Recover(ctx, s.now))
	assert.Equal(t, []string{"answer/2"}, s.tickAt(s.now))
}

// A service told to stop still records what the chat took.
func TestStoppedServiceRecordsWhatWasSent(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	s.answer("answer/2")
	ending, stop := context.WithCancel(ctx)
	s.chat.script = []func(context.Context) error{func(context.Context) error { stop(); return nil }}
	require.Error(t, s.sched.Tick(ending, s.now))
	assert.Equal(t, "sent", s.row("answer/1").State)
	assert.Equal(t, "queued", s.row("answer/2").State, "not begun any more")
}

// What panics in the wording of one message costs no other message its turn.
func TestPanicInASend(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	s.answer("answer/2")
	boom := func(context.Context) error { panic("no such word") }
	s.chat.script = []func(context.Context) error{boom}
	require.NoError(t, s.tick())
	assert.Equal(t, []string{"answer/2"}, s.chat.take())
	for range mostPanics - 1 {
		s.chat.script = []func(context.Context) error{boom}
		assert.Empty(t, s.tickAt(s.row("answer/1").Due))
	}
	m := s.row("answer/1")
	assert.Equal(t, "failed", m.State)
	assert.Contains(t, m.Reason, "no such word")
}
