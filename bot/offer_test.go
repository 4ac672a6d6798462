package bot

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	bareNumber = regexp.MustCompile(`(?:^|[\s,;(/])#?(\d+)(?:$|[\s,;.)!?/])`)
	saysTime   = regexp.MustCompile(`(?i)\b(at|ago|min|mins|hours?|hrs?|h|am|pm|days?|hace|las|minutos|horas?|dias?|días?|on|el|may|mayo|april|abril|past|half|quarter|media|cuarto)\b|\d:\d\d|\d/\d`)
)

// Of the labelled lines, and of each with a number too many, none is offered to be logged
// without a number that stands in it.
func TestOffersHoldEveryNumber(t *testing.T) {
	g := newStage(t)
	offers, refused := 0, 0
	every := 24
	if allTests {
		every = 6
	}
	for i, u := range corpora(t) {
		if i%every != 0 || saysTime.MatchString(u.text) {
			continue // an hour is shown in another form
		}
		s, reply := g.scene(u)
		for _, text := range []string{u.text, u.text + " in row 93", u.text + ", zzyx 93", "zzyx 93 " + u.text} {
			o, err := s.try(u.who, text, reply)
			require.NoError(t, err, text)
			if !o.offers {
				if o.kind == "ask" {
					refused++
				}
				continue
			}
			offers++
			shown := " " + strings.Join(regexp.MustCompile(`\d+`).FindAllString(o.text+" "+o.labels, -1), " ") + " "
			for _, m := range bareNumber.FindAllStringSubmatch(text, -1) {
				assert.True(t, strings.Contains(shown, " "+m[1]+" ") || takenOff(shown, m[1]), "%q is offered as %q", text, o.text)
			}
		}
	}
	require.Greater(t, offers, 10)
	t.Logf("%d offers hold every number; %d asked without one", offers, refused)
}

// takenOff reports whether a number is what is missing from a count on record to one that
// is shown: "7 dry" of 45 is offered as 38.
func takenOff(shown, lost string) bool {
	n, err := strconv.Atoi(lost)
	if err != nil {
		return false
	}
	for _, had := range []int{45, 38, 36, 34, 31, 27} {
		if strings.Contains(shown, fmt.Sprintf(" %d ", had-n)) {
			return true
		}
	}
	return false
}
