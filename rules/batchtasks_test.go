package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func states(tasks []Task) map[string]TaskState {
	out := map[string]TaskState{}
	for _, t := range tasks {
		k := string(t.Step)
		if t.Occ != "" {
			k += "/" + t.Occ
		}
		out[k] = t.State
	}
	return out
}

// h is a number of hours after the graft of the usual batch.
func h(n float64) time.Time { return grafted.Add(Hours(n)) }

func TestAFreshBatch(t *testing.T) {
	var b book
	b.add(Graft, BatchSubject(1), grafted, count(45), from(7), into("B2"))
	batch, tasks := b.batch(t, crew())
	assert.Equal(t, AssumedAge, batch.Age, "no comb known: assumed, and said")
	assert.Equal(t, map[string]TaskState{
		"accept": Open, "finish": Open, "capped": Open, "handsoff": Open, "nucs": Open, "move": Open,
		"emerge": Open, "flights": Open, "laying": Open, "catch": Open,
	}, states(tasks))
	// Windows in hours after the graft, as in the step table; emergence at 295 h.
	for step, want := range map[Step][2]float64{
		Accept: {18, 48}, Finish: {20, 48}, Capped: {96, 144}, HandsOff: {120, 216}, Nucs: {168, 236}, Move: {216, 240},
		Emerge: {288, 360}, Flights: {295 + 120, 295 + 288}, Laying: {295 + 264, 295 + 432}, Catch: {295 + 504, 295 + 840},
	} {
		k := task(t, tasks, step, "")
		assert.Equal(t, want, [2]float64{hoursAfter(grafted, k.Earliest), hoursAfter(grafted, k.Latest)}, step)
	}
	move := task(t, tasks, Move, "")
	assert.Equal(t, "batch 1/move", move.Key)
	assert.Equal(t, Critical, move.Weight)
	assert.Equal(t, 45, *move.Count)
	assert.Equal(t, "B2", move.From)
	assert.Equal(t, 236.0, hoursAfter(grafted, move.Ideal))
	assert.Equal(t, when("2031-05-11 07:00"), move.Best, "236 h is at 6:00, before work; at 7:00 three working hours are left")
}

func TestAWholeSeason(t *testing.T) {
	b := season()
	s := crew()
	var seen Batch
	for n := 1; n <= len(b.entries); n++ {
		part := book{b.entries[:n]}
		batch, tasks := part.batch(t, s)
		got := states(tasks)
		last := b.entries[n-1]
		if last.Step != Graft && last.Step != Recell {
			assert.Equal(t, Done, got[string(last.Step)], "after %s", last.Step)
		}
		seen = batch
	}
	_, tasks := b.batch(t, s)
	assert.Equal(t, map[string]TaskState{
		"accept": Done, "finish": Done, "capped": Done, "handsoff": Passed, "nucs": Done, "move": Done, "emerge": Done,
		"flights": Passed, "laying": Done, "laying/2": Passed, "catch": Done, "recell": Done,
	}, states(tasks))
	assert.Equal(t, []string{"North"}, seen.Yards)
	assert.Equal(t, "B2", seen.Builder)
	n, at := seen.Counts.Stage(Catch)
	assert.Equal(t, 27, *n)
	assert.Equal(t, Laying, at)
	assert.Equal(t, 36, *seen.Counts.Cells())
	assert.False(t, seen.Ended)
}

func TestMovesInParts(t *testing.T) {
	var b book
	s := BatchSubject(1)
	b.add(Graft, s, grafted, count(45))
	b.add(Capped, s, h(120), count(36))
	b.add(Move, s, h(220), count(20), into("North"))
	batch, tasks := b.batch(t, crew())
	assert.Equal(t, 16, batch.Rest(Move))
	move := task(t, tasks, Move, "")
	assert.Equal(t, Open, move.State, "16 cells are still in the builder")
	assert.Equal(t, 16, *move.Count)
	assert.Equal(t, Passed, task(t, tasks, Nucs, "").State)
	assert.Equal(t, 20, *task(t, tasks, Emerge, "").Count)

	b.add(Move, s, h(230), count(12), into("South"))
	batch, tasks = b.batch(t, crew())
	assert.Equal(t, Done, task(t, tasks, Move, "").State, "the four left are the usual culls")
	assert.Equal(t, 32, *batch.Counts.Moved)
	assert.Equal(t, []string{"North", "South"}, batch.Yards)

	// "That is all" closes it whatever is left.
	var all book
	all.add(Graft, s, grafted, count(45))
	all.add(Capped, s, h(120), count(36))
	all.add(Move, s, h(220), count(20), detail(Detail{All: true}))
	_, tasks = all.batch(t, crew())
	assert.Equal(t, Done, task(t, tasks, Move, "").State)

	// And emergence overtakes what was never logged as moved.
	var late book
	late.add(Graft, s, grafted, count(45))
	late.add(Capped, s, h(120), count(36))
	late.add(Move, s, h(220), count(20))
	late.add(Emerge, s, h(330), count(19))
	_, tasks = late.batch(t, crew())
	assert.Equal(t, Passed, task(t, tasks, Move, "").State)
}

func TestNothingLeftEndsTheBatch(t *testing.T) {
	s := BatchSubject(1)
	for _, c := range []struct {
		step Step
		at   float64
		done []string
	}{{Accept, 24, []string{"accept"}}, {Capped, 120, []string{"capped"}}, {Emerge, 330, []string{"emerge"}}} {
		var b book
		b.add(Graft, s, grafted, count(45))
		b.add(c.step, s, h(c.at), count(0))
		batch, tasks := b.batch(t, crew())
		assert.True(t, batch.Ended, c.step)
		for _, k := range tasks {
			want := Passed
			if k.Step == c.step {
				want = Done
			}
			assert.Equal(t, want, k.State, "%s after %s 0", k.Step, c.step)
			assert.Empty(t, Pings(k, crew()))
		}
	}
}

func TestOvertaken(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Capped, s, h(121), count(36))
	_, tasks := b.batch(t, crew())
	assert.Equal(t, Passed, task(t, tasks, Accept, "").State, "counting again by then tells nothing new")
	assert.Equal(t, Passed, task(t, tasks, Finish, "").State)
	assert.Equal(t, Open, task(t, tasks, Move, "").State)
	b.add(Laying, s, h(640), count(20))
	_, tasks = b.batch(t, crew())
	for _, step := range []Step{Accept, Finish, HandsOff, Nucs, Move, Emerge, Flights} {
		assert.Equal(t, Passed, task(t, tasks, step, "").State, step)
	}
	assert.Equal(t, Open, task(t, tasks, Catch, "").State)
}

func TestSecondLayingCheck(t *testing.T) {
	s := BatchSubject(1)
	moved := func() *book {
		var b book
		b.add(Graft, s, grafted, count(45))
		b.add(Move, s, h(236), count(34))
		b.add(Emerge, s, h(325), count(31))
		return &b
	}
	b := moved()
	b.add(Laying, s, h(295+300), count(31))
	_, tasks := b.batch(t, crew())
	assert.NotContains(t, states(tasks), "laying/2", "all lay: no second look")

	b = moved()
	b.add(Laying, s, h(295+300), count(27))
	_, tasks = b.batch(t, crew())
	second := task(t, tasks, Laying, "2")
	assert.Equal(t, Open, second.State, "four of them may only be late")
	assert.Equal(t, 295+408.0, hoursAfter(grafted, second.Earliest))
	assert.Equal(t, "batch 1/laying/2", second.Key)

	late := moved()
	late.add(Laying, s, h(295+430), count(27))
	_, tasks = late.batch(t, crew())
	assert.Equal(t, 295+430.0, hoursAfter(grafted, task(t, tasks, Laying, "2").Earliest), "after a late first look it waits as well")

	b.add(Laying, s, h(295+480), count(29))
	batch, tasks := b.batch(t, crew())
	assert.Equal(t, Done, task(t, tasks, Laying, "2").State)
	assert.Equal(t, 29, *batch.Counts.Laying)
	assert.Equal(t, 29, *task(t, tasks, Catch, "").Count)

	// None laying at an early first look may be the weather; at a second it is over.
	none := moved()
	none.add(Laying, s, h(295+270), count(0))
	batch, tasks = none.batch(t, crew())
	assert.False(t, batch.Ended)
	assert.Equal(t, Open, task(t, tasks, Laying, "2").State)
	assert.Equal(t, 31, *task(t, tasks, Catch, "").Count)
	none.add(Laying, s, h(295+480), count(0))
	batch, tasks = none.batch(t, crew())
	assert.True(t, batch.Ended)
	assert.Equal(t, Passed, task(t, tasks, Catch, "").State)
}

func TestCatchWaitsForAgeAndForAWeekOfLaying(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Laying, s, h(295+300), count(30))
	_, tasks := b.batch(t, crew())
	assert.Equal(t, 295+504.0, hoursAfter(grafted, task(t, tasks, Catch, "").Earliest), "21 d of age comes later than a week of laying")
	var late book
	late.add(Graft, s, grafted, count(45))
	late.add(Laying, s, h(295+700), count(30))
	_, tasks = late.batch(t, crew())
	catch := task(t, tasks, Catch, "")
	assert.Equal(t, 295+700+168.0, hoursAfter(grafted, catch.Earliest), "here the week does")
	assert.Equal(t, "laying7", catch.Reason)
	assert.False(t, catch.Latest.Before(catch.Best))
}

func TestRecellAfterEachCatch(t *testing.T) {
	s := BatchSubject(1)
	b := book{season().entries[:8]}
	b.add(Catch, s, h(960), count(10), into("North"))
	_, tasks := b.batch(t, crew())
	assert.Equal(t, 17, *task(t, tasks, Catch, "").Count, "the other queens are still in their nucs")
	assert.Equal(t, Open, task(t, tasks, Catch, "").State)
	re := task(t, tasks, Recell, "")
	assert.Equal(t, []float64{960, 1032}, []float64{hoursAfter(grafted, re.Earliest), hoursAfter(grafted, re.Latest)})
	assert.Equal(t, 10, *re.Count)
	assert.Equal(t, "North", re.Into)
	b.add(Recell, s, h(965), count(10))
	b.add(Catch, s, h(984), count(14), into("South"))
	_, tasks = b.batch(t, crew())
	assert.Equal(t, Done, task(t, tasks, Recell, "").State)
	assert.Equal(t, Open, task(t, tasks, Recell, "2").State)
	assert.Equal(t, "South", task(t, tasks, Recell, "2").Into)
	assert.Equal(t, Done, task(t, tasks, Catch, "").State)
}

func TestOlderLarvaeBringEverythingForward(t *testing.T) {
	var b book
	b.add(Graft, BatchSubject(1), grafted, count(45), larvae(24, 36))
	batch, tasks := b.batch(t, crew())
	assert.Equal(t, "stated", batch.Age.Basis)
	move, off, nucs := task(t, tasks, Move, ""), task(t, tasks, HandsOff, ""), task(t, tasks, Nucs, "")
	assert.Equal(t, []float64{204, 228}, []float64{hoursAfter(grafted, move.Earliest), hoursAfter(grafted, move.Latest)})
	assert.Equal(t, []float64{108, 204}, []float64{hoursAfter(grafted, off.Earliest), hoursAfter(grafted, off.Latest)}, "the fragile time comes sooner too")
	assert.Equal(t, 156.0, hoursAfter(grafted, nucs.Earliest))
	assert.False(t, nucs.Latest.After(move.Best), "nucs stand ready before the cells come")
}

func TestCrewsOwnMoveAndIncubator(t *testing.T) {
	s := crew()
	require.NoError(t, s.Apply("move", "9d4h", grafted))
	var b book
	b.add(Graft, BatchSubject(1), grafted, count(45))
	_, tasks := b.batch(t, s)
	assert.Equal(t, 220.0, hoursAfter(grafted, task(t, tasks, Move, "").Ideal))
	require.NoError(t, s.Apply("move", "default", grafted))
	require.NoError(t, s.Apply("incubator", "33.5", grafted))
	cooler, tasks := b.batch(t, s)
	assert.Equal(t, 240.0, hoursAfter(grafted, task(t, tasks, Move, "").Latest), "a cool incubator puts no close off")
	assert.Equal(t, 295.0, hoursAfter(grafted, cooler.Emerges))
	require.NoError(t, s.Apply("incubator", "off", grafted))
	require.NoError(t, s.Apply("incubator", "35.5", grafted))
	warmer, tasks := b.batch(t, s)
	assert.InDelta(t, 240-10.8, hoursAfter(grafted, task(t, tasks, Move, "").Latest), 1.0/60, "a warm one brings it forward")
	assert.InDelta(t, 295-10.8, hoursAfter(grafted, warmer.Emerges), 0.5, "shown to the hour")
}

// What a cool incubator did to a batch whose cells are in their nucs stays as it was
// told; one logged later puts nothing off.
func TestCoolIncubatorOfCellsMoved(t *testing.T) {
	s := crew()
	var b book
	b.add(Graft, BatchSubject(1), grafted, count(45))
	b.add(Move, BatchSubject(1), h(236), count(30), into("North"))
	moved, tasks := b.batch(t, s)
	require.Equal(t, 295.0, hoursAfter(grafted, moved.Emerges))
	require.NoError(t, s.Apply("incubator", "33.5", h(237)))
	after, more := b.batch(t, s)
	assert.Equal(t, moved, after)
	assert.Equal(t, tasks, more)
	s = crew()
	require.NoError(t, s.Apply("incubator", "33.5", grafted))
	after, more = b.batch(t, s)
	assert.InDelta(t, 295+10.8, hoursAfter(grafted, after.Emerges), 0.5)
	assert.Equal(t, moved.SafeUntil(s), after.SafeUntil(s))
	assert.Equal(t, task(t, tasks, Move, ""), task(t, more, Move, ""))
}

func TestAnswersOnTasks(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Move, s, h(200), action(Mine), by("Ada"))
	b.add(Move, s, h(201), action(Later), detail(Detail{Until: h(210).UnixMilli()}))
	skip := b.add(Nucs, s, h(170), action(Skip), detail(Detail{Reason: "enough nucs"}))
	_, tasks := b.batch(t, crew())
	move := task(t, tasks, Move, "")
	assert.Equal(t, "Ada", move.ClaimedBy)
	assert.Equal(t, h(210), move.Snoozed)
	assert.Equal(t, Open, move.State)
	assert.Equal(t, Skipped, task(t, tasks, Nucs, "").State)
	b.add("", Subject{}, h(171), action(Void), about(skip))
	_, tasks = b.batch(t, crew())
	assert.Equal(t, Open, task(t, tasks, Nucs, "").State, "taken back")
}

func TestCombGivesTheAges(t *testing.T) {
	c := Comb{ID: 5, Mark: "red", Confined: confined, BeesIn: yes(), Out: confined.Add(Hours(24))}
	var b book
	b.add(Graft, BatchSubject(1), confined.Add(Hours(103)), count(45), from(7))
	batch, _ := b.batch(t, crew(), c)
	assert.Equal(t, int64(5), batch.Comb)
	assert.Equal(t, "red", batch.Mark)
	assert.Equal(t, AgeSpan{7, 24, "comb"}, batch.Age, "laid at 2-24 h: 7 to 29 h old, the older are left")
	// Still in when grafted from: laid until then.
	c.Out = time.Time{}
	batch, _ = b.batch(t, crew(), c)
	assert.Equal(t, AgeSpan{0, 24, "comb"}, batch.Age)
}
