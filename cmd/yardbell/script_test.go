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

// scripts lists the conversation scripts; each names its zone and start in its
// head, "# zone: America/Chicago" and "# now: 2031-04-24 08:00".
func scripts(t testing.TB) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(conversations, "*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, list)
	var some []string
	for i := 0; i < len(list); i += everyScript {
		some = append(some, list[i])
	}
	return some
}

// everyScript is the stride through the scripts: all of them, but under the race
// detector, which is after races and makes the database some ten times slower.
var everyScript = 1

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
func play(t testing.TB, script, db string, args ...string) string {
	t.Helper()
	zone, now := head(t, script)
	var out, errOut bytes.Buffer
	code := run(context.Background(), append([]string{"console", "--db", db, "--zone", zone, "--now", now}, args...), testEnv(script, &out, &errOut))
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
	for _, path := range scripts(t) {
		base := strings.TrimSuffix(path, ".txt")
		t.Run(filepath.Base(base), func(t *testing.T) {
			t.Parallel()
			script := read(t, path)
			db := filepath.Join(t.TempDir(), "crew.db")
			expect(t, base+".out", play(t, script, db, "--echo"))
			expect(t, base+".jsonl", play(t, script, filepath.Join(t.TempDir(), "crew.db"), "--json"))
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
	for _, path := range scripts(t) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			t.Parallel()
			script := read(t, path)
			strip := regexp.MustCompile(`"line":\d+`)
			want := strip.ReplaceAllString(play(t, script, filepath.Join(t.TempDir(), "a.db"), "--json"), "")
			again := strings.ReplaceAll(script, "\n", "\n! restart\n")
			got := strip.ReplaceAllString(play(t, again, filepath.Join(t.TempDir(), "b.db"), "--json"), "")
			require.Equal(t, want, got)
		})
	}
}

// Where the service is away instead of waiting, every ping still comes, at most
// marked late, and the log is the same.
func TestDownChangesOnlyLateness(t *testing.T) {
	for _, path := range scripts(t) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			t.Parallel()
			script := read(t, path)
			want := parse(t, play(t, script, filepath.Join(t.TempDir(), "a.db"), "--json"))
			lines := strings.Split(script, "\n")
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
				cut := slices.Concat(lines[:i], []string{"! down 40m"}, lines[i:])
				got := parse(t, play(t, strings.Join(cut, "\n"), filepath.Join(t.TempDir(), fmt.Sprint(i, ".db")), "--json"))
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
