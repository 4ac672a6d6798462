package bot

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"yardbell/bot/planning"
	"yardbell/rules"
)

// The Monday of a week is the one whose own week has that name, also around new year.
func TestWeekStart(t *testing.T) {
	for d := (rules.Date{Year: 2026, Month: 1, Day: 1}); d.Year < 2034; d = d.Add(1) {
		at := rules.At(d, 12*60, time.UTC)
		got, ok := planning.WeekStart(rules.WeekOf(at, time.UTC))
		assert.True(t, ok)
		assert.Equal(t, time.Monday, got.Weekday(), "%s", d)
		days := rules.At(d, 0, time.UTC).Sub(rules.At(got, 0, time.UTC)).Hours() / 24
		assert.True(t, days >= 0 && days < 7, "%s lies %.0f days after %s", d, days, got)
	}
	_, ok := planning.WeekStart("spring")
	assert.False(t, ok)
}
