package apidouble

import (
	"slices"
	"strings"
)

// reactionEmoji are those that a reaction may be (docs: ReactionTypeEmoji; from memory).
var reactionEmoji = strings.Fields(`❤ 👍 👎 🔥 🥰 👏 😁 🤔 🤯 😱 🤬 😢 🎉 🤩 🤮 💩 🙏 👌 🕊 🤡 🥱 🥴 😍 🐳 ❤‍🔥 🌚 🌭 💯 🤣 ⚡ 🍌 🏆 💔 🤨 😐 🍓 🍾 💋 🖕 😈 😴 😭 🤓 👻 👨‍💻 👀 🎃 🙈 😇 😨 🤝 ✍ 🤗 🫡 🎅 🎄 ☃ 💅 🤪 🗿 🆒 💘 🙉 🦄 😘 💊 🙊 😎 👾 🤷‍♂ 🤷 🤷‍♀ 😡`)

type wireReaction struct {
	Type  string `json:"type"`
	Emoji string `json:"emoji"`
}

type wireReacted struct {
	Chat        wireChat       `json:"chat"`
	MessageID   int            `json:"message_id"`
	User        wireUser       `json:"user"`
	Date        int64          `json:"date"`
	OldReaction []wireReaction `json:"old_reaction"`
	NewReaction []wireReaction `json:"new_reaction"`
}

func reactionsOf(emoji []string) []wireReaction {
	out := []wireReaction{}
	for _, e := range emoji {
		out = append(out, wireReaction{"emoji", e})
	}
	return out
}

// setMessageReaction: a bot that is not premium sets at most one (docs). What a chat
// without reactions, or without this one, says is assumed.
func (d *Double) setMessageReaction(c *call) (any, *apiError) {
	to, err := d.target(c)
	if err != nil {
		return nil, err
	}
	m := to.find(c.id("message_id"))
	if m == nil || m.service != nil {
		return nil, badRequest("message to react not found")
	}
	var list []wireReaction
	c.decode("reaction", &list)
	if len(list) > 1 {
		return nil, badRequest("REACTIONS_TOO_MANY")
	}
	for _, r := range list {
		if r.Type != "emoji" || !slices.Contains(reactionEmoji, r.Emoji) || to.noReactions {
			return nil, badRequest("REACTION_INVALID")
		}
	}
	m.reaction = nil
	for _, r := range list {
		m.reaction = append(m.reaction, r.Emoji)
	}
	d.bump()
	return true, nil
}

// NoReactions has a chat do without reactions.
func (d *Double) NoReactions(chatID int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.chat(chatID).noReactions = true
}

// React has a person react with one emoji, in place of what they put there before; ""
// takes it back. It reaches a bot only if it asked for message_reaction and is an
// administrator (spec).
func (d *Double) React(chatID, user int64, messageID int, emoji string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.chat(chatID)
	u, m := d.inChat(c, user), c.find(messageID)
	if m == nil {
		misuse("no message %d in chat %d", messageID, chatID)
	}
	if m.reactions == nil {
		m.reactions = map[int64][]string{}
	}
	w := wireReacted{Chat: c.wire(), MessageID: messageID, User: u.wire(), Date: d.now().Unix(), OldReaction: reactionsOf(m.reactions[user])}
	m.reactions[user] = nil
	if emoji != "" {
		m.reactions[user] = []string{emoji}
	}
	w.NewReaction = reactionsOf(m.reactions[user])
	if c.kind == private || c.member(d.me.ID).admin() {
		d.push("message_reaction", w, d.now())
	}
}
