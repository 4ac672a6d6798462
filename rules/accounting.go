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

func (l *looks) set(step Step, n *int, at time.Time) {
	if n == nil {
		return
	}
	if l.counts == nil {
		l.counts = map[Step]StageCount{}
	}
	l.counts[step] = StageCount{Step: step, Count: *n, At: at}
}

// add counts more at a stage that is done in parts.
func (l *looks) add(step Step, n *int, at time.Time) {
	if n == nil {
		return
	}
	sum := *n
	if old, had := l.counts[step]; had {
		sum, at = sum+old.Count, old.At
	}
	l.set(step, &sum, at)
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
			if !s.At.After(x.At) {
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
func (l *looks) stageAt(order []Step, at time.Time) (step Step) {
	for _, s := range order {
		if c, counted := l.counts[s]; counted && !c.At.After(at) {
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
	gone          bool // a line said that all of it is lost
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
	for _, y := range k.yards {
		a.Yards = append(a.Yards, YardTally{y, k.byYard[y].tally(queenStages)})
	}
	return a, k.gone
}

func (k *accounting) take(e *Entry) {
	switch e.Step {
	case Graft:
		k.cells.set(Graft, e.Count, e.Happened)
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
		k.cells.set(e.Step, &sum, e.Happened)
		return
	}
	k.cells.set(e.Step, e.Count, e.Happened)
	switch {
	case e.Count == nil:
	case len(k.lots) == 1:
		n := *e.Count - k.cells.out
		k.lots[0].Count = &n
	default:
		for i := range k.lots {
			k.lots[i].Count = nil
		}
	}
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

// shift puts cells from one place into another: all of the lot where no count was given.
func (k *accounting) shift(from string, n *int, to string, at time.Time) {
	i := k.lot(from)
	if i < 0 {
		if n != nil || from != "" {
			return
		}
		for i := range k.lots { // all of them go
			k.lots[i].enter(to, at)
		}
		return
	}
	if k.lots[i].Place == to {
		return
	}
	l := k.lots[i]
	if n == nil || l.Count != nil && *n >= *l.Count {
		k.lots[i].enter(to, at)
		return
	}
	rest := l
	rest.less(*n)
	k.lots[i] = rest
	l.Count = n
	l.enter(to, at)
	k.lots = append(k.lots, l)
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

// remove takes cells out of the lots: of the one named, else first of those that went in
// last, since cells in an incubator are moved on before those that hang in a builder.
func (k *accounting) remove(place string, n *int) (gone []Lot) {
	take := func(i, n int) {
		k.lots[i].less(n)
		l := k.lots[i]
		l.Count = &n
		gone = append(gone, l)
	}
	if i := k.lot(place); i >= 0 {
		if n == nil {
			gone = []Lot{k.lots[i]}
			k.lots = slices.Delete(slices.Clone(k.lots), i, i+1)
			return gone
		}
		take(i, *n)
	} else if n == nil {
		gone, k.lots = k.lots, nil
	} else {
		left := *n
		for i, l := range slices.Backward(k.lots) {
			if l.Count == nil {
				break
			}
			if took := min(left, *l.Count); took > 0 {
				take(i, took)
				left -= took
			}
		}
	}
	k.lots = slices.DeleteFunc(k.lots, func(l Lot) bool { return l.Count != nil && *l.Count == 0 })
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
	k.queens.add(Move, e.Count, e.Happened)
	y.add(Move, e.Count, e.Happened)
}

// at is the account of a yard, begun where there is none.
func (k *accounting) at(yard string) *looks {
	y := k.byYard[yard]
	if y == nil {
		y = &looks{}
		k.byYard[yard] = y
		k.yards = append(k.yards, yard)
	}
	return y
}

// yard is the account that a line belongs to: of the yard it names, else of the only one;
// nil where it is of all.
func (k *accounting) yard(name string) *looks {
	if name == "" || k.byYard[name] == nil {
		if len(k.yards) == 1 {
			return k.byYard[k.yards[0]]
		}
		if name == "" {
			return nil
		}
	}
	return k.at(name)
}

// look is a count of queens. One that is of a yard alone says so (Part); a line without
// that is a count of the batch, which is what all lines meant before yards were counted.
func (k *accounting) look(e *Entry) {
	if e.Detail.Part && len(k.yards) > 1 {
		k.yard(e.Into).set(e.Step, e.Count, e.Happened)
		k.sum(e)
		return
	}
	k.queens.set(e.Step, e.Count, e.Happened)
	if len(k.yards) == 1 {
		k.byYard[k.yards[0]].set(e.Step, e.Count, e.Happened)
	}
}

// sum has the batch counted once every yard is.
func (k *accounting) sum(e *Entry) {
	n := 0
	for _, y := range k.byYard {
		c, counted := y.counts[e.Step]
		if !counted {
			return
		}
		n += c.Count
	}
	k.queens.set(e.Step, &n, e.Happened)
}

func (k *accounting) lose(e *Entry) {
	if e.Detail.All && e.Into == "" {
		k.gone = true
	}
	x := Loss{Line: e.ID, At: e.Happened, Where: e.Into, Cause: e.Detail.Cause}
	cells := len(k.lots) > 0 && (e.Into == "" || k.byYard[e.Into] == nil)
	queens := len(k.yards) > 0 && (e.Into == "" && !cells || k.byYard[e.Into] != nil || e.Detail.All && e.Into == "")
	if cells {
		x.Stage, x.Count = k.cells.stageAt(cellStages, e.Happened), k.lostCells(e)
		k.remove(e.Into, countOrAll(e))
		k.cells.lost = append(k.cells.lost, x)
		k.lost = append(k.lost, x)
	}
	if queens {
		x.Stage = k.queens.stageAt(queenStages, e.Happened)
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
	if i := k.lot(e.Into); i >= 0 && k.lots[i].Count != nil {
		return *k.lots[i].Count
	}
	if p := k.cells.tally(cellStages).Present(); p != nil {
		return *p
	}
	return 0
}

// lostQueens takes what a line says is lost from the yard it names, else from the only one;
// a batch that is lost whole from each.
func (k *accounting) lostQueens(e *Entry, x Loss) {
	n := countOrAll(e)
	if n == nil && e.Into == "" {
		for _, name := range k.yards {
			y := k.byYard[name]
			if p := y.tally(queenStages).Present(); p != nil {
				x.Where, x.Count = name, *p
				y.lost = append(y.lost, x)
				k.queens.lost = append(k.queens.lost, x)
				k.lost = append(k.lost, x)
			}
		}
		return
	}
	y := k.yard(e.Into)
	switch {
	case n != nil:
		x.Count = *n
	case y != nil:
		if p := y.tally(queenStages).Present(); p != nil {
			x.Count = *p
		}
	}
	if y != nil {
		y.lost = append(y.lost, x)
	}
	k.queens.lost = append(k.queens.lost, x)
	k.lost = append(k.lost, x)
}
