package bot

import "yardbell/rules"

// Corrections of what a line is about: "it was batch 5", "into B1 not B2", "at 7:30
// not 8:30". Those of its count are read in readclaim.go.

// mending is a correction: what it should be, and what it was where that was said.
type mending struct {
	now, was *reading
	old      *int // a bare number that it was: "from 12 not 7"
}

// mendOpeners may stand before what it should be. Those in mendSure say by
// themselves that something is put right.
var (
	mendOpeners = words(`it it's its that that's thats this was is i i'm meant mean should be have been make sorry my bad correction oops whoops ops actually wait hang
		eso era fue es perdon perdona quise decir queria digo mejor dicho lo la el ojo me equivoque disculpa disculpen ups uy ay mala mia error`)
	mendSure  = words(`was meant should make sorry correction oops whoops ops actually era fue perdon perdona quise queria digo dicho equivoque`)
	mendSmall = words(`the a an in at to into from on for of comb pin mark yard builder breeder batch one el la los las en de del a al para desde`)
	mendNot   = words(`not no`)
	// mendWas after a "no" opens what it was not: "no era la 7, era la 12".
	mendWas      = words(`era fue es la el eran`)
	mendArticles = words(`la`)
)

// mend reads a correction, nil where the message is none.
func (c *cutter) mend() *mending {
	d := c.d
	n := len(d.toks)
	for n > 0 && (d.word(n-1) == "please" || d.word(n-1) == "sorry" || d.word(n-1) == "pls") {
		n--
	}
	if n < 2 || n > 14 {
		return nil
	}
	if count := c.newCount(n); count != nil {
		return &mending{now: &reading{count: count}}
	}
	i, sure := c.openers(0, n)
	var m mending
	var ok bool
	switch k := c.nay(i, n); {
	case k == i: // "not B2, B1", "not B2 but B1"
		j := k + 1
		for j < n && !d.toks[j-1].comma && d.word(j) != "but" && d.word(j) != "sino" && !(mendOpeners[d.word(j)] && mendSure[d.word(j+1)]) {
			j++
		}
		if j == k+1 || j >= n {
			return nil
		}
		from := k + 1
		if mendWas[d.word(from)] && !mendArticles[d.word(from)] && from < j-1 {
			from++
		}
		if m.was, m.old, ok = c.side(from, j); !ok {
			return nil
		}
		if d.word(j) == "but" || d.word(j) == "sino" {
			j++
		}
		if j, _ = c.openers(j, n); j >= n {
			return nil
		}
		m.now, ok = c.new(j, n)
		ok = ok && matched(m)
	case k > 0: // "B1 not B2"
		j := k + 1
		if w := d.word(k); (w == "instead" || w == "rather" || w == "en") && j < n {
			j++
		}
		if m.now, ok = c.new(i, k); !ok || j >= n {
			return nil
		}
		m.was, m.old, ok = c.side(j, n)
		if m.old != nil && nothing(m.was) && m.now.when.hasTime && *m.old > 0 && *m.old < 24 {
			m.was.when = when{set: true, hasTime: true, clock: rules.Clock(*m.old * 60), half: *m.old > 12} // "at 9:30 not 10"
			m.old = nil
		}
		ok = ok && matched(m)
	case sure && i < n:
		m.now, ok = c.new(i, n)
	}
	if !ok || m.now == nil || nothing(m.now) {
		return nil
	}
	return &m
}

// openers passes over what stands before the correction.
func (c *cutter) openers(i, n int) (int, bool) {
	d, sure := c.d, false
	for i < n {
		w := d.word(i)
		if w == "no" && i == 0 && (d.toks[i].comma || mendOpeners[d.word(1)] && !mendWas[d.word(1)]) {
			sure, i = true, 1
			continue
		}
		if w == "wrong" && d.toks[min(i+1, n-1)].comma && (thingWords[d.word(i+1)] || d.word(i+1) == "one" || d.word(i+1) == "time") {
			sure, i = true, i+2
			continue
		}
		if next := d.word(i + 1); i == 0 && (w == "pin" || w == "mark") && next == "was" {
			sure, i = true, 2
			continue
		}
		if !mendOpeners[w] || mendArticles[w] && i+1 < n && d.toks[i+1].isNum {
			break
		}
		sure = sure || mendSure[w]
		i++
	}
	return i, sure
}

// nay is where the message says what it was not, 0 for nowhere.
func (c *cutter) nay(i, n int) int {
	d := c.d
	for k := i; k < n; k++ {
		switch w, next := d.word(k), d.word(k+1); {
		case mendNot[w] && (k > 0 || w == "not" || next != ""), w == "instead" && next == "of", w == "rather" && next == "than", w == "en" && next == "vez":
			return max(k, i)
		}
	}
	if i == 0 {
		return -1
	}
	return 0
}

// side reads what one side of a correction names, and nothing else.
func (c *cutter) side(a, b int) (r *reading, bare *int, ok bool) {
	d := newReader(c.text(a, b), c.n)
	d.gloss()
	d.slips()
	d.times()
	d.things()
	d.places()
	d.settleLeads()
	c.out.looks += d.looks
	for i, t := range d.toks {
		switch {
		case t.isNum && !t.used && i > 0 && d.toks[i-1].glossed && fold(d.toks[i-1].orig) == "la" && d.r.subject().Zero():
			d.r.breeder = t.num // "la 12"
		case t.used || mendSmall[t.text]:
		case t.isNum && bare == nil:
			n := t.num
			bare = &n
		default:
			return nil, nil, false
		}
	}
	return d.r, bare, !d.r.hedged && !d.planned && !d.ahead
}

// new reads what it should be. A number that names nothing there is a count, which
// is put right in other words.
func (c *cutter) new(a, b int) (*reading, bool) {
	r, bare, ok := c.side(a, b)
	return r, ok && bare == nil
}

// nothing reports whether a side names nothing that a line has.
func nothing(r *reading) bool { return r.subject().Zero() && r.mark == "" && !r.when.set }

// matched reports whether both sides of a correction are about the same kind.
func matched(m mending) bool {
	a, b := m.now, m.was
	if a == nil || b == nil || nothing(a) {
		return false
	}
	if m.old != nil {
		return nothing(b) && (a.batch != 0 || a.breeder != 0)
	}
	return !nothing(b) && (b.batch == 0 || a.batch != 0) && (b.breeder == 0 || a.breeder != 0 || a.builder != "" || a.yard != "") &&
		(b.builder == "" || a.builder != "" || a.breeder != 0 || a.yard != "") && (b.yard == "" || a.yard != "" || a.builder != "" || a.breeder != 0) &&
		(b.mark == "" || a.mark != "") && (!b.when.set || a.when.set)
}

// newCounts say in Spanish, with a number behind them, what a count should have been.
// Talk says them as well, so they hold for a line just logged only.
var newCounts = phrasesOf("son|eran|fueron|serian|que sean|deben ser|deberian ser|debian ser|tenian que ser|tendrian que ser|mejor dicho son")

// newCount is the count that "que sean 39" puts right.
func (c *cutter) newCount(n int) *int {
	d := c.d
	if c.out.whole.lang != "es" || n > 5 || !d.toks[n-1].isNum {
		return nil
	}
	said := ""
	for i := 0; i < n-1; i++ {
		said = joinWords(said, fold(d.toks[i].orig))
	}
	if !newCounts[said] {
		return nil
	}
	count := d.toks[n-1].num
	return &count
}
