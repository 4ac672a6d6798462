package apidouble

import "time"

// SayOption is something special about what a person writes.
type SayOption func(*said)

type said struct {
	replyTo  int
	thread   int
	at       time.Time
	entities []Entity
	marked   bool
	photo    bool
	album    string
	passedOn bool
	asChat   int64
}

// ReplyTo makes it a reply to a message of the same chat.
func ReplyTo(messageID int) SayOption { return func(s *said) { s.replyTo = messageID } }

// InTopic writes it into a forum topic; without, it goes to General.
func InTopic(thread int) SayOption { return func(s *said) { s.thread = thread } }

// At dates it otherwise than now: the date is when the person sent it, whenever the
// bot gets to read it (spec: Message.date).
func At(t time.Time) SayOption { return func(s *said) { s.at = t } }

// WithEntities replaces the entities that a client would compute, wrong ones too.
func WithEntities(e ...Entity) SayOption {
	return func(s *said) { s.entities, s.marked = e, true }
}

// WithPhoto makes the text the caption of a photo.
func WithPhoto() SayOption { return func(s *said) { s.photo = true } }

// InAlbum sends a photo together with others (spec: Message.media_group_id). Each is a
// message of its own.
func InAlbum(id string) SayOption { return func(s *said) { s.photo, s.album = true, id } }

// Forwarded makes it a message of somebody else that the person passes on (spec:
// Message.forward_origin).
func Forwarded() SayOption { return func(s *said) { s.passedOn = true } }

// As writes it in the name of the group itself, as an anonymous administrator does, or of
// a channel (spec: Message.sender_chat). The person does not show.
func As(chatID int64) SayOption { return func(s *said) { s.asChat = chatID } }

// Say has a member of a chat write something, and returns the number of the message.
// A private chat has the number of its person.
func (d *Double) Say(chatID, user int64, text string, opts ...SayOption) int {
	var s said
	for _, o := range opts {
		o(&s)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	m := &message{from: d.inChat(c, user), date: s.at, text: text, entities: clientEntities(text)}
	if s.marked {
		m.entities = s.entities
	}
	m.passedOn = s.passedOn
	if s.asChat != 0 {
		if !c.member(user).admin() && s.asChat == chatID {
			misuse("user %d is no administrator of chat %d and cannot be anonymous", user, chatID)
		}
		m.as = d.chat(s.asChat)
		m.from = channelBot
		if s.asChat == chatID {
			m.from = anonymousBot
		}
	}
	if s.at.IsZero() {
		m.date = d.now()
	}
	if s.photo {
		m.album = s.album
		m.file = d.keep(&File{Photo: true, Name: "photo.jpg", Mime: "image/jpeg", Width: 800, Height: 600})
	}
	switch c.kind {
	case channel:
		if !c.member(user).admin() {
			misuse("user %d may not post in channel %d", user, chatID)
		}
		m.from = nil
	case private:
		c.started = true
	}
	d.place(c, m, s.replyTo, s.thread)
	d.add(c, m)
	d.deliver(m)
	return m.id
}

// place sets what a message replies to and the thread it is in.
func (d *Double) place(c *chat, m *message, replyTo, thread int) {
	if replyTo != 0 {
		if m.replyTo = c.find(replyTo); m.replyTo == nil {
			misuse("no message %d in chat %d to reply to", replyTo, c.id)
		}
	}
	threadOf(c, m, thread)
	if m.topic && m.replyTo == nil {
		if c.topics[m.thread] == nil {
			misuse("no topic %d in chat %d", thread, c.id)
		}
		// A message in a topic that replies to nothing in particular comes as a reply
		// to the message that opened the topic: the topic is that message's thread.
		// Known from bots in practice, not in the docs (assumed).
		m.replyTo = c.topics[m.thread].root
	}
}

// threadOf: in a forum the topic; in other supergroups the first message of a chain
// of replies, without is_topic_message (tdlib/telegram-bot-api#356, #847).
func threadOf(c *chat, m *message, thread int) {
	if c.kind != supergroup {
		return
	}
	r := m.replyTo
	switch {
	case thread != 0:
		m.thread = thread
	case r != nil && r.thread != 0:
		m.thread = r.thread
	case r != nil && !c.forum:
		m.thread = r.id
	}
	m.topic = c.forum && m.thread != 0
}

// deliver queues a message for the bot if it may see it.
func (d *Double) deliver(m *message) {
	d.bump()
	if !d.visible(m) {
		return
	}
	name := "message"
	if m.chat.kind == channel {
		name = "channel_post"
	}
	d.push(name, m.wire(), m.date)
}

// Edit has a person change what they wrote.
func (d *Double) Edit(chatID, user int64, messageID int, text string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	m := d.written(c, user, messageID)
	m.text, m.entities = text, clientEntities(text)
	d.deliverEdit(m)
}

// Touch has a message come as edited with nothing changed: edits of fields that the
// API does not show look like this (spec: Update.edited_message).
func (d *Double) Touch(chatID int64, messageID int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	m := d.chat(chatID).find(messageID)
	if m == nil {
		misuse("no message %d in chat %d", messageID, chatID)
	}
	d.deliverEdit(m)
}

func (d *Double) deliverEdit(m *message) {
	m.edited = d.now()
	d.bump()
	if !d.visible(m) {
		return
	}
	name := "edited_message"
	if m.chat.kind == channel {
		name = "edited_channel_post"
	}
	d.push(name, m.wire(), m.edited)
}

// Erase has somebody delete a message, the bot's own too. No update tells of it.
func (d *Double) Erase(chatID int64, messageID int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	m := d.chat(chatID).find(messageID)
	if m == nil {
		misuse("no message %d in chat %d", messageID, chatID)
	}
	m.deleted = true
	d.bump()
}

func (d *Double) written(c *chat, user int64, messageID int) *message {
	m := c.find(messageID)
	if m == nil || m.from != d.user(user) && !(c.kind == channel && c.member(user).admin()) {
		misuse("message %d in chat %d is not by user %d", messageID, c.id, user)
	}
	return m
}
