package attach

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// The bars of a round that are done together are one event, whose name stays when one of
// them is done; a bar hours apart has its own.
func TestEventsOfARound(t *testing.T) {
	at := time.Date(2031, 4, 25, 15, 0, 0, 0, time.UTC)
	n := 45
	var lines []rules.Entry
	for i, after := range []time.Duration{0, time.Hour, 8 * time.Hour} {
		e := rules.Entry{ID: int64(i + 1), Said: at.Add(after), Happened: at.Add(after), By: "Wren", Action: rules.Did, Step: rules.Graft, Subject: rules.BatchSubject(i + 1), Count: &n, From: 7, Into: "B" + string(rune('1'+i))}
		lines = append(lines, e)
	}
	finish := func(lines []rules.Entry) (keys []string, first string, alarms int) {
		crew := rules.Fold(rules.DefaultSettings(), lines)
		v := wording.New(crew.Settings(), at)
		v.Rounds = crew.Rounds()
		var tasks []rules.Task
		for _, k := range crew.Open() {
			if k.Step == rules.Finish {
				tasks = append(tasks, k)
			}
		}
		seen := map[string]int{}
		for i, bars := range rules.Together(tasks, v.Rounds) {
			keys = append(keys, eventKey(v, bars, seen))
			if e := event(v, bars); i == 0 {
				first, alarms = e.Summary, len(e.Alarms)
			}
		}
		return keys, first, alarms
	}
	keys, first, alarms := finish(lines)
	require.Equal(t, []string{"round 2031-04-25/finish", "batch 3/finish"}, keys)
	assert.Contains(t, first, "round of Fri 25 Apr: B1 45, B2 45")
	assert.Positive(t, alarms)
}
