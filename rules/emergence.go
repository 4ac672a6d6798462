package rules

import (
	"math"
	"sync"
	"time"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Emergence of queens, in hours.
const (
	// EggToQueen at 34.5 °C: 16 d 1 h, Chuda-Mickiewicz & Samborski 2015, Acta
	// Sci. Pol. Zootechnica 14(4):25-32, abstract.
	EggToQueen = 385.0
	// BroodTemp is the temperature of that figure, °C.
	BroodTemp = 34.5
	// HoursPerDegree is how much later each °C cooler makes it over the sealed
	// stage: 27 h for 2.5 °C in the same abstract.
	HoursPerDegree = 27.0 / 2.5
	// SealedFrom is the age from the egg at which the cell is sealed: 8 d, common
	// practice; 7.6 d in Winston 1987 (memory), 8 d by Cobey 2005 as reported.
	SealedFrom = 192.0
	// SigmaBatch and SigmaCell spread emergence from batch to batch and from cell
	// to cell. No published standard deviation was found; the values fit the
	// published spans of 15-17 d and are of low confidence.
	SigmaBatch = 8.0
	SigmaCell  = 7.5
	// TooWarm and TooCool bound what brood is kept at, °C: a brood nest is held at 33 to
	// 36 (memory), and at 32 queens were as good as at 34.5 (Chuda-Mickiewicz &
	// Samborski 2015, the same abstract).
	TooWarm = 36.0
	TooCool = 32.0
	// SafeChance is the chance that any virgin is out at which a batch stops
	// being safe where it stands.
	SafeChance = 0.01
	// UnknownCells is how many cells are taken where no count was given: more
	// than most bars hold, since more cells make the first virgin earlier.
	UnknownCells = 60
)

// Emergence says when the queens of one graft come out.
type Emergence struct {
	Grafted    time.Time
	Age        AgeSpan
	Cells      int
	Shift      float64 // hours later (positive) by a cooler incubator
	SigmaBatch float64
	SigmaCell  float64
	Learnt     *Learnt // of the crew's own cells, nil for the books alone
}

// Middle is the books' middle of emergence.
func (e Emergence) Middle() time.Time { return e.Grafted.Add(Hours(e.mean() - (e.Age.Lo+e.Age.Hi)/2)) }

// sooner is by how many hours the crew's cells come out before the books have it, 0 where
// they are not known to.
func (e Emergence) sooner() float64 {
	return max(0, -e.Learnt.Hours())
}

// mean is hours from the graft to emergence of a larva that was just hatched.
func (e Emergence) mean() float64 { return EggToQueen - HatchAfter + e.Shift }

// cellOut is the chance that one cell is out h hours after the graft, apart
// from the batch-wide term: the age is uniform over the span.
func (e Emergence) cellOut(h float64) float64 {
	n := distuv.UnitNormal
	lo, hi := (h-e.mean()+e.Age.Lo)/e.SigmaCell, (h-e.mean()+e.Age.Hi)/e.SigmaCell
	switch {
	case hi < -certain: // most of the integral's points, while it is early
		return 0
	case lo > certain:
		return 1
	case hi-lo < 1e-6:
		return n.CDF(lo)
	}
	// The integral of the normal distribution function is x·Φ(x) + φ(x).
	integral := func(x float64) float64 { return x*n.CDF(x) + math.Exp(-x*x/2)/sqrtTwoPi }
	return clamp((integral(hi)-integral(lo))/(hi-lo), 0, 1)
}

var sqrtTwoPi = math.Sqrt(2 * math.Pi)

// certain is how many standard deviations out the chance of a cell is 0 or 1 but for
// 1e-16, which is less than the numbers it is added to can show.
const certain = 8.3

// batchNode is one point of the integral over the batch-wide term: z standard
// deviations from the middle, with the weight of that chance.
type batchNode struct{ z, w float64 }

// batchNodes are worked out once: finding them cost more than using them.
var batchNodes = sync.OnceValue(func() []batchNode {
	z, w := make([]float64, 160), make([]float64, 160)
	quad.Legendre{}.FixedLocations(z, w, -7, 7)
	nodes := make([]batchNode, len(z))
	for i := range z {
		nodes[i] = batchNode{z[i], w[i] * distuv.UnitNormal.Prob(z[i])}
	}
	return nodes
})

// AnyOut is the chance that at least one virgin is out at t, whatever the batch term and
// the shift of the crew's mean are.
func (e Emergence) AnyOut(t time.Time) float64 {
	h := t.Sub(e.Grafted).Hours()
	n := float64(max(e.Cells, 1))
	nodes, scale := batchNodes(), e.SigmaBatch
	if e.Learnt != nil { // all that is open of the crew's mean is in them
		nodes, scale = e.Learnt.late, 1
	}
	var sum float64
	for _, node := range nodes {
		p := e.cellOut(h - scale*node.z)
		if p == 0 {
			continue
		}
		sum += node.w * -math.Expm1(n*math.Log1p(-min(p, 1-1e-15)))
	}
	return clamp(sum, 0, 1)
}

// SafeUntil is when the chance that any virgin is out reaches SafeChance, to the
// minute before, or to the hour where it rests on what the crew saw.
func (e Emergence) SafeUntil() time.Time {
	// The time is sought on a grid finer than 15 s. Guesses come from a line
	// through the two ends in standard deviations, in which the chance is almost
	// straight; halving alone asks for twice as many integrals.
	top, n := e.mean()+100, 1
	for top/float64(n) > 1.0/240 {
		n *= 2
	}
	at := func(i int) time.Time { return e.Grafted.Add(Hours(top * float64(i) / float64(n))) }
	goal := distuv.UnitNormal.Quantile(SafeChance)
	lo, hi := 0, n
	ylo, yhi := math.Inf(-1), math.Inf(1)
	perHour := math.Hypot(e.SigmaBatch, e.SigmaCell)
	guess := int((e.mean() - e.sooner() - (e.Age.Lo+e.Age.Hi)/2 - 3.5*perHour) * float64(n) / top)
	for turn := 0; hi-lo > 1; turn++ {
		if turn > 4 && turn%2 == 1 { // four do nearly always
			guess = lo + (hi-lo)/2
		}
		mid := max(lo+1, min(hi-1, guess))
		p := e.AnyOut(at(mid))
		y := distuv.UnitNormal.Quantile(p)
		if p < SafeChance {
			lo, ylo = mid, y
		} else {
			hi, yhi = mid, y
		}
		switch {
		case !math.IsInf(ylo, 0) && !math.IsInf(yhi, 0) && yhi > ylo:
			guess = lo + int((goal-ylo)/(yhi-ylo)*float64(hi-lo))
			if mid == guess { // at an end: try the next point of the grid
				guess++
			}
		case math.IsInf(y, 0):
			guess = lo + (hi-lo)/2
		default:
			guess = mid + int((goal-y)*perHour*float64(n)/top)
		}
	}
	if e.Learnt != nil { // what few looks tell is not known to the minute
		return at(lo).Truncate(time.Hour)
	}
	return at(lo).Truncate(time.Minute)
}

// warm reports whether a temperature brings the queens out sooner.
func (t TempFrom) warm() bool { return t.C > BroodTemp }

// IncubatorShift is how many hours later the queens of a graft come out for those of
// the temperatures logged that count: HoursPerDegree for each °C below BroodTemp, over
// the part of the sealed stage that was spent at it. Warmer gives a negative shift. Without
// counts all of them do.
func IncubatorShift(grafted time.Time, age AgeSpan, temps []TempFrom, counts func(TempFrom) bool) float64 {
	egg := grafted.Add(-Hours(HatchAfter + (age.Lo+age.Hi)/2))
	from, to := egg.Add(Hours(SealedFrom)), egg.Add(Hours(EggToQueen))
	var shift float64
	for i, t := range temps {
		if math.IsNaN(t.C) || counts != nil && !counts(t) {
			continue
		}
		a, b := t.At, to
		if i+1 < len(temps) && temps[i+1].At.Before(b) {
			b = temps[i+1].At
		}
		if a.Before(from) {
			a = from
		}
		if b.After(a) {
			shift += HoursPerDegree * (BroodTemp - t.C) * b.Sub(a).Hours() / to.Sub(from).Hours()
		}
	}
	return shift
}

// surelySafe reports that the chance that any virgin is out stays below SafeChance until t.
// The chance that any is out is at most the sum of those of single cells, for which the
// batch-wide term needs no integral; where that is too much, SafeUntil has to tell.
func (e Emergence) surelySafe(t time.Time) bool {
	if e.Learnt != nil {
		return e.AnyOut(t) < SafeChance
	}
	one := e
	one.SigmaCell = math.Hypot(e.SigmaBatch, e.SigmaCell)
	return float64(max(e.Cells, 1))*one.cellOut(t.Sub(e.Grafted).Hours()) < SafeChance
}

// MoveWindow is when ripe cells may go to the nucs. Larvae older than 24 h bring
// it forward by the excess, a cooler incubator moves all but its close back, and it
// never closes after the batch stops being safe. Where the crew's cells come out sooner than
// the books say they are ripe sooner too, and the best time keeps its distance from the close.
// own is the crew's own best time after the
// graft, 0 for the table's; where that is later than the close, the window is
// held open for it, and the crew was warned when setting it.
func MoveWindow(e Emergence, row Row, own time.Duration) (earliest, best, latest time.Time) {
	older := max(0, e.Age.Hi-24)
	shift, sooner := Hours(e.Shift-older), Hours(min(0, e.Shift)-older)
	earliest, best, _ = row.Window(e.Grafted.Add(shift))
	_, _, latest = row.Window(e.Grafted.Add(sooner))
	// SafeUntil is dear, and of most batches far behind the close. It gives the minute
	// before, which is why more than the close has to be safe.
	if !e.surelySafe(latest.Add(2 * time.Minute)) {
		latest = earlier(latest, e.SafeUntil())
	}
	if soon := Hours(e.sooner()); soon > 0 {
		earliest = earliest.Add(-soon)
		best = earlier(best, latest.Add(-Hours(row.Latest-row.Best)))
	}
	if own > 0 {
		latest = later(latest, e.Grafted.Add(own+sooner))
		best = e.Grafted.Add(own + shift)
	}
	if best.After(latest) {
		best = latest
	}
	if earliest.After(best) {
		earliest = best
	}
	return earliest, best, latest
}
