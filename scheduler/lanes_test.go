package scheduler

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// running runs the scheduler on a clock that goes on by itself while all wait.
func (s *service) running(t *testing.T) (clock func() time.Time, stop func()) {
	begin := time.Now()
	clock = func() time.Time { return s.now.Add(time.Since(begin)) }
	run, cancel := context.WithCancel(ctx)
	ended := make(chan error, 1)
	go func() { ended <- s.sched.Run(run, clock) }()
	return clock, func() {
		cancel()
		require.NoError(t, <-ended)
		require.NoError(t, s.db.Close())
	}
}

// What the chat refuses for three seconds goes three seconds later, and what failed goes
// when its wait is over: neither waits for the next tick of the schedule.
func TestRunWakesWhenTheNextIsDue(t *testing.T) {
	for name, c := range map[string]struct {
		err  error
		wait time.Duration
	}{
		"refused for a while": {&SendError{Held: true, After: 3 * time.Second, Err: errors.New("too many requests")}, 3 * time.Second},
		"connection reset":    {errAway, rules.NextAttempt(1)},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := newService(t, "2031-04-24 08:00")
				s.answer("answer/1")
				s.chat.script = []func(ctx2) error{fails(c.err)}
				_, stop := s.running(t)
				time.Sleep(c.wait - time.Millisecond)
				synctest.Wait()
				assert.Empty(t, s.chat.take(), "not before")
				time.Sleep(500 * time.Millisecond)
				synctest.Wait()
				assert.Equal(t, []string{"answer/1"}, s.chat.take())
				stop()
			})
		})
	}
}

// A ping goes at its time, whenever the schedule's ticks fall.
func TestRunWakesForAPing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		s.graft(1)
		s.live("2031-05-02 18:59")
		s.now = s.now.Add(50*time.Second + 300*time.Millisecond)
		s.chat.take()
		_, stop := s.running(t)
		time.Sleep(9700*time.Millisecond - 2*time.Millisecond)
		synctest.Wait()
		assert.Empty(t, s.chat.take())
		time.Sleep(100 * time.Millisecond)
		synctest.Wait()
		assert.Equal(t, []string{"batch 1/move/eve/2031-05-02"}, s.chat.take())
		stop()
	})
}

// other makes one more crew, with an answer that waits.
func (s *service) other(chat int64) store.Crew {
	var c store.Crew
	s.do(func(tx *store.Tx) (err error) {
		c, err = tx.NewCrew("test", chat, map[string]string{"zone": "America/Chicago"})
		return err
	})
	return c
}

func (s *service) answerIn(crew store.Crew, key string) {
	s.do(func(tx *store.Tx) error {
		return tx.Queue(store.Message{Crew: crew.ID, Key: key, Kind: "reply", Text: key})
	})
}

// While one crew's chat hangs, another is answered; its own messages keep their order.
func TestCrewsDoNotWaitForEachOther(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		b := s.other(2)
		for i := range 40 {
			s.answer(fmt.Sprintf("answer/%02d", i))
		}
		hang := make(chan struct{})
		s.chat.script = []func(ctx2) error{func(ctx2) error { <-hang; return nil }}
		_, stop := s.running(t)
		synctest.Wait()
		assert.Empty(t, s.chat.take())
		s.answerIn(b, "due")
		s.sched.Wake()
		synctest.Wait()
		assert.Equal(t, []string{"due"}, s.chat.take(), "at once, while the other's first hangs")
		close(hang)
		synctest.Wait()
		keys := s.chat.take()
		require.Len(t, keys, 40)
		assert.IsIncreasing(t, keys)
		stop()
	})
}

// A ping that falls due while echoes of its own crew wait is the next to go.
func TestPingBeforeEchoesThatWait(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		s.graft(1)
		s.live("2031-05-02 18:59")
		s.now = s.now.Add(59500 * time.Millisecond)
		s.chat.take()
		for i := range 30 {
			s.do(func(tx *store.Tx) error {
				return tx.Queue(store.Message{Crew: s.crew.ID, Key: fmt.Sprint("echo/", i), Kind: "reply", Text: "echo", Priority: store.Echo})
			})
		}
		slow := func(ctx2) error { time.Sleep(200 * time.Millisecond); return nil }
		for range 40 {
			s.chat.script = append(s.chat.script, slow)
		}
		_, stop := s.running(t)
		time.Sleep(time.Second)
		synctest.Wait()
		keys := s.chat.take()
		require.Greater(t, len(keys), 3)
		assert.Equal(t, "batch 1/move/eve/2031-05-02", keys[3], "two had gone and one was on its way: %v", keys)
		time.Sleep(10 * time.Second)
		stop()
	})
}

// The share of echoes that is used up holds echoes, nothing else.
func TestShareHoldsEchoesOnly(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	for i := range 3 {
		s.do(func(tx *store.Tx) error {
			return tx.Queue(store.Message{Crew: s.crew.ID, Key: fmt.Sprint("echo/", i), Kind: "reply", Text: "echo", Priority: store.Echo})
		})
	}
	s.chat.script = []func(ctx2) error{fails(&SendError{Held: true, Share: true, After: 20 * time.Second, Err: errors.New("the chat's limit is reached")})}
	assert.Empty(t, s.tickAt(s.now), "one is tried, none after it")
	for i := range 3 {
		assert.Zero(t, s.row(fmt.Sprint("echo/", i)).Attempt)
	}
	s.answer("answer/1")
	assert.Equal(t, []string{"answer/1"}, s.tickAt(s.now.Add(time.Second)))
	assert.Equal(t, []string{"echo/0", "echo/1", "echo/2"}, s.tickAt(s.now.Add(19*time.Second)))
}

// report is what a member wrote and the answer that waits.
func (s *service) report(who, text string, m store.Message) {
	s.do(func(tx *store.Tx) error {
		by, err := tx.Member(s.crew, who, who)
		if err != nil {
			return err
		}
		s.update++
		row, _, err := tx.MarkUpdate(store.Update{Source: "test", UpdateID: s.update, Crew: s.crew.ID, Member: by.ID, Kind: "message", Message: s.update, Text: text, Said: s.now})
		if err != nil {
			return err
		}
		m.Crew, m.Update, m.Answers = s.crew.ID, row, s.update
		m.Key, m.Text = fmt.Sprint("answer/", row), "answer to "+text+"\nmore"
		if m.Kind == "" {
			m.Kind = "reply"
		}
		return tx.Queue(m)
	})
}

// sentTexts are what each message that went covers, a line each.
func (s *service) sentTexts() (list []string) {
	for _, out := range s.chat.got {
		var parts []string
		for _, m := range out.Messages {
			text, _, _ := strings.Cut(strings.TrimPrefix(m.Text, "answer to "), "\n")
			parts = append(parts, text)
		}
		list = append(list, strings.Join(parts, " + "))
	}
	s.chat.take()
	return list
}

// More than five echoes of one member that wait are one message, and so are fewer that
// have waited for more than two minutes. Others' are theirs; what needs an answer stands
// by itself and comes first; the same question asked again is answered once.
func TestBacklogIsOneMessageAMember(t *testing.T) {
	echo := store.Message{Priority: store.Echo}
	ask := store.Message{Kind: "ask", Buttons: []store.Button{{Label: "Yes", Do: "yes"}}}
	for name, c := range map[string]struct {
		say  func(s *service)
		want []string
	}{
		"five": {func(s *service) {
			for i := range 5 {
				s.report("wren", fmt.Sprint("e", i), echo)
			}
		}, []string{"e0", "e1", "e2", "e3", "e4"}},
		"six": {func(s *service) {
			for i := range 6 {
				s.report("wren", fmt.Sprint("e", i), echo)
			}
		}, []string{"e0 + e1 + e2 + e3 + e4 + e5"}},
		"two of three minutes ago": {func(s *service) {
			s.report("wren", "e0", echo)
			s.report("wren", "e1", echo)
			s.now = s.now.Add(3 * time.Minute)
		}, []string{"e0 + e1"}},
		"one of three minutes ago": {func(s *service) {
			s.report("wren", "e0", echo)
			s.now = s.now.Add(3 * time.Minute)
		}, []string{"e0"}},
		"two members": {func(s *service) {
			for i := range 4 {
				s.report("wren", fmt.Sprint("e", i), echo)
				s.report("ash", fmt.Sprint("f", i), echo)
			}
		}, []string{"e0", "f0", "e1", "f1", "e2", "f2", "e3", "f3"}},
		"two members with much": {func(s *service) {
			for i := range 6 {
				s.report("wren", fmt.Sprint("e", i), echo)
				s.report("ash", fmt.Sprint("f", i), echo)
			}
		}, []string{"e0 + e1 + e2 + e3 + e4 + e5", "f0 + f1 + f2 + f3 + f4 + f5"}},
		"questions": {func(s *service) {
			for i := range 6 {
				s.report("wren", fmt.Sprint("e", i), echo)
			}
			s.report("wren", "q", ask)
			s.report("wren", "due", store.Message{})
			s.report("wren", "q", ask)
			s.report("wren", "due", store.Message{})
		}, []string{"q", "q", "due + due", "e0 + e1 + e2 + e3 + e4 + e5"}},
	} {
		t.Run(name, func(t *testing.T) {
			s := newService(t, "2031-04-24 08:00")
			c.say(s)
			require.NoError(t, s.tick())
			assert.Equal(t, c.want, s.sentTexts())
			s.do(func(tx *store.Tx) error {
				list, err := tx.Outbox(s.crew.ID)
				for _, m := range list {
					if m.Update != 0 {
						assert.Equal(t, "sent", m.State)
						assert.NotZero(t, m.Message)
					}
				}
				return err
			})
		})
	}
}

// A summary has the lines that were logged and the words of what was not.
func TestSummaryTellsBoth(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	for i := range 6 {
		s.report("wren", fmt.Sprint("e", i), store.Message{Priority: store.Echo})
	}
	s.report("wren", "n0", store.Message{Priority: store.Echo, Kind: "error"})
	require.NoError(t, s.tick())
	require.Len(t, s.chat.got, 1)
	got := s.chat.got[0].Summary
	require.NotNil(t, got)
	assert.Equal(t, "wren", got.Name)
	assert.Equal(t, []string{"n0"}, got.Not)
	require.Len(t, got.Logged, 6)
	assert.Equal(t, "answer to e0\nmore", got.Logged[0].Text)
	assert.Equal(t, store.Summed, s.row(s.chat.got[0].Messages[3].Key).Reason)
}

// After the service was away two pings of one task are one message, the later of them;
// one that would follow within a minute goes with it, one that follows later does not.
func TestTwoPingsOfOneTaskAreOneMessage(t *testing.T) {
	const six, two = "batch 1/move/closing6/2031-05-04", "batch 1/move/closing2/2031-05-04"
	for _, c := range []struct {
		before time.Duration // the second ping's time
		want   []string
	}{
		{0, []string{two}},
		{-2 * time.Minute, []string{two}},
		{30 * time.Second, []string{two}},
		{2 * time.Minute, []string{six}},
	} {
		s := newService(t, "2031-04-24 08:00")
		s.graft(1)
		when := s.row(two).Fire
		s.live(s.row(six).Fire.Add(-time.Minute).In(chicago).Format("2006-01-02 15:04"))
		s.chat.take()
		s.now = when.Add(-c.before) // the service was away for hours
		require.NoError(t, s.tick())
		var got []string
		for _, out := range s.chat.got {
			if out.Messages[0].Step == rules.Move {
				require.Len(t, out.Messages, 1)
				got = append(got, out.Messages[0].Key)
			}
		}
		assert.Equal(t, c.want, got, "%s before", c.before)
		if c.want[0] == two {
			assert.Equal(t, "dropped", s.row(six).State)
			assert.Contains(t, s.row(six).Reason, "one message with")
		} else {
			assert.Equal(t, "queued", s.row(two).State)
		}
	}
}

// While more is being read that people wrote, echoes wait, and nothing else does.
func TestEchoesWaitForWhatIsRead(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.sched.Reading(true)
	for i := range 4 {
		s.report("wren", fmt.Sprint("e", i), store.Message{Priority: store.Echo})
	}
	s.report("ash", "due", store.Message{})
	require.NoError(t, s.tick())
	assert.Equal(t, []string{"due"}, s.sentTexts())
	for i := range 4 {
		s.report("wren", fmt.Sprint("f", i), store.Message{Priority: store.Echo})
	}
	s.sched.Reading(false)
	require.NoError(t, s.tick())
	assert.Equal(t, []string{"e0 + e1 + e2 + e3 + f0 + f1 + f2 + f3"}, s.sentTexts())
}
