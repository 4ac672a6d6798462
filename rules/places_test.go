package rules

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestRogueSearchOfTheBuilder(t *testing.T) {
	s := BuilderSubject("B2")
	plan := func(batch Batch, b book) (bool, Task) {
		_, exists, tasks := PlanBuilder("B2", Effective(b.entries), []BarRef{batch.Bar()}, nil, crew())
		return exists, task(t, tasks, Rogue, "1")
	}
	batch := Batch{Number: 1, Grafted: grafted, Breeder: 7}
	var b book
	b.add(Add, s, grafted.Add(-Hours(100)), into("Home"))
	exists, rogue := plan(batch, b)
	assert.True(t, exists)
	assert.Equal(t, Open, rogue.State)
	assert.Equal(t, []float64{96, 120}, []float64{hoursAfter(grafted, rogue.Earliest), hoursAfter(grafted, rogue.Latest)})
	assert.Equal(t, Critical, rogue.Weight)
	assert.Equal(t, "builder B2/rogue/1", rogue.Key)

	early := b
	early.add(Rogue, s, h(60))
	_, rogue = plan(batch, early)
	assert.Equal(t, Open, rogue.State, "a cell can still be begun after so early a search")
	b.add(Rogue, s, h(80))
	_, rogue = plan(batch, b)
	assert.Equal(t, Done, rogue.State)

	moved := batch
	moved.Moved = h(236)
	_, rogue = plan(moved, early)
	assert.Equal(t, Passed, rogue.State)
	ended := batch
	ended.Ended = true
	_, rogue = plan(ended, early)
	assert.Equal(t, Passed, rogue.State)
}

func TestRogueSearchWithoutAKnownBuilder(t *testing.T) {
	var b book
	b.add(Graft, BatchSubject(1), grafted, count(45))
	batch, _ := b.batch(t, crew())
	rogue := LooseRogue(batch, b.entries, crew())
	assert.Equal(t, "batch 1/rogue", rogue.Key)
	assert.Equal(t, Open, rogue.State)
	b.add(Rogue, BatchSubject(1), h(100))
	assert.Equal(t, Done, LooseRogue(batch, b.entries, crew()).State)
}

func TestFlow(t *testing.T) {
	var b book
	b.add(Dearth, YardSubject("North"), h(0))
	b.add(Dearth, Subject{}, h(10))
	b.add(Flow, YardSubject("South"), h(20))
	b.add(Dearth, Subject{}, h(30))
	lines := FlowLines(b.entries)
	since, dearth := DearthAt(lines, "North")
	assert.True(t, dearth)
	assert.Equal(t, h(0), since, "from the first line of this dearth")
	since, dearth = DearthAt(lines, "South")
	assert.True(t, dearth)
	assert.Equal(t, h(30), since)
	_, dearth = DearthAt(lines[:3], "South")
	assert.False(t, dearth)
	_, dearth = DearthAt(nil, "North")
	assert.False(t, dearth, "nobody said anything")
}

func feeds(tasks []Task) (out []Task) {
	for _, t := range tasks {
		if t.Step == Feed {
			out = append(out, t)
		}
	}
	return out
}

func TestBuilderIsFedOnlyInADearthAndOnlyUntilSealing(t *testing.T) {
	s := BuilderSubject("B2")
	dearth := func(at float64) []FlowLine { return []FlowLine{{"", true, h(at)}} }
	plan := func(b book, flow []FlowLine, batches ...BarRef) []Task {
		_, _, tasks := PlanBuilder("B2", Effective(b.entries), batches, flow, crew())
		return feeds(tasks)
	}
	batch := BarRef{Batch: 1, Grafted: grafted}
	var none book
	assert.Empty(t, plan(none, nil, batch), "nobody spoke of a dearth")
	assert.Empty(t, plan(none, dearth(-50)), "no cells in it")
	assert.Empty(t, plan(none, append(dearth(-50), FlowLine{"", false, h(-10)}), batch), "a flow came")
	assert.Empty(t, plan(none, dearth(130), batch), "its cells are sealed")
	got := plan(none, dearth(-50), batch)
	assert.Len(t, got, 1)
	assert.Equal(t, grafted, got[0].Earliest, "from the graft on")
	assert.Equal(t, "dearth", got[0].Reason)
	assert.Equal(t, 1, got[0].Batch)
	var fed book
	fed.add(Feed, s, h(10))
	got = plan(fed, dearth(-50), batch)
	assert.Equal(t, []float64{34, 82}, []float64{hoursAfter(grafted, got[0].Earliest), hoursAfter(grafted, got[0].Latest)})
	assert.Equal(t, "fed", got[0].Reason)
	fed.add(Feed, s, h(110))
	assert.Empty(t, plan(fed, dearth(-50), batch), "the next would come after sealing")
	ended := batch
	ended.Ended = true
	assert.Empty(t, plan(none, dearth(-50), ended))
}

func TestNucsAreFedInADearth(t *testing.T) {
	s := YardSubject("North")
	var b book
	b.add(Add, s, h(-100), count(40))
	plan := func(flow []FlowLine) (Yard, bool, []Task) {
		return PlanYard("North", Effective(b.entries), flow, crew())
	}
	yard, exists, tasks := plan(nil)
	assert.True(t, exists)
	assert.Equal(t, 40, yard.Nucs)
	assert.Empty(t, tasks)
	_, _, tasks = plan([]FlowLine{{"South", true, h(0)}})
	assert.Empty(t, tasks, "another yard's dearth")
	_, _, tasks = plan([]FlowLine{{"North", true, h(0)}})
	assert.Len(t, tasks, 1)
	assert.Equal(t, h(0), tasks[0].Earliest)

	// A feed that was skipped in one dearth is asked for again in the next.
	b.add(Feed, s, h(2), action(Skip), detail(Detail{Occ: tasks[0].Occ}))
	_, _, tasks = plan([]FlowLine{{"North", true, h(0)}})
	assert.Equal(t, Skipped, tasks[0].State)
	_, _, tasks = plan([]FlowLine{{"North", true, h(0)}, {"North", false, h(200)}, {"North", true, h(400)}})
	assert.Equal(t, Open, tasks[0].State)

	b.add(Feed, s, h(410))
	_, _, tasks = plan([]FlowLine{{"North", true, h(400)}})
	assert.Equal(t, 410+168.0, hoursAfter(grafted, tasks[0].Latest))
	empty, _, tasks := PlanYard("South", nil, []FlowLine{{"", true, h(0)}}, crew())
	assert.Zero(t, empty.Nucs)
	assert.Empty(t, tasks, "no nucs, nothing to feed")
}
