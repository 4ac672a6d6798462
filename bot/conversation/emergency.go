package conversation

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"unicode"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Words of an allergic emergency are answered at once, whatever else the message says,
// in whichever language, and however much its author wrote before. They are looked for
// in the text itself, before the reader: no change of the reader may lose them. The
// words are in emergency.tsv.
//
// What is answered: ASCIA, First Aid Plan for Anaphylaxis, 2023 (allergy.org.au): lay the
// person flat, not standing or walking, sitting where breathing is hard; adrenaline into the
// outer thigh; call the ambulance; stay with the person. There adrenaline comes before the call,
// and is not to wait for it; the call stands first here since most on a crew carry none,
// and since it is the group that reads it. Local emergency services have the last word.

//go:embed emergency.tsv
var emergencyTable string

// alarmElem is one place of a phrase: one of some words, or a gap.
type alarmElem struct {
	words   []string // as squeezed
	stems   []string // what a word begins with
	any     bool     // any word
	number  bool
	between bool // up to mostBetween words
}

const mostBetween = 3

// alarmPhrase is one line of the table.
type alarmPhrase struct {
	lang  string // "en", "es", "any"; or talk, or beside
	parts [][]alarmElem
}

// alarmPhrases are the lines in their order, and by the two letters that a word of theirs begins
// with, so that a message meets only those that may fit.
var alarmPhrases, alarmsBy = readAlarms(emergencyTable)

func readAlarms(table string) (list []alarmPhrase, by map[string][]int) {
	by = map[string][]int{}
	for i, line := range strings.Split(table, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		lang, phrase, ok := strings.Cut(line, "\t")
		if !ok {
			panic(fmt.Sprintf("emergency.tsv:%d: no phrase in %q", i+1, line))
		}
		p := alarmPhrase{lang: lang}
		for _, part := range strings.Split(phrase, "&") {
			p.parts = append(p.parts, alarmElems(part))
		}
		for k := range p.key() {
			by[k] = append(by[k], len(list))
		}
		list = append(list, p)
	}
	return list, by
}

func alarmElems(part string) (out []alarmElem) {
	for _, f := range strings.Fields(part) {
		e := alarmElem{any: f == "*", number: f == "#", between: f == ".."}
		for _, w := range strings.Split(f, "|") {
			switch stem, cut := strings.CutSuffix(w, "*"); {
			case e.any || e.number || e.between:
			case cut:
				e.stems = append(e.stems, squeeze(stem))
			default:
				e.words = append(e.words, squeeze(w))
			}
		}
		out = append(out, e)
	}
	return out
}

// key is how the words of that place begin of which the shortest is longest.
func (p alarmPhrase) key() map[string]bool {
	best, keys := 1, map[string]bool{}
	for _, e := range slices.Concat(p.parts...) {
		list := slices.Concat(e.words, e.stems)
		if len(list) == 0 {
			continue
		}
		short := len(slices.MinFunc(list, func(a, b string) int { return len(a) - len(b) }))
		if short <= best {
			continue
		}
		best, keys = short, map[string]bool{}
		for _, w := range list {
			keys[w[:2]] = true
		}
	}
	return keys
}

// squeeze takes letters that are typed more than once for one: "allergic", "HELLLP".
func squeeze(s string) string {
	var out []byte
	for i := range len(s) {
		if n := len(out); n > 0 && out[n-1] == s[i] && s[i] >= 'a' {
			continue
		}
		out = append(out, s[i])
	}
	return string(out)
}

// alarmToken is a word of a message and the clause in which it stands.
type alarmToken struct {
	text   string
	clause int
	hidden bool
	slips  bool // it is taken with one slip as well
}

// clauses cuts a text at punctuation and at "and": each is left out whole where it tells
// of an emergency.
func clauses(text string) (out []string) {
	start := 0
	cut := func(end int) {
		if s := text[start:end]; len(out) > 0 && strings.IndexFunc(s, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) < 0 {
			out[len(out)-1] += s // more of the same punctuation
		} else {
			out = append(out, s)
		}
		start = end
	}
	for i, r := range text {
		switch {
		case strings.ContainsRune(",.;:!?\n()", r):
			cut(i + 1)
		case r == ' ' && slices.ContainsFunc(clauseWords, func(w string) bool { return len(text) > i+len(w) && strings.EqualFold(text[i:i+len(w)], w) }):
			cut(i)
		}
	}
	cut(len(text))
	return out
}

// clauseWords part clauses.
var clauseWords = []string{" and ", " but ", " y ", " pero "}

// unmarked joins what an apostrophe or a hyphen parts: "can't", "epi-pen".
var unmarked = strings.NewReplacer("'", "", "’", "", "´", "", "`", "", "-", "")

func alarmTokens(list []string) (out []alarmToken) {
	for c, s := range list {
		for _, w := range strings.FieldsFunc(unmarked.Replace(wording.Fold(s)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
			w = squeeze(w)
			if n := len(out); n > 0 && out[n-1].clause == c && (out[n-1].text == "can" || out[n-1].text == "could") && w == "not" || w == "canot" {
				if w == "not" {
					out = out[:n-1]
				}
				w = "cant"
			}
			out = append(out, alarmToken{text: w, clause: c})
		}
	}
	return out
}

// danger is what a text tells of an emergency.
type danger struct {
	Langs []string // of its words; none: it tells of none
	Rest  string   // what else it says
	lost  string   // what may be a report, and cannot be told from it
}

// Emergency looks for words of an allergic emergency.
func Emergency(text string) (a danger) {
	list := clauses(text)
	toks := alarmTokens(list)
	var fit []int
	for _, t := range toks {
		if len(t.text) >= 2 {
			fit = append(fit, alarmsBy[t.text[:2]]...)
		}
	}
	slices.Sort(fit)
	fit = slices.Compact(fit)
	if len(fit) == 0 {
		a.Rest = text
		return a
	}
	told := map[int]bool{}
	for _, slips := range []bool{false, true} {
		if a.Langs = alarms(toks, fit, slips, told); a.Langs != nil {
			break
		}
	}
	if a.Langs == nil {
		a.Rest = text
		return a
	}
	counts := map[int]bool{}
	for _, t := range toks {
		counts[t.clause] = counts[t.clause] || wording.IsDigits(t.text) && !emergencyNumbers[t.text]
	}
	for c, s := range list {
		switch {
		case !told[c]:
			a.Rest += s
		case counts[c]:
			a.lost += s
		}
	}
	a.Rest, a.lost = " "+strings.TrimSpace(a.Rest), strings.TrimSpace(a.lost)
	for _, w := range clauseWords {
		if len(a.Rest) >= len(w) && strings.EqualFold(a.Rest[:len(w)], w) {
			a.Rest = a.Rest[len(w):]
		}
	}
	a.Rest = strings.TrimSpace(a.Rest)
	return a
}

var emergencyNumbers = wording.Words(`911 112 999 000 066`)

// alarms tries some of the phrases and says in told which clauses they stand in.
func alarms(toks []alarmToken, fit []int, slips bool, told map[int]bool) (langs []string) {
	for i := range toks {
		toks[i].slips = slips
	}
	for _, i := range fit {
		p := alarmPhrases[i]
		if p.lang == "beside" && langs == nil {
			continue
		}
		spans := p.found(toks)
		for _, s := range spans {
			for k := s[0]; k < s[1]; k++ {
				if p.lang == "talk" {
					toks[k].hidden = true
				} else {
					told[toks[k].clause] = true
				}
			}
		}
		if spans != nil && p.lang != "talk" && p.lang != "beside" && !slices.Contains(langs, p.lang) {
			langs = append(langs, p.lang)
		}
	}
	return langs
}

// found is where the parts of a phrase stand, nil where one of them does not.
func (p alarmPhrase) found(toks []alarmToken) (spans [][2]int) {
	for _, part := range p.parts {
		some := false
		for i := range toks {
			if n := alarmAt(part, toks[i:]); n > 0 {
				spans, some = append(spans, [2]int{i, i + n}), true
			}
		}
		if !some {
			return nil
		}
	}
	return spans
}

// alarmAt is how many tokens a part takes at the head of toks, in one clause.
func alarmAt(part []alarmElem, toks []alarmToken) int {
	if len(part) == 0 {
		return 0
	}
	e := part[0]
	if e.between {
		for k := 0; k <= mostBetween && k < len(toks); k++ {
			if k > 0 && toks[k-1].clause != toks[k].clause {
				break
			}
			if n := alarmAt(part[1:], toks[k:]); n > 0 {
				return k + n
			}
		}
		return 0
	}
	if len(toks) == 0 || !e.fits(toks[0]) {
		return 0
	}
	if len(part) == 1 {
		return 1
	}
	if len(toks) < 2 || toks[1].clause != toks[0].clause {
		return 0
	}
	if n := alarmAt(part[1:], toks[1:]); n > 0 {
		return 1 + n
	}
	return 0
}

// slipLetters is how long a word is at least of which one slip is taken: in panic, with
// gloves on.
const slipLetters = 6

// notSlips are words that lie one slip from a word of the table and mean what they say.
var notSlips = wording.Words(`breach threat threats smeling speling dweling faint alegria alegrias alergias alergies hinchado hinchada`)

func (e alarmElem) fits(t alarmToken) bool {
	w := t.text
	switch {
	case t.hidden:
		return false
	case e.any:
		return true
	case e.number:
		return wording.IsDigits(w)
	case slices.Contains(e.words, w):
		return true
	}
	for _, s := range e.stems {
		if strings.HasPrefix(w, s) {
			return true
		}
	}
	if !t.slips || len(w) < slipLetters-1 || notSlips[w] {
		return false
	}
	for _, k := range e.words {
		if len(k) >= slipLetters && w[0] == k[0] && rdg.OneSlip(w, k) {
			return true
		}
	}
	for _, s := range e.stems {
		if len(s) >= slipLetters && w[0] == s[0] {
			for n := len(s) - 1; n <= len(s)+1 && n <= len(w); n++ {
				if rdg.OneSlip(w[:n], s) {
					return true
				}
			}
		}
	}
	return false
}

// apart is a text without what it tells of an emergency.
func (sc *Scene) apart(text string) string {
	if text == sc.Update.Text && sc.Update.Kind != "press" {
		return sc.Danger.Rest
	}
	return Emergency(text).Rest
}

// QueueEmergency words it in the languages of the words, of who wrote them, and of the
// crew, since all of it reads on.
func QueueEmergency(tx *store.Tx, s *rules.Settings, a danger, own string, m store.Message) error {
	var vs []wording.Voice
	for _, l := range slices.Concat(a.Langs, []string{own}, s.Langs()) {
		if slices.Contains(wording.Languages, l) && !slices.ContainsFunc(vs, func(v wording.Voice) bool { return v.Lang == l }) {
			vs = append(vs, wording.In(l, s, tx.Now))
		}
	}
	m.Kind, m.Priority = "reply", store.Emergency
	m.Text = wording.InEach(vs, func(v wording.Voice) string {
		text := v.Say("emergency")
		if a.lost != "" {
			text += "\n" + v.Say("emergency_lost", "Text", wording.Quoted(a.lost))
		}
		return text
	})
	return tx.Queue(m)
}
