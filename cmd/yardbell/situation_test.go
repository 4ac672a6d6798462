package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// Situations begin here: an empty crew in Chicago.
const (
	situationZone  = "America/Chicago"
	situationStart = "2031-04-24 08:00"
)

// situation is a state of a crew's season that lines are said in: its database is
// built once, and each line and each tap gets a copy.
type situation struct {
	name  string
	lines []string

	once  sync.Once
	db    string
	now   string
	pings []heard
	err   error
}

// readSituations reads a file of "== NAME PARENT" and the console lines that lead
// from the parent to it. C0 is another name of base.
func readSituations(t testing.TB, path string) map[string]*situation {
	t.Helper()
	list := map[string]*situation{}
	var at *situation
	for i, l := range strings.Split(read(t, path), "\n") {
		f := strings.Fields(l)
		switch {
		case len(f) == 0 || f[0] == "#":
		case f[0] == "==":
			require.True(t, len(f) == 2 || len(f) == 3, "%s:%d: a name, and whose state it goes on from", path, i+1)
			at = &situation{name: f[1]}
			require.NotContains(t, list, at.name, "%s:%d", path, i+1)
			if len(f) == 3 {
				require.Contains(t, list, f[2], "%s:%d", path, i+1)
				at.lines = append(at.lines, list[f[2]].lines...)
			}
			list[at.name] = at
		default:
			require.NotNil(t, at, "%s:%d: no situation is named yet", path, i+1)
			at.lines = append(at.lines, l)
		}
	}
	if list["C0"] == nil && list["base"] != nil {
		list["C0"] = list["base"]
	}
	return list
}

// consoleJSON plays lines on a database from a moment on, as the console command
// does, and gives what the bot said.
func consoleJSON(db, now, lang string, lines ...string) ([]heard, error) {
	var out, errOut bytes.Buffer
	code := run(context.Background(), []string{"console", "--db", db, "--zone", situationZone, "--lang", lang, "--now", now, "--json"},
		testEnv(strings.Join(lines, "\n")+"\n", &out, &errOut))
	if code != 0 {
		return nil, fmt.Errorf("exit status %d: %s", code, strings.TrimSpace(errOut.String()))
	}
	return hears(out.String())
}

// build plays the situation, once.
func (s *situation) build(dir, lang string) error {
	s.once.Do(func() {
		s.db, s.now = filepath.Join(dir, s.name, "crew.db"), situationStart
		if s.err = os.MkdirAll(filepath.Dir(s.db), 0o700); s.err != nil {
			return
		}
		for _, l := range s.lines {
			if to, ok := strings.CutPrefix(l, "@ "); ok {
				s.now = to
			}
		}
		msgs, err := consoleJSON(s.db, situationStart, lang, s.lines...)
		if err != nil {
			s.err = fmt.Errorf("situation %s: %w", s.name, err)
			return
		}
		for _, m := range msgs {
			if m.Kind == "ping" {
				s.pings = append(s.pings, m)
			}
		}
	})
	return s.err
}

var (
	replyToStep = regexp.MustCompile(`^>([a-z]+)>(.*)$`)
	saysForm    = regexp.MustCompile(`^(\pL+)\|(.*)$`)
)

// says puts a line into the console's form: who says it, and to which ping it
// replies. ">" is the newest ping of the move, ">STEP>" of that step; where there is
// none, the newest of no step. "NAME|" before it is somebody else.
func (s *situation) says(who, text string) (name, line string) {
	if m := saysForm.FindStringSubmatch(text); m != nil {
		who, text = m[1], m[2]
	}
	body, reply := strings.CutPrefix(text, ">")
	if !reply {
		return who, who + ": " + text
	}
	step := "move"
	if m := replyToStep.FindStringSubmatch(text); m != nil {
		step, body = m[1], m[2]
	}
	var of, none int64
	for _, m := range s.pings {
		switch m.Step {
		case step:
			of = m.N
		case "":
			none = m.N
		}
	}
	if of == 0 {
		of = none
	}
	if of == 0 {
		return who, who + " >: " + body
	}
	return who, fmt.Sprintf("%s >%d: %s", who, of, body)
}

// copyDB copies a closed database.
func copyDB(from, to string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
		return err
	}
	for _, end := range []string{"", "-wal"} {
		in, err := os.Open(from + end)
		if end != "" && os.IsNotExist(err) {
			continue
		}
		if err != nil {
			return err
		}
		out, err := os.Create(to + end)
		if err == nil {
			_, err = io.Copy(out, in)
			if e := out.Close(); err == nil {
				err = e
			}
		}
		_ = in.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

// answersTo plays one line on a copy of a database and gives what the bot said to it.
func answersTo(from, to, now, lang, line string) (said []heard, err error) {
	if err := copyDB(from, to); err != nil {
		return nil, err
	}
	all, err := consoleJSON(to, now, lang, line)
	for _, m := range all {
		if m.Line == 1 {
			said = append(said, m)
		}
	}
	return said, err
}
