package apidouble

import (
	"context"
	"encoding/json"
	"net/http"
	"net/url"
	"testing"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/stretchr/testify/require"
)

func texts(updates []tgbotapi.Update) []string {
	out := []string{}
	for _, u := range updates {
		switch {
		case u.Message != nil:
			out = append(out, u.Message.Text)
		case u.EditedMessage != nil:
			out = append(out, "edited "+u.EditedMessage.Text)
		case u.CallbackQuery != nil:
			out = append(out, "pressed "+u.CallbackQuery.Data)
		case u.MyChatMember != nil:
			out = append(out, "me "+u.MyChatMember.NewChatMember.Status)
		case u.ChannelPost != nil:
			out = append(out, "post "+u.ChannelPost.Text)
		default:
			out = append(out, "?")
		}
	}
	return out
}

func (s *stage) from(offset int, more ...string) []tgbotapi.Update {
	s.t.Helper()
	p := tgbotapi.Params{"offset": itoa(offset)}
	for i := 0; i < len(more); i += 2 {
		p[more[i]] = more[i+1]
	}
	var out []tgbotapi.Update
	require.NoError(s.t, json.Unmarshal(s.ask("getUpdates", p), &out))
	return out
}

func TestUpdatesComeAgainUntilConfirmed(t *testing.T) {
	s := newStage(t, Options{})
	for _, text := range []string{"one", "two", "three"} {
		s.Say(s.ana, s.ana, text)
	}
	first := s.updates()
	require.Equal(t, []string{"one", "two", "three"}, texts(first))
	require.Equal(t, 300001, first[0].UpdateID)
	require.Equal(t, []string{"one", "two"}, texts(s.from(0, "limit", "2")))
	require.Equal(t, []string{"two", "three"}, texts(s.from(300002)))
	require.Equal(t, []string{"two", "three"}, texts(s.from(300001)), "what is confirmed stays so")
	require.Equal(t, 2, s.Pending())
	require.Empty(t, s.from(300004))
	require.Empty(t, s.updates())

	s.Redeliver(2)
	s.Say(s.ana, s.ana, "four")
	require.Equal(t, []string{"two", "three", "four"}, texts(s.from(300004)), "a duplicate comes whatever the offset")
	require.Equal(t, []string{"four"}, texts(s.from(300004)))

	s.Say(s.ana, s.ana, "five")
	require.Equal(t, []string{"five"}, texts(s.from(-1)))
	require.Equal(t, []string{"five"}, texts(s.updates()), "a negative offset forgets what was before")
	s.clean()
}

func TestANumberingFromElsewhereConfirmsNothing(t *testing.T) {
	s := newStage(t, Options{})
	s.Say(s.ana, s.ana, "before")
	last := s.drain()[0].UpdateID
	s.clock.Advance(8 * 24 * time.Hour)
	s.Say(s.ana, s.ana, "after a quiet week")
	got := s.from(last + 1)
	require.Equal(t, []string{"after a quiet week"}, texts(got))
	require.NotEqual(t, last+1, got[0].UpdateID)

	s.SetNextUpdateID(200500)
	s.Say(s.ana, s.ana, "lower")
	both := s.from(got[0].UpdateID + 1)
	require.Equal(t, []string{"after a quiet week", "lower"}, texts(both), "an offset far in the future is none")
	require.Equal(t, 200500, both[1].UpdateID)
	s.clean()
}

func TestRetention(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	id := s.send(chat, "Done?", "reply_markup", button("yes"))
	now := s.clock.Now()
	s.Say(s.ana, s.ana, "too old to be queued", At(now.Add(-24*time.Hour)))
	s.Say(s.ana, s.ana, "old", At(now.Add(-23*time.Hour)))
	s.Say(s.ana, s.ana, "new")
	s.Press(chat, s.ben, id, "b")
	require.Equal(t, []string{"old", "new", "pressed yes"}, texts(s.updates()))
	s.clock.Advance(150 * time.Second)
	require.Equal(t, []string{"old", "new"}, texts(s.updates()), "a press is kept for 150 s")
	s.clock.Advance(time.Hour)
	require.Equal(t, []string{"new"}, texts(s.updates()))
	s.clock.Advance(23 * time.Hour)
	require.Empty(t, s.updates())
	require.Zero(t, s.Pending())
	s.clean()
}

func TestAllowedUpdates(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inSupergroup()
	s.Promote(chat, s.ana)
	s.drain()
	m := s.send(chat, "x", "reply_markup", button("yes"))
	all := func() []string {
		s.Say(s.ana, s.ana, "hi")
		s.Press(chat, s.ana, m, "yes")
		s.React(chat, s.ana, m, "👍")
		return texts(s.drain())
	}
	require.Equal(t, []string{"hi", "pressed yes"}, all(), "reactions are not among the default")
	s.from(0, "allowed_updates", `["message","message_reaction"]`)
	require.Equal(t, []string{"hi", "?"}, all(), "remembered when absent")
	s.from(0, "allowed_updates", "null")
	require.Equal(t, []string{"hi", "?"}, all(), "ignored when not an array")
	s.Say(s.ana, s.ana, "kept")
	s.Press(chat, s.ana, m, "yes")
	s.from(0, "allowed_updates", "[]")
	require.Equal(t, []string{"kept"}, texts(s.updates()), "not retroactive")
	s.clean()
}

// A reaction comes with what the person had put there before, and only to an administrator;
// it is held against the spec like every update.
func TestReactionUpdates(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inSupergroup()
	s.from(0, "allowed_updates", `["message_reaction"]`)
	m := s.send(chat, "Go now")
	s.React(chat, s.ana, m, "👀")
	require.Empty(t, s.updates(), "no administrator")
	s.Promote(chat, s.ana)
	s.React(chat, s.ana, m, "👍")
	s.React(chat, s.ana, m, "")
	var list []struct {
		Reaction wireReacted `json:"message_reaction"`
	}
	require.NoError(t, json.Unmarshal(s.ask("getUpdates", tgbotapi.Params{}), &list))
	require.Len(t, list, 2)
	require.Equal(t, []wireReaction{{"emoji", "👀"}}, list[0].Reaction.OldReaction)
	require.Equal(t, []wireReaction{{"emoji", "👍"}}, list[0].Reaction.NewReaction)
	require.Equal(t, m, list[0].Reaction.MessageID)
	require.Equal(t, s.ana, list[0].Reaction.User.ID)
	require.Empty(t, list[1].Reaction.NewReaction, "taken back")
	s.clean()
}

type polled struct {
	updates []tgbotapi.Update
	err     error
}

// poll starts a long poll and returns when it waits.
func (s *stage) poll(ctx context.Context, seconds string) <-chan polled {
	s.t.Helper()
	n := len(s.Requests("getUpdates"))
	out := make(chan polled, 1)
	go func() {
		bot := *s.bot
		bot.Client = clientFunc(func(r *http.Request) (*http.Response, error) {
			return http.DefaultClient.Do(r.WithContext(ctx))
		})
		resp, err := bot.MakeRequest("getUpdates", tgbotapi.Params{"timeout": seconds})
		var p polled
		if p.err = err; err == nil {
			p.err = json.Unmarshal(resp.Result, &p.updates)
		}
		out <- p
	}()
	require.NoError(s.t, s.Await(long(s.t), func() bool { return s.Polling() && len(s.Requests("getUpdates")) == n+1 }))
	return out
}

type clientFunc func(*http.Request) (*http.Response, error)

func (f clientFunc) Do(r *http.Request) (*http.Response, error) { return f(r) }

func TestLongPoll(t *testing.T) {
	s := newStage(t, Options{})
	got := s.poll(t.Context(), "50")
	s.Say(s.ana, s.ana, "wake")
	require.Equal(t, []string{"wake"}, texts((<-got).updates))
	require.False(t, s.Polling())
	s.drain()

	got = s.poll(t.Context(), "3000")
	s.clock.Advance(50 * time.Second)
	p := <-got
	require.NoError(t, p.err)
	require.Empty(t, p.updates, "a poll lasts 50 s at most")

	ctx, cancel := context.WithCancel(t.Context())
	got = s.poll(ctx, "50")
	cancel()
	require.ErrorIs(t, (<-got).err, context.Canceled)
	require.NoError(t, s.Await(long(t), func() bool { return !s.Polling() }), "the end of the request ends the poll")

	got = s.poll(t.Context(), "50")
	s.Close()
	require.Empty(t, (<-got).updates, "closing ends a poll")
}

func TestASecondPollEndsTheFirst(t *testing.T) {
	s := newStage(t, Options{})
	first := s.poll(t.Context(), "50")
	require.Empty(t, s.updates())
	var e *tgbotapi.Error
	require.ErrorAs(t, (<-first).err, &e)
	require.Equal(t, 409, e.Code)
	require.Contains(t, e.Message, "make sure that only one bot instance is running")

	second := s.poll(t.Context(), "50")
	third := s.poll(t.Context(), "50")
	require.Error(t, (<-second).err)
	s.Say(s.ana, s.ana, "for the third")
	require.Equal(t, []string{"for the third"}, texts((<-third).updates))
	s.clean()
}

func TestWebhookExcludesPolling(t *testing.T) {
	s := newStage(t, Options{})
	s.ask("setWebhook", tgbotapi.Params{"url": "https://example.org/hook"})
	e := s.refused("getUpdates", nil)
	require.Equal(t, 409, e.Code)
	require.Contains(t, e.Message, "webhook is active")
	s.Say(s.ana, s.ana, "kept")
	s.ask("deleteWebhook", nil)
	require.Equal(t, []string{"kept"}, texts(s.updates()))
	s.ask("deleteWebhook", tgbotapi.Params{"drop_pending_updates": "true"})
	require.Empty(t, s.updates())
	s.clean()
}

func TestPoisonAndForeignUpdates(t *testing.T) {
	s := newStage(t, Options{})
	s.Say(s.ana, s.ana, "before")
	id := s.Poison()
	s.DeliverRaw(`"poll":{"id":"1"}`)
	s.Say(s.ana, s.ana, "after")
	_, err := s.bot.GetUpdates(tgbotapi.UpdateConfig{})
	require.Error(t, err, "one bad update spoils the batch for the library")
	require.Len(t, s.PendingRaw(), 4)

	_, body, err := s.raw(t.Context(), "getUpdates", url.Values{"offset": {itoa(id + 1)}})
	require.NoError(t, err)
	var a struct{ Result []tgbotapi.Update }
	require.NoError(t, json.Unmarshal([]byte(body), &a))
	require.Equal(t, []string{"?", "after"}, texts(a.Result))
	require.Panics(t, func() { s.DeliverRaw(`"message":{`) })
	s.clean()
}
