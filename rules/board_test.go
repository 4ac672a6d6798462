package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// yardbook writes the lines of a crew with a yard, a day apart.
type yardbook struct {
	lines []Entry
	at    time.Time
}

func newYardbook() *yardbook {
	return &yardbook{at: time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)}
}

func (y *yardbook) did(s Subject, step Step, count int, how ...func(*Entry)) Entry {
	e := Entry{ID: int64(len(y.lines) + 1), Said: y.at, Happened: y.at, Action: Did, Step: step, Subject: s, By: "Wren"}
	if count >= 0 {
		e.Count = &count
	}
	for _, f := range how {
		f(&e)
	}
	y.lines = append(y.lines, e)
	return e
}

func (y *yardbook) days(d float64) { y.at = y.at.Add(Hours(24 * d)) }

func (y *yardbook) crew() *Crew { return Fold(DefaultSettings(), y.lines) }

func at(yard string) func(*Entry)     { return func(e *Entry) { e.Into = yard } }
func state(s NucState) func(*Entry)   { return func(e *Entry) { e.Detail.State = s } }
func ofBatchNo(n int) func(*Entry)    { return func(e *Entry) { e.Detail.Batch = n } }
func graftedIn(b string) func(*Entry) { return func(e *Entry) { e.From, e.Into = 7, b } }
func stand(b Board) map[NucState]int {
	out := map[NucState]int{}
	for _, s := range NucStates {
		if n := b.Count(s); n > 0 {
			out[s] = n
		}
	}
	return out
}

// round grafts a batch and moves it to North ten days later.
func (y *yardbook) round(n, cells int) {
	y.did(BatchSubject(n), Graft, cells+8, graftedIn("B1"))
	y.days(1)
	y.did(BatchSubject(n), Accept, cells)
	y.days(9)
	y.did(BatchSubject(n), Move, cells, at("North"))
}

func TestBoardFollowsARoundToTheNext(t *testing.T) {
	y := newYardbook()
	y.did(YardSubject("North"), Add, 40)
	require.Equal(t, map[NucState]int{NucUntold: 40}, stand(y.crew().Board("North")), "what stands in them nobody said")
	y.did(BatchSubject(1), Graft, 40, graftedIn("B1"))
	y.days(8)
	y.did(BatchSubject(1), Nucs, 34, at("North"))
	require.Equal(t, map[NucState]int{NucUntold: 6, NucFree: 34}, stand(y.crew().Board("North")))
	y.days(2)
	y.did(BatchSubject(1), Move, 32, at("North"))
	require.Equal(t, map[NucState]int{NucUntold: 6, NucFree: 2, NucCell: 32}, stand(y.crew().Board("North")))
	y.days(4)
	y.did(BatchSubject(1), Emerge, 30)
	require.Equal(t, map[NucState]int{NucUntold: 6, NucFree: 2, NucVirgin: 30, NucQueenless: 2}, stand(y.crew().Board("North")))
	y.days(13)
	y.did(BatchSubject(1), Laying, 24)
	require.Equal(t, map[NucState]int{NucUntold: 6, NucFree: 2, NucVirgin: 6, NucLaying: 24, NucQueenless: 2}, stand(y.crew().Board("North")), "the others may still be late")
	y.days(6)
	y.did(BatchSubject(1), Laying, 25)
	require.Equal(t, map[NucState]int{NucUntold: 6, NucFree: 2, NucLaying: 25, NucQueenless: 7}, stand(y.crew().Board("North")))
	y.days(6)
	y.did(BatchSubject(2), Graft, 50, graftedIn("B2"))
	y.days(5)
	y.did(BatchSubject(2), Capped, 34)
	y.days(4)
	y.did(BatchSubject(1), Catch, 25, at("North"))
	require.Equal(t, map[NucState]int{NucUntold: 6, NucFree: 2, NucCaught: 25, NucQueenless: 7}, stand(y.crew().Board("North")))

	c := y.crew()
	nucs, _ := c.Task(TaskKey(BatchSubject(2), Nucs, ""))
	require.Equal(t, Open, nucs.State)
	require.Equal(t, 9, *nucs.Count, "34 cells: 25 were caught out, and the two left of last month are too old")
	require.Equal(t, []NucsAt{{"North", 25}}, FreeNucs(nucs))
	recell, _ := c.Task(TaskKey(BatchSubject(1), Recell, ""))
	require.Equal(t, Passed, recell.State, "one visit with the move of the next batch")

	y.days(1)
	y.did(BatchSubject(2), Move, 34, at("North"))
	c = y.crew()
	require.Equal(t, map[NucState]int{NucUntold: 6, NucCell: 34}, stand(c.Board("North")), "those caught out, those free, those without a queen")
	recell, _ = c.Task(TaskKey(BatchSubject(1), Recell, ""))
	require.Equal(t, Done, recell.State, "moving cells into nucs that were caught out is the re-celling")
	require.Empty(t, c.Board("North").Short)
}

func TestNucsThatStandCoverTheCells(t *testing.T) {
	y := newYardbook()
	y.did(BatchSubject(1), Graft, 45, graftedIn("B1"))
	y.days(1)
	y.did(BatchSubject(1), Accept, 34)
	task := func() Task {
		k, _ := y.crew().Task(TaskKey(BatchSubject(1), Nucs, ""))
		return k
	}
	require.Equal(t, 34, *task().Count)
	y.did(YardSubject("North"), Nuc, 24, state(NucFree))
	require.Equal(t, 10, *task().Count)
	y.did(YardSubject("Creek"), Nuc, 12, state(NucFree))
	require.Equal(t, Passed, task().State, "all are covered")
	y.did(YardSubject("Creek"), Nuc, 3, state(NucAbsconded))
	require.Equal(t, 1, *task().Count)
	require.Equal(t, Open, task().State)
	y.did(BatchSubject(1), Nucs, 1, at("Creek"))
	require.Equal(t, Done, task().State)
	y.days(9)
	y.did(BatchSubject(1), Move, 24, at("North"))
	y.did(BatchSubject(1), Move, 10, at("Creek"))
	c := y.crew()
	require.Equal(t, map[NucState]int{NucCell: 24}, stand(c.Board("North")))
	require.Equal(t, map[NucState]int{NucCell: 10, NucAbsconded: 3}, stand(c.Board("Creek")))
	require.Equal(t, 10, c.Board("Creek").Standing())
}

func TestMoreCellsThanNucs(t *testing.T) {
	y := newYardbook()
	y.did(YardSubject("North"), Add, 40)
	y.round(1, 36)
	y.round(2, 12)
	b := y.crew().Board("North")
	require.Equal(t, 8, b.ShortOf(y.lines[len(y.lines)-1].ID), "36 of 40 hold cells")
	made := y.did(BatchSubject(3), Graft, 40, graftedIn("B2"))
	made = y.did(BatchSubject(3), Nucs, 40, at("North"))
	require.Equal(t, 40, y.crew().Board("North").ShortOf(made.ID), "none is free")
}

// Where two batches stand, what is said of nucs is of the one that is named with it, and its
// account loses as many queens.
func TestNucsLostOfOneOfTwoBatches(t *testing.T) {
	y := newYardbook()
	y.round(1, 20)
	y.days(3)
	y.round(2, 12)
	y.did(YardSubject("North"), Nuc, 4, state(NucRobbed), ofBatchNo(1))
	c := y.crew()
	board := c.Board("North")
	require.Equal(t, 16, board.Living(1))
	require.Equal(t, 12, board.Living(2))
	b, _ := c.Batch(1)
	require.Equal(t, 16, *b.Account.Queens.Present())
	k, _ := c.Task(TaskKey(BatchSubject(1), Emerge, ""))
	require.Equal(t, 16, *k.Count)
	y.lines = append(y.lines, Entry{ID: 99, Action: Void, Step: Nuc, Subject: YardSubject("North"), Ref: int64(len(y.lines)), Said: y.at, Happened: y.at})
	c = y.crew()
	b, _ = c.Batch(1)
	require.Equal(t, 20, *b.Account.Queens.Present())
	require.Zero(t, c.Board("North").Lost())
}

// A number is a label on one nuc, and no bare count changes that nuc.
func TestNumberedNucs(t *testing.T) {
	y := newYardbook()
	y.round(1, 20)
	y.days(5)
	for _, number := range []string{"3", "7", "12"} {
		y.did(NucSubject("North", number), Nuc, -1, state(NucQueenless), ofBatchNo(1))
	}
	y.did(BatchSubject(1), Laying, 20)
	b := y.crew().Board("North")
	require.Equal(t, map[NucState]int{NucQueenless: 3, NucLaying: 17}, stand(b))
	y.did(BatchSubject(2), Move, 5, at("North"))
	b = y.crew().Board("North")
	dud, found := b.Label("7")
	require.True(t, found)
	require.Equal(t, NucQueenless, dud.State)
	require.Equal(t, 1, dud.Batch)
	y.did(NucSubject("North", "7"), Nuc, -1, state(NucFree))
	dud, _ = y.crew().Board("North").Label("7")
	require.Equal(t, NucFree, dud.State)
	yard, number := NucOf(NucSubject("Lower Meadow", "7"))
	require.Equal(t, "Lower Meadow", yard)
	require.Equal(t, "7", number)
}

// Of nucs of which nothing was told for a season nothing is known.
func TestOldNucsAreNotKnown(t *testing.T) {
	y := newYardbook()
	y.round(1, 20)
	y.days(200)
	y.did(YardSubject("North"), Nuc, 2, state(NucDead))
	require.Equal(t, map[NucState]int{NucUntold: 18, NucDead: 2}, stand(y.crew().Board("North")))
}

// raises are the steps that may bring nucs in.
var raises = map[Step]bool{Add: true, Nucs: true, Move: true, Emerge: true, Laying: true, Catch: true, Lose: true, Nuc: true}

// The states of a board add up, whatever is told in which order, taken back or told late: a
// nuc that is there is in one state, none comes but by a line that brings it, none goes but
// by the crew's own count of the yard, and a bare count leaves the numbered ones alone.
func TestBoardAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := newYardbook()
		steps := []Step{Nucs, Move, Move, Emerge, Laying, Catch, Recell, Lose}
		n := rapid.IntRange(5, 60).Draw(t, "lines")
		for b := 1; b <= 3; b++ {
			y.did(BatchSubject(b), Graft, 40, graftedIn("B1"))
		}
		for range n {
			y.at = y.at.Add(Hours(float64(rapid.IntRange(1, 200).Draw(t, "hours"))))
			yard := rapid.SampledFrom([]string{"North", "Creek"}).Draw(t, "yard")
			count := rapid.IntRange(0, 40).Draw(t, "count")
			late := func(e *Entry) {
				if rapid.IntRange(0, 3).Draw(t, "late") == 0 {
					e.Happened = e.Said.Add(-Hours(float64(rapid.IntRange(1, 400).Draw(t, "by"))))
				}
			}
			batch := rapid.IntRange(1, 3).Draw(t, "batch")
			of := ofBatchNo(rapid.IntRange(0, 3).Draw(t, "of"))
			switch k := rapid.IntRange(0, 12).Draw(t, "kind"); {
			case k == 0:
				y.did(YardSubject(yard), Add, count, late)
			case k < 3:
				y.did(YardSubject(yard), Nuc, count, state(rapid.SampledFrom(NucStates).Draw(t, "state")), of, late)
			case k < 5:
				number := rapid.SampledFrom([]string{"1", "2", "3"}).Draw(t, "number")
				y.did(NucSubject(yard, number), Nuc, -1, state(rapid.SampledFrom(NucStates).Draw(t, "state")), of, late)
			case k == 5:
				ref := y.lines[rapid.IntRange(0, len(y.lines)-1).Draw(t, "ref")]
				y.did(ref.Subject, ref.Step, -1, func(e *Entry) { e.Action, e.Ref = Void, ref.ID })
			default:
				part := func(e *Entry) { e.Detail.Part = rapid.Bool().Draw(t, "part") }
				y.did(BatchSubject(batch), rapid.SampledFrom(steps).Draw(t, "step"), count, at(yard), late, part)
			}
		}
		c := y.crew()
		for _, yard := range []string{"North", "Creek"} {
			own := YardLines{Own: c.Effective(YardSubject(yard))}
			for _, s := range c.numbered(yard) {
				own.Numbered = append(own.Numbered, c.Effective(s)...)
			}
			board := BoardOf(yard, own, c.Batches(), func(n int) []Entry { return c.Effective(BatchSubject(n)) })
			require.Equal(t, board, c.Board(yard))
			sum := 0
			for _, s := range NucStates {
				sum += board.Count(s)
			}
			require.Equal(t, board.Standing()+board.Lost(), sum)
			labels := map[string]bool{}
			for _, l := range board.Lots {
				require.Positive(t, l.N)
				if l.Label != "" {
					require.Equal(t, 1, l.N)
					require.False(t, labels[l.Label])
					labels[l.Label] = true
				}
			}
			watch(t, yard, own, c)
		}
	})
}

// watch plays what happened one by one and holds each step to what it may do.
func watch(t *rapid.T, yard string, own YardLines, c *Crew) {
	k := nucs{board: Board{Yard: yard}, looks: map[int]int{}, made: map[int]bool{}}
	for _, e := range k.events(own, c.Batches(), func(n int) []Entry { return c.Effective(BatchSubject(n)) }) {
		was := k.board.Standing() + k.board.Lost()
		k.forget(e.Happened)
		before, untold, lost := k.board.Standing()+k.board.Lost(), k.board.Count(NucUntold), k.board.Lost()
		require.Equal(t, was, before)
		var labelled []NucLot
		for _, l := range k.board.Lots {
			if l.N > 0 && l.Label != "" {
				labelled = append(labelled, l)
			}
		}
		k.take(&e)
		after := k.board.Standing() + k.board.Lost()
		switch {
		case e.Step == Add:
			require.GreaterOrEqual(t, after, before-untold)
		case raises[e.Step]:
			require.GreaterOrEqual(t, after, before, "none goes unsaid")
		default:
			require.Equal(t, before, after, "%s brings none", e.Step)
		}
		if e.Step != Nuc && e.Step != Lose {
			require.Equal(t, lost, k.board.Lost(), "%s loses none", e.Step)
		}
		if e.Subject.Kind != NucKind {
			for _, l := range labelled {
				now, _ := k.board.Label(l.Label)
				require.Equal(t, l, now, "a bare count leaves it alone")
			}
		}
	}
}
