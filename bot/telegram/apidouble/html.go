package apidouble

import (
	"cmp"
	"fmt"
	"html"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Entity marks a stretch of text; offset and length are in UTF-16 units (spec).
type Entity struct {
	Type     string `json:"type"`
	Offset   int    `json:"offset"`
	Length   int    `json:"length"`
	URL      string `json:"url,omitempty"`
	Language string `json:"language,omitempty"`
}

// utf16Len counts as the API counts.
func utf16Len(s string) int {
	n := 0
	for _, r := range s {
		n += max(utf16.RuneLen(r), 1)
	}
	return n
}

// htmlTags are those of the HTML style (docs: "Formatting options").
var htmlTags = map[string]string{
	"b": "bold", "strong": "bold", "i": "italic", "em": "italic", "u": "underline", "ins": "underline",
	"s": "strikethrough", "strike": "strikethrough", "del": "strikethrough", "span": "spoiler",
	"tg-spoiler": "spoiler", "a": "text_link", "code": "code", "pre": "pre", "blockquote": "blockquote",
}

type openTag struct {
	name   string
	entity Entity
}

type htmlReader struct {
	src   string
	pos   int
	out   strings.Builder
	width int // of out, in UTF-16 units
	open  []openTag
	found []Entity
}

// parseHTML turns the HTML style into text and entities, or says why the server
// would refuse it, in the server's words where they are known.
func parseHTML(src string) (string, []Entity, error) {
	h := &htmlReader{src: src}
	for h.pos < len(src) {
		var err error
		switch src[h.pos] {
		case '<':
			err = h.tag()
		case '&':
			err = h.reference()
		default:
			r, n := utf8.DecodeRuneInString(src[h.pos:])
			h.put(r)
			h.pos += n
		}
		if err != nil {
			return "", nil, err
		}
	}
	if n := len(h.open); n > 0 {
		return "", nil, refuseHTML("Can't find end tag corresponding to start tag %q", h.open[n-1].name)
	}
	slices.SortStableFunc(h.found, func(a, b Entity) int {
		return cmp.Or(cmp.Compare(a.Offset, b.Offset), cmp.Compare(b.Length, a.Length))
	})
	return h.out.String(), h.found, nil
}

// htmlError keeps the server's wording, capitals and all.
type htmlError string

func (e htmlError) Error() string { return string(e) }

func refuseHTML(format string, args ...any) error {
	return htmlError(fmt.Sprintf(format, args...))
}

func (h *htmlReader) put(r rune) {
	h.out.WriteRune(r)
	h.width += max(utf16.RuneLen(r), 1)
}

// reference reads &lt; and its like. The docs demand that every other & be escaped.
// The server lets a stray one through as text; the double does not, because a text
// with one in it is a text that was not escaped.
func (h *htmlReader) reference() error {
	end := strings.IndexByte(h.src[h.pos:], ';')
	if end < 0 || end > 10 {
		return refuseHTML("unescaped '&' at byte offset %d", h.pos)
	}
	name := h.src[h.pos+1 : h.pos+end]
	r, ok := map[string]rune{"lt": '<', "gt": '>', "amp": '&', "quot": '"'}[name]
	if num, isNum := strings.CutPrefix(name, "#"); !ok && isNum {
		base := 10
		if hex, isHex := strings.CutPrefix(strings.ToLower(num), "x"); isHex {
			num, base = hex, 16
		}
		n, err := strconv.ParseInt(num, base, 32)
		r, ok = rune(n), err == nil && n > 0 && n < utf8.MaxRune
	}
	if !ok {
		return refuseHTML("unescaped '&' at byte offset %d", h.pos)
	}
	h.put(r)
	h.pos += end + 1
	return nil
}

func (h *htmlReader) tag() error {
	start := h.pos
	end := strings.IndexByte(h.src[start:], '>')
	if strings.HasPrefix(h.src[start:], "</") {
		if end < 0 {
			return refuseHTML("Unclosed end tag at byte offset %d", start)
		}
		h.pos += end + 1
		return h.closeTag(strings.ToLower(strings.TrimSpace(h.src[start+2:start+end])), start)
	}
	if end < 0 {
		return refuseHTML("Unclosed start tag at byte offset %d", start)
	}
	h.pos += end + 1
	name, attrs, _ := strings.Cut(h.src[start+1:start+end], " ")
	name = strings.ToLower(name)
	kind, ok := htmlTags[name]
	if !ok {
		return refuseHTML("Unsupported start tag %q at byte offset %d", name, start)
	}
	e := Entity{Type: kind, Offset: h.width}
	switch name {
	case "span":
		if attribute(attrs, "class") != "tg-spoiler" {
			return refuseHTML(`Tag "span" must have class "tg-spoiler" at byte offset %d`, start)
		}
	case "a":
		e.URL = html.UnescapeString(attribute(attrs, "href"))
	case "blockquote":
		if attrs == "expandable" {
			e.Type = "expandable_blockquote"
		}
	case "code":
		e.Language = strings.TrimPrefix(attribute(attrs, "class"), "language-")
	}
	h.open = append(h.open, openTag{name, e})
	return nil
}

func (h *htmlReader) closeTag(name string, start int) error {
	n := len(h.open)
	if n == 0 {
		return refuseHTML("Unexpected end tag at byte offset %d", start)
	}
	top := h.open[n-1]
	if name != "" && name != top.name {
		return refuseHTML(`Unmatched end tag at byte offset %d, expected "</%s>", found "</%s>"`, start, top.name, name)
	}
	h.open = h.open[:n-1]
	top.entity.Length = h.width - top.entity.Offset
	if top.entity.Length > 0 && (top.name != "a" || top.entity.URL != "") {
		h.found = append(h.found, top.entity)
	}
	return nil
}

// attribute reads name="value" out of the inside of a tag.
func attribute(attrs, name string) string {
	_, rest, ok := strings.Cut(attrs, name+"=")
	if !ok || rest == "" {
		return ""
	}
	if q := rest[0]; q == '"' || q == '\'' {
		value, _, _ := strings.Cut(rest[1:], string(q))
		return value
	}
	value, _, _ := strings.Cut(rest, " ")
	return value
}
