package bot

import (
	"regexp"
	"strings"

	"yardbell/rules"
)

// Corrections and questions that are said in more words than they need: "oops, 32 not
// 34, fat thumbs", "wrong one, take it back", "when do the cells move".

// slipWords may stand around a correction; they say that something was wrong and not
// what.
var slipWords = turnsOf(`oh dear|dear me|sorry folks|sorry all|sorry guys|sorry everyone|sorry team|i counted again|counted again|i checked again|checked again|recount|oops|ops|whoops|woops|oopsie|oops sorry|sorry|sry|wait|no wait|ah|ugh|argh|damn|dang|shoot|darn|my bad|my mistake|my fault|typo|autocorrect|auto correct
	|fat thumbs|fat fingers|fat finger|brain fart|mistake|wrong number|wrong count|miscounted|i miscounted|miscount|recounted|i recounted|hang on|hold on|correction|actually|i mean|meant|i meant|gloves|damn autocorrect|stupid autocorrect|sorry about that|please|pls|typo sorry|sorry typo|oh|oh no|eek|hmm|scrap that|wrong|that was wrong|that's wrong`)

// aside takes slipWords from both ends of the message and says where what is left
// begins and ends, and whether there was one of them.
func (d *reader) aside() (i, n int, found bool) {
	n = len(d.toks)
	for changed := true; changed; {
		changed = false
		for k := min(3, n-i-1); k > 0; k-- {
			if slipWords[d.spell(i, i+k)] {
				i, found, changed = i+k, true, true
				break
			}
		}
		for k := min(3, n-i-1); k > 0; k-- {
			if slipWords[d.spell(n-k, n)] {
				n, found, changed = n-k, true, true
				break
			}
		}
	}
	return i, n, found
}

// some is a reader of the tokens from i up to n.
func (d *reader) some(i, n int) *reader {
	return &reader{toks: append([]token(nil), d.toks[i:n]...), text: d.text, n: d.n, r: d.r, verbAt: -1}
}

// softFixes are corrections of a count in words that are said of other things too:
// right after the line only.
var softFixes = splitForms("make it NEW", "should be NEW", "should have been NEW", "it was NEW", "it should be NEW", "i mean NEW", "sorry NEW", "that was NEW", "was NEW", "actually NEW", "make that NEW", "should've been NEW", "change that to NEW", "change it to NEW", "correct that to NEW", "correct it to NEW")

// noNew is a correction where a comma parts its words: "no, 33".
var noNew = splitSpace("no NEW")

func splitForms(forms ...string) (out [][]string) {
	for _, f := range forms {
		out = append(out, splitSpace(f))
	}
	return out
}

// soft settles a correction in words that talk has as well. Where the bot is not
// spoken to it is left to the moment whether it is one.
func (d *reader) soft(v verb) bool {
	r := d.r
	if r.verb, r.soft = v, v; !r.addressed {
		r.verb = noVerb
		for _, t := range d.toks {
			r.rest = append(r.rest, t.orig)
		}
	}
	return true
}

// courtesyTail ends a setting and is none of its value.
var courtesyTail = regexp.MustCompile(`(?i)[ ,]+(?:please|pls|thanks|thx|thank you|ty)[ .!]*$`)

// glossedAny reports whether a word was put in from another language.
func (d *reader) glossedAny() bool {
	for _, t := range d.toks {
		if t.glossed {
			return true
		}
	}
	return false
}

// softFix reads a correction with words around it, or one that talk may be.
func (d *reader) softFix() bool {
	if d.glossedAny() {
		return false
	}
	i, n, found := d.aside()
	if d.stepFix(i, n) {
		return true
	}
	p := d.some(i, n)
	if found && p.firmFix() {
		d.looks += p.looks
		return true
	}
	for n > i+1 && countedThings[d.word(n-1)] {
		n--
	}
	p = d.some(i, n)
	if found && n == i+1 && d.toks[i].isNum && (corrects[d.word(0)] || d.phrase(0, "no wait")) {
		v := d.toks[i].num
		d.r.count = &v // "oops 32"
		return d.soft(doFix)
	}
	if n == 2 && d.toks[0].comma && p.fits(noNew) {
		return d.soft(doFix)
	}
	for _, f := range softFixes {
		if len(f) == len(p.toks) && p.fits(f) {
			return d.soft(doFix)
		}
	}
	return false
}

// stepFix reads a correction that says whose count it is: "graft was 44 not 45", "batch
// 2 was 41 grafted, not 40".
func (d *reader) stepFix(i, n int) bool {
	var step rules.Step
	batch := 0
	var left []token
	was, first := false, false // first: the number stands before the step, "44 grafted, not 45"
	for k := i; k < n; k++ {
		w := d.word(k)
		was = was || w == "was" || w == "should" || w == "were"
		switch s := stepWords[w]; {
		case s != "" && step == "" && (len(left) == 0 || left[len(left)-1].isNum):
			step, first = s, len(left) == 1
		case w == "batch" && k+1 < n && d.toks[k+1].isNum && batch == 0 && len(left) == 0:
			batch = d.toks[k+1].num
			k++
		case (w == "the" || w == "count" || w == "my" || w == "that") && len(left) == 0, countedThings[w] && step == "":
		default:
			left = append(left, d.toks[k])
		}
	}
	if step == "" || !was && !(first && len(left) == 3) || !needsCount[step] {
		return false
	}
	p := &reader{toks: left, text: d.text, n: d.n, r: &reading{}, verbAt: -1}
	if len(left) < 3 || !p.firmFix() || p.r.old == nil {
		return false
	}
	d.r.verb, d.r.count, d.r.old, d.r.step, d.r.batch = doFix, p.r.count, p.r.old, step, batch
	return true
}

var corrects = words(`oops ops whoops woops oopsie typo correction sorry sry`)

// The words of which a taking back is made: one that says it, and what may stand
// beside it.
var (
	undoSays  = words(`undo scratch scrap revert`)
	undoTurns = turnsOf(`take that back|take it back|take that one back|take back that one|delete that|delete that one|delete it|remove that|remove that one|remove it|cancel that|cancel that one|strike that|forget that one|ignore that|ignore that one`)
	undoAside = words(`undo that this it one last the please pls sorry oops ops whoops woops my bad mistake wrong fault batch yard entry line log message wait
		no can you could was were by thumb thumbs fat fingers accident back take button pressed hit tapped too early soon actually ugh damn just i mistake error wrongly oh ok hey hi thanks thx
		with these those gloves gloved hands on in pocket pressing clicked clicking tapping touched screen phone big stupid dumb`)
	undoTells = turnsOf(`not done|not done yet|it's not done|wasn't done|not yet|not moved|didn't happen|wrong button|wrong batch|wrong yard|wrong one|wrong number|wrong ping|wrong message|too early|wasn't me|not us|by mistake`)
)

// softUndo reads a taking back in more words.
func (d *reader) softUndo() bool {
	n := len(d.toks)
	if n < 2 || n > 10 || d.glossedAny() {
		return false
	}
	for k := min(4, n-1); k > 1; k-- { // "undo, not done"
		if undoTells[d.spell(n-k, n)] && d.toks[n-k-1].comma {
			n -= k
			break
		}
	}
	says := false
	for i := 0; i < n; i++ {
		d.looks++
		w := d.word(i)
		if k := d.lineNamed(i); says && k > 0 && (i+k == n || i+k == n-1 && (d.word(n-1) == "please" || d.word(n-1) == "pls")) {
			d.r.verb = doUndo
			return true
		}
		for k := 2; k <= 4 && !says && i+k <= n; k++ {
			if undoTurns[d.spell(i, i+k)] {
				says = true
				i += k - 1
				w = "it"
				break
			}
		}
		if undoSays[w] {
			says = true
			continue
		}
		if !undoAside[w] {
			return false
		}
	}
	if !says {
		return false
	}
	return d.soft(doUndo)
}

// lineNamed reads "my graft", "Wren's last move" from token i and says how many tokens
// it took.
func (d *reader) lineNamed(i int) int {
	k, whose := i+1, ""
	switch w := d.word(i); {
	case w == "my" || w == "our":
	case strings.HasSuffix(w, "'s"):
		for _, name := range d.n.crew {
			if first, _, _ := strings.Cut(fold(name), " "); first+"'s" == w {
				whose = name
			}
		}
		if whose == "" {
			return 0
		}
	default:
		return 0
	}
	if d.word(k) == "last" {
		k++
	}
	step := stepWords[d.word(k)]
	switch {
	case d.word(k) == "one" || d.word(k) == "line" || d.word(k) == "entry" || d.word(k) == "message":
	case step == "":
		return 0
	}
	d.r.step, d.r.whose = step, whose
	return k + 1 - i
}

// The words of a question for when something is due.
var (
	whenLeads = words(`when when's whens`)
	whenSmall = words(`do does close closes end ends for is are can should will must we i the my these those this our cells cell next have has need needs to get be due ready go goes come out in into time it
		them of for from again best batch breeder queen until till before left long happen happening window start open supposed a an scheduled planned on they they're count check`)
	whenSays = words(`emergence moved grafting graft move emerge hatch hatching capping catching laying emerging moving recell acceptance`)
)

// whenDue reads "when do the cells move", "when's the graft".
func (d *reader) whenDue() bool {
	r := d.r
	if !whenLeads[d.word(0)] || len(d.toks) < 2 || len(d.toks) > 12 || d.glossedAny() {
		return false
	}
	says, batch := false, 0
	for i := 1; i < len(d.toks); i++ {
		w := d.word(i)
		switch {
		case w == "batch" && i+1 < len(d.toks) && d.toks[i+1].isNum:
			batch = d.toks[i+1].num
			i++
		case (w == "from" || breederWords[w]) && i+1 < len(d.toks) && d.toks[i+1].isNum:
			i++
		case whenSays[w] || stepWords[w] != "" && stepForms[w] == bare:
			says = true
			if i+2 == len(d.toks) && d.toks[i+1].isNum && subjectWords[d.word(i-1)] {
				i++ // "when do we graft 7"
			}
		case !whenSmall[w]:
			return false
		}
	}
	switch {
	case batch != 0:
		r.verb, r.batch = askShow, batch
	case says:
		r.verb, r.days = askDue, 14
	default:
		return false
	}
	r.question = false
	return true
}
