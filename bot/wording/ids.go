package wording

import (
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"yardbell/rules"
)

// Sentences can be marked: each then carries its id and the names of what it was filled in
// with, nested as it was put together. Bare takes the marks off again, and IDs leaves them
// alone: what was said, whatever the words. Tests hold by it what is said without holding
// how; nothing else marks. Where length or likeness counts, marks do not.
var marked atomic.Bool

// Marked has sentences marked from here on, or no longer.
func Marked(on bool) { marked.Store(on) }

// The marks stand for themselves: nobody types them, and no catalogue has them.
const (
	markOpens  = '⟦'
	markNamed  = '⦂'
	markCloses = '⟧'
	allMarks   = string(markOpens) + string(markNamed) + string(markCloses)
	argMark    = "=" // before the name of what a sentence is filled in with
	shownMark  = "@" // before what is shown in the place of the words
)

// mark puts a mark around words; what is empty stays so.
func mark(name, words string) string {
	if words == "" {
		return ""
	}
	return string(markOpens) + name + string(markNamed) + words + string(markCloses)
}

func markSentence(id, words string) string {
	if !marked.Load() {
		return words
	}
	return mark(id, words)
}

// markTime marks words for an instant or a day by it and by the sentence that was chosen.
func markTime(words, form string, at time.Time, zone *time.Location) string {
	if !marked.Load() {
		return words
	}
	if words == "?" {
		return words
	}
	id, _, _ := strings.Cut(strings.TrimPrefix(words, string(markOpens)), string(markNamed))
	return mark(shownMark+id+" "+at.In(zone).Format(form), Bare(words))
}

// markNumber marks a number by the same with a point in it.
func markNumber(words, n string) string {
	if !marked.Load() || words == n {
		return words
	}
	return mark(shownMark+n, words)
}

func markDate(words string, d rules.Date) string {
	return markTime(words, time.DateOnly, rules.At(d, 12*60, time.UTC), time.UTC)
}

// Bare is a text without its marks.
func Bare(s string) string {
	if !strings.ContainsAny(s, allMarks) {
		return s
	}
	var b strings.Builder
	name := false
	for _, r := range s {
		switch r {
		case markOpens:
			name = true
		case markNamed:
			name = false
		case markCloses:
		default:
			if !name {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

// IDs shows a marked text as the ids of its sentences with what they are filled in with:
// id(Name=value, Other=other_id). What stands outside all sentences stays as it is.
func IDs(s string) string {
	text, _ := spellIDs([]rune(s), 0, true)
	return text
}

// spellIDs spells from i to the end of the mark that it is in. literal tells whether words
// are shown here: outside of sentences, and in what they are filled in with.
func spellIDs(r []rune, i int, literal bool) (string, int) {
	var b strings.Builder
	for ; i < len(r); i++ {
		switch r[i] {
		case markOpens:
			n := i + 1
			for n < len(r) && r[n] != markNamed {
				n++
			}
			name := string(r[i+1 : min(n, len(r))])
			var inner string
			switch shown, is := strings.CutPrefix(name, shownMark); {
			case is:
				_, i = spellIDs(r, n+1, false)
				b.WriteString(shown)
			case strings.HasPrefix(name, argMark):
				inner, i = spellIDs(r, n+1, true)
				b.WriteString(string(markOpens) + strings.TrimPrefix(name, argMark) + "=" + inner + string(markCloses))
			default:
				inner, i = spellIDs(r, n+1, false)
				b.WriteString(name)
				if inner != "" {
					b.WriteString("(" + spellArgs(inner) + ")")
				}
			}
		case markCloses:
			return b.String(), i
		default:
			if literal {
				b.WriteRune(r[i])
			}
		}
	}
	return b.String(), i
}

// spellArgs sorts what a sentence is filled in with by name, each once: no language has
// its own order.
func spellArgs(s string) string {
	list := strings.FieldsFunc(s, func(r rune) bool { return r == markOpens || r == markCloses })
	slices.Sort(list)
	return strings.Join(slices.Compact(list), ", ")
}

// Sentences are the ids of a marked text's sentences, without those they are filled in with.
func Sentences(s string) (ids []string) {
	depth, from := 0, 0
	for i, r := range s {
		switch r {
		case markOpens:
			depth++
			from = i + len(string(r))
		case markNamed:
			if depth == 1 {
				id, _, _ := strings.Cut(strings.TrimPrefix(s[from:i], shownMark), " ")
				ids = append(ids, id)
			}
		case markCloses:
			depth--
		}
	}
	return ids
}

// Without is a text without some words of it, as they are or as a sentence by itself, and
// without the blank that parted them.
func Without(text, words string) string {
	for _, w := range []string{words, Bare(words)} {
		for _, w := range []string{w + " ", " " + w, w} {
			text = strings.ReplaceAll(text, w, "")
		}
	}
	return text
}

// Trimmed is a sentence without the blanks around its words, inside its marks.
func Trimmed(s string) string {
	bare := Bare(s)
	s = strings.Replace(s, bare[:len(bare)-len(strings.TrimLeft(bare, " "))], "", 1)
	if n := len(bare) - len(strings.TrimRight(bare, " ")); n > 0 {
		i := strings.LastIndex(s, bare[len(bare)-n:])
		s = s[:i] + s[i+n:]
	}
	return s
}
