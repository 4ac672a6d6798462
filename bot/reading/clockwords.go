package reading

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// dottedClocks takes a number such as 9.30 for a time of day where a word for a part of the
// day stands behind it or one for an hour before it, and where it stands alone: "9.30 pm",
// "a las 9.30", "out, 9.10".
func (l *lattice) dottedClocks() {
	part := l.r.lex.concept("PART")
	means := func(from, to int, c concept) bool {
		if from < 0 || to > len(l.toks) {
			return false
		}
		var words []string
		for _, t := range l.toks[from:to] {
			words = append(words, t.text)
		}
		p := l.r.lex.phrases[strings.Join(words, " ")]
		return p != nil && p.means(c)
	}
	for i := range l.toks {
		t := &l.toks[i]
		whole, minutes, ok := strings.Cut(t.text, ".")
		if !t.isNum || !ok || len(minutes) != 2 || len(whole) > 2 || whole == "" || t.of >= 0 {
			continue
		}
		h, err1 := strconv.Atoi(whole)
		m, err2 := strconv.Atoi(minutes)
		if err1 != nil || err2 != nil || h > 23 || m > 59 {
			continue
		}
		alone := (i == 0 || l.toks[i-1].bound) && (i+1 == len(l.toks) || l.toks[i+1].bound)
		if alone || means(i+1, i+2, part) || means(i-1, i, l.r.c.at) || means(i-2, i, l.r.c.at) {
			t.clock = h*60 + m
		}
	}
}

// numeric are the concepts that a number has by its value alone.
func (l *lattice) numeric(t token) []sense {
	r := l.r
	switch {
	case t.clock >= 0:
		return []sense{{concept: r.clockC}}
	case t.of >= 0:
		return []sense{{concept: r.ratioC}}
	}
	out := []sense{{concept: r.num}}
	if t.num != math.Trunc(t.num) || t.dozens {
		return out
	}
	n := int(t.num)
	if n >= 1 && n <= 24 {
		out = append(out, sense{concept: r.hour})
	}
	last := t.to >= len(strings.TrimRight(l.text, " .!")) && len(t.text) == 2 // "in by 8 15"
	if n >= 10 && n < 60 && (!isDigit(t.text) || last) {
		out = append(out, sense{concept: r.spokenMin, value: itoa(n)})
	}
	if n >= 100 && n < 2400 && n%100 < 60 && isDigit(t.text) && len(t.text) <= 4 {
		out = append(out, sense{concept: r.hourMin})
	}
	for _, b := range l.known.Breeders {
		if b == n {
			out = append(out, sense{concept: r.known})
			if _, on := l.known.Combs[n]; on {
				out = append(out, sense{concept: r.onComb})
			}
		}
	}
	if slices.ContainsFunc(l.known.Open, func(o Expect) bool { return o.Batch == n }) {
		out = append(out, sense{concept: r.openBatch})
	}
	return out
}

func isDigit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }
