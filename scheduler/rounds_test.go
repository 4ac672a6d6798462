package scheduler

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// about are the tasks that each message said by itself was about.
func (s *service) about() (list [][]string) {
	for _, out := range s.chat.got {
		var keys []string
		for _, m := range out.Messages {
			if m.TaskKey != "" {
				keys = append(keys, m.TaskKey)
			}
		}
		if keys != nil {
			list = append(list, keys)
		}
	}
	s.chat.got = nil
	s.chat.take()
	return list
}

// Of bars grafted within six hours an evening's ping is one message, also where that of a
// later bar would only come the evening after. One grafted later than that goes by itself.
func TestBarsOfARoundAreOnePing(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.now = at("2031-04-24 13:30")
	s.graft(2)
	s.now = at("2031-04-24 14:30")
	s.graft(3)
	s.live("2031-04-24 18:59")
	s.about()
	s.live("2031-04-24 19:00")
	require.NoError(t, s.tick())
	assert.Equal(t, [][]string{{"batch 1/finish", "batch 2/finish"}, {"batch 3/finish"}}, s.about())
	assert.Equal(t, "due, one message for round 2031-04-24: batch 1/finish, batch 2/finish", s.row("batch 2/finish/eve/2031-04-24").Reason)
	assert.Equal(t, "due", s.row("batch 3/finish/eve/2031-04-24").Reason)

	s.live("2031-04-27 18:59")
	s.about()
	s.live("2031-04-27 19:00")
	require.NoError(t, s.tick())
	assert.Equal(t, [][]string{{"builder B1/rogue/1", "builder B2/rogue/2"}}, s.about())
	assert.Equal(t, "sent", s.row("builder B2/rogue/2/eve/2031-04-28").State, "its own evening is the next")
	s.live("2031-04-28 19:00")
	require.NoError(t, s.tick())
	assert.Equal(t, [][]string{{"builder B3/rogue/3"}}, s.about())
}

// What tells of a close comes for each bar at its own time; at one instant it is one message.
func TestClosingPingsAreNotMergedAway(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.graft(2)
	s.now = at("2031-04-24 09:00")
	s.graft(3)
	s.live("2031-04-25 20:00")
	s.about()
	s.live("2031-04-26 10:00")
	require.NoError(t, s.tick())
	assert.Equal(t, [][]string{
		{"batch 1/finish", "batch 2/finish", "batch 3/finish"},   // 05:30, out of the quiet hours
		{"batch 1/finish", "batch 2/finish"}, {"batch 3/finish"}, // two hours before each
		{"batch 1/finish", "batch 2/finish"}, {"batch 3/finish"}, // over
	}, s.about())
}

// One that somebody put off is not taken along, and what could not be sent goes again whole.
func TestBarsPutOffStayAndFailedOnesComeAgain(t *testing.T) {
	s := newService(t, "2031-04-24 08:00")
	s.graft(1)
	s.graft(2)
	s.graft(3)
	s.log(rules.Entry{Action: rules.Later, Step: rules.Finish, Subject: rules.BatchSubject(2), Detail: rules.Detail{Until: at("2031-04-25 09:00").UnixMilli()}})
	s.live("2031-04-24 18:59")
	s.about()
	s.chat.script = []func(context.Context) error{func(context.Context) error { return errors.New("the chat is away") }}
	s.live("2031-04-24 19:00")
	require.NoError(t, s.tick())
	s.about()
	s.now = s.now.Add(time.Minute)
	require.NoError(t, s.tick())
	assert.Equal(t, [][]string{{"batch 1/finish", "batch 3/finish"}}, s.about())
	s.live("2031-04-25 09:00")
	require.NoError(t, s.tick())
	assert.Equal(t, [][]string{{"batch 2/finish"}}, s.about())
}
