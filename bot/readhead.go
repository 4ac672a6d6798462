package bot

import "yardbell/rules"

// headAlone keeps a report from being passed over for what is said behind it: where
// the message as a whole is a denial or talk, and its first piece a report that leaves
// nothing open, that piece is read and the rest asked about.
func (d *reader) headAlone() {
	r := d.r
	if r.addressed || r.question || !r.negated && (len(r.rest) == 0 || r.verb != noVerb && r.firm()) {
		return
	}
	toks := tokenize(d.text)
	k := 1
	for k < len(toks) && !toks[k-1].comma && toks[k].text != "but" && toks[k].text != "pero" {
		k++
	}
	if k >= len(toks) {
		return
	}
	head := newReader(d.text[:toks[k].at], d.n)
	h := head.read()
	d.looks += head.looks
	told := head.reported(len(head.toks)) || h.step == rules.CombOut
	if !told || h.verb != doStep || !head.namesOnly(h.rest) || h.negated || h.question || h.count == nil && !h.all && h.subject().Zero() {
		return
	}
	h.text, h.typos = r.text, r.typos
	*r = *h
	r.headed = true
	for _, t := range toks[k:] {
		r.rest = append(r.rest, t.orig)
	}
}

// namesOnly reports whether the words are builders and yards: "fed B1 and B2".
func (d *reader) namesOnly(list []string) bool {
	for _, w := range list {
		if !d.ownWords()[fold(w)] {
			return false
		}
	}
	return true
}
