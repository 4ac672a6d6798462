package rules

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// shed is a crew with one incubator and a batch of 20 h old larvae grafted into B1.
func shed(t *testing.T, more ...Entry) (*Crew, time.Time) {
	graft := time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)
	age := 20.0
	lines := []Entry{
		{Step: Add, Subject: BuilderSubject("B1"), Happened: graft},
		{Step: Add, Subject: IncubatorSubject("1"), Happened: graft},
		{Step: Graft, Subject: BatchSubject(1), From: 7, Into: "B1", Count: new(45), Detail: Detail{AgeLo: &age, AgeHi: &age}, Happened: graft},
	}
	lines = append(lines, more...)
	for i := range lines {
		lines[i].ID, lines[i].Action, lines[i].Said = int64(i+1), Did, lines[i].Happened
	}
	c := NewCrew(DefaultSettings())
	for _, e := range lines {
		c.Apply(e)
		c.Settle()
	}
	require.Equal(t, Fold(DefaultSettings(), lines).Describe(), c.Describe(), "step by step as at once")
	return c, graft
}

func past(graft time.Time, h float64) time.Time { return graft.Add(Hours(h)) }

// Each figure is worked out here by hand: the sealed stage of larvae of 20 h begins
// 192 - 92 = 100 h after the graft and takes 193 h.
func TestIncubatorCountsForTheCellsInIt(t *testing.T) {
	graft := time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)
	degrees := func(h, c float64, until float64) Entry {
		e := Entry{Step: Temp, Subject: IncubatorSubject("1"), Happened: past(graft, h), Detail: Detail{C: &c}}
		if until > 0 {
			e.Detail.Until = past(graft, until).UnixMilli()
		}
		return e
	}
	placed := func(h float64, out, into string, n int) Entry {
		e := Entry{Step: Placed, Subject: BatchSubject(1), Into: into, Detail: Detail{Out: out}, Happened: past(graft, h)}
		if n > 0 {
			e.Count = &n
		}
		return e
	}
	cut := Entry{Step: Temp, Subject: IncubatorSubject("1"), Happened: past(graft, 150), Detail: Detail{Power: true, Until: past(graft, 154).UnixMilli()}}

	c, _ := shed(t, degrees(90, 33.5, 0))
	b, _ := c.Batch(1)
	require.Zero(t, b.Shift, "cells in the builder have nothing of the incubator")

	c, _ = shed(t, degrees(90, 33.5, 0), placed(196.5, "", "incubator 1", 0))
	b, _ = c.Batch(1)
	require.InDelta(t, 5.4, b.Shift, 1e-9, "half the sealed stage one degree cooler")
	move, _ := c.Task("batch 1/move")
	require.Equal(t, past(graft, 240), move.Latest, "the close stays")
	require.Equal(t, past(graft, 240), move.Ideal)
	require.Equal(t, past(graft, 293+5.4).Round(time.Hour), b.Emerges)
	require.Equal(t, Open, move.State, "it ends no deadline")

	c, _ = shed(t, degrees(90, 35.5, 0), placed(196.5, "", "incubator 1", 0), placed(216.5, "", "B1", 0))
	b, _ = c.Batch(1)
	require.InDelta(t, -10.8*20/193, b.Shift, 1e-9, "twenty hours in it, and back in the builder")
	require.Equal(t, "B1", b.Builder)

	c, _ = shed(t, placed(120, "", "incubator 1", 0), degrees(121, 34.5, 0), degrees(150, 36.4, 153))
	b, _ = c.Batch(1)
	require.InDelta(t, -10.8*1.9*3/193, b.Shift, 1e-9, "an excursion ends")

	c, _ = shed(t, placed(120, "", "incubator 1", 0), cut)
	b, _ = c.Batch(1)
	require.Zero(t, b.Shift, "nobody knows how cold it got")
	require.InDelta(t, 4, b.Warmed.Most, 1e-9)
	move, _ = c.Task("batch 1/move")
	require.Equal(t, past(graft, 240), move.Latest)

	c, _ = shed(t, placed(120, "", "incubator 1", 0), cut, degrees(151, 20, 153))
	b, _ = c.Batch(1)
	require.InDelta(t, 10.8*14.5*2/193, b.Shift, 1e-9, "of two hours of the cut it is known")
	require.InDelta(t, 2, b.Warmed.Most, 1e-9)

	// Of two lots the one of which the queens come first has the window; in the nucs each
	// keeps what it had.
	c, _ = shed(t, degrees(90, 33.5, 0), placed(196.5, "B1", "incubator 1", 20))
	b, _ = c.Batch(1)
	require.Zero(t, b.Shift)
	require.Len(t, b.Account.Lots, 2)
	require.InDelta(t, 5.4, b.Account.Lots[1].Shift, 1e-9)
	require.Equal(t, 20, b.LotEmergence(b.Account.Lots[1], c.Settings()).Cells)
	require.InDelta(t, 5.4, b.LotEmergence(b.Account.Lots[1], c.Settings()).Shift, 1e-9)
	moved := Entry{Step: Move, Subject: BatchSubject(1), Count: new(25), Into: "North", Detail: Detail{Out: "B1"}, Happened: past(graft, 236)}
	c, _ = shed(t, degrees(90, 33.5, 0), placed(196.5, "B1", "incubator 1", 20), moved)
	b, _ = c.Batch(1)
	require.InDelta(t, 5.4, b.Shift, 1e-9, "those that stand are the cool ones")
	require.Equal(t, past(graft, 293), b.Emerges, "those in the nucs come first")
}

// A line about an incubator reaches every batch that is in it, or was, and no other; undone
// it is as if it had never been.
func TestIncubatorFoldsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		graft := time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)
		lines := []Entry{
			{ID: 1, Action: Did, Step: Graft, Subject: BatchSubject(1), From: 7, Into: "B1", Count: new(40), Happened: graft},
			{ID: 2, Action: Did, Step: Graft, Subject: BatchSubject(2), From: 7, Into: "B2", Count: new(40), Happened: past(graft, 30)},
		}
		c := Fold(DefaultSettings(), lines)
		for range rapid.IntRange(1, 12).Draw(t, "lines") {
			e := Entry{ID: int64(len(lines) + 1), Action: Did, Happened: past(graft, rapid.Float64Range(60, 260).Draw(t, "h"))}
			switch rapid.IntRange(0, 4).Draw(t, "what") {
			case 0:
				x := rapid.Float64Range(30, 38).Draw(t, "C")
				e.Step, e.Subject, e.Detail.C = Temp, IncubatorSubject(fmt.Sprint(rapid.IntRange(1, 2).Draw(t, "in"))), &x
			case 1:
				e.Step, e.Subject, e.Detail.Power = Temp, IncubatorSubject("1"), true
				e.Detail.Until = e.Happened.Add(3 * time.Hour).UnixMilli()
			case 2:
				e.Step, e.Subject = Placed, BatchSubject(rapid.IntRange(1, 2).Draw(t, "batch"))
				e.Into = rapid.SampledFrom([]string{"incubator 1", "incubator 2", "B1"}).Draw(t, "into")
			case 3:
				both := rapid.Bool().Draw(t, "both")
				e.Step, e.Subject, e.Detail.Both = Add, BuilderSubject("B1"), &both
			case 4:
				if was := lines[rapid.IntRange(0, len(lines)-1).Draw(t, "which")]; was.Action == Did && was.ID > 2 {
					e.Action, e.Step, e.Subject, e.Ref = Void, was.Step, was.Subject, was.ID
				} else {
					continue
				}
			}
			lines = append(lines, e)
			c.Apply(e)
			c.Settle()
		}
		if fresh := Fold(DefaultSettings(), lines).Describe(); fresh != c.Describe() {
			t.Fatalf("step by step:\n%s\nat once:\n%s", c.Describe(), fresh)
		}
		row := c.Settings().Table.Row(Move, "")
		for _, b := range c.Batches() {
			k, _ := c.Task(TaskKey(BatchSubject(b.Number), Move, ""))
			if k.Latest.After(past(b.Grafted, row.Latest)) {
				t.Fatalf("batch %d closes %v after the table", b.Number, k.Latest)
			}
		}
	})
}

func TestBuilderSaysWhatItIs(t *testing.T) {
	yes, no := true, false
	graft := time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)
	c, _ := shed(t, Entry{Step: Add, Subject: BuilderSubject("B1"), Into: "Creek", Happened: graft},
		Entry{Step: Add, Subject: BuilderSubject("B1"), Count: new(60), Happened: graft},
		Entry{Step: Add, Subject: BuilderSubject("B1"), Detail: Detail{Both: &yes}, Happened: graft},
		Entry{Step: Queenless, Subject: BuilderSubject("B1"), Happened: past(graft, -48)},
		Entry{Step: Brood, Subject: BuilderSubject("B1"), Happened: past(graft, 24)})
	require.Equal(t, Builder{"B1", "Creek", 60, true, false, past(graft, -48), []time.Time{past(graft, 24)}}, c.Builders()[0])
	finish, _ := c.Task("batch 1/finish")
	require.Equal(t, Passed, finish.State, "it stays where it was grafted")
	search, found := c.Task("builder B1/rogue/b" + fmt.Sprint(past(graft, 24).Unix()))
	require.True(t, found)
	require.Equal(t, past(graft, 24+120), search.Ideal)
	require.Equal(t, Critical, search.Weight)

	c, _ = shed(t, Entry{Step: Add, Subject: BuilderSubject("B1"), Detail: Detail{Both: &yes}, Happened: graft}, Entry{Step: Add, Subject: BuilderSubject("B1"), Detail: Detail{Both: &no}, Happened: graft},
		Entry{Step: Placed, Subject: BatchSubject(1), Into: "incubator 1", Happened: past(graft, 90)})
	finish, _ = c.Task("batch 1/finish")
	require.Equal(t, Open, finish.State)
	search, _ = c.Task("builder B1/rogue/1")
	require.Equal(t, Passed, search.State, "no cells hang there any more")
}
