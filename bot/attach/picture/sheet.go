package picture

import (
	"image/color"
	"math"
	"strings"

	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// Width of every picture in pixels: three for each point of a phone's screen, so
// that one pixel of the font is a third of a point.
const Width = 1080

const margin = 36.0

// The colours. Each of them stands out from the ground it is used on by the ratio
// that a test holds it to; none of them carries a meaning alone, since shape,
// height or words say the same.
var (
	paper    = color.NRGBA{255, 255, 255, 255}
	ink      = color.NRGBA{17, 24, 32, 255}
	faint    = color.NRGBA{84, 94, 105, 255} // second text
	rest     = color.NRGBA{231, 234, 238, 255}
	line     = color.NRGBA{176, 184, 193, 255}
	calm     = color.NRGBA{57, 104, 143, 255}
	weighty  = color.NRGBA{138, 84, 0, 255}
	critical = color.NRGBA{168, 17, 38, 255}
	guard    = color.NRGBA{110, 119, 129, 255}
	nowInk   = color.NRGBA{0, 92, 58, 255}
)

var cache = font.NewCache(liberation.Collection())

// box is where something was drawn, for the test that nothing overlaps.
type box struct {
	x0, y0, x1, y1 float64
	what           string
}

// sheet is a canvas measured in pixels from its upper left corner.
type sheet struct {
	c     *vgimg.Canvas
	d     draw.Canvas
	h     float64
	texts []box
}

func newSheet(h float64) *sheet {
	c := vgimg.NewWith(vgimg.UseWH(Width, vg.Length(h)), vgimg.UseDPI(72), vgimg.UseBackgroundColor(paper))
	return &sheet{c: c, d: draw.New(c), h: h}
}

func style(size float64, bold bool, ink color.Color) text.Style {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Length(size)}
	if bold {
		f.Weight = stdfont.WeightBold
	}
	return text.Style{Color: ink, Font: f, Handler: text.Plain{Fonts: cache}}
}

func widthOf(s string, size float64, bold bool) float64 {
	return float64(style(size, bold, ink).Width(s))
}

// fit shortens a text until it is no wider than w.
func fit(s string, size float64, bold bool, w float64) string {
	if widthOf(s, size, bold) <= w {
		return s
	}
	r := []rune(s)
	for len(r) > 1 {
		r = r[:len(r)-1]
		if t := string(r) + "…"; widthOf(t, size, bold) <= w {
			return t
		}
	}
	return "…"
}

// wrap breaks a text at its spaces into lines no wider than w.
func wrap(s string, size float64, bold bool, w float64) (lines []string) {
	cur := ""
	for _, word := range strings.Fields(s) {
		next := word
		if cur != "" {
			next = cur + " " + next
		}
		if cur != "" && widthOf(next, size, bold) > w {
			lines = append(lines, fit(cur, size, bold, w))
			next = word
		}
		cur = next
	}
	if cur != "" {
		lines = append(lines, fit(cur, size, bold, w))
	}
	return lines
}

// mostLines keeps one row from filling the sheet; names of yards may be long.
const mostLines = 3

// rowLines breaks the words of a row into as many lines as they need, of about the same
// length: a number left over for a line of its own is not seen.
func rowLines(t string, bold bool) []string {
	lines := wrap(t, rowSize, bold, Width-2*margin-24)
	if len(lines) <= mostLines {
		for w := Width - 2*margin - 64.0; len(lines) > 1 && w > Width/3; w -= 40 {
			narrow := wrap(t, rowSize, bold, w)
			if len(narrow) > len(lines) {
				break
			}
			lines = narrow
		}
	}
	if len(lines) > mostLines {
		lines = append(lines[:mostLines-1], fit(strings.Join(lines[mostLines-1:], " "), rowSize, bold, Width-2*margin-24))
	}
	return lines
}

const lineHeight = rowSize * 1.25

// extra is the room that a row's words take beyond their first line.
func extra(t string, bold bool) float64 {
	return float64(max(0, len(rowLines(t, bold))-1)) * lineHeight
}

// row writes the words of a row that begins at y, and gives where its bar has its place.
func (s *sheet) row(y float64, t string, bold bool, ink color.Color) float64 {
	for i, l := range rowLines(t, bold) {
		s.onPaper(margin, y+36+float64(i)*lineHeight, l, rowSize, bold, ink)
	}
	return y + extra(t, bold)
}

// text writes s with its baseline at y and its left edge at x; anchor 0.5 centres
// it on x, 1 ends it there.
func (s *sheet) text(x, y float64, t string, size float64, bold bool, ink color.Color, anchor float64) {
	if t == "" {
		return
	}
	w := widthOf(t, size, bold)
	x -= w * anchor
	st := style(size, bold, ink)
	s.d.FillText(st, vg.Point{X: vg.Length(x), Y: vg.Length(s.h - y)}, t)
	s.texts = append(s.texts, box{x, y - size*0.74, x + w, y + size*0.2, t})
}

// onPaper writes s on white, so that no grey and no line is behind the letters.
func (s *sheet) onPaper(x, y float64, t string, size float64, bold bool, ink color.Color) {
	s.rect(x+3, y-size*0.98, x+widthOf(t, size, bold)+24, y+size*0.3, paper)
	s.text(x+12, y, t, size, bold, ink, 0)
}

func (s *sheet) rect(x0, y0, x1, y1 float64, fill color.Color) {
	if x1 <= x0 || y1 <= y0 {
		return
	}
	s.c.SetColor(fill)
	s.c.Fill(s.path(x0, y0, x1, y0, x1, y1, x0, y1))
}

func (s *sheet) poly(fill color.Color, xy ...float64) {
	s.c.SetColor(fill)
	s.c.Fill(s.path(xy...))
}

func (s *sheet) path(xy ...float64) vg.Path {
	var p vg.Path
	for i := 0; i+1 < len(xy); i += 2 {
		pt := vg.Point{X: vg.Length(xy[i]), Y: vg.Length(s.h - xy[i+1])}
		if i == 0 {
			p.Move(pt)
		} else {
			p.Line(pt)
		}
	}
	p.Close()
	return p
}

func (s *sheet) line(x0, y0, x1, y1, w float64, ink color.Color, dash ...float64) {
	s.c.SetColor(ink)
	s.c.SetLineWidth(vg.Length(w))
	var ds []vg.Length
	for _, d := range dash {
		ds = append(ds, vg.Length(d))
	}
	s.c.SetLineDash(ds, 0)
	var p vg.Path
	p.Move(vg.Point{X: vg.Length(x0), Y: vg.Length(s.h - y0)})
	p.Line(vg.Point{X: vg.Length(x1), Y: vg.Length(s.h - y1)})
	s.c.Stroke(p)
	s.c.SetLineDash(nil, 0)
}

// contrast is the ratio of the relative luminances of two colours, from 1 to 21,
// as the W3C's Web Content Accessibility Guidelines 2.1 (2018) define it.
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	f := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.03928 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}
