package main

import (
	"net"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// freeAddress is a loopback address nobody listens on.
func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer func() { _ = l.Close() }()
	return l.Addr().String()
}

// watching is a world with names and a batch in it, whose service is watched over.
func watching(t *testing.T, args ...string) (w *world, at string) {
	w = newWorld(t, apidouble.Options{ReadsAll: true})
	at = freeAddress(t)
	w.join(append([]string{"--watch", at}, args...)...)
	w.says(w.wren, "set zone America/Chicago")
	for _, text := range []string{"add breeder 7", "add builder B2", "add yard Larkspur 40 nucs", "graft 45 from 7 into B2 yesterday 8:00"} {
		w.says(w.wren, text)
	}
	return w, at
}

// figure is a sample of the metrics, -1 where it is not there.
func figure(body, name string) string {
	m := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(name) + ` (\S+)$`).FindStringSubmatch(body)
	if m == nil {
		return "none"
	}
	return m[1]
}

// The process lives, the service does its work: two questions with two answers.
func TestWatchReady(t *testing.T) {
	w, at := watching(t)
	code, body := get(t, "http://"+at+"/healthz")
	assert.Equal(t, 200, code)
	assert.Equal(t, "ok\n", body)
	code, body = get(t, "http://"+at+"/readyz")
	assert.Equal(t, 200, code, body)
	assert.Equal(t, "database: ok\ntick: ok\nchat: ok\n", body)
	// The chat's server hangs.
	hold := make(chan struct{})
	w.Script("getUpdates", apidouble.Slow(hold))
	w.clock.Advance(time.Minute)
	w.await("the hanging poll", func() bool { return w.FaultsLeft("getUpdates") == 0 })
	w.clock.Advance(10 * time.Minute)
	code, body = get(t, "http://"+at+"/healthz")
	assert.Equal(t, 200, code, "the process lives all the same: %s", body)
	code, body = get(t, "http://"+at+"/readyz")
	assert.Equal(t, 503, code)
	assert.Contains(t, body, "chat: nothing for 10m")
	assert.Contains(t, body, "tick: nothing for 1")
	close(hold)
	w.settled()
	w.says(w.wren, "due")
	w.noted("a tick", func() bool { code, _ := get(t, "http://"+at+"/readyz"); return code == 200 })
	// Another program holds the file: nothing can be written.
	db, err := store.Open(t.Context(), w.db, store.Options{})
	require.NoError(t, err)
	w.settled()
	w.clock.Advance(probeEvery)
	require.NoError(t, db.Update(t.Context(), w.clock.Now(), func(*store.Tx) error {
		c, said := get(t, "http://"+at+"/readyz")
		assert.Equal(t, 503, c)
		assert.Contains(t, said, "database: cannot be written")
		return nil
	}))
	require.NoError(t, db.Close())
	w.clock.Advance(probeEvery)
	w.noted("the file again", func() bool { code, _ := get(t, "http://"+at+"/readyz"); return code == 200 })
}

// A service that never reached the chat is not ready, however young it is.
func TestWatchNotReadyYet(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	hold := make(chan struct{})
	w.Script("getMe", apidouble.Slow(hold))
	at := freeAddress(t)
	w.serve("--watch", at)
	w.await("the hanging question", func() bool { return w.FaultsLeft("getMe") == 0 })
	code, body := get(t, "http://"+at+"/readyz")
	assert.Equal(t, 503, code)
	assert.Equal(t, "database: ok\ntick: nothing yet\nchat: nothing yet\n", body)
	_, body = get(t, "http://"+at+"/metrics")
	assert.Equal(t, "0", figure(body, "yardbell_last_contact_timestamp_seconds"))
	close(hold)
	w.noted("contact", func() bool { code, _ := get(t, "http://"+at+"/readyz"); return code == 200 })
	_, body = get(t, "http://"+at+"/metrics")
	assert.NotEqual(t, "0", figure(body, "yardbell_last_contact_timestamp_seconds"))
}

// The figures are in the format's good form, count what happened, and name nobody.
func TestWatchMetrics(t *testing.T) {
	dir := t.TempDir()
	w, at := watching(t, "--backup", dir)
	w.Say(w.group, w.ash, "hello there")
	w.Script("sendMessage", apidouble.Refuse(400, "Bad Request: no").InChat(w.group))
	w.says(w.wren, "due")
	w.noted("a backup", func() bool { list, err := store.NamedBackups(w.db, dir); return err == nil && len(list) == 1 })
	code, body := get(t, "http://"+at+"/metrics")
	require.Equal(t, 200, code)
	problems, err := promlint.New(strings.NewReader(body)).Lint()
	require.NoError(t, err)
	for _, p := range problems {
		assert.False(t, strings.HasPrefix(p.Metric, "yardbell_"), "%s: %s", p.Metric, p.Text)
	}
	for name, want := range map[string]string{
		`yardbell_crews`: "1", `yardbell_logbook_lines`: "6", `yardbell_outbox_parked_messages`: "1", `yardbell_database_up`: "1", `yardbell_outbox_waiting_messages`: "0",
		`yardbell_messages_total{kind="reply",outcome="refused"}`: "1", `yardbell_updates_total{kind="message"}`: "8", `yardbell_answers_withheld_total`: "0",
		`yardbell_late_messages_day`: "0", `yardbell_update_duration_seconds_count`: "8", `yardbell_log_lines_total{level="error"}`: "1",
	} {
		assert.Equal(t, want, figure(body, name), name)
	}
	for _, name := range []string{`yardbell_open_tasks`, `yardbell_ticks_total`, `yardbell_last_tick_timestamp_seconds`, `yardbell_last_contact_timestamp_seconds`,
		`yardbell_database_size_bytes`, `yardbell_last_backup_timestamp_seconds`, `yardbell_send_duration_seconds_count`, `process_resident_memory_bytes`, `go_goroutines`} {
		assert.NotContains(t, []string{"none", "0"}, figure(body, name), name)
	}
	for _, word := range []string{"Wren", "wren", "Ash", "Larkspur", "B2", "Yard", secretWord, "700100", "hello", "crew.db"} {
		assert.NotContains(t, strings.ReplaceAll(body, "yardbell", ""), word)
	}
	// A ping that goes out counts how late it was.
	w.pass(w.clock.Now().Add(30 * time.Hour))
	w.noted("a ping", func() bool {
		_, body := get(t, "http://"+at+"/metrics")
		n := figure(body, "yardbell_ping_delay_seconds_count")
		return n != "0" && n != "none"
	})
}

// What watches over the service is not on the listener that the world may reach, and
// the other way round; and by default neither is there.
func TestWatchIsApart(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	watch, public := freeAddress(t), freeAddress(t)
	w.join("--watch", watch, "--listen", public, "--calendar", "https://bees.example")
	for path, code := range map[string]int{"/metrics": 404, "/readyz": 404, "/healthz": 200, "/": 404} {
		got, _ := get(t, "http://"+public+path)
		assert.Equal(t, code, got, "public %s", path)
	}
	for path, code := range map[string]int{"/calendar/" + strings.Repeat("A", 32) + ".ics": 404, "/debug/pprof/": 404, "/": 404} {
		got, body := get(t, "http://"+watch+path)
		assert.Equal(t, code, got, "watch %s", path)
		assert.Equal(t, "404 page not found\n", body)
	}
	w.quit()
	w.serve()
	w.says(w.wren, "due")
	for _, at := range []string{watch, public} {
		_, err := net.Dial("tcp", at)
		assert.Error(t, err, "nobody listens by default")
	}
}

func TestWatchUsage(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	for args, said := range map[string]string{
		"--watch 0.0.0.0:8089":        "loopback alone",
		"--watch :8089":               "loopback alone",
		"--watch [::]:8089":           "loopback alone",
		"--watch 192.0.2.1:8089":      "loopback alone",
		"--watch bees.example:8089":   "loopback alone",
		"--watch nowhere":             "takes an address",
		"--watch-open":                "needs --watch",
		"--heartbeat 4m":              "takes 5m or more",
		"--heartbeat -1m":             "takes 5m or more",
		"--heartbeat soon":            "heartbeat",
		"--log yaml":                  "--log takes text or json",
		"--log-level loud":            "--log-level takes",
		"--watch 127.0.0.1:1 --log x": "--log takes",
	} {
		out, errOut := newScreen(), newScreen()
		code := run(t.Context(), append([]string{"serve", "--db", filepath.Join(t.TempDir(), "other.db"), "--api", w.URL()}, strings.Fields(args)...), w.env(out, errOut))
		assert.Equal(t, 2, code, args)
		assert.Contains(t, errOut.String(), said, args)
	}
	for _, ok := range []watchFlags{{at: "127.0.0.1:1"}, {at: "[::1]:1"}, {at: "localhost:1"}, {at: "127.9.9.9:1"}, {at: "0.0.0.0:1", open: true}, {heartbeat: time.Hour}, {}} {
		assert.NoError(t, ok.fault())
	}
}

// The health command asks either question.
func TestHealthReady(t *testing.T) {
	w, at := watching(t)
	ask := func(args ...string) (int, string) {
		out, errOut := newScreen(), newScreen()
		code := run(t.Context(), append([]string{"health", "--at", at}, args...), w.env(out, errOut))
		return code, out.String() + errOut.String()
	}
	code, said := ask()
	assert.Equal(t, 0, code)
	assert.Equal(t, "ok\n", said)
	code, said = ask("--ready")
	assert.Equal(t, 0, code)
	assert.Equal(t, "database: ok\ntick: ok\nchat: ok\n", said)
	w.clock.Advance(6 * time.Minute)
	code, said = ask("--ready")
	if code == 1 { // unless the poll and the tick came first
		assert.Regexp(t, `^yardbell: database: ok (tick|chat)`, said)
	}
}

// The unit and the image use flags that are there.
func TestDeployFlags(t *testing.T) {
	for _, file := range []string{"../../Dockerfile", "../../deploy/yardbell.service", "../../deploy/image.sh"} {
		b, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`(?m)(?:"serve"|\bserve) [^\n]*`).FindAllString(string(b), -1) {
			c := serveCommand(env{})
			for _, f := range regexp.MustCompile(`--([a-z-]+)`).FindAllStringSubmatch(m, -1) {
				assert.NotNil(t, c.Flags().Lookup(f[1]), "%s: --%s", file, f[1])
			}
		}
	}
}
