package reading

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// Dozens, fractions and sums beside the number that they come to, and hours as they are dictated.
func TestNumbersAsSaid(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	now := time.Date(2031, 4, 29, 17, 0, 0, 0, time.UTC)
	base := Known{Now: now, Language: "en", Breeders: []int{7, 12}, Builders: []string{"B1", "B2"}, Yards: []string{"North", "Creek"}}
	took, move, comb := base, base, base
	took.Open = []Expect{{Step: rules.Accept, Batch: 1, Builder: "B1", Had: 45, Ready: true}}
	move.Open = []Expect{{Step: rules.Move, Batch: 1, Builder: "B1", Had: 36, Ready: true}}
	comb.Open = []Expect{{Step: rules.CombOut, Breeder: 7, Ready: true}}
	comb.Combs = map[int]string{7: "red"}
	count := 27
	line := base
	line.Open = []Expect{{Step: rules.Catch, Batch: 1, Had: 27, Ready: true}}
	line.Last = &Line{Act: Act{Kind: Did, Step: rules.Laying, Batch: 1, Count: &count}, At: now, Since: time.Minute}
	accepted := func(n string) string { return `{"kind":"did","step":"accept","batch":1,"count":` + n + `}` }
	for _, c := range []struct {
		k    Known
		text string
		want string // the acts, or the outcome where nothing is logged
	}{
		{took, "three dozen took", accepted("36")},
		{took, "prendieron dos docenas y media", accepted("30")},
		{took, "four outta five took so thats 36", accepted("36")},
		{took, "36 took, four fifths of them", accepted("36")},
		{took, "dos terceras partes prendió, o sea 30", accepted("30")},
		{took, "20 plus 16 took that makes 36", accepted("36")},
		{took, "20 plus 16 took that makes 37", "ask"},
		{took, "two thirds took, so that's 33", "ask"},
		{took, "twenty something or maybe thirty took", "ask"},
		{move, "half to north and 18 to creek", `{"kind":"did","step":"move","batch":1,"yard":"North","count":18}{"kind":"did","step":"move","batch":1,"yard":"Creek","count":18}`},
		{line, "one more laying so 28", `{"kind":"amend","step":"laying","count":28}`},
		{line, "caught 12, 15 left", `{"kind":"did","step":"catch","batch":1,"count":12}`},
		{comb, "comb out quarter past four", `{"kind":"did","step":"combout","breeder":7,"when":{"clock":255}}`},
		{comb, "cuatro diez, panal fuera", `{"kind":"did","step":"combout","breeder":7,"when":{"clock":250}}`},
		{comb, "out early, 3.10", `{"kind":"did","step":"combout","breeder":7,"when":{"clock":190}}`},
	} {
		res := r.Read(c.text, c.k)
		got := string(res.Outcome)
		if res.Outcome == Log {
			got = ""
			for _, a := range res.Acts {
				got += a.String()
			}
		}
		require.Equal(t, c.want, got, c.text)
	}
}
