package reading

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/optimize"
)

var updateWeights = flag.Bool("update-weights", false, "fit the weights of the ranker anew")

// fewest is how many examples a class needs for words of its own.
const fewest = 25

// fitSeed starts the draws of the words that are dropped while learning.
const fitSeed = 5

// neverLearnt are the sets that show what a fit is worth on lines that it has not seen.
var neverLearnt = map[string]bool{"held-3.tsv": true, "held-12.tsv": true, "held-13.tsv": true}

// trainingLines are all labelled lines there are to learn from.
func trainingLines(t testing.TB) (out []labelled) {
	known := knownFiles(t)
	for _, f := range []string{"en.tsv", "es.tsv"} {
		out = append(out, contextLines(t, filepath.Join(utterances, f), known)...)
	}
	for _, f := range []string{"en-core.tsv", "es-core.tsv"} {
		out = append(out, coreLines(t, filepath.Join(utterances, f))...)
	}
	if os.Getenv("YARDBELL_UNSEEN") == "" {
		out = append(out, situationLines(t, filepath.Join(utterances, "situations/lines.tsv"), "situations", known)...)
		sets, err := filepath.Glob(filepath.Join(utterances, "situations/unseen-*.tsv"))
		require.NoError(t, err)
		held, err := filepath.Glob(filepath.Join(utterances, "situations/held-*.tsv"))
		require.NoError(t, err)
		for _, f := range append(sets, held...) {
			if neverLearnt[filepath.Base(f)] {
				continue
			}
			out = append(out, situationLines(t, f, filepath.Base(f), known)...)
		}
	}
	return out
}

// example is one labelled line as the optimizer sees it.
type example struct {
	features []int32
	values   []float32
	shared   [][]float64 // of each step
	class    int
	weight   float64
}

// fit learns the weights.
func fit(r *Reader, lines []labelled, seed int64) *model {
	rng := rand.New(rand.NewSource(seed))
	var rows []map[string]float64
	var exs []example
	m := &model{classes: r.classes(), weights: map[string][]float32{}, seen: map[string][2]int{}}
	for _, l := range lines {
		if l.class == "" {
			continue
		}
		known := l.known
		lat := r.newLattice(l.text, &known)
		if len(lat.toks) == 0 {
			continue
		}
		items := lat.readings()[0]
		if l.class == classTalk && lat.moodOf(items).question {
			continue // between people or to the bot: the words do not tell
		}
		class := r.classOf(l.class)
		for i := range items {
			if items[i].word() {
				for _, w := range strings.Fields(items[i].text) {
					n := m.seen[w]
					if l.class == classTalk {
						n[1]++
					} else {
						n[0]++
					}
					m.seen[w] = n
				}
			}
		}
		put := func(drop map[string]bool, weight float64) {
			its := items
			if drop != nil {
				its = append([]item{}, items...)
				for i := range its {
					if its[i].word() && drop[its[i].text] {
						its[i].senses = nil
					}
				}
			}
			ev := r.licences(its, &known)
			f := lat.words(its, drop)
			lat.meet(f, ev, its)
			ex := example{class: class, weight: weight}
			for i, fr := range r.frames.list {
				ex.shared = append(ex.shared, lat.fitOf(i, its, ev, lat.fill(fr.step, its)))
			}
			rows = append(rows, f)
			exs = append(exs, ex)
		}
		put(nil, 1)
		// The same line with its telling words dropped at random: a ranker that trusts
		// words alone logs three times as much amiss.
		telling := map[string]bool{}
		words := 0
		for i := range items {
			it := &items[i]
			if !it.word() {
				continue
			}
			words++
			for _, s := range it.senses {
				if r.frames.trade[s.concept] || r.frames.strong[s.concept] {
					telling[it.text] = true
				}
			}
		}
		if len(telling) > 0 && words > len(telling) {
			drop := map[string]bool{}
			var names []string
			for w := range telling {
				names = append(names, w)
			}
			sort.Strings(names)
			for _, w := range names {
				if rng.Float64() < 0.7 {
					drop[w] = true
				}
			}
			if len(drop) == 0 {
				drop = telling
			}
			put(drop, 0.5)
		}
	}
	count := map[string]int{}
	for _, f := range rows {
		for k := range f {
			count[k]++
		}
	}
	var names []string
	for k, n := range count {
		if n >= 2 {
			names = append(names, k)
		}
	}
	sort.Strings(names)
	at := map[string]int32{}
	for i, k := range names {
		at[k] = int32(i)
	}
	for i, f := range rows {
		var ks []string
		for k := range f {
			if _, ok := at[k]; ok {
				ks = append(ks, k)
			}
		}
		sort.Strings(ks)
		for _, k := range ks {
			exs[i].features = append(exs[i].features, at[k])
			exs[i].values = append(exs[i].values, float32(f[k]))
		}
	}
	nc, ns, nf := len(m.classes), len(sharedNames), len(names)
	// A class with few examples goes by what all steps share: words would only speak
	// against it.
	few := make([]bool, nc)
	for c := range few {
		n := 0
		for i := range exs {
			if exs[i].class == c {
				n++
			}
		}
		few[c] = n < fewest
	}
	const ridge, sharedRidge = 0.3, 0.02
	z, p := make([]float64, nc), make([]float64, nc)
	score := func(th []float64, ex *example) {
		for k := range z {
			z[k] = 0
		}
		for j, f := range ex.features {
			v := float64(ex.values[j])
			row := th[int(f)*nc : int(f)*nc+nc]
			for k, w := range row {
				z[k] += v * w
			}
		}
		for k, s := range ex.shared {
			for q, v := range s {
				if v != 0 {
					z[k] += v * th[nf*nc+q]
				}
			}
		}
		top := z[0]
		for _, v := range z {
			top = math.Max(top, v)
		}
		sum := 0.0
		for k, v := range z {
			p[k] = math.Exp(v - top)
			sum += p[k]
		}
		for k := range p {
			p[k] /= sum
		}
	}
	problem := optimize.Problem{
		Func: func(th []float64) float64 {
			loss := 0.0
			for i := range exs {
				score(th, &exs[i])
				loss -= exs[i].weight * math.Log(p[exs[i].class]+1e-12)
			}
			for i, w := range th {
				if i < nf*nc {
					loss += ridge / 2 * w * w
				} else {
					loss += sharedRidge / 2 * w * w
				}
			}
			return loss
		},
		Grad: func(g, th []float64) {
			for i, w := range th {
				if i < nf*nc {
					g[i] = ridge * w
				} else {
					g[i] = sharedRidge * w
				}
			}
			for i := range exs {
				ex := &exs[i]
				score(th, ex)
				p[ex.class]--
				for j, f := range ex.features {
					v := float64(ex.values[j]) * ex.weight
					row := g[int(f)*nc : int(f)*nc+nc]
					for k, d := range p {
						if !few[k] {
							row[k] += v * d
						}
					}
				}
				for k, s := range ex.shared {
					d := p[k] * ex.weight
					for q, v := range s {
						if v != 0 {
							g[nf*nc+q] += d * v
						}
					}
				}
			}
		},
	}
	start := make([]float64, nf*nc+ns)
	res, err := optimize.Minimize(problem, start, &optimize.Settings{MajorIterations: 80, GradientThreshold: 1e-3}, &optimize.LBFGS{Store: 10})
	if err != nil && res == nil {
		panic(err)
	}
	th := res.X
	for i, k := range names {
		row := make([]float32, nc)
		keep := false
		for c := range row {
			w := math.Round(th[i*nc+c]*1000) / 1000
			if math.Abs(w) >= 0.02 {
				row[c] = float32(w)
				keep = true
			}
		}
		if keep {
			m.weights[k] = row
		}
	}
	for q := 0; q < ns; q++ {
		m.shared = append(m.shared, math.Round(th[nf*nc+q]*1000)/1000)
	}
	m.head = fitHead{Seed: seed, Rows: len(exs), Classes: m.classes, Shared: m.shared}
	return m
}

// spell writes weights.txt.
func (m *model) spell() []byte {
	var b bytes.Buffer
	head, _ := json.Marshal(m.head)
	b.Write(head)
	b.WriteByte('\n')
	var names []string
	for k := range m.weights {
		names = append(names, k)
	}
	sort.Strings(names)
	for _, k := range names {
		b.WriteString(k)
		for c, w := range m.weights[k] {
			if w != 0 {
				b.WriteString("\t" + strconv.Itoa(c) + ":" + strconv.Itoa(int(math.Round(float64(w)*1000))))
			}
		}
		b.WriteByte('\n')
	}
	names = names[:0]
	for k := range m.seen {
		names = append(names, k)
	}
	sort.Strings(names)
	for _, k := range names {
		fmt.Fprintf(&b, "seen\t%s\t%d\t%d\n", k, m.seen[k][0], m.seen[k][1])
	}
	return b.Bytes()
}

// inputHash names what the weights were learnt from.
func inputHash(lines []labelled) string {
	h := sha256.New()
	add := func(name string, b []byte) { fmt.Fprintf(h, "%s %d\n", name, len(b)); _, _ = h.Write(b) }
	for _, l := range lines {
		add(l.at, []byte(l.text+"\t"+l.class))
	}
	return fmt.Sprintf("%x", h.Sum(nil))[:16]
}

// TestWeights holds that the weights were fitted to the labelled lines as they stand; a phrase
// that is added fits nothing. With YARDBELL_FIT=1 they are fitted again and compared: where the
// first choice of more lines than a few differs, the lexicons have moved away from them.
func TestWeights(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	lines := trainingLines(t)
	again := os.Getenv("YARDBELL_FIT") != ""
	if !*updateWeights && !again {
		require.Equal(t, inputHash(lines), r.model.head.Input, "the labelled lines changed: fit the weights again, in a commit of its own")
		return
	}
	m := fit(r, lines, fitSeed)
	m.head.Input = inputHash(lines)
	fresh := *r
	fresh.model = m
	same, all := 0, 0
	for _, l := range lines {
		if l.class == "" {
			continue
		}
		k := l.known
		if a, b := r.firstChoice(l.text, k), fresh.firstChoice(l.text, k); a == b {
			same++
		}
		all++
	}
	t.Logf("%d examples, %d features, shared %v; the first choice is as it was in %.2f %% of %d lines", m.head.Rows, len(m.weights), pairsOf(m.shared), 100*float64(same)/float64(all), all)
	if again {
		require.Equal(t, m.head.Input, r.model.head.Input)
		require.Equal(t, m.head.Seed, r.model.head.Seed)
		require.GreaterOrEqual(t, 100*same, 98*all, "the weights are not those that the lines give")
		return
	}
	require.NoError(t, os.WriteFile(filepath.Join("data", weightsFile), m.spell(), 0o644))
}

// firstChoice is what the ranker holds likeliest of a message.
func (r *Reader) firstChoice(text string, k Known) int {
	l := r.newLattice(text, &k)
	if len(l.toks) == 0 {
		return -1
	}
	top, _ := l.rank(l.readings()[0]).top()
	return top
}

func pairsOf(shared []float64) string {
	var b strings.Builder
	for i, w := range shared {
		fmt.Fprintf(&b, "%s %.2f, ", sharedNames[i], w)
	}
	return b.String()
}

// A step that is added needs no new fit: the weights belong to names, so that another place in
// the list of steps changes nothing of what the rest are held for.
func TestNewStepNeedsNoFit(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	frames, err := fs.ReadFile(Data(), "frames.txt")
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "frames.txt")
	first := strings.Index(string(frames), "\nstep ") + 1
	require.NoError(t, os.WriteFile(path, []byte(string(frames[:first])+"unbuilt polish\n  slots builder\n  log DISEASE COMBINE\n"+string(frames[first:])), 0o600))
	more, err := Load(overlay{FS: Data(), name: "frames.txt", path: path})
	require.NoError(t, err)
	require.Equal(t, "polish", more.classes()[0])
	for _, l := range trainingLines(t)[:1000] {
		if i := r.firstChoice(l.text, l.known); i >= 0 {
			require.Equal(t, r.classes()[i], more.classes()[more.firstChoice(l.text, l.known)], l.text)
		}
	}
}
