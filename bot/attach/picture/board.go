package picture

import "image/color"

// Hive says what a nuc holds, and so how its square is drawn. Cells, virgins and layers are
// drawn as in the picture of the season.
type Hive int

// The squares: what stands free, was emptied, failed, holds something, is not known, is gone.
const (
	Free Hive = iota
	Emptied
	Failed
	WithCell
	WithVirgin
	WithLayer
	NotTold
	Gone
)

// Nucs is nucs that stand alike: words and, under them, a square for each.
type Nucs struct {
	Text   string
	Hive   Hive
	Count  int
	Labels []string // numbers that the crew gave to some of them
}

// Lot is nucs that are handled alike, under a heading.
type Lot struct {
	Title string
	Alone bool // they are left alone: hatched, as in the picture of the week
	Nucs  []Nucs
}

// Board is the picture of the nucs of a yard.
type Board struct {
	Title string
	Lots  []Lot
}

const (
	square    = 54.0
	squareGap = 9.0
	perLine   = 16  // squares side by side
	mostNucs  = 160 // squares of one kind: of more the words alone say how many
)

func squares(n int) int { return min(n, mostNucs) }

func squareLines(n int) int { return (squares(n) + perLine - 1) / perLine }

// PNG draws the board, Width pixels wide and as high as it has to be.
func (b Board) PNG() ([]byte, error) { return b.draw().png() }

func (b Board) draw() *sheet {
	title := wrap(b.Title, titleSize, true, Width-2*margin)
	top := margin + float64(len(title))*titleSize*1.2 + 8
	h := top
	for _, l := range b.Lots {
		h += float64(len(l.lines()))*headSize*1.25 + 34
		for _, n := range l.Nucs {
			h += 52 + extra(n.Text, false) + float64(squareLines(n.Count))*(square+squareGap) + 14
		}
	}
	s := newSheet(h + margin)
	for i, t := range title {
		s.text(margin, margin+titleSize*(0.85+1.2*float64(i)), t, titleSize, true, ink, 0)
	}
	y := top
	for _, l := range b.Lots {
		s.line(margin, y+6, Width-margin, y+6, 3, ink)
		y += 20
		for i, t := range l.lines() {
			y += headSize * 1.25
			x := margin
			if l.Alone {
				if i == 0 {
					hatch(s, x, y-30, x+sample, y-2)
				}
				x += sample + 14
			}
			s.text(x, y-4, t, headSize, true, ink, 0)
		}
		y += 14
		for _, n := range l.Nucs {
			y = s.row(y, n.Text, false, ink) + 52
			for i := range squares(n.Count) {
				x := margin + 12 + float64(i%perLine)*(square+squareGap)
				label := ""
				if i < len(n.Labels) {
					label = n.Labels[i]
				}
				s.hive(x, y+float64(i/perLine)*(square+squareGap), n.Hive, label)
			}
			y += float64(squareLines(n.Count))*(square+squareGap) + 14
		}
	}
	return s
}

func (l Lot) lines() []string { return wrap(l.Title, headSize, true, Width-2*margin-sample-14) }

// hive draws one nuc with its number, if it has one.
func (s *sheet) hive(x, y float64, h Hive, label string) {
	x1, y1 := x+square, y+square
	frame := func(c color.Color, w float64) {
		s.line(x, y, x1, y, w, c)
		s.line(x, y1, x1, y1, w, c)
		s.line(x, y, x, y1, w, c)
		s.line(x1, y, x1, y1, w, c)
	}
	words := ink
	switch h {
	case Free:
		frame(ink, 3)
	case Emptied: // its lid is off
		s.line(x, y1, x1, y1, 3, ink)
		s.line(x, y, x, y1, 3, ink)
		s.line(x1, y, x1, y1, 3, ink)
	case Failed:
		frame(ink, 3)
		if label == "" {
			s.line(x+10, y1-10, x1-10, y+10, 4, ink)
		}
	case WithCell:
		s.rect(x, y, x1, y1, weighty)
		words = paper
	case WithVirgin:
		hatch(s, x, y, x1, y1)
	case WithLayer:
		s.rect(x, y, x1, y1, calm)
		words = paper
	case NotTold:
		frame(line, 2)
		if label == "" {
			s.text((x+x1)/2, y+36, "?", smallSize, false, faint, 0.5)
		}
	case Gone:
		s.line(x+8, y+8, x1-8, y1-8, 4, faint)
		s.line(x+8, y1-8, x1-8, y+8, 4, faint)
	}
	if label == "" {
		return
	}
	label = fit(label, smallSize, true, square-6)
	w := widthOf(label, smallSize, true) / 2
	if h == WithVirgin || h == Gone {
		s.rect((x+x1)/2-w-3, y+14, (x+x1)/2+w+3, y+44, paper)
	}
	s.text((x+x1)/2, y+37, label, smallSize, true, words, 0.5)
}
