package reading

import (
	"bufio"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

const (
	// trueSlips are the slips that are another true message by themselves, each with its
	// reason: nothing tells that they were meant otherwise.
	trueSlips     = "testdata/true-slips.tsv"
	mostTrueSlips = 50
	// sampledSlips is how many slips a normal run reads.
	sampledSlips = 20_000
	slipSeed     = 11
)

// allLines are all labelled lines, each said once in its situation.
func allLines(t testing.TB) (out []labelled) {
	known := knownFiles(t)
	lines := situationLines(t, filepath.Join(utterances, "situations/lines.tsv"), "situations", known)
	for _, f := range []string{"en.tsv", "es.tsv"} {
		lines = append(lines, contextLines(t, filepath.Join(utterances, f), known)...)
	}
	seen := map[string]bool{}
	for _, l := range lines {
		k := fmt.Sprintf("%s\x00%+v", l.text, l.known)
		if !seen[k] {
			seen[k] = true
			out = append(out, l)
		}
	}
	return out
}

const alphabet = "abcdefghijklmnopqrstuvwxyz"

// slipsOf calls yield with every message that one slip makes of a text: a letter left out,
// one too many, another one, two neighbours swapped. Figures are never touched: of another
// number nobody can tell.
func slipsOf(text string, yield func(string)) {
	rs := []rune(text)
	put := func(parts ...[]rune) {
		var b strings.Builder
		for _, p := range parts {
			b.WriteString(string(p))
		}
		if s := b.String(); s != text {
			yield(s)
		}
	}
	for i, r := range rs {
		if !unicode.IsLetter(r) {
			continue
		}
		put(rs[:i], rs[i+1:])
		for _, c := range alphabet {
			put(rs[:i], []rune{c}, rs[i:])
			if c != unicode.ToLower(r) {
				put(rs[:i], []rune{c}, rs[i+1:])
			}
		}
		if i+1 == len(rs) || !unicode.IsLetter(rs[i+1]) {
			for _, c := range alphabet {
				put(rs[:i+1], []rune{c}, rs[i+1:])
			}
		}
		if i+1 < len(rs) && unicode.IsLetter(rs[i+1]) {
			put(rs[:i], []rune{rs[i+1], r}, rs[i+2:])
		}
	}
}

// loggedAmiss reports whether a result logs what the label does not ask for. What the log
// asks back about is not logged: no batch waits for the step, or the count is missing. Of
// a graft the builder may be missing: the answer asks for it.
func loggedAmiss(l labelled, r Result) bool {
	if v := verdict(l, r); v != "wrong" && v != "maybe" {
		return false
	}
	var left []Act
	asked := false
	for _, a := range r.Acts {
		if askedBack(a, l.known) {
			asked = true
			continue
		}
		asked = asked || a.Step == rules.Graft && a.Builder == ""
		left = append(left, a)
	}
	if len(left) == 0 {
		return false
	}
	if !asked {
		return true
	}
	for _, ws := range l.want {
		if within(left, ws, l.known) {
			return false
		}
	}
	return true
}

func askedBack(a Act, k Known) bool {
	if a.Kind != Did {
		return false
	}
	if counted[a.Step] && !countless[a.Step] && a.Count == nil && !a.All {
		return true
	}
	if a.Breeder != 0 && !k.isBreeder(a.Breeder) {
		return true
	}
	if inBuilder[a.Step] && a.Step != rules.Finish && a.Builder != "" && a.Batch != 0 {
		for _, o := range k.Open {
			if o.Batch == a.Batch && o.Builder != "" && o.Builder != a.Builder {
				return true // it is in another one
			}
		}
	}
	if !ofBatch[a.Step] || a.Batch != 0 {
		return false
	}
	for _, o := range k.Open {
		if o.Step == a.Step {
			return false
		}
	}
	return true
}

// within reports whether each of some acts is one of those that are wanted.
func within(acts []Act, ws []want, k Known) bool {
	taken := map[int]bool{}
	for _, a := range acts {
		found := false
		for i, w := range ws {
			if a.Step == rules.Graft && a.Builder == "" {
				w.into = ""
			}
			if !taken[i] && w.fits(a, k) {
				taken[i], found = true, true
				break
			}
		}
		if !found {
			return false
		}
	}
	return true
}

// slipCount is what became of slips.
type slipCount struct {
	total, right, tap, asked, silent, listed int
	wrong                                    []string
}

func (c *slipCount) add(o slipCount) {
	c.total, c.right, c.tap, c.asked, c.silent, c.listed = c.total+o.total, c.right+o.right, c.tap+o.tap, c.asked+o.asked, c.silent+o.silent, c.listed+o.listed
	c.wrong = append(c.wrong, o.wrong...)
}

// listedSlips reads the slips that are other true messages.
func listedSlips(t testing.TB) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	f, err := os.Open(trueSlips)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	n := 0
	for s := bufio.NewScanner(f); s.Scan(); {
		if s.Text() == "" || strings.HasPrefix(s.Text(), "# ") {
			continue
		}
		c := strings.Split(s.Text(), "\t")
		require.Len(t, c, 3, "%s: want line, slip, reason: %q", trueSlips, s.Text())
		require.NotEmpty(t, c[2])
		out[c[0]+"\t"+c[1]] = true
		n++
	}
	require.LessOrEqual(t, n, mostTrueSlips)
	return out
}

// mostWrongSlips is how many slips of the sample log what was not said as yet; none is due
// before the first reader goes. It may only be lowered.
const mostWrongSlips = 2

// TestSlips reads labelled lines with one slip of the thumb each. None may log what was
// not said. YARDBELL_MUTANTS=all reads every slip of every line, else a fixed sample.
func TestSlips(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	listed := listedSlips(t)
	all := os.Getenv("YARDBELL_MUTANTS") == "all"
	var lines []labelled
	amiss := 0
	for _, l := range allLines(t) {
		if loggedAmiss(l, r.Read(l.text, l.known)) {
			amiss++ // by itself, without any slip: held by the score
			continue
		}
		lines = append(lines, l)
	}
	sample := sampledSlips
	if n, err := strconv.Atoi(os.Getenv("YARDBELL_MUTANTS")); err == nil {
		sample = n
	}
	each := (sample + len(lines) - 1) / len(lines)
	if testing.Short() {
		each = 1
	}
	read := func(l labelled, n int) (c slipCount) {
		seen := map[string]bool{}
		var list []string
		slipsOf(l.text, func(s string) {
			if !seen[s] {
				seen[s] = true
				list = append(list, s)
			}
		})
		if !all {
			rng := rand.New(rand.NewSource(slipSeed + int64(n)))
			rng.Shuffle(len(list), func(i, k int) { list[i], list[k] = list[k], list[i] })
			list = list[:min(each, len(list))]
		}
		for _, s := range list {
			c.total++
			res := r.Read(s, l.known)
			amiss := loggedAmiss(l, res)
			switch v := verdict(l, res); {
			case amiss && (listed[l.text+"	"+s] || l.want[0][0].step == "add" && len(res.Acts) == 1 && res.Acts[0].Kind == Add):
				// What is added has a name of any letters: with a slip it is another true message.
				c.listed++
			case amiss:
				c.wrong = append(c.wrong, fmt.Sprintf("%s\t%s\t%s\twant %s\tgot %s\t%s", l.at, l.text, s, spellWant(l.want), spellActs(res.Acts), spellWhy(res.Why)))
			case v == "right":
				c.right++
			case v == "tap":
				c.tap++
			case v == "silent":
				c.silent++
			default:
				c.asked++
			}
		}
		return c
	}
	var total slipCount
	var mu sync.Mutex
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				c := read(lines[i], i)
				mu.Lock()
				total.add(c)
				mu.Unlock()
			}
		}()
	}
	for i := range lines {
		next <- i
	}
	close(next)
	wg.Wait()
	pct := func(n int) string { return fmt.Sprintf("%.1f %%", 100*float64(n)/float64(max(1, total.total))) }
	t.Logf("%d slips of %d lines (%d that log amiss without a slip left out): right %s, one tap %s, asked %s, silent %s, listed %d, wrong %d",
		total.total, len(lines), amiss, pct(total.right), pct(total.tap), pct(total.asked), pct(total.silent), total.listed, len(total.wrong))
	sort.Strings(total.wrong)
	if f := os.Getenv("YARDBELL_WRONG"); f != "" {
		require.NoError(t, os.WriteFile(f, []byte(strings.Join(total.wrong, "\n")+"\n"), 0o644))
	}
	for i, w := range total.wrong {
		if i == 60 {
			break
		}
		t.Log(w)
	}
	if len(lines) > 0 && os.Getenv("YARDBELL_MUTANTS") == "" {
		require.LessOrEqual(t, len(total.wrong), mostWrongSlips, "slips that log what was not said")
		return
	}
	require.Empty(t, len(total.wrong), "slips that log what was not said")
}
