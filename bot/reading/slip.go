package reading

import (
	"sort"
	"strings"
)

// slips finds the words of the lexicons that a misspelt word may stand for.
type slips struct {
	deletes map[string][]string // a word, and each word with one letter left out: the words it comes from
	sounds  map[string][]string
	closed  map[string]bool // words that must not be passed over: negation, plan, number …
	near    map[string][]string
	short   []string            // closed words of two letters
	others  map[string][]string // as deletes, of the words that a slip is never read into
}

// shortest is the length of a word that may be read through a slip. Shorter ones have too
// many neighbours.
const shortest = 4

func newSlips(l *lexicon, closedConcepts map[concept]bool, matters func(concept) bool) *slips {
	s := &slips{deletes: map[string][]string{}, sounds: map[string][]string{}, closed: map[string]bool{}, near: map[string][]string{}, others: map[string][]string{}}
	var all []string
	for w, p := range l.single {
		is := false
		for _, m := range p.senses {
			is = is || matters(m.concept)
		}
		switch {
		case is:
			all = append(all, w)
		case len(w) >= shortest-1 && letters(w):
			for _, d := range append(deletions(w), w) {
				s.others[d] = append(s.others[d], w)
			}
		}
	}
	sort.Strings(all)
	for _, w := range all {
		s.add(w)
	}
	within := map[string]bool{} // words of phrases of a closed class
	for _, list := range l.byFirst {
		for _, p := range list {
			for _, m := range p.senses {
				if closedConcepts[m.concept] {
					for _, w := range p.words {
						w = strings.ReplaceAll(w, "'", "")
						switch {
						case len(p.words) == 1 && len(w) >= 3:
							s.closed[w] = true
						case len(p.words) == 1 && len(w) == 2 && letters(w):
							s.short = append(s.short, w)
						case len(w) >= shortest+1:
							within[w] = true
						}
					}
				}
			}
		}
	}
	sort.Strings(s.short)
	near := map[string]bool{}
	for w, p := range l.single { // too short to be read through a slip, not to be passed over
		for _, m := range p.senses {
			if len(w) == shortest-1 && letters(w) && matters(m.concept) {
				near[w] = true
			}
		}
	}
	for w := range s.closed {
		near[w] = true
	}
	for w := range within {
		near[w] = true
	}
	for _, w := range sorted(near) {
		s.near[w] = append(s.near[w], w)
		for _, d := range deletions(w) {
			s.near[d] = append(s.near[d], w)
		}
	}
	return s
}

// add makes a word one that others may be slips of.
func (s *slips) add(w string) {
	if len(w) < shortest || !letters(w) {
		return
	}
	for _, d := range append(deletions(w), w) {
		s.deletes[d] = append(s.deletes[d], w)
	}
	k := sound(w)
	s.sounds[k] = append(s.sounds[k], w)
}

// candidates are the words one slip or an equal sound away from w, sorted.
func (s *slips) candidates(w string) []string {
	seen := map[string]bool{}
	for _, c := range s.sounds[sound(w)] {
		seen[c] = true
	}
	for _, d := range append(deletions(w), w) {
		for _, c := range s.deletes[d] {
			if oneSlip(w, c) && (c[0] == w[0] || len(c) > 1 && c[1] == w[min(1, len(w)-1)] || len(w) > 1 && c[0] == w[1] && c[1] == w[0]) {
				seen[c] = true
			}
		}
	}
	delete(seen, w)
	var out []string
	for c := range seen {
		out = append(out, c)
	}
	sort.Strings(out)
	return out
}

// every are all words one slip away from w, sorted: also those that a slip is not read
// into, since their first letters differ.
func (s *slips) every(w string) []string { return oneSlipFrom(s.deletes, w) }

// oneSlipFrom are the words of an index by deletions that are one slip away from w, sorted.
func oneSlipFrom(index map[string][]string, w string) []string {
	seen := map[string]bool{}
	for _, d := range append(deletions(w), w) {
		for _, c := range index[d] {
			if c != w && oneSlip(w, c) {
				seen[c] = true
			}
		}
	}
	return sorted(seen)
}

// ambiguous reports whether w may as well be a slip of a word that ok takes and that means
// nothing of the trade.
func (s *slips) ambiguous(w string, ok func(string) bool) bool {
	for _, d := range append(deletions(w), w) {
		for _, c := range s.others[d] {
			if oneSlip(w, c) && ok(c) {
				return true
			}
		}
	}
	return false
}

// nearOf finds another word of a closed class that ok takes and that w may be a slip of.
func (s *slips) nearOf(w string, ok func(string) bool) (string, bool) {
	for _, d := range append(deletions(w), w) {
		for _, c := range s.near[d] {
			if w != c && oneSlip(w, c) && ok(c) {
				return c, true
			}
		}
	}
	return "", false
}

func sorted(set map[string]bool) (out []string) {
	for w := range set {
		out = append(out, w)
	}
	sort.Strings(out)
	return out
}

func letters(w string) bool {
	for _, r := range w {
		if r < 'a' || r > 'z' {
			return false
		}
	}
	return w != ""
}

func deletions(w string) []string {
	var out []string
	for i := range w {
		if i == 0 || w[i] != w[i-1] {
			out = append(out, w[:i]+w[i+1:])
		}
	}
	return out
}

// oneSlip reports whether a letter left out, added, changed, or two neighbours swapped
// make b of a.
func oneSlip(a, b string) bool {
	if a == b {
		return true
	}
	if len(a) > len(b) {
		a, b = b, a
	}
	switch len(b) - len(a) {
	case 0:
		i := 0
		for a[i] == b[i] {
			i++
		}
		k := len(a) - 1
		for a[k] == b[k] {
			k--
		}
		return i == k || k == i+1 && a[i] == b[k] && a[k] == b[i]
	case 1:
		i := 0
		for i < len(a) && a[i] == b[i] {
			i++
		}
		return a[i:] == b[i+1:]
	}
	return false
}

// sound spells a word by what is heard, alike for both languages: k and qu, b and v, ll
// and y, s and z and soft c, no h, single letters for double ones.
func sound(w string) string {
	w = soundPairs.Replace(w)
	var b strings.Builder
	for i := 0; i < len(w); i++ {
		if i > 0 && w[i] == w[i-1] {
			continue
		}
		b.WriteByte(w[i])
	}
	return b.String()
}

var soundPairs = strings.NewReplacer("qu", "k", "ph", "f", "ck", "k", "ll", "y", "h", "", "v", "b", "z", "s", "ce", "se", "ci", "si", "c", "k", "x", "s", "w", "u")

// nearAnother reports whether a word is or may be a slip of one of a closed class. Words of
// the trade that only stand in a phrase of one are no reason: "not laying".
func (l *lattice) nearAnother(w string) bool {
	s := l.r.lex.slips
	if s.closed[w] {
		return true
	}
	_, near := s.nearOf(w, func(c string) bool {
		p := l.r.lex.single[c]
		return s.closed[c] || p == nil || !p.anyOf(l.r.frames.strong)
	})
	return near
}
