package rules

import (
	"slices"
	"time"
)

// nucs is one run over what happened to the nucs of a yard. No step but those that bring
// nucs in (Add, nucs made up, more told than there were) changes how many there are.
type nucs struct {
	board Board
	looks map[int]int  // how often a batch's queens were looked at for laying
	made  map[int]bool // batches that nucs were made up for here
}

func (k *nucs) take(e *nucEvent) {
	k.forget(e.Happened)
	switch e.Step {
	case Add:
		if e.Count != nil {
			k.said(*e.Count, e.Happened)
		}
	case Nucs:
		if e.Count != nil {
			k.ready(e)
		}
	case Move:
		k.placed(e)
	case Emerge:
		k.emerged(e)
	case Laying:
		k.laying(e)
	case Catch:
		k.caught(e)
	case Recell:
		k.recell(e)
	case Lose:
		k.lose(e)
	case Nuc:
		k.told(e)
	}
}

// forget puts what was told long ago among the nucs of which nothing is known.
func (k *nucs) forget(now time.Time) {
	for i := range k.board.Lots {
		l := &k.board.Lots[i]
		if l.N > 0 && l.State != NucUntold && !l.State.Lost() && now.Sub(l.Since) > NucsTold {
			n := l.N
			l.N = 0
			k.put(NucLot{State: NucUntold, Label: l.Label, Since: l.Since, N: n})
		}
	}
}

// put adds to the lot that stands alike.
func (k *nucs) put(l NucLot) {
	if l.N <= 0 {
		return
	}
	for i := range k.board.Lots {
		x := &k.board.Lots[i]
		if x.N == 0 {
			*x = l // a lot that was used up leaves its place
			return
		}
		if x.State == l.State && x.Batch == l.Batch && x.Line == l.Line && x.Label == l.Label {
			if x.N += l.N; x.Since.Before(l.Since) && x.State != NucCell {
				x.Since = l.Since
			}
			return
		}
	}
	k.board.Lots = append(k.board.Lots, l)
}

// pick says which lots are meant.
type pick func(l *NucLot) bool

func in(s NucState) pick { return func(l *NucLot) bool { return l.State == s } }
func inOf(s NucState, batch int) pick {
	return func(l *NucLot) bool { return l.State == s && l.Batch == batch }
}

// lift takes up to n nucs out of the lots that each pick names in turn, and calls got with
// each part. A numbered nuc is never among them: a bare count does not change it.
func (k *nucs) lift(n int, got func(l NucLot), picks ...pick) (left int) {
	for _, fits := range picks {
		// got may put lots back: what is lifted is found first.
		var parts []NucLot
		for i := range k.board.Lots {
			l := &k.board.Lots[i]
			if n == 0 {
				break
			}
			if l.N == 0 || l.Label != "" || !fits(l) {
				continue
			}
			part := *l
			part.N = min(n, l.N)
			l.N -= part.N
			n -= part.N
			parts = append(parts, part)
		}
		for _, p := range parts {
			got(p)
		}
	}
	return n
}

// as puts what was lifted into one state.
func (k *nucs) as(to NucLot) func(NucLot) {
	return func(l NucLot) {
		to.N = l.N
		k.put(to)
	}
}

func (k *nucs) sum(fits pick) (n int) {
	for i := range k.board.Lots {
		if l := &k.board.Lots[i]; l.Label == "" && fits(l) {
			n += l.N
		}
	}
	return n
}

// said is how many nucs the crew has in the yard: those of which it told nothing more make
// up the difference.
func (k *nucs) said(n int, at time.Time) {
	k.board.Known = true
	k.lift(k.sum(in(NucUntold)), func(NucLot) {}, in(NucUntold))
	k.put(NucLot{State: NucUntold, Since: at, N: n - k.board.Standing()})
}

// ready is nucs made up. As many as the batch has cells are all that it takes, with those
// that stand; fewer are new ones.
func (k *nucs) ready(e *nucEvent) {
	n := *e.Count
	k.made[e.batch] = true
	stands := k.sum(in(NucCaught)) + k.sum(inOf(NucFree, 0))
	if e.batch != 0 && e.need != nil && n >= *e.need {
		n, stands = max(0, n-stands), max(0, stands-n)
	}
	to := NucLot{State: NucFree, Batch: e.batch, Since: e.Happened}
	left := k.lift(n, k.as(to), in(NucUntold))
	if k.board.Known {
		left = max(0, left-stands)
		k.short(e.ID, left)
	}
	to.N = left
	k.put(to)
}

func (k *nucs) short(line int64, n int) {
	if n > 0 {
		k.board.Short = append(k.board.Short, NucShort{line, n})
	}
}

// placed is cells put into nucs: into those made up for the batch, then into those that were
// caught out, which is the re-celling, then into what else is free.
func (k *nucs) placed(e *nucEvent) {
	if e.Count == nil {
		k.board.Uncount = append(k.board.Uncount, e.batch)
		return
	}
	to := NucLot{State: NucCell, Batch: e.batch, Since: e.Happened}
	got := func(l NucLot) {
		if l.State == NucCaught {
			k.again(l.Batch, l.Line, l.N)
		}
		k.as(to)(l)
	}
	left := k.lift(*e.Count, got,
		func(l *NucLot) bool {
			return l.State == NucCell && l.Batch == 0 && e.Happened.Sub(l.Since) <= recellWithin
		},
		inOf(NucFree, e.batch), in(NucCaught), inOf(NucFree, 0), in(NucQueenless), in(NucFree), in(NucUntold))
	if k.board.Known || k.made[e.batch] {
		k.short(e.ID, left)
	}
	to.N = left
	k.put(to)
}

// recellWithin is how far apart a re-celling and the move that it was may be told: they are
// one piece of work. Common practice.
const recellWithin = 48 * time.Hour

func (k *nucs) again(batch int, line int64, n int) {
	for i := range k.board.Recelled {
		if r := &k.board.Recelled[i]; r.Line == line {
			r.N += n
			return
		}
	}
	k.board.Recelled = append(k.board.Recelled, Recelled{batch, line, n})
}

// ofCount picks the nucs of a batch that failed by a count alone: the next count may find
// that they did not.
func ofCount(batch int) pick {
	return func(l *NucLot) bool { return l.State == NucQueenless && l.Batch == batch && l.Line == 0 }
}

// enter has as many nucs hold something of a batch as were counted, where its cells came
// without a number.
func (k *nucs) enter(e *nucEvent, held int) {
	if more := *e.Count - held; more > 0 && slices.Contains(k.board.Uncount, e.batch) {
		to := NucLot{State: NucCell, Batch: e.batch, Since: e.Happened}
		to.N = k.lift(more, k.as(to), inOf(NucFree, e.batch), in(NucCaught), in(NucFree), in(NucUntold))
		k.put(to)
	}
}

// emerged is a count of virgins: in the others of the batch nothing came.
func (k *nucs) emerged(e *nucEvent) {
	b := e.batch
	if k.sum(inOf(NucLaying, b)) > 0 || k.looks[b] > 0 {
		return // she lays: a count told late of what was before
	}
	k.enter(e, k.sum(inOf(NucCell, b))+k.sum(inOf(NucVirgin, b))+k.sum(ofCount(b)))
	others := NucLot{State: NucQueenless, Batch: b, Since: e.Happened}
	if e.Detail.More {
		others.State = NucCell // they are still to come
	}
	k.part(*e.Count, NucLot{State: NucVirgin, Batch: b, Since: e.Happened}, others,
		inOf(NucVirgin, b), inOf(NucCell, b), ofCount(b))
}

// part has n of the picked nucs stand one way and the rest another.
func (k *nucs) part(n int, some, others NucLot, picks ...pick) {
	var all []NucLot
	k.lift(k.sum(func(*NucLot) bool { return true }), func(l NucLot) { all = append(all, l) }, picks...)
	for _, l := range all {
		some.N = min(n, l.N)
		n -= some.N
		others.N = l.N - some.N
		k.put(some)
		k.put(others)
	}
}

// laying is a count of queens that lay. After a first look the others may still be late, of
// the second they are not mated.
func (k *nucs) laying(e *nucEvent) {
	b := e.batch
	k.looks[b]++
	k.enter(e, k.sum(inOf(NucCell, b))+k.sum(inOf(NucVirgin, b))+k.sum(inOf(NucLaying, b))+k.sum(ofCount(b)))
	late := NucLot{State: NucVirgin, Batch: b, Since: e.Happened}
	if k.looks[b] > 1 {
		late.State = NucQueenless
	}
	lay := NucLot{State: NucLaying, Batch: b, Since: e.Happened}
	had := k.sum(inOf(NucLaying, b)) + k.sum(inOf(NucVirgin, b)) + k.sum(inOf(NucCell, b))
	k.part(*e.Count, lay, late, inOf(NucLaying, b), inOf(NucVirgin, b), inOf(NucCell, b))
	k.lift(max(0, *e.Count-had), k.as(lay), ofCount(b))
}

func (k *nucs) caught(e *nucEvent) {
	n := 0
	if e.Count != nil {
		n = *e.Count
	}
	b := e.batch
	to := NucLot{State: NucCaught, Batch: b, Line: e.ID, Since: e.Happened}
	to.N = k.lift(n, k.as(to), inOf(NucLaying, b), inOf(NucVirgin, b), inOf(NucCell, b), inOf(NucQueenless, b), in(NucUntold))
	k.put(to)
}

// recell is caught nucs that have a cell again, of which batch it does not say. Where the
// move of the next batch was told first, they are among its own.
func (k *nucs) recell(e *nucEvent) {
	n := k.sum(inOf(NucCaught, e.batch))
	if e.Count != nil {
		n = *e.Count
	}
	to := NucLot{State: NucCell, Since: e.Happened}
	k.lift(n, func(l NucLot) {
		k.again(l.Batch, l.Line, l.N)
		k.as(to)(l)
	}, inOf(NucCaught, e.batch), in(NucCaught))
}

// lostAs are the causes of a loss that take the nuc and not its queen alone.
var lostAs = map[string]NucState{CauseRobbed: NucRobbed, CauseAbsconded: NucAbsconded}

func (k *nucs) lose(e *nucEvent) {
	to := NucLot{State: NucQueenless, Batch: e.batch, Line: e.ID, Since: e.Happened}
	if s, gone := lostAs[e.Detail.Cause]; gone {
		to.State = s
	}
	if e.lost != nil {
		k.leave(e.lost.Count, to)
		return
	}
	if to.State == NucQueenless {
		to.State = NucDead
	}
	n := 1
	switch {
	case e.Detail.All:
		n = k.sum(func(l *NucLot) bool { return !l.State.Lost() })
	case e.Count != nil:
		n = *e.Count
	}
	k.leave(n, to)
}

// leave has nucs go over into what is told of them: those of the batch it names, the
// furthest first, else those that hold nothing of any.
func (k *nucs) leave(n int, to NucLot) {
	left := k.lift(n, k.as(to), picksFor(to)...)
	if left > 0 {
		if all := k.board.Batches(); len(all) == 1 {
			left = k.lift(left, k.as(to), inOf(NucLaying, all[0]), inOf(NucVirgin, all[0]), inOf(NucCell, all[0]))
		}
	}
	to.N = left
	k.put(to)
}

// picksFor are the nucs that come to a state.
func picksFor(to NucLot) []pick {
	var picks []pick
	if b := to.Batch; b != 0 {
		picks = append(picks, inOf(NucLaying, b), inOf(NucVirgin, b), inOf(NucCell, b), ofCount(b))
		if to.State == NucQueenless || to.State == NucDroneLayer || to.State == NucWorkers {
			picks[0], picks[1] = picks[1], picks[0] // seen before she lays
		}
	}
	switch to.State {
	case NucQueenless:
		return append(picks, in(NucUntold), in(NucFree), in(NucCaught))
	case NucCombined:
		picks = append(picks, in(NucWorkers), in(NucDroneLayer))
	}
	return append(picks, in(NucQueenless), in(NucCaught), in(NucFree), in(NucUntold))
}

// told is what is said of nucs beyond a batch's counts.
func (k *nucs) told(e *nucEvent) {
	to := NucLot{State: e.Detail.State, Batch: e.Detail.Batch, Line: e.ID, Since: e.Happened}
	if _, number := NucOf(e.Subject); number != "" {
		k.label(number, to)
		return
	}
	n := 1
	if e.Count != nil {
		n = *e.Count
	}
	if to.State == NucFree {
		k.free(n, e)
		return
	}
	k.leave(n, to)
}

// free is a count of the nucs that a cell can be given to, which may find more or fewer than
// the log has.
func (k *nucs) free(n int, e *nucEvent) {
	to := NucLot{State: NucFree, Since: e.Happened}
	has := k.sum(func(l *NucLot) bool { return l.State == NucFree || l.State == NucCaught })
	if n < has {
		k.lift(has-n, k.as(NucLot{State: NucUntold, Since: e.Happened}), inOf(NucFree, 0), in(NucFree), in(NucCaught))
		return
	}
	k.lift(k.sum(inOf(NucFree, 0)), k.as(to), inOf(NucFree, 0)) // seen anew
	to.N = k.lift(n-has, k.as(to), in(NucUntold), in(NucQueenless))
	if k.board.Known {
		k.short(e.ID, to.N)
	}
	k.put(to)
}

// label is what is told of one nuc by its number, which no bare count changes from then on.
func (k *nucs) label(number string, to NucLot) {
	to.Label, to.N = number, 1
	for i := range k.board.Lots {
		l := &k.board.Lots[i]
		if l.N > 0 && l.Label == number {
			if to.Batch == 0 {
				to.Batch = l.Batch
			}
			l.N = 0
			k.put(to)
			return
		}
	}
	picks := picksFor(to)
	if to.State.Living() || to.Batch == 0 {
		// First it says which of those that are known they are.
		picks = append([]pick{func(l *NucLot) bool { return l.State == to.State && (to.Batch == 0 || l.Batch == to.Batch) }}, picks...)
	}
	k.lift(1, func(l NucLot) {
		if to.Batch == 0 {
			to.Batch = l.Batch
		}
	}, picks...)
	k.put(to)
}
