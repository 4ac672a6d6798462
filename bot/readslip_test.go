package bot

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardbell/rules"
)

// neighbours are the keys beside each letter, where a gloved thumb lands.
var neighbours = map[byte]string{
	'q': "wa", 'w': "qeas", 'e': "wrsd", 'r': "etdf", 't': "ryfg", 'y': "tugh", 'u': "yihj", 'i': "uojk", 'o': "ipkl", 'p': "ol",
	'a': "qwsz", 's': "awedxz", 'd': "serfcx", 'f': "drtgvc", 'g': "ftyhbv", 'h': "gyujnb", 'j': "huiknm", 'k': "jiolm", 'l': "kop",
	'z': "asx", 'x': "zsdc", 'c': "xdfv", 'v': "cfgb", 'b': "vghn", 'n': "bhjm", 'm': "njk",
}

// slipsOf are all texts that one slip of the thumb makes of s: a letter dropped,
// doubled, swapped with the next, or its neighbour hit, an accent lost with it. Only
// letters slip, and not those of numbers in words nor of names with a number in them:
// another number is another message.
func slipsOf(s string) (out []string) {
	start := 0
	for start < len(s) {
		end := start
		for end < len(s) && s[end] != ' ' {
			end++
		}
		before, word, after := s[:start], []rune(s[start:end]), s[end:]
		letters := strings.Trim(fold(string(word)), ",.:;!?'¿¡")
		_, number := numberWords[letters]
		if !number && !esNumber(letters) && letters != "hundred" && !strings.ContainsAny(string(word), "0123456789") {
			for i, c := range word {
				base := fold(string(c))
				if len(base) != 1 || base[0] < 'a' || base[0] > 'z' {
					continue
				}
				head := before + string(word[:i])
				tail := string(word[i+1:]) + after
				out = append(out, head+tail, head+string(c)+string(c)+tail)
				if i+1 < len(word) && word[i+1] != c {
					out = append(out, head+string(word[i+1])+string(c)+string(word[i+2:])+after)
				}
				for _, n := range neighbours[base[0]] {
					out = append(out, head+string(n)+tail)
				}
			}
		}
		start = end + 1
	}
	return out
}

// told is what a reading would put into the log: what a slip must not change.
func told(r *reading) string {
	n := func(p *int) string {
		if p == nil {
			return "-"
		}
		return fmt.Sprint(*p)
	}
	return fmt.Sprint(r.verb, " ", r.step, " count ", n(r.count), " of ", n(r.of), " old ", n(r.old), " all ", r.all, " breeder ", r.breeder, " batch ", r.batch, " no eggs ", r.noEggs)
}

// mostBreeder is the highest number of a breeder that the corpus takes for known; one
// that nobody added is asked back.
const mostBreeder = 30

// acted reports whether something would be done on a reading at once. A yard or
// builder that nobody knows is asked back first, and so is a setting.
func acted(r *reading) bool {
	switch r.verb {
	case noVerb, notYet:
		return false
	case doStep, doDone, justCount:
		known := r.breeder <= mostBreeder && (r.yard == "" || has(crewNames.yards, r.yard)) && (r.builder == "" || has(crewNames.builders, r.builder))
		return r.clear() && known
	case doLater:
		return len(r.rest) == 0
	case doSet:
		return has(rules.SettingNames, r.key)
	}
	return true
}

// slipFault says what is wrong with how a slip of a line is read: it must tell the
// same, or nothing that is acted on.
func slipFault(l line, was *reading, slipped string) (fault string, same bool) {
	r := read(slipped, crewNames)
	switch {
	case !acted(r):
		return "", false
	case !acted(was):
		return fmt.Sprintf("%q is not acted on, but one slip away %q is read as %s", l.text, slipped, shown(r)), false
	case told(was) != told(r):
		return fmt.Sprintf("%q tells %s, but one slip away %q tells %s", l.text, told(was), slipped, told(r)), false
	}
	return "", true
}

// meant are slips that make another plain message of a line. No reader can tell
// them from one that was meant.
var meant = map[string]bool{
	"finished batch 4": true, "finished B2": true, "finisher 34": true,
	"fed B2": true, "fedd B2": true, "fed B2 please": true, "fedd B2 please": true,
	// "Moveré" and "mover", "confinando" and "confinado" are one slip apart.
	"mover 34 a North": true, "confinado 7": true,
	"pues 34 celdas en North": true, "so 34": true, "y": true, "si": true,
	"injertado 45 de la 7 en B2": true, "alimentado B2": true, "alimenté 7 g B2": true,
	"moved 34 to Creek Side": true, "later in tue afternoon": true,
	// A bare number, or "all", counts nothing unless it was asked for.
	"38 too": true, "38 of 45 too": true, "it 7": true, "nucs mad: 40": true, "hola  todos": true,
	"breeder 7 did": true, "moved 34 to North, hot": true, "ingecté 45 de la 7": true, "Ah injertó 45 de la 7": true,
}

// strange reports whether a line is there for a word that only looks like one the
// reader knows: one more slip and it is that word, fairly.
func strange(l line) bool {
	for _, w := range strings.Fields(l.text) {
		if realWords[strings.ToLower(w)] || realSpanish[strings.Trim(fold(w), ",.!?¿¡")] {
			return true
		}
	}
	return false
}

// slipStride is the stride through the slips: all of them, but under the race detector.
var slipStride = 1

// TestSlips tries the slips of every line of the corpus.
func TestSlips(t *testing.T) {
	n, same := 0, 0
	for _, l := range append(corpus(t, enCorpus), corpus(t, esCorpus)...) {
		was := read(l.text, crewNames)
		if strange(l) {
			continue
		}
		for i, s := range slipsOf(l.text) {
			if (i+l.at)%slipStride != 0 {
				continue
			}
			n++
			if meant[s] {
				continue
			}
			fault, ok := slipFault(l, was, s)
			if fault != "" {
				t.Error(fault)
			}
			if ok {
				same++
			}
		}
	}
	t.Logf("%d slips tried, %d read as what was meant, the others not acted on", n, same)
}

// dresses are what a line may end in, and change nothing.
var dresses = []string{"", " ", "!", " 🐝", "👍", " 🐝👍🏽", " …", "\n"}

// dressFault says what is wrong with how a line reads in other clothes: it must tell
// the same. Only a name that nobody knows may be lost in shouting, where nothing shows
// that it is one; the line is then not acted on.
func dressFault(plain, dressed string, shouted bool) string {
	r, d := read(plain, crewNames), read(dressed, crewNames)
	if told(r) == told(d) {
		return ""
	}
	unknown := r.plan.person != "" || r.yard != "" && !has(crewNames.yards, r.yard) || r.builder != "" && !has(crewNames.builders, r.builder)
	if shouted && unknown && !acted(d) {
		return ""
	}
	return fmt.Sprintf("%q tells %s, dressed as %q it tells %s", plain, told(r), dressed, told(d))
}

// TestDress puts every line into other clothes: shouted, with something trailing.
func TestDress(t *testing.T) {
	for _, l := range append(corpus(t, enCorpus), corpus(t, esCorpus)...) {
		for _, tail := range dresses {
			for _, text := range []string{l.text, strings.ToUpper(l.text)} {
				if fault := dressFault(l.text, text+tail, text != l.text); fault != "" {
					t.Error(fault)
				}
			}
		}
	}
}

// TestDressedSlips draws lines with a slip in other clothes. None of it changes what
// they tell.
func TestDressedSlips(t *testing.T) {
	lines := append(corpus(t, enCorpus), corpus(t, esCorpus)...)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(lines).Draw(t, "line")
		text := l.text
		if all := slipsOf(text); len(all) > 0 && !strange(l) {
			text = rapid.SampledFrom(all).Draw(t, "slipped")
		}
		if meant[text] {
			return
		}
		plain := text
		shout := rapid.Bool().Draw(t, "shout")
		if shout {
			text = strings.ToUpper(text)
		}
		text = strings.ReplaceAll(text, " ", rapid.SampledFrom([]string{" ", "  ", "\t", "\u00a0"}).Draw(t, "space"))
		text += rapid.SampledFrom(dresses).Draw(t, "tail")
		if fault, _ := slipFault(l, read(l.text, crewNames), text); fault != "" {
			t.Fatal(fault)
		}
		if fault := dressFault(plain, text, shout); fault != "" {
			t.Fatal(fault)
		}
	})
}
