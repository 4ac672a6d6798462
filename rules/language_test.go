package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseLanguages(t *testing.T) {
	for _, c := range []struct{ typed, first, want string }{
		{"en", "en", "en"}, {"ES", "en", "es"}, {" Spanish ", "en", "es"}, {"español", "en", "es"}, {"ingles", "es", "en"},
		{"en+es", "en", "en+es"}, {"es+en", "en", "es+en"}, {"es + en", "en", "es+en"}, {"español y inglés", "en", "es+en"}, {"español e inglés", "en", "es+en"},
		{"english and spanish", "es", "en+es"}, {"en/es", "es", "en+es"}, {"both", "en", "en+es"}, {"both", "es", "es+en"}, {"ambos", "es", "es+en"},
	} {
		got, ok := ParseLanguages(c.typed, c.first)
		assert.True(t, ok, c.typed)
		assert.Equal(t, c.want, got, c.typed)
	}
	for _, bad := range []string{"", "fr", "en+fr", "en+en", "es es", "and", "+", "en+es+en", "boths"} {
		_, ok := ParseLanguages(bad, "en")
		assert.False(t, ok, bad)
	}
}

func TestOwnLanguageSetting(t *testing.T) {
	s := DefaultSettings()
	assert.Equal(t, "off", s.Value(OwnLanguage+"3"))
	require.NoError(t, s.Apply(OwnLanguage+"3", "es", time.Time{}))
	before := *s
	require.NoError(t, s.Apply(OwnLanguage+"4", "en", time.Time{}))
	require.NoError(t, s.Apply(OwnLanguage+"3", "off", time.Time{}))
	assert.Equal(t, map[int64]string{4: "en"}, s.Own)
	assert.Equal(t, map[int64]string{3: "es"}, before.Own, "a copy is not changed with it")
	assert.Equal(t, "en", s.Value(OwnLanguage+"4"))
	assert.Equal(t, "en", s.Lang)
	for _, c := range [][2]string{{"3", "fr"}, {"3", ""}, {"3", "español"}, {"x", "es"}, {"", "es"}} {
		assert.Error(t, s.Apply(OwnLanguage+c[0], c[1], time.Time{}), c)
	}
}

func TestDecimalComma(t *testing.T) {
	s := DefaultSettings()
	require.NoError(t, s.Apply("incubator", "34,5", time.Time{}))
	assert.Equal(t, "34.5", s.Value("incubator"))
	require.NoError(t, s.Apply("spread", "8/7,25", time.Time{}))
	assert.Equal(t, "8/7.25", s.Value("spread"))
	assert.Error(t, s.Apply("incubator", "3,4,5", time.Time{}))
}
