package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// foreign is telegram-test-api, a server of the Bot API by somebody else: what our
// own double takes for granted, it may not. It holds no polls, ignores offsets, and
// calls every chat private in its answers to the bot.
type foreign struct {
	t     *testing.T
	url   string
	db    string
	clock *atomic.Int64 // ahead of the real time, nanoseconds
}

// foreignBot is how that server calls the bot, whatever its token.
var foreignBot = map[string]any{"id": 666, "is_bot": true, "first_name": "Test First name", "username": "TestNameBot"}

const foreignGroup = -1000000000042

// startForeign starts the server with node.
func startForeign(t *testing.T) *foreign {
	if os.Getenv("YARDBELL_FOREIGN") == "" {
		t.Skip("needs node; npm ci in testdata/foreign, then YARDBELL_FOREIGN=1")
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	port := l.Addr().(*net.TCPAddr).Port
	require.NoError(t, l.Close())
	c := exec.Command("node", "server.js", fmt.Sprint(port))
	c.Dir = "../../testdata/foreign"
	in, err := c.StdinPipe() // the server ends with it
	require.NoError(t, err)
	said := newScreen()
	c.Stdout, c.Stderr = said, said
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = in.Close()
		_ = c.Wait()
	})
	said.await(t, "ready")
	f := &foreign{t: t, url: fmt.Sprintf("http://127.0.0.1:%d", port), db: filepath.Join(t.TempDir(), "crew.db"), clock: &atomic.Int64{}}
	f.set(chicago(24, 10, 0))
	return f
}

// set puts the clock to a time, from which it runs on.
func (f *foreign) set(at time.Time) { f.clock.Store(int64(time.Until(at))) }

func (f *foreign) now() time.Time { return time.Now().Add(time.Duration(f.clock.Load())) }

// post does something as a person would, through the server's own interface.
func (f *foreign) post(path string, body map[string]any) json.RawMessage {
	f.t.Helper()
	b, err := json.Marshal(body)
	require.NoError(f.t, err)
	resp, err := http.Post(f.url+path, "application/json", bytes.NewReader(b))
	require.NoError(f.t, err)
	defer func() { _ = resp.Body.Close() }()
	var out struct {
		OK     bool            `json:"ok"`
		Result json.RawMessage `json:"result"`
	}
	require.NoError(f.t, json.NewDecoder(resp.Body).Decode(&out))
	require.True(f.t, out.OK, path)
	return out.Result
}

// foreignMessage is a message of the bot as that server keeps it.
type foreignMessage struct {
	ID      int64 `json:"messageId"`
	Message struct {
		ChatID json.Number `json:"chat_id"`
		Text   string      `json:"text"`
		Reply  string      `json:"reply_parameters"`
		Markup struct {
			Rows [][]struct {
				Text string `json:"text"`
				Data string `json:"callback_data"`
			} `json:"inline_keyboard"`
		} `json:"reply_markup"`
	} `json:"message"`
}

// said are the bot's messages so far.
func (f *foreign) said() (list []foreignMessage) {
	var all []foreignMessage
	require.NoError(f.t, json.Unmarshal(f.post("/getUpdatesHistory", map[string]any{"token": markerToken}), &all))
	for _, m := range all {
		if m.Message.ChatID != "" {
			list = append(list, m)
		}
	}
	return list
}

// until asks the server again and again, since it tells of nothing by itself.
func (f *foreign) until(what string, cond func() bool) {
	f.t.Helper()
	again, late := time.NewTicker(20*time.Millisecond), time.After(bound)
	defer again.Stop()
	for !cond() {
		select {
		case <-again.C:
		case <-late:
			require.FailNow(f.t, "never came: "+what)
		}
	}
}

// says has Wren write in the group, and gives the answer.
func (f *foreign) says(text string, more map[string]any) foreignMessage {
	f.t.Helper()
	n := len(f.said())
	f.write(text, more)
	f.until("an answer to "+text, func() bool { return len(f.said()) > n })
	return f.said()[n]
}

func (f *foreign) write(text string, more map[string]any) {
	m := map[string]any{"botToken": markerToken, "from": f.wren(), "chat": f.chat(), "date": f.now().Unix(), "text": text}
	for k, v := range more {
		m[k] = v
	}
	f.post("/sendMessage", m)
}

func (f *foreign) wren() map[string]any {
	return map[string]any{"id": 1001, "is_bot": false, "first_name": "Wren"}
}

func (f *foreign) chat() map[string]any {
	return map[string]any{"id": foreignGroup, "type": "supergroup", "title": "Yard"}
}

// A conversation in a group with a server that is not ours: a message, an answer with
// buttons, a press, an edit by the person who wrote, a reply, an edit of what the bot
// wrote. The server knows no edits by people, and no way to post an update as it is; how
// it is brought to hand one out stands in testdata/foreign/server.js.
func TestForeign(t *testing.T) {
	f := startForeign(t)
	out, errOut := newScreen(), newScreen()
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan int, 1)
	e := env{in: strings.NewReader(""), out: out, errOut: errOut, clock: f.now, tty: func(io.Writer) bool { return false },
		get: func(k string) string { return map[string]string{"YARDBELL_TOKEN": markerToken}[k] }}
	go func() { done <- run(ctx, []string{"serve", "--db", f.db, "--api", f.url}, e) }()
	t.Cleanup(func() {
		stop()
		assert.Equal(t, 0, <-done, errOut.String())
		assert.NotContains(t, errOut.String(), secretWord)
	})
	code := strings.TrimSpace(out.await(t, "join code: "))

	// A message, and an answer with buttons.
	welcome := f.says("/join "+code, nil)
	assert.Contains(t, welcome.Message.Text, "Wren leads")
	assert.Equal(t, json.Number(fmt.Sprint(foreignGroup)), welcome.Message.ChatID)
	require.NotEmpty(t, welcome.Message.Markup.Rows)
	f.recorded(welcome.ID)

	// A press.
	n := len(f.said())
	f.press(welcome, "America/Chicago")
	f.until("the answer to the press", func() bool { return len(f.said()) > n })
	assert.Contains(t, f.said()[n].Message.Text, "America/Chicago")

	for _, text := range []string{"add breeder 7", "add builder B2"} {
		f.says(text, nil)
	}
	graft := f.says("graft 45 from 7 into B2", nil)
	assert.Contains(t, graft.Message.Text, "45 grafted from breeder 7 into B2")
	f.recorded(graft.ID)

	// An edit, by the person who wrote the message.
	changed := f.says("graft 50 from 7 into B2", map[string]any{"edits": f.written("graft 45 from 7 into B2")})
	assert.Contains(t, changed.Message.Text, "was 45, now 50")

	// A reply: what it says is about what it replies to.
	fixed := f.says("not 50, 54", map[string]any{"reply_to_message": map[string]any{"message_id": graft.ID, "from": foreignBot, "chat": f.chat(), "date": 1, "text": "x"}})
	assert.Contains(t, fixed.Message.Text, "54")

	// The evening, a ping; its Done; the ping is edited in place.
	n = len(f.said())
	f.set(chicago(24, 19, 0))
	f.write("what a day", nil) // whatever comes in wakes the tick
	f.until("the ping", func() bool { return f.find(n, "Tomorrow: ") >= 0 })
	n = f.find(n, "Tomorrow: ")
	ping := f.said()[n]
	f.recorded(ping.ID)
	f.set(chicago(25, 10, 30))
	f.press(ping, "Done")
	f.until("the edit", func() bool { return strings.Contains(f.said()[n].Message.Text, "Done by Wren.") })
	assert.Empty(t, f.said()[n].Message.Markup.Rows, "its buttons are gone")
}

// find is the place of the first message from n on that begins so, -1 for none.
func (f *foreign) find(n int, head string) int {
	for i, m := range f.said() {
		if i >= n && strings.HasPrefix(m.Message.Text, head) {
			return i
		}
	}
	return -1
}

// written is the number of Wren's message with that text.
func (f *foreign) written(text string) int64 {
	f.t.Helper()
	var all []struct {
		ID      int64 `json:"messageId"`
		Message struct {
			Chat struct {
				ID int64 `json:"id"`
			} `json:"chat"`
			Text string `json:"text"`
		} `json:"message"`
	}
	require.NoError(f.t, json.Unmarshal(f.post("/getUpdatesHistory", map[string]any{"token": markerToken}), &all))
	for _, m := range all {
		if m.Message.Chat.ID == foreignGroup && m.Message.Text == text {
			return m.ID
		}
	}
	require.FailNow(f.t, "nobody wrote", text)
	return 0
}

// press presses the button with that label.
func (f *foreign) press(m foreignMessage, label string) {
	f.t.Helper()
	for _, row := range m.Message.Markup.Rows {
		for _, b := range row {
			if b.Text == label {
				f.post("/sendCallback", map[string]any{"botToken": markerToken, "from": f.wren(), "date": f.now().Unix(), "data": b.Data,
					"message": map[string]any{"message_id": m.ID, "from": foreignBot, "chat": f.chat(), "date": 1, "text": m.Message.Text}})
				return
			}
		}
	}
	require.FailNow(f.t, "no such button", label)
}

func (f *foreign) look(fn func(*store.Tx) error) {
	db, err := store.Open(f.t.Context(), f.db, store.Options{ReadOnly: true})
	require.NoError(f.t, err)
	defer func() { _ = db.Close() }()
	require.NoError(f.t, db.View(f.t.Context(), f.now(), fn))
}

// recorded waits until the service knows the number of its message.
func (f *foreign) recorded(number int64) {
	f.until("the record", func() (found bool) {
		f.look(func(tx *store.Tx) (err error) {
			_, found, err = tx.SentMessage(1, number)
			return err
		})
		return found
	})
}
