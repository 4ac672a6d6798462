package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/wording"
)

// crewFile plays a script into a file and gives its path.
func crewFile(t testing.TB, script string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "crew.db")
	r := call(script, "console", "--db", path, "--zone", "America/Chicago", "--now", "2031-04-24 08:00", "--json")
	require.Zero(t, r.code, r.err)
	return path
}

func write(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func TestHelp(t *testing.T) {
	r := call("")
	assert.Zero(t, r.code)
	page := read(t, "../../deploy/README.md")
	for _, k := range command(env{}).Commands() {
		c := k.Name()
		assert.Contains(t, page, "\nyardbell "+c+" ", "the page names every command")
		assert.Contains(t, r.out, "\n  "+c+" ")
		h := call("", c, "--help")
		assert.Zero(t, h.code)
		assert.Empty(t, h.err)
		assert.Contains(t, h.out, "Usage:", c)
		assert.Regexp(t, `\nExamples:\n  .*yardbell `+c, h.out, "with examples, as the page says")
	}
	assert.Contains(t, r.out, "completion")
	r = call("", "completion", "bash")
	assert.Zero(t, r.code)
	assert.Contains(t, r.out, "yardbell")
}

// Whatever is wrong with the call is one line and exit status 2; what is wrong
// with the world is one line and exit status 1.
func TestBadCalls(t *testing.T) {
	db := crewFile(t, "Wren: add breeder 7\n")
	script := write(t, "good.txt", "Wren: due\n")
	for _, c := range []struct {
		name string
		args []string
		in   string
		code int
		want string
	}{
		{"unknown command", []string{"remind"}, "", 2, `no command "remind"`},
		{"unknown flag", []string{"due", "--dbase", "x"}, "", 2, "unknown flag: --dbase"},
		{"flag without value", []string{"due", "--db"}, "", 2, "--db"},
		{"stray argument", []string{"due", "--db", db, "extra"}, "", 2, `takes no argument "extra"`},
		{"no database", []string{"due"}, "", 2, "--db FILE"},
		{"no database for export", []string{"export"}, "", 2, "--db FILE"},
		{"no database for rebuild", []string{"rebuild"}, "", 2, "--db FILE"},
		{"nothing to check", []string{"check"}, "", 2, "--config FILE"},
		{"database that is not there", []string{"due", "--db", db + "x"}, "", 1, "does not exist"},
		{"bad --now", []string{"console", "--now", "tomorrow"}, "", 2, "not a time like '2031-05-08 19:00'"},
		{"bad --now of due", []string{"due", "--db", db, "--now", "2031-13-01 00:00"}, "", 2, "not a time"},
		{"bad --zone", []string{"console", "--zone", "Chicago"}, "", 2, "not a time zone"},
		{"bad --lang", []string{"console", "--lang", "xx"}, "", 2, `no language "xx"`},
		{"bad --on", []string{"due", "--db", db, "--on", "Friday"}, "", 2, "not a date"},
		{"bad --days", []string{"due", "--db", db, "--days", "0"}, "", 2, "--days takes 1 to 3660"},
		{"--days that is no number", []string{"due", "--db", db, "--days", "many"}, "", 2, "--days"},
		{"--on and --days", []string{"due", "--db", db, "--on", "2031-05-08", "--days", "3"}, "", 2, "not both"},
		{"bad --what", []string{"export", "--db", db, "--what", "all"}, "", 2, "--what takes"},
		{"bad --format", []string{"export", "--db", db, "--format", "xml"}, "", 2, "--format takes"},
		{"--json and a sheet", []string{"export", "--db", db, "--format", "csv", "--json"}, "", 2, "use --json or --format csv, not both"},
		{"output in no folder", []string{"export", "--db", db, "--out", filepath.Join(t.TempDir(), "none", "x")}, "", 1, "cannot be written"},
		{"script that is not there", []string{"console", "--now", "2031-04-24 08:00", script + "x"}, "", 2, "cannot be read"},
		{"script that is a directory", []string{"console", "--now", "2031-04-24 08:00", t.TempDir()}, "", 2, "cannot be read"},
		{"second script that is not there", []string{"console", "--now", "2031-04-24 08:00", script, script + "x"}, "", 2, "cannot be read"},
		{"rules that are not there", []string{"console", "--now", "2031-04-24 08:00", "--rules", script + "x"}, "", 2, "cannot be read"},
		{"configuration that is not there", []string{"check", "--config", script + "x"}, "", 2, "cannot be read"},
		{"line without a name", []string{"console", "--now", "2031-04-24 08:00"}, "Wren: due\n\nconfine 7\n", 2, `standard input, line 3: cannot read "confine 7"`},
		{"bad clock line", []string{"console", "--now", "2031-04-24 08:00"}, "@ soon\n", 2, "standard input, line 1"},
		{"bad command line", []string{"console", "--now", "2031-04-24 08:00"}, "! stop\n", 2, "put ! restart or ! down 6h"},
		{"message number 0", []string{"console", "--now", "2031-04-24 08:00"}, "Wren >0: done\n", 2, "line 1"},
		{"message number too large", []string{"console", "--now", "2031-04-24 08:00"}, "Wren >99999999999999999999: done\n", 2, "line 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := call(c.in, c.args...)
			oneLineSaid(t, r, c.code)
			assert.Contains(t, r.err, c.want)
		})
	}
	bad := write(t, "bad.txt", "# remark\nWren: due\n@ nowhen\n")
	r := call("", "console", "--now", "2031-04-24 08:00", script, bad)
	oneLineSaid(t, r, 2)
	assert.Contains(t, r.err, bad+", line 3")
	assert.Contains(t, r.out, "[1]", "what stood before it was played")
}

func TestScriptForms(t *testing.T) {
	for name, script := range map[string]string{
		"Windows line ends":    "# hello\r\n\r\nWren: add breeder 7\r\n@ +1d\r\n",
		"mark of UTF-8":        "\ufeffWren: add breeder 7\n",
		"no end of line":       "Wren: add breeder 7",
		"a clock without hour": "Wren: add breeder 7\n@ 2031-04-30\n",
	} {
		r := call(script, "console", "--now", "2031-04-24 08:00", "--json")
		assert.Zero(t, r.code, "%s: %s", name, r.err)
		assert.Contains(t, r.out, `"breeder 7"`, name)
	}
	r := call("Wren: add breeder 7\n@ 2031-04-20 08:00\nWren: due\n", "console", "--now", "2031-04-24 08:00")
	assert.Zero(t, r.code)
	assert.Contains(t, r.err, "has passed, the clock stays")
}

// broken is an output that takes so much and no more.
type broken struct{ left int }

func (b *broken) Write(p []byte) (int, error) {
	if b.left -= len(p); b.left < 0 {
		return 0, errors.New("no space left on device")
	}
	return len(p), nil
}

// An output that cannot be written to ends the program, however far the script
// moves the clock.
func TestOutputThatFails(t *testing.T) {
	var errOut strings.Builder
	e := testEnv("Wren: add breeder 7\nWren: confine 7\n@ +900d\n", nil, nil)
	e.out, e.errOut = &broken{left: 400}, &errOut
	code := run(t.Context(), []string{"console", "--now", "2031-04-24 08:00", "--json"}, e)
	oneLineSaid(t, result{code, "", errOut.String()}, 1)
	assert.Contains(t, errOut.String(), "no space left on device")
}

func TestDue(t *testing.T) {
	db := crewFile(t, "Wren: add breeder 7\nWren: confine 7 bees in\n@ 2031-04-28 10:00\nWren: comb out 7\nWren: graft 45 from 7\nWren: add builder B2\n@ 2031-05-07 19:00\nWren >: mine\n")
	now := []string{"due", "--db", db, "--now", "2031-05-07 20:00"}
	r := call("", append(now, "--json")...)
	require.Zero(t, r.code, r.err)
	zone := zoneOf(t, "America/Chicago")
	claimed := 0
	lines := strings.Split(strings.TrimSpace(r.out), "\n")
	for _, l := range lines {
		fields(t, []byte(l), dueFields)
		var d dueTask
		require.NoError(t, json.Unmarshal([]byte(l), &d))
		assert.Contains(t, steps, d.Step)
		subjectForm(t, d.Subject)
		assert.Contains(t, []string{"routine", "important", "critical"}, d.Weight)
		assert.Contains(t, []string{"waiting", "open", "over"}, d.State)
		early, best, late := local(t, d.Earliest, zone), local(t, d.Best, zone), local(t, d.Latest, zone)
		assert.False(t, best.Before(early) || late.Before(best), l)
		if d.ClaimedBy != nil {
			claimed++
			assert.Equal(t, "Wren", *d.ClaimedBy)
		}
	}
	assert.Equal(t, 1, claimed)
	text := call("", now...)
	assert.Len(t, strings.Split(strings.TrimSpace(text.out), "\n"), len(lines))
	on := call("", append(now, "--on", "2031-05-08", "--json")...)
	assert.Contains(t, on.out, `"step":"move"`)
	assert.NotContains(t, on.out, `"step":"laying"`)
	days := call("", append(now, "--days", "40", "--json")...)
	assert.Contains(t, days.out, `"step":"laying"`)
	none := call("", append(now, "--on", "2031-01-01", "--json")...)
	assert.Zero(t, none.code)
	assert.Empty(t, none.out)
}

func TestExport(t *testing.T) {
	db := crewFile(t, round+"@ +1h\nWren: =cmd|' /C calc'!A0 add breeder 8\nWren: add breeder 8\nWren: +add breeder 9\n@ +1h\nWren: skip, =1+1\n")
	r := call("", "export", "--db", db)
	require.Zero(t, r.code, r.err)
	logLines := strings.Split(strings.TrimSpace(r.out), "\n")
	for _, l := range logLines {
		fields(t, []byte(l), cells(exportLine{}, true))
	}
	out := filepath.Join(t.TempDir(), "log.csv")
	r = call("", "export", "--db", db, "--format", "csv", "--out", out)
	require.Zero(t, r.code, r.err)
	assert.Empty(t, r.out)
	for what, text := range map[string]string{"log": read(t, out), "tasks": call("", "export", "--db", db, "--what", "tasks", "--format", "csv").out} {
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		if what == "log" {
			assert.Len(t, rows, len(logLines)+1)
		}
		for _, row := range rows {
			for _, cell := range row {
				assert.False(t, cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])), "a spreadsheet would run %q", cell)
			}
		}
	}
	tasks := call("", "export", "--db", db, "--what", "tasks")
	for _, l := range strings.Split(strings.TrimSpace(tasks.out), "\n") {
		m := fields(t, []byte(l), cells(exportTask{}, true))
		for _, f := range []string{"counted_from", "source"} {
			assert.NotEqual(t, `""`, string(m[f]), l)
		}
	}
	for _, s := range []string{"=1", "+1", "-1", "@x", "\tx", "\rx", "\nx", "＝1"} {
		assert.Equal(t, "'"+s, wording.Inert(s))
	}
	for _, s := range []string{"", "batch 4", "45", "'x", "a=b"} {
		assert.Equal(t, s, wording.Inert(s))
	}
}

func TestRebuildCommand(t *testing.T) {
	db := crewFile(t, round)
	r := call("", "rebuild", "--db", db)
	require.Zero(t, r.code, r.err)
	assert.Equal(t, "rebuilt: everything as it was\n", r.out, "though the real clock is behind the script's")
	steps := write(t, "steps.csv", "step,earliest,best,latest\nlaying,200,300,500\n")
	r = call("", "rebuild", "--db", db, "--rules", steps)
	require.Zero(t, r.code, r.err)
	assert.Regexp(t, `^rebuilt: \d+ rows differ from before\n$`, r.out)
	r = call("", "rebuild", "--db", db)
	assert.Regexp(t, `^rebuilt: \d+ rows differ from before\n$`, r.out)
	r = call("", "rebuild", "--db", db)
	assert.Equal(t, "rebuilt: everything as it was\n", r.out)
}

// Every fault names its line and what to put instead.
func TestCheck(t *testing.T) {
	good := write(t, "good.toml", "zone = \"America/Chicago\"\nevening = \"19:30\"\ndays_off = \"Sunday\"\n")
	goodSteps := write(t, "good.csv", "step,earliest,best,latest,weight\nmove,216,230,238,critical\n")
	db := crewFile(t, round)
	r := call("", "check", "--config", good, "--rules", goodSteps, "--db", db)
	assert.Zero(t, r.code, r.out)
	assert.Equal(t, 3, strings.Count(r.out, ": good\n"))

	bad := write(t, "bad.toml", "zone = \"Chicago\"\nevening = \"25:00\"\n\nevning = \"19:00\"\nquiet = \"late\"\n")
	r = call("", "check", "--config", bad)
	assert.Equal(t, 1, r.code)
	assert.Empty(t, r.err)
	for _, want := range []string{":1: zone cannot be \"Chicago\"; put zone = \"America/Chicago\"", ":2: evening", ":4: there is no setting \"evning\"; put one of", ":5: quiet"} {
		assert.Contains(t, r.out, bad+want)
	}
	assert.Equal(t, 4, strings.Count(r.out, "\n"))

	for text, want := range map[string]string{
		"zone = \"UTC\"\nevening = 19\n":            ":2: ",
		"zone = \"UTC\"\nevening \"19:00\"\n":       ":2: ",
		"evening = \"22:00\"\n":                     ":1: evening clashes",
		"zone = \"UTC\"\n\nmorning = \"04:00\"\n":   ":3: morning clashes",
		"zone = \"UTC\"\nzone = \"Europe/Paris\"\n": ":2: ",
	} {
		path := write(t, "x.toml", text)
		r := call("", "check", "--config", path)
		assert.Equal(t, 1, r.code, text)
		assert.Contains(t, r.out, path+want)
		assert.Contains(t, r.out, "; put ")
	}

	faulty := write(t, "bad.csv", "step,earliest,best,latest,weight\nmoove,216,230,238,critical\nmove,soon,230,238,critical\ncapped,200,100,50,\nlaying,1,2,3,heavy\n")
	r = call("", "check", "--rules", faulty)
	assert.Equal(t, 1, r.code)
	for _, want := range []string{":2: there is no step \"moove\"; put ", ":3: earliest \"soon\" of move is not a number of hours; put ", ":4: capped opens at", ":5: weight \"heavy\""} {
		assert.Contains(t, r.out, faulty+want)
	}
	// The program itself refuses them, with the first fault.
	r = call("", "console", "--now", "2031-04-24 08:00", "--rules", faulty)
	oneLineSaid(t, r, 2)
	assert.Contains(t, r.err, "moove")
	r = call("", "console", "--now", "2031-04-24 08:00", "--config", bad)
	oneLineSaid(t, r, 2)

	r = call("", "check", "--db", write(t, "x.db", "not a database, but long enough to look like one"))
	assert.Equal(t, 1, r.code)
	assert.Contains(t, r.out, "not a database")
}
