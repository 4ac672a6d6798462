package rules

import (
	"math"
	"time"

	"gonum.org/v1/gonum/stat/distuv"
)

// What is not known of a crew before it counted: by how many hours its cells come out later
// (negative: sooner) than the books say, normal about 0. Our choice: a day either way is as
// far as stocks differ in the published spans of 15-17 d.
const (
	ShiftSpread = 12.0
	ShiftMost   = 36.0 // farther is not believed
	shiftPoints = 49   // of the shift at which its chance is known: every hour and a half
)

// LookMemory is how long a look counts: this season and the one before. Our choice: stock
// changes, and what was learnt of the last must not hold off what is seen of this.
const LookMemory = 400 * 24 * time.Hour

// KnownLooks is how many looks that teach make a crew known. Our choice.
const KnownLooks = 3

// Learnt is what a crew's looks tell of when its cells come out: a chance for each shift of
// its mean against the books.
type Learnt struct {
	Mean  float64 // hours, negative: sooner
	Looks int     // that taught it

	chance []float64   // of each of the shifts
	late   []batchNode // hours by which a next batch is late, and their chance
}

// WorthHours is how far a crew's mean has to be from the books, and OwnWorth how far what was
// seen of a batch has to move it, before windows move: the model is good to half a day, and
// a few hours more or less at each look would only be noise. The close of the move counts
// all of it. Our choice.
const (
	WorthHours = 3.0
	OwnWorth   = 6.0
)

// Hours is by how much the crew's cells come out later than the books say, negative for
// sooner, and 0 where that is not worth telling or nothing is known.
func (l *Learnt) Hours() float64 {
	if l == nil || math.Abs(l.Mean) < WorthHours {
		return 0
	}
	return math.Round(l.Mean)
}

// shiftGrid are the points of the integrals over the shift of a crew's mean and over how
// late its batches are.
type shiftGrid struct {
	batch, cell float64     // the spreads it is for
	prior       []float64   // chance of each shift before any look
	late        []float64   // hours by which a batch is late
	near        [][]float64 // near[i][j]: chance that a batch is late[j] late where the shift is the i-th
}

func shiftAt(i int) float64 { return -ShiftMost + 2*ShiftMost*float64(i)/(shiftPoints-1) }

// newShiftGrid lays the points so close that the sums over them stand for the integrals.
func newShiftGrid(batch, cell float64) *shiftGrid {
	g := &shiftGrid{batch: batch, cell: cell}
	spread := max(batch, 2) // less would fall between two points
	step := clamp(min(spread, cell)/3, 0.5, 2.5)
	for at := -ShiftMost - 5*spread; at <= ShiftMost+5*spread; at += step {
		g.late = append(g.late, at)
	}
	g.prior, g.near = make([]float64, shiftPoints), make([][]float64, shiftPoints)
	for i := range g.prior {
		g.prior[i] = distuv.UnitNormal.Prob(shiftAt(i) / ShiftSpread)
		row := make([]float64, len(g.late))
		for j, at := range g.late {
			row[j] = distuv.UnitNormal.Prob((at - shiftAt(i)) / spread)
		}
		g.near[i] = normed(row)
	}
	g.prior[0] /= 2 // the ends of the range stand for half as much of it
	g.prior[shiftPoints-1] /= 2
	normed(g.prior)
	return g
}

// normed makes weights add up to 1.
func normed(w []float64) []float64 {
	var sum float64
	for _, v := range w {
		sum += v
	}
	for i := range w {
		w[i] /= sum
	}
	return w
}

// given is the likelihood of looks at a batch by how late the batch is.
func (g *shiftGrid) given(e Emergence, looks []Look) []float64 {
	out, seen := make([]float64, len(g.late)), cellsOf(looks)
	for j, late := range g.late {
		out[j] = likelihood(e, looks, seen, late)
	}
	return out
}

// tells is the logarithm of the likelihood of looks at a batch at each shift of the crew's
// mean: what they give at each lateness, inside the integral over the batch term.
func (g *shiftGrid) tells(given []float64) []float64 {
	out := make([]float64, shiftPoints)
	for i, row := range g.near {
		var sum float64
		for j, w := range row {
			sum += w * given[j]
		}
		out[i] = math.Log(max(sum, 1e-300))
	}
	return out
}

// learn is what looks tell, of which log is the logarithm of their likelihood at each shift.
func (g *shiftGrid) learn(log []float64, looks int) *Learnt {
	l := &Learnt{Looks: looks, chance: make([]float64, shiftPoints)}
	most := math.Inf(-1)
	for _, v := range log {
		most = max(most, v)
	}
	for i := range l.chance {
		l.chance[i] = g.prior[i] * math.Exp(log[i]-most)
	}
	normed(l.chance)
	l.late = make([]batchNode, len(g.late))
	for j, at := range g.late {
		l.late[j].z = at
	}
	for i, p := range l.chance {
		l.Mean += p * shiftAt(i)
		for j, w := range g.near[i] {
			l.late[j].w += p * w
		}
	}
	return l
}

// lateBy is by how many hours a batch is late after what was seen of it: the mean over what
// the crew's other looks leave open.
func (g *shiftGrid) lateBy(l *Learnt, given []float64) float64 {
	if l == nil {
		l = g.learn(make([]float64, shiftPoints), 0)
	}
	var sum, mean float64
	for j, node := range l.late {
		w := node.w * given[j]
		sum, mean = sum+w, mean+w*node.z
	}
	if sum == 0 {
		return l.Mean
	}
	return mean / sum
}
