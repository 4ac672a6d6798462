package rules

import (
	"strings"
	"time"
)

// Causes of a loss, as the logbook has them; CauseDied is a breeder's.
const (
	CauseDropped   = "dropped"
	CauseDead      = "dead"
	CauseChilled   = "chilled"
	CauseHeat      = "heat"
	CauseVirgin    = "virgin" // killed by one that came out
	CauseRobbed    = "robbed"
	CauseAbsconded = "absconded"
	CauseOther     = "other"
)

// Causes of a loss, in the order in which they are shown.
var Causes = []string{CauseDropped, CauseDead, CauseChilled, CauseHeat, CauseVirgin, CauseRobbed, CauseAbsconded, CauseOther}

// Lot is cells of a batch that stand in one place and are in no nuc yet. A temperature
// counts for a lot from when it went in, which is why a lot knows where it was before.
type Lot struct {
	Place string     // name of the builder, or incubator, as in Entry.Into; "" where it is not known
	Count *int       // nil where nobody counted
	Since time.Time  // UTC, when they went in
	Stays []CellStay // where they were before, in order
	Effect
	Singly bool // they are caged one by one
}

// CellStay is a time that cells spent in one place.
type CellStay struct {
	Place    string
	From, To time.Time // UTC
}

// incubatorPrefix begins the name of an incubator where a place is named: no builder and
// no yard may be called so.
const incubatorPrefix = "incubator "

// IncubatorPlace is the name of an incubator as a place.
func IncubatorPlace(key string) string { return incubatorPrefix + key }

// PlaceSubject is the subject that a place's name stands for: an incubator, else a builder.
func PlaceSubject(place string) Subject {
	if key, ok := strings.CutPrefix(place, incubatorPrefix); ok {
		return IncubatorSubject(key)
	}
	return BuilderSubject(place)
}

// Loss is cells, virgins or queens that were lost.
type Loss struct {
	Line  int64 // the entry that said so
	At    time.Time
	Stage Step   // the newest count before it: what they were counted as
	Where string // place or yard, "" where it was not said and could be several
	Count int
	Cause string // CauseDropped …, "" where none was said
}

// StageCount is a count at a step, and what was lost from it until the next.
type StageCount struct {
	Step  Step
	Count int
	At    time.Time
	Line  int64 // the entry that said so; of a sum the newest
	Lost  int
}

// before reports whether a count stood when something was lost: of one minute the order in
// which they were told decides.
func (s StageCount) before(x Loss) bool {
	return s.At.Before(x.At) || s.At.Equal(x.At) && s.Line < x.Line
}

// Tally follows cells or queens from count to count. At every stage
//
//	count before = missing at this count + lost in between + count
//
// and of the last count what is neither lost nor moved on is present. A count that was
// never given is no stage: unknown, not an imbalance.
type Tally struct {
	Stages  []StageCount
	Out     int  // moved on: cells to nucs, queens caught
	Untold  bool // some moved on, and nobody said how many
	Unfixed int  // lost while no count was known
}

// Present is how many are still there, nil where it is not known.
func (t Tally) Present() *int {
	if len(t.Stages) == 0 || t.Untold {
		return nil
	}
	last := t.Stages[len(t.Stages)-1]
	n := last.Count - last.Lost - t.Out
	return &n
}

// Missing is how many fewer were counted at a step than stood at the count before it,
// ok false where either is not known. It is negative where more were counted than can be.
func (t Tally) Missing(step Step) (n int, ok bool) {
	for i, s := range t.Stages {
		if s.Step == step && i > 0 {
			before := t.Stages[i-1]
			return before.Count - before.Lost - s.Count, true
		}
	}
	return 0, false
}

// Lost is how many were reported lost, at all stages.
func (t Tally) Lost() int {
	n := t.Unfixed
	for _, s := range t.Stages {
		n += s.Lost
	}
	return n
}

// Count at a step, nil where none is known.
func (t Tally) Count(step Step) *int {
	for i := range t.Stages {
		if t.Stages[i].Step == step {
			return &t.Stages[i].Count
		}
	}
	return nil
}

// YardTally is what became of the cells that a batch has in one yard.
type YardTally struct {
	Yard string // "" where it was not said
	Tally
}

// Account is where all of a batch is, and where it went.
type Account struct {
	Cells  Tally // graft, accept, capped; on to the nucs
	Lots   []Lot
	Moved  []Lot       // cells that went to nucs, with the places they were in before
	Queens Tally       // move, emerge, laying over all yards; out by being caught
	Yards  []YardTally // the same by yard
	Lost   []Loss
	Short  int // cells said to leave a place that did not hold so many
}

// At is the account of a yard, of one that holds nothing of the batch an empty one.
func (a Account) At(yard string) Tally {
	for _, y := range a.Yards {
		if y.Yard == yard {
			return y.Tally
		}
	}
	return Tally{}
}

// LostAt is how many of a stage's count were lost before the next.
func (t Tally) LostAt(step Step) int {
	for _, s := range t.Stages {
		if s.Step == step {
			return s.Lost
		}
	}
	return 0
}

// Untold are the yards of which a count is still to come at a step that others have been
// counted at, and how many cells or queens those hold.
func (a Account) Untold(step Step) (yards []string, n *int) {
	told := false
	for _, y := range a.Yards {
		switch {
		case y.Count(step) != nil:
			told = true
		case !y.none():
			yards, n = append(yards, y.Yard), plus(n, y.Present())
		}
	}
	if !told {
		return nil, nil
	}
	return yards, n
}

// none reports whether it is known that nothing is there any more.
func (t Tally) none() bool {
	p := t.Present()
	return p != nil && *p <= 0
}

// stage is the count at a step, nil where there is none.
func (t Tally) stage(step Step) *StageCount {
	for i := range t.Stages {
		if t.Stages[i].Step == step {
			return &t.Stages[i]
		}
	}
	return nil
}

// Standing is how many cells stand in builders and incubators, nil where it is not known.
func (a Account) Standing() *int { return a.Cells.Present() }

// lostSince is what was lost of the newest count of those that wait for a step.
func (a Account) lostSince(step Step) int {
	t := a.Cells
	if step != Move {
		t = a.Queens
	}
	if len(t.Stages) == 0 {
		return 0
	}
	return t.Stages[len(t.Stages)-1].Lost
}

// lostAll reports that nothing is left, and that some of it was lost.
func (a Account) lostAll() bool {
	if len(a.Lost) == 0 || len(a.Lots) > 0 {
		return false
	}
	if len(a.Yards) == 0 {
		return true
	}
	left := a.Queens.Present()
	return left != nil && *left <= 0 && a.Queens.Out == 0
}
