package rules

import (
	"math"
	"sort"
)

// Dim is a way to tell batches apart: by breeder, builder, grafter or week.
type Dim string

// The ways to tell batches apart.
const (
	ByBreeder Dim = "breeder"
	ByBuilder Dim = "builder"
	ByGrafter Dim = "grafter"
	ByWeek    Dim = "week"
)

// Dims lists them in the order they are shown.
var Dims = []Dim{ByBreeder, ByBuilder, ByGrafter, ByWeek}

// Key is what a trial is counted under, "" where that was not logged.
func (d Dim) Key(t Trial) string {
	return map[Dim]string{ByBreeder: t.Breeder, ByBuilder: t.Builder, ByGrafter: t.Grafter, ByWeek: t.Week}[d]
}

// Group is one breeder, builder, grafter or week with its rates, each drawn
// towards the season's as far as its own counts are few.
type Group struct {
	Key   string
	Stage [Stages]StageYield
}

// For is the yields with those of one group in the season's place, to plan with
// a chosen breeder. A group that is not known leaves the season's.
func (y Yields) For(d Dim, key string) Yields {
	for _, g := range y.By[d] {
		if g.Key == key {
			y.Stage = g.Stage
		}
	}
	return y
}

// shares is how much of the over-dispersion may lie between groups, the rest
// being between the batches of one. All are held equally likely beforehand.
var shares = []float64{0.02, 0.2, 0.4, 0.6, 0.8, 0.95}

func fitGroups(d Dim, trials []Trial, season [Stages]StageYield) []Group {
	keys := map[string]int{}
	var names []string
	for _, t := range trials {
		if k := d.Key(t); k != "" && keys[k] == 0 {
			names = append(names, k)
			keys[k] = 1
		}
	}
	sort.Slice(names, func(i, j int) bool {
		if len(names[i]) != len(names[j]) && d == ByBreeder {
			return len(names[i]) < len(names[j]) // numbers, by size
		}
		return names[i] < names[j]
	})
	out := make([]Group, len(names))
	for i, n := range names {
		keys[n] = i
		out[i].Key = n
	}
	for g := StageAccepted; g < Stages; g++ {
		for i, y := range shrink(d, g, trials, season[g], keys, len(names)) {
			out[i].Stage[g] = y
		}
	}
	return out
}

// shrink estimates the groups' rates at one stage. Three levels: the season's
// mean, each group's own around it, each batch's around its group's. The season's
// mean and the share of the spread that lies between groups are weighed by how
// well they explain all groups; the over-dispersion as a whole is the season's.
func shrink(d Dim, g Stage, trials []Trial, season StageYield, index map[string]int, groups int) []StageYield {
	out := make([]StageYield, groups)
	tallies := make([]tally, groups)
	for _, t := range trials {
		k := d.Key(t)
		if t.Stage != g || t.Of <= 0 || k == "" {
			continue
		}
		y := &out[index[k]]
		y.Of, y.Got, y.Batches = y.Of+t.Of, y.Got+t.Got, y.Batches+1
		tallies[index[k]].add(t.Got, t.Of)
	}
	const cells, seasons = 240, 24
	means := make([]float64, cells)
	for i := range means {
		means[i] = (float64(i) + 0.5) / cells
	}
	// How well each group mean explains the group's batches, for each share.
	within := make([]float64, len(shares))
	fit := make([][][]float64, len(shares))
	tops := make([][]float64, len(shares)) // fit is relative to its own top, which differs between shares
	for s, share := range shares {
		between := share * season.Rho
		within[s] = (season.Rho - between) / (1 - between)
		fit[s], tops[s] = make([][]float64, groups), make([]float64, groups)
		for i := range groups {
			fit[s][i], tops[s][i] = relative(means, func(m float64) float64 { return tallies[i].logLik(BetaBin{m, within[s]}) })
		}
	}
	lo, hi := season.Interval(0.9999)
	alpha, beta := Published[g].Prior()
	type cell struct {
		w     float64
		share int
		pull  []float64 // the season's law of group means
		sums  []float64 // per group, what it makes of the group's counts
	}
	var grid []cell
	top := math.Inf(-1)
	for i := range seasons {
		mu := clamp(lo+(hi-lo)*(float64(i)+0.5)/seasons, 1e-6, 1-1e-6)
		for s, share := range shares {
			a, b := BetaBin{mu, share * season.Rho}.shapes()
			c := cell{share: s, sums: make([]float64, groups)}
			c.pull, _ = relative(means, func(m float64) float64 { return (a-1)*math.Log(m) + (b-1)*math.Log1p(-m) })
			norm := 0.0
			for _, v := range c.pull {
				norm += v
			}
			c.w = (alpha-1)*math.Log(mu) + (beta-1)*math.Log1p(-mu)
			for k := range groups {
				for j, v := range c.pull {
					c.sums[k] += v / norm * fit[s][k][j]
				}
				c.w += math.Log(max(c.sums[k], 1e-300)) + tops[s][k]
				c.sums[k] *= norm
			}
			top = max(top, c.w)
			grid = append(grid, c)
		}
	}
	for k := range groups {
		nodes := make([]node, cells*len(shares))
		for _, c := range grid {
			w := math.Exp(c.w - top)
			if w < 1e-9 || c.sums[k] <= 0 {
				continue
			}
			for j, m := range means {
				n := &nodes[c.share*cells+j]
				n.mean, n.rho = m, within[c.share]
				n.w += w * c.pull[j] * fit[c.share][k][j] / c.sums[k]
			}
		}
		kept := nodes[:0]
		for _, n := range nodes {
			if n.w > 0 {
				kept = append(kept, n)
			}
		}
		out[k].Stage = g
		out[k].set(kept)
	}
	return out
}

// relative is exp of a log function over points, 1 at its top, and the log there.
func relative(points []float64, log func(float64) float64) (out []float64, top float64) {
	out, top = make([]float64, len(points)), math.Inf(-1)
	for i, p := range points {
		out[i] = log(p)
		top = max(top, out[i])
	}
	for i := range out {
		out[i] = math.Exp(out[i] - top)
	}
	return out, top
}
