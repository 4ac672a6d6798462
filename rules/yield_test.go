package rules

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// reference reads a table that testdata/yields.R or yields.py wrote, a map per
// line; numbers are read on demand.
func reference(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	recs, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, r := range recs[1:] {
		m := map[string]string{}
		for i, v := range r {
			m[recs[0][i]] = v
		}
		out = append(out, m)
	}
	require.NotEmpty(t, out)
	return out
}

func num(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func whole(t testing.TB, s string) int { return int(num(t, s)) }

// SciPy's scipy.stats.betabinom and binom; testdata/yields.py.
func TestBetaBinomialAgainstSciPy(t *testing.T) {
	for _, r := range reference(t, "yields_pmf.csv") {
		b, n, k := BetaBin{num(t, r["mean"]), num(t, r["rho"])}, whole(t, r["n"]), whole(t, r["k"])
		assert.InDelta(t, num(t, r["pmf"]), b.PMF(n)[k], 1e-9, "pmf %v", r)
		assert.InDelta(t, num(t, r["cdf"]), b.CDF(k, n), 1e-9, "cdf %v", r)
	}
}

// R's qbeta; testdata/yields.R. A known prior and no over-dispersion left: the
// posterior of a rate is a beta law, and the interval its quantiles.
func TestIntervalsAgainstR(t *testing.T) {
	for _, r := range reference(t, "yields_beta.csv") {
		a, b, p, q := num(t, r["a"]), num(t, r["b"]), num(t, r["p"]), num(t, r["q"])
		assert.InDelta(t, q, distuv.Beta{Alpha: a, Beta: b}.Quantile(p), 1e-7, "gonum %v", r)
		// The grid that all intervals come from, given the same beta law.
		var nodes []node
		for i := range 2 * meanCells {
			m := (float64(i) + 0.5) / (2 * meanCells)
			nodes = append(nodes, node{m, 0, distuv.Beta{Alpha: a, Beta: b}.CDF(m+0.25/meanCells) - distuv.Beta{Alpha: a, Beta: b}.CDF(m-0.25/meanCells)})
		}
		var y StageYield
		y.set(nodes)
		lo, hi := y.Interval(math.Abs(1 - 2*p))
		assert.InDelta(t, q, map[bool]float64{true: lo, false: hi}[p < 0.5], 1e-3, "grid %v", r)
	}
}

func sampled(t testing.TB, set string) []Trial {
	var out []Trial
	for _, r := range reference(t, "yields_counts.csv") {
		if r["set"] == set {
			out = append(out, Trial{Stage: StageAccepted, Of: whole(t, r["of"]), Got: whole(t, r["got"]), Breeder: r["group"], Week: r["group"]})
		}
	}
	return out
}

// R: maximum likelihood by optim, posteriors summed over a far finer grid.
func TestFitAgainstR(t *testing.T) {
	for _, r := range reference(t, "yields_fit.csv") {
		trials := sampled(t, r["set"])
		y := FitYields(trials).Stage[StageAccepted]
		set := r["set"]
		assert.InDelta(t, num(t, r["mean"]), y.Mean, 5e-4, set)
		assert.InDelta(t, num(t, r["rho"]), y.Rho, 1.5e-3, set)
		lo, hi := y.Interval(0.9)
		assert.InDelta(t, num(t, r["q05"]), lo, 2e-3, set)
		assert.InDelta(t, num(t, r["q95"]), hi, 2e-3, set)
		from, to := y.Next(45, 0.9)
		assert.Equal(t, whole(t, r["next_lo"]), from, set)
		assert.Equal(t, whole(t, r["next_hi"]), to, set)
		assert.InDelta(t, num(t, r["next_p30"]), y.NextPMF(45)[30], 2e-4, set)
		if len(trials) < 3 {
			continue
		}
		var all tally
		for _, tr := range trials {
			all.add(tr.Got, tr.Of)
		}
		top := num(t, r["ml_loglik"])
		m, rho := num(t, r["ml_mean"]), num(t, r["ml_rho"])
		assert.InDelta(t, top, all.logLik(BetaBin{m, rho}), 1e-5, "%s: the likelihood itself", set)
		for _, b := range []BetaBin{{m + 0.01, rho}, {m - 0.01, rho}, {m, rho + 0.01}, {m, rho * 0.8}} {
			assert.LessOrEqual(t, all.logLik(b), top+1e-7, "%s: R's place is the top of ours, not %v", set, b)
		}
	}
}

// R: three levels over a far finer grid.
func TestGroupsAgainstR(t *testing.T) {
	dims := map[string]Dim{"breeders": ByBreeder, "weeks": ByWeek}
	for _, r := range reference(t, "yields_group.csv") {
		y := FitYields(sampled(t, r["set"]))
		found := false
		for _, g := range y.By[dims[r["set"]]] {
			if g.Key != r["group"] {
				continue
			}
			found = true
			s := g.Stage[StageAccepted]
			var m1, m2 float64
			for _, n := range s.nodes {
				m1, m2 = m1+n.w*n.mean, m2+n.w*n.mean*n.mean
			}
			assert.InDelta(t, num(t, r["mean"]), s.Mean, 2e-3, "%v", r)
			assert.InDelta(t, num(t, r["sd"]), math.Sqrt(m2-m1*m1), 2e-3, "%v", r)
		}
		assert.True(t, found, "%v", r)
	}
}

func TestFewCountsShrink(t *testing.T) {
	season := sampled(t, "many")
	season = append(season, Trial{Stage: StageAccepted, Of: 45, Got: 9, Breeder: "12"})
	y := FitYields(season)
	groups := y.By[ByBreeder]
	require.Len(t, groups, 2)
	assert.Equal(t, []string{"7", "12"}, []string{groups[0].Key, groups[1].Key}, "by number")
	one, all := groups[1].Stage[StageAccepted], y.Stage[StageAccepted]
	assert.Greater(t, one.Mean, 0.2+0.1, "one bad batch of 20 %% is drawn to the season's %.2f", all.Mean)
	assert.Less(t, one.Mean, all.Mean-0.05, "but it is not forgotten")
	lo, hi := one.Interval(0.9)
	slo, shi := all.Interval(0.9)
	assert.Greater(t, hi-lo, 2*(shi-slo), "and its interval is honest about one batch")
	assert.Equal(t, groups[1].Stage, y.For(ByBreeder, "12").Stage)
	assert.Equal(t, y.Stage, y.For(ByBreeder, "99").Stage, "an unknown breeder gets the season's")
}

// The prior falls back to the published range, whose quarter is its deviation.
func TestNoCountsIsThePublishedRange(t *testing.T) {
	y := FitYields(nil)
	for g, s := range y.Stage {
		r := Published[g]
		a, b := r.Prior()
		assert.InDelta(t, (r.Lo+r.Hi)/2, s.Mean, 1e-3)
		lo, hi := s.Interval(0.95)
		want := distuv.Beta{Alpha: a, Beta: b}
		assert.InDelta(t, want.Quantile(0.025), lo, 2e-3)
		assert.InDelta(t, want.Quantile(0.975), hi, 2e-3)
		assert.Contains(t, r.Source, "20", "a year")
	}
}

// The intraclass correlation of 12 of 27 and 17 of 26 (Panasiuk et al. 2015) by
// analysis of variance, worked out here from the counts.
func TestOverdispersionBeforeAnyCount(t *testing.T) {
	x, n := [2]float64{12, 17}, [2]float64{27, 26}
	all := n[0] + n[1]
	p := (x[0] + x[1]) / all
	var between, within, squares float64
	for i := range x {
		q := x[i] / n[i]
		between += n[i] * (q - p) * (q - p)
		within += n[i] * q * (1 - q) / (all - 2)
		squares += n[i] * n[i]
	}
	size := all - squares/all
	rho := (between - within) / (between + (size-1)*within)
	prior := distuv.Beta{Alpha: rhoAlpha, Beta: rhoBeta}
	assert.InDelta(t, rho, prior.Mean(), 0.005)
	assert.InDelta(t, 0.004, prior.Quantile(0.025), 0.001)
	assert.InDelta(t, 0.15, prior.Quantile(0.975), 0.01)
	assert.InDelta(t, 0.807, Published[StageEmerged].mean(), 0.001, "the divisor in the last range")
}

func TestTrialsOfABatch(t *testing.T) {
	b := season()
	entries := Effective(b.entries)
	batch, _ := BatchOf(1, entries, nil, crew())
	trials := TrialsOf(batch, entries, chicago)
	require.Len(t, trials, 4)
	var got [][3]int
	for _, tr := range trials {
		got = append(got, [3]int{int(tr.Stage), tr.Got, tr.Of})
		assert.Equal(t, [4]string{"7", "B2", "Wren", WeekOf(grafted, chicago)}, [4]string{tr.Breeder, tr.Builder, tr.Grafter, tr.Week})
		assert.False(t, tr.Implied)
	}
	assert.Equal(t, [][3]int{{0, 38, 45}, {1, 36, 38}, {2, 31, 34}, {3, 27, 31}}, got, "two cells left over are no loss")
}

// Accepted was not counted: of the 9 lost between graft and sealing, at published
// rates p and q a share (1-p)/(1-pq) was lost first.
func TestTrialsFillInWhatWasNotCounted(t *testing.T) {
	n, capped := 45, 36
	b := Batch{Number: 1, Grafted: grafted, Counts: Counts{Grafted: &n, Capped: &capped}}
	trials := TrialsOf(b, nil, chicago)
	require.Len(t, trials, 2)
	p, q := Published[0].mean(), Published[1].mean()
	want := 45 - int(math.Round(9*(1-p)/(1-p*q)))
	assert.Equal(t, []Trial{
		{Stage: StageAccepted, Of: 45, Got: want, Batch: 1, Week: trials[0].Week, Implied: true},
		{Stage: StageCapped, Of: want, Got: 36, Batch: 1, Week: trials[0].Week, Implied: true},
	}, trials)
	none := 0
	b = Batch{Grafted: grafted, Counts: Counts{Emerged: &n, Laying: &none}}
	assert.Empty(t, TrialsOf(b, nil, chicago), "none laying at a first look is not yet a count")
	b.Ended = true
	assert.Len(t, TrialsOf(b, nil, chicago), 1)
}

func TestTrialsAlwaysHoldTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var c Counts
		for _, p := range []**int{&c.Grafted, &c.Accepted, &c.Capped, &c.Moved, &c.Emerged, &c.Laying, &c.Caught} {
			if rapid.Bool().Draw(t, "has") {
				n := rapid.IntRange(0, 80).Draw(t, "n")
				*p = &n
			}
		}
		seen := map[Stage]bool{}
		for _, tr := range TrialsOf(Batch{Grafted: grafted, Counts: c, Ended: rapid.Bool().Draw(t, "ended")}, nil, chicago) {
			assert.False(t, seen[tr.Stage], "a stage is counted once")
			seen[tr.Stage] = true
			assert.True(t, 0 <= tr.Got && tr.Got <= tr.Of, "%+v", tr)
		}
	})
}
