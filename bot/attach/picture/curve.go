package picture

import (
	"fmt"
	"image/color"
	"math"
	"time"
)

// Curve is a figure of shares or chances over time, from 0 to 1.
type Curve struct {
	Title    string
	From, To time.Time
	Ticks    []Tick
	Now      time.Time
	NowWord  string
	Lines    []Line
	Window   [2]time.Time // shaded: when the step may be done; zero for none
	Marks    []Tick       // upright posts with their words: the best, the close
	Windowed string       // the legend's word for the shading
}

// Line is one curve; its name stands in the legend beside its own dash.
type Line struct {
	Name string
	At   func(time.Time) float64
}

var lineInks = []color.NRGBA{critical, calm, ink, weighty, nowInk, faint}

var lineDashes = [][]float64{nil, {22, 10}, {5, 8}, {22, 8, 5, 8}, {12, 8}, {3, 5}}

// PNG draws the figure, Width pixels wide.
func (c Curve) PNG() ([]byte, error) { return c.draw().png() }

func (c Curve) draw() *sheet {
	title := wrap(c.Title, titleSize, true, Width-2*margin)
	top := margin + float64(len(title))*titleSize*1.2 + 24
	const left, height = margin + 92, 560.0
	foot := top + 48*float64(len(c.Marks)) + height
	grid := foot - height
	items := c.items()
	s := newSheet(foot + 96 + float64(len(items))*44 + margin)
	for i, t := range title {
		s.text(margin, margin+titleSize*(0.85+1.2*float64(i)), t, titleSize, true, ink, 0)
	}
	span := c.To.Sub(c.From).Seconds()
	if span <= 0 {
		return s
	}
	x := func(t time.Time) float64 {
		return left + math.Max(0, math.Min(1, t.Sub(c.From).Seconds()/span))*(Width-margin-left)
	}
	y := func(v float64) float64 { return foot - math.Max(0, math.Min(1, v))*height }
	if !c.Window[0].IsZero() {
		s.rect(x(c.Window[0]), grid, x(c.Window[1]), foot, rest)
	}
	for v := 0; v <= 100; v += 25 {
		at := y(float64(v) / 100)
		s.line(left, at, Width-margin, at, 2, line)
		s.text(left-14, at+9, fmt.Sprintf("%d %%", v), smallSize, false, ink, 1)
	}
	free := 0.0
	for _, k := range c.Ticks {
		at := x(k.At)
		s.line(at, foot, at, foot+12, 3, ink)
		half := widthOf(k.Name, smallSize, true) / 2
		if at-half < free || at+half > Width-8 {
			continue
		}
		s.text(at, foot+44, k.Name, smallSize, true, ink, 0.5)
		free = at + half + 16
	}
	for i, l := range c.Lines {
		const steps = 240
		for k := range steps {
			a := c.From.Add(time.Duration(float64(k) / steps * float64(c.To.Sub(c.From))))
			b := c.From.Add(time.Duration(float64(k+1) / steps * float64(c.To.Sub(c.From))))
			if dashed(lineDashes[i%len(lineDashes)], float64(k)/steps*(Width-margin-left)) {
				s.line(x(a), y(l.At(a)), x(b), y(l.At(b)), 6, lineInks[i%len(lineInks)])
			}
		}
	}
	for i, m := range c.Marks {
		c.mark(s, m, x(m.At), top+48*float64(i)+30, foot)
	}
	s.line(left, foot, Width-margin, foot, 3, ink)
	s.line(left, grid, left, foot, 3, ink)
	if !c.Now.Before(c.From) && !c.Now.After(c.To) && c.NowWord != "" {
		at := x(c.Now)
		s.line(at, grid, at, foot+12, 4, nowInk, 14, 8)
		half := widthOf(c.NowWord, smallSize, true) / 2
		s.text(math.Min(math.Max(at, margin+half), Width-margin-half), foot+82, c.NowWord, smallSize, true, nowInk, 0.5)
	}
	yl := foot + 96 + 34
	for i, it := range items {
		c.legend(s, i, it, yl)
		yl += 44
	}
	return s
}

// mark writes a mark's words above the figure, each on a line of its own, and drops
// a post from them.
func (c Curve) mark(s *sheet, m Tick, at, y, foot float64) {
	s.line(at, y+8, at, foot, 3, ink, 4, 6)
	half := widthOf(m.Name, smallSize, true) / 2
	mid := math.Min(math.Max(at, margin+half+4), Width-margin-half-4)
	s.rect(mid-half-6, y-24, mid+half+6, y+8, paper)
	s.text(mid, y, m.Name, smallSize, true, ink, 0.5)
}

// dashed reports whether a dash pattern draws at a distance along the axis.
func dashed(dash []float64, at float64) bool {
	sum := 0.0
	for _, d := range dash {
		sum += d
	}
	if sum == 0 {
		return true
	}
	at = math.Mod(at, sum)
	for i, d := range dash {
		if at < d {
			return i%2 == 0
		}
		at -= d
	}
	return false
}

func (c Curve) items() (out []string) {
	for _, l := range c.Lines {
		out = append(out, l.Name)
	}
	if c.Windowed != "" {
		out = append(out, c.Windowed)
	}
	return out
}

func (c Curve) legend(s *sheet, i int, words string, y float64) {
	mid := y - 9
	if i < len(c.Lines) {
		for k := 0.0; k < 110; k++ {
			if dashed(lineDashes[i%len(lineDashes)], k) {
				s.rect(margin+k, mid-3, margin+k+1.5, mid+3, lineInks[i%len(lineInks)])
			}
		}
	} else {
		s.rect(margin, mid-14, margin+110, mid+14, rest)
		s.line(margin, mid-14, margin+110, mid-14, 2, line)
		s.line(margin, mid+14, margin+110, mid+14, 2, line)
	}
	s.text(margin+126, y, fit(words, smallSize, false, Width-2*margin-126), smallSize, false, ink, 0)
}
