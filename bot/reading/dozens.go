package reading

import "strings"

// dozens reads a number of dozens whose word stands at token i, with what stands before it in
// out: "a dozen", "two dozen", "half a dozen", "docena y media". n is how many tokens it takes
// from i on, from where it begins in out.
func (l *lattice) dozens(i int, out []token) (t token, n, from int, ok bool) {
	v, is := l.value(i, l.r.dozen)
	if !is {
		return t, 0, 0, false
	}
	times, before := 0.0, 0
	for k := 1; k <= 2 && k <= len(out) && before == 0; k++ {
		first := out[len(out)-k]
		var words []string
		for _, t := range out[len(out)-k:] {
			words = append(words, t.text)
		}
		p := l.r.lex.phrases[strings.Join(words, " ")]
		switch {
		case k == 1 && first.isNum && first.clock < 0 && first.of < 0:
			times, before = first.num, k
		case p == nil:
		case p.means(l.r.halfUnit) || p.means(l.r.halfC):
			times, before = 0.5, k
		}
	}
	if before == 0 && len(out) > 0 {
		if p := l.r.lex.single[out[len(out)-1].text]; p != nil && p.means(l.r.one) {
			times, before = 1, 1
		}
	}
	n = 1
	for k := 2; k <= 3 && i+1+k <= len(l.toks); k++ {
		var words []string
		for _, t := range l.toks[i+1 : i+1+k] {
			words = append(words, t.text)
		}
		if p := l.r.lex.phrases[strings.Join(words, " ")]; p != nil && p.means(l.r.withHalf) {
			n += k
			times = max(times, 1) + 0.5
			break
		}
	}
	if times == 0 {
		return t, 0, 0, false // "dozens of them"
	}
	all := append(append([]token{}, out[len(out)-before:]...), l.toks[i:i+n]...)
	t = all[0]
	t.to, t.isNum, t.num, t.clock, t.of, t.dozens = all[len(all)-1].to, true, v*times, -1, -1, true
	for _, k := range all[1:] {
		t.text += " " + k.text
	}
	return t, n, len(out) - before, true
}
