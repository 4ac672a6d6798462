package rules

import (
	"slices"
	"strings"
	"time"
)

// Nuc is the state of standing nucs, beyond the counts of a batch.
const Nuc Step = "nuc"

// NucKind is one nuc that the crew numbers, "nuc North 3".
const NucKind Kind = "nuc"

// NucSubject is the nuc with that number in a yard. The number is the last word of its key.
func NucSubject(yard, number string) Subject { return Subject{NucKind, yard + " " + number} }

// NucOf splits the key of a numbered nuc into its yard and its number.
func NucOf(s Subject) (yard, number string) {
	i := strings.LastIndexByte(s.Key, ' ')
	if s.Kind != NucKind || i < 0 {
		return "", ""
	}
	return s.Key[:i], s.Key[i+1:]
}

// NucState is what a nuc holds, or how it was lost.
type NucState string

// The states of a nuc. Of the first it is not told what they hold; from NucRobbed on they
// are lost to the crew until they are made up anew.
const (
	NucUntold    NucState = "untold"
	NucFree      NucState = "free"
	NucCell      NucState = "cell"
	NucVirgin    NucState = "virgin"
	NucLaying    NucState = "laying"
	NucCaught    NucState = "caught"
	NucQueenless NucState = "queenless" // its cell or its queen failed

	NucRobbed     NucState = "robbed"
	NucAbsconded  NucState = "absconded"
	NucCombined   NucState = "combined"
	NucDroneLayer NucState = "drone_layer"
	NucWorkers    NucState = "laying_workers"
	NucDead       NucState = "dead"
)

// NucStates are all states in the order in which they are shown.
var NucStates = []NucState{NucFree, NucCaught, NucQueenless, NucCell, NucVirgin, NucLaying, NucUntold,
	NucRobbed, NucAbsconded, NucCombined, NucDroneLayer, NucWorkers, NucDead}

var lostStates = map[NucState]bool{NucRobbed: true, NucAbsconded: true, NucCombined: true, NucDroneLayer: true, NucWorkers: true, NucDead: true}

// Lost reports whether a nuc in the state is lost to the crew.
func (s NucState) Lost() bool { return lostStates[s] }

// Living reports whether a nuc in the state holds a cell or a queen of a batch.
func (s NucState) Living() bool { return s == NucCell || s == NucVirgin || s == NucLaying }

// Open reports whether a cell can be given to a nuc in the state.
func (s NucState) Open() bool { return s == NucFree || s == NucCaught || s == NucQueenless }

// NucLot is nucs of one yard that stand alike.
type NucLot struct {
	State NucState
	Batch int       // whose cell or queen it holds, or held last; of free ones which it was made up for; 0 for none
	Line  int64     // the catch that emptied them, or the line that told of the loss
	Label string    // the crew's number; N is 1 then
	Since time.Time // UTC
	N     int
}

// Recelled is how many of the nucs that a catch emptied have a cell again.
type Recelled struct {
	Batch int
	Line  int64 // the catch
	N     int
}

// NucShort is a line that put more cells into nucs, or made more of them ready, than the log
// has for it.
type NucShort struct {
	Line int64
	N    int
}

// Board is the nucs of a yard, each of them in one lot.
type Board struct {
	Yard     string
	Known    bool // the crew said how many it has there
	Lots     []NucLot
	Recelled []Recelled
	Short    []NucShort
	Unsplit  []int // batches of which a later count is of several yards together
	Uncount  []int // batches whose cells came without a number
}

// Count is how many nucs are in a state.
func (b Board) Count(s NucState) (n int) {
	return b.count(func(l *NucLot) bool { return l.State == s })
}

// Of is how many nucs in a state hold something of a batch.
func (b Board) Of(s NucState, batch int) int {
	return b.count(func(l *NucLot) bool { return l.State == s && l.Batch == batch })
}

// Unnumbered is how many nucs in a state have no number.
func (b Board) Unnumbered(s NucState) int {
	return b.count(func(l *NucLot) bool { return l.State == s && l.Label == "" })
}

// Standing is how many nucs stand, all but those that were lost.
func (b Board) Standing() int { return b.count(func(l *NucLot) bool { return !l.State.Lost() }) }

// Lost is how many nucs were lost.
func (b Board) Lost() int { return b.count(func(l *NucLot) bool { return l.State.Lost() }) }

// Living is how many nucs hold a cell or queen of a batch.
func (b Board) Living(batch int) int {
	return b.count(func(l *NucLot) bool { return l.State.Living() && l.Batch == batch })
}

// Free is how many nucs a cell can be given to, those without a queen among them.
func (b Board) Free() int { return b.count(func(l *NucLot) bool { return l.State.Open() }) }

func (b Board) count(fits func(*NucLot) bool) (n int) {
	for i := range b.Lots {
		if fits(&b.Lots[i]) {
			n += b.Lots[i].N
		}
	}
	return n
}

// Batches are those of which a cell or queen stands in the yard, by number.
func (b Board) Batches() (out []int) {
	for _, l := range b.Lots {
		if l.State.Living() && l.Batch != 0 && !slices.Contains(out, l.Batch) {
			out = append(out, l.Batch)
		}
	}
	slices.Sort(out)
	return out
}

// Label finds the nuc of a number.
func (b Board) Label(number string) (NucLot, bool) {
	i := slices.IndexFunc(b.Lots, func(l NucLot) bool { return l.Label == number })
	if i < 0 {
		return NucLot{}, false
	}
	return b.Lots[i], true
}

// ShortOf is how many nucs a line was short of.
func (b Board) ShortOf(line int64) int {
	for _, s := range b.Short {
		if s.Line == line {
			return s.N
		}
	}
	return 0
}

// recelled is how many nucs of a catch have a cell again.
func (b Board) recelled(line int64) int {
	for _, r := range b.Recelled {
		if r.Line == line {
			return r.N
		}
	}
	return 0
}

// NucsTold is how long what is told of a nuc holds: a season's nucs are combined or made up
// anew by the next. Our choice.
const NucsTold = 90 * 24 * time.Hour

// FreeFor is how long before the move a nuc may have stood without a queen and still count
// for the cells: left alone longer it has a virgin of its own, from an emergency cell
// (about 12 to 13 days; memory).
const FreeFor = 14 * 24 * time.Hour

// nucEvent is one thing that happened to nucs of a yard.
type nucEvent struct {
	*Entry
	batch int
	need  *int  // nucs: how many cells the batch had by then
	lost  *Loss // a loss as the batch's account has it
}

// YardLines are the lines about a yard itself and about its numbered nucs, as they count.
type YardLines struct {
	Own, Numbered []Entry
}

// BoardOf is the board of a yard: its own lines and those of the batches that have nucs
// there, in the order in which things happened.
func BoardOf(yard string, own YardLines, batches []Batch, entries func(batch int) []Entry) Board {
	k := nucs{board: Board{Yard: yard}, looks: map[int]int{}, made: map[int]bool{}}
	list := k.events(own, batches, entries)
	for i := range list {
		k.take(&list[i])
	}
	if k.board.Lots = slices.DeleteFunc(k.board.Lots, func(l NucLot) bool { return l.N == 0 }); len(k.board.Lots) == 0 {
		k.board.Lots = nil
	}
	return k.board
}

// events are all things that happened to the nucs of the yard, in order.
func (k *nucs) events(own YardLines, batches []Batch, entries func(batch int) []Entry) (list []nucEvent) {
	told := map[int64]bool{}
	for _, lines := range [][]Entry{own.Own, own.Numbered} {
		for i := range lines {
			if e := &lines[i]; e.Action == Did {
				list = append(list, nucEvent{Entry: e})
				told[e.ID] = true
			}
		}
	}
	for _, b := range batches {
		if has(b.Yards, k.board.Yard) {
			list = append(list, k.ofBatch(b, k.board.Yard, entries(b.Number), told)...)
		}
	}
	slices.SortFunc(list, func(a, b nucEvent) int {
		switch {
		case before(a.Entry, b.Entry):
			return -1
		case before(b.Entry, a.Entry):
			return 1
		}
		return 0
	})
	return list
}

// ofBatch are the things that a batch's lines tell of one of its yards. A count of a batch
// that stands in several is of this yard where it says so alone: it is never split.
func (k *nucs) ofBatch(b Batch, yard string, entries []Entry, told map[int64]bool) (out []nucEvent) {
	var need *int
	only := func() bool { return len(b.Yards) == 1 }
	for i := range entries {
		e := &entries[i]
		if e.Action != Did {
			continue
		}
		here := e.Into == yard || e.Into == "" && only()
		switch e.Step {
		case Graft, Accept, Capped:
			if e.Count != nil {
				need = e.Count
			}
		case Nucs, Move:
			if e.Into == yard {
				out = append(out, nucEvent{Entry: e, batch: b.Number, need: need})
			}
		case Emerge, Laying:
			switch {
			case e.Detail.NoneYet || e.Count == nil:
			case only() || e.Detail.Part && here:
				out = append(out, nucEvent{Entry: e, batch: b.Number})
			case !e.Detail.Part && !slices.Contains(k.board.Unsplit, b.Number):
				k.board.Unsplit = append(k.board.Unsplit, b.Number)
			}
		case Catch, Recell:
			if here {
				out = append(out, nucEvent{Entry: e, batch: b.Number})
			}
		case Lose:
			for j := range b.Account.Lost {
				x := &b.Account.Lost[j]
				ofQueens := x.Stage == Move || x.Stage == Emerge || x.Stage == Laying
				if x.Line == e.ID && !told[x.Line] && ofQueens && (x.Where == yard || x.Where == "" && only()) {
					out = append(out, nucEvent{Entry: e, batch: b.Number, lost: x})
				}
			}
		}
	}
	return out
}
