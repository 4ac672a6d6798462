package bot

import (
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// token is one word, number or time of a message.
type token struct {
	text  string // lower case, accents taken off
	orig  string // as typed
	num   int    // where isNum
	isNum bool
	comma bool // a comma, semicolon or full stop follows
	used  bool
}

// Bounds of what is read. The chat itself allows 4,096 characters.
const (
	mostRunes  = 4096
	mostTokens = 60 // a message to the bot is short; longer ones are talk
)

// clean makes a text safe and plain: valid UTF-8 in composed form, without
// control and direction characters, quotes and dashes straightened.
func clean(s string) string {
	s = norm.NFC.String(strings.ToValidUTF8(s, "\uFFFD"))
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch r {
		case '’', '‘', '`', '´':
			return '\''
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

// tokenize splits a cleaned text. "34/38" becomes "34 of 38"; "7:30", "4pm",
// "9d20h" and "21:00-05:30" stay whole.
func tokenize(s string) []token {
	var out []token
	for _, word := range strings.Fields(s) {
		comma := false
		for {
			t := strings.TrimRight(word, ",;.!?)\"'")
			if t == word {
				break
			}
			comma = comma || strings.ContainsAny(word[len(t):], ",;.")
			word = t
		}
		word = strings.TrimLeft(word, "(\"'")
		if word == "" || word == "-" {
			if n := len(out); n > 0 {
				out[n-1].comma = true
			}
			continue
		}
		// "34,North" without a space, and "45,54".
		parts := []string{word}
		if strings.Contains(word, ",") {
			parts = strings.FieldsFunc(word, func(r rune) bool { return r == ',' })
		}
		if a, b, ok := strings.Cut(word, "/"); ok && isDigits(a) && isDigits(b) {
			parts = []string{a, "of", b}
		}
		for i, p := range parts {
			t := token{text: fold(p), orig: p, comma: comma && i == len(parts)-1 || len(parts) > 1 && i < len(parts)-1 && strings.Contains(word, ",")}
			if isDigits(strings.TrimPrefix(p, "#")) {
				if n, err := strconv.Atoi(strings.TrimPrefix(p, "#")); err == nil {
					t.num, t.isNum = n, true
				}
			} else if strings.HasPrefix(p, "-") && isDigits(p[1:]) {
				if n, err := strconv.Atoi(p); err == nil {
					t.num, t.isNum = n, true
				}
			} else if n, ok := numberWords[t.text]; ok {
				t.num, t.isNum = n, true
			}
			out = append(out, t)
		}
	}
	return joinNumbers(out)
}

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

var numberWords = map[string]int{
	"zero": 0, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40,
	"fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// joinNumbers makes "forty five" one number.
func joinNumbers(in []token) (out []token) {
	for i := 0; i < len(in); i++ {
		t := in[i]
		if a, b, ok := strings.Cut(t.text, "-"); ok && !t.isNum {
			if x, okA := numberWords[a]; okA {
				if y, okB := numberWords[b]; okB && x >= 20 && y < 10 {
					t.num, t.isNum = x+y, true
				}
			}
		}
		if _, word := numberWords[t.text]; word && t.num >= 20 && i+1 < len(in) && !t.comma {
			if u, ok := numberWords[in[i+1].text]; ok && u > 0 && u < 10 {
				t.num += u
				t.orig += " " + in[i+1].orig
				t.comma = in[i+1].comma
				i++
			} else if in[i+1].text == "one" {
				t.num++
				t.comma = in[i+1].comma
				i++
			}
		}
		out = append(out, t)
	}
	return out
}
