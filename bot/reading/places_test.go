package reading

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// spellPlace is a report about a place in the words of testdata/utterances/work-places.tsv.
func spellPlace(a Act) string {
	out := []string{string(a.Step)}
	put := func(ok bool, form string, v any) {
		if ok {
			out = append(out, fmt.Sprintf(form, v))
		}
	}
	clock := func(w *When) string {
		switch {
		case w.Ago != 0:
			return "ago"
		case w.Clock != nil:
			return fmt.Sprintf("%d:%02d", *w.Clock/60, *w.Clock%60)
		}
		return ""
	}
	placed := a.Step == rules.Placed
	put(a.Batch != 0, "batch=%d", a.Batch)
	if a.Count != nil {
		put(true, "count=%d", *a.Count)
	}
	put(a.All, "all%v", "")
	put(a.Out != "", "out=%s", a.Out)
	put(placed, "into=%s", a.Incubator+a.Builder)
	put(!placed && a.Incubator+a.Builder != "", "%s", a.Incubator+a.Builder)
	put(a.Yard != "", "yard=%s", a.Yard)
	put(a.Power, "power%v", "")
	if a.C != nil {
		put(true, "c=%g", *a.C)
	}
	if a.When != nil && clock(a.When) != "" {
		put(true, "from=%s", clock(a.When))
	}
	if a.Till != nil {
		put(true, "till=%s", clock(a.Till))
	}
	return strings.Join(out, " ")
}

// TestPlacesAreRead holds what is read of cells by place, of incubators and builders, and what
// sounds like it and is never logged.
func TestPlacesAreRead(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	n := 0
	eachRow(t, filepath.Join(utterances, "work-places.tsv"), func(line int, c []string) {
		require.Len(t, c, 2, "line %d", line)
		k := Known{Breeders: []int{7, 12}, Builders: []string{"B1", "B2", "B3"}, Yards: []string{"North", "Creek"}, Members: []string{"Wren", "Ash"}, Language: "en"}
		res := r.Read(c[0], k)
		is := "-"
		if res.Outcome == Log && len(res.Acts) == 1 && res.Acts[0].Kind == Did {
			is = spellPlace(res.Acts[0])
		}
		assert.Equal(t, c[1], is, "%d: %q: %s %v", line, c[0], res.Outcome, res.Acts)
		n++
	})
	require.Greater(t, n, 80)
}
