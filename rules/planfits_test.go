package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// busy is a crew with other work in its calendar and something on the way.
func busy(t *rapid.T, s *Settings) *Planner {
	cal := yardOf(rapid.IntRange(1, 3).Draw(t, "builders"), rapid.SampledFrom([]int{15, 40}).Draw(t, "cells"), rapid.IntRange(5, 60).Draw(t, "nucs"))
	day := func(name string, most int) time.Time {
		return At(Date{2031, 5, 1}.Add(rapid.IntRange(0, most).Draw(t, name)), 9*60, s.Zone)
	}
	for range rapid.IntRange(0, 3).Draw(t, "uses") {
		from := day("from", 40)
		place := cal.Places[rapid.IntRange(0, len(cal.Places)-1).Draw(t, "place")]
		cal.Uses = append(cal.Uses, Use{place.Subject, 1, from, from.Add(11 * 24 * time.Hour), BatchSubject(3)})
	}
	l := limits(7, 12)
	if rapid.Bool().Draw(t, "on the way") {
		from := day("catch", 40)
		l.OnTheWay = []OnTheWay{{Part: Part{Batch: 5, Count: rapid.IntRange(1, 20).Draw(t, "count"), Done: rapid.SampledFrom([]Step{Move, Laying}).Draw(t, "done"), Room: -1},
			Catch: Span{from, from.Add(7 * 24 * time.Hour), from.Add(14 * 24 * time.Hour)}}}
	}
	return NewPlanner(good(), cal, l, s)
}

// What fits by a day fits by any later one, and a smaller number and a lower chance fit
// where a larger did. It holds as far as everything was searched.
func TestWhatFitsKeepsFitting(t *testing.T) {
	s := crew()
	s.DaysOff[time.Sunday] = true
	rapid.Check(t, func(t *rapid.T) {
		p := busy(t, s)
		now := when("2031-05-01 08:00")
		o := Order{1, rapid.IntRange(1, 30).Draw(t, "want"), rapid.SampledFrom([]Unit{Queens, Queens, Cells}).Draw(t, "unit"), OrderBy(Date{2031, 6, 10}.Add(rapid.IntRange(-26, 30).Draw(t, "day")), s)}
		conf := rapid.SampledFrom([]float64{0.5, 0.8, 0.9}).Draw(t, "confidence")
		j := job{o: o, conf: conf, now: now}
		ok, _ := p.fits(j)
		if !ok {
			return
		}
		check := func(what string, k job) {
			if ok, partial := p.fits(k); !ok {
				t.Fatalf("%d %s at %v fit by %v, but not %s (partial %v)", o.Want, o.Unit, conf, o.By, what, partial)
			}
		}
		days := rapid.IntRange(1, 40).Draw(t, "later")
		check("later", j.until(OrderBy(DateOf(o.By, s.Zone).Add(days), s)))
		check("fewer", j.with(rapid.IntRange(1, o.Want).Draw(t, "fewer")))
		less := j
		less.conf = conf * rapid.Float64Range(0.5, 1).Draw(t, "less")
		check("at less", less)
	})
}

// With all that a refusal names there, the order fits; and without any one of it, it does
// not.
func TestReasonsAreTrue(t *testing.T) {
	s := crew()
	s.DaysOff[time.Sunday] = true
	named := map[Kind]int{}
	rapid.Check(t, func(t *rapid.T) {
		p := busy(t, s)
		now := when("2031-05-01 13:00")
		o := Order{1, rapid.IntRange(5, 40).Draw(t, "want"), Queens, OrderBy(Date{2031, 6, 12}.Add(rapid.IntRange(-6, 30).Draw(t, "day")), s)}
		plan := p.Plan(o, 0.9, now)
		if plan.OK {
			return
		}
		for _, b := range plan.Breaks {
			named[b.Place.Kind]++
		}
		lifted := func(without int) bool {
			k, j := p, job{o: o, conf: 0.9, now: now}
			for i, b := range plan.Breaks {
				for _, l := range lifts {
					if l.kind == b.Place.Kind && i != without {
						k, j = l.off(k, j)
					}
				}
			}
			ok, _ := k.fits(j)
			return ok
		}
		if len(plan.Breaks) == 0 {
			return
		}
		if !lifted(-1) {
			t.Fatalf("%v does not fit with all of %v there", o, plan.Breaks)
		}
		for i := range plan.Breaks {
			if lifted(i) {
				t.Fatalf("%v fits without %v of %v", o, plan.Breaks[i], plan.Breaks)
			}
		}
		if plan.Fits > 0 {
			ok, _ := p.fits(job{o: o, conf: 0.9, now: now}.with(plan.Fits))
			require.True(t, ok, "what is said to fit does")
		}
	})
	t.Logf("named: %v", named)
}

// The hour counts: at noon she can still be confined that day.
func TestTodayCounts(t *testing.T) {
	s := crew()
	p := NewPlanner(good(), yardOf(2, 40, 80), limits(7), s)
	now := when("2031-05-05 12:00")
	var by Date
	for d := (Date{2031, 6, 1}); by == (Date{}); d = d.Add(1) {
		if ok, _ := p.fits(job{o: Order{1, 10, Queens, OrderBy(d, s)}, conf: 0.9, now: now}); ok {
			by = d
		}
	}
	plan := p.Plan(Order{1, 10, Queens, OrderBy(by, s)}, 0.9, now)
	require.True(t, plan.OK)
	assert.Equal(t, DateOf(now, s.Zone), DateOf(plan.Rounds[0].Confined, s.Zone), "the first day that fits is one that today's confinement reaches")
	late := p.Plan(Order{1, 10, Queens, OrderBy(by.Add(-1), s)}, 0.9, now)
	require.False(t, late.OK)
	assert.Equal(t, OrderBy(by, s), late.FitsBy, "the first day that fits is the one named")
}

// Queens that are there count first, and each is promised once.
func TestQueensThatAreThereComeFirst(t *testing.T) {
	s := crew()
	now := when("2031-05-05 08:00")
	l := limits(7)
	at := Span{now.Add(-24 * time.Hour), now.Add(4 * 24 * time.Hour), now.Add(20 * 24 * time.Hour)}
	l.OnTheWay = []OnTheWay{{Part: Part{Batch: 3, Count: 24, Done: Laying, Room: -1}, Catch: at}}
	p := NewPlanner(good(), yardOf(2, 40, 80), l, s)
	o := Order{1, 10, Queens, OrderBy(Date{2031, 5, 17}, s)}
	plan := p.Plan(o, 0.9, now)
	require.True(t, plan.OK)
	assert.Empty(t, plan.Rounds)
	assert.Equal(t, []Promise{{3, 10, 0}}, plan.From)
	assert.Equal(t, 1.0, plan.Chance)
	p.Accept(plan)
	plan = p.Plan(Order{2, 14, Queens, o.By}, 0.9, now)
	require.True(t, plan.OK)
	assert.Equal(t, []Promise{{3, 14, 10}}, plan.From)
	p.Accept(plan)
	assert.False(t, p.Plan(Order{3, 1, Queens, o.By}, 0.9, now).OK, "all are promised")
}

// A comb that is in serves before another breeder has to be confined.
func TestCombInProgressServes(t *testing.T) {
	s := crew()
	now := when("2031-05-05 08:00")
	yes := true
	l := limits(7)
	c := Comb{ID: 9, Breeder: 7, Confined: now.Add(-70 * time.Hour), BeesIn: &yes}
	l.Stays = StaysOf([]Comb{c})
	p := NewPlanner(good(), yardOf(2, 40, 80), l, s)
	var by Date
	for d := (Date{2031, 5, 20}); ; d = d.Add(1) {
		if ok, _ := p.fits(job{o: Order{1, 10, Queens, OrderBy(d, s)}, conf: 0.9, now: now}); ok {
			by = d
			break
		}
	}
	p.Limits.Combs = []CombLeft{{Comb: c}}
	plan := p.Plan(Order{1, 10, Queens, OrderBy(by.Add(-2), s)}, 0.9, now)
	require.True(t, plan.OK, "two days sooner than a new comb")
	require.Len(t, plan.Rounds, 1)
	require.NotNil(t, plan.Rounds[0].Comb)
	assert.Equal(t, int64(9), plan.Rounds[0].Comb.ID)
	assert.Empty(t, plan.Stays)
	// Booked and read again, the round is that comb's.
	want := 10
	k := plan.Book(l)
	b, ok := BookedOf(1, []Entry{{ID: 1, Action: Did, Step: Ordered, Subject: OrderSubject(1), Count: &want, Happened: now, Detail: Detail{Plan: &k}}}, s)
	require.True(t, ok)
	assert.Equal(t, plan.Rounds[0].Graft, b.Rounds[0].Graft)
	real := Fulfil(PlannedOf([]Booked{b}, 7), []Comb{c}, []GraftRef{{Batch: 4, Comb: 9, At: b.Rounds[0].Graft}})
	assert.Equal(t, []Real{{Combs: []Comb{c}, Batches: []int{4}}}, real)
}

func BenchmarkPlanTwoThousandQueens(b *testing.B) {
	s := crew()
	y := FitYields(sampled(b, "many"))
	for b.Loop() {
		p := NewPlanner(y, yardOf(8, 40, 4000), limits(7, 12, 15), s)
		plan := p.Plan(Order{1, 2000, Queens, OrderBy(Date{2032, 3, 10}, s)}, 0.9, when("2031-04-01 08:00"))
		if !plan.OK {
			b.Fatal(plan.Fits)
		}
	}
}
