package rules

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// yard is a crew's places: builders B1 … and one mating yard.
func yardOf(builders, cells, nucs int) Calendar {
	var c Calendar
	for i := range builders {
		c.Places = append(c.Places, Place{Subject: BuilderSubject(fmt.Sprintf("B%d", i+1)), Size: 1, Cells: cells})
	}
	c.Places = append(c.Places, Place{Subject: YardSubject("North"), Size: nucs})
	return c
}

func limits(breeders ...int) Limits {
	l := DefaultLimits
	l.Breeders = breeders
	return l
}

func good() Yields { return KnownYields(knownRates, 0.03) }

func TestPlanForQueens(t *testing.T) {
	s := crew()
	s.DaysOff[time.Sunday] = true
	p := NewPlanner(good(), yardOf(3, 45, 400), limits(7, 12), s)
	o := Order{1, 100, Queens, OrderBy(Date{2031, 7, 10}, s)}
	plan := p.Plan(o, 0.9, when("2031-04-01 08:00"))
	require.True(t, plan.OK)
	assert.False(t, plan.Tight)
	assert.GreaterOrEqual(t, plan.Chance, 0.9)
	assert.Empty(t, plan.Breaks)
	require.Len(t, plan.Needs, 4)
	var got []float64
	for i, n := range plan.Needs {
		got = append(got, n.Confidence)
		assert.True(t, i == 0 || n.Grafts >= plan.Needs[i-1].Grafts)
	}
	assert.Equal(t, Confidences, got)
	sum := 0
	for i, r := range plan.Rounds {
		sum += r.Grafts()
		assert.False(t, r.Catch.Best.After(o.By), "caught in time")
		assert.False(t, r.Confined.Before(when("2031-04-01 08:00")))
		assert.Equal(t, 1, r.Combs)
		assert.Len(t, r.Breeders, 1)
		for _, at := range []time.Time{r.Confined, r.Out, r.Graft, r.Move.Best, r.Catch.Best} {
			l := at.In(chicago)
			assert.NotEqual(t, time.Sunday, l.Weekday(), "round %d: %v", i, l)
			assert.True(t, l.Hour() >= 7 && l.Hour() < 18, "round %d: %v", i, l)
		}
		assert.False(t, r.Move.Latest.After(Emergence{r.Graft, r.Age, r.Cells, 0, s.SigmaBatch, s.SigmaCell, nil}.SafeUntil()))
	}
	assert.Equal(t, plan.Grafts, sum)
	assert.Nil(t, p.Calendar.Add(plan.Uses...).FirstBreak(chicago))
	// The plan's own parts have the chance that the plan states.
	chance, _, _ := ChanceFilled(good(), 100, Queens, plan.Parts())
	assert.InDelta(t, plan.Chance, chance, 0.02)
}

func TestPlanForCellsIsOneRound(t *testing.T) {
	s := crew()
	p := NewPlanner(good(), yardOf(2, 45, 0), limits(), s)
	o := Order{2, 40, Cells, OrderBy(Date{2031, 6, 3}, s)}
	plan := p.Plan(o, 0.9, when("2031-05-01 08:00"))
	require.True(t, plan.OK)
	require.Len(t, plan.Rounds, 1, "ripe cells do not keep")
	r := plan.Rounds[0]
	assert.False(t, r.Move.Best.After(o.By))
	assert.Greater(t, r.Move.Best, o.By.Add(-36*time.Hour))
	assert.Empty(t, r.Batches[0].Nucs)
	require.Len(t, r.Batches, 2)
	assert.InDelta(t, r.Batches[0].Grafts, r.Batches[1].Grafts, 1, "evenly over both builders")
	p.Accept(plan)
	again := p.Plan(Order{3, 40, Cells, o.By}, 0.9, when("2031-05-01 08:00"))
	require.True(t, again.OK, "the builders are taken, but were free before")
	assert.True(t, again.Early)
	assert.True(t, again.Keeps.Before(o.By), "and it is said until when they keep")
	p.Accept(again)
	third := p.Plan(Order{4, 40, Cells, o.By}, 0.9, when("2031-05-10 08:00"))
	require.False(t, third.OK)
	require.Len(t, third.Breaks, 1)
	assert.Equal(t, BuilderKind, third.Breaks[0].Place.Kind)
	assert.False(t, third.FitsBy.IsZero())
	assert.True(t, third.FitsBy.After(o.By))
}

func TestPlanThatDoesNotFitSaysWhereAndWhatWould(t *testing.T) {
	s := crew()
	p := NewPlanner(good(), yardOf(3, 45, 25), limits(7, 12), s)
	o := Order{1, 100, Queens, OrderBy(Date{2031, 7, 10}, s)}
	now := when("2031-04-01 08:00")
	plan := p.Plan(o, 0.9, now)
	require.False(t, plan.OK)
	require.Len(t, plan.Breaks, 1)
	assert.Equal(t, YardSubject("North"), plan.Breaks[0].Place)
	assert.Greater(t, plan.Breaks[0].Need, plan.Breaks[0].Have)
	assert.Greater(t, plan.Fits, 10)
	assert.Less(t, plan.Fits, 60)
	// What is said to fit does, and one more does not.
	fits := o
	fits.Want = plan.Fits
	assert.True(t, p.Plan(fits, 0.9, now).OK)
	fits.Want++
	assert.False(t, p.Plan(fits, 0.9, now).OK)
	// Time itself is short: no place is named.
	late := NewPlanner(good(), yardOf(3, 45, 400), limits(7), s).Plan(o, 0.9, when("2031-06-20 08:00"))
	require.False(t, late.OK)
	assert.Equal(t, 0, late.Fits)
	require.Len(t, late.Breaks, 1)
	assert.True(t, late.Breaks[0].Place.Zero())
	require.False(t, late.FitsBy.IsZero())
	o.By = late.FitsBy
	assert.True(t, NewPlanner(good(), yardOf(3, 45, 400), limits(7), s).Plan(o, 0.9, when("2031-06-20 08:00")).OK)
}

func TestRescueOfAnOrder(t *testing.T) {
	s := crew()
	p := NewPlanner(good(), yardOf(3, 45, 400), limits(7, 12), s)
	o := Order{1, 60, Queens, OrderBy(Date{2031, 7, 10}, s)}
	parts := []Part{{Batch: 1, Count: 30, Done: Capped, Room: -1}, {Batch: 2, Count: 45, Done: Graft, Room: -1}}
	chance, lo, hi := ChanceFilled(good(), 60, Queens, parts)
	assert.Less(t, chance, 0.3)
	assert.True(t, lo < 45 && 45 < hi)
	plan := p.Rescue(o, parts, 0.9, when("2031-05-10 08:00"))
	require.True(t, plan.OK)
	assert.Less(t, plan.Grafts, p.Plan(o, 0.9, when("2031-05-10 08:00")).Grafts, "what is there counts")
	chance, _, _ = ChanceFilled(good(), 60, Queens, append(plan.Parts(), parts...))
	assert.GreaterOrEqual(t, chance, 0.89)
	// Nothing more is needed.
	enough := p.Rescue(o, []Part{{Batch: 1, Count: 60, Done: Laying, Room: -1}}, 0.9, when("2031-05-10 08:00"))
	assert.True(t, enough.OK)
	assert.Empty(t, enough.Rounds)
	assert.Equal(t, 1.0, enough.Chance)
	// The last graft is so late that its queens are caught just then.
	assert.False(t, plan.Deadline.Confine.IsZero())
	b := Batch{Grafted: plan.Deadline.Graft, Age: AssumedAge}
	b.Emerges = b.Emergence(s).Middle()
	first, _, _ := s.Table.Row(Catch, "").Window(b.Emerges)
	assert.WithinDuration(t, o.By, first, time.Minute)
	r := RoundFrom(plan.Deadline.Confine, true, 0, s)
	assert.False(t, r.Catch.Earliest.After(o.By))
}

func TestTightPlanIsMarked(t *testing.T) {
	s := crew()
	p := NewPlanner(good(), yardOf(4, 45, 400), limits(), s)
	o := Order{1, 20, Queens, OrderBy(Date{2031, 7, 10}, s)}
	// 36 days before: too late for the best catch, in time for the earliest.
	plan := p.Plan(o, 0.8, when("2031-06-01 07:00"))
	require.True(t, plan.OK)
	assert.True(t, plan.Tight)
	assert.True(t, plan.Rounds[0].Catch.Best.After(o.By))
	assert.False(t, plan.Rounds[0].Catch.Earliest.After(o.By))
}

func TestAcceptedPlansNeverExceedCapacity(t *testing.T) {
	s := crew()
	s.DaysOff[time.Sunday] = true
	rapid.Check(t, func(t *rapid.T) {
		cells := rapid.IntRange(15, 60).Draw(t, "cells")
		cal := yardOf(rapid.IntRange(1, 4).Draw(t, "builders"), cells, rapid.IntRange(5, 120).Draw(t, "nucs"))
		cal.Places = append(cal.Places, Place{Subject: YardSubject("Creek"), Size: rapid.IntRange(0, 30).Draw(t, "creek")})
		l := limits(7, 12)
		l.PerRound = rapid.SampledFrom([]int{0, 50, 80}).Draw(t, "per round")
		p := NewPlanner(good(), cal, l, s)
		for i := range rapid.IntRange(1, 3).Draw(t, "orders") {
			u := rapid.SampledFrom([]Unit{Cells, Queens}).Draw(t, "unit")
			o := Order{i + 1, rapid.IntRange(1, 90).Draw(t, "want"), u, OrderBy(Date{2031, 6, 20}.Add(rapid.IntRange(0, 40).Draw(t, "day")), s)}
			plan := p.Plan(o, 0.8, when("2031-04-10 08:00"))
			if !plan.OK {
				continue
			}
			p.Accept(plan)
			for _, r := range plan.Rounds {
				assert.True(t, l.PerRound == 0 || r.Grafts() <= l.PerRound)
				for _, b := range r.Batches {
					assert.True(t, 0 < b.Grafts && b.Grafts <= cells)
				}
			}
		}
		assert.Nil(t, p.Calendar.FirstBreak(chicago))
		for i, a := range p.Limits.Stays {
			rest := append(append([]Stay(nil), p.Limits.Stays[:i]...), p.Limits.Stays[i+1:]...)
			against, _ := l.Rotation.Check(rest, a.Breeder, a.From, a.To)
			assert.Empty(t, against, "breeder %d from %v", a.Breeder, a.From)
		}
	})
}

// 60 weeks with 400 nucs: an order of 20 queens for every week, each plan taking
// what the ones before left. Aim: well under a second.
func BenchmarkPlanSixtyWeeks(b *testing.B) {

	s := crew()
	s.DaysOff[time.Sunday] = true
	y := FitYields(sampled(b, "many"))
	b.ReportAllocs()
	for b.Loop() {
		p := NewPlanner(y, yardOf(6, 45, 400), limits(7, 12, 15), s)
		ok := 0
		for w := range 60 {
			o := Order{w + 1, 20, Queens, OrderBy(Date{2031, 6, 20}.Add(7*w), s)}
			if plan := p.Plan(o, 0.9, when("2031-04-01 08:00")); plan.OK {
				p.Accept(plan)
				ok++
			}
		}
		if ok < 55 {
			b.Fatalf("only %d of 60 orders fit", ok)
		}
	}
}

func BenchmarkPlanOneOrder(b *testing.B) {
	s := crew()
	y := FitYields(sampled(b, "few"))
	for b.Loop() {
		p := NewPlanner(y, yardOf(4, 45, 400), limits(7, 12), s)
		p.Plan(Order{1, 100, Queens, OrderBy(Date{2031, 7, 10}, s)}, 0.9, when("2031-04-01 08:00"))
	}
}

func BenchmarkFitYields(b *testing.B) {
	trials := append(sampled(b, "many"), sampled(b, "breeders")...)
	for b.Loop() {
		FitYields(trials)
	}
}
