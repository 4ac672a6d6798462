package bot

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// messages reads a language's messages as they stand in its file, by id and plural
// form; a message that has none comes under "other".
func messages(t *testing.T, lang string) map[string]map[string]string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("wording", lang+".toml"))
	require.NoError(t, err)
	var raw map[string]any
	require.NoError(t, toml.Unmarshal(b, &raw))
	out := map[string]map[string]string{}
	for id, v := range raw {
		out[id] = map[string]string{}
		switch v := v.(type) {
		case string:
			out[id]["other"] = v
		case map[string]any:
			for name, form := range v {
				out[id][name] = form.(string)
			}
		}
	}
	return out
}

// catalogue is messages with all forms of one in a list.
func catalogue(t *testing.T, lang string) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for id, forms := range messages(t, lang) {
		out[id] = slices.Collect(maps.Values(forms))
	}
	return out
}

func holes(s string) []string {
	list := holeForm.FindAllString(s, -1)
	sort.Strings(list)
	return slices.Compact(list)
}

// Every language says the same things with the same values in them, in every
// plural form. Only a count may be left out of a form that says it in words.
func TestCataloguesAgree(t *testing.T) {
	english := messages(t, "en")
	forms := map[string][]string{"en": {"one", "other"}, "es": {"many", "one", "other"}}
	for _, lang := range wording.Languages {
		other := messages(t, lang)
		assert.ElementsMatch(t, slices.Collect(maps.Keys(english)), slices.Collect(maps.Keys(other)), lang)
		for id, list := range other {
			want := holes(english[id]["other"])
			for name, text := range list {
				assert.Equal(t, want, holes(text), "%s: %s, %s", lang, id, name)
				assert.NotEmpty(t, strings.TrimSpace(text), "%s: %s", lang, id)
				assert.Equal(t, strings.Count(text, "{{"), len(holeForm.FindAllString(text, -1)), "%s: %s has something else in braces", lang, id)
			}
			if len(list) > 1 {
				names := slices.Sorted(maps.Keys(list))
				assert.Equal(t, forms[lang], names, "%s: %s", lang, id)
			}
		}
	}
}

// Each sentence can be worded for any count, in each language, and for a count
// that is not known.
func TestWordsTakeAnyCount(t *testing.T) {
	two := 2
	for _, lang := range wording.Languages {
		v := wording.In(lang, rules.DefaultSettings(), time.Date(2031, 5, 8, 12, 0, 0, 0, time.UTC))
		for id := range catalogue(t, lang) {
			for _, n := range []any{0, 1, 2, 45, 1000000, &two, (*int)(nil)} {
				assert.NotEqual(t, "{"+id+"}", v.Say(id, "Count", n), "%s: %s with %v", lang, id, n)
			}
		}
	}
}

// Messages of one language do not come out in another.
func TestPluralsOfSpanish(t *testing.T) {
	v := wording.In("es", rules.DefaultSettings(), time.Date(2031, 5, 8, 12, 0, 0, 0, time.UTC))
	one, many := 1, 45
	for _, c := range []struct{ want, got string }{
		{"1 injertada", v.Say("e_graft_cells", "Count", 1)},
		{"45 injertadas", v.Say("e_graft_cells", "Count", 45)},
		{"0 injertadas", v.Say("e_graft_cells", "Count", 0)},
		{"operculada", v.Past(rules.Capped, &one)},
		{"operculadas", v.Past(rules.Capped, &many)},
		{"operculadas", v.Past(rules.Capped, nil)},
		{"núcleo listo", v.Past(rules.Nucs, &one)},
		{"algunos núcleos listos en North.", v.Say("e_nucs_plain", "Count", v.Count(rules.Nucs, nil), "At", " en North")},
		{"1 núcleo listo.", v.Say("e_nucs_plain", "Count", v.Count(rules.Nucs, &one), "At", "")},
		{": 1 reina", v.Say("what_queens", "Count", 1)},
		{": 2 reinas", v.Say("what_queens", "Count", 2)},
		{"Nuevo: madre 9. ¿Lo agrego y anoto esto?", v.Say("ask_unknown", "What", "madre 9", "Count", 1)},
		{"Nuevos: madre 9 y criadora B4. ¿Los agrego y anoto esto?", v.Say("ask_unknown", "What", "madre 9 y criadora B4", "Count", 2)},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

// englishWords are short words that no Spanish sentence has; North and Yardbell
// are names.
var englishWords = wording.Words(`the of and is are was were you your it its that this not yet before after from into with without for on at by to or nothing
logged type answer best done later skip batch breeder builder yard cells queens today tomorrow yesterday which how many when what there here now again`)

// No English is left in the Spanish catalogue.
func TestSpanishIsSpanish(t *testing.T) {
	word := regexp.MustCompile(`\p{L}+`)
	for id, forms := range catalogue(t, "es") {
		for _, f := range forms {
			for _, w := range word.FindAllString(holeForm.ReplaceAllString(f, " "), -1) {
				assert.False(t, englishWords[strings.ToLower(w)], "%s: %q in %q", id, w, f)
			}
			if strings.Contains(f, "?") {
				assert.Equal(t, strings.Count(f, "?"), strings.Count(f, "¿"), "%s: %q", id, f)
			}
		}
	}
	assert.True(t, englishWords["the"] && englishWords["yard"])
}

// Help is read on a phone held in a glove: it fits one screen of 60 characters by
// 15 lines.
func TestHelpFitsAPhone(t *testing.T) {
	for _, lang := range wording.Languages {
		for id, forms := range catalogue(t, lang) {
			if id != "help" && !strings.HasPrefix(id, "help_") {
				continue
			}
			for _, f := range forms {
				assert.LessOrEqual(t, len(wrap(f, 60)), 15, "%s: %s", lang, id)
				assert.LessOrEqual(t, utf8.RuneCountInString(f), 900, "%s: %s", lang, id)
			}
		}
	}
}

// wrap breaks a text as a phone does, at spaces.
func wrap(s string, width int) (lines []string) {
	for _, line := range strings.Split(s, "\n") {
		cur := ""
		for _, w := range strings.Fields(line) {
			if cur != "" && utf8.RuneCountInString(cur)+1+utf8.RuneCountInString(w) > width {
				lines, cur = append(lines, cur), ""
			}
			cur = strings.TrimSpace(cur + " " + w)
		}
		lines = append(lines, cur)
	}
	return lines
}

// Buttons are short enough to be read whole, and carry no more than a chat takes
// (64 bytes of data, Bot API), however long what they do is.
func TestButtonsAreShort(t *testing.T) {
	for _, lang := range wording.Languages {
		for id, forms := range catalogue(t, lang) {
			if strings.HasPrefix(id, "b_") {
				for _, f := range forms {
					assert.LessOrEqual(t, utf8.RuneCountInString(f), 26, "%s: %s", lang, id)
				}
			}
		}
	}
	s := rules.DefaultSettings()
	s.Lang = "en+es"
	long := "batch 1234|" + strings.Repeat("x", 200)
	for i, b := range wording.TaskButtons(wording.All(s, time.Time{}), long) {
		assert.LessOrEqual(t, utf8.RuneCountInString(b.Label), 22)
		assert.LessOrEqual(t, len(ButtonData(i, b)), 64)
	}
}

// Any sentence, filled with the longest values that occur, leaves a chat room to
// spare.
func TestSentencesFit(t *testing.T) {
	long := strings.Repeat("ñ", 120)
	for _, lang := range wording.Languages {
		for id, forms := range catalogue(t, lang) {
			for _, f := range forms {
				full := holeForm.ReplaceAllString(f, long)
				assert.LessOrEqual(t, wording.Units(full), wording.MostUnits, "%s: %s", lang, id)
				assert.NotContains(t, f, "!", "%s: %s: no exclamation marks", lang, id)
			}
		}
	}
}

// Whatever goes out unasked fits a chat, in both languages at once and with the
// longest names: pings of every step and kind, and lists of any length.
func TestWorstOfBothFits(t *testing.T) {
	s := rules.DefaultSettings()
	s.Lang = "en+es"
	s.Zone = time.FixedZone("", -5*3600)
	now := time.Date(2031, 11, 26, 12, 0, 0, 0, time.UTC)
	name := strings.Repeat("Ñandubay ", 8)[:64]
	yards := strings.Repeat("Wwwwwwww ", 3)[:24]
	count := 2000
	var items []rules.Task
	for _, row := range rules.DefaultTable().Rows {
		for i := range 8 {
			items = append(items, rules.Task{Key: fmt.Sprint(row.Step, i), Step: row.Step, Subject: rules.BatchSubject(1234), Batch: 1234, Breeder: 1234, Stake: row.Stake,
				Earliest: now, Best: now.Add(26 * time.Hour), Latest: now.Add(1000 * time.Hour), Count: &count, ClaimedBy: name, From: yards,
				Into: yards + rules.YardSep + yards + rules.YardSep + yards, Unfit: true, Mark: "turquoise", Weight: rules.Critical})
		}
	}
	out := store.Outgoing{Settings: s, Now: now, Items: items, Messages: []store.Message{{Kind: "digest", Ping: rules.Digest}}}
	d := wording.Render(out)
	assert.LessOrEqual(t, wording.Units(d.Text), wording.MostUnits)
	assert.Contains(t, d.Text, "Hoy, mié 26 nov:")
	assert.Contains(t, d.Text, "Today, Wed 26 Nov:")
	assert.Contains(t, d.Text, "Escriban: pendiente esta semana")
	out.Late, out.Messages[0].Ping = now, rules.Eve
	assert.LessOrEqual(t, wording.Units(wording.Render(out).Text), wording.MostUnits)
	for i := 0; i < len(items); i += 8 {
		k := items[i]
		for _, kind := range []rules.PingKind{rules.Eve, rules.OpenPing, rules.Closing6, rules.Closing2, rules.OverPing, rules.NoAnswer, rules.Again} {
			d := wording.Render(store.Outgoing{Settings: s, Now: now, Late: now, Task: &k, Yards: []string{yards, yards, yards}, Messages: []store.Message{{Kind: "ping", Ping: kind}}})
			require.LessOrEqual(t, wording.Units(d.Text), wording.MostUnits, "%s of %s", kind, k.Step)
			require.NotContains(t, d.Text, "{")
		}
	}
	v := wording.In("es", s, now)
	assert.LessOrEqual(t, wording.Units(v.List("Hoy", items, rules.DateOf(now, s.Zone).Add(400))), wording.MostUnits)
}
