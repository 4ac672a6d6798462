package main

import (
	"bytes"
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// The first signal lets a message that is on its way arrive; the second ends the process
// at once, so that one that hangs can be ended by hand. That holds too where the program
// was started with the signal ignored, as by a script in the background.
func TestSecondSignalEnds(t *testing.T) {
	for name, before := range map[string]string{"started by hand": "", "started in the background": `trap "" INT; `} {
		t.Run(name, func(t *testing.T) { secondSignal(t, before) })
	}
}

func secondSignal(t *testing.T, before string) {
	program, err := binary()
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "crew.db")
	db, err := store.Open(t.Context(), file, store.Options{})
	require.NoError(t, err)
	require.NoError(t, db.Update(t.Context(), time.Now(), func(tx *store.Tx) error {
		c, err := tx.NewCrew("telegram", -1, map[string]string{"zone": "UTC"})
		if err != nil {
			return err
		}
		return tx.Queue(store.Message{Crew: c.ID, Key: "one", Kind: "reply", Text: "one"})
	}))
	require.NoError(t, db.Close())
	sending, over := make(chan struct{}, 9), make(chan struct{})
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if path.Base(r.URL.Path) == "sendMessage" {
			sending <- struct{}{}
			<-over
		}
		quietChat(w, r)
	}))
	t.Cleanup(srv.Close)
	defer close(over)
	ctx, cancel := context.WithTimeout(t.Context(), bound)
	defer cancel()
	c := exec.CommandContext(ctx, "/bin/sh", "-c", before+`exec "$0" "$@"`, program, "serve", "--db", file, "--api", srv.URL)
	c.Env = append(os.Environ(), "YARDBELL_TOKEN="+markerToken)
	require.NoError(t, c.Start())
	done := make(chan error, 1)
	go func() { done <- c.Wait() }()
	select {
	case <-sending:
	case err := <-done:
		require.FailNow(t, "ended", "%v", err)
	}
	require.NoError(t, c.Process.Signal(syscall.SIGINT))
	select {
	case err := <-done:
		require.FailNow(t, "the message was cut off", "%v", err)
	case <-time.After(500 * time.Millisecond):
	}
	// A process that had no time to look at the first takes two for one, so it is told
	// until it ends. By the first alone it would end well, five seconds later.
	again := time.NewTicker(50 * time.Millisecond)
	defer again.Stop()
	for {
		_ = c.Process.Signal(syscall.SIGINT)
		select {
		case <-done:
			assert.Equal(t, 128+int(syscall.SIGINT), c.ProcessState.ExitCode())
			return
		case <-again.C:
		}
	}
}

// What await makes of signals, whatever runs meanwhile.
func TestAwaitSignals(t *testing.T) {
	signals, done := make(chan os.Signal, 2), make(chan int, 1)
	none := func() { assert.Fail(t, "stopped without a signal") }
	done <- 2
	assert.Equal(t, 2, await(signals, none, done))
	signals <- syscall.SIGTERM
	assert.Equal(t, 0, await(signals, func() { done <- 0 }, done), "the first lets it end")
	signals <- syscall.SIGTERM
	signals <- syscall.SIGTERM
	stopped := false
	assert.Equal(t, 143, await(signals, func() { stopped = true }, done), "the second does not wait")
	assert.True(t, stopped)
}

// burning is a context that ends when it is asked about for the nth time: the moments at
// which a start can be stopped, one after the other.
type burning struct {
	context.Context
	mu    sync.Mutex
	left  int
	blown func()
}

func (f *burning) burn() {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.left--; f.left == 0 {
		f.blown()
	}
}

func (f *burning) Done() <-chan struct{} { f.burn(); return f.Context.Done() }
func (f *burning) Err() error            { f.burn(); return f.Context.Err() }

// Told to stop at any moment of its first start, serve ends well and says nothing of the
// database; the next start finds a file that it can go on with.
func TestServeStoppedWhileStarting(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	start := func(moment int) (served bool) {
		ctx, stop := context.WithCancel(t.Context())
		defer stop()
		f := &burning{Context: ctx, left: moment, blown: stop}
		out, errOut := newScreen(), newScreen()
		ended := make(chan int, 1)
		go func() {
			ended <- run(f, []string{"serve", "--db", w.db, "--api", w.URL(), "--log-level", "warn"}, w.env(out, errOut))
		}()
		late := time.After(bound)
		for {
			out.mu.Lock()
			said, changed := out.text.String(), out.changed
			out.mu.Unlock()
			if strings.Contains(said, "join code: ") {
				served = ctx.Err() == nil // the start is over, and nobody stopped it
				stop()
				changed = nil
			}
			select {
			case code := <-ended:
				require.Equal(t, 0, code, "moment %d: %s", moment, errOut.String())
				require.Empty(t, errOut.String(), "moment %d", moment)
				return served
			case <-changed:
			case <-late:
				require.FailNow(t, "it does not end", "moment %d: %s", moment, errOut.String())
			}
		}
	}
	moments := 1
	for !start(moments) {
		moments++
	}
	require.Greater(t, moments, 50, "the moments of a start that makes its file")
	w.join()
}

// The same by the process itself, told by a signal: however early, it says nothing. In the
// very first moments it may be ended by the signal before it can ask for it.
func TestTermWhileStarting(t *testing.T) {
	program, err := binary()
	require.NoError(t, err)
	srv := httptest.NewServer(http.HandlerFunc(quietChat))
	t.Cleanup(srv.Close)
	for wait := time.Duration(0); wait < 600*time.Millisecond; wait += 30 * time.Millisecond {
		c := exec.Command(program, "serve", "--db", filepath.Join(t.TempDir(), "crew.db"), "--api", srv.URL, "--log-level", "warn")
		c.Env = append(os.Environ(), "YARDBELL_TOKEN="+markerToken)
		var said bytes.Buffer
		c.Stderr = &said
		require.NoError(t, c.Start())
		time.Sleep(wait)
		require.NoError(t, c.Process.Signal(syscall.SIGTERM))
		_ = c.Wait()
		state := c.ProcessState.Sys().(syscall.WaitStatus)
		assert.True(t, state.Exited() && state.ExitStatus() == 0 || state.Signaled() && state.Signal() == syscall.SIGTERM, "after %s: %s", wait, c.ProcessState)
		assert.Empty(t, said.String(), "after %s", wait)
	}
}

// The signals are asked for before the packages are set up that take long.
func TestSignalsAreAskedForEarly(t *testing.T) {
	program, err := binary()
	require.NoError(t, err)
	c := exec.Command(program, "--help")
	c.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	var trace bytes.Buffer
	c.Stderr = &trace
	require.NoError(t, c.Run())
	early, slow := strings.Index(trace.String(), "init yardbell/cmd/yardbell/early "), strings.Index(trace.String(), "init yardbell/bot/conversation ")
	require.Positive(t, early, trace.String())
	assert.Less(t, early, slow)
}
