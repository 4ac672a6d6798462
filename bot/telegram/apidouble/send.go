package apidouble

import (
	"encoding/json"
	"strings"
)

// longestRaw: server, Client.cpp 11309.
const longestRaw = 32768

// target finds the chat of a request, if the bot can do anything there.
func (d *Double) target(c *call) (*chat, *apiError) {
	to := d.chats[c.number("chat_id")]
	if to == nil {
		return nil, badRequest("chat not found")
	}
	if to.migratedTo != 0 {
		// server, Client.cpp 8150-8156
		e := badRequest("group chat was upgraded to a supergroup chat")
		e.migrateTo = to.migratedTo
		return nil, e
	}
	if to.kind == private {
		switch {
		case to.user.deactivated:
			return nil, forbidden("user is deactivated")
		case to.user.Bot:
			return nil, forbidden("bot can't send messages to bots")
		case to.blocked:
			return nil, forbidden("bot was blocked by the user")
		case !to.started:
			return nil, forbidden("bot can't initiate conversation with a user")
		}
		return to, nil
	}
	// server, Client.cpp 8158-8185
	me, known := to.members[d.me.ID]
	switch {
	case !known:
		return nil, badRequest("chat not found")
	case to.deleted:
		return nil, forbidden("the group chat was deleted")
	case me.status == "kicked":
		return nil, forbidden("bot was kicked from the " + to.kind.name())
	case !me.in():
		return nil, forbidden("bot is not a member of the " + to.kind.name())
	}
	return to, nil
}

// writable is target for something that writes.
func (d *Double) writable(c *call) (*chat, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	me := to.member(d.me.ID)
	if to.kind != private && (me.status == "restricted" || to.silenced && !me.admin()) {
		return nil, badRequest("not enough rights to send text messages to the chat")
	}
	if to.kind == channel && !me.can("can_post_messages") {
		return nil, badRequest("need administrator rights in the channel chat")
	}
	return to, nil
}

// formatted reads a text or caption with its formatting and checks the length, which
// counts after the entities are parsed (spec).
func (d *Double) formatted(c *call, field, entities string) (string, []Entity, *apiError) {
	raw := c.params[field]
	var marks []Entity
	text := raw
	if len(raw) > longestRaw {
		return "", nil, breached("message is too long")
	}
	switch mode := strings.ToLower(c.params["parse_mode"]); mode {
	case "":
		c.decode(entities, &marks)
		for _, e := range marks {
			if e.Offset < 0 || e.Length <= 0 || e.Offset+e.Length > utf16Len(text) {
				return "", nil, breached("can't parse entities: an entity lies outside the text")
			}
		}
	case "html":
		var err error
		if text, marks, err = parseHTML(raw); err != nil {
			return "", nil, breached("can't parse entities: " + err.Error())
		}
	default:
		return "", nil, breached("the double reads no parse_mode but HTML, not " + c.params["parse_mode"])
	}
	f, _ := d.spec.field(d.spec.Methods[c.method].Fields, field)
	n := utf16Len(text)
	if n > deref(f.Limits.MaxChars) {
		what := map[string]string{"text": "message", "caption": "message caption"}[field]
		return "", nil, breached(what + " is too long")
	}
	if f.Required && strings.TrimSpace(text) == "" {
		return "", nil, breached("message text is empty")
	}
	return text, marks, nil
}

func (d *Double) sendMessage(c *call) (any, *apiError) {
	to, err := d.writable(c)
	if err != nil {
		return nil, err
	}
	m := &message{}
	if m.text, m.entities, err = d.formatted(c, "text", "entities"); err != nil {
		return nil, err
	}
	return d.send(c, to, m)
}

func (d *Double) sendPhoto(c *call) (any, *apiError) { return d.sendFile(c, "photo", true) }

func (d *Double) sendDocument(c *call) (any, *apiError) { return d.sendFile(c, "document", false) }

func (d *Double) sendFile(c *call, field string, photo bool) (any, *apiError) {
	to, err := d.writable(c)
	if err != nil {
		return nil, err
	}
	m := &message{}
	if m.text, m.entities, err = d.formatted(c, "caption", "caption_entities"); err != nil {
		return nil, err
	}
	if m.file, err = d.fileOf(c, field, photo); err != nil {
		return nil, err
	}
	return d.send(c, to, m)
}

// send does what all messages have in common.
func (d *Double) send(c *call, to *chat, m *message) (any, *apiError) {
	m.from, m.own, m.date, m.silent = d.me, true, d.now(), c.flag("disable_notification")
	if to.kind == channel {
		m.from = nil
	}
	if err := d.replied(c, to, m); err != nil {
		return nil, err
	}
	if err := threaded(c, to, m, d.me.ID); err != nil {
		return nil, err
	}
	m.setMarkup(c)
	if seconds := d.rates.admit(to.id, to.crowd(), d.now()); seconds > 0 {
		return nil, tooMany(seconds)
	}
	d.add(to, m)
	return m.wire(), nil
}

func (d *Double) replied(c *call, to *chat, m *message) *apiError {
	if !c.has("reply_parameters") {
		return nil
	}
	var p struct {
		MessageID int             `json:"message_id"`
		ChatID    json.RawMessage `json:"chat_id"`
		Without   bool            `json:"allow_sending_without_reply"`
	}
	c.decode("reply_parameters", &p)
	if p.ChatID != nil {
		return breached("the double models no replies across chats")
	}
	if m.replyTo = to.find(p.MessageID); m.replyTo == nil && !p.Without {
		return badRequest("message to be replied not found")
	}
	return nil
}

// threaded puts a message into its topic. General has the number 1 inside the server,
// but sending there by number is refused (server, Client.cpp 8275-8278). Threads of
// replies outside forums are not for sending (assumed).
func threaded(c *call, to *chat, m *message, me int64) *apiError {
	thread := c.id("message_thread_id")
	if thread != 0 {
		t := to.topics[thread]
		if t == nil {
			return badRequest("message thread not found")
		}
	}
	threadOf(to, m, thread)
	if t := to.topics[m.thread]; t != nil && m.topic {
		if t.closed && !to.member(me).admin() {
			return badRequest("TOPIC_CLOSED")
		}
		if m.replyTo == nil {
			m.replyTo = t.root
		}
	}
	return nil
}

// Button is an inline button.
type Button struct {
	Text string `json:"text"`
	Data string `json:"callback_data,omitempty"`
	URL  string `json:"url,omitempty"`
}

// setMarkup takes over the keyboard of a request; none given removes an inline one.
func (m *message) setMarkup(c *call) {
	m.buttons, m.markup, m.force = nil, "", false
	if !c.has("reply_markup") {
		return
	}
	var markup struct {
		Inline [][]Button `json:"inline_keyboard"`
		Force  bool       `json:"force_reply"`
	}
	c.decode("reply_markup", &markup)
	m.force = markup.Force
	m.buttons = markup.Inline
	if len(markup.Inline) > 0 {
		// Through a map, so that the order of the fields does not make a difference
		// when an edit is compared with what is there.
		var whole map[string]any
		c.decode("reply_markup", &whole)
		data, _ := json.Marshal(whole)
		m.markup = string(data)
	}
}
