package rules

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// Batches that share nucs, against seasons drawn in Python; testdata/orders.py.
func TestSharedNucsAgainstPython(t *testing.T) {
	worst := 0.0
	for _, r := range reference(t, "orders.csv") {
		from := when("2031-05-01 08:00")
		k := newPooler(newChain(KnownYields(knownRates, num(t, r["rho"]))), Queens, Calendar{Places: []Place{{Subject: YardSubject("North"), Size: whole(t, r["nucs"])}}})
		var list []source
		for i, n := range strings.Fields(r["grafts"]) {
			at := from.Add(time.Duration(i) * 24 * time.Hour)
			list = append(list, source{n: whole(t, n), from: StageAccepted, room: noRoom, most: noRoom, span: Span{Earliest: at, Latest: at.Add(31 * 24 * time.Hour)}})
		}
		law := k.sum(list, whole(t, r["want"]))
		d := law[len(law)-1] - num(t, r["chance"])
		worst = max(worst, d, -d)
		assert.InDelta(t, num(t, r["chance"]), law[len(law)-1], 0.01, "%v", r)
	}
	t.Logf("largest difference in chance: %.4f", worst)
}
