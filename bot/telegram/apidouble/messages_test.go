package apidouble

import (
	"testing"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/stretchr/testify/require"
)

func TestSentIsWhatPeopleSee(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	said := s.Say(chat, s.ana, "/due@yardbell_bot")
	id := s.send(chat, "<b>Graft</b> today", "parse_mode", "HTML",
		"reply_parameters", `{"message_id":`+itoa(said)+`,"allow_sending_without_reply":true}`,
		"reply_markup", `{"inline_keyboard":[[{"text":"Done","callback_data":"d:1"},{"text":"Later","callback_data":"l:1"}],[{"text":"More","url":"https://example.org"}]]}`)
	start := s.clock.Now()
	s.clock.Advance(time.Minute)
	s.ask("editMessageText", params(chat, "Graft done", "message_id", itoa(id)))

	sent := s.Sent(chat)
	require.Len(t, sent, 1)
	got := sent[0]
	require.Equal(t, "Graft done", got.Text)
	require.Equal(t, said, got.ReplyTo)
	require.Empty(t, got.Buttons, "an edit without a keyboard takes the old one away")
	require.Equal(t, start.Add(time.Minute), got.Edited)
	require.Len(t, got.History, 1)
	require.Equal(t, "Graft today", got.History[0].Text)
	require.Equal(t, start, got.History[0].At)
	require.Equal(t, []string{"Done", "Later", "More"}, Sent{Buttons: got.History[0].Buttons}.Labels())
	s.clean()
}

func TestEdits(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	id := s.send(chat, "x", "reply_markup", button("a"))
	edit := func(text string, more ...string) tgbotapi.Params {
		return params(chat, text, append(more, "message_id", itoa(id))...)
	}
	e := s.refused("editMessageText", edit("<i></i>x", "parse_mode", "HTML", "reply_markup", button("a")))
	require.Equal(t, 400, e.Code)
	require.Contains(t, e.Message, "message is not modified")
	s.ask("editMessageText", edit("<i>x</i>", "parse_mode", "HTML", "reply_markup", button("a")))
	markup := tgbotapi.Params{"chat_id": itoa(chat), "message_id": itoa(id), "reply_markup": button("b")}
	s.ask("editMessageReplyMarkup", markup)
	require.Contains(t, s.refused("editMessageReplyMarkup", markup).Message, "not modified")
	delete(markup, "reply_markup")
	s.ask("editMessageReplyMarkup", markup)
	got, ok := s.Message(chat, id)
	require.True(t, ok)
	require.Empty(t, got.Buttons)
	require.Len(t, got.History, 3)

	said := s.Say(chat, s.ana, "mine")
	require.Equal(t, "Bad Request: message can't be edited", s.refused("editMessageText", params(chat, "x", "message_id", itoa(said))).Message)
	require.Equal(t, "Bad Request: message to edit not found", s.refused("editMessageText", params(chat, "x", "message_id", "999")).Message)
	s.Erase(chat, id)
	require.Equal(t, "Bad Request: message to edit not found", s.refused("editMessageText", edit("y")).Message)
	s.clean()
}

func TestReplies(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	e := s.refused("sendMessage", params(chat, "x", "reply_parameters", `{"message_id":99}`))
	require.Equal(t, "Bad Request: message to be replied not found", e.Message)
	s.send(chat, "x", "reply_parameters", `{"message_id":99,"allow_sending_without_reply":true}`)
	asked, _ := s.LastSent(chat)
	require.Zero(t, asked.ReplyTo)

	s.Say(chat, s.ben, "40", ReplyTo(asked.ID), At(s.clock.Now().Add(-time.Hour)))
	m := s.drain()[0].Message
	require.Equal(t, asked.ID, m.ReplyToMessage.MessageID)
	require.Equal(t, s.Me().ID, m.ReplyToMessage.From.ID)
	require.Equal(t, s.clock.Now().Add(-time.Hour).Unix(), int64(m.Date))
	require.Equal(t, s.ben, m.From.ID)
	s.clean()
}

func TestPeopleEdit(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	hidden := s.Say(chat, s.ana, "moved 40")
	s.Edit(chat, s.ana, hidden, "moved 41")
	require.Empty(t, s.drain(), "what was not heard is not heard when edited")
	m := s.Say(chat, s.ana, "/moved@yardbell_bot 40")
	s.clock.Advance(time.Minute)
	s.Edit(chat, s.ana, m, "/moved@yardbell_bot 34")
	s.Touch(chat, m)
	got := s.drain()
	require.Len(t, got, 3)
	require.Equal(t, "/moved@yardbell_bot 34", got[1].EditedMessage.Text)
	require.Equal(t, 60, got[1].EditedMessage.EditDate-got[1].EditedMessage.Date)
	require.Equal(t, got[1].EditedMessage.Text, got[2].EditedMessage.Text)
	require.Panics(t, func() { s.Edit(chat, s.ben, m, "not mine") })
	s.Say(s.ana, s.ana, "look", WithPhoto())
	require.Equal(t, "look", s.drain()[0].Message.Caption)
	s.clean()
}

func TestPresses(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	m := s.send(chat, "Done?", "reply_markup", button("d:1"))
	byLabel := s.Press(chat, s.ben, m, "b")
	byData := s.Press(chat, s.ben, m, "d:1")
	forged := s.PressData(chat, s.ana, m, "d:999")
	got := s.drain()
	require.Equal(t, []string{"pressed d:1", "pressed d:1", "pressed d:999"}, texts(got))
	require.Equal(t, byLabel, got[0].CallbackQuery.ID)
	require.Equal(t, s.ben, got[0].CallbackQuery.From.ID)
	require.Equal(t, m, got[0].CallbackQuery.Message.MessageID)
	require.NotEqual(t, byLabel, byData)
	require.Panics(t, func() { s.Press(chat, s.ben, m, "no such button") })

	answer := func(id, text string) tgbotapi.Params { return tgbotapi.Params{"callback_query_id": id, "text": text} }
	s.ask("answerCallbackQuery", answer(byLabel, "Noted"))
	a, ok := s.AnswerTo(byLabel)
	require.True(t, ok)
	require.Equal(t, "Noted", a.Text)
	_, ok = s.AnswerTo(forged)
	require.False(t, ok)
	s.clock.Advance(16 * time.Second)
	for _, id := range []string{byData, "unknown"} {
		e := s.refused("answerCallbackQuery", answer(id, ""))
		require.Equal(t, 400, e.Code)
		require.Equal(t, "Bad Request: query is too old and response timeout expired or query ID is invalid", e.Message)
	}
	require.Len(t, s.Answers(), 1)

	s.Erase(chat, m)
	s.PressData(chat, s.ana, m, "d:1")
	require.Zero(t, s.drain()[0].CallbackQuery.Message.Date, "of a message that is gone only the number is left")
	s.clean()
}

func TestDeleting(t *testing.T) {
	s := newStage(t, Options{Rates: Rates{RecordOnly: true}})
	chat := s.inSupergroup()
	del := func(chat int64, id int) tgbotapi.Params {
		return tgbotapi.Params{"chat_id": itoa(chat), "message_id": itoa(id)}
	}
	own := s.send(chat, "own")
	s.ask("deleteMessage", del(chat, own))
	require.Empty(t, s.Sent(chat))
	require.Len(t, s.Deleted(chat), 1)
	require.Equal(t, "Bad Request: message to delete not found", s.refused("deleteMessage", del(chat, own)).Message)

	said := s.Say(chat, s.ana, "hers")
	require.Equal(t, "Bad Request: message can't be deleted", s.refused("deleteMessage", del(chat, said)).Message)
	s.Promote(chat, s.ana, "can_delete_messages")
	s.ask("deleteMessage", del(chat, said))

	old := s.send(chat, "old")
	s.clock.Advance(48 * time.Hour)
	require.Equal(t, "Bad Request: message can't be deleted for everyone", s.refused("deleteMessage", del(chat, old)).Message)
	s.ask("deleteMessage", del(s.ana, s.Say(s.ana, s.ana, "in private")))
	s.clean()
}

func TestPinning(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inSupergroup()
	m := s.send(chat, "Today")
	pin := tgbotapi.Params{"chat_id": itoa(chat), "message_id": itoa(m), "disable_notification": "true"}
	require.Equal(t, "Bad Request: not enough rights to manage pinned messages in the chat", s.refused("pinChatMessage", pin).Message)
	s.Promote(chat, s.ana, "can_delete_messages")
	require.Equal(t, 400, s.refused("pinChatMessage", pin).Code)
	s.Promote(chat, s.ana, "can_pin_messages")
	s.drain()
	s.ask("pinChatMessage", pin)
	got, _ := s.LastSent(chat)
	require.True(t, got.Pinned)
	require.Equal(t, m, s.drain()[0].Message.PinnedMessage.MessageID, "a bot is told of its own pinning")
	pin["message_id"] = "999"
	require.Equal(t, "Bad Request: message to pin not found", s.refused("pinChatMessage", pin).Message)
	s.clean()
}

func TestReactions(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	m := s.Say(chat, s.ana, "moved 40")
	react := tgbotapi.Params{"chat_id": itoa(chat), "message_id": itoa(m), "reaction": `[{"type":"emoji","emoji":"👍"}]`}
	s.ask("setMessageReaction", react)
	require.Equal(t, []string{"👍"}, s.Reactions(chat, m))
	react["reaction"] = `[{"type":"emoji","emoji":"👍"},{"type":"emoji","emoji":"👎"}]`
	require.Equal(t, 400, s.refused("setMessageReaction", react).Code)
	react["reaction"] = "[]"
	s.ask("setMessageReaction", react)
	require.Empty(t, s.Reactions(chat, m))
	react["reaction"] = `[{"type":"emoji","emoji":"🐝"}]`
	require.Equal(t, 400, s.refused("setMessageReaction", react).Code, "not among the reactions there are")
	s.NoReactions(chat)
	react["reaction"] = `[{"type":"emoji","emoji":"👍"}]`
	require.Equal(t, 400, s.refused("setMessageReaction", react).Code)
	require.Empty(t, s.Reactions(chat, m))
	react["message_id"] = "999"
	require.Equal(t, 400, s.refused("setMessageReaction", react).Code)
	s.clean()
}

func TestNumbersOfMessages(t *testing.T) {
	s := newStage(t, Options{})
	one, two := s.inSupergroup(), s.inSupergroup()
	require.Equal(t, s.send(one, "x"), s.send(two, "x"), "supergroups count by themselves")
	small, other := s.inGroup(), s.inGroup()
	require.NotEqual(t, s.send(small, "x"), s.send(other, "x"), "basic groups count together")

	again := newStage(t, Options{})
	require.Equal(t, one, again.inSupergroup(), "the same test sees the same numbers")
	require.Equal(t, s.ana, again.ana)
}
