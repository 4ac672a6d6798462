package main

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pairs are the conversations in both languages, by name: each there is in English
// there is in Spanish.
func pairs(t testing.TB) map[string][2]conversation {
	t.Helper()
	english, spanish := scriptsIn(t, "en"), scriptsIn(t, "es")
	require.Equal(t, len(english), len(spanish), "conversations in English and in Spanish")
	list := map[string][2]conversation{}
	for i, en := range english {
		es := spanish[i]
		require.Equal(t, filepath.Base(en.base), filepath.Base(es.base), "the same conversations in both languages")
		list[en.name] = [2]conversation{en, es}
	}
	return list
}

// Line N of a conversation is the same in both languages: the same person writes,
// replies or presses, or the clock moves to the same time. What is written is Spanish.
func TestBothLanguagesSayTheSame(t *testing.T) {
	for name, p := range pairs(t) {
		t.Run(name, func(t *testing.T) {
			en, es := strings.Split(p[0].text, "\n"), strings.Split(p[1].text, "\n")
			require.Equal(t, len(en), len(es), "lines")
			same, said := 0, 0
			for i := range en {
				a, err := parseLine(trimEOL(en[i]))
				require.NoError(t, err)
				b, err := parseLine(trimEOL(es[i]))
				require.NoError(t, err)
				if headForm.MatchString(en[i]) {
					require.Equal(t, en[i], es[i], "line %d", i+1)
				}
				if a.text != "" {
					said++
				}
				if a.text != "" && a.text == b.text {
					same++
				}
				require.Equal(t, a.text == "", b.text == "", "line %d", i+1)
				a.text, b.text = "", ""
				require.Equal(t, a, b, "line %d", i+1)
			}
			// A bare number, a name or an emoji is the same in any language.
			assert.LessOrEqual(t, same, said/3, "lines left as they are in English")
		})
	}
}

// bilingual are the conversations of crews in both languages, whose Spanish side says
// English by design: they have to show it in place of doing without.
var bilingual = map[string]bool{"languages": true, "emergency_other": true, "slips_alone": true}

// The Spanish conversation logs what the English one logs, message by message: only
// the words and the buttons' labels differ.
func TestBothLanguagesLogTheSame(t *testing.T) {
	inSequence(t)
	foreign := onlyEnglish(t)
	all := playAll(t, scripts(t))
	for name, p := range pairs(t) {
		t.Run(name, func(t *testing.T) {
			en, es := parse(t, all[p[0].name].jsonl()), parse(t, all[p[1].name].jsonl())
			typed := strings.ToLower(p[1].text)
			english := 0 // messages with words of the English catalogue alone
			for i := range min(len(en), len(es)) {
				words := spokenWords(t, es[i])
				k := slices.IndexFunc(foreign, func(s string) bool { return strings.Contains(words, s) && !strings.Contains(typed, s) })
				if k >= 0 {
					english++
				}
				assert.True(t, k < 0 || bilingual[name], "message %d is English: %q in %s", i+1, foreign[max(k, 0)], words)
				a, b := wordless(t, en[i]), wordless(t, es[i])
				require.Equal(t, a, b, "message %d: %v; in English %v", i+1, es[i]["text"], en[i]["text"])
			}
			require.Len(t, es, len(en), "messages")
			assert.Equal(t, bilingual[name], english > 0, "says English to a Spanish crew")
		})
	}
}

// spokenWords is all that a message shows, in small letters.
func spokenWords(t testing.TB, m map[string]any) string {
	t.Helper()
	words := m["text"].(string)
	for _, b := range m["buttons"].([]any) {
		words += "\n" + b.(string)
	}
	return strings.ToLower(words)
}

// wordless is a message of the console protocol without its words: of the buttons
// their number is left.
func wordless(t testing.TB, m map[string]any) map[string]any {
	t.Helper()
	out := map[string]any{}
	for k, v := range m {
		switch k {
		case "text":
			require.True(t, v != "" || m["kind"] == "notice", "says nothing") // a sign has no words
		case "buttons":
			out[k] = len(v.([]any))
		case "logged": // why work was let go is said in the crew's words
			out[k] = v
			for _, e := range v.([]any) {
				delete(e.(map[string]any), "reason")
			}
		default:
			out[k] = v
		}
	}
	return out
}

var holeForm = regexp.MustCompile(`\{\{[^}]*\}\}`)

// onlyEnglish are the literal parts of the English catalogue's sentences that are
// longer than 12 letters, in small letters; those that the Spanish one has as well
// are left out.
func onlyEnglish(t testing.TB) (list []string) {
	t.Helper()
	spanish := strings.ToLower(strings.Join(sentences(t, "es"), "\n"))
	for _, s := range sentences(t, "en") {
		for _, line := range strings.Split(strings.ToLower(s), "\n") {
			for _, part := range holeForm.Split(line, -1) {
				part = strings.Trim(part, " .,:;()\"")
				letters := 0
				for _, r := range part {
					if unicode.IsLetter(r) {
						letters++
					}
				}
				if letters > 12 && !strings.Contains(spanish, part) {
					list = append(list, part)
				}
			}
		}
	}
	require.Greater(t, len(list), 100, "sentences that are English alone")
	return list
}

// sentences are all messages of a catalogue, every plural form by itself.
func sentences(t testing.TB, lang string) (list []string) {
	t.Helper()
	var raw map[string]any
	require.NoError(t, toml.Unmarshal([]byte(read(t, "../../bot/wording/"+lang+".toml")), &raw))
	for id, v := range raw {
		switch v := v.(type) {
		case string:
			list = append(list, v)
		case map[string]any:
			for _, form := range v {
				list = append(list, fmt.Sprint(form))
			}
		default:
			require.Fail(t, "a message of no known form", id)
		}
	}
	return list
}
