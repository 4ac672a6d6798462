package rules

import (
	"maps"
	"strconv"
	"strings"
)

// OwnLanguage leads the names of settings that say in which language one member
// is answered: "language of 3" with the value "es" for the member of row 3.
const OwnLanguage = "language of "

// NoLanguage is the value of a setting of that kind for none of one's own.
const NoLanguage = "off"

// languageNames are languages as people type them, by what is stored.
var languageNames = map[string]string{
	"en": "en", "english": "en", "inglés": "en", "ingles": "en",
	"es": "es", "spanish": "es", "español": "es", "espanol": "es", "castellano": "es",
}

// ParseLanguage reads the name of one language: "es" from "es", "spanish" or
// "español".
func ParseLanguage(s string) (string, bool) {
	l, ok := languageNames[strings.ToLower(strings.TrimSpace(s))]
	return l, ok
}

// ParseLanguages reads the languages of a crew: one, or two in their order, as
// "en+es", "english and spanish" or "both". first is the one that comes first
// where the text does not say.
func ParseLanguages(s, first string) (string, bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	switch s {
	case "both", "ambos", "los dos", "ambas":
		if first == "es" {
			return "es+en", true
		}
		return "en+es", true
	}
	var out []string
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune("+,/& ", r) }) {
		if w == "and" || w == "y" || w == "e" {
			continue
		}
		l, ok := ParseLanguage(w)
		if !ok || len(out) > 0 && out[0] == l {
			return "", false
		}
		out = append(out, l)
	}
	return strings.Join(out, "+"), len(out) > 0
}

// Langs are the crew's languages, at least one, out of Lang: "en", "es", "en+es" or
// "es+en". What is said unasked is said in each, in that order; the first is the one in which
// somebody is answered who writes in neither and has none of their own.
func (s *Settings) Langs() []string { return strings.Split(s.Lang, "+") }

func (s *Settings) applyOwn(member, value string, bad func() error) error {
	id, err := strconv.ParseInt(member, 10, 64)
	if err != nil || value == "" || value != NoLanguage && languageNames[value] != value {
		return bad()
	}
	own := maps.Clone(s.Own) // the settings it was copied from keep theirs
	if own == nil {
		own = map[int64]string{}
	}
	own[id] = value
	if value == NoLanguage {
		delete(own, id)
	}
	s.Own = own
	return nil
}

func (s *Settings) ownValue(member string) string {
	id, _ := strconv.ParseInt(member, 10, 64)
	if l := s.Own[id]; l != "" {
		return l
	}
	return NoLanguage
}

// parseDecimal reads a number with a point or a comma before its decimals.
func parseDecimal(s string) (float64, error) {
	return strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
}
