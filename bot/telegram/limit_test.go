package telegram

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"yardbell/bot/apidouble"
)

// drive sends as fast as the limiter lets a sender that waits as it is told, and
// gives the times.
func drive(l *limiter, from time.Time, n int, chat func(i int) int64) (sent []time.Time) {
	at := from
	for i := range n {
		for {
			wait, ok := l.take(at, chat(i))
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
	l.hold(now, 1001, now.Add(35*time.Second))
	wait, ok := l.take(now, 1001)
	assert.False(t, ok)
	assert.Equal(t, 35*time.Second, wait)
	_, ok = l.take(now, 1002)
	assert.True(t, ok)
	l.hold(now, 1001, now.Add(5*time.Second))
	wait, _ = l.take(now.Add(10*time.Second), 1001)
	assert.Equal(t, 25*time.Second, wait, "a shorter word does not undo a longer one")
	_, ok = l.take(now.Add(35*time.Second), 1001)
	assert.True(t, ok)
}

func TestLimitForgetsIdleChats(t *testing.T) {
	l := newLimiter()
	l.hold(now, 5, now.Add(time.Hour))
	for i := range mostChats {
		l.take(now, int64(1000+i))
	}
	l.take(now.Add(2*time.Minute), 99)
	assert.Len(t, l.chats, 2, "the one that was asked to wait stays")
}

// An edit of the clock backwards must not open the gates.
func TestLimitClockBack(t *testing.T) {
	l := newLimiter()
	for range chatBurst {
		_, ok := l.take(now, 1001)
		assert.True(t, ok)
	}
	_, ok := l.take(now.Add(-time.Hour), 1001)
	assert.False(t, ok)
}
