package bot

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSayings checks that every rule gives back only what its pattern has, and loses
// no number or name that must stand there, but for the numbers that are taken back.
func TestSayings(t *testing.T) {
	for name, rules := range map[string]sayRules{"spellings": spellings, "turns": turns, "asking": asking, "replies": replies, "openTurns": openTurns, "shortMoves": shortMoves, "takenBack": takenBack} {
		seen := map[*sayRule]bool{}
		for key, list := range rules {
			for _, r := range list {
				if seen[r] {
					continue
				}
				seen[r] = true
				given := map[int]bool{}
				for _, w := range r.out {
					k, ok := numeral(strings.TrimPrefix(strings.TrimSuffix(w, ","), "="))
					if !ok || w[0] != '=' {
						continue
					}
					if assert.True(t, k >= 1 && k <= len(r.pat), "%s, %q, %v: no such place", name, key, r.out) {
						given[k] = true
						e := r.pat[k-1]
						assert.False(t, e.class == startHere || e.class == commaHere || e.class == endHere, "%s, %q, %v: =%d takes nothing", name, key, r.out, k)
					}
				}
				for i, e := range r.pat {
					thing := strings.ContainsRune(string([]byte{anyNumber, anyBuilder, anyYard, anyHive, anyMark}), rune(e.class)) && e.class != 0 || e.num
					assert.True(t, !thing || name == "takenBack" || given[i+1] || e.num && e.optional, "%s, %q, %v: place %d is lost", name, key, r.out, i+1)
				}
			}
		}
	}
}
