package reading

import (
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// longTexts are ways to write much: one report again and again, counts and places without
// a verb, numbers alone, words nobody knows, lines of a whole season.
func longTexts(t testing.TB) map[string]func(n int) string {
	lines := allLines(t)
	rng := rand.New(rand.NewSource(3))
	rng.Shuffle(len(lines), func(i, k int) { lines[i], lines[k] = lines[k], lines[i] })
	again := func(s string) func(int) string {
		return func(n int) string { return strings.Repeat(s, n/len(s)+1)[:n] }
	}
	return map[string]func(int) string{
		"reports":   again("moved 34 to North and fed B1, hot out there. "),
		"no verbs":  again("34 North, 12 Creek, "),
		"no commas": again("34 North 12 Creek "),
		"numbers":   again("7 12 34 "),
		"digits":    again("7"),
		"unknown":   again("brillig slithy toves gyre "),
		"letters":   again("a"),
		"verbs":     again("grafted moved fed "),
		"denials":   again("not 34, not moved. "),
		"times":     again("at 7 this morning, "),
		"season": func(n int) string {
			var b strings.Builder
			for i := 0; b.Len() < n; i++ {
				b.WriteString(lines[i%len(lines)].text + "\n")
			}
			return b.String()[:n]
		},
	}
}

// mostWork is what a character of any text may cost, counted in items looked at.
const mostWork = 1000

// TestWorkIsLinear counts what a text costs, and not how long it takes: ten times the text
// may cost ten times the work, and half as much again, and no text costs much by itself.
func TestWorkIsLinear(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	k := knownFiles(t)["s/C3 @Ana"]
	k.Addressed = true
	for name, text := range longTexts(t) {
		work := map[int]int{}
		for _, n := range []int{1000, 2000, 4000, 10000} {
			l := r.newLattice(text(n), &k)
			l.read()
			work[n] = l.work
		}
		t.Logf("%-9s work of 1,000 characters %d, 2,000 %d, 4,000 %d, 10,000 %d", name, work[1000], work[2000], work[4000], work[10000])
		for n, w := range work {
			require.LessOrEqual(t, w, n*mostWork, "%s: %d characters", name, n)
		}
		for _, n := range []int{2000, 4000, 10000} {
			require.LessOrEqual(t, work[n], work[1000]*n/1000*3/2, "%s: %d characters", name, n)
		}
	}
}
