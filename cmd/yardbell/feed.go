package main

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"net/url"
	"strings"
	"time"

	"golang.org/x/time/rate"

	"yardbell/bot"
)

// feedAddress checks the public address of calendars.
func feedAddress(public, listen string) (string, error) {
	if public == "" {
		return "", nil
	}
	u, err := url.Parse(public)
	if err != nil || u.Scheme != "https" && u.Scheme != "http" || u.Host == "" || u.RawQuery != "" || u.Fragment != "" {
		return "", usage("--calendar takes the public address, e.g. https://bees.example, not %q", public)
	}
	if listen == "" {
		return "", usage("--calendar needs --listen, e.g. --listen 127.0.0.1:8088, behind a web server that speaks https")
	}
	return public, nil
}

// A phone asks once an hour. Whoever asks without end must not take the time of the
// chat: so many requests a second are answered, after so many at once.
const (
	feedRate  = 5
	feedBurst = 100
)

// calendarFeed serves calendars by their secret links. Whoever has no link learns
// nothing, not even that there is a crew; a link that was closed reads the same.
func calendarFeed(b *bot.Bot, clock func() time.Time) http.HandlerFunc {
	most := rate.NewLimiter(feedRate, feedBurst)
	return func(w http.ResponseWriter, r *http.Request) {
		if !most.AllowN(clock(), 1) {
			w.Header().Set("Retry-After", "60")
			http.Error(w, "too many requests", http.StatusTooManyRequests)
			return
		}
		secret, ok := strings.CutSuffix(r.PathValue("link"), ".ics")
		if !ok || len(secret) != 32 {
			http.NotFound(w, r)
			return
		}
		file, found, err := b.CalendarFeed(r.Context(), clock(), secret)
		switch {
		case err != nil:
			http.Error(w, "the calendar cannot be read now", http.StatusServiceUnavailable)
			return
		case !found:
			http.NotFound(w, r)
			return
		}
		sum := sha256.Sum256(file)
		tag := `"` + hex.EncodeToString(sum[:16]) + `"`
		h := w.Header()
		h.Set("ETag", tag)
		h.Set("Cache-Control", "private, max-age=300")
		h.Set("X-Robots-Tag", "noindex")
		h.Set("Referrer-Policy", "no-referrer")
		if r.Header.Get("If-None-Match") == tag {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		h.Set("Content-Type", "text/calendar; charset=utf-8")
		_, _ = w.Write(file)
	}
}
