package rules

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

var confined = when("2031-04-27 09:00")

func yes() *bool { b := true; return &b }
func no() *bool  { b := false; return &b }

func TestLayingInterval(t *testing.T) {
	h := func(n float64) time.Time { return confined.Add(Hours(n)) }
	for name, c := range map[string]struct {
		comb     Comb
		from, to float64
	}{
		"bees shaken in":                       {Comb{BeesIn: yes()}, 2, 24},
		"without bees":                         {Comb{BeesIn: no()}, 8, 24},
		"not said: taken as without":           {Comb{}, 8, 24},
		"out":                                  {Comb{BeesIn: yes(), Out: h(18)}, 2, 18},
		"left in longer":                       {Comb{BeesIn: yes(), Out: h(40)}, 2, 40},
		"eggs seen before the lag was over":    {Comb{EggsSeen: h(5), Out: h(24)}, 5, 24},
		"eggs seen later tell nothing":         {Comb{EggsSeen: h(20), Out: h(24)}, 8, 24},
		"no eggs at 20 h: began after, in on":  {Comb{NoEggs: h(20)}, 20, 44},
		"no eggs at 20 h, then out":            {Comb{NoEggs: h(20), Out: h(44)}, 20, 44},
		"no eggs within the lag tells nothing": {Comb{NoEggs: h(4), Out: h(24)}, 8, 24},
		"none at 12 h, eggs at 22 h":           {Comb{NoEggs: h(12), EggsSeen: h(22), Out: h(24)}, 12, 24},
		"out before the lag was over":          {Comb{Out: h(3)}, 3, 3},
	} {
		c.comb.Confined = confined
		from, to := c.comb.Laying()
		assert.Equal(t, []float64{c.from, c.to}, []float64{hoursAfter(confined, from), hoursAfter(confined, to)}, name)
	}
}

func laid(t *rapid.T) (from, to time.Time) {
	from = confined.Add(time.Duration(rapid.IntRange(0, 48*60).Draw(t, "from")) * time.Minute)
	return from, from.Add(time.Duration(rapid.IntRange(0, 48*60).Draw(t, "laid for")) * time.Minute)
}

func TestSharesMatchIntegration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := laid(t)
		at := from.Add(Hours(rapid.Float64Range(0, 200).Draw(t, "at")))
		s := SharesAt(from, to, at)
		got := []float64{s.Egg, s.To12, s.To24, s.To36, s.To48, s.Over}
		var sum float64
		for _, v := range got {
			if v < -1e-12 {
				t.Fatalf("a share is negative: %v", got)
			}
			sum += v
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("shares add up to %g", sum)
		}
		// Eggs laid one after another over the interval, each with its own age.
		const n = 4000
		want := make([]float64, 6)
		for i := range n {
			egg := from.Add(time.Duration((float64(i) + 0.5) / n * float64(to.Sub(from))))
			age := at.Sub(egg).Hours() - 72
			k := 0
			for _, edge := range []float64{0, 12, 24, 36, 48} {
				if age >= edge {
					k++
				}
			}
			want[k] += 1.0 / n
		}
		for k := range want {
			if math.Abs(got[k]-want[k]) > 2.0/n {
				t.Fatalf("share %d is %g, counted %g (all %v and %v)", k, got[k], want[k], got, want)
			}
		}
	})
}

func TestGraftWindow(t *testing.T) {
	row := DefaultTable().Row(Graft, "")
	c := Comb{Confined: confined, BeesIn: yes(), Out: confined.Add(Hours(24))}
	earliest, best, latest := GraftWindow(c, row)
	// Laid from 2 to 24 h: first larvae 12 h old at 2+72+12, youngest 24 h at 24+72+24.
	assert.Equal(t, []float64{86, 103, 120}, []float64{hoursAfter(confined, earliest), hoursAfter(confined, best), hoursAfter(confined, latest)})
}

func TestGraftWindowHolds(t *testing.T) {
	row := DefaultTable().Row(Graft, "")
	rapid.Check(t, func(t *rapid.T) {
		c := Comb{Confined: confined, BeesIn: rapid.SampledFrom([]*bool{nil, yes(), no()}).Draw(t, "bees")}
		c.Out = confined.Add(time.Duration(rapid.IntRange(60, 48*60).Draw(t, "out")) * time.Minute)
		from, to := c.Laying()
		earliest, best, latest := GraftWindow(c, row)
		if _, oldest := Ages(from, to, earliest); math.Abs(oldest-12) > 1e-6 {
			t.Fatalf("opens with the oldest at %g h", oldest)
		}
		if youngest, _ := Ages(from, to, latest); math.Abs(youngest-24) > 1e-6 {
			t.Fatalf("closes with the youngest at %g h", youngest)
		}
		if best.Before(earliest) || best.After(latest) {
			t.Fatalf("best lies outside the window")
		}
		top := SharesAt(from, to, best).To24
		for at := earliest.Add(-time.Hour); at.Before(latest.Add(time.Hour)); at = at.Add(10 * time.Minute) {
			if v := SharesAt(from, to, at).To24; v > top+1e-9 {
				t.Fatalf("at %v %g are 12-24 h old, at the best time %v only %g", at, v, best, top)
			}
		}
	})
}

func TestGraftAges(t *testing.T) {
	from := confined
	to := confined.Add(Hours(20)) // ages spread over 20 h
	for _, c := range []struct {
		at     float64 // hours after the last egg
		lo, hi float64
		ok     bool
		say    string
	}{
		{50, 0, 0, false, "only eggs: the oldest is laid 70 h ago"},
		{60, 0, 8, true, "eggs and first larvae: only larvae count"},
		{84, 12, 24, true, "12 to 32 h: the older are left"},
		{90, 18, 24, true, ""},
		{97, 25, 37, true, "none under 24 h: the youngest 12 h"},
		{130, 58, 70, true, ""},
	} {
		span, ok := GraftAges(from, to, to.Add(Hours(c.at)))
		assert.Equal(t, c.ok, ok, "%v", c)
		if ok {
			assert.InDelta(t, c.lo, span.Lo, 1e-9, "%v", c)
			assert.InDelta(t, c.hi, span.Hi, 1e-9, "%v", c)
			assert.Equal(t, "comb", span.Basis)
		}
	}
}

func TestGraftAgesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := laid(t)
		at := to.Add(Hours(rapid.Float64Range(0, 200).Draw(t, "at")))
		lo, hi := Ages(from, to, at)
		span, ok := GraftAges(from, to, at)
		if ok != (hi >= 0) {
			t.Fatalf("ok %v with the oldest at %g h", ok, hi)
		}
		if !ok {
			return
		}
		if span.Lo > span.Hi || span.Lo < 0 || span.Lo < lo-1e-9 || span.Hi > hi+1e-9 {
			t.Fatalf("span %v out of what the comb holds, %g to %g", span, lo, hi)
		}
		if lo < 24 && span.Hi > 24 {
			t.Fatalf("took larvae of %g h though there were some under 24 h", span.Hi)
		}
		if lo > 24 && span.Hi-span.Lo > 12+1e-9 {
			t.Fatalf("took more than the youngest 12 h: %v", span)
		}
	})
}

func TestChooseComb(t *testing.T) {
	comb := func(id int64, mark string, day int) Comb {
		at := confined.Add(time.Duration(day) * 24 * time.Hour)
		return Comb{ID: id, Mark: mark, Confined: at, BeesIn: yes(), Out: at.Add(Hours(24))}
	}
	combs := []Comb{comb(1, "red", 0), comb(2, "blue", 1), comb(3, "", 3)}
	at := func(h float64) time.Time { return confined.Add(Hours(h)) }
	c, ok := ChooseComb(combs, "", at(103))
	assert.True(t, ok)
	assert.Equal(t, int64(1), c.ID, "most larvae of 12-24 h")
	c, _ = ChooseComb(combs, "", at(127))
	assert.Equal(t, int64(2), c.ID)
	c, _ = ChooseComb(combs, "red", at(127))
	assert.Equal(t, int64(1), c.ID, "the mark named decides")
	_, ok = ChooseComb(combs, "green", at(103))
	assert.False(t, ok)
	_, ok = ChooseComb(combs, "", at(30))
	assert.False(t, ok, "only eggs anywhere")
	_, ok = ChooseComb(combs, "", at(400))
	assert.False(t, ok, "brood long past grafting")
	combs[0].Failed = true
	c, _ = ChooseComb(combs, "", at(103))
	assert.Equal(t, int64(2), c.ID, "a comb that came out empty gave none")
}
