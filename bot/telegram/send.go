package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"sync"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"yardbell/bot"
	"yardbell/bot/wording"
	"yardbell/store"
)

// Sender carries worded messages into chats. It is safe for concurrent use.
type Sender struct {
	c     *Client
	limit *limiter
	clock func() time.Time
	wait  func(ctx context.Context, d time.Duration) error
	moved func(ctx context.Context, from, to int64) error

	mu    sync.Mutex
	begun map[int64]begun // by outbox row
}

// begun is a long message of which some pieces are in the chat. It goes on from
// there when it is tried again; only a process that dies in between begins anew.
type begun struct {
	text   string
	pieces int
	bare   bool // the chat took no file of it: its words go alone
}

// NewSender makes a sender. clock and wait are the process's clock; moved is told
// when a group has become a supergroup.
func NewSender(c *Client, clock func() time.Time, wait func(context.Context, time.Duration) error, moved func(ctx context.Context, from, to int64) error) *Sender {
	return &Sender{c: c, limit: newLimiter(), clock: clock, wait: wait, moved: moved, begun: map[int64]begun{}}
}

// shortWait is how long a send waits here for its turn; a longer wait goes back
// to the outbox, so that other chats are not held up.
const shortWait = 1500 * time.Millisecond

// lastWords is how long a request that is on its way may take to end when the
// service stops: cut off, it would have to go again and might come twice.
const lastWords = 5 * time.Second

// target is where a message goes.
type target struct {
	chat    int64
	thread  int64 // topic of a forum
	answers int64 // the message it replies to
	order   int   // its priority, for its share of the chat's limit
}

// Deliver sends or edits one message and gives its number in the chat.
func (s *Sender) Deliver(ctx context.Context, d wording.Delivery) (int64, error) {
	to := target{chat: d.Out.Chat(), thread: d.Thread, answers: d.Answers, order: d.Row.Priority}
	if to.answers == 0 && d.Row.ReplyTo > 0 {
		to.answers = d.Row.ReplyTo // a press: the answer hangs on the message pressed
	}
	if d.Row.Signs() {
		return d.Edits, s.sign(ctx, to, d)
	}
	if d.Row.Aside() {
		return d.Edits, s.aside(ctx, to, d)
	}
	text := strings.ToValidUTF8(d.Text, "\uFFFD")
	pieces := split(text, mostUnits)
	if d.Edits != 0 {
		return d.Edits, s.edit(ctx, to, d, pieces[0])
	}
	var number int64
	was := s.resume(d.Row.ID, text)
	if was.bare {
		d.Files = nil
	}
	parts := to.parts(d, pieces)
	for i := was.pieces; i < len(parts); i++ {
		n, err := s.piece(ctx, &to, parts[i])
		if errors.Is(err, errNoFile) {
			// What is to be read goes all the same, now or on the next try.
			s.progress(d.Row.ID, begun{text: text, bare: true})
			d.Files, parts, i = nil, to.parts(wording.Delivery{Buttons: d.Buttons}, pieces), -1
			continue
		}
		if err != nil {
			return 0, err
		}
		if parts[i].words {
			number = n
		}
		s.progress(d.Row.ID, begun{text: text, pieces: i + 1})
	}
	s.progress(d.Row.ID, begun{})
	return number, nil
}

// params of a message with that text.
func (t target) params(text string) tgbotapi.Params {
	p := tgbotapi.Params{"text": escape(text), "parse_mode": "HTML", "link_preview_options": `{"is_disabled":true}`}
	t.into(p)
	return p
}

// into names the place in the parameters. A reply goes where the message is that
// it replies to, whichever topic that is.
func (t target) into(p tgbotapi.Params) {
	delete(p, "reply_parameters")
	delete(p, "message_thread_id")
	p["chat_id"] = strconv.FormatInt(t.chat, 10)
	if t.answers > 0 {
		p["reply_parameters"] = fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, t.answers)
	} else if t.thread > 1 { // the general topic is 1 and must not be named
		p.AddNonZero64("message_thread_id", t.thread)
	}
}

// piece sends one message. Where the place has changed it goes to the new one: the
// supergroup that the group became, or the general topic for one that is closed.
func (s *Sender) piece(ctx context.Context, to *target, k part) (int64, error) {
	p := k.p
	for try := 0; ; try++ {
		var m struct {
			ID int64 `json:"message_id"`
		}
		err := s.call(ctx, *to, k.method, p, k.file, &m)
		if err == nil || try == 2 {
			return m.ID, err
		}
		switch {
		case migratedTo(err) != 0:
			// The numbers of the old chat's messages mean nothing in the new one.
			*to = target{chat: migratedTo(err), thread: to.thread, order: to.order}
		case code(err) == 400 && (strings.Contains(said(err), "thread not found") || strings.Contains(said(err), "TOPIC_")):
			*to = target{chat: to.chat, order: to.order}
		case k.carries && code(err) == 400 && !k.words:
			return 0, nil // the chat takes no such file; its words are there already
		case k.carries && code(err) == 400:
			return 0, errNoFile
		default:
			return 0, err
		}
		to.into(p)
	}
}

func (s *Sender) edit(ctx context.Context, to target, d wording.Delivery, text string) error {
	to.answers, to.thread = 0, 0
	p := to.params(text)
	p.AddNonZero64("message_id", d.Edits)
	p.AddNonEmpty("reply_markup", keyboard(d.Buttons, true))
	err := s.call(ctx, to, "editMessageText", p, nil, nil)
	if code(err) == 400 && strings.Contains(said(err), "message to edit not found") {
		return nil // somebody deleted it: nothing is left to change
	}
	return err
}

// aside pins a message, without a notification, or deletes a notice. A message that
// is not there any more, or too old, leaves nothing to do.
func (s *Sender) aside(ctx context.Context, to target, d wording.Delivery) error {
	p := tgbotapi.Params{}
	p.AddNonZero64("chat_id", to.chat)
	p.AddNonZero64("message_id", d.Edits)
	method := "deleteMessage"
	if d.Row.Ping == store.Pin {
		method = "pinChatMessage"
		p["disable_notification"] = "true"
	}
	err := s.call(ctx, to, method, p, nil, nil)
	if code(err) == 400 && strings.Contains(said(err), " not found") && !strings.Contains(said(err), "chat not found") {
		return nil
	}
	return err
}

// signWithin is how long setting the sign may take: pings for the chat wait meanwhile.
const signWithin = 3 * time.Second

// sign sets the sign on somebody's message, or removes it.
func (s *Sender) sign(ctx context.Context, to target, d wording.Delivery) error {
	ctx, cancel := context.WithTimeout(ctx, signWithin)
	defer cancel()
	p := tgbotapi.Params{"reaction": "[]"}
	if d.Row.Ping == store.Sign {
		p["reaction"] = fmt.Sprintf(`[{"type":"emoji","emoji":%q}]`, wording.SeenSign)
	}
	p.AddNonZero64("chat_id", to.chat)
	p.AddNonZero64("message_id", d.Edits)
	err := s.call(ctx, to, "setMessageReaction", p, nil, nil)
	var not *bot.NotSent
	if errors.As(err, &not) {
		// What is refused says nothing about the chat: it may have no reactions, or not
		// this one. And whatever holds a sign up holds up nothing else.
		if c := code(err); c == 400 || c == 403 || c == 404 {
			return &bot.NotSent{Final: true, Err: not.Err}
		}
		not.Share = true
	}
	return err
}

// resume says how many pieces of a message are in the chat already. A ping that is
// worded otherwise by now begins anew.
func (s *Sender) resume(row int64, text string) begun {
	s.mu.Lock()
	defer s.mu.Unlock()
	if b := s.begun[row]; b.text == text {
		return b
	}
	return begun{}
}

func (s *Sender) progress(row int64, b begun) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if b.pieces == 0 && !b.bare {
		delete(s.begun, row)
		return
	}
	s.begun[row] = b
}

// turn waits for the chat's turn inside the limits.
func (s *Sender) turn(ctx context.Context, to target) error {
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		wait, share, ok := s.limit.take(s.clock(), to.chat, to.order)
		if !ok && (wait > shortWait || to.order >= store.Mark) { // a ping may fall due meanwhile
			return &bot.NotSent{After: wait, Held: true, Share: share, Err: errors.New("the chat's limit is reached")}
		}
		if wait > 0 {
			if err := s.wait(ctx, wait); err != nil {
				return err
			}
		}
		if ok {
			return nil
		}
	}
}

// call makes one request in its turn, and says what its failure means.
func (s *Sender) call(ctx context.Context, to target, method string, p tgbotapi.Params, file *wording.File, out any) error {
	if err := s.turn(ctx, to); err != nil {
		return err
	}
	ctx, done := outlive(ctx, lastWords)
	defer done()
	err := s.c.call(ctx, s.c.send, method, p, file, out)
	if err == nil {
		return nil
	}
	var ce *callError
	if errors.As(err, &ce) && ce.took {
		return nil // it is in the chat; sending it again would double it
	}
	if now := migratedTo(err); now != 0 {
		if e := s.moved(ctx, to.chat, now); e != nil {
			return e
		}
		return &bot.NotSent{Err: err}
	}
	not := verdict(err)
	if not == nil {
		return nil
	}
	if not.Held {
		s.limit.hold(s.clock(), to.chat, to.order, s.clock().Add(not.After))
	}
	return not
}

// mutedWait is how long a message waits for a chat that lets the bot read only.
const mutedWait = 5 * time.Minute

// verdict says what the server's refusal means for the message; nil where there
// is nothing left to do. What is not known to be final is tried again: the message
// may or may not be in the chat.
func verdict(err error) *bot.NotSent {
	c, why := code(err), said(err)
	switch {
	case retryAfter(err) > 0:
		return &bot.NotSent{After: retryAfter(err), Held: true, Err: err}
	case c == 429:
		return &bot.NotSent{After: time.Second, Held: true, Err: err}
	case c == 400 && strings.Contains(why, "message is not modified"):
		return nil
	case c == 400 && (strings.Contains(why, "not enough rights to send") || strings.Contains(why, "CHAT_WRITE_FORBIDDEN")):
		return &bot.NotSent{After: mutedWait, Held: true, Muted: true, Err: err}
	case c == 400 && (strings.Contains(why, "not enough rights") || strings.Contains(why, "can't be deleted") || strings.Contains(why, "CHAT_ADMIN_REQUIRED")):
		return &bot.NotSent{Final: true, Lacks: true, Err: err}
	case c == 403, c == 400 && strings.Contains(why, "chat not found"):
		return &bot.NotSent{Final: true, Gone: true, Err: err}
	case c == 400 || c == 404 || c == 413:
		return &bot.NotSent{Final: true, Err: err}
	case c == 401:
		return &bot.NotSent{After: time.Minute, Err: err}
	}
	return &bot.NotSent{Err: err}
}

// outlive gives a context that ends a while after ctx does, not at once.
func outlive(ctx context.Context, by time.Duration) (context.Context, context.CancelFunc) {
	longer, cancel := context.WithCancel(context.WithoutCancel(ctx))
	stop := context.AfterFunc(ctx, func() {
		t := time.AfterFunc(by, cancel)
		context.AfterFunc(longer, func() { t.Stop() })
	})
	return longer, func() { stop(); cancel() }
}

// keyboard is the inline keyboard of a message, several buttons a row where they
// are short. An edited message without buttons loses those it had.
func keyboard(buttons []store.Button, edit bool) string {
	type key struct {
		Text string `json:"text"`
		Data string `json:"callback_data"`
	}
	rows := [][]key{}
	width := 0
	for i, b := range buttons {
		k := key{b.Label, bot.ButtonData(i, b)}
		n := len(rows)
		if n == 0 || len(rows[n-1]) == 4 || width+len(b.Label) > 28 {
			rows = append(rows, nil)
			n, width = n+1, 0
		}
		rows[n-1] = append(rows[n-1], k)
		width += len(b.Label) + 2
	}
	if len(rows) == 0 && !edit {
		return ""
	}
	out, err := json.Marshal(map[string]any{"inline_keyboard": rows})
	if err != nil {
		return ""
	}
	return string(out)
}
