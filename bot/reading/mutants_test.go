package reading

import (
	"bufio"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
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
	// sampledSlips is how many slips are read where all tests run, fewerSlips else.
	sampledSlips = 20_000
	fewerSlips   = 4_000
	slipSeed     = 11
)

// allLines are all labelled lines, each said once in its situation.
func allLines(t testing.TB) []labelled {
	known := knownFiles(t)
	lines := situationLines(t, filepath.Join(utterances, "situations/lines.tsv"), "situations", known)
	for _, f := range []string{"en.tsv", "es.tsv"} {
		lines = append(lines, contextLines(t, filepath.Join(utterances, f), known)...)
	}
	return once(lines)
}

// slippedLines are the lines of which slips are read: all that are labelled.
func slippedLines(t testing.TB) []labelled {
	known := knownFiles(t)
	lines := allLines(t)
	sets, err := filepath.Glob(filepath.Join(utterances, "situations/unseen-*.tsv"))
	require.NoError(t, err)
	for _, f := range sets {
		lines = append(lines, situationLines(t, f, filepath.Base(f), known)...)
	}
	for _, f := range []string{"en-core.tsv", "es-core.tsv"} {
		lines = append(lines, readingLines(t, filepath.Join(utterances, f))...)
	}
	return once(lines)
}

// once leaves out lines that stand among others in the same situation.
func once(lines []labelled) (out []labelled) {
	seen := map[string]bool{}
	for _, l := range lines {
		b, err := json.Marshal(l.known)
		if err != nil {
			panic(err) // it was read from JSON
		}
		k := l.text + "\x00" + string(b)
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

func batchKnown(n int, k Known) bool {
	for _, o := range k.Open {
		if o.Batch == n {
			return true
		}
	}
	for _, b := range k.Holds {
		if b == n {
			return true
		}
	}
	return k.Reply != nil && k.Reply.Batch == n || k.Last != nil && k.Last.Act.Batch == n
}

func askedBack(a Act, k Known) bool {
	if a.Kind == Done && k.Reply == nil && len(k.Open) == 0 {
		return true
	}
	if a.Kind == Amend && a.Old != nil && a.Count != nil {
		last := k.Last // a line with the old number is looked for
		return last == nil || last.Act.Count == nil || *last.Act.Count != *a.Old
	}
	if a.Kind != Did {
		return false
	}
	if counted[a.Step] && !countless[a.Step] && a.Count == nil && !a.All {
		return true
	}
	if a.Breeder != 0 && !k.isBreeder(a.Breeder) {
		return true
	}
	if a.Batch != 0 && !batchKnown(a.Batch, k) {
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
		for _, slip := range strings.Split(c[1], "|") {
			out[fold(c[0])+"\t"+fold(slip)] = true
		}
		n++
	}
	require.LessOrEqual(t, n, mostTrueSlips)
	return out
}
