package picture

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the pictures in testdata anew; then look at every one of them")

// samples are the pictures that are kept and looked at.
func samples() map[string]interface{ draw() *sheet } {
	return map[string]interface{ draw() *sheet }{
		"week_empty": sampleWeek(0), "week": sampleWeek(1), "week_busy": sampleWeek(6),
		"season_empty": sampleSeason(0), "season": sampleSeason(4), "season_busy": sampleSeason(14),
		"curve": sampleCurve(), "season_40": sampleSeason(40), "season_1": sampleSeason(1),
		"week_es": inSpanish(sampleWeek(2)), "week_empty_es": inSpanish(sampleWeek(0)), "season_es": seasonInSpanish(sampleSeason(4)), "season_empty_es": seasonInSpanish(sampleSeason(0)),
		"curve_es": curveInSpanish(sampleCurve()), "board": sampleBoard(), "board_es": boardInSpanish(), "board_full": fullBoard(),
	}
}

// Every picture is as it was looked at: no more than one pixel in a thousand may
// differ by more than a shade, which a newer release of the font engine may do.
func TestPixels(t *testing.T) {
	for name, p := range samples() {
		got, err := p.draw().png()
		require.NoError(t, err)
		path := filepath.Join("testdata", name+".png")
		if *update {
			require.NoError(t, os.WriteFile(path, got, 0o644))
			continue
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		a, err := png.Decode(bytes.NewReader(got))
		require.NoError(t, err)
		b, err := png.Decode(bytes.NewReader(want))
		require.NoError(t, err)
		require.Equal(t, b.Bounds(), a.Bounds(), name)
		assert.Less(t, differing(a, b), 0.001, "%s: go test ./bot/picture -update writes it anew", name)
	}
}

func differing(a, b image.Image) float64 {
	n, all := 0, 0
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p, q := color.NRGBAModel.Convert(a.At(x, y)).(color.NRGBA), color.NRGBAModel.Convert(b.At(x, y)).(color.NRGBA)
			far := func(u, v uint8) bool { return int(u)-int(v) > 24 || int(v)-int(u) > 24 }
			if far(p.R, q.R) || far(p.G, q.G) || far(p.B, q.B) {
				n++
			}
			all++
		}
	}
	return float64(n) / float64(all)
}

// faults finds texts that touch each other or run out of the sheet.
func faults(s *sheet) (out []string) {
	for i, a := range s.texts {
		if a.x0 < 0 || a.x1 > Width || a.y0 < 0 || a.y1 > s.h {
			out = append(out, fmt.Sprintf("%q is cut: %.0f,%.0f to %.0f,%.0f of %d x %.0f", a.what, a.x0, a.y0, a.x1, a.y1, Width, s.h))
		}
		for _, b := range s.texts[i+1:] {
			if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				out = append(out, fmt.Sprintf("%q lies over %q", a.what, b.what))
			}
		}
	}
	return out
}

func TestNothingOverlaps(t *testing.T) {
	for name, p := range samples() {
		assert.Empty(t, faults(p.draw()), name)
	}
}

// Whatever the words, counts and hours, no text is cut or lies over another.
func TestAnyWeekFits(t *testing.T) {
	words := rapid.StringMatching(`[A-Za-zñáéíóúü ,:%0-9]{0,120}`)
	rapid.Check(t, func(t *rapid.T) {
		w := sampleWeek(0)
		w.Title, w.Empty, w.NowWord = words.Draw(t, "title"), words.Draw(t, "empty"), rapid.StringMatching(`[a-z]{1,12}`).Draw(t, "now")
		from := w.Days[0].From
		hour := rapid.IntRange(-400, 400)
		at := func(name string) time.Time { return from.Add(time.Duration(hour.Draw(t, name)) * time.Hour) }
		w.Now = at("clock")
		for i := range w.Days {
			w.Days[i].Name = words.Draw(t, "day")
		}
		for range rapid.IntRange(0, 3).Draw(t, "groups") {
			g := Group{Title: words.Draw(t, "yard")}
			for range rapid.IntRange(0, 5).Draw(t, "bars") {
				a := at("open")
				g.Bars = append(g.Bars, Bar{Text: words.Draw(t, "text"), Earliest: a, Best: a.Add(time.Hour), Latest: a.Add(time.Duration(rapid.IntRange(0, 300).Draw(t, "long")) * time.Hour),
					Class: Class(rapid.IntRange(0, 3).Draw(t, "class")), Late: rapid.Bool().Draw(t, "late")})
			}
			w.Groups = append(w.Groups, g)
		}
		w.Legend.Critical = words.Draw(t, "legend")
		if f := faults(w.draw()); len(f) > 0 {
			t.Fatal(f)
		}
	})
}

// Whatever the words and however many nucs, no text is cut or lies over another.
func TestAnyBoardFits(t *testing.T) {
	words := rapid.StringMatching(`[A-Za-zñáéíóúü ,:%0-9]{0,120}`)
	rapid.Check(t, func(t *rapid.T) {
		b := Board{Title: words.Draw(t, "title")}
		for range rapid.IntRange(0, 4).Draw(t, "lots") {
			l := Lot{Title: words.Draw(t, "head"), Alone: rapid.Bool().Draw(t, "alone")}
			for range rapid.IntRange(0, 4).Draw(t, "kinds") {
				n := Nucs{Text: words.Draw(t, "text"), Hive: Hive(rapid.IntRange(0, int(Gone)).Draw(t, "hive")), Count: rapid.IntRange(0, 400).Draw(t, "count")}
				for range rapid.IntRange(0, min(3, n.Count)).Draw(t, "labels") {
					n.Labels = append(n.Labels, rapid.StringMatching(`[0-9A-Za-z]{1,6}`).Draw(t, "label"))
				}
				l.Nucs = append(l.Nucs, n)
			}
			b.Lots = append(b.Lots, l)
		}
		if f := faults(b.draw()); len(f) > 0 {
			t.Fatal(f)
		}
	})
}

// A nuc is one square: of 20 with a cell 20 are brown.
func TestBoardCounts(t *testing.T) {
	for _, n := range []int{1, 16, 17, 160, 400} {
		b := Board{Title: "North", Lots: []Lot{{Title: "x", Nucs: []Nucs{{Text: "cells", Hive: WithCell, Count: n}}}}}
		data, err := b.PNG()
		require.NoError(t, err)
		img, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		brown := 0
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				if color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA) == weighty {
					brown++
				}
			}
		}
		assert.InDelta(t, min(n, mostNucs)*int(square*square), brown, float64(brown)/100, "%d nucs", n)
	}
}

// Read in sunlight: text stands out from its ground by 7 to 1 (level AAA of the
// W3C's Web Content Accessibility Guidelines 2.1, 2018, criterion 1.4.6), bars and
// lines by 3 to 1 (criterion 1.4.11).
func TestContrast(t *testing.T) {
	for _, ground := range []color.NRGBA{paper, rest} {
		assert.GreaterOrEqual(t, contrast(ink, ground), 7.0)
		for _, c := range []color.NRGBA{calm, weighty, critical, guard, nowInk, faint} {
			assert.GreaterOrEqual(t, contrast(c, ground), 3.0, "%v on %v", c, ground)
		}
	}
	for _, text := range []color.NRGBA{critical, nowInk} {
		assert.GreaterOrEqual(t, contrast(text, paper), 7.0, "%v", text)
	}
	assert.InDelta(t, 21, contrast(color.NRGBA{0, 0, 0, 255}, paper), 1e-9) // by definition
}

// Bars lie where their hours say.
func TestBarsLieRight(t *testing.T) {
	w := sampleWeek(0)
	d := w.Days
	w.Groups = []Group{{"", []Bar{{Text: "x", Earliest: d[2].From, Latest: d[4].From, Class: Critical}}}}
	b, err := w.PNG()
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(b))
	require.NoError(t, err)
	col := func(x float64) (found bool) {
		for y := range img.Bounds().Dy() - 120 {
			if color.NRGBAModel.Convert(img.At(int(x), y)).(color.NRGBA) == critical {
				return true
			}
		}
		return false
	}
	x := w.scale()
	for _, c := range []struct {
		at  time.Time
		bar bool
	}{{d[2].From.Add(-time.Hour), false}, {d[2].From.Add(time.Hour), true}, {d[3].From, true}, {d[4].From.Add(-time.Hour), true}, {d[4].From.Add(time.Hour), false}} {
		assert.Equal(t, c.bar, col(x(c.at)), "%s", c.at)
	}
}

func BenchmarkWeek(b *testing.B) {
	for b.Loop() {
		if _, err := sampleWeek(6).PNG(); err != nil {
			b.Fatal(err)
		}
	}
}
