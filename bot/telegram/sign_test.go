package telegram

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/store"
)

// signs sets or removes the sign on a message.
func (r *chatroom) signs(message int, off bool) error {
	r.clock.Advance(2 * time.Second)
	d := delivery(r.group, "")
	d.Row.Ping, d.Row.Priority, d.Edits = store.Sign, store.Mark, int64(message)
	if off {
		d.Row.Ping = store.Unsign
	}
	_, err := r.deliver(d)
	return err
}

func TestSign(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	m := r.Say(r.group, r.wren, "flurb B1")
	require.NoError(t, r.signs(m, false))
	assert.Equal(t, []string{wording.SeenSign}, r.Reactions(r.group, m))
	require.NoError(t, r.signs(m, false), "once more changes nothing")
	require.NoError(t, r.signs(m, true))
	assert.Empty(t, r.Reactions(r.group, m))
	assert.Empty(t, r.texts(r.group), "nothing is said")
	assert.Empty(t, r.Violations())
}

// Where there are no reactions, or the bot may not even be there, the sign is given up,
// and that says nothing about the chat.
func TestSignRefused(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	m := r.Say(r.group, r.wren, "flurb B1")
	given := func(err error) {
		t.Helper()
		not := notSent(t, err)
		assert.True(t, not.Final)
		assert.False(t, not.Gone || not.Muted || not.Lacks || not.Held)
	}
	given(r.signs(4711, false))
	r.NoReactions(r.group)
	given(r.signs(m, false))
	r.Kick(r.group, r.wren)
	given(r.signs(m, false))
}

// The server asks to wait with the sign, or it comes too often: messages go on.
func TestSignHoldsNothingUp(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	m := r.Say(r.group, r.wren, "flurb B1")
	r.Script("setMessageReaction", apidouble.TooMany(600))
	not := notSent(t, r.signs(m, false))
	assert.False(t, not.Final)
	assert.True(t, not.Share, "signs alone wait")
	not = notSent(t, r.signs(m, false))
	assert.True(t, not.Held && not.Share)
	assert.Greater(t, not.After, 9*time.Minute)
	r.waits = nil
	r.clock.Advance(time.Second)
	_, err := r.deliver(delivery(r.group, "go now"))
	require.NoError(t, err)
	assert.Empty(t, r.waits)
}

// Signs take nothing of the room that messages have, and have a pace of their own.
func TestLimitOfSigns(t *testing.T) {
	signed, plain := newLimiter(), newLimiter()
	took := 0
	for range 50 {
		if _, share, ok := signed.take(now, -1001, store.Mark); ok {
			took++
		} else {
			assert.True(t, share)
		}
	}
	assert.Equal(t, 1, took, "never in the row before a ping")
	at := now.Add(time.Minute)
	for range 3 {
		at = at.Add(chatEvery)
		_, _, ok := signed.take(at, -1001, store.Mark)
		assert.True(t, ok)
	}
	at = at.Add(time.Second)
	for i := range 30 {
		a, _, okA := signed.take(at, -1001, store.Echo)
		b, _, okB := plain.take(at, -1001, store.Echo)
		assert.Equal(t, okB, okA, i)
		assert.Equal(t, b, a, i)
		at = at.Add(time.Second)
	}
	signed.hold(at, -1001, store.Mark, at.Add(time.Hour))
	at = at.Add(2 * time.Minute)
	_, _, ok := signed.take(at, -1001, store.Echo)
	assert.True(t, ok)
	wait, _, ok := signed.take(at, -1001, store.Mark)
	assert.False(t, ok)
	assert.Greater(t, wait, 50*time.Minute)
}

// A thumb that somebody puts on a message arrives where the bot is an administrator; what
// is no thumb, was one before, or is taken back says nothing.
func TestPollThumb(t *testing.T) {
	r := newChatroom(t, apidouble.Options{})
	r.heard()
	n, err := r.deliver(delivery(r.group, "go now"))
	require.NoError(t, err)
	r.React(r.group, r.wren, int(n), "👍")
	assert.Empty(t, r.heard(), "not to a mere member")
	r.React(r.group, r.wren, int(n), "")
	r.Promote(r.group, r.wren)
	r.heard()
	for _, emoji := range []string{"👎", "👍", "👌", "", "🔥"} {
		r.React(r.group, r.wren, int(n), emoji)
	}
	assert.Equal(t, []string{"pass", "thumb Wren ", "pass", "pass", "pass"}, r.heard())
	assert.Empty(t, r.Violations())
}

// A reply to a person's message names it apart: it is not one to the bot.
func TestReadBeneath(t *testing.T) {
	u, err := decode([]byte(`{"update_id":1,"message":{"message_id":9,"date":1,"text":"why?","from":{"id":5,"first_name":"A"},"chat":{"id":-1,"type":"group"},
		"reply_to_message":{"message_id":8,"date":1,"text":"flurb","from":{"id":6,"first_name":"B"},"chat":{"id":-1,"type":"group"}}}}`))
	require.NoError(t, err)
	in, ok := Read(u, user{ID: 7}, now)
	require.True(t, ok)
	assert.Equal(t, int64(8), in.Beneath)
	assert.Zero(t, in.ReplyTo)
	in, _ = Read(u, user{ID: 6}, now)
	assert.Equal(t, int64(8), in.ReplyTo)
	assert.Zero(t, in.Beneath)
}
