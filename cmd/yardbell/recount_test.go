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
var recounted = map[string][]string{
	"recount_places.py": {"incubators", "incubator", "builders"},
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
	for script, names := range recounted {
		t.Run(script, func(t *testing.T) {
			run := func(dir string) (string, error) {
				args := []string{filepath.Join(folder, script)}
				for _, n := range names {
					args = append(args, filepath.Join(dir, n+".jsonl"))
				}
				out, err := exec.CommandContext(t.Context(), python, args...).CombinedOutput() //nolint:gosec // of ours
				return string(out), err
			}
			out, err := run(folder)
			require.NoError(t, err, out)
			t.Log(strings.TrimSpace(out))

			changed := t.TempDir()
			for _, n := range names {
				for _, ext := range []string{".jsonl", ".out"} {
					b, err := os.ReadFile(filepath.Join(folder, n+ext))
					require.NoError(t, err)
					b = []byte(strings.Replace(string(b), "Hours=10.5", "Hours=9.5", 1))
					require.NoError(t, os.WriteFile(filepath.Join(changed, n+ext), b, 0o600))
				}
			}
			out, err = run(changed)
			require.Error(t, err)
			assert.Contains(t, out, "said 9.5, recounted 10.49")
		})
	}
}
