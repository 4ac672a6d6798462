package main

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/bot/telegram/apidouble"
	"yardbell/scheduler"
	"yardbell/store"
)

// This file is the world of TestCrashKilledAtEveryStep: `yardbell serve` as a process of its
// own that is killed by SIGKILL, and started again each time it is dead.

// mortalChild names the address at which a child process asks for the time and whether
// to die; mortalAPI is the Bot API.
const (
	mortalChild = "YARDBELL_TEST_MORTAL"
	mortalAPI   = "YARDBELL_TEST_API"
	mortalDB    = "YARDBELL_TEST_DB"
)

// TestMortalChild is the process that is killed.
func TestMortalChild(t *testing.T) {
	base := os.Getenv(mortalChild)
	if base == "" {
		t.Skip("only as a child of TestCrashKilledAtEveryStep")
	}
	ask := asks(base)
	serveMortal(ask, "/die?", "yes", func() time.Time { return instantOf(ask("/now")) })
}

// asks is how a child process asks its parent, without which it ends.
func asks(base string) func(what string) string {
	return func(what string) string {
		resp, err := http.Get(base + what)
		if err != nil {
			os.Exit(3) // the parent has gone
		}
		defer func() { _ = resp.Body.Close() }()
		b, err := io.ReadAll(resp.Body)
		if err != nil {
			os.Exit(3)
		}
		return string(b)
	}
}

// instantOf reads the parent's clock.
func instantOf(said string) time.Time {
	n, err := strconv.ParseInt(said, 10, 64)
	if err != nil {
		os.Exit(3)
	}
	return time.Unix(0, n)
}

// serveMortal serves by the parent's clock until it ends, and dies at the steps at which
// the parent, asked at a path, gives the word.
func serveMortal(ask func(string) string, at, word string, clock func() time.Time) {
	e := env{in: strings.NewReader(""), out: os.Stdout, errOut: os.Stderr, get: os.Getenv, tty: func(io.Writer) bool { return false },
		clock: clock,
		wait: func(ctx context.Context, d time.Duration) error {
			ask("/wait?d=" + strconv.FormatInt(int64(d), 10))
			return ctx.Err()
		},
		around: func(s hooks) hooks {
			reached := func(point, what string) {
				if ask(at+url.Values{"point": {point}, "what": {what}}.Encode()) == word {
					dieNow()
				}
			}
			return hooks{killedHandler{s.in, reached}, killedSender{s.to, reached}}
		}}
	os.Exit(run(context.Background(), []string{"serve", "--db", os.Getenv(mortalDB), "--api", os.Getenv(mortalAPI)}, e))
}

// dieNow kills the process it is called in, by SIGKILL: nothing is closed, flushed or
// rolled back by it.
func dieNow() {
	if p, err := os.FindProcess(os.Getpid()); err == nil {
		_ = p.Kill()
	}
	select {}
}

// killedHandler passes the boundaries between reading an update, saving what follows
// from it and confirming it.
type killedHandler struct {
	telegram.Handler
	reached func(point, what string)
}

func (h killedHandler) Handle(ctx context.Context, now time.Time, in bot.Incoming) error {
	all := func(point string) { h.reached(point, strconv.FormatInt(in.UpdateID, 10)) }
	all("update read")
	// Between two statements of the transaction:
	// a countdown on how often its context is looked at.
	ctx = newFuse(ctx, fuseLooks, func() { all("inside the transaction") })
	err := h.Handler.Handle(ctx, now, in)
	all("update saved")
	return err
}

func (h killedHandler) Pass(ctx context.Context, now time.Time, source string, id int64, raw string) error {
	h.reached("group's news noted", strconv.FormatInt(id, 10))
	return h.Handler.Pass(ctx, now, source, id, raw)
}

// killedSender passes those between claiming a message, sending it and recording it.
type killedSender struct {
	scheduler.Sender
	reached func(point, what string)
}

func (s killedSender) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	what := strconv.FormatInt(out.Messages[0].ID, 10)
	s.reached("message claimed", what)
	r, err := s.Sender.Send(ctx, out)
	s.reached("message sent, not recorded", what)
	return r, err
}

// killed is the world of such a process. The parent serves the Bot API and the clock,
// and kills the process itself where the step is a request on the wire.
type killed struct {
	*world
	api, control *httptest.Server

	mu     sync.Mutex
	armed  bool
	point  string          // where it dies
	seen   map[string]bool // what it died of: each thing kills once
	cmd    *exec.Cmd
	dead   chan struct{} // closed when cmd has ended
	over   bool
	faults []string
	polls  int // of the process that lives
}

func newKilled(t *testing.T, point string) *killed {
	k := &killed{world: newWorld(t, apidouble.Options{ReadsAll: true, Rates: apidouble.Rates{RecordOnly: true}}), point: point, seen: map[string]bool{}}
	k.out, k.err = newScreen(), newScreen()
	k.api = httptest.NewServer(http.HandlerFunc(k.serveAPI))
	k.control = httptest.NewServer(http.HandlerFunc(k.serveControl))
	t.Cleanup(func() { k.finish(); k.api.CloseClientConnections(); k.api.Close(); k.control.Close() })
	k.spawn()
	return k
}

// spawn starts the process, and again each time it has been killed.
func (k *killed) spawn() {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.over {
		return
	}
	c := exec.Command(os.Args[0], "-test.run=^TestMortalChild$")
	c.Env = append(os.Environ(), mortalChild+"="+k.control.URL, mortalAPI+"="+k.api.URL, mortalDB+"="+k.db, "YARDBELL_TOKEN="+markerToken)
	c.Stdout, c.Stderr = k.out, k.err
	if err := c.Start(); err != nil {
		k.faults = append(k.faults, err.Error())
		return
	}
	dead := make(chan struct{})
	k.cmd, k.dead, k.polls = c, dead, 0
	go func() {
		_ = c.Wait()
		close(dead)
		k.mu.Lock()
		if code := c.ProcessState.ExitCode(); code != -1 {
			// It ended by itself, which no crash point makes it do.
			k.faults = append(k.faults, fmt.Sprint("exit status ", code))
			k.over = true
		}
		k.mu.Unlock()
		k.spawn()
	}()
}

// finish kills the process for good.
func (k *killed) finish() {
	k.mu.Lock()
	k.over = true
	c, dead := k.cmd, k.dead
	k.mu.Unlock()
	if c != nil {
		_ = c.Process.Kill()
		<-dead
	}
}

// mostDeaths ends a circle: the notice of a pin is an update, on whose way the process
// dies before the pin is noted, so that it pins again. Most of the test's time goes into
// starting again.
func mostDeaths() int {
	if allTests {
		return 60
	}
	return 1
}

// dies reports whether the process has to die of that now.
func (k *killed) dies(point, what string) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	if !k.armed || point != k.point || k.seen[what] || len(k.seen) >= mostDeaths() {
		return false
	}
	k.seen[what] = true
	return true
}

func (k *killed) serveControl(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	switch r.URL.Path {
	case "/now":
		_, _ = fmt.Fprint(w, k.clock.Now().UnixNano())
	case "/wait":
		d, _ := strconv.ParseInt(q.Get("d"), 10, 64)
		k.clock.Advance(time.Duration(d))
	case "/die":
		if k.dies(q.Get("point"), q.Get("what")) {
			_, _ = fmt.Fprint(w, "yes")
		}
	}
}

// wirePoints are the crash points at a request: before the chat has it, and after the
// chat did what it says and before the answer is read.
var wirePoints = map[string][2]string{
	"getUpdates":          {"offset not confirmed", "updates on their way"},
	"answerCallbackQuery": {"press not answered", "press answered, not handled"},
	"sendMessage":         {"message not at the chat", "message at the chat, answer lost"},
	"editMessageText":     {"edit not at the chat", "edit at the chat, answer lost"},
	"pinChatMessage":      {"pin not at the chat", "pin at the chat, answer lost"},
	"deleteMessage":       {"notice not deleted", "notice deleted, answer lost"},
}

func (k *killed) serveAPI(w http.ResponseWriter, r *http.Request) {
	method := path.Base(r.URL.Path)
	body, err := io.ReadAll(r.Body)
	if err != nil {
		return
	}
	r.Body = io.NopCloser(strings.NewReader(string(body)))
	k.mu.Lock()
	dead := k.dead
	k.mu.Unlock()
	what := fmt.Sprintf("%s %x", method, sha256.Sum256(body))
	points := wirePoints[method]
	if k.dies(points[0], what) {
		k.shoot(dead)
		return
	}
	if method == "getUpdates" {
		k.poll(dead, +1)
		defer k.poll(dead, -1)
	}
	answer := httptest.NewRecorder()
	k.ServeHTTP(answer, r)
	empty := method == "getUpdates" && !strings.Contains(answer.Body.String(), `"update_id"`)
	if !empty && k.dies(points[1], what) {
		k.shoot(dead)
		return
	}
	w.Header().Set("Content-Type", answer.Header().Get("Content-Type"))
	w.WriteHeader(answer.Code)
	_, _ = w.Write(answer.Body.Bytes())
}

// shoot kills the process that waits for an answer, and sees to it that it is dead.
func (k *killed) shoot(dead chan struct{}) {
	k.mu.Lock()
	c := k.cmd
	k.mu.Unlock()
	_ = c.Process.Kill()
	<-dead
}

func (k *killed) poll(dead chan struct{}, by int) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.dead == dead {
		k.polls += by
	}
}

// errBusy: something is still to be read or sent.
var errBusy = errors.New("busy")

// quiet reports whether the process lives, has read everything and owes nothing.
func (k *killed) quiet() bool {
	k.mu.Lock()
	polls := k.polls
	k.mu.Unlock()
	if polls != 1 || !k.Polling() || k.Pending() != 0 {
		return false
	}
	// A file whose writer was just killed may not be readable for a moment.
	db, err := store.Open(k.t.Context(), k.db, store.Options{ReadOnly: true})
	if err != nil {
		return false
	}
	defer func() { _ = db.Close() }()
	return nil == db.View(k.t.Context(), k.clock.Now(), func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil || len(crews) == 0 {
			return err
		}
		list, err := tx.Outbox(crews[0].ID)
		for _, m := range list {
			if m.State == "claimed" || m.State == "queued" && !m.Due.After(k.clock.Now()) {
				return errBusy
			}
		}
		return err
	})
}

// rest waits until nothing is left to be done. What waits for a later time, or for
// the next tick, is helped by a remark that is not for the bot.
func (k *killed) rest() {
	k.t.Helper()
	again, late := time.NewTicker(5*time.Millisecond), time.After(bound)
	defer again.Stop()
	for calm, tries := 0, 1; calm < 3; tries++ {
		select {
		case <-again.C:
		case <-late:
			require.FailNow(k.t, "it never comes to rest", "polls %d, polling %v, pending %d: %s", k.polls, k.Polling(), k.Pending(), k.err.String())
		}
		k.mu.Lock()
		faults := k.faults
		k.mu.Unlock()
		require.Empty(k.t, faults, k.err.String())
		if calm++; !k.quiet() {
			calm = 0
		}
		if tries%60 == 0 && calm == 0 {
			k.clock.Advance(2 * time.Second)
			// A remark while others wait, or the process starts, would only kill it again.
			if k.Polling() && k.Pending() == 0 {
				k.Say(k.group, k.ash, "what a day")
			}
		}
	}
}

// does has somebody do something, and lets the process come to rest.
func (k *killed) does(do func()) {
	k.t.Helper()
	do()
	k.rest()
	k.clock.Advance(breath)
}
