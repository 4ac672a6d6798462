package main

import (
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/store"
)

// A machine whose clock is behind plans what the chat's dates say: a ping whose time had
// passed when the line was written is not begun, whatever the machine believes.
func TestPlansByTheChatsDates(t *testing.T) {
	planned := func(behind time.Duration) string {
		db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "crew.db"), store.Options{})
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, db.Close()) })
		b := bot.New(db, func() {}, slog.New(slog.DiscardHandler), map[string]string{"zone": "America/Chicago"})
		for i, l := range []struct {
			said time.Time
			text string
		}{
			{chicago(24, 9, 0), "add breeder 7"},
			{chicago(24, 9, 1), "add builder B2"},
			// Two hours before the bar has to be in the finisher is an hour ago.
			{chicago(26, 15, 0), "graft 45 from 7 into B2 on 24 April at 16:00"},
		} {
			require.NoError(t, b.Handle(t.Context(), l.said.Add(-behind), bot.Incoming{Source: "test", UpdateID: int64(i + 1), Chat: 1, UserKey: "1",
				UserName: "Wren", Said: l.said, Kind: "message", Message: int64(100 + i), Text: l.text}))
		}
		var dump string
		require.NoError(t, db.View(t.Context(), chicago(26, 15, 1), func(tx *store.Tx) (err error) {
			dump, err = tx.Dump()
			return err
		}))
		dump, _, _ = strings.Cut(dump, "|digest/") // the morning is the machine's
		return dump
	}
	right := planned(0)
	require.Contains(t, right, "batch 1/finish/over")
	require.NotContains(t, right, "batch 1/finish/closing2")
	for _, behind := range []time.Duration{time.Hour, 3 * time.Hour} {
		assert.Equal(t, right, planned(behind), fmt.Sprint(behind, " behind"))
	}
}

// The default that the machine wrote by its own clock is overruled by whatever the crew
// says after it, though the chat dates that earlier: in the second of the claim, since it
// counts whole seconds, and where the machine's clock is ahead.
func TestSettingsCountInTheOrderLogged(t *testing.T) {
	for _, ahead := range []time.Duration{0, 400 * time.Millisecond, time.Hour, 26 * time.Hour} {
		db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "crew.db"), store.Options{})
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, db.Close()) })
		b := bot.New(db, func() {}, slog.New(slog.DiscardHandler), map[string]string{"zone": "America/Chicago", "language": "en"})
		said := chicago(24, 9, 0)
		for i, text := range []string{"set zone Europe/Berlin", "set evening 18:00", "set evening 18:30"} {
			// The first was written in the second of the claim; the clock is put right after it.
			now := said.Add(time.Duration(i)*time.Minute + ahead)
			if i > 0 {
				now = said.Add(time.Duration(i) * time.Minute)
			}
			require.NoError(t, b.Handle(t.Context(), now, bot.Incoming{Source: "test", UpdateID: int64(i + 1), Chat: 1, UserKey: "1",
				UserName: "Wren", Said: said.Add(time.Duration(i) * time.Minute), Kind: "message", Message: int64(100 + i), Text: text}))
		}
		for _, again := range []bool{false, true} {
			require.NoError(t, db.Update(t.Context(), said.Add(time.Hour), func(tx *store.Tx) error {
				if again {
					_, err := tx.Rebuild()
					require.NoError(t, err)
				}
				c, found, err := tx.Crew("test", 1)
				require.NoError(t, err)
				require.True(t, found)
				s, err := tx.Settings(c.ID)
				require.NoError(t, err)
				assert.Equal(t, "Europe/Berlin", s.Zone.String(), fmt.Sprint(ahead, " ahead"))
				assert.Equal(t, "18:30", s.Value("evening"), fmt.Sprint(ahead, " ahead"))
				return err
			}))
		}
	}
}
