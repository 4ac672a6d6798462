package apidouble

import (
	"math"
	"slices"
	"time"
)

// Rates are the limits on sending. The docs give the figures in the Bots FAQ: about
// one message a second in a chat with short bursts, 20 a minute in a group, 30 a
// second overall. How they are counted is undocumented; here by buckets that refill
// steadily, and a sliding minute for groups. Zero values mean these figures.
type Rates struct {
	// RecordOnly lets everything through and only lists it; see TooFast.
	RecordOnly bool

	ChatPerSecond    float64
	ChatBurst        int // 3 if zero: "short bursts" is all the docs say
	GroupPerMinute   int
	OverallPerSecond float64
	OverallBurst     int
	// CountEdits counts edits like messages. The docs speak of messages only.
	CountEdits bool
}

// Excess is a send that came too fast or before a retry_after was over.
type Excess struct {
	Chat int64
	At   time.Time
	Wait time.Duration // how much later it would have been right
}

type limiter struct {
	rates   Rates
	overall bucket
	chats   map[int64]*chatRate
	sends   []time.Time
	fast    []Excess
	early   []Excess
}

type chatRate struct {
	bucket bucket
	sends  []time.Time
	until  time.Time // the end of the last retry_after
	strict bool      // whether it was a limit's, and not scripted
}

type bucket struct {
	rate, size, level float64
	at                time.Time
}

// wait fills the bucket up to now and says how long until there is room.
func (b *bucket) wait(now time.Time) time.Duration {
	if b.at.IsZero() {
		b.level = b.size
	} else if now.After(b.at) {
		b.level = min(b.size, b.level+now.Sub(b.at).Seconds()*b.rate)
	}
	b.at = now
	// A hair of tolerance, since the sums of fractions of a second are not exact.
	if b.level >= 1-1e-9 {
		return 0
	}
	return time.Duration((1 - b.level) / b.rate * float64(time.Second))
}

func newLimiter(r Rates) *limiter {
	orDefault := func(v *float64, def float64) {
		if *v == 0 {
			*v = def
		}
	}
	orDefault(&r.ChatPerSecond, 1)
	orDefault(&r.OverallPerSecond, 30)
	if r.ChatBurst == 0 {
		r.ChatBurst = 3
	}
	if r.GroupPerMinute == 0 {
		r.GroupPerMinute = 20
	}
	if r.OverallBurst == 0 {
		r.OverallBurst = 30
	}
	return &limiter{
		rates:   r,
		overall: bucket{rate: r.OverallPerSecond, size: float64(r.OverallBurst)},
		chats:   map[int64]*chatRate{},
	}
}

func (l *limiter) chat(id int64) *chatRate {
	c := l.chats[id]
	if c == nil {
		c = &chatRate{bucket: bucket{rate: l.rates.ChatPerSecond, size: float64(l.rates.ChatBurst)}}
		l.chats[id] = c
	}
	return c
}

// toldToWait remembers a retry_after.
func (l *limiter) toldToWait(chat int64, until time.Time, strict bool) {
	c := l.chat(chat)
	c.until, c.strict = until, strict
}

// noteEarly lists a request that comes before a retry_after is over, and says by how
// much.
func (l *limiter) noteEarly(chat int64, now time.Time) time.Duration {
	left := l.chat(chat).until.Sub(now)
	if left > 0 {
		l.early = append(l.early, Excess{chat, now, left})
	}
	return left
}

// admit decides on one send; seconds above 0 are the retry_after of a refusal.
func (l *limiter) admit(id int64, isGroup bool, now time.Time) (seconds int) {
	c := l.chat(id)
	if left := l.noteEarly(id, now); left > 0 && c.strict && !l.rates.RecordOnly {
		// Whoever asks again too soon waits on (docs: always honour retry_after).
		return wholeSeconds(left)
	}
	wait := max(c.bucket.wait(now), l.overall.wait(now))
	if n := len(c.sends) - l.rates.GroupPerMinute; isGroup && n >= 0 {
		wait = max(wait, c.sends[n].Add(time.Minute).Sub(now))
	}
	if wait > 0 {
		l.fast = append(l.fast, Excess{id, now, wait})
		if !l.rates.RecordOnly {
			seconds = wholeSeconds(wait)
			l.toldToWait(id, now.Add(time.Duration(seconds)*time.Second), true)
			return seconds
		}
	}
	c.bucket.level = max(c.bucket.level-1, 0)
	l.overall.level = max(l.overall.level-1, 0)
	c.sends = append(c.sends, now)
	l.sends = append(l.sends, now)
	return 0
}

func wholeSeconds(d time.Duration) int { return max(1, int(math.Ceil(d.Seconds()))) }

// SendTimes are the moments of all sends that got through to a chat, or with 0 to
// any, in order.
func (d *Double) SendTimes(chat int64) []time.Time {
	d.mu.Lock()
	defer d.mu.Unlock()
	if chat == 0 {
		return slices.Clone(d.rates.sends)
	}
	if c := d.rates.chats[chat]; c != nil {
		return slices.Clone(c.sends)
	}
	return nil
}

// TooFast lists the sends that were over a limit, refused or not.
func (d *Double) TooFast() []Excess {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.rates.fast)
}

// EarlyRetries lists the sends that came before a retry_after was over.
func (d *Double) EarlyRetries() []Excess {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.rates.early)
}

// Peak is the largest number of times, which are in order, within any window.
func Peak(times []time.Time, window time.Duration) int {
	most, first := 0, 0
	for i, t := range times {
		for !times[first].After(t.Add(-window)) {
			first++
		}
		most = max(most, i-first+1)
	}
	return most
}
