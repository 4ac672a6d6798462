package wording

import (
	"regexp"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// MostRunes is how long a message may be. The chat itself allows as many.
const MostRunes = 4096

// Clean makes a text safe and plain: valid UTF-8 in composed form, without
// control and direction characters, quotes and dashes straightened.
func Clean(s string) string {
	s = norm.NFC.String(strings.ToValidUTF8(s, "\uFFFD"))
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch r {
		case '’', '‘', '`', '´':
			return '\''
		case '“', '”', '«', '»':
			return '"'
		case '–', '—', '−':
			return '-'
		case '\n', '\t', '\r', '\u00a0', '\u202f':
			return ' '
		}
		if unicode.Is(unicode.Cf, r) || unicode.IsControl(r) || unicode.Is(unicode.Co, r) {
			return -1
		}
		return r
	}, s))
}

// Fold is lower case without accents, for comparing words.
func Fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(Bare(s)))
}

// nameForm is what a word of a name looks like.
var nameForm = regexp.MustCompile(`^\pL[\pL\pN'\-]{0,23}$`)

func IsName(s string) bool { return nameForm.MatchString(s) }

func IsDigits(s string) bool {
	if s == "" {
		return false
	}
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

func Words(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

func JoinList(list []string) string {
	s := ""
	for i, x := range list {
		if i > 0 {
			s += ", "
		}
		s += x
	}
	return s
}
