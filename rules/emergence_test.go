package rules

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

var grafted = when("2031-05-01 10:00")

// usual is the batch of the design: 45 larvae of 12-24 h.
func usual() Emergence {
	return Emergence{Grafted: grafted, Age: AgeSpan{12, 24, "assumed"}, Cells: 45, SigmaBatch: SigmaBatch, SigmaCell: SigmaCell}
}

func anyEmergence(t *rapid.T) Emergence {
	lo := rapid.Float64Range(0, 48).Draw(t, "lo")
	return Emergence{
		Grafted:    grafted,
		Age:        AgeSpan{lo, lo + rapid.Float64Range(0, 48).Draw(t, "span"), "stated"},
		Cells:      rapid.IntRange(1, 300).Draw(t, "cells"),
		Shift:      rapid.Float64Range(-10, 48).Draw(t, "shift"),
		SigmaBatch: rapid.Float64Range(0, 16).Draw(t, "sigma batch"),
		SigmaCell:  rapid.Float64Range(1, 16).Draw(t, "sigma cell"),
	}
}

func TestSafeUntilOfTheUsualBatch(t *testing.T) {
	e := usual()
	safe := hoursAfter(grafted, e.SafeUntil())
	assert.GreaterOrEqual(t, safe, 240.0, "the published day 10 must be safe for larvae of 12-24 h")
	assert.LessOrEqual(t, safe, 264.0, "the published day 11 is an emergence day")
	assert.Less(t, e.AnyOut(e.SafeUntil()), SafeChance)
	assert.GreaterOrEqual(t, e.AnyOut(e.SafeUntil().Add(75*time.Second)), SafeChance, "a minute and the 15 s of the search on, the limit is reached")
}

// Chuda-Mickiewicz & Samborski 2015: 385 h from the egg at 34.5 °C, 27 h more
// with the sealed stage at 32 °C.
func TestThe385HourIdentity(t *testing.T) {
	middle := func(age float64, temps ...TempFrom) float64 {
		span := AgeSpan{age, age, "stated"}
		e := Emergence{Grafted: grafted, Age: span, Cells: 1, Shift: IncubatorShift(grafted, span, temps, nil), SigmaBatch: 8, SigmaCell: 7.5}
		return hoursAfter(grafted, e.Middle())
	}
	assert.InDelta(t, 289, middle(24), 1e-6, "grafted 96 h after the egg: 12 d 1 h")
	assert.InDelta(t, 301, middle(12), 1e-6, "grafted 84 h after the egg")
	assert.InDelta(t, 265, middle(48), 1e-6, "larvae of 48 h: 11 d 1 h")
	assert.InDelta(t, 289+27, middle(24, TempFrom{grafted, 32}), 1e-6, "the whole sealed stage at 32 °C")
	assert.InDelta(t, 289, middle(24, TempFrom{grafted, 34.5}), 1e-6)
	assert.InDelta(t, 289, middle(24), 1e-6, "no temperature logged, no shift")
}

func TestIncubatorShift(t *testing.T) {
	span := AgeSpan{24, 24, "stated"} // sealed from G+96 h to G+289 h
	sealed, out := grafted.Add(Hours(96)), grafted.Add(Hours(289))
	shift := func(temps ...TempFrom) float64 { return IncubatorShift(grafted, span, temps, nil) }
	off := math.NaN()
	assert.Zero(t, shift())
	assert.InDelta(t, 10.8, shift(TempFrom{grafted, 33.5}), 1e-9, "one degree cooler")
	assert.InDelta(t, -10.8, shift(TempFrom{grafted, 35.5}), 1e-9, "one degree warmer")
	assert.Zero(t, shift(TempFrom{grafted, 32}, TempFrom{sealed, off}), "open brood is in the colony; only the sealed stage counts")
	assert.Zero(t, shift(TempFrom{out, 32}), "after emergence nothing can be later")
	half := sealed.Add(out.Sub(sealed) / 2)
	assert.InDelta(t, 13.5, shift(TempFrom{half, 32}), 1e-6, "half the sealed stage")
	assert.InDelta(t, 13.5, shift(TempFrom{grafted, 32}, TempFrom{half, off}), 1e-6)
	assert.InDelta(t, -5.4, IncubatorShift(grafted, span, []TempFrom{{grafted, 35.5}, {half, 32}}, TempFrom.warm), 1e-6, "of warm and cool the warm alone")
	assert.InDelta(t, 13.5+5.4, shift(TempFrom{grafted, 32}, TempFrom{half, 33.5}), 1e-6, "each stretch at its own temperature")
}

// With no batch-wide spread and one age the cells are independent, and the
// chance of the first has a closed form.
func TestAnyOutClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		age := rapid.Float64Range(0, 48).Draw(t, "age")
		n := rapid.IntRange(1, 200).Draw(t, "cells")
		h := rapid.Float64Range(180, 340).Draw(t, "h")
		e := Emergence{Grafted: grafted, Age: AgeSpan{age, age, "stated"}, Cells: n, SigmaBatch: 0, SigmaCell: 7.5}
		z := (h - (313 - age)) / 7.5
		want := 1 - math.Pow(1-distuv.UnitNormal.CDF(z), float64(n))
		if got := e.AnyOut(grafted.Add(Hours(h))); math.Abs(got-want) > 1e-9 {
			t.Fatalf("AnyOut = %g, closed form %g", got, want)
		}
	})
	// One cell with both spreads is normal about the middle with their sum.
	e := Emergence{Grafted: grafted, Age: AgeSpan{18, 18, "stated"}, Cells: 1, SigmaBatch: 8, SigmaCell: 7.5}
	assert.InDelta(t, 0.5, e.AnyOut(e.Middle()), 1e-9, "median of one cell")
	s := math.Hypot(8, 7.5)
	for _, z := range []float64{-3, -1, 0.5, 2} {
		assert.InDelta(t, distuv.UnitNormal.CDF(z), e.AnyOut(e.Middle().Add(Hours(z*s))), 1e-6)
	}
	wide := e
	wide.Age = AgeSpan{0, 24, "comb"}
	assert.InDelta(t, 0.5, wide.AnyOut(wide.Middle()), 1e-9, "the ages lie evenly about the middle")
}

// The same model by throwing dice, with a fixed seed.
func TestAnyOutAgainstMonteCarlo(t *testing.T) {
	for _, e := range []Emergence{
		usual(),
		{Grafted: grafted, Age: AgeSpan{0, 36, "comb"}, Cells: 10, Shift: 13, SigmaBatch: 8, SigmaCell: 7.5},
		{Grafted: grafted, Age: AgeSpan{24, 24, "stated"}, Cells: 120, SigmaBatch: 3, SigmaCell: 12},
	} {
		rng := rand.New(rand.NewPCG(385, 45))
		const runs = 40000
		hours := []float64{240, 252, 264, 276, 288}
		hits := make([]int, len(hours))
		for range runs {
			batch, first := rng.NormFloat64()*e.SigmaBatch, math.Inf(1)
			for range e.Cells {
				age := e.Age.Lo + rng.Float64()*(e.Age.Hi-e.Age.Lo)
				first = min(first, EggToQueen-HatchAfter-age+e.Shift+batch+rng.NormFloat64()*e.SigmaCell)
			}
			for i, h := range hours {
				if first <= h {
					hits[i]++
				}
			}
		}
		for i, h := range hours {
			p := e.AnyOut(grafted.Add(Hours(h)))
			// Four standard errors and a half count: a wrong model is far outside.
			tol := 4*math.Sqrt(p*(1-p)/runs) + 1.0/runs
			assert.InDelta(t, p, float64(hits[i])/runs, tol, "%+v at %g h", e, h)
		}
	}
}

func TestAnyOutIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEmergence(t)
		h := rapid.Float64Range(100, 400).Draw(t, "h")
		d := rapid.Float64Range(0, 60).Draw(t, "d")
		at := grafted.Add(Hours(h))
		p, later := e.AnyOut(at), e.AnyOut(at.Add(Hours(d)))
		if p < 0 || p > 1 || later < p-1e-12 {
			t.Fatalf("the chance goes from %g to %g with time", p, later)
		}
		more := e
		more.Cells += rapid.IntRange(1, 100).Draw(t, "more")
		if q := more.AnyOut(at); q < p-1e-12 {
			t.Fatalf("more cells lower the chance from %g to %g", p, q)
		}
	})
}

func TestSafeUntilMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEmergence(t)
		safe := e.SafeUntil()
		older := e
		d := rapid.Float64Range(0, 24).Draw(t, "older")
		older.Age.Lo, older.Age.Hi = older.Age.Lo+d, older.Age.Hi+d
		if older.SafeUntil().After(safe) {
			t.Fatalf("older larvae are safe longer")
		}
		wider := e
		wider.Age.Hi += d
		if wider.SafeUntil().After(safe) {
			t.Fatalf("a tail of older larvae is safe longer")
		}
		more := e
		more.Cells += rapid.IntRange(1, 100).Draw(t, "more")
		if more.SafeUntil().After(safe) {
			t.Fatalf("more cells are safe longer")
		}
		cooler := e
		tenths := rapid.IntRange(1, 45).Draw(t, "cooler by tenths of a degree")
		cooler.Shift += HoursPerDegree * float64(tenths) / 10
		got := hoursAfter(safe, cooler.SafeUntil())
		if math.Abs(got-(cooler.Shift-e.Shift)) > 1.5/60 {
			t.Fatalf("an incubator that makes it %g h later moves the limit by %g h", cooler.Shift-e.Shift, got)
		}
	})
}

// The quick search must find what plain halving finds.
func TestSafeUntilAgainstHalving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEmergence(t)
		lo, hi := 0.0, EggToQueen-HatchAfter+e.Shift+100
		for hi-lo > 1.0/240 {
			mid := (lo + hi) / 2
			if e.AnyOut(grafted.Add(Hours(mid))) < SafeChance {
				lo = mid
			} else {
				hi = mid
			}
		}
		want := grafted.Add(Hours(lo)).Truncate(time.Minute)
		if got := e.SafeUntil(); !got.Equal(want) {
			t.Fatalf("SafeUntil %v, by halving %v", got, want)
		}
	})
}

func TestMoveWindow(t *testing.T) {
	row := DefaultTable().Row(Move, "")
	window := func(e Emergence, own time.Duration) (a, b, c, safe float64) {
		w, x, y := MoveWindow(e, row, own)
		return hoursAfter(grafted, w), hoursAfter(grafted, x), hoursAfter(grafted, y), hoursAfter(grafted, e.SafeUntil())
	}
	e := usual()
	a, b, c, _ := window(e, 0)
	assert.Equal(t, []float64{216, 236, 240}, []float64{a, b, c}, "larvae of at most 24 h")

	e.Age = AgeSpan{18, 30, "stated"}
	a, b, c, _ = window(e, 0)
	assert.Equal(t, []float64{210, 230, 234}, []float64{a, b, c}, "6 h older than 24 h: 6 h earlier")

	e = usual()
	e.Shift = 10.8
	a, b, c, _ = window(e, 0)
	assert.InDeltaSlice(t, []float64{226.8, 240, 240}, []float64{a, b, c}, 1e-6, "one degree cooler: 10.8 h later, and no later than the table's close")
	_, b, c, _ = window(e, 250*time.Hour)
	assert.Equal(t, []float64{250, 250}, []float64{b, c}, "the close passes the table's by the crew's own setting alone, and no further")

	e = usual()
	e.Age, e.SigmaBatch = AgeSpan{24, 24, "stated"}, 14
	_, b, c, safe := window(e, 0)
	assert.Less(t, safe, 240.0, "a crew whose batches vary much")
	e.Cells = 90
	_, _, c90, _ := window(e, 0)
	assert.Less(t, c90, c, "more cells bring the close forward")
	assert.Equal(t, safe, c, "then the window closes when the batch stops being safe")
	assert.LessOrEqual(t, b, c)

	// The crew's own best time.
	e = usual()
	_, b, c, _ = window(e, 220*time.Hour)
	assert.Equal(t, []float64{220, 240}, []float64{b, c}, "earlier than the table's")
	_, b, c, safe = window(e, 262*time.Hour)
	assert.Less(t, safe, 262.0)
	assert.Equal(t, []float64{262, 262}, []float64{b, c}, "later than safe: held open, the crew was warned when setting it")
	a, b, _, _ = window(e, 200*time.Hour)
	assert.Equal(t, []float64{200, 200}, []float64{a, b}, "a window cannot open after its best time")
}

func TestMoveWindowHolds(t *testing.T) {
	row := DefaultTable().Row(Move, "")
	rapid.Check(t, func(t *rapid.T) {
		e := anyEmergence(t)
		earliest, best, latest := MoveWindow(e, row, 0)
		safe := e.SafeUntil()
		if earliest.After(best) || best.After(latest) {
			t.Fatalf("out of order: %v %v %v", earliest, best, latest)
		}
		_, _, close := row.Window(e.Grafted.Add(Hours(min(0, e.Shift) - max(0, e.Age.Hi-24))))
		if !latest.Equal(earlier(close, safe)) {
			t.Fatalf("closes %v, the table has %v, safe until %v", latest, close, safe)
		}
		own := time.Duration(rapid.IntRange(8*24, 12*24).Draw(t, "own")) * time.Hour
		e2, b2, l2 := MoveWindow(e, row, own)
		if e2.After(b2) || b2.After(l2) {
			t.Fatalf("with own setting out of order: %v %v %v", e2, b2, l2)
		}
		if l2.After(safe) && !l2.Equal(b2) {
			t.Fatalf("held open past safe for longer than the crew's own time")
		}
	})
}

func TestBatchEmergenceTakesTheNewestCount(t *testing.T) {
	s := crew()
	var b book
	b.add(Graft, BatchSubject(1), grafted)
	plain, _ := b.batch(t, s)
	require.Equal(t, UnknownCells, plain.Emergence(s).Cells, "no count: taken as many, which is the safe side")
	b.add(Accept, BatchSubject(1), grafted.Add(Hours(24)), count(20))
	fewer, _ := b.batch(t, s)
	require.Equal(t, 20, fewer.Emergence(s).Cells)
	assert.True(t, fewer.SafeUntil(s).After(plain.SafeUntil(s)), "fewer cells are safe longer")
}
