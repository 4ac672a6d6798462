package store

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What goes first does not depend on how long the others have waited.
func TestDueInTheOrderOfPriorities(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.graft(7, 45, "B2", 1)
	eve := d.message("batch 1/finish/eve/2031-04-24")
	put := func(key string, priority int, edits int64) {
		d.do(func(tx *Tx) error {
			return tx.Queue(Message{Crew: d.crew.ID, Key: key, Kind: "reply", Text: key, Priority: priority, Edits: edits})
		})
	}
	put("edit", 0, 7)
	for i := range 3 {
		put(fmt.Sprint("echo/", i), Echo, 0)
	}
	d.now = d.now.Add(time.Minute)
	put("answer", 0, 0)
	d.now = eve.Fire
	var keys []string
	d.do(func(tx *Tx) error {
		list, err := claimDue(tx, 100)
		for _, m := range list {
			keys = append(keys, m.Key)
		}
		return err
	})
	assert.Equal(t, []string{eve.Key, "answer", "echo/0", "echo/1", "echo/2", "edit"}, keys)
}

// That the service ended while messages were on their way is no failed attempt, however
// often it does: the failure that follows is the first.
func TestKillIsNoFailedAttempt(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	for range 5 {
		require.Len(t, d.claim(), 1)
		d.do(func(tx *Tx) error { return tx.ReleaseAll() })
		assert.Zero(t, d.message("answer/1").Attempt)
	}
	assert.Equal(t, 1, d.claim()[0].Attempt)
}

// What is worked on keeps its claim, whatever the clock does; what nobody works on loses it.
func TestReleaseLeavesWhatIsWorkedOn(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	require.Len(t, d.claim(), 1)
	d.now = d.now.Add(8 * time.Hour)
	release := func(own bool) {
		d.do(func(tx *Tx) error {
			return tx.Release(func(l Lane) bool { return own && l == Lane{Crew: d.crew.ID} })
		})
	}
	release(true)
	assert.Equal(t, "claimed", d.message("answer/1").State)
	release(false)
	assert.Equal(t, "queued", d.message("answer/1").State)
}

// A chat that takes no more echoes still takes what goes before them, and other chats take
// all.
func TestHoldHoldsALane(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.do(func(tx *Tx) error {
		for i, m := range []Message{{Priority: Answer}, {Priority: Echo}, {Edits: 3}, {Priority: Echo, Chat: 77}} {
			m.Crew, m.Key, m.Kind, m.Text = d.crew.ID, fmt.Sprint("m", i), "reply", "text"
			if err := tx.Queue(m); err != nil {
				return err
			}
		}
		return tx.Hold(Lane{Crew: d.crew.ID}, Echo, d.now.Add(time.Minute))
	})
	keys := func() (keys []string) {
		for _, m := range d.claim() {
			keys = append(keys, m.Key)
		}
		return keys
	}
	assert.Equal(t, []string{"m0", "m3"}, keys())
	d.now = d.now.Add(time.Minute)
	assert.Equal(t, []string{"m1", "m2"}, keys())
}

// Nobody can reply to an answer that went in a summary: the message of that number is
// about others as well.
func TestSummedIsNobodysMessage(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	d.queue("answer/2")
	d.do(func(tx *Tx) error {
		list, err := claimDue(tx, 10)
		require.NoError(t, err)
		require.Len(t, list, 2)
		for _, m := range list {
			ok, err := tx.MarkSent(m, 5, m.Text, nil, Summed)
			require.True(t, ok)
			require.NoError(t, err)
		}
		_, found, err := tx.SentMessage(d.crew.ID, 5)
		assert.False(t, found)
		return err
	})
	assert.Equal(t, "answer/2", d.message("answer/2").Text, "what it would have said stays")
}
