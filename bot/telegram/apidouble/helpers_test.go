package apidouble

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/stretchr/testify/require"
)

// stage is a double with a group: Ana made it, Ben is in it.
type stage struct {
	*Double
	t        *testing.T
	bot      *tgbotapi.BotAPI
	clock    *ManualClock
	ana, ben int64
}

func newStage(t *testing.T, opts Options) *stage {
	t.Helper()
	clock := NewManualClock(DefaultStart)
	if opts.Clock == nil {
		opts.Clock = clock
	}
	s := &stage{Double: Start(t, opts), t: t, clock: clock}
	bot, err := tgbotapi.NewBotAPIWithClient(s.Token(), s.Endpoint(), &http.Client{})
	require.NoError(t, err)
	s.bot = bot
	s.ana, s.ben = s.NewUser("Ana", "ana_q"), s.NewUser("Ben", "ben_q")
	return s
}

// inGroup adds a group with the bot in it, and takes the updates about that.
func (s *stage) inGroup() int64 {
	id := s.NewGroup("Yard", s.ana, s.ben)
	s.AddBot(id, s.ana)
	s.drain()
	return id
}

func (s *stage) inSupergroup() int64 {
	id := s.NewSupergroup("Yard", s.ana, s.ben)
	s.AddBot(id, s.ana)
	s.drain()
	return id
}

// updates fetches what is there, without confirming it, and holds each update
// against the spec: the double must not tell what the API would not.
func (s *stage) updates() []tgbotapi.Update {
	s.t.Helper()
	resp, err := s.bot.MakeRequest("getUpdates", tgbotapi.Params{})
	require.NoError(s.t, err)
	s.holds("Array of Update", resp.Result)
	var out []tgbotapi.Update
	require.NoError(s.t, json.Unmarshal(resp.Result, &out))
	return out
}

// drain takes all updates and confirms them.
func (s *stage) drain() []tgbotapi.Update {
	s.t.Helper()
	out := s.updates()
	if n := len(out); n > 0 {
		s.ask("getUpdates", tgbotapi.Params{"offset": itoa(out[n-1].UpdateID + 1), "limit": "1"})
	}
	return out
}

func (s *stage) holds(typ string, data []byte) {
	s.t.Helper()
	dec := json.NewDecoder(strings.NewReader(string(data)))
	dec.UseNumber()
	var v any
	require.NoError(s.t, dec.Decode(&v))
	if b := s.spec.checkValue(typ, v, specField{Name: typ}); b != nil {
		s.t.Fatalf("the double's own answer breaks the spec: %s\n%s", b.detail, data)
	}
}

// ask makes a call that works, and holds the answer against the spec.
func (s *stage) ask(method string, p tgbotapi.Params) json.RawMessage {
	s.t.Helper()
	resp, err := s.bot.MakeRequest(method, p)
	require.NoError(s.t, err)
	returns := s.spec.Methods[method].Returns
	s.holds(returns[0], resp.Result)
	return resp.Result
}

// send posts a text and returns its number.
func (s *stage) send(chat int64, text string, more ...string) int {
	s.t.Helper()
	var m tgbotapi.Message
	require.NoError(s.t, json.Unmarshal(s.ask("sendMessage", params(chat, text, more...)), &m))
	return m.MessageID
}

// refused makes a call that is refused.
func (s *stage) refused(method string, p tgbotapi.Params) *tgbotapi.Error {
	s.t.Helper()
	_, err := s.bot.MakeRequest(method, p)
	var e *tgbotapi.Error
	require.ErrorAs(s.t, err, &e)
	return e
}

// clean asserts that the bot kept to the API; a test that broke it on purpose does
// not call it.
func (s *stage) clean() {
	s.t.Helper()
	require.Empty(s.t, s.Violations())
}

func params(chat int64, text string, more ...string) tgbotapi.Params {
	p := tgbotapi.Params{"chat_id": itoa(chat), "text": text}
	for i := 0; i < len(more); i += 2 {
		p[more[i]] = more[i+1]
	}
	return p
}

func itoa[T int | int64](n T) string { return json.Number(jsonOf(n)).String() }

func jsonOf(v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(data)
}

// raw makes a request by hand.
func (s *stage) raw(ctx context.Context, method string, form url.Values) (*http.Response, string, error) {
	req, err := http.NewRequestWithContext(ctx, "POST", s.URL()+"/bot"+s.Token()+"/"+method, strings.NewReader(form.Encode()))
	require.NoError(s.t, err)
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		return nil, "", err
	}
	defer func() { _ = resp.Body.Close() }()
	body, err := io.ReadAll(resp.Body)
	return resp, string(body), err
}

// long is a bound for things that happen at once unless something is broken.
func long(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	t.Cleanup(cancel)
	return ctx
}
