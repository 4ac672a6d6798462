package reading

import "sort"

// This file holds back messages of which two or three words together may be something
// else: a number that is spelled out, a phrase, a denial.

// mishaps are the words of a message that may be others by what stands beside them.
func (l *lattice) mishaps(items []item) (out []string) {
	for i := range l.toks {
		for _, find := range []func(int) (string, bool){l.brokenNumber, l.nearPhrase} {
			if d, is := find(i); is {
				out = append(out, d)
			}
		}
	}
	for i := range items {
		for _, find := range []func([]item, int) (string, bool){l.beforeNumber, l.nearPlaceWord, l.slipsOfLoss, l.nearApprox, l.nearNew, l.nearDenial, l.nearQuestion, l.nearPlan, l.nearMember, l.nearBatch, l.slipUnit, l.respelled, l.strayAnd, l.strayHour} {
			if d, is := find(items, i); is {
				out = append(out, d)
			}
		}
	}
	return out
}

// spelledNumber is the value of a number token in words, -1 for anything else.
func (l *lattice) spelledNumber(i int) int {
	if i < 0 || i >= len(l.toks) || !l.toks[i].isNum || isDigit(l.toks[i].text) {
		return -1
	}
	return int(l.toks[i].num)
}

// brokenNumber says whether a token beside the ten or the hundred of a number may be its
// digit ("thirty fix", "hundred and hive"), or the "and" of it ("treinta h ocho").
func (l *lattice) brokenNumber(i int) (string, bool) {
	n := l.spelledNumber(i)
	if n < 20 || n%10 != 0 || i+1 == len(l.toks) {
		return "", false
	}
	k := i + 1
	if n%100 == 0 && k+1 < len(l.toks) && l.tokMeans(k, l.r.and) {
		k++
	} else if l.tokMeans(k, l.r.andTen) && k+1 < len(l.toks) {
		k++
	}
	t := &l.toks[k]
	if t.isNum || t.bound {
		return "", false
	}
	for _, w := range []string{t.text, t.typed} {
		if !letters(w) {
			continue
		}
		for _, c := range l.r.digits {
			if oneSlip(w, c) && !(w == t.text && l.plainWord(w) && k == i+1) {
				return w + "~" + c, true
			}
		}
		u := l.spelledNumber(k + 1)
		_, one := l.has(k+1, l.r.one)
		if k == i+1 && (u > 0 && u < 10 || one) {
			for _, c := range l.r.mis.small {
				if p := l.r.lex.single[c]; p.means(l.r.andTen) && oneSlip(w, c) {
					return w + "~" + c, true
				}
			}
		}
	}
	return "", false
}

// plainWord reports whether a word is said in many reports.
func (l *lattice) plainWord(w string) bool {
	return l.r.model != nil && l.r.model.seen[w][0] >= 20
}

func (l *lattice) tokMeans(i int, c concept) bool {
	if i < 0 || i >= len(l.toks) {
		return false
	}
	p := l.r.lex.single[l.toks[i].text]
	return p != nil && p.means(c)
}

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

// nearPhrase says whether words that begin at token i are a phrase but for one slip: "comb
// bout 7", "por fue".
func (l *lattice) nearPhrase(i int) (string, bool) {
	try := func(p *phrase, from int) (string, bool) {
		if from < 0 || from+len(p.words) > len(l.toks) {
			return "", false
		}
		for _, e := range l.edges[from] {
			if e.n == len(p.words) && e.n > 1 && l.speaksTrusted(e.senses) {
				return "", false // they are a phrase of the work as they stand: "vi huevos", and not "ni huevos"
			}
		}
		slip, unit := "", false
		saying := p.means(l.r.c.qword) || p.means(l.r.c.claim)
		whole := len(l.toks) == len(p.words) && saying
		if saying && !whole {
			return "", false
		}
		for _, s := range p.senses {
			unit = unit || l.r.frames.unit[s.concept] && l.r.frames.strong[s.concept]
		}
		for k, w := range p.words {
			t := &l.toks[from+k]
			switch {
			case t.text == w:
			case letters(t.typed) && oneSlip(t.typed, w) && slip == "" && len(w) > 2:
				slip = t.typed + "~" + w
			case !whole && (!unit && l.speaksOwn(t.text) || l.plainWord(t.text) && !(l.tokTrade(from+k) && unit && len(p.words) == 2) || l.tokTrade(from+k) && !unit):
				return "", false
			case slip == "" && len(w) > 1 && letters(w) && letters(t.text) && !t.isNum && oneSlip(t.text, w):
				slip = t.text + "~" + w
			default:
				return "", false
			}
		}
		return slip, slip != ""
	}
	for _, p := range l.r.mis.phrases[l.toks[i].text] {
		own := false
		for _, s := range p.senses {
			own = own || l.mother() < 0 || int(s.lang) == l.mother()
		}
		if !own {
			continue
		}
		for k, w := range p.words {
			if w != l.toks[i].text {
				continue
			}
			if d, is := try(p, i-k); is && !l.inPhrase(i-k, len(p.words), p) {
				return d, true
			}
		}
	}
	return "", false
}

// inPhrase reports whether tokens make a phrase as they stand, of the same meaning.
func (l *lattice) inPhrase(i, n int, p *phrase) bool {
	for k := i; k < i+n; k++ {
		for _, e := range l.edges[k] {
			if e.n < 2 {
				continue
			}
			for _, s := range e.senses {
				if p.means(s.concept) {
					return true
				}
			}
		}
	}
	return false
}

// tokTrade reports whether a token means something of the trade.
func (l *lattice) tokTrade(i int) bool {
	p := l.r.lex.single[l.toks[i].text]
	return p != nil && (p.anyOf(l.r.frames.trade) || p.anyOf(l.r.frames.strong))
}

// speaksTrusted reports whether a phrase tells of work in the language of the message.
func (l *lattice) speaksTrusted(senses []sense) bool {
	lang := l.mother()
	for _, s := range senses {
		if l.r.frames.strong[s.concept] && (lang < 0 || int(s.lang) == lang) {
			return true
		}
	}
	return false
}
