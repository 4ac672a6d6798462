package reading_test

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// data/common.txt holds the everyday words that lie one slip of the thumb from a word
// of the trade. A slip is read as the word it was meant to be, so each such word must
// be known to mean what it says. The word lists it is made of are not kept here: a
// folder that holds both writes it anew.
var lists = flag.String("lists", "", "folder with american-english-small (SCOWL) and spanish.json (an-array-of-spanish-words): write data/common.txt anew")

const (
	commonFile = "data/common.txt"
	shortest   = 4 // a shorter word is never taken for another
)

func TestCommonWords(t *testing.T) {
	known, trade := lexicons(t)
	if *lists != "" {
		writeCommon(t, known, trade)
	}
	words := commonWords(t)
	if len(words) < 10_000 {
		t.Fatalf("%s has %d words", commonFile, len(words))
	}
	if !slices.IsSorted(words) {
		t.Errorf("%s is not sorted", commonFile)
	}
	near := slipsOf(trade)
	for i, w := range words {
		switch {
		case known[w]:
			t.Errorf("%s: %q is a word of a lexicon: leave it out here", commonFile, w)
		case fold(w) != w || !isWord(w):
			t.Errorf("%s: %q is not folded", commonFile, w)
		case i > 0 && words[i-1] == w:
			t.Errorf("%s: %q stands twice", commonFile, w)
		case !near.near(w):
			t.Errorf("%s: %q is one slip from no word of the trade: write the file anew", commonFile, w)
		}
	}
}

// lexicons are all words of the languages, and those of the sections of the trade.
func lexicons(t *testing.T) (known, trade map[string]bool) {
	t.Helper()
	known, trade = map[string]bool{}, map[string]bool{}
	files, err := filepath.Glob("data/*.lex")
	if err != nil || len(files) < 2 {
		t.Fatalf("lexicons: %v %v", files, err)
	}
	for _, file := range files {
		ofTrade := false
		paradigms := map[string][]string{}
		for line := range lines(t, file) {
			if strings.HasPrefix(line, "# ---") {
				ofTrade = strings.HasPrefix(line, "# --- trade")
			}
			head, tail, found := strings.Cut(line, ": ")
			if !found || line[0] == '#' {
				continue
			}
			kind := strings.Fields(head)
			var phrases []string
			switch {
			case kind[0] == "paradigm":
				paradigms[kind[1]] = append(paradigms[kind[1]], strings.Fields(tail)...)
				continue
			case len(kind) == 3 && kind[1] == "verb":
				for _, stems := range strings.Split(tail, "|") {
					phrases = append(phrases, conjugate(strings.TrimSpace(stems), paradigms[kind[2]])...)
				}
			default:
				phrases = strings.Split(tail, "|")
			}
			for _, p := range phrases {
				ws := strings.Fields(fold(p))
				for _, w := range ws {
					known[w] = true
				}
				if ofTrade && len(ws) == 1 && len(ws[0]) >= shortest && isWord(ws[0]) {
					trade[ws[0]] = true
				}
			}
		}
	}
	return known, trade
}

// conjugate puts endings on a stem; "*" is its second form, where it has one.
func conjugate(stems string, endings []string) (forms []string) {
	stem, second, two := strings.Cut(stems, "/")
	if !two {
		second = stem
	}
	for _, e := range endings {
		on := stem
		if cut, ok := strings.CutPrefix(e, "*"); ok {
			on, e = second, cut
		}
		forms = append(forms, on+strings.TrimPrefix(e, "-"))
	}
	return forms
}

// slips finds the words that another may be a slip of, by what is left of them without
// one letter: two words within one slip of each other share such a rest.
type slips map[string][]string

func slipsOf(words map[string]bool) slips {
	s := slips{}
	for w := range words {
		for rest := range rests(w) {
			s[rest] = append(s[rest], w)
		}
	}
	return s
}

func (s slips) near(w string) bool {
	for rest := range rests(w) {
		if slices.ContainsFunc(s[rest], func(of string) bool { return oneSlip(w, of) }) {
			return true
		}
	}
	return false
}

// rests are a word and what is left of it without any one of its letters.
func rests(w string) func(func(string) bool) {
	return func(yield func(string) bool) {
		if !yield(w) {
			return
		}
		for i := range len(w) {
			if (i == 0 || w[i] != w[i-1]) && !yield(w[:i]+w[i+1:]) {
				return
			}
		}
	}
}

// oneSlip reports whether a word is another with a letter more, less or another, or with
// two neighbours changed round.
func oneSlip(a, b string) bool {
	if len(a) < len(b) {
		a, b = b, a
	}
	i := 0
	for i < len(b) && a[i] == b[i] {
		i++
	}
	switch {
	case len(a) > len(b)+1 || a == b:
		return false
	case len(a) > len(b):
		return a[i+1:] == b[i:]
	}
	return a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

// commonWords are the words of data/common.txt.
func commonWords(t *testing.T) (words []string) {
	for line := range lines(t, commonFile) {
		if line != "" && line[0] != '#' {
			words = append(words, line)
		}
	}
	return words
}

func lines(t *testing.T, file string) func(func(string) bool) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	return func(yield func(string) bool) {
		defer f.Close()
		for s := bufio.NewScanner(f); s.Scan(); {
			if !yield(strings.TrimSpace(s.Text())) {
				return
			}
		}
	}
}

// writeCommon writes data/common.txt of the lists, below the comments it has.
func writeCommon(t *testing.T, known, trade map[string]bool) {
	all := map[string]bool{}
	for w := range lines(t, filepath.Join(*lists, "american-english-small")) {
		all[fold(w)] = true
	}
	b, err := os.ReadFile(filepath.Join(*lists, "spanish.json"))
	if err != nil {
		t.Fatal(err)
	}
	var spanish []string
	if err := json.Unmarshal(b, &spanish); err != nil {
		t.Fatal(err)
	}
	for _, w := range spanish {
		all[fold(w)] = true
	}
	near := slipsOf(trade)
	maps.DeleteFunc(all, func(w string, _ bool) bool { return known[w] || !isWord(w) || !near.near(w) })
	var out strings.Builder
	for line := range lines(t, commonFile) {
		if strings.HasPrefix(line, "#") {
			fmt.Fprintln(&out, line)
		}
	}
	for _, w := range slices.Sorted(maps.Keys(all)) {
		fmt.Fprintln(&out, w)
	}
	if err := os.WriteFile(commonFile, []byte(out.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// fold makes words comparable: small letters without accents.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r):
			return -1
		case r == '’' || r == '‘':
			return '\''
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(s))
}

func isWord(w string) bool {
	return w != "" && strings.Trim(w, "abcdefghijklmnopqrstuvwxyz") == ""
}
