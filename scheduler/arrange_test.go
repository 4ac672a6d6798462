package scheduler

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// In its ordinary course a batch gets every ping once, at its time, unmarked.
func TestPingsGoOutAtTheirTime(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.live("2031-05-02 18:59")
	s.chat.take()
	assert.Equal(t, []string{"batch 1/move/eve/2031-05-02"}, s.tickAt(at("2031-05-02 19:00")))
	s.live("2031-05-06 12:00")
	seen := map[string]int{}
	for _, out := range s.chat.got {
		assert.True(t, out.Late.IsZero(), "%s", out.Messages[0].Key)
	}
	for _, k := range s.chat.take() {
		seen[k]++
		assert.Equal(t, 1, seen[k], k)
	}
	for _, kind := range []string{"closing6", "closing2", "over", "noanswer"} {
		assert.Equal(t, 1, seen["batch 1/move/"+kind+"/2031-05-04"], kind)
	}
}

// The reason for which a ping was not sent is kept with it.
func TestDropReasons(t *testing.T) {
	for _, c := range []struct {
		name   string
		before func(*service)
		key    string
		reason string
	}{
		{"done", func(s *service) { s.done(rules.Move, 1, 34) }, "batch 1/move/closing6/2031-05-04", "replanned"},
		{"claimed", func(s *service) {
			s.log(rules.Entry{Action: rules.Mine, Step: rules.Move, Subject: rules.BatchSubject(1)})
		}, "batch 1/move/noanswer/2031-05-04", "claimed by Wren"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newService(t, "2031-04-24 08:00")
			s.graft(1)
			s.live("2031-05-03 22:00")
			c.before(s)
			s.live("2031-05-06 12:00")
			m := s.row(c.key)
			assert.Contains(t, []string{"dropped", "cancelled"}, m.State)
			assert.Equal(t, c.reason, m.Reason)
			assert.NotContains(t, s.chat.keys, c.key)
		})
	}
	t.Run("its task is gone between claim and verdict", func(t *testing.T) {
		s := newService(t, "2031-04-24 08:00")
		s.graft(1)
		s.now = at("2031-05-02 19:00")
		s.do(func(tx *store.Tx) error {
			claimed, err := claimDue(tx, 100)
			require.NoError(t, err)
			for i := range claimed {
				claimed[i].TaskKey = "batch 9/move"
			}
			send, err := arrange(tx, claimed, s.now)
			for _, out := range send {
				assert.Equal(t, rules.Digest, out.Messages[0].Ping)
			}
			return err
		})
		assert.Equal(t, "no longer planned", s.row("batch 1/move/eve/2031-05-02").Reason)
	})
}

// Up to five minutes is on time; later is marked with the time it was meant for.
func TestLateMark(t *testing.T) {
	for _, c := range []struct {
		after time.Duration
		late  bool
	}{{0, false}, {5 * time.Minute, false}, {5*time.Minute + time.Second, true}, {90 * time.Minute, true}} {
		s := newService(t, "2031-04-24 08:00")
		s.graft(1)
		s.live("2031-05-02 18:59")
		s.chat.take()
		s.now = at("2031-05-02 19:00").Add(c.after)
		require.NoError(t, s.tick())
		require.Len(t, s.chat.got, 1)
		out := s.chat.got[0]
		if c.late {
			assert.Equal(t, at("2031-05-02 19:00"), out.Late)
			assert.Equal(t, "late", s.row("batch 1/move/eve/2031-05-02").Reason)
		} else {
			assert.True(t, out.Late.IsZero(), "%s", c.after)
			assert.Equal(t, "due", s.row("batch 1/move/eve/2031-05-02").Reason)
		}
	}
}

// More than five late pings are one list; five go out one by one.
func TestLateFloodIsOneList(t *testing.T) {
	for _, batches := range []int{1, 4} {
		s := newService(t, "2031-04-24 08:00")
		for b := 1; b <= batches; b++ { // each a round of its own, whose pings are one message by themselves
			s.graft(b)
			s.now = s.now.Add(24 * time.Hour)
		}
		s.tickAt(at("2031-05-08 12:00"))
		s.do(func(tx *store.Tx) error { return nil })
		var late, lists int
		var out []store.Message
		s.do(func(tx *store.Tx) (err error) { out, err = tx.Outbox(s.crew.ID); return err })
		numbers := map[int64]int{}
		for _, m := range out {
			if m.State == "sent" && m.Ping != rules.Digest {
				late++
				numbers[m.Message]++
			}
		}
		for _, n := range numbers {
			if n > 1 {
				lists++
			}
		}
		if late > mostLate {
			assert.Len(t, numbers, 1, "%d late pings", late)
			assert.Equal(t, 1, lists)
		} else {
			assert.Len(t, numbers, late)
		}
	}
}

func TestFloodNamesEachTaskOnce(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.now = s.now.Add(24 * time.Hour)
	s.graft(2)
	s.now = at("2031-05-05 12:00")
	require.NoError(t, s.tick())
	for _, out := range s.chat.got {
		seen := map[string]bool{}
		for _, k := range out.Items {
			assert.False(t, seen[k.Key], k.Key)
			seen[k.Key] = true
		}
	}
}

// Late pings do not break the quiet hours; they go out when these end.
func TestLatePingsWaitForTheMorning(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.live("2031-05-02 18:59")
	s.chat.take()
	assert.Empty(t, s.tickAt(at("2031-05-02 23:30")))
	m := s.row("batch 1/move/eve/2031-05-02")
	assert.Equal(t, "quiet hours", m.Reason)
	assert.Equal(t, at("2031-05-03 05:30"), m.Due)
	assert.Zero(t, m.Attempt, "a hold gives the attempt back")
	assert.Equal(t, []string{"batch 1/move/eve/2031-05-02"}, s.tickAt(at("2031-05-03 05:30")))
}

func TestLateEveGivesWayToTheDigest(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.live("2031-05-02 18:59")
	s.chat.take()
	assert.Equal(t, []string{"digest/2031-05-03"}, s.tickAt(at("2031-05-03 07:00")))
	m := s.row("batch 1/move/eve/2031-05-02")
	assert.Equal(t, "dropped", m.State)
	assert.Equal(t, "replaced by the digest of the day", m.Reason)
}

// However long the service was away, the crew gets one digest: of today.
func TestOneDigestAfterDaysAway(t *testing.T) {
	for hour, want := range map[string]int{"05:45": 0, "06:30": 1, "11:00": 1} {
		s := newService(t, "2031-04-24 08:00")
		s.graft(1)
		s.now = at("2031-04-29 " + hour)
		require.NoError(t, s.tick())
		n := 0
		for _, out := range s.chat.got {
			if out.Messages[0].Ping == rules.Digest {
				n++
				assert.Equal(t, hour != "06:30", !out.Late.IsZero())
			}
		}
		assert.Equal(t, want, n, "at %s", hour)
		s.chat.take()
		s.live("2031-04-29 23:00")
		for _, out := range s.chat.got {
			if out.Messages[0].Ping == rules.Digest {
				n++
			}
		}
		assert.Equal(t, 1, n, "the whole day, back at %s", hour)
	}
}

func TestEmptyDigestIsDropped(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	assert.Empty(t, s.tickAt(at("2031-04-25 06:30")))
	assert.Equal(t, "nothing is open today", s.row("digest/2031-04-25").Reason)
	assert.Equal(t, "queued", s.row("digest/2031-04-26").State)
}

// Reminders of routine tasks that fall on one minute are one message; a critical
// one goes by itself and before them, the digest after them, and answers last.
func TestMergeAndOrder(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.graft(2)
	remind := func(step rules.Step, batch int) {
		until := at("2031-05-03 06:30")
		s.log(rules.Entry{Action: rules.Later, Step: step, Subject: rules.BatchSubject(batch), Detail: rules.Detail{Until: until.UnixMilli()}})
	}
	remind(rules.Emerge, 1)
	remind(rules.Emerge, 2)
	remind(rules.Move, 1)
	s.live("2031-05-03 06:29")
	s.chat.take()
	s.answer("answer/1")
	s.now = at("2031-05-03 06:30")
	require.NoError(t, s.tick())
	var got []string
	for _, out := range s.chat.got {
		var keys []string
		for _, m := range out.Messages {
			keys = append(keys, strings.Split(m.Key, "/again/")[0])
		}
		got = append(got, strings.Join(keys, " + "))
	}
	weight := s.weight("batch 1/emerge")
	want := []string{"batch 1/move"}
	if weight == rules.Routine {
		want = append(want, "batch 1/emerge + batch 2/emerge")
	} else {
		want = append(want, "batch 1/emerge", "batch 2/emerge")
	}
	assert.Equal(t, append(want, "digest/2031-05-03", "answer/1"), got)
}

func (s *service) weight(key string) (w rules.Weight) {
	s.do(func(tx *store.Tx) error {
		k, _, err := tx.Task(s.crew.ID, key)
		w = k.Weight
		return err
	})
	return w
}

// walks is how many seeds are walked.
var walks uint64 = 10

// A seeded walk over entries, ticks, crashes and time away: every message goes
// out once where nothing crashed, at most once a claimed attempt where it did,
// and no task gets two pings of one kind on one local day.
func TestWalk(t *testing.T) {
	for seed := range walks {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(seed, 9))
			s := newService(t, "2031-04-24 08:00")
			sent, crashed := map[string]int{}, map[string]int{}
			collect := func() {
				for _, k := range s.chat.take() {
					sent[k]++
				}
			}
			batches := 0
			for range 50 {
				s.now = s.now.Add(time.Duration(r.IntN(14*60)) * time.Minute)
				switch r.IntN(9) {
				case 0, 1:
					batches++
					s.graft(batches)
				case 2:
					if batches > 0 {
						s.done([]rules.Step{rules.Accept, rules.Capped, rules.Move, rules.Emerge}[r.IntN(4)], 1+r.IntN(batches), r.IntN(45))
					}
				case 3:
					s.set("evening", []string{"18:00", "19:00", "20:00"}[r.IntN(3)])
				case 4:
					s.set("morning", []string{"06:00", "07:00", "12:00"}[r.IntN(3)])
				case 5: // a crash with claims that nobody sent
					s.do(func(tx *store.Tx) error {
						list, err := claimDue(tx, 1+r.IntN(3))
						for _, m := range list {
							crashed[m.Key]++
						}
						return err
					})
					require.NoError(t, s.sched.Recover(ctx, s.now))
				case 6:
					s.chat.script = []func(ctx2) error{fails(errAway)}
					require.NoError(t, s.tick())
				default:
					require.NoError(t, s.tick())
				}
				collect()
			}
			s.live(s.now.In(chicago).AddDate(0, 0, 20).Format("2006-01-02 15:04"))
			collect()
			for k, n := range sent {
				assert.Equal(t, 1, n, "%s after %d crashes", k, crashed[k])
			}
			var out []store.Message
			s.do(func(tx *store.Tx) (err error) { out, err = tx.Outbox(s.crew.ID); return err })
			days, digests := map[string]int{}, map[string]int{}
			for _, m := range out {
				assert.NotEqual(t, "claimed", m.State, m.Key)
				if m.State != "sent" {
					assert.True(t, m.State == "queued" || m.Reason != "", "%s %s has no reason", m.Key, m.State)
					continue
				}
				day := rules.DateOf(m.Sent, chicago).String()
				if m.Ping == rules.Digest {
					digests[day]++
					assert.Equal(t, 1, digests[day], "digests on %s", day)
				} else if m.Ping != rules.Again {
					key := m.TaskKey + " " + string(m.Ping) + " " + day
					days[key]++
					assert.Equal(t, 1, days[key], key)
				}
			}
		})
	}
}
