package telegram

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name, in string
		limit    int
		want     []string
	}{
		{"short", "one\ntwo", 7, []string{"one\ntwo"}},
		{"at a line end", "one\ntwo", 6, []string{"one", "two"}},
		{"at the last line end that fits", "a\nb\nc\nd", 4, []string{"a\nb", "c\nd"}},
		{"right behind a full piece", "abcd\nef", 4, []string{"abcd", "ef"}},
		{"at a space", "one two three", 8, []string{"one two", "three"}},
		{"anywhere", "abcdefgh", 3, []string{"abc", "def", "gh"}},
		{"never inside a character", "🐝🐝🐝", 3, []string{"🐝", "🐝", "🐝"}},
		{"two units a bee", "🐝🐝🐝", 4, []string{"🐝🐝", "🐝"}},
		{"no blank piece", "ab\n\n\n\n\ncd", 3, []string{"ab\n", "cd"}},
		{"empty", "", 4, []string{""}},
		{"bytes that are no text", "ab\xff\xfecd", 3, []string{"ab\xff", "\xfecd"}},
	} {
		assert.Equal(t, c.want, split(c.in, c.limit), c.name)
	}
}

// A text of exactly the limit is one message, one more unit makes two.
func TestSplitAtTheLimit(t *testing.T) {
	full := strings.Repeat("🐝", mostUnits/2)
	assert.Len(t, split(full, mostUnits), 1)
	pieces := split(full+"!", mostUnits)
	assert.Len(t, pieces, 2)
	for _, p := range pieces {
		assert.LessOrEqual(t, units(p), mostUnits)
	}
	long := strings.Repeat(strings.Repeat("x", 99)+"\n", 100)
	for _, p := range split(long, mostUnits) {
		assert.LessOrEqual(t, units(p), mostUnits)
		assert.Zero(t, (len(strings.TrimSpace(p))+1)%100, "cut inside a line")
	}
}

func TestEscape(t *testing.T) {
	assert.Equal(t, "a &lt; b &amp;&amp; c &gt; d &amp;lt;", escape("a < b && c > d &lt;"))
}

func FuzzSplit(f *testing.F) {
	f.Add("one\ntwo three", uint8(4))
	f.Add("🐝🐝🐝\n", uint8(3))
	f.Add("\xff\n \n", uint8(2))
	f.Fuzz(func(t *testing.T, s string, n uint8) {
		limit := max(2, int(n))
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		var all strings.Builder
		for _, p := range split(s, limit) {
			if units(p) > limit {
				t.Fatalf("%q is longer than %d", p, limit)
			}
			all.WriteString(p)
		}
		if squeeze(all.String()) != squeeze(s) {
			t.Fatalf("%q lost something: %q", s, all.String())
		}
	})
}
