package apidouble

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/stretchr/testify/require"
)

func TestViolationsAreRefusedAndListed(t *testing.T) {
	for _, c := range []struct {
		name, method string
		p            tgbotapi.Params
		code         int
		says         string
	}{
		{"unknown method", "sendPigeon", nil, 404, "not found"},
		{"unknown parameter", "sendMessage", tgbotapi.Params{"text": "x", "disable_web_page_preview": "true"}, 400, "disable_web_page_preview"},
		{"missing parameter", "sendMessage", tgbotapi.Params{}, 400, `needs the parameter "text"`},
		{"not an integer", "deleteMessage", tgbotapi.Params{"message_id": "first"}, 400, "not an integer"},
		{"not a boolean", "sendMessage", tgbotapi.Params{"text": "x", "disable_notification": "yes"}, 400, "true or false"},
		{"empty text", "sendMessage", tgbotapi.Params{"text": " \n"}, 400, "message text is empty"},
		{"long text", "sendMessage", tgbotapi.Params{"text": strings.Repeat("a", 4097)}, 400, "message is too long"},
		{"long text in pairs", "sendMessage", tgbotapi.Params{"text": strings.Repeat("🐝", 2049)}, 400, "message is too long"},
		{"very long raw text", "sendMessage", tgbotapi.Params{"text": strings.Repeat("<b></b>", 4800), "parse_mode": "HTML"}, 400, "too long"},
		{"not UTF-8", "sendMessage", tgbotapi.Params{"text": "a\xff"}, 400, "UTF-8"},
		{"unclosed tag", "sendMessage", tgbotapi.Params{"text": "<b>x", "parse_mode": "HTML"}, 400, "can't parse entities: Can't find end tag"},
		{"stray <", "sendMessage", tgbotapi.Params{"text": "1 < 2", "parse_mode": "HTML"}, 400, "can't parse entities: Unclosed start tag"},
		{"stray &", "sendMessage", tgbotapi.Params{"text": "you & me", "parse_mode": "HTML"}, 400, "unescaped '&'"},
		{"unknown tag", "sendMessage", tgbotapi.Params{"text": "<h1>x</h1>", "parse_mode": "HTML"}, 400, "Unsupported start tag"},
		{"crossed tags", "sendMessage", tgbotapi.Params{"text": "<b><i>x</b></i>", "parse_mode": "HTML"}, 400, "Unmatched end tag"},
		{"other parse mode", "sendMessage", tgbotapi.Params{"text": "x", "parse_mode": "MarkdownV2"}, 400, "no parse_mode but HTML"},
		{"entity outside", "sendMessage", tgbotapi.Params{"text": "x", "entities": `[{"type":"bold","offset":0,"length":2}]`}, 400, "outside the text"},
		{"callback data too long", "sendMessage", tgbotapi.Params{"text": "x", "reply_markup": button(strings.Repeat("d", 65))}, 400, "BUTTON_DATA_INVALID"},
		{"callback data too long in bytes", "sendMessage", tgbotapi.Params{"text": "x", "reply_markup": button(strings.Repeat("ä", 33))}, 400, "BUTTON_DATA_INVALID"},
		{"callback data empty", "sendMessage", tgbotapi.Params{"text": "x", "reply_markup": button("")}, 400, "BUTTON_DATA_INVALID"},
		{"button without an action", "sendMessage", tgbotapi.Params{"text": "x", "reply_markup": `{"inline_keyboard":[[{"text":"a"}]]}`}, 400, "Text buttons are unallowed"},
		{"keyboard of null", "sendMessage", tgbotapi.Params{"text": "x", "reply_markup": `{"inline_keyboard":null}`}, 400, "must be an array"},
		{"unknown field inside", "sendMessage", tgbotapi.Params{"text": "x", "reply_parameters": `{"message_id":1,"quick":true}`}, 400, `no field "quick"`},
		{"not JSON", "sendMessage", tgbotapi.Params{"text": "x", "reply_parameters": `message 1`}, 400, "not JSON"},
		{"edit without text", "editMessageText", tgbotapi.Params{"message_id": "1"}, 400, `needs the parameter "text"`},
		{"edit of no message", "editMessageText", tgbotapi.Params{"text": "x"}, 400, "message identifier is not specified"},
		{"long notification", "answerCallbackQuery", tgbotapi.Params{"callback_query_id": "1", "text": strings.Repeat("a", 201)}, 400, "201 characters"},
		{"long caption", "sendPhoto", tgbotapi.Params{"photo": "file1", "caption": strings.Repeat("a", 1025)}, 400, "message caption is too long"},
		{"limit out of range", "getUpdates", tgbotapi.Params{"limit": "101"}, 400, "outside 1 to 100"},
		{"kind of update", "getUpdates", tgbotapi.Params{"allowed_updates": `["gossip"]`}, 400, "no kind of update"},
		{"command name", "setMyCommands", tgbotapi.Params{"commands": `[{"command":"Due","description":"d"}]`}, 400, "BOT_COMMAND_INVALID"},
		{"command description", "setMyCommands", tgbotapi.Params{"commands": `[{"command":"due","description":""}]`}, 400, "0 characters"},
		{"too many commands", "setMyCommands", tgbotapi.Params{"commands": "[" + strings.Repeat(`{"command":"a","description":"b"},`, 100) + `{"command":"a","description":"b"}]`}, 400, "at most 100"},
		{"scope", "setMyCommands", tgbotapi.Params{"commands": "[]", "scope": `{"type":"chat"}`}, 400, `needs the field "chat_id"`},
		{"file for a text", "sendDocument", tgbotapi.Params{"document": "attach://nothing"}, 400, "no file nothing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStage(t, Options{})
			chat := s.inGroup()
			p := tgbotapi.Params{}
			if _, ok := s.spec.field(s.spec.Methods[c.method].Fields, "chat_id"); ok && c.name != "edit of no message" {
				p["chat_id"] = itoa(chat)
			}
			for k, v := range c.p {
				p[k] = v
			}
			e := s.refused(c.method, p)
			require.Equal(t, c.code, e.Code)
			require.Contains(t, e.Message, c.says)
			require.Len(t, s.Violations(), 1, "%v", s.Violations())
			require.Equal(t, c.method, s.Violations()[0].Method)
			require.Empty(t, s.Sent(chat))
		})
	}
}

func button(data string) string {
	return jsonOf(map[string]any{"inline_keyboard": [][]any{{map[string]any{"text": "b", "callback_data": data}}}})
}

func TestWhatTheLimitsAllow(t *testing.T) {
	s := newStage(t, Options{Rates: Rates{RecordOnly: true}})
	chat := s.inGroup()
	s.send(chat, strings.Repeat("🐝", 2048))
	s.send(chat, "<b>"+strings.Repeat("a", 4096)+"</b>", "parse_mode", "HTML")
	s.send(chat, "null")
	s.send(chat, "x", "reply_markup", button(strings.Repeat("d", 64)))
	s.send(chat, "x", "reply_markup", `{"force_reply":true,"selective":true}`, "entities", "null")
	s.send(chat, "x", "link_preview_options", `{"is_disabled":true}`, "disable_notification", "true")
	s.ask("setMyCommands", tgbotapi.Params{"commands": `[{"command":"due","description":"What is due"}]`, "scope": `{"type":"all_group_chats"}`, "language_code": "es"})
	require.Equal(t, []Command{{"due", "What is due"}}, s.Commands("all_group_chats", "es"))
	sent := s.Sent(chat)
	require.True(t, sent[4].ForceReply)
	require.True(t, sent[5].Silent)
	s.clean()
}

func TestHTMLBecomesTextAndEntities(t *testing.T) {
	s := newStage(t, Options{})
	chat := s.inGroup()
	s.send(chat, `🐝 <b>Graft <i>Ana</i></b> &lt;34&gt; &amp; <a href="https://example.org/?a=1&amp;b">more</a> &#39;x&#x27;`, "parse_mode", "HTML")
	got, _ := s.LastSent(chat)
	require.Equal(t, `🐝 Graft Ana <34> & more 'x'`, got.Text)
	require.Equal(t, []Entity{
		{Type: "bold", Offset: 3, Length: 9}, {Type: "italic", Offset: 9, Length: 3},
		{Type: "text_link", Offset: 20, Length: 4, URL: "https://example.org/?a=1&b"},
	}, got.Entities)
	s.clean()
}

func TestTheFourWaysToPassParameters(t *testing.T) {
	s := newStage(t, Options{Rates: Rates{RecordOnly: true}})
	chat := s.inGroup()
	base := s.URL() + "/bot" + s.Token() + "/sendMessage"
	post := func(kind string, body io.Reader) {
		resp, err := http.Post(base, kind, body)
		require.NoError(t, err)
		require.Equal(t, 200, resp.StatusCode)
		require.NoError(t, resp.Body.Close())
	}
	resp, err := http.Get(base + "?" + url.Values{"chat_id": {itoa(chat)}, "text": {"query"}}.Encode())
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	post("application/x-www-form-urlencoded", strings.NewReader(url.Values{"chat_id": {itoa(chat)}, "text": {"form"}}.Encode()))
	post("application/json", strings.NewReader(`{"chat_id":`+itoa(chat)+`,"text":"json","reply_parameters":{"message_id":99,"allow_sending_without_reply":true}}`))
	var form bytes.Buffer
	w := multipart.NewWriter(&form)
	require.NoError(t, w.WriteField("chat_id", itoa(chat)))
	require.NoError(t, w.WriteField("text", "multipart"))
	require.NoError(t, w.Close())
	post(w.FormDataContentType(), &form)

	var texts []string
	for _, m := range s.Sent(chat) {
		texts = append(texts, m.Text)
	}
	require.Equal(t, []string{"query", "form", "json", "multipart"}, texts)
	s.clean()
}

func TestUploads(t *testing.T) {
	s := newStage(t, Options{Rates: Rates{RecordOnly: true}})
	chat := s.inGroup()
	p := tgbotapi.Params{"chat_id": itoa(chat), "caption": "log"}
	file := func(field string, data []byte) []tgbotapi.RequestFile {
		return []tgbotapi.RequestFile{{Name: field, Data: tgbotapi.FileBytes{Name: "log.csv", Bytes: data}}}
	}
	resp, err := s.bot.UploadFiles("sendDocument", p, file("document", []byte("a,b\n")))
	require.NoError(t, err)
	s.holds("Message", resp.Result)
	got, _ := s.LastSent(chat)
	require.Equal(t, "log", got.Text)
	require.Equal(t, "log.csv", got.File.Name)
	require.Equal(t, "a,b\n", string(got.File.Data))
	// The same file once more, by its number.
	s.ask("sendDocument", tgbotapi.Params{"chat_id": itoa(chat), "document": got.File.ID})

	resp, err = s.bot.UploadFiles("sendPhoto", p, file("photo", picture(40, 30)))
	require.NoError(t, err)
	s.holds("Message", resp.Result)
	got, _ = s.LastSent(chat)
	require.Equal(t, 40, got.File.Width)
	// A file part of any name, pointed at by the parameter.
	p["document"] = "attach://part1"
	_, err = s.bot.UploadFiles("sendDocument", p, file("part1", []byte("c\n")))
	require.NoError(t, err)
	delete(p, "document")
	s.clean()

	_, err = s.bot.UploadFiles("sendDocument", p, file("part1", []byte("c\n")))
	require.ErrorContains(t, err, `no parameter "part1"`)
	for name, data := range map[string][]byte{"IMAGE_PROCESS_FAILED": []byte("no picture"), "PHOTO_INVALID_DIMENSIONS": picture(210, 10), "file must be non-empty": nil} {
		_, err = s.bot.UploadFiles("sendPhoto", p, file("photo", data))
		require.ErrorContains(t, err, name)
	}
	_, err = s.bot.UploadFiles("sendMessage", params(chat, "x"), file("chat_id", []byte("1")))
	require.ErrorContains(t, err, "a file was uploaded")
	_, err = s.bot.UploadFiles("sendPhoto", p, file("photo", make([]byte, 10<<20+1)))
	require.ErrorContains(t, err, "file is too big")
	require.Len(t, s.Violations(), 7, "the missing document counts as well")
	require.Equal(t, `sendDocument: sendDocument has no parameter "part1"`, s.Violations()[0].String())
}

func picture(w, h int) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func TestToken(t *testing.T) {
	s := newStage(t, Options{ReadsAll: true})
	require.True(t, s.bot.Self.CanReadAllGroupMessages)
	require.Equal(t, "yardbell_bot", s.bot.Self.UserName)
	s.SetPrivacy(true)
	me, err := s.bot.GetMe()
	require.NoError(t, err)
	require.False(t, me.CanReadAllGroupMessages)
	s.ask("getMe", nil)

	_, err = tgbotapi.NewBotAPIWithClient("700100:wrong", s.Endpoint(), &http.Client{})
	var e *tgbotapi.Error
	require.ErrorAs(t, err, &e)
	require.Equal(t, 401, e.Code)
	require.Equal(t, 1, s.BadTokens())
	resp, err := http.Get(s.URL() + "/file/x")
	require.NoError(t, err)
	require.Equal(t, 404, resp.StatusCode)
	require.NoError(t, resp.Body.Close())
	require.Len(t, s.Requests("getMe"), 3)
	s.clean()
}
