package telegram

import (
	"strings"
	"unicode/utf16"
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

// split cuts a text into pieces of at most limit units, at line ends where it can,
// else at spaces, else anywhere but inside a character.
func split(s string, limit int) []string {
	var out []string
	for units(s) > limit {
		cut, n := 0, 0
		line, space := -1, -1
		for i, r := range s {
			if n += utf16.RuneLen(r); n > limit {
				break
			}
			switch r {
			case '\n':
				line = i
			case ' ':
				space = i
			}
			cut = i + len(string(r))
		}
		switch {
		case line > 0:
			out = append(out, s[:line])
			s = s[line+1:]
		case space > 0:
			out = append(out, s[:space])
			s = s[space+1:]
		default:
			out = append(out, s[:cut])
			s = s[cut:]
		}
	}
	if s != "" || len(out) == 0 {
		out = append(out, s)
	}
	return out
}
