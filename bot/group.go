package bot

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"yardbell/bot/conversation"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// This file is what a real group needs around the conversation: joining with a
// code, following the group when it changes, the updates that are not for us.

// Pass confirms an update that is not for the bot. raw is kept where it could not
// be read.
func (b *Bot) Pass(ctx context.Context, now time.Time, source string, id int64, raw string) error {
	return b.db.Update(ctx, now, func(tx *store.Tx) error {
		if raw != "" {
			if err := tx.SetAside(source, id, raw); err != nil {
				return err
			}
		}
		return tx.SetOffset(source, id+1)
	})
}

// Next is where the transport should read on.
func (b *Bot) Next(ctx context.Context, now time.Time, source string) (next int64, err error) {
	err = b.db.View(ctx, now, func(tx *store.Tx) (err error) {
		next, err = tx.Offset(source)
		return err
	})
	return next, err
}

// Moved follows a group that has got another id.
func (b *Bot) Moved(ctx context.Context, now time.Time, source string, from, to int64) error {
	return b.db.Update(ctx, now, func(tx *store.Tx) error { return tx.MoveChat(source, from, to) })
}

// Came puts somebody who joined the group on the crew, also after having been
// taken off: who may come into the group is for the group to say.
func (b *Bot) Came(ctx context.Context, now time.Time, source string, chat int64, userKey, userName string) error {
	return b.db.Update(ctx, now, func(tx *store.Tx) error {
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
func (b *Bot) Left(ctx context.Context, now time.Time, source string, chat int64, userKey string) error {
	defer b.wake()
	return b.db.Update(ctx, now, func(tx *store.Tx) error {
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
		if err := tellLeads(tx, c); err != nil {
			return err
		}
		return b.tell(tx, c, fmt.Sprintf("lead/%d/%d", list[0].ID, now.UnixMilli()), "g_lead_is", "Name", list[0].Name)
	})
}

// tell queues a message for a crew's group that answers nobody. The same key is
// told once.
func (b *Bot) tell(tx *store.Tx, c store.Crew, key, id string, kv ...any) error {
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
func (b *Bot) Parked(ctx context.Context, now time.Time, out store.Outgoing) error {
	m := out.Messages[0]
	if strings.HasPrefix(m.Key, parkedKey) || m.Edits != 0 {
		return nil
	}
	defer b.wake()
	return b.db.Update(ctx, now, func(tx *store.Tx) error {
		what := func(v wording.Voice) string {
			if m.Step == "" {
				return v.Say("g_parked_answer")
			}
			return v.Say("task", "Step", m.Step, "Subject", v.Subject(rules.ParseSubject(m.Subject)))
		}
		if err := b.noteDaily(tx, out.Crew, "parked", "g_note_parked", what(wording.New(out.Settings, now))); err != nil {
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
func (b *Bot) OpenJoin(ctx context.Context, now time.Time) (string, error) {
	raw := make([]byte, 8)
	if _, err := rand.Read(raw); err != nil {
		return "", err
	}
	for i, r := range raw {
		raw[i] = codeLetters[int(r)%len(codeLetters)] // 256 is a multiple of 32: no bias
	}
	code := string(raw[:4]) + "-" + string(raw[4:])
	return code, b.db.Update(ctx, now, func(tx *store.Tx) error {
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
func (b *Bot) Claimed(ctx context.Context, now time.Time, source string) (claimed bool, err error) {
	err = b.db.View(ctx, now, func(tx *store.Tx) error {
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
func (b *Bot) Ours(ctx context.Context, now time.Time, source string, chat int64) (ours bool, err error) {
	err = b.db.View(ctx, now, func(tx *store.Tx) (err error) {
		_, ours, err = tx.Crew(source, chat)
		return err
	})
	return ours, err
}

// Opens reports whether a message claims its group with a code that is open. It only
// reads, so that a transport can ask it before it asks anything of the chat: what any
// stranger may type must not cost the crews a call. Who gave too many wrong codes is not
// heard for a while, with a right one neither.
func (b *Bot) Opens(ctx context.Context, now time.Time, in Incoming) (opens bool, err error) {
	code, ok := joinCode(in.Text)
	if !ok || in.Kind != "message" || in.Private {
		return false, nil
	}
	err = b.db.View(ctx, now, func(tx *store.Tx) error {
		_, ours, err := tx.Crew(in.Source, in.Chat)
		if err != nil || ours || !b.tries.take(in.UserKey, now) {
			return err
		}
		opens, err = tx.JoinCodeOpen(codeHash(code))
		return err
	})
	return opens, err
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

// whose finds the crew and the member that an update belongs to. found is false
// for everybody else: strangers get no answer and learn nothing.
func (b *Bot) whose(sc *conversation.Scene, in Incoming) (found bool, err error) {
	if in.Private {
		crews, err := sc.Look.CrewsOf(in.Source, in.UserKey)
		if err != nil || len(crews) == 0 {
			return false, err
		}
		if err := private(sc.Look, in.Source, in.UserKey, in.Chat); err != nil {
			return false, err
		}
		sc.Crew, sc.Chat = crews[len(crews)-1], in.Chat
		if len(crews) > 1 {
			if err := choose(sc.Look, sc, in, crews); err != nil {
				return false, err
			}
		}
	} else {
		crew, known, err := sc.Look.Crew(in.Source, in.Chat)
		if err != nil {
			return false, err
		}
		if !known && b.ByCode {
			code, ok := joinCode(in.Text)
			if !ok || in.Kind != "message" || in.Shut {
				return false, nil
			}
			if ok, err = sc.Look.UseJoinCode(codeHash(code)); err != nil || !ok {
				return false, err
			}
			sc.Joined = true
		}
		if !known {
			if crew, err = sc.Look.NewCrew(in.Source, in.Chat, b.first); err != nil {
				return false, err
			}
		}
		if title := groupTitle(in.Title); title != "" && title != crew.Title {
			if err := sc.Look.SetTitle(crew.ID, title); err != nil {
				return false, err
			}
			crew.Title = title
		}
		sc.Crew = crew
	}
	if sc.Member, err = sc.Look.Member(sc.Crew, in.UserKey, in.UserName); err != nil || sc.Member.Gone {
		return false, err
	}
	if sc.Joined {
		sc.Member.Lead = true
		if err := sc.Look.SetLead(sc.Member.ID, true); err != nil {
			return false, err
		}
		if in.Rights != "" {
			if err := sc.Look.SetRights(sc.Crew.ID, in.Rights); err != nil {
				return false, err
			}
			sc.Crew.Rights = in.Rights
		}
		if err := sc.Look.SetHears(sc.Crew.ID, b.hears(sc.Crew)); err != nil { // the welcome says it
			return false, err
		}
		if in.Thread != 0 {
			if err := sc.Look.SetThread(sc.Crew.ID, in.Thread); err != nil {
				return false, err
			}
		}
	}
	if sc.Crew.Standing == "gone" && !in.Private {
		// Somebody writes there and the bot hears it: it is back. A muted bot hears as
		// well; that it may write again comes as an update of its own.
		if err := sc.Look.SetStanding(sc.Crew.ID, "open"); err != nil {
			return false, err
		}
	}
	// Without join codes there is nobody who claimed the crew, and all may do all.
	sc.Lead = sc.Member.Lead || !b.ByCode
	return true, nil
}
