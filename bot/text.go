package bot

import (
	"regexp"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// mostRunes is how long a message may be. The chat itself allows as many.
const mostRunes = 4096

// clean makes a text safe and plain: valid UTF-8 in composed form, without
// control and direction characters, quotes and dashes straightened.
func clean(s string) string {
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

// fold is lower case without accents, for comparing words.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(s))
}

func splitSpace(s string) []string { return strings.Fields(s) }

// nameForm is what a word of a name looks like.
var nameForm = regexp.MustCompile(`^\pL[\pL\pN'\-]{0,23}$`)

func isName(s string) bool { return nameForm.MatchString(s) }

func isDigits(s string) bool {
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

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

func words(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range splitSpace(s) {
		m[w] = true
	}
	return m
}

// oneSlip reports whether a becomes b by one insertion, deletion, change or swap
// of neighbours.
func oneSlip(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if a == b || len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) == len(b) {
		return a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
	}
	return a[i:] == b[i+1:]
}
