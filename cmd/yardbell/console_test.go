package main

import (
	"bytes"
	"encoding/json"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// On the real clock everything is said once, whatever else looks for what is due.
func TestConsoleLiveSaysEverythingOnce(t *testing.T) {
	for range 5 {
		var out, errOut bytes.Buffer
		r, w := io.Pipe()
		go func() {
			for _, l := range []string{"add breeder 7", "Ash: add builder B2", "graft 45 from 7 into B2", "due", "@ +1d"} {
				_, _ = io.WriteString(w, l+"\n")
			}
			_ = w.Close()
		}()
		e := testEnv("", &out, &errOut)
		e.in, e.clock = r, time.Now
		require.Equal(t, 0, run(t.Context(), []string{"console", "--db", filepath.Join(t.TempDir(), "crew.db"), "--zone", "UTC", "--json"}, e), errOut.String())
		var numbers, lines []int
		for _, l := range strings.Split(strings.TrimSpace(out.String()), "\n") {
			var m struct{ N, Line int }
			require.NoError(t, json.Unmarshal([]byte(l), &m), l)
			numbers, lines = append(numbers, m.N), append(lines, m.Line)
		}
		require.Equal(t, []int{1, 2, 3, 4}, numbers, out.String())
		assert.Equal(t, []int{1, 2, 3, 4}, lines)
		assert.Contains(t, errOut.String(), "the clock here is the real one")
	}
}

// The pings of a group are the group's: the console does not take them, neither beside
// the service nor after it, and the service does not take the console's.
func TestConsoleLeavesAGroupsPings(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "add breeder 7")
	ahead := w.clock.Now().Add(48 * time.Hour).Format("2006-01-02 15:04")
	r := call("Zed: due\n@ +1d\n", "console", "--db", w.db, "--now", ahead)
	oneLineSaid(t, r, 1)
	assert.Contains(t, r.err, "is served by another process already")
	w.quit()
	r = call("Zed: due\n@ +1d\n", "console", "--db", w.db, "--now", ahead)
	oneLineSaid(t, r, 2)
	assert.Contains(t, r.err, "holds a crew of telegram")
	assert.Empty(t, r.out)

	played := filepath.Join(t.TempDir(), "my.db")
	require.Zero(t, call("Me: add breeder 7\n", "console", "--db", played, "--now", "2031-04-24 08:00").code)
	var out, errOut bytes.Buffer
	assert.Equal(t, 2, run(t.Context(), []string{"serve", "--db", played, "--api", w.URL()}, w.env(&out, &errOut)))
	assert.Contains(t, errOut.String(), "was played at the console; serve a file of its own")
	assert.Empty(t, out.String())

	// Where both are in a file, from before that was refused, the group is served.
	require.NoError(t, w.reader.Close())
	w.reader = nil
	db, err := store.Open(t.Context(), w.db, store.Options{})
	require.NoError(t, err)
	require.NoError(t, db.Update(t.Context(), w.clock.Now(), func(tx *store.Tx) error {
		_, err := tx.NewCrew(consoleSource, consoleChat, map[string]string{"zone": "UTC"})
		return err
	}))
	require.NoError(t, db.Close())
	w.serve()
	assert.Contains(t, w.says(w.wren, "due").Text, "Nothing due")
	assert.Contains(t, w.err.String(), "another crew than the group's")
}
