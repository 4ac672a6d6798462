package bot

import (
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// Every form that the README and the help show is read in full, so that nobody is
// told to type what is then left alone.
func TestShownFormsAreRead(t *testing.T) {
	var forms []string
	readme, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	_, table, ok := strings.Cut(string(readme), "### What it reads")
	require.True(t, ok)
	table, _, _ = strings.Cut(table, "\n### ")
	for _, row := range strings.Split(table, "\n") {
		if strings.HasPrefix(row, "| ") {
			for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(row, -1) {
				forms = append(forms, m[1])
			}
		}
	}
	require.Greater(t, len(forms), 40)
	v := newVoice(rules.DefaultSettings(), time.Time{})
	for _, s := range rules.Steps {
		if id := "help_" + string(s); v.has(id) {
			forms = append(forms, strings.Split(v.say(id), " | ")...)
		}
	}
	for _, l := range strings.Split(v.say("help"), "\n") {
		if _, list, ok := strings.Cut(l, ": "); ok {
			for _, f := range strings.Split(list, " | ") {
				if !strings.HasPrefix(f, "or ") {
					forms = append(forms, f)
				}
			}
		}
	}
	for _, f := range forms {
		r := read(f, names{builders: []string{"B1", "B2", "B3"}, yards: []string{"North"}})
		assert.NotEqual(t, noVerb, r.verb, f)
		assert.Empty(t, r.rest, f)
		if r.verb == doStep || r.verb == doDone {
			assert.True(t, r.clear(), f)
		}
	}
}

// Every Spanish form that answers and help show is read in full, as its English
// equivalent is.
func TestSpanishFormsAreRead(t *testing.T) {
	b, err := os.ReadFile("../testdata/utterances/forms-es.tsv")
	require.NoError(t, err)
	crew := names{builders: []string{"B1", "B2", "B3"}, yards: []string{"North"}}
	spoken := crew
	spoken.spoken = true
	n := 0
	for _, l := range strings.Split(string(b), "\n") {
		es, en, ok := strings.Cut(l, "\t")
		if !ok || strings.HasPrefix(l, "#") {
			continue
		}
		en, note, _ := strings.Cut(en, "\t")
		if strings.Contains(note, "not the reader's work") || strings.Contains(note, "shape only") {
			continue
		}
		n++
		for _, who := range []names{crew, spoken} {
			was, is := read(en, who), read(es, who)
			if was.verb == noVerb && was.subject().Zero() {
				continue // a word alone that only an answer makes something of
			}
			was.reason, is.reason = strings.Split(was.reason, " ")[0], strings.Split(is.reason, " ")[0]
			if was.reason != "" && is.reason != "" {
				is.reason = was.reason // as typed, in either language
			}
			assert.Equal(t, shown(was), shown(is), es)
			assert.Empty(t, is.rest, es)
			assert.Equal(t, was.clear(), is.clear(), es)
		}
	}
	require.Greater(t, n, 80)
}
