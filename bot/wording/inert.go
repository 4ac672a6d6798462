package wording

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf16"
)

// mostMarks may stand on one letter; more reach over the lines around it.
const mostMarks = 3

// Visible leaves out of a text what is not seen and acts all the same: control
// characters, those of a terminal among them, and those that turn the direction of
// writing; and heaps of accents. Line ends stay.
func Visible(s string) string {
	marks := 0
	return strings.Map(func(r rune) rune {
		if !unicode.Is(unicode.M, r) {
			marks = 0
		} else if marks++; marks > mostMarks {
			return -1
		}
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

// WriteJSON writes a value as one line of JSON in which every character that is not seen
// is escaped: what reads JSON gets it as it is, and a terminal does not act on it.
func WriteJSON(w io.Writer, v any) error {
	line, err := json.Marshal(v)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	for _, r := range string(line) { // outside of strings there is nothing but ASCII
		switch {
		case !unicode.Is(unicode.C, r):
			b.WriteRune(r)
		case r > 0xFFFF:
			hi, lo := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\u%04x\u%04x`, hi, lo)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
	}
	b.WriteByte('\n')
	_, err = w.Write(b.Bytes())
	return err
}

// SeenSign is the reaction.
const SeenSign = "🤔"
