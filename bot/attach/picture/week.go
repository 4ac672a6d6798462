package picture

import (
	"image/color"
	"math"
	"time"
)

// Class says how a bar is drawn: the more hangs on it, the taller and darker.
type Class int

// The classes of bar. Guard is a time to leave things alone, hatched.
const (
	Calm Class = iota
	Weighty
	Critical
	Guard
)

// Bar is one window: a line of words and, under it, the time it covers.
type Bar struct {
	Text     string
	Earliest time.Time
	Best     time.Time // zero for none
	Latest   time.Time
	Class    Class
	Late     bool // its close has passed and it is not done
	// Risk is the chance that a virgin is out at an instant; nil where that is no
	// matter. RiskTo ends its shading.
	Risk   func(time.Time) float64
	RiskTo time.Time
}

// Group is a heading with its bars: a yard.
type Group struct {
	Title string
	Bars  []Bar
}

// Day is one column.
type Day struct {
	From, To time.Time // local midnight to the next: 23, 24 or 25 hours
	Name     string    // "Thu 8"
	Off      bool
	WorkFrom time.Time
	WorkTo   time.Time
}

// Week is the picture of some days ahead.
type Week struct {
	Title  string
	Days   []Day
	Now    time.Time
	Groups []Group
	// Words of the picture.
	NowWord, Empty string
	Legend         Legend
}

// Legend explains the bars in a few words each; an empty one is left out.
type Legend struct {
	Calm, Weighty, Critical, Guard, Best, Risk, Rest string
}

const (
	titleSize = 44.0
	headSize  = 36.0
	rowSize   = 31.0
	smallSize = 27.0
	rowHeight = 88.0
	headRoom  = 66.0
)

// bold reports whether a bar's words stand out.
func (b Bar) bold() bool { return b.Class == Critical || b.Late }

// PNG draws the week, Width pixels wide and as high as it has to be.
func (w Week) PNG() ([]byte, error) { return w.draw().png() }

func (w Week) draw() *sheet {
	title := wrap(w.Title, titleSize, true, Width-2*margin)
	items := w.Legend.items()
	legend := flow(items)
	top := margin + float64(len(title))*titleSize*1.2 + 8
	grid := top + 54
	h := grid + 12
	for _, g := range w.Groups {
		if g.Title != "" {
			h += headRoom
		}
		for _, b := range g.Bars {
			h += rowHeight + extra(b.Text, b.bold())
		}
	}
	rows := 0
	for _, g := range w.Groups {
		rows += len(g.Bars)
	}
	if rows == 0 {
		h += 160
	}
	foot := h + 8
	h = foot + 46 + float64(legend)*44 + margin
	s := newSheet(h)
	for i, t := range title {
		s.text(margin, margin+titleSize*(0.85+1.2*float64(i)), t, titleSize, true, ink, 0)
	}
	if len(w.Days) == 0 {
		return s
	}
	x := w.scale()
	w.ground(s, x, top, grid, foot)
	w.nowLine(s, x, grid, foot)
	y := grid + 12
	for _, g := range w.Groups {
		if g.Title != "" {
			s.onPaper(margin, y+headSize+6, fit(g.Title, headSize, true, Width-2*margin-24), headSize, true, ink)
			y += headRoom
		}
		for _, b := range g.Bars {
			w.bar(s, x, y, b)
			y += rowHeight + extra(b.Text, b.bold())
		}
	}
	if rows == 0 {
		t := fit(w.Empty, headSize, false, Width-2*margin-24)
		s.onPaper(Width/2-widthOf(t, headSize, false)/2-14, y+96, t, headSize, false, ink)
	}
	drawLegend(s, items, foot+46+30)
	return s
}

// scale maps an instant to a place across the sheet.
func (w Week) scale() func(time.Time) float64 {
	from, to := w.Days[0].From, w.Days[len(w.Days)-1].To
	span := to.Sub(from).Seconds()
	return func(t time.Time) float64 {
		f := t.Sub(from).Seconds() / span
		return margin + math.Max(0, math.Min(1, f))*(Width-2*margin)
	}
}

// ground draws the days: white while the crew works, grey while it rests.
func (w Week) ground(s *sheet, x func(time.Time) float64, top, grid, foot float64) {
	for _, d := range w.Days {
		a, b := x(d.From), x(d.To)
		if d.Off || !d.WorkTo.After(d.WorkFrom) {
			s.rect(a, grid, b, foot, rest)
		} else {
			s.rect(a, grid, x(d.WorkFrom), foot, rest)
			s.rect(x(d.WorkTo), grid, b, foot, rest)
		}
	}
	for i, d := range w.Days {
		a, b := x(d.From), x(d.To)
		s.line(a, top+8, a, foot, 2, line)
		if i == len(w.Days)-1 {
			s.line(b, top+8, b, foot, 2, line)
		}
		s.text((a+b)/2, top+40, fit(d.Name, smallSize, true, b-a-8), smallSize, true, ink, 0.5)
	}
	s.line(margin, grid, Width-margin, grid, 3, ink)
	s.line(margin, foot, Width-margin, foot, 3, ink)
}

func (w Week) bar(s *sheet, x func(time.Time) float64, y float64, b Bar) {
	// The words are laid on white, so that neither grey nor a bar is behind them.
	shade := color.Color(ink)
	if b.Late {
		shade = critical
	}
	y0 := s.row(y, b.Text, b.bold(), shade) + 50
	from, to := w.Days[0].From, w.Days[len(w.Days)-1].To
	if b.Latest.Before(from) {
		// Over before the first day: a mark at the edge says that it is behind.
		s.poly(critical, margin+26, y0, margin+26, y0+26, margin+6, y0+13)
		return
	}
	if b.Earliest.After(to) {
		s.poly(shadeOf(b.Class), Width-margin-26, y0, Width-margin-26, y0+26, Width-margin-6, y0+13)
		return
	}
	if b.Risk != nil {
		riskShade(s, x, b, y0, from, to)
	}
	a, z := x(b.Earliest), x(b.Latest)
	if z-a < 8 {
		mid := (a + z) / 2
		a, z = math.Max(margin, mid-4), math.Min(Width-margin, mid+4)
	}
	half := map[Class]float64{Calm: 8, Weighty: 11, Critical: 14, Guard: 8}[b.Class]
	mid := y0 + 14
	if b.Class == Guard {
		s.rect(a, mid-half, z, mid+half, paper)
		hatch(s, a, mid-half, z, mid+half)
	} else {
		s.rect(a, mid-half, z, mid+half, shadeOf(b.Class))
	}
	if !b.Best.IsZero() && !b.Best.Before(from) && !b.Best.After(to) && b.Class != Guard {
		best(s, x(b.Best), mid)
	}
}

func shadeOf(c Class) color.NRGBA {
	return map[Class]color.NRGBA{Calm: calm, Weighty: weighty, Critical: critical, Guard: guard}[c]
}

// best marks the best time: a white post with a dark edge, seen on every bar.
func best(s *sheet, x, mid float64) {
	s.rect(x-6, mid-18, x+6, mid+18, ink)
	s.rect(x-3, mid-15, x+3, mid+15, paper)
}

// hatch fills a box with slanted lines and a border.
func hatch(s *sheet, x0, y0, x1, y1 float64) {
	const step = 12
	for x := x0 - (y1 - y0); x < x1; x += step {
		ax, ay, bx, by := x, y1, x+(y1-y0), y0
		if ax < x0 {
			ay -= x0 - ax
			ax = x0
		}
		if bx > x1 {
			by += bx - x1
			bx = x1
		}
		if bx > ax {
			s.line(ax, ay, bx, by, 2, guard)
		}
	}
	s.line(x0, y0, x1, y0, 2, guard)
	s.line(x0, y1, x1, y1, 2, guard)
	s.line(x0, y0, x0, y1, 2, guard)
	s.line(x1, y0, x1, y1, 2, guard)
}

// riskShade draws the chance that a virgin is out as a wedge that rises towards
// first emergence: its height is the chance.
func riskShade(s *sheet, x func(time.Time) float64, b Bar, y0 float64, from, to time.Time) {
	end := b.RiskTo
	if end.After(to) {
		end = to
	}
	start := b.Earliest
	if start.Before(from) {
		start = from
	}
	if !end.After(start) {
		return
	}
	const steps = 96
	base := y0 + 31
	top := func(t time.Time) float64 { return base - 34*math.Max(0, math.Min(1, b.Risk(t))) }
	xy := []float64{x(start), base}
	for i := 0; i <= steps; i++ {
		t := start.Add(time.Duration(float64(end.Sub(start)) * float64(i) / steps))
		xy = append(xy, x(t), top(t))
	}
	xy = append(xy, x(end), base)
	s.poly(riskFill, xy...)
	for i := 2; i+3 < len(xy)-2; i += 2 {
		if base-xy[i+3] > 0.5 {
			s.line(xy[i], xy[i+1], xy[i+2], xy[i+3], 2, critical)
		}
	}
}

var riskFill = color.NRGBA{236, 160, 170, 255}

func (w Week) nowLine(s *sheet, x func(time.Time) float64, grid, foot float64) {
	from, to := w.Days[0].From, w.Days[len(w.Days)-1].To
	if w.Now.Before(from) || w.Now.After(to) {
		return
	}
	at := x(w.Now)
	s.line(at, grid, at, foot+10, 4, nowInk, 14, 8)
	anchor := 0.5
	if half := widthOf(w.NowWord, smallSize, true) / 2; at-half < margin {
		anchor = 0
	} else if at+half > Width-margin {
		anchor = 1
	}
	s.text(at, foot+36, w.NowWord, smallSize, true, nowInk, anchor)
}
