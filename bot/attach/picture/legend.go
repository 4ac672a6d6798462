package picture

// item is one entry of a legend: a sample and its words.
type item struct {
	words string
	kind  string
}

func (l Legend) items() (out []item) {
	for _, i := range []item{{l.Calm, "calm"}, {l.Weighty, "weighty"}, {l.Critical, "critical"}, {l.Guard, "guard"}, {l.Best, "best"}, {l.Risk, "risk"}, {l.Rest, "rest"}} {
		if i.words != "" {
			out = append(out, i)
		}
	}
	return out
}

const sample, gap = 44.0, 30.0

// flow says how many lines the items take.
func flow(items []item) int {
	lines, x := 1, margin
	for _, it := range items {
		w := sample + 12 + widthOf(it.words, smallSize, false)
		if x > margin && x+w > Width-margin {
			lines, x = lines+1, margin
		}
		x += w + gap
	}
	if len(items) == 0 {
		return 0
	}
	return lines
}

func drawLegend(s *sheet, items []item, y float64) {
	x := margin
	for _, it := range items {
		words := fit(it.words, smallSize, false, Width-2*margin-sample-12)
		w := sample + 12 + widthOf(words, smallSize, false)
		if x > margin && x+w > Width-margin {
			x, y = margin, y+44
		}
		mid := y - 9
		switch it.kind {
		case "calm":
			s.rect(x, mid-8, x+sample, mid+8, calm)
		case "weighty":
			s.rect(x, mid-11, x+sample, mid+11, weighty)
		case "critical":
			s.rect(x, mid-14, x+sample, mid+14, critical)
		case "guard":
			hatch(s, x, mid-8, x+sample, mid+8)
		case "best":
			best(s, x+sample/2, mid)
		case "risk":
			s.poly(riskFill, x, mid+14, x+sample, mid-14, x+sample, mid+14)
			s.line(x, mid+14, x+sample, mid-14, 2, critical)
		case "comb":
			stretch(s, x, x+sample, mid, Comb)
		case "cells":
			stretch(s, x, x+sample, mid, Cells)
		case "virgins":
			stretch(s, x, x+sample, mid, Virgins)
		case "layers":
			stretch(s, x, x+sample, mid, Layers)
		case "planned":
			stretch(s, x, x+sample, mid, Planned)
		case "close":
			post(s, x+sample/2, mid)
		case "rest":
			s.rect(x, mid-14, x+sample, mid+14, rest)
			s.line(x, mid-14, x+sample, mid-14, 2, line)
			s.line(x, mid+14, x+sample, mid+14, 2, line)
		}
		s.text(x+sample+12, y, words, smallSize, false, ink, 0)
		x += w + gap
	}
}
