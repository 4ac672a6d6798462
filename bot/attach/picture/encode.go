package picture

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"slices"
)

// png is the finished picture, in at most 256 colours: a third of the bytes, and
// crews are where coverage is patchy. The colours that are drawn with come first;
// the shades at the edges of letters go to the nearest of those kept.
func (s *sheet) png() ([]byte, error) {
	src := opaque(s.c.Image())
	seen := map[rgb]int{}
	for i := 0; i+3 < len(src.Pix); i += 4 {
		seen[rgb{src.Pix[i], src.Pix[i+1], src.Pix[i+2]}]++
	}
	all := make([]rgb, 0, len(seen))
	for c := range seen {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b rgb) int {
		return cmp.Or(cmp.Compare(seen[b], seen[a]), slices.Compare(a[:], b[:]))
	})
	var pal color.Palette
	for _, c := range all[:min(len(all), 256)] {
		pal = append(pal, color.NRGBA{c[0], c[1], c[2], 255})
	}
	index := make(map[rgb]uint8, len(all))
	for _, c := range all {
		index[c] = uint8(pal.Index(color.NRGBA{c[0], c[1], c[2], 255}))
	}
	out := image.NewPaletted(src.Rect, pal)
	last, at := rgb{}, uint8(0)
	known := false
	for i := range out.Pix {
		if c := (rgb{src.Pix[4*i], src.Pix[4*i+1], src.Pix[4*i+2]}); !known || c != last {
			last, at, known = c, index[c], true
		}
		out.Pix[i] = at
	}
	var b bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.DefaultCompression}).Encode(&b, out)
	return b.Bytes(), err
}

// rgb is a colour; the sheet is opaque all over.
type rgb [3]uint8

// opaque gives the pixels in rows without gaps.
func opaque(img image.Image) *image.RGBA {
	r := img.Bounds()
	if m, ok := img.(*image.RGBA); ok && m.Stride == 4*r.Dx() && r.Min == (image.Point{}) {
		return m
	}
	m := image.NewRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
	draw.Draw(m, m.Rect, img, r.Min, draw.Src)
	return m
}
