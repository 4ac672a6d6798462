package rules

import "time"

// Development of the egg, in hours.
const (
	// HatchAfter is the age at which an egg hatches: 3 days, Harris & Sheridan
	// (Mississippi AFES); Connor, Colony development part I. Some take 3.5 d.
	HatchAfter = 72.0
	// LagWithBees and LagWithout are how long a confined queen takes to start
	// laying, with and without bees shaken in beside her. Common practice.
	LagWithBees = 2.0
	LagWithout  = 8.0
	// PlannedStay is how long she is taken to stay on a comb that is still in:
	// 12-24 h in Büchler et al. 2013 s2.1.5.
	PlannedStay = 24.0
)

// Comb is one confinement of a breeder on one comb.
type Comb struct {
	ID       int64 // the entry that logged the confinement
	Breeder  int
	Mark     string
	Confined time.Time
	BeesIn   *bool     // nil: not said
	EggsSeen time.Time // zero: not seen; laying began no later
	NoEggs   time.Time // zero: not looked; laying began after
	Out      time.Time // zero: still in
	Released bool      // she was let go rather than the comb taken
	Failed   bool      // came out without eggs
}

// Laying is the interval in which eggs were laid on the comb. While the comb is
// in, the end is when it is planned to come out.
func (c Comb) Laying() (from, to time.Time) {
	lag := LagWithout
	if c.BeesIn != nil && *c.BeesIn {
		lag = LagWithBees
	}
	from = c.Confined.Add(Hours(lag))
	if !c.NoEggs.IsZero() && from.Before(c.NoEggs) {
		from = c.NoEggs
	}
	if !c.EggsSeen.IsZero() && from.After(c.EggsSeen) {
		from = c.EggsSeen
	}
	to = c.Out
	if to.IsZero() {
		to = c.PlannedOut()
	}
	if from.After(to) {
		from = to
	}
	return from, to
}

// PlannedOut is when the comb should come out: a day after she was confined, or
// a day after she was last seen not to have laid.
func (c Comb) PlannedOut() time.Time {
	t := c.Confined
	if c.NoEggs.After(t) {
		t = c.NoEggs
	}
	return t.Add(Hours(PlannedStay))
}

// Shares is how much of a comb's brood is at which age.
type Shares struct {
	Egg, To12, To24, To36, To48, Over float64 // they add up to 1
}

// SharesAt is the state of brood laid evenly over [from, to] at time t.
// Larvae hatch HatchAfter hours after they were laid.
func SharesAt(from, to, t time.Time) Shares {
	lo, hi := Ages(from, to, t)
	below := func(age float64) float64 { // share younger than age
		if hi <= lo {
			if lo < age {
				return 1
			}
			return 0
		}
		return clamp((age-lo)/(hi-lo), 0, 1)
	}
	s := Shares{Egg: below(0)}
	s.To12 = below(12) - below(0)
	s.To24 = below(24) - below(12)
	s.To36 = below(36) - below(24)
	s.To48 = below(48) - below(36)
	s.Over = 1 - below(48)
	return s
}

// Ages is the youngest and oldest age on the comb at t in hours since hatch;
// negative values are eggs.
func Ages(from, to, t time.Time) (lo, hi float64) {
	return t.Sub(to).Hours() - HatchAfter, t.Sub(from).Hours() - HatchAfter
}

// AgeSpan is the age of the larvae that were grafted, in hours since hatch, and
// how it is known: "comb", "stated" or "assumed".
type AgeSpan struct {
	Lo, Hi float64
	Basis  string
}

// AssumedAge is taken where no comb is known: 12-24 h, Büchler et al. 2013 s2.1.5.
var AssumedAge = AgeSpan{12, 24, "assumed"}

// GraftAges is the age of larvae taken from brood laid over [from, to] at t. A
// grafter picks the smallest usable ones: those up to 24 h where there are any,
// else the youngest 12 h present. ok is false while there are only eggs.
func GraftAges(from, to, t time.Time) (span AgeSpan, ok bool) {
	lo, hi := Ages(from, to, t)
	if hi < 0 {
		return AgeSpan{}, false
	}
	if lo <= 24 {
		return AgeSpan{max(lo, 0), min(hi, 24), "comb"}, true
	}
	return AgeSpan{lo, min(hi, lo+12), "comb"}, true
}

// GraftWindow is when a comb is fit to graft: it opens when the first larvae
// reach 12 h, is best when most of them are 12-24 h old, and closes when the
// youngest pass 24 h.
func GraftWindow(c Comb, row Row) (earliest, best, latest time.Time) {
	from, to := c.Laying()
	earliest = from.Add(Hours(HatchAfter + row.Earliest))
	latest = to.Add(Hours(HatchAfter + row.Latest))
	// The share aged 12-24 h is a trapezium in time, symmetric about the moment
	// at which the middle of the brood is 18 h old.
	best = from.Add(to.Sub(from) / 2).Add(Hours(HatchAfter + row.Best))
	return earliest, best, latest
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }
