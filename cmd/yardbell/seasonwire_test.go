//go:build linux && !race

package main

import (
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"path"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/telegram/apidouble"
)

// serveAPI is the wire between the service and the chat's server, with what goes wrong
// on it.
func (s *season) serveAPI(w http.ResponseWriter, r *http.Request) {
	method := path.Base(r.URL.Path)
	body, err := io.ReadAll(r.Body)
	if err != nil {
		return
	}
	s.mu.Lock()
	dead := s.dead
	fault := s.strikes("request " + method)
	s.mu.Unlock()
	pass := func() *httptest.ResponseRecorder {
		again := r.Clone(r.Context())
		again.Body = io.NopCloser(strings.NewReader(string(body)))
		answer := httptest.NewRecorder()
		s.ServeHTTP(answer, again)
		return answer
	}
	if method == "getUpdates" {
		s.poll(dead, +1)
		defer s.poll(dead, -1)
	}
	switch fault {
	case "kill":
		s.shoot(dead)
		return
	case "cut before":
		hangUp(w, nil)
		return
	case "error page before":
		page(w)
		return
	case "delay":
		time.Sleep(30 * time.Millisecond)
	case "too many":
		s.Script(method, apidouble.TooMany(3))
	case "server error":
		s.Script(method, apidouble.ServerError(500))
	case "broken answer":
		s.Script(method, apidouble.BadJSON())
	case "twice":
		if p, ok := sentPlace(method, pass()); ok {
			s.mu.Lock()
			s.doubtful(p)
			s.mu.Unlock()
		}
	}
	answer := pass()
	p, sent := sentPlace(method, answer)
	s.mu.Lock()
	fault = ""
	if method != "getUpdates" || strings.Contains(answer.Body.String(), `"update_id"`) {
		fault = s.strikes("answer " + method)
	}
	if sent {
		s.fig["messages sent"]++
		s.taken = append(s.taken, p)
		if s.dead != dead || s.cmd == nil {
			s.fig["sent as it died"]++ // it was accounted for before the chat had this one
			s.doubtful(p)
		}
		if s.ill != nil || fault != "" && fault != "kill" {
			s.doubtful(p)
		}
	}
	s.mu.Unlock()
	switch fault {
	case "kill":
		s.shoot(dead)
		return
	case "cut after":
		hangUp(w, nil)
		return
	case "cut inside":
		hangUp(w, answer.Body.Bytes())
		return
	case "error page after":
		page(w)
		return
	}
	for k, v := range answer.Header() {
		w.Header()[k] = v
	}
	w.WriteHeader(answer.Code)
	_, _ = w.Write(answer.Body.Bytes())
}

// sentPlace is the message that an answer tells of.
func sentPlace(method string, answer *httptest.ResponseRecorder) (p spot, ok bool) {
	if !strings.HasPrefix(method, "send") || answer.Code != http.StatusOK {
		return p, false
	}
	var a struct {
		OK     bool
		Result struct {
			ID   int64 `json:"message_id"`
			Chat struct{ ID int64 }
		}
	}
	if json.Unmarshal(answer.Body.Bytes(), &a) != nil || !a.OK {
		return p, false
	}
	return spot{a.Result.Chat.ID, a.Result.ID}, true
}

// hangUp closes the connection, inside an answer where there is one.
func hangUp(w http.ResponseWriter, inside []byte) {
	conn, buf, err := http.NewResponseController(w).Hijack()
	if err != nil {
		panic(err)
	}
	if inside != nil {
		_, _ = buf.WriteString("HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: " + strconv.Itoa(len(inside)) + "\r\n\r\n")
		_, _ = buf.Write(inside[:len(inside)/2])
		_ = buf.Flush()
	}
	_ = conn.Close()
}

// page is what a proxy says of a server that is away.
func page(w http.ResponseWriter) {
	w.Header().Set("Content-Type", "text/html")
	w.WriteHeader(http.StatusBadGateway)
	_, _ = io.WriteString(w, "<html><body><h1>502 Bad Gateway</h1></body></html>")
}

// shoot kills the process that waits for an answer, and sees to it that it is dead.
func (s *season) shoot(dead chan struct{}) {
	s.mu.Lock()
	c := s.cmd
	same := s.dead == dead
	s.mu.Unlock()
	if c != nil && same {
		_ = c.Process.Kill()
		<-dead
	}
}

func (s *season) poll(dead chan struct{}, by int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.dead == dead {
		s.polls += by
	}
}
