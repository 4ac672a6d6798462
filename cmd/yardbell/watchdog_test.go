package main

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/scheduler"
	"yardbell/store"
)

// What the watchdog makes of heartbeats, on a clock that the test moves.
func TestWatchdogLooks(t *testing.T) {
	start := apidouble.DefaultStart
	const limit = 15 * time.Minute
	type step struct {
		after          time.Duration // since the look before
		heartbeatKinds []heartbeat   // given just before this look
		ends           string        // what the look finds, "" for all well
	}
	both := []heartbeat{ticked, reached}
	for name, c := range map[string]struct {
		stay  bool
		limit time.Duration
		steps []step
		said  string
	}{
		"all well":          {false, limit, []step{{time.Minute, both, ""}, {14 * time.Minute, both, ""}, {14 * time.Minute, both, ""}}, ""},
		"no tick":           {false, limit, []step{{time.Minute, both, ""}, {7 * time.Minute, both[1:], ""}, {7 * time.Minute, both[1:], ""}, {time.Minute, both[1:], "no tick has ended well for 15m0s"}}, "part=tick"},
		"no chat":           {false, limit, []step{{time.Minute, both, ""}, {7 * time.Minute, both[:1], ""}, {7 * time.Minute, both[:1], ""}, {time.Minute, both[:1], "nothing of the chat could be read for 15m0s"}}, "part=chat"},
		"just short of it":  {false, limit, []step{{time.Minute, both, ""}, {7 * time.Minute, nil, ""}, {7 * time.Minute, nil, ""}, {59 * time.Second, nil, ""}}, ""},
		"never from start":  {false, limit, []step{{5 * time.Minute, nil, ""}, {5 * time.Minute, nil, ""}, {5 * time.Minute, nil, "no tick has ended well for 15m0s"}}, "part=tick"},
		"slept, and wakes":  {false, limit, []step{{time.Minute, both, ""}, {9 * time.Hour, nil, ""}, {20 * time.Second, nil, ""}, {20 * time.Second, both, ""}, {20 * time.Second, nil, ""}}, ""},
		"slept, and hangs":  {false, limit, []step{{time.Minute, both, ""}, {9 * time.Hour, nil, ""}, {20 * time.Second, nil, ""}, {20 * time.Second, nil, "no tick"}}, "part=tick"},
		"clock goes back":   {false, limit, []step{{time.Minute, both, ""}, {-9 * time.Hour, nil, ""}, {20 * time.Second, nil, ""}, {20 * time.Second, nil, ""}, {20 * time.Second, both, ""}}, ""},
		"no limit":          {false, 0, []step{{time.Minute, nil, ""}, {90 * time.Hour, nil, ""}, {90 * time.Hour, nil, ""}, {90 * time.Hour, nil, ""}}, ""},
		"nobody to restart": {true, limit, []step{{time.Minute, both, ""}, {9 * time.Hour, nil, ""}, {time.Hour, nil, ""}, {time.Hour, nil, ""}, {time.Hour, nil, ""}}, "goes on"},
	} {
		t.Run(name, func(t *testing.T) {
			var said bytes.Buffer
			looked := 0
			p := &heartbeats{}
			p.begin(start)
			h := &watchdog{heartbeats: p, limit: c.limit, stay: c.stay, log: slog.New(slog.NewTextHandler(&said, nil)), alive: func() { looked++ }}
			now := start
			for i, s := range c.steps {
				now = now.Add(s.after)
				for _, k := range s.heartbeatKinds {
					p.beat(k, now)
				}
				err := h.look(now)
				if s.ends == "" {
					require.NoError(t, err, "look %d", i+1)
					require.Equal(t, i+1, looked, "the supervisor is told at every good look")
					continue
				}
				require.ErrorContains(t, err, s.ends, "look %d", i+1)
			}
			if c.said == "" {
				assert.Empty(t, said.String())
			} else {
				assert.Contains(t, said.String(), c.said)
			}
			if c.stay {
				assert.Equal(t, 2, strings.Count(said.String(), "\n"), "each part is told of once: "+said.String())
			}
		})
	}
}

// heartChild is set for a child process that serves on a clock a thousand times as fast;
// heartStuck also makes its first send hang for good, whatever it is told.
const (
	heartChild = "YARDBELL_TEST_HEART"
	heartStuck = "YARDBELL_TEST_STUCK"
)

// stuckSender never comes back.
type stuckSender struct{ scheduler.Sender }

func (stuckSender) Send(context.Context, store.Outgoing) (store.Receipt, error) { select {} }

// quietChat is a chat in which nobody writes; it answers a poll in a tenth of a second,
// a hundred seconds by the child's clock.
func quietChat(w http.ResponseWriter, r *http.Request) {
	answer := `{"ok":true,"result":true}`
	switch path.Base(r.URL.Path) {
	case "getMe":
		answer = `{"ok":true,"result":{"id":1,"is_bot":true,"first_name":"Yardbell","username":"yardbell_bot"}}`
	case "getUpdates":
		time.Sleep(100 * time.Millisecond)
		answer = `{"ok":true,"result":[]}`
	}
	w.Header().Set("Content-Type", "application/json")
	_, _ = io.WriteString(w, answer)
}

func TestWatchdogChild(t *testing.T) {
	if os.Getenv(heartChild) == "" {
		t.Skip("only as a child of TestWatchdogEndsTheProcess")
	}
	began := time.Now()
	e := env{in: strings.NewReader(""), out: os.Stdout, errOut: os.Stderr, get: os.Getenv, tty: func(io.Writer) bool { return false }, beats: 50 * time.Millisecond,
		clock: func() time.Time { return apidouble.DefaultStart.Add(1000 * time.Since(began)) }}
	if os.Getenv(heartStuck) != "" {
		e.around = func(s hooks) hooks { return hooks{s.in, stuckSender{s.to}} }
	}
	os.Exit(run(context.Background(), []string{"serve", "--db", os.Getenv("DB"), "--api", os.Getenv("API")}, e))
}

// A process that does not reach the chat, and one whose tick hangs, end by themselves
// with status 1 and say why; systemd, were it there, had heard that they lived until then.
func TestWatchdogEndsTheProcess(t *testing.T) {
	closed, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	away := "http://" + closed.Addr().String()
	require.NoError(t, closed.Close())
	for name, c := range map[string]struct{ stuck, part, why string }{
		"no contact": {"", "part=chat", "nothing of the chat could be read for"},
		"stuck tick": {"1", "part=tick", "no tick has ended well for"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			db := filepath.Join(t.TempDir(), "crew.db")
			api := away
			if c.stuck != "" {
				queueOne(t, db)
				srv := httptest.NewServer(http.HandlerFunc(quietChat))
				t.Cleanup(srv.Close)
				api = srv.URL
			}
			// A path of a socket may be no longer than some 100 bytes.
			dir, err := os.MkdirTemp("", "y")
			require.NoError(t, err)
			t.Cleanup(func() { _ = os.RemoveAll(dir) })
			ear, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: filepath.Join(dir, "n"), Net: "unixgram"})
			require.NoError(t, err)
			defer func() { _ = ear.Close() }()
			var ready, alive, stopping atomic.Int64
			go func() {
				buf := make([]byte, 100)
				for {
					n, err := ear.Read(buf)
					if err != nil {
						return
					}
					switch string(buf[:n]) {
					case "READY=1":
						ready.Add(1)
					case "WATCHDOG=1":
						alive.Add(1)
					case "STOPPING=1":
						stopping.Add(1)
					}
				}
			}()
			ctx, cancel := context.WithTimeout(t.Context(), 2*bound)
			defer cancel()
			cmd := exec.CommandContext(ctx, os.Args[0], "-test.run=^TestWatchdogChild$")
			cmd.Env = append(os.Environ(), heartChild+"=1", heartStuck+"="+c.stuck, "DB="+db, "API="+api, "YARDBELL_TOKEN="+markerToken, "NOTIFY_SOCKET="+filepath.Join(dir, "n"))
			said, err := cmd.CombinedOutput()
			var exit *exec.ExitError
			require.ErrorAs(t, err, &exit, string(said))
			assert.Equal(t, 1, exit.ExitCode(), string(said))
			assert.Contains(t, string(said), "standing still, ending for the supervisor to start it again")
			assert.Contains(t, string(said), c.part)
			assert.Contains(t, string(said), "yardbell: "+c.why)
			assert.NotContains(t, string(said), secretWord)
			assert.EqualValues(t, 1, ready.Load())
			assert.Positive(t, alive.Load())
			assert.Eventually(t, func() bool { return stopping.Load() == 1 }, bound, time.Millisecond)
		})
	}
}

// queueOne makes a database with a crew and a message that waits.
func queueOne(t *testing.T, path string) {
	t.Helper()
	db, err := store.Open(t.Context(), path, store.Options{})
	require.NoError(t, err)
	require.NoError(t, db.Update(t.Context(), apidouble.DefaultStart, func(tx *store.Tx) error {
		c, err := tx.NewCrew("telegram", -1, map[string]string{"zone": "UTC"})
		if err != nil {
			return err
		}
		return tx.Queue(store.Message{Crew: c.ID, Key: "one", Kind: "reply", Text: "one"})
	}))
	require.NoError(t, db.Close())
}
