package rules

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawn is a line of a crew's logbook as any might come next: work on what there is, told in
// time or late, taken back, corrected, claimed, put off, and settings between.
func drawn(t *rapid.T, before []Entry) Entry {
	id := int64(len(before) + 1)
	said := time.Date(2031, 4, 24, 13, 0, 0, 0, time.UTC).Add(time.Duration(id) * 7 * time.Hour)
	e := Entry{ID: id, Said: said, Happened: said, By: rapid.SampledFrom([]string{"Wren", "Ash"}).Draw(t, "by"), Action: Did}
	if rapid.IntRange(0, 3).Draw(t, "late") == 0 {
		e.Happened = said.Add(-time.Duration(rapid.IntRange(1, 90).Draw(t, "by hours")) * time.Hour)
	}
	n := func(most int) *int { v := rapid.IntRange(0, most).Draw(t, "count"); return &v }
	breeder, batch := BreederSubject(rapid.SampledFrom([]int{3, 7}).Draw(t, "breeder")), BatchSubject(rapid.IntRange(1, 4).Draw(t, "batch"))
	builder, yard := BuilderSubject(rapid.SampledFrom([]string{"B1", "B2"}).Draw(t, "builder")), YardSubject(rapid.SampledFrom([]string{"North", "Creek"}).Draw(t, "yard"))
	put := func(s Subject, step Step) { e.Subject, e.Step = s, step }
	switch k := rapid.IntRange(0, 24).Draw(t, "kind"); {
	case k < 2:
		put(rapid.SampledFrom([]Subject{breeder, builder, yard}).Draw(t, "what"), Add)
		e.Count = n(60)
	case k < 4:
		put(breeder, Confine)
		e.Mark = rapid.SampledFrom([]string{"", "red"}).Draw(t, "mark")
	case k < 6:
		put(breeder, rapid.SampledFrom([]Step{Eggs, CombOut, Feed, Retire}).Draw(t, "step"))
		for _, b := range before {
			if b.Subject == breeder && b.Step == Confine && b.Action == Did {
				e.Detail.Comb = b.ID
			}
		}
	case k < 9:
		put(batch, Graft)
		e.From, e.Into, e.Count = breeder.Number(), builder.Key, n(60)
	case k < 16:
		put(batch, rapid.SampledFrom([]Step{Accept, Finish, Capped, Nucs, Move, Emerge, Laying, Catch, Recell}).Draw(t, "step"))
		e.Count = n(45)
		if e.Step == Nucs || e.Step == Move {
			e.Into = yard.Key
		}
	case k < 17 && rapid.Bool().Draw(t, "nuc"):
		put(rapid.SampledFrom([]Subject{yard, NucSubject(yard.Key, "3")}).Draw(t, "which"), Nuc)
		e.Count, e.Detail.State = n(12), rapid.SampledFrom(NucStates[:]).Draw(t, "state")
		e.Detail.Batch = rapid.IntRange(0, 4).Draw(t, "of")
	case k < 17:
		put(builder, Rogue)
	case k < 18:
		put(rapid.SampledFrom([]Subject{{}, yard}).Draw(t, "where"), rapid.SampledFrom([]Step{Dearth, Flow}).Draw(t, "step"))
	case k < 19:
		e.Action = Set
		set := rapid.SampledFrom([][2]string{{"zone", "America/Chicago"}, {"work", "7-18"}, {"incubator", "33"}, {"move", "240"}, {"evening", "20:00"}}).Draw(t, "set")
		e.Detail.Key, e.Detail.Value = set[0], set[1]
	case k < 21:
		put(batch, Move)
		e.Action = rapid.SampledFrom([]Action{Mine, Later, Skip}).Draw(t, "answer")
		e.Detail.Until = said.Add(20 * time.Hour).UnixMilli()
	case len(before) > 0:
		of := rapid.SampledFrom(before).Draw(t, "of")
		e.Action, e.Subject, e.Step, e.Ref = Void, of.Subject, of.Step, of.ID
		if k > 22 && of.Action == Did {
			e = of
			e.ID, e.Said, e.Action, e.Ref, e.Count = id, said, Amend, of.ID, n(45)
		}
	default:
		put(breeder, Add)
	}
	return e
}

// However often a crew is settled on the way, it comes to the same as folded from nothing;
// and whoever holds one from before still has it as it was. Without the first a crew would
// have other tasks after a restart, without the second a picture would show half a message.
func TestCrewIsTheFoldOfItsLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var lines []Entry
		c := NewCrew(DefaultSettings())
		var held *Crew
		was := ""
		for range rapid.IntRange(1, 40).Draw(t, "lines") {
			e := drawn(t, lines)
			lines = append(lines, e)
			if rapid.IntRange(0, 5).Draw(t, "hold") == 0 {
				c.Settle()
				held, was = c, c.Describe()
				c = c.Clone()
			}
			c.Apply(e)
			if rapid.Bool().Draw(t, "settle") {
				c.Settle()
			}
		}
		c.Settle()
		fresh := Fold(DefaultSettings(), lines)
		require.Equal(t, fresh.Describe(), c.Describe())
		if held != nil {
			require.Equal(t, was, held.Describe(), "as it was")
			other := held.Clone()
			other.Apply(Entry{ID: 1000, Action: Did, Step: Confine, Subject: BreederSubject(3), Said: lines[0].Said, Happened: lines[0].Happened})
			other.Settle()
			require.Equal(t, fresh.Describe(), c.Describe(), "of two copies neither changes the other")
		}
		for _, k := range c.AllTasks() {
			found, ok := c.Task(k.Key)
			require.True(t, ok, k.Key)
			require.Equal(t, k, found)
		}
	})
}

// A name may have a slash of its own.
func TestTaskOfANameWithASlash(t *testing.T) {
	at := time.Date(2031, 4, 24, 13, 0, 0, 0, time.UTC)
	c := Fold(DefaultSettings(), []Entry{
		{ID: 1, Action: Did, Step: Add, Subject: BuilderSubject("A/1"), Said: at, Happened: at},
		{ID: 2, Action: Did, Step: Graft, Subject: BatchSubject(1), From: 7, Into: "A/1", Said: at, Happened: at},
	})
	tasks := c.Tasks(BuilderSubject("A/1"))
	require.NotEmpty(t, tasks)
	k, found := c.Task(tasks[0].Key)
	require.True(t, found)
	require.Equal(t, tasks[0], k)
}

// tenSeasons are the lines of ten seasons of three builders a week. No two batches have the
// same hours and counts, so that nothing is known from another batch.
func tenSeasons() (lines []Entry) {
	add := func(at time.Time, e Entry) {
		e.ID, e.Said, e.Happened, e.Action, e.By = int64(len(lines)+1), at, at, Did, "Wren"
		lines = append(lines, e)
	}
	n := func(v int) *int { return &v }
	batch := 0
	for season := range 10 {
		for week := range 26 {
			at := time.Date(2031+season, 4, 7, 15, 0, 0, 0, time.UTC).AddDate(0, 0, 7*week)
			for k := range 3 {
				batch++
				breeder, b, builder, yard := BreederSubject(1+k), BatchSubject(batch), fmt.Sprint("B", 1+k), []string{"North", "Creek"}[batch%2]
				late := time.Duration(batch*37%240) * time.Minute
				add(at, Entry{Step: Confine, Subject: breeder})
				comb := lines[len(lines)-1].ID
				add(at.Add(18*time.Hour+late), Entry{Step: Eggs, Subject: breeder, Detail: Detail{Comb: comb}})
				add(at.Add(22*time.Hour+late), Entry{Step: CombOut, Subject: breeder, Detail: Detail{Comb: comb}})
				graft := at.Add(94*time.Hour + late)
				cells := 30 + batch*7%13
				for _, s := range []struct {
					step  Step
					days  int
					count *int
					into  string
				}{{Graft, 0, n(cells + 12), builder}, {Accept, 1, n(cells + 4), ""}, {Finish, 1, nil, ""}, {Capped, 5, n(cells + 2), ""}, {Nucs, 8, n(cells + 2), yard}, {Move, 10, n(cells), yard},
					{Emerge, 14, n(cells - 3), ""}, {Laying, 26, n(cells - 6), ""}, {Catch, 33, n(cells - 7), ""}} {
					e := Entry{Step: s.step, Subject: b, Count: s.count, Into: s.into}
					if s.step == Graft {
						e.From = 1 + k
					}
					add(graft.AddDate(0, 0, s.days), e)
				}
				add(graft.AddDate(0, 0, 4), Entry{Step: Rogue, Subject: BuilderSubject(builder), Detail: Detail{Occ: fmt.Sprint(batch)}})
			}
		}
	}
	return lines
}

// To find the first virgin costs more than all else of a batch, and a fold needs it of no
// batch whose move closes by the table.
func TestFoldLooksForNoFirstVirgin(t *testing.T) {
	c := Fold(DefaultSettings(), tenSeasons())
	row := c.Settings().Table.Row(Move, "")
	require.Len(t, c.Batches(), 780)
	for _, b := range c.Batches() {
		e := b.Emergence(c.Settings())
		require.True(t, e.surelySafe(e.Grafted.Add(Hours(row.Latest)).Add(2*time.Minute)), b.Number)
		require.NotEmpty(t, b.Comb)
	}
}

func BenchmarkFoldTenSeasons(b *testing.B) {
	lines := tenSeasons()
	b.ReportMetric(float64(len(lines)), "lines")
	for b.Loop() {
		Fold(DefaultSettings(), lines)
	}
}

// BenchmarkNextLine is one more line for a crew of ten seasons, on a copy, as a message has
// it.
func BenchmarkNextLine(b *testing.B) {
	lines := tenSeasons()
	c := Fold(DefaultSettings(), lines)
	e := lines[len(lines)-1]
	e.ID, e.Step, e.Subject, e.Count = c.Last()+1, Feed, BreederSubject(1), nil
	for b.Loop() {
		d := c.Clone()
		d.Apply(e)
		d.Settle()
	}
}

// BenchmarkFoldOfLooks is the fold of ten seasons of which every count teaches.
func BenchmarkFoldOfLooks(b *testing.B) {
	lines := tenSeasons()
	for i := range lines {
		if e := &lines[i]; e.Step == Emerge {
			e.Happened = e.Happened.Add(-40 * time.Hour)
		}
	}
	for b.Loop() {
		Fold(DefaultSettings(), lines)
	}
}
