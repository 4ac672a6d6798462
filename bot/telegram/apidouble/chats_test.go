package apidouble

import (
	"encoding/json"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/stretchr/testify/require"
)

func TestPrivacyMode(t *testing.T) {
	for _, kind := range []string{"group", "supergroup"} {
		t.Run(kind, func(t *testing.T) {
			s := newStage(t, Options{})
			chat := s.inGroup()
			if kind == "supergroup" {
				chat = s.inSupergroup()
			}
			robot := s.NewOtherBot("other_bot")
			s.AddMember(chat, s.ana, robot)
			s.drain()
			hears := func(text string, opts ...SayOption) bool {
				t.Helper()
				s.Say(chat, s.ben, text, opts...)
				return len(s.drain()) == 1
			}
			require.False(t, hears("grafted 40"))
			require.False(t, hears("@yardbell_bot grafted 40"))
			require.False(t, hears("/due"), "the bot has not written yet")
			require.True(t, hears("/due@yardbell_bot"))
			require.True(t, hears("/due@YardBell_Bot today"))
			require.False(t, hears("/due@other_bot"))
			require.False(t, hears("see /due@yardbell_bot"))
			require.False(t, hears("/usr/bin"))

			m := s.send(chat, "Grafted?")
			require.True(t, hears("/due"))
			require.True(t, hears("40", ReplyTo(m)))
			mine := s.Say(chat, s.ana, "?")
			require.False(t, hears("40", ReplyTo(mine)))
			require.False(t, hears("40"))
			s.Say(chat, robot, "I am a bot", ReplyTo(m))
			require.Empty(t, s.drain(), "other bots are not heard")
			require.False(t, hears("/due"), "another bot wrote last")

			s.AddMember(chat, s.ana, s.NewUser("Cem", ""))
			s.Rename(chat, s.ana, "Yard 2")
			require.Len(t, s.drain(), 2, "service messages are heard")

			s.SetPrivacy(false)
			require.False(t, hears("40"), "takes a re-adding")
			s.Kick(chat, s.ana)
			s.AddBot(chat, s.ana)
			s.drain()
			require.True(t, hears("40"))
			s.Say(chat, robot, "I am a bot")
			require.Empty(t, s.drain())

			s.SetPrivacy(true)
			s.Kick(chat, s.ana)
			s.AddBot(chat, s.ana)
			s.drain()
			require.False(t, hears("40"))
			s.Promote(chat, s.ana)
			s.drain()
			require.True(t, hears("40"), "an administrator hears all")
			s.Demote(chat, s.ana)
			s.drain()
			require.False(t, hears("40"))
			s.clean()
		})
	}
	s := newStage(t, Options{HearsMentions: true})
	chat := s.inGroup()
	s.Say(chat, s.ana, "🐝 @Yardbell_Bot grafted 40")
	require.Len(t, s.updates(), 1)
}

func TestWhatAClientMarks(t *testing.T) {
	require.Equal(t, []Entity{{Type: "bot_command", Offset: 0, Length: 17}}, clientEntities("/due@yardbell_bot now"))
	require.Equal(t, []Entity{{Type: "bot_command", Offset: 3, Length: 4}, {Type: "mention", Offset: 8, Length: 6}}, clientEntities("🐝 /due @ana_q."))
	require.Empty(t, clientEntities("a/b mail@example /usr/bin // @ab ä/x"))
	s := newStage(t, Options{})
	s.Say(s.ana, s.ana, "/start now", WithEntities(Entity{Type: "bold", Offset: 0, Length: 99}))
	require.Equal(t, 99, s.updates()[0].Message.Entities[0].Length)
}

func TestTheBotComesAndGoes(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.NewSupergroup("Yard", s.ana, s.ben)
	require.Equal(t, "Bad Request: chat not found", s.refused("sendMessage", params(chat, "x")).Message)
	s.AddBot(chat, s.ana)
	got := s.drain()
	require.Equal(t, []string{"me member", ""}, texts(got))
	require.Equal(t, "left", got[0].MyChatMember.OldChatMember.Status)
	require.Equal(t, s.ana, got[0].MyChatMember.From.ID)
	require.Equal(t, s.Me().ID, got[1].Message.NewChatMembers[0].ID)

	s.Mute(chat, s.ana)
	require.Equal(t, []string{"me restricted"}, texts(s.drain()))
	require.Equal(t, "Bad Request: not enough rights to send text messages to the chat", s.refused("sendMessage", params(chat, "x")).Message)
	s.Unmute(chat, s.ana)
	require.Equal(t, []string{"me member"}, texts(s.drain()))
	s.send(chat, "x")

	s.Kick(chat, s.ben)
	got = s.drain()
	require.Equal(t, []string{"me kicked", ""}, texts(got))
	require.Equal(t, s.Me().ID, got[1].Message.LeftChatMember.ID)
	e := s.refused("sendMessage", params(chat, "x"))
	require.Equal(t, 403, e.Code)
	require.Equal(t, "Forbidden: bot was kicked from the supergroup chat", e.Message)
	s.Say(chat, s.ana, "/due@yardbell_bot")
	require.Empty(t, s.updates())

	s.AddBot(chat, s.ana)
	s.drain()
	s.ask("leaveChat", tgbotapi.Params{"chat_id": itoa(chat)})
	require.Equal(t, []string{"me left", ""}, texts(s.drain()))
	require.Equal(t, "Forbidden: bot is not a member of the supergroup chat", s.refused("sendMessage", params(chat, "x")).Message)

	small := s.inGroup()
	s.Mute(small, s.ana)
	require.Empty(t, s.updates(), "a basic group mutes all at once and tells no bot")
	require.Equal(t, 400, s.refused("sendMessage", params(small, "x")).Code)
	s.Unmute(small, s.ana)
	s.send(small, "x")
	s.DeleteChat(small)
	require.Equal(t, "Forbidden: the group chat was deleted", s.refused("sendMessage", params(small, "x")).Message)
	s.clean()
}

func TestPrivateChats(t *testing.T) {
	s := newStage(t, Options{})
	require.Equal(t, "Forbidden: bot can't initiate conversation with a user", s.refused("sendMessage", params(s.ana, "x")).Message)
	s.Say(s.ana, s.ana, "/start")
	u := s.drain()[0].Message
	require.Equal(t, "private", u.Chat.Type)
	require.Equal(t, "start", u.Command())
	s.send(s.ana, "hi")
	s.Block(s.ana)
	require.Equal(t, []string{"me kicked"}, texts(s.drain()))
	e := s.refused("sendMessage", params(s.ana, "x"))
	require.Equal(t, 403, e.Code)
	require.Equal(t, "Forbidden: bot was blocked by the user", e.Message)
	s.Unblock(s.ana)
	require.Equal(t, []string{"me member"}, texts(s.drain()))
	s.send(s.ana, "hi")
	s.Deactivate(s.ana)
	require.Equal(t, "Forbidden: user is deactivated", s.refused("sendMessage", params(s.ana, "x")).Message)
	require.Equal(t, "Bad Request: chat not found", s.refused("sendMessage", params(123, "x")).Message)
	s.clean()
}

func TestMigration(t *testing.T) {
	s := newStage(t, Options{})
	old := s.inGroup()
	m := s.send(old, "before")
	id := s.Migrate(old, s.ana)
	got := s.drain()
	require.Len(t, got, 2)
	require.Equal(t, old, got[0].Message.Chat.ID)
	require.Equal(t, id, got[0].Message.MigrateToChatID)
	require.Equal(t, id, got[1].Message.Chat.ID)
	require.Equal(t, "supergroup", got[1].Message.Chat.Type)
	require.Equal(t, old, got[1].Message.MigrateFromChatID)

	e := s.refused("sendMessage", params(old, "x"))
	require.Equal(t, 400, e.Code)
	require.Equal(t, "Bad Request: group chat was upgraded to a supergroup chat", e.Message)
	require.Equal(t, id, e.MigrateToChatID)
	s.send(id, "after")
	require.Equal(t, "Bad Request: message to edit not found", s.refused("editMessageText", params(id, "x", "message_id", itoa(m+100))).Message)
	require.Len(t, s.Sent(old), 1)
	s.Say(id, s.ben, "/due")
	require.Equal(t, []string{"/due"}, texts(s.drain()))

	second := s.inGroup()
	s.MigrateWithMembership(second, s.ana)
	require.Equal(t, []string{"", "me member", ""}, texts(s.drain()))
	require.Panics(t, func() { s.Say(second, s.ana, "x") })
	s.clean()
}

func TestChannels(t *testing.T) {
	s := newStage(t, Options{})
	c := s.NewChannel("News", s.ana, s.ben)
	s.AddBot(c, s.ana)
	require.Equal(t, []string{"me administrator"}, texts(s.drain()))
	m := s.Say(c, s.ana, "post")
	s.Edit(c, s.ana, m, "post 2")
	got := s.drain()
	require.Equal(t, []string{"post post", "?"}, texts(got))
	require.Nil(t, got[0].ChannelPost.From)
	require.NotNil(t, got[1].EditedChannelPost)
	s.send(c, "by the bot")
	require.Len(t, s.Sent(c), 1)
	require.Panics(t, func() { s.Say(c, s.ben, "not mine to post") })
	require.Equal(t, "Bad Request: message can't be edited", s.refused("editMessageText", params(c, "x", "message_id", itoa(m))).Message)
	s.clean()
}

// wireTopic is what the library does not decode.
type wireTopic struct {
	Message struct {
		Thread  int  `json:"message_thread_id"`
		Topic   bool `json:"is_topic_message"`
		ReplyTo *struct {
			ID int `json:"message_id"`
		} `json:"reply_to_message"`
		Chat struct {
			IsForum bool `json:"is_forum"`
		} `json:"chat"`
	} `json:"message"`
}

func (s *stage) lastRaw() wireTopic {
	s.t.Helper()
	raw := s.PendingRaw()
	require.NotEmpty(s.t, raw)
	var w wireTopic
	require.NoError(s.t, json.Unmarshal(raw[len(raw)-1], &w))
	s.drain()
	return w
}

func TestForumTopics(t *testing.T) {
	s := newStage(t, Options{ReadsAll: true, Rates: Rates{RecordOnly: true}})
	chat := s.NewForum("Yards", s.ana, s.ben)
	s.AddBot(chat, s.ana)
	s.drain()
	north := s.NewTopic(chat, s.ana, "North")
	w := s.lastRaw().Message
	require.Equal(t, north, w.Thread)
	require.True(t, w.Topic)
	require.True(t, w.Chat.IsForum)

	said := s.Say(chat, s.ben, "40", InTopic(north))
	w = s.lastRaw().Message
	require.Equal(t, north, w.Thread)
	require.True(t, w.Topic)
	require.Equal(t, north, w.ReplyTo.ID, "comes as a reply to the opening of the topic")
	s.Say(chat, s.ben, "in General")
	w = s.lastRaw().Message
	require.Zero(t, w.Thread)
	require.False(t, w.Topic)
	require.Nil(t, w.ReplyTo)

	s.send(chat, "noted", "message_thread_id", itoa(north), "reply_parameters", `{"message_id":`+itoa(said)+`}`)
	s.send(chat, "all", "message_thread_id", itoa(north))
	s.send(chat, "general")
	sent := s.Sent(chat)
	require.Equal(t, []int{north, north, 0}, []int{sent[0].Thread, sent[1].Thread, sent[2].Thread})
	require.Equal(t, []int{said, 0, 0}, []int{sent[0].ReplyTo, sent[1].ReplyTo, sent[2].ReplyTo})

	for _, thread := range []string{"1", "999"} {
		e := s.refused("sendMessage", params(chat, "x", "message_thread_id", thread))
		require.Equal(t, "Bad Request: message thread not found", e.Message)
	}
	s.CloseTopic(chat, s.ana, north)
	require.Equal(t, "Bad Request: TOPIC_CLOSED", s.refused("sendMessage", params(chat, "x", "message_thread_id", itoa(north))).Message)
	s.ReopenTopic(chat, s.ana, north)
	s.send(chat, "again", "message_thread_id", itoa(north))
	s.drain()

	// Threads of replies in a supergroup without topics have a number, too.
	plain := s.inSupergroup()
	first := s.Say(plain, s.ana, "question")
	s.Say(plain, s.ben, "answer", ReplyTo(first))
	w = s.lastRaw().Message
	require.Equal(t, first, w.Thread)
	require.False(t, w.Topic)
	require.Equal(t, 400, s.refused("sendMessage", params(plain, "x", "message_thread_id", itoa(first))).Code)
	require.Panics(t, func() { s.NewTopic(plain, s.ana, "x") })
	s.clean()
}

func TestMembersAndAdministrators(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inSupergroup()
	who := func(id int64) tgbotapi.Params { return tgbotapi.Params{"chat_id": itoa(chat), "user_id": itoa(id)} }
	status := func(id int64) string {
		var m tgbotapi.ChatMember
		require.NoError(t, json.Unmarshal(s.ask("getChatMember", who(id)), &m))
		return m.Status
	}
	admins := func(more ...string) []int64 {
		q := tgbotapi.Params{"chat_id": itoa(chat)}
		for i := 0; i < len(more); i += 2 {
			q[more[i]] = more[i+1]
		}
		var list []tgbotapi.ChatMember
		require.NoError(t, json.Unmarshal(s.ask("getChatAdministrators", q), &list))
		ids := []int64{}
		for _, m := range list {
			ids = append(ids, m.User.ID)
		}
		return ids
	}
	require.Equal(t, "member", status(s.Me().ID))
	require.Equal(t, 400, s.refused("getChatMember", who(s.ana)).Code, "not for a bot that is no administrator")
	require.Equal(t, []int64{s.ana}, admins())
	robot := s.NewOtherBot("other_bot")
	s.AddMember(chat, s.ana, robot)
	s.PromoteMember(chat, s.ana, s.ben, "can_pin_messages")
	s.PromoteMember(chat, s.ana, robot)
	s.Promote(chat, s.ana)
	require.Equal(t, []int64{s.ana, s.ben, s.Me().ID}, admins())
	require.Equal(t, []int64{s.ana, s.ben, robot, s.Me().ID}, admins("return_bots", "true"))
	require.Equal(t, "creator", status(s.ana))
	require.Equal(t, "administrator", status(s.ben))
	s.DemoteMember(chat, s.ana, s.ben)
	require.Equal(t, "member", status(s.ben))
	s.drain()
	s.RemoveMember(chat, s.ana, s.ben)
	require.Equal(t, s.ben, s.drain()[0].Message.LeftChatMember.ID)
	require.Equal(t, "kicked", status(s.ben))
	s.AddMember(chat, s.ana, s.ben)
	s.RemoveMember(chat, s.ben, s.ben)
	require.Equal(t, "left", status(s.ben))
	require.Equal(t, "left", status(s.NewUser("Nobody", "")))
	require.Equal(t, 400, s.refused("getChatMember", who(5)).Code)
	require.Equal(t, "Ben", s.UserByID(s.ben).FirstName)
	require.Panics(t, func() { s.Say(chat, s.ben, "gone") })
	s.clean()
}
