package main

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"sync"
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

// A phone asks once an hour. Whoever asks without end must not take the time of the chat,
// and whoever tries links must not shut out who has one.
const (
	linkBurst, linkEvery   = 30, time.Second      // of one link: making a calendar is what costs
	guessBurst, guessEvery = 20, 10 * time.Second // wrong links of one address
	newBurst, newEvery     = 200, 20 * time.Millisecond

	mostCallers = 10_000 // addresses and links that are remembered, each
)

// feedLimits count the requests for calendars: by link where it was found to be one, else
// by the address that tries. Looking an unknown link up is one read, so that those of all
// addresses together have a far end only; it keeps a link that was not fetched since the
// start waiting, no other.
type feedLimits struct {
	mu      sync.Mutex
	links   map[[sha256.Size]byte]*rate.Limiter
	guesses map[netip.Prefix]*rate.Limiter
	unknown *rate.Limiter
}

func newFeedLimits() *feedLimits {
	return &feedLimits{links: map[[sha256.Size]byte]*rate.Limiter{}, guesses: map[netip.Prefix]*rate.Limiter{},
		unknown: rate.NewLimiter(rate.Every(newEvery), newBurst)}
}

// take reports whether a link is looked up.
func (f *feedLimits) take(link [sha256.Size]byte, from netip.Prefix, at time.Time) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	if k := f.links[link]; k != nil {
		return k.AllowN(at, 1)
	}
	if k := f.guesses[from]; k != nil && k.TokensAt(at) < 1 {
		return false
	}
	return f.unknown.AllowN(at, 1)
}

// found notes what a link turned out to be.
func (f *feedLimits) found(link [sha256.Size]byte, from netip.Prefix, is bool, at time.Time) {
	f.mu.Lock()
	defer f.mu.Unlock()
	switch {
	case is && f.links[link] == nil:
		room(f.links)
		f.links[link] = rate.NewLimiter(rate.Every(linkEvery), linkBurst)
		f.links[link].AllowN(at, 1)
	case !is:
		delete(f.links, link) // it was closed
		if !from.IsValid() {
			return
		}
		if f.guesses[from] == nil {
			room(f.guesses)
			f.guesses[from] = rate.NewLimiter(rate.Every(guessEvery), guessBurst)
		}
		f.guesses[from].AllowN(at, 1)
	}
}

// room forgets all where there are too many to remember.
func room[K comparable](m map[K]*rate.Limiter) {
	if len(m) >= mostCallers {
		clear(m)
	}
}

// caller is the address that asks. A web server in front, on this machine or in a network
// of its own, names it at the end of X-Forwarded-For; where one on this machine does not,
// the address is not known, and nobody is to pay for what others do. Of IPv6 a network
// counts as one, since everybody has a whole one.
func caller(r *http.Request) netip.Prefix {
	at, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Prefix{}
	}
	ip := at.Addr().Unmap()
	if ip.IsLoopback() || ip.IsPrivate() {
		list := strings.Split(strings.Join(r.Header.Values("X-Forwarded-For"), ","), ",")
		if named, err := netip.ParseAddr(strings.TrimSpace(list[len(list)-1])); err == nil {
			ip = named.Unmap()
		} else if ip.IsLoopback() {
			return netip.Prefix{}
		}
	}
	bits := 32
	if ip.Is6() {
		bits = 64
	}
	p, _ := ip.WithZone("").Prefix(bits)
	return p
}

// calendarFeed serves calendars by their secret links. Whoever has no link learns
// nothing, not even that there is a crew; a link that was closed reads the same.
func calendarFeed(b *bot.Bot, clock func() time.Time) http.HandlerFunc {
	limits := newFeedLimits()
	return func(w http.ResponseWriter, r *http.Request) {
		secret, ok := strings.CutSuffix(r.PathValue("link"), ".ics")
		if !ok || len(secret) != 32 {
			http.NotFound(w, r)
			return
		}
		now, link, from := clock(), sha256.Sum256([]byte(secret)), caller(r)
		if !limits.take(link, from, now) {
			w.Header().Set("Retry-After", "60")
			http.Error(w, "too many requests", http.StatusTooManyRequests)
			return
		}
		file, found, err := b.CalendarFeed(r.Context(), now, secret)
		if err != nil {
			http.Error(w, "the calendar cannot be read now", http.StatusServiceUnavailable)
			return
		}
		if limits.found(link, from, found, now); !found {
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
