package reading

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// kinRead is how many slips of a kin are read; all, where they do not come to the same.
const kinRead = 2

// kinship is what became of the slips of one kin so far.
type kinship struct {
	n            int
	verdict      string
	alike, amiss bool
}

func (k *kinship) see(verdict string, amiss bool) {
	k.alike = k.n == 0 || k.alike && k.verdict == verdict
	k.n, k.verdict, k.amiss = k.n+1, verdict, k.amiss || amiss
}

// slipKin tells which slips nothing in the data tells apart: the same word of a line became
// one that no list has and that is near the same words. The learnt ranker may see a
// difference, so some of each kin are read.
type slipKin struct {
	r     *Reader
	words map[string]bool // of all lists
	off   bool
}

func newSlipKin(r *Reader, off bool) *slipKin {
	k := &slipKin{r: r, words: map[string]bool{}, off: off}
	put := func(text string) {
		for _, w := range tokenize(text) {
			k.words[w.text] = true
		}
	}
	for w := range r.lex.words {
		put(w)
	}
	for w := range r.lex.same {
		put(w)
	}
	for w, list := range r.lex.commandPhrases {
		put(w)
		for _, p := range list {
			put(strings.Join(p.words, " "))
		}
	}
	if r.model != nil {
		for w := range r.model.seen {
			put(w)
		}
	}
	return k
}

// of gives the function that names the kin of a slip of a line; "" for one without any.
func (s *slipKin) of(l labelled) func(string) string {
	if s.off {
		return func(string) string { return "" }
	}
	own := tokenize(l.text)
	var names []string
	for _, list := range [][]string{l.known.Yards, l.known.Builders, l.known.Members, l.known.Former} {
		for _, n := range list {
			names = append(names, s.r.nameWords(n)...)
		}
	}
	return func(text string) string {
		toks := tokenize(text)
		if len(toks) != len(own) {
			return ""
		}
		at := -1
		for i := range toks {
			if toks[i].text != own[i].text || toks[i].name != own[i].name || toks[i].accent != own[i].accent {
				if at >= 0 {
					return ""
				}
				at = i
			}
		}
		if at < 0 {
			return ""
		}
		w := toks[at].text
		if len(w) < 2 || !letters(w) || s.words[w] || s.r.fullEnding(w) != w {
			return ""
		}
		for _, n := range names {
			if OneSlip(w, n) {
				return ""
			}
		}
		sl := s.r.lex.slips
		near, others := map[string]bool{}, map[string]bool{}
		sl.index.each(w, sl.near, func(c string) bool { near[c] = true; return false })
		sl.index.each(w, sl.others, func(c string) bool { others[c] = true; return false })
		return fmt.Sprint(at, min(len(w), 6), toks[at].name, toks[at].accent, s.r.lex.common[w], sl.candidates(w), sl.every(w), sorted(near), sorted(others), s.r.cmd.slips.candidates(w))
	}
}

// readingLines reads a file of lines with what they are read as (its head tells how). They
// have no situation.
func readingLines(t testing.TB, path string) (out []labelled) {
	known := Known{Breeders: []int{7, 12}, Builders: []string{"B1", "B2"}, Yards: []string{"North", "Creek Side"}, Members: []string{"Ash", "Wren", "Rowan"}, Language: "en"}
	if strings.HasPrefix(filepath.Base(path), "es") {
		known.Language = "es"
	}
	eachRow(t, path, func(n int, c []string) {
		if len(c) != 2 {
			return
		}
		l := labelled{at: filepath.Base(path) + ":" + strconv.Itoa(n), text: c[0], known: known}
		var ws []want
		for _, part := range strings.Split(c[1], ";") {
			ws = append(ws, readingWant(strings.Fields(part)))
		}
		l.want = [][]want{ws}
		out = append(out, l)
	})
	return out
}

// readingWant is what a reading asks for. What is not reported in words of its own is held
// against how the line itself is read.
func readingWant(fields []string) want {
	if len(fields) == 0 {
		return want{action: "silent"}
	}
	w := want{action: fields[0]}
	if s, ok := strings.CutPrefix(fields[0], "step="); ok {
		w.action, w.step = "did", s
		for _, f := range fields[1:] {
			key, v, _ := strings.Cut(f, "=")
			switch key {
			case "count":
				if n, err := strconv.Atoi(v); err == nil {
					w.count = &n
				}
			case "breeder":
				w.from = v
			case "yard", "builder":
				w.into = strings.ReplaceAll(v, "_", " ")
			case "mark":
				w.mark = v
			}
		}
		return w
	}
	switch w.action {
	case "mine", "later", "skip", "ask":
	case "undo":
		w.action = "void"
	case "fix":
		w.action = "amend"
	default:
		w.action = "silent"
	}
	return w
}
