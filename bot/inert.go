package bot

import (
	"strings"
	"unicode"
)

// Visible leaves out of a text what is not seen and acts all the same: control
// characters, those of a terminal among them, and those that turn the direction of
// writing. Line ends stay.
func Visible(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t', r == '\u2028', r == '\u2029':
			return ' '
		case unicode.Is(unicode.C, r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// formula are the characters by which a spreadsheet knows one, the wide forms among them.
const formula = "=+-@＝＋－＠"

// cellBreaks are where a spreadsheet, of this country or another, may begin a cell.
const cellBreaks = "\t\r\n;"

// Inert keeps a spreadsheet from running a cell as a formula: names are the crew's own,
// and anybody may choose one. An apostrophe goes before what would begin one: at the head
// of the cell, of a line in it, and behind a semicolon or tab. What is not seen is left
// out.
func Inert(s string) string {
	var b strings.Builder
	head := true
	for i, r := range strings.ToValidUTF8(s, "\uFFFD") {
		breaks := strings.ContainsRune(cellBreaks, r)
		switch {
		case r == '\u2028', r == '\u2029':
			r = ' '
		case !breaks && unicode.Is(unicode.C, r):
			continue
		case head && strings.ContainsRune(formula, r), i == 0 && breaks && r != ';':
			b.WriteByte('\'')
		}
		head = breaks || head && unicode.IsSpace(r)
		b.WriteRune(r)
	}
	return b.String()
}
