package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// Strangers in groups of their own put the bot in and out and type codes without end. It
// costs no call to the chat's server, which a crew's answer would have to wait behind.
func TestServeWrongCodesCostNoCall(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.settled()
	calls := func() int { return len(w.Requests("getChatMember", "getMe")) }
	before := calls()
	for g := range 10 {
		elsewhere := w.NewSupergroup(fmt.Sprintf("Elsewhere %d", g), w.stranger)
		w.AddBot(elsewhere, w.stranger)
		for n := range 30 {
			w.Say(elsewhere, w.stranger, fmt.Sprintf("/join AAAA-%04d", n))
		}
	}
	for range 5 {
		w.Say(w.group, w.ash, "/join AAAA-AAAA") // in the crew's own group it is no claim
	}
	w.says(w.wren, "due")
	assert.Zero(t, calls()-before)
}

// Ten wrong codes, and an account is not heard for ten minutes, with the right one
// neither; others are.
func TestServeWrongCodesHaveAnEnd(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	elsewhere := w.NewSupergroup("Elsewhere", w.stranger)
	w.AddBot(elsewhere, w.stranger)
	for range 10 {
		w.Say(elsewhere, w.stranger, "/join AAAA-AAAA")
	}
	w.Say(elsewhere, w.stranger, "/join "+code)
	w.settled()
	assert.Empty(t, w.Sent(elsewhere))
	assert.Contains(t, w.says(w.wren, "/join "+code).Text, "Wren leads")
	w.quit()
	assert.NotRegexp(t, "level=(WARN|ERROR)", w.err.String())
}

// Privacy mode that was switched while a stranger's group was none of the bot's business
// is known when a group is claimed.
func TestServeHearsAtTheClaim(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	w.settled()
	w.SetPrivacy(false)
	other := w.NewSupergroup("South", w.odile)
	w.AddBot(other, w.odile)
	w.settled()
	assert.Contains(t, w.answer(other, func() { w.Say(other, w.odile, "/join@yardbell_bot "+code) }).Text, "I hear every message here")
}

// servedBy starts the program itself against a server of the test's and gives its log.
func servedBy(t *testing.T, api string, args ...string) (*exec.Cmd, *screen) {
	t.Helper()
	program, err := binary()
	require.NoError(t, err)
	c := exec.Command(program, append([]string{"serve", "--api", api}, args...)...)
	c.Env = append(os.Environ(), "YARDBELL_TOKEN="+markerToken)
	said := newScreen()
	c.Stdout, c.Stderr = said, said
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = c.Process.Signal(os.Interrupt)
		_ = c.Wait()
	})
	return c, said
}

// An answer of 64 MB is not taken into memory, and the service goes on.
func TestServeTakesNoEndlessAnswer(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("how much memory a process took at most is read from /proc")
	}
	polls := make(chan int, 100)
	n := 0
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if path.Base(r.URL.Path) != "getUpdates" {
			quietChat(w, r)
			return
		}
		n++
		polls <- n
		if n > 1 {
			quietChat(w, r)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		_, err := io.WriteString(w, `{"ok":true,"result":[{"update_id":1,"message":{"text":"`)
		fill := strings.Repeat("x", 1<<20)
		for mb := 0; mb < 64 && err == nil; mb++ {
			_, err = io.WriteString(w, fill)
		}
	}))
	t.Cleanup(s.Close)
	c, said := servedBy(t, s.URL, "--db", filepath.Join(t.TempDir(), "crew.db"))
	for range 2 {
		select {
		case <-polls:
		case <-time.After(bound):
			require.FailNow(t, "it does not read on", said.String())
		}
	}
	status := read(t, fmt.Sprintf("/proc/%d/status", c.Process.Pid))
	_, rest, found := strings.Cut(status, "VmHWM:")
	require.True(t, found, status)
	var peak int
	_, err := fmt.Sscan(rest, &peak)
	require.NoError(t, err)
	t.Logf("%d MB at most", peak>>10)
	assert.Less(t, peak>>10, 130)
}

// joinCode runs the program beside a service and gives the code that it prints.
func joinCode(t *testing.T, db string) string {
	t.Helper()
	program, err := binary()
	require.NoError(t, err)
	out, err := exec.Command(program, "join", "--db", db).CombinedOutput()
	require.NoError(t, err, string(out))
	require.Regexp(t, `^join code: [A-HJ-NP-Z2-9]{4}-[A-HJ-NP-Z2-9]{4}\n$`, string(out))
	return strings.TrimSpace(strings.TrimPrefix(string(out), "join code: "))
}

// A code for one more group comes from the command line while the service runs, a process
// of its own as well; it opens one group, once, and voids the code before it.
func TestServeJoinedWhileItRuns(t *testing.T) {
	d := apidouble.Start(t, apidouble.Options{Token: markerToken, ReadsAll: true, Clock: apidouble.WallClock(time.Now)})
	wren, ash := d.NewUser("Wren", ""), d.NewUser("Ash", "")
	groups := map[int64]int64{}
	for _, who := range []int64{wren, ash} {
		groups[who] = d.NewSupergroup("Yard", who)
		d.AddBot(groups[who], who)
	}
	db := filepath.Join(t.TempDir(), "crew.db")
	_, said := servedBy(t, d.URL(), "--db", db)
	says := func(who int64, text string) string {
		t.Helper()
		n := len(d.Sent(groups[who]))
		d.Say(groups[who], who, text)
		ctx, cancel := context.WithTimeout(t.Context(), bound)
		defer cancel()
		require.NoError(t, d.Await(ctx, func() bool { return len(d.Sent(groups[who])) > n }), said.String())
		return d.Sent(groups[who])[n].Text
	}
	assert.Contains(t, says(wren, "/join "+strings.TrimSpace(said.await(t, "join code: "))), "Wren leads")
	void, code := joinCode(t, db), joinCode(t, db)
	d.Say(groups[ash], ash, "/join "+void)
	assert.Contains(t, says(ash, "/join "+code), "Ash leads")
	assert.Len(t, d.Sent(groups[ash]), 1, "the void code was no claim")
	third := d.NewSupergroup("Third", wren)
	d.AddBot(third, wren)
	d.Say(third, wren, "/join "+code)
	says(wren, "due") // read after that
	assert.Empty(t, d.Sent(third), "the code is spent")
	assert.Empty(t, d.Violations())
}

// Where no group can come to, no code is printed.
func TestJoinRefuses(t *testing.T) {
	dir := t.TempDir()
	for db, said := range map[string]string{"": "name the database", filepath.Join(dir, "none.db"): "does not exist", crewFile(t, round): "was played at the console"} {
		var out, errOut bytes.Buffer
		args := []string{"join"}
		if db != "" {
			args = append(args, "--db", db)
		}
		assert.NotEqual(t, 0, run(t.Context(), args, testEnv("", &out, &errOut)))
		assert.Contains(t, errOut.String(), said)
		assert.Empty(t, out.String())
	}
}
