package apidouble

// This file makes people and chats. Nothing here is seen by the bot until it is
// added to a chat or written to.

// NewUser makes a person.
func (d *Double) NewUser(first, username string) int64 {
	return d.NewUserLike(User{FirstName: first, Username: username})
}

// NewOtherBot makes a bot that is not ours.
func (d *Double) NewOtherBot(username string) int64 {
	return d.NewUserLike(User{FirstName: username, Username: username, Bot: true})
}

// NewUserLike makes a person or bot with everything said but the number, unless
// that is given too.
func (d *Double) NewUserLike(u User) int64 {
	d.mu.Lock()
	defer d.mu.Unlock()
	if u.ID == 0 {
		u.ID = d.nextUser
		d.nextUser++
	}
	if d.users[u.ID] != nil {
		misuse("there is a user %d already", u.ID)
	}
	d.users[u.ID] = &u
	d.chats[u.ID] = newChat(u.ID, private, "")
	d.chats[u.ID].user = &u
	return u.ID
}

// UserByID returns what is known of a user.
func (d *Double) UserByID(id int64) User {
	d.mu.Lock()
	defer d.mu.Unlock()
	return *d.user(id)
}

func newChat(id int64, k kind, title string) *chat {
	return &chat{
		id: id, kind: k, title: title,
		members: map[int64]*member{}, messages: map[int]*message{}, topics: map[int]*topic{},
	}
}

// NewGroup makes a basic group, NewSupergroup a supergroup, NewForum a supergroup
// with topics, NewChannel a channel. The bot is not in it; see AddBot.
func (d *Double) NewGroup(title string, creator int64, members ...int64) int64 {
	return d.newChat(group, title, creator, members)
}

// NewSupergroup: see NewGroup.
func (d *Double) NewSupergroup(title string, creator int64, members ...int64) int64 {
	return d.newChat(supergroup, title, creator, members)
}

// NewForum: see NewGroup.
func (d *Double) NewForum(title string, creator int64, members ...int64) int64 {
	id := d.newChat(supergroup, title, creator, members)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.chats[id].forum = true
	return id
}

// NewChannel: see NewGroup.
func (d *Double) NewChannel(title string, creator int64, members ...int64) int64 {
	return d.newChat(channel, title, creator, members)
}

func (d *Double) newChat(k kind, title string, creator int64, members []int64) int64 {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := newChat(d.newChatID(k), k, title)
	c.members[d.user(creator).ID] = &member{status: "creator"}
	for _, id := range members {
		c.members[d.user(id).ID] = &member{status: "member"}
	}
	d.chats[c.id] = c
	return c.id
}

// newChatID: basic groups have small negative numbers, supergroups and channels
// start with -100 (docs: "Dialog identifiers").
func (d *Double) newChatID(k kind) int64 {
	if k == group {
		d.nextGroup++
		return -(d.nextGroup - 1)
	}
	d.nextSuper++
	return -(d.nextSuper - 1)
}

// NewTopic opens a topic in a forum and returns its thread number, which is the
// number of the service message that opened it.
func (d *Double) NewTopic(chatID, user int64, name string) int {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	if !c.forum {
		misuse("chat %d is no forum", chatID)
	}
	m := &message{
		from: d.inChat(c, user), date: d.now(), topic: true,
		service: &service{ForumTopicCreated: &topicCreated{name, 0x6FB9F0}},
	}
	d.add(c, m)
	m.thread = m.id
	c.topics[m.id] = &topic{root: m}
	d.deliver(m)
	return m.id
}

// CloseTopic closes a topic for everybody but admins.
func (d *Double) CloseTopic(chatID, user int64, thread int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	t := c.topics[thread]
	if t == nil {
		misuse("no topic %d in chat %d", thread, chatID)
	}
	t.closed = true
	d.serviceMessage(c, d.inChat(c, user), &service{ForumTopicClosed: &struct{}{}}, t)
}

// ReopenTopic undoes CloseTopic.
func (d *Double) ReopenTopic(chatID, user int64, thread int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	t := c.topics[thread]
	if t == nil {
		misuse("no topic %d in chat %d", thread, chatID)
	}
	t.closed = false
	d.serviceMessage(c, d.inChat(c, user), &service{ForumTopicReopened: &struct{}{}}, t)
}

// Rename changes the title of a chat.
func (d *Double) Rename(chatID, user int64, title string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	c.title = title
	d.serviceMessage(c, d.inChat(c, user), &service{NewChatTitle: title}, nil)
}

// serviceMessage files a service message and delivers it. t is its topic, if any.
func (d *Double) serviceMessage(c *chat, from *User, s *service, t *topic) *message {
	m := &message{from: from, date: d.now(), service: s}
	if t != nil {
		m.thread, m.topic, m.replyTo = t.root.id, true, t.root
	}
	d.add(c, m)
	d.deliver(m)
	return m
}

// SetPrivacy switches privacy mode. getMe says so at once; a group is affected when
// the bot is added to it again (docs: Features).
func (d *Double) SetPrivacy(on bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.readsAll = !on
}
