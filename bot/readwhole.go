package bot

import (
	"strings"

	"yardbell/rules"
)

// whole reads messages that are not about one step: questions to the bot, claims,
// corrections, settings. It reports whether the message was one of them. What
// changes something is not read from a question.
func (d *reader) whole() bool {
	for _, form := range []func() bool{d.due, d.filed, d.weeksAhead, d.show, d.why, d.softWhy, d.whenDue, d.help, d.other} {
		if form() {
			return true
		}
	}
	if d.r.question {
		return d.r.addressed && d.softUndo() // "can you undo that?"
	}
	for _, form := range []func() bool{d.undo, d.fix, d.cancelled, d.ownLanguage, d.set, d.add, d.mine, d.later, d.skip, d.yesNo, d.softUndo, d.softFix} {
		if form() {
			return true
		}
	}
	return false
}

// wholePhrases are messages read as they stand. The second list is too common in
// talk: read only where the bot is spoken to.
var wholePhrases = map[verb][2][]string{
	doUndo: {{"undo", "undo that", "undo it", "undo last", "undo the last", "undo the last one", "undo this", "undo please", "please undo", "scratch that"},
		{"take that back", "take it back", "wrong one", "delete that", "remove that", "that was wrong", "delete it"}},
	doMine: {{"mine", "mine please", "that's mine", "thats mine", "that one is mine", "this one is mine", "i'll take it", "ill take it", "i will take it", "i take it", "got it mine"},
		{"i'll do it", "ill do it", "i got it", "i've got it", "ive got it", "on it", "i'm on it", "im on it", "my job", "i will do it", "i have it", "me", "i do it"}},
	sayYes:     {{"yes", "y", "yep", "yeah", "yes please", "ok", "okay", "sure"}, nil},
	sayNo:      {{"no", "n", "nope", "no thanks"}, nil},
	askPicture: {{"week", "the week", "show week", "show the week", "week picture", "season", "the season", "show season", "show the season"}, {"picture"}},
	askLog:     {{"log", "show log", "show the log", "recent"}, {"last"}},
	askHelp:    {{"help", "commands", "show commands", "help please"}, {"start", "?"}},
	askWhy:     {{"why", "why that"}, {"why is that", "why so", "how come"}},
	doSet:      {{"settings", "show settings", "show the settings", "set"}, nil},
}

// phraseVerbs is wholePhrases by phrase.
var phraseVerbs = func() map[string]map[verb]int {
	m := map[string]map[verb]int{}
	for v, lists := range wholePhrases {
		for k, list := range lists {
			for _, p := range list {
				if m[p] == nil {
					m[p] = map[verb]int{}
				}
				m[p][v] = k
			}
		}
	}
	return m
}()

// is reads a message that is one of the phrases of a verb.
func (d *reader) is(v verb) bool {
	list, found := phraseVerbs[d.all()][v]
	if !found || list == 1 && !d.r.addressed {
		return false
	}
	d.r.verb, d.r.question = v, false
	return true
}

// all is the whole message as it was understood word by word.
func (d *reader) all() string {
	if d.joined == "" {
		words := make([]string, len(d.toks))
		for i, t := range d.toks {
			words[i] = t.text
		}
		d.joined = strings.Join(words, " ")
	}
	return d.joined
}

// from is the message from token i on, as typed.
func (d *reader) from(i int) string {
	if i >= len(d.toks) {
		return ""
	}
	return strings.TrimSpace(d.text[d.toks[i].at:])
}

// lead is how many tokens the first of the phrases that stands at i takes.
func (d *reader) lead(i int, phrases []string) int {
	for _, p := range phrases {
		if d.phrase(i, p) {
			return len(splitSpace(p))
		}
	}
	return 0
}

// dueLeads and dueTails may stand around a question for what is open.
var (
	dueLeads = []string{"what's", "whats", "what is", "what are", "show me what's", "show me", "show", "list", "is anything", "anything", "what"}
	dueSmall = words(`on for the in what's still all everything is`)
)

func (d *reader) due() bool {
	r := d.r
	i := d.lead(0, dueLeads)
	asked := i > 0
	for dueSmall[d.word(i)] {
		i++
	}
	switch w := d.word(i); {
	case w == "due" || w == "todo":
	case w == "open" && asked:
	default:
		return false
	}
	i++
	for dueSmall[d.word(i)] && d.word(i) != "all" {
		i++
	}
	n := len(d.toks)
	for n > i && (d.word(n-1) == "please" || d.word(n-1) == "pls") {
		n--
	}
	words := make([]string, 0, 4)
	for k := i; k < n; k++ {
		words = append(words, d.word(k))
	}
	day, days := when{}, 0
	switch rest := strings.Join(words, " "); rest {
	case "", "today", "now":
	case "tomorrow":
		day, days = when{set: true, hasDay: true, back: -1}, 1
	case "this week", "week", "next days":
		days = 7
	case "next week":
		day, days = when{set: true, hasDay: true, back: -7}, 7
	default:
		if next := d.word(i); next == "next" || next == "coming" || next == "this" {
			i++
		}
		if k, ok := d.number(i); ok && (d.word(i+1) == "days" || d.word(i+1) == "day") && n == i+2 && k > 0 && k < 400 {
			days = k
			break
		}
		w, used := d.day(i)
		if wd, ok := weekdays[d.word(i)]; ok && used == 0 {
			w, used = when{hasDay: true, weekday: wd + 1}, 1
		}
		if used == 0 || i+used != n {
			return false
		}
		day, days = w, 1
		day.set = true
		if w.weekday > 0 {
			day.back = -1 // the coming one
		}
	}
	r.verb, r.dueDay, r.days, r.question = askDue, day, days, false
	return true
}

var showLeads = []string{"show me", "show", "how is", "how's", "hows", "how are things with", "status of", "status", "where is", "tell me about"}

var showTails = words(`doing going please pls now`)

func (d *reader) show() bool {
	r := d.r
	i := d.lead(0, showLeads)
	n := len(d.toks)
	for n > i+2 && showTails[d.word(n-1)] {
		n--
	}
	kind, k := d.word(i), i+1
	for numberSigns[d.word(k)] {
		k++
	}
	switch v, ok := d.number(k); {
	case kind == "batch" && ok && n == k+1:
		r.batch = v
	case breederWords[kind] && ok && n == k+1:
		r.breeder = v
	case kind == "builder" && n == i+2:
		if name, found := d.ownName(i+1, n, d.n.builders); found {
			r.builder = name
		} else if m := builderForm.FindStringSubmatch(d.word(i + 1)); m != nil {
			r.builder = "B" + m[1]
		} else if ok {
			r.builder = "B" + d.word(i+1)
		} else if name := d.toks[i+1].orig; isName(name) && (r.addressed || !d.lower(name)) {
			r.builder = name
		}
	case kind == "builder" && n > i+2:
		r.builder, _ = d.ownName(i+1, n, d.n.builders)
	case kind == "yard" && n > i+1:
		if name, found := d.ownName(i+1, n, d.n.yards); found {
			r.yard = name
		} else if name := d.toks[i+1].orig; n == i+2 && isName(name) && (r.addressed || !d.lower(name)) {
			r.yard = name // unknown, so it is asked back; "yard work" is not
		}
	case i > 0 && n == i+1:
		if m := builderForm.FindStringSubmatch(kind); m != nil {
			r.builder = "B" + m[1]
		} else if name, found := d.ownName(i, n, d.n.yards); found {
			r.yard = name
		}
	}
	if r.subject().Zero() {
		return d.is(askLog)
	}
	r.verb, r.question = askShow, false
	return true
}

// ownName finds the crew's own name that the tokens from i to n spell.
func (d *reader) ownName(i, n int, list []string) (string, bool) {
	var parts []string
	for k := i; k < n; k++ {
		parts = append(parts, d.word(k))
	}
	said := strings.Join(parts, " ")
	for _, name := range list {
		if fold(name) == said {
			return name, true
		}
	}
	return "", false
}

// helpTopics are asked for by name beside the steps.
var helpTopics = words(`me please due undo set setting settings plan add done skip later mine why week batch breeder builder yard fix not comb log flights order orders yields capacity virgin retire`)

func (d *reader) help() bool {
	if d.is(askHelp) {
		return true
	}
	if d.word(0) != "help" {
		return false
	}
	i := 1
	if d.word(1) == "with" || d.word(1) == "on" {
		i = 2
	}
	if i != len(d.toks)-1 || !d.r.addressed && !helpTopics[d.word(i)] && stepWords[d.word(i)] == "" {
		return false
	}
	d.r.verb, d.r.topic = askHelp, d.word(i)
	return true
}

func (d *reader) other() bool {
	if d.is(askPicture) {
		if strings.HasSuffix(d.all(), "season") {
			d.r.topic = "season"
		}
		return true
	}
	return false
}

func (d *reader) yesNo() bool { return d.is(sayYes) || d.is(sayNo) }

func (d *reader) add() bool {
	r := d.r
	fresh := d.word(0) == "new"
	if d.word(0) != "add" && !fresh || len(d.toks) < 3 {
		return false
	}
	i := 1
	if w := d.word(1); w == "a" || w == "the" || w == "new" || w == "another" {
		i = 2
	}
	kind := d.word(i)
	for i++; numberSigns[d.word(i)] || d.word(i) == "called" || d.word(i) == "named"; i++ {
	}
	if i >= len(d.toks) {
		return false
	}
	name := d.toks[i]
	i++
	switch kind {
	case "breeder", "queen", "madre":
		if !name.isNum {
			return false
		}
		r.breeder = name.num
	case "builder", "criadora":
		if m := builderForm.FindStringSubmatch(name.text); m != nil {
			r.builder = "B" + m[1]
		} else if name.isNum {
			r.builder = "B" + name.text
		} else if isName(name.orig) {
			r.builder = name.orig
		} else {
			return false
		}
	case "yard":
		var parts []string
		for i--; i < len(d.toks) && !d.toks[i].isNum && isName(d.toks[i].orig) && !addSmall[d.word(i)] && len(parts) < 3; i++ {
			parts = append(parts, d.toks[i].orig)
			if d.toks[i].comma {
				i++
				break
			}
		}
		if len(parts) == 0 {
			return false
		}
		r.yard = strings.Join(parts, " ")
	default:
		return false
	}
	r.verb, r.step = doAdd, rules.Add
	d.addRest(kind, i)
	// "New queen 7 is laying" adds nothing; nor does a plan or a talk of yards.
	if len(r.rest) > 0 && (fresh || !r.addressed && !r.digits) {
		d.reset()
		return false
	}
	return true
}

var addSmall = words(`with and at in to nucs nuc`)

// addRest reads what stands after the name of what is added.
func (d *reader) addRest(kind string, i int) {
	r := d.r
	for ; i < len(d.toks); i++ {
		w := d.word(i)
		switch {
		case d.toks[i].isNum && kind == "yard" && r.count == nil:
			n := d.toks[i].num
			r.count = &n
		case w == "nucs" || w == "nuc" || w == "with" || w == "and" || w == "please" || w == "pls" || !letterOrDigit(d.toks[i].orig):
		case (w == "at" || w == "in") && kind != "yard" && i+1 < len(d.toks):
			n := len(d.toks)
			r.yard = strings.Join(strings.Fields(d.from(i+1)), " ")
			if own, found := d.ownName(i+1, n, d.n.yards); found {
				r.yard = own
			}
			return
		default:
			r.rest = append(r.rest, d.toks[i].orig)
		}
	}
}
