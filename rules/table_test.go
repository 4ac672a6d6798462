package rules

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheEmbeddedTableIsComplete(t *testing.T) {
	has := map[Step]bool{}
	anchors := []string{"grafted", "confined", "comb", "emerged", "caught", "fed", "brood"}
	kinds := []string{"task", "guard", "prep", "plan"}
	for _, r := range DefaultTable().Rows {
		name := string(r.Step) + "/" + r.Variant
		has[r.Step] = true
		assert.Contains(t, Steps, r.Step, name)
		assert.Contains(t, anchors, r.Anchor, name)
		assert.Contains(t, kinds, r.Kind, name)
		assert.NotEmpty(t, r.Stake, "%s: what is lost?", name)
		assert.NotEmpty(t, r.Source, "%s: who says so?", name)
		assert.LessOrEqual(t, r.Earliest, r.Best, name)
		assert.LessOrEqual(t, r.Best, r.Latest, name)
	}
	for _, s := range Steps {
		assert.True(t, has[s], "no row for %s", s)
	}
	// The step that loses a batch and the ones that lead to it.
	for _, s := range []Step{Graft, Rogue, Move} {
		assert.Equal(t, Critical, DefaultTable().Row(s, "").Weight, s)
	}
	assert.Panics(t, func() { DefaultTable().Row(Move, "sideways") })
	for w := Routine; w <= Critical; w++ {
		back, err := ParseWeight(w.String())
		assert.NoError(t, err)
		assert.Equal(t, w, back)
	}
}

func TestOverride(t *testing.T) {
	got, errs := Override(strings.NewReader(`# our own days
step,variant,earliest,best,latest,weight
move,,,9d12h,,
feed,nucs,48,,,important
drones,,-35d,,-22d,
`))
	require.Empty(t, errs)
	move := got.Row(Move, "")
	assert.Equal(t, []float64{216, 228, 240}, []float64{move.Earliest, move.Best, move.Latest}, "an empty cell keeps the default")
	assert.Equal(t, Critical, move.Weight)
	assert.Equal(t, Important, got.Row(Feed, "nucs").Weight)
	assert.Equal(t, []float64{-840, -528}, []float64{got.Row(Drones, "").Earliest, got.Row(Drones, "").Latest})
	assert.Equal(t, 236.0, DefaultTable().Row(Move, "").Best, "the default table is not touched")
	assert.Len(t, got.Rows, len(DefaultTable().Rows))

	// The shipped table itself is a valid rules file that changes nothing.
	same, errs := Override(strings.NewReader(defaultTable))
	require.Empty(t, errs)
	assert.Equal(t, DefaultTable().Rows, same.Rows)
}

func TestOverrideSaysWhatToPutWhere(t *testing.T) {
	head := "step,variant,earliest,best,latest,weight\n"
	for _, c := range []struct{ say, file, want string }{
		{"empty", "", "line 1: the file is empty; put step,variant,earliest,best,latest,weight"},
		{"only a comment", "# nothing\n", "line 1: the file is empty; put step,variant,earliest,best,latest,weight"},
		{"no step column", "name,best\nmove,200\n", `line 1: the first line must name the columns, and has no column "step"; put step,variant,earliest,best,latest,weight`},
		{"a column too many", "step,best,mood\n", `line 1: "mood" is not a column; put only step, variant, earliest, best, latest, weight`},
		{"no number", head + "# a comment\nmove,,,soon,,\n", `line 3: best "soon" of move is not a number of hours; put hours like 236 or days and hours like 9d20h`},
		{"not a finite number", head + "move,,,NaN,,\n", `line 2: best "NaN" of move is not a number of hours; put hours like 236 or days and hours like 9d20h`},
		{"far out", head + "move,,,99999,,\n", `line 2: best "99999" of move is not a number of hours; put hours like 236 or days and hours like 9d20h`},
		{"order", head + "accept,,,,,\nmove,,,250,,\n", "line 3: move opens at 216 h, is best at 250 h and closes at 240 h, out of order; put earliest ≤ best ≤ latest"},
		{"weight", head + "move,,,,,grave\n", `line 2: weight "grave" of move is not known; put routine, important or critical`},
		{"unknown step", head + "moove,,,230,,\n", `line 2: there is no step "moove"; put one of drones, feed, confine, eggs, combout, graft, rogue, accept, finish, capped, handsoff, nucs, move, emerge, flights, laying, catch, recell`},
		{"unknown variant", head + "laying,third,,,,\n", `line 2: there is no step "laying/third"; put one of the variants an empty cell, second`},
		{"variant missing", head + "feed,,,50,,\n", `line 2: there is no step "feed"; put one of its variants before, builder, nucs, breeder`},
		{"twice", head + "move,,,230,,\nmove,,,231,,\n", "line 3: move stands here and in line 2; put each step once"},
		{"too many cells", head + "move,,,230,,,,\n", "line 2: the line has 8 columns, the first line names 6; put 6 columns"},
		{"anchor", "step,anchor,best\nmove,emerged,230\n", `line 2: anchor of move cannot be changed to "emerged"; put grafted or nothing`},
		{"kind", "step,kind\nmove,guard\n", `line 2: kind of move cannot be changed to "guard"; put task or nothing`},
		{"stake", "step,stake\nmove,nothing\n", `line 2: stake of move cannot be changed to "nothing"; put first-virgin or nothing`},
		{"quotes", head + "move,,\"230,,\n", "line 2: the line cannot be split into columns; put a text with commas between double quotes"},
	} {
		_, errs := Override(strings.NewReader(c.file))
		if assert.Len(t, errs, 1, c.say) {
			assert.Equal(t, c.want, errs[0].Error(), c.say)
		}
	}
	_, errs := Override(strings.NewReader(head + "move,,,soon,,grave\nmoove,,,,,\n\nrogue,,x,y,z,\n"))
	var lines []int
	for _, e := range errs {
		lines = append(lines, e.Line)
	}
	assert.Equal(t, []int{2, 2, 3, 5, 5, 5}, lines, "all faults, in line order")
	_, errs = Override(strings.NewReader(head + "# more than one fault keeps the good lines\nmove,,,228,,\nmoove,,,,,\n"))
	assert.Len(t, errs, 1)
}

// An override reaches the plan.
func TestOverrideReachesTheTasks(t *testing.T) {
	s := crew()
	var errs []LineError
	s.Table, errs = Override(strings.NewReader("step,earliest,best,latest\naccept,10,12,20\nmove,200,210,220\n"))
	require.Empty(t, errs)
	var b book
	b.add(Graft, BatchSubject(1), grafted, count(45))
	_, tasks := b.batch(t, s)
	assert.Equal(t, []float64{10, 20}, []float64{hoursAfter(grafted, task(t, tasks, Accept, "").Earliest), hoursAfter(grafted, task(t, tasks, Accept, "").Latest)})
	assert.Equal(t, 220.0, hoursAfter(grafted, task(t, tasks, Move, "").Latest))
}
