package reading

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"
)

// The third language stands in testdata alone: German, a file and no code. Its messages
// were written after the file, by somebody who did not write it.
const (
	thirdLexicon  = "testdata/de.lex"
	thirdMessages = "testdata/de-messages.tsv"
	thirdRight    = 24 // of 30
)

// overlay is a folder with one more file in it.
type overlay struct {
	fs.FS
	name, path string
}

func (o overlay) Open(name string) (fs.File, error) {
	if name == o.name {
		return os.Open(o.path)
	}
	return o.FS.Open(name)
}

func (o overlay) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(o.FS, name)
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(o.path)
	if err != nil {
		return nil, err
	}
	list = append(list, fs.FileInfoToDirEntry(info))
	sort.Slice(list, func(i, k int) bool { return list[i].Name() < list[k].Name() })
	return list, nil
}

// trilingual reads German beside the languages of the program.
func trilingual(t testing.TB) *Reader {
	t.Helper()
	r, err := Load(overlay{FS: Data(), name: "de.lex", path: thirdLexicon})
	require.NoError(t, err)
	return r
}

func TestThirdLanguage(t *testing.T) {
	r := trilingual(t)
	require.Equal(t, []string{"de", "en", "es"}, r.Languages())
	if _, err := os.Stat(thirdMessages); errors.Is(err, fs.ErrNotExist) {
		t.Skip("nobody has written the messages yet")
	}
	lines := situationLines(t, thirdMessages, "third", knownFiles(t))
	require.Len(t, lines, 30)
	right := 0
	for _, l := range lines {
		l.known.Language = "de"
		res := r.Read(l.text, l.known)
		v := verdict(l, res)
		if v == "right" {
			right++
			continue
		}
		t.Logf("%-7s %s %q: want %s, got %s %s others %s doubts %v unread %v", v, l.at, l.text, spellWant(l.want), res.Outcome, spellActs(res.Acts), spellOthers(res.Others), res.Doubts, res.Unread)
		require.NotEqual(t, "wrong", v, "%s: %q", l.at, l.text)
	}
	t.Logf("%d of %d right", right, len(lines))
	require.GreaterOrEqual(t, right, thirdRight)
}

// TestThirdLanguageLeavesOthers holds that a file for one more language does not change
// what is read in the others: but for words that two share, a line reads as before.
func TestThirdLanguageLeavesOthers(t *testing.T) {
	two, err := Load(Data())
	require.NoError(t, err)
	three := trilingual(t)
	lines := situationLines(t, filepath.Join(utterances, "situations/lines.tsv"), "situations", knownFiles(t))
	var other []string
	for _, l := range lines {
		a, b := two.Read(l.text, l.known), three.Read(l.text, l.known)
		if a.Outcome != b.Outcome || spellActs(a.Acts) != spellActs(b.Acts) {
			other = append(other, l.at+" "+l.text+": "+string(a.Outcome)+" "+spellActs(a.Acts)+" became "+string(b.Outcome)+" "+spellActs(b.Acts))
			require.NotEqual(t, "wrong", verdict(l, b), "%s: %q", l.at, l.text)
		}
	}
	for _, o := range other {
		t.Log(o)
	}
	require.LessOrEqual(t, len(other)*100, len(lines)*2, "%d of %d lines read otherwise", len(other), len(lines))
}

// TestConceptsOfTheRules holds that every concept which the rules go by is one that a
// lexicon has words of: one forgotten would be read as no word at all.
func TestConceptsOfTheRules(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	has := map[concept]bool{}
	for _, p := range r.lex.phrases {
		for _, s := range p.senses {
			has[s.concept] = true
		}
	}
	v := reflect.ValueOf(r.c)
	for i := range v.NumField() {
		require.True(t, has[concept(v.Field(i).Int())], "no word means what the rules call %s", v.Type().Field(i).Name)
	}
}

// TestSpellingOfANumber holds that a spelling may stand for a number or a time of day.
func TestSpellingOfANumber(t *testing.T) {
	r := trilingual(t)
	l := r.newLattice("um halb acht", &Known{})
	require.Len(t, l.toks, 2)
	require.Equal(t, 7*60+30, l.toks[1].clock)
	require.Equal(t, "halb acht", l.text[l.toks[1].from:l.toks[1].to])
}

// TestSpellingOfAnotherLanguage holds that a word of the message's own language is not put
// right as a misspelt one of another.
func TestSpellingOfAnotherLanguage(t *testing.T) {
	r := trilingual(t)
	l := r.newLattice("die 7 ist im Käfig", &Known{})
	require.Equal(t, "im", l.toks[3].text)
	l = r.newLattice("im going to feed them", &Known{})
	require.Equal(t, "i'm", l.toks[0].text)
}
