package bot

import (
	"strings"

	"yardbell/rules"
)

func splitSpace(s string) []string { return strings.Fields(s) }

// fuzzyWords are the words that are also read with one slip of the thumb. Words
// that cast doubt are not among them: what is not read casts doubt by itself.
// Each stands with what it means; a word as near to two meanings is left alone.
var fuzzyWords = func() map[string]string {
	m := map[string]string{}
	for w, s := range stepWords {
		m[w] = "step " + string(s)
	}
	delete(m, "grafts") // "graftt" is more likely "graft"
	for w := range words(`batch breeder builder yard from into yesterday tomorrow today morning afternoon evening noon
		monday tuesday wednesday thursday friday saturday sunday january february april august september october november december
		cells queens virgins larvae everything settings mine later skip undo help done finished due week queen virgin`) {
		if m[w] == "" {
			m[w] = w
		}
	}
	return m
}()

// fuzzyCuts are the fuzzy words by what is left of them without one letter. Two
// words within one slip of each other share such a rest, or one is the other's.
var fuzzyCuts = func() map[string][]string {
	m := map[string][]string{}
	for w := range fuzzyWords {
		for _, c := range cuts(w) {
			m[c] = append(m[c], w)
		}
	}
	return m
}()

// cuts are a word itself and what is left of it without any one of its letters.
func cuts(w string) []string {
	out := []string{w}
	for i := range len(w) {
		if i == 0 || w[i] != w[i-1] {
			out = append(out, w[:i]+w[i+1:])
		}
	}
	return out
}

// realWords are words of everyday talk that lie one slip from a fuzzy word: they
// mean what they say. "Cleaned B1" is not "cleared B1".
var realWords = words(`yarde accent accents accepts aged alter bach bath botch bitch butch breader breeders bleeder builders cages cage cased caved caked
	calls culls cello caped capper clapped chapped copped cupped catchy cache caching clean cleaned cleans clears cleat cleated clearer cleaved lear
	confide confides confided confiding confines coffined death earth hearth deaths drove droves rone emerges emergent merge merged merging
	feeling fending feuding feeing finnish finishes finishers finis freer frees fried free freud reed fred form forms forum fowl
	grant granted granting grants graf raft rafts rafted rafting grated grating grafter hitched hutched hitching hatches hatchet hatcher
	handoff isolates lying lacing lazing lading laving latter latex layer liter lager laser late later's larval
	moves mover mowed mooed moped mopped mowing mooing moping movie place places paced laced placid placer planed plated played pacing lacing planing
	plating playing recall recalled recalling recalls resell reselling rebelled rebelling repelled repelling releases releaser rouge rouges roque
	scaled seated seared seamed sealer stated starter stared starred starved smarted startled transfers toddy toady mornings mourning moaning mooning
	evenings mondays sundays sundae fridays mien sitting settling minute minuets acceptances`)

// longestWord bounds what is compared: no word known is longer.
const longestWord = 16

// slip finds the fuzzy word that w was meant to be.
func slip(w string) (string, bool) {
	if len(w) > longestWord || realWords[w] || !letters(w) {
		return "", false
	}
	best := ""
	for _, c := range cuts(w) {
		for _, k := range fuzzyCuts[c] {
			switch {
			case k == best || !slipped(w, k):
			case best == "":
				best = k
			case fuzzyWords[k] != fuzzyWords[best]:
				return "", false
			case len(k) > len(best) || len(k) == len(best) && k < best:
				best = k
			}
		}
	}
	// "Movd" says no more than "move" for sure.
	if stepForms[best] == past {
		for _, b := range bareWords[stepWords[best]] {
			if oneSlip(w, b) {
				return b, true
			}
		}
	}
	return best, best != ""
}

// bareWords are the words of each step that do not say that it was done.
var bareWords = func() map[rules.Step][]string {
	m := map[rules.Step][]string{}
	for _, l := range stepTable {
		if l.form == bare {
			m[l.step] = append(m[l.step], splitSpace(l.words)...)
		}
	}
	return m
}()

func letters(w string) bool {
	for i := range len(w) {
		if (w[i] < 'a' || w[i] > 'z') && w[i] != '-' {
			return false
		}
	}
	return true
}

// slipped reports whether w is known with one slip. In short words only a swap
// or a doubled letter is taken, since every other slip makes another word.
// Thumbs slip inside a word, seldom on its first letter.
func slipped(w, known string) bool {
	if !oneSlip(w, known) || w[0] != known[0] && w[0] != known[1] {
		return false
	}
	if len(known) >= 5 && len(w) >= 4 {
		return true
	}
	if len(known) < 3 || len(w) < len(known) || len(known) == 3 && w[0] != known[0] {
		return false
	}
	if len(w) == len(known) {
		i := 0
		for w[i] == known[i] {
			i++
		}
		return i+1 < len(w) && w[i] == known[i+1] && w[i+1] == known[i]
	}
	for i := 1; i < len(w); i++ {
		if w[i] == w[i-1] && w[:i]+w[i+1:] == known {
			return true
		}
	}
	return false
}

// nearWord finds the one known word within a single slip of the thumb (a letter
// dropped, added, changed or swapped with its neighbour). Short words are taken
// only as they stand, and a word that is as near to two different meanings is
// left alone, so that a slip never turns one step into another.
func nearWord[V comparable](w string, known map[string]V) (word string, ok bool) {
	if len(w) < 4 || len(w) > longestWord || realWords[w] {
		return "", false
	}
	var meaning V
	for k, v := range known {
		if !slipped(w, k) {
			continue
		}
		if ok && v != meaning {
			return "", false
		}
		if !ok || k < word {
			word = k
		}
		meaning, ok = v, true
	}
	return word, ok
}

// oneSlip reports whether a becomes b by one insertion, deletion, change or swap
// of neighbours.
func oneSlip(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if a == b || len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) == len(b) {
		return a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
	}
	return a[i:] == b[i+1:]
}
