package reading

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	bins        = 5
	groups      = 5  // of writers; each is read by weights that were fitted without it
	binLeast    = 30 // a bin with fewer lines says little
	mostMiss    = 10 // points between what a bin promises and what it holds
	calibrating = "YARDBELL_CALIBRATION"
)

// bin is how often the ranker was right where it gave its first choice a chance of about
// as much.
type bin struct {
	n, right int
	chance   float64
}

// TestCalibration holds that a chance is one: on lines of writers that the ranker has not
// learnt from, of what it gives 0.9, nine in ten are right. Fitting takes minutes: with
// YARDBELL_CALIBRATION alone.
func TestCalibration(t *testing.T) {
	if os.Getenv(calibrating) == "" {
		t.Skip("calibration is measured with " + calibrating + "=1")
	}
	r, err := Load(Data())
	require.NoError(t, err)
	lines := trainingLines(t)
	group := map[string]int{} // of a writer
	for _, l := range lines {
		group[l.writer] = 0
	}
	require.GreaterOrEqual(t, len(group), groups)
	for i, w := range slices.Sorted(maps.Keys(group)) {
		group[w] = i % groups
	}
	var all [bins]bin
	for g := range groups {
		var others, own []labelled
		for _, l := range lines {
			if group[l.writer] == g {
				own = append(own, l)
			} else {
				others = append(others, l)
			}
		}
		fold := *r
		fold.model = fit(r, others, fitSeed)
		var one [bins]bin
		for _, l := range own {
			if l.class == "" {
				continue
			}
			k := l.known
			lat := fold.newLattice(l.text, &k)
			if len(lat.toks) == 0 {
				continue
			}
			items := lat.readings()[0]
			if l.class == classTalk && lat.moodOf(items).question {
				continue // as when it learns
			}
			top, p := lat.rank(items).top()
			i := min(int(p*bins), bins-1)
			for _, b := range []*bin{&one[i], &all[i]} {
				b.n++
				b.chance += p
				if top == r.classOf(l.class) {
					b.right++
				}
			}
		}
		t.Logf("group %d, %d lines: %s", g+1, len(own), spellBins(one))
	}
	t.Logf("all: %s", spellBins(all))
	for i, b := range all {
		if b.n < binLeast {
			continue
		}
		promised, held := 100*b.chance/float64(b.n), 100*float64(b.right)/float64(b.n)
		require.InDelta(t, promised, held, mostMiss, "bin %d of %d", i+1, bins)
	}
}

func spellBins(list [bins]bin) string {
	var out []string
	for _, b := range list {
		if b.n == 0 {
			out = append(out, "-")
			continue
		}
		out = append(out, fmtPercent(b.chance/float64(b.n))+" given, "+fmtPercent(float64(b.right)/float64(b.n))+" right of "+itoa(b.n))
	}
	return strings.Join(out, "; ")
}

func fmtPercent(x float64) string { return itoa(int(100*x+0.5)) + " %" }
