package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"math/rand/v2"
	"strconv"
	"strings"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"yardbell/bot"
	"yardbell/bot/group"
)

// Source is the name under which this transport's crews and updates are stored.
const Source = "telegram"

// Handler takes in what was read. Every method saves what it does before it
// returns; only then is the update confirmed.
type Handler interface {
	Handle(ctx context.Context, now time.Time, in bot.Incoming) error
	// Pass confirms an update that is not for us, or could not be read (raw).
	Pass(ctx context.Context, now time.Time, source string, id int64, raw string) error
	// Moved follows a group that has become a supergroup.
	Moved(ctx context.Context, now time.Time, source string, from, to int64) error
	// Standing notes what a chat lets the bot do: state is "open", "muted", "gone",
	// rights as store.Crew has them.
	Standing(ctx context.Context, now time.Time, source string, chat int64, state, rights string) error
	// Private follows whether a person's private chat is open; chat 0 for closed.
	Private(ctx context.Context, now time.Time, source, userKey string, chat int64) error
	// Pinned is told of the chat's notice that the bot pinned something.
	Pinned(ctx context.Context, now time.Time, source string, chat, notice int64) error
	// Chats are the groups whose standing is to be asked for at the start.
	Chats(ctx context.Context, now time.Time, source string) ([]int64, error)
	// Ours reports whether a group is a crew's.
	Ours(ctx context.Context, now time.Time, source string, chat int64) (bool, error)
	// Opens reports whether a message claims its group with a code that is open.
	Opens(ctx context.Context, now time.Time, in bot.Incoming) (bool, error)
	// Came and Left follow people into and out of a group.
	Came(ctx context.Context, now time.Time, source string, chat int64, userKey, userName string) error
	Left(ctx context.Context, now time.Time, source string, chat int64, userKey string) error
	// Next is where to read on.
	Next(ctx context.Context, now time.Time, source string) (int64, error)
	// Twin is told that somebody else reads the same bot's updates.
	Twin(ctx context.Context, now time.Time, source string) error
}

// Poller reads updates.
type Poller struct {
	c     *Client
	h     Handler
	log   *slog.Logger
	clock func() time.Time
	wait  func(context.Context, time.Duration) error
	fails int
	ask   int             // how many updates at a time, fewer after an answer that was too long
	Seen  func(time.Time) // told whenever the server gave what there is and it was saved, may be nil

	// Reading is told, before and after what came is saved, whether more is to be read, the
	// same poll or the next; may be nil.
	Reading func(more bool)
	reading bool

	// CaughtUp is told, once, when what waited in the chat at the start was read, or
	// could not be after some tries; may be nil.
	CaughtUp func()
	caught   bool
}

// fewTries is after how many failures the rest of the service goes on without what
// waits in the chat.
const fewTries = 3

// mostUpdates is how many updates the server gives at a time at most.
const mostUpdates = 100

// catch tells that what waited was read, or cannot be.
func (p *Poller) catch() {
	if !p.caught && p.CaughtUp != nil {
		p.CaughtUp()
	}
	p.caught = true
}

// NewPoller makes a poller for a connected client.
func NewPoller(c *Client, h Handler, log *slog.Logger, clock func() time.Time, wait func(context.Context, time.Duration) error) *Poller {
	return &Poller{c: c, h: h, log: log, clock: clock, wait: wait, ask: mostUpdates}
}

// allowed are the updates we read; anything else is not sent to us.
const allowed = `["message","edited_message","callback_query","my_chat_member","message_reaction"]`

// errNumber: an update without its number cannot be confirmed alone.
var errNumber = errors.New("an update has no number")

// ErrToken says that the server refuses the token.
var ErrToken = errors.New("the server refuses the token; put a valid one and start again")

// Run connects and reads until ctx ends. Network trouble is waited out; a token
// that is refused ends it.
func (p *Poller) Run(ctx context.Context) error {
	for {
		err := p.c.Connect(ctx)
		if err == nil {
			break
		}
		if stop := p.trouble(ctx, err); stop != nil {
			return stop
		}
	}
	unasked, err := p.h.Chats(ctx, p.clock(), Source)
	if ctx.Err() != nil {
		return ctx.Err() // told to stop, which is no fault
	}
	if err != nil {
		p.log.Error("the groups could not be listed", "err", err)
	}
	p.log.Info("connected", "bot", "@"+p.c.me.Username, "groups", len(unasked))
	for {
		hold := longPoll
		if unasked = p.survey(ctx, unasked); len(unasked) > 0 || !p.caught || p.reading {
			hold = 0
		}
		asked, most := p.clock(), p.ask
		n, err := p.once(ctx, hold)
		if err != nil {
			if stop := p.trouble(ctx, err); stop != nil {
				return stop
			}
			continue
		}
		p.fails = 0
		if n < most && !p.caught {
			p.catch()
			continue
		}
		if n == 0 && p.clock().Sub(asked) < mostEager {
			// A server that does not hold polls would be asked without end.
			if err := p.wait(ctx, mostEager); err != nil {
				return err
			}
		}
	}
}

// mostEager is the least time between two polls that bring nothing.
const mostEager = time.Second

// trouble waits after a failure, longer each time and never in step with others.
// It returns an error where reading has to end; a context that ended is nil.
func (p *Poller) trouble(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if code(err) == 401 || code(err) == 404 { // 404: nothing that could be a token
		return ErrToken
	}
	if p.fails++; p.fails >= fewTries {
		p.catch()
	}
	wait := min(time.Second<<min(p.fails, 6), time.Minute)
	wait = wait/2 + rand.N(wait/2+1)
	if after := retryAfter(err); after > wait {
		wait = after
	}
	if code(err) == 409 {
		// Another process reads the same updates. Both would go on stealing them from
		// each other; ours steps back longer and says so.
		if e := p.h.Twin(ctx, p.clock(), Source); e != nil {
			p.log.Error("the crews could not be warned", "err", e)
		}
		wait = max(wait, 10*time.Second)
		if strings.Contains(said(err), "webhook") {
			_ = p.c.unhook(ctx) // somebody set one since the start
		}
	}
	p.log.Warn("reading updates failed", "err", err, "wait", wait)
	return p.wait(ctx, wait)
}

// surveyAtOnce is how many groups are asked about between two polls, so that many do
// not keep the updates waiting.
const surveyAtOnce = 10

// survey asks what the bot may do in the first of some groups and gives the others.
// What changed while the service was away for more than a day comes by no update.
func (p *Poller) survey(ctx context.Context, chats []int64) (rest []int64) {
	n := min(len(chats), surveyAtOnce)
	for i, id := range chats[:n] {
		m, err := p.c.standing(ctx, id)
		if ctx.Err() != nil {
			return nil
		}
		if err != nil {
			// A group that is gone is found out by the next message to it.
			p.log.Warn("a group's standing is not known", "err", err)
			if code(err) == 0 {
				return chats[i+1:] // the network: updates come first
			}
			continue
		}
		if err := p.h.Standing(ctx, p.clock(), Source, id, m.standing(), m.rights()); err != nil && ctx.Err() == nil {
			p.log.Error("a group's standing could not be noted", "err", err)
		}
	}
	return chats[n:]
}

// more tells, where that changes, whether more is to be read.
func (p *Poller) more(is bool) {
	if p.reading != is && p.Reading != nil {
		p.Reading(is)
	}
	p.reading = is
}

// Once makes one poll and handles what came. An update is confirmed by the next
// poll, which starts behind the last one that was saved.
func (p *Poller) Once(ctx context.Context, hold time.Duration) error {
	_, err := p.once(ctx, hold)
	return err
}

// once gives the number of updates that came.
func (p *Poller) once(ctx context.Context, hold time.Duration) (n int, err error) {
	defer func() { p.more(err == nil && n == mostUpdates) }()
	next, err := p.h.Next(ctx, p.clock(), Source)
	if err != nil {
		return 0, err
	}
	params := tgbotapi.Params{"timeout": strconv.Itoa(int(hold / time.Second)), "allowed_updates": allowed}
	params.AddNonZero64("offset", next)
	if p.ask < mostUpdates {
		params.AddNonZero("limit", p.ask)
	}
	var batch []json.RawMessage
	if err := p.c.call(ctx, p.c.poll, "getUpdates", params, nil, &batch); err != nil {
		if errors.Is(err, errTooLong) {
			p.ask = max(1, p.ask/4) // many long ones: some of them fit
		}
		return 0, err
	}
	p.ask = min(mostUpdates, 2*p.ask)
	if len(batch) > 1 {
		p.more(true)
	}
	var unnumbered error
	for _, raw := range batch {
		err := p.one(ctx, raw)
		if errors.Is(err, errNumber) {
			unnumbered = err // cannot be confirmed; it must not hold up the others
		} else if err != nil {
			return 0, err
		}
	}
	p.seen()
	return len(batch), unnumbered
}

// seen is no word of a server that answers while nothing of it can be saved: nobody is
// heard then.
func (p *Poller) seen() {
	if p.Seen != nil {
		p.Seen(p.clock())
	}
}

// one handles one update. One that cannot be read, or on which we trip, is set aside and
// passed, so that it does not stop those behind it.
func (p *Poller) one(ctx context.Context, raw json.RawMessage) (err error) {
	now := p.clock()
	id := int64(0)
	defer func() {
		if trip := recover(); trip != nil {
			err = p.setAside(ctx, id, raw, trip)
		}
	}()
	u, unread := decode(raw)
	id = u.ID
	if unread == nil && u.plain() {
		if in, ok := Read(u, p.c.me, now); ok {
			if in, err = p.claim(ctx, now, in); err != nil {
				return err
			}
			return p.handle(ctx, in)
		}
	}
	if unread != nil {
		p.log.Warn("an update could not be read and was set aside", "update", u.ID)
		if u.ID == 0 {
			return errNumber
		}
		return p.h.Pass(ctx, now, Source, u.ID, string(raw))
	}
	if u.Callback != nil {
		// At once, before any work: the phone shows a spinner until then, and a late
		// answer is refused.
		if err := p.c.call(ctx, p.c.send, "answerCallbackQuery", tgbotapi.Params{"callback_query_id": u.Callback.ID}, nil, nil); err != nil && ctx.Err() != nil {
			return ctx.Err()
		}
	}
	done, err := p.service(ctx, now, u)
	if err != nil {
		return err
	}
	if in, ok := Read(u, p.c.me, now); ok && !done {
		return p.handle(ctx, in)
	}
	return p.h.Pass(ctx, now, Source, u.ID, "")
}

// handle hands in one update; what could not be saved is read again.
func (p *Poller) handle(ctx context.Context, in bot.Incoming) error {
	err := p.h.Handle(ctx, p.clock(), in)
	if err == nil {
		p.seen() // after each: a hundred may take a while
	}
	return err
}

// claim asks the server what the bot may do in a group that is being claimed: who claims
// it is told at once whether the bot hears everything there. Nothing is asked for a code
// that opens nothing: anybody may type one, in any group, and each call keeps the crews
// waiting.
func (p *Poller) claim(ctx context.Context, now time.Time, in bot.Incoming) (bot.Incoming, error) {
	if in.Kind != "message" || in.Private || in.Hidden || !group.IsJoin(in.Text) {
		return in, nil
	}
	opens, err := p.h.Opens(ctx, now, in)
	if in.Shut = !opens; err != nil || !opens {
		return in, err
	}
	p.c.refresh(ctx)
	if m, err := p.c.standing(ctx, in.Chat); err == nil {
		in.Rights = m.rights()
	}
	return in, nil
}

// setAside passes an update on which we tripped.
func (p *Poller) setAside(ctx context.Context, id int64, raw json.RawMessage, trip any) error {
	p.log.Error("an update could not be handled and was set aside", "update", id, "panic", trip)
	return p.h.Pass(ctx, p.clock(), Source, id, string(raw))
}

// service follows what is no message of a person: the group has moved, the bot may
// do more or less, people came or left. Each step may be repeated, since a process
// that dies before the update is confirmed reads it again.
func (p *Poller) service(ctx context.Context, now time.Time, u update) (done bool, err error) {
	if c := u.Member; c != nil {
		state := c.New.standing()
		if c.Chat.Type == "private" {
			if state == "gone" {
				return true, p.h.Private(ctx, now, Source, key(c.From), 0)
			}
			return true, p.h.Private(ctx, now, Source, key(c.From), c.Chat.ID)
		}
		// Privacy mode may have been switched, which holds from the adding on. Where the
		// group is not a crew's yet, that is asked when it is claimed.
		if ours, err := p.h.Ours(ctx, now, Source, c.Chat.ID); err != nil {
			return true, err
		} else if ours && state != "gone" {
			p.c.refresh(ctx)
		}
		return true, p.h.Standing(ctx, now, Source, c.Chat.ID, state, c.New.rights())
	}
	m := u.Message
	switch {
	case m != nil && m.Pinned != nil:
		if m.From == nil || m.From.ID != p.c.me.ID {
			return true, nil
		}
		return true, p.h.Pinned(ctx, now, Source, m.Chat.ID, m.ID)
	case m == nil || m.SenderChat != nil && m.MigrateTo == 0 && m.MigrateFrom == 0:
		return false, nil
	case m.MigrateTo != 0:
		return true, p.h.Moved(ctx, now, Source, m.Chat.ID, m.MigrateTo)
	case m.MigrateFrom != 0:
		return true, p.h.Moved(ctx, now, Source, m.MigrateFrom, m.Chat.ID)
	case m.Left != nil && !m.Left.IsBot:
		return true, p.h.Left(ctx, now, Source, m.Chat.ID, key(*m.Left))
	}
	for _, who := range m.Came {
		if done = true; who.IsBot {
			continue
		}
		if err := p.h.Came(ctx, now, Source, m.Chat.ID, key(who), who.name()); err != nil {
			return true, err
		}
	}
	return done, nil
}

// key is how a person is known to the store.
func key(u user) string { return strconv.FormatInt(u.ID, 10) }
