package store

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A number grows when what was shown changed, and only then; what went away is
// cancelled, comes back under a higher number, and is forgotten after a season's rest.
func TestCalendarNumbers(t *testing.T) {
	d := newDiary(t, fresh(t))
	show := func(list ...CalendarEvent) (out map[string]CalendarEvent) {
		out = map[string]CalendarEvent{}
		d.do(func(tx *Tx) error {
			got, err := tx.ShowCalendar(d.crew.ID, list)
			for _, e := range got {
				out[e.Key] = e
			}
			return err
		})
		return out
	}
	end := start.Add(10 * time.Hour)
	a, b := CalendarEvent{Key: "a", End: end, Body: "one"}, CalendarEvent{Key: "b", End: end, Body: "x"}
	got := show(a, b)
	assert.Equal(t, 0, got["a"].Sequence)
	first := got["b"].Changed
	assert.Equal(t, d.now, first)
	d.now = d.now.Add(time.Hour)
	a.Body = "two"
	got = show(a, b)
	assert.Equal(t, 1, got["a"].Sequence)
	assert.Equal(t, d.now, got["a"].Changed)
	assert.Equal(t, 0, got["b"].Sequence)
	assert.Equal(t, first, got["b"].Changed)
	got = show(a)
	assert.True(t, got["b"].Cancelled)
	assert.Equal(t, 1, got["b"].Sequence)
	got = show(a)
	assert.Equal(t, 1, got["b"].Sequence, "cancelled once")
	got = show(a, b)
	assert.False(t, got["b"].Cancelled)
	assert.Equal(t, 2, got["b"].Sequence)
	show(a)
	d.now = end.Add(keepCancelled + time.Hour)
	got = show(a)
	assert.NotContains(t, got, "b")
	assert.Equal(t, 1, got["a"].Sequence)
}

func TestCalendarLinks(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.do(func(tx *Tx) error {
		require.NoError(t, tx.NewCalendarLink(d.crew.ID, "h1"))
		c, ok, err := tx.CalendarOf("h1")
		require.NoError(t, err)
		require.True(t, ok)
		assert.Equal(t, d.crew.ID, c.ID)
		require.NoError(t, tx.NewCalendarLink(d.crew.ID, "h2"))
		_, ok, err = tx.CalendarOf("h1")
		assert.False(t, ok, "a new link closes the old")
		require.NoError(t, err)
		had, err := tx.CalendarLinked(d.crew.ID)
		assert.True(t, had)
		require.NoError(t, err)
		require.NoError(t, tx.CloseCalendarLink(d.crew.ID))
		had, err = tx.CalendarLinked(d.crew.ID)
		assert.False(t, had)
		require.NoError(t, err)
		_, ok, err = tx.CalendarOf("h2")
		assert.False(t, ok)
		return err
	})
}
