package telegram

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
)

var (
	me  = user{ID: 700100, IsBot: true, First: "Yardbell", Username: "yardbell_bot"}
	now = time.Date(2031, time.May, 8, 19, 0, 0, 0, time.UTC)
)

// heard decodes an update given by what is inside it and reads it.
func heard(t *testing.T, inside string) (bot.Incoming, bool) {
	t.Helper()
	u, err := decode(json.RawMessage(`{"update_id":7,` + inside + `}`))
	require.NoError(t, err)
	return Read(u, me, now)
}

const (
	wren  = `"from":{"id":1001,"is_bot":false,"first_name":"Wren"}`
	yard  = `"chat":{"id":-1000000000001,"type":"supergroup","title":"Yard"}`
	place = wren + `,` + yard + `,"date":1935000000`
)

func TestReadMessage(t *testing.T) {
	in, ok := heard(t, `"message":{"message_id":12,`+place+`,"text":"confine 7"}`)
	require.True(t, ok)
	assert.Equal(t, bot.Incoming{Source: Source, UpdateID: 7, Chat: -1000000000001, UserKey: "1001", UserName: "Wren",
		Said: time.Unix(1935000000, 0).UTC(), Kind: "message", Message: 12, Text: "confine 7", Title: "Yard"}, in)
}

// An edit keeps the time at which the message was written.
func TestReadEdit(t *testing.T) {
	in, ok := heard(t, `"edited_message":{"message_id":12,`+place+`,"edit_date":1935009999,"text":"confine 9"}`)
	require.True(t, ok)
	assert.Equal(t, "edit", in.Kind)
	assert.Equal(t, int64(12), in.Message)
	assert.Equal(t, time.Unix(1935000000, 0).UTC(), in.Said)
}

func TestReadCaption(t *testing.T) {
	in, ok := heard(t, `"message":{"message_id":12,`+place+`,"photo":[{"file_id":"x"}],"caption":"eggs 7"}`)
	require.True(t, ok)
	assert.Equal(t, "eggs 7", in.Text)
	_, ok = heard(t, `"message":{"message_id":12,`+place+`,"photo":[{"file_id":"x"}],"caption":"/due@other_bot","caption_entities":[{"type":"bot_command","offset":0,"length":14}]}`)
	assert.False(t, ok, "a caption's command for another bot")
}

func TestReadPress(t *testing.T) {
	in, ok := heard(t, `"callback_query":{"id":"9",`+wren+`,"message":{"message_id":33,`+yard+`,"date":0},"data":"1:deadbeef"}`)
	require.True(t, ok)
	assert.Equal(t, bot.Incoming{Source: Source, UpdateID: 7, Chat: -1000000000001, UserKey: "1001", UserName: "Wren", Said: now,
		Kind: "press", Message: 33, Data: "1:deadbeef"}, in)
	_, ok = heard(t, `"callback_query":{"id":"9",`+wren+`,"data":"1:deadbeef"}`)
	assert.False(t, ok, "a button of inline mode has no message")
}

func TestReadTopic(t *testing.T) {
	in, ok := heard(t, `"message":{"message_id":12,"message_thread_id":5,"is_topic_message":true,`+place+`,"text":"due"}`)
	require.True(t, ok)
	assert.Equal(t, int64(5), in.Thread)
	in, ok = heard(t, `"message":{"message_id":12,"message_thread_id":5,`+place+`,"text":"due"}`)
	require.True(t, ok)
	assert.Zero(t, in.Thread, "a thread of replies is no topic")
}

func TestReadReply(t *testing.T) {
	in, ok := heard(t, `"message":{"message_id":12,`+place+`,"text":"done","reply_to_message":{"message_id":8,"from":{"id":700100,"is_bot":true,"first_name":"Yardbell"},`+yard+`,"date":1}}`)
	require.True(t, ok)
	assert.Equal(t, int64(8), in.ReplyTo)
	in, ok = heard(t, `"message":{"message_id":12,`+place+`,"text":"done","reply_to_message":{"message_id":8,"from":{"id":1002,"is_bot":false,"first_name":"Ash"},`+yard+`,"date":1}}`)
	require.True(t, ok)
	assert.Zero(t, in.ReplyTo, "a reply to somebody else")
}

func TestReadLeavesAlone(t *testing.T) {
	for name, inside := range map[string]string{
		"another bot":         `"message":{"message_id":1,"from":{"id":5,"is_bot":true,"first_name":"x"},` + yard + `,"date":1,"text":"due"}`,
		"a channel post":      `"channel_post":{"message_id":1,"chat":{"id":-1009,"type":"channel"},"date":1,"text":"due"}`,
		"a channel's message": `"message":{"message_id":1,` + wren + `,"chat":{"id":-1009,"type":"channel"},"date":1,"text":"due"}`,
		"a linked channel":    `"message":{"message_id":1,` + wren + `,"sender_chat":{"id":-1009,"type":"channel"},"is_automatic_forward":true,` + yard + `,"date":1,"text":"due"}`,
		"nobody":              `"message":{"message_id":1,` + yard + `,"date":1,"text":"due"}`,
		"a picture alone":     `"message":{"message_id":1,` + place + `,"photo":[]}`,
		"another's command":   `"message":{"message_id":1,` + place + `,"text":"/due@other_bot","entities":[{"type":"bot_command","offset":0,"length":14}]}`,
		"a bot's press":       `"callback_query":{"id":"1","from":{"id":5,"is_bot":true},"message":{"message_id":1,` + yard + `},"data":"1:0"}`,
		"an unknown kind":     `"poll":{"id":"1"}`,
	} {
		_, ok := heard(t, inside)
		assert.False(t, ok, name)
	}
}

// What was written elsewhere is told apart from what somebody writes.
func TestReadForwarded(t *testing.T) {
	for _, origin := range []string{
		`"forward_origin":{"type":"user","date":1,"sender_user":{"id":1002,"is_bot":false,"first_name":"Ash"}}`,
		`"forward_origin":{"type":"hidden_user","date":1,"sender_user_name":"Ash"}`,
		`"forward_origin":{"type":"channel","date":1,"chat":{"id":-1009,"type":"channel"},"message_id":4}`,
		`"forward_from":{"id":1002,"is_bot":false,"first_name":"Ash"},"forward_date":1`,
	} {
		in, ok := heard(t, `"message":{"message_id":12,`+place+`,"text":"graft 45 from 7 into B2",`+origin+`}`)
		require.True(t, ok, origin)
		assert.True(t, in.Forwarded, origin)
		assert.False(t, in.Hidden, origin)
	}
}

// An anonymous administrator writes as the group, anybody may write as a channel; who it is
// does not show, and the sender that does is no member.
func TestReadHidden(t *testing.T) {
	for _, sender := range []string{
		`"from":{"id":1087968824,"is_bot":true,"first_name":"Group","username":"GroupAnonymousBot"},"sender_chat":{"id":-1000000000001,"type":"supergroup","title":"Yard"}`,
		`"from":{"id":136817688,"is_bot":true,"first_name":"Channel","username":"Channel_Bot"},"sender_chat":{"id":-1009,"type":"channel"}`,
		`"sender_chat":{"id":-1000000000001,"type":"supergroup","title":"Yard"}`,
	} {
		in, ok := heard(t, `"message":{"message_id":12,`+sender+`,`+yard+`,"date":1,"text":"accepted 38"}`)
		require.True(t, ok, sender)
		assert.True(t, in.Hidden, sender)
		assert.Empty(t, in.UserKey, "nobody's member", sender)
		assert.Empty(t, in.UserName, sender)
	}
}

// Entities count UTF-16 units: the bee before the name counts two.
func TestReadOwnName(t *testing.T) {
	for _, c := range []struct {
		text, entities, want string
		addressed            bool
	}{
		{"@yardbell_bot due", `{"type":"mention","offset":0,"length":13}`, "due", true},
		{"🐝 @YardBell_Bot due", `{"type":"mention","offset":3,"length":13}`, "🐝   due", true},
		{"🐝🐝 due @yardbell_bot", `{"type":"mention","offset":9,"length":13}`, "🐝🐝 due", true},
		{"/due@yardbell_bot this week", `{"type":"bot_command","offset":0,"length":17}`, "/due  this week", true},
		{"/due this week", `{"type":"bot_command","offset":0,"length":4}`, "/due this week", false},
		{"@somebody due", `{"type":"mention","offset":0,"length":9}`, "@somebody due", false},
		{"due", `{"type":"mention","offset":1,"length":99}`, "due", false},
		{"due", `{"type":"mention","offset":-4,"length":2}`, "due", false},
		{"@yardbell_bot @yardbell_bot due", `{"type":"mention","offset":0,"length":13},{"type":"mention","offset":14,"length":13},{"type":"mention","offset":0,"length":13}`, "due", true},
	} {
		text, err := json.Marshal(c.text)
		require.NoError(t, err)
		in, ok := heard(t, `"message":{"message_id":1,`+place+`,"text":`+string(text)+`,"entities":[`+c.entities+`]}`)
		require.True(t, ok, c.text)
		assert.Equal(t, c.want, in.Text)
		assert.Equal(t, c.addressed, in.Addressed, c.text)
	}
}

func TestReadPrivate(t *testing.T) {
	in, ok := heard(t, `"message":{"message_id":1,`+wren+`,"chat":{"id":1001,"type":"private"},"date":1,"text":"due"}`)
	require.True(t, ok)
	assert.True(t, in.Private)
	assert.True(t, in.Addressed)
}

func TestNames(t *testing.T) {
	assert.Equal(t, "Ash Lee", user{First: "Ash", Last: "Lee"}.name())
	assert.Equal(t, "ash_q", user{Username: "ash_q"}.name())
	assert.Equal(t, "user 5", user{ID: 5}.name())
}

// The number of an update that cannot be read is found where it is there at all.
func TestDecodeBad(t *testing.T) {
	u, err := decode(json.RawMessage(`{"update_id":9,"message":{"message_id":"seven"}}`))
	require.Error(t, err)
	assert.Equal(t, int64(9), u.ID)
	_, err = decode(json.RawMessage(`{"message":{"message_id":7}}`))
	require.Error(t, err)
	u, err = decode(json.RawMessage(`{"update_id":"nine"}`))
	require.Error(t, err)
	assert.Zero(t, u.ID)
}

func TestRights(t *testing.T) {
	for in, want := range map[string]string{
		`{"status":"member"}`:                                                           "member",
		`{"status":"member","can_pin_messages":true}`:                                   "member",
		`{"status":"restricted","can_pin_messages":true}`:                               "member",
		`{"status":"left"}`:                                                             "member",
		`{"status":"administrator"}`:                                                    "admin",
		`{"status":"administrator","can_pin_messages":true}`:                            "admin pin",
		`{"status":"administrator","can_delete_messages":true}`:                         "admin delete",
		`{"status":"administrator","can_pin_messages":true,"can_delete_messages":true}`: "admin pin delete",
	} {
		var m chatMember
		require.NoError(t, json.Unmarshal([]byte(in), &m))
		assert.Equal(t, want, m.rights(), in)
	}
}

func TestStanding(t *testing.T) {
	for in, want := range map[string]string{
		`{"status":"member"}`:        "open",
		`{"status":"administrator"}`: "open",
		`{"status":"restricted","is_member":true,"can_send_messages":true}`:  "open",
		`{"status":"restricted","is_member":true,"can_send_messages":false}`: "muted",
		`{"status":"restricted","is_member":false,"can_send_messages":true}`: "gone",
		`{"status":"left"}`:                  "gone",
		`{"status":"kicked","until_date":0}`: "gone",
		`{"status":"restricted","can_send_messages":false,"until_date":200001}`: "muted",
	} {
		var m memberUpdate
		require.NoError(t, json.Unmarshal([]byte(in), &m.New))
		assert.Equal(t, want, m.New.standing(), in)
	}
}
