package conversation

import (
	"cmp"
	"slices"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// Answers to what is asked about nucs, as options of a button.
const (
	nucNumbered = "nuc_number" // the number is that of a nuc
	nucCounted  = "nuc_count"  // the number counts nucs
	nucNobody   = "nuc_nobody" // they held nothing of a batch
	nucMore     = "nuc_more"   // beside those in the log
	nucInAll    = "nuc_in_all" // with those in the log
)

// nucs logs what is told of nucs beyond the counts of a batch: of some of a yard, or of those
// the crew numbers.
func (sc *Scene) nucs(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	ans.Step = e.Step
	q, yard, ok := sc.nucYard(r)
	ans.add(q)
	if !ok {
		return ans, nil
	}
	e.Subject, e.Into = rules.YardSubject(yard), ""
	ans.Subject = e.Subject
	board := sc.model.Board(yard)
	labels := r.labels
	if len(labels) == 1 && e.Count != nil {
		if _, known := board.Label(labels[0]); !known && !sc.opt.anyway[nucNumbered] && !sc.opt.anyway[nucCounted] {
			ans.ask(sc.Voice, "ask_nuc_number", "Number", labels[0], "Yard", yard, "State", sc.Voice.Nuc(e.Detail.State, nil), "Count", *e.Count)
			ans.offer(sc.Voice, "b_nuc_number", sc.rerun("anyway="+nucNumbered), "Number", labels[0])
			ans.offer(sc.Voice, "b_nuc_count", sc.rerun("anyway="+nucCounted), "Count", *e.Count)
			ans.offer(sc.Voice, "b_no", "no")
			return ans, nil
		}
		if sc.opt.anyway[nucCounted] {
			labels = nil
		}
	}
	if len(labels) > 0 {
		return ans.then(sc.numbered(r, e, board, labels))
	}
	if e.Count == nil {
		n := 1
		e.Count = &n
	}
	if stop := ans.is(sc.nucsTold(&e, board)); stop {
		return ans, nil
	}
	if bad := sc.allowed(rules.CheckNucs(e, board)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	q, batch, ok := sc.nucBatch(r, e, board, *e.Count)
	ans.add(q)
	if !ok {
		return ans, nil
	}
	e.Detail.Batch = batch
	sc, done, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoNucs(yard, done)), nil
}

// numbered logs what is told of single nucs by their number, a line for each.
func (sc *Scene) numbered(r *reading, e rules.Entry, board rules.Board, labels []string) (Answer, error) {
	var ans Answer
	var lines []rules.Entry
	asked, left := 0, board.Unnumbered(e.Detail.State) // of those without a number some have one now
	for _, l := range labels {
		x := e
		x.Subject, x.Count = rules.NucSubject(board.Yard, l), nil
		lot, known := board.Label(l)
		switch {
		case known && lot.State == e.Detail.State:
			continue // in the log
		case known:
			if lot.State.Living() {
				x.Detail.Batch = lot.Batch
			}
		case left > 0:
			left--
		default:
			asked++
			x.Detail.Batch = -1 // whose, is asked below
		}
		lines = append(lines, x)
	}
	if len(lines) == 0 {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(rules.Entry{Action: rules.Did, Step: e.Step, Subject: rules.NucSubject(board.Yard, labels[0]), Detail: e.Detail}))
		return ans, nil
	}
	if asked > 0 {
		q, batch, ok := sc.nucBatch(r, e, board, asked)
		ans.add(q)
		if !ok {
			return ans, nil
		}
		for i := range lines {
			if lines[i].Detail.Batch < 0 {
				lines[i].Detail.Batch = batch
			}
		}
	}
	sc, done, err := sc.log(&ans, lines...)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoNucs(board.Yard, done)), nil
}

// nucYard finds the yard that nucs are told of in: named, of the message replied to, of the
// batch that is named, or the only one.
func (sc *Scene) nucYard(r *reading) (ans Answer, yard string, ok bool) {
	if y := cmp.Or(sc.opt.yard, r.yard); y != "" {
		return ans, y, true
	}
	if s, ok := sc.context(rules.YardKind); ok {
		return ans, s.Key, true
	}
	list := sc.names().yards
	if b, found := sc.model.Batch(r.batch); found && len(b.Yards) > 0 {
		list = b.Yards
	}
	if len(list) == 1 {
		return ans, list[0], true
	}
	ans.ask(sc.Voice, "ask_nuc_yard")
	for _, y := range list[:min(len(list), mostButtons)] {
		ans.Buttons = append(ans.Buttons, wording.Button(y, sc.rerun("yard="+y)))
	}
	return ans, "", false
}

// nucsTold asks where the same may be told again: of nucs without a queen whether it is those
// that the log has, of others within the hours in which two people tell of one thing.
func (sc *Scene) nucsTold(e *rules.Entry, board rules.Board) (ans Answer, stop bool) {
	n := *e.Count
	has := board.Unnumbered(rules.NucQueenless)
	switch {
	case e.Detail.State == rules.NucFree || n == 0 || sc.opt.anyway[nucMore]:
		return ans, false
	case e.Detail.State == rules.NucQueenless && has > 0 && sc.opt.anyway[nucInAll] && n > has:
		left := n - has
		e.Count = &left
		return ans, false
	case e.Detail.State == rules.NucQueenless && has > 0:
		ans.ask(sc.Voice, "ask_nuc_more", "Yard", board.Yard, "Has", has, "Count", n)
		ans.offer(sc.Voice, "b_nuc_more", sc.rerun("anyway="+nucMore), "Count", n)
		if n > has {
			ans.offer(sc.Voice, "b_nuc_in_all", sc.rerun("anyway="+nucInAll), "Count", n)
		}
		ans.offer(sc.Voice, "b_no", "no")
		return ans, true
	}
	for _, old := range slices.Backward(sc.model.Effective(e.Subject)) {
		if old.Action == rules.Did && old.Step == e.Step && old.Detail.State == e.Detail.State && equal(old.Count, e.Count) && e.Happened.Sub(old.Happened).Abs() <= toldWithin {
			ans.ask(sc.Voice, "ask_nuc_again", "What", wording.Upper(sc.Voice.Line(old)), "By", old.By, "When", old.Happened)
			ans.offer(sc.Voice, "b_second", sc.rerun("anyway="+nucMore))
			ans.offer(sc.Voice, "b_no", "no")
			return ans, true
		}
	}
	return ans, false
}

// nucBatch finds whose cells or queens were in nucs that are told of, 0 for nobody's. Of two
// batches it is the one whose look is due; where that does not say, it asks.
func (sc *Scene) nucBatch(r *reading, e rules.Entry, board rules.Board, n int) (ans Answer, batch int, ok bool) {
	s := e.Detail.State
	if s == rules.NucFree || s == rules.NucCaught || n == 0 || sc.opt.anyway[nucNobody] {
		return ans, 0, true
	}
	if r.batch != 0 {
		return ans, r.batch, true
	}
	if sc.opt.subject.Kind == rules.BatchKind {
		return ans, sc.opt.subject.Number(), true
	}
	list := board.Batches()
	empty := board.Free()
	switch {
	case len(list) == 0:
		return ans, 0, true
	case (s == rules.NucCombined || s == rules.NucWorkers) && empty+board.Count(rules.NucWorkers)+board.Count(rules.NucDroneLayer) >= n:
		return ans, 0, true // where no queen is
	case s == rules.NucQueenless:
		empty = 0 // it had one
	}
	if len(list) > 1 {
		var due []int
		for _, k := range sc.open() {
			looked := k.Step == rules.Emerge || k.Step == rules.Laying || k.Step == rules.Catch
			if looked && slices.Contains(list, k.Batch) && !slices.Contains(due, k.Batch) && e.Happened.After(k.Earliest.Add(-12*time.Hour)) && e.Happened.Before(k.Latest) {
				due = append(due, k.Batch)
			}
		}
		if len(due) == 1 {
			list = due
		}
	}
	if len(list) == 1 && empty < n {
		return ans, list[0], true
	}
	ans.ask(sc.Voice, "ask_nuc_batch", "Yard", board.Yard)
	for _, b := range list[:min(len(list), mostButtons)] {
		subject := rules.BatchSubject(b)
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Head(subject), sc.rerun("subject="+subject.String())))
	}
	if empty > 0 {
		ans.offer(sc.Voice, "b_nuc_nobody", sc.rerun("anyway="+nucNobody))
	}
	return ans, 0, false
}

// echoNucs says what was logged of a yard's nucs and how they stand now.
func (sc *Scene) echoNucs(yard string, done []rules.Entry) Answer {
	var ans Answer
	var said []string
	for _, e := range done {
		said = append(said, sc.Voice.Line(e))
	}
	ans.say(sc.Voice, "e_nuc", "What", wording.Upper(wording.JoinList(said)))
	board := sc.model.Board(yard)
	ans.say(sc.Voice, "e_nuc_now", "Yard", yard, "Board", sc.Voice.Board(board, sc.Look.Now))
	if n := board.ShortOf(done[len(done)-1].ID); n > 0 {
		ans.say(sc.Voice, "w_nucs_more", "Count", n, "Yard", yard)
	}
	ans.add(sc.covered(yard))
	return ans
}

// covered says what nucs are still to be made up for cells that come, where some stand free
// in the yard.
func (sc *Scene) covered(yard string) Answer {
	var ans Answer
	for _, b := range sc.model.Batches() {
		k := sc.taskOf(rules.BatchSubject(b.Number), rules.Nucs, "")
		if k.Count == nil || b.Ended || !slices.ContainsFunc(rules.FreeNucs(k), func(x rules.NucsAt) bool { return x.Yard == yard }) || !sc.Look.Now.Before(k.Latest) {
			continue
		}
		switch k.State {
		case rules.Open:
			ans.say(sc.Voice, "e_nucs_cover", "Batch", sc.Voice.Head(k.Subject), "Free", sc.Voice.FreeNucs(k), "Count", *k.Count, "Close", k.Latest)
		case rules.Passed:
			ans.say(sc.Voice, "e_nucs_covered", "Batch", sc.Voice.Head(k.Subject), "Free", sc.Voice.FreeNucs(k))
		}
	}
	return ans
}
