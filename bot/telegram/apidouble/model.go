package apidouble

import (
	"slices"
	"time"
)

// User is a person or a bot.
type User struct {
	ID        int64
	Bot       bool
	FirstName string
	LastName  string
	Username  string
	Language  string

	deactivated bool
}

// Who shows as the author of what is written in the name of a group or a channel (spec:
// Message.from, "a fake sender user in non-channel chats"; the names are known from bots in
// practice).
var (
	anonymousBot = &User{ID: 1087968824, Bot: true, FirstName: "Group", Username: "GroupAnonymousBot"}
	channelBot   = &User{ID: 136817688, Bot: true, FirstName: "Channel", Username: "Channel_Bot"}
)

type kind string

const (
	private    kind = "private"
	group      kind = "group"
	supergroup kind = "supergroup"
	channel    kind = "channel"
)

// name is how the server calls the kind in its refusals.
func (k kind) name() string {
	if k == group {
		return "group chat"
	}
	return string(k) + " chat"
}

type chat struct {
	id      int64
	kind    kind
	title   string
	forum   bool
	members map[int64]*member

	messages map[int]*message
	order    []*message
	lastID   int
	topics   map[int]*topic

	// seesAll is whether privacy mode was off when the bot was added: switching it
	// takes a re-adding to become effective (docs: Features).
	seesAll bool
	// lastBot is the bot that wrote last.
	lastBot    int64
	migratedTo int64
	deleted    bool
	// silenced: nobody but admins may write (basic groups know no single mutes).
	silenced bool
	// noReactions: nobody may react.
	noReactions bool
	// user, started and blocked are of private chats.
	user    *User
	started bool
	blocked bool
}

type topic struct {
	root   *message
	closed bool
}

// member of a chat, past members included.
type member struct {
	status string // as in ChatMember (spec)
	rights []string
}

func (m *member) in() bool {
	return m != nil && m.status != "left" && m.status != "kicked"
}

func (m *member) admin() bool {
	return m != nil && (m.status == "creator" || m.status == "administrator")
}

func (m *member) can(right string) bool {
	return m != nil && (m.status == "creator" || m.status == "administrator" && slices.Contains(m.rights, right))
}

type message struct {
	id        int
	chat      *chat
	from      *User // nil for channel posts
	as        *chat // in whose name it was written, nil for the person's own
	passedOn  bool  // somebody else's, forwarded
	own       bool  // the bot sent it
	date      time.Time
	edited    time.Time
	text      string // or the caption
	entities  []Entity
	file      *File
	album     string
	replyTo   *message
	thread    int
	topic     bool
	buttons   [][]Button
	markup    string // inline keyboard as canonical JSON
	force     bool
	silent    bool
	service   *service
	pinned    bool
	deleted   bool
	history   []Version
	reaction  []string           // the bot's own
	reactions map[int64][]string // those of people
}

// crowd is what the limit for groups goes for.
func (c *chat) crowd() bool { return c.kind == group || c.kind == supergroup }

func (c *chat) member(id int64) *member {
	if m, ok := c.members[id]; ok {
		return m
	}
	return &member{status: "left"}
}

// add files a message under the next number. Private chats and basic groups count
// together, in the bot's own message box; supergroups and channels each by
// themselves (server: message identifiers of supergroups are their own). So the same
// number names different messages in two supergroups.
func (d *Double) add(c *chat, m *message) *message {
	counter := &d.sharedID
	if c.kind == supergroup || c.kind == channel {
		counter = &c.lastID
	}
	*counter++
	m.id, m.chat = *counter, c
	c.messages[m.id] = m
	c.order = append(c.order, m)
	if m.from != nil && m.from.Bot && m.service == nil {
		c.lastBot = m.from.ID
	}
	return m
}

// find returns a message that is still there.
func (c *chat) find(id int) *message {
	m := c.messages[id]
	if m == nil || m.deleted {
		return nil
	}
	return m
}

// user and chat look up what a test names; both are its mistake if missing.
func (d *Double) user(id int64) *User {
	u := d.users[id]
	if u == nil {
		misuse("no user %d", id)
	}
	return u
}

func (d *Double) chat(id int64) *chat {
	c := d.chats[id]
	switch {
	case c == nil:
		misuse("no chat %d", id)
	case c.migratedTo != 0:
		misuse("chat %d has become %d", id, c.migratedTo)
	}
	return c
}

func (d *Double) groupChat(id int64) *chat {
	c := d.chat(id)
	if c.kind == private {
		misuse("chat %d is private", id)
	}
	return c
}

func (d *Double) inChat(c *chat, user int64) *User {
	u := d.user(user)
	if c.kind == private && c.user != u || c.kind != private && !c.member(user).in() {
		misuse("user %d is not in chat %d", user, c.id)
	}
	return u
}
