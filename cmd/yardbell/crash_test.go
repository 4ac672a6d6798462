package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/bot/telegram/apidouble"
	"yardbell/scheduler"
	"yardbell/store"
)

// crashPoint is a boundary between two steps at which the process may die.
type crashPoint int

const (
	noCrash       crashPoint = iota
	beforeHandle             // the update was read, nothing was done with it
	insideHandle             // in the middle of its transaction
	afterHandle              // it is saved, the next poll has not confirmed it
	beforeSend               // the message is claimed, the chat has not been asked
	afterSend                // the chat took it, nobody noted that
	afterRecord              // it is noted, nothing came after
	betweenPieces            // the chat has the first of two pieces
)

var crashNames = map[crashPoint]string{beforeHandle: "before handling", insideHandle: "inside the transaction", afterHandle: "after the commit",
	beforeSend: "after the claim", afterSend: "after the chat took it", afterRecord: "after the record", betweenPieces: "between two pieces"}

// errDied is the end of a process.
var errDied = errors.New("the process died")

// mortal is a service that dies at one crash point, once: its context ends there, so
// that nothing after it is done, and the database is opened anew beside the handle
// that was left.
type mortal struct {
	*apidouble.Double
	t     *testing.T
	path  string
	clock *apidouble.ManualClock
	group int64
	wren  int64

	at    crashPoint
	nth   int // which passing of the point is the last
	count int
	died  atomic.Bool // asked and set by database/sql's own goroutines as well

	ctx    context.Context
	kill   context.CancelFunc
	bot    *bot.Bot
	poll   *telegram.Poller
	sched  *scheduler.Scheduler
	db     *store.DB
	sender *telegram.Sender
}

func newMortal(t *testing.T) *mortal {
	m := &mortal{t: t, path: filepath.Join(t.TempDir(), "crew.db"), clock: apidouble.NewManualClock(apidouble.DefaultStart)}
	m.Double = apidouble.Start(t, apidouble.Options{Token: markerToken, ReadsAll: true, Clock: m.clock, Rates: apidouble.Rates{RecordOnly: true}})
	m.wren = m.NewUser("Wren", "")
	m.group = m.NewSupergroup("Yard", m.wren)
	m.AddBot(m.group, m.wren)
	m.born()
	require.NoError(t, m.bot.Start(t.Context(), m.clock.Now(), telegram.Source, m.group))
	return m
}

// reached is a passing of a crash point.
func (m *mortal) reached(p crashPoint) bool {
	if m.died.Load() || p != m.at {
		return false
	}
	if m.count++; m.count < m.nth {
		return false
	}
	m.died.Store(true)
	m.kill()
	return true
}

// born starts a process on the file as it is.
func (m *mortal) born() {
	m.ctx, m.kill = context.WithCancel(m.t.Context())
	db, err := store.Open(m.ctx, m.path, store.Options{})
	require.NoError(m.t, err)
	m.t.Cleanup(func() { _ = db.Close() })
	m.db = db
	client, err := telegram.NewClient(m.URL(), markerToken)
	require.NoError(m.t, err)
	require.NoError(m.t, client.Connect(m.ctx))
	wait := func(ctx context.Context, d time.Duration) error {
		if m.reached(betweenPieces) { // the only wait in these scripts is for the second piece
			return errDied
		}
		m.clock.Advance(d)
		return ctx.Err()
	}
	quiet := slog.New(slog.DiscardHandler)
	m.sender = telegram.NewSender(client, m.clock.Now, wait, func(ctx context.Context, from, to int64) error {
		return m.bot.Moved(ctx, m.clock.Now(), telegram.Source, from, to)
	})
	m.bot = bot.New(db, func() {}, quiet, map[string]string{"zone": "America/Chicago"})
	m.poll = telegram.NewPoller(client, mortalHandler{m.bot, m}, quiet, m.clock.Now, wait)
	m.sched = scheduler.New(db, mortalSender{senderAdapter{bot.Post{To: m.sender}, m.bot, m.clock.Now}, m}, quiet)
	require.NoError(m.t, m.sched.Recover(m.ctx, m.clock.Now()))
}

type mortalHandler struct {
	*bot.Bot
	m *mortal
}

func (h mortalHandler) Handle(ctx context.Context, now time.Time, in bot.Incoming) error {
	if h.m.reached(beforeHandle) {
		return errDied
	}
	if h.m.at == insideHandle && !h.m.died.Load() {
		// The context ends between two statements of the transaction: a countdown on
		// how often it is looked at: before each of them.
		if h.m.count++; h.m.count == h.m.nth {
			ctx = newFuse(ctx, fuseLooks, func() { h.m.died.Store(true); h.m.kill() })
		}
	}
	err := h.Bot.Handle(ctx, now, in)
	if h.m.reached(afterHandle) {
		return errDied
	}
	return err
}

// fuse is a context that ends when it has been asked a number of times.
type fuse struct {
	context.Context
	left atomic.Int32
	kill func()
}

// fuseLooks is after how many statements of one message a fuse ends it: behind the row of
// the update, before that of the answer.
const fuseLooks = 6

func newFuse(ctx context.Context, left int32, kill func()) *fuse {
	f := &fuse{Context: ctx, kill: kill}
	f.left.Store(left)
	return f
}

func (f *fuse) Err() error {
	if f.left.Add(-1) == 0 {
		f.kill()
	}
	return f.Context.Err()
}

func (f *fuse) Done() <-chan struct{} {
	_ = f.Err()
	return f.Context.Done()
}

type mortalSender struct {
	senderAdapter
	m *mortal
}

func (s mortalSender) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	if s.m.reached(beforeSend) {
		return store.Receipt{}, errDied
	}
	r, err := s.senderAdapter.Send(ctx, out)
	if s.m.reached(afterSend) {
		return store.Receipt{}, errDied
	}
	return r, err
}

// live takes in and sends what there is, dying on the way where it has to, until all
// is done.
func (m *mortal) live() {
	m.t.Helper()
	for round := 0; ; round++ {
		require.Less(m.t, round, 20, "it never comes to rest")
		err := m.poll.Once(m.ctx, 0)
		if err == nil {
			err = m.sched.Tick(m.ctx, m.clock.Now())
		}
		if err == nil {
			m.reached(afterRecord)
		}
		if m.ctx.Err() != nil {
			m.born()
			continue
		}
		require.NoError(m.t, err)
		if m.Pending() == 0 {
			return
		}
	}
}

// day is the script: lines, an answer of two pieces, and a ping at the evening hour.
func (m *mortal) day() {
	n := 0
	for _, text := range []string{"add breeder 7", "add builder B2", "what a day", "graft 45 from 7 into B2"} {
		n = m.Say(m.group, m.wren, text)
		m.live()
		m.clock.Advance(10 * time.Second)
	}
	last, _ := m.LastSent(m.group)
	m.Edit(m.group, m.wren, n, "graft 50 from 7 into B2")
	m.live()
	m.clock.Advance(10 * time.Second)
	m.Say(m.group, m.wren, "not 50, 54", apidouble.ReplyTo(last.ID))
	m.live()
	require.NoError(m.t, m.db.Update(m.ctx, m.clock.Now(), func(tx *store.Tx) error {
		return tx.Queue(store.Message{Crew: 1, Key: "test/long", Kind: "reply", Text: longText})
	}))
	m.clock.Advance(10 * time.Second)
	m.live()
	m.clock.Set(chicago(24, 19, 0))
	m.live()
	m.clock.Advance(10 * time.Second)
	sent := m.Sent(m.group)
	i := len(sent) - 1
	for !strings.HasPrefix(sent[i].Text, "Tomorrow: ") {
		i--
	}
	m.Press(m.group, m.wren, sent[i].ID, "Mine")
	m.live()
	m.live()
}

var longText = strings.Repeat("a", 4096) + "\n" + strings.Repeat("b", 4096) + "\n" + strings.Repeat("c", 4096) + "\n" +
	strings.Repeat("d", 4096) + "\nthe end"

func (m *mortal) logbook() (list []string) {
	require.NoError(m.t, m.db.View(m.t.Context(), m.clock.Now(), func(tx *store.Tx) error {
		book, err := tx.Logbook(1)
		for _, l := range book {
			list = append(list, spell(l))
		}
		return err
	}))
	return list
}

// texts counts how often each message stands in the group.
func (m *mortal) texts() map[string]int {
	n := map[string]int{}
	for _, s := range m.Sent(m.group) {
		n[s.Text]++
	}
	return n
}

// crashStride is 1 for every place at which the process can die; the race detector,
// which makes the database slow, is content with some of them.
var crashStride = 1

// Wherever the process dies, no line is lost or logged twice and no message is lost;
// one comes twice only where the chat had taken it and nobody had noted that.
func TestCrashPoints(t *testing.T) {
	t.Parallel()
	calm := newMortal(t)
	calm.day()
	book, texts := calm.logbook(), calm.texts()
	require.Contains(t, strings.Join(book, "\n"), "graft batch 1 45")
	require.Contains(t, strings.Join(book, "\n"), "amend graft batch 1 50")
	require.Contains(t, book[len(book)-1], "mine ")
	require.Contains(t, strings.Join(book, "\n"), "amend graft batch 1 54")
	for text, n := range texts {
		require.Equal(t, 1, n, text)
	}
	pings := 0
	for text := range texts {
		if strings.HasPrefix(text, "Tomorrow: ") {
			pings++
		}
	}
	require.Positive(t, pings)

	for point := beforeHandle; point <= betweenPieces; point++ {
		deaths := 0
		for nth := 1; ; nth += crashStride {
			died := false
			t.Run(fmt.Sprintf("%s/%d", crashNames[point], nth), func(t *testing.T) {
				m := newMortal(t)
				m.at, m.nth = point, nth
				m.day()
				if died = m.died.Load(); !died {
					return // the point was not passed that often: the table ends here
				}
				assert.Equal(t, book, m.logbook())
				doubled := 0
				got := m.texts()
				for text, n := range texts {
					assert.GreaterOrEqual(t, got[text], n, "lost: %.60s", text)
					doubled += max(0, got[text]-n)
				}
				assert.Len(t, got, len(texts), "nothing else was said")
				switch point {
				case afterSend:
					// A long message that the chat took whole comes again whole.
					assert.Positive(t, doubled)
				case betweenPieces:
					assert.Positive(t, doubled)
				default:
					assert.Zero(t, doubled)
				}
				assert.Empty(t, m.Violations())
			})
			if !died || t.Failed() {
				break
			}
			deaths++
		}
		assert.Positive(t, deaths, "%s was never reached", crashNames[point])
		t.Logf("%s: died at %d places", crashNames[point], deaths)
	}
}
