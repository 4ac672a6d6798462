package reading

import (
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

// entityKind names what stands in a message beside its words.
type entityKind string

// The kinds of entity; entities.txt has their patterns.
const (
	eTime     entityKind = "time"
	eAge      entityKind = "age"
	eSpan     entityKind = "span"
	eLitres   entityKind = "litres"
	eAmount   entityKind = "amount"
	ePercent  entityKind = "percent"
	eTemp     entityKind = "temp"
	eBars     entityKind = "bars"
	eRatio    entityKind = "ratio"
	eAllBut   entityKind = "allbut"
	eLost     entityKind = "lost"
	eBoth     entityKind = "both"
	eBuilders entityKind = "builders"
	eYards    entityKind = "yards"
	eAll      entityKind = "all"
	eRest     entityKind = "rest"
	eNone     entityKind = "none"
	eHalf     entityKind = "half"
	eBatch    entityKind = "batch"
	eRound    entityKind = "round"
	eBuilder  entityKind = "builder"
	eYard     entityKind = "yard"
	eBreeder  entityKind = "breeder"
	ePin      entityKind = "pin"
	eMember   entityKind = "member"
	eNumber   entityKind = "number"
	eGone     entityKind = "gone"
	eCustomer entityKind = "customer" // to whom queens go
	eBuyer    entityKind = "buyer"    // a customer who is only named
	eTags     entityKind = "tags"     // numbers on queens

	eLostCells entityKind = "lostcells" // in licences: lost, said of cells or queens
	eNucs      entityKind = "nucs"
)

// entity is one of them with its values.
type entity struct {
	kind   entityKind
	n      int     // number, batch, breeder, count of a ratio, of what is lost
	of     int     // ratio, fraction
	amount float64 // litres, degrees
	lo, hi float64 // age, hours; hi of litres: the unit
	span   time.Duration
	name   string         // yard, builder, member, colour
	from   bool           // breeder: "from 7"
	named  bool           // breeder: said to be one; lost: said of cells or queens
	whole  bool           // batch: all of it; lost: said of nucs
	slip   bool           // a name with a slip
	vague  bool           // number: "twenty something"
	dozens bool           // number: of dozens, which names nothing
	nuc    rules.NucState // lost: what the word for it tells of nucs
	when   When
}

var entityKinds = map[entityKind]bool{eTime: true, eAge: true, eSpan: true, eLitres: true, eAmount: true, ePercent: true, eTemp: true, eBars: true, eRatio: true,
	eAllBut: true, eLost: true, eBoth: true, eBuilders: true, eYards: true, eAll: true, eRest: true, eNone: true, eHalf: true, eBatch: true, eRound: true, eBuilder: true,
	eYard: true, eBreeder: true, ePin: true, eMember: true, eNumber: true, eGone: true, eCustomer: true, eBuyer: true, eTags: true, eNucs: true}

// loadEntities reads the patterns.
func (r *Reader) loadEntities(fsys fs.FS, file string) error {
	groups := r.groups
	return eachLine(fsys, file, func(n int, line string) error {
		head, body, ok := strings.Cut(line, ":")
		words := strings.Fields(head)
		if !ok || len(words) < 2 {
			return fault(file, n, "want group NAME: … or entity KIND: …, not %q", line)
		}
		body = strings.ReplaceAll(body, "BREEDERWORD+", "BREEDERWORD BREEDERWORD*")
		elems, err := r.parseElements(file, n, body, groups)
		if err != nil {
			return err
		}
		switch words[0] {
		case "group":
			g := groups[words[1]]
			if g == nil {
				g = &group{name: words[1]}
				groups[words[1]] = g
			}
			g.rows = append(g.rows, elems)
		case "entity":
			k := entityKind(words[1])
			if !entityKinds[k] {
				return fault(file, n, "no entity is called %q", words[1])
			}
			r.patterns = append(r.patterns, pattern{kind: k, maybe: len(words) > 2, elems: elems, line: n})
		default:
			return fault(file, n, "want group or entity, not %q", words[0])
		}
		return nil
	})
}

func atof(s string) float64 { f, _ := strconv.ParseFloat(s, 64); return f }

// quantity is the number that was captured as a number, as "a", "a couple" or "half a".
func quantity(c captures, name string) float64 {
	k, ok := c.get(name)
	if !ok {
		return 0
	}
	return k.num
}

// make builds an entity from what a pattern captured. ok is false where the values do not
// make one: a ratio of more than all, an hour that is none.
func (l *lattice) make(p pattern, c captures) (e entity, ok bool) {
	e.kind = p.kind
	whole := func(name string) bool {
		k, has := c.get(name)
		return !has || k.num == float64(int(k.num)) && k.num < 1e6
	}
	for _, name := range []string{"n", "k", "v", "of", "h", "m", "dd"} {
		if p.kind != eLitres && p.kind != eSpan && p.kind != eTime && p.kind != eTemp && p.kind != ePercent && p.kind != eAmount && !whole(name) {
			return e, false
		}
	}
	e.n = c.int("n", 0)
	switch p.kind {
	case eTime:
		return l.time(e, c)
	case eAge:
		e.lo, e.hi = quantity(c, "lo"), quantity(c, "hi")
		if e.hi == 0 {
			e.hi = e.lo
		}
		if _, said := c.get("lo"); !said {
			e.lo, e.hi = 0, 24
		}
		return e, e.hi >= e.lo && e.hi <= 200
	case eSpan:
		e.span = spanOf(c)
		return e, true
	case eLitres:
		u, _ := c.get("u")
		n := quantity(c, "n")
		if c.has("half") {
			if !c.has("n") {
				n = 1 // "litro y medio"
			}
			n += 0.5
		}
		e.amount, e.hi = n*u.num, u.num
		return e, e.amount > 0
	case eAmount, ePercent, eTemp:
		e.amount = quantity(c, "n")
		return e, true
	case eBuilders, eYards:
		if c.has("both") {
			e.n = 2
		}
	case eAll:
		e.named = c.has("n") // "all 36"
	case eBars:
		if a, b := c.int("n", 0), c.int("k", 0); a >= 20 && a%10 == 0 && b < 10 && l.spelled(c, "n") && l.spelled(c, "k") {
			return e, false // "treinta by seis" may be one number
		}
		e.n = int(quantity(c, "n")) * c.int("k", 0)
		return e, e.n > 0 && e.n < 2000 && min(int(quantity(c, "n")), c.int("k", 0)) <= mostBars
	case eRatio:
		if k, has := c.get("r"); has {
			e.n, e.of = int(l.toks[k.tok].num), l.toks[k.tok].of
		} else {
			e.n, e.of = c.int("v", 0), c.int("of", 0)
			if e.of < 10 {
				return e, false
			}
		}
		return e, e.of > 0 && (e.n <= e.of || !l.isBreeder(e.of) && e.of >= 10) // more than all is asked about
	case eHalf:
		return l.fraction(e, c)
	case eAllBut, eLost:
		if w, said := c.get("w"); said {
			e.name = w.value
		}
		e.n, e.named = c.int("k", 1), c.has("noun") || l.saysCells(c, "w")
		e.whole = p.kind == eLost && c.has("nucs")
		if w, said := c.get("w"); said {
			e.nuc = l.nucTold(w)
		}
		return e, e.n > 0
	case eGone:
		k, _ := c.get("w")
		e.name = k.value
		return e, e.n > 0
	case eBatch, eRound:
		e.whole = c.has("a")
		return e, e.n > 0
	case eBuilder:
		return l.builder(e, c)
	case eTags:
		return l.tags(e, c)
	case eYard, eMember, eCustomer, eBuyer, eNucs:
		k, named := c.get("n")
		if !named {
			k, _ = c.get("sold")
			if !l.tells(l.r.c.sold, l.r.c.shipped) {
				return e, false
			}
		}
		e.name, e.slip = strings.CutSuffix(k.value, "\x00")
		return e, true
	case eNumber:
		k, _ := c.get("n")
		e.vague, e.dozens = c.has("vague"), l.toks[k.tok].dozens
		return e, true
	case eBreeder:
		if c.has("l") { // "the 12 lot": hers, where no batch has that number
			e.n = c.int("l", 0)
			for _, o := range l.known.Open {
				if o.Batch == e.n {
					return e, false
				}
			}
		}
		e.from = c.has("f")
		e.named = true
		return e, e.n > 0
	case ePin:
		k, _ := c.get("c")
		e.name = k.value
		return e, true
	}
	return e, true
}

// batchAs is the batch that is meant by a letter and a number that is no builder of the crew,
// "b6", while something of batch 6 is open; 0 for none.
func (l *lattice) batchAs(name string) int {
	if slices.Contains(l.known.Builders, name) || len(name) < 2 || len(l.known.Builders) == 0 {
		return 0
	}
	n, err := strconv.Atoi(name[1:])
	if err != nil {
		return 0
	}
	for _, o := range l.known.Open {
		if o.Batch == n && n > 0 {
			return n
		}
	}
	return 0
}

// builder names one of the crew's: by its name, by its letter and number, by its number.
func (l *lattice) builder(e entity, c captures) (entity, bool) {
	if k, has := c.get("n"); has {
		e.n = 0
		e.name, e.slip = strings.CutSuffix(k.value, "\x00")
		if n := l.batchAs(e.name); n != 0 {
			e.kind, e.n, e.name = eBatch, n, ""
		}
		return e, true
	}
	digits := strconv.Itoa(c.int("k", 0))
	letter := ""
	if k, has := c.get("l"); has {
		letter = k.value
	}
	e.n = 0
	for _, b := range l.known.Builders {
		f := fold(b)
		if letter != "" && f == letter+digits || letter == "" && (f == digits || len(f) == len(digits)+1 && f[1:] == digits) {
			e.name = b
			return e, true
		}
	}
	return e, false
}

// spelled reports whether a captured number was written in words.
func (l *lattice) spelled(c captures, name string) bool {
	k, has := c.get(name)
	return has && !isDigit(l.toks[k.tok].text)
}

// mostBars is how many bars are grafted at once at most: 40 × 42 is no graft.
const mostBars = 12

func spanOf(c captures) time.Duration {
	u, _ := c.get("u")
	n := quantity(c, "n")
	if c.has("half") {
		n += 0.5
	}
	if c.has("over") {
		n = 1.5 // the hour itself goes without a number
	}
	unit := map[string]time.Duration{"min": time.Minute, "quarter": 15 * time.Minute, "hour": time.Hour, "day": 24 * time.Hour, "week": 7 * 24 * time.Hour}[u.value]
	return time.Duration(n * float64(unit))
}

// time builds the time that a pattern captured.
func (l *lattice) time(e entity, c captures) (entity, bool) {
	w := &e.when
	if h, has := c.get("h"); has && len(c) == 2 && h.tok > 0 && l.bothBreeders(c) {
		return e, false // "confined 7 and 12"
	}
	if h, _ := c.get("h"); c.has("round") && h.num < 5 {
		return e, false // "round two" counts them
	}
	w.Approx = c.has("approx") || c.has("ish") || c.has("round")
	if c.has("now") {
		w.Now = true
		return e, true
	}
	if k, has := c.get("u"); has {
		span := spanOf(c)
		if k.value == "day" || k.value == "week" {
			d := -int(span / (24 * time.Hour))
			w.Day = &d
		} else {
			w.Ago = span
		}
		return e, span > 0 && span < 60*24*time.Hour
	}
	for _, k := range c {
		w.said(k)
	}
	clock, has, ok := l.clock(c)
	if !ok {
		return e, false
	}
	if has {
		w.Clock = &clock
		w.Fixed = c.has("noon") || c.has("mid") || clock >= 13*60 || clock < 60 || l.leadingZero(c)
	}
	return e, has || w.Day != nil || w.Weekday != 0 || w.Month != 0 && w.Date >= 1 && w.Date <= 31
}

// clock is the time of day captured, in minutes since midnight.
func (l *lattice) clock(c captures) (minutes int, has, ok bool) {
	if k, is := c.get("c"); is {
		return l.toks[k.tok].clock, true, l.toks[k.tok].clock <= 24*60
	}
	if k, is := c.get("hm"); is {
		n := int(l.toks[k.tok].num)
		return n/100*60 + n%100, true, true
	}
	if c.has("noon") {
		return 12 * 60, true, true
	}
	if c.has("mid") {
		return 0, true, true
	}
	if k, is := c.get("h1"); is {
		return 60, true, k.num == 1 // "a la una"
	}
	k, is := c.get("h")
	if !is {
		if c.has("approx") && !c.has("d") && !c.has("pd") && !c.has("wd") {
			return 0, false, false
		}
		return 0, false, true
	}
	h, m := int(k.num), c.int("m", 0)
	if k, is := c.get("m5"); is { // dictated, with nothing that says it is an hour
		h, _ := c.get("h")
		m = int(k.num)
		_, done := l.has(h.tok-1, l.r.c.doneWord)
		if m%5 != 0 || h.tok > 0 && !l.toks[h.tok-1].bound && !done {
			return 0, false, false // "took twelve fifteen"
		}
	}
	if c.has("q") {
		m = 15
	}
	switch {
	case c.has("half"):
		m = 30
	case c.has("quarter"):
		m = 15
	case c.has("till") || c.has("less"):
		h, m = h-1, 60-m
		if h <= 0 {
			h += 12
		}
	case !c.has("past") && !c.has("ocl") && !c.has("q"):
	}
	if _, halfPast := c.get("hp"); halfPast {
		m = 30
	}
	return h*60 + m, true, h <= 24 && m >= 0 && m < 60
}

// leadingZero reports whether a clock was typed like 07:30, which is of 24 hours.
func (l *lattice) leadingZero(c captures) bool {
	k, is := c.get("c")
	return is && strings.HasPrefix(l.toks[k.tok].text, "0")
}
