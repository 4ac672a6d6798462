package conversation

import (
	"cmp"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// section is what stands under a heading of a page, up to the next one.
func section(t *testing.T, page, heading string) string {
	t.Helper()
	b, err := os.ReadFile(page)
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(b), "\n## "+heading+"\n")
	require.True(t, ok, "%s has no section %q", page, heading)
	text, _, _ = strings.Cut(text, "\n## ")
	return text
}

var shown = regexp.MustCompile("`([^`]+)`")

// cells are the rows of the tables in a text, each with its forms by column.
func cells(text string) (rows [][][]string) {
	for _, l := range strings.Split(text, "\n") {
		if !strings.HasPrefix(l, "| ") {
			continue
		}
		var row [][]string
		for _, c := range strings.Split(strings.Trim(l, "|"), " | ") {
			var forms []string
			for _, m := range shown.FindAllStringSubmatch(c, -1) {
				forms = append(forms, m[1])
			}
			row = append(row, forms)
		}
		rows = append(rows, row)
	}
	return rows
}

// The fifteen lines of the README are read in full, and say the same in both languages.
func TestFirstFormsSayTheSame(t *testing.T) {
	n := 0
	for _, row := range cells(section(t, "../../README.md", "Fifteen things to type")) {
		if len(row[0]) == 0 {
			continue
		}
		n++
		require.Len(t, row, 2)
		require.Len(t, row[0], 1)
		require.Len(t, row[1], 1)
		en, es := readSomewhere(row[0][0]), readSomewhere(row[1][0])
		assert.Equal(t, rdg.Log, en.Outcome, row[0][0])
		assert.Equal(t, rdg.Log, es.Outcome, row[1][0])
		assert.Equal(t, spellForm(en.Acts), spellForm(es.Acts), "%s: %s", row[0][0], row[1][0])
	}
	assert.Equal(t, 15, n)
}

// Every form that the pages and the help show is read in full, so that nobody is
// told to type what is then left alone.
func TestShownFormsAreRead(t *testing.T) {
	var forms []string
	for heading, least := range map[string]int{"English": 55, "Spanish": 50, "Several things in one message": 6, "Orders and numbers": 12} {
		found := shown.FindAllStringSubmatch(section(t, "../README.md", heading), -1)
		require.GreaterOrEqual(t, len(found), least, heading)
		for _, m := range found {
			forms = append(forms, m[1])
		}
	}
	for _, m := range shown.FindAllStringSubmatch(section(t, "../../README.md", "Fifteen things to type"), -1) {
		forms = append(forms, m[1])
	}
	require.Greater(t, len(forms), 120)
	v := wording.New(rules.DefaultSettings(), time.Time{})
	for _, s := range rules.Steps {
		if id := "help_" + string(s); v.Has(id) {
			forms = append(forms, strings.Split(v.Say(id), " | ")...)
		}
	}
	for _, l := range strings.Split(v.Say("help"), "\n") {
		if _, list, ok := strings.Cut(l, ": "); ok {
			for _, f := range strings.Split(list, " | ") {
				if !strings.HasPrefix(f, "or ") {
					forms = append(forms, f)
				}
			}
		}
	}
	for _, f := range forms {
		res := readSomewhere(f)
		assert.Equal(t, rdg.Log, res.Outcome, "%s: %v, unread %v", f, res.Doubts, res.Unread)
	}
}

// formCrew is the situation in which all forms can be said.
func formCrew() rdg.Known {
	k := rdg.Known{Now: time.Date(2031, 5, 14, 17, 0, 0, 0, time.UTC), Breeders: []int{3, 7, 12}, Builders: []string{"B1", "B2", "B3"}, Yards: []string{"North", "Creek"},
		Customers: []string{"Haskett"}, Stock: 24, Members: []string{"Wren", "Ash"}, Combs: map[int]string{7: ""}}
	for _, s := range []rules.Step{rules.Accept, rules.Finish, rules.Capped, rules.Nucs, rules.Move, rules.Emerge, rules.Laying, rules.Catch, rules.Recell} {
		k.Open = append(k.Open, rdg.Expect{Step: s, Batch: 4, Breeder: 7, Builder: "B2", Had: 45, Ready: true})
	}
	n := 45
	k.Last = &rdg.Line{Act: rdg.Act{Kind: rdg.Did, Step: rules.Accept, Batch: 4, Count: &n}, At: k.Now, Since: time.Minute}
	return k
}

// readSomewhere reads a form as a message of its own and, where that is not enough, as a
// reply to a ping.
func readSomewhere(form string) rdg.Result {
	k := formCrew()
	res := Understand().Read(form, k)
	if res.Outcome != rdg.Log {
		k.Reply = &rdg.Ping{Step: rules.Move, Batch: 4, Task: true}
		res = Understand().Read(form, k)
	}
	if res.Outcome != rdg.Log {
		res = Understand().Read(form, roundCrew())
	}
	return res
}

// roundCrew is the same crew with a round of three bars under way.
func roundCrew() rdg.Known {
	k := formCrew()
	k.Open, k.Last = nil, nil
	for _, s := range []rules.Step{rules.Accept, rules.Finish, rules.Move} {
		for i, b := range k.Builders {
			k.Open = append(k.Open, rdg.Expect{Step: s, Batch: i + 4, Breeder: 7, Builder: b, Had: 45, Ready: true})
		}
	}
	return k
}

// Every Spanish form that answers and help show is read in full, as its English
// equivalent is.
func TestSpanishFormsAreRead(t *testing.T) {
	b, err := os.ReadFile("../../testdata/utterances/forms-es.tsv")
	require.NoError(t, err)
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
		was, is := readSomewhere(en), readSomewhere(es)
		assert.Equal(t, was.Outcome, is.Outcome, "%s: %s", es, en)
		assert.Equal(t, spellForm(was.Acts), spellForm(is.Acts), "%s: %s", es, en)
	}
	require.Greater(t, n, 80)
}

// spellForm spells acts without what stands in them as it was typed.
func spellForm(acts []rdg.Act) (out []string) {
	for _, a := range acts {
		a.Reason = ""
		if a.Setting != "" && a.Value != "" {
			a.Value = wording.Stored(cmp.Or(settingKeys[a.Setting], a.Setting), a.Value)
		}
		a.Value = strings.ReplaceAll(a.Value, ",", ".")
		out = append(out, a.String())
	}
	return out
}
