package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"yardbell/bot"
	"yardbell/store"
)

// Sender carries worded messages into chats. It is safe for concurrent use.
type Sender struct {
	c     *Client
	limit *limiter
	clock func() time.Time
	wait  func(ctx context.Context, d time.Duration) error
	moved func(ctx context.Context, from, to int64) error
}

// NewSender makes a sender. clock and wait are the process's clock; moved is told
// when a group has become a supergroup.
func NewSender(c *Client, clock func() time.Time, wait func(context.Context, time.Duration) error, moved func(ctx context.Context, from, to int64) error) *Sender {
	return &Sender{c: c, limit: newLimiter(), clock: clock, wait: wait, moved: moved}
}

// shortWait is how long a send waits here for its turn; a longer wait goes back
// to the outbox, so that other chats are not held up.
const shortWait = 1500 * time.Millisecond

// Deliver sends or edits one message and gives its number in the chat.
func (s *Sender) Deliver(ctx context.Context, d bot.Delivery) (int64, error) {
	chat := d.Out.Chat()
	var last int64
	pieces := split(d.Text, mostUnits)
	if d.Edits != 0 {
		pieces = pieces[:1]
	}
	for i, text := range pieces {
		if err := s.turn(ctx, chat); err != nil {
			return 0, err
		}
		p := tgbotapi.Params{"chat_id": strconv.FormatInt(chat, 10), "text": escape(text), "parse_mode": "HTML", "link_preview_options": `{"is_disabled":true}`}
		if i == len(pieces)-1 {
			p.AddNonEmpty("reply_markup", keyboard(d.Buttons, d.Edits != 0))
		}
		method := "sendMessage"
		if d.Edits != 0 {
			method = "editMessageText"
			p.AddNonZero64("message_id", d.Edits)
		} else {
			if d.Answers > 0 && i == 0 {
				p["reply_parameters"] = fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, d.Answers)
			}
			if d.Thread > 1 { // the general topic is 1 and must not be named
				p.AddNonZero64("message_thread_id", d.Thread)
			}
		}
		var m struct {
			ID int64 `json:"message_id"`
		}
		if err := s.call(ctx, chat, method, p, &m); err != nil {
			return 0, err
		}
		if last = m.ID; d.Edits != 0 {
			last = d.Edits
		}
	}
	return last, nil
}

// turn waits for the chat's turn inside the limits.
func (s *Sender) turn(ctx context.Context, chat int64) error {
	for {
		wait := s.limit.take(s.clock(), chat)
		if wait == 0 {
			return nil
		}
		if wait > shortWait {
			return &bot.NotSent{After: wait, Held: true, Err: errors.New("the chat's limit is reached")}
		}
		if err := s.wait(ctx, wait); err != nil {
			return err
		}
	}
}

func (s *Sender) call(ctx context.Context, chat int64, method string, p tgbotapi.Params, out any) error {
	err := s.c.call(ctx, s.c.send, method, p, out)
	if err == nil {
		return nil
	}
	var ce *callError
	if errors.As(err, &ce) && ce.took {
		return nil // it is in the chat; sending it again would double it
	}
	if to := migratedTo(err); to != 0 {
		if e := s.moved(ctx, chat, to); e != nil {
			return e
		}
		return &bot.NotSent{Err: err} // goes to the new id with the next tick
	}
	switch c := code(err); {
	case retryAfter(err) > 0:
		after := retryAfter(err)
		s.limit.hold(chat, s.clock().Add(after))
		return &bot.NotSent{After: after, Held: true, Err: err}
	case c == 400 && strings.Contains(said(err), "message is not modified"):
		return nil
	case c == 400 || c == 403 || c == 404:
		return &bot.NotSent{Final: true, Gone: c == 403, Err: err}
	case c == 401:
		return &bot.NotSent{After: time.Minute, Err: err}
	}
	return &bot.NotSent{Err: err}
}

// keyboard is the inline keyboard of a message, two buttons a row where they are
// long. An edited message without buttons loses those it had.
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
