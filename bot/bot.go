package bot

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"yardbell/bot/conversation"
	"yardbell/bot/group"
	"yardbell/bot/wording"
	"yardbell/store"
)

// Incoming is one update as a transport read it.
type Incoming struct {
	Source   string // the transport
	UpdateID int64  // its number for the update, for knowing it again
	Chat     int64
	UserKey  string // its own name for the person
	UserName string
	Said     time.Time // when it was written
	Kind     string    // message, edit, press, thumb
	Message  int64     // the message; for a press or a thumb the one it was put on
	ReplyTo  int64     // the bot's message it replies to, 0 for none
	Beneath  int64     // a person's message it replies to, 0 for none
	Text     string    // for a press, the button's label where the transport knows it

	Data      string // for a press, what ButtonData gave; instead of the label
	Private   bool   // a chat with one person
	Addressed bool   // the bot was named, or is the only one there to hear it
	Title     string // of the group
	Thread    int64  // topic of a forum, 0 for none
	Photo     string // the transport's name for a photo whose caption the text is, "" for none
	Album     string // of photos that were sent together
	Forwarded bool   // somebody passes on what was written elsewhere
	Hidden    bool   // written in the name of the group or of a channel: nobody knows by whom
	Rights    string // of the bot in the group, as store.Crew has them; "" where not asked
	Shut      bool   // a join code in it opens nothing: see Opens
}

// Bot reads what comes in.
type Bot struct {
	*group.Group
	db    *store.DB
	wake  func()
	log   *slog.Logger
	first map[string]string

	// Feed is the public address under which calendars are served, empty for none.
	Feed string
	// Withheld is told of every answer that a member who wrote too much did not get;
	// may be nil.
	Withheld func()

	flood *flood // nil: everything is answered
}

// New makes a bot on a database. wake is called when an answer is queued. first
// are the settings a new crew starts with.
func New(db *store.DB, wake func(), log *slog.Logger, first map[string]string) *Bot {
	return &Bot{Group: group.New(db, wake), db: db, wake: wake, log: log, first: first}
}

// Limit keeps a single member from filling the chat with answers: see flood.go.
func (b *Bot) Limit() { b.flood = newFlood() }

// Handle takes in an update, each in the order in which they came. What it logs, what
// follows from it and the answer are saved together or not at all. An update seen before
// changes nothing.
func (b *Bot) Handle(ctx context.Context, now time.Time, in Incoming) error {
	err := b.handle(ctx, now, in)
	if err == nil {
		b.wake()
	}
	return err
}

func (b *Bot) handle(ctx context.Context, now time.Time, in Incoming) (err error) {
	defer func() {
		// One message whose handling panics must not stop the ones behind it.
		if p := recover(); p != nil {
			b.log.Error("a message could not be handled", "panic", p)
			err = b.apologise(ctx, now, in)
		}
	}()
	var did *conversation.Scene
	var ans conversation.Answer
	tell, at := false, written(in, now)
	err = b.db.Update(ctx, now, func(tx *store.Tx) error {
		if err := tx.SetOffset(in.Source, in.UpdateID+1); err != nil {
			return err
		}
		sc, fresh, err := b.begin(tx, in)
		if err != nil || !fresh {
			return err
		}
		did = sc
		sc.Spent = b.flood != nil && b.flood.spent(sc.Member.ID, at)
		if ans, err = sc.Run(); err != nil && !errors.Is(err, conversation.ErrFlood) {
			return err
		} else if err != nil {
			_, tell = b.flood.take(sc.Member.ID, at)
			return err
		}
		if tell, err = b.measure(sc, ans, at); err != nil {
			return err
		}
		ans, err = finish(tx, sc, ans)
		return err
	})
	if store.Fault(err) || errors.Is(err, errNoAnswer) {
		b.log.Error("a message could not be handled", "err", err)
		return b.apologise(ctx, now, in)
	}
	over := errors.Is(err, conversation.ErrFlood)
	if over {
		err = b.instead(ctx, now, in, func(sc *conversation.Scene) conversation.Answer { return overflow(sc, tell) })
	}
	if did != nil && err == nil {
		if b.Withheld != nil && over {
			b.Withheld()
		}
		b.handled(in, did, ans)
	}
	return err
}

func (b *Bot) handled(in Incoming, sc *conversation.Scene, ans conversation.Answer) {
	b.log.Debug("update handled", "update", in.UpdateID, "kind", in.Kind, "crew", sc.Crew.ID, "answer", ans.Sort(), "silent", ans.Silent, "lines", len(ans.Logged))
}

// apologise marks an update as seen and says that nothing was logged.
func (b *Bot) apologise(ctx context.Context, now time.Time, in Incoming) error {
	return b.instead(ctx, now, in, func(sc *conversation.Scene) (ans conversation.Answer) {
		ans.Fail(sc.Voice, "r_internal")
		return ans
	})
}

// instead marks an update as seen and says something else than it would get.
func (b *Bot) instead(ctx context.Context, now time.Time, in Incoming, say func(*conversation.Scene) conversation.Answer) error {
	return b.db.Update(ctx, now, func(tx *store.Tx) error {
		if err := tx.SetOffset(in.Source, in.UpdateID+1); err != nil {
			return err
		}
		sc, fresh, err := b.begin(tx, in)
		if err != nil || !fresh {
			return err
		}
		_, err = finish(tx, sc, say(sc))
		return err
	})
}

// Opens reports whether a message claims its group with a code that is open: see group.
func (b *Bot) Opens(ctx context.Context, now time.Time, in Incoming) (bool, error) {
	if in.Kind != "message" || in.Private {
		return false, nil
	}
	return b.Group.Opens(ctx, now, in.Source, in.Chat, in.UserKey, in.Text)
}

// Start makes sure that the chat has its crew, with its first settings.
func (b *Bot) Start(ctx context.Context, now time.Time, source string, chat int64) error {
	return b.db.Update(ctx, now, func(tx *store.Tx) error {
		_, found, err := tx.Crew(source, chat)
		if err != nil || found {
			return err
		}
		_, err = tx.NewCrew(source, chat, b.first)
		return err
	})
}

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

func (b *Bot) begin(tx *store.Tx, in Incoming) (sc *conversation.Scene, fresh bool, err error) {
	in.UserName = wording.Person(in.UserName, in.UserKey)
	if in.Hidden {
		return nil, false, b.hidden(tx, in)
	}
	sc = &conversation.Scene{Addressed: in.Addressed, Forwarded: in.Forwarded, CalendarAt: b.Feed, Private: b.ByCode, Photo: in.Photo, Album: in.Album, Thumb: in.Kind == "thumb"}
	if found, err := b.whose(tx, sc, in); err != nil || !found {
		return nil, false, err
	}
	sc.HearsAll = b.HearsAll(sc.Crew)
	if !in.Said.IsZero() {
		tx.Since = in.Said.UTC() // the chat dates it, also where this machine's clock is behind
	}
	var pressed *store.Button
	if in.Kind == "press" && in.Data != "" && sc.About == "" {
		m, _, err := tx.SentIn(sc.Crew.ID, sc.Chat, in.Message)
		if err != nil {
			return nil, false, err
		}
		if k, ok := ButtonOf(in.Data, m.Buttons); ok {
			pressed, in.Text = &k, k.Label
		}
	}
	if in.Kind == "edit" && b.ByCode && !in.Private {
		// A chat tells of edits of what was written before the bot came, and of changes
		// that are none in the words.
		last, known, err := tx.LastOfMessage(sc.Crew.ID, in.Message)
		if err != nil || !known || last.Text == in.Text {
			return nil, false, err
		}
	}
	if sc.Thumb {
		in.Kind, in.Text = "press", store.Thumb
	}
	u := store.Update{Source: in.Source, UpdateID: in.UpdateID, Crew: sc.Crew.ID, Member: sc.Member.ID, Kind: in.Kind,
		Message: in.Message, ReplyTo: in.ReplyTo, Text: in.Text, Said: in.Said.UTC()}
	if in.Private {
		u.Message = 0 // every chat numbers its own; the numbers kept are the group's
	}
	if u.ID, fresh, err = tx.MarkUpdate(u); err != nil || !fresh {
		return nil, false, err
	}
	u.Message = in.Message
	sc.Update, sc.Origin, sc.By, sc.Button = u, u, sc.Member, pressed
	if sc, err = sc.Seeing(tx.Look()); err != nil { // all that begins an update is written by now
		return nil, false, err
	}
	sc = sc.Speaking("")
	if in.Kind != "press" {
		sc.Danger = conversation.Emergency(in.Text)
	}
	sc.Stale = in.Kind == "press" && in.Data != "" && pressed == nil && sc.About == ""
	if in.Kind != "press" && in.ReplyTo != 0 {
		m, found, err := tx.SentIn(sc.Crew.ID, sc.Chat, in.ReplyTo)
		if err != nil {
			return nil, false, err
		}
		switch {
		case found && m.Priority == store.Emergency:
			sc.Addressed = false // people talk to each other there
		case found:
			sc.Replied = &m
		case b.ByCode:
			sc.Addressed = true // to an older message of the bot, or a part of one
		default:
			sc.Missing = in.ReplyTo
		}
	}
	if in.Kind == "message" && in.Beneath != 0 && sc.Chat == 0 {
		u, found, err := tx.Noticed(sc.Crew.ID, in.Beneath)
		if err != nil {
			return nil, false, err
		}
		if found {
			sc.Marked = &u
		}
	}
	return sc, true, nil
}
