package apidouble

import (
	"net/http"
	"strconv"
	"time"
)

// Fault is something that goes wrong with one request. Make one with the functions
// below and put it in place with Script or Always.
type Fault struct {
	// Chat limits it to requests naming this chat; 0 is any.
	Chat int64
	// AfterEffect lets the request take effect first, so that only its answer is lost.
	AfterEffect bool

	hold    bool
	release <-chan struct{}
	cut     bool
	status  int
	kind    string
	body    string
	partial bool
	refusal *apiError
}

type scripted struct {
	fault  Fault
	always bool
}

// Late is the fault with the request taking effect before it.
func (f Fault) Late() Fault {
	f.AfterEffect = true
	return f
}

// InChat is the fault for requests naming one chat only.
func (f Fault) InChat(chat int64) Fault {
	f.Chat = chat
	return f
}

// Pass lets a request through: a place holder in a script.
func Pass() Fault { return Fault{} }

// ServerError is a 5xx in the usual envelope.
func ServerError(code int) Fault {
	return Fault{refusal: &apiError{code: code, text: http.StatusText(code)}}
}

// HTMLPage is the error page of a proxy, as with a 502: no JSON at all.
func HTMLPage(code int) Fault {
	title := strconv.Itoa(code) + " " + http.StatusText(code)
	return Fault{status: code, kind: "text/html", body: "<html>\r\n<head><title>" + title +
		"</title></head>\r\n<body>\r\n<center><h1>" + title + "</h1></center>\r\n</body>\r\n</html>\r\n"}
}

// BadJSON is an answer with status 200 that does not decode.
func BadJSON() Fault {
	return Fault{status: 200, kind: "application/json", body: `{"ok":true,"result":{"message_id":`}
}

// Slow keeps the client waiting until release is closed, its request ends, or the
// double is closed. Then the request goes its way, unless the client has gone.
// A nil channel never releases.
func Slow(release <-chan struct{}) Fault { return Fault{hold: true, release: release} }

// CutBefore closes the connection with nothing done.
func CutBefore() Fault { return Fault{cut: true} }

// CutAfter does what was asked and closes the connection without a word.
func CutAfter() Fault { return CutBefore().Late() }

// CutMidAnswer does what was asked and closes the connection inside the answer.
func CutMidAnswer() Fault { return Fault{cut: true, partial: true}.Late() }

// Refuse is any refusal; the description is given whole, "Forbidden: ..." and all.
func Refuse(code int, description string) Fault {
	return Fault{refusal: &apiError{code: code, text: description}}
}

// Unauthorized is what a revoked token gets.
func Unauthorized() Fault { return Refuse(401, "Unauthorized") }

// OtherInstance is the 409 of a second bot with the same token.
func OtherInstance() Fault { return Fault{refusal: conflict()} }

// TooMany is a 429. The double remembers the wait and lists what comes sooner; see
// EarlyRetries.
func TooMany(retryAfter int) Fault { return Fault{refusal: tooMany(retryAfter)} }

// Script queues faults for a method ("" for any): each is used up by one request, in
// order.
func (d *Double) Script(method string, faults ...Fault) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, f := range faults {
		d.faults[method] = append(d.faults[method], &scripted{fault: f})
	}
}

// Always has every request of a method suffer a fault until ClearFaults, those
// scripted before it first.
func (d *Double) Always(method string, f Fault) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.faults[method] = append(d.faults[method], &scripted{fault: f, always: true})
}

// ClearFaults forgets the faults of these methods or, without any, all.
func (d *Double) ClearFaults(methods ...string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, m := range methods {
		delete(d.faults, m)
	}
	if len(methods) == 0 {
		clear(d.faults)
	}
}

// FaultsLeft counts the scripted faults of a method that are still to come.
func (d *Double) FaultsLeft(method string) int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return len(d.faults[method])
}

// fault takes the next fault for a request.
func (d *Double) fault(c *call) *Fault {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, method := range []string{c.method, ""} {
		queue := d.faults[method]
		for i, s := range queue {
			if s.fault.Chat != 0 && s.fault.Chat != c.number("chat_id") {
				continue
			}
			if !s.always {
				d.faults[method] = append(queue[:i:i], queue[i+1:]...)
				d.bump() // a test may wait for just that, and a cut changes nothing else
			}
			f := s.fault
			if f.refusal != nil && f.refusal.retryAfter > 0 && c.has("chat_id") {
				d.rates.toldToWait(c.number("chat_id"), d.now().Add(time.Duration(f.refusal.retryAfter)*time.Second), false)
			}
			return &f
		}
	}
	return nil
}

// suffer plays a fault. It reports whether the request goes on.
func (d *Double) suffer(w http.ResponseWriter, r *http.Request, f *Fault) bool {
	switch {
	case f.hold:
		select {
		case <-f.release:
			return true
		case <-r.Context().Done():
		case <-d.done:
		}
		return false
	case f.cut:
		cut(w, f.partial)
		return false
	case f.status != 0:
		w.Header().Set("Content-Type", f.kind)
		w.WriteHeader(f.status)
		_, _ = w.Write([]byte(f.body))
		return false
	case f.refusal != nil:
		writeError(w, f.refusal)
		return false
	}
	return true
}

// cut takes the connection from the server and closes it, so that the client sees
// it end without an answer, or within one.
func cut(w http.ResponseWriter, partial bool) {
	conn, buf, err := http.NewResponseController(w).Hijack()
	if err != nil {
		panic(err)
	}
	if partial {
		_, _ = buf.WriteString("HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{\"ok\":true,")
		_ = buf.Flush()
	}
	_ = conn.Close()
}
