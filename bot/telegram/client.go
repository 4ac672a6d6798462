package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"yardbell/bot/wording"
)

// placeholder stands for the token wherever the library and net/http can see it.
const placeholder = "BOT"

// DefaultAPI is the address of the hosted Bot API.
const DefaultAPI = "https://api.telegram.org"

// tokenTransport puts the real token into the path below http.Client, which
// builds every error from the address above it.
type tokenTransport struct {
	next  http.RoundTripper
	token string
}

func (t tokenTransport) RoundTrip(r *http.Request) (*http.Response, error) {
	inner := r.Clone(r.Context())
	inner.URL.Path = strings.Replace(inner.URL.Path, "/bot"+placeholder+"/", "/bot"+t.token+"/", 1)
	inner.URL.RawPath = ""
	resp, err := t.next.RoundTrip(inner)
	if err != nil {
		return nil, hideToken(err, t.token)
	}
	resp.Request = r // the answer must not carry the address with the token on
	return resp, nil
}

// hideToken drops an error whose text carries the token: dialling and TLS errors
// do not, but a proxy's might.
func hideToken(err error, token string) error {
	if strings.Contains(err.Error(), token) {
		return errors.New("request failed; its error held the token and is not shown")
	}
	return err
}

// statusError is an answer that was no JSON: a proxy's or gateway's page.
type statusError struct{ Code int }

func (e *statusError) Error() string {
	return fmt.Sprintf("HTTP status %d without a JSON answer", e.Code)
}

// How long an answer may be, in bytes. What is read takes some four times as much memory
// for a moment. A message of 4,096 characters that answers another such one, each letter
// of both escaped, has some 60 kB with all its marks; a poll asks for fewer updates where
// a hundred of them have too many bytes.
const (
	mostPoll   = 4 << 20
	mostAnswer = 256 << 10
)

// errTooLong is an answer that is longer than any we ask for.
var errTooLong = errors.New("the answer is too long")

// bounded gives an error where a body goes on after so many bytes.
type bounded struct {
	io.ReadCloser
	left int64
}

func (b *bounded) Read(p []byte) (int, error) {
	if int64(len(p)) > b.left+1 {
		p = p[:b.left+1]
	}
	n, err := b.ReadCloser.Read(p)
	if b.left -= int64(n); b.left < 0 {
		return 0, errTooLong
	}
	return n, err
}

// contextClient gives the library's requests a context, and refuses answers that
// are not JSON, or longer than most bytes, before it trips over them.
type contextClient struct {
	ctx  context.Context
	hc   *http.Client
	most int64
}

func (c contextClient) Do(r *http.Request) (*http.Response, error) {
	resp, err := c.hc.Do(r.WithContext(c.ctx))
	if err != nil {
		return nil, err
	}
	if !strings.HasPrefix(resp.Header.Get("Content-Type"), "application/json") {
		_, _ = io.Copy(io.Discard, io.LimitReader(resp.Body, 1<<16))
		_ = resp.Body.Close()
		return nil, &statusError{resp.StatusCode}
	}
	resp.Body = &bounded{resp.Body, c.most}
	return resp, nil
}

// Client talks to one bot's Bot API.
type Client struct {
	base string
	poll *http.Client // long polls
	send *http.Client // everything else
	me   user

	mostPoll int64       // bytes that a poll may bring
	readsAll atomic.Bool // of me; asked for by others than the poller, which may ask anew
}

// longPoll is how long a poll waits at the server; it allows at most 50 s.
const longPoll = 50 * time.Second

var muteLibrary = sync.OnceFunc(func() {
	// The library logs errors and, in debug, whole requests to standard error.
	_ = tgbotapi.SetLogger(log.New(io.Discard, "", 0))
})

// NewClient makes a client for a token. api is the server's address, "" for the
// hosted one. It does not connect.
func NewClient(api, token string) (*Client, error) {
	muteLibrary()
	if api == "" {
		api = DefaultAPI
	}
	u, err := url.Parse(api)
	if err != nil || u.Host == "" || (u.Scheme != "http" && u.Scheme != "https") || u.User != nil || u.RawQuery != "" {
		return nil, fmt.Errorf("the API address must look like %s", DefaultAPI)
	}
	if !TokenForm(token) {
		return nil, errors.New("the token does not look like one: digits, a colon, then letters")
	}
	// Many messages go out at once; by default all but two connections would be closed
	// after each, and a new one costs three ways to the server and back.
	wire := http.DefaultTransport.(*http.Transport).Clone()
	wire.MaxIdleConnsPerHost = 32
	wire.MaxResponseHeaderBytes = 64 << 10
	client := func(limit time.Duration) *http.Client {
		return &http.Client{
			Transport: tokenTransport{wire, token},
			Timeout:   limit,
			// A redirect must not carry the token elsewhere.
			CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		}
	}
	return &Client{base: strings.TrimRight(api, "/"), poll: client(longPoll + 15*time.Second), send: client(25 * time.Second), mostPoll: mostPoll}, nil
}

// TokenForm reports whether s has the form of a token.
func TokenForm(s string) bool {
	id, secret, ok := strings.Cut(s, ":")
	if !ok || id == "" || secret == "" {
		return false
	}
	for _, r := range id {
		if r < '0' || r > '9' {
			return false
		}
	}
	for _, r := range secret {
		if r <= ' ' || r > '~' || strings.ContainsRune(`/?#%\`, r) {
			return false
		}
	}
	return true
}

// call makes one request and decodes its result into out, which may be nil.
func (c *Client) call(ctx context.Context, hc *http.Client, method string, params tgbotapi.Params, file *wording.File, out any) error {
	most := int64(mostAnswer)
	if method == "getUpdates" {
		most = c.mostPoll
	}
	b := tgbotapi.BotAPI{Token: placeholder, Client: contextClient{ctx, hc, most}}
	b.SetAPIEndpoint(c.base + "/bot%s/%s")
	var resp *tgbotapi.APIResponse
	var err error
	if file == nil {
		resp, err = b.MakeRequest(method, params)
	} else {
		resp, err = b.UploadFiles(method, params, []tgbotapi.RequestFile{{Name: fieldOf(file), Data: tgbotapi.FileBytes{Name: file.Name, Bytes: file.Data}}})
		var te *tgbotapi.Error
		if errors.As(err, &te) && resp != nil {
			te.Code = resp.ErrorCode // which the library drops on this way
		}
	}
	if err != nil {
		return &callError{method: method, err: err}
	}
	if out == nil {
		return nil
	}
	if err := json.Unmarshal(resp.Result, out); err != nil {
		return &callError{method: method, err: fmt.Errorf("answer: %w", err), took: true}
	}
	return nil
}

// callError is a request that failed.
type callError struct {
	method string
	err    error
	took   bool // the server had done it; only its answer could not be read
}

func (e *callError) Error() string { return e.method + ": " + e.err.Error() }
func (e *callError) Unwrap() error { return e.err }

// code is the server's own error code, 0 where it gave none. The status of a page
// that is no JSON does not count: it is a proxy's word, and what a proxy forbids
// today the server may take tomorrow.
func code(err error) int {
	var te *tgbotapi.Error
	if errors.As(err, &te) {
		return te.Code
	}
	return 0
}

// retryAfter is how long the server asked to wait, 0 where it did not.
func retryAfter(err error) time.Duration {
	var te *tgbotapi.Error
	if errors.As(err, &te) && te.RetryAfter > 0 {
		return time.Duration(te.RetryAfter) * time.Second
	}
	return 0
}

// migratedTo is the new id of a group that became a supergroup, 0 for none.
func migratedTo(err error) int64 {
	var te *tgbotapi.Error
	if errors.As(err, &te) {
		return te.MigrateToChatID
	}
	return 0
}

// said is the server's description of the error.
func said(err error) string {
	var te *tgbotapi.Error
	if errors.As(err, &te) {
		return te.Message
	}
	return ""
}

// Connect asks who the bot is and makes sure that updates come by polling.
func (c *Client) Connect(ctx context.Context) error {
	if err := c.call(ctx, c.send, "getMe", nil, nil, &c.me); err != nil {
		return err
	}
	c.readsAll.Store(c.me.ReadsAll)
	return c.unhook(ctx)
}

// unhook ends a webhook, beside which no polling is allowed. What waits is kept.
func (c *Client) unhook(ctx context.Context) error {
	return c.call(ctx, c.send, "deleteWebhook", nil, nil, nil)
}

// Username of the bot, once connected.
func (c *Client) Username() string { return c.me.Username }

// HearsAll reports whether the bot's privacy mode is off.
func (c *Client) HearsAll() bool { return c.readsAll.Load() }

// refresh asks anew whether the bot's privacy mode is off; where that fails, what was
// known stays.
func (c *Client) refresh(ctx context.Context) {
	var me user
	if err := c.call(ctx, c.send, "getMe", nil, nil, &me); err == nil && me.ID == c.me.ID {
		c.readsAll.Store(me.ReadsAll)
	}
}

// standing asks what the bot itself may do in a chat.
func (c *Client) standing(ctx context.Context, chat int64) (m chatMember, err error) {
	p := tgbotapi.Params{}
	p.AddNonZero64("chat_id", chat)
	p.AddNonZero64("user_id", c.me.ID)
	err = c.call(ctx, c.send, "getChatMember", p, nil, &m)
	return m, err
}
