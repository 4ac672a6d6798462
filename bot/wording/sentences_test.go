package wording

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the pages of all sentences anew")

// examples reads what the pages fill in, in the language of that place.
func examples(t *testing.T, place int) map[string]string {
	t.Helper()
	b, err := os.ReadFile("testdata/examples.txt")
	require.NoError(t, err)
	list := map[string]string{}
	for _, l := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if strings.HasPrefix(l, "#") {
			continue
		}
		name, values, ok := strings.Cut(l, ": ")
		require.True(t, ok, l)
		each := strings.Split(values, " | ")
		list[name] = each[min(place, len(each)-1)]
	}
	return list
}

var hole = regexp.MustCompile(`\{\{\.([A-Za-z]+)\}\}`)

// fill writes a sentence with its holes filled in, and says what they were. What follows a
// word or another hole brings its own blank in the program.
func fill(t *testing.T, page *bytes.Buffer, id, s string, say map[string]string) (names []string) {
	t.Helper()
	var b strings.Builder
	at := 0
	for _, m := range hole.FindAllStringSubmatchIndex(s, -1) {
		name := s[m[2]:m[3]]
		names = append(names, name)
		b.WriteString(s[at:m[0]])
		if last, _ := utf8.DecodeLastRuneInString(b.String()); m[0] > 0 && (unicode.IsLetter(last) || at == m[0]) {
			b.WriteByte(' ')
		}
		if own := id + "." + name; say[own] != "" {
			name = own
			names = append(names, own)
		}
		assert.Contains(t, say, name, "examples.txt has none for %s of %s", name, id)
		b.WriteString(say[name])
		at = m[1]
	}
	fmt.Fprintf(page, "%s\t%s\n", id, strings.ReplaceAll(b.String()+s[at:], "\n", "\n\t"))
	return names
}

// TestSentences holds a page for each language that shows every sentence once, in each of its
// forms, with examples filled in: to be read from top to bottom. It is where a changed word
// shows, whatever it is said in.
func TestSentences(t *testing.T) {
	used := map[string]bool{}
	for place, lang := range Languages {
		text, err := wordFiles.ReadFile(lang + ".toml")
		require.NoError(t, err)
		var raw map[string]any
		require.NoError(t, toml.Unmarshal(text, &raw))
		say := examples(t, place)
		var page bytes.Buffer
		for _, l := range strings.Split(string(text), "\n") {
			id, _, is := strings.Cut(l, " = ")
			if head, ok := strings.CutPrefix(l, "# --- "); ok {
				fmt.Fprintf(&page, "\n== %s\n", head)
			}
			if !is || strings.HasPrefix(l, "#") || raw[id] == nil {
				continue
			}
			forms := map[string]any{"other": raw[id]}
			if m, ok := raw[id].(map[string]any); ok {
				forms = m
			}
			for _, form := range []string{"one", "many", "other"} {
				s, ok := forms[form].(string)
				if !ok {
					continue
				}
				say["Count"] = map[string]string{"one": "1", "many": "1000000", "other": "38"}[form]
				for _, name := range fill(t, &page, id, s, say) {
					used[name] = true
				}
			}
			delete(raw, id)
		}
		require.Empty(t, raw, "the page leaves something out")
		path := filepath.Join("testdata", "sentences."+lang+".txt")
		if *update {
			require.NoError(t, os.WriteFile(path, page.Bytes(), 0o644))
			continue
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), page.String(), "go test ./bot/wording -update writes it anew; read the whole difference")
	}
	for name := range examples(t, 0) {
		assert.True(t, used[name], "no sentence has %s", name)
	}
}

// Marks change nothing of what is said, and show what it is put together of.
func TestMarks(t *testing.T) {
	Marked(true)
	defer Marked(false)
	assert.Equal(t, "a(B=c(D=1)x, E=2) tail", IDs(mark("a", "Words "+mark(argMark+"E", "2")+" and "+mark(argMark+"B", mark("c", mark(argMark+"D", "1")+"!")+"x"))+" tail"))
	assert.Equal(t, []string{"a", "tomorrow"}, Sentences("x "+mark("a", mark(argMark+"B", mark("c", "d")))+mark("@tomorrow 10:00", "tomorrow 10")))
	assert.Equal(t, "Say it", Bare(Upper(mark("a", mark(argMark+"B", "say")+" it"))))
	assert.Equal(t, mark("a", "b"), Trimmed(mark("a", " b ")))
	assert.Equal(t, mark("a", "b. ")+"c", Without(mark("a", "b. No. ")+mark("n", "No.")+"c", mark("n", "No.")))
	assert.Equal(t, 3, Units(mark("abc", "xyz")))
	for _, lang := range Languages {
		text, err := wordFiles.ReadFile(lang + ".toml")
		require.NoError(t, err)
		assert.False(t, slices.ContainsFunc([]rune(string(text)), func(r rune) bool { return strings.ContainsRune(allMarks, r) }), "%s has a mark", lang)
	}
}
