package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A virgin among cells that are not moved closes nothing: the move is to be done now,
// the nucs are made as before.
func TestVirginHurriesTheMove(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Capped, s, h(120), count(36))
	before, calm := b.batch(t, crew())
	require.True(t, before.AmongCells(h(226), crew()))
	id := b.add(Virgin, s, h(226), count(1))
	batch, tasks := b.batch(t, crew())
	assert.Equal(t, before, batch)
	move := task(t, tasks, Move, "")
	assert.Equal(t, Open, move.State)
	assert.Equal(t, "virgin", move.Reason)
	assert.Equal(t, []time.Time{h(226), h(227)}, []time.Time{move.Best, move.Latest})
	assert.False(t, move.Earliest.After(move.Best))
	assert.Equal(t, 36, *move.Count)
	for _, step := range []Step{Nucs, HandsOff, Emerge, Laying} {
		assert.Equal(t, task(t, calm, step, ""), task(t, tasks, step, ""), "%s", step)
	}
	b.add(Virgin, s, h(229), count(2))
	_, tasks = b.batch(t, crew())
	assert.Equal(t, h(230), task(t, tasks, Move, "").Latest, "told again of the one after it")
	b.add("", s, h(230), action(Void), about(id))
	b.add("", s, h(230), action(Void), about(id+1))
	_, tasks = b.batch(t, crew())
	assert.Equal(t, calm, tasks, "taken back")
}

// One that is out long before the batch's own can be comes of a cell that the bees
// built: cells that are not ripe are not hurried into nucs.
func TestVirginOfARogueCell(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	_, calm := b.batch(t, crew())
	b.add(Virgin, s, h(150), count(1))
	batch, tasks := b.batch(t, crew())
	assert.Equal(t, calm, tasks)
	assert.False(t, batch.Ripe(h(150)))
	assert.True(t, batch.Ripe(h(192)))
}

// The move is never put off by one that is reported when it is late already.
func TestVirginAfterTheClose(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	_, calm := b.batch(t, crew())
	b.add(Virgin, s, h(240), count(1))
	_, tasks := b.batch(t, crew())
	assert.Equal(t, task(t, calm, Move, ""), task(t, tasks, Move, ""))
}

func TestAmongCells(t *testing.T) {
	s, set := BatchSubject(1), crew()
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Capped, s, h(120), count(36))
	batch, _ := b.batch(t, set)
	assert.False(t, batch.AmongCells(grafted.Add(-time.Hour), set))
	assert.True(t, batch.AmongCells(h(240), set))
	assert.False(t, batch.AmongCells(h(295+65), set), "all of them are out, somewhere")
	b.add(Move, s, h(236), count(20), into("North"))
	batch, _ = b.batch(t, set)
	assert.True(t, batch.AmongCells(h(240), set), "16 are still there")
	b.add(Move, s, h(237), count(16), into("North"))
	batch, _ = b.batch(t, set)
	assert.False(t, batch.AmongCells(h(240), set))
}

// None out yet is no end of a batch while virgins may come; after that it is.
func TestNoneOutYet(t *testing.T) {
	s, set := BatchSubject(1), crew()
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Move, s, h(236), count(36), into("North"))
	before, calm := b.batch(t, set)
	look := Entry{Step: Emerge, Subject: s, Happened: h(330), Count: new(int)}
	require.True(t, before.NoneYet(look, set))
	look.Detail.NoneYet = true
	require.Nil(t, CheckBatch(look, before, 0))
	b.add(Emerge, s, h(330), count(0), detail(look.Detail))
	batch, tasks := b.batch(t, set)
	assert.Equal(t, before, batch)
	emerge := task(t, tasks, Emerge, "")
	assert.Equal(t, Open, emerge.State)
	assert.Equal(t, h(342), emerge.Ideal, "looked at again half a day on")
	assert.Equal(t, task(t, calm, Emerge, "").Latest, emerge.Latest)
	for _, step := range []Step{Flights, Laying, Catch} {
		assert.Equal(t, task(t, calm, step, ""), task(t, tasks, step, ""), "%s", step)
	}
	late := Entry{Step: Emerge, Subject: s, Happened: h(295 + 65), Count: new(int)}
	assert.False(t, batch.NoneYet(late, set))
	b.add(Emerge, s, late.Happened, count(0))
	batch, tasks = b.batch(t, set)
	assert.True(t, batch.Ended)
	assert.Equal(t, Passed, task(t, tasks, Laying, "").State)
}

// A line from before looks were told apart still ends its batch: nothing that was
// closed long ago is pinged again.
func TestNoneEmergedAsItWasLogged(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Move, s, h(236), count(36), into("North"))
	b.add(Emerge, s, h(330), count(0))
	batch, _ := b.batch(t, crew())
	assert.True(t, batch.Ended)
}
