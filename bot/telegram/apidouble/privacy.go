package apidouble

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// visible says whether a message reaches the bot.
func (d *Double) visible(m *message) bool {
	c := m.chat
	if c.kind == private {
		return !c.blocked
	}
	me := c.member(d.me.ID)
	switch {
	case !me.in():
		return false
	case m.service != nil:
		return true // docs: FAQ, "all service messages"
	case m.from != nil && m.from.Bot && m.as == nil:
		return false // docs: FAQ, bots do not see other bots
	case c.kind == channel, c.seesAll, me.admin():
		return true
	case m.replyTo != nil && m.replyTo.own:
		return true
	}
	// docs: FAQ, "What messages will my bot get?". Only a command at the start is
	// taken as one: the narrower reading, so a bot that works here works there.
	if name, addressee := leadingCommand(m); name != "" {
		if addressee != "" {
			return strings.EqualFold(addressee, d.me.Username)
		}
		return c.lastBot == d.me.ID
	}
	return d.opts.HearsMentions && d.mentioned(m)
}

// leadingCommand takes /name@addressee off the start of a message.
func leadingCommand(m *message) (name, addressee string) {
	for _, e := range m.entities {
		if e.Type == "bot_command" && e.Offset == 0 {
			// A command is ASCII, so its units are its bytes.
			name, addressee, _ = strings.Cut(m.text[1:e.Length], "@")
		}
	}
	return name, addressee
}

func (d *Double) mentioned(m *message) bool {
	for _, e := range clientEntities(m.text) {
		if e.Type == "mention" && strings.EqualFold(sliceUTF16(m.text, e), "@"+d.me.Username) {
			return true
		}
	}
	return false
}

// sliceUTF16 cuts an entity out of a text.
func sliceUTF16(text string, e Entity) string {
	at, from, to := 0, len(text), len(text)
	for i, r := range text {
		if at == e.Offset {
			from = i
		}
		if at == e.Offset+e.Length {
			to = i
			break
		}
		at += utf16Len(string(r))
	}
	return text[from:max(from, to)]
}

// clientEntities finds the commands and mentions that a client marks by itself
// (spec: MessageEntity). Links and the rest are left out: nothing here reads them.
func clientEntities(text string) []Entity {
	var out []Entity
	before, at := ' ', 0
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		length := 0
		if !wordRune(before) && before != '/' && before != '@' {
			switch r {
			case '/':
				length = commandLength(text[i:])
			case '@':
				if w := wordLength(text[i+1:]); w >= 3 && w <= 32 {
					length = 1 + w
				}
			}
		}
		if length > 0 {
			kind := map[rune]string{'/': "bot_command", '@': "mention"}[r]
			out = append(out, Entity{Type: kind, Offset: at, Length: length})
			before = 'x'
			i, at = i+length, at+length
			continue
		}
		before = r
		i, at = i+n, at+utf16Len(string(r))
	}
	return out
}

func commandLength(text string) int {
	n := wordLength(text[1:])
	if n == 0 || n > 64 {
		return 0
	}
	n++
	if rest, ok := strings.CutPrefix(text[n:], "@"); ok {
		if w := wordLength(rest); w >= 3 && w <= 32 {
			n += 1 + w
		}
	}
	if strings.HasPrefix(text[n:], "/") {
		return 0 // a path, not a command
	}
	return n
}

func wordLength(text string) int {
	n := 0
	for n < len(text) && wordRune(rune(text[n])) && text[n] < utf8.RuneSelf {
		n++
	}
	return n
}

func wordRune(r rune) bool {
	return r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= utf8.RuneSelf && r != utf8.RuneError && unicode.IsLetter(r)
}
