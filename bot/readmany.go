package bot

import (
	"strings"

	"yardbell/rules"
)

// Several events in one message. The message is cut at commas and at "and"; each
// piece that names a deed of its own is an event, and the pieces between belong to
// the event before them, or repeat its deed: "moved 20 to North and 14 to Creek".

// part is one event of a message.
type part struct {
	r       *reading
	text    string
	from    int  // its first token
	to      int  // the token after its last, 0 where the text was put together
	carried bool // it repeats the deed of the part before
	heading bool // its count is what the parts after it add up to
	comma   bool // a comma stands before it, and no "and"
	own     bool // a full stop stands before it, and a time in it
}

// many is a message as a whole and as the events it tells of.
type many struct {
	whole *reading
	parts []part // none where it tells of one event only
	rest  string // what no event was made of; then parts are those before it
	looks int    // how much was looked at
	mend  *mending
	sum   int // where "34 moved, 20 to North and 10 to Creek" does not add up
	said  int
}

// mostPieces bounds how often one message is cut; what has more pieces is talk.
const mostPieces = 14

// partWords part one event from the next.
var partWords = words(`and then plus also but y e luego pero tambien ademas despues`)

// slippedAnd are slips of "and" that are no words of their own.
var slippedAnd = words(`adn nad annd aand andd amd abd ahd ajd anf anr anx snd qnd znd nd`)

// aloud are partWords that make a second event of a "done" before them: "done and
// fed B2", where "done, fed B2" says one thing twice.
var aloud = words(`and plus also y e tambien ademas`)

// carryWords spell the deed that a piece without one repeats.
var carryWords = map[rules.Step]string{
	rules.Confine: "confined", rules.Eggs: "eggs seen in", rules.CombOut: "comb out", rules.Graft: "grafted", rules.Accept: "accepted",
	rules.Finish: "to finisher", rules.Capped: "capped", rules.Rogue: "clear", rules.Nucs: "nucs ready", rules.Move: "moved",
	rules.Emerge: "emerged", rules.Laying: "laying", rules.Catch: "caught", rules.Recell: "recelled", rules.Feed: "fed",
	rules.Retire: "retire breeder", rules.Drones: "drone comb in at", rules.Dearth: "dearth at", rules.Flow: "flow at",
}

type cutter struct {
	d     *reader
	n     names
	out   *many
	chain []*reading // the deeds that the newest part repeats
}

// readMany reads a message as a whole and, where it tells of several events, as
// these. The work is bounded by mostPieces times that of one reading.
func readMany(text string, n names) many {
	text = namedBoth(text, n.builders)
	first := newReader(text, n)
	second := first.again()
	m := many{whole: first.read()}
	m.looks = first.looks
	w := m.whole
	if unsaid(text) {
		w.hedged = true
		return m
	}
	switch w.verb {
	case doStep, doDone, noVerb, justCount, doAdd, doMine, notYet:
	default:
		return m
	}
	if w.question {
		return m
	}
	if strings.Contains(text, "\n") {
		second = newReader(strings.ReplaceAll(strings.TrimSpace(text), "\n", "; "), n)
	}
	c := cutter{d: second, n: n, out: &m}
	c.n.spoken, c.n.counts = w.addressed, w.count != nil || needsCount[w.step]
	c.d.slips()
	if w.lang != "es" {
		c.d.plain()
	}
	c.n.accounted = c.d.accounted
	c.out.looks += c.d.looks
	if w.verb == noVerb || w.verb == justCount || w.bare {
		if m.mend = c.mend(); m.mend != nil {
			return m
		}
	}
	cuts := c.cuts()
	if len(c.d.toks) > mostTokens || len(cuts) < 2 || len(cuts) > mostPieces {
		return m
	}
	if add, ok := c.adds(cuts); ok {
		m.parts = add
		return m
	}
	parts, rest := c.parts(cuts)
	if parts = sameBreeder(parts); rest == "" && len(parts) == 1 && parts[0].r.release && parts[0].r.clear() && !w.clear() && !w.negated && !w.hedged {
		r := parts[0].r
		r.addressed, r.lang, r.text = w.addressed, w.lang, w.text
		m.whole = r
		return m
	}
	if rest == "" && !c.several(parts) {
		return m
	}
	if rest != "" && w.step == rules.Feed && w.clear() {
		w.rest = splitSpace(rest) // "fed B2 and nucs": which nucs is not said
	}
	if rest != "" && (len(parts) != 1 || !parts[0].r.clear() || parts[0].r.verb != doStep || w.verb != noVerb && w.verb != notYet) {
		return m
	}
	if n := len(c.d.toks); c.d.toks[n-1].isNum && (rest != "" || has(parts[len(parts)-1].r.rest, c.d.toks[n-2].orig)) {
		return m // what was not read may be the hour of all of it: "… ag 9"
	}
	m.parts, m.rest = parts, rest
	return m
}

// cuts are the pieces of the message as ranges of tokens, without the words that
// part them.
func (c *cutter) cuts() (out []part) {
	toks := c.d.toks
	cur := part{from: -1}
	comma := false
	for i, t := range toks {
		c.out.looks++
		slip := slippedAnd[t.text] || t.text == "an" && strings.IndexAny(c.d.word(i+1), "bcdfgjklmnpqrstvwxyz") == 0
		split := slip || partWords[t.text] && (t.text != "e" || strings.HasPrefix(strings.TrimPrefix(c.d.word(i+1), "h"), "i"))
		if cur.from >= 0 && (split || toks[i-1].comma) {
			cur.to = i
			out = append(out, cur)
			cur = part{from: -1}
			comma = toks[i-1].comma
		}
		if split {
			comma = comma && !aloud[t.text] && !slip
			continue
		}
		if cur.from < 0 {
			cur.from, cur.comma = i, comma
		}
	}
	if cur.from >= 0 {
		cur.to = len(toks)
		out = append(out, cur)
	}
	return out
}

// text is the message from token a up to token b, as typed.
func (c *cutter) text(a, b int) string {
	end := len(c.d.text)
	if b < len(c.d.toks) {
		end = c.d.toks[b].at
	}
	text := strings.Trim(c.d.text[c.d.toks[a].at:end], " ,;:.&+-")
	if rest, ok := strings.CutPrefix(fold(text), "took "); ok && c.d.word(a) == "accepted" {
		return "accepted " + rest // "took 43, fed B2" says so as a whole only
	}
	return text
}

func (c *cutter) read(text string) *reading {
	d := newReader(text, c.n)
	r := d.read()
	c.out.looks += d.looks
	return r
}

// deed reports whether a piece tells of an event by itself.
func deed(r *reading) bool {
	switch r.verb {
	case doStep:
		return r.step != ""
	case doAdd:
		return len(r.rest) == 0
	case doMine:
		return r.step == "" && r.subject().Zero()
	case justCount:
		return r.addressed && r.clear()
	}
	return r.verb == doDone
}

// parts makes events of the pieces. rest is what did not fit.
func (c *cutter) parts(cuts []part) (out []part, rest string) {
	var before []part // pieces before the first deed
	for _, p := range cuts {
		p.text = c.text(p.from, p.to)
		p.text = c.her(out, p)
		p.r = c.read(p.text)
		switch {
		case deed(p.r) && (p.r.verb != justCount || len(out)+len(before) == 0):
			if len(before) > 0 {
				lead, ok := c.lead(before, p)
				if !ok {
					return out, c.text(before[0].from, p.to)
				}
				out, before = append(out, lead...), nil
				continue
			}
			if n := len(out); n > 0 {
				last := &out[n-1]
				if bareDone(p.r) && last.r.clear() {
					continue // "moved 34, done"
				}
				if !p.r.clear() && c.join(last, p) {
					continue
				}
				if last.r.step == rules.Feed && p.r.step == rules.Nucs && p.r.count == nil {
					if next, ok := c.carry(last, p); ok { // "fed B2 and the nucs at North"
						out = append(out, next)
						continue
					}
				}
			}
			p.own = p.r.when.set && c.stopped(p.from)
			out = append(out, p)
		case len(out) == 0:
			if out = c.share(before, p); len(out) == 0 {
				before = append(before, p)
			} else {
				before = nil
			}
		case c.join(&out[len(out)-1], p):
		default:
			next, ok := c.carry(&out[len(out)-1], p)
			if !ok && heads(p.r, out[len(out)-1].r) {
				before = append(before, p) // "batch 1: moved 30. batch 2: 35 accepted"
				continue
			}
			if !ok {
				return out, c.text(p.from, len(c.d.toks))
			}
			out = append(out, next)
		}
	}
	if len(before) > 0 {
		return out, c.text(before[0].from, len(c.d.toks))
	}
	return c.settleHeading(out)
}

// bareDone is a "done" that says nothing beside.
func bareDone(r *reading) bool {
	return r.verb == doDone && r.count == nil && !r.all && r.subject().Zero() && !r.when.set && r.clear()
}

// lead takes the pieces before the first deed into it, "yesterday: moved 34", or
// makes events of them, "7 and 12 confined".
func (c *cutter) lead(before []part, p part) ([]part, bool) {
	joined := p
	joined.from = before[0].from
	joined.text = c.text(joined.from, p.to)
	if joined.r = c.read(joined.text); sameDeed(joined.r, p.r) && (joined.r.clear() || !p.r.clear() && !joined.r.negated) {
		return []part{joined}, true
	}
	if stepWords[c.d.word(p.from)] != "" {
		return nil, false // "34 and fed B2" feeds no 34
	}
	var out []part
	for _, b := range before {
		next, ok := c.carry(&p, b)
		if !ok {
			return nil, false
		}
		next.carried = false
		out = append(out, next)
	}
	return append(out, p), true
}

var nucWords = words(`nuc nucs nucleo nucleos`)

// says reports whether a piece has one of some words.
func (c *cutter) says(p part, ws map[string]bool) bool {
	for i := p.from; i < p.to; i++ {
		if ws[c.d.word(i)] {
			return true
		}
	}
	return false
}

func sameDeed(a, b *reading) bool { return a.verb == b.verb && a.step == b.step }

// join adds a piece to the part before it, where both read in full as one.
func (c *cutter) join(last *part, p part) bool {
	text := last.text + ", " + p.text
	if last.to > 0 {
		text = c.text(last.from, p.to)
	}
	r := c.read(text)
	if !sameDeed(r, last.r) || !r.clear() {
		return false
	}
	switch {
	case r.step == rules.Feed && !last.r.subject().Zero() && !p.comma && (r.yard != "" && last.r.yard == "" || c.says(p, nucWords)):
		return false // "fed B2 and the nucs at North" are two
	case last.carried && r.mark != last.r.mark:
		return false // "confine 7 and 12, red pin"
	case last.carried && r.bees != nil && last.r.bees == nil:
		for i := range c.chain {
			c.chain[i].bees = r.bees // "confine 7 and 12, bees in"
		}
	}
	last.r, last.text = r, text
	if last.to > 0 {
		last.to = p.to
	}
	return true
}

// carry reads a piece as the deed of the part before it, done to something else.
func (c *cutter) carry(last *part, p part) (part, bool) {
	was := last.r
	if !last.carried {
		c.chain = nil
	}
	if was.verb == justCount && was.clear() {
		r := c.read(p.text) // "34 to North and 2 to Creek", in reply to a ping
		p.r, p.to, p.carried = r, 0, true
		return p, r.verb == justCount && r.clear() && r.count != nil && was.count != nil && r.yard != "" && was.yard != "" && r.yard != was.yard
	}
	if was.verb == doDone && was.clear() {
		return c.doneAgain(was, p)
	}
	if carryWords[was.step] == "" || !was.clear() || was.verb != doStep {
		return p, false
	}
	var r *reading
	p.text, r = c.repeats(was.step, p.text)
	if r.verb != doStep || r.step != was.step || !r.clear() || r.all {
		return p, false
	}
	fits := false
	c.chain = append(c.chain, was)
	switch r.step {
	case rules.Confine, rules.Eggs, rules.CombOut, rules.Retire, rules.Feed, rules.Rogue, rules.Drones, rules.Dearth, rules.Flow:
		// "Confined 7 and 12 red": whose pin it is is left open.
		some := !r.subject().Zero() || r.step == rules.Feed && c.says(p, nucWords)
		fits = some && !was.subject().Zero() && r.subject() != was.subject() && r.count == nil &&
			(r.mark == "" || was.mark != "") && (r.bees == nil || was.bees != nil) && (was.count == nil || r.step != rules.Rogue || *was.count == 0)
		r.noEggs, r.release, r.reason = was.noEggs, was.release, was.reason
	case rules.Move, rules.Nucs, rules.Catch, rules.Recell:
		if r.count == nil || was.count == nil {
			break
		}
		switch {
		case r.batch != 0 && was.batch != 0 && r.batch != was.batch:
			fits = true
		case r.batch == 0 && r.yard != "" && (was.yard == "" && !last.carried || last.heading):
			last.heading, fits = true, true
		case r.yard != "" && was.yard != "" && r.yard != was.yard:
			fits = true
		}
		if r.batch == 0 {
			r.batch = was.batch
		}
	case rules.Graft:
		if r.breeder == 0 && r.builder != "" && was.builder != "" && r.builder != was.builder {
			r.breeder = was.breeder
		}
		fits = r.count != nil && was.count != nil && r.breeder != 0 && was.breeder != 0 && (r.breeder != was.breeder || r.builder != was.builder)
	default:
		fits = r.batch != 0 && was.batch != 0 && r.batch != was.batch && (r.count != nil) == (was.count != nil)
	}
	p.r, p.to, p.carried = r, 0, true
	return p, fits
}

// settleHeading drops "34 moved" from "34 moved, 20 to North and 14 to Creek",
// where the others add up to it. Where they do not, nobody can tell.
func (c *cutter) settleHeading(parts []part) ([]part, string) {
	for i, h := range parts {
		if !h.heading {
			continue
		}
		sum, k := 0, i+1
		for ; k < len(parts) && parts[k].carried; k++ {
			sum += *parts[k].r.count
			if parts[k].r.when == (when{}) {
				parts[k].r.when = h.r.when
			}
		}
		if k >= i+3 && sum != *h.r.count {
			c.out.sum, c.out.said = sum, *h.r.count
		}
		if k < i+3 || sum != *h.r.count {
			return parts[:i], h.text
		}
		parts[i+1].carried = false
		return append(parts[:i:i], parts[i+1:]...), ""
	}
	return parts, ""
}
