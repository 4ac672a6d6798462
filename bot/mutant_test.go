package bot

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mostMutants is how many slips of the labelled lines are tried, drawn anew whenever a
// line is added; with YARDBELL_MUTANTS=all each of the nearly half a million is.
var mostMutants = 20000

// meantMutants are slips that make another plain message of a line: nobody could
// tell them from one that was meant.
var meantMutants = map[string]bool{
	"found rogue cell in B2, cut them out": true, // one cell
	"let 7 out and fed her":                true,
	"capped 36, one fat one":               true,
	" North":                               true, // an answer to which yard
}

// mutant is a line with one slip of the thumb in it.
type mutant struct {
	u    utterance
	text string
}

// mutants are all slips of the labelled lines, but those in names: another name is
// another message.
func mutants(us []utterance, g *stage) (out []mutant) {
	for _, u := range us {
		s, _ := g.scene(u)
		names := map[string]bool{}
		for _, list := range [][]string{s.n.builders, s.n.yards, {"Ash", "Wren", "Rowan"}} {
			for _, name := range list {
				for _, w := range splitSpace(fold(name)) {
					names[w] = true
				}
			}
		}
		for _, f := range strings.Fields(u.expected) { // a name that the line gives
			_, v, said := strings.Cut(f, "=")
			if said && !isDigits(v) {
				names[fold(v)] = true
			}
			if f[0] >= 'A' && f[0] <= 'Z' {
				names[fold(f)] = true
			}
		}
		if strange(line{text: u.text}) {
			continue
		}
		for _, text := range slipsOf(u.text) {
			if !meantMutants[text] && !slippedName(u.text, text, names) {
				out = append(out, mutant{u, text})
			}
		}
	}
	return out
}

// slippedName reports whether the slip lies in a name.
func slippedName(was, is string, names map[string]bool) bool {
	a, b := strings.Fields(was), strings.Fields(is)
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return names[strings.Trim(fold(a[i]), ",.:;!?'\"")]
		}
	}
	return false
}

// fingerprint is all that a reading gives to act on, field by field. Of the words
// that were not read their number decides, never which they are.
func fingerprint(m many) string {
	one := func(r *reading) string {
		if r == nil {
			return "-"
		}
		return fmt.Sprint(shown(r), len(r.rest), r.addressed, r.courtesy, r.soft, r.question, r.negated, r.hedged, r.digits, r.lang, r.value, r.when)
	}
	out := fmt.Sprint(one(m.whole), "|", m.rest != "", m.sum)
	for _, p := range m.parts {
		out += fmt.Sprint("|", one(p.r), p.carried, p.comma)
	}
	if m.mend != nil {
		out += fmt.Sprint("|", one(m.mend.now), one(m.mend.was), deref(m.mend.old))
	}
	return out
}

// quiet reports whether a reading is of talk that the bot leaves alone.
func quiet(m many) bool {
	r := m.whole
	return r.verb == noVerb && r.soft == "" && !r.addressed && len(r.rest) > 0 && len(m.parts) == 0 && m.mend == nil
}

// wordy are the verbs that look at the words themselves once more: a button's
// label, a thumb, a name.
var wordy = map[verb]bool{noVerb: true, sayYes: true, sayNo: true, doSkip: true, doSet: true}

// TestMutants tries slips of the thumb in the labelled lines. Each is read as what
// was meant, asked back or left alone: never is a wrong line logged. A slip that
// reads as one that was played, field by field, is not played again: it logs the
// same.
func TestMutants(t *testing.T) {
	if os.Getenv("YARDBELL_MUTANTS") == "all" {
		mostMutants = math.MaxInt
	}
	g := newStage(t)
	all := mutants(corpora(t), g)
	rng := rand.New(rand.NewPCG(20310505, 7))
	rng.Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	played := map[string]ending{}
	score := map[string]int{}
	for _, m := range all[:min(len(all), mostMutants)] {
		s, reply := g.scene(m.u)
		is := s.reading(m.text, reply != 0)
		key := fmt.Sprint(m.u.file, m.u.context, m.u.who, reply, fingerprint(is))
		if wordy[is.whole.verb] {
			key += m.text
		}
		o, had := played[key]
		switch {
		case had:
		case quiet(is) && reply == 0:
			o.kind = "silence"
		default:
			var err error
			o, err = s.try(m.u.who, m.text, reply)
			require.NoError(t, err, m.text)
			played[key] = o
		}
		verdict := judge(m.u, o, s)
		score[verdict]++
		switch {
		case verdict == "wrong" && m.u.part == "held" && !*showHeld:
			t.Errorf("%s: a slip of a held line of class %q is logged wrong", m.u.file, m.u.class())
		case verdict == "wrong":
			t.Errorf("%s:%d: %s: %q, a slip of %q: WRONG %s, want %s", m.u.file, m.u.line, m.u.context, m.text, m.u.text, spelled(o, s), m.u.expected)
		}
	}
	t.Logf("%d slips of %d tried, %d ways to read them played: %s", min(len(all), mostMutants), len(all), len(played), totals(score))
}
