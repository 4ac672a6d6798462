package main

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/apidouble"
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

// Whoever asks without end is refused, and takes no time of the chat's; after a pause
// the calendar is there again.
func TestServeFeedFlood(t *testing.T) {
	w, listen := feeding(t)
	given := w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") }).Text
	link := linkForm.FindStringSubmatch(given)
	require.NotNil(t, link, given)
	w.clock.Advance(time.Minute)
	counts := map[int]int{}
	for range feedBurst + 50 {
		status, _, _ := fetch(t, "http://"+listen+"/calendar/"+strings.Repeat("A", 32)+".ics", "")
		counts[status]++
	}
	assert.Equal(t, map[int]int{http.StatusNotFound: feedBurst, http.StatusTooManyRequests: 50}, counts)
	status, head, _ := fetch(t, "http://"+listen+link[1], "")
	assert.Equal(t, http.StatusTooManyRequests, status)
	assert.NotEmpty(t, head.Get("Retry-After"))
	w.says(w.wren, "due")
	w.clock.Advance(time.Minute)
	status, _, _ = fetch(t, "http://"+listen+link[1], "")
	assert.Equal(t, http.StatusOK, status)
}
