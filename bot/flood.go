package bot

import (
	"sync"
	"time"

	"yardbell/bot/conversation"

	"golang.org/x/time/rate"
)

// This file keeps one member from filling the group's chat. A group takes some twenty
// messages a minute (Bot API FAQ), pings among them, and every answer to one member makes
// the others wait.
//
// What is limited is answers to what asks for something. A report is logged however fast it
// comes, and answered: a line lost is worse than a chat that is full, and of many reports
// that wait the answers are one message (summary.go).
//
// Time is when a message was written, as the chat says, so that what was written through
// a day while the service was away is no flood. It is all in memory: a restart begins
// anew.
const (
	askBurst = 30 // questions, pictures, what is not understood: answered at once
	askEvery = 6 * time.Second

	warnEvery  = 10 * time.Minute // for how long being told of it once is enough
	mostKnown  = 1000             // members remembered before idle ones are forgotten
	idleForget = 30 * time.Minute
)

// flood knows how much each member may still be answered. It is safe for concurrent use.
type flood struct {
	mu sync.Mutex
	by map[int64]*allowance // by the member's row
}

type allowance struct {
	asks *rate.Limiter
	told time.Time // of too many
	seen time.Time
}

func newFlood() *flood { return &flood{by: map[int64]*allowance{}} }

func (f *flood) of(member int64, at time.Time) *allowance {
	a := f.by[member]
	if a == nil {
		if len(f.by) >= mostKnown {
			for k, old := range f.by {
				if at.Sub(old.seen) > idleForget {
					delete(f.by, k)
				}
			}
		}
		a = &allowance{asks: rate.NewLimiter(rate.Every(askEvery), askBurst)}
		f.by[member] = a
	}
	if at.After(a.seen) {
		a.seen = at
	}
	return a
}

// take asks for one answer at a time. Where there is none, tell says whether the member
// is to be told so.
func (f *flood) take(member int64, at time.Time) (ok, tell bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	a := f.of(member, at)
	if a.asks.AllowN(at, 1) {
		return true, false
	}
	if tell = a.told.IsZero() || at.Sub(a.told) >= warnEvery; tell {
		a.told = at
	}
	return false, tell
}

// spent reports whether no question of a member is answered at a time.
func (f *flood) spent(member int64, at time.Time) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.of(member, at).asks.TokensAt(at) < 1
}

// written is when an update counts as written: an edit and a press carry the time of the
// message they are about.
func written(in Incoming, now time.Time) time.Time {
	if in.Kind == "message" && in.Said.Before(now) {
		return in.Said
	}
	return now
}

// measure settles whether a message is answered, once it is known what it did. The error
// is errFlood where it is to be taken back; tell says whether that is said.
func (b *Bot) measure(sc *conversation.Scene, ans conversation.Answer, at time.Time) (tell bool, err error) {
	if !b.limits(sc, ans) {
		return false, nil
	}
	if ok, tell := b.flood.take(sc.Member.ID, at); !ok {
		return tell, conversation.ErrFlood
	}
	return false, nil
}

// limits reports whether the answer to a message counts among those that are limited, once
// it was worked at: not where it told of work, understood or not.
func (b *Bot) limits(sc *conversation.Scene, ans conversation.Answer) bool {
	return b.flood != nil && !ans.Silent && !sc.Joined && len(ans.Logged) == 0 && !ans.Reported
}

// overflow is said, or nothing is, of a message that did nothing.
func overflow(sc *conversation.Scene, tell bool) conversation.Answer {
	var ans conversation.Answer
	if !tell {
		ans.Ignore()
		return ans
	}
	ans.Fail(sc.Voice, "flood_asks", "Name", sc.Member.Name)
	ans.Warned = true // and so said by itself
	return ans
}
