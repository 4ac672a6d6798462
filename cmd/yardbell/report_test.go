package main

import (
	"encoding/csv"
	"encoding/xml"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pageTables reads a page as strict XML, of which HTML's few elements without an end
// are told to the reader: a name that got out of its cell would break it, or show as an
// element that is not ours. It gives the rows of each table, heads among them.
func pageTables(t *testing.T, page string) (tables [][][]string) {
	t.Helper()
	page = strings.Replace(page, "<!doctype html>", "", 1)
	d := xml.NewDecoder(strings.NewReader(regexp.MustCompile(`<meta ([^>]*)>`).ReplaceAllString(page, "<meta $1/>")))
	d.Entity = xml.HTMLEntity
	ours := []string{"html", "head", "meta", "title", "style", "body", "h1", "h2", "p", "table", "thead", "tbody", "tfoot", "tr", "th", "td"}
	cell := false
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return tables
		}
		require.NoError(t, err, page)
		switch x := tok.(type) {
		case xml.StartElement:
			require.Contains(t, ours, x.Name.Local)
			for _, a := range x.Attr {
				require.Contains(t, []string{"lang", "charset", "name", "content"}, a.Name.Local)
			}
			n := len(tables) - 1
			switch x.Name.Local {
			case "table":
				tables = append(tables, nil)
			case "tr":
				tables[n] = append(tables[n], nil)
			case "th", "td":
				row := len(tables[n]) - 1
				tables[n][row] = append(tables[n][row], "")
				cell = true
			}
		case xml.EndElement:
			if x.Name.Local == "th" || x.Name.Local == "td" {
				cell = false
			}
		case xml.CharData:
			if n := len(tables) - 1; cell {
				row := &tables[n][len(tables[n])-1]
				(*row)[len(*row)-1] += string(x)
			}
		}
	}
}

func sheet(t *testing.T, text string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	return rows
}

// The page has every queen with her mother, graft, yard and catch, the sheets have the
// same; what was taken back is in neither.
func TestReport(t *testing.T) {
	for _, c := range scriptsIn(t, "en") {
		if filepath.Base(c.base) != "records" {
			continue
		}
		db := filepath.Join(t.TempDir(), "crew.db")
		c.play(t, db)
		r := call("", "report", "--db", db, "--year", "2031")
		require.Zero(t, r.code, r.err)
		assert.Contains(t, r.out, "<title>Season 2031</title>")
		assert.Contains(t, r.out, "22 queens caught")
		tables := pageTables(t, r.out)
		require.Len(t, tables, 2)
		assert.Equal(t, []string{"1", "7", "B2", "Mon 5 May", "45", "38", "36", "34", "31", "27", "22", "", "", "2031-05-05", "Wren", "Creek, North"}, sorted(tables[0][1]))
		assert.Equal(t, []string{"Total", "", "", "", "45", "38", "36", "34", "31", "27", "22", "", "", "", "", ""}, tables[0][2])
		queens := tables[1][1:]
		require.Len(t, queens, 22)
		yards := map[string]int{}
		for i, q := range queens {
			yards[q[4]+" "+q[5]+" "+q[6]]++
			assert.Equal(t, []string{strconv.Itoa(i + 1), "7", "1", "Mon 5 May"}, q[:4])
		}
		assert.Equal(t, map[string]int{"North Mon 9 Jun Tomas": 13, "Creek Tue 10 Jun Tomas": 9}, yards)

		rows := sheet(t, call("", "report", "--db", db, "--year", "2031", "--format", "csv").out)
		require.Len(t, rows, 23)
		assert.Equal(t, []string{"queen", "mother", "batch", "grafted on", "yard", "caught on", "by"}, rows[0])
		assert.Equal(t, []string{"1", "7", "1", "2031-05-05", "North", "2031-06-09", "Tomas"}, rows[1])
		rounds := sheet(t, call("", "report", "--db", db, "--year", "2031", "--format", "csv", "--what", "rounds").out)
		require.Len(t, rounds, 2)
		assert.Equal(t, "2031-05-05", rounds[1][3])

		r = call("", "report", "--db", db, "--year", "2030")
		require.Zero(t, r.code, r.err)
		assert.Empty(t, pageTables(t, r.out))
		assert.Equal(t, 2, strings.Count(r.out, "None this year."))
		return
	}
	t.Fatal("no conversation about records")
}

// sorted puts the yards of a round, which stand last, in order.
func sorted(row []string) []string {
	row = slices.Clone(row)
	list := strings.Split(row[len(row)-1], ", ")
	slices.Sort(list)
	row[len(row)-1] = strings.Join(list, ", ")
	return row
}

func TestReportAndCalendarCalls(t *testing.T) {
	db := crewFile(t, round)
	for _, c := range []struct {
		want string
		code int
		args []string
	}{
		{"--format takes html or csv", 2, []string{"report", "--db", db, "--format", "pdf"}},
		{"--what takes queens, rounds or stock", 2, []string{"report", "--db", db, "--format", "csv", "--what", "drones"}},
		{"--what goes with --format csv", 2, []string{"report", "--db", db, "--what", "rounds"}},
		{"--year takes", 2, []string{"report", "--db", db, "--year", "31"}},
		{"no crew 9", 2, []string{"report", "--db", db, "--crew", "9"}},
		{"--db FILE", 2, []string{"report"}},
		{"--db FILE", 2, []string{"calendar"}},
		{"no crew 9", 2, []string{"calendar", "--db", db, "--crew", "9"}},
		{"cannot be written", 1, []string{"calendar", "--db", db, "--out", filepath.Join(db, "x.ics")}},
		{"does not exist", 1, []string{"calendar", "--db", db + "x"}},
	} {
		r := call("", c.args...)
		oneLineSaid(t, r, c.code)
		assert.Contains(t, r.err, c.want)
	}
	r := call("", "calendar", "--db", db)
	require.Zero(t, r.code, r.err)
	assert.True(t, strings.HasPrefix(r.out, "BEGIN:VCALENDAR\r\n"))
	assert.Equal(t, r.out, call("", "calendar", "--db", db).out, "the same calendar until something changes")
}
