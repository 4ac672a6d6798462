package reading

import (
	"io/fs"
	"strings"
)

// This file reads commands: settings, what is put on the list, orders, questions in fixed
// forms, what is said of people. A command is a message of which a row of commands.txt
// explains every word; greetings, the bot's name and polite words may stand around it.

// commandRow is a row of commands.txt.
type commandRow struct {
	kind      Kind
	addressed bool // read only where the bot is plainly spoken to
	empty     bool // read only where the builder that is named holds no batch
	fixed     captures
	elems     []element
	line      int
}

// commands are the rows, and what they go by.
type commands struct {
	rows                                                                   []commandRow
	unread                                                                 []commandRow // openings that are answered where nothing was understood
	loose                                                                  []commandRow // whose parts stand anywhere in a message
	slips                                                                  *slips
	typed, name, word, proper, former, greet, bot, polite, customer, words concept
}

// mostCommand is how many tokens a command has at most. Its value may be longer.
const mostCommand = 60

// mostSteps bounds the work of one row on one message.
const mostSteps = 2000

var commandKinds = map[Kind]bool{Did: true, Set: true, Add: true, Order: true, Plan: true, Cancel: true, Query: true, WhatIf: true, Fit: true, Remove: true, Lead: true, Forget: true, Assign: true, Away: true, Remind: true}

// commandSlots are the names of captures beside those of times.
var commandSlots = map[string]bool{"topic": true, "setting": true, "value": true, "typed": true, "step": true, "batch": true, "breeder": true, "builder": true, "yard": true, "at": true, "number": true,
	"count": true, "unit": true, "order": true, "days": true, "year": true, "by": true, "person": true, "customer": true, "incubator": true, "out": true, "outof": true, "power": true, "singly": true, "both": true, "rests": true, "all": true,
	"halfdegree": true, "wds": true, "till": true, "through": true, "temp": true, "shift": true, "span": true, "percent": true}

// timeSlots are the captures that make a time; night is an hour of the night, so that
// twelve is midnight.
var timeSlots = map[string]bool{"c": true, "h": true, "h1": true, "hm": true, "m": true, "p": true, "d": true, "pd": true, "wd": true, "dd": true, "mo": true, "noon": true, "mid": true, "half": true,
	"quarter": true, "q": true, "past": true, "less": true, "ocl": true, "hp": true, "ish": true, "approx": true, "night": true, "n": true, "u": true, "f": true, "now": true}

// loadCommands reads the rows. Groups of entities.txt may be used in them.
func (r *Reader) loadCommands(fsys fs.FS, file string, groups map[string]*group) error {
	used := map[concept]bool{}
	err := eachLine(fsys, file, func(n int, line string) error {
		head, body, ok := strings.Cut(line, ": ")
		words := strings.Fields(head)
		if !ok || len(words) < 2 {
			return fault(file, n, "want group NAME: … or command KIND: …, not %q", line)
		}
		elems, err := r.parseElements(file, n, body, groups)
		if err != nil {
			return err
		}
		for _, e := range elems {
			if e.capture != "" && !commandSlots[e.capture] && !timeSlots[e.capture] {
				return fault(file, n, "no slot is called %q", e.capture)
			}
			for _, a := range e.alts {
				if a.group == nil && a.text == "" {
					used[a.concept] = true
				}
			}
		}
		row := commandRow{kind: Kind(words[1]), elems: elems, line: n}
		switch words[0] {
		case kindGroup:
			g := groups[words[1]]
			if g == nil {
				g = &group{name: words[1]}
				groups[words[1]] = g
			}
			g.rows = append(g.rows, elems)
			return nil
		case kindCommand, kindUnread, kindLoose:
		default:
			return fault(file, n, "want group, command, loose or unread, not %q", words[0])
		}
		for _, w := range words[2:] {
			name, value, isFixed := strings.Cut(w, "=")
			switch {
			case isFixed && (commandSlots[name] || timeSlots[name]):
				row.fixed = append(row.fixed, capture{name: name, value: value, num: atof(value), tok: -1})
			case w == flagAddressed:
				row.addressed = true
			case w == flagEmpty:
				row.empty = true
			default:
				return fault(file, n, "no slot is called %q", name)
			}
		}
		if !commandKinds[row.kind] {
			return fault(file, n, "no command is called %q", words[1])
		}
		list := map[string]*[]commandRow{kindCommand: &r.cmd.rows, kindUnread: &r.cmd.unread, kindLoose: &r.cmd.loose}[words[0]]
		*list = append(*list, row)
		return nil
	})
	if err != nil {
		return err
	}
	for _, g := range groups {
		for _, row := range g.rows {
			for _, e := range row {
				for _, a := range e.alts {
					if a.group == nil && a.text == "" {
						used[a.concept] = true
					}
				}
			}
		}
	}
	r.cmd.slips = newSlips(r.lex, nil, func(c concept) bool { return used[c] })
	for w, p := range r.lex.commandSingle {
		for _, s := range p.senses {
			if used[s.concept] {
				r.cmd.slips.add(w)
				break
			}
		}
	}
	return nil
}

const (
	kindGroup     = "group"
	kindCommand   = "command"
	kindUnread    = "unread"
	kindLoose     = "loose"
	flagAddressed = "addressed"
	flagEmpty     = "empty"
	someWords     = "words" // the unit of a row whose rest has to be more than one word
)

// unslash takes the slash off a command of a chat's menu, with the bot's name behind it:
// "/comb_out@yardbell_bot 7" is "comb out 7".
func unslash(text string) (string, bool) {
	s := strings.TrimSpace(text)
	if !strings.HasPrefix(s, "/") {
		return text, false
	}
	first, rest, _ := strings.Cut(s[1:], " ")
	first, _, _ = strings.Cut(first, "@")
	return strings.TrimSpace(strings.ReplaceAll(first, "_", " ") + " " + rest), true
}

// lookupCommand are the phrases at token i that commands alone know, and what a misspelt
// word may stand for.
func (l *lattice) lookupCommand(i int) []edge {
	var out []edge
	t := &l.toks[i]
	for _, p := range l.r.lex.commandPhrases[t.text] {
		if l.stands(p.words, i) {
			out = append(out, edge{n: len(p.words), senses: l.speaks(p.senses)})
		}
	}
	for _, name := range l.known.Members { // by the first name, too
		if w := l.nameWords(name); len(w) > 1 && w[0] == t.text {
			out = append(out, edge{n: 1, senses: []sense{{concept: l.r.member, value: name}}})
		}
	}
	for _, name := range l.known.Former {
		if w := l.nameWords(name); len(w) > 0 && l.stands(w, i) {
			out = append(out, edge{n: len(w), senses: []sense{{concept: l.r.cmd.former, value: name}}})
		} else if len(w) > 1 && w[0] == t.text {
			out = append(out, edge{n: 1, senses: []sense{{concept: l.r.cmd.former, value: name}}})
		}
	}
	if s := l.commandSlip(t); s != nil {
		out = append(out, edge{n: 1, senses: s, slip: true})
	}
	return out
}

// commandSlip reads a word that nobody knows as a word of commands one slip away, in the
// language of the message, or of the crew where that does not say.
func (l *lattice) commandSlip(t *token) []sense {
	w, lex := t.text, l.r.lex
	if len(w) < shortest || !letters(w) || lex.common[w] || lex.words[w] != 0 || lex.commandSingle[w] != nil {
		return nil
	}
	var got []sense
	lang := l.mother()
	for k, c := range l.r.cmd.slips.candidates(w) {
		var mine []sense
		for _, p := range []*phrase{lex.single[c], lex.commandSingle[c]} {
			if p == nil {
				continue
			}
			for _, s := range p.senses {
				if lang < 0 || int(s.lang) == lang || lex.langs[s.lang] == neutral {
					mine = append(mine, s)
				}
			}
		}
		if len(mine) == 0 {
			continue
		}
		if k == 0 || got == nil {
			got = mine
			continue
		}
		if len(l.toks) == 1 {
			got = append(got, mine...) // a single word is a command or nothing
			continue
		}
		// Words as near as each other must mean the same.
		var both []sense
		for _, a := range got {
			for _, b := range mine {
				if a.concept == b.concept && a.value == b.value {
					both = append(both, a)
					break
				}
			}
		}
		if len(both) < len(got) || len(both) < len(mine) && lex.commandSingle[c] != nil {
			return nil // "trasladb": the setting, or the work
		}
		if got = both; len(got) == 0 {
			return nil
		}
	}
	return got
}

// commandLattice is the message without the signs between words and what may stand
// around a command.
func (l *lattice) commandLattice() *lattice {
	if l.asCommand == nil {
		l.asCommand = l.forCommands()
	}
	return l.asCommand
}

func (l *lattice) forCommands() *lattice {
	c := &lattice{r: l.r, known: l.known, text: l.text, lang: l.lang, inDoubt: l.questionSign()}
	split := true
	for i := range l.toks {
		t := l.toks[i]
		if t.bound {
			split = true
			continue
		}
		t.split = split
		split = false
		c.toks = append(c.toks, t)
	}
	edges := func() {
		c.edges = make([][]edge, len(c.toks))
		for i := range c.toks {
			if i < mostCommand {
				c.edges[i] = append(c.lookup(i), c.lookupCommand(i)...)
			}
		}
	}
	edges()
	from, to := 0, len(c.toks)
	for from < to {
		n := 0
		for _, e := range c.edges[min(from, mostCommand-1)] {
			if from < mostCommand && from+e.n < to && e.n > n && (means(e.senses, l.r.cmd.greet) || means(e.senses, l.r.cmd.bot) || means(e.senses, l.r.cmd.polite)) {
				n = e.n
			}
		}
		if n == 0 {
			break
		}
		from += n
	}
	if to <= mostCommand {
		for shrunk := true; shrunk; {
			shrunk = false
			for n := 1; n <= 3 && to-n > from; n++ {
				for _, e := range c.edges[to-n] {
					if e.n == n && (means(e.senses, l.r.cmd.bot) || means(e.senses, l.r.cmd.polite)) {
						to, shrunk = to-n, true
						break
					}
				}
				if shrunk {
					break
				}
			}
		}
	}
	c.spoken = from > 0 && l.bySpeaking(c, from) || to < len(c.toks) && l.bySpeaking(c, len(c.toks))
	if from > 0 || to < len(c.toks) {
		c.toks = c.toks[from:to]
		edges()
	}
	return c
}

// bySpeaking reports whether the bot's name stands before token n.
func (l *lattice) bySpeaking(c *lattice, n int) bool {
	for i := 0; i < n && i < mostCommand; i++ {
		for _, e := range c.edges[i] {
			if means(e.senses, l.r.cmd.bot) {
				return true
			}
		}
	}
	return false
}

func means(senses []sense, c concept) bool {
	for _, s := range senses {
		if s.concept == c {
			return true
		}
	}
	return false
}

// command reads a message that is a command. ok is false where it is none.
func (l *lattice) command() (Result, bool) {
	c := l.commandLattice()
	if len(c.toks) == 0 {
		return Result{}, false
	}
	for i := range l.r.cmd.rows {
		row := &l.r.cmd.rows[i]
		if row.addressed && !l.known.Addressed && !c.spoken {
			continue
		}
		acts := c.try(row)
		if acts == nil {
			continue
		}
		switch acts[0].Kind {
		case Assign, Away, Remind: // what is asked is told by nobody, and "remind me at six about it" puts a ping off
			if l.questionSign() || acts[0].Kind == Remind && l.known.Reply != nil {
				continue
			}
			if acts[0].Unit == someWords {
				if len(strings.Fields(acts[0].Value)) < 2 {
					continue // "remind us at six tonigth"
				}
				acts[0].Unit = ""
			}
		}
		if acts[0].Kind == Order && l.questionSign() {
			acts[0].Kind = Plan
		}
		return Result{Outcome: Log, Acts: acts, Language: c.tongue(), Addressed: l.known.Addressed || c.spoken, exact: row.kind == Did, Why: []Piece{{Words: c.raw(0), As: string(row.kind)}}}, true
	}
	return Result{}, false
}

// Command reads a message that is a command and nothing else. ok is false for any other.
func (r *Reader) Command(text string, k Known) (res Result, ok bool) {
	text, _ = r.called(text, &k)
	l := r.newLattice(text, &k)
	if len(l.toks) == 0 {
		return Result{}, false
	}
	return l.command()
}

// tongue is the language of a command: of the whole, else of the word it opens with.
func (l *lattice) tongue() string {
	if l.mixed() {
		return "" // "set days off sábado y domingo"
	}
	if l.lang >= 0 {
		return l.r.lex.langs[l.lang]
	}
	for _, e := range l.edges[0] {
		for _, s := range e.senses {
			if name := l.r.lex.langs[s.lang]; name != neutral && !l.r.dynamic[s.concept] {
				return name
			}
		}
	}
	return ""
}

// questionSign reports whether a sign of a question stands in the message.
func (l *lattice) questionSign() bool {
	for i := range l.toks {
		if w := l.toks[i].text; w == "?" || w == "¿" {
			return true
		}
	}
	return false
}

// unreadCommand answers a line that opens like a command and was not understood.
func (l *lattice) unreadCommand() (Result, bool) {
	c := l.commandLattice()
	for i := range l.r.cmd.unread {
		row := &l.r.cmd.unread[i]
		if row.addressed && !l.known.Addressed && !c.spoken {
			continue
		}
		if acts := c.try(row); acts != nil {
			return Result{Outcome: Ask, Acts: acts, Language: c.tongue(), Addressed: l.known.Addressed || c.spoken, Doubts: []string{kindCommand}}, true
		}
	}
	return Result{}, false
}

// try matches a row with the whole message; nil where it does not fit.
func (l *lattice) try(row *commandRow) (acts []Act) {
	if l.exact = row.kind == Did || row.empty || len(row.fixed) > 0 && row.kind == Add; row.kind == Did && l.inDoubt {
		return nil
	}
	left := mostSteps
	l.match(row.elems, 0, nil, &left, func(end int, c captures) {
		if acts != nil || end != len(l.toks) {
			return
		}
		acts = l.commandActs(row, append(append(captures{}, row.fixed...), c...))
	})
	return acts
}

const (
	halfAM = "am"
	halfPM = "pm"
)

// commandAct reports whether an act is a command or a question, and tells of no work.
func commandAct(a Act) bool {
	switch a.Kind {
	case Did, Amend, Void, Claim, Later, Skip, Done, Seen:
		return false
	}
	return true
}
