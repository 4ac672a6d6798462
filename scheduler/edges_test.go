package scheduler

import (
	"bytes"
	"errors"
	"fmt"
	"log/slog"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// Five late pings go one by one, six are one list; routine ones of a minute are one.
func TestMergeCounts(t *testing.T) {
	for _, c := range []struct {
		n    int
		late bool
		w    rules.Weight
		want int
	}{{mostLate, true, rules.Important, mostLate}, {mostLate + 1, true, rules.Important, 1}, {mostLate, true, rules.Routine, mostLate},
		{7, false, rules.Important, 7}, {1, false, rules.Routine, 1}, {2, false, rules.Routine, 1}} {
		s := newService(t, "2031-04-24 08:00")
		s.do(func(tx *store.Tx) error {
			var pings []due
			for i := range c.n {
				pings = append(pings, due{store.Message{ID: int64(i + 1), Fire: s.now}, rules.Task{Key: fmt.Sprint(i), Weight: c.w}, c.late})
			}
			got, err := merge(tx, store.Outgoing{Crew: s.crew}, pings)
			assert.Len(t, got, c.want, "%+v", c)
			return err
		})
	}
}

// What goes next: of each chat all its pings, or else one answer; what is critical in one
// before what is not in another, and what to do in an emergency before all of it, alone; nothing to a chat that is worked on, nor to more chats than
// there is room for.
func TestPick(t *testing.T) {
	due := func(id, crew int64, priority int) store.Due {
		return store.Due{ID: id, Lane: store.Lane{Crew: crew}, Priority: priority}
	}
	all := []store.Due{due(1, 1, store.CriticalPing), due(2, 2, store.CriticalPing), due(3, 1, store.OtherPing), due(4, 3, store.OtherPing),
		due(5, 1, store.DigestPing), due(6, 1, store.Answer), due(7, 4, store.Answer), due(8, 4, store.Answer), due(9, 4, store.Echo)}
	urgent := append([]store.Due{due(10, 2, store.Emergency), due(11, 2, store.Emergency)}, all...)
	for _, c := range []struct {
		due  []store.Due
		busy []int64
		room int
		want [][]int64
	}{
		{all, nil, 9, [][]int64{{1, 3, 5}, {2}}},
		{all, nil, 1, [][]int64{{1, 3, 5}}},
		{all, nil, 0, nil},
		{all, []int64{1, 2}, 9, [][]int64{{4}}},
		{all, []int64{1, 2, 3}, 9, [][]int64{{7}}},
		{all, []int64{1, 2, 3, 4}, 9, nil},
		{urgent, nil, 9, [][]int64{{10}}},
	} {
		busy := map[store.Lane]time.Time{}
		for _, crew := range c.busy {
			busy[store.Lane{Crew: crew}] = time.Time{}
		}
		var got [][]int64
		for _, list := range pick(c.due, busy, c.room) {
			var ids []int64
			for _, d := range list {
				ids = append(ids, d.ID)
			}
			got = append(got, ids)
		}
		assert.Equal(t, c.want, got, "%v %d", c.busy, c.room)
	}
}

// What cannot be recorded keeps nothing else from it that is written with it.
func TestOneBadRecord(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	var claimed []store.Message
	s.do(func(tx *store.Tx) (err error) { claimed, err = claimDue(tx, 1); return err })
	require.Len(t, claimed, 1)
	// It has no settings, for which the pin of a list asks.
	bad := &outcome{now: s.now, out: store.Outgoing{Messages: []store.Message{{Crew: s.crew.ID, Ping: rules.Digest, Day: "2031-04-24"}}}, receipt: store.Receipt{Number: 6}, done: make(chan struct{})}
	good := &outcome{now: s.now, out: store.Outgoing{Crew: s.crew, Messages: claimed}, receipt: store.Receipt{Number: 7}, done: make(chan struct{})}
	s.sched.records.waiting, s.sched.records.writing = []*outcome{bad, good}, true
	s.sched.writeWaiting(ctx)
	require.Error(t, bad.failed)
	require.NoError(t, good.failed)
	assert.Equal(t, "sent", s.row("answer/1").State)
}

// Being held costs no attempt, whoever holds: the chat, or a group that is mute.
func TestHoldsGiveTheAttemptBack(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.answer("answer/1")
	s.chat.script = []func(ctx2) error{fails(&SendError{Held: true, After: time.Minute, Err: errors.New("the chat's limit is reached")})}
	require.NoError(t, s.tick())
	assert.Zero(t, s.row("answer/1").Attempt)
	s.do(func(tx *store.Tx) error { return tx.SetStanding(s.crew.ID, "muted") })
	for range 3 {
		assert.Empty(t, s.tickAt(s.row("answer/1").Due))
		assert.Zero(t, s.row("answer/1").Attempt)
		assert.Equal(t, s.now.Add(mutedWait), s.row("answer/1").Due)
	}
	s.do(func(tx *store.Tx) error { return tx.SetStanding(s.crew.ID, "open") })
	assert.Equal(t, []string{"answer/1"}, s.tickAt(s.row("answer/1").Due))
}

// A list that the group cannot be given does not end the lists of the days after.
func TestDigestAfterOneThatWasRefused(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.do(func(tx *store.Tx) error { return tx.SetStanding(s.crew.ID, "gone") })
	assert.Empty(t, s.tickAt(at("2031-04-25 06:30")))
	assert.Equal(t, "failed", s.row("digest/2031-04-25").State)
	assert.Equal(t, "queued", s.row("digest/2031-04-26").State)
}

// A list that comes late into the quiet hours wakes nobody.
func TestLateDigestWaitsForTheMorning(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	assert.Empty(t, s.tickAt(at("2031-04-25 22:30")))
	m := s.row("digest/2031-04-25")
	assert.Equal(t, "quiet hours", m.Reason)
	assert.Equal(t, at("2031-04-26 05:30"), m.Due)
	assert.NotContains(t, s.tickAt(at("2031-04-26 05:30")), "digest/2031-04-25", "its day is over")
}

// What panicked is a word of nobody's that the log shows.
func TestPanicIsLoggedWithoutItsValue(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	var said bytes.Buffer
	s.sched.log = slog.New(slog.NewTextHandler(&said, &slog.HandlerOptions{ReplaceAttr: func(_ []string, a slog.Attr) slog.Attr {
		if a.Key == "panic" {
			return slog.Attr{} // the handler's to hide, as of any panic
		}
		return a
	}}))
	s.answer("answer/1")
	for range mostPanics {
		s.chat.script = []func(ctx2) error{func(ctx2) error { panic("Larkspur") }}
		s.tickAt(s.row("answer/1").Due)
	}
	assert.Equal(t, "failed", s.row("answer/1").State)
	assert.Contains(t, said.String(), "panic: string")
	assert.NotContains(t, said.String(), "Larkspur")
}
