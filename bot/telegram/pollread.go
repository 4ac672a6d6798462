package telegram

import (
	"time"

	"yardbell/bot"
)

// Read turns an update into what the bot takes in; ok is false for those that are
// not for it: other bots, channels, commands for another bot, messages without
// words.
func Read(u update, me user, now time.Time) (in bot.Incoming, ok bool) {
	in = bot.Incoming{Source: Source, UpdateID: u.ID}
	if c := u.Callback; c != nil {
		if c.Message == nil || c.From.IsBot || c.Message.Chat.ID == 0 {
			return in, false
		}
		in.Kind, in.Chat, in.Private = "press", c.Message.Chat.ID, c.Message.Chat.Type == "private"
		in.Message, in.Data, in.Said = c.Message.ID, c.Data, now
		return from(in, c.From), true
	}
	if r := u.Reaction; r != nil {
		if !r.thumb() || r.User == nil || r.User.IsBot || !r.Chat.group() {
			return in, false
		}
		in.Kind, in.Chat, in.Title = "thumb", r.Chat.ID, r.Chat.Title
		in.Message, in.Said = r.ID, time.Unix(r.Date, 0).UTC()
		return from(in, *r.User), true
	}
	m, kind := u.Message, "message"
	if m == nil {
		m, kind = u.Edited, "edit"
	}
	if m == nil || !m.hidden() && (m.From == nil || m.From.IsBot || m.SenderChat != nil) || m.words() == "" && (kind == "edit" || m.photo() == "" || !m.Chat.group()) || m.forOther(me.Username) {
		return in, false
	}
	if !m.Chat.group() && m.Chat.Type != "private" {
		return in, false
	}
	in.Kind, in.Chat, in.Private, in.Title = kind, m.Chat.ID, m.Chat.Type == "private", m.Chat.Title
	in.Message, in.Said = m.ID, time.Unix(m.Date, 0).UTC()
	if m.Topic {
		in.Thread = m.Thread
	}
	if r := m.ReplyTo; r != nil && r.From != nil {
		if r.From.ID == me.ID {
			in.ReplyTo = r.ID
		} else if !r.From.IsBot {
			in.Beneath = r.ID
		}
	}
	if m.Chat.group() {
		in.Photo, in.Album = m.photo(), m.Album
	}
	if in.Photo != "" && m.words() == "" && in.ReplyTo == 0 && in.Album == "" {
		return in, false // somebody's picture
	}
	in.Text, in.Addressed = m.plain(me.Username)
	in.Addressed = in.Addressed || in.Private
	in.Forwarded = m.forwarded()
	if in.Hidden = m.hidden(); in.Hidden {
		return in, true
	}
	return from(in, *m.From), true
}

func from(in bot.Incoming, u user) bot.Incoming {
	in.UserKey, in.UserName = key(u), u.name()
	return in
}
