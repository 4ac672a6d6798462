package reading

import "sort"

// This file holds back messages of which two or three words together may be something
// else: a number that is spelled out, a phrase, a denial.

// loadPhrases gathers the phrases of several words that report or deny something.
func (m *misWords) loadPhrases(r *Reader) {
	m.phrases = map[string][]*phrase{}
	for _, list := range r.lex.byFirst {
		for _, p := range list {
			if len(p.words) < 2 || len(p.words) > 4 {
				continue
			}
			matters := false
			for _, s := range p.senses {
				matters = matters || r.frames.strong[s.concept] || s.concept == r.c.qword || s.concept == r.c.claim
			}
			if !matters {
				continue
			}
			for _, w := range p.words {
				m.phrases[w] = append(m.phrases[w], p)
			}
		}
	}
	for _, list := range m.phrases {
		sort.SliceStable(list, func(i, k int) bool {
			return signatureOf(list[i]) < signatureOf(list[k])
		})
	}
}

func signatureOf(p *phrase) string {
	out := ""
	for _, w := range p.words {
		out += w + " "
	}
	return out
}
