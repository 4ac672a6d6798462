package bot

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/nicksnyder/go-i18n/v2/i18n/template"
)

// The sentences of the catalogue have plain holes alone, {{.Name}}, which are filled
// here: an answer has a dozen of them, and text/template takes longer over each than the
// rest of the wording. catalogue_test.go finds anything else in braces.

// holeCutter cuts a sentence at its holes.
type holeCutter struct{}

// sentence is one that was cut: what stands before each hole, the name of each, and what
// stands behind the last.
type sentence struct {
	before, names []string
	end           string
}

// filling is what the holes are filled with: pairs of a name and a value, worded by v as
// they are needed.
type filling struct {
	v  voice
	kv []any
}

// Cacheable says that a sentence is to be cut once.
func (holeCutter) Cacheable() bool { return true }

// Parse cuts a sentence.
func (holeCutter) Parse(src, _, _ string) (template.ParsedTemplate, error) {
	var s sentence
	for rest := src; ; {
		before, hole, found := strings.Cut(rest, "{{.")
		if !found {
			s.end = before
			return s, nil
		}
		name, after, closed := strings.Cut(hole, "}}")
		if !closed {
			return nil, fmt.Errorf("a hole of %q is not closed", src)
		}
		s.before, s.names, rest = append(s.before, before), append(s.names, name), after
	}
}

// Execute fills the holes.
func (s sentence) Execute(data any) (string, error) {
	f, ok := data.(filling)
	if !ok {
		return "", fmt.Errorf("holes are filled with %T", data)
	}
	var b strings.Builder
	for i, name := range s.names {
		b.WriteString(s.before[i])
		b.WriteString(f.word(name))
	}
	if b.Len() == 0 {
		return s.end, nil
	}
	b.WriteString(s.end)
	return b.String(), nil
}

// word is what fills the hole of a name.
func (f filling) word(name string) string {
	for i := len(f.kv) - 2; i >= 0; i -= 2 { // the last of two counts
		if f.kv[i] != name {
			continue
		}
		x := f.kv[i+1]
		if s, ok := x.(string); ok && name == "Mark" {
			return f.v.mark(s)
		}
		switch x := f.v.value(x).(type) {
		case string:
			return x
		case int:
			return strconv.Itoa(x)
		default:
			return fmt.Sprint(x)
		}
	}
	return "<no value>" // which a test finds
}
