package bot

import "strings"

func splitSpace(s string) []string { return strings.Fields(s) }

// nearWord finds the one known word within a single slip of the thumb (a letter
// dropped, added, changed or swapped with its neighbour). Short words are taken
// only as they stand, and a word that is as near to two different meanings is
// left alone, so that a slip never turns one step into another.
func nearWord[V comparable](w string, known map[string]V) (word string, ok bool) {
	if len(w) < 5 || realWords[w] {
		return "", false
	}
	var meaning V
	for k, v := range known {
		if len(k) < 4 || !oneSlip(w, k) || (w[0] != k[0] && w[0] != k[1]) {
			continue // thumbs slip inside a word, seldom on its first letter
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

// realWords are words of everyday talk that lie one slip from a word we know.
var realWords = words(`mowed clean clears moves mover fleet flows slow flown seated healed scaled caged capper tapped mapped caper
	caught fight catchy hatchet hatches placed places places grated craft feeds feeder feels lacing playing saying staying
	emerges finish confide confines accent accepts exempted drone throne death hearth earth realer released releases`)

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
