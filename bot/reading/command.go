package reading

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"yardbell/rules"
)

// This file reads commands: settings, what is put on the list, orders, questions in fixed
// forms, what is said of people. A command is a message of which a row of commands.txt
// explains every word; greetings, the bot's name and polite words may stand around it.

// commandRow is a row of commands.txt.
type commandRow struct {
	kind      Kind
	addressed bool // read only where the bot is plainly spoken to
	fixed     captures
	elems     []element
	line      int
}

// commands are the rows, and what they go by.
type commands struct {
	rows                                                  []commandRow
	unread                                                []commandRow // openings that are answered where nothing was understood
	slips                                                 *slips
	typed, name, word, proper, former, greet, bot, polite concept
}

// mostCommand is how many tokens a command has at most. Its value may be longer.
const mostCommand = 60

// mostSteps bounds the work of one row on one message.
const mostSteps = 400

var commandKinds = map[Kind]bool{Set: true, Add: true, Order: true, Plan: true, Cancel: true, Query: true, WhatIf: true, Fit: true, Remove: true, Lead: true, Forget: true}

// commandSlots are the names of captures beside those of times.
var commandSlots = map[string]bool{"topic": true, "setting": true, "value": true, "typed": true, "step": true, "batch": true, "breeder": true, "builder": true, "yard": true, "at": true, "number": true,
	"count": true, "unit": true, "order": true, "days": true, "year": true, "by": true, "person": true, "wds": true, "till": true, "temp": true, "shift": true, "span": true}

// timeSlots are the captures that make a time; night is an hour of the night, so that
// twelve is midnight.
var timeSlots = map[string]bool{"c": true, "h": true, "h1": true, "hm": true, "m": true, "p": true, "d": true, "pd": true, "wd": true, "dd": true, "mo": true, "noon": true, "mid": true, "half": true,
	"quarter": true, "q": true, "past": true, "less": true, "ocl": true, "hp": true, "ish": true, "approx": true, "night": true, "n": true, "u": true, "f": true}

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
		case kindCommand, kindUnread:
		default:
			return fault(file, n, "want group, command or unread, not %q", words[0])
		}
		for _, w := range words[2:] {
			name, value, isFixed := strings.Cut(w, "=")
			switch {
			case isFixed && (commandSlots[name] || timeSlots[name]):
				row.fixed = append(row.fixed, capture{name: name, value: value, num: atof(value), tok: -1})
			case w == flagAddressed:
				row.addressed = true
			default:
				return fault(file, n, "no slot is called %q", name)
			}
		}
		if !commandKinds[row.kind] {
			return fault(file, n, "no command is called %q", words[1])
		}
		if words[0] == kindUnread {
			r.cmd.unread = append(r.cmd.unread, row)
		} else {
			r.cmd.rows = append(r.cmd.rows, row)
		}
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
	flagAddressed = "addressed"
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
		if w := l.r.nameWords(name); len(w) > 1 && w[0] == t.text {
			out = append(out, edge{n: 1, senses: []sense{{concept: l.r.member, value: name}}})
		}
	}
	for _, name := range l.known.Former {
		if w := l.r.nameWords(name); len(w) > 0 && l.stands(w, i) {
			out = append(out, edge{n: len(w), senses: []sense{{concept: l.r.cmd.former, value: name}}})
		} else if len(w) > 1 && w[0] == t.text {
			out = append(out, edge{n: 1, senses: []sense{{concept: l.r.cmd.former, value: name}}})
		}
	}
	if s := l.commandSlip(t); s != nil {
		out = append(out, edge{n: 1, senses: s})
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
	c := &lattice{r: l.r, known: l.known, text: l.text, lang: l.lang}
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
		if acts[0].Kind == Order && l.questionSign() {
			acts[0].Kind = Plan
		}
		return Result{Outcome: Log, Acts: acts, Language: c.tongue(), Addressed: l.known.Addressed || c.spoken, Why: []Piece{{Words: c.raw(0), As: string(row.kind)}}}, true
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
	left := mostSteps
	l.match(row.elems, 0, nil, &left, func(end int, c captures) {
		if acts != nil || end != len(l.toks) {
			return
		}
		acts = l.commandActs(row, append(append(captures{}, row.fixed...), c...))
	})
	return acts
}

// raw is the message from token i on as it was typed.
func (l *lattice) raw(i int) string {
	if i >= len(l.toks) {
		return ""
	}
	return strings.TrimSpace(l.text[l.toks[i].from:l.toks[len(l.toks)-1].to])
}

// asNew takes a name that is put on the list for what was typed: one letter from a name that
// is there it is another thing of the crew's.
func asNew(k capture) capture {
	if strings.HasSuffix(k.value, "\x00") {
		k.value = ""
	}
	return k
}

// nameAt is how a name was typed.
func (l *lattice) nameAt(k capture) string {
	if k.value != "" {
		s, _ := strings.CutSuffix(k.value, "\x00")
		return s
	}
	return strings.Join(strings.Fields(l.text[l.toks[k.tok].from:l.toks[k.end-1].to]), " ")
}

// names yields the ends of a name from token i: words that are written like one, no sign
// between them.
func (l *lattice) names(i, most int, yield func(end int)) {
	for n := 1; n <= most && i+n <= len(l.toks); n++ {
		t := &l.toks[i+n-1]
		if t.isNum || n > 1 && (t.split || l.lower(t)) || !l.writtenLikeName(t) {
			return
		}
		yield(i + n)
	}
}

// writtenLikeName reports whether a word may be a name: it has a capital, or no case, or
// no lexicon knows it.
func (l *lattice) writtenLikeName(t *token) bool {
	r, _ := utf8.DecodeRuneInString(l.text[t.from:t.to])
	if !unicode.IsLetter(r) {
		return false
	}
	if l.r.lex.words[t.text] == 0 && len(t.text) > shortest && l.nearDay(t) {
		return false // "iFriday"
	}
	return !unicode.IsLower(r) || l.r.lex.words[t.text] == 0 && l.r.lex.same[t.text] == nil && !(len(t.text) < shortest && letters(t.text))
}

// lower reports whether a word begins with a small letter.
func (l *lattice) lower(t *token) bool {
	r, _ := utf8.DecodeRuneInString(l.text[t.from:t.to])
	return unicode.IsLower(r)
}

// proper reports whether a word is typed like a person's name.
func (l *lattice) proper(t *token) bool {
	r, n := utf8.DecodeRuneInString(l.text[t.from:t.to])
	return unicode.IsUpper(r) && t.to-t.from > n && l.text[t.from:t.to] != strings.ToUpper(l.text[t.from:t.to])
}

// commandActs fills the acts of a row; nil where the values make none.
func (l *lattice) commandActs(row *commandRow, c captures) []Act {
	a := Act{Kind: row.kind}
	var acts []Act
	twice := false
	var times, before captures
	next := func() { // the next thing that is added
		if a.Breeder != 0 || a.Builder != "" || a.Yard != "" {
			for _, b := range acts {
				twice = twice || a.Breeder != 0 && a.Breeder == b.Breeder
			}
			acts = append(acts, a)
			a = Act{Kind: row.kind}
		}
	}
	shift := 0
	var unit string
	for _, k := range c {
		n := int(k.num)
		whole := k.num == float64(n) && n > 0 && n < 1e6
		switch k.name {
		case "batch", "order", "count", "days", "year", "number":
			if !whole {
				return nil
			}
		}
		switch k.name {
		case "topic":
			a.Topic = Topic(k.value)
		case "setting":
			if a.Setting = k.value; a.Setting == "" {
				a.Setting = fold(l.nameAt(k))
			}
		case "value":
			a.Value = k.value
		case "typed":
			a.Value = l.raw(k.tok)
		case "step":
			a.Step = rules.Step(k.value)
		case "batch":
			a.Batch = n
		case "breeder":
			if !whole {
				return nil
			}
			if row.kind == Add {
				next()
			}
			a.Breeder = n
		case "builder":
			if row.kind == Add {
				next()
				k = asNew(k)
			}
			a.Builder = builderName(l.nameAt(k))
		case "number": // a builder by its number
			if row.kind == Add {
				next()
			}
			a.Builder = strconv.Itoa(n)
		case "yard":
			if row.kind == Add {
				next()
				k = asNew(k)
			}
			a.Yard = l.nameAt(k)
		case "at": // where a breeder or a builder stands
			a.Yard = l.nameAt(k)
		case "person":
			k.value = "" // as typed: two people may have one first name
			a.Person = l.nameAt(k)
		case "count":
			a.Count = intPtr(n)
		case "unit":
			a.Unit = k.value
		case "order":
			a.Order = n
		case "days":
			a.Days = n
		case "by":
			a.By = k.value
		case "year":
			if n < 2000 || n >= 2200 {
				return nil
			}
			a.Year = n
		case "wds":
			a.Weekdays = append(a.Weekdays, n)
		case "temp":
			t, ok := temperature(c)
			if !ok {
				return nil
			}
			a.Value = t
		case "shift":
			shift = n
		case "till":
			before, times = times, nil
		case "span":
			unit = k.value
			times = append(times, capture{name: "u", value: k.value, num: k.num})
		default:
			times = append(times, k)
		}
	}
	switch {
	case shift != 0:
		span := spanOf(times)
		if span <= 0 || span > 60*24*time.Hour {
			return nil
		}
		if unit == "day" || unit == "week" {
			a.Days = shift * int(span/(24*time.Hour))
		} else {
			a.Span = shift * int(span/time.Minute)
		}
	case row.kind == Set && a.Value == "" && len(times) > 0:
		if a.Value = l.clockValue(before, times); a.Value == "" {
			return nil
		}
	case row.kind == Set:
	case len(times) > 0:
		w, ok := l.ahead(times, a.Year)
		if !ok {
			return nil
		}
		a.When = &w
		if a.Topic != AskReport {
			a.Year = 0
		}
	}
	for _, b := range acts {
		twice = twice || a.Breeder != 0 && a.Breeder == b.Breeder
	}
	acts = append(acts, a)
	if twice {
		return nil // "reina nueve 9": one of them is no number
	}
	if row.kind == Add {
		shareYard(acts)
	}
	return acts
}

// shareYard gives the yard that is said last to all of the same kind before it: breeders
// 7 and 8 at North both stand there.
func shareYard(acts []Act) {
	last := acts[len(acts)-1]
	if last.Yard == "" || last.Breeder == 0 && last.Builder == "" {
		return
	}
	for i := len(acts) - 2; i >= 0; i-- {
		a := &acts[i]
		if a.Yard != "" || (a.Breeder != 0) != (last.Breeder != 0) || a.Breeder == 0 && a.Builder == "" {
			return
		}
		a.Yard = last.Yard
	}
}

// builderName writes a letter and a number as builders are called: B3.
func builderName(s string) string {
	if len(s) > 1 && len(s) < 5 && strings.Trim(s[1:], "0123456789") == "" {
		return strings.ToUpper(s)
	}
	return s
}

// temperature is what was captured in degrees Celsius.
func temperature(c captures) (string, bool) {
	k, _ := c.get("temp")
	x := k.num
	if c.has("half") {
		x += 0.5
	}
	if u, ok := c.get("f"); ok && u.value == "f" {
		x = float64(int((x-32)/1.8*10+0.5)) / 10
	}
	return strconv.FormatFloat(x, 'f', -1, 64), x > 10 && x < 120
}

// clockValue spells an hour, or the hours from one to another.
func (l *lattice) clockValue(from, to captures) string {
	spell := func(c captures) string {
		m, has, ok := l.clock(c)
		if !has || !ok {
			return ""
		}
		if k, is := c.get("c"); is && len(c) == 1 {
			return l.toks[k.tok].text // as typed
		}
		p, _ := c.get("p")
		switch {
		case c.has("night") && m >= 12*60 && m < 13*60:
			m -= 12 * 60
		case (p.value == halfPM || c.has("night")) && m < 12*60:
			m += 12 * 60
		case p.value == halfAM && m >= 12*60 && m < 13*60:
			m -= 12 * 60
		}
		return fmt.Sprintf("%02d:%02d", m/60, m%60)
	}
	b := spell(to)
	if from == nil || b == "" {
		return b
	}
	a := spell(from)
	if a == "" {
		return ""
	}
	return a + "-" + b
}

const (
	halfAM = "am"
	halfPM = "pm"
)

// ahead is a time that lies ahead, or today.
func (l *lattice) ahead(c captures, year int) (When, bool) {
	var w When
	w.Year = year
	if u, ok := c.get("u"); ok {
		span := spanOf(c)
		if u.value != "day" && u.value != "week" || span <= 0 {
			return w, false
		}
		d := int(span / (24 * time.Hour))
		w.Day = &d
		return w, true
	}
	for _, k := range c {
		switch k.name {
		case "d":
			d := int(k.num)
			w.Day = &d
		case "pd":
			v := strings.TrimSuffix(strings.TrimSuffix(k.value, halfAM), halfPM)
			d := int(atof(v))
			w.Day, w.Half = &d, k.value[len(v):]
		case "p":
			w.Half = k.value
		case "wd":
			w.Weekday = int(k.num)
		case "mo":
			w.Month = int(k.num)
		case "dd":
			w.Date = int(k.num)
		}
	}
	clock, has, ok := l.clock(c)
	if !ok || w.Day != nil && *w.Day < 0 || w.Month != 0 && (w.Month > 12 || w.Date < 1 || w.Date > 31) {
		return w, false
	}
	if has {
		w.Clock = &clock
		w.Fixed = c.has("noon") || c.has("mid") || clock >= 13*60 || clock < 60 || l.leadingZero(c)
	}
	return w, has || w.Day != nil || w.Weekday != 0 || w.Month != 0
}

// commandAct reports whether an act is a command or a question, and tells of no work.
func commandAct(a Act) bool {
	switch a.Kind {
	case Did, Amend, Void, Claim, Later, Skip, Done, Seen:
		return false
	}
	return true
}
