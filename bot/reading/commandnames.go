package reading

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// raw is the message from token i on as it was typed.
func (l *lattice) raw(i int) string {
	if i >= len(l.toks) {
		return ""
	}
	return strings.TrimSpace(l.text[l.toks[i].from:l.toks[len(l.toks)-1].to])
}

// asNew takes a name that is put on the list for what was typed: one letter from a name that
// is there it is another thing of the crew's.
func asNew(k capture) capture {
	if strings.HasSuffix(k.value, "\x00") {
		k.value = ""
	}
	return k
}

// nameAt is how a name was typed.
func (l *lattice) nameAt(k capture) string {
	if k.value != "" {
		s, _ := strings.CutSuffix(k.value, "\x00")
		return s
	}
	return strings.Join(strings.Fields(l.text[l.toks[k.tok].from:l.toks[k.end-1].to]), " ")
}

// names yields the ends of a name from token i: words that are written like one, no sign
// between them.
func (l *lattice) names(i, most int, yield func(end int)) {
	for n := 1; n <= most && i+n <= len(l.toks); n++ {
		t := &l.toks[i+n-1]
		if t.isNum || n > 1 && (t.split || l.lower(t)) || !l.writtenLikeName(t) {
			return
		}
		yield(i + n)
	}
}

// writtenLikeName reports whether a word may be a name: it has a capital, or no case, or
// no lexicon knows it.
func (l *lattice) writtenLikeName(t *token) bool {
	r, _ := utf8.DecodeRuneInString(l.text[t.from:t.to])
	if !unicode.IsLetter(r) {
		return false
	}
	if l.r.lex.words[t.text] == 0 && len(t.text) > shortest && l.nearDay(t) {
		return false // "iFriday"
	}
	return !unicode.IsLower(r) || l.r.lex.words[t.text] == 0 && l.r.lex.same[t.text] == nil && !(len(t.text) < shortest && letters(t.text))
}

// lower reports whether a word begins with a small letter.
func (l *lattice) lower(t *token) bool {
	r, _ := utf8.DecodeRuneInString(l.text[t.from:t.to])
	return unicode.IsLower(r)
}

// proper reports whether a word is typed like a person's name.
func (l *lattice) proper(t *token) bool {
	r, n := utf8.DecodeRuneInString(l.text[t.from:t.to])
	return unicode.IsUpper(r) && t.to-t.from > n && l.text[t.from:t.to] != strings.ToUpper(l.text[t.from:t.to])
}
