package reading

import (
	"encoding/json"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var figures = regexp.MustCompile(`\d+`)

// FuzzRead reads anything in any situation: nothing panics, the same text gives the same
// result, acts pass their frames, and of what is logged every number stands in the acts.
func FuzzRead(f *testing.F) {
	r, err := Load(Data())
	require.NoError(f, err)
	known := knownFiles(f)
	names := sorted(keysOf(known))
	for i, l := range allLines(f) {
		if i%40 == 0 {
			f.Add(l.text, i)
		}
	}
	f.Add("moved 34 to North, fed B1 2l at 9:15, 38/45 in 3x15 bars of 4", 7)
	f.Add("0/0 99999999999 1.5 ½ ² ١٢ 7h7 25:61", 1)
	f.Fuzz(func(t *testing.T, text string, situation int) {
		if len(text) > 2000 {
			return
		}
		k := known[names[abs(situation%len(names))]]
		a := r.Read(text, k)
		require.Equal(t, spelledResult(t, a), spelledResult(t, r.Read(text, k)))
		lists := append([][]Act{a.Acts}, a.Others...)
		for _, acts := range lists {
			for _, act := range acts {
				require.NoError(t, r.Check(act), "%q", text)
			}
		}
		if a.Outcome != Log {
			return
		}
		require.NotEmpty(t, a.Acts)
		for _, act := range a.Acts {
			switch act.Kind {
			case Skip, Void, Claim, Later, Seen, Yes, No, Thanks:
				return // they hand the text on, or take no number
			}
			if commandKinds[act.Kind] {
				return // a row explains every word of it: FuzzCommand
			}
		}
		said := numbersOf(t, a.Acts, k)
		denied := 0
		for _, p := range a.Why {
			told := denied > 0 || p.As == string(eLost) || p.As == string(eAllBut) || p.As == string(eBars) // "3 flew off", "not 34"
			for _, w := range figures.FindAllString(p.Words, -1) {
				if n, err := strconv.Atoi(w); err == nil && told {
					said[n] = true
				}
			}
			if denied--; strings.Contains(p.As, "NEG") {
				denied = 2 // a word may stand between
			}
		}
		for _, w := range figures.FindAllString(text, -1) {
			n, err := strconv.Atoi(w)
			if err != nil || said[n] {
				continue
			}
			t.Fatalf("%q logs %s: where is %d?", text, spelledResult(t, a), n)
		}
	})
}

func keysOf(m map[string]Known) map[string]bool {
	out := map[string]bool{}
	for k := range m {
		out[k] = true
	}
	return out
}

func spelledResult(t *testing.T, r Result) string {
	b, err := json.Marshal(r)
	require.NoError(t, err)
	return string(b)
}

// numbersOf are the numbers that acts account for: their own, those that they were worked
// out from, and what is on record.
func numbersOf(t *testing.T, acts []Act, k Known) map[int]bool {
	out := map[int]bool{}
	for _, a := range acts {
		b, err := json.Marshal(a)
		require.NoError(t, err)
		for _, w := range figures.FindAllString(string(b), -1) {
			n, err := strconv.Atoi(w)
			if err == nil {
				out[n] = true
			}
		}
		if a.When != nil {
			if c := a.When.Clock; c != nil {
				for _, h := range []int{*c / 60, *c/60 + 1, *c / 60 % 12, *c % 60, 60 - *c%60, *c/60*100 + *c%60} {
					out[h] = true
				}
			}
			m := int(a.When.Ago.Minutes())
			out[m], out[m/60] = true, true
			if d := a.When.Day; d != nil {
				out[-*d], out[-*d/7] = true, true
			}
		}
		for _, o := range k.Open {
			if a.Count != nil && o.Had > 0 {
				out[o.Had], out[o.Had-*a.Count] = true, true // "all 36", "38, 7 dead"
				for _, n := range o.Yards {
					out[n-*a.Count] = true
				}
			}
		}
		if last := k.Last; a.Kind == Amend && last != nil && last.Act.Count != nil {
			out[*last.Act.Count] = true // "45 B1": the count that it keeps
		}
		if a.AgeLo != nil {
			out[int(*a.AgeLo/24)] = true
		}
	}
	for _, name := range append(append([]string{}, k.Builders...), k.Yards...) {
		for _, w := range figures.FindAllString(name, -1) {
			n, _ := strconv.Atoi(w)
			for _, a := range acts {
				if strings.Contains(a.Builder+a.Yard, name) {
					out[n] = true
				}
			}
		}
	}
	return out
}
