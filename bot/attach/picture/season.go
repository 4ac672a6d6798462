package picture

import (
	"math"
	"time"
)

// Stage says how a stretch of a batch's life is drawn.
type Stage int

// The stages: a breeder on her comb, cells in the builder, virgins in their nucs,
// queens that lay, and what is only planned.
const (
	Comb Stage = iota
	Cells
	Virgins
	Layers
	Planned
)

// Stretch is one stage of one batch.
type Stretch struct {
	From, To time.Time
	Stage    Stage
}

// Round is one row of the season: a batch or a planned round.
type Round struct {
	Text      string
	Stretches []Stretch
	// Risk is the instant at which the move window closes, marked by a post.
	Risk time.Time
}

// Tick is a place on the time axis.
type Tick struct {
	At   time.Time
	Name string
}

// Season is the picture of all rounds of a season.
type Season struct {
	Title    string
	From, To time.Time
	Ticks    []Tick // a name is left out where it would touch the one before
	Now      time.Time
	Rounds   []Round
	NowWord  string
	Empty    string
	Legend   SeasonLegend
}

// SeasonLegend explains the stages.
type SeasonLegend struct {
	Comb, Cells, Virgins, Layers, Planned, Close string
}

// PNG draws the season, Width pixels wide and as high as it has to be.
func (w Season) PNG() ([]byte, error) { return w.draw().png() }

func (w Season) draw() *sheet {
	title := wrap(w.Title, titleSize, true, Width-2*margin)
	items := w.Legend.items()
	top := margin + float64(len(title))*titleSize*1.2 + 8
	grid := top + 54
	foot := grid + 20
	for _, r := range w.Rounds {
		foot += rowHeight + extra(r.Text, false)
	}
	if len(w.Rounds) == 0 {
		foot += 160
	}
	s := newSheet(foot + 46 + float64(flow(items))*44 + margin)
	for i, t := range title {
		s.text(margin, margin+titleSize*(0.85+1.2*float64(i)), t, titleSize, true, ink, 0)
	}
	span := w.To.Sub(w.From).Seconds()
	if span <= 0 {
		return s
	}
	x := func(t time.Time) float64 {
		return margin + math.Max(0, math.Min(1, t.Sub(w.From).Seconds()/span))*(Width-2*margin)
	}
	free := 0.0
	for _, k := range w.Ticks {
		at := x(k.At)
		s.line(at, grid, at, foot, 2, line)
		half := widthOf(k.Name, smallSize, true) / 2
		if at-half < margin-8 || at-half < free || at+half > Width-margin+8 {
			continue
		}
		s.text(at, top+40, k.Name, smallSize, true, ink, 0.5)
		free = at + half + 14
	}
	s.line(margin, grid, Width-margin, grid, 3, ink)
	s.line(margin, foot, Width-margin, foot, 3, ink)
	Week{Days: []Day{{From: w.From, To: w.To}}, Now: w.Now, NowWord: w.NowWord}.nowLine(s, x, grid, foot)
	y := grid + 10
	for _, r := range w.Rounds {
		y = s.row(y, r.Text, false, ink)
		for _, b := range r.Stretches {
			stretch(s, x(b.From), x(b.To), y+64, b.Stage)
		}
		if !r.Risk.IsZero() && !r.Risk.Before(w.From) && !r.Risk.After(w.To) {
			post(s, x(r.Risk), y+64)
		}
		y += rowHeight
	}
	if len(w.Rounds) == 0 {
		t := fit(w.Empty, headSize, false, Width-2*margin-24)
		s.onPaper(Width/2-widthOf(t, headSize, false)/2-14, y+96, t, headSize, false, ink)
	}
	drawLegend(s, items, foot+46+30)
	return s
}

// stretch draws one stage; each has its own height beside its own colour.
func stretch(s *sheet, a, z, mid float64, stage Stage) {
	if z-a < 3 {
		z = a + 3
	}
	switch stage {
	case Comb:
		s.rect(a, mid-4, z, mid+4, ink)
	case Cells:
		s.rect(a, mid-14, z, mid+14, weighty)
	case Virgins:
		s.rect(a, mid-14, z, mid+14, paper)
		hatch(s, a, mid-14, z, mid+14)
	case Layers:
		s.rect(a, mid-14, z, mid+14, calm)
	case Planned:
		s.rect(a, mid-12, z, mid+12, paper)
		for _, y := range []float64{mid - 12, mid + 12} {
			s.line(a, y, z, y, 3, faint, 8, 6)
		}
		s.line(a, mid-13, a, mid+13, 3, faint)
		s.line(z, mid-13, z, mid+13, 3, faint)
	}
}

// post marks the close of a move window.
func post(s *sheet, x, mid float64) {
	s.rect(x-5, mid-20, x+5, mid+20, paper)
	s.rect(x-3, mid-18, x+3, mid+18, critical)
}

func (l SeasonLegend) items() (out []item) {
	for _, i := range []item{{l.Comb, "comb"}, {l.Cells, "cells"}, {l.Virgins, "virgins"}, {l.Layers, "layers"}, {l.Planned, "planned"}, {l.Close, "close"}} {
		if i.words != "" {
			out = append(out, i)
		}
	}
	return out
}
