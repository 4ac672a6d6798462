package rules

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func planBreeder(b book, grafts ...GraftRef) (Breeder, bool, []Comb, []Task) {
	return PlanBreeder(7, Effective(b.entries), grafts, nil, crew())
}

func ofConfined(t Task) []float64 {
	return []float64{hoursAfter(confined, t.Earliest), hoursAfter(confined, t.Ideal), hoursAfter(confined, t.Latest)}
}

func TestBreederFromConfinementToGraft(t *testing.T) {
	s := BreederSubject(7)
	var b book
	b.add(Add, s, confined.Add(-Hours(48)), into("Home"))
	breeder, exists, combs, tasks := planBreeder(b)
	assert.True(t, exists)
	assert.Equal(t, "Home", breeder.Yard)
	assert.Empty(t, combs)
	assert.Empty(t, tasks)

	id := b.add(Confine, s, confined, marked("red"), detail(Detail{BeesIn: yes()}))
	breeder, _, combs, tasks = planBreeder(b)
	assert.Equal(t, id, breeder.Comb)
	require.Len(t, combs, 1)
	occ := "2"
	assert.Equal(t, map[string]TaskState{"eggs/2": Open, "combout/2": Open, "graft/2": Open}, states(tasks))
	assert.Equal(t, []float64{12, 22, 30}, ofConfined(task(t, tasks, Eggs, occ)))
	assert.Equal(t, []float64{12, 24, 36}, ofConfined(task(t, tasks, CombOut, occ)))
	graft := task(t, tasks, Graft, occ)
	assert.Equal(t, []float64{86, 103, 120}, ofConfined(graft), "laid from 2 h to the planned 24 h")
	assert.Equal(t, "red", graft.Mark)
	assert.Equal(t, Critical, graft.Weight)

	b.add(Eggs, s, confined.Add(Hours(20)), comb(id))
	b.add(CombOut, s, confined.Add(Hours(30)), comb(id))
	breeder, _, combs, tasks = planBreeder(b)
	assert.Zero(t, breeder.Comb, "she is free again")
	assert.Equal(t, confined.Add(Hours(30)), combs[0].Out)
	assert.Equal(t, map[string]TaskState{"eggs/2": Done, "combout/2": Done, "graft/2": Open}, states(tasks))
	assert.Equal(t, []float64{86, 106, 126}, ofConfined(task(t, tasks, Graft, occ)), "the comb stayed in longer")

	_, _, _, tasks = planBreeder(b, GraftRef{Batch: 4, Comb: id, At: confined.Add(Hours(103))})
	assert.Equal(t, Done, task(t, tasks, Graft, occ).State)
	assert.Equal(t, 4, task(t, tasks, Graft, occ).Batch)
}

func TestNoEggsMovesEverythingLater(t *testing.T) {
	s := BreederSubject(7)
	var b book
	id := b.add(Confine, s, confined, detail(Detail{BeesIn: yes()}))
	b.add(Eggs, s, confined.Add(Hours(22)), detail(Detail{NoEggs: true, Comb: id}))
	_, _, combs, tasks := planBreeder(b)
	assert.Equal(t, confined.Add(Hours(46)), combs[0].PlannedOut())
	assert.Equal(t, []float64{28, 34, 46}, ofConfined(task(t, tasks, Eggs, "1")), "look again")
	assert.Equal(t, "noeggs", task(t, tasks, Eggs, "1").Reason)
	assert.Equal(t, []float64{34, 46, 58}, ofConfined(task(t, tasks, CombOut, "1")))
	assert.Equal(t, []float64{22 + 84, 34 + 90, 46 + 96}, ofConfined(task(t, tasks, Graft, "1")))
}

func TestACombWithoutEggs(t *testing.T) {
	s := BreederSubject(7)
	var b book
	id := b.add(Confine, s, confined)
	b.add(CombOut, s, confined.Add(Hours(40)), detail(Detail{NoEggs: true, Comb: id}))
	_, _, combs, tasks := planBreeder(b)
	assert.True(t, combs[0].Failed)
	assert.Equal(t, map[string]TaskState{"eggs/1": Passed, "combout/1": Done, "graft/1": Passed}, states(tasks))
}

func TestSeveralCombsAWeek(t *testing.T) {
	s := BreederSubject(7)
	var b book
	first := b.add(Confine, s, confined, marked("red"))
	b.add(CombOut, s, confined.Add(Hours(24)), comb(first))
	second := b.add(Confine, s, confined.Add(Hours(24)))
	b.add(CombOut, s, confined.Add(Hours(50)), comb(second), with(func(e *Entry) { e.Mark = "blue"; e.Detail.Release = true }))
	_, _, combs, tasks := planBreeder(b)
	require.Len(t, combs, 2)
	assert.Equal(t, "blue", combs[1].Mark, "a mark named later counts")
	assert.True(t, combs[1].Released)
	assert.Equal(t, Open, task(t, tasks, Graft, "1").State)
	assert.Equal(t, Open, task(t, tasks, Graft, "3").State)
	_, open := OpenComb(combs)
	assert.False(t, open)
	// A graft from a comb whose eggs nobody looked for leaves nothing to look for.
	_, _, _, tasks = planBreeder(book{b.entries[:1]}, GraftRef{Batch: 1, Comb: first})
	assert.Equal(t, Passed, task(t, tasks, Eggs, "1").State)
}

// A breeder that is gone is in no plan: no task of hers is open, but for a graft from a
// comb that has her larvae. Taken back, or added anew, she is in it again.
func TestRetiredBreeder(t *testing.T) {
	s := BreederSubject(7)
	var b book
	b.add(Add, s, confined.Add(-Hours(48)))
	id := b.add(Confine, s, confined)
	_, _, _, alive := planBreeder(b)
	gone := b.add(Retire, s, confined.Add(Hours(10)), detail(Detail{Cause: CauseDied}))
	require.NotNil(t, Retired(Effective(b.entries)))
	breeder, exists, _, tasks := planBreeder(b)
	assert.False(t, exists)
	assert.Equal(t, 7, breeder.Number)
	assert.Equal(t, map[string]TaskState{"eggs/2": Passed, "combout/2": Passed, "graft/2": Passed}, states(tasks))
	b.add("", s, confined.Add(Hours(11)), action(Void), about(gone))
	_, exists, _, tasks = planBreeder(b)
	assert.True(t, exists)
	assert.Equal(t, alive, tasks)

	b.add(CombOut, s, confined.Add(Hours(24)), comb(id))
	b.add(Retire, s, confined.Add(Hours(30)))
	_, _, _, tasks = planBreeder(b)
	assert.Equal(t, map[string]TaskState{"eggs/2": Passed, "combout/2": Done, "graft/2": Open}, states(tasks), "her larvae live")
	b.add(Add, s, confined.Add(Hours(40)))
	_, exists, _, _ = planBreeder(b)
	assert.True(t, exists, "another queen of that number")
}

// What an order planned with her is off the lists with her.
func TestRetiredBreedersPlannedRounds(t *testing.T) {
	s := BreederSubject(7)
	round := RoundFrom(confined, true, 45, crew())
	planned := []PlannedRound{{Order: 1, Round: 1, Breeder: 7, Grafts: 45, Into: "B1", BeesIn: true, Since: confined.Add(-Hours(100)), RoundTimes: round}}
	var b book
	b.add(Add, s, confined.Add(-Hours(48)))
	open := PlannedTasks(planned, nil, nil, Effective(b.entries), crew())
	assert.Equal(t, map[string]TaskState{"confine/o1.1": Open, "combout/o1.1": Open, "graft/o1.1": Open}, states(open))
	b.add(Retire, s, confined.Add(-Hours(20)))
	off := PlannedTasks(planned, nil, nil, Effective(b.entries), crew())
	assert.Equal(t, map[string]TaskState{"confine/o1.1": Passed, "combout/o1.1": Passed, "graft/o1.1": Passed}, states(off))
}
