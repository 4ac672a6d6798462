package wording

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// MostName is how many characters of a member's name are kept: as many as the chat
// allows for a first name.
const MostName = 64

// Person makes a member's name safe to stand inside our sentences. People choose their
// names freely, and everything else of a sentence is taken for the bot's own word: a
// name must not begin a line, turn the direction of writing, call somebody, be a command
// or a link. What it is otherwise is for each place to escape where it is shown. A name
// of which nothing is left is the transport's own for the person.
func Person(name, key string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.Is(unicode.Zl, r), unicode.Is(unicode.Zp, r):
			return ' '
		case r == '@', r == '＠', r == unicode.ReplacementChar, unicode.IsControl(r), unicode.Is(unicode.C, r):
			return -1
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(name, "")))
	name = strings.ReplaceAll(name, "://", " ")
	var out []rune
	stacked := 0
	for i, all := 0, []rune(name); i < len(all); i++ {
		r := all[i]
		before := ' '
		if len(out) > 0 {
			before = out[len(out)-1]
		}
		switch {
		case unicode.Is(unicode.M, r):
			if stacked++; stacked > 2 || before == ' ' {
				continue // a heap of accents reaches over the lines around it
			}
		case r == '/' && before == ' ', r == ' ' && before == ' ':
			continue
		case r == '.' && unicode.IsLetter(before) && i+2 < len(all) && unicode.IsLetter(all[i+1]) && unicode.IsLetter(all[i+2]):
			out = append(out, '.', ' ') // no address to be pressed; "J.R." stays
			continue
		default:
			stacked = 0
		}
		out = append(out, r)
	}
	name = strings.TrimSpace(string(out[:min(len(out), MostName)]))
	if !strings.ContainsFunc(name, unicode.IsGraphic) {
		return "user " + key
	}
	return name
}
