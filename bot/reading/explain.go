package reading

import (
	"fmt"
	"sort"
	"strings"
)

// Explain reads a message as [Reader.Read] does and tells how it came to the result: each
// way of cutting it into items, what its words were taken for, the likeliest classes of
// the ranker, the steps that are licensed, the acts with their doubts.
func (r *Reader) Explain(text string, k Known) (Result, []string) {
	bare, called := r.called(text, &k)
	l := r.newLattice(bare, &k)
	l.slash = called
	var out []string
	l.trace = func(d *draft, res Result, score float64) { out = append(out, l.described(d, res, score)...) }
	res := l.read()
	if res.Outcome == Log && !res.exact {
		if v, ok := r.rivalOf(text, &k, res); ok {
			res = r.doubted(res, v)
			out = append(out, fmt.Sprintf("%q may be a slip of %q, which says: %s %s", v.typed, v.meant, v.res.Outcome, actsText(v.res.Acts)))
		}
	}
	return res, out
}

// described tells of one way of cutting a message.
func (l *lattice) described(d *draft, res Result, score float64) (out []string) {
	put := func(name, format string, args ...any) {
		out = append(out, fmt.Sprintf("  %-9s ", name)+fmt.Sprintf(format, args...))
	}
	out = append(out, fmt.Sprintf("reading, score %.2f: %s", score, res.Outcome))
	var words []string
	for _, p := range l.why(d.items) {
		words = append(words, fmt.Sprintf("%q %s", p.Words, p.As))
	}
	put("words", "%s", strings.Join(words, " | "))
	type share struct {
		class string
		p     float64
	}
	var list []share
	for i, name := range l.r.classes() {
		if i < len(d.rank.p) && d.rank.p[i] > 0.02 {
			list = append(list, share{name, d.rank.p[i]})
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].p > list[b].p })
	words = nil
	for _, s := range list {
		words = append(words, fmt.Sprintf("%s %.2f", s.class, s.p))
	}
	put("ranked", "%s", strings.Join(words, ", "))
	words = nil
	for _, f := range l.r.frames.list {
		if w := d.rank.ev.weight[f.step]; w > 0 {
			words = append(words, fmt.Sprintf("%s %.2f", f.step, w))
		}
	}
	put("licensed", "%s", strings.Join(words, ", "))
	if m := d.mood.names(); len(m) > 0 {
		put("mood", "%s", strings.Join(m, ", "))
	}
	for _, a := range d.acts {
		var flags []string
		for _, f := range a.flags {
			flags = append(flags, string(f))
		}
		put("act", "%s %s", a.act, strings.Join(flags, " "))
	}
	if len(res.Doubts) > 0 {
		put("doubts", "%s", strings.Join(res.Doubts, ", "))
	}
	if len(d.danger) > 0 {
		put("danger", "%s", strings.Join(d.danger, " | "))
	}
	if len(res.Unread) > 0 {
		put("unread", "%s", strings.Join(res.Unread, " | "))
	}
	return out
}
