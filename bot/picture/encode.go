package picture

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/png"
	"slices"
)

// png is the finished picture, in at most 256 colours: a third of the bytes, and
// crews are where coverage is patchy. The colours that are drawn with come first;
// the shades at the edges of letters go to the nearest of those kept.
func (s *sheet) png() ([]byte, error) {
	src := s.c.Image()
	r := src.Bounds()
	seen := map[color.NRGBA]int{}
	at := func(x, y int) color.NRGBA { return color.NRGBAModel.Convert(src.At(x, y)).(color.NRGBA) }
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			seen[at(x, y)]++
		}
	}
	all := make([]color.NRGBA, 0, len(seen))
	for c := range seen {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b color.NRGBA) int {
		return cmp.Or(cmp.Compare(seen[b], seen[a]), cmp.Compare(packed(a), packed(b)))
	})
	var pal color.Palette
	for _, c := range all[:min(len(all), 256)] {
		pal = append(pal, c)
	}
	index := make(map[color.NRGBA]uint8, len(all))
	for _, c := range all {
		index[c] = uint8(pal.Index(c))
	}
	out := image.NewPaletted(r, pal)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			out.SetColorIndex(x, y, index[at(x, y)])
		}
	}
	var b bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, out)
	return b.Bytes(), err
}

func packed(c color.NRGBA) uint32 {
	return uint32(c.R)<<24 | uint32(c.G)<<16 | uint32(c.B)<<8 | uint32(c.A)
}
