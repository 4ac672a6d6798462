package conversation

import (
	"math"
	"time"

	"yardbell/rules"
)

// shift says by how much the crew's own cells come out sooner or later than the books say,
// and from how many looks that was learnt; nothing where none teaches.
func (sc *Scene) shift(l *rules.Learnt) (ans Answer) {
	if l == nil {
		return ans
	}
	id, h := "y_as_books", l.Hours()
	switch {
	case h < 0:
		id = "y_sooner"
	case h > 0:
		id = "y_later"
	}
	ans.say(sc.Voice, id, "Hours", int(math.Abs(h)), "Count", l.Looks)
	return ans
}

// emergence says what was learnt of when a batch's queens come out: by its crew's cells, by
// what was seen of its own, and why the look for them is early.
func (sc *Scene) emergence(k rules.Task, b rules.Batch) Answer {
	ans := sc.shift(b.Learnt)
	if own := math.Round(b.Late - b.Learnt.Hours()); k.Step != rules.Move && k.Step != rules.Nucs && own != 0 {
		id := "y_seen_later"
		if own < 0 {
			id = "y_seen_sooner"
		}
		ans.say(sc.Voice, id, "Hours", int(math.Abs(own)))
	}
	if k.Step == rules.Emerge && k.State == rules.Open && b.Teaches(sc.Settings) {
		ans.say(sc.Voice, "y_teach")
	}
	return ans
}

// leastSooner is by how much the close of a move has to come forward for the crew to be told
// at once: less is within what it has for a margin.
const leastSooner = time.Hour

// closesSooner tells of moves whose close came forward by what a line taught; before is the
// scene without it. Whoever planned his day by the old close would be too late.
func (sc *Scene) closesSooner(before *Scene, lines []rules.Entry) (ans Answer) {
	about := map[rules.Subject]bool{}
	for _, e := range lines {
		about[e.Subject] = true
	}
	for _, b := range sc.model.Batches() {
		s := rules.BatchSubject(b.Number)
		now, was := sc.taskOf(s, rules.Move, ""), before.taskOf(s, rules.Move, "")
		if now.State != rules.Open || about[s] || was.Latest.Sub(now.Latest) < leastSooner || !was.Latest.After(sc.Look.Now) {
			continue
		}
		if len(ans.Lines) == 0 {
			ans.add(sc.shift(b.Learnt))
		}
		ans.say(sc.Voice, "e_moves", "Task", sc.Voice.Task(now), "Best", now.Best, "Close", now.Latest)
	}
	return ans
}
