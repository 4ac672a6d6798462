package telegram

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// drive sends as fast as the limiter lets a sender that waits as it is told, and
// gives the times.
func drive(l *limiter, from time.Time, n int, chat func(i int) int64) (sent []time.Time) {
	at := from
	for i := range n {
		for {
			wait, _, ok := l.take(at, chat(i), store.OtherPing)
			at = at.Add(wait)
			if ok {
				sent = append(sent, at)
				break
			}
		}
	}
	return sent
}

func TestLimitChatSecond(t *testing.T) {
	sent := drive(newLimiter(), now, 10, func(int) int64 { return 1001 })
	assert.Less(t, sent[chatBurst-1].Sub(now), time.Second, "a short burst goes at once")
	for i := chatBurst + 1; i < len(sent); i++ {
		assert.InDelta(t, chatEvery.Seconds(), sent[i].Sub(sent[i-1]).Seconds(), 0.01)
	}
}

func TestLimitGroupMinute(t *testing.T) {
	sent := drive(newLimiter(), now, 65, func(int) int64 { return -1001 })
	assert.Equal(t, groupMost, apidouble.Peak(sent, time.Minute))
	assert.Less(t, sent[64].Sub(now), 190*time.Second, "and no slower than that")
}

// Over many chats the whole stays below 30 in any second, and close to it.
func TestLimitOverall(t *testing.T) {
	sent := drive(newLimiter(), now, 57*30, func(i int) int64 { return int64(-1 - i) })
	assert.LessOrEqual(t, apidouble.Peak(sent, time.Second), 30)
	assert.InDelta(t, 60, sent[len(sent)-1].Sub(now).Seconds(), 1)
}

// One chat that has to wait costs the others nothing.
func TestLimitHold(t *testing.T) {
	l := newLimiter()
	l.hold(now, 1001, store.OtherPing, now.Add(35*time.Second))
	wait, share, ok := l.take(now, 1001, store.Echo)
	assert.False(t, share, "all that goes there waits")
	assert.False(t, ok)
	assert.Equal(t, 35*time.Second, wait)
	_, _, ok = l.take(now, 1002, store.Echo)
	assert.True(t, ok)
	l.hold(now, 1001, store.OtherPing, now.Add(5*time.Second))
	wait, _, _ = l.take(now.Add(10*time.Second), 1001, store.Echo)
	assert.Equal(t, 25*time.Second, wait, "a shorter word does not undo a longer one")
	_, _, ok = l.take(now.Add(35*time.Second), 1001, store.Echo)
	assert.True(t, ok)
}

func TestLimitForgetsIdleChats(t *testing.T) {
	l := newLimiter()
	l.hold(now, 5, store.OtherPing, now.Add(time.Hour))
	for i := range mostChats {
		_, _, _ = l.take(now, int64(1000+i), store.Echo)
	}
	_, _, _ = l.take(now.Add(2*time.Minute), 99, store.Echo)
	assert.Len(t, l.chats, 2, "the one that was asked to wait stays")
}

// An edit of the clock backwards must not open the gates.
func TestLimitClockBack(t *testing.T) {
	l := newLimiter()
	for range chatBurst {
		_, _, ok := l.take(now, 1001, store.Echo)
		assert.True(t, ok)
	}
	_, _, ok := l.take(now.Add(-time.Hour), 1001, store.Echo)
	assert.False(t, ok)
}

// However fast reports come, their echoes get half of what a group takes in a minute; an
// answer to a question has room beside them, and beside both a ping has.
func TestLimitShares(t *testing.T) {
	const group = -1001
	l, at := newLimiter(), now
	counts := map[int]int{}
	var times []time.Time
	// ask tries until the minute is over, as a sender would that knows no better.
	ask := func(priority int) (wait time.Duration, share bool) {
		for {
			wait, share, ok := l.take(at, group, priority)
			if !ok && wait > 2*chatEvery {
				return wait, share
			}
			at = at.Add(wait)
			if ok {
				counts[priority]++
				times = append(times, at)
			}
		}
	}
	wait, share := ask(store.Echo)
	assert.Equal(t, 10, counts[store.Echo])
	assert.True(t, share)
	assert.Equal(t, now.Add(groupWithin), at.Add(wait), "until the first of them is a minute old")
	wait, share = ask(store.Change)
	assert.Zero(t, counts[store.Change], "what is changed counts among them")
	assert.True(t, share)
	assert.Positive(t, wait)
	_, share = ask(store.Answer)
	assert.Equal(t, 5, counts[store.Answer])
	assert.True(t, share)
	_, share = ask(store.OtherPing)
	assert.Equal(t, 5, counts[store.OtherPing])
	assert.False(t, share, "the chat takes nothing at all any more")
	assert.Equal(t, groupMost, apidouble.Peak(times, time.Minute))
	for range 40 { // and so on, minute after minute
		wait, _ = ask(store.Echo)
		at = at.Add(wait)
	}
	assert.LessOrEqual(t, apidouble.Peak(times, time.Minute), groupMost)

	for range 25 { // a private chat has no such limit
		for {
			wait, _, ok := l.take(at, 1001, store.Echo)
			at = at.Add(wait)
			if ok {
				break
			}
			assert.LessOrEqual(t, wait, chatEvery)
		}
	}
}

// What to do in an emergency waits for none of our own limits, but for the server's word.
// It counts like any other message.
func TestLimitEmergency(t *testing.T) {
	const group = -1001
	l := newLimiter()
	sent := drive(l, now, groupMost, func(int) int64 { return group })
	at := sent[len(sent)-1]
	_, _, ok := l.take(at, group, store.CriticalPing)
	assert.False(t, ok, "the group takes nothing more")
	_, _, ok = l.take(at, group, store.Emergency)
	assert.True(t, ok)
	l.hold(at, group, store.OtherPing, at.Add(3*time.Second))
	wait, _, ok := l.take(at, group, store.Emergency)
	assert.False(t, ok)
	assert.Equal(t, 3*time.Second, wait)
	l, at = newLimiter(), now
	for range groupMost {
		_, _, ok = l.take(at, group, store.Emergency)
		assert.True(t, ok)
		at = at.Add(time.Second)
	}
	_, _, ok = l.take(at, group, store.CriticalPing)
	assert.False(t, ok, "twenty are twenty")
}
