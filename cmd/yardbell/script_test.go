package main

import (
	"bytes"
	"context"
	"encoding/json"
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

	"yardbell/store"
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
	for _, m := range headForm.FindAllStringSubmatch(script, -1) {
		if m[1] == "zone" {
			zone = m[2]
		} else {
			now = m[2]
		}
	}
	require.NotEmpty(t, zone, "script names no zone")
	require.NotEmpty(t, now, "script names no start")
	return zone, now
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
	assert.Equal(t, read(t, path), got, "%s; go test ./cmd/yardbell -run Conversations -update writes it anew", filepath.Base(path))
}

// Every script says exactly what is written beside it, as text and field by field.
func TestConversations(t *testing.T) {
	inSequence(t)
	for _, c := range scripts(t) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			db := filepath.Join(t.TempDir(), "crew.db")
			expect(t, c.base+".out", c.play(t, db, "--echo"))
			expect(t, c.base+".jsonl", c.play(t, filepath.Join(t.TempDir(), "crew.db"), "--json"))
			sameAfterRebuild(t, db)
		})
	}
}

// sameAfterRebuild derives everything anew from the logbook and finds it as it was.
func sameAfterRebuild(t testing.TB, path string) {
	t.Helper()
	ctx := context.Background()
	db, err := store.Open(ctx, path, store.Options{})
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	var last time.Time
	require.NoError(t, db.View(ctx, time.Time{}, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		out, err := tx.Outbox(crews[0].ID)
		for _, m := range out {
			if m.Sent.After(last) {
				last = m.Sent
			}
		}
		return err
	}))
	var before, after string
	require.NoError(t, db.Update(ctx, last, func(tx *store.Tx) (err error) {
		if before, err = tx.Dump(); err != nil {
			return err
		}
		if err = tx.Rebuild(); err != nil {
			return err
		}
		after, err = tx.Dump()
		return err
	}))
	require.Equal(t, before, after, "derived rows after a rebuild")
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

// A restart after every line changes nothing at all.
func TestRestartChangesNothing(t *testing.T) {
	inSequence(t)
	for _, c := range fewerScripts(t) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			strip := regexp.MustCompile(`"line":\d+`)
			want := strip.ReplaceAllString(c.play(t, filepath.Join(t.TempDir(), "a.db"), "--json"), "")
			c.text = strings.ReplaceAll(c.text, "\n", "\n! restart\n")
			got := strip.ReplaceAllString(c.play(t, filepath.Join(t.TempDir(), "b.db"), "--json"), "")
			require.Equal(t, want, got)
		})
	}
}

// Where the service is away instead of waiting, every ping still comes, at most
// marked late, and the log is the same.
func TestDownChangesOnlyLateness(t *testing.T) {
	inSequence(t)
	for _, c := range fewerScripts(t) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			want := parse(t, c.play(t, filepath.Join(t.TempDir(), "a.db"), "--json"))
			lines := strings.Split(c.text, "\n")
			var moves []int // lines that move the clock to a time, not by a length
			for i, l := range lines {
				if strings.HasPrefix(l, "@ ") && !strings.HasPrefix(l, "@ +") {
					moves = append(moves, i)
				}
			}
			// Forty minutes away before a move of the clock, one move at a time; of long
			// scripts a few moves, others each time the script grows.
			for k := 0; k < len(moves); k += 1 + len(moves)/mostDowns {
				i := moves[k]
				c.text = strings.Join(slices.Concat(lines[:i], []string{"! down 40m"}, lines[i:]), "\n")
				got := parse(t, c.play(t, filepath.Join(t.TempDir(), fmt.Sprint(i, ".db")), "--json"))
				sameButLate(t, want, got, i+1)
			}
		})
	}
}

// mostDowns bounds how many outages are tried in one script.
var mostDowns = 6

func sameButLate(t *testing.T, want, got []map[string]any, line int) {
	t.Helper()
	bag := map[string]int{}
	for _, m := range want {
		bag[about(t, m).String()]++
	}
	for _, m := range got {
		bag[about(t, m).String()]--
	}
	for k, n := range bag {
		assert.Zero(t, n, "with the service away before line %d, %s differs by %d", line, k, n)
	}
}
