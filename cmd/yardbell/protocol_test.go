package main

import (
	"bytes"
	"context"
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// result is what one call of the program came to.
type result struct {
	code     int
	out, err string
}

// call runs the program with standard input.
func call(in string, args ...string) result {
	var out, errOut bytes.Buffer
	code := run(context.Background(), args, testEnv(in, &out, &errOut))
	return result{code, out.String(), errOut.String()}
}

// oneLineSaid checks that a call failed with exactly one line on standard error.
func oneLineSaid(t testing.TB, r result, code int) {
	t.Helper()
	assert.Equal(t, code, r.code, "exit status; standard error: %s", r.err)
	assert.Equal(t, 1, strings.Count(r.err, "\n"), "lines on standard error: %q", r.err)
	assert.True(t, strings.HasSuffix(r.err, "\n"), r.err)
	assert.True(t, strings.HasPrefix(r.err, "yardbell: "), r.err)
}

// message is one line of the console's JSON, field by field as the protocol has it.
type message struct {
	N       int64   `json:"n"`
	Line    int     `json:"line"`
	At      string  `json:"at"`
	Kind    string  `json:"kind"`
	Ping    *string `json:"ping"`
	Step    *string `json:"step"`
	Subject *string `json:"subject"`
	ReplyTo *int64  `json:"reply_to"`
	Text    string  `json:"text"`
	Buttons []string
	Logged  []loggedLine
	Files   []string    `json:"files"`
	Items   *[]itemLine `json:"items,omitempty"`
}

type loggedLine struct {
	Action   string  `json:"action"`
	Step     *string `json:"step"`
	Subject  *string `json:"subject"`
	Count    *int    `json:"count"`
	Of       *int    `json:"of"`
	From     *int    `json:"from"`
	Into     *string `json:"into"`
	Mark     *string `json:"mark"`
	Happened string  `json:"happened"`
	By       string  `json:"by"`

	rules.Detail         // what only some lines say
	Until        *string `json:"until,omitempty"`
}

type itemLine struct {
	Step    string `json:"step"`
	Subject string `json:"subject"`
	Best    string `json:"best"`
	Latest  string `json:"latest"`
}

var (
	messageFields = []string{"n", "line", "at", "kind", "ping", "step", "subject", "reply_to", "text", "buttons", "logged"}
	loggedFields  = []string{"action", "step", "subject", "count", "of", "from", "into", "mark", "happened", "by"}
	itemFields    = []string{"step", "subject", "best", "latest"}
	dueFields     = []string{"step", "subject", "earliest", "best", "latest", "weight", "state", "claimed_by"}

	kinds = []string{"ping", "digest", "reply", "ask", "error", "notice"}
	pings = []string{"eve", "open", "closing", "over"}
	steps = strings.Fields("confine eggs combout graft accept finish capped handsoff rogue nucs move emerge flights laying catch recell feed drones dearth flow add virgin retire lose place temp queenless brood nuc rename assign away remind")
)

func valuesOf(t testing.TB, raw []byte) (m map[string]json.RawMessage) {
	t.Helper()
	require.NoError(t, json.Unmarshal(raw, &m), "%s", raw)
	return m
}

// fields checks that a JSON object has exactly these fields, none left out.
func fields(t testing.TB, raw []byte, want []string) map[string]json.RawMessage {
	t.Helper()
	var m map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(raw, &m), "%s", raw)
	for _, f := range want {
		assert.Contains(t, m, f, "%s", raw)
	}
	assert.Len(t, m, len(want), "%s", raw)
	return m
}

// local checks a local time with the offset that its zone has then.
func local(t testing.TB, s string, zone *time.Location) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, s)
	require.NoError(t, err)
	assert.Equal(t, at.In(zone).Format(time.RFC3339), s, "offset of the zone")
	return at
}

func subjectForm(t testing.TB, s string) {
	t.Helper()
	kind, key, ok := strings.Cut(s, " ")
	assert.True(t, ok && key != "", "subject %q", s)
	assert.Contains(t, []string{"breeder", "batch", "builder", "yard", "order", "incubator", "round", "nuc"}, kind)
}

// decode reads the console's JSON strictly: every field there, none besides, and
// only the values that the protocol names.
func decode(t testing.TB, out string, zone *time.Location) (list []message) {
	t.Helper()
	number := 0
	for _, l := range strings.Split(strings.TrimSuffix(out, "\n"), "\n") {
		if l == "" {
			continue
		}
		var m message
		dec := json.NewDecoder(strings.NewReader(l))
		dec.DisallowUnknownFields()
		require.NoError(t, dec.Decode(&m), l)
		want := messageFields
		if m.Kind == "digest" {
			want = append(slices.Clone(want), "items")
		}
		if m.Files != nil {
			want = append(slices.Clone(want), "files")
		}
		raw := fields(t, []byte(l), want)
		if m.Kind == "notice" { // the sign on somebody's message: no message of its own
			assert.Zero(t, m.N)
			assert.Empty(t, m.Text)
			continue
		}
		number++
		assert.EqualValues(t, number, m.N, "messages are numbered from 1")
		local(t, m.At, zone)
		assert.Contains(t, kinds, m.Kind)
		assert.Equal(t, m.Kind == "ping", m.Ping != nil, "ping is for pings: %s", l)
		if m.Ping != nil {
			assert.Contains(t, pings, *m.Ping)
			assert.NotNil(t, m.Step, l)
			assert.NotNil(t, m.Subject, l)
		}
		if m.Step != nil {
			assert.Contains(t, steps, *m.Step)
		}
		if m.Subject != nil {
			subjectForm(t, *m.Subject)
		}
		assert.NotEmpty(t, m.Text)
		assert.NotContains(t, m.Text, "<no value>")
		for _, f := range []string{"buttons", "logged"} {
			assert.NotEqual(t, "null", string(raw[f]), "%s is a list: %s", f, l)
		}
		var logged []json.RawMessage
		require.NoError(t, json.Unmarshal(raw["logged"], &logged))
		for k, x := range logged {
			more := 0 // which these are the decoder says, which refuses others
			for f, v := range valuesOf(t, x) {
				if !slices.Contains(loggedFields, f) {
					more++
					assert.NotContains(t, []string{"null", "false", `""`, "0"}, string(v), "%s: said only where it says something: %s", f, x)
				}
			}
			assert.Len(t, valuesOf(t, x), len(loggedFields)+more, "%s", x)
			e := m.Logged[k]
			if e.Until != nil {
				local(t, *e.Until, zone)
			}
			assert.Contains(t, []string{"did", "mine", "later", "skip", "void", "amend"}, e.Action)
			if e.Subject != nil && strings.HasPrefix(*e.Subject, "order ") {
				assert.Nil(t, e.Step, "an order is no step: %s", x)
			} else if assert.NotNil(t, e.Step, "%s", x) {
				assert.Contains(t, steps, *e.Step)
			}
			if e.Subject != nil {
				subjectForm(t, *e.Subject)
			}
			local(t, e.Happened, zone)
			assert.NotEmpty(t, e.By)
		}
		if m.Kind != "reply" {
			assert.True(t, len(m.Logged) == 0 || m.Kind == "ask", "a %s that logged: %s", m.Kind, l)
		}
		if m.Kind == "digest" {
			var items []json.RawMessage
			require.NoError(t, json.Unmarshal(raw["items"], &items))
			require.NotEmpty(t, items)
			for k, x := range items {
				fields(t, x, itemFields)
				it := (*m.Items)[k]
				assert.Contains(t, steps, it.Step)
				subjectForm(t, it.Subject)
				assert.False(t, local(t, it.Latest, zone).Before(local(t, it.Best, zone)), "%s", x)
			}
		}
		list = append(list, m)
	}
	return list
}

const round = `Wren: add breeder 7
Wren: add builder B2
Wren: add yard North 40 nucs
Wren: confine 7 red pin, bees in
@ +1d
Wren: eggs 7
Wren: comb out 7 red
@ 2031-04-28 10:00
Wren: graft 45 from 7 into B2
Wren: graft 90 from 99 into B7
Wren *: No
@ +1d
Wren: accepted 50
Wren: accepted 38
Wren: not 38, 37
@ +12h
Wren: finisher batch 1
@ +4d
Wren: capped 36
Ash: B2 clear
Ash: dearth
@ 2031-05-07 07:00
Wren: nucs 40 ready at North
@ 2031-05-07 20:00
Wren: due tomorrow
Wren >: mine
@ 2031-05-08 08:30
Ash: moved 34 to North
Ash: undo
Ash: moved 34 to North
@ +6d
Ash: emerged 31
Ash: skip, too wet
@ +30d
`

func zoneOf(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

// Every field of every message is as the protocol has it, in three zones.
func TestProtocolFieldByField(t *testing.T) {
	for _, name := range []string{"America/Chicago", "Australia/Sydney", "Asia/Kathmandu"} {
		t.Run(name, func(t *testing.T) {
			r := call(round, "console", "--db", filepath.Join(t.TempDir(), "crew.db"), "--zone", name, "--now", "2031-04-24 08:00", "--json")
			require.Zero(t, r.code, r.err)
			list := decode(t, r.out, zoneOf(t, name))
			got := map[string]int{}
			lines := strings.Split(round, "\n")
			last := time.Time{}
			for _, m := range list {
				got[m.Kind]++
				got["action "+actions(m)]++
				at, err := time.Parse(time.RFC3339, m.At)
				require.NoError(t, err)
				assert.False(t, at.Before(last), "messages go out in the order of time")
				last = at
				require.True(t, m.Line >= 1 && m.Line <= len(lines))
				l := lines[m.Line-1]
				switch m.Kind {
				case "ping", "digest":
					assert.True(t, strings.HasPrefix(l, "@"), "a %s belongs to a move of the clock, not to %q", m.Kind, l)
				case "reply", "error":
					assert.False(t, strings.HasPrefix(l, "@"), "a %s belongs to a message, not to %q", m.Kind, l)
				}
				if strings.Contains(l, ">") && m.Kind == "reply" {
					assert.NotNil(t, m.ReplyTo, "a reply to a reply names it")
				}
			}
			for _, k := range kinds[:4] {
				assert.Positive(t, got[k], "no %s in the script", k)
			}
			for _, a := range []string{"did", "mine", "void", "amend"} {
				assert.Positive(t, got["action "+a], "no %s in the script", a)
			}
		})
	}
}

func actions(m message) string {
	if len(m.Logged) == 0 {
		return ""
	}
	return m.Logged[0].Action
}

// Text output has the same messages in the same order, each with number and time.
func TestTextHasTheSameMessages(t *testing.T) {
	args := []string{"console", "--zone", "America/Chicago", "--now", "2031-04-24 08:00"}
	asJSON := call(round, append(args, "--json")...)
	text := call(round, args...)
	require.Zero(t, text.code, text.err)
	blocks := strings.Split(strings.TrimSpace(text.out), "\n\n[")
	list := decode(t, asJSON.out, zoneOf(t, "America/Chicago"))
	require.Len(t, blocks, len(list))
	for i, m := range list {
		head, body, _ := strings.Cut(strings.TrimPrefix(blocks[i], "["), "\n")
		at, err := time.Parse(time.RFC3339, m.At)
		require.NoError(t, err)
		assert.Contains(t, head, at.Format("Mon 2 Jan 2006 15:04"))
		assert.True(t, strings.HasPrefix(body, m.Text), "%s", body)
	}
	assert.NotContains(t, text.out, "\x1b", "no colour in a pipe")
}
