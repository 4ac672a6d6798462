package apidouble

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"strconv"
)

// apiError is a refusal as the API gives it.
type apiError struct {
	code       int
	text       string
	retryAfter int
	migrateTo  int64
	// contract: the request broke the description of the API, as opposed to one that
	// cannot be done now.
	contract string
}

func badRequest(text string) *apiError { return &apiError{code: 400, text: "Bad Request: " + text} }

func forbidden(text string) *apiError { return &apiError{code: 403, text: "Forbidden: " + text} }

func conflict() *apiError {
	return &apiError{code: 409, text: "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running"}
}

func breached(text string) *apiError {
	e := badRequest(text)
	e.contract = text
	return e
}

// answer is the envelope of everything the API says (docs: "Making requests").
type answer struct {
	OK          bool            `json:"ok"`
	Result      json.RawMessage `json:"result,omitempty"`
	ErrorCode   int             `json:"error_code,omitempty"`
	Description string          `json:"description,omitempty"`
	Parameters  *parameters     `json:"parameters,omitempty"`
}

type parameters struct {
	MigrateToChatID int64 `json:"migrate_to_chat_id,omitempty"`
	RetryAfter      int   `json:"retry_after,omitempty"`
}

// methods are what the double can do; all but getUpdates run under the lock.
var methods = map[string]func(*Double, *call) (any, *apiError){
	"getMe":                  (*Double).getMe,
	"sendMessage":            (*Double).sendMessage,
	"sendPhoto":              (*Double).sendPhoto,
	"sendDocument":           (*Double).sendDocument,
	"editMessageText":        (*Double).editMessageText,
	"editMessageReplyMarkup": (*Double).editMessageReplyMarkup,
	"deleteMessage":          (*Double).deleteMessage,
	"answerCallbackQuery":    (*Double).answerCallbackQuery,
	"setMyCommands":          (*Double).setMyCommands,
	"pinChatMessage":         (*Double).pinChatMessage,
	"getChatMember":          (*Double).getChatMember,
	"getChatAdministrators":  (*Double).getChatAdministrators,
	"setMessageReaction":     (*Double).setMessageReaction,
	"leaveChat":              (*Double).leaveChat,
	"setWebhook":             (*Double).setWebhook,
	"deleteWebhook":          (*Double).deleteWebhook,
}

// ServeHTTP is the Bot API.
func (d *Double) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	token, method, ok := splitPath(r.URL.Path)
	if !ok {
		writeError(w, &apiError{code: 404, text: "Not Found"})
		return
	}
	if token != d.opts.Token {
		d.mu.Lock()
		d.badTokens++
		d.bump()
		d.mu.Unlock()
		writeError(w, &apiError{code: 401, text: "Unauthorized"})
		return
	}
	c, err := readCall(method, r)
	if err != nil {
		writeError(w, d.note(method, badRequest(err.Error())))
		return
	}
	broken := d.record(c)
	f := d.fault(c)
	if f == nil {
		f = &Fault{}
	}
	if !f.AfterEffect && !d.suffer(w, r, f) {
		return
	}
	result, failure := d.do(r.Context(), c, broken)
	if f.AfterEffect && !d.suffer(w, r, f) {
		return
	}
	if failure != nil {
		writeError(w, failure)
		return
	}
	writeJSON(w, 200, answer{OK: true, Result: result})
}

// record keeps the request and holds it against the spec; what is wrong is returned
// as the refusal.
func (d *Double) record(c *call) *apiError {
	files := map[string]string{}
	for name, f := range c.files {
		files[name] = f.name
	}
	breaches := d.spec.checkCall(c)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.requests = append(d.requests, Request{c.method, maps.Clone(c.params), files, d.now()})
	for _, b := range breaches {
		d.violate(c.method, b.detail)
	}
	d.bump()
	if len(breaches) == 0 {
		return nil
	}
	if _, known := d.spec.Methods[c.method]; !known {
		return &apiError{code: 404, text: "Not Found: method not found"}
	}
	return badRequest(breaches[0].description())
}

func (d *Double) note(method string, e *apiError) *apiError {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.violate(method, e.text)
	d.bump()
	return e
}

// do carries the request out. The result is encoded under the lock, since it may
// point into the world.
func (d *Double) do(ctx context.Context, c *call, broken *apiError) (json.RawMessage, *apiError) {
	if broken != nil {
		return nil, broken
	}
	if c.method == "getUpdates" {
		result, failure := d.getUpdates(ctx, c)
		if failure != nil && failure.contract != "" {
			d.note(c.method, failure)
		}
		data, _ := json.Marshal(result)
		return data, failure
	}
	run := methods[c.method]
	if run == nil {
		return nil, d.note(c.method, badRequest("the double has no "+c.method))
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	result, failure := run(d, c)
	d.bump()
	if failure != nil {
		if failure.contract != "" {
			d.violate(c.method, failure.contract)
		}
		return nil, failure
	}
	data, err := json.Marshal(result)
	if err != nil {
		panic(err)
	}
	return data, nil
}

func writeError(w http.ResponseWriter, e *apiError) {
	a := answer{ErrorCode: e.code, Description: e.text}
	if e.retryAfter != 0 || e.migrateTo != 0 {
		a.Parameters = &parameters{MigrateToChatID: e.migrateTo, RetryAfter: e.retryAfter}
	}
	if e.retryAfter != 0 {
		w.Header().Set("Retry-After", strconv.Itoa(e.retryAfter))
	}
	writeJSON(w, e.code, a)
}

func writeJSON(w http.ResponseWriter, status int, v any) {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(data)
}

func tooMany(retryAfter int) *apiError {
	return &apiError{code: 429, text: fmt.Sprintf("Too Many Requests: retry after %d", retryAfter), retryAfter: retryAfter}
}
