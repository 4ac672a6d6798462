package reading

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// token is a word, a number or a sign of a message.
type token struct {
	text   string // folded
	typed  string // folded as it was typed, where a spelling stands in its place
	from   int    // bytes in the message as it was typed
	to     int
	num    float64
	isNum  bool
	clock  int  // minutes of a time written 9:15, else -1
	of     int  // second number of 38/45, else -1
	name   bool // typed with a capital inside a sentence
	bound  bool // ends a clause
	split  bool // of a command: a sign stood before it
	accent bool // its last vowel was typed with an accent
	dozens bool // a number of dozens: it counts, and is no hour and no name
}

// fold makes a word comparable: lower case, no accents.
func fold(s string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(strings.ToLower(s)) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r == '’' || r == '‘' || r == '´' || r == '`':
			b.WriteByte('\'')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// tokenize cuts a message into tokens. Its work grows with the length of the text.
func tokenize(text string) []token {
	var out []token
	rs := []rune(text)
	at := make([]int, 0, len(rs)+1)
	for i := range text { // also where bytes are no valid text
		at = append(at, i)
	}
	at = append(at, len(text))
	put := func(i, j int, t token) {
		t.from, t.to = at[i], at[j]
		out = append(out, t)
	}
	sentence := true // at the start of one
	for i := 0; i < len(rs); {
		r := rs[i]
		switch {
		case r == '\n':
			put(i, i+1, token{text: "\n", bound: true, clock: -1, of: -1})
			sentence = true
			i++
			continue
		case unicode.IsSpace(r) || unicode.In(r, unicode.Mn, unicode.Cf) || unicode.IsControl(r):
			i++
			continue
		case unicode.IsDigit(r):
			j, t := number(rs, i)
			put(i, j, t)
			i = j
		case address(rs, i) > i:
			// The words of a web address say nothing of what was done.
			j := address(rs, i)
			put(i, j, token{text: fold(string(rs[i:j])), clock: -1, of: -1})
			i = j
		case unicode.IsLetter(r) || isApostrophe(r) && i+1 < len(rs) && unicode.IsLetter(rs[i+1]):
			j := i + 1
			after := i > 0 && unicode.IsDigit(rs[i-1]) // 3x15: the 15 is a number of its own
			for j < len(rs) && (unicode.IsLetter(rs[j]) || unicode.Is(unicode.Mn, rs[j]) || isApostrophe(rs[j]) && !possessive(rs, j) && j+1 < len(rs) && unicode.IsLetter(rs[j+1]) || unicode.IsDigit(rs[j]) && (j-i <= 2 || unicode.IsDigit(rs[j-1])) && !after) {
				j++
			}
			if last := j - 1; j-i > 2 && rs[last] == 's' && unicode.IsDigit(rs[last-1]) {
				j = last // B2s: the s is one of possession
			}
			w := string(rs[i:j])
			put(i, j, token{accent: accented(w), text: fold(w), clock: -1, of: -1, name: !sentence && unicode.IsUpper(r) && j-i > 2 && unicode.IsLower(rs[i+1])})
			i = j
		default:
			b := strings.ContainsRune(",.;!?:()¿¡…–—", r)
			if r == '–' && i > 0 && i+1 < len(rs) && unicode.IsDigit(rs[i-1]) && unicode.IsDigit(rs[i+1]) {
				r, b = '-', false // "1–24", a range
			}
			if r == '/' && i+1 < len(rs) && rs[i+1] == ' ' {
				b = true
			}
			put(i, i+1, token{text: fold(string(r)), bound: b, clock: -1, of: -1})
			sentence = sentence && !b || strings.ContainsRune(".!?¿¡", r)
			i++
			continue
		}
		sentence = false
	}
	return out
}

// address returns where a web address that stands at i ends, and i where there is none: a
// scheme of letters, "://", and all up to a blank or a closing bracket.
func address(rs []rune, i int) int {
	j := i
	for j < len(rs) && unicode.IsLetter(rs[j]) {
		j++
	}
	if j == i || j+3 > len(rs) || string(rs[j:j+3]) != "://" {
		return i
	}
	for j < len(rs) && !unicode.IsSpace(rs[j]) && !strings.ContainsRune(")]>", rs[j]) {
		j++
	}
	return j
}

// possessive reports whether an apostrophe and a lone s stand at i: "she's", "7's".
func possessive(rs []rune, i int) bool {
	return i+1 < len(rs) && isApostrophe(rs[i]) && unicode.ToLower(rs[i+1]) == 's' && (i+2 == len(rs) || !unicode.IsLetter(rs[i+2]))
}

func isApostrophe(r rune) bool { return r == '\'' || r == '’' || r == '‘' }

// accented reports whether the last vowel of a word carries an accent: "injertó" and not
// "injerto", "sí" and not "si".
func accented(w string) bool {
	last, _ := utf8.DecodeLastRuneInString(strings.ToLower(norm.NFC.String(w)))
	return strings.ContainsRune("áéíóú", last)
}

// number reads a number from i: whole, decimal, a clock time, a ratio.
func number(rs []rune, i int) (int, token) {
	digits := func(k int) int {
		for k < len(rs) && unicode.IsDigit(rs[k]) {
			k++
		}
		return k
	}
	t := token{isNum: true, clock: -1, of: -1}
	j := digits(i)
	whole := string(rs[i:j])
	t.num, _ = strconv.ParseFloat(whole, 64)
	if j-i > 9 {
		t.num = 1e9
	}
	if j+1 < len(rs) && unicode.IsDigit(rs[j+1]) {
		k := digits(j + 1)
		second, _ := strconv.Atoi(string(rs[j+1 : min(k, j+5)]))
		more := k < len(rs)-1 && (rs[k] == '/' || rs[k] == ':' || rs[k] == '-') && unicode.IsDigit(rs[k+1])
		switch sep := rs[j]; {
		case (sep == ':' || sep == 'h') && k-j == 3 && t.num < 25 && second < 60 && !more:
			t.clock, j = int(t.num)*60+second, k
		case sep == '/' && !more && t.num < 1e6:
			t.of, j = second, k
		case (sep == '.' || sep == ',') && k-j <= 3 && !(sep == ',' && k-j == 4):
			t.num, _ = strconv.ParseFloat(whole+"."+string(rs[j+1:k]), 64)
			j = k
		}
	}
	t.text = fold(string(rs[i:j]))
	return j, t
}
