package group

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Group is what a real group needs around the conversation.
type Group struct {
	db    *store.DB
	wake  func()
	tries tries // of join codes

	// ByCode: a chat that is not known is only spoken to once somebody there gives a
	// join code. Without it every chat gets a crew of its own.
	ByCode bool
	// Hears reports whether the bot hears every message of a group; nil for yes.
	Hears func() bool
}

// New makes one on a database. wake is called when a message is queued.
func New(db *store.DB, wake func()) *Group { return &Group{db: db, wake: wake} }

// Moved follows a group that has got another id.
func (g *Group) Moved(ctx context.Context, now time.Time, source string, from, to int64) error {
	return g.db.Update(ctx, now, func(tx *store.Tx) error { return tx.MoveChat(source, from, to) })
}

// Came puts somebody who joined the group on the crew, also after having been
// taken off: who may come into the group is for the group to say.
func (g *Group) Came(ctx context.Context, now time.Time, source string, chat int64, userKey, userName string) error {
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		c, found, err := tx.Crew(source, chat)
		if err != nil || !found {
			return err
		}
		m, err := tx.Member(c, userKey, wording.Person(userName, userKey))
		if err != nil || !m.Gone {
			return err
		}
		return tx.SetGone(m.ID, false)
	})
}

// Left takes somebody who left the group off the crew, or a private chat would go
// on telling them of it. Where the last lead goes, the oldest member leads.
func (g *Group) Left(ctx context.Context, now time.Time, source string, chat int64, userKey string) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		c, found, err := tx.Crew(source, chat)
		if err != nil || !found {
			return err
		}
		id, found, err := tx.MemberKey(c.ID, userKey)
		if err != nil || !found {
			return err
		}
		if err := tx.SetGone(id, true); err != nil {
			return err
		}
		list, err := tx.Members(c.ID)
		if err != nil || len(list) == 0 {
			return err
		}
		for _, m := range list {
			if m.Lead {
				return nil
			}
		}
		if err := tx.SetLead(list[0].ID, true); err != nil {
			return err
		}
		if err := TellLeads(tx, c); err != nil {
			return err
		}
		return g.Tell(tx, c, fmt.Sprintf("lead/%d/%d", list[0].ID, now.UnixMilli()), "g_lead_is", "Name", list[0].Name)
	})
}

// Tell queues a message for a crew's group that answers nobody. The same key is
// told once.
func (g *Group) Tell(tx *store.Tx, c store.Crew, key, id string, kv ...any) error {
	s, err := tx.Settings(c.ID)
	if err != nil {
		return err
	}
	return tellWords(tx, c, s, key, func(v wording.Voice) string { return v.Say(id, kv...) })
}

// tellWords queues what word says in each language of the crew.
func tellWords(tx *store.Tx, c store.Crew, s *rules.Settings, key string, word func(wording.Voice) string) error {
	return tx.Queue(store.Message{Crew: c.ID, Key: key, Kind: "error", Text: wording.InEach(wording.All(s, tx.Now), word)})
}

// Parked tells the crew that the chat refused a message for good, once for each
// message, and its leads once a day. A notice that is refused itself is not told of.
func (g *Group) Parked(ctx context.Context, now time.Time, out store.Outgoing) error {
	m := out.Messages[0]
	if strings.HasPrefix(m.Key, parkedKey) || m.Edits != 0 {
		return nil
	}
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		what := func(v wording.Voice) string {
			if m.Step == "" {
				return v.Say("g_parked_answer")
			}
			return v.Say("task", "Step", m.Step, "Subject", v.Subject(rules.ParseSubject(m.Subject)))
		}
		if err := g.noteDaily(tx, out.Crew, "parked", "g_note_parked", what(wording.New(out.Settings, now))); err != nil {
			return err
		}
		return tellWords(tx, out.Crew, out.Settings, fmt.Sprintf("%s%d", parkedKey, m.ID), func(v wording.Voice) string {
			return v.Say("g_parked", "What", what(v))
		})
	})
}

const parkedKey = "parked/"

// codeLetters leaves out what is read for something else: O and 0, I and 1.
const codeLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"

// OpenJoin makes a join code, which claims one group once, and voids any before it.
func (g *Group) OpenJoin(ctx context.Context, now time.Time) (string, error) {
	raw := make([]byte, 8)
	if _, err := rand.Read(raw); err != nil {
		return "", err
	}
	for i, r := range raw {
		raw[i] = codeLetters[int(r)%len(codeLetters)] // 256 is a multiple of 32: no bias
	}
	code := string(raw[:4]) + "-" + string(raw[4:])
	return code, g.db.Update(ctx, now, func(tx *store.Tx) error {
		if err := tx.CloseJoinCodes(); err != nil {
			return err
		}
		return tx.NewJoinCode(codeHash(code))
	})
}

// codeHash is what is stored of a join code, and what codes are compared by: see
// store.UseJoinCode.
func codeHash(code string) string {
	s := strings.ToUpper(strings.NewReplacer("-", "", " ", "").Replace(code))
	sum := sha256.Sum256([]byte("yardbell join " + s))
	return hex.EncodeToString(sum[:])
}

// Claimed reports whether any group of a source was claimed.
func (g *Group) Claimed(ctx context.Context, now time.Time, source string) (claimed bool, err error) {
	err = g.db.View(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		for _, c := range crews {
			claimed = claimed || c.Source == source
		}
		return err
	})
	return claimed, err
}

// IsJoin reports whether a text has the form of a join code's claim.
func IsJoin(text string) bool {
	_, ok := joinCode(text)
	return ok
}

// Ours reports whether a group is a crew's.
func (g *Group) Ours(ctx context.Context, now time.Time, source string, chat int64) (ours bool, err error) {
	err = g.db.View(ctx, now, func(tx *store.Tx) (err error) {
		_, ours, err = tx.Crew(source, chat)
		return err
	})
	return ours, err
}

// Opens reports whether a text is a join code that is open for a chat. It only reads, so
// that a transport can ask it before it asks anything of the chat: what any stranger may type
// must not cost the crews a call. Who gave too many wrong codes is not heard for a while,
// with a right one neither.
func (g *Group) Opens(ctx context.Context, now time.Time, source string, chat int64, userKey, text string) (opens bool, err error) {
	code, ok := joinCode(text)
	if !ok {
		return false, nil
	}
	err = g.db.View(ctx, now, func(tx *store.Tx) error {
		_, ours, err := tx.Crew(source, chat)
		if err != nil || ours || !g.tries.take(userKey, now) {
			return err
		}
		opens, err = tx.JoinCodeOpen(codeHash(code))
		return err
	})
	return opens, err
}

// Claim takes the group of a text that is an open join code; it is used up by that.
func Claim(tx *store.Tx, text string) (bool, error) {
	code, ok := joinCode(text)
	if !ok {
		return false, nil
	}
	return tx.UseJoinCode(codeHash(code))
}

// joinCode finds the code in "/join XXXX-XXXX".
func joinCode(text string) (string, bool) {
	f := strings.Fields(wording.Clean(text))
	if len(f) < 2 || len(f) > 3 {
		return "", false
	}
	word, _, _ := strings.Cut(wording.Fold(strings.TrimPrefix(f[0], "/")), "@")
	if word != "join" {
		return "", false
	}
	return strings.Join(f[1:], ""), true
}
