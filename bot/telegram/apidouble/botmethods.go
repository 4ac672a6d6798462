package apidouble

import "slices"

// The methods here are about the bot and its chats, not about messages.

func (d *Double) getMe(*call) (any, *apiError) {
	return wireMe{wireUser: d.me.wire(), CanJoinGroups: true, CanReadAllGroupMessages: d.readsAll}, nil
}

func (d *Double) setWebhook(c *call) (any, *apiError) {
	if len(c.files) == 0 && c.params["url"] == "" {
		return d.deleteWebhook(c)
	}
	if err := d.setAllowed(c); err != nil {
		return nil, err
	}
	d.webhook = c.params["url"]
	d.dropPending(c)
	return true, nil
}

func (d *Double) deleteWebhook(c *call) (any, *apiError) {
	d.webhook = ""
	d.dropPending(c)
	return true, nil
}

func (d *Double) dropPending(c *call) {
	if c.flag("drop_pending_updates") {
		d.queue.confirmed = append(d.queue.confirmed, d.queue.pending...)
		d.queue.pending = nil
	}
}

// Command is an entry of the bot's menu.
type Command struct {
	Command     string `json:"command"`
	Description string `json:"description"`
}

// setMyCommands: names of lower case letters, digits and underscores (docs: BotCommand).
func (d *Double) setMyCommands(c *call) (any, *apiError) {
	var list []Command
	c.decode("commands", &list)
	for _, k := range list {
		for _, r := range k.Command {
			if !(r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z') {
				return nil, breached("BOT_COMMAND_INVALID")
			}
		}
	}
	scope := struct {
		Type string `json:"type"`
	}{"default"}
	c.decode("scope", &scope)
	d.commands[scope.Type+"/"+c.params["language_code"]] = list
	return true, nil
}

// Commands is the menu for a scope type ("default" and so on) and language.
func (d *Double) Commands(scope, language string) []Command {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.commands[scope+"/"+language])
}

// getChatMember is only guaranteed to work for others if the bot is an administrator
// (docs), so that is what the double demands.
func (d *Double) getChatMember(c *call) (any, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	u := d.users[c.number("user_id")]
	if u == nil {
		return nil, badRequest("invalid user_id specified")
	}
	if to.kind == private {
		return (&member{status: "member"}).wire(u), nil
	}
	if u != d.me && !to.member(d.me.ID).admin() {
		return nil, badRequest("member list is inaccessible")
	}
	return to.member(u.ID).wire(u), nil
}

// getChatAdministrators leaves other bots out unless asked for them (docs).
func (d *Double) getChatAdministrators(c *call) (any, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	if to.kind == private {
		return nil, badRequest("there are no administrators in the private chat")
	}
	ids := make([]int64, 0, len(to.members))
	for id, m := range to.members {
		if u := d.users[id]; m.admin() && (!u.Bot || u == d.me || c.flag("return_bots")) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	list := []map[string]any{}
	for _, id := range ids {
		list = append(list, to.members[id].wire(d.users[id]))
	}
	return list, nil
}

func (d *Double) leaveChat(c *call) (any, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	if to.kind == private {
		return nil, badRequest("chat member status can't be changed in private chats")
	}
	d.removeBot(to, d.me, "left")
	return true, nil
}
