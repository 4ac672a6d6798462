package main

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// feeding is a world with a batch, whose serve listens and makes calendar links. It
// gives the address it listens on.
func feeding(t *testing.T) (w *world, listen string) {
	w = newWorld(t, apidouble.Options{ReadsAll: true})
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	listen = l.Addr().String()
	require.NoError(t, l.Close())
	w.join("--listen", listen, "--calendar", "https://bees.example/yard")
	w.says(w.wren, "set zone America/Chicago")
	for _, text := range []string{"add breeder 7", "add builder B2", "graft 45 from 7 into B2 yesterday 8:00"} {
		w.says(w.wren, text)
	}
	return w, listen
}

// fetch reads from the feed as a phone does.
func fetch(t *testing.T, address, tag string) (status int, head http.Header, body string) {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	require.NoError(t, err)
	if tag != "" {
		req.Header.Set("If-None-Match", tag)
	}
	resp, err := http.DefaultClient.Do(req)
	require.NoError(t, err)
	defer func() { _ = resp.Body.Close() }()
	b, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	return resp.StatusCode, resp.Header, string(b)
}

var linkForm = regexp.MustCompile(`https://bees\.example/yard(/calendar/([A-Za-z0-9_-]{32})\.ics)`)

// feedEvents gives the events of a calendar by what they are about: status and sequence.
func feedEvents(body string) map[string]string {
	out := map[string]string{}
	body = strings.ReplaceAll(body, "\r\n ", "")
	for _, e := range strings.Split(body, "BEGIN:VEVENT")[1:] {
		get := func(name string) string {
			m := regexp.MustCompile(`(?m)^` + name + `(?:;[^:\r\n]*)?:(.*)\r$`).FindStringSubmatch(e)
			if m == nil {
				return ""
			}
			return m[1]
		}
		out[strings.ReplaceAll(get("SUMMARY"), `\,`, ",")] = get("STATUS") + " " + get("SEQUENCE")
	}
	return out
}

// The link is the lead's, in private; it opens the calendar as it is at every moment,
// and nothing tells a link that was closed from one that never was.
func TestServeFeed(t *testing.T) {
	w, listen := feeding(t)
	at := "http://" + listen

	// Asked for in the group it is given to nobody there; to others than the lead never.
	in := w.says(w.wren, "calendar link")
	assert.NotContains(t, in.Text, "bees.example")
	assert.NotContains(t, w.says(w.ash, "calendar link").Text, "bees.example")
	assert.NotContains(t, w.answer(w.ash, func() { w.Say(w.ash, w.ash, "calendar link") }).Text, "bees.example")
	given := w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") }).Text
	link := linkForm.FindStringSubmatch(given)
	require.NotNil(t, link, given)

	status, head, body := fetch(t, at+link[1], "")
	require.Equal(t, http.StatusOK, status)
	assert.Equal(t, "text/calendar; charset=utf-8", head.Get("Content-Type"))
	assert.Equal(t, "noindex", head.Get("X-Robots-Tag"))
	assert.Contains(t, head.Get("Cache-Control"), "private")
	was := feedEvents(body)
	require.Contains(t, was, "Count accepted cells, batch 1: 45 in B2")
	assert.Equal(t, "CONFIRMED 0", was["Count accepted cells, batch 1: 45 in B2"])

	// Nothing has changed: the phone is told so, and has nothing to load.
	tag := head.Get("ETag")
	require.NotEmpty(t, tag)
	status, _, body = fetch(t, at+link[1], tag)
	assert.Equal(t, http.StatusNotModified, status)
	assert.Empty(t, body)

	// What is done is cancelled, what it changes has a higher number.
	w.says(w.wren, "accepted 38")
	status, head, body = fetch(t, at+link[1], tag)
	require.Equal(t, http.StatusOK, status)
	assert.NotEqual(t, tag, head.Get("ETag"))
	now := feedEvents(body)
	assert.Equal(t, "CANCELLED 1", now["Count accepted cells, batch 1: 45 in B2"], "%v", now)
	grown := 0
	for _, s := range now {
		if s == "CONFIRMED 1" {
			grown++
		}
	}
	assert.NotZero(t, grown, "%v", now)
	w.says(w.wren, "undo")
	_, _, body = fetch(t, at+link[1], "")
	assert.Equal(t, "CONFIRMED 2", feedEvents(body)["Count accepted cells, batch 1: 45 in B2"])

	// Only the lead closes it. Then it reads as one that never was.
	w.says(w.ash, "calendar off")
	status, _, _ = fetch(t, at+link[1], "")
	assert.Equal(t, http.StatusOK, status)
	assert.Contains(t, w.says(w.wren, "calendar off").Text, "closed")
	gone, _, goneBody := fetch(t, at+link[1], tag)
	assert.Equal(t, http.StatusNotFound, gone)
	for _, other := range []string{"/calendar/" + strings.Repeat("A", 32) + ".ics", "/calendar/x.ics", "/calendar/" + link[2], "/calendar/" + strings.Repeat("A", 400) + ".ics"} {
		status, _, body := fetch(t, at+other, "")
		assert.Equal(t, gone, status, other)
		assert.Equal(t, goneBody, body, other)
	}
	// A new link is another, and the old stays closed.
	given = w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") }).Text
	fresh := linkForm.FindStringSubmatch(given)
	require.NotNil(t, fresh, given)
	assert.NotEqual(t, link[2], fresh[2])
	status, _, _ = fetch(t, at+link[1], "")
	assert.Equal(t, http.StatusNotFound, status)
	status, _, _ = fetch(t, at+fresh[1], "")
	assert.Equal(t, http.StatusOK, status)
	// The address is nowhere but in the private chat: not in the file, not in what serve says.
	for _, m := range w.Sent(w.group) {
		assert.NotContains(t, m.Text, fresh[2])
	}
	assert.NotContains(t, w.out.String()+w.err.String(), fresh[2])
	assert.Empty(t, w.Violations())
}

// Without --calendar there is no feed, and no link to be had.
func TestServeNoFeed(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	assert.Contains(t, w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") }).Text, "No calendar link can be made")
	for _, args := range [][]string{{"--calendar", "https://bees.example"}, {"--calendar", "bees.example", "--listen", "127.0.0.1:0"}, {"--calendar", "https://bees.example?x=1", "--listen", "127.0.0.1:0"}} {
		out, errOut := newScreen(), newScreen()
		code := run(t.Context(), append([]string{"serve", "--db", filepath.Join(t.TempDir(), "other.db"), "--api", w.URL()}, args...), w.env(out, errOut))
		assert.Equal(t, 2, code, fmt.Sprint(args))
		assert.Contains(t, errOut.String(), "--calendar")
	}
}

// askAs reads from the feed as a web server in front of it does for somebody.
func askAs(t *testing.T, address, from string) int {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	require.NoError(t, err)
	if from != "" {
		req.Header.Set("X-Forwarded-For", from)
	}
	resp, err := http.DefaultClient.Do(req)
	require.NoError(t, err)
	_ = resp.Body.Close()
	return resp.StatusCode
}

// Whoever tries links is refused, by the address that the web server in front names, and
// shuts nobody out: not who has a link and was there before, nor who comes for the first
// time, from the same address neither where none is named. A link itself has its end too.
func TestServeFeedFlood(t *testing.T) {
	w, listen := feeding(t)
	given := w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") }).Text
	link := linkForm.FindStringSubmatch(given)
	require.NotNil(t, link, given)
	w.clock.Advance(time.Minute)
	mine, guess := "http://"+listen+link[1], "http://"+listen+"/calendar/"+strings.Repeat("A", 32)+".ics"
	many := func(n int, address, from string) map[int]int {
		counts := map[int]int{}
		for range n {
			counts[askAs(t, address, from)]++
		}
		return counts
	}
	// At once far more than the 20 a second that once kept the crew's phones out.
	assert.Equal(t, map[int]int{http.StatusNotFound: 120}, many(120, guess, ""))
	assert.Equal(t, http.StatusOK, askAs(t, mine, ""), "its first time, after the guesses")
	assert.Equal(t, map[int]int{http.StatusNotFound: guessBurst, http.StatusTooManyRequests: 30}, many(guessBurst+30, guess, "203.0.113.9"))
	assert.Equal(t, http.StatusTooManyRequests, askAs(t, guess, "192.0.2.77, 203.0.113.9"), "what the caller writes before does not count")
	assert.Equal(t, http.StatusNotFound, askAs(t, guess, "203.0.113.10"), "another address")
	assert.Equal(t, http.StatusOK, askAs(t, mine, "203.0.113.9"), "a phone that shares the address")
	assert.Positive(t, many(newBurst, guess, "")[http.StatusTooManyRequests], "all together have a far end")
	assert.Equal(t, http.StatusOK, askAs(t, mine, ""))
	// The link without end: making the calendar takes the time of the chat.
	counts := many(2*linkBurst, mine, "198.51.100.7")
	assert.Equal(t, linkBurst-3, counts[http.StatusOK])
	_, head, _ := fetch(t, mine, "")
	assert.NotEmpty(t, head.Get("Retry-After"))
	w.says(w.wren, "due")
	w.clock.Advance(time.Minute)
	assert.Equal(t, http.StatusOK, askAs(t, mine, ""))
	// Closed, it is a guess like others.
	w.says(w.wren, "calendar off")
	assert.Equal(t, http.StatusNotFound, askAs(t, mine, ""))
}

// Twenty guesses a second for a while, and every fetch of the real link between them is
// answered.
func TestServeFeedBesideGuesses(t *testing.T) {
	w, listen := feeding(t)
	given := w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") }).Text
	link := linkForm.FindStringSubmatch(given)
	require.NotNil(t, link, given)
	answered := 0
	for second := range 20 {
		for n := range 20 {
			askAs(t, fmt.Sprintf("http://%s/calendar/%032d.ics", listen, 100*second+n), "")
		}
		if askAs(t, "http://"+listen+link[1], "") == http.StatusOK {
			answered++
		}
		w.clock.Advance(time.Second)
	}
	t.Logf("%d of 20 fetches of the real link were answered", answered)
	assert.Equal(t, 20, answered)
}

// Whom a request counts for.
func TestFeedCaller(t *testing.T) {
	for _, c := range []struct{ peer, forwarded, want string }{
		{"127.0.0.1:1", "", "invalid Prefix"},
		{"[::1]:1", "nonsense", "invalid Prefix"},
		{"127.0.0.1:1", "203.0.113.9", "203.0.113.9/32"},
		{"172.18.0.2:1", "10.0.0.1, 203.0.113.9", "203.0.113.9/32"},
		{"192.168.1.7:1", "", "192.168.1.7/32"},
		{"203.0.113.9:1", "198.51.100.1", "203.0.113.9/32"},
		{"[::ffff:203.0.113.9]:1", "", "203.0.113.9/32"},
		{"[2001:db8:1:2:3:4:5:6]:1", "", "2001:db8:1:2::/64"},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.RemoteAddr = c.peer
		if c.forwarded != "" {
			r.Header.Set("X-Forwarded-For", c.forwarded)
		}
		assert.Equal(t, c.want, caller(r).String(), c.peer+" "+c.forwarded)
	}
}

// What opens the service to others than this machine has to be asked for.
func TestServeStaysOnThisMachine(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	for args, said := range map[string]string{
		"--listen 0.0.0.0:8088":                "--listen-open lets it listen elsewhere",
		"--listen :8088":                       "listens on loopback alone, e.g. 127.0.0.1:8088",
		"--listen [::]:8088":                   "loopback alone",
		"--listen 192.0.2.1:8088":              "loopback alone",
		"--listen 8088":                        "takes an address, e.g. 127.0.0.1:8088",
		"--listen-open":                        "needs --listen",
		"--api http://192.0.2.1:8081":          "carry the token unencrypted",
		"--api http://botapi.example":          "insist with --api-plain",
		"--api HTTP://botapi.example":          "carry the token unencrypted",
		"--api http://localhost.bees.example/": "carry the token unencrypted",
	} {
		out, errOut := newScreen(), newScreen()
		code := run(t.Context(), append([]string{"serve", "--db", filepath.Join(t.TempDir(), "other.db"), "--api", w.URL()}, strings.Fields(args)...), w.env(out, errOut))
		assert.Equal(t, 2, code, args)
		assert.Contains(t, errOut.String(), said, args)
		assert.NotContains(t, errOut.String(), "MARKER")
	}
	for _, ok := range []serveFlags{{listen: "127.0.0.1:1"}, {listen: "[::1]:1"}, {listen: "0.0.0.0:1", open: true}, {api: "http://127.0.0.1:1"}, {api: "http://[::1]:1"},
		{api: "http://localhost"}, {api: "https://botapi.example"}, {api: "http://botapi.example", plain: true}, {}} {
		assert.NoError(t, ok.fault())
	}
}
