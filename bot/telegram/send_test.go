package telegram

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

func notSent(t *testing.T, err error) *bot.NotSent {
	t.Helper()
	var not *bot.NotSent
	require.ErrorAs(t, err, &not)
	return not
}

func TestDeliver(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	asked := r.Say(r.group, r.wren, "due")
	d := delivery(r.group, "a < b & <b>c</b>", store.Button{Label: "Done", Do: "task|done|x"})
	d.Answers = int64(asked)
	n, err := r.deliver(d)
	require.NoError(t, err)
	got, ok := r.LastSent(r.group)
	require.True(t, ok)
	assert.Equal(t, int64(got.ID), n)
	assert.Equal(t, "a < b & <b>c</b>", got.Text, "shown as it is written, not as markup")
	assert.Equal(t, asked, got.ReplyTo)
	assert.Equal(t, []string{"Done"}, got.Labels())
	assert.Empty(t, r.Violations())
}

// A message that is gone by now is answered all the same.
func TestDeliverReplyToNothing(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	d := delivery(r.group, "due")
	d.Answers = 4711
	_, err := r.deliver(d)
	require.NoError(t, err)
	assert.Equal(t, []string{"due"}, r.texts(r.group))
}

func TestDeliverTopic(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	forum := r.NewForum("Yard", r.wren)
	r.AddBot(forum, r.wren)
	topic := r.NewTopic(forum, r.wren, "Queens")
	for _, thread := range []int64{int64(topic), 1, 0} {
		d := delivery(forum, fmt.Sprint(thread))
		d.Thread = thread
		_, err := r.deliver(d)
		require.NoError(t, err)
	}
	sent := r.Sent(forum)
	require.Len(t, sent, 3)
	assert.Equal(t, topic, sent[0].Thread)
	assert.Zero(t, sent[1].Thread, "the general topic is never named")
	assert.Zero(t, sent[2].Thread)
	// A closed topic loses nothing: it goes to the general one.
	r.CloseTopic(forum, r.wren, topic)
	d := delivery(forum, "closed")
	d.Thread = int64(topic)
	_, err := r.deliver(d)
	require.NoError(t, err)
	last, _ := r.LastSent(forum)
	assert.Equal(t, "closed", last.Text)
	assert.Zero(t, last.Thread)
	assert.Empty(t, r.Violations())
}

// The group has become a supergroup and nobody told: the message follows it.
func TestDeliverMigrated(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	old := r.NewGroup("Yard", r.wren)
	r.AddBot(old, r.wren)
	to := r.Migrate(old, r.wren)
	d := delivery(old, "due")
	d.Answers = 3
	_, err := r.deliver(d)
	require.NoError(t, err)
	assert.Equal(t, [][2]int64{{old, to}}, r.moves)
	last, ok := r.LastSent(to)
	require.True(t, ok)
	assert.Equal(t, "due", last.Text)
	assert.Zero(t, last.ReplyTo, "numbers of the old chat mean nothing in the new one")
}

func TestDeliverEdit(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	n, err := r.deliver(delivery(r.group, "open", store.Button{Label: "Done", Do: "x"}))
	require.NoError(t, err)
	d := delivery(r.group, "done by Ash")
	d.Edits = n
	for range 2 { // the second changes nothing, which is well
		m, err := r.deliver(d)
		require.NoError(t, err)
		assert.Equal(t, n, m)
	}
	last, _ := r.LastSent(r.group)
	assert.Equal(t, "done by Ash", last.Text)
	assert.Empty(t, last.Labels())
	// One that somebody has deleted needs no change any more.
	r.Erase(r.group, int(n))
	d.Text = "later"
	_, err = r.deliver(d)
	require.NoError(t, err)
}

func TestDeliverLong(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	line := strings.Repeat("é", 80)
	text := strings.TrimSpace(strings.Repeat(line+"\n", 120))
	d := delivery(r.group, text, store.Button{Label: "Done", Do: "x"})
	n, err := r.deliver(d)
	require.NoError(t, err)
	sent := r.Sent(r.group)
	require.Len(t, sent, 3)
	assert.Equal(t, text, strings.Join(r.texts(r.group), "\n"))
	assert.Empty(t, sent[0].Labels())
	assert.Equal(t, []string{"Done"}, sent[2].Labels(), "the buttons stand under the last piece")
	assert.Equal(t, int64(sent[2].ID), n)
}

// A long message that stops half way goes on from there, not from the beginning.
func TestDeliverLongResumes(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	text := strings.Repeat(strings.Repeat("x", 99)+"\n", 100)
	r.Script("sendMessage", apidouble.Pass(), apidouble.TooMany(30), apidouble.Pass(), apidouble.ServerError(502))
	_, err := r.deliver(delivery(r.group, text))
	assert.Equal(t, 30*time.Second, notSent(t, err).After)
	r.clock.Advance(30 * time.Second)
	_, err = r.deliver(delivery(r.group, text))
	require.False(t, notSent(t, err).Final)
	_, err = r.deliver(delivery(r.group, text))
	require.NoError(t, err)
	assert.Equal(t, strings.Fields(text), strings.Fields(strings.Join(r.texts(r.group), "\n")))
	assert.Empty(t, r.send.begun)
	assert.Empty(t, r.EarlyRetries())
}

func TestDeliverWaits(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Script("sendMessage", apidouble.TooMany(7).InChat(r.group))
	_, err := r.deliver(delivery(r.group, "one"))
	not := notSent(t, err)
	assert.True(t, not.Held)
	assert.Equal(t, 7*time.Second, not.After)
	requests := len(r.Requests("sendMessage"))
	_, err = r.deliver(delivery(r.group, "one"))
	assert.True(t, notSent(t, err).Held)
	assert.Len(t, r.Requests("sendMessage"), requests, "not even tried before the time is over")
	_, err = r.deliver(delivery(r.wren, "private"))
	assert.True(t, notSent(t, err).Gone, "another chat is asked at once; this one was never opened")
	r.clock.Advance(7 * time.Second)
	_, err = r.deliver(delivery(r.group, "one"))
	require.NoError(t, err)
	assert.Empty(t, r.EarlyRetries())
}

// As fast as it goes: the double, which keeps the limits, has nothing to say.
func TestDeliverKeepsLimits(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	for i := range 50 {
		for {
			_, err := r.deliver(delivery(r.group, fmt.Sprint("no ", i)))
			if err == nil {
				break
			}
			r.clock.Advance(notSent(t, err).After)
		}
	}
	assert.Empty(t, r.TooFast())
	assert.Len(t, r.Sent(r.group), 50)
	assert.LessOrEqual(t, r.clock.Now().Sub(apidouble.DefaultStart), 150*time.Second)
}

func TestDeliverRefused(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.Mute(r.group, r.wren)
	_, err := r.deliver(delivery(r.group, "one"))
	assert.Equal(t, bot.NotSent{Held: true, Muted: true, After: mutedWait, Err: notSent(t, err).Err}, *notSent(t, err))
	r.Kick(r.group, r.wren)
	r.clock.Advance(mutedWait)
	_, err = r.deliver(delivery(r.group, "one"))
	assert.True(t, notSent(t, err).Gone)
	assert.True(t, errors.As(err, new(*callError)))
}

// What is cut off may have arrived: it is tried again, nothing else can be done.
func TestDeliverUncertain(t *testing.T) {
	for name, f := range map[string]apidouble.Fault{
		"cut before": apidouble.CutBefore(), "cut after": apidouble.CutAfter(), "cut inside": apidouble.CutMidAnswer(),
		"page": apidouble.HTMLPage(502), "no JSON": apidouble.BadJSON(), "500": apidouble.ServerError(500),
	} {
		r := newChatroom(t, apidouble.Options{})
		r.Script("sendMessage", f)
		_, err := r.deliver(delivery(r.group, "one"))
		not := notSent(t, err)
		assert.False(t, not.Final || not.Held, name)
		assertNoToken(t, name, err.Error(), fmt.Sprintf("%+v", err))
	}
}

// Callback data holds 64 bytes, whatever the label and however many buttons.
func TestKeyboard(t *testing.T) {
	var buttons []store.Button
	for i := range 120 {
		buttons = append(buttons, store.Button{Label: strings.Repeat("ß🐝", i%20+1), Do: fmt.Sprintf("run|%d|%s", i, strings.Repeat("subject=batch 4;", 20))})
	}
	var out struct {
		Rows [][]struct {
			Text string `json:"text"`
			Data string `json:"callback_data"`
		} `json:"inline_keyboard"`
	}
	require.NoError(t, json.Unmarshal([]byte(keyboard(buttons, false)), &out))
	n := 0
	for _, row := range out.Rows {
		assert.LessOrEqual(t, len(row), 4)
		for _, k := range row {
			assert.Equal(t, buttons[n].Label, k.Text)
			assert.LessOrEqual(t, len(k.Data), 64)
			got, ok := bot.ButtonOf(k.Data, buttons)
			assert.True(t, ok)
			assert.Equal(t, buttons[n], got)
			n++
		}
	}
	assert.Equal(t, len(buttons), n)
	assert.Empty(t, keyboard(nil, false))
	assert.JSONEq(t, `{"inline_keyboard":[]}`, keyboard(nil, true))
}
