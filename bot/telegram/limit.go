package telegram

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// Limits of the Bot API, from its FAQ: about 30 messages a second in all, one a
// second in a chat with short bursts, 20 a minute in a group. We stay a little below
// each, since two messages may reach the server closer together than they left; and
// overall we send evenly, so that no second holds more than 30.
const (
	overallRate  = 28.5
	overallBurst = 1
	chatEvery    = 1100 * time.Millisecond
	chatBurst    = 3
	groupMost    = 20
	groupWithin  = 61 * time.Second
)

// limiter keeps sends inside the limits ahead of time. It is asked with the
// caller's time and reads no clock.
type limiter struct {
	mu    sync.Mutex
	all   *rate.Limiter
	chats map[int64]*chatLimit
}

type chatLimit struct {
	second *rate.Limiter
	sent   []time.Time // within the last minute or so, groups only
	until  time.Time   // the server asked to wait until then
}

func newLimiter() *limiter {
	return &limiter{all: rate.NewLimiter(overallRate, overallBurst), chats: map[int64]*chatLimit{}}
}

func (l *limiter) chat(now time.Time, id int64) *chatLimit {
	c := l.chats[id]
	if c == nil {
		l.prune(now)
		c = &chatLimit{second: rate.NewLimiter(rate.Every(chatEvery), chatBurst)}
		l.chats[id] = c
	}
	return c
}

// take asks for one send to a chat at now. Where the chat has to wait, ok is false
// and wait says how long; the caller asks again then. Where it may go, ok is true
// and the send is counted; wait is then the way to its own place in the overall
// row, so that senders at the same time do not fall over each other.
func (l *limiter) take(now time.Time, chat int64) (wait time.Duration, ok bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	c := l.chat(now, chat)
	wait = c.until.Sub(now)
	if chat < 0 { // groups have negative ids
		for len(c.sent) > 0 && now.Sub(c.sent[0]) >= groupWithin {
			c.sent = c.sent[1:]
		}
		if n := len(c.sent) - groupMost; n >= 0 {
			wait = max(wait, c.sent[n].Add(groupWithin).Sub(now))
		}
	}
	if t := c.second.TokensAt(now); t < 1 {
		// Rounded up: a wait that ends a hair too early would only be begun anew.
		wait = max(wait, time.Duration((1-t)*float64(chatEvery)).Truncate(time.Millisecond)+time.Millisecond)
	}
	if wait > 0 {
		return wait, false
	}
	wait = l.all.ReserveN(now, 1).DelayFrom(now)
	at := now.Add(wait)
	c.second.AllowN(at, 1)
	if chat < 0 {
		c.sent = append(c.sent, at)
	}
	return wait, true
}

// hold keeps a chat quiet until the server's own word runs out.
func (l *limiter) hold(now time.Time, chat int64, until time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if c := l.chat(now, chat); until.After(c.until) {
		c.until = until
	}
}

// mostChats is how many chats are remembered before idle ones are forgotten.
const mostChats = 1000

// prune forgets chats that are idle, so that the map follows the chats in use.
func (l *limiter) prune(now time.Time) {
	if len(l.chats) < mostChats {
		return
	}
	for id, c := range l.chats {
		if c.second.TokensAt(now) >= chatBurst && now.After(c.until) && (len(c.sent) == 0 || now.Sub(c.sent[len(c.sent)-1]) > groupWithin) {
			delete(l.chats, id)
		}
	}
}
