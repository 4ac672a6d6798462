package reading

import (
	"slices"

	"yardbell/rules"
)

// ofStock are the steps on queens that are caught.
var ofStock = map[rules.Step]bool{rules.Marked: true, rules.Banked: true, rules.Handed: true, rules.Introduced: true}

// unlistedCustomer is a customer who is not on the list: a name behind a word of place in a
// message that tells of queens handed over. A name that is typed small is one where no
// lexicon has it. Without a word of handing over it is one only where queens wait to be
// handed over and no cells wait to be moved: "6 to Haskett".
func (l *lattice) unlistedCustomer(i int) string {
	t := &l.toks[i]
	w := t.text
	if i == 0 || len(w) < 3 || !letters(w) {
		return ""
	}
	c := &l.r.c
	said := l.tells(c.sold, c.shipped, c.onArrival, c.handed) || l.known.Last != nil && l.known.Last.Act.Step == rules.Handed && l.tells(c.correct)
	if !said && (l.tellsWork() || !t.name || l.known.Stock == 0 || l.known.expects(rules.Move)) {
		return ""
	}
	if l.r.lex.single[w] != nil && !l.isFirstNameOnly(w) || !t.name && l.r.lex.common[w] || l.r.lex.words[w] != 0 && !t.name {
		return ""
	}
	before := l.r.lex.single[l.toks[i-1].text]
	if before == nil || !before.means(l.r.c.into) && !before.means(l.r.c.to) && !before.means(l.r.c.at) {
		return ""
	}
	if end := i + 1; end < len(l.toks) && !l.toks[end].bound && !l.toks[end].isNum {
		if p := l.r.lex.single[l.toks[end].text]; p == nil || l.toks[end].name {
			return ""
		}
	}
	for _, name := range slices.Concat(l.known.Yards, l.known.Builders, l.known.Members, l.known.Customers) {
		for _, p := range l.nameWords(name) {
			if p == w || len(p) >= 3 && OneSlip(w, p) {
				return ""
			}
		}
	}
	return l.text[t.from:t.to]
}

// isFirstNameOnly reports whether a word of a lexicon says nothing of the trade: people are
// called by such words.
func (l *lattice) isFirstNameOnly(w string) bool {
	for _, s := range l.r.lex.single[w].senses {
		if s.concept != l.r.c.harmless {
			return false
		}
	}
	return true
}

// tells reports whether a message has a word of some concepts.
func (l *lattice) tells(words ...concept) bool {
	for i := range l.toks {
		for _, p := range l.r.lex.byFirst[l.toks[i].text] {
			for _, c := range words {
				if p.means(c) && l.stands(p.words, i) {
					return true
				}
			}
		}
	}
	return false
}

// tellsWork reports whether a message has a word for work.
func (l *lattice) tellsWork() bool {
	for i := range l.toks {
		if p := l.r.lex.single[l.toks[i].text]; p != nil && (p.anyOf(l.r.frames.strong) || p.anyOf(l.r.frames.deed)) {
			return true
		}
	}
	return false
}

// tags makes the numbers on queens of a range or a single number.
func (l *lattice) tags(e entity, c captures) (entity, bool) {
	lo, hi := c.int("a", 0), c.int("b", 0)
	if hi == 0 {
		hi = lo
	}
	t, ok := rules.ParseTags(itoa(lo) + "-" + itoa(hi))
	e.n, e.of, e.name = len(t), hi, t.String()
	return e, ok && len(t) <= mostTags && (c.has("said") || l.tells(l.r.c.markQ))
}

// mostTags is how many queens one line numbers.
const mostTags = 500

// countTags takes the numbers on queens for how many they are.
func (f *filled) countTags() {
	if t, ok := rules.ParseTags(f.act.Tags); ok && f.act.Count == nil && ofStock[f.act.Step] {
		f.act.Count = intPtr(len(t))
	}
}

// stockSlots takes who got queens, the numbers on them, and how they went.
func (l *lattice) stockSlots(f *filled, fr *frame, items []item, es map[entityKind][]*item) {
	a := &f.act
	for _, kind := range []entityKind{eCustomer, eBuyer} {
		for _, it := range es[kind] {
			switch {
			case !fr.slots["customer"]:
				f.flag(fSlot)
			case a.Customer != "" && a.Customer != it.entity.name:
				f.flag(fTwoPlaces)
			default:
				a.Customer = it.entity.name
			}
		}
	}
	for i, it := range es[eTags] {
		switch {
		case !fr.slots["tags"]:
			f.flag(fSlot)
		case i > 0:
			f.flag(fNumber)
		default:
			a.Tags = it.entity.name
		}
	}
	if a.Step == rules.Catch && (a.Mark != "" || a.Tags != "") && !l.tells(l.r.c.markQ) {
		a.Mark, a.Tags = "", "" // "nice big yellow ones"
		f.flag(fMark)
	}
	banked := l.meansAny(items, l.r.c.inBank) || l.meansAny(items, l.r.c.banked)
	a.Caught = (a.Step == rules.Banked || a.Step == rules.Catch && banked) && l.meansAny(items, l.r.c.caught)
	if a.Caught {
		a.Step = rules.Banked // "caught 24, all in the bank": the catch goes without saying
	}
	if a.Step == rules.Handed {
		a.Back = l.meansAny(items, l.r.c.returned) || l.meansAny(items, l.r.c.sent) && l.meansAny(items, l.r.c.back)
		a.Ship = !a.Back && l.meansAny(items, l.r.c.shipped)
	}
}

// lostOfStock says of a loss that it is of caught queens: in a bank, or at a customer's.
func (l *lattice) lostOfStock(f *filled, items []item) {
	a := &f.act
	a.Arrival = hasAny(items, eLost) && l.tells(l.r.c.onArrival)
	if a.Arrival || l.meansAny(items, l.r.c.inBank) || l.meansAny(items, l.r.c.bank) {
		a.Stock, a.Batch, a.Reason = true, 0, ""
		f.choices, f.open = nil, nil
		f.flags = dropDoubt(dropDoubt(dropDoubt(f.flags, fWhichBatch), fTooMany), fUnlikely)
	} else if a.Customer != "" {
		f.flag(fSlot)
	}
}

// inStock reports whether queens are there that a step can be done with, so that it is as
// good as open.
func (l *lattice) inStock(step rules.Step) bool {
	return ofStock[step] && (l.known.Stock > 0 || step == rules.Marked && l.known.expects(rules.Catch))
}

// sameQueens gives a step on caught queens, which names no number, that of the catch or of
// the step told right before it: "caught 24, banked them in B2".
func (d *draft) sameQueens() {
	for i := 1; i < len(d.acts); i++ {
		f, before := &d.acts[i], d.acts[i-1].act
		if ofStock[f.act.Step] && f.act.Count == nil && !f.act.All && (before.Step == rules.Catch || ofStock[before.Step]) && before.Count != nil && f.act.Step != rules.Handed {
			f.act.Count, f.flags = before.Count, dropDoubt(f.flags, fNoCount)
		}
	}
}
