package bot

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzRead reads anything. A reading never fails, never claims to be clear with
// words left over, and is the same each time, also of the text as it was cleaned.
func FuzzRead(f *testing.F) {
	for _, l := range append(corpus(f, enCorpus), corpus(f, esCorpus)...) {
		f.Add(l.text)
	}
	for _, s := range []string{"", " ", "?", "/", "/@", "@yardbell", "yardbell", "~", "*", "#", "-", "34/", "/38", "34/38/40", "::", "7:", ":7", "b", "batch", "batch no",
		"from", "old", "h old", "to old", "at", "on", "in", "last", "this", "half past", "quarter to", "a hundred", "hundred", "hundred and", "one hundred and",
		"later", "later at", "later until", "remind me", "skip,", "skip it,", "set ", "set the", "set step", "set step accept 18/24/48", "set 1 2", "add yard", "add a yard", "add builder",
		"not", "not 45", "*45", "why why", "help with", "show", "due next", "due on", "due may", "the", "99999999999999999999 moved", "moved -5",
		"a las", "a la una y", "a las 4 y", "a las 24 de la noche", "a las -4 y media", "las", "las 9", "de", "de 7 de", "de 12 a", "45 de de 7", "en", "en el", "hace", "hace #",
		"treinta y", "ciento", "ciento y", "treinta y una y", "ajustar", "ajustar la", "ajustar a", "ajustar mover 1/2/3", "ajustar idioma ñ", "agregar apiario", "agregar apiario El",
		"acabo de", "mitad de", "la mitad de 38", "in jerté", "no eran", "mañana", "MAÑANA", "man\u0303ana moví 34", "movi\u0301 34 a North", "n° 4", "lote nº 4", "¿", "¿qué", "¡listo!",
		strings.Repeat("injerté 45 de la 7 ", 700), strings.Repeat("treinta y ", 300), strings.Repeat("a las 4 y ", 200),
		"moved 34\u202e to North", "mov\u0301ed 34", "\xff\xfe moved 34", "K B2", "İ", "ß", "ﬁnished", "confine ７", "בוקר טוב 7", "moved\u00a034\u2009to North",
		strings.Repeat("graft 45 from 7 ", 700), strings.Repeat("a", 10000), strings.Repeat("34/38,", 2000)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r := read(s, crewNames)
		if r.clear() && len(r.rest) > 0 {
			t.Fatalf("%q is clear with %q left over", s, r.rest)
		}
		if again := read(s, crewNames); fmt.Sprintf("%+v", said(r)) != fmt.Sprintf("%+v", said(again)) {
			t.Fatalf("%q reads in two ways: %s, %s", s, shown(r), shown(again))
		}
		if c := clean(s); clean(c) == c && shown(read(c, crewNames)) != shown(r) {
			t.Fatalf("%q reads in another way once cleaned: %s, %s", s, shown(r), shown(read(c, crewNames)))
		}
		for _, v := range append([]string{r.builder, r.yard, r.mark, r.reason, r.key, r.value, r.topic}, r.rest...) {
			if !utf8.ValidString(v) {
				t.Fatalf("%q: %q is not text", s, v)
			}
		}
		if r.builder != "" && !isNames(r.builder) && r.verb != doAdd && !has(crewNames.builders, r.builder) || r.yard != "" && r.verb == doStep && !isNames(r.yard) && len(r.yard) < 24 {
			t.Fatalf("%q names a builder %q, a yard %q", s, r.builder, r.yard)
		}
		if acted(r) && r.verb == doStep && r.step == "" {
			t.Fatalf("%q logs no step", s)
		}
	})
}

// said is a reading without its pointers, for comparing.
func said(r *reading) string {
	return fmt.Sprint(shown(r), r.rest, r.typos, r.addressed, r.question, r.negated, r.hedged, r.digits)
}

// TestReadWork counts what the reader looks at. The work grows with the words of a
// message and stops at the most that are read, however long the message is.
func TestReadWork(t *testing.T) {
	work := func(s string) int {
		d := newReader(s, crewNames)
		d.read()
		return d.looks
	}
	words := splitSpace("we grafted 45 larvae from breeder 7 into builder B2 and moved 34 of 38 cells to the North yard yesterday at 7:30 in the morning with 12 h old bars")
	spanish := splitSpace(`ayer injertamos 45 larvas de la madre 7 en la criadora B2 a las 4 y media de la tarde y movimos treinta y cuatro de las 38 celdas al apiario North
		todavía no hay huevos listos núcleos enjaulé hace 2 horas de 12 a 24 h de edad`)
	most := 0.0
	for n := 10; n <= mostTokens-10; n += 5 {
		for _, list := range [][]string{words, spanish} {
			text := ""
			for i := range n {
				text += list[i%len(list)] + " "
			}
			most = max(most, float64(work(text))/float64(n))
		}
	}
	if most > 150 {
		t.Errorf("%.0f looks a word", most)
	}
	for _, word := range append(words, spanish...) {
		for _, n := range []int{30, 50} {
			if a := float64(work(strings.Repeat(word+" ", n))) / float64(n); a > 150 {
				t.Errorf("%q %d times: %.0f looks a word", word, n, a)
			}
		}
	}
	for _, s := range []string{strings.Repeat("graft 45 from 7 ", 2500), strings.Repeat("moved34", 1500), strings.Repeat("moved,34,", 1200), strings.Repeat("x ", 5000),
		strings.Repeat("injerté 45 de la 7 ", 2500), strings.Repeat("treinta y ", 3000), strings.Repeat("a las 4 de la ", 1200)} {
		if n := work(s); n > 150*mostTokens {
			t.Errorf("a text of %d characters took %d looks", len(s), n)
		}
	}
	t.Logf("at most %.0f looks a word", most)
}

func BenchmarkRead(b *testing.B) {
	lines := append(corpus(b, enCorpus), corpus(b, esCorpus)...)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		read(lines[i%len(lines)].text, crewNames)
		i++
	}
}
