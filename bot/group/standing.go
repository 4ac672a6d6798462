package group

import (
	"context"
	"fmt"
	"strings"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// This file follows what a chat lets the bot do: write, hear, pin.

// Standing notes what a chat lets the bot do: state is "open", "muted" or "gone",
// rights as store.Crew has them; "" leaves either as it is. The leads are told in
// private where the group cannot be written any more, the group where the bot hears
// more or less of it than it was told.
func (g *Group) Standing(ctx context.Context, now time.Time, source string, chat int64, state, rights string) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		c, found, err := tx.Crew(source, chat)
		if err != nil || !found {
			return err
		}
		if state != "" && state != c.Standing {
			if err := tx.SetStanding(c.ID, state); err != nil {
				return err
			}
			c.Standing = state
			switch state {
			case "gone":
				err = g.note(tx, c, fmt.Sprintf("out/%d", now.UnixMilli()), "g_note_out", "")
			case "muted":
				err = g.muted(tx, c)
			}
			if err != nil {
				return err
			}
		}
		if rights != "" && rights != c.Rights {
			if err := tx.SetRights(c.ID, rights); err != nil {
				return err
			}
			c.Rights = rights
		}
		return g.hearing(tx, c)
	})
}

// muted tells the leads, once a day, that the group cannot be written.
func (g *Group) muted(tx *store.Tx, c store.Crew) error {
	return g.noteDaily(tx, c, "muted", "g_note_muted", "")
}

// Muted is for a chat that refused a message because the bot may only read there. The
// chat's standing stays: a basic group never tells when it is over.
func (g *Group) Muted(ctx context.Context, now time.Time, crew store.Crew) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error { return g.muted(tx, crew) })
}

// HearsAll reports whether the bot hears every message of a group: its privacy mode
// is off, or it is an administrator there.
func (g *Group) HearsAll(c store.Crew) bool { return g.Hears == nil || g.Hears() || c.Admin() }

// Heard is HearsAll as the store has it.
func (g *Group) Heard(c store.Crew) string {
	if g.HearsAll(c) {
		return "all"
	}
	return "some"
}

// hearing tells the group where the bot hears more or less of it than it said last.
// A crew that was told nothing yet is told by the welcome, or is older than that.
func (g *Group) hearing(tx *store.Tx, c store.Crew) error {
	if c.Standing == "gone" || c.Rights == "" {
		return nil
	}
	hears := g.Heard(c)
	if c.Hears == hears {
		return nil
	}
	if err := tx.SetHears(c.ID, hears); err != nil || c.Hears == "" {
		return err
	}
	key := fmt.Sprintf("hears/%d", tx.Now.UnixMilli())
	if hears == "all" {
		return g.Tell(tx, c, key, "g_hears_all_now")
	}
	return g.Tell(tx, c, key, "g_hears_some_now")
}

// Chats are the groups of a source that were claimed.
func (g *Group) Chats(ctx context.Context, now time.Time, source string) (chats []int64, err error) {
	err = g.db.View(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		for _, c := range crews {
			if c.Source == source {
				chats = append(chats, c.Chat)
			}
		}
		return err
	})
	return chats, err
}

// Pinned is told of the chat's own notice that the bot pinned a message, which is
// taken away again where that is allowed.
func (g *Group) Pinned(ctx context.Context, now time.Time, source string, chat, notice int64) error {
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		c, found, err := tx.Crew(source, chat)
		if err != nil || !found || !c.MayDelete() {
			return err
		}
		return tx.QueueTidy(c, notice)
	})
}

// NoRight remembers that the chat refused to have something pinned or deleted, so
// that it is not asked again before it says that the bot may.
func (g *Group) NoRight(ctx context.Context, now time.Time, out store.Outgoing) error {
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		c, err := tx.CrewByID(out.Crew.ID)
		if err != nil {
			return err
		}
		var left []string
		for _, r := range strings.Fields(c.Rights) {
			if r != string(out.Messages[0].Ping) && !(r == "delete" && out.Messages[0].Ping == store.Tidy) {
				left = append(left, r)
			}
		}
		return tx.SetRights(c.ID, strings.Join(left, " "))
	})
}

// Twin warns every crew, once a day, that another process reads the same bot's
// updates: its group, or its leads where the group cannot be written.
func (g *Group) Twin(ctx context.Context, now time.Time, source string) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		for _, c := range crews {
			if c.Source != source {
				continue
			}
			if c.Standing != "open" {
				err = g.noteDaily(tx, c, "twin", "g_note_twin", "")
			} else {
				var s *rules.Settings
				if s, err = tx.Settings(c.ID); err == nil {
					err = g.Tell(tx, c, "twin/"+rules.DateOf(now, s.Zone).String(), "g_twin")
				}
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
}
