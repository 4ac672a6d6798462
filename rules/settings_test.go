package rules

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSettingsReadAndShow(t *testing.T) {
	for _, c := range []struct{ key, value, shown string }{
		{"zone", "Australia/Sydney", "Australia/Sydney"},
		{"language", "es", "es"},
		{"evening", "7pm", "19:00"},
		{"morning", "6:15", "06:15"},
		{"quiet", "22:00-5:00", "22:00-05:00"},
		{"quiet", "10pm to 5am", "22:00-05:00"},
		{"quiet", "0:00-0:00", "00:00-00:00"},
		{"wake", "on", "on"},
		{"wake", "off", "off"},
		{"pin", "off", "off"},
		{"pin", "on", "on"},
		{"work", "6–17", "06:00-17:00"},
		{"days off", "Sunday", "Sunday"},
		{"days off", "sat and Sundays", "Sunday, Saturday"},
		{"days off", "none", "none"},
		{"move", "9d20h", "9d20h"},
		{"move", "236", "9d20h"},
		{"move", "default", "default"},
		{"incubator", "34.5", "34.5"},
		{"incubator", "33C", "33"},
		{"incubator", "off", "off"},
	} {
		s := crew()
		require.NoError(t, s.Apply(c.key, c.value, grafted), "%v", c)
		assert.Equal(t, c.shown, s.Value(c.key), "%v", c)
		require.NoError(t, s.Apply(c.key, s.Value(c.key), grafted), "what is shown can be typed: %v", c)
		assert.Equal(t, c.shown, s.Value(c.key), "%v", c)
	}
	for _, name := range SettingNames {
		s := crew()
		assert.NotEmpty(t, s.Value(name), name)
		assert.NoError(t, s.Apply(name, Example(name), grafted), "the example of %s", name)
		assert.Nil(t, s.Clash(), name)
	}
	assert.Empty(t, crew().Value("colour"))
}

// settingRefusals are all refusals of settings, each with a value that brings it.
func settingRefusals() (out []*Refusal) {
	for _, c := range []struct{ key, value string }{
		{"zone", "Mars/Olympus"}, {"zone", ""}, {"zone", "Local"}, {"language", "fr"}, {"evening", "25:00"}, {"morning", "dawn"},
		{"quiet", "21:00"}, {"quiet", "21:00-"}, {"work", "18:00-07:00"}, {"wake", "maybe"}, {"days off", "Caturday"}, {"days off", "su"},
		{"move", "7d"}, {"move", "13d"}, {"move", "soon"}, {"incubator", "95"}, {"incubator", "29.9"}, {"incubator", "NaN"}, {"colour", "red"},
	} {
		s := crew()
		err := s.Apply(c.key, c.value, grafted)
		var r *Refusal
		if !errors.As(err, &r) {
			panic(c.key + " accepted " + c.value)
		}
		out = append(out, r)
	}
	evening := crew()
	evening.Evening = 22 * 60
	morning := crew()
	morning.Morning = 5 * 60
	noon := crew()
	noon.QuietFrom, noon.QuietTo, noon.Morning = 12*60, 14*60, 13*60
	never := crew()
	never.DaysOff = [7]bool{true, true, true, true, true, true, true}
	return append(out, evening.Clash(), morning.Clash(), noon.Clash(), never.Clash())
}

func TestSettingsRefuse(t *testing.T) {
	for _, r := range settingRefusals() {
		require.NotNil(t, r)
		switch r.Code {
		case "set_bad":
			assert.NotEmpty(t, r.Args["Example"], "%v", r.Args)
		case "set_unknown", "set_clash":
			assert.NotEmpty(t, r.Args["Key"])
		case "set_nowork":
		default:
			t.Errorf("unexpected %s", r.Code)
		}
	}
	loud := crew()
	loud.QuietFrom, loud.QuietTo, loud.Evening = 0, 0, 23*60
	assert.Nil(t, loud.Clash(), "without quiet hours nothing can clash")
	s := crew()
	before := *s
	assert.Error(t, s.Apply("evening", "25:00", grafted))
	assert.Equal(t, before, *s, "a refused value changes nothing")
}

// What is said last holds, also where a clock was put back since the one before.
func TestIncubatorSaidLastHolds(t *testing.T) {
	s := crew()
	require.NoError(t, s.Apply("incubator", "33", h(200)))
	require.NoError(t, s.Apply("incubator", "34.5", h(250)))
	require.NoError(t, s.Apply("incubator", "off", h(225)))
	require.Len(t, s.Incubator, 2)
	assert.Equal(t, []time.Time{h(200), h(225)}, []time.Time{s.Incubator[0].At, s.Incubator[1].At})
	assert.True(t, math.IsNaN(s.Incubator[1].C))
	assert.Equal(t, "off", s.Value("incubator"))
}

// Defaults of the design, sections 3 and 4.
func TestDefaultSettings(t *testing.T) {
	s := DefaultSettings()
	for key, want := range map[string]string{
		"evening": "19:00", "morning": "06:30", "quiet": "21:00-05:30", "wake": "off", "work": "07:00-18:00", "days off": "none",
		"move": "default", "incubator": "off", "language": "en",
	} {
		assert.Equal(t, want, s.Value(key), key)
	}
	assert.Equal(t, 8.0, s.SigmaBatch)
	assert.Equal(t, 7.5, s.SigmaCell)
}
