package bot

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// token is one word, number or time of a message.
type token struct {
	text  string // lower case, accents taken off, a slip of the thumb put right
	orig  string // as typed
	at    int    // where it starts in the message
	num   int    // where isNum
	isNum bool
	comma bool // a comma, semicolon, colon or full stop follows
	used  bool // it has its part in the reading

	glossed bool // it was put into the reader's words from another language
	doubt   bool // the slip that was put right may have been of another form of the word
	firm    bool // it means what it says, or nothing: no slip of a word that is known
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

// splitWords cuts a text at its spaces, no further than one word past the most
// that is read: what is longer is talk, however long it is.
func splitWords(s string) (words []string, at []int) {
	start := -1
	for i, r := range s {
		switch {
		case unicode.IsSpace(r) && start >= 0:
			words, at = append(words, s[start:i]), append(at, start)
			start = -1
			if len(words) > mostTokens {
				return words, at
			}
		case !unicode.IsSpace(r) && start < 0:
			start = i
		}
	}
	if start >= 0 {
		words, at = append(words, s[start:]), append(at, start)
	}
	return words, at
}

// tokenize splits a cleaned text. "34/38" becomes "34 of 38", "batch4" "batch 4";
// "7:30", "4pm", "9d20h" and "21:00-05:30" stay whole.
func tokenize(s string) []token {
	var out []token
	ws, ats := splitWords(s)
	for k, word := range ws {
		before := ""
		if n := len(out); n > 0 {
			before = out[n-1].text
		}
		ps, closed := pieces(word, before)
		if len(ps) == 0 && len(out) > 0 {
			out[len(out)-1].comma = true // a dash or bracket by itself parts like a comma
		}
		at := ats[k]
		for i, p := range ps {
			if j := strings.Index(s[at:], p.text); j >= 0 {
				at += j
			}
			if meansNothing(p.text) {
				if len(out) > 0 {
					out[len(out)-1].comma = true
				}
				continue
			}
			t := token{text: fold(p.text), orig: p.text, at: at, comma: p.comma || i == len(ps)-1 && closed}
			t.num, t.isNum = numeral(p.text)
			if n, ok := numberWords[t.text]; ok {
				t.num, t.isNum = n, true
			}
			out = append(out, t)
			if len(out) > mostTokens {
				return out
			}
		}
	}
	return joinNumbers(out)
}

type piece struct {
	text  string
	comma bool
}

// trailing is punctuation that stands behind a word.
const trailing = ",;:.!?)]}\"'…"

// pieces takes a word between spaces apart. closed says that punctuation ended it.
// before is the token that stands before it.
func pieces(word, before string) (out []piece, closed bool) {
	word = strings.TrimLeft(word, "([{\"'¿¡")
	// Pictures end a word, with punctuation before or after them: "38👍!".
	body := strings.TrimRightFunc(word, func(r rune) bool { return pictured(r) || strings.ContainsRune(trailing, r) })
	if first := strings.IndexFunc(word[len(body):], pictured); first >= 0 {
		body = word[:len(body)+first]
	} else {
		body = word
	}
	tail := word[len(body):]
	trimmed := strings.TrimRight(body, trailing)
	closed = strings.ContainsAny(body[len(trimmed):], ",;:.!")
	body = trimmed
	if strings.Trim(body, "-") != "" {
		parts := strings.FieldsFunc(body, func(r rune) bool { return r == ',' || r == ';' })
		for i, p := range parts {
			inner := split(p, before)
			inner[len(inner)-1].comma = i < len(parts)-1
			out = append(out, inner...)
		}
	}
	for _, r := range tail { // each picture by itself: a cross beside a thumb is a cross
		if pictured(r) {
			out = append(out, piece{text: string(r)})
		}
	}
	return out, closed
}

// split parts "34/38", "capped:36", "batch4" and "~30".
func split(p, before string) []piece {
	if a, b, ok := strings.Cut(p, "/"); ok && isDigits(a) && isDigits(b) && !datePrep[before] {
		return []piece{{text: a}, {text: "of"}, {text: b}}
	}
	if a, b, ok := strings.Cut(p, ":"); ok && a != "" && b != "" && !(isDigits(a) && b[0] >= '0' && b[0] <= '9') && !strings.ContainsAny(b, ":/") {
		return []piece{{text: a, comma: true}, {text: b}}
	}
	if n := strings.TrimLeft(p, "~≈"); n != p && n != "" {
		return []piece{{text: "~"}, {text: n}}
	}
	if n, ish := strings.CutSuffix(p, "ish"); ish && isDigits(strings.TrimSuffix(n, "-")) {
		return []piece{{text: "~"}, {text: strings.TrimSuffix(n, "-")}}
	}
	if i := strings.IndexAny(p, "0123456789"); i > 1 && isDigits(p[i:]) && (thingWords[fold(p[:i])] || spanish.thing(fold(p[:i]))) {
		return []piece{{text: p[:i]}, {text: p[i:]}}
	}
	return []piece{{text: p}}
}

// pictured are the runes of little pictures, which say nothing or a word of their
// own and are often stuck to the word before.
func pictured(r rune) bool {
	return r > 0xff && !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != utf8.RuneError && r != '…'
}

// meansNothing reports whether a token is a picture or mark without a meaning of
// its own. A crossed-out 34 has one.
func meansNothing(s string) bool {
	f := fold(s)
	return f == "" || !letterOrDigit(s) && !negations[f] && !hedges[f] && !signs[f]
}

var signs = words(`@ # %`)

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
