package apidouble

import (
	"slices"
	"time"
)

// deletable: docs: deleteMessage, "sent less than 48 hours ago".
const deletable = 48 * time.Hour

// own finds the message of an edit, which must be the bot's.
func (d *Double) own(c *call) (*message, *apiError) {
	if c.has("inline_message_id") {
		return nil, breached("the double has no inline mode")
	}
	if !c.has("chat_id") || !c.has("message_id") {
		return nil, breached("message identifier is not specified")
	}
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	m := to.find(c.id("message_id"))
	switch {
	case m == nil:
		return nil, badRequest("message to edit not found")
	case !m.own:
		return nil, badRequest("message can't be edited")
	}
	return m, nil
}

func (d *Double) editMessageText(c *call) (any, *apiError) {
	m, err := d.own(c)
	if err != nil {
		return nil, err
	}
	next := *m
	if next.text, next.entities, err = d.formatted(c, "text", "entities"); err != nil {
		return nil, err
	}
	if m.file != nil {
		return nil, badRequest("there is no text in the message to edit")
	}
	next.setMarkup(c)
	return d.edit(m, &next)
}

func (d *Double) editMessageReplyMarkup(c *call) (any, *apiError) {
	m, err := d.own(c)
	if err != nil {
		return nil, err
	}
	next := *m
	next.setMarkup(c)
	return d.edit(m, &next)
}

func (d *Double) edit(m, next *message) (any, *apiError) {
	if m.text == next.text && slices.Equal(m.entities, next.entities) && m.markup == next.markup {
		// server, Client.cpp 108
		return nil, badRequest("message is not modified: specified new message content and reply markup are exactly the same as a current content and reply markup of the message")
	}
	if !d.rates.rates.CountEdits {
		d.rates.noteEarly(m.chat.id, d.now())
	} else if seconds := d.rates.admit(m.chat.id, m.chat.crowd(), d.now()); seconds > 0 {
		return nil, tooMany(seconds)
	}
	next.history = append(slices.Clone(m.history), Version{m.lastChange(), m.text, m.buttons})
	next.edited = d.now()
	*m = *next
	return m.wire(), nil
}

func (m *message) lastChange() time.Time {
	if m.edited.IsZero() {
		return m.date
	}
	return m.edited
}

func (d *Double) deleteMessage(c *call) (any, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	m := to.find(c.id("message_id"))
	if m == nil {
		return nil, badRequest("message to delete not found")
	}
	me := to.member(d.me.ID)
	created := m.service != nil && (m.service.ForumTopicCreated != nil || m.service.MigrateFromChatID != 0)
	allowed := to.kind == private || m.own || to.kind == group && me.admin() || me.can("can_delete_messages")
	if created || !allowed {
		return nil, badRequest("message can't be deleted")
	}
	if d.now().Sub(m.date) >= deletable {
		return nil, badRequest("message can't be deleted for everyone")
	}
	m.deleted = true
	return true, nil
}

// pinChatMessage tells of itself by a service message, which is one of the few of
// its own that a bot gets (server, Client.cpp need_skip_update_message).
func (d *Double) pinChatMessage(c *call) (any, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	me := to.member(d.me.ID)
	right := "can_pin_messages"
	if to.kind == channel {
		right = "can_edit_messages"
	}
	if to.kind != private && !me.can(right) {
		return nil, badRequest("not enough rights to manage pinned messages in the chat")
	}
	m := to.find(c.id("message_id"))
	if m == nil {
		return nil, badRequest("message to pin not found")
	}
	if m.service != nil {
		return nil, badRequest("message can't be pinned")
	}
	m.pinned = true
	pin := &message{from: d.me, date: d.now(), service: &service{PinnedMessage: m.wireAlone()}}
	if m.topic {
		pin.thread, pin.topic = m.thread, true
	}
	if to.kind == channel {
		pin.from = nil
	}
	d.add(to, pin)
	d.deliver(pin)
	return true, nil
}
