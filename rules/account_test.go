package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// ledger writes the lines of one batch, an hour apart.
type ledger struct {
	lines []Entry
	at    time.Time
}

func (l *ledger) did(step Step, count int, into string, how ...func(*Entry)) {
	l.at = l.at.Add(time.Hour)
	e := Entry{ID: int64(len(l.lines) + 1), Said: l.at, Happened: l.at, Action: Did, Step: step, Subject: BatchSubject(1), Into: into}
	if count >= 0 {
		e.Count = &count
	}
	for _, f := range how {
		f(&e)
	}
	l.lines = append(l.lines, e)
}

func part(e *Entry)     { e.Detail.Part = true }
func everyone(e *Entry) { e.Detail.All = true }
func outOf(place string) func(*Entry) {
	return func(e *Entry) { e.Detail.Out = place }
}

func TestAccountOfABatchSplitOverTwoYards(t *testing.T) {
	l := ledger{at: time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)}
	l.did(Graft, 45, "B1")
	l.did(Accept, 38, "")
	l.did(Lose, 2, "", func(e *Entry) { e.Detail.Cause = CauseDropped })
	l.did(Capped, 35, "")
	l.did(Lose, 1, "B1")
	l.did(Move, 20, "North")
	l.did(Move, 13, "Creek")
	a, _ := AccountOf(l.lines)
	require.Equal(t, 1, *a.Standing(), "45 grafted, 7 not accepted, 2 dropped, 1 not capped, 1 lost, 33 moved")
	missing, _ := a.Cells.Missing(Accept)
	require.Equal(t, 7, missing)
	missing, _ = a.Cells.Missing(Capped)
	require.Equal(t, 1, missing)
	require.Equal(t, 3, a.Cells.Lost())
	require.Equal(t, []Lot{{Place: "B1", Count: new(1), Since: a.Lots[0].Since}}, a.Lots)

	l.did(Emerge, 18, "North", part)
	a, _ = AccountOf(l.lines)
	yards, n := a.Untold(Emerge)
	require.Equal(t, []string{"Creek"}, yards)
	require.Equal(t, 13, *n)
	require.Nil(t, a.Queens.Count(Emerge), "one yard is not the batch")
	b, _ := BatchOf(1, l.lines, nil, DefaultSettings())
	require.Nil(t, b.Counts.Emerged)
	for _, k := range BatchTasks(b, l.lines, DefaultSettings()) {
		if k.Step == Emerge {
			require.Equal(t, Open, k.State)
			require.Equal(t, "Creek", k.From)
			require.Equal(t, 13, *k.Count)
		}
	}

	l.did(Emerge, 12, "Creek", part)
	l.did(Lose, 2, "Creek")
	l.did(Laying, 15, "North", part)
	l.did(Catch, 10, "North")
	a, _ = AccountOf(l.lines)
	require.Equal(t, 30, *a.Queens.Count(Emerge))
	require.Equal(t, 10, *a.At("Creek").Present())
	require.Equal(t, 5, *a.At("North").Present())
	require.Equal(t, Loss{Line: 10, At: l.lines[9].Happened, Stage: Emerge, Where: "Creek", Count: 2}, a.Lost[2])
}

func TestLotsAreByPlace(t *testing.T) {
	l := ledger{at: time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)}
	l.did(Graft, 40, "B1")
	l.did(Placed, 25, IncubatorPlace("1"))
	a, _ := AccountOf(l.lines)
	require.Len(t, a.Lots, 2)
	require.Equal(t, "B1", a.Lots[0].Place)
	require.Equal(t, 15, *a.Lots[0].Count)
	require.Equal(t, IncubatorSubject("1"), PlaceSubject(a.Lots[1].Place))
	require.Equal(t, []CellStay{{"B1", l.lines[0].Happened, l.lines[1].Happened}}, a.Lots[1].Stays)

	l.did(Lose, 5, IncubatorPlace("1"))
	l.did(Move, 10, "North", outOf("B1"))
	a, _ = AccountOf(l.lines)
	require.Equal(t, 5, *a.Lots[0].Count)
	require.Equal(t, 20, *a.Lots[1].Count)
	require.Equal(t, 25, *a.Standing())

	l.did(Lose, -1, IncubatorPlace("1"), everyone)
	a, gone := AccountOf(l.lines)
	require.False(t, gone, "only the incubator's")
	require.Equal(t, 5, *a.Standing())
	require.Equal(t, 20, a.Lost[1].Count)
}

func TestABatchThatIsLostWholeIsClosed(t *testing.T) {
	s := DefaultSettings()
	l := ledger{at: time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)}
	l.did(Graft, 45, "B1")
	l.did(Accept, 38, "")
	l.did(Lose, -1, "", everyone)
	b, _ := BatchOf(1, l.lines, nil, s)
	require.True(t, b.Ended)
	require.Equal(t, 38, b.Account.Lost[0].Count)
	for _, k := range BatchTasks(b, l.lines, s) {
		require.NotEqual(t, Open, k.State, k.Step)
	}
}

// A line of before, which names no yard's own count, is a count of the batch.
func TestALookWithoutItsYardIsOfTheBatch(t *testing.T) {
	s := DefaultSettings()
	l := ledger{at: time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)}
	l.did(Graft, 45, "B1")
	l.did(Move, 20, "North")
	l.did(Move, 14, "Creek")
	l.did(Emerge, 18, "North")
	l.did(Emerge, 12, "Creek")
	b, _ := BatchOf(1, l.lines, nil, s)
	require.Equal(t, 12, *b.Counts.Emerged)
}

// accountRefusals are what contradicts the accounts of a batch of two yards, each as the
// check says it.
func accountRefusals(t *testing.T) (out []*Refusal) {
	t.Helper()
	l := ledger{at: time.Date(2031, 4, 28, 15, 0, 0, 0, time.UTC)}
	l.did(Graft, 45, "B1")
	l.did(Accept, 38, "")
	l.did(Move, 20, "North")
	moved := l.at
	l.did(Move, 14, "Creek")
	l.did(Emerge, 18, "North", part)
	b, _ := BatchOf(1, l.lines, nil, DefaultSettings())
	lose := func(n int, into string, at time.Time) Entry {
		return Entry{Action: Did, Step: Lose, Subject: BatchSubject(1), Into: into, Count: &n, Happened: at}
	}
	with := func(e Entry) Account {
		e.ID = int64(len(l.lines) + 1)
		a, _ := AccountOf(Effective(append(l.lines, e)))
		return a
	}
	late := with(lose(3, "North", moved.Add(30*time.Minute))) // before 18 of the 20 were counted
	require.Nil(t, CheckLose(lose(18, "North", l.at), b, 0))
	require.Nil(t, CheckAccount(late, late, 1), "asked about once")
	return []*Refusal{
		CheckLose(lose(19, "North", l.at), b, 0),
		CheckLose(lose(1, "Lake", l.at), b, 0),
		CheckLose(lose(1, "North", moved.Add(-time.Minute)), b, 0),
		CheckLose(lose(1, "North", moved.Add(-99*time.Hour)), b, 0),
		CheckAccount(b.Account, late, 1),
		CheckAccount(b.Account, with(lose(9, "B1", l.at)), 1),
	}
}

// Of what contradicts itself the check says the number and the place.
func TestLossesThatCannotBe(t *testing.T) {
	var codes []string
	list := accountRefusals(t)
	for _, bad := range list {
		require.NotNil(t, bad)
		codes = append(codes, bad.Code)
	}
	require.Equal(t, []string{"lost_more", "lost_elsewhere", "lost_before", "before_graft", "overdrawn", "short_of"}, codes)
	require.Equal(t, 18, list[0].Args["Had"])
	require.Equal(t, 17, list[4].Args["Had"])
	require.Equal(t, "North", list[4].Args["Where"])
}
