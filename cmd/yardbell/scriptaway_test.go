package main

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inTurn gives each script to one of three tests that play it in another way, where not
// all is played.
func inTurn(t testing.TB, turn int) (list []conversation) {
	t.Helper()
	for i, c := range fewerScripts(t) {
		if allTests || i%3 == turn {
			list = append(list, c)
		}
	}
	return list
}

// A restart after every line changes nothing at all.
func TestRestartChangesNothing(t *testing.T) {
	inSequence(t)
	list := inTurn(t, 0)
	all := playAll(t, list)
	for _, c := range list {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			strip := regexp.MustCompile(`"line":\d+`)
			want := strip.ReplaceAllString(all[c.name].jsonl(), "")
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
	list := inTurn(t, 1)
	all := playAll(t, list)
	for _, c := range list {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			want := parse(t, all[c.name].jsonl())
			lines := strings.Split(c.text, "\n")
			var moves []int // lines that move the clock to a time, not by a length
			for i, l := range lines {
				if strings.HasPrefix(l, "@ ") && !strings.HasPrefix(l, "@ +") {
					moves = append(moves, i)
				}
			}
			// Forty minutes away before a move of the clock, one move at a time; of long
			// scripts a few moves, others each time the script grows.
			for k := 0; k < len(moves); k += 1 + len(moves)/mostDowns() {
				i := moves[k]
				c.text = strings.Join(slices.Concat(lines[:i], []string{"! down 40m"}, lines[i:]), "\n")
				got := parse(t, c.play(t, filepath.Join(t.TempDir(), fmt.Sprint(i, ".db")), "--json"))
				sameButLate(t, want, got, i+1)
			}
		})
	}
}

// mostDowns bounds how many outages are tried in one script.
func mostDowns() int {
	if allTests {
		return 6
	}
	return 1
}

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
