package apidouble

import "slices"

// This file changes who is in a chat and what they may do there. What concerns the
// bot itself reaches it as my_chat_member (spec), and coming and going also as a
// service message.

// AddBot puts our bot into a chat; into a channel always as an administrator, since
// bots cannot be there otherwise.
func (d *Double) AddBot(chatID, by int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	if c.member(d.me.ID).in() {
		misuse("the bot is in chat %d already", chatID)
	}
	actor := d.inChat(c, by)
	c.seesAll = d.readsAll
	if c.kind == channel {
		d.setBot(c, actor, &member{status: "administrator", rights: []string{"can_post_messages", "can_edit_messages"}})
		return
	}
	d.setBot(c, actor, &member{status: "member"})
	d.serviceMessage(c, actor, &service{NewChatMembers: []wireUser{d.me.wire()}}, nil)
}

// setBot changes the bot's own standing and reports it.
func (d *Double) setBot(c *chat, actor *User, now *member) {
	old := c.member(d.me.ID)
	c.members[d.me.ID] = now
	d.push("my_chat_member", wireMemberUpdate{
		Chat: c.wire(), From: actor.wire(), Date: d.now().Unix(),
		OldChatMember: old.wire(d.me), NewChatMember: now.wire(d.me),
	}, d.now())
}

// Kick throws the bot out.
func (d *Double) Kick(chatID, by int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	d.removeBot(c, d.inChat(c, by), "kicked")
}

// removeBot: the service message about the bot's own leaving is the one message that
// still reaches it (server, Client.cpp need_skip_update_message).
func (d *Double) removeBot(c *chat, actor *User, status string) {
	if !c.member(d.me.ID).in() {
		misuse("the bot is not in chat %d", c.id)
	}
	d.setBot(c, actor, &member{status: status})
	if c.kind == channel {
		return
	}
	me := d.me.wire()
	m := d.add(c, &message{from: actor, date: d.now(), service: &service{LeftChatMember: &me}})
	d.push("message", m.wire(), m.date)
}

// Mute takes the right to write from the bot. A basic group has no such thing for
// one member: there it silences all who are not admins, and no update tells.
func (d *Double) Mute(chatID, by int64) { d.mute(chatID, by, true) }

// Unmute undoes Mute.
func (d *Double) Unmute(chatID, by int64) { d.mute(chatID, by, false) }

func (d *Double) mute(chatID, by int64, on bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	actor := d.inChat(c, by)
	if c.kind == group {
		c.silenced = on
		return
	}
	status := "member"
	if on {
		status = "restricted"
	}
	d.setBot(c, actor, &member{status: status})
}

// Promote makes the bot an administrator with these rights; without any, with
// those to delete, pin and invite.
func (d *Double) Promote(chatID, by int64, rights ...string) {
	if len(rights) == 0 {
		rights = []string{"can_delete_messages", "can_pin_messages", "can_invite_users"}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	d.setBot(c, d.inChat(c, by), &member{status: "administrator", rights: rights})
}

// Demote makes the bot a plain member again.
func (d *Double) Demote(chatID, by int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	d.setBot(c, d.inChat(c, by), &member{status: "member"})
}

// AddMember brings people in.
func (d *Double) AddMember(chatID, by int64, users ...int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	var added []wireUser
	for _, id := range users {
		u := d.user(id)
		if u == d.me {
			misuse("the bot comes in by AddBot")
		}
		c.members[id] = &member{status: "member"}
		added = append(added, u.wire())
	}
	if c.kind != channel {
		d.serviceMessage(c, d.inChat(c, by), &service{NewChatMembers: added}, nil)
	}
}

// RemoveMember takes a person out; by themselves if by and user are the same.
func (d *Double) RemoveMember(chatID, by, user int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	actor, gone := d.inChat(c, by), d.inChat(c, user).wire()
	status := "kicked"
	if by == user {
		status = "left"
	}
	c.members[user] = &member{status: status}
	if c.kind != channel {
		d.serviceMessage(c, actor, &service{LeftChatMember: &gone}, nil)
	}
}

// PromoteMember makes a person an administrator. No update tells a bot that did not
// ask for chat_member, and ours does not.
func (d *Double) PromoteMember(chatID, by, user int64, rights ...string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	d.inChat(c, by)
	d.inChat(c, user)
	c.members[user] = &member{status: "administrator", rights: slices.Clone(rights)}
}

// DemoteMember undoes PromoteMember.
func (d *Double) DemoteMember(chatID, by, user int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.groupChat(chatID)
	d.inChat(c, by)
	d.inChat(c, user)
	c.members[user] = &member{status: "member"}
}

// StartPrivate lets the bot write to a person, as pressing Start does, without the
// message that comes with it. Any message the person writes does it as well.
func (d *Double) StartPrivate(user int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.chat(d.user(user).ID).started = true
}

// Block and Unblock are a person's doing in the private chat.
func (d *Double) Block(user int64) { d.block(user, true) }

// Unblock undoes Block.
func (d *Double) Unblock(user int64) { d.block(user, false) }

func (d *Double) block(user int64, on bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	u := d.user(user)
	c := d.chat(u.ID)
	c.blocked = on
	old, now := &member{status: "member"}, &member{status: "kicked"}
	if !on {
		old, now = now, old
	}
	d.push("my_chat_member", wireMemberUpdate{
		Chat: c.wire(), From: u.wire(), Date: d.now().Unix(),
		OldChatMember: old.wire(d.me), NewChatMember: now.wire(d.me),
	}, d.now())
}

// Deactivate deletes a person's account. Nothing tells the bot.
func (d *Double) Deactivate(user int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.user(user).deactivated = true
}

// DeleteChat deletes a group. Nothing tells the bot but its next send.
func (d *Double) DeleteChat(chatID int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.groupChat(chatID).deleted = true
}

// Migrate turns a basic group into a supergroup and returns its new number. Both
// ends get a service message (spec: migrate_to_chat_id, migrate_from_chat_id); the
// old number answers 400 with the new one from then on, and old messages stay behind.
// That the bot also gets my_chat_member for the new chat is seen in practice, not
// documented; MigrateWithMembership sends it.
func (d *Double) Migrate(chatID, by int64) int64 { return d.migrate(chatID, by, false) }

// MigrateWithMembership is Migrate with the bot's joining of the new chat reported.
func (d *Double) MigrateWithMembership(chatID, by int64) int64 { return d.migrate(chatID, by, true) }

func (d *Double) migrate(chatID, by int64, membership bool) int64 {
	d.mu.Lock()
	defer d.mu.Unlock()
	old := d.chat(chatID)
	if old.kind != group {
		misuse("chat %d is no basic group", chatID)
	}
	actor := d.inChat(old, by)
	c := newChat(d.newChatID(supergroup), supergroup, old.title)
	c.seesAll, c.silenced = old.seesAll, old.silenced
	for id, m := range old.members {
		if id != d.me.ID || !membership {
			c.members[id] = m
		}
	}
	d.chats[c.id] = c
	d.serviceMessage(old, actor, &service{MigrateToChatID: c.id}, nil)
	old.migratedTo = c.id
	if membership {
		d.setBot(c, actor, old.member(d.me.ID))
	}
	d.serviceMessage(c, actor, &service{MigrateFromChatID: old.id}, nil)
	return c.id
}
