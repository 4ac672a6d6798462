package rules

import (
	"math"
	"sort"
)

// BetaBin is the beta-binomial law of a count out of n: the rate differs from
// batch to batch by a beta law of mean Mean (0 to 1), and Rho (0 to 1) is how
// alike two cells of one batch are beyond chance. The beta law has the shapes
// Mean·k and (1-Mean)·k with k = 1/Rho - 1; Rho 0 is the plain binomial.
// Skellam 1948, J. R. Stat. Soc. B 10(2):257-261; the parameters as in Williams
// 1975, Biometrics 31(4):949-952 (both from memory).
type BetaBin struct{ Mean, Rho float64 }

// tinyRho stands for none: below it the law cannot be told from the binomial.
const tinyRho = 1e-12

func (b BetaBin) shapes() (alpha, beta float64) {
	k := 1/clamp(b.Rho, tinyRho, 1-1e-6) - 1
	m := clamp(b.Mean, 1e-12, 1-1e-12)
	return m * k, (1 - m) * k
}

// PMF is the chance of each count from 0 to n. A negative n is taken as 0.
func (b BetaBin) PMF(n int) []float64 {
	out := make([]float64, max(n, 0)+1)
	alpha, beta := b.shapes()
	betaBinInto(out, alpha, beta)
	return out
}

// betaBinInto fills dst with the chances of 0 to len(dst)-1. It walks from the
// middle by the ratio of neighbours and scales at the end: no gamma function is
// asked for, which would lose digits where Rho is near 0.
func betaBinInto(dst []float64, alpha, beta float64) {
	n := len(dst) - 1
	mid := min(n, int(float64(n)*alpha/(alpha+beta)+0.5))
	dst[mid] = 1
	sum, v := 1.0, 1.0
	for k := mid; k < n; k++ {
		v *= float64(n-k) * (alpha + float64(k)) / (float64(k+1) * (beta + float64(n-k-1)))
		dst[k+1] = v
		sum += v
	}
	v = 1
	for k := mid; k > 0; k-- {
		v *= float64(k) * (beta + float64(n-k)) / (float64(n-k+1) * (alpha + float64(k-1)))
		dst[k-1] = v
		sum += v
	}
	for k := range dst {
		dst[k] /= sum
	}
}

// CDF is the chance of at most k out of n.
func (b BetaBin) CDF(k, n int) float64 {
	if k < 0 {
		return 0
	}
	if k >= n {
		return 1
	}
	var sum float64
	for _, p := range b.PMF(n)[:k+1] {
		sum += p
	}
	return min(sum, 1)
}

// Quantile is the smallest count out of n whose CDF is at least p.
func (b BetaBin) Quantile(p float64, n int) int { return quantileOf(b.PMF(n), p) }

// quantileOf is the smallest index at which the chances add up to p. The margin
// keeps a sum that should be exactly p from missing it by rounding.
func quantileOf(pmf []float64, p float64) int {
	var sum float64
	for k, v := range pmf {
		if sum += v; sum >= p-1e-12 {
			return k
		}
	}
	return len(pmf) - 1
}

// tally is a stage's counts in the form that the likelihood asks for: the log
// of a rising factorial is a sum of logs, so for all batches together it is
// enough to know how many of them reach each number.
type tally struct {
	got, lost, of []float64 // batches with more than j of each
	batches       int
}

func (t *tally) add(got, of int) {
	bump := func(list *[]float64, n int) {
		for len(*list) < n {
			*list = append(*list, 0)
		}
		for j := range n {
			(*list)[j]++
		}
	}
	bump(&t.got, got)
	bump(&t.lost, of-got)
	bump(&t.of, of)
	t.batches++
}

// logLik is the log likelihood of the counts, apart from the binomial
// coefficients, which no parameter changes.
func (t *tally) logLik(b BetaBin) float64 {
	alpha, beta := b.shapes()
	// Each factor is divided by alpha+beta, so that sums of large logs do not
	// cancel where Rho is small.
	k := alpha + beta
	var sum float64
	for j, c := range t.got {
		sum += c * math.Log((alpha+float64(j))/k)
	}
	for j, c := range t.lost {
		sum += c * math.Log((beta+float64(j))/k)
	}
	for j, c := range t.of {
		sum -= c * math.Log1p(float64(j)/k)
	}
	return sum
}

// node is one point of a posterior: a mean rate and an over-dispersion, and how
// likely the pair is. Weights of a list add up to 1.
type node struct{ mean, rho, w float64 }

// spread is a posterior over mean rates in steps: the nodes of one mean stand
// together, and each mean stands for the cell around it.
type spread struct {
	means []float64 // rising
	cum   []float64 // chance up to the end of the cell
	rows  [][]node  // the nodes of that mean
	step  float64   // width of a cell, 0 where the mean is known
}

func spreadOf(nodes []node) spread {
	sorted := append([]node(nil), nodes...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].mean < sorted[j].mean })
	var s spread
	var sum float64
	for i := 0; i < len(sorted); {
		j := i
		for j < len(sorted) && sorted[j].mean == sorted[i].mean {
			sum += sorted[j].w
			j++
		}
		s.means, s.cum, s.rows = append(s.means, sorted[i].mean), append(s.cum, sum), append(s.rows, sorted[i:j])
		i = j
	}
	if n := len(s.means); n > 1 {
		s.step = (s.means[n-1] - s.means[0]) / float64(n-1)
	}
	return s
}

// quantile is the mean rate below which the chance is u, and the index of its cell.
func (s spread) quantile(u float64) (mean float64, at int) {
	at = min(sort.SearchFloat64s(s.cum, u), len(s.cum)-1)
	before := 0.0
	if at > 0 {
		before = s.cum[at-1]
	}
	part := 0.5
	if w := s.cum[at] - before; w > 0 {
		part = clamp((u-before)/w, 0, 1)
	}
	return clamp(s.means[at]+s.step*(part-0.5), 0, 1), at
}

// draw is the pair of mean and over-dispersion at two chances u and v: the mean
// by u, then the over-dispersion among those of that mean by v.
func (s spread) draw(u, v float64) BetaBin {
	mean, at := s.quantile(u)
	row := s.rows[at]
	var all float64
	for _, n := range row {
		all += n.w
	}
	left := v * all
	for _, n := range row {
		if left -= n.w; left <= 0 {
			return BetaBin{mean, n.rho}
		}
	}
	return BetaBin{mean, row[len(row)-1].rho}
}
