package reading

import "yardbell/rules"

// runOn cuts a clause that tells of several jobs with nothing between them: before each
// verb where it begins with one, else behind each. Every part has to tell of a step of its
// own: "caught 24 recelled 24", "36 capped B2 clear".
func (l *lattice) runOn(cl []item) [][]item {
	if at := l.otherDenied(cl); at > 0 {
		return append(l.runOn(cl[:at:at]), cl[at:])
	}
	if at := l.lossTail(cl); at > 0 {
		return append(l.runOn(cl[:at:at]), cl[at:])
	}
	var verbs []int
	first := -1
	for i := range cl {
		it := &cl[i]
		if it.word() && (l.isDone(it) || it.means(l.r.c.clear) || it.means(l.r.c.finish) && i > 0 && !l.isDone(&cl[i-1])) {
			verbs = append(verbs, i)
		}
		if first < 0 && !(it.word() && l.freeWord(it)) {
			first = i
		}
	}
	if len(verbs) < 2 || len(verbs) > 4 {
		return [][]item{cl}
	}
	var cuts []int
	before := verbs[0] == first
	for k, v := range verbs {
		switch {
		case before && k > 0 && cl[v].means(l.r.c.clear) && v-1 > verbs[k-1] && cl[v-1].is(eBuilder):
			cuts = append(cuts, v-1) // "capped 36 B2 clear"
		case before && k > 0:
			cuts = append(cuts, v)
		case !before && k+1 < len(verbs):
			c := v + 1
			for c < len(cl) && cl[c].is(eLost) {
				c++ // "34 accepted eleven gone bar is in the finisher"
			}
			cuts = append(cuts, c)
		}
	}
	var out [][]item
	seen := map[rules.Step]bool{}
	from := 0
	for _, c := range append(cuts, len(cl)) {
		part := cl[from:c:c]
		from = c
		ev := l.r.strongLicences(part, l.known)
		step, best := rules.Step(""), 0.0
		for s, w := range ev.weight {
			if w > best || w == best && s < step {
				step, best = s, w
			}
		}
		if best < 0.99 || !ev.exact[step] || seen[step] || !hasAny(part, eNumber, eRatio, eBuilder, eAll) && l.r.frames.list[l.r.frames.byStep[step]].slots["count"] {
			return [][]item{cl}
		}
		seen[step] = true
		out = append(out, part)
	}
	return out
}

// otherDenied is where a run-on clause begins to deny of another place what it told of one:
// "north has eighteen laying have not been to creek". It is 0 where none does.
func (l *lattice) otherDenied(cl []item) int {
	for i := range cl {
		it := &cl[i]
		if !it.word() || !it.means(l.r.c.neg) || l.isUnit(it) {
			continue
		}
		at := i
		if at > 0 && cl[at-1].word() && cl[at-1].means(l.r.c.aux) {
			at--
		}
		a, b := cl[:at], cl[at:]
		if hasAny(a, eNumber, eRatio) && hasAny(a, eYard) && len(l.r.strongLicences(a, l.known).weight) > 0 && differ(a, b) && l.toCome(b) && l.ofAnother(b, a) {
			return at
		}
		return 0
	}
	return 0
}

// ofOneBreeder reports whether items name nothing but a breeder of the crew, and what
// follows tells of one: "looked in 7, no eggs".
func (l *lattice) ofOneBreeder(pre []item, e evidence) bool {
	n := 0
	for i := range pre {
		switch it := &pre[i]; {
		case it.is(eNumber) && l.isBreeder(it.entity.n):
			n++
		case it.entity != nil && !it.is(eTime):
			return false
		}
	}
	if n != 1 {
		return false
	}
	for s := range e.weight {
		if ofBreeder[s] {
			return true
		}
	}
	return false
}

// bothBreeders reports whether the two numbers of a time are breeders of the crew.
func (l *lattice) bothBreeders(c captures) bool {
	for _, k := range c {
		if k.num != float64(int(k.num)) || !l.isBreeder(int(k.num)) {
			return false
		}
	}
	return true
}

// lessLost reports whether a new count is the old one less what is told to be lost.
func (l *lattice) lessLost(items []item, a Act, last *Line) bool {
	if a.Count == nil || last.Act.Count == nil {
		return false
	}
	lost := 0
	for i := range items {
		if items[i].is(eLost) {
			lost += items[i].entity.n
		}
	}
	return *last.Act.Count-lost == *a.Count
}

// isCalled reports whether a word is a name of somebody of the crew.
func (k *Known) isCalled(w string) bool {
	for _, m := range k.Members {
		if fold(m) == w {
			return true
		}
	}
	return false
}

// voidOf reads whose line of which work is taken back: "undo my graft", "undo Wren's last
// graft please".
func (l *lattice) voidOf(items []item, m mood) (Result, bool) {
	c := l.r.c
	if m.neg || m.hearsay || m.hedge || len(items) < 2 || !items[0].means(c.void) {
		return Result{}, false
	}
	a := Act{Kind: Void}
	for i := range items[1:] {
		it := &items[i+1]
		switch {
		case it.bound, it.means(c.please), it.means(c.lastC):
		case it.is(eMember) && a.Person == "":
			a.Person = it.entity.name
		case it.word() && l.workOf(it) != "" && a.Step == "":
			a.Step = l.workOf(it)
		case it.word() && l.freeWord(it):
		default:
			return Result{}, false
		}
	}
	if a.Person == "" && a.Step == "" {
		return Result{}, false
	}
	return Result{Outcome: Log, Acts: []Act{a}}, true
}

// workOf is the step that a word names by itself, empty for none.
func (l *lattice) workOf(it *item) rules.Step {
	own := *it
	own.senses = asDone(own.senses)
	ev := l.r.licences([]item{own, {entity: &entity{kind: eNumber, n: 1}}}, &Known{})
	step, best := rules.Step(""), 0.0
	for s, w := range ev.weight {
		if w >= 0.99 && (w > best || w == best && s < step) && l.r.Built(s) {
			step, best = s, w
		}
	}
	return step
}

// lossTail finds where a clause that has told its count goes on with what became of the
// others: "thirty two emerged two were dead", "34 capped the rest got chewed". 0 for none.
func (l *lattice) lossTail(cl []item) int {
	told := false
	for i := range cl {
		it := &cl[i]
		told = told || it.word() && l.isDone(it)
		if i == 0 || !told || !it.is(eNumber) && !it.is(eRest) || !hasAny(cl[:i], eNumber, eRatio) {
			continue
		}
		tail := cl[i+1:]
		if entitiesIn(tail) && !hasAny(tail, eNone) || len(l.r.strongLicences(tail, l.known).weight) > 0 {
			continue
		}
		if l.meansAny(tail, l.r.c.deadWord) || l.meansAny(tail, l.r.c.lostWord) || l.meansAny(tail, l.r.c.nothing) || hasAny(tail, eNone) || l.meansAny(tail, l.r.c.kill) {
			return i
		}
	}
	return 0
}

// entitiesIn reports whether items name anything.
func entitiesIn(items []item) bool {
	for i := range items {
		if items[i].entity != nil {
			return true
		}
	}
	return false
}
