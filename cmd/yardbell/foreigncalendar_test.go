package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// importedEvent is an event of a calendar as a parser by somebody else read it.
// Times are UTC.
type importedEvent struct {
	UID      string   `json:"uid"`
	Sequence int      `json:"sequence"`
	Status   string   `json:"status"`
	Start    string   `json:"start"`
	End      string   `json:"end"`
	Summary  string   `json:"summary"`
	Text     string   `json:"text"`
	Place    string   `json:"place"`
	Step     string   `json:"step"`
	Subject  string   `json:"subject"`
	Earliest string   `json:"earliest"`
	Best     string   `json:"best"`
	Latest   string   `json:"latest"`
	Alarms   []string `json:"alarms"`
}

// imported is one file as ical.js and node-ical read it.
type imported struct {
	ICAL []importedEvent `json:"ical"`
	Node []importedEvent `json:"node"`
}

func importCalendars(t *testing.T, paths []string) (read []imported) {
	t.Helper()
	c := exec.Command("node", append([]string{"calendar.js"}, paths...)...)
	c.Dir = "../../testdata/foreign"
	var errOut strings.Builder
	c.Stderr = &errOut
	out, err := c.Output()
	require.NoError(t, err, errOut.String())
	require.NoError(t, json.Unmarshal(out, &read))
	require.Len(t, read, len(paths))
	return read
}

// snapshot is the calendar and the open tasks at one moment of a script.
type snapshot struct {
	file string
	due  []string // step, subject, earliest, best, latest
}

// snapshots plays a script in pieces and writes the calendar after each.
func snapshots(t *testing.T, c conversation, pieces int) (list []snapshot) {
	t.Helper()
	zone, now := head(t, c.text)
	dir := t.TempDir()
	db := filepath.Join(dir, "crew.db")
	lines := strings.SplitAfter(c.text, "\n")
	for i := range pieces {
		piece := strings.Join(lines[len(lines)*i/pieces:len(lines)*(i+1)/pieces], "")
		r := call(piece, "console", "--db", db, "--zone", zone, "--lang", c.lang, "--now", now, "--json")
		require.Zero(t, r.code, r.err)
		for _, m := range parse(t, r.out) {
			at, err := time.Parse(time.RFC3339, m["at"].(string))
			require.NoError(t, err)
			now = at.Format("2006-01-02 15:04") // as the crew's clock shows it
		}
		s := snapshot{file: filepath.Join(dir, fmt.Sprint(i, ".ics"))}
		r = call("", "calendar", "--db", db, "--out", s.file)
		require.Zero(t, r.code, r.err)
		for _, m := range parse(t, call("", "due", "--db", db, "--json").out) {
			s.due = append(s.due, dueWords(t, m))
		}
		list = append(list, s)
	}
	return list
}

// dueWords spells an open task as due printed it, with its times in UTC.
func dueWords(t *testing.T, m map[string]any) string {
	t.Helper()
	words := []string{m["step"].(string), m["subject"].(string)}
	for _, k := range []string{"earliest", "best", "latest"} {
		at, err := time.Parse(time.RFC3339, m[k].(string))
		require.NoError(t, err)
		words = append(words, at.UTC().Format(importedForm))
	}
	return strings.Join(words, "|")
}

const importedForm = "2006-01-02T15:04:05.000Z"

// Whole seasons, and the clock changes of both halves of the world: what two parsers
// by others read in the calendar is what is due, event by event, and the hours shown
// are the same instants, whether the zone is taken from the file or known already.
func TestForeignCalendar(t *testing.T) {
	if os.Getenv("YARDBELL_FOREIGN") == "" {
		t.Skip("needs node; npm ci in testdata/foreign, then YARDBELL_FOREIGN=1")
	}
	var paths []string
	var want []snapshot
	for _, c := range slices.Concat(scriptsIn(t, "en"), scriptsIn(t, "es")) {
		pieces := 0
		switch base := filepath.Base(c.base); {
		case base == "season":
			pieces = 12
		case strings.HasPrefix(base, "clocks_") && c.lang == "en", base == "calendar":
			pieces = 3
		}
		for i, s := range snapshots(t, c, pieces) {
			paths, want = append(paths, s.file), append(want, s)
			t.Logf("%s, piece %d: %d open tasks", c.name, i+1, len(s.due))
		}
	}
	events, cancelled, alarms := 0, 0, 0
	sequences := map[string]int{} // by the folder of the script and the event
	for i, read := range importCalendars(t, paths) {
		require.ElementsMatch(t, read.ICAL, read.Node, "the parsers differ on %s", paths[i])
		var shown []string
		for _, e := range read.ICAL {
			key := filepath.Dir(paths[i]) + e.UID
			assert.GreaterOrEqual(t, e.Sequence, sequences[key], e.Summary)
			sequences[key] = e.Sequence
			events, alarms = events+1, alarms+len(e.Alarms)
			if e.Status == "CANCELLED" {
				cancelled++
				assert.Empty(t, e.Alarms, "what is cancelled rings no more")
				continue
			}
			assert.Equal(t, "CONFIRMED", e.Status)
			assert.Contains(t, []string{e.Best, e.Earliest}, e.Start, e.Summary)
			assert.Less(t, e.Start, e.End, e.Summary)
			shown = append(shown, strings.Join([]string{e.Step, e.Subject, e.Earliest, e.Best, e.Latest}, "|"))
		}
		require.ElementsMatch(t, want[i].due, shown, paths[i])
	}
	t.Logf("%d files, %d events, %d of them cancelled, %d alarms", len(paths), events, cancelled, alarms)
	assert.NotZero(t, cancelled)
	assert.NotZero(t, alarms)
}
