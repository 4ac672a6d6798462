package rules

import (
	"math"
	"sort"
)

// StageYield is what is known of one stage's rate: the crew's counts over the
// published range. With few counts it is close to that range, with many to the
// counts; batches that differ much count for less.
type StageYield struct {
	Stage    Stage
	Mean     float64 // rate that a next batch may expect, 0 to 1
	Rho      float64 // over-dispersion, 0 to 1: 0 where batches differ by chance alone
	Batches  int     // how many batches it was learned from
	Of, Got  int     // their counts, added up
	nodes    []node
	quantile spread
}

// Interval is the range in which the mean rate lies with the chance level (0.9
// for nine in ten), the same chance being left on either side.
func (y StageYield) Interval(level float64) (lo, hi float64) {
	tail := (1 - clamp(level, 0, 1)) / 2
	lo, _ = y.quantile.quantile(tail)
	hi, _ = y.quantile.quantile(1 - tail)
	return lo, hi
}

// NextPMF is the chance of each count 0 to n in a next batch of n.
func (y StageYield) NextPMF(n int) []float64 {
	out, one := make([]float64, max(n, 0)+1), make([]float64, max(n, 0)+1)
	for _, d := range y.nodes {
		if d.w < 1e-7 {
			continue
		}
		alpha, beta := BetaBin{d.mean, d.rho}.shapes()
		betaBinInto(one, alpha, beta)
		for k := range out {
			out[k] += d.w * one[k]
		}
	}
	var sum float64
	for _, v := range out {
		sum += v
	}
	for k := range out {
		out[k] /= sum
	}
	return out
}

// Next is the range of counts that a next batch of n gives with at least the
// chance level: what the crew may hold a fresh count against.
func (y StageYield) Next(n int, level float64) (lo, hi int) {
	tail := (1 - clamp(level, 0, 1)) / 2
	pmf := y.NextPMF(n)
	return quantileOf(pmf, tail), quantileOf(pmf, 1-tail)
}

func (y *StageYield) set(nodes []node) {
	var sum float64
	for _, d := range nodes {
		sum += d.w
	}
	y.nodes, y.Mean, y.Rho = nil, 0, 0
	for _, d := range nodes {
		if d.w /= sum; d.w < 1e-12 {
			continue
		}
		y.nodes = append(y.nodes, d)
		y.Mean += d.w * d.mean
		y.Rho += d.w * d.rho
	}
	y.quantile = spreadOf(y.nodes)
}

// Yields are the rates of all stages, for the season and for each breeder,
// builder, grafter and week.
type Yields struct {
	Stage [Stages]StageYield
	By    map[Dim][]Group
}

// FitYields learns the rates from trials, of one season or as many as the caller
// thinks alike. Without trials every rate is its published range.
//
// The posterior of mean and over-dispersion is added up on a grid rather than
// taken at its peak: with few batches over-dispersion is hardly known, and plans
// that pretend otherwise fail more often than they say.
func FitYields(trials []Trial, said ...[Stages]float64) Yields {
	y := FitSeason(trials, said...)
	for _, d := range Dims {
		y.By[d] = fitGroups(d, trials, y.Stage)
	}
	return y
}

// FitSeason is FitYields for the season alone, without the groups. said are the rates that
// the crew says it gets, 0 where it said none.
func FitSeason(trials []Trial, said ...[Stages]float64) Yields {
	y := Yields{By: map[Dim][]Group{}}
	for g := StageAccepted; g < Stages; g++ {
		own := 0.0
		if len(said) > 0 {
			own = said[0][g]
		}
		alpha, beta := prior(g, own)
		y.Stage[g] = fitStage(g, trials, alpha, beta)
	}
	return y
}

// KnownYields are rates taken as given: nothing is left to learn, and batches
// differ by rho. For a crew's "suppose we had 80 %".
func KnownYields(rate [Stages]float64, rho float64) Yields {
	y := Yields{By: map[Dim][]Group{}}
	for g := range y.Stage {
		y.Stage[g].Stage = Stage(g)
		y.Stage[g].set([]node{{rate[g], rho, 1}})
	}
	return y
}

// Over is the rate of all stages from one to another together (both included)
// that a next batch may expect.
func (y Yields) Over(from, to Stage) float64 {
	p := 1.0
	for g := from; g <= to; g++ {
		p *= y.Stage[g].Mean
	}
	return p
}

const (
	meanCells = 96 // steps of the mean rate within the range that matters
	rhoCells  = 20 // steps of over-dispersion, on a log scale
	rhoLow    = 0.002
	rhoHigh   = 0.6
)

func fitStage(g Stage, trials []Trial, alpha, beta float64) StageYield {
	y := StageYield{Stage: g}
	var t tally
	for _, tr := range trials {
		if tr.Stage == g && tr.Of > 0 {
			t.add(tr.Got, tr.Of)
			y.Of, y.Got = y.Of+tr.Of, y.Got+tr.Got
		}
	}
	y.Batches = t.batches
	// Once over all rates, to find where the weight lies, then finely there.
	lo, hi := weightiest(posterior(&t, alpha, beta, 0, 1, 64, 4))
	y.set(posterior(&t, alpha, beta, lo, hi, meanCells, rhoCells))
	return y
}

// posterior weighs a grid of means between lo and hi and over-dispersions. The
// weights are relative.
func posterior(t *tally, alpha, beta, lo, hi float64, cells, rhos int) []node {
	nodes := make([]node, 0, cells*rhos)
	top := math.Inf(-1)
	ratio := math.Log(rhoHigh/rhoLow) / float64(rhos)
	for i := range cells {
		m := lo + (hi-lo)*(float64(i)+0.5)/float64(cells)
		before := (alpha-1)*math.Log(m) + (beta-1)*math.Log1p(-m)
		for j := range rhos {
			rho := rhoLow * math.Exp(ratio*(float64(j)+0.5))
			// The exponent of rho is not lowered by one: steps are even in its log.
			w := before + rhoAlpha*math.Log(rho) + (rhoBeta-1)*math.Log1p(-rho) + t.logLik(BetaBin{m, rho})
			nodes = append(nodes, node{m, rho, w})
			top = max(top, w)
		}
	}
	for i := range nodes {
		nodes[i].w = math.Exp(nodes[i].w - top)
	}
	return nodes
}

// weightiest is the range of means that holds all weight worth the name.
func weightiest(nodes []node) (lo, hi float64) {
	s := spreadOf(nodes)
	all := s.cum[len(s.cum)-1]
	from := sort.Search(len(s.cum), func(i int) bool { return s.cum[i] > 1e-7*all })
	to := sort.Search(len(s.cum), func(i int) bool { return s.cum[i] >= (1-1e-7)*all })
	return max(0, s.means[from]-1.5*s.step), min(1, s.means[min(to, len(s.means)-1)]+1.5*s.step)
}
