package bot

import (
	"regexp"
	"strconv"
	"strings"

	"yardbell/rules"
)

// What is said once for several events of a message, and what for one alone.

// several reports whether the parts are events of their own, and gives each the
// time and the batch that were said once for all.
func (c *cutter) several(parts []part) bool {
	if len(parts) < 2 {
		return false
	}
	if w := c.out.whole; w.clear() {
		// Read in full as one: it is one, unless a "done" was swallowed by the next.
		done := parts[0].r.verb == doDone && (!parts[1].comma || w.addressed) && (w.addressed || !needsCount[parts[1].r.step]) // "listo, y pasé 35"
		feeds := w.step == rules.Feed && parts[1].carried
		if !done && !feeds && w.verb != doMine {
			return false
		}
	}
	for i := 1; i < len(parts); i++ {
		a, b := parts[i-1].r, parts[i].r
		if !b.clear() && !parts[i].carried && sameDeed(a, b) {
			return false // "let 7 go and pulled her comb ar 4" is one, and when is open
		}
	}
	shareBatch(parts)
	shareAmount(parts)
	return shareTime(parts)
}

// shareAmount: what was fed to each, said at the end, holds for all: "fed B1 and B2 1 l
// each".
func shareAmount(parts []part) {
	last := parts[len(parts)-1]
	if !last.carried || last.r.step != rules.Feed || !last.r.each || last.r.yard != "" {
		return
	}
	last.r.each = false // of the builders, and not of the nucs of a yard
	for i := len(parts) - 2; i >= 0 && parts[i].r.step == rules.Feed && parts[i].r.litres == 0 && parts[i].r.yard == ""; i-- {
		parts[i].r.litres = last.r.litres
		if !parts[i].carried {
			break
		}
	}
}

// bothBuilders are the crew's two builders, where it has two.
var bothBuilders = regexp.MustCompile(`(?i)(?:\ba )?\b(?:both (?:of the )?builders|(las (?:dos|2) criadoras|ambas criadoras))\b`)

// combsOut and panales are several combs that came out, said at once: "pulled the combs
// from 7 and 12".
var (
	combsOut = regexp.MustCompile(`(?i)\b(?:pulled|took|got|lifted) (?:the |both )*combs (?:from|of|out of) `)
	panales  = regexp.MustCompile(`(?i)\b(saqué|saque|sacamos) (?:los )?(?:dos )?panales de (?:las? )?`)
)

var (
	perBoth = regexp.MustCompile(`(?i)\b(?:\d|a|one|two|half|un|una|dos|medio|media)\b.*\b(?:l|lt|lts|liters?|litres?|litros?|quarts?|gal|gallons?|ml)\b`)
	// lesDi gives to both: "les puse un litro cada una a las dos criadoras".
	lesDi   = regexp.MustCompile(`(?i)^(.*?)\bles? (?:di|dimos|puse|pusimos|ech[eé]|echamos) (.*?litros?)( cada una)? a (?:las (?:dos|2) criadoras|ambas criadoras)( cada una)?(.*)$`)
	perEach = regexp.MustCompile(`(?i)\b(?:each|apiece|cada|c/u)\b`)
)

// fedAll is feed to all of the builders, with their number or without; three or more.
var fedAll = regexp.MustCompile(`(?i)\b(fed|feed|aliment[eéó]|alimentamos|alimentaron)( (?:a )?(?:(?:all|every one|each) of )?(?:the |our |all |las |todas (?:las )?)*)(?:(\S+) (?:of (?:the|our) )?)?(builders|criadoras)\b`)

// namedAll names the builders in a text that says that all of them were fed: where their
// number is said, it is the number that there are.
func namedAll(text string, builders []string) (string, bool) {
	m := fedAll.FindStringSubmatchIndex(text)
	if m == nil || len(builders) < 3 {
		return text, false
	}
	all := strings.Contains(fold(text[m[4]:m[5]]), "all") || strings.Contains(fold(text[m[4]:m[5]]), "todas") || strings.Contains(fold(text[m[4]:m[5]]), "each")
	if m[6] >= 0 {
		said := fold(text[m[6]:m[7]])
		n, ok := numeral(said)
		if v, isWord := numberWords[said]; isWord {
			n, ok = v, true
		}
		if v, isWord := esNumbers[said]; isWord {
			n, ok = v, true
		}
		if !ok || n != len(builders) {
			return text, false
		}
		all = true
	}
	if !all || perBoth.MatchString(text[m[1]:]) && !perEach.MatchString(text) {
		return text, false // "all builders 3 l": each, or together
	}
	for _, b := range builders {
		if strings.Contains(fold(text), fold(b)) {
			return text, false // they are named beside
		}
	}
	and := " and "
	if strings.EqualFold(text[m[8]:m[9]], "criadoras") {
		and = " y "
	}
	last := len(builders) - 1
	list := strings.Join(builders[:last], ", ") + and + builders[last]
	return text[:m[3]] + " " + list + text[m[1]:], true
}

// namedBoth names the builders in a text that says both of them.
func namedBoth(text string, builders []string) string {
	low := strings.ToLower(text)
	if strings.Contains(low, "combs") {
		text = combsOut.ReplaceAllString(text, "combs out of ")
	}
	if strings.Contains(low, "panales") {
		text = panales.ReplaceAllString(text, "$1 el panal de la ")
	}
	if !strings.Contains(low, "builders") && !strings.Contains(low, "criadoras") {
		return text
	}
	if named, ok := namedAll(text, builders); ok {
		return named
	}
	if len(builders) != 2 || strings.Contains(fold(text), fold(builders[0])) || strings.Contains(fold(text), fold(builders[1])) {
		return text // "both builders, B1 and B2" names them
	}
	if m := lesDi.FindStringSubmatch(text); m != nil {
		if m[3]+m[4] == "" {
			return m[1] + "alimenté las criadoras" + m[5] // each, or together: it is asked
		}
		return m[1] + "alimenté " + builders[0] + " y " + builders[1] + ", " + m[2] + " cada una" + m[5]
	}
	open := perBoth.MatchString(text) && !perEach.MatchString(text) // "both builders 2 l": each, or together
	return bothBuilders.ReplaceAllStringFunc(text, func(s string) string {
		spanish := strings.HasSuffix(strings.ToLower(s), "criadoras")
		and := " and "
		switch {
		case open && spanish:
			return "las criadoras" // "las dos" would be breeder 2
		case open:
			return s
		case spanish:
			and = " y "
		}
		return builders[0] + and + builders[1]
	})
}

// shareBatch: a batch named at the head holds for what follows, and one named at
// the end for the parts of one deed.
func shareBatch(parts []part) {
	head := parts[0].r
	if last := parts[len(parts)-1]; head.batch == 0 && last.carried && last.r.batch != 0 {
		for i := len(parts) - 2; i >= 0 && parts[i+1].carried && parts[i].r.batch == 0; i-- {
			parts[i].r.batch = last.r.batch // "20 to North and 14 to Creek, batch 1"
		}
		return
	}
	if head.batch == 0 {
		return
	}
	for _, p := range parts[1:] {
		r := p.r
		if r.verb == doStep && r.batch == 0 && r.step != rules.Graft && stepTakes[r.step][rules.BatchKind] && r.step != rules.Feed {
			r.batch = head.batch
		} else if r.batch != 0 {
			return
		}
	}
}

// shareTime: a time said once at the head or the end holds for all, and so does a
// day beside times of their own. It reports false where it stays open which.
func shareTime(parts []part) bool {
	var set, days []int
	for i, p := range parts {
		if p.r.when.set {
			set = append(set, i)
		}
		if p.r.when.hasDay || p.r.when.isAgo {
			days = append(days, i)
		}
	}
	last := len(parts) - 1
	switch {
	case len(set) == 0:
	case len(set) == 1:
		if set[0] != 0 && set[0] != last {
			return false
		}
		if !parts[set[0]].r.clear() {
			return false // what it says of the time is in doubt as well
		}
		if parts[last].own && set[0] == last {
			return true // "38 accepted. Cells to finisher at 10": a sentence of its own
		}
		for i := range parts {
			parts[i].r.when = parts[set[0]].r.when
		}
	case len(set) < len(parts):
		return false
	case len(days) == 1 && (days[0] == 0 || days[0] == last) && !parts[days[0]].r.when.isAgo:
		for i := range parts {
			w := parts[days[0]].r.when
			if i != days[0] {
				own := parts[i].r.when
				w.hasTime, w.clock, w.half = true, own.clock, own.half
				parts[i].r.when = w
			}
		}
	}
	return true
}

// sameBreeder gives a part that names no breeder the one of the part before it: "fed 7
// and pulled the comb". A comb out that says the same once more is one line: "comb out
// 7 and let her go".
func sameBreeder(parts []part) []part {
	out := parts[:0:0]
	for _, p := range parts {
		n := len(out)
		if n == 0 || p.r.verb != doStep || p.r.step != rules.Eggs && p.r.step != rules.CombOut || !p.r.subject().Zero() || p.r.mark != "" || !p.r.clear() {
			out = append(out, p)
			continue
		}
		was := out[n-1].r
		if was.verb != doStep || was.breeder == 0 || !withBreeder[was.step] || !was.clear() {
			out = append(out, p)
			continue
		}
		if was.step == rules.CombOut && p.r.step == rules.CombOut && !p.r.when.set && !(was.release && p.r.release) {
			was.release = true
			continue
		}
		if was.step == p.r.step && was.noEggs == p.r.noEggs && was.release == p.r.release {
			continue // said twice: "has not laid yet, no egg on her comb"
		}
		p.r.breeder = was.breeder
		out = append(out, p)
	}
	return out
}

// withBreeder are the steps that are done where the breeder is.
var withBreeder = map[rules.Step]bool{rules.Confine: true, rules.Eggs: true, rules.CombOut: true, rules.Feed: true}

// her spells whom "fed her" means: "confined 7 and fed her" feeds breeder 7.
func (c *cutter) her(before []part, p part) string {
	if len(before) == 0 || before[len(before)-1].r.breeder == 0 || before[len(before)-1].r.step == rules.Graft || !c.says(p, herWords) {
		return p.text
	}
	fed := false
	for i := p.from; i < p.to; i++ {
		w := c.d.word(i)
		fed = fed || w == "fed"
		if w != "fed" && !herSmall[w] {
			return p.text
		}
	}
	if !fed {
		return p.text
	}
	return "fed breeder " + strconv.Itoa(before[len(before)-1].r.breeder)
}

var (
	herWords = words(`her`)
	herSmall = words(`her i we too also then just well as now some syrup`)
)

// sentenceEnd is a full stop, and not that of "a.m.".
var sentenceEnd = regexp.MustCompile(`(?:[^.mM]|[^.][mM])[.!]+["')]*\s*$`)

// stopped reports whether a full stop stands before token i.
func (c *cutter) stopped(i int) bool {
	return i > 0 && sentenceEnd.MatchString(c.d.text[:c.d.toks[i].at])
}
