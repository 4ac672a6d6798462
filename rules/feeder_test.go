package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDroneCombsBeforeTheFirstFlights(t *testing.T) {
	s := crew()
	assert.Empty(t, DroneTasks("North", nil, s))
	g := when("2031-05-20 10:00")
	tasks := DroneTasks("North", []time.Time{g.AddDate(0, 0, 20), g}, s)
	require.Len(t, tasks, 2, "one comb serves two weeks of grafts")
	first := tasks[0]
	assert.Equal(t, YardSubject("North"), first.Subject)
	assert.Equal(t, -984.0, hoursAfter(g, first.Earliest))
	assert.InDelta(t, -816, hoursAfter(g, first.Best), 6, "fitted to working hours")
	// The closing egg is a flying drone, 38 days later, when the first virgins of
	// the graft fly: graft + 17 days (design of the table: 38 - 17 = 21).
	last := first.Latest.Add((DroneDrawing + DroneToFlight) * 24 * time.Hour)
	assert.Equal(t, 17*24.0, hoursAfter(g, last))
	b := Batch{Grafted: g, Age: AssumedAge}
	b.Emerges = b.Emergence(s).Middle()
	assert.InDelta(t, hoursAfter(g, last), hoursAfter(g, FirstFlights(b.Emerges, s)), 12)
	assert.Equal(t, DateOf(first.Earliest, chicago).Add(14), DateOf(tasks[1].Earliest, chicago))
	assert.NotEqual(t, first.Key, tasks[1].Key)
}

func TestFeederRunsDry(t *testing.T) {
	fed := when("2031-07-01 18:00")
	soonest, latest, ok := RunsDry(BuilderEater, 1, fed)
	require.True(t, ok)
	assert.Equal(t, 24.0, hoursAfter(fed, soonest), "a litre at a litre a day")
	assert.Equal(t, 96.0, hoursAfter(fed, latest))
	_, _, ok = RunsDry(BuilderEater, 0, fed)
	assert.False(t, ok)
	_, _, ok = RunsDry("horse", 1, fed)
	assert.False(t, ok)
	assert.False(t, TooMuch(BuilderEater, 3))
	assert.True(t, TooMuch(BuilderEater, 3.5), "more than it takes in three days")
	assert.False(t, TooMuch(NucEater, 3.5))
	assert.InDelta(t, 3, Appetites[BuilderEater].Lasts(3), 1e-9)
	for e, a := range Appetites {
		assert.True(t, 0 < a.Lo && a.Lo < a.Hi, "%v", e)
		assert.Regexp(t, "common practice|memory", a.Source)
	}
}

func TestNoFeedInAFlow(t *testing.T) {
	s := crew()
	fed := when("2031-07-01 12:00")
	dearth := []FlowLine{{Dearth: true, Since: fed.AddDate(0, 0, -3)}}
	task, ok := FeedTask(BuilderSubject("B1"), BuilderEater, 2, fed, "North", dearth, s)
	require.True(t, ok)
	assert.Equal(t, 48.0, hoursAfter(fed, task.Earliest))
	assert.Equal(t, 72.0, hoursAfter(fed, task.Latest), "three days at the most, whatever is left")
	flow := append(dearth, FlowLine{Yard: "North", Since: fed})
	_, ok = FeedTask(BuilderSubject("B1"), BuilderEater, 2, fed, "North", flow, s)
	assert.False(t, ok)
	_, ok = FeedTask(BuilderSubject("B1"), BuilderEater, 2, fed, "Creek", flow, s)
	assert.True(t, ok, "the flow is North's")
	_, ok = FeedTask(BuilderSubject("B1"), BuilderEater, 2, fed, "Creek", nil, s)
	assert.False(t, ok, "nobody said dearth")
}

func TestFeedRoundsAreFewAndInTime(t *testing.T) {
	s := crew()
	base := when("2031-07-01 12:00")
	flow := []FlowLine{{Dearth: true, Since: base}, {Yard: "Creek", Since: base}}
	mk := func(name string, a, b int) Task {
		return Task{Subject: BuilderSubject(name), Step: Feed, State: Open, Earliest: base.Add(time.Duration(a) * time.Hour), Best: base.Add(time.Duration(a+b) / 2 * time.Hour), Latest: base.Add(time.Duration(b) * time.Hour)}
	}
	done := mk("B5", 0, 40)
	done.State = Done
	creek := mk("C1", 0, 40)
	tasks := []Task{mk("B1", 0, 48), mk("B2", 24, 72), mk("B3", 30, 50), mk("B4", 60, 96), done, creek}
	yard := func(t Task) string {
		if t.Subject.Key == "C1" {
			return "Creek"
		}
		return "North"
	}
	rounds := FeedRounds(tasks, yard, flow, s)
	require.Len(t, rounds, 2)
	var names [][]string
	for _, r := range rounds {
		var n []string
		for _, task := range r.Tasks {
			n = append(n, task.Subject.Key)
			assert.False(t, r.At.Before(task.Earliest) || r.At.After(task.Latest), "%s in its window", task.Subject.Key)
		}
		names = append(names, n)
		assert.Equal(t, "North", r.Yard, "a flow at Creek")
		h := r.At.In(chicago).Hour()
		assert.True(t, h >= 7 && h < 18)
	}
	assert.Equal(t, [][]string{{"B1", "B3", "B2"}, {"B4"}}, names)
}
