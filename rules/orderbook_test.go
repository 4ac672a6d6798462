package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twoRounds is an order with two planned rounds of breeder 7, a week apart, accepted
// two days before the first.
func twoRounds(t *testing.T, s *Settings) (book []Booked, entries []Entry) {
	t.Helper()
	want := 30
	at := func(day, hour int) int64 {
		return At(Date{2031, time.May, day}, Clock(hour*60), s.Zone).UnixMilli()
	}
	p := &Booking{Unit: Queens, By: at(30, 18), Confidence: 0.9, BeesIn: true, Cells: 40, Rounds: []BookedRound{
		{Confine: at(5, 8), Breeders: []int{7}, Batches: []BookedBatch{{"B1", 20, []NucsIn{{"North", 15}}}, {"B2", 20, []NucsIn{{"North", 15}}}}},
		{Confine: at(12, 8), Breeders: []int{7}, Batches: []BookedBatch{{"B1", 30, []NucsIn{{"North", 25}}}}},
	}}
	entries = []Entry{{ID: 1, By: "Wren", Action: Did, Step: Ordered, Subject: OrderSubject(2), Count: &want, Happened: millis(at(3, 9)), Detail: Detail{Plan: p}}}
	b, exists := BookedOf(2, entries, s)
	require.True(t, exists)
	return []Booked{b}, entries
}

// What is logged of a plan comes to the plan's own times and uses.
func TestBookingKeepsThePlan(t *testing.T) {
	s := crew()
	cal := Calendar{Places: []Place{{Subject: BuilderSubject("B1"), Size: 1}, {Subject: BuilderSubject("B2"), Size: 1}, {Subject: YardSubject("North"), Size: 200}}}
	l := DefaultLimits
	l.Breeders = []int{7, 12}
	now := At(Date{2031, time.April, 10}, 9*60, s.Zone)
	plan := NewPlanner(KnownYields([Stages]float64{0.8, 0.9, 0.9, 0.8}, 0.02), cal, l, s).Plan(Order{Number: 4, Want: 40, Unit: Queens, By: OrderBy(Date{2031, time.June, 20}, s)}, 0.9, now)
	require.True(t, plan.OK)
	k := plan.Book(l)
	assert.ElementsMatch(t, plan.Uses, k.Uses(4, s))
	want := 40
	b, exists := BookedOf(4, []Entry{{ID: 9, Action: Did, Step: Ordered, Subject: OrderSubject(4), Count: &want, Happened: now, Detail: Detail{Plan: &k}}}, s)
	require.True(t, exists)
	require.Len(t, b.Rounds, len(plan.Rounds))
	assert.Equal(t, plan.Order, b.Order)
	for i, r := range plan.Rounds {
		assert.Equal(t, r.RoundTimes, b.Rounds[i].RoundTimes)
		assert.Equal(t, r.Breeders, b.Rounds[i].Breeders)
		assert.Equal(t, r.Grafts(), b.Rounds[i].Grafts())
	}
}

// A planned round asks for its comb, and gives way to the real one.
func TestPlannedTasksGiveWay(t *testing.T) {
	s := crew()
	book, _ := twoRounds(t, s)
	planned := PlannedOf(book, 7)
	require.Len(t, planned, 2)
	assert.Empty(t, PlannedOf(book, 12))
	states := func(combs []Comb, grafts []GraftRef, entries []Entry) map[string]TaskState {
		out := map[string]TaskState{}
		for _, k := range PlannedTasks(planned, combs, grafts, entries, s) {
			out[string(k.Step)+" "+k.Occ] = k.State
			assert.Equal(t, "planned", k.Reason)
			n, round := OrderOfTask(k)
			assert.Equal(t, 2, n)
			assert.Contains(t, []int{1, 2}, round)
			assert.False(t, k.Best.Before(k.Earliest) || k.Latest.Before(k.Best), k.Key)
		}
		return out
	}
	second := map[string]TaskState{"confine o2.2": Open, "combout o2.2": Open, "graft o2.2": Open}
	with := func(more map[string]TaskState) map[string]TaskState {
		for k, v := range second {
			more[k] = v
		}
		return more
	}
	first := planned[0].Confined
	assert.Equal(t, with(map[string]TaskState{"confine o2.1": Open, "combout o2.1": Open, "graft o2.1": Open}), states(nil, nil, nil))
	comb := Comb{ID: 30, Breeder: 7, Confined: first.Add(5 * time.Hour)}
	assert.Equal(t, with(map[string]TaskState{"confine o2.1": Done}), states([]Comb{comb}, nil, nil), "the comb has tasks of its own")
	before := Comb{ID: 31, Breeder: 7, Confined: planned[0].Since.Add(-time.Hour)}
	assert.Equal(t, Open, states([]Comb{before}, nil, nil)["confine o2.1"], "a comb from before the order")
	graft := GraftRef{Batch: 5, At: planned[0].Graft.Add(-6 * time.Hour)}
	assert.Equal(t, with(map[string]TaskState{"confine o2.1": Passed, "combout o2.1": Passed, "graft o2.1": Done}), states(nil, []GraftRef{graft}, nil))
	far := GraftRef{Batch: 5, At: planned[1].Graft.Add(RoundNear + time.Hour)}
	assert.Equal(t, Open, states(nil, []GraftRef{far}, nil)["graft o2.2"])
	skip := Entry{Action: Skip, Step: Confine, Subject: BreederSubject(7), Detail: Detail{Occ: "o2.1"}}
	assert.Equal(t, with(map[string]TaskState{"confine o2.1": Skipped, "combout o2.1": Passed, "graft o2.1": Passed}), states(nil, nil, []Entry{skip}))
}

// An order that was called off plans nothing; taking that back brings it again.
// A planned step that needs its comb stands in the list of a day to come, pings nobody,
// and is no work for its own day.
func TestPlannedStepsNeedTheirComb(t *testing.T) {
	s := crew()
	book, _ := twoRounds(t, s)
	tasks := PlannedTasks(PlannedOf(book, 7), nil, nil, nil, s)
	day := Date{2031, time.May, 6}
	steps := func(now time.Time) (out []Step) {
		for _, k := range DueOn(tasks, day, s, now) {
			out = append(out, k.Step)
		}
		return out
	}
	assert.Contains(t, steps(At(day.Add(-2), 9*60, s.Zone)), CombOut)
	assert.Equal(t, []Step{Confine}, steps(At(day, 6*60+30, s.Zone)), "it is late, and the comb has to be in first")
	for _, k := range tasks {
		assert.Equal(t, k.Step == Confine, len(Pings(k, s)) > 0, "%s", k.Key)
		assert.Equal(t, k.Step != Confine, k.NeedsComb(), "%s", k.Key)
	}
}

func TestOrderCalledOff(t *testing.T) {
	s := crew()
	_, entries := twoRounds(t, s)
	off := Entry{ID: 2, Action: Skip, Step: Ordered, Subject: OrderSubject(2), Happened: entries[0].Happened.Add(time.Hour)}
	b, exists := BookedOf(2, Effective(append(entries, off)), s)
	assert.True(t, exists && b.Cancelled)
	assert.Empty(t, PlannedOf([]Booked{b}, 7))
	assert.Empty(t, DroneGrafts([]Booked{b}, "North"))
	undo := Entry{ID: 3, Action: Void, Ref: 2}
	b, exists = BookedOf(2, Effective(append(entries, off, undo)), s)
	assert.True(t, exists && !b.Cancelled)
	_, exists = BookedOf(2, Effective(append(entries, Entry{ID: 4, Action: Void, Ref: 1})), s)
	assert.False(t, exists)
}

// The parts of an order are its real batches and what is still to be grafted.
func TestOrderState(t *testing.T) {
	s := crew()
	book, _ := twoRounds(t, s)
	b := book[0]
	none := func(int, string) bool { return false }
	state := func(combs []Comb, batches []Batch, now time.Time) []RoundState {
		return OrderState(b, book, map[int][]Comb{7: combs}, batches, none, now)
	}
	sum := func(r []RoundState) (n int) {
		for _, p := range PartsOf(r, Queens, s) {
			n += p.Count
		}
		return n
	}
	first := b.Rounds[0]
	now := first.Confined.Add(-time.Hour)
	assert.Equal(t, 70, sum(state(nil, nil, now)))
	assert.Equal(t, 30, sum(state(nil, nil, first.Confined.Add(RoundNear+time.Minute))), "the first round was let pass")
	comb := Comb{ID: 30, Breeder: 7, Confined: first.Confined.Add(24 * time.Hour)}
	assert.Equal(t, 70, sum(state([]Comb{comb}, nil, first.Confined.Add(RoundNear+time.Minute))), "she was confined a day late")
	grafted, accepted := 25, 18
	x := Batch{Number: 5, Breeder: 7, Comb: 30, Builder: "B2", Grafted: first.Graft.Add(24 * time.Hour)}
	x.Counts.Grafted = &grafted
	got := state([]Comb{comb}, []Batch{x}, x.Grafted)
	assert.Equal(t, []PlannedBatch{{Builder: "B1", Grafts: 20, Nucs: []NucsIn{{"North", 15}}}}, got[0].Left)
	assert.Equal(t, 25+20+30, sum(got))
	x.Counts.Accepted = &accepted
	assert.Equal(t, 18+30, sum(state([]Comb{comb}, []Batch{x}, x.Grafted.Add(TailAfter+time.Minute))), "nothing more is grafted from that comb")
	other := x
	other.Breeder = 12
	assert.Empty(t, state([]Comb{comb}, []Batch{other}, now)[0].Batches, "from another breeder")
	gone := OrderState(b, book, nil, nil, func(n int, occ string) bool { return n == 7 && occ == "o2.2" }, now)
	assert.Equal(t, 40, sum(gone))
	assert.True(t, gone[1].Gone)
}

// An order of little confidence is not called unlikely as it is accepted.
func TestUnlikelyIsWellBelow(t *testing.T) {
	for _, c := range Confidences {
		assert.LessOrEqual(t, Unlikely(c), 0.6*c+1e-12)
		assert.LessOrEqual(t, Unlikely(c), 0.5)
	}
	assert.InDelta(t, 0.5, Unlikely(0.9), 1e-12)
}

// Drone comb is asked for ahead of planned flights, not for what is past, and a line
// about it answers the fortnight it falls in.
func TestYardDrones(t *testing.T) {
	s := crew()
	since := At(Date{2031, time.April, 1}, 9*60, s.Zone)
	graft := since.Add(50 * 24 * time.Hour)
	grafts := []DroneGraft{{graft, since}, {graft.Add(10 * 24 * time.Hour), since}}
	list := YardDrones("North", grafts, nil, nil, s)
	require.Len(t, list, 1)
	assert.Equal(t, Open, list[0].State)
	assert.Equal(t, YardSubject("North"), list[0].Subject)
	assert.WithinDuration(t, graft.Add(-34*24*time.Hour), list[0].Best, 24*time.Hour)
	line := Entry{Action: Did, Step: Drones, Happened: list[0].Best}
	assert.Equal(t, Done, YardDrones("North", grafts, []Entry{line}, nil, s)[0].State)
	line.Subject = YardSubject("Creek")
	assert.Equal(t, Open, YardDrones("North", grafts, []Entry{line}, nil, s)[0].State)
	late := YardDrones("North", []DroneGraft{{graft, graft.Add(-10 * 24 * time.Hour)}}, nil, nil, s)
	assert.Equal(t, graft.Add(-10*24*time.Hour), late[0].Best, "too late for the day it should have gone in: at once")
	apart := YardDrones("North", append(grafts, DroneGraft{graft.Add(90 * 24 * time.Hour), since}), nil, nil, s)
	require.Len(t, apart, 2)
	assert.NotEqual(t, apart[0].Key, apart[1].Key)
	assert.Equal(t, list[0].Key, apart[0].Key, "a later order does not shift it")
}

// A feed line that says how much brings the next feeding when that runs dry.
func TestFeedByLitres(t *testing.T) {
	s := crew()
	from := At(Date{2031, time.July, 7}, 9*60, s.Zone)
	fed := Entry{ID: 8, Action: Did, Step: Feed, Happened: from.Add(time.Hour), Detail: Detail{Litres: 2}}
	k := feedTask(BuilderSubject("B2"), BuilderEater, 1, from, []*Entry{&fed}, s)
	soonest, _, _ := RunsDry(BuilderEater, 2, fed.Happened)
	assert.Equal(t, soonest.UTC(), k.Earliest)
	assert.Equal(t, fed.Happened.Add(BuilderDays*24*time.Hour).UTC(), k.Latest)
	assert.Equal(t, "8", k.Occ)
	yard := Entry{ID: 9, Action: Did, Step: Feed, Happened: from, Detail: Detail{Litres: 8}}
	whole := feedTask(YardSubject("North"), NucEater, 40, from, []*Entry{&yard}, s)
	yard.Detail = Detail{Litres: 0.2, Each: true}
	assert.Equal(t, whole, feedTask(YardSubject("North"), NucEater, 40, from, []*Entry{&yard}, s))
	yard.Detail = Detail{}
	assert.NotEqual(t, whole.Latest, feedTask(YardSubject("North"), NucEater, 40, from, []*Entry{&yard}, s).Latest)
}
