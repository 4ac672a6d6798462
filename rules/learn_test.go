package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The mean of the posterior agrees with one computed by other means: testdata/shift.py
// wrote shift_means.csv.
func TestShiftAgreesWithTheReference(t *testing.T) {
	g := newShiftGrid(SigmaBatch, SigmaCell)
	type batch struct {
		e     Emergence
		looks []Look
	}
	var names []string
	cases := map[string]map[string]*batch{}
	for _, r := range reference(t, "shift_looks.csv") {
		if cases[r["case"]] == nil {
			cases[r["case"]] = map[string]*batch{}
			names = append(names, r["case"])
		}
		b := cases[r["case"]][r["batch"]]
		if b == nil {
			b = &batch{e: usual()}
			b.e.Age = AgeSpan{num(t, r["age_lo"]), num(t, r["age_hi"]), "stated"}
			cases[r["case"]][r["batch"]] = b
		}
		b.looks = append(b.looks, Look{At: h(num(t, r["hours"])), Place: r["place"], Out: int(num(t, r["out"])), Of: int(num(t, r["of"])),
			Some: r["kind"] == "some", Moved: r["kind"] == "moved"})
	}
	means := map[string]float64{}
	for _, r := range reference(t, "shift_means.csv") {
		means[r["case"]] = num(t, r["mean"])
	}
	require.Len(t, means, len(names))
	for _, name := range names {
		log := make([]float64, shiftPoints)
		for _, b := range cases[name] {
			for i, v := range g.tells(g.given(b.e, b.looks)) {
				log[i] += v
			}
		}
		got := g.learn(log, 1)
		t.Logf("%s: %.2f h, by the reference %.2f", name, got.Mean, means[name])
		assert.InDelta(t, means[name], got.Mean, 0.5, name)
		var sum float64
		for _, node := range got.late {
			sum += node.w
		}
		assert.InDelta(t, 1, sum, 1e-9)
	}
}

// fastBatch are the lines of a batch whose queens were nearly all out at 290 h.
func (b *book) fastBatch(n int, at time.Time) {
	s := BatchSubject(n)
	after := func(hours float64) time.Time { return at.Add(Hours(hours)) }
	b.add(Graft, s, at, count(45))
	b.add(Capped, s, after(120), count(36))
	b.add(Move, s, after(234), count(34), into("North"))
	b.add(Emerge, s, after(290), count(31))
}

// What was seen of batches brings the close of those not moved yet forward, and all that is
// counted from the middle; taken back, all is as it was.
func TestLearntFromOtherBatches(t *testing.T) {
	var b book
	next := grafted.Add(28 * 24 * time.Hour)
	b.add(Graft, BatchSubject(4), next, count(45))
	b.add(Capped, BatchSubject(4), next.Add(Hours(120)), count(40))
	for i := range b.entries {
		b.entries[i].ID += 100
	}
	later := b.entries
	b.entries = nil
	for n := range 3 {
		b.fastBatch(n+1, grafted.Add(time.Duration(n)*7*24*time.Hour))
	}
	plain := Fold(crew(), later)
	lines := append(b.entries, later...)
	c := Fold(crew(), lines)
	batch, _ := c.Batch(4)
	books, _ := plain.Batch(4)
	require.NotNil(t, batch.Learnt)
	assert.Nil(t, books.Learnt)
	assert.Equal(t, 3, batch.Learnt.Looks)
	assert.InDelta(t, -18, batch.Learnt.Mean, 4)
	move, was := task(t, c.Tasks(BatchSubject(4)), Move, ""), task(t, plain.Tasks(BatchSubject(4)), Move, "")
	assert.Equal(t, 240.0, hoursAfter(next, was.Latest))
	assert.Less(t, hoursAfter(next, move.Latest), 238.0)
	assert.Less(t, batch.Emergence(crew()).AnyOut(move.Latest), SafeChance)
	assert.False(t, move.Best.After(move.Latest))
	assert.True(t, move.Earliest.Before(was.Earliest), "ripe sooner too")
	for _, step := range []Step{Flights, Laying, Catch} {
		assert.Equal(t, Hours(batch.Learnt.Hours()), task(t, c.Tasks(BatchSubject(4)), step, "").Earliest.Sub(task(t, plain.Tasks(BatchSubject(4)), step, "").Earliest), "%s", step)
	}
	first, _ := c.Batch(1)
	assert.Nil(t, first.Learnt, "what came after its move changes nothing")

	// Step by step, and each look taken back.
	step := NewCrew(crew())
	for _, e := range lines {
		step.Apply(e)
		step.Settle()
	}
	require.Equal(t, c.Describe(), step.Describe())
	id := int64(1000)
	for _, e := range lines {
		if e.Step == Emerge {
			id++
			v := Entry{ID: id, Said: e.Said, Happened: e.Said, By: "Wren", Action: Void, Step: Emerge, Subject: e.Subject, Ref: e.ID}
			lines = append(lines, v)
			step.Apply(v)
			step.Settle()
			require.Equal(t, Fold(crew(), lines).Describe(), step.Describe())
		}
	}
	again, _ := step.Batch(4)
	assert.Equal(t, books, again)
	assert.Equal(t, plain.Tasks(BatchSubject(4)), step.Tasks(BatchSubject(4)))
}

// A look of two seasons ago tells nothing of this year's stock.
func TestOldLooksAreForgotten(t *testing.T) {
	var b book
	b.fastBatch(1, grafted)
	b.add(Graft, BatchSubject(2), grafted.AddDate(1, 0, 0), count(45))
	b.add(Graft, BatchSubject(3), grafted.AddDate(2, 0, 0), count(45))
	c := Fold(crew(), b.entries)
	two, _ := c.Batch(2)
	three, _ := c.Batch(3)
	assert.NotNil(t, two.Learnt)
	assert.Nil(t, three.Learnt)
}

// What was seen of a batch moves its own later windows: sooner where most were out, later
// where none was, not at all where the books would have it so.
func TestWhatWasSeenMovesItsOwnWindows(t *testing.T) {
	base := func(looks ...func(*book)) Batch {
		var b book
		s := BatchSubject(1)
		b.add(Graft, s, grafted, count(45))
		b.add(Capped, s, h(120), count(36))
		b.add(Move, s, h(236), count(34), into("North"))
		for _, l := range looks {
			l(&b)
		}
		c := Fold(crew(), b.entries)
		batch, _ := c.Batch(1)
		assert.Equal(t, batch.Emerges.Add(Hours(264)), task(t, c.Tasks(BatchSubject(1)), Laying, "").Earliest)
		return batch
	}
	look := func(hours float64, n int, opts ...with) func(*book) {
		return func(b *book) { b.add(Emerge, BatchSubject(1), h(hours), append(opts, count(n))...) }
	}
	none := detail(Detail{NoneYet: true})
	assert.Equal(t, 295.0, hoursAfter(grafted, base().Emerges))
	assert.Equal(t, 295.0, hoursAfter(grafted, base(look(340, 31)).Emerges), "all were to be out by then")
	early := base(look(262, 31, of(34)))
	assert.LessOrEqual(t, hoursAfter(grafted, early.Emerges), 262.0, "no later than when most were out")
	assert.Greater(t, hoursAfter(grafted, early.Emerges), 230.0)
	assert.Greater(t, hoursAfter(grafted, base(look(300, 0, none)).Emerges), 303.0)
	few := base(look(300, 3))
	assert.Greater(t, hoursAfter(grafted, few.Emerges), 300.0)
	assert.Less(t, hoursAfter(grafted, few.Emerges), 320.0)
}

// A virgin that was out before the move teaches; one that cannot be of the batch does not.
func TestAVirginTeaches(t *testing.T) {
	learnt := func(at float64) *Learnt {
		var b book
		b.add(Graft, BatchSubject(1), grafted, count(45))
		b.add(Capped, BatchSubject(1), h(120), count(36))
		b.add(Virgin, BatchSubject(1), h(at), count(1))
		b.add(Graft, BatchSubject(2), grafted.Add(20*24*time.Hour), count(45))
		c := Fold(crew(), b.entries)
		two, _ := c.Batch(2)
		return two.Learnt
	}
	require.NotNil(t, learnt(240))
	assert.Less(t, learnt(240).Mean, -3.0)
	assert.Greater(t, learnt(210).Mean, -1.0, "one of a cell that was missed, more likely")
	assert.Nil(t, learnt(150))
}

// Half of them out is no last count while more may come; counted after that it is.
func TestMoreToCome(t *testing.T) {
	s, set := BatchSubject(1), crew()
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Move, s, h(236), count(36), into("North"))
	batch, _ := b.batch(t, set)
	at := func(hours float64, n int) Entry {
		return Entry{Step: Emerge, Subject: s, Happened: h(hours), Count: &n}
	}
	assert.True(t, batch.MoreToCome(at(296, 20), set))
	assert.False(t, batch.MoreToCome(at(296, 30), set), "the few left are never seen")
	assert.False(t, batch.MoreToCome(at(330, 20), set))
	assert.False(t, batch.MoreToCome(at(296, 0), set), "none out is none yet")
	b.add(Emerge, s, h(296), count(20), detail(Detail{More: true}))
	batch, tasks := b.batch(t, set)
	assert.Nil(t, batch.Counts.Emerged)
	emerge := task(t, tasks, Emerge, "")
	assert.Equal(t, Open, emerge.State)
	assert.Equal(t, h(324), emerge.Ideal)
	assert.Equal(t, 36, *task(t, tasks, Laying, "").Count)
	b.add(Emerge, s, h(326), count(32))
	batch, tasks = b.batch(t, set)
	assert.Equal(t, 32, *batch.Counts.Emerged)
	assert.Equal(t, Done, task(t, tasks, Emerge, "").State)
}

// The look is asked for where it teaches until the crew's cells are known, and never where
// the crew has hours of its own for it.
func TestTheLookIsAskedForWhereItTeaches(t *testing.T) {
	var b book
	for n := range 4 {
		b.fastBatch(n+1, grafted.Add(time.Duration(n)*14*24*time.Hour))
	}
	s := crew()
	check := func(c *Crew, n int) float64 {
		batch, _ := c.Batch(n)
		return hoursAfter(batch.Emerges, task(t, c.Tasks(BatchSubject(n)), Emerge, "").Ideal)
	}
	c := Fold(s, b.entries)
	assert.Equal(t, 0.0, check(c, 1))
	assert.Equal(t, 29.0, check(c, 4))
	require.NoError(t, s.Apply("step emerge", "6/30/66", grafted))
	assert.Equal(t, 30.0, check(Fold(s, b.entries), 1))
}
