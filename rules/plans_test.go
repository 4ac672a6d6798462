package rules

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// sound is what holds of every task, whatever the logbook says.
func sound(t *rapid.T, tasks []Task, s *Settings) {
	keys := map[string]bool{}
	for _, k := range tasks {
		switch {
		case k.Reason == "" || k.Stake == "" || k.Source == "" || k.Anchor.IsZero():
			t.Fatalf("%s does not say why: reason %q, stake %q, source %q", k.Key, k.Reason, k.Stake, k.Source)
		case keys[k.Key]:
			t.Fatalf("two tasks %s", k.Key)
		case k.Key != TaskKey(k.Subject, k.Step, k.Occ):
			t.Fatalf("key %s of %s %s %s", k.Key, k.Subject, k.Step, k.Occ)
		case k.Earliest.After(k.Best) || k.Best.After(k.Latest):
			t.Fatalf("%s out of order: %v, %v, %v", k.Key, k.Earliest, k.Best, k.Latest)
		case k.Earliest.After(k.Ideal) || k.Ideal.After(k.Latest):
			t.Fatalf("%s: ideal %v lies outside %v … %v", k.Key, k.Ideal, k.Earliest, k.Latest)
		case k.State != Open && k.State != Done && k.State != Skipped && k.State != Passed:
			t.Fatalf("%s is %q", k.Key, k.State)
		case k.State != Open && len(Pings(k, s)) > 0:
			t.Fatalf("%s is %s and still pinged", k.Key, k.State)
		}
		for _, at := range []time.Time{k.Earliest, k.Best, k.Latest, k.Ideal} {
			if at.Location() != time.UTC || at.Second() != 0 || at.Nanosecond() != 0 {
				t.Fatalf("%s has %v: instants are whole minutes in UTC", k.Key, at)
			}
		}
		if !k.Guard && !k.Unfit {
			if fit, ok := s.FitWork(k.Earliest, k.Best, k.Latest); !ok || fit.Sub(k.Best).Abs() > time.Minute {
				t.Fatalf("%s: best %v is no working time", k.Key, k.Best)
			}
		}
		keys[k.Key] = true
	}
}

// frozen compares the inputs before and after: a planner that changed them would
// make the second message of a transaction differ from a rebuild.
func frozen(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(b)
}

func anyCrew(t *rapid.T) *Settings {
	s := crew()
	s.Zone = anyZone(t)
	anyWork(t, s)
	if rapid.Bool().Draw(t, "own move") {
		s.MoveAt = time.Duration(rapid.IntRange(8*24, 12*24).Draw(t, "move at")) * time.Hour
	}
	if rapid.Bool().Draw(t, "incubator") {
		s.Incubator = []TempFrom{{grafted, rapid.Float64Range(30, 38).Draw(t, "C")}}
	}
	return s
}

func TestBatchTasksHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, b := anyCrew(t), anyBook(t)
		if rapid.Bool().Draw(t, "stated age") {
			lo := rapid.Float64Range(0, 60).Draw(t, "lo")
			larvae(lo, lo+rapid.Float64Range(0, 60).Draw(t, "span"))(&b.entries[0])
		}
		combs := []Comb{{ID: 99, Confined: grafted.Add(-Hours(rapid.Float64Range(60, 200).Draw(t, "confined"))), BeesIn: yes()}}
		entries := Effective(b.entries)
		was, combsWas := frozen(entries), frozen(combs)
		batch, ok := BatchOf(1, entries, combs, s)
		if !ok {
			return
		}
		tasks := BatchTasks(batch, entries, s)
		sound(t, append(tasks, LooseRogue(batch, entries, s)), s)
		assert.Equal(t, was, frozen(entries), "entries changed")
		assert.Equal(t, combsWas, frozen(combs), "combs changed")
		again, _ := BatchOf(1, entries, combs, s)
		assert.Equal(t, batch, again)
		assert.Equal(t, frozen(tasks), frozen(BatchTasks(again, entries, s)), "the same logbook gave another plan")
		// One skip or one step done is answered once: nothing is open after the end.
		if batch.Ended {
			for _, k := range tasks {
				if k.State == Open && k.Step != Recell {
					t.Fatalf("%s is open after the batch ended", k.Key)
				}
			}
		}
	})
}

func TestBreederTasksHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyCrew(t)
		var b book
		subject := BreederSubject(7)
		b.add(Add, subject, confined.Add(-time.Hour))
		var grafts []GraftRef
		for range rapid.IntRange(0, 12).Draw(t, "entries") {
			at := confined.Add(time.Duration(rapid.IntRange(0, 200*60).Draw(t, "minute")) * time.Minute)
			ref := int64(rapid.IntRange(1, len(b.entries)).Draw(t, "ref"))
			switch rapid.IntRange(0, 4).Draw(t, "what") {
			case 0:
				b.add(Eggs, subject, at, detail(Detail{Comb: ref, NoEggs: rapid.Bool().Draw(t, "no eggs")}))
			case 1:
				b.add(CombOut, subject, at, detail(Detail{Comb: ref, NoEggs: rapid.Bool().Draw(t, "empty"), Release: rapid.Bool().Draw(t, "released")}))
			case 2:
				b.add("", Subject{}, at, action(Void), about(ref))
			case 3:
				grafts = append(grafts, GraftRef{Batch: 1 + len(grafts), Comb: ref, At: at})
			default:
				b.add(Confine, subject, at, detail(Detail{BeesIn: rapid.SampledFrom([]*bool{nil, yes(), no()}).Draw(t, "bees")}))
			}
		}
		entries := Effective(b.entries)
		was := frozen(entries)
		breeder, exists, combs, tasks := PlanBreeder(7, entries, grafts, nil, s)
		sound(t, tasks, s)
		assert.Equal(t, was, frozen(entries), "entries changed")
		again, existsAgain, combsAgain, tasksAgain := PlanBreeder(7, entries, grafts, nil, s)
		assert.Equal(t, []any{breeder, exists, combs, tasks}, []any{again, existsAgain, combsAgain, tasksAgain})
		assert.Len(t, tasks, 3*len(combs), "eggs, comb out and graft for every comb")
	})
}

func TestPlaceTasksHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyCrew(t)
		var builder, yard book
		builder.add(Add, BuilderSubject("B2"), grafted.Add(-time.Hour))
		yard.add(Add, YardSubject("North"), grafted.Add(-time.Hour), count(40))
		var flow []FlowLine
		var batches []BarRef
		for range rapid.IntRange(0, 12).Draw(t, "entries") {
			at := grafted.Add(time.Duration(rapid.IntRange(0, 300*60).Draw(t, "minute")) * time.Minute)
			switch rapid.IntRange(0, 3).Draw(t, "what") {
			case 0:
				flow = append(flow, FlowLine{rapid.SampledFrom([]string{"", "North", "South"}).Draw(t, "yard"), rapid.Bool().Draw(t, "dearth"), at})
			case 1:
				builder.add(Feed, BuilderSubject("B2"), at)
				yard.add(Feed, YardSubject("North"), at)
			case 2:
				builder.add(Rogue, BuilderSubject("B2"), at)
			default:
				batches = append(batches, BarRef{Batch: len(batches) + 1, Grafted: at, Ended: rapid.Bool().Draw(t, "ended")})
			}
		}
		entries, yardEntries := Effective(builder.entries), Effective(yard.entries)
		was := frozen([]any{entries, yardEntries, batches, flow})
		_, _, tasks := PlanBuilder("B2", entries, batches, flow, s)
		sound(t, tasks, s)
		_, _, yardTasks := PlanYard("North", yardEntries, flow, s)
		sound(t, yardTasks, s)
		if _, dearth := DearthAt(flow, "North"); !dearth && len(yardTasks) > 0 {
			t.Fatalf("fed without a dearth")
		}
		assert.Equal(t, was, frozen([]any{entries, yardEntries, batches, flow}), "inputs changed")
		_, _, again := PlanBuilder("B2", entries, batches, flow, s)
		assert.Equal(t, tasks, again)
	})
}

func TestTaskPhase(t *testing.T) {
	k := open(Move, Critical, "2031-05-10 10:00", "2031-05-11 08:00", "2031-05-11 14:00")
	for at, want := range map[string]Phase{
		"2031-05-10 09:59": Waiting, "2031-05-10 10:00": InTime, "2031-05-11 13:59": InTime, "2031-05-11 14:00": Over,
	} {
		assert.Equal(t, want, k.Phase(when(at)), at)
	}
}

func TestSubjects(t *testing.T) {
	for _, s := range []Subject{BreederSubject(7), BatchSubject(4), BuilderSubject("B2"), YardSubject("North Field"), {}} {
		assert.Equal(t, s, ParseSubject(s.String()))
	}
	assert.Equal(t, 7, BreederSubject(7).Number())
	assert.Zero(t, YardSubject("North").Number())
	assert.True(t, ParseSubject("nonsense").Zero())
}
