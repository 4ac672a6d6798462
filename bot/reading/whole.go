package reading

import (
	"slices"
	"strconv"

	"yardbell/rules"
)

// An offer is pressed by people who look at the button and not at the words. So it never
// leaves out a number that stands in the message: the number is the part that nobody can
// guess later.

// holdWhole keeps of a question's offers those that hold every number of the message.
func (l *lattice) holdWhole(res Result, items []item) Result {
	if res.Outcome == Log && len(res.Acts) > 0 && res.Acts[0].Kind == Did && !l.tellsAll(res.Acts, items) {
		res.Outcome, res.Clear, res.Left = Ask, false, true
		res.Doubts = append(res.Doubts, "not-told")
		return res
	}
	if res.Outcome != Ask || len(res.Others) == 0 {
		return res
	}
	var kept [][]Act
	for _, acts := range res.Others {
		if l.holds(acts, items) && !(len(acts) == 1 && acts[0].Kind == Amend && valuesOf(acts[0]) == 0) {
			kept = append(kept, acts)
		}
	}
	if len(kept) < len(res.Others) && len(kept) == 0 {
		res.Doubts = append(res.Doubts, "number-left")
		res.Left = true
		for i := range items {
			if len(res.Unread) == 0 && items[i].is(eNumber) { // what was not read is always said
				res.Unread = []string{l.typed(items)}
			}
		}
	}
	res.Others = kept
	return res
}

// tellsAll reports whether acts that would be logged account for the numbers and names of a
// message, where no step said itself what became of one.
func (l *lattice) tellsAll(acts []Act, items []item) bool {
	items = l.putRightAtOnce(items)
	summed := len(acts) == 1 && acts[0].Yard == "" && acts[0].Count != nil && len(namesOf(items, eYard)) > 1
	has := func(is func(a *Act) bool) bool {
		for i := range acts {
			if is(&acts[i]) {
				return true
			}
		}
		return false
	}
	sum := 0
	for i := range acts {
		if acts[i].Count != nil {
			sum += *acts[i].Count
		}
	}
	number := func(n int) bool {
		return n == sum || has(func(a *Act) bool {
			return a.Count != nil && *a.Count == n || a.Of != nil && *a.Of == n || a.Breeder == n || a.Batch == n || !l.r.frames.list[l.r.frames.byStep[a.Step]].slots["count"]
		})
	}
	steps := map[rules.Step]bool{}
	for i := range acts {
		steps[acts[i].Step] = true
		if a := &acts[i]; a.Batch != 0 && a.Breeder != 0 && !hasAny(items, eBatch) && !l.ofBreeder(a.Batch, a.Breeder) {
			return false
		}
	}
	clauses := l.split(items)
	if l.known.Reply != nil || len(clauses) <= len(acts) {
		clauses = nil // each has its act
	}
	for _, cl := range clauses {
		ev, told := l.r.strongLicences(cl, l.known), false
		for s := range ev.weight {
			told = told || steps[s]
		}
		for s, w := range ev.weight {
			if !told && w >= 0.99 && ev.exact[s] && l.r.Built(s) && s != rules.Nuc && !l.denies(cl) && !l.moodOf(cl).held() && slices.ContainsFunc(cl, func(it item) bool { return it.entity != nil || it.anyOf(l.r.frames.noun) }) {
				return false // "nucs are done and 33 cells in a north"
			}
		}
	}
	for i := range items {
		e := items[i].entity
		if e == nil || has(func(a *Act) bool { return slices.Contains(a.But, nameOf(e)) }) {
			continue
		}
		ok := true
		switch e.kind {
		case eNumber:
			ok = summed || number(e.n) || numberOf(acts, e.n)
		case eAmount:
			ok = false // "36 de lb 7"
		case eAll:
			ok = summed || e.n == 0 && allOfThem(acts) || e.n != 0 && number(e.n)
		case ePin:
			ok = has(func(a *Act) bool {
				return a.Mark == e.name || a.Breeder != 0 && a.Breeder == l.markedFrom(a.Step, e.name)
			})
		case eYard:
			ok = summed || has(func(a *Act) bool { return a.Yard == e.name })
		case eBuilder:
			ok = has(func(a *Act) bool {
				return a.Builder == e.name || a.Batch != 0 && l.known.Holds[e.name] == a.Batch || !l.r.frames.list[l.r.frames.byStep[a.Step]].slots["builder"]
			})
		case eBreeder:
			ok = !l.isBreeder(e.n) || has(func(a *Act) bool { return a.Breeder == e.n })
		}
		if !ok {
			return false
		}
	}
	return true
}

// allOfThem reports whether every act that keeps a count has one, or is of all.
func allOfThem(acts []Act) bool {
	for _, a := range acts {
		if counted[a.Step] && a.Count == nil && !a.All {
			return false
		}
	}
	return true
}

// holds reports whether acts account for every number in a message.
func (l *lattice) holds(acts []Act, items []item) bool {
	figures := map[int]bool{}
	put := func(n int) { figures[n] = true }
	var litres, ages, spans, times, derived bool
	for _, a := range acts {
		for _, p := range []*int{a.Count, a.Of, a.Old} {
			if p != nil {
				put(*p)
			}
		}
		put(a.Batch)
		put(a.Breeder)
		put(a.Order)
		if was := l.known.Last; a.Kind == Amend && was != nil { // said again, or what it was
			put(was.Act.Batch)
			put(was.Act.Breeder)
			if was.Act.Count != nil {
				put(*was.Act.Count)
			}
		}
		for _, name := range append([]string{a.Builder, a.Yard, a.Mark}, a.But...) {
			for _, s := range digitRuns(name) {
				n, _ := strconv.Atoi(s)
				put(n)
			}
		}
		litres = litres || a.Litres != 0
		ages = ages || a.AgeLo != nil
		spans = spans || a.Span != 0 || a.AgeLo != nil
		times = times || a.When != nil || a.Kind == Claim // when somebody goes is theirs
		derived = derived || a.All || a.Count != nil
		if a.Kind == Skip || a.Kind == Void || a.Kind == Query {
			return true // nothing of it is counted
		}
	}
	put(graftedInAll(acts))
	parts := inParts(acts, items)
	for i := range items {
		it := &items[i]
		e := it.entity
		if parts && e != nil && (e.kind == eNumber || e.kind == eRatio) {
			continue
		}
		if e == nil {
			if it.unknown() && len(digitRuns(it.text)) > 0 {
				return false
			}
			continue
		}
		ok := true
		switch e.kind {
		case eNumber, eBreeder, eBatch:
			ok = figures[e.n] || e.kind == eNumber && oneOfSeveral(items) || numberOf(acts, e.n)
		case eRatio:
			ok = figures[e.n] && (figures[e.of] || derived)
		case eLitres:
			ok = litres
		case eAge:
			ok = ages
		case eSpan:
			ok = spans || times
		case eTime:
			ok = times || e.when.Now
		case eAmount, ePercent, eTemp:
			ok = false
		case eAll:
			ok = e.n == 0 || figures[e.n]
		case eLost, eAllBut:
			ok = figures[e.n] && tellsGone(acts) || derived && l.less(acts, e.n)
		case eBars, eHalf:
			ok = derived
		}
		if !ok {
			return false
		}
	}
	return true
}

// less reports whether a count of acts is what was on record less n.
func (l *lattice) less(acts []Act, n int) bool {
	for _, a := range acts {
		if a.Count == nil || a.Of != nil && *a.Of == *a.Count+n {
			return true
		}
		for _, o := range l.known.Open {
			if o.Step == a.Step && o.Had == *a.Count+n {
				return true
			}
			for _, had := range o.Yards {
				if had == *a.Count+n {
					return true
				}
			}
		}
		if k := l.known.Last; k != nil && k.Act.Count != nil && *k.Act.Count == *a.Count+n {
			return true
		}
	}
	return false
}

// oneOfSeveral reports whether a number says how many things of the crew's are meant, which
// the acts name one by one: "all three builders".
func oneOfSeveral(items []item) bool {
	return hasAny(items, eBuilders, eYards, eBoth)
}

// digitRuns are the runs of digits in a name.
func digitRuns(s string) (out []string) {
	from := -1
	for i := 0; i <= len(s); i++ {
		digit := i < len(s) && s[i] >= '0' && s[i] <= '9'
		switch {
		case digit && from < 0:
			from = i
		case !digit && from >= 0:
			out, from = append(out, s[from:i]), -1
		}
	}
	return out
}
