package calendar

import (
	"bytes"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func zone(t testing.TB, name string) *time.Location {
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

func sample(t testing.TB) Calendar {
	z := zone(t, "America/Chicago")
	at := time.Date(2031, 5, 15, 7, 0, 0, 0, z)
	return Calendar{Name: "North crew", Zone: z, Refresh: time.Hour, Events: []Event{{UID: "a@yardbell", Sequence: 3, Changed: at.Add(-time.Hour), Start: at, End: at.Add(3 * time.Hour),
		Summary: "move cells, batch 1: 36", Text: "Opens, best; closes.\nAnswer in the group.", Place: "North", Alarms: []time.Time{at.Add(-12 * time.Hour)},
		Earliest: at.Add(-20 * time.Hour), Best: at, Latest: at.Add(3 * time.Hour)},
		{UID: "b@yardbell", Sequence: 1, Changed: at, Start: at.AddDate(0, 7, 0), End: at.AddDate(0, 7, 0).Add(time.Hour), Summary: "gone", Cancelled: true, Alarms: []time.Time{at}}}}
}

func TestFile(t *testing.T) {
	b, err := sample(t).Bytes()
	require.NoError(t, err)
	s := string(b)
	for _, want := range []string{"BEGIN:VCALENDAR\r\n", "VERSION:2.0\r\n", "METHOD:PUBLISH\r\n", "TZID:America/Chicago\r\n", "DTSTART;TZID=America/Chicago:20310515T070000\r\n",
		"DTEND;TZID=America/Chicago:20310515T100000\r\n", "SEQUENCE:3\r\n", "STATUS:CONFIRMED\r\n", "STATUS:CANCELLED\r\n", "TRIGGER;VALUE=DATE-TIME:20310515T000000Z\r\n",
		"REFRESH-INTERVAL;VALUE=DURATION:PT60M\r\n", "X-YARDBELL-LATEST:20310515T150000Z\r\n", `DESCRIPTION:Opens\, best\; closes.\nAnswer in the group.`, "TZOFFSETTO:-0500\r\n", "TZOFFSETTO:-0600\r\n", "LAST-MODIFIED:20310515T110000Z\r\n"} {
		assert.Contains(t, s, want)
	}
	assert.Equal(t, 1, strings.Count(s, "BEGIN:VALARM"), "what is cancelled rings no more")
	again, err := sample(t).Bytes()
	require.NoError(t, err)
	assert.Equal(t, s, string(again))
}

// The clock changes of 2031 in Chicago are those of the zone database: 9 March and
// 2 November, at two in the morning.
func TestZone(t *testing.T) {
	b, err := sample(t).Bytes()
	require.NoError(t, err)
	assert.Contains(t, string(b), "BEGIN:DAYLIGHT\r\nDTSTART:20310309T020000\r\nTZOFFSETFROM:-0600\r\nTZOFFSETTO:-0500\r\nTZNAME:CDT\r\nEND:DAYLIGHT")
	assert.Contains(t, string(b), "BEGIN:STANDARD\r\nDTSTART:20311102T020000\r\nTZOFFSETFROM:-0500\r\nTZOFFSETTO:-0600\r\nTZNAME:CST\r\nEND:STANDARD")
	c := sample(t)
	c.Zone = time.UTC
	b, err = c.Bytes()
	require.NoError(t, err)
	assert.Contains(t, string(b), "BEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0000")
}

// Names and words of the crew stay words: no line of theirs becomes a line of the
// calendar, and no line is longer than the 75 octets that the standard allows.
func TestWordsStayWords(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := sample(t)
		words := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"x\r\nEND:VEVENT\r\nBEGIN:VEVENT", "a\nATTACH:http://x", "\\;,\\n", "x\u2028y", "\x00\x1b[31m", "\r", "END:VCALENDAR", strings.Repeat("é", 200)}))
		c.Name, c.Events[0].Summary, c.Events[0].Text, c.Events[0].Place = words.Draw(rt, "name"), words.Draw(rt, "summary"), words.Draw(rt, "text"), words.Draw(rt, "place")
		b, err := c.Bytes()
		require.NoError(rt, err)
		unfolded := strings.ReplaceAll(string(b), "\r\n ", "")
		n := map[string]int{}
		for _, l := range strings.Split(strings.TrimSuffix(unfolded, "\r\n"), "\r\n") {
			name, _, ok := strings.Cut(l, ":")
			require.True(rt, ok, "%q is no line of a calendar", l)
			require.NotContains(rt, l, "\n")
			require.NotContains(rt, l, "\r")
			n[name+l[len(name):min(len(l), len(name)+7)]]++
		}
		require.Equal(rt, 2, n["BEGIN:VEVENT"])
		require.Equal(rt, 2, n["END:VEVENT"])
		require.Zero(rt, n["ATTACH:http:/"])
		for _, l := range bytes.Split(b, []byte("\r\n")) {
			require.LessOrEqual(rt, len(l), 75)
		}
		back, err := ics.ParseCalendar(bytes.NewReader(b))
		require.NoError(rt, err)
		require.Len(rt, back.Events(), 2)
	})
}
