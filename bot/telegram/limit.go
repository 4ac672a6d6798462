package telegram

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// Limits of the Bot API, from its FAQ: about 30 messages a second in all, one a
// second in a chat with short bursts, 20 a minute in a group. We stay a little
// below, since the server counts by its own clock.
const (
	overallRate = 28
	chatEvery   = time.Second
	chatBurst   = 3
	groupMinute = 20
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
	sent   []time.Time // within the last minute, groups only
	until  time.Time   // the server asked to wait until then
}

func newLimiter() *limiter {
	return &limiter{all: rate.NewLimiter(overallRate, overallRate), chats: map[int64]*chatLimit{}}
}

// take asks for one send to a chat at now. It gives how long to wait instead, 0
// where it may go.
func (l *limiter) take(now time.Time, chat int64) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	c := l.chats[chat]
	if c == nil {
		l.prune(now)
		c = &chatLimit{second: rate.NewLimiter(rate.Every(chatEvery), chatBurst)}
		l.chats[chat] = c
	}
	if wait := c.until.Sub(now); wait > 0 {
		return wait
	}
	if chat < 0 { // groups have negative ids
		for len(c.sent) > 0 && now.Sub(c.sent[0]) >= time.Minute {
			c.sent = c.sent[1:]
		}
		if len(c.sent) >= groupMinute {
			return c.sent[0].Add(time.Minute).Sub(now)
		}
	}
	if t := c.second.TokensAt(now); t < 1 {
		return time.Duration((1 - t) * float64(chatEvery))
	}
	if t := l.all.TokensAt(now); t < 1 {
		return time.Duration((1 - t) / overallRate * float64(time.Second))
	}
	c.second.AllowN(now, 1)
	l.all.AllowN(now, 1)
	if chat < 0 {
		c.sent = append(c.sent, now)
	}
	return 0
}

// hold keeps a chat quiet until the server's own word runs out.
func (l *limiter) hold(chat int64, until time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	c := l.chats[chat]
	if c == nil {
		c = &chatLimit{second: rate.NewLimiter(rate.Every(chatEvery), chatBurst)}
		l.chats[chat] = c
	}
	if until.After(c.until) {
		c.until = until
	}
}

// prune forgets chats that are idle, so that the map follows the chats in use.
func (l *limiter) prune(now time.Time) {
	if len(l.chats) < 1000 {
		return
	}
	for id, c := range l.chats {
		if c.second.TokensAt(now) >= chatBurst && now.After(c.until) && (len(c.sent) == 0 || now.Sub(c.sent[len(c.sent)-1]) > time.Minute) {
			delete(l.chats, id)
		}
	}
}
