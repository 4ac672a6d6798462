package reading

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// reportLines are the labelled lines, and the seasons without their situations.
func reportLines(t testing.TB) (out []labelled) {
	known := knownFiles(t)
	for _, f := range []string{"en.tsv", "es.tsv"} {
		out = append(out, contextLines(t, filepath.Join(utterances, f), known)...)
	}
	out = append(out, situationLines(t, filepath.Join(utterances, "situations/lines.tsv"), "situations", known)...)
	for _, f := range []string{"en.txt", "es.txt"} {
		eachRow(t, filepath.Join(utterances, "seasons", f), func(n int, c []string) {
			if len(c) < 3 || strings.TrimSpace(c[2]) == "" {
				return
			}
			k := Known{Breeders: []int{7, 12}, Builders: []string{"B1", "B2", "B3"}, Yards: []string{"North", "Creek"}, Members: []string{c[0]}, Language: f[:2]}
			k.Addressed = strings.HasPrefix(c[1], ">")
			out = append(out, labelled{at: f + ":" + strconv.Itoa(n), text: strings.TrimLeft(c[1], ">"), known: k, want: parseSituationLabel(c[2])})
		})
	}
	return out
}

// TestReportsAreNoCommands holds that no line that is labelled a report or talk is taken
// for a command, nor answered as an opening that was not understood.
func TestReportsAreNoCommands(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	n := 0
	for i, l := range reportLines(t) {
		if !allTests && i%3 != 0 {
			continue
		}
		w := l.want[0][0]
		switch w.action {
		case "did", "amend", "mine", "later", "skip", "silent", "nolog":
		default:
			continue
		}
		n++
		k := l.known
		if res, ok := r.newLattice(l.text, &k).command(); ok && res.Acts[0].Kind != Did && !(w.action == "did" && w.step == "add" && res.Acts[0].Kind == Add) {
			t.Errorf("%s: %q is read as %s, and is %s", l.at, l.text, spellActs(res.Acts), spellWant(l.want))
		}
		if res := r.Read(l.text, k); w.action != "did" && res.Outcome == Ask && len(res.Doubts) == 1 && res.Doubts[0] == kindCommand {
			t.Errorf("%s: %q is answered as a command, and is %s", l.at, l.text, spellWant(l.want))
		}
	}
	require.Greater(t, n, 1000)
}

// FuzzCommand holds that no message brings the matcher down, and that its work stays
// bounded: an act is whole, its row known.
func FuzzCommand(f *testing.F) {
	r, err := Load(Data())
	require.NoError(f, err)
	for _, s := range []string{"set evening 19:00", "/set@yardbell_bot quiet de 21:00 a 5:30", "agregar madres 7 y 8 en North", "order: 50 queens for Dale, July 1", "what if confine 7 a day later",
		"pendiente próximos 3 días", "yardbell plan 100 reinas para el 20 de junio de 2040", "rendimiento por madre", "incubadora a 34 grados y medio", "make Ash lead", "why graft 7", "/", "add yard", "set"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	k := Known{Breeders: []int{7, 12}, Builders: []string{"B1", "B2"}, Yards: []string{"North", "Creek Side"}, Members: []string{"Wren", "Ash Pine"}, Former: []string{"Finch"}, Language: "es"}
	f.Fuzz(func(t *testing.T, text string, addressed bool) {
		k := k
		k.Addressed = addressed
		plain, _ := unslash(text)
		l := r.newLattice(plain, &k)
		for _, read := range []func() (Result, bool){l.command, l.unreadCommand} {
			res, ok := read()
			if !ok {
				continue
			}
			require.NotEmpty(t, res.Acts)
			for _, a := range res.Acts {
				require.True(t, commandKinds[a.Kind], "%q: %s", text, a.Kind)
				require.False(t, a.Count != nil && *a.Count <= 0, text)
				require.LessOrEqual(t, len(a.Value), len(plain), text)
				if a.Kind == Add {
					n := 0
					for _, has := range []bool{a.Breeder != 0, a.Builder != "", a.Yard != ""} {
						if has {
							n++
						}
					}
					require.True(t, res.Outcome == Ask || n == 1 || n == 2 && a.Yard != "", "%q: %+v", text, a)
				}
			}
		}
	})
}

// TestSlipsOfCommands holds that a slip in a word of a command is read within the
// language of the message alone.
func TestSlipsOfCommands(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	k := Known{Breeders: []int{7}, Builders: []string{"B1"}, Yards: []string{"North"}, Language: "en"}
	for _, c := range []struct {
		text string
		is   bool
	}{
		{"pendeinte", true}, {"add braeder 9", true}, {"btach 4", true}, {"due tomrrow", true}, {"rendimeinto", true}, {"calendarrio", true},
		{"set evenning 19:00", true}, {"pedidio 40 celdas para el 3 de junio", true}, {"ordr 100 queens by 20 June", true},
		{"set tardee 19:00", false}, {"order 40 cledas by Friday", false}, {"pnd", false},
	} {
		k.Language = "en"
		if c.text == "pendeinte" || c.text == "rendimeinto" || c.text == "calendarrio" {
			k.Language = "es" // a word alone is a slip of the crew's own language, or none
		}
		res := r.Read(c.text, k)
		require.Equal(t, c.is, res.Outcome == Log, "%s: %+v", c.text, res)
	}
}
