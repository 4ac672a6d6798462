package reading

import (
	"slices"
	"strconv"
	"strings"
)

func itoa(n int) string { return strconv.Itoa(n) }

// item is a piece of a message: an entity, a word or phrase with its senses, or the end
// of a clause.
type item struct {
	from, to int // tokens
	text     string
	entity   *entity
	senses   []sense
	slip     bool // read through a slip
	bound    bool
}

func (it *item) is(k entityKind) bool { return it.entity != nil && it.entity.kind == k }

// word reports whether it is a word or phrase.
func (it *item) word() bool { return it.entity == nil && !it.bound }

// unknown reports whether it is a word that no lexicon has.
func (it *item) unknown() bool {
	return it.word() && len(it.senses) == 0 && strings.ContainsAny(it.text, "abcdefghijklmnopqrstuvwxyz")
}

func (it *item) means(c concept) bool {
	for _, s := range it.senses {
		if s.concept == c {
			return true
		}
	}
	return false
}

// found is an entity at a place.
type found struct {
	end   int
	row   int
	maybe bool
	e     entity
}

// entitiesAt finds the entities that may begin at token i, the best first: the longest,
// of two as long the row that stands first in entities.txt.
func (l *lattice) entitiesAt(i int) []found {
	var out []found
	here := make([]uint64, len(l.r.lex.names)/64+1) // the concepts that begin at i
	for _, e := range l.edges[i] {
		for _, s := range e.senses {
			here[s.concept/64] |= 1 << (s.concept % 64)
		}
	}
	for row := range l.r.patterns {
		p := &l.r.patterns[row]
		if !p.mayBegin(here) {
			continue
		}
		best := found{end: -1}
		left := mostEnds
		l.match(p.elems, i, nil, &left, func(end int, c captures) {
			if end <= best.end || end <= i {
				return
			}
			if e, ok := l.make(*p, c); ok {
				best = found{end: end, row: row, maybe: p.maybe, e: e}
			}
		})
		if best.end < 0 {
			continue
		}
		k := len(out)
		for k > 0 && out[k-1].end < best.end {
			k--
		}
		out = append(out[:k], append([]found{best}, out[k:]...)...)
	}
	return out
}

// mostReadings is how many ways to cut a message into items are kept.
const mostReadings = 4

// readings cuts the message into items, in the likeliest way first. Where a row of
// entities.txt says "maybe", the next best entity at that place gives another way.
func (l *lattice) readings() [][]item {
	if l.ways == nil {
		l.ways = l.cuts()
	}
	out := make([][]item, len(l.ways))
	for i := range l.ways {
		out[i] = slices.Clone(l.ways[i])
	}
	return out
}

func (l *lattice) cuts() [][]item {
	starts := make([][]found, len(l.toks))
	var doubtful []int
	first := l.cut(func(i int) (found, bool) {
		if starts[i] == nil {
			starts[i] = l.entitiesAt(i)
		}
		if len(starts[i]) == 0 {
			return found{}, false
		}
		f := starts[i][0]
		if f.maybe && len(starts[i]) > 1 && len(doubtful) < 2 {
			doubtful = append(doubtful, i)
		}
		return f, true
	})
	out := [][]item{first}
	for mask := 1; mask < 1<<len(doubtful) && len(out) < mostReadings; mask++ {
		out = append(out, l.cut(func(i int) (found, bool) {
			if starts[i] == nil {
				starts[i] = l.entitiesAt(i)
			}
			if len(starts[i]) == 0 {
				return found{}, false
			}
			for k, d := range doubtful {
				if d == i && mask&(1<<k) != 0 {
					return starts[i][1], true
				}
			}
			return starts[i][0], true
		}))
	}
	return out
}

// cut goes over the message once.
func (l *lattice) cut(entityAt func(i int) (found, bool)) []item {
	var out []item
	for i := 0; i < len(l.toks); {
		t := &l.toks[i]
		if t.bound {
			out = append(out, item{from: i, to: i + 1, text: t.text, bound: true})
			i++
			continue
		}
		phrase := l.longest(i)
		f, ok := entityAt(i)
		// A unit such as "no rogue cells" covers its own "no"; else what is longer counts,
		// and of two as long the entity.
		if ok && (phrase.n <= f.end-i || phrase.n == 1) && !(phrase.n > 1 && l.unit1(phrase) && phrase.n >= f.end-i) {
			e := f.e
			out = append(out, item{from: i, to: f.end, text: l.textOf(i, f.end), entity: &e})
			i = f.end
			continue
		}
		if phrase.n > 0 {
			it := item{from: i, to: i + phrase.n, text: l.textOf(i, i+phrase.n), senses: l.asTyped(i, phrase)}
			if len(out) > 0 && l.begins(&out[len(out)-1], l.r.c.justDone) {
				it.senses = asDone(it.senses) // "acabo de mover", "finished moving"
			}
			out = append(out, it)
			i += phrase.n
			continue
		}
		it := item{from: i, to: i + 1, text: t.text}
		if s := l.bySlip(t); s != nil {
			it.senses, it.slip = s, true
		}
		out = append(out, it)
		i++
	}
	l.notes(out)
	return out
}

// notes takes a verb that opens a clause, with what it is about right behind it, for a note
// of what was done: "confine 7", "injertar 45 de la 7". It is the form that the bot's own
// examples have. What lies ahead is said by other words, or by its time.
func (l *lattice) notes(items []item) {
	c := l.r.c
	for i := range items[:max(0, len(items)-1)] {
		it, next := &items[i], &items[i+1]
		opens := i == 0
		if !opens {
			p := &items[i-1]
			opens = p.bound || p.word() && (p.means(l.r.and) || p.means(c.then) || p.means(c.also))
		}
		if i > 0 && items[i-1].means(c.have) && it.word() && next.entity == nil && next.means(c.the) && i+2 < len(items) && items[i+2].entity != nil {
			next, opens = &items[i+2], true // "i have confine the 12"
		}
		opens = opens || i > 0 && items[i-1].means(c.have)
		if !opens || !it.word() || next.entity == nil || next.is(eTime) || next.is(eSpan) {
			continue
		}
		if it.means(c.nuc) && next.is(eNumber) {
			it.senses = append([]sense{}, it.senses...) // "nucs 20 at North"
			for k := range it.senses {
				it.senses[k].form = formDone
			}
			continue
		}
		noted := false
		for _, s := range it.senses {
			noted = noted || (s.form == formBare || s.form == formInfinitive) && l.r.frames.note[s.concept]
		}
		if noted {
			it.senses = append([]sense{}, it.senses...)
			for k := range it.senses {
				if s := &it.senses[k]; s.form != anyForm && l.r.frames.note[s.concept] {
					s.form = formDone
				}
			}
		}
	}
}

// asTyped goes by the accents that were typed: of a word that is both, one with an accent
// on its last vowel was done, and "sí" is no "if".
func (l *lattice) asTyped(i int, e edge) []sense {
	if e.n != 1 {
		return e.senses
	}
	typed := l.toks[i].accent
	done, some := false, false
	for _, s := range e.senses {
		done = done || s.form == formDone || s.form == formAccented
		some = some || s.form == formAccented
	}
	if !typed && !some {
		return e.senses
	}
	var out []sense
	for _, s := range e.senses {
		switch {
		case s.form == formAccented && typed:
			s.form = formDone
		case s.form == formAccented:
			s.form = formPresent
		case typed && (s.concept == l.r.c.ifC || done && (s.form == formBare || s.form == formPlan || s.form == formInfinitive || s.form == formPresent)):
			continue
		}
		s.accent = s.accent && !typed
		out = append(out, s)
	}
	if len(out) == 0 {
		return e.senses
	}
	return out
}

// asDone takes what is said bare or going on for done.
func asDone(senses []sense) []sense {
	out := append([]sense{}, senses...)
	for i := range out {
		if out[i].form != anyForm {
			out[i].form = formDone
		}
	}
	return out
}

func (l *lattice) textOf(i, j int) string {
	s := l.toks[i].text
	for k := i + 1; k < j; k++ {
		s += " " + l.toks[k].text
	}
	return s
}

// longest is the longest phrase of the lexicons from token i.
func (l *lattice) longest(i int) edge {
	for _, e := range l.edges[i] {
		if len(e.senses) > 0 && !l.r.dynamic[e.senses[0].concept] && !l.cutsName(i, e.n) {
			return e
		}
	}
	return edge{}
}

// cutsName reports whether a phrase from token i would take the first words of a name of the
// crew's: "a la" of "a La Loma".
func (l *lattice) cutsName(i, n int) bool {
	for k := i + 1; k < i+n; k++ {
		for _, e := range l.edges[k] {
			if k+e.n > i+n && len(e.senses) > 0 && (e.senses[0].concept == l.r.ownYard || e.senses[0].concept == l.r.ownBuilder) {
				return true
			}
		}
	}
	return false
}

// unit1 reports whether a phrase is one of the concepts that stand for a whole report or
// answer, so that no word of it may be taken out.
func (l *lattice) unit1(e edge) bool {
	for _, s := range e.senses {
		if l.r.frames.unit[s.concept] {
			return true
		}
	}
	return false
}

// bySlip reads a word that no lexicon has through one slip or by its sound: only into
// words of the trade, only if they all mean the same, never into or near a word of a
// closed class, and never across languages: a word of daily life of either stays itself.
func (l *lattice) bySlip(t *token) []sense {
	w := t.text
	lex := l.r.lex
	if len(w) < shortest || !letters(w) || lex.common[w] || lex.words[w] != 0 || t.name {
		return nil
	}
	if l.nearAnother(w) {
		return nil
	}
	if lex.slips.ambiguous(w, func(c string) bool { return l.lang < 0 || lex.words[c]&(1<<l.lang) != 0 }) {
		return nil
	}
	// What all that it may stand for mean alike counts.
	var got []sense
	for n, c := range lex.slips.candidates(w) {
		var own []sense
		for _, s := range lex.single[c].senses {
			if l.r.frames.trade[s.concept] && (l.lang < 0 || int(s.lang) == l.lang) {
				own = append(own, s)
			}
		}
		if n == 0 {
			got = own
			continue
		}
		var both []sense
		for _, s := range got {
			for _, o := range own {
				if s.concept == o.concept && (len(w) <= shortest || ahead(s.form) == ahead(o.form)) {
					both = append(both, s)
					break
				}
			}
		}
		got = both
	}
	for _, s := range got[:min(1, len(got))] {
		for _, c := range lex.slips.every(w) {
			if !lex.single[c].means(s.concept) {
				return nil // "euncaged": caged, or uncaged
			}
			if len(w) > shortest && !ahead(s.form) && lex.single[c].onlyAhead(s.concept) {
				return nil // "confinabdo": confined, or still confining
			}
		}
	}
	return got
}

// ahead reports whether a form tells of what goes on or is to come.
func ahead(f form) bool { return f == formGoing || f == formPlan }

// onlyAhead reports whether a word tells of a concept as going on alone.
func (p *phrase) onlyAhead(c concept) bool {
	told := false
	for _, s := range p.senses {
		told = told || s.concept == c && !ahead(s.form)
	}
	return !told
}

// anyOf reports whether an item has a meaning of a class.
func (it *item) anyOf(class map[concept]bool) bool {
	return slices.ContainsFunc(it.senses, func(s sense) bool { return class[s.concept] })
}
