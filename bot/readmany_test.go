package bot

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// spelledParts spells the events of a message, or the whole where it tells of one.
func spelledParts(m many) string {
	if m.mend != nil {
		out := "mend " + strings.TrimSpace(shown(m.mend.now))
		if m.mend.was != nil && m.mend.old == nil {
			out += " was " + strings.TrimSpace(shown(m.mend.was))
		}
		if m.mend.old != nil {
			out += fmt.Sprint(" was ", *m.mend.old)
		}
		return out
	}
	if len(m.parts) == 0 {
		return "one: " + fate(m.whole)
	}
	var out []string
	for _, p := range m.parts {
		s := shown(p.r)
		if !p.r.clear() {
			s += " (doubt)"
		}
		out = append(out, s)
	}
	if m.rest != "" {
		out = append(out, "rest: "+m.rest)
	}
	return strings.Join(out, " ; ")
}

// How messages with several events, and corrections, are taken apart.
func TestReadMany(t *testing.T) {
	for text, want := range map[string]string{
		"moved 34 to North and fed B2":                   "step=move count=34 yard=North ; step=feed builder=B2",
		"moved 34 to North\nfed B2":                      "step=move count=34 yard=North ; step=feed builder=B2",
		"/moved 34 to North & fed B2":                    "step=move count=34 yard=North ; step=feed builder=B2",
		"moved 20 to North and 14 to Creek Side":         "step=move count=20 yard=North ; step=move count=14 yard=Creek_Side",
		"accepted 38, B2 clear":                          "step=accept count=38 ; step=rogue builder=B2",
		"grafted 45 from 7 into B2, confined 12 red pin": "step=graft count=45 breeder=7 builder=B2 ; step=confine breeder=12 mark=red",
		"graft 45 from 7, 30 h old, and 40 from 12":      "step=graft count=45 breeder=7 age=30-30 ; step=graft count=40 breeder=12",
		"yesterday: moved 34 and fed B2":                 "step=move count=34 when=day-1 ; step=feed builder=B2 when=day-1",
		"moved 34 and fed B2 yesterday at 16:00":         "step=move count=34 when=day-1@16:00 ; step=feed builder=B2 when=day-1@16:00",
		"moved 34 at 7:30 and fed B2 at 9:00 yesterday":  "step=move count=34 when=day-1@07:30? ; step=feed builder=B2 when=day-1@09:00?",
		"7 and 12 confined":                              "step=confine breeder=7 ; step=confine breeder=12",
		"confined 7 blue and 12 red":                     "step=confine breeder=7 mark=blue ; step=confine breeder=12 mark=red",
		"no eggs yet in 7 and 12":                        "step=eggs noeggs breeder=7 ; step=eggs noeggs breeder=12",
		"B1 and B2 clear":                                "step=rogue builder=B1 ; step=rogue builder=B2",
		"fed B2 and the nucs at North":                   "step=feed builder=B2 ; step=feed yard=North",
		"accepted 38 of batch 1 and 30 of batch 2":       "step=accept count=38 batch=1 ; step=accept count=30 batch=2",
		"add breeders 7 and 8":                           "add breeder=7 ; add breeder=8",
		"add builder B7 and yard Hill 40 nucs":           "add builder=B7 ; add count=40 yard=Hill",
		"moved 34 to North and not fed B2":               "step=move count=34 yard=North ; step=feed builder=B2 (doubt)",
		"moved 34 to North, done":                        "one: step=move count=34 yard=North",
		"moved 34 to North at 7:30, all good":            "one: step=move count=34 yard=North when=@07:30?",
		"confine 7 red pin, bees in":                     "one: step=confine breeder=7 mark=red bees=true",
		"confined 7 and 12 red":                          "one: ask",
		"graft 45 from 7 and 12":                         "one: ask",
		"moved 34 to North and Creek Side":               "one: ask",
		"moved 34, fed B2 at 7:30, B1 clear":             "one: ask",
		"did you move them and feed B2?":                 "one: silent",
		"skip, too wet and nobody moved 34":              "one: skip reason=too_wet_and_nobody_moved_34",
		"not 45, 54":                                     "one: fix old=45 count=54",
		"it was batch 5":                                 "mend batch=5",
		"batch 5 not 4":                                  "mend batch=5 was 4",
		"into B1 not B2":                                 "mend builder=B1 was builder=B2",
		"not B2, B1":                                     "mend builder=B1 was builder=B2",
		"it was B1 not B2":                               "mend builder=B1 was builder=B2",
		"to Creek Side not North":                        "mend yard=Creek_Side was yard=North",
		"it was yesterday":                               "mend when=day-1",
		"at 7:30 not 8:30":                               "mend when=@07:30? was when=@08:30?",
		"sorry, breeder 12":                              "mend breeder=12",
		"no, batch 5":                                    "mend batch=5",
		"it was great":                                   "one: silent",
		"it was North's turn":                            "one: silent",
		"that was yesterday's news":                      "one: silent",
		"it was tomorrow":                                "one: silent",
		"batch 5":                                        "one: show batch=5",
		"B1 not B2 or B3":                                "one: silent",
	} {
		m := readMany(text, crewNames)
		assert.Equal(t, want, strings.ReplaceAll(spelledParts(m), "  ", " "), text)
	}
}

// However a message is cut, the work stays within a fixed number of looks a word,
// and stops growing at the most that is read.
func TestReadManyWork(t *testing.T) {
	most := 0.0
	for _, s := range []string{"moved 34 to North and fed B2, ", "add breeders 7, 8 and 9, ", "fed 7, B1 and B2 and ", "accepted 38, to the finisher, ", "it was batch 5 not 4, ", "and ", "a, ", "7 and "} {
		for n := 1; n < 16; n++ {
			text := strings.Repeat(s, n)
			words := len(splitSpace(text))
			most = max(most, float64(readMany(text, crewNames).looks)/float64(words))
		}
		if n := readMany(strings.Repeat(s, 10000/len(s)), crewNames).looks; n > 500*mostTokens {
			t.Errorf("10,000 characters of %q took %d looks", s, n)
		}
	}
	if most > 500 {
		t.Errorf("%.0f looks a word", most)
	}
	t.Logf("at most %.0f looks a word", most)
}

// FuzzMany reads anything: the parts are never more sure than their words.
func FuzzMany(f *testing.F) {
	for _, l := range corpus(f, enCorpus) {
		f.Add(l.text)
	}
	for _, s := range []string{"moved 34 and fed B2", "add breeders 7 and 8", "34 moved, 20 to North and 14 to Creek Side", "it was B1 not B2", "and and, and", "e", "b e 7", "not", "not , but", "no, not B1", "instead of"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m := readMany(s, crewNames)
		if fmt.Sprint(fingerprint(m)) != fmt.Sprint(fingerprint(readMany(s, crewNames))) {
			t.Fatalf("%q reads in two ways", s)
		}
		if len(m.parts) == 1 && m.rest == "" || len(m.parts) > mostPieces+1 {
			t.Fatalf("%q has %d parts", s, len(m.parts))
		}
		for _, p := range m.parts {
			if p.r.clear() && len(p.r.rest) > 0 || p.r.verb == doStep && p.r.step == "" {
				t.Fatalf("%q: part %q is not read", s, p.text)
			}
		}
		if m.mend != nil && (m.mend.now == nil || nothing(m.mend.now)) {
			t.Fatalf("%q corrects nothing", s)
		}
	})
}

func BenchmarkReadMany(b *testing.B) {
	lines := []string{"moved 34 to North and fed B2", "accepted 38", "good morning all, who brings the smoker", "grafted 45 from 7 into B2, confined 12 red pin", "it was batch 5 not 4"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		readMany(lines[i%len(lines)], crewNames)
	}
}

// Nobody's "ok" may be taken for done before the thing can be done.
func TestThumbs(t *testing.T) {
	for text, up := range map[string]bool{"👍": true, "👍🏽": true, "👌 👍": true, "✔️": true, "👎": false, "ok": false, "": false, "🐝": false, "👍🐝": false} {
		assert.Equal(t, up, thumbsUp(text), text)
	}
}
