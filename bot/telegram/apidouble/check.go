package apidouble

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// breach is one thing wrong with a request: what, and how the server would word it
// where that is known.
type breach struct {
	detail string
	answer string
}

func breachf(format string, args ...any) *breach {
	return &breach{detail: fmt.Sprintf(format, args...)}
}

// description is what the client is told.
func (b *breach) description() string {
	if b.answer != "" {
		return b.answer
	}
	return b.detail
}

// checkCall holds a whole request against the spec and returns everything wrong.
func (s *spec) checkCall(c *call) []*breach {
	m, ok := s.Methods[c.method]
	if !ok {
		return []*breach{breachf("method %q is not in the description of the API", c.method)}
	}
	var all []*breach
	names := make([]string, 0, len(c.params)+len(c.files))
	for name := range c.params {
		names = append(names, name)
	}
	for name := range c.files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range slices.Compact(names) {
		f, ok := s.field(m.Fields, name)
		if !ok {
			if !attached(c, name) {
				all = append(all, breachf("%s has no parameter %q", c.method, name))
			}
			continue
		}
		if b := s.checkParam(c, f); b != nil {
			b.detail = c.method + "." + b.detail
			all = append(all, b)
		}
	}
	for _, f := range m.Fields {
		_, isFile := c.files[f.Name]
		raw, given := c.params[f.Name]
		// The word null is nothing where JSON is expected, but a text like any other.
		given = given && (raw != "null" || slices.Contains(f.Types, "String"))
		if f.Required && !isFile && !given {
			all = append(all, breachf("%s needs the parameter %q", c.method, f.Name))
		}
	}
	return all
}

// attached says whether a file part is named by an attach:// value (docs: "Sending files").
func attached(c *call, name string) bool {
	if _, ok := c.files[name]; !ok {
		return false
	}
	for _, v := range c.params {
		if strings.Contains(v, "attach://"+name) {
			return true
		}
	}
	return false
}

func (s *spec) checkParam(c *call, f specField) *breach {
	if _, ok := c.files[f.Name]; ok {
		if !slices.Contains(f.Types, "InputFile") {
			return breachf("%s: a file was uploaded where %s is expected", f.Name, strings.Join(f.Types, " or "))
		}
		return nil
	}
	raw := c.params[f.Name]
	if !utf8.ValidString(raw) {
		return &breach{detail: f.Name + ": not UTF-8", answer: "strings must be encoded in UTF-8"}
	}
	if raw == "null" && !f.Required {
		return nil
	}
	if c.method == "getUpdates" && f.Name == "allowed_updates" && !strings.HasPrefix(raw, "[") {
		// server, Client.cpp 16901-16911: what is not an array is ignored.
		return nil
	}
	var first *breach
	for _, t := range f.Types {
		b := s.checkRaw(t, raw, f)
		if b == nil {
			return nil
		}
		// Of several possible objects the one whose required fields are there is
		// meant, and its complaint is the useful one.
		if first == nil || b.answer != "" || s.resembles(t, raw) {
			first = b
		}
	}
	return first
}

func (s *spec) resembles(typ, raw string) bool {
	var fields map[string]json.RawMessage
	if json.Unmarshal([]byte(raw), &fields) != nil {
		return false
	}
	for _, f := range s.Types[typ].Fields {
		if _, ok := fields[f.Name]; f.Required && !ok {
			return false
		}
	}
	return true
}

// checkRaw checks a parameter as it stands in a form: scalars as text, everything
// else as JSON in a string.
func (s *spec) checkRaw(typ, raw string, f specField) *breach {
	switch typ {
	case "String":
		return checkText(f, raw)
	case "InputFile":
		if !strings.HasPrefix(raw, "attach://") {
			return breachf("%s: no file was uploaded", f.Name)
		}
		return nil
	case "Integer":
		n, err := strconv.ParseInt(raw, 10, 64)
		if err != nil {
			return breachf("%s: %q is not an integer", f.Name, raw)
		}
		return checkRange(f, n)
	case "Boolean":
		if raw != "true" && raw != "false" {
			return breachf("%s: %q is not true or false", f.Name, raw)
		}
		return nil
	}
	dec := json.NewDecoder(strings.NewReader(raw))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil || dec.More() {
		return breachf("%s: not JSON for %s", f.Name, typ)
	}
	return s.checkValue(typ, v, f)
}

// checkValue checks a decoded JSON value.
func (s *spec) checkValue(typ string, v any, f specField) *breach {
	if elem, ok := strings.CutPrefix(typ, "Array of "); ok {
		list, ok := v.([]any)
		if !ok {
			return breachf("%s: must be an array", f.Name)
		}
		if f.Limits.MaxCount != nil && len(list) > *f.Limits.MaxCount {
			return breachf("%s: %d given, at most %d allowed", f.Name, len(list), *f.Limits.MaxCount)
		}
		for i, x := range list {
			if b := s.checkValue(elem, x, specField{Name: fmt.Sprintf("%s[%d]", f.Name, i)}); b != nil {
				return b
			}
		}
		return nil
	}
	switch typ {
	case "Integer":
		n, ok := v.(json.Number)
		if !ok {
			return breachf("%s: must be an integer", f.Name)
		}
		i, err := n.Int64()
		if err != nil {
			return breachf("%s: %s is not an integer", f.Name, n)
		}
		return checkRange(f, i)
	case "String":
		text, ok := v.(string)
		if !ok {
			return breachf("%s: must be a string", f.Name)
		}
		return checkText(f, text)
	case "Boolean":
		if _, ok := v.(bool); !ok {
			return breachf("%s: must be true or false", f.Name)
		}
		return nil
	}
	object, ok := v.(map[string]any)
	if !ok {
		return breachf("%s: must be an object (%s)", f.Name, typ)
	}
	if s.opaque[typ] {
		return nil
	}
	t, ok := s.Types[typ]
	if !ok {
		return breachf("%s: the description has no type %s", f.Name, typ)
	}
	if len(t.Subtypes) > 0 {
		return s.checkSubtype(t, object, f)
	}
	return s.checkObject(typ, t, object, f.Name)
}

func (s *spec) checkObject(typ string, t specType, object map[string]any, at string) *breach {
	names := make([]string, 0, len(object))
	for name := range object {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		field, ok := s.field(t.Fields, name)
		if !ok {
			return breachf("%s: %s has no field %q", at, typ, name)
		}
		var first *breach
		field.Name = at + "." + name
		for _, ft := range field.Types {
			b := s.checkValue(ft, object[name], field)
			if b == nil {
				first = nil
				break
			}
			if first == nil {
				first = b
			}
		}
		if first != nil {
			return first
		}
	}
	for _, field := range t.Fields {
		if _, ok := object[field.Name]; field.Required && !ok {
			return breachf("%s: %s needs the field %q", at, typ, field.Name)
		}
	}
	if typ == "InlineKeyboardButton" {
		return checkButton(object, at)
	}
	return nil
}

// checkButton: exactly one of the fields that say what a button does (spec).
func checkButton(button map[string]any, at string) *breach {
	actions := 0
	for name := range button {
		switch name {
		case "text", "icon_custom_emoji_id", "style":
		default:
			actions++
		}
	}
	if actions == 1 {
		return nil
	}
	b := breachf("%s: a button does exactly one thing, this one %d", at, actions)
	if actions == 0 {
		b.answer = "can't parse inline keyboard button: Text buttons are unallowed in the inline keyboard"
	}
	return b
}

// checkSubtype finds the variant by its "type" or "status" where one of these names
// it, else by what fits.
func (s *spec) checkSubtype(t specType, object map[string]any, f specField) *breach {
	var first *breach
	for _, sub := range t.Subtypes {
		key, value := discriminator(sub)
		if key != "" && object[key] != value {
			continue
		}
		b := s.checkObject(sub, s.Types[sub], object, f.Name)
		if b == nil {
			return nil
		}
		if first == nil {
			first = b
		}
	}
	if first == nil {
		return breachf("%s: none of %s", f.Name, strings.Join(t.Subtypes, ", "))
	}
	return first
}

// discriminator: the values are in the prose of the spec only.
func discriminator(typ string) (key, value string) {
	switch typ {
	case "ChatMemberOwner":
		return "status", "creator"
	case "ChatMemberBanned":
		return "status", "kicked"
	}
	if rest, ok := strings.CutPrefix(typ, "ChatMember"); ok {
		return "status", strings.ToLower(rest)
	}
	for _, prefix := range []string{"BotCommandScope", "ReactionType"} {
		if rest, ok := strings.CutPrefix(typ, prefix); ok {
			return "type", snake(rest)
		}
	}
	return "", ""
}

func snake(name string) string {
	var b strings.Builder
	for i, r := range name {
		if i > 0 && r >= 'A' && r <= 'Z' {
			b.WriteByte('_')
		}
		b.WriteRune(r)
	}
	return strings.ToLower(b.String())
}

func checkRange(f specField, n int64) *breach {
	if f.Limits.Min != nil && n < *f.Limits.Min || f.Limits.Max != nil && n > *f.Limits.Max {
		return breachf("%s: %d is outside %d to %d", f.Name, n, deref(f.Limits.Min), deref(f.Limits.Max))
	}
	return nil
}

func checkText(f specField, text string) *breach {
	l := f.Limits
	if l.Counted != "" {
		// Counted after the entities are parsed, which happens where the text is taken.
		return nil
	}
	if n := utf16Len(text); l.MinChars != nil && n < *l.MinChars || l.MaxChars != nil && n > *l.MaxChars {
		return breachf("%s: %d characters, %d to %d allowed", f.Name, n, deref(l.MinChars), deref(l.MaxChars))
	}
	if n := len(text); l.MinBytes != nil && n < *l.MinBytes || l.MaxBytes != nil && n > *l.MaxBytes {
		b := breachf("%s: %d bytes, %d to %d allowed", f.Name, n, deref(l.MinBytes), deref(l.MaxBytes))
		if strings.HasSuffix(f.Name, ".callback_data") {
			b.answer = "BUTTON_DATA_INVALID"
		}
		return b
	}
	return nil
}

func deref[T int | int64](p *T) T {
	if p == nil {
		return 0
	}
	return *p
}
