package reading

import "slices"

// A word that says something stands as it was typed. Yet what it took the place of may have
// been what the message was about: "fer 7 and pulled the comb", "moved tomas to North".
// So a message is read again with each word of weight that is one slip away in its place,
// and with the crew's names: where that says all that was read, and more, both are offered.
// Without this the half of a message that a slip spoils is lost unseen.

// mostHidden is how often a message is read again at most for what its sure words may hide.
const mostHidden = 16

// hidden finds what else a message would say with the word at token i, which is sure,
// taken for a slip. left is how often it may still be read.
func (l *lattice) hidden(toks []token, i int, k *Known, res Result, left *int) (rival, bool) {
	t := &toks[i]
	was := l.r.lex.single[t.text]
	// A denial of no deed: "batch 1 no finisher", "12's no Creek".
	lastLine := func(c string) bool { // "take it back", "I've got it"
		p := l.r.lex.single[c]
		a := &res.Acts[0]
		return p != nil && (p.means(l.r.c.lastLine) || p.means(l.r.c.back)) && (len(t.text) >= shortest-1 || len(res.Acts) == 1 && a.Kind == Did && a.Count == nil && a.Yard == "" && a.Builder == "")
	}
	bare := was != nil && (was.means(l.r.c.neg) || was.means(l.r.c.no)) && i+1 < len(toks) && l.placeLike(toks[i+1].text)
	idle := bare || l.shortDay(t.text) || len(t.text) >= shortest-1 && l.idle(t, res.Acts)
	for _, c := range append(l.r.rivals.of(t.text), l.namesNear(t.text)...) {
		opens := i == 0 && l.r.lex.commandSingle[c] != nil
		if !opens && !bare && !((idle || lastLine(c) || len(t.text) > 1 && l.isAll(c)) && l.mayHide(toks, i, c, was)) {
			continue
		}
		if *left--; *left < 0 {
			return rival{}, false
		}
		other := l.r.readPlain(l.text[:t.from]+c+l.text[t.to:], *k)
		if other.Outcome != Log {
			continue
		}
		if bare && l.leads(c) && !sameActs(res, other) || saysMore(other.Acts, res.Acts) || changesSomething(other.Acts[0]) && (opens && commandAct(other.Acts[0]) || takesBack(other.Acts[0]) && !takesBack(res.Acts[0])) {
			return rival{t.text, c, other}, true
		}
	}
	return rival{}, false
}

// takesBack reports whether an act tells of no work but of who does it, or that it is not so.
func takesBack(a Act) bool { return a.Kind == Void || a.Kind == Claim || a.Kind == Skip }

// isAll reports whether a word says that it is all of them.
func (l *lattice) isAll(w string) bool {
	p := l.r.lex.single[w]
	return p != nil && p.means(l.r.c.all)
}

// leads reports whether a word leads to a place or a batch, or of one.
func (l *lattice) leads(w string) bool {
	c := &l.r.c
	p := l.r.lex.single[w]
	return p != nil && (p.means(c.into) || p.means(c.to) || p.means(c.in) || p.means(c.from) || p.means(c.of))
}

// placeLike reports whether a word names a place or leads to one.
func (l *lattice) placeLike(w string) bool {
	c := &l.r.c
	p := l.r.lex.single[w]
	return l.startsName(w) || p != nil && (p.means(c.place) || p.means(c.finisher) || p.means(c.the) || p.means(c.in) || p.means(c.into) || p.means(c.to) || p.means(c.at) || p.means(c.batchWord) || p.means(c.rogue))
}

// idle reports whether the word of a token does nothing for what was read: it stands by
// itself, names no thing, and none of the steps is known by it.
func (l *lattice) idle(t *token, acts []Act) bool {
	for _, it := range l.readings()[0] {
		from, to := l.toks[it.from].from, l.toks[it.to-1].to
		if t.from < from || t.to > to {
			continue
		}
		if from != t.from || to != t.to || it.entity != nil && !it.is(eTime) {
			return false
		}
		if it.entity != nil || it.unknown() {
			return true
		}
		ev := l.r.licences([]item{it}, l.known)
		return !slices.ContainsFunc(acts, func(a Act) bool { return ev.weight[a.Step] > 0 })
	}
	return true
}

// namesNear are the words of the crew's places that are one slip away from a word.
func (l *lattice) namesNear(w string) (out []string) {
	for _, name := range append(slices.Clone(l.known.Yards), l.known.Builders...) {
		for _, p := range l.nameWords(name) {
			if len(p) >= shortest && letters(p) && p != w && OneSlip(w, p) && !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	return out
}

// mayHide reports whether the word at token i may stand where c was meant, a word of weight
// in the same language.
func (l *lattice) mayHide(toks []token, i int, c string, was *phrase) bool {
	w := toks[i].text
	if l.lang >= 0 && l.speaksOwn(w) && l.foreignTo(w, c) {
		return false
	}
	if l.isNumberWord(c) {
		return false // "moved to North", where two may have been meant: of that standsFor tells
	}
	is := l.r.lex.single[c]
	if is == nil {
		return slices.Contains(l.namesNear(w), c) || l.r.rivals.inPhrase(toks, i, c)
	}
	if was != nil && (was.means(l.r.c.neg) || was.means(l.r.c.no)) {
		return is.anyOf(l.r.frames.deed) && !(i+1 < len(toks) && l.isDeed(toks[i+1].text, l.r.frames.deed))
	}
	f := &l.r.frames
	weight := false
	for _, s := range is.senses {
		if s.concept == l.r.weekday || s.concept == l.r.month || s.concept == l.r.colour {
			return false // "the" and "Thu": a day or a colour is seldom all that was meant
		}
		weight = weight || f.strong[s.concept] || f.carries[s.concept] || f.closed[s.concept] && s.concept != l.r.c.neg || s.concept == l.r.c.place || s.concept == l.r.c.doneWord || s.concept == l.r.c.lastLine || s.concept == l.r.c.back
	}
	return weight && (was == nil || !l.sharesWeight(is, was)) || l.r.rivals.inPhrase(toks, i, c)
}

// sharesWeight reports whether two words mean one thing that says something.
func (l *lattice) sharesWeight(a, b *phrase) bool {
	return slices.ContainsFunc(b.senses, func(s sense) bool { return s.concept != l.r.c.harmless && a.means(s.concept) })
}

// saysMore reports whether acts have every step that others have, with its count, and
// something besides.
func saysMore(acts, others []Act) bool {
	more := false
	for _, b := range others {
		at := slices.IndexFunc(acts, func(a Act) bool {
			return a.Kind == b.Kind && a.Step == b.Step && (b.Count == nil || a.Count != nil && *a.Count == *b.Count)
		})
		if at < 0 {
			return false
		}
		a := acts[at]
		more = more || a.Count != nil && b.Count == nil || a.All && !b.All && b.Count == nil || a.Yard != "" && b.Yard == "" || a.Builder != "" && b.Builder == "" ||
			a.Mark != "" && b.Mark == "" || a.Breeder != 0 && b.Breeder == 0 || a.Litres != 0 && b.Litres == 0
	}
	for _, a := range acts {
		of := func(list []Act) (n int) {
			for _, b := range list {
				if a.Kind == b.Kind && a.Step == b.Step {
					n++
				}
			}
			return n
		}
		whole := a.Count != nil || countless[a.Step] || !counted[a.Step] && (a.Breeder != 0 || a.Builder != "" || a.Yard != "" || a.Batch != 0)
		more = more || whole && of(acts) > of(others)
	}
	return more
}
