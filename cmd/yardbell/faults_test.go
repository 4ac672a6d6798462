package main

import (
	"bufio"
	"crypto/sha256"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	_ "modernc.org/sqlite"
)

// programName is what the test binary is called where it is to be the program.
const programName = "yardbell"

// binary is the program, for the tests that need a real process: the test binary under
// the program's name. Under the race detector, which slows it down, it is built.
var binary = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "yardbell-test-")
	if err != nil {
		return "", err
	}
	built = dir
	path := filepath.Join(dir, programName)
	if self, err := os.Executable(); err == nil && !underRace && os.Symlink(self, path) == nil {
		return path, nil
	}
	if runtime.GOOS == "windows" {
		path += ".exe"
	}
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	if err != nil {
		err = fmt.Errorf("%w: %s", err, out)
	}
	return path, err
})

// built is the folder of binary, empty where no test asked for it.
var built string

func TestMain(m *testing.M) {
	if filepath.Base(os.Args[0]) == programName {
		main()
		return
	}
	signal.Reset(os.Interrupt, syscall.SIGTERM) // which the program asks for as soon as it is loaded: a test run ends by them
	if path := os.Getenv("YARDBELL_TEST_HOLD"); path != "" {
		hold(path)
		return
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400) // many short lives: collecting is a third of the work else
	}
	code := m.Run()
	if built != "" {
		_ = os.RemoveAll(built)
	}
	os.Exit(code)
}

// hold keeps a database file to this process until its input ends.
func hold(path string) {
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=locking_mode(exclusive)")
	if err == nil {
		db.SetMaxOpenConns(1)
		_, err = db.Exec(`BEGIN EXCLUSIVE`)
	}
	fmt.Println("held", err)
	_, _ = io.Copy(io.Discard, os.Stdin)
}

func heldByAnother(t *testing.T, path string) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), "YARDBELL_TEST_HOLD="+path)
	in, err := c.StdinPipe()
	require.NoError(t, err)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() { _ = in.Close(); _ = c.Wait() })
	said, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, "held <nil>\n", said)
}

func sqlite(t *testing.T, path, query string) {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path)
	require.NoError(t, err)
	_, err = db.Exec(query)
	require.NoError(t, err)
	require.NoError(t, db.Close())
}

func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range list {
		if !e.IsDir() {
			out[e.Name()] = fmt.Sprintf("%x", sha256.Sum256([]byte(read(t, filepath.Join(dir, e.Name())))))
		}
	}
	return out
}

// A database file that cannot be used: one line, exit status 1, by every command,
// and nothing changed.
func TestDatabaseFaults(t *testing.T) {
	good := crewFile(t, round)
	put := func(t *testing.T, path string, change func([]byte) []byte) {
		t.Helper()
		require.NoError(t, os.WriteFile(path, change([]byte(read(t, good))), 0o600))
	}
	same := func(b []byte) []byte { return b }
	for _, c := range []struct {
		name string
		make func(t *testing.T, path string)
		want string
	}{
		{"directory", func(t *testing.T, path string) { require.NoError(t, os.Mkdir(path, 0o700)) }, "is a directory"},
		{"read-only", func(t *testing.T, path string) { put(t, path, same); require.NoError(t, os.Chmod(path, 0o400)) }, "is read-only"},
		{"newer", func(t *testing.T, path string) {
			put(t, path, same)
			sqlite(t, path, `INSERT INTO goose_db_version (version_id, is_applied) VALUES (900, 1)`)
		}, "newer version of Yardbell"},
		{"another program's", func(t *testing.T, path string) { sqlite(t, path, `CREATE TABLE t (a)`) }, "another program"},
		{"text", func(t *testing.T, path string) {
			put(t, path, func([]byte) []byte { return []byte(strings.Repeat("7\n", 5000)) })
		}, "not a database"},
		{"truncated", func(t *testing.T, path string) { put(t, path, func(b []byte) []byte { return b[:len(b)/3] }) }, "is damaged"},
		{"header of noise", func(t *testing.T, path string) {
			put(t, path, func(b []byte) []byte {
				r := rand.New(rand.NewPCG(1, 1))
				for i := range 100 {
					b[i] = byte(r.IntN(256))
				}
				return b
			})
		}, "is damaged"},
		{"pages of noise", func(t *testing.T, path string) {
			put(t, path, func(b []byte) []byte {
				r := rand.New(rand.NewPCG(2, 2))
				for i := 4 * 4096; i < len(b); i += 1 + r.IntN(40) {
					b[i] ^= byte(1 + r.IntN(255))
				}
				return b
			})
		}, "is damaged"},
		{"held by another process", func(t *testing.T, path string) { put(t, path, same); heldByAnother(t, path) }, "is locked by another program"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			path := filepath.Join(dir, "crew.db")
			c.make(t, path)
			before := contents(t, dir)
			for _, args := range [][]string{
				{"console", "--now", "2031-06-30 08:00", "--db", path},
				{"due", "--db", path, "--json"},
				{"export", "--db", path},
				{"rebuild", "--db", path},
				{"join", "--db", path},
			} {
				if strings.HasPrefix(c.name, "held") && args[0] != "console" {
					continue // each would wait for the lock
				}
				r := call("Wren: add breeder 9\n", args...)
				oneLineSaid(t, r, 1)
				assert.Contains(t, r.err, c.want, args[0])
				assert.Contains(t, r.err, path)
				assert.Empty(t, r.out)
			}
			assert.Equal(t, before, contents(t, dir), "the folder afterwards")
		})
	}
	t.Run("in a missing folder", func(t *testing.T) {
		dir := t.TempDir()
		r := call("Wren: due\n", "console", "--now", "2031-06-30 08:00", "--db", filepath.Join(dir, "none", "crew.db"))
		oneLineSaid(t, r, 1)
		assert.Contains(t, r.err, "there is no folder")
		assert.Empty(t, contents(t, dir))
	})
	t.Run("empty", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "crew.db")
		require.NoError(t, os.WriteFile(path, nil, 0o600))
		for _, args := range [][]string{{"due"}, {"console", "--now", "2031-06-30 08:00"}, {"export"}} {
			r := call("Wren: add breeder 9\n", append(args, "--db", path)...)
			oneLineSaid(t, r, 1)
			assert.Contains(t, r.err, path+" is there but empty (0 bytes)")
		}
		st, err := os.Stat(path)
		require.NoError(t, err)
		assert.Zero(t, st.Size(), "left as it is")
	})
}

// A process killed at any moment has kept everything that it acknowledged: each
// line it answered is in the logbook once, the file is whole, what is derived is
// what the logbook says, and the next one goes on from there.
func TestKilledProcessLosesNothing(t *testing.T) {
	t.Parallel()
	program, err := binary()
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "crew.db")
	r := rand.New(rand.NewPCG(7, 7))
	acknowledged := map[string]bool{}
	next := 1
	for range 8 {
		c := exec.Command(program, "console", "--db", path, "--zone", "UTC", "--now", "2031-04-24 08:00", "--json")
		c.Env = append(os.Environ(), "GORACE=")
		in, err := c.StdinPipe()
		require.NoError(t, err)
		out, err := c.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, c.Start())
		// More is written than is waited for, so that the kill finds it at work.
		written, answers := 10+r.IntN(30), 1+r.IntN(8)
		first := next
		next += written
		go func() {
			for n := first; n < first+written; n++ {
				if _, err := fmt.Fprintf(in, "Wren: add breeder %d\nWren: confine %d\n", n, n); err != nil {
					return
				}
			}
		}()
		lines := bufio.NewReader(out)
		for n := 0; ; n++ {
			l, err := lines.ReadString('\n')
			if err != nil {
				break
			}
			if n == answers {
				require.NoError(t, c.Process.Kill())
			}
			var m message
			require.NoError(t, json.Unmarshal([]byte(l), &m), l)
			for _, e := range m.Logged {
				acknowledged[*e.Step+" "+*e.Subject] = true
			}
		}
		require.Error(t, c.Wait(), "it was killed")

		logbook := map[string]int{}
		exported := call("", "export", "--db", path)
		require.Zero(t, exported.code, exported.err)
		for _, l := range strings.Split(strings.TrimSpace(exported.out), "\n") {
			var e loggedLine
			require.NoError(t, json.Unmarshal([]byte(l), &e))
			if e.Step != nil && e.Action == "did" {
				logbook[*e.Step+" "+*e.Subject]++
			}
		}
		for k := range acknowledged {
			assert.Equal(t, 1, logbook[k], "%s was acknowledged", k)
		}
		for k, n := range logbook {
			assert.Equal(t, 1, n, k)
		}
		assert.Zero(t, call("", "check", "--db", path).code)
		assert.Equal(t, "rebuilt: everything as it was\n", call("", "rebuild", "--db", path).out)
	}
	assert.Greater(t, len(acknowledged), 8)
}
