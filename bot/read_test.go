package bot

import (
	"fmt"
	"os"
	"sort"
	"strings"
	"testing"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// crewNames are what the corpus takes for known.
var crewNames = names{builders: []string{"B1", "B2"}, yards: []string{"North", "Creek Side"}}

// line is one line of a corpus: a text, and the reading it must have, or that it
// must be asked back, or left alone.
type line struct {
	at         int
	text, want string
}

func corpus(tb testing.TB, file string) (out []line) {
	tb.Helper()
	b, err := os.ReadFile(file)
	if err != nil {
		tb.Fatal(err)
	}
	for i, s := range strings.Split(string(b), "\n") {
		if s == "" || strings.HasPrefix(s, "#") {
			continue
		}
		text, want, ok := strings.Cut(s, "\t")
		if !ok {
			tb.Fatalf("%s:%d: no tab in %q", file, i+1, s)
		}
		out = append(out, line{i + 1, text, strings.TrimSpace(want)})
	}
	return out
}

const (
	enCorpus = "../testdata/utterances/en-core.tsv"
	esCorpus = "../testdata/utterances/es-core.tsv"
)

// shown spells a reading the way the corpus does.
func shown(r *reading) string {
	var out []string
	put := func(k string, v any) { out = append(out, fmt.Sprintf("%s=%v", k, v)) }
	if r.verb == doStep || r.step != "" && r.verb != doAdd {
		if r.verb != doStep {
			out = append(out, string(r.verb))
		}
		put("step", r.step)
	} else {
		out = append(out, string(r.verb))
	}
	if r.noEggs {
		out = append(out, "noeggs")
	}
	if r.release {
		out = append(out, "release")
	}
	if r.old != nil {
		put("old", *r.old)
	}
	if r.count != nil {
		put("count", *r.count)
	}
	if r.of != nil {
		put("of", *r.of)
	}
	if r.all {
		out = append(out, "all")
	}
	if r.batch != 0 {
		put("batch", r.batch)
	}
	if r.breeder != 0 {
		put("breeder", r.breeder)
	}
	if r.builder != "" {
		put("builder", strings.ReplaceAll(r.builder, " ", "_"))
	}
	if r.yard != "" {
		put("yard", strings.ReplaceAll(r.yard, " ", "_"))
	}
	if r.mark != "" {
		put("mark", r.mark)
	}
	if r.bees != nil {
		put("bees", *r.bees)
	}
	if r.ageLo != nil {
		put("age", fmt.Sprintf("%g-%g", *r.ageLo, *r.ageHi))
	}
	if r.span != 0 {
		put("span", rules.SpanString(r.span))
	}
	if r.when.set {
		put("when", shownWhen(r.when))
	}
	if r.verb == askDue && r.days != 0 {
		put("days", r.days)
	}
	if r.dueDay.set {
		put("day", shownWhen(r.dueDay))
	}
	if r.topic != "" {
		put("topic", r.topic)
	}
	if r.key != "" {
		put("key", strings.ReplaceAll(r.key, " ", "_"))
		put("value", strings.ReplaceAll(r.value, " ", "_"))
	}
	if r.reason != "" {
		put("reason", strings.ReplaceAll(r.reason, " ", "_"))
	}
	return strings.Join(out, " ")
}

// shownWhen spells a time: "yesterday@16:00", "mon@9:00?" where am or pm was left
// open, "ago2h".
func shownWhen(w when) string {
	day := ""
	switch {
	case w.isAgo:
		return "ago" + rules.SpanString(w.ago)
	case w.date && w.year != 0:
		day = fmt.Sprintf("%d-%02d-%02d", w.year, w.month, w.day)
	case w.date:
		day = fmt.Sprintf("%02d-%02d", w.month, w.day)
	case w.weekday != 0 && w.back < 0:
		day = "next-" + strings.ToLower(time.Weekday(w.weekday - 1).String()[:3])
	case w.weekday != 0:
		day = strings.ToLower(time.Weekday(w.weekday - 1).String()[:3])
	case w.hasDay:
		day = fmt.Sprintf("day%+d", -w.back)
	}
	if w.part != "" {
		day += "/" + w.part
	}
	if w.hasTime {
		day += "@" + w.clock.String()
		if !w.half {
			day += "?"
		}
	}
	return day
}

// fate is what becomes of a message: the reading that is acted on, "ask" where it
// is asked back, "silent" where it is left alone. It takes the bot's own judgement.
func fate(r *reading) string {
	s, now := rules.DefaultSettings(), time.Date(2031, 5, 5, 12, 0, 0, 0, time.UTC)
	t := &talk{s: s, v: newVoice(s, now), origin: store.Update{ID: 1, Said: now}, kind: "reply"}
	switch r.verb {
	case noVerb, justCount:
		if r.verb == noVerb && r.clear() && !r.subject().Zero() {
			return "name " + strings.TrimSpace(shown(r))
		}
		switch {
		case r.addressed:
			if r.verb == justCount && r.clear() {
				return shown(r)
			}
			return "unread"
		case r.verb == noVerb || !r.clear():
			return "silent"
		}
	case doStep, doDone:
		if t.doubt(r) {
			if t.silent {
				return "silent"
			}
			return "ask"
		}
	case doLater:
		if len(r.rest) > 0 {
			return "ask"
		}
	case notYet:
		return "ask" // it says so
	}
	return shown(r)
}

// TestCorpus reads every line of the corpora. A reading that is acted on and is
// another than the one meant is a wrong line in somebody's logbook.
func TestCorpus(t *testing.T) {
	for _, file := range []string{enCorpus, esCorpus} {
		score := map[string]int{}
		for _, l := range corpus(t, file) {
			got := fate(read(l.text, crewNames))
			switch {
			case got == l.want && (got == "ask" || got == "silent" || got == "unread"):
				score["right, "+got]++
			case got == l.want:
				score["right, read"]++
			case got == "ask" || got == "silent" || got == "unread":
				score["missed, "+got]++
				t.Errorf("%s:%d: %q: %s, want %s", file, l.at, l.text, got, l.want)
			default:
				score["wrong"]++
				t.Errorf("%s:%d: %q: WRONG %s, want %s", file, l.at, l.text, got, l.want)
			}
		}
		var parts []string
		for k, n := range score {
			parts = append(parts, fmt.Sprintf("%s %d", k, n))
		}
		sort.Strings(parts)
		t.Logf("%s: %s", file, strings.Join(parts, "; "))
	}
}

// TestEnglishIsNotGlossed holds that a message in English goes through the glossary
// untouched, and that no message in English counts as Spanish.
func TestEnglishIsNotGlossed(t *testing.T) {
	for _, l := range corpus(t, enCorpus) {
		d, plain := newReader(l.text, crewNames), newReader(l.text, crewNames)
		d.gloss()
		if d.all() != plain.all() || d.r.lang == "es" {
			t.Errorf("%q became %q, language %q", l.text, d.all(), d.r.lang)
		}
	}
}

// TestLanguage reads which language a message is plainly in. A number or a one-word
// answer that every ping shows tells nothing, nor does an even mixture.
func TestLanguage(t *testing.T) {
	for lang, texts := range map[string][]string{
		"es": {"hecho 34", "injerté 45 de la 7", "34 de 38", "pendiente", "qué toca hoy", "sí", "si", "mío", "más tarde 2h", "ajustar idioma es", "todavía no", "lote 4"},
		"en": {"moved 34 to North", "graft 45 from 7 into B2", "batch 4", "due tomorrow", "good morning", "who moved 34", "accepted 38"},
		"":   {"done 34", "34", "mine", "done", "no", "later 2h", "skip", "undo", "B2", "confine 7", "moved 34 a North", "injerté 45 from 7 into B2", "later 30 min"},
	} {
		for _, text := range texts {
			if got := read(text, crewNames).lang; got != lang {
				t.Errorf("%q: language %q, want %q", text, got, lang)
			}
		}
	}
}

// TestSpanishNames reads a crew whose yards have Spanish words in their names: the
// names stay, and the words mean what they mean everywhere else.
func TestSpanishNames(t *testing.T) {
	crew := names{builders: []string{"B1", "La Roja"}, yards: []string{"La Loma", "El Paso", "Norte"}}
	for text, want := range map[string]string{
		"injerté 45 de la 7 en la roja":        "step=graft count=45 breeder=7 builder=La_Roja",
		"moví 34 a la loma":                    "step=move count=34 yard=La_Loma",
		"moví 34 a La Loma a las 4 pm":         "step=move count=34 yard=La_Loma when=@16:00",
		"moví once celdas a El Paso":           "step=move count=11 yard=El_Paso",
		"moví 34 a norte":                      "step=move count=34 yard=Norte",
		"confiné la 7, pin rojo":               "step=confine breeder=7 mark=red",
		"saqué el panal de la 7":               "step=combout breeder=7",
		"núcleos 40 listos en El Paso":         "step=nucs count=40 yard=El_Paso",
		"agregar apiario Los Pinos 12 núcleos": "add count=12 yard=Los_Pinos",
	} {
		if got := fate(read(text, crew)); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

// TestHint finds the step that a word nobody knows was meant for, in both languages.
func TestHint(t *testing.T) {
	for word, want := range map[string]rules.Step{
		"graftage": rules.Graft, "injertaje": rules.Graft, "traslarve": rules.Graft, "ingerto": rules.Graft, "operculación": rules.Capped, "movmos": rules.Move, "capturado": rules.Catch,
		"almuerzo": "", "gracias": "", "zzz": "",
	} {
		got, _ := nearestForm([]string{word})
		if got != want {
			t.Errorf("%q: hint %q, want %q", word, got, want)
		}
	}
}
