package attach

import (
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// badNames are what somebody may call themselves, or a yard.
var badNames = []string{"<script>alert(1)</script>", "</td></tr></table>", `" onload="x`, "&lt;b&gt;", "{{.Title}}", "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "＝1", "a\"b,c", "Ñandú"}

// pageCells reads a page as strict XML and gives what its cells say, and what elements
// it has.
func pageCells(t *testing.T, page string) (cells, elements []string) {
	t.Helper()
	page = regexp.MustCompile(`<meta ([^>]*)>`).ReplaceAllString(strings.Replace(page, "<!doctype html>", "", 1), "<meta $1/>")
	d := xml.NewDecoder(strings.NewReader(page))
	open := ""
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			slices.Sort(elements)
			return cells, slices.Compact(elements)
		}
		require.NoError(t, err)
		switch x := tok.(type) {
		case xml.StartElement:
			open = x.Name.Local
			elements = append(elements, open)
			if open == "td" {
				cells = append(cells, "")
			}
		case xml.EndElement:
			open = ""
		case xml.CharData:
			if open == "td" {
				cells[len(cells)-1] += string(x)
			}
		}
	}
}

// Whatever people and places are called, it stays a name: in the page no mark-up, in a
// sheet no formula; and nothing of it is lost.
func TestRecordsKeepNamesInert(t *testing.T) {
	for _, lang := range wording.Languages {
		v := wording.In(lang, rules.DefaultSettings(), time.Date(2031, 7, 1, 12, 0, 0, 0, time.UTC))
		s := season{year: 2031}
		for i, name := range badNames {
			at := time.Date(2031, 6, 1+i, 9, 0, 0, 0, time.UTC)
			s.batches = append(s.batches, rules.Batch{Number: i + 1, Start: name, Grafted: at.AddDate(0, 0, -30), Yards: []string{name}})
			s.queens = append(s.queens, rules.QueenRecord{Number: i + 1, Batch: i + 1, Mother: 7, Grafted: at.AddDate(0, 0, -30), Caught: at, Yard: name, By: name})
		}
		page, err := reportHTML(v, s)
		require.NoError(t, err)
		cells, elements := pageCells(t, string(page))
		assert.Equal(t, []string{"body", "h1", "h2", "head", "html", "meta", "p", "style", "table", "tbody", "td", "tfoot", "th", "thead", "title", "tr"}, elements)
		for _, name := range badNames {
			n := 0
			for _, c := range cells {
				if c == name {
					n++
				}
			}
			assert.Equal(t, 4, n, "%q as builder, yard, yard and person, letter by letter", name)
		}
		for _, sheet := range []func(wording.Voice, season) ([]byte, error){queensCSV, roundsCSV} {
			text, err := sheet(v, s)
			require.NoError(t, err)
			rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
			require.NoError(t, err)
			require.Len(t, rows, len(badNames)+1)
			for i, row := range rows[1:] {
				assert.Equal(t, wording.Inert(badNames[i]), row[len(row)-1])
				for _, cell := range row {
					assert.False(t, cell != "" && strings.ContainsRune("=+-@\t\r＝", []rune(cell)[0]), "a spreadsheet would run %q", cell)
				}
			}
		}
	}
}
