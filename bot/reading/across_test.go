package reading

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// No slip is read across languages by itself. These words did harm: of each crew, words of
// one language that are a slip of the other one's; they log nothing. Slips of the crew's own
// language are read.
func TestSlipsAcrossLanguages(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	known := func(crew string) Known {
		return Known{Language: crew, Breeders: []int{3, 7}, Builders: []string{"B1"}, Yards: []string{"North"},
			Open: []Expect{{Step: "accept", Batch: 1, Breeder: 7, Builder: "B1", Had: 45, Ready: true}, {Step: "move", Batch: 2, Breeder: 7, Builder: "B1", Had: 36, Ready: true}}}
	}
	for crew, list := range map[string]string{
		"en": "list salt echo lists list|7 salt|B1 echo|3 lsito slata",
		"es": "dnoe sikp udno mnie lateer hepl dnoe|7 sikp|B1 udno|3",
	} {
		for _, text := range strings.Fields(list) {
			text = strings.ReplaceAll(text, "|", " ")
			res := r.Read(text, known(crew))
			assert.NotEqual(t, Log, res.Outcome, "%s: %q is read as %v", crew, text, res.Acts)
		}
	}
	for crew, list := range map[string]string{"en": "acepted|40 mvoed|34", "es": "acetadas|40"} {
		for _, text := range strings.Fields(list) {
			text = strings.ReplaceAll(text, "|", " ")
			assert.Equal(t, Log, r.Read(text, known(crew)).Outcome, "%s: %q", crew, text)
		}
	}
}
