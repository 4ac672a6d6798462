package apidouble

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/stretchr/testify/require"
)

func TestScriptedRefusals(t *testing.T) {
	s := newStage(t, Options{})
	chat, other := s.inGroup(), s.inGroup()
	for _, c := range []struct {
		fault Fault
		code  int
		says  string
	}{
		{ServerError(500), 500, "Internal Server Error"},
		{ServerError(503), 503, "Service Unavailable"},
		{Unauthorized(), 401, "Unauthorized"},
		{Refuse(403, "Forbidden: bot was kicked from the group chat"), 403, "kicked"},
		{OtherInstance(), 409, "terminated by other getUpdates"},
		{TooMany(7), 429, "retry after 7"},
	} {
		s.Script("sendMessage", c.fault)
		e := s.refused("sendMessage", params(chat, "x"))
		require.Equal(t, c.code, e.Code)
		require.Contains(t, e.Message, c.says)
	}
	require.Empty(t, s.Sent(chat))
	require.Zero(t, s.FaultsLeft("sendMessage"))

	s.Script("sendMessage", TooMany(3), Pass(), ServerError(502).InChat(other))
	require.Equal(t, 3, s.refused("sendMessage", params(chat, "x")).RetryAfter)
	s.send(chat, "one")
	s.send(chat, "two")
	require.Equal(t, 502, s.refused("sendMessage", params(other, "x")).Code)

	s.Always("", ServerError(500))
	s.refused("getMe", nil)
	s.refused("getMe", nil)
	s.ClearFaults("")
	s.ask("getMe", nil)
	s.Always("getMe", ServerError(500))
	s.ClearFaults()
	s.ask("getMe", nil)
	s.clean()
}

func TestAnswersThatAreNone(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	s.Script("sendMessage", HTMLPage(502))
	resp, body, err := s.raw(t.Context(), "sendMessage", map[string][]string{"chat_id": {itoa(chat)}, "text": {"x"}})
	require.NoError(t, err)
	require.Equal(t, 502, resp.StatusCode)
	require.Equal(t, "text/html", resp.Header.Get("Content-Type"))
	require.Contains(t, body, "<h1>502 Bad Gateway</h1>")

	s.Script("sendMessage", BadJSON().Late())
	_, err = s.bot.MakeRequest("sendMessage", params(chat, "took effect"))
	require.ErrorIs(t, err, io.ErrUnexpectedEOF)
	require.Len(t, s.Sent(chat), 1)
	s.clean()
}

func TestCutConnections(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	s.Script("sendMessage", CutBefore(), CutAfter(), CutMidAnswer())
	_, err := s.bot.MakeRequest("sendMessage", params(chat, "never"))
	require.ErrorIs(t, err, io.EOF)
	require.Empty(t, s.Sent(chat))
	_, err = s.bot.MakeRequest("sendMessage", params(chat, "sent"))
	require.ErrorIs(t, err, io.EOF)
	require.Len(t, s.Sent(chat), 1, "the send took effect though the client saw nothing")
	_, err = s.bot.MakeRequest("sendMessage", params(chat, "sent too"))
	require.ErrorIs(t, err, io.ErrUnexpectedEOF)
	require.Len(t, s.Sent(chat), 2)

	// An answer with updates that is lost: they come again.
	s.Say(s.ana, s.ana, "hi")
	s.Script("getUpdates", CutAfter())
	_, err = s.bot.MakeRequest("getUpdates", nil)
	require.Error(t, err)
	require.Equal(t, []string{"hi"}, texts(s.updates()))
	s.clean()
}

func TestSlowAnswers(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	release := make(chan struct{})
	s.Script("sendMessage", Slow(release))
	done := make(chan error, 1)
	go func() {
		_, err := s.bot.MakeRequest("sendMessage", params(chat, "slow"))
		done <- err
	}()
	require.NoError(t, s.Await(long(t), func() bool { return len(s.Requests("sendMessage")) == 1 }))
	require.Empty(t, s.Sent(chat))
	close(release)
	require.NoError(t, <-done)
	require.Len(t, s.Sent(chat), 1)

	// The client gives up waiting; what it sent may have arrived.
	s.Script("sendMessage", Slow(nil).Late())
	ctx, cancel := context.WithCancel(t.Context())
	bot := *s.bot
	bot.Client = clientFunc(func(r *http.Request) (*http.Response, error) {
		return http.DefaultClient.Do(r.WithContext(ctx))
	})
	go func() {
		_, err := bot.MakeRequest("sendMessage", params(chat, "late"))
		done <- err
	}()
	require.NoError(t, s.Await(long(t), func() bool { return len(s.Sent(chat)) == 2 }))
	cancel()
	require.ErrorIs(t, <-done, context.Canceled)
	s.clean()
}

func TestErrorsDecodeWholly(t *testing.T) {
	s := newStage(t, Options{})
	s.Script("getMe", TooMany(9))
	resp, body, err := s.raw(t.Context(), "getMe", nil)
	require.NoError(t, err)
	require.Equal(t, 429, resp.StatusCode)
	require.Equal(t, "9", resp.Header.Get("Retry-After"))
	var a tgbotapi.APIResponse
	require.NoError(t, json.Unmarshal([]byte(body), &a))
	require.Equal(t, tgbotapi.APIResponse{
		ErrorCode: 429, Description: "Too Many Requests: retry after 9",
		Parameters: &tgbotapi.ResponseParameters{RetryAfter: 9},
	}, a)
}
