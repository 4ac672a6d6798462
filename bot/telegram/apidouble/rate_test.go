package apidouble

import (
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestOneASecondInAChat(t *testing.T) {
	s := newStage(t, Options{})
	s.StartPrivate(s.ana)
	for range 3 {
		s.send(s.ana, "burst")
	}
	e := s.refused("sendMessage", params(s.ana, "x"))
	require.Equal(t, 429, e.Code)
	require.Equal(t, 1, e.RetryAfter)
	require.Equal(t, "Too Many Requests: retry after 1", e.Message)

	s.clock.Advance(500 * time.Millisecond)
	require.Equal(t, 1, s.refused("sendMessage", params(s.ana, "x")).RetryAfter)
	require.Equal(t, []Excess{{s.ana, s.clock.Now(), 500 * time.Millisecond}}, s.EarlyRetries())
	s.clock.Advance(500 * time.Millisecond)
	s.send(s.ana, "to the letter")
	require.Len(t, s.TooFast(), 1)
	require.Len(t, s.SendTimes(s.ana), 4)
	require.Len(t, s.EarlyRetries(), 1)
	s.clean()
}

func TestTwentyAMinuteInAGroup(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	for range 20 {
		s.send(chat, "x")
		s.clock.Advance(time.Second)
	}
	require.Equal(t, 40, s.refused("sendMessage", params(chat, "x")).RetryAfter)
	s.clock.Advance(40 * time.Second)
	s.send(chat, "x")
	require.Equal(t, 20, Peak(s.SendTimes(chat), time.Minute))
	require.Equal(t, 1, Peak(s.SendTimes(chat), time.Second))
	s.clean()
}

func TestThirtyASecondOverall(t *testing.T) {
	s := newStage(t, Options{})
	for i := range 31 {
		u := s.NewUser("U", "")
		s.StartPrivate(u)
		if i < 30 {
			s.send(u, "x")
			continue
		}
		require.Equal(t, 1, s.refused("sendMessage", params(u, "x")).RetryAfter)
	}
	require.Len(t, s.SendTimes(0), 30)
	s.clean()
}

func TestRatesOnlyRecorded(t *testing.T) {
	s := newStage(t, Options{Rates: Rates{RecordOnly: true, ChatBurst: 1}})
	s.StartPrivate(s.ana)
	s.send(s.ana, "one")
	s.send(s.ana, "two")
	require.Len(t, s.TooFast(), 1)
	require.Equal(t, time.Second, s.TooFast()[0].Wait)
	require.Equal(t, 2, Peak(s.SendTimes(s.ana), time.Second))
	require.Zero(t, Peak(nil, time.Second))
	s.clean()
}

func TestEditsAndScriptedWaits(t *testing.T) {
	s := newStage(t, Options{Rates: Rates{CountEdits: true, ChatBurst: 2}})
	s.StartPrivate(s.ana)
	id := itoa(s.send(s.ana, "one"))
	edit := func(text string) map[string]string { return params(s.ana, text, "message_id", id) }
	s.ask("editMessageText", edit("two"))
	require.Equal(t, 1, s.refused("editMessageText", edit("three")).RetryAfter)

	s = newStage(t, Options{})
	s.StartPrivate(s.ana)
	id = itoa(s.send(s.ana, "one"))
	s.Script("editMessageText", TooMany(10))
	require.Equal(t, 10, s.refused("editMessageText", edit("two")).RetryAfter)
	s.clock.Advance(9 * time.Second)
	s.ask("editMessageText", edit("two"))
	require.Equal(t, time.Second, s.EarlyRetries()[0].Wait, "a scripted wait refuses once, but is remembered")
	s.clock.Advance(time.Second)
	s.ask("editMessageText", edit("three"))
	require.Len(t, s.EarlyRetries(), 1)
	s.clean()
}

func TestClocks(t *testing.T) {
	now := DefaultStart
	read := func() time.Time { return now }
	require.Equal(t, now, ClockFunc(read).Now())
	require.Nil(t, ClockFunc(read).After(time.Second))
	require.Equal(t, now, WallClock(read).Now())
	<-WallClock(read).After(time.Nanosecond)
	m := NewManualClock(now)
	<-m.After(0)
	soon, later := m.After(time.Second), m.After(time.Minute)
	m.Advance(time.Second)
	require.Equal(t, now.Add(time.Second), <-soon)
	select {
	case <-later:
		t.Fatal("fired too soon")
	default:
	}
}

func TestManyAtOnce(t *testing.T) {
	s := newStage(t, Options{Clock: WallClock(fixed), Rates: Rates{RecordOnly: true}})
	require.Equal(t, DefaultStart, s.Clock().Now())
	chat := s.inGroup()
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 20 {
				s.Say(s.ana, s.ana, "in")
				if _, err := s.bot.MakeRequest("sendMessage", params(chat, "out")); err != nil {
					t.Error(err)
				}
			}
		})
	}
	got := 0
	for offset := 0; got < 160; {
		for _, u := range s.from(offset, "timeout", "5", "limit", "7") {
			got++
			offset = u.UpdateID + 1
		}
	}
	wg.Wait()
	require.Len(t, s.Sent(chat), 160)
	require.Len(t, s.SendTimes(chat), 160)
	s.clean()
}

func fixed() time.Time { return DefaultStart }
