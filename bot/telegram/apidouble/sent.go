package apidouble

import (
	"slices"
	"time"
)

// Sent is a message of the bot as people see it.
type Sent struct {
	ID       int
	Chat     int64
	Thread   int // of a forum topic
	ReplyTo  int // 0 if it replies to nothing, or only to the topic it is in
	Text     string
	Entities []Entity
	Buttons  [][]Button
	File     *File // Text is then its caption
	Date     time.Time
	Edited   time.Time // zero if never
	History  []Version // what it was before each edit
	Reaction []string
	// Silent is without notification, ForceReply opens the reader's reply field.
	Silent, ForceReply, Pinned, Deleted bool
}

// Version is what a message once was.
type Version struct {
	At      time.Time // from when
	Text    string
	Buttons [][]Button
}

// Labels are the texts of all buttons in reading order.
func (s Sent) Labels() []string {
	var out []string
	for _, row := range s.Buttons {
		for _, b := range row {
			out = append(out, b.Text)
		}
	}
	return out
}

// Sent lists the bot's messages that are visible in a chat, as they are now.
func (d *Double) Sent(chat int64) []Sent {
	return d.sent(chat, func(m *message) bool { return !m.deleted })
}

// Deleted lists those that were taken away, by whomever.
func (d *Double) Deleted(chat int64) []Sent {
	return d.sent(chat, func(m *message) bool { return m.deleted })
}

// Message is one message of the bot, deleted or not.
func (d *Double) Message(chat int64, id int) (Sent, bool) {
	one := d.sent(chat, func(m *message) bool { return m.id == id })
	if len(one) == 0 {
		return Sent{}, false
	}
	return one[0], true
}

// LastSent is the bot's last visible message in a chat.
func (d *Double) LastSent(chat int64) (Sent, bool) {
	all := d.Sent(chat)
	if len(all) == 0 {
		return Sent{}, false
	}
	return all[len(all)-1], true
}

func (d *Double) sent(chat int64, want func(*message) bool) []Sent {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chats[chat]
	if c == nil {
		misuse("no chat %d", chat)
	}
	var out []Sent
	for _, m := range c.order {
		if m.own && want(m) {
			out = append(out, m.view())
		}
	}
	return out
}

func (m *message) view() Sent {
	s := Sent{
		ID: m.id, Chat: m.chat.id, Text: m.text, Entities: slices.Clone(m.entities),
		Buttons: m.buttons, File: m.file, Date: m.date, Edited: m.edited,
		History: slices.Clone(m.history), Reaction: slices.Clone(m.reaction),
		Silent: m.silent, ForceReply: m.force, Pinned: m.pinned, Deleted: m.deleted,
	}
	if m.topic {
		s.Thread = m.thread
	}
	if r := m.replyTo; r != nil && (r.service == nil || r.service.ForumTopicCreated == nil) {
		s.ReplyTo = r.id
	}
	return s
}

// PinNotices counts the chat's own notices of the bot's pins that are still there.
func (d *Double) PinNotices(chat int64) (n int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, m := range d.chat(chat).order {
		if m.from == d.me && m.service != nil && m.service.PinnedMessage != nil && !m.deleted {
			n++
		}
	}
	return n
}

// Reactions are those the bot put on a message, its own or another's.
func (d *Double) Reactions(chat int64, id int) []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	if m := d.chat(chat).messages[id]; m != nil {
		return slices.Clone(m.reaction)
	}
	return nil
}
