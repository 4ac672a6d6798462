package reading

import (
	"testing"

	"yardbell/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What somebody is doing or will do is not done: it is never logged, and with a word for
// now beside it, not even offered.
func TestPresentIsNotDone(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	known := Known{Builders: []string{"B1", "B2"}, Breeders: []int{7, 12}, Yards: []string{"North"},
		Open: []Expect{{Step: rules.Move, Batch: 1, Builder: "B1", Breeder: 7, Had: 36, Ready: true}}}
	for text, want := range map[string]Outcome{
		"ahora movemos las 36 a North":         Ignore,
		"ya estamos moviendo las celdas":       Ignore,
		"ahorita alimento la B1":               Ignore,
		"ya muevo las 36 a North":              Ignore,
		"ahorita le damos jarabe a B1":         Ignore,
		"ahorita confino la 7":                 Ignore,
		"ya confino la 7":                      Ask, // with its accent it was done
		"ya confinó la 7":                      Log,
		"alimentó la B1":                       Log,
		"muevo las 36 a North":                 Ask,
		"ahorita alimentamos la B1":            Ask, // the past has the same word
		"ya alimentamos la B1":                 Log,
		"alimentamos la B1":                    Log,
		"movimos las 36 a North ahorita":       Log,
		"acabo de mover 36 a North":            Log,
		"moving 36 to North right now":         Ignore,
		"now we move 36 to North":              Ignore,
		"about to move 36 to North":            Ignore,
		"we are moving 36 to North":            Ask,
		"moved 36 to North right now":          Log,
		"finished moving 36 to North just now": Log,
		"move 36 to North":                     Log, // a note
	} {
		k := known
		assert.Equal(t, want, r.Read(text, k).Outcome, text)
	}
}
