package reading

import (
	"strings"
)

// edge is a run of n tokens that has senses: a phrase of a lexicon, a number, a name.
type edge struct {
	n      int
	senses []sense
	slip   bool // of commands: the word was read as another
}

// capture is what a named element of a pattern matched.
type capture struct {
	name  string
	value string // of the sense
	num   float64
	tok   int
	end   int // token behind it
}

type captures []capture

func (c captures) get(name string) (capture, bool) {
	for _, k := range c {
		if k.name == name {
			return k, true
		}
	}
	return capture{}, false
}

func (c captures) has(name string) bool { _, ok := c.get(name); return ok }

// int is the number captured under a name, or def.
func (c captures) int(name string, def int) int {
	if k, ok := c.get(name); ok {
		return int(k.num)
	}
	return def
}

// element is one place of a pattern.
type element struct {
	alts     []alternative
	optional bool
	many     bool // any number of times, none among them
	look     int  // 1: must follow, -1: must not, 0: is taken
	capture  string
	fixed    string // the value of the capture, whatever word it was
	start    bool   // only at the start of the message
}

type alternative struct {
	concept concept
	value   string // of the sense, empty for any
	group   *group
	text    string // a token as it stands
}

// group is a pattern with a name, used inside others.
type group struct {
	name string
	rows [][]element
}

// pattern is a row of entities.txt.
type pattern struct {
	kind  entityKind
	maybe bool // something else may be meant: the other reading is kept beside it
	elems []element
	line  int
	heads []uint64 // the concepts that it may begin with, nil where it may begin with anything
}

// mayBegin reports whether a pattern may begin where some concepts do.
func (p *pattern) mayBegin(here []uint64) bool {
	if p.heads == nil {
		return true
	}
	for i, x := range p.heads {
		if i < len(here) && x&here[i] != 0 {
			return true
		}
	}
	return false
}

// heads collects the concepts that elements may begin with. ok is false where they may
// begin with anything.
func (r *Reader) heads(elems []element, into map[concept]bool) (ok bool) {
	for _, e := range elems {
		if e.start || e.look != 0 {
			continue
		}
		for _, a := range e.alts {
			switch {
			case a.group != nil:
				for _, row := range a.group.rows {
					if !r.heads(row, into) {
						return false
					}
				}
			case a.text != "", a.concept == r.end, a.concept == r.cmd.typed, a.concept == r.cmd.name, a.concept == r.cmd.word, a.concept == r.cmd.words, a.concept == r.cmd.proper:
				return false
			default:
				into[a.concept] = true
			}
		}
		if !e.optional && !e.many {
			return true
		}
	}
	return false
}

// most bounds how many ends a pattern may have at one place.
const mostEnds = 24

// match calls yield with every end of elems from token i.
func (l *lattice) match(elems []element, i int, caps captures, left *int, yield func(end int, caps captures)) {
	l.work++
	if *left <= 0 {
		return
	}
	if len(elems) == 0 {
		*left--
		yield(i, caps)
		return
	}
	e := elems[0]
	rest := elems[1:]
	if e.start {
		if i == 0 {
			l.match(rest, i, caps, left, yield)
		}
		return
	}
	if e.look != 0 {
		if l.accepts(e, i) == (e.look > 0) {
			l.match(rest, i, caps, left, yield)
		}
		return
	}
	l.one(e, i, caps, func(end int, caps captures) {
		if e.many {
			if end > i {
				l.match(elems, end, caps, left, yield)
			}
			return
		}
		l.match(rest, end, caps, left, yield)
	})
	if e.optional || e.many {
		l.match(rest, i, caps, left, yield)
	}
}

func (l *lattice) accepts(e element, i int) bool {
	found := false
	l.one(e, i, nil, func(int, captures) { found = true })
	return found
}

// one calls yield with every end of a single element from token i.
func (l *lattice) one(e element, i int, caps captures, yield func(end int, caps captures)) {
	l.work++
	for _, a := range e.alts {
		switch {
		case a.group != nil:
			for _, row := range a.group.rows {
				left := mostEnds
				l.match(row, i, caps, &left, func(end int, caps captures) {
					if end > i {
						yield(end, caps)
					}
				})
			}
		case a.text != "":
			if i < len(l.toks) && l.toks[i].text == a.text {
				yield(i+1, l.caught(e, caps, capture{value: a.text, num: 1, tok: i, end: i + 1}))
			}
		case a.concept == l.r.cmd.typed:
			if i < len(l.toks) {
				yield(len(l.toks), l.caught(e, caps, capture{tok: i, end: len(l.toks)}))
			}
		case a.concept == l.r.cmd.name, a.concept == l.r.cmd.word:
			most := 3
			if a.concept == l.r.cmd.word {
				most = 1
			}
			l.names(i, most, func(end int) { yield(end, l.caught(e, caps, capture{tok: i, end: end})) })
		case a.concept == l.r.cmd.words: // as few as will do, so that a time behind them is read whole
			for n := i + 1; n < len(l.toks) && n <= i+mostEnds; n++ {
				yield(n, l.caught(e, caps, capture{tok: i, end: n}))
			}
		case a.concept == l.r.cmd.proper:
			if i < len(l.toks) && l.proper(&l.toks[i]) {
				yield(i+1, l.caught(e, caps, capture{tok: i, end: i + 1}))
			}
		case a.concept == l.r.end:
			if i >= len(l.toks) || l.toks[i].bound {
				yield(i, caps)
			}
		default:
			if i >= len(l.toks) {
				continue
			}
			for _, g := range l.edges[i] {
				if g.slip && l.exact {
					continue
				}
				for _, s := range g.senses {
					if s.concept != a.concept || a.value != "" && s.value != a.value {
						continue
					}
					yield(i+g.n, l.caught(e, caps, capture{value: s.value, num: l.valueOf(i, s), tok: i, end: i + g.n}))
					break
				}
			}
		}
	}
}

// caught adds what an element matched to the captures, where it has a name for it.
func (l *lattice) caught(e element, caps captures, k capture) captures {
	if e.capture == "" {
		return caps
	}
	k.name = e.capture
	if e.fixed != "" {
		k.value, k.num = e.fixed, atof(e.fixed)
	}
	return append(append(captures{}, caps...), k)
}

func (l *lattice) valueOf(i int, s sense) float64 {
	if s.concept == l.r.num || s.concept == l.r.known || s.concept == l.r.openBatch || s.concept == l.r.hour {
		return l.toks[i].num
	}
	if s.concept == l.r.halfUnit {
		return 0.5 // "half an hour"
	}
	if s.value == "" {
		return 1 // "a", "one"
	}
	return atof(s.value)
}

// parseElements reads the elements of a pattern. Names in <…> are groups read before.
func (r *Reader) parseElements(file string, n int, s string, groups map[string]*group) ([]element, error) {
	var out []element
	for _, f := range strings.Fields(s) {
		var e element
		if f == "^" {
			out = append(out, element{start: true})
			continue
		}
		switch f[0] {
		case '&':
			e.look, f = 1, f[1:]
		case '!':
			e.look, f = -1, f[1:]
		}
		if name, rest, ok := strings.Cut(f, ":"); ok && name != "" && !strings.HasPrefix(f, "\"") {
			e.capture, f = name, rest
			e.capture, e.fixed, _ = strings.Cut(e.capture, "=")
		}
		switch {
		case strings.HasSuffix(f, "?"):
			e.optional, f = true, f[:len(f)-1]
		case strings.HasSuffix(f, "*") && f != "*":
			e.many, f = true, f[:len(f)-1]
		}
		if f == "" {
			return nil, fault(file, n, "an empty element in %q", s)
		}
		for _, alt := range strings.Split(f, "|") {
			switch {
			case strings.HasPrefix(alt, "<") && strings.HasSuffix(alt, ">"):
				g := groups[alt[1:len(alt)-1]]
				if g == nil {
					return nil, fault(file, n, "no group is called %s", alt)
				}
				e.alts = append(e.alts, alternative{group: g})
			case strings.HasPrefix(alt, "\"") && strings.HasSuffix(alt, "\"") && len(alt) > 2:
				e.alts = append(e.alts, alternative{text: alt[1 : len(alt)-1]})
			default:
				name, value, _ := strings.Cut(alt, "=")
				if _, ok := r.lex.concepts[name]; !ok {
					return nil, fault(file, n, "no lexicon has a word of %q", name)
				}
				e.alts = append(e.alts, alternative{concept: r.lex.concept(name), value: value})
			}
		}
		out = append(out, e)
	}
	return out, nil
}
