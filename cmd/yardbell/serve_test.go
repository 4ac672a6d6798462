package main

import (
	"bytes"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

func TestServeJoin(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	assert.Regexp(t, `^[A-HJ-NP-Z2-9]{4}-[A-HJ-NP-Z2-9]{4}$`, code)
	// Before the group is claimed, and with a wrong code, nobody hears anything.
	other := w.NewSupergroup("Elsewhere", w.stranger)
	w.AddBot(other, w.stranger)
	w.Say(w.group, w.wren, "due")
	w.Say(w.group, w.wren, "/join AAAA-AAAA")
	w.Say(w.group, w.wren, "/join")
	w.Say(other, w.stranger, "due")
	w.settled()
	welcome := w.says(w.wren, "/join "+strings.ToLower(code))
	require.Len(t, w.Sent(w.group), 1)
	assert.Contains(t, welcome.Text, "Wren leads")
	assert.Contains(t, welcome.Text, "set zone America/Chicago")
	assert.Contains(t, welcome.Text, "add yard North 40 nucs")
	assert.Contains(t, welcome.Text, "I hear every message here")
	assert.Contains(t, welcome.Labels(), "America/Chicago")
	assert.Contains(t, welcome.Labels(), "English")
	// The code is spent.
	w.silence(func() {
		w.Say(other, w.stranger, "/join "+code)
		w.Say(other, w.stranger, "due")
	})
	assert.Empty(t, w.Sent(other))
	assert.Empty(t, w.Violations())
	assert.NotRegexp(t, "level=(WARN|ERROR)", w.err.String())
	w.quit()
	assert.Equal(t, 0, w.ended())
	// A claimed group needs no code; one more group does.
	w.serve()
	w.says(w.wren, "due")
	assert.Empty(t, w.out.String())
	w.quit()
	w.serve("--join")
	second := strings.TrimSpace(w.out.await(t, "join code: "))
	assert.NotEqual(t, code, second)
	got := w.answer(other, func() { w.Say(other, w.stranger, "/join "+second) })
	assert.Contains(t, got.Text, "Mallory leads")
}

// A code counts until the next start, not longer.
func TestServeOldCode(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	w.serve()
	old := strings.TrimSpace(w.out.await(t, "join code: "))
	w.quit()
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	w.Say(w.group, w.wren, "/join@yardbell_bot "+old)
	w.settled()
	w.says(w.wren, "/join@yardbell_bot "+code)
	assert.Len(t, w.Sent(w.group), 1)
}

func TestServePrivacyText(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	welcome := w.join()
	assert.Contains(t, welcome.Text, "privacy mode is on")
	assert.Contains(t, welcome.Text, "/graft 45 from 7 into B2")
	// With privacy mode on a reply and a slash word are heard.
	assert.Contains(t, w.says(w.ash, "add breeder 7", apidouble.ReplyTo(welcome.ID)).Text, "reeder 7")
	assert.Contains(t, w.says(w.ash, "/confine 7").Text, "reeder 7")
	assert.Len(t, w.book(), 2)
}

func TestServeWelcomeButtons(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	welcome := w.join()
	var id string
	got := w.answer(w.group, func() { id = w.Press(w.group, w.wren, welcome.ID, "America/Chicago") })
	assert.Contains(t, got.Text, "America/Chicago")
	assert.Equal(t, welcome.ID, got.ReplyTo, "the answer hangs on the message pressed")
	_, answered := w.AnswerTo(id)
	assert.True(t, answered)
	assert.Contains(t, w.says(w.wren, "set zone Europe/Berlin").Text, "Europe/Berlin")
	assert.Contains(t, w.answer(w.group, func() { w.Press(w.group, w.wren, welcome.ID, "English") }).Text, "en")
	assert.Contains(t, w.says(w.wren, "set language xx").Text, "xx")
	// Who does not lead changes nothing, by word or by press.
	for _, do := range []func(){
		func() { w.Press(w.group, w.ash, welcome.ID, "America/Denver") },
		func() { w.Say(w.group, w.ash, "set zone America/Denver") },
	} {
		assert.Contains(t, w.answer(w.group, do).Text, "Only the lead (Wren) can do that")
	}
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		require.NoError(t, err)
		s, err := tx.Settings(crews[0].ID)
		assert.Equal(t, "Europe/Berlin", s.Zone.String())
		return err
	})
}

// One process serves a database.
func TestServeTwice(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	var out, errOut bytes.Buffer
	code := run(t.Context(), []string{"serve", "--db", w.db, "--api", w.URL()}, w.env(&out, &errOut))
	assert.Equal(t, 1, code)
	assert.Equal(t, "yardbell: database "+w.db+" is served by another process already; stop that one first\n", errOut.String())
	assert.Empty(t, out.String())
	w.says(w.wren, "due")
	w.quit()
	w.serve() // the lock goes with the process
	w.says(w.wren, "due")
}

func TestServeOtherInstance(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.settled()
	n := len(w.Sent(w.group))
	w.Script("getUpdates", apidouble.OtherInstance(), apidouble.OtherInstance())
	w.clock.Advance(time.Minute) // ends the poll that waits
	waited := func() []time.Duration {
		w.mu.Lock()
		defer w.mu.Unlock()
		return slices.Clone(w.waits)
	}
	w.await("the warning", func() bool { return len(w.Sent(w.group)) > n && len(waited()) >= 2 })
	assert.Contains(t, w.Sent(w.group)[n].Text, "another program reads this bot's messages")
	for _, d := range waited() {
		assert.GreaterOrEqual(t, d, 10*time.Second)
	}
	w.says(w.wren, "due")
	assert.Len(t, w.Sent(w.group), n+2, "warned once a day")
}

// A webhook that somebody set is taken away again.
func TestServeWebhook(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.settled()
	_, body := get(t, w.URL()+"/bot"+markerToken+"/setWebhook?url=https%3A%2F%2Fexample.org%2Fhook")
	require.Contains(t, body, `"ok":true`)
	w.clock.Advance(time.Minute)
	w.says(w.wren, "due")
}

func TestServeRefusedToken(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	w.vars["YARDBELL_TOKEN"] = strings.Replace(markerToken, "MARKER", "MARKERwrong", 1)
	w.serve("--log-level", "warn")
	assert.Equal(t, 1, w.ended())
	lines := strings.Split(strings.TrimSpace(w.err.String()), "\n")
	assert.Equal(t, []string{"yardbell: the server refuses the token; put a valid one and start again"}, lines)
}

// A token that is withdrawn while the service runs ends it the same way.
func TestServeWithdrawnToken(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.settled()
	w.Always("", apidouble.Unauthorized())
	w.clock.Advance(time.Minute)
	assert.Equal(t, 1, w.ended())
	assert.Contains(t, w.err.String(), "yardbell: the server refuses the token")
}

func TestServeTokenSources(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	try := func(vars map[string]string) (int, string) {
		w.vars = vars
		var out, errOut bytes.Buffer
		code := run(t.Context(), []string{"serve", "--db", w.db, "--api", w.URL()}, w.env(&out, &errOut))
		assert.NotContains(t, out.String()+errOut.String(), "MARKER")
		return code, errOut.String()
	}
	code, said := try(nil)
	assert.Equal(t, 2, code)
	assert.Contains(t, said, "YARDBELL_TOKEN_FILE")
	code, said = try(map[string]string{"YARDBELL_TOKEN_FILE": tokenFile(t, 0o604)})
	assert.Equal(t, 2, code)
	assert.Contains(t, said, "can be read by everybody; chmod 600 it")
	code, said = try(map[string]string{"YARDBELL_TOKEN_FILE": t.TempDir()})
	assert.Equal(t, 2, code)
	assert.Contains(t, said, "cannot be read")
	code, said = try(map[string]string{"YARDBELL_TOKEN": "MARKER no token"})
	assert.Equal(t, 2, code)
	assert.Contains(t, said, "does not look like one")
	long := filepath.Join(t.TempDir(), "token")
	require.NoError(t, os.WriteFile(long, []byte(markerToken+strings.Repeat("x", 1024)), 0o600))
	code, said = try(map[string]string{"YARDBELL_TOKEN_FILE": long})
	assert.Equal(t, 2, code)
	assert.Contains(t, said, "cannot be read")
	w.vars = map[string]string{"YARDBELL_TOKEN_FILE": tokenFile(t, 0o600)}
	w.join()
}

func TestServeBadUsage(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer func() { _ = taken.Close() }()
	for _, c := range []struct{ args, said string }{
		{"serve", "--db FILE"},
		{"serve --db " + w.db + " --api ftp://x", "API address"},
		{"serve --db " + w.db + " more", "takes no argument"},
		{"serve --db " + w.db + " --listen nowhere --api " + w.URL(), `--listen takes an address, e.g. 127.0.0.1:8088, not "nowhere"`},
		{"serve --db " + w.db + " --listen 127.0.0.1:port --api " + w.URL(), `--listen cannot listen on "127.0.0.1:port": that is no address and port; it takes ADDRESS:PORT`},
		{"serve --db " + w.db + " --listen 127.0.0.1:99999 --api " + w.URL(), "that is no address and port"},
		{"serve --db " + w.db + " --listen " + taken.Addr().String() + " --api " + w.URL(), "another program listens there; it takes ADDRESS:PORT"},
		{"serve --db " + w.db + " --watch " + taken.Addr().String() + " --api " + w.URL(), "another program listens there; it takes ADDRESS:PORT, e.g. 127.0.0.1:8089"},
	} {
		var out, errOut bytes.Buffer
		assert.Equal(t, 2, run(t.Context(), strings.Fields(c.args), w.env(&out, &errOut)), c.args)
		assert.Contains(t, errOut.String(), c.said)
		assert.Equal(t, 1, strings.Count(errOut.String(), "\n"), errOut.String())
	}
}

func TestServeHealth(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	addr := free.Addr().String()
	require.NoError(t, free.Close())
	w.join("--listen", addr)
	w.settled()
	code, body := get(t, "http://"+addr+"/healthz")
	assert.Equal(t, 200, code)
	assert.Equal(t, "ok\n", body)
	// The chat's server hangs: the next poll is let in and not answered.
	hold := make(chan struct{})
	w.Script("getUpdates", apidouble.Slow(hold))
	w.clock.Advance(time.Minute)
	w.await("the hanging poll", func() bool { return w.FaultsLeft("getUpdates") == 0 })
	w.clock.Advance(10 * time.Minute)
	code, body = get(t, "http://"+addr+"/healthz")
	assert.Equal(t, 503, code)
	assert.Contains(t, body, "has not answered for 10m")
	close(hold)
	w.settled()
	w.says(w.wren, "due")
	code, _ = get(t, "http://"+addr+"/healthz")
	assert.Equal(t, 200, code)
	code, _ = get(t, "http://"+addr+"/")
	assert.Equal(t, 404, code)
}

// Started without a network, and with one that comes and goes, it waits.
func TestServeWaitsForTheNetwork(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.Script("getMe", apidouble.CutBefore(), apidouble.HTMLPage(502), apidouble.ServerError(500))
	w.Script("deleteWebhook", apidouble.CutBefore())
	w.Script("getUpdates", apidouble.BadJSON(), apidouble.TooMany(5), apidouble.CutMidAnswer())
	w.join()
	assert.Zero(t, w.FaultsLeft("getUpdates"))
	assert.Contains(t, w.err.String(), "reading updates failed")
	assert.Empty(t, w.Violations())
}

// Where the database is there and empty, the crew's logbook was lost: no new join code is
// given out as if nothing had been.
func TestServeRefusesAnEmptyFile(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	require.NoError(t, os.WriteFile(w.db, nil, 0o600))
	w.serve()
	assert.Equal(t, 1, w.ended())
	assert.Contains(t, w.err.String(), w.db+" is there but empty (0 bytes)")
	assert.Empty(t, w.out.String())
	st, err := os.Stat(w.db)
	require.NoError(t, err)
	assert.Zero(t, st.Size())
}

// At the log's default level a start says as which bot it is connected and how many
// groups it serves, with the chat's words about nothing else.
func TestServeSaysWhomItServes(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	assert.Contains(t, w.err.String(), "level=INFO msg=connected bot=@yardbell_bot groups=0\n")
	w.quit()
	w.serve()
	assert.Equal(t, "=@yardbell_bot groups=1", w.err.await(t, "level=INFO msg=connected bot"))
	w.settled()
	w.quit()
	w.serve("--log-level", "warn")
	w.settled()
	w.quit()
	assert.Empty(t, w.err.String())
}
