package bot

import (
	"regexp"
	"strconv"

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
	return shareTime(parts)
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
