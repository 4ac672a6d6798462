package bot

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"yardbell/bot/wording"

	"github.com/stretchr/testify/assert"
)

func TestPerson(t *testing.T) {
	for name, want := range map[string]string{
		"Wren": "Wren", "Ash O’Neil-Rowan": "Ash O’Neil-Rowan", "J.R. Ash": "J.R. Ash", "José María": "José María", "José": "José", "Зоя": "Зоя", "小林": "小林",
		" Wren\n\nBatch 4: moved": "Wren Batch 4: moved", "a\u2028b\u2029c\td\re\vf\u00a0g": "a b c d e f g",
		"\x1b[31mWren\x1b[0m\a": "[31mWren[0m", "Wr\u202een\u2066x\u200b\u200d\ufeff": "Wrenx", "W\u0336\u0336\u0336\u0336ren": "W\u0336\u0336ren",
		"@channel": "channel", "＠all Wren@x": "all Wrenx", "/remove Ash": "remove Ash", "a /b": "a b", "Ash/Wren": "Ash/Wren", "https://evil.example/x": "https evil. example/x",
		"<b>Wren</b>": "<b>Wren</b>", "=1+1": "=1+1", "{{.Name}}": "{{.Name}}", "bad\xff\xfe": "bad",
		"": "user 9", "\u200b\u2066\n": "user 9", "\u0301\u0301": "user 9", "@": "user 9", strings.Repeat("é", 300): strings.Repeat("é", wording.MostName),
	} {
		got := wording.Person(name, "9")
		assert.Equal(t, want, got, "%q", name)
		assert.Equal(t, got, wording.Person(got, "9"), "twice is as once: %q", name)
	}
}

func FuzzPerson(f *testing.F) {
	for _, s := range []string{"Wren", "a\n\x1b[2J", "@/://..a.bc", "\u202e\u0301\u0301\u0301", "x. .yz"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := wording.Person(s, "9")
		assert.True(t, utf8.ValidString(got))
		assert.NotEmpty(t, strings.TrimSpace(got))
		assert.LessOrEqual(t, utf8.RuneCountInString(got), max(wording.MostName, 6))
		assert.NotRegexp(t, `[\pC\p{Zl}\p{Zp}@＠]|://|(^| )/|  |\pM{3}`, got)
	})
}

func TestFloodAllows(t *testing.T) {
	f, now := newFlood(), time.Date(2031, 4, 24, 8, 0, 0, 0, time.UTC)
	count := func(member int64, n int, at time.Time) (ok, told int) {
		for range n {
			yes, tell := f.take(member, at)
			if yes {
				ok++
			}
			if tell {
				told++
			}
		}
		return ok, told
	}
	ok, told := count(1, 100, now)
	assert.Equal(t, askBurst, ok)
	assert.Equal(t, 1, told)
	assert.True(t, f.spent(1, now))
	ok, _ = count(2, 100, now)
	assert.Equal(t, askBurst, ok, "as is everybody")
	now = now.Add(time.Minute)
	assert.False(t, f.spent(1, now))
	ok, told = count(1, 100, now)
	assert.Equal(t, 10, ok)
	assert.Zero(t, told, "told a minute ago")
	ok, told = count(1, 100, now.Add(-time.Hour))
	assert.Zero(t, ok, "what was written before is no new beginning")
	assert.Zero(t, told)
	_, told = count(1, 400, now.Add(warnEvery))
	assert.Equal(t, 1, told)
	for i := range int64(3 * mostKnown) {
		now = now.Add(time.Minute)
		f.take(100+i, now)
	}
	assert.LessOrEqual(t, len(f.by), mostKnown+1)
}
