package telegram

import (
	"slices"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"yardbell/store"
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

// mostOf is how many messages of a priority, and of those behind it, a group gets within
// the same time: echoes half of what it takes, answers not so much that no ping has room.
func mostOf(priority int) int {
	switch {
	case priority >= store.Echo:
		return groupMost / 2
	case priority >= store.Answer:
		return groupMost * 3 / 4
	}
	return groupMost
}

// limiter keeps sends inside the limits ahead of time. It is asked with the
// caller's time and reads no clock.
type limiter struct {
	mu    sync.Mutex
	all   *rate.Limiter
	chats map[int64]*chatLimit
}

type chatLimit struct {
	second *rate.Limiter
	sent   []sent    // within the last minute or so, groups only
	until  time.Time // the server asked to wait until then

	// Of the sign on people's messages, which is no message itself: it has its own pace
	// and takes nothing of the others' room.
	marks      *rate.Limiter
	marksUntil time.Time
}

// sent is one message that went to a group.
type sent struct {
	at       time.Time
	priority int
}

// full is how long until the group takes one more message of a priority or of one behind it.
func (c *chatLimit) full(now time.Time, from, most int) time.Duration {
	n := 0
	for _, s := range slices.Backward(c.sent) {
		if s.priority < from {
			continue
		}
		if n++; n == most {
			return s.at.Add(groupWithin).Sub(now)
		}
	}
	return 0
}

func newLimiter() *limiter {
	return &limiter{all: rate.NewLimiter(overallRate, overallBurst), chats: map[int64]*chatLimit{}}
}

func (l *limiter) chat(now time.Time, id int64) *chatLimit {
	c := l.chats[id]
	if c == nil {
		l.prune(now)
		c = &chatLimit{second: rate.NewLimiter(rate.Every(chatEvery), chatBurst), marks: rate.NewLimiter(rate.Every(chatEvery), chatBurst)}
		l.chats[id] = c
	}
	return c
}

// take asks for one send to a chat at now. Where the chat has to wait, ok is false
// and wait says how long; the caller asks again then. share says that only messages of
// its priority and those behind it have to. Where it may go, ok is true
// and the send is counted; wait is then the way to its own place in the overall
// row, so that senders at the same time do not fall over each other.
func (l *limiter) take(now time.Time, chat int64, priority int) (wait time.Duration, share, ok bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	c := l.chat(now, chat)
	if priority >= store.Mark {
		wait = l.mark(now, c)
		return wait, true, wait <= 0
	}
	wait = c.until.Sub(now)
	urgent := priority == store.Emergency // goes at once: the server may refuse it, we do not
	if chat < 0 {                         // groups have negative ids
		for len(c.sent) > 0 && now.Sub(c.sent[0].at) >= groupWithin {
			c.sent = c.sent[1:]
		}
		if !urgent {
			wait = max(wait, c.full(now, store.Emergency, groupMost))
		}
	}
	if t := c.second.TokensAt(now); t < 1 && !urgent {
		// Rounded up: a wait that ends a hair too early would only be begun anew.
		wait = max(wait, time.Duration((1-t)*float64(chatEvery)).Truncate(time.Millisecond)+time.Millisecond)
	}
	if chat < 0 {
		for _, from := range []int{store.Answer, store.Echo} {
			if priority < from {
				continue
			}
			if own := c.full(now, from, mostOf(from)); own > max(wait, 0) {
				wait, share = own, true
			}
		}
	}
	if wait > 0 {
		return wait, share, false
	}
	wait = l.all.ReserveN(now, 1).DelayFrom(now)
	at := now.Add(wait)
	c.second.AllowN(at, 1)
	if chat < 0 {
		c.sent = append(c.sent, sent{at, priority})
	}
	return wait, false, true
}

// mark takes room for one sign, or gives how long until there is some. It never stands in
// the row for the next place: a ping would come behind it.
func (l *limiter) mark(now time.Time, c *chatLimit) time.Duration {
	wait := max(c.until.Sub(now), c.marksUntil.Sub(now), lack(c.marks, now), lack(l.all, now))
	if wait <= 0 {
		c.marks.AllowN(now, 1)
		l.all.AllowN(now, 1)
	}
	return wait
}

// lack is how long until a limiter has a token, rounded up.
func lack(r *rate.Limiter, now time.Time) time.Duration {
	t := r.TokensAt(now)
	if t >= 1 {
		return 0
	}
	return time.Duration((1-t)/float64(r.Limit())*float64(time.Second)).Truncate(time.Millisecond) + time.Millisecond
}

// hold keeps a chat quiet until the server's own word runs out; where it was a sign that
// the server refused, of signs alone.
func (l *limiter) hold(now time.Time, chat int64, priority int, until time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	c := l.chat(now, chat)
	if priority >= store.Mark {
		c.marksUntil = later(c.marksUntil, until)
		return
	}
	c.until = later(c.until, until)
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// mostChats is how many chats are remembered before idle ones are forgotten.
const mostChats = 1000

// prune forgets chats that are idle, so that the map follows the chats in use.
func (l *limiter) prune(now time.Time) {
	if len(l.chats) < mostChats {
		return
	}
	for id, c := range l.chats {
		if c.second.TokensAt(now) >= chatBurst && now.After(c.until) && now.After(c.marksUntil) && (len(c.sent) == 0 || now.Sub(c.sent[len(c.sent)-1].at) > groupWithin) {
			delete(l.chats, id)
		}
	}
}
