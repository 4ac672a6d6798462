package reading

import (
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// table counts verdicts.
func table(lines []labelled, score func(l labelled) string) string {
	meant, talk := map[string]int{}, map[string]int{}
	nm, nt := 0, 0
	for _, l := range lines {
		if l.want == nil {
			continue
		}
		v := score(l)
		if l.talk {
			talk[v]++
			nt++
		} else {
			meant[v]++
			nm++
		}
	}
	pct := func(n, of int) string { return fmt.Sprintf("%.1f %%", 100*float64(n)/float64(max(of, 1))) }
	return fmt.Sprintf("meant %d: right %s, right or one tap %s, silent %s (noticed %s), asked %s, wrong %d, bad tap %d, maybe %d; talk %d: left alone %s, noticed %d, spoke %d, wrong %d",
		nm, pct(meant["right"], nm), pct(meant["right"]+meant["tap"], nm), pct(meant["silent"], nm), pct(meant["noticed"], nm), pct(meant["asked"], nm), meant["wrong"], meant["badtap"], meant["maybe"],
		nt, pct(talk["right"], nt), talk["noticed"], talk["spoke"], talk["wrong"])
}

// TestScore prints the table of a file of lines in the situations: YARDBELL_LINES, else
// the project's own.
func TestScore(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	file := os.Getenv("YARDBELL_LINES")
	known := knownFiles(t)
	var lines []labelled
	switch file {
	case "":
		lines = situationLines(t, filepath.Join(utterances, "situations/lines.tsv"), "situations", known)
	case "contexts":
		for _, f := range []string{"en.tsv", "es.tsv"} {
			lines = append(lines, contextLines(t, filepath.Join(utterances, f), known)...)
		}
	default:
		lines = situationLines(t, file, "unseen", known)
	}
	verbose := os.Getenv("YARDBELL_VERBOSE")
	var misses []string
	t.Log(table(lines, func(l labelled) string {
		res := r.Read(l.text, l.known)
		v := verdict(l, res)
		if v != "right" && verbose != "" && (verbose == "1" || strings.Contains(verbose, v)) {
			misses = append(misses, fmt.Sprintf("%-7s %s %q\n        want %s\n        got %s %s others %s doubts %v unread %v talk %.2f\n        %s", v, l.at, l.text, spellWant(l.want), res.Outcome, spellActs(res.Acts), spellOthers(res.Others), res.Doubts, res.Unread, res.Talk, spellWhy(res.Why)))
		}
		return v
	}))
	sort.Strings(misses)
	for _, m := range misses {
		fmt.Println(m)
	}
}

func spellWhy(ps []Piece) string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Words+"="+p.As)
	}
	return strings.Join(out, " | ")
}

func spellOthers(o [][]Act) string {
	var out []string
	for _, a := range o {
		out = append(out, spellActs(a))
	}
	return strings.Join(out, " / ")
}

func spellActs(acts []Act) string {
	var out []string
	for _, a := range acts {
		s := string(a.Kind) + " " + string(a.Step)
		if a.Batch != 0 {
			s += fmt.Sprintf(" batch %d", a.Batch)
		}
		if a.Breeder != 0 {
			s += fmt.Sprintf(" breeder %d", a.Breeder)
		}
		s += " " + a.Builder + " " + a.Yard
		if a.Count != nil {
			s += fmt.Sprintf(" n=%d", *a.Count)
		}
		if a.Mark != "" {
			s += " " + a.Mark
		}
		if a.Topic != "" {
			s += " ?" + string(a.Topic)
		}
		out = append(out, strings.Join(strings.Fields(s), " "))
	}
	return "[" + strings.Join(out, "; ") + "]"
}

func spellWant(alts [][]want) string {
	var out []string
	for _, ws := range alts {
		var one []string
		for _, w := range ws {
			s := w.action + " " + w.step + " " + w.subject
			if w.count != nil {
				s += fmt.Sprintf(" n=%d", *w.count)
			}
			one = append(one, strings.TrimSpace(s+" "+w.into+" "+w.mark))
		}
		out = append(out, strings.Join(one, "; "))
	}
	return strings.Join(out, " || ")
}
