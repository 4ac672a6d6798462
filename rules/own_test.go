package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A crew's own hours by chat move the window and lose the published source.
func TestOwnHoursByChat(t *testing.T) {
	s := crew()
	require.NoError(t, s.Apply("step accept", "20/22/30", time.Time{}))
	row := s.Table.Row(Accept, "")
	assert.Equal(t, []float64{20, 22, 30}, []float64{row.Earliest, row.Best, row.Latest})
	assert.Contains(t, row.Source, "the crew's own rules")
	assert.Equal(t, "20/22/30", s.Value("step accept"))
	assert.Equal(t, 18.0, DefaultTable().Row(Accept, "").Earliest, "the embedded table stays as it is")
	require.NoError(t, s.Apply("step accept", "default", time.Time{}))
	assert.Equal(t, "18/24/48", s.Value("step accept"))
	assert.Equal(t, DefaultTable().Row(Accept, ""), s.Table.Row(Accept, ""), "the source is back as well")
	for _, bad := range []string{"", "18", "30/20/10", "18/24/x", "18/24/9999"} {
		assert.Error(t, s.Apply("step accept", bad, time.Time{}), bad)
	}
	assert.Error(t, s.Apply("step graft", "12/40/60", time.Time{}), "larvae over 48 h")
	assert.Error(t, s.Apply("step nonsense", "1/2/3", time.Time{}))
}

// In a dearth a confined breeder is fed, and only then.
func TestFeedConfinedBreeder(t *testing.T) {
	s := crew()
	at := time.Date(2031, 4, 24, 13, 0, 0, 0, time.UTC)
	var b book
	b.add(Add, BreederSubject(7), at)
	b.add(Confine, BreederSubject(7), at)
	flow := []FlowLine{{Dearth: true, Since: at.Add(-48 * time.Hour)}}
	feed := func(flow []FlowLine) (n int) {
		_, _, _, tasks := PlanBreeder(7, Effective(b.entries), nil, flow, s)
		for _, k := range tasks {
			if k.Step == Feed {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 1, feed(flow))
	assert.Equal(t, 0, feed(nil))
	assert.Equal(t, 0, feed(append(flow, FlowLine{Since: at})), "in a flow nobody is fed")
}
