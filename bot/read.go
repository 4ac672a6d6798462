package bot

import (
	"slices"
	"strings"

	"yardbell/rules"
)

// reader works on one message. Every step of it goes over the tokens once, so the
// work grows with the message and no faster; looks counts it.
type reader struct {
	toks   []token
	raw    []token // as they were cut, before anything was put into other words
	text   string  // what the tokens were cut from
	joined string  // the tokens' words, once they were asked for
	n      names
	r      *reading
	looks  int

	// What is known of the sentence beside the reading itself.
	said         string // the word that named the verb
	verbAt       int    // where it stands
	form         form
	twoWords     bool                   // the step was named by two words
	where        map[rules.Kind][]token // what was named, and by which words
	leadAt       []lead                 // words before things, not yet judged
	strong       bool                   // something of the crew's own was named
	namedBreeder bool                   // "breeder 7" and not a bare 7
	foreign      bool                   // the number counts what is none of the bot's
	oddThing     bool                   // the number counts something unknown
	markAt       int                    // where the pin's colour stands
	planned      bool                   // it is said to lie ahead, or in a story
	ahead        bool                   // the day named lies ahead
	midnight     bool                   // the time named is midnight
	accounted    bool                   // what was lost is said, and adds up
	about        things                 // what the message names, whether or not the step has a place for it
	softly       bool                   // it puts a count right in few words: "perdón, 26"
}

// things are those that a message names.
type things struct {
	breeder, batch int
	builder        string
}

// botName is how the bot is spoken to by name.
const botName = "yardbell"

// read makes out what a message wants. It never fails: what it cannot read is in
// rest, and nothing with a rest is logged without asking.
func read(text string, n names) *reading { return newReader(text, n).read() }

func newReader(text string, n names) *reader {
	r := &reading{text: clean(text), addressed: n.spoken}
	s := r.text
	if strings.HasPrefix(s, "/") {
		r.addressed = true
		// A command may carry the bot's name, and has no spaces: /comb_out@yardbell_bot 7.
		first, rest, _ := strings.Cut(s[1:], " ")
		first, _, _ = strings.Cut(first, "@")
		s = strings.TrimSpace(strings.ReplaceAll(first, "_", " ") + " " + rest)
	}
	r.question = strings.ContainsAny(s, "?¿")
	d := &reader{toks: tokenize(s), text: s, n: n, r: r, verbAt: -1, where: map[rules.Kind][]token{}}
	d.spoken()
	d.raw = slices.Clone(d.toks)
	for _, t := range d.toks {
		r.digits = r.digits || t.isNum || t.text[0] >= '0' && t.text[0] <= '9'
	}
	d.rows()
	d.amounts()
	return d
}

// again is a reader of the same text that has read nothing yet, where d has not either.
func (d *reader) again() *reader {
	fresh, r := *d, *d.r
	fresh.toks, fresh.r, fresh.where = slices.Clone(d.toks), &r, map[rules.Kind][]token{}
	return &fresh
}

// spoken takes the bot's own name out of the message, at its head or its end.
func (d *reader) spoken() {
	for i := range d.toks {
		w := strings.TrimPrefix(d.toks[i].text, "@")
		if w != botName && !strings.HasPrefix(w, botName+"_") {
			continue
		}
		switch {
		case i == 0, i == 1 && (chatter[d.word(0)] || spanish.greets(d.word(0))): // "hey yardbell, …"
			d.toks = d.toks[i+1:]
		case i == len(d.toks)-1:
			d.toks = d.toks[:i]
		default:
			continue
		}
		d.r.addressed = true
		return
	}
	d.asBot()
}

func (d *reader) read() *reading {
	r := d.r
	if len(d.toks) == 0 || len(d.toks) > mostTokens {
		if len(d.toks) > 0 {
			r.rest = []string{r.text}
		}
		return r
	}
	if d.cuando() {
		return d.r
	}
	d.gloss()
	d.slips()
	found := d.findsSome()
	d.plain()
	if r.courtesy || d.whole() {
		return r
	}
	d.opening()
	d.negation()
	d.times()
	d.things()
	d.verb()
	d.places()
	d.settleMark()
	d.settleLeads()
	d.syrup()
	d.numbers()
	d.hedge()
	d.tense()
	d.misfits()
	d.bothBatches()
	d.leftovers()
	d.eitherYard()
	if r.step == rules.Graft && r.of != nil {
		r.hedged = true // nothing is grafted out of a number: a slip of "40 or 42"
	}
	if r.verb == doStep && r.step == rules.Rogue && r.count == nil && (found || d.roguesThere()) {
		r.hedged, r.found = true, true
	}
	if d.harm() {
		return r
	}
	d.restrain()
	d.headAlone()
	d.movedBare()
	return r
}

// bothBatches reads "both batches to the finisher".
func (d *reader) bothBatches() {
	r := d.r
	if r.verb != doStep || r.step != rules.Finish || r.batch != 0 {
		return
	}
	for i := range d.toks {
		if d.word(i) == "both" && !d.toks[i].used {
			d.use(i, 1)
			if d.word(i+1) == "batches" {
				d.use(i+1, 1)
			}
			r.both = true
		}
	}
}

// movedBare takes "batch 2: 24 to North", said to the group with no verb, for cells that
// were moved or are to be: it is asked back, since a move that is not logged is the one
// that is pinged until a batch is given up for lost.
func (d *reader) movedBare() {
	r := d.r
	if r.verb != justCount || r.addressed || r.question || r.negated || d.ahead || d.planned || r.count == nil || *r.count == 0 || r.of != nil || r.batch == 0 || r.yard == "" || r.builder != "" || r.breeder != 0 || len(r.rest) > 0 {
		return
	}
	for i, t := range d.toks {
		if towards[t.text] && t.text != "in" && i+1 < len(d.toks) && (d.toks[i+1].text == "the" || d.toks[i+1].text == fold(r.yard) || strings.HasPrefix(fold(r.yard), d.toks[i+1].text+" ")) {
			r.verb, r.step, r.hedged, r.bare = doStep, rules.Move, true, true
			return
		}
	}
}

func (d *reader) word(i int) string {
	d.looks++
	if i < 0 || i >= len(d.toks) {
		return ""
	}
	return d.toks[i].text
}

func (d *reader) number(i int) (int, bool) {
	d.looks++
	if i < 0 || i >= len(d.toks) || !d.toks[i].isNum || d.toks[i].used {
		return 0, false
	}
	return d.toks[i].num, true
}

func (d *reader) use(i, n int) {
	for k := max(i, 0); k < i+n && k < len(d.toks); k++ {
		d.toks[k].used = true
	}
}

func (d *reader) phrase(i int, s string) bool {
	for ; s != ""; i++ {
		w, rest, _ := strings.Cut(s, " ")
		if d.word(i) != w {
			return false
		}
		s = rest
	}
	return true
}

// opening marks a sentence that opens like a question.
func (d *reader) opening() {
	i := 0
	for i < len(d.toks)-1 && chatter[d.word(i)] {
		i++
	}
	w, next := d.word(i), d.word(i+1)
	switch {
	case !openers[w], doneWords[w] && (next == "" || next == "it"), w == "may" && d.toks[min(i+1, len(d.toks)-1)].isNum:
	case w == "was" && next == "not", (w == "has" || w == "was" || w == "were" || w == "have") && next == "":
	default:
		d.r.question = true
	}
	if w == "have" && subjectWords[next] {
		d.r.question = true
	}
}

// negation marks what was not done. A few phrases with a no in them are facts.
func (d *reader) negation() {
	r := d.r
	for i := 0; i < len(d.toks); i++ {
		if d.toks[i].used {
			continue
		}
		w, next := d.word(i), d.word(i+1)
		switch {
		case w == "on" && (next == "eggs" || next == "egg"):
			r.hedged = true // one slip from "no eggs"
		case w == "no" && (next == "eggs" || next == "egg"):
			r.noEggs = true
			d.use(i, 1)
			d.yet()
		case (w == "not" || w == "isn't" || w == "hasn't") && (next == "laying" || next == "laid" || next == "started") && d.word(i+2) == "yet" && next != "started":
			r.noEggs, r.step = true, rules.Eggs
			d.said, d.verbAt, d.form = next, i+1, state
			d.use(i, 3)
		case w == "no" && (next == "rogue" || next == "rogues" || next == "wild"):
			zero := 0
			r.count = &zero
			d.use(i, 1)
		case (w == "no" || w == "without") && (next == "bees" || next == "pin" || next == "mark"):
			if next != "bees" {
				d.use(i, 2)
			}
		case numberSigns[w] && i > 0 && (thingWords[d.word(i-1)] || breederWords[d.word(i-1)]) && d.toks[min(i+1, len(d.toks)-1)].isNum:
		case w == "yet" && !r.noEggs:
			r.negated = true // "none moved yet"
		case negations[w]:
			r.negated = true
			d.use(i, 1)
		}
	}
}

func (d *reader) yet() {
	for i, t := range d.toks {
		if t.text == "yet" {
			d.use(i, 1)
		}
	}
}

// hedge marks guesses and plans, in the words that have no other part.
func (d *reader) hedge() {
	d.r.hedged = d.r.hedged || d.r.guessed
	for i, t := range d.toks {
		if t.used || d.r.verb == doStep && (stepFillers[d.r.step][t.text] || d.r.step == rules.Nucs && t.text == "ready") {
			continue
		}
		switch {
		case hedges[t.text], comparing[t.text] && i+1 < len(d.toks) && (d.toks[i+1].isNum || d.word(i+1) == "than"):
			d.r.hedged = true
			d.use(i, 1)
		case notNow[t.text]:
			d.planned, d.r.hedged = true, true
		}
	}
}

// leftovers gathers the words nothing was made of.
func (d *reader) leftovers() {
	r := d.r
	for i, t := range d.toks {
		if t.used {
			continue
		}
		next := d.word(i + 1)
		if n := len(r.rest); n > 0 && i > 0 && t.glossed && d.toks[i-1].glossed && t.at == d.toks[i-1].at && r.rest[n-1] == t.orig {
			continue // two words of the reader, typed as one
		}
		switch {
		case !letterOrDigit(t.orig) && t.text != "%":
		case t.text == "a" || t.text == "an":
			// "Done a 4" is a slip of "at 4": an article goes with a word only.
			if next == "" || d.toks[i+1].isNum || r.verb == noVerb {
				r.rest = append(r.rest, t.orig)
			}
		case t.text == "of" && i > 0 && d.toks[i-1].isNum && (next == "them" || next == "the" || next == "those"):
		case t.text == "far" && d.word(i-1) != "so":
			r.rest = append(r.rest, t.orig)
		case (t.text == "i" || t.text == "we") && !d.doer(i):
			r.rest = append(r.rest, t.orig)
		case strictFillers[t.text] && t.text != "of":
		case (r.verb == doStep || r.verb == doDone) && fillers[t.text] && !(d.form == bare && copulas[t.text]):
		case r.verb == doStep && (stepFillers[r.step][t.text] || r.step == rules.Feed && stuffWords[t.text]):
		case r.verb == justCount && r.count != nil && (fillers[t.text] || chatter[t.text]) && !copulas[t.text]:
		default:
			r.rest = append(r.rest, t.orig)
		}
	}
}

// doer reports whether the pronoun at i says who did it: "we moved", but not what
// is left of "is" in "B1 i clear".
func (d *reader) doer(i int) bool {
	next := d.word(i + 1)
	return stepForms[next] == past || doneWords[next] || copulas[next] || next == "just" || next == "already" || next == "also" || next == "only" || i+1 == d.verbAt && d.form != state && d.form != thing
}

// copulas beside a bare word make a wish of it: "34 are to move".
var copulas = words(`have has had was were is are been got`)

func letterOrDigit(s string) bool {
	for _, r := range s {
		if r < 0x80 && (r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z') || r >= 0x80 && !pictured(r) {
			return true
		}
	}
	return false
}

// restrain leaves alone what is talk, unless the bot is spoken to.
func (d *reader) restrain() {
	r := d.r
	r.going = r.verb == doStep && d.form == going && r.count == nil
	r.ahead = d.planned && r.verb == doStep && (d.form == bare || d.form == going) && d.onlyAhead()
	if r.addressed || r.verb != doStep && r.verb != doDone {
		return
	}
	switch {
	case d.planned, d.foreign, d.alone():
	case d.ahead && (d.form != past || r.count == nil || len(r.rest) > 0):
		// "Accepted 38 tomorrow" contradicts itself and is asked back; "graft 45
		// tomorrow" is a plan.
	case r.verb == doDone:
		// "It is done" may be said of anything; "batch 4 is done" may not.
		loose := doneAside[d.said] || d.nextTo(copulas) || d.nextTo(weAre)
		if len(r.rest) == 0 && (!loose || d.company()) && !d.nextTo(subjectWords) {
			return
		}
	case len(r.rest) == 0 || d.strong:
		return
	case r.digits && !d.oddThing && (d.strangers() == 0 || d.strangers() == 1 && (r.count != nil || r.breeder != 0)):
		return
	}
	d.unread()
}

// onlyAhead reports whether nothing was left over but the words that say who does
// it, and that it lies ahead.
func (d *reader) onlyAhead() bool {
	n := 0
	for _, t := range d.toks {
		if !t.used && (notNow[t.text] || t.text == "to" || t.text == "i" || t.text == "we") {
			n++
		}
	}
	return len(d.r.rest) <= n
}

// strangers counts the words left over that mean nothing to the reader.
func (d *reader) strangers() (n int) {
	for _, t := range d.toks {
		if !t.used && !d.known(t.text) && letterOrDigit(t.orig) && !t.isNum {
			n++
		}
	}
	return n
}

// hosts are what is fed and searched: which of them may have to be asked.
var hosts = words(`breeder builder breeders builders`)

var towards = words(`to in into`)

var weAre = words(`we're i'm they're you're`)

// company reports whether something beside the verb says what it is about.
func (d *reader) company() bool {
	r := d.r
	return r.count != nil || r.all || r.mark != "" || r.bees != nil || r.noEggs || !r.subject().Zero()
}

// alone reports whether a word too common in talk names the step by itself.
func (d *reader) alone() bool {
	r := d.r
	if r.verb != doStep || d.company() || (r.step == rules.Feed || r.step == rules.Rogue) && d.nextTo(hosts) ||
		r.step == rules.Feed && d.form == past && (d.nextTo(fedThings) || d.toks[d.verbAt].glossed && d.nextTo(fedNucs)) {
		return false // "fed the builder": which is asked
	}
	switch d.form {
	case thing, state, bare:
		if d.said == "finisher" && d.nextTo(towards) {
			return false // "to the finisher"
		}
		return !standing[d.said] && !d.nextTo(needsWord[r.step]) && !d.twoWords
	}
	return !standing[d.said] && !d.twoWords
}

// fedThings are what is fed, where its name or number is not said.
var fedThings, fedNucs = words(`builder breeder`), words(`nucs`)

// unread turns the reading into that of a message that is none of the bot's
// business.
func (d *reader) unread() {
	d.reset()
	r := d.r
	for _, t := range d.toks {
		r.rest = append(r.rest, t.orig)
	}
}

// reset forgets what was read of a message that turned out to be of another form.
func (d *reader) reset() {
	r := d.r
	*r = reading{text: r.text, addressed: r.addressed, question: r.question, negated: r.negated, digits: r.digits, typos: r.typos, lang: r.lang, courtesy: r.courtesy, guessed: r.guessed}
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}
