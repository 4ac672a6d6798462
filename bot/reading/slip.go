package reading

import (
	"slices"
	"sort"
	"strings"
)

// neighbours finds the words that are one slip away from a word: two such words have what is
// left of one or both without one letter in common. There is one index of all words, however
// many may be told apart by what they are: four of them took half of what the reader takes
// in memory.
type neighbours map[string][]string

// newNeighbours makes the index of all words of some sets.
func newNeighbours(sets ...map[string]bool) neighbours {
	all := map[string]bool{}
	for _, set := range sets {
		for w := range set {
			all[w] = true
		}
	}
	n := make(neighbours, 8*len(all)) // growing on the way takes a third of the time
	for _, w := range sorted(all) {
		for _, d := range append(deletions(w), w) {
			n[d] = append(n[d], w)
		}
	}
	return n
}

// each shows the words of a set that are one slip away from w, or w itself, until it is
// told to stop. The order does not depend on other sets; a word may come twice.
func (n neighbours) each(w string, set map[string]bool, see func(string) (stop bool)) {
	for _, d := range append(deletions(w), w) {
		for _, c := range n[d] {
			if set[c] && OneSlip(w, c) && see(c) {
				return
			}
		}
	}
}

// of are the words of a set that are one slip away from w, sorted.
func (n neighbours) of(w string, set map[string]bool) []string {
	seen := map[string]bool{}
	n.each(w, set, func(c string) bool { seen[c] = c != w; return false })
	return slices.DeleteFunc(sorted(seen), func(c string) bool { return !seen[c] })
}

// slips finds the words of the lexicons that a misspelt word may stand for.
type slips struct {
	index  neighbours
	words  map[string]bool     // that a slip may be read into
	sounds map[string][]string // of them
	others map[string]bool     // that a slip is never read into
	near   map[string]bool     // that must not be passed over: of closed classes, and short ones
	closed map[string]bool     // of closed classes: negation, plan, number …
	short  []string            // closed words of two letters
}

// shortest is the length of a word that may be read through a slip. Shorter ones have too
// many neighbours.
const shortest = 4

func newSlips(l *lexicon, closedConcepts map[concept]bool, matters func(concept) bool) *slips {
	s := &slips{words: map[string]bool{}, sounds: map[string][]string{}, closed: map[string]bool{}, near: map[string]bool{}, others: map[string]bool{}}
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
			s.others[w] = true
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
	for w, p := range l.single { // too short to be read through a slip, not to be passed over
		for _, m := range p.senses {
			if len(w) == shortest-1 && letters(w) && matters(m.concept) {
				s.near[w] = true
			}
		}
	}
	for w := range s.closed {
		s.near[w] = true
	}
	for w := range within {
		s.near[w] = true
	}
	return s
}

// add makes a word one that others may be slips of.
func (s *slips) add(w string) {
	if len(w) < shortest || !letters(w) {
		return
	}
	if s.words[w] {
		return
	}
	s.words[w] = true
	k := sound(w)
	s.sounds[k] = append(s.sounds[k], w)
}

// candidates are the words one slip or an equal sound away from w, sorted.
func (s *slips) candidates(w string) []string {
	seen := map[string]bool{}
	for _, c := range s.sounds[sound(w)] {
		seen[c] = true
	}
	s.index.each(w, s.words, func(c string) bool {
		if c[0] == w[0] || len(c) > 1 && c[1] == w[min(1, len(w)-1)] || len(w) > 1 && c[0] == w[1] && c[1] == w[0] {
			seen[c] = true
		}
		return false
	})
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
func (s *slips) every(w string) []string { return s.index.of(w, s.words) }

// ambiguous reports whether w may as well be a slip of a word that ok takes and that means
// nothing of the trade.
func (s *slips) ambiguous(w string, ok func(string) bool) (may bool) {
	s.index.each(w, s.others, func(c string) bool { may = ok(c); return may })
	return may
}

// nearOf finds another word of a closed class that ok takes and that w may be a slip of.
func (s *slips) nearOf(w string, ok func(string) bool) (near string, found bool) {
	s.index.each(w, s.near, func(c string) bool {
		if w != c && ok(c) {
			near, found = c, true
		}
		return found
	})
	return near, found
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

// OneSlip reports whether a letter left out, added, changed, or two neighbours swapped
// make b of a, or nothing does.
func OneSlip(a, b string) bool {
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
