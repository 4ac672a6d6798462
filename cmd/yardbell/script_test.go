package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the expected output of the conversation scripts anew")

const conversations = "../../testdata/conversations"

// conversation is one script, in the language that its crew is answered in.
type conversation struct {
	name string // claims, and es/claims for the same in Spanish
	base string // the path without its ending
	lang string
	text string
}

// scripts lists the conversation scripts, the English ones first; each names its
// zone and start in its head, "# zone: America/Chicago" and "# now: 2031-04-24 08:00".
// The same conversations by a Spanish crew stand in es/, under the same names.
func scripts(t testing.TB) []conversation {
	t.Helper()
	var list []conversation
	for i, c := range slices.Concat(scriptsIn(t, "en"), scriptsIn(t, "es")) {
		if i%everyScript == 0 {
			list = append(list, c)
		}
	}
	return list
}

// fewerScripts is for the slow tests: of what is the same in both languages, every
// fourth one in Spanish will do.
func fewerScripts(t testing.TB) (list []conversation) {
	t.Helper()
	for i, c := range scripts(t) {
		if c.lang == "en" || i%4 == 0 {
			list = append(list, c)
		}
	}
	return list
}

func scriptsIn(t testing.TB, lang string) (list []conversation) {
	t.Helper()
	dir, prefix := conversations, ""
	if lang != "en" {
		dir, prefix = filepath.Join(dir, lang), lang+"/"
	}
	paths, err := filepath.Glob(filepath.Join(dir, "*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		base := strings.TrimSuffix(path, ".txt")
		list = append(list, conversation{name: prefix + filepath.Base(base), base: base, lang: lang, text: read(t, path)})
	}
	return list
}

// allTests plays all there is, as .ci/run does; without it the long tests play a part.
var allTests = os.Getenv("YARDBELL_TESTS") == "all"

// everyScript is the stride through the scripts: all of them, but under the race
// detector, which is after races and makes the database some ten times slower.
var everyScript = 1

// underRace is set where the race detector watches.
var underRace bool

// inSequence passes a test over under the race detector in which nothing runs beside
// anything else: it would find nothing there, ten times as slowly.
func inSequence(t *testing.T) {
	t.Helper()
	if underRace {
		t.Skip("nothing runs beside anything else here")
	}
}

var headForm = regexp.MustCompile(`(?m)^# (zone|now): (.*)$`)

func head(t testing.TB, script string) (zone, now string) {
	t.Helper()
	zone, now, err := headOf(script)
	require.NoError(t, err)
	return zone, now
}

func headOf(script string) (zone, now string, err error) {
	for _, m := range headForm.FindAllStringSubmatch(script, -1) {
		if m[1] == "zone" {
			zone = m[2]
		} else {
			now = m[2]
		}
	}
	if zone == "" || now == "" {
		err = errors.New("the script names no zone or no start")
	}
	return zone, now, err
}

// testEnv is the world of a test: no environment, a clock that stands.
func testEnv(in string, out, errOut *bytes.Buffer) env {
	return env{in: strings.NewReader(in), out: out, errOut: errOut, get: func(string) string { return "" },
		clock: func() time.Time { return time.Date(2031, 1, 1, 12, 0, 0, 0, time.UTC) },
		tty:   func(io.Writer) bool { return false }, sleep: func(time.Duration) {}}
}

// play runs a script on a fresh database and gives its output.
func (c conversation) play(t testing.TB, db string, args ...string) string {
	t.Helper()
	zone, now := head(t, c.text)
	var out, errOut bytes.Buffer
	code := run(context.Background(), append([]string{"console", "--db", db, "--zone", zone, "--lang", c.lang, "--now", now}, args...), testEnv(c.text, &out, &errOut))
	require.Equal(t, 0, code, "exit status; standard error: %s", errOut.String())
	return out.String()
}

func read(t testing.TB, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

// expect compares with the file, or writes it anew with -update.
func expect(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		return
	}
	assert.Equal(t, read(t, path), got, "%s; go test ./cmd/yardbell -run TestConversations -update writes it anew", filepath.Base(path))
}

// spoken is what a message is about, whatever its wording and hour.
type spoken struct {
	Kind, Ping, Step, Subject string
	Logged                    string
}

func parse(t testing.TB, out string) (list []map[string]any) {
	t.Helper()
	for _, l := range strings.Split(strings.TrimSpace(out), "\n") {
		if l == "" {
			continue
		}
		var m map[string]any
		require.NoError(t, json.Unmarshal([]byte(l), &m), l)
		list = append(list, m)
	}
	return list
}

func (s spoken) String() string {
	return fmt.Sprintf("%s/%s %s %s %s", s.Kind, s.Ping, s.Step, s.Subject, s.Logged)
}

func about(t testing.TB, m map[string]any) spoken {
	t.Helper()
	str := func(k string) string { s, _ := m[k].(string); return s }
	logged, err := json.Marshal(m["logged"])
	require.NoError(t, err)
	return spoken{str("kind"), str("ping"), str("step"), str("subject"), string(logged)}
}
