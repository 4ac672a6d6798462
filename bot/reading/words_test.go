package reading

import (
	"go/ast"
	"go/parser"
	gotoken "go/token"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// vocabulary are the literals of the code that are names of the log, of slots and flags,
// and happen to be words as well.
var vocabulary = map[string]bool{"log": true, "ask": true, "about": true, "loose": true, "reply": true, "open": true, "step": true, "step ": true, "class": true, "class ": true, "group": true, "entity": true,
	"same": true, "verb": true, "language ": true, "near ": true, "done": true, "plan": true, "seen": true, "last": true, "ending": true}

// TestNoWordsInCode holds that what the reader knows of languages stands in data/: no
// literal of the code is a word or phrase of a lexicon, except names of the vocabulary
// that JSON, frames and labels share.
func TestNoWordsInCode(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	named := map[string]bool{} // captures of patterns, values of senses
	var walk func(elems []element)
	walk = func(elems []element) {
		for _, e := range elems {
			named[e.capture] = true
			for _, a := range e.alts {
				if a.group != nil && !named["<"+a.group.name] {
					named["<"+a.group.name] = true
					for _, row := range a.group.rows {
						walk(row)
					}
				}
			}
		}
	}
	for _, p := range r.patterns {
		walk(p.elems)
	}
	for _, list := range [][]commandRow{r.cmd.rows, r.cmd.unread, r.cmd.loose} {
		for _, row := range list {
			walk(row.elems)
			for _, k := range row.fixed {
				named[k.name], named[k.value] = true, true
			}
		}
	}
	for _, p := range r.lex.phrases {
		for _, s := range p.senses {
			named[s.value] = true
		}
	}
	n := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		set := gotoken.NewFileSet()
		file, err := parser.ParseFile(set, f.Name(), nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == gotoken.CONST {
				continue // the vocabulary: names of steps, kinds, slots, flags
			}
			ast.Inspect(d, func(x ast.Node) bool {
				if _, ok := x.(*ast.Field); ok {
					return false // tags
				}
				l, ok := x.(*ast.BasicLit)
				if !ok || l.Kind != gotoken.STRING {
					return true
				}
				s, err := strconv.Unquote(l.Value)
				require.NoError(t, err)
				n++
				words := phraseWords(s)
				if len(words) == 0 || s != fold(s) || len(s) < 3 || named[s] || vocabulary[s] || r.isName(s) {
					return true
				}
				if r.lex.phrases[strings.Join(words, " ")] != nil {
					t.Errorf("%s: %q is a word of a lexicon", set.Position(l.Pos()), s)
				}
				return true
			})
		}
	}
	require.Greater(t, n, 100)
}

// isName reports whether s is a name of the data's own vocabulary.
func (r *Reader) isName(s string) bool {
	if slotNames[s] || slotNeeds[s] != nil || entityKinds[entityKind(s)] {
		return true
	}
	for _, n := range sharedNames {
		if n == s {
			return true
		}
	}
	_, class := map[string]bool{"closed": true, "trade": true, "strong": true, "unit": true, "modal": true, "carries": true, "free": true, "noun": true, "hard": true}[s]
	_, step := r.frames.byStep[rules.Step(s)]
	return class || step
}
