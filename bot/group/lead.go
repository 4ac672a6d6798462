package group

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// This file tells the leads of a crew in private what their group cannot be told. A
// bot may not write to a person first, so that it is kept until they have written to
// it.

// note keeps a sentence for a crew's leads. The same key is told once.
func (g *Group) note(tx *store.Tx, c store.Crew, key, id, what string) error {
	if err := tx.KeepNote(c.ID, key, id, what); err != nil {
		return err
	}
	return TellLeads(tx, c)
}

// noteDaily keeps a sentence of a kind once a local day.
func (g *Group) noteDaily(tx *store.Tx, c store.Crew, kind, id, what string) error {
	s, err := tx.Settings(c.ID)
	if err != nil {
		return err
	}
	return g.note(tx, c, kind+"/"+rules.DateOf(tx.Now, s.Zone).String(), id, what)
}

// BackupFailed tells the leads of every crew, once a day, that there is no backup; broken
// where the reason is that the logbook is not as it was written.
func (g *Group) BackupFailed(ctx context.Context, now time.Time, broken bool) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		for _, c := range crews {
			if broken {
				err = g.noteDaily(tx, c, "broken", "g_note_broken", "")
			} else {
				err = g.noteDaily(tx, c, "backup", "g_note_backup", "")
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
}

// noteKey leads the keys of the outbox rows that carry notes: note, member, when it
// was queued, since one that is refused may go again.
const noteKey = "note/"

// TellLeads queues what is kept for the leads whose private chats are open.
func TellLeads(tx *store.Tx, c store.Crew) error {
	notes, err := tx.Notes(c.ID)
	if err != nil || len(notes) == 0 {
		return err
	}
	list, err := tx.Members(c.ID)
	if err != nil {
		return err
	}
	s, err := tx.Settings(c.ID)
	if err != nil {
		return err
	}
	v := wording.New(s, tx.Now)
	for _, n := range notes {
		told := false
		for _, m := range list {
			if !m.Lead || m.Private == 0 {
				continue
			}
			told = true
			key := fmt.Sprintf("%s%d/%d/%d", noteKey, n.ID, m.ID, tx.Now.UnixMilli())
			text := wording.Upper(v.Say(n.Words, "When", n.Made, "What", n.What))
			if err := tx.Queue(store.Message{Crew: c.ID, Key: key, Kind: "error", Text: text, Chat: m.Private}); err != nil {
				return err
			}
		}
		if told {
			if err := tx.SetTold(n.ID, true); err != nil {
				return err
			}
		}
	}
	return nil
}

// Private follows whether a person's private chat is open to the bot. chat is 0 where
// it is closed.
func (g *Group) Private(ctx context.Context, now time.Time, source, userKey string, chat int64) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error { return OpenPrivate(tx, source, userKey, chat) })
}

func OpenPrivate(tx *store.Tx, source, userKey string, chat int64) error {
	crews, err := tx.CrewsOf(source, userKey)
	if err != nil {
		return err
	}
	if err := tx.SetPrivate(source, userKey, chat); err != nil || chat == 0 {
		return err
	}
	for _, c := range crews {
		if err := TellLeads(tx, c); err != nil {
			return err
		}
	}
	return nil
}

// PrivateShut is for a message that a private chat refused for good: nothing more goes
// there until the person writes again. A note in it is kept for then.
func (g *Group) PrivateShut(ctx context.Context, now time.Time, out store.Outgoing) error {
	m := out.Messages[0]
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		list, err := tx.Members(out.Crew.ID)
		if err != nil {
			return err
		}
		others := false
		for _, k := range list {
			others = others || k.Lead && k.Private != 0 && k.Private != m.Chat
		}
		if err := tx.ShutPrivate(out.Crew.Source, m.Chat); err != nil {
			return err
		}
		rest, isNote := strings.CutPrefix(m.Key, noteKey)
		if !isNote || others {
			return nil
		}
		id, _, _ := strings.Cut(rest, "/")
		n, err := strconv.ParseInt(id, 10, 64)
		if err != nil {
			return nil // not a key of ours
		}
		return tx.SetTold(n, false)
	})
}
