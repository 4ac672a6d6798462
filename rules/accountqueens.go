package rules

import "slices"

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
	if k.byYard[name] == nil && len(k.yards) == 1 && (name == "" || k.yards[0] == "") {
		return k.byYard[k.yards[0]] // cells that went nobody said where are in the yard that is named now
	}
	if name == "" {
		return k.byYard[""]
	}
	return k.at(name)
}

// look is a count of queens. One that is of a yard alone says so (Part); a line without
// that is a count of the batch, which is what all lines meant before yards were counted.
func (k *accounting) look(e *Entry) {
	if e.Detail.Part {
		k.part = true
		k.at(e.Into).set(e.Step, e.Count, e)
		return
	}
	k.whole = true
	k.queens.set(e.Step, e.Count, e)
	if len(k.yards) == 1 {
		k.byYard[k.yards[0]].set(e.Step, e.Count, e)
	}
}

// together has the batch counted at a step once every yard is: what was lost in a yard since
// its own count would else be missing twice, or not at all. A yard that holds none any more
// keeps no other waiting.
func (k *accounting) together(a *Account) {
	t := Tally{Out: k.queens.out, Untold: k.queens.untold}
	last := -1 // place in queenStages of the newest stage of t
	for i, step := range queenStages {
		sum := StageCount{Step: step}
		all := true
		for _, y := range a.Yards {
			switch c := y.stage(step); {
			case c != nil:
				sum.Count += c.Count
				if !c.At.Before(sum.At) {
					sum.At, sum.Line = c.At, c.Line
				}
			default:
				all = all && y.none()
			}
		}
		if !all || sum.At.IsZero() {
			continue
		}
		t.Stages, last = append(t.Stages, sum), i
	}
	if k.whole {
		k.mixed(a, t)
		return
	}
	if last < 0 {
		return
	}
	for _, y := range a.Yards {
		for _, s := range y.Stages {
			for i := range slices.Backward(t.Stages) {
				if slices.Index(queenStages, t.Stages[i].Step) <= slices.Index(queenStages, s.Step) {
					t.Stages[i].Lost += s.Lost
					break
				}
			}
		}
	}
	rest := 0 // lost where nobody said
	for _, x := range k.queens.lost {
		rest += x.Count
	}
	for _, y := range a.Yards {
		rest -= y.Lost()
	}
	t.Stages[len(t.Stages)-1].Lost += rest
	a.Queens = t
}

// mixed takes the sums of the yards for those steps that were never counted as a batch.
func (k *accounting) mixed(a *Account, sums Tally) {
	for _, s := range sums.Stages {
		if _, counted := k.queens.counts[s.Step]; !counted {
			k.queens.set(s.Step, &s.Count, &Entry{ID: s.Line, Happened: s.At})
		}
	}
	a.Queens = k.queens.tally(queenStages)
}

// lostQueens takes what a line says is lost from the yard it names, else from the only one;
// a batch that is lost whole from each.
func (k *accounting) lostQueens(e *Entry, x Loss) {
	n := countOrAll(e)
	if n == nil && e.Into == "" {
		for _, name := range k.yards {
			y := k.byYard[name]
			if p := y.tally(queenStages).Present(); p != nil && *p > 0 {
				x.Where, x.Count, x.Stage = name, *p, y.stageAt(queenStages, e)
				y.lost = append(y.lost, x)
				k.queens.lost = append(k.queens.lost, x)
				k.lost = append(k.lost, x)
			}
		}
		return
	}
	y := k.yard(e.Into)
	x.Stage = k.queens.stageAt(queenStages, e)
	if y != nil {
		x.Stage = y.stageAt(queenStages, e)
	}
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
