package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// recounted are the conversations whose numbers each script of testdata works out again.
var recounted = map[string]struct {
	names         []string
	said, changed string // a number in them, and another one in its place
	found         string // what the script says of that
}{
	"recount_places.py":   {[]string{"incubators", "incubator", "builders"}, "Hours=10.5", "Hours=9.5", "said 9.5, recounted 10.49"},
	"recount_accounts.py": {[]string{"by_yard", "batch_lost", "losses", "split_yards"}, "s_count(Count=18, Past=past_emerge)", "s_count(Count=17, Past=past_emerge)", "said 17, recounted 18"},
}

// TestRecount holds the numbers in transcripts to scripts in another language that share no
// code and no table with the program, and the scripts to finding a number that was changed.
func TestRecount(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("no python3")
	}
	folder, err := filepath.Abs("../../testdata/conversations")
	require.NoError(t, err)
	for script, c := range recounted {
		t.Run(script, func(t *testing.T) {
			run := func(dir string) (string, error) {
				args := []string{filepath.Join(folder, script)}
				for _, n := range c.names {
					args = append(args, filepath.Join(dir, n+".jsonl"))
				}
				out, err := exec.CommandContext(t.Context(), python, args...).CombinedOutput() //nolint:gosec // of ours
				return string(out), err
			}
			out, err := run(folder)
			require.NoError(t, err, out)
			t.Log(strings.TrimSpace(out))

			changed := t.TempDir()
			for _, n := range c.names {
				for _, ext := range []string{".jsonl", ".out"} {
					b, err := os.ReadFile(filepath.Join(folder, n+ext))
					require.NoError(t, err)
					b = []byte(strings.Replace(string(b), c.said, c.changed, 1))
					require.NoError(t, os.WriteFile(filepath.Join(changed, n+ext), b, 0o600))
				}
			}
			out, err = run(changed)
			require.Error(t, err)
			assert.Contains(t, out, c.found)
		})
	}
}
