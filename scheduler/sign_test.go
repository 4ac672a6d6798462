package scheduler

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// notice has somebody's message carry the sign and gives the keys of its row.
func (s *service) notice(text string) (u store.Update, sign string) {
	s.t.Helper()
	s.do(func(tx *store.Tx) error {
		m, err := tx.Member(s.crew, "1", "Wren")
		if err != nil {
			return err
		}
		s.update++
		u = store.Update{Source: "test", UpdateID: s.update, Crew: s.crew.ID, Member: m.ID, Kind: "message", Message: 7000 + s.update, Text: text, Said: s.now}
		if u.ID, _, err = tx.MarkUpdate(u); err != nil {
			return err
		}
		if err = tx.Settle(u.ID, store.Notice, true); err != nil {
			return err
		}
		set, err := tx.Settings(s.crew.ID)
		if err != nil {
			return err
		}
		return tx.QueueSign(u, set)
	})
	return u, fmt.Sprintf("sign/%s/%d", s.now.In(chicago).Format("2006-01-02"), u.ID)
}

func (s *service) unsign(u store.Update) {
	s.do(func(tx *store.Tx) error { return tx.Unsign(s.crew.ID, u.Message, "logged", false) })
}

// The sign goes behind all that is said, and neither a refusal nor a wait of it holds up
// anything else.
func TestSignGoesLast(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	_, sign := s.notice("flurb")
	s.answer("answer/1")
	assert.Equal(t, []string{"answer/1", sign}, s.tickAt(s.now))
	for name, no := range map[string]struct {
		err   error
		state string
	}{
		"no reactions there": {&SendError{Final: true, Spare: true, Err: errors.New("REACTION_INVALID")}, "dropped"},
		"asked to wait":      {&SendError{Held: true, Share: true, After: time.Hour, Err: errors.New("wait")}, "queued"},
		"cut":                {errors.New("cut"), "queued"},
	} {
		_, sign := s.notice(name)
		s.chat.script = append(s.chat.script, fails(no.err))
		assert.Empty(t, s.tickAt(s.now.Add(time.Second)), name)
		assert.Equal(t, no.state, s.row(sign).State, name)
		s.answer("answer/" + name)
		assert.Equal(t, []string{"answer/" + name}, s.tickAt(s.now.Add(time.Second)), name)
	}
}

// Logged before it went, the sign does not go; logged while it was on its way or after, it
// is removed.
func TestSignRemoved(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	u, sign := s.notice("waits")
	s.unsign(u)
	assert.Empty(t, s.tickAt(s.now))
	assert.Equal(t, "cancelled", s.row(sign).State)

	u, sign = s.notice("stands")
	assert.Equal(t, []string{sign}, s.tickAt(s.now))
	s.unsign(u)
	s.unsign(u)
	off := fmt.Sprintf("unsign/%d", u.ID)
	assert.Equal(t, []string{off}, s.tickAt(s.now))
	assert.Equal(t, u.Message, s.row(off).Edits)

	u, sign = s.notice("refused")
	s.chat.script = append(s.chat.script, fails(&SendError{Final: true, Spare: true, Err: errors.New("no")}))
	assert.Empty(t, s.tickAt(s.now))
	s.unsign(u)
	assert.Empty(t, s.tickAt(s.now), "nothing stands there")
	assert.Equal(t, "dropped", s.row(sign).State)

	u, sign = s.notice("settled otherwise")
	s.do(func(tx *store.Tx) error { return tx.Settle(u.ID, "changed", true) })
	assert.Empty(t, s.tickAt(s.now))
	assert.Equal(t, "dropped", s.row(sign).State)
}

// The list comes at the end of the evening's pings, says what is left then, and does not
// come where nothing is.
func TestListOfTheEvening(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	gone, _ := s.notice("logged later")
	left, _ := s.notice("still not logged")
	s.tickAt(s.now)
	s.unsign(gone)
	s.live("2031-04-24 18:59")
	s.chat.take()
	s.now = at("2031-04-24 19:00")
	require.NoError(t, s.tick())
	last := s.chat.got[len(s.chat.got)-1]
	require.Equal(t, store.Seen, last.Messages[0].Ping)
	assert.Greater(t, len(s.chat.got), 1, "after a ping of the evening")
	require.Len(t, last.Unlogged, 1)
	assert.Equal(t, "still not logged", last.Unlogged[0].Update.Text)
	assert.Equal(t, "Wren", last.Unlogged[0].Name)
	s.chat.take()

	s.unsign(left)
	s.now = at("2031-04-25 08:00")
	gone, _ = s.notice("the next day")
	s.unsign(gone)
	s.live("2031-04-25 19:01")
	assert.Equal(t, "dropped", s.row("seen/2031-04-25").State)
}
