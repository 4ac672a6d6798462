package telegram

import (
	"errors"
	"maps"
	"unicode/utf16"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"yardbell/bot/wording"
)

// mostCaption is how long the words under a file may be, in UTF-16 units (Bot API,
// sendPhoto and sendDocument: 0-1024 characters).
const mostCaption = 1024

// part is one message of those that a delivery takes in the chat.
type part struct {
	method string
	p      tgbotapi.Params
	file   *wording.File // to be uploaded

	carries bool // a file, uploaded or named
	words   bool // it carries text, and so its number is the message's
}

// parts lays a delivery out: one file with few words is one message, else the words
// come first and each file after them.
func (t target) parts(d wording.Delivery, pieces []string) (out []part) {
	if len(d.Files) == 1 && len(pieces) == 1 && len(utf16.Encode([]rune(pieces[0]))) <= mostCaption {
		k := filePart(d.Files[0])
		maps.Copy(k.p, t.params(pieces[0]))
		k.words = true
		k.p["caption"] = k.p["text"]
		delete(k.p, "text")
		delete(k.p, "link_preview_options")
		k.p.AddNonEmpty("reply_markup", keyboard(d.Buttons, false))
		return []part{k}
	}
	for i, s := range pieces {
		k := part{method: "sendMessage", p: t.params(s), words: true}
		if i == len(pieces)-1 {
			k.p.AddNonEmpty("reply_markup", keyboard(d.Buttons, false))
		}
		out = append(out, k)
	}
	for _, f := range d.Files {
		k := filePart(f)
		t.into(k.p)
		out = append(out, k)
	}
	return out
}

func filePart(f wording.File) part {
	k := part{method: "sendDocument", file: &f, p: tgbotapi.Params{}, carries: true}
	if f.Picture {
		k.method = "sendPhoto"
	}
	if f.Kept != "" {
		k.p[fieldOf(&f)], k.file = f.Kept, nil
	}
	return k
}

// errNoFile is a chat that takes no such file.
var errNoFile = errors.New("the chat takes no such file")

// fieldOf is the parameter that carries a file.
func fieldOf(f *wording.File) string {
	if f.Picture {
		return "photo"
	}
	return "document"
}
