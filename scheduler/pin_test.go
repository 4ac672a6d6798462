package scheduler

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// pinning is a crew with a batch, on the morning of the first list, with these rights. A
// pin was tried once and did not come through.
func pinning(t *testing.T, rights string) *service {
	s := newService(t, "2031-04-24 08:00")
	if rights == "admin pin" {
		s.chat.script = []func(ctx2) error{fails(nil), fails(errAway)}
	}
	s.do(func(tx *store.Tx) error { return tx.SetRights(s.crew.ID, rights) })
	s.graft(1)
	require.Contains(t, s.tickAt(at("2031-04-25 06:30")), "digest/2031-04-25")
	require.Empty(t, s.chat.script)
	return s
}

// The list is recorded and its pin queued in one transaction; the pin names the list's
// number and is tried until it is there.
func TestPinFollowsTheDigest(t *testing.T) {
	s := pinning(t, "admin pin")
	list, pin := s.row("digest/2031-04-25"), s.row("pin/2031-04-25")
	assert.Equal(t, list.Message, pin.Edits)
	assert.Equal(t, "queued", pin.State)
	assert.Equal(t, []string{"pin/2031-04-25"}, s.tickAt(at("2031-04-25 06:31")))
	assert.Equal(t, "sent", s.row("pin/2031-04-25").State)
	assert.Empty(t, s.tickAt(at("2031-04-25 06:32")))
}

func TestNoPinWithoutTheRight(t *testing.T) {
	for _, rights := range []string{"", "member", "admin", "admin delete"} {
		assert.Empty(t, pinning(t, rights).tickAt(at("2031-04-25 06:31")), rights)
	}
}

// What becomes of a pin that is not wanted, or not possible, any more. None is parked,
// and the pings are none the worse for it.
func TestPinDropped(t *testing.T) {
	refused := &SendError{Final: true, Spare: true, Err: errors.New("no right")}
	for _, c := range []struct {
		name, reason string
		change       func(*service)
		when         string
	}{
		{"switched off", "not to be pinned any more", func(s *service) { s.set("pin", "off") }, "2031-04-25 06:31"},
		{"right lost", "not to be pinned any more", func(s *service) {
			s.do(func(tx *store.Tx) error { return tx.SetRights(s.crew.ID, "member") })
		}, "2031-04-25 06:31"},
		{"its day is over", "not to be pinned any more", func(*service) {}, "2031-04-26 05:00"},
		{"refused", "refused: no right", func(s *service) { s.chat.script = append(s.chat.script, fails(refused)) }, "2031-04-25 06:31"},
		{"put out", "the group cannot be written", func(s *service) {
			s.do(func(tx *store.Tx) error { return tx.SetStanding(s.crew.ID, "gone") })
		}, "2031-04-25 06:31"},
	} {
		s := pinning(t, "admin pin")
		c.change(s)
		s.tickAt(at(c.when))
		got := s.row("pin/2031-04-25")
		assert.Equal(t, "dropped", got.State, c.name)
		assert.Equal(t, c.reason, got.Reason, c.name)
		s.do(func(tx *store.Tx) error {
			if err := tx.SetStanding(s.crew.ID, "open"); err != nil {
				return err
			}
			open, err := tx.OpenTasks(s.crew.ID)
			require.NotEmpty(t, open, c.name)
			return err
		})
		next := ""
		for day := 26; day < 30 && next == ""; day++ {
			for _, key := range s.tickAt(time.Date(2031, time.April, day, 6, 30, 0, 0, chicago)) {
				if s.row(key).Ping == rules.Digest {
					next = key
				}
			}
		}
		assert.NotEmpty(t, next, "%s: the next list goes out", c.name)
	}
}

// A pin that failed in passing is tried again, and holds nothing up.
func TestPinTriedAgain(t *testing.T) {
	s := pinning(t, "admin pin")
	s.chat.script = append(s.chat.script, fails(nil), fails(errors.New("cut")))
	s.answer("answer/1")
	assert.Equal(t, []string{"answer/1"}, s.tickAt(at("2031-04-25 06:31")))
	assert.Equal(t, "queued", s.row("pin/2031-04-25").State)
	assert.Equal(t, []string{"pin/2031-04-25"}, s.tickAt(at("2031-04-25 06:50")))
}
