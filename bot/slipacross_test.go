package bot

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// everydayWords are words of both languages that lie one slip from a word of the trade.
func everydayWords(t *testing.T) (out []string) {
	t.Helper()
	b, err := os.ReadFile("reading/data/common.txt")
	require.NoError(t, err)
	for _, w := range strings.Split(string(b), "\n") {
		if w != "" && w[0] != '#' {
			out = append(out, w)
		}
	}
	require.Greater(t, len(out), 10_000)
	return out
}

// No slip is read across languages by itself: of all everyday words, alone or before a
// number, none is taken for a slip of a word of a language that the crew does not speak,
// but to be asked back.
func TestNoSlipAcross(t *testing.T) {
	across := map[string]int{}
	asked := map[string]int{}
	for _, w := range everydayWords(t) {
		for _, crew := range []string{"en", "es"} {
			for _, text := range []string{w, w + " 7"} {
				d := newReader(text, names{langs: []string{crew}})
				g := &glosser{d: d, in: d.toks}
				g.judge()
				d.slips()
				spanishSlip := g.key[0] != "" && g.key[0] != w
				englishSlip := d.toks[0].text != w
				if w == "form" {
					continue // "from" before a number, in any language
				}
				took := spanishSlip && crew == "en" || englishSlip && !spanishSlip && crew == "es"
				switch {
				case took && d.r.guessed:
					asked[crew]++
				case took:
					across[crew]++
					if across[crew] < 20 {
						t.Errorf("%s: %q is read as a slip", crew, text)
					}
				}
			}
		}
	}
	assert.Empty(t, across)
	t.Logf("asked back: %v", asked)
}

// The words that did harm, and more of their kind, whatever else is known of the crew.
func TestSlipsThatDidHarm(t *testing.T) {
	for crew, list := range map[string]string{
		"en":    "list salt echo lists list|7 salt|B1 echo|3 lsito slata",
		"es":    "dnoe sikp udno mnie lateer hepl dnoe|7 sikp|B1 udno|3",
		"en+es": "list salt echo dnoe sikp udno",
	} {
		for _, text := range strings.Fields(list) {
			text = strings.ReplaceAll(text, "|", " ")
			r := readMany(text, names{builders: []string{"B1"}, langs: strings.Split(crew, "+")}).whole
			assert.Contains(t, []verb{noVerb, justCount}, r.verb, "%s: %q", crew, text)
		}
	}
	for crew, list := range map[string]string{"en": "acepted|40 mvoed|34", "es": "acetadas|40 lsito", "en+es": "acepted|40 acetadas|40"} {
		for _, text := range strings.Fields(list) {
			text = strings.ReplaceAll(text, "|", " ")
			r := readMany(text, names{langs: strings.Split(crew, "+")}).whole
			assert.True(t, r.clear() && (r.verb == doStep || r.verb == doDone), "%s: %q is read in the crew's own language", crew, text)
		}
	}
}
