package apidouble

import (
	"fmt"
	"strconv"
	"time"
)

// callbackRetention is how long a press waits to be fetched (server, Client.cpp
// 17155-17158: 150 seconds).
const callbackRetention = 150 * time.Second

type press struct {
	id string
	at time.Time
}

// CallbackAnswer is what the bot showed to somebody who pressed a button.
type CallbackAnswer struct {
	ID    string
	Text  string
	Alert bool
	At    time.Time
}

// Press has a member press a button of one of the bot's messages, named by its label
// or its data, and returns the id of the callback query.
func (d *Double) Press(chatID, user int64, messageID int, labelOrData string) string {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	m := c.find(messageID)
	if m == nil {
		misuse("no message %d in chat %d", messageID, chatID)
	}
	for _, byData := range []bool{false, true} {
		for _, row := range m.buttons {
			for _, b := range row {
				if b.Data != "" && (!byData && b.Text == labelOrData || byData && b.Data == labelOrData) {
					return d.press(c, d.inChat(c, user), messageID, b.Data)
				}
			}
		}
	}
	misuse("message %d in chat %d has no button %q but %v", messageID, chatID, labelOrData, m.buttons)
	return ""
}

// PressData sends a press with any data, as a modified client can: "a client may
// send arbitrary data in this field" (spec). Of a message that is gone the bot gets
// an inaccessible one.
func (d *Double) PressData(chatID, user int64, messageID int, data string) string {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	return d.press(c, d.inChat(c, user), messageID, data)
}

func (d *Double) press(c *chat, u *User, messageID int, data string) string {
	d.nextCallback++
	p := &press{id: strconv.Itoa(44000000 + d.nextCallback), at: d.now()}
	d.callbacks[p.id] = p
	w := wireCallback{ID: p.id, From: u.wire(), ChatInstance: fmt.Sprint(-c.id * 7), Data: data}
	if m := c.find(messageID); m != nil {
		w.Message = m.wire()
	} else {
		w.Message = wireInaccessible{Chat: c.wire(), MessageID: messageID}
	}
	d.queue.push(d, "callback_query", w, d.now().Add(callbackRetention))
	return p.id
}

// answerCallbackQuery: no documented time limit. A second answer to the same press
// is let through (assumed).
func (d *Double) answerCallbackQuery(c *call) (any, *apiError) {
	p := d.callbacks[c.params["callback_query_id"]]
	if p == nil || d.now().Sub(p.at) > d.opts.CallbackWindow {
		// server, Client.cpp 148
		return nil, badRequest("query is too old and response timeout expired or query ID is invalid")
	}
	d.answers = append(d.answers, CallbackAnswer{p.id, c.params["text"], c.flag("show_alert"), d.now()})
	return true, nil
}

// Answers are the answers to presses so far.
func (d *Double) Answers() []CallbackAnswer {
	d.mu.Lock()
	defer d.mu.Unlock()
	return append([]CallbackAnswer(nil), d.answers...)
}

// AnswerTo is the first answer to one press.
func (d *Double) AnswerTo(id string) (CallbackAnswer, bool) {
	for _, a := range d.Answers() {
		if a.ID == id {
			return a, true
		}
	}
	return CallbackAnswer{}, false
}
