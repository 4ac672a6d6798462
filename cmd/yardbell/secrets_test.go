package main

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// secretWord is the part of the token that a search finds whatever it stands in.
const secretWord = "MARKERsecret"

// assertSecret finds the token neither in what was printed nor in any file beside
// the database, the log that SQLite keeps included.
func (w *world) assertSecret(name string) {
	w.t.Helper()
	assert.NotContains(w.t, w.out.String(), secretWord, name)
	assert.NotContains(w.t, w.err.String(), secretWord, name)
	files, err := filepath.Glob(filepath.Join(filepath.Dir(w.db), "*"))
	require.NoError(w.t, err)
	require.NotEmpty(w.t, files)
	for _, f := range files {
		b, err := os.ReadFile(f)
		require.NoError(w.t, err)
		assert.False(w.t, bytes.Contains(b, []byte(secretWord)), "%s: in %s", name, f)
	}
}

// faultsOf are all the ways in which a request can fail.
func faultsOf() map[string]apidouble.Fault {
	return map[string]apidouble.Fault{
		"400": apidouble.Refuse(400, "Bad Request: no"), "403": apidouble.Refuse(403, "Forbidden: no"), "404": apidouble.Refuse(404, "Not Found"),
		"409": apidouble.OtherInstance(), "429": apidouble.TooMany(3), "500": apidouble.ServerError(500), "502 page": apidouble.HTMLPage(502),
		"401 page": apidouble.HTMLPage(401), "no JSON": apidouble.BadJSON(), "cut before": apidouble.CutBefore(), "cut after": apidouble.CutAfter(),
		"cut inside": apidouble.CutMidAnswer(), "401": apidouble.Unauthorized(), "late 500": apidouble.ServerError(500).Late(),
	}
}

// Each fault hits every call that the service makes: at the start, while it reads,
// while it sends, edits and answers presses.
func TestSecretThroughEveryFault(t *testing.T) {
	for name, f := range faultsOf() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newWorld(t, apidouble.Options{ReadsAll: true})
			w.serve()
			code := strings.TrimSpace(w.out.await(t, "join code: "))
			welcome := w.says(w.wren, "/join "+code)
			w.settled()
			methods := []string{"getMe", "deleteWebhook", "getUpdates", "sendMessage", "answerCallbackQuery", "editMessageText", "getChatMember"}
			for _, m := range methods {
				w.Script(m, f)
			}
			w.Press(w.group, w.wren, welcome.ID, "America/Chicago")
			w.Say(w.group, w.wren, "add breeder 7")
			w.clock.Advance(time.Minute)
			w.await("the faults", func() bool { return w.FaultsLeft("getUpdates") == 0 || w.over() })
			w.quit()
			w.assertSecret(name)
			// Once more from the start, where getMe and what follows it fail.
			w.serve()
			w.await("the faults at the start", func() bool { return w.FaultsLeft("getMe") == 0 })
			w.clock.Advance(time.Minute)
			if !w.over() && name != "401" && name != "404" {
				w.settled()
			}
			w.quit()
			w.assertSecret(name)
		})
	}
}

// over reports whether the service has ended by itself.
func (w *world) over() bool {
	select {
	case code := <-w.done:
		w.done <- code
		return true
	default:
		return false
	}
}

// panicking is set for a child process that serves until its clock panics; the
// number says from which reading on. The scheduler catches that; the reader does not.
const panicking = "YARDBELL_TEST_PANIC"

// TestSecretChild is the process that TestSecretThroughPanic kills.
func TestSecretChild(t *testing.T) {
	last, err := strconv.Atoi(os.Getenv(panicking))
	if err != nil {
		t.Skip("only as a child of TestSecretThroughPanic")
	}
	var n atomic.Int64
	run(t.Context(), []string{"serve", "--db", os.Getenv("DB"), "--api", os.Getenv("API")}, env{in: os.Stdin, out: os.Stdout, errOut: os.Stderr, get: os.Getenv,
		clock: func() time.Time {
			if n.Add(1) >= int64(last) {
				panic("forced")
			}
			return apidouble.DefaultStart
		},
		tty: func(io.Writer) bool { return false }})
}

// A panic takes the process down with the stacks of everything that runs in it, and
// even these show no token.
func TestSecretThroughPanic(t *testing.T) {
	for _, at := range []string{"1", "2", "4", "6"} {
		w := newWorld(t, apidouble.Options{ReadsAll: true})
		for range 5 {
			w.Say(w.group, w.wren, "due")
		}
		ctx, cancel := context.WithTimeout(t.Context(), bound)
		defer cancel()
		c := exec.CommandContext(ctx, os.Args[0], "-test.run=^TestSecretChild$")
		c.Env = append(os.Environ(), panicking+"="+at, "DB="+w.db, "API="+w.URL(), "YARDBELL_TOKEN="+markerToken, "GOTRACEBACK=system")
		said, err := c.CombinedOutput()
		require.Error(t, err, "reading %s", at)
		require.Contains(t, string(said), "panic: forced")
		require.Contains(t, string(said), "goroutine ")
		assert.NotContains(t, string(said), secretWord)
		w.out, w.err = newScreen(), newScreen()
		w.assertSecret("panic at reading " + at)
	}
}

// The world around the Bot API: nobody there, a name that does not resolve, a server
// that sends elsewhere, a page that repeats the address, a proxy that refuses.
func TestSecretThroughTheNetwork(t *testing.T) {
	closed := httptest.NewServer(http.NotFoundHandler())
	closed.Close()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	t.Cleanup(func() { _ = l.Close() })
	echo := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.WriteHeader(http.StatusBadGateway)
		_, _ = w.Write([]byte("<p>no answer to " + r.URL.String() + "</p>"))
	}))
	t.Cleanup(echo.Close)
	json := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/json")
		_, _ = w.Write([]byte(`[1,`))
	}))
	t.Cleanup(json.Close)
	reached := make(chan string, 10)
	elsewhere := httptest.NewServer(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { reached <- r.URL.String() }))
	t.Cleanup(elsewhere.Close)
	redirect := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, elsewhere.URL+r.URL.Path, http.StatusFound)
	}))
	t.Cleanup(redirect.Close)
	for name, api := range map[string]string{"closed port": closed.URL, "no such name": "http://nowhere.invalid", "page": echo.URL, "half an answer": json.URL,
		"redirect": redirect.URL, "no TLS there": strings.Replace(echo.URL, "http:", "https:", 1)} {
		t.Run(name, func(t *testing.T) {
			w := newWorld(t, apidouble.Options{})
			w.serve("--api", api, "--api-plain")
			said := w.err.await(t, "reading updates failed")
			assert.Contains(t, said, "getMe")
			w.quit()
			w.assertSecret(name)
		})
	}
	select {
	case where := <-reached:
		assert.Fail(t, "the redirect was followed", where)
	default:
	}
}
