package rules

import "math"

// chain gives the law of what comes of a batch. Given the season's rates and
// over-dispersions, each stage is a beta-binomial of what the stage before left,
// and the law of the last count is their composition, added up exactly count by
// count. What is not known of the rates is common to all batches of an order, so
// it must not be averaged batch by batch: it is carried by points, each one
// possible state of the season, and only the finished chance is averaged over
// them.
//
// The points are a lattice of Korobov's kind, folded like a tent so that both ends
// meet (Niederreiter 1992, Random Number Generation and Quasi-Monte Carlo Methods,
// ch. 5, from memory): the same each time, and far more even than chance.
type chain struct {
	points [][Stages]BetaBin
	memo   map[leg][][]float64
	mixed  map[leg][]float64
	cum    [Stages][][]inverse // what counts are drawn from: see cumulative
	spread map[int][][]uint16  // see places
}

// leg is a way of a batch: n at the count before stage from, through stage to,
// with nucs for no more than room of what enters StageEmerged.
type leg struct {
	n, room  int
	from, to Stage
}

// noRoom stands for a leg that no number of nucs limits.
const noRoom = 1 << 30

// seasonPoints is how many states of the season carry what is not known, and
// korobov the generator that spreads so many most evenly (least P2 figure, the
// over-dispersions weighing a twentieth of the means). With them chances agree
// with those of drawn seasons to a percent, which a test holds.
const (
	seasonPoints = 256
	korobov      = 39
)

func newChain(y Yields) *chain {
	c := &chain{memo: map[leg][][]float64{}, mixed: map[leg][]float64{}, spread: map[int][][]uint16{}}
	n := 1
	for _, s := range y.Stage {
		if len(s.nodes) > 1 {
			n = seasonPoints
		}
	}
	c.points = make([][Stages]BetaBin, n)
	for i := range c.points {
		var u [2 * Stages]float64
		at := i
		for d := range u {
			_, x := math.Modf((float64(at) + 0.25) / float64(n))
			u[d] = 1 - math.Abs(2*x-1)
			at = at * korobov % n
		}
		for g := range y.Stage {
			c.points[i][g] = y.Stage[g].quantile.draw(u[g], u[Stages+g])
		}
	}
	return c
}

// law is the chance of each final count for each point. It is remembered: an
// order's batches are mostly of the same few sizes.
func (c *chain) law(l leg) [][]float64 {
	if out, ok := c.memo[l]; ok {
		return out
	}
	out := make([][]float64, len(c.points))
	one := make([]float64, l.n+1)
	for i, p := range c.points {
		now := make([]float64, l.n+1)
		now[l.n] = 1
		for g := l.from; g <= l.to; g++ {
			if g == StageEmerged && l.room < l.n {
				// Cells beyond the nucs go nowhere.
				for k := l.room + 1; k <= l.n; k++ {
					now[l.room] += now[k]
					now[k] = 0
				}
			}
			next := make([]float64, l.n+1)
			alpha, beta := p[g].shapes()
			for m, w := range now {
				if w < nothing {
					continue
				}
				betaBinInto(one[:m+1], alpha, beta)
				for k, v := range one[:m+1] {
					next[k] += w * v
				}
			}
			now = next
		}
		last := len(now) - 1
		for last > 0 && now[last] == 0 {
			last--
		}
		out[i] = now[:last+1]
	}
	c.memo[l] = out
	return out
}

// total is the chance of each sum up to want for each point; the last entry is
// the chance of want or more.
type total [][]float64

// nothing is a chance that no plan depends on: the sum of all that are left out
// stays below a billionth.
const nothing = 1e-13

// certain is the sum before any batch, from counts that can no longer change.
func (c *chain) certain(have, want int) total {
	t := make(total, len(c.points))
	for i := range t {
		t[i] = make([]float64, want+1)
		t[i][min(have, want)] = 1
	}
	return t
}

// plus is the sum with one more batch.
func (t total) plus(law [][]float64) total {
	out := make(total, len(t))
	for i, sum := range t {
		want := len(sum) - 1
		next := make([]float64, want+1)
		p := law[i]
		lo := 0 // most of the law's ends are next to nothing
		for lo < len(p)-1 && p[lo] < nothing {
			lo++
		}
		hi := len(p)
		for hi > lo+1 && p[hi-1] < nothing {
			hi--
		}
		for a, w := range sum {
			if w < nothing {
				continue
			}
			b := lo
			if end := min(hi, want-a); end > lo {
				to := next[a+lo : a+end]
				for j, v := range p[lo:end] {
					to[j] += w * v
				}
				b = end
			}
			for _, v := range p[b:hi] {
				next[want] += w * v
			}
		}
		out[i] = next
	}
	return out
}

// chance is that of the wanted number or more.
func (t total) chance() float64 {
	var sum float64
	for _, p := range t {
		sum += p[len(p)-1]
	}
	return clamp(sum/float64(len(t)), 0, 1)
}

// tails are the chances, for each point, of that many or more up to the wanted
// number.
type tails [][]float64

func (t total) tails() tails {
	out := make(tails, len(t))
	for i, p := range t {
		out[i] = make([]float64, len(p))
		sum := 0.0
		for k := len(p) - 1; k >= 0; k-- {
			sum += p[k]
			out[i][k] = sum
		}
	}
	return out
}

// with is the chance of the wanted number with one more batch, without making
// the sum.
func (t tails) with(law [][]float64) float64 {
	var sum float64
	for i, tail := range t {
		want := len(tail) - 1
		for b, v := range law[i] {
			sum += v * tail[max(0, want-b)]
		}
	}
	return clamp(sum/float64(len(t)), 0, 1)
}

// mix is the law of a leg's end over all points.
func (c *chain) mix(l leg) []float64 {
	if pmf, ok := c.mixed[l]; ok {
		return pmf
	}
	laws := c.law(l)
	pmf := make([]float64, l.n+1)
	for _, p := range laws {
		for k, v := range p {
			pmf[k] += v / float64(len(laws))
		}
	}
	c.mixed[l] = pmf
	return pmf
}

// mean is the expected number at the end of a leg.
func (c *chain) mean(l leg) float64 {
	var sum float64
	for k, v := range c.mix(l) {
		sum += float64(k) * v
	}
	return sum
}

// upper is the count at the end of a leg that is not exceeded with the chance level.
func (c *chain) upper(l leg, level float64) int { return quantileOf(c.mix(l), level) }
