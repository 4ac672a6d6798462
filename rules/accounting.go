package rules

import (
	"slices"
	"time"
)

// cellStages and queenStages are the counts of each tally, in the order of the work.
var (
	cellStages  = []Step{Graft, Accept, Capped}
	queenStages = []Step{Move, Emerge, Laying}
)

// looks gathers the newest count at each stage, and what went out and was lost when.
type looks struct {
	counts map[Step]StageCount
	lost   []Loss
	out    int
	untold bool
}

func (l *looks) set(step Step, n *int, e *Entry) {
	if n == nil {
		return
	}
	if l.counts == nil {
		l.counts = map[Step]StageCount{}
	}
	l.counts[step] = StageCount{Step: step, Count: *n, At: e.Happened, Line: e.ID}
}

// add counts more at a stage that is done in parts.
func (l *looks) add(step Step, n *int, e *Entry) {
	if n == nil {
		return
	}
	if old, had := l.counts[step]; had {
		old.Count += *n
		l.counts[step] = old
		return
	}
	l.set(step, n, e)
}

func (l *looks) gone(n *int) {
	if n == nil {
		l.untold = true
		return
	}
	l.out += *n
}

// tally puts the counts in the order of the work. A loss belongs to the furthest stage that
// had been counted by then, so that no count is charged with what was lost before it.
func (l *looks) tally(order []Step) (t Tally) {
	t.Out, t.Untold = l.out, l.untold
	for _, step := range order {
		if c, counted := l.counts[step]; counted {
			t.Stages = append(t.Stages, c)
		}
	}
	for _, x := range l.lost {
		at := -1
		for i, s := range t.Stages {
			if s.before(x) {
				at = i
			}
		}
		switch {
		case at >= 0:
			t.Stages[at].Lost += x.Count
		case len(t.Stages) == 0:
			t.Unfixed += x.Count
		}
	}
	return t
}

// stageAt is the furthest stage that had been counted by then.
func (l *looks) stageAt(order []Step, e *Entry) (step Step) {
	for _, s := range order {
		if c, counted := l.counts[s]; counted && c.before(Loss{At: e.Happened, Line: e.ID}) {
			step = s
		}
	}
	return step
}

// accounting is one run over the lines of a batch, in the order in which things happened.
type accounting struct {
	lots, moved   []Lot
	cells, queens looks
	yards         []string
	byYard        map[string]*looks
	lost          []Loss
	gone          bool   // a line said that all of it is lost
	part, whole   bool   // queens were counted by yard, as a batch
	emptied       string // the place that held cells last and holds none
	short         int    // cells that were to leave a place that did not hold them
}

// AccountOf keeps the accounts of a batch by its effective lines.
func AccountOf(entries []Entry) (a Account, gone bool) {
	k := accounting{byYard: map[string]*looks{}}
	for i := range entries {
		if e := &entries[i]; e.Action == Did {
			k.take(e)
		}
	}
	a.Cells, a.Lots, a.Moved, a.Queens, a.Lost = k.cells.tally(cellStages), k.lots, k.moved, k.queens.tally(queenStages), k.lost
	a.Short = k.short
	for _, y := range k.yards {
		a.Yards = append(a.Yards, YardTally{y, k.byYard[y].tally(queenStages)})
	}
	if k.part {
		k.together(&a)
	}
	return a, k.gone
}

func (k *accounting) take(e *Entry) {
	switch e.Step {
	case Graft:
		k.cells.set(Graft, e.Count, e)
		k.lots = []Lot{{Place: e.Into, Count: e.Count, Since: e.Happened}}
	case Accept, Capped:
		k.counted(e)
	case Finish:
		if e.Into != "" {
			k.shift(e.Detail.Out, nil, e.Into, e.Happened)
		}
	case Placed:
		k.shift(e.Detail.Out, e.Count, e.Into, e.Happened)
	case Move:
		k.move(e)
	case Emerge, Laying:
		if !e.Detail.Unfinished() {
			k.look(e)
		}
	case Catch:
		k.queens.gone(e.Count)
		if y := k.yard(e.Into); y != nil {
			y.gone(e.Count)
		}
	case Lose:
		k.lose(e)
	}
}

// counted is a count of cells: of one lot where it names one, else of all.
func (k *accounting) counted(e *Entry) {
	i := k.lot(e.Detail.Out)
	if len(k.lots) > 1 && e.Detail.Out != "" && i >= 0 && e.Count != nil {
		k.lots[i].Count = e.Count
		sum := 0
		for _, l := range k.lots {
			if l.Count == nil {
				return
			}
			sum += *l.Count
		}
		k.cells.set(e.Step, &sum, e)
		return
	}
	k.cells.set(e.Step, e.Count, e)
	_, further := k.cells.counts[Capped]
	switch {
	case e.Count == nil || further && e.Step == Accept: // an older count than the one that stands
	case len(k.lots) == 1:
		n := *e.Count - k.cells.out
		k.lots[0].Count = &n
	case len(k.lots) == 0: // more than were thought to be left
		if n := *e.Count - k.cells.out; n > 0 {
			k.lots = []Lot{{Place: k.emptied, Count: &n, Since: e.Happened}}
		}
	case k.onePlace() && !slices.ContainsFunc(k.lots, func(l Lot) bool { return l.Count == nil }):
		k.spread(*e.Count - k.cells.out)
	default:
		for i := range k.lots {
			k.lots[i].Count = nil
		}
	}
}

// spread counts the lots of one place anew: what is missing is missing of those that came
// last, what is more is of the first.
func (k *accounting) spread(n int) {
	for i := range k.lots {
		here := min(n, *k.lots[i].Count)
		k.lots[i].Count = &here
		n -= here
	}
	first := *k.lots[0].Count + n
	k.lots[0].Count = &first
}

// lot is the one a name stands for: of several in one place the newest; without a name the
// only one. It is -1 where there is none, or where it could be any.
func (k *accounting) lot(place string) int {
	if place == "" {
		if len(k.lots) == 1 {
			return 0
		}
		return -1
	}
	for i, l := range slices.Backward(k.lots) {
		if l.Place == place {
			return i
		}
	}
	return -1
}

// from are the lots that a name stands for, those that came last first; without a name all.
// A name of a place that holds none stands for none.
func (k *accounting) from(place string) (at []int) {
	for i, l := range slices.Backward(k.lots) {
		if place == "" || l.Place == place {
			at = append(at, i)
		}
	}
	return at
}

// onePlace reports whether all cells stand in one place.
func (k *accounting) onePlace() bool {
	return !slices.ContainsFunc(k.lots, func(l Lot) bool { return l.Place != k.lots[0].Place })
}

// shift puts cells from one place into another: all that stand there where no count was
// given.
func (k *accounting) shift(from string, n *int, to string, at time.Time) {
	if n != nil && from == "" && !k.onePlace() {
		return // out of which, nobody said
	}
	left := 0
	if n != nil {
		left = *n
	}
	for _, i := range k.from(from) {
		switch l := k.lots[i]; {
		case l.Place == to || n != nil && left == 0:
		case n == nil || l.Count != nil && *l.Count <= left:
			if n != nil {
				left -= *l.Count
			}
			k.lots[i].enter(to, at)
		default:
			k.lots[i].less(left)
			part := left
			l.Count, left = &part, 0
			l.enter(to, at)
			k.lots = append(k.lots, l)
		}
	}
	k.short += left // so many did not stand there
}

func (l *Lot) enter(place string, at time.Time) {
	if l.Place == place {
		return
	}
	l.Stays = append(slices.Clip(l.Stays), CellStay{l.Place, l.Since, at})
	l.Place, l.Since = place, at
}

// less takes some away, but never below none.
func (l *Lot) less(n int) {
	if l.Count != nil {
		left := max(0, *l.Count-n)
		l.Count = &left
	}
}

// remove takes cells out of the lots: of the place named, else of all, first of those that
// went in last, since cells in an incubator are moved on before those that hang in a builder.
func (k *accounting) remove(place string, n *int) (gone []Lot) {
	at := k.from(place)
	left := 0
	if n != nil {
		left = *n
	}
	if len(at) == 0 && n != nil && len(k.lots) > 0 {
		k.short += left // none stand there
		at = k.from("")
	}
	known := true
	for _, i := range at {
		l, went := &k.lots[i], k.lots[i]
		switch {
		case n == nil:
			none := 0
			l.Count = &none
		case left == 0 || !known:
			continue
		case l.Count == nil:
			part := left
			known, left, went.Count = false, 0, &part
		default:
			took := min(left, *l.Count)
			l.less(took)
			left -= took
			went.Count = &took
		}
		gone = append(gone, went)
	}
	if known && len(at) > 0 {
		k.short += left
	}
	k.lots = slices.DeleteFunc(k.lots, func(l Lot) bool {
		none := l.Count != nil && *l.Count == 0
		if none {
			k.emptied = l.Place
		}
		return none
	})
	return gone
}

func (k *accounting) move(e *Entry) {
	for _, l := range k.remove(e.Detail.Out, e.Count) {
		l.enter(e.Into, e.Happened)
		k.moved = append(k.moved, l)
	}
	k.cells.gone(e.Count)
	if e.Detail.All {
		k.lots = nil
	}
	y := k.at(e.Into)
	if e.Count == nil {
		// Of how many there are there the next count will tell.
		return
	}
	k.queens.add(Move, e.Count, e)
	y.add(Move, e.Count, e)
}

func (k *accounting) lose(e *Entry) {
	if e.Detail.All && e.Into == "" {
		k.gone = true
	}
	x := Loss{Line: e.ID, At: e.Happened, Where: e.Into, Cause: e.Detail.Cause}
	cells := len(k.lots) > 0 && (e.Into == "" || k.byYard[e.Into] == nil)
	queens := len(k.yards) > 0 && (e.Into == "" && !cells || k.byYard[e.Into] != nil || e.Detail.All && e.Into == "")
	if cells {
		x.Stage, x.Count = k.cells.stageAt(cellStages, e), k.lostCells(e)
		k.remove(e.Into, countOrAll(e))
		k.cells.lost = append(k.cells.lost, x)
		k.lost = append(k.lost, x)
	}
	if queens {
		k.lostQueens(e, x)
	}
}

// countOrAll is how many were lost, nil for all.
func countOrAll(e *Entry) *int {
	if e.Detail.All {
		return nil
	}
	n := 1 // "lost one" may leave out the number
	if e.Count != nil {
		n = *e.Count
	}
	return &n
}

// lostCells is how many cells a line says are lost.
func (k *accounting) lostCells(e *Entry) int {
	if n := countOrAll(e); n != nil {
		return *n
	}
	sum, known := 0, true
	at := k.from(e.Into)
	for _, i := range at {
		if c := k.lots[i].Count; c != nil {
			sum += *c
			continue
		}
		known = false
	}
	if known && len(at) > 0 {
		return sum
	}
	if p := k.cells.tally(cellStages).Present(); p != nil {
		return *p
	}
	return 0
}
