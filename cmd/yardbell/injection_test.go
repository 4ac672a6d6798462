package main

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// injections are what somebody may call themselves, or type where the crew types names
// and reasons. forged is what would be seen, somewhere, if it worked.
var injections = []struct{ what, text, forged string }{
	{"tag", "<b>bold</b>", ""},
	{"script", "<script>alert(1)</script>", ""},
	{"link tag", `<a href="https://evil.example">x</a>`, ""},
	{"closing tags", "</td></tr></table></html>", ""},
	{"open tag", "a <b", ""},
	{"entity", "&lt;i&gt; &amp; &#60;", ""},
	{"attribute", `" onload="x`, ""},
	{"formula", "=cmd|' /C calc'!A0", ""},
	{"formula behind a blank", "  =1+1", ""},
	{"plus", "+1+1", ""},
	{"minus", "-2+3", ""},
	{"at", "@SUM(1,1)", ""},
	{"wide formula", "＝1+1", ""},
	{"formula behind a tab", "x\t=1+1", ""},
	{"formula behind a return", "x\r=1+1", ""},
	{"formula of another country", "x;=1+1;", ""},
	{"formula behind a quote", "\",=1+1,\"", ""},
	{"calendar property", "x\r\nATTACH:https://evil.example\r\n", "\nATTACH:"},
	{"calendar event", "x\nEND:VEVENT\nBEGIN:VEVENT\nSUMMARY:forged", "\nSUMMARY:"},
	{"calendar escapes", `a\nb\;c\,d`, ""},
	{"line of ours", "Wren\n\nBatch 1: 45 moved to Nowhere", "\nBatch 1: 45 moved to Nowhere"},
	{"other line ends", "a\u2028Batch 1: b\u2029c\u0085d\vf", "\u2028Batch"},
	{"log line", "x\ntime=2031-01-01T00:00:00Z level=ERROR msg=forged", "\ntime="},
	{"terminal colours", "\x1b[31mred\x1b[0m", "\x1b["},
	{"terminal title", "\x1b]0;title\x07\x9b2J", "\x1b]"},
	{"backspaces", "abc\b\b\bxyz\x00\x7f", "\b"},
	{"direction", "Ash\u202egnp.exe\u2066x\u2069", "\u202e"},
	{"nothing to be seen", "Wr\u200ben\ufeff\u2060\u00ad", "\u200b"},
	{"only that", "\u200b\u2063\u202e", "\u200b"},
	{"heap of accents", "Z" + strings.Repeat("\u0336", 80), strings.Repeat("\u0336", 5)},
	{"template", "{{.Name}} {{template \"x\"}} {{len .}}", ""},
	{"format", "%s %d %!x %n ${HOME} $(id)", ""},
	{"quotes of SQL", "'; DROP TABLE entries; --", ""},
	{"backslash and quote", `\' OR 1=1 \"`, ""},
	{"marks of style", "*bold* _it_ `code` [x](https://evil.example) ||s||", ""},
	{"mention", "@channel @wren_q", ""},
	{"command", "/remove Ash", ""},
	{"address", "https://evil.example/x evil.example tg://resolve?domain=x", ""},
	{"path", "../../etc/passwd", ""},
	{"JSON", `"},{"kind":"ping`, ""},
	{"not UTF-8 where it may be", "a\ufffdb", ""},
	{"very long", strings.Repeat("long ", 400), strings.Repeat("long ", 200)},
}

// unseen acts without being seen, in whatever is shown to people.
var unseen = regexp.MustCompile(`[^\P{C}\n]|[\p{Zl}\p{Zp}]|\pM{4}`)

// terminal is what a terminal acts on instead of showing it.
var terminal = regexp.MustCompile(`\pC`)

// Whatever people, yards, builders and pins are called and whatever they write, it stays
// a text: in the chat, in sheets, in the calendar, on the page to print, in the log of
// the service, on the terminal. Every row goes in by the ways that are there: a name by
// the chat, words by messages, and both by a file from before names were made safe.
func TestInjectionTable(t *testing.T) {
	inSequence(t)
	t.Parallel()
	w := newWorld(t, apidouble.Options{ReadsAll: true, Rates: apidouble.Rates{RecordOnly: true}})
	listen := freeAddress(t)
	w.join("--log", "json", "--log-level", "debug", "--listen", listen, "--calendar", "https://bees.example")
	for _, text := range []string{"add breeder 7", "add builder B2", "add yard North 400 nucs", "graft 45 from 7 into B2 yesterday 8:00"} {
		w.says(w.wren, text)
	}
	for _, in := range injections {
		who := w.NewUser(in.text, "")
		w.AddMember(w.group, w.wren, who)
		for _, text := range []string{
			in.text, "/" + in.text, "add yard " + in.text + " 4 nucs", "add builder " + in.text, "confine 7 " + in.text + " pin", "graft 45 from 7 into " + in.text,
			"moved 3 to " + in.text, "yields " + in.text, "set zone " + in.text, "set " + in.text + " 5", "make " + in.text + " lead", "due " + in.text,
		} {
			w.Say(w.group, who, text)
		}
		w.drained()
		book := len(w.book())
		for _, text := range []string{"mine batch 1 accept", "skip accept batch 1, " + in.text, "undo"} {
			w.Say(w.group, who, text)
		}
		w.drained()
		require.GreaterOrEqual(t, len(w.book()), book+2, "%s: its author logs", in.what)
	}
	// A round to its end by somebody with a bad name, so that the records have queens.
	last := w.NewUser(injections[0].text, "")
	w.AddMember(w.group, w.wren, last)
	w.Say(w.group, last, "caught 3 from batch 1 at North")
	w.drained()
	for _, text := range []string{"due", "log", "due this week", "batch 1", "breeder 7", "settings", "yields", "capacity", "report", "csv", "calendar", "week"} {
		w.says(w.wren, text)
	}
	link := w.answer(w.wren, func() { w.Say(w.wren, w.wren, "calendar link") })
	// In the morning the list goes out.
	w.pass(w.clock.Now().Add(24 * time.Hour))
	w.drained()

	assert.Empty(t, w.Violations())
	inertChat(t, w)
	for _, m := range w.Sent(w.group) {
		if m.File != nil {
			inertFile(t, m.File.Name, string(m.File.Data))
		}
	}
	at := linkAt.FindString(link.Text)
	require.NotEmpty(t, at, link.Text)
	_, _, feed := fetch(t, "http://"+listen+at, "")
	inertCalendar(t, feed)
	w.quit()
	inertLog(t, w.err.String())
	asOnTheOldFile(t, w)
	inertCommands(t, w)
}

var linkAt = regexp.MustCompile(`/calendar/[A-Za-z0-9_-]{32}\.ics`)

// inertChat: no message has any mark-up, unseen character or line that is not ours.
func inertChat(t *testing.T, w *world) {
	t.Helper()
	all := w.Sent(w.group)
	require.Greater(t, len(all), 3*len(injections))
	for _, m := range all {
		assert.Empty(t, m.Entities, m.Text)
		for _, text := range append(m.Labels(), m.Text) {
			assert.NotRegexp(t, unseen, text)
			assert.NotContains(t, text, "<no value>")
			assert.LessOrEqual(t, utf8.RuneCountInString(text), 4096)
			for _, in := range injections {
				if in.forged != "" {
					assert.NotContains(t, text, in.forged, in.what)
				}
			}
		}
		// What a client makes of a name by itself: a call, a command, a link.
		if name, _, ok := strings.Cut(m.Text, " is on it: "); ok {
			assert.NotRegexp(t, `(^|\s)[@/]\pL|://|\pL\.\pL{2}`, name)
		}
	}
}

// inertFile picks the test by the kind of file.
func inertFile(t *testing.T, name, data string) {
	t.Helper()
	switch filepath.Ext(name) {
	case ".csv":
		inertSheet(t, name, data)
	case ".html":
		inertPage(t, data)
	case ".ics":
		inertCalendar(t, data)
	}
}

// inertSheet: however a spreadsheet cuts it into cells, none begins like a formula.
func inertSheet(t *testing.T, name, data string) {
	t.Helper()
	require.NotEmpty(t, data)
	assert.NotRegexp(t, `[^\P{C}\n\r\t]`, data, name)
	for _, cut := range []string{`(?:^|[\n\r;\t])[ "]*`, `(?:^|\n|,)"?\s*`} {
		for _, at := range regexp.MustCompile(`(?m)`+cut).FindAllStringIndex(data, -1) {
			rest := data[at[1]:]
			if strings.HasPrefix(cut, `(?:^|\n|,)`) && inQuotes(data[:at[0]]) {
				continue // a comma inside a cell parts none where commas part cells
			}
			first, _ := utf8.DecodeRuneInString(rest)
			assert.False(t, rest != "" && strings.ContainsRune("=+-@＝＋－＠", first), "%s: a cell begins with %.20q", name, rest)
		}
	}
}

func inQuotes(before string) bool { return strings.Count(before, `"`)%2 == 1 }

// inertPage: no element and no attribute but the page's own.
func inertPage(t *testing.T, page string) {
	t.Helper()
	require.Contains(t, page, "<table>")
	for _, m := range regexp.MustCompile(`<[^>]*>?`).FindAllString(page, -1) {
		assert.Regexp(t, `^</?(html|head|title|style|body|h1|h2|p|table|thead|tbody|tfoot|tr|th|td)>$|^<!doctype html>$|^<html lang="[a-z]{2}">$|^<meta (charset="utf-8"|name="viewport" content="width=device-width")>$`, m)
	}
	assert.NotRegexp(t, unseen, page)
}

// inertCalendar: every line is one of the properties that we write, and each event is
// whole.
func inertCalendar(t *testing.T, file string) {
	t.Helper()
	require.Contains(t, file, "BEGIN:VEVENT")
	flat := strings.ReplaceAll(file, "\r\n ", "")
	lines := strings.Split(strings.TrimSuffix(flat, "\r\n"), "\r\n")
	for _, l := range lines {
		assert.Regexp(t, `^(BEGIN|END|VERSION|PRODID|CALSCALE|METHOD|X-WR-CALNAME|NAME|X-WR-TIMEZONE|X-PUBLISHED-TTL|REFRESH-INTERVAL|TZID|TZOFFSETFROM|TZOFFSETTO|TZNAME|DTSTART|DTEND|DTSTAMP|RRULE|RDATE|UID|LAST-MODIFIED|SEQUENCE|SUMMARY|DESCRIPTION|LOCATION|TRANSP|STATUS|ACTION|TRIGGER|X-YARDBELL-[A-Z]+)[;:]`, l)
		assert.NotRegexp(t, unseen, l)
		_, value, _ := strings.Cut(l, ":")
		if strings.HasPrefix(l, "SUMMARY") || strings.HasPrefix(l, "DESCRIPTION") || strings.HasPrefix(l, "LOCATION") {
			assert.NotRegexp(t, `(^|[^\\])(\\\\)*[,;]`, value, "unescaped")
		}
	}
	assert.Equal(t, strings.Count(flat, "BEGIN:VEVENT\r\n"), strings.Count(flat, "END:VEVENT\r\n"))
	assert.Equal(t, strings.Count(flat, "\r\nUID:"), strings.Count(flat, "BEGIN:VEVENT\r\n"))
}

// inertLog: every line is one of ours, with our keys, and quotes nobody.
func inertLog(t *testing.T, log string) {
	t.Helper()
	require.Contains(t, log, `"msg":"update handled"`)
	for _, l := range strings.Split(strings.TrimSpace(log), "\n") {
		var m map[string]any
		require.NoError(t, json.Unmarshal([]byte(l), &m), l)
		for k := range m {
			assert.Contains(t, logKeys, k, l)
		}
		assert.NotRegexp(t, unseen, l)
	}
	for _, in := range injections {
		if text := strings.TrimSpace(in.text); len(text) > 3 {
			assert.NotContains(t, log, text, in.what)
		}
	}
	for _, word := range []string{"forged", "evil", "alert(", "Wren", "North"} {
		assert.NotContains(t, log, word)
	}
}

// logKeys are all keys of the service's log.
var logKeys = []string{"time", "level", "msg", "update", "kind", "crew", "answer", "silent", "lines", "row", "ping", "attempt", "err", "wait", "part", "took", "outcome", "file", "panic", "at", "bot", "groups"}

// asOnTheOldFile gives members their names as they are, as files from before had them.
func asOnTheOldFile(t *testing.T, w *world) {
	t.Helper()
	c, err := sql.Open("sqlite", w.db)
	require.NoError(t, err)
	for i, in := range injections {
		done, err := c.Exec(`UPDATE members SET name = ? WHERE id = (SELECT id FROM members ORDER BY id DESC LIMIT 1 OFFSET ?)`, in.text, i)
		require.NoError(t, err)
		n, err := done.RowsAffected()
		require.NoError(t, err)
		require.EqualValues(t, 1, n)
	}
	require.NoError(t, c.Close())
}

// inertCommands: nor do the commands put anything on the terminal or into a file.
func inertCommands(t *testing.T, w *world) {
	t.Helper()
	call := func(args ...string) string {
		var out, errOut bytes.Buffer
		require.Equal(t, 0, run(t.Context(), append(args, "--db", w.db), w.env(&out, &errOut)), "%s %s", out.String(), errOut.String())
		assert.NotRegexp(t, unseen, errOut.String())
		return out.String()
	}
	assert.NotRegexp(t, unseen, call("check"))
	due := call("due")
	assert.NotRegexp(t, unseen, due)
	for _, l := range strings.Split(strings.TrimSpace(due), "\n") {
		assert.Regexp(t, `^[a-z]+ +(breeder|batch|builder|yard) `, l)
	}
	book := call("export", "--format", "csv")
	inertSheet(t, "export", book)
	assert.Greater(t, strings.Count(book, "\n"), 3*len(injections))
	inertSheet(t, "export of tasks", call("export", "--format", "csv", "--what", "tasks"))
	for _, l := range strings.Split(strings.TrimSpace(call("export")), "\n") {
		assert.True(t, json.Valid([]byte(l)), l)
		assert.NotRegexp(t, terminal, l, "a terminal would act on it")
	}
	inertSheet(t, "queens", call("report", "--year", "2031", "--format", "csv"))
	inertSheet(t, "rounds", call("report", "--year", "2031", "--format", "csv", "--what", "rounds"))
	inertPage(t, call("report", "--year", "2031"))
	inertCalendar(t, call("calendar"))
}

// On the console the same words stay words, in both of its forms.
func TestInjectionOnTheConsole(t *testing.T) {
	inSequence(t)
	var script strings.Builder
	for _, in := range injections {
		for _, l := range []string{"Wren: /" + in.text, "Wren: add yard " + in.text + " 4 nucs", "Wren: confine 7 " + in.text + " pin", "Ash: skip accept batch 1, " + in.text, "Ash: undo"} {
			l = strings.NewReplacer("\n", " ", "\r", " ").Replace(l) // a line of the console is a line
			script.WriteString(l + "\n")
		}
	}
	start := "Wren: add breeder 7\nWren: add builder B2\nWren: graft 45 from 7 into B2\n"
	for _, flags := range [][]string{{"--echo"}, {"--json"}} {
		var out, errOut bytes.Buffer
		e := testEnv(start+script.String(), &out, &errOut)
		require.Equal(t, 0, run(t.Context(), append([]string{"console", "--now", "2031-04-24 08:00", "--files", t.TempDir()}, flags...), e), errOut.String())
		if flags[0] == "--echo" {
			assert.NotRegexp(t, unseen, out.String())
			continue
		}
		for _, l := range strings.Split(strings.TrimSpace(out.String()), "\n") {
			var m struct{ Text string }
			require.NoError(t, json.Unmarshal([]byte(l), &m), l)
			assert.NotRegexp(t, terminal, l)
			assert.NotRegexp(t, unseen, m.Text)
			assert.NotContains(t, m.Text, "<no value>")
		}
	}
}
