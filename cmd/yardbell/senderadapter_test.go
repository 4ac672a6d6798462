package main

import (
	"context"
	"errors"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/scheduler"
	"yardbell/store"
)

// refusing is a transport that does not take what it is given.
type refusing struct{ not *bot.NotSent }

func (r refusing) Deliver(context.Context, wording.Delivery) (int64, error) { return 0, r.not }

// What the chat's refusals come to for the message, the group and a private chat.
func TestSenderAdapter(t *testing.T) {
	const group, private = -100, 55
	now := chicago(24, 8, 0)
	cut := errors.New("cut")
	for name, c := range map[string]struct {
		not      *bot.NotSent
		chat     int64
		ping     rules.PingKind
		stopped  bool
		want     scheduler.SendError
		standing string
		rights   string
	}{
		"the chat asks to wait":     {not: &bot.NotSent{Held: true, After: time.Minute}, want: scheduler.SendError{Held: true, After: 70 * time.Second}},
		"a fault on the way":        {not: &bot.NotSent{}, want: scheduler.SendError{}},
		"refused":                   {not: &bot.NotSent{Final: true}, want: scheduler.SendError{Final: true}},
		"put out":                   {not: &bot.NotSent{Final: true, Gone: true}, want: scheduler.SendError{Final: true}, standing: "gone"},
		"put out while it stops":    {not: &bot.NotSent{Final: true, Gone: true}, stopped: true, want: scheduler.SendError{Final: true}, standing: "gone"},
		"muted":                     {not: &bot.NotSent{Held: true, Muted: true, After: time.Minute}, want: scheduler.SendError{Held: true, After: 70 * time.Second}},
		"no right to pin":           {not: &bot.NotSent{Final: true, Lacks: true}, ping: store.Pin, want: scheduler.SendError{Final: true, Spare: true}, rights: "admin"},
		"no such pin":               {not: &bot.NotSent{Final: true}, ping: store.Pin, want: scheduler.SendError{Final: true, Spare: true}},
		"private: a fault":          {not: &bot.NotSent{}, chat: private, want: scheduler.SendError{}},
		"private: asked to wait":    {not: &bot.NotSent{Held: true, After: time.Minute}, chat: private, want: scheduler.SendError{Held: true, After: 70 * time.Second}},
		"private: blocked, for all": {not: &bot.NotSent{Final: true, Gone: true}, chat: private, want: scheduler.SendError{Final: true}},
	} {
		t.Run(name, func(t *testing.T) {
			db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "crew.db"), store.Options{})
			require.NoError(t, err)
			t.Cleanup(func() { _ = db.Close() })
			var crew store.Crew
			var s *rules.Settings
			require.NoError(t, db.Update(t.Context(), now, func(tx *store.Tx) error {
				c, err := tx.NewCrew(telegram.Source, group, map[string]string{"zone": "UTC"})
				if err != nil {
					return err
				}
				if _, err = tx.Member(c, "1", "Wren"); err != nil {
					return err
				}
				if err = tx.SetPrivate(telegram.Source, "1", private); err != nil {
					return err
				}
				if err = tx.SetRights(c.ID, "admin pin"); err != nil {
					return err
				}
				if crew, err = tx.CrewByID(c.ID); err != nil {
					return err
				}
				s, err = tx.Settings(c.ID)
				return err
			}))
			quiet := slog.New(slog.DiscardHandler)
			clock := func() time.Time { return now.Add(10 * time.Second) } // the tick began at now
			c.not.Err = cut
			ctx, stop := context.WithCancel(t.Context())
			defer stop()
			if c.stopped {
				stop()
			}
			out := store.Outgoing{Crew: crew, Settings: s, Now: now, Messages: []store.Message{{ID: 1, Crew: crew.ID, Key: "x", Kind: "reply", Text: "x", Chat: c.chat, Ping: c.ping}}}
			_, err = senderAdapter{bot.Post{To: refusing{c.not}, DB: db}, bot.New(db, func() {}, quiet, nil), clock}.Send(ctx, out)
			var got *scheduler.SendError
			require.ErrorAs(t, err, &got)
			require.ErrorIs(t, got, cut)
			c.want.Err = got.Err
			assert.Equal(t, c.want, *got)
			require.NoError(t, db.View(t.Context(), now, func(tx *store.Tx) error {
				is, err := tx.CrewByID(crew.ID)
				if err != nil {
					return err
				}
				people, err := tx.Members(crew.ID)
				if c.standing == "" {
					c.standing = "open"
				}
				assert.Equal(t, c.standing, is.Standing)
				if c.rights != "" {
					assert.Equal(t, c.rights, is.Rights)
				} else if c.standing == "open" {
					assert.Equal(t, "admin pin", is.Rights)
				}
				assert.Equal(t, c.chat == 0 || !c.not.Final, people[0].Private == private, "the private chat")
				return err
			}))
		})
	}
}
