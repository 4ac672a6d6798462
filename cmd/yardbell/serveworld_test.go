package main

import (
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// markerToken has the form of a token and stands nowhere else: where it is found,
// the token got out.
const markerToken = "700100:MARKERsecret-aBcDeF_0123456789"

// screen is where a command writes; a test can wait for what it says.
type screen struct {
	mu      sync.Mutex
	text    strings.Builder
	changed chan struct{}
}

func newScreen() *screen { return &screen{changed: make(chan struct{})} }

func (s *screen) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	close(s.changed)
	s.changed = make(chan struct{})
	return s.text.Write(b)
}

func (s *screen) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// await waits for a text and gives the line it stands in, from there on.
func (s *screen) await(t *testing.T, text string) string {
	t.Helper()
	late := time.After(bound)
	for {
		s.mu.Lock()
		all, changed := s.text.String(), s.changed
		s.mu.Unlock()
		if _, rest, ok := strings.Cut(all, text); ok {
			if line, _, whole := strings.Cut(rest, "\n"); whole {
				return line
			}
		}
		select {
		case <-changed:
		case <-late:
			require.FailNow(t, "never said", "%s, but %s", text, all)
		}
	}
}

// bound is for what happens at once unless something is broken.
const bound = 60 * time.Second

// world is a chat service with people in it and `yardbell serve` on it. The clock
// stands still until a test moves it, or the bot waits.
type world struct {
	*apidouble.Double
	t     *testing.T
	clock *apidouble.ManualClock
	db    string
	out   *screen
	err   *screen
	vars  map[string]string

	mu    sync.Mutex
	waits []time.Duration

	stop   context.CancelFunc
	done   chan int
	reader *store.DB

	wren, ash, odile, stranger int64
	group                      int64
}

func newWorld(t *testing.T, o apidouble.Options) *world {
	t.Helper()
	w := &world{t: t, clock: apidouble.NewManualClock(apidouble.DefaultStart), db: filepath.Join(t.TempDir(), "crew.db"),
		vars: map[string]string{"YARDBELL_TOKEN": markerToken}}
	o.Token, o.Clock = markerToken, w.clock
	w.Double = apidouble.Start(t, o)
	w.wren, w.ash, w.odile, w.stranger = w.NewUser("Wren", "wren_q"), w.NewUser("Ash", ""), w.NewUser("Odile", ""), w.NewUser("Mallory", "")
	w.group = w.NewSupergroup("Yard", w.wren, w.ash, w.odile)
	w.AddBot(w.group, w.wren)
	return w
}

// serve starts the service; it is stopped at the end of the test.
func (w *world) serve(args ...string) {
	w.t.Helper()
	w.out, w.err = newScreen(), newScreen()
	w.start(w.out, w.err, args...)
	w.t.Cleanup(w.quit)
}

func (w *world) env(out, errOut io.Writer) env {
	return env{in: strings.NewReader(""), out: out, errOut: errOut, get: func(k string) string { return w.vars[k] },
		clock: w.clock.Now, tty: func(io.Writer) bool { return false }, sleep: func(time.Duration) {}, wait: w.wait}
}

// wait is how the service waits: the clock moves, at once.
func (w *world) wait(ctx context.Context, d time.Duration) error {
	w.mu.Lock()
	w.waits = append(w.waits, d)
	w.mu.Unlock()
	w.clock.Advance(d)
	return ctx.Err()
}

func (w *world) start(out, errOut io.Writer, args ...string) {
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan int, 1)
	w.stop, w.done = stop, done
	all := append([]string{"serve", "--db", w.db, "--api", w.URL()}, args...)
	go func() { done <- run(ctx, all, w.env(out, errOut)) }()
}

// quit stops the service and waits for its end.
func (w *world) quit() {
	if w.stop == nil {
		return
	}
	w.stop()
	w.ended()
	w.stop = nil
}

// ended waits until the service has ended by itself and gives its exit status.
func (w *world) ended() int {
	w.t.Helper()
	select {
	case code := <-w.done:
		w.done <- code // to be asked again
		return code
	case <-time.After(bound):
		require.FailNow(w.t, "the service does not end", w.err.String())
		return -1
	}
}

// await waits until something holds in the chat service.
func (w *world) await(what string, cond func() bool) {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.t.Context(), bound)
	defer cancel()
	if err := w.Await(ctx, cond); err != nil {
		require.FailNow(w.t, "never came: "+what, w.err.String())
	}
}

// settled waits until the bot has handled every update.
func (w *world) settled() {
	w.t.Helper()
	w.await("the end of the updates", func() bool { return w.Polling() && w.Pending() == 0 })
}

// breath is between two things that people do, so that the limits of the chat play
// no part.
const breath = 10 * time.Second

// answer does something and gives what the bot says to it in a chat.
func (w *world) answer(chat int64, do func()) apidouble.Sent {
	w.t.Helper()
	w.settled()
	w.clock.Advance(breath)
	n := len(w.Sent(chat))
	do()
	w.await("an answer", func() bool { return len(w.Sent(chat)) > n })
	w.settled()
	got := w.Sent(chat)[n]
	w.recorded(got.ID)
	return got
}

// noted waits until something holds in the database. It tells nobody of its changes,
// so it is asked again and again.
func (w *world) noted(what string, cond func() bool) {
	w.t.Helper()
	late, again := time.After(bound), time.NewTicker(time.Millisecond)
	defer again.Stop()
	for !cond() {
		select {
		case <-again.C:
		case <-late:
			require.FailNow(w.t, "never noted: "+what, w.err.String())
		}
	}
}

// later waits for what the service does after a while: the clock moves a step, somebody
// talks so that the service looks up, and only when that is handled the clock moves on.
// A clock that runs ahead of the service makes what waits too old to be sent.
func (w *world) later(what string, step time.Duration, cond func() bool) {
	w.t.Helper()
	late := time.Now().Add(bound)
	for !cond() {
		if time.Now().After(late) {
			require.FailNow(w.t, "never came: "+what, w.err.String())
		}
		w.clock.Advance(step)
		w.Say(w.group, w.ash, "what a day")
		w.settled()
		for range 20 { // the sender is another goroutine than the reader of updates
			if cond() {
				return
			}
			time.Sleep(time.Millisecond)
		}
	}
}

// recorded waits until the service has noted the number of a message: a person needs
// longer to find its button.
func (w *world) recorded(number int) {
	w.t.Helper()
	w.noted("the number of a message", func() (found bool) {
		w.look(func(tx *store.Tx) error {
			crews, err := tx.Crews()
			for _, c := range crews {
				list, err := tx.Outbox(c.ID)
				if err != nil {
					return err
				}
				for _, m := range list {
					found = found || m.Message == int64(number)
				}
			}
			return err
		})
		return found
	})
}

// says has somebody write in the group and gives the answer.
func (w *world) says(who int64, text string, o ...apidouble.SayOption) apidouble.Sent {
	w.t.Helper()
	return w.answer(w.group, func() { w.Say(w.group, who, text, o...) })
}

// sentAll counts what the bot said, wherever.
func (w *world) sentAll() int { return len(w.SendTimes(0)) }

// silence does something and finds that the bot says nothing, anywhere. What it is
// asked next it answers, which shows that it has had the time.
func (w *world) silence(do func()) {
	w.t.Helper()
	w.settled()
	w.clock.Advance(breath)
	n := w.sentAll()
	do()
	w.settled()
	w.says(w.wren, "/due@yardbell_bot")
	require.Equal(w.t, n+1, w.sentAll(), "nothing but the answer to due")
}

// join starts the service and claims the group for Wren.
func (w *world) join(args ...string) apidouble.Sent {
	w.t.Helper()
	w.serve(args...)
	code := strings.TrimSpace(w.out.await(w.t, "join code: "))
	return w.says(w.wren, "/join@yardbell_bot "+code)
}

// pass lets the clock run to a time and wakes the service with a remark that is not
// for the bot. It needs a bot that hears all.
func (w *world) pass(to time.Time) {
	w.t.Helper()
	w.settled()
	w.clock.Set(to)
	w.Say(w.group, w.ash, "what a day")
	w.settled()
}

// look reads the database beside the service.
func (w *world) look(fn func(*store.Tx) error) {
	w.t.Helper()
	if w.reader == nil {
		db, err := store.Open(w.t.Context(), w.db, store.Options{ReadOnly: true})
		require.NoError(w.t, err)
		w.t.Cleanup(func() { _ = db.Close() })
		w.reader = db
	}
	require.NoError(w.t, w.reader.View(w.t.Context(), w.clock.Now(), fn))
}

// book is the logbook of the first crew without settings, one line an entry.
func (w *world) book() (lines []string) {
	w.t.Helper()
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil || len(crews) == 0 {
			return err
		}
		list, err := tx.Logbook(crews[0].ID)
		for _, l := range list {
			if l.Action != "set" {
				lines = append(lines, spell(l))
			}
		}
		return err
	})
	return lines
}

// spell is one line of the logbook in short.
func spell(l store.Line) string {
	s := string(l.Action) + " " + string(l.Step) + " " + l.Subject.String()
	if l.Count != nil {
		s += " " + strconv.Itoa(*l.Count)
	}
	return s + " " + l.By
}

// outbox lists what goes out to the first crew.
func (w *world) outbox() (list []store.Message) {
	w.t.Helper()
	w.look(func(tx *store.Tx) (err error) {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		list, err = tx.Outbox(crews[0].ID)
		return err
	})
	return list
}

// get fetches an address of the service.
func get(t *testing.T, url string) (int, string) {
	t.Helper()
	resp, err := http.Get(url)
	require.NoError(t, err)
	defer func() { _ = resp.Body.Close() }()
	b, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	return resp.StatusCode, string(b)
}

// tokenFile writes the token into a file with that mode.
func tokenFile(t *testing.T, mode os.FileMode) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "token")
	require.NoError(t, os.WriteFile(path, []byte(markerToken+"\n"), 0o600))
	require.NoError(t, os.Chmod(path, mode))
	return path
}
