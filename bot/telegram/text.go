package telegram

import (
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// mostUnits is how long a message may be after its entities are parsed, in UTF-16
// units: the Bot API says 4096 characters and counts so.
const mostUnits = 4096

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// escape makes a text inert in the HTML parse mode.
func escape(s string) string { return escaper.Replace(s) }

func units(s string) int {
	n := 0
	for _, r := range s {
		n += utf16.RuneLen(r)
	}
	return n
}

// split cuts a text into pieces of at most limit units, which is two or more: at
// line ends where it can, else at spaces, else anywhere but inside a character. A
// piece of blanks only is left out, since no chat takes it.
func split(s string, limit int) []string {
	var out []string
	keep := func(piece string) {
		if strings.TrimSpace(piece) != "" {
			out = append(out, piece)
		}
	}
	for units(s) > limit {
		cut, n := 0, 0
		line, space := -1, -1
		for i, r := range s {
			// A line end or space right behind a full piece still ends it.
			switch r {
			case '\n':
				line = i
			case ' ':
				space = i
			}
			if n += utf16.RuneLen(r); n > limit {
				break
			}
			_, width := utf8.DecodeRuneInString(s[i:])
			cut = i + width
		}
		switch {
		case line > 0:
			keep(s[:line])
			s = s[line+1:]
		case space > 0:
			keep(s[:space])
			s = s[space+1:]
		default:
			keep(s[:cut])
			s = s[cut:]
		}
	}
	keep(s)
	if len(out) == 0 {
		out = append(out, s)
	}
	return out
}
