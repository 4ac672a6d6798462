package conversation

import (
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// leftWithin is how far back it is told what left a place with signs of foulbrood: about what
// lies between two rounds of a nuc (our choice; whom it concerns the inspector says).
const leftWithin = 60 * 24 * time.Hour

// foulbrood answers who tells of signs of foulbrood. Nothing is logged: whether it is that an
// inspector or a laboratory says. American foulbrood is notifiable nearly everywhere, and what
// carries it is combs, tools, bees and queens' attendants that go from hive to hive
// (Australian Honey Bee Industry Biosecurity Code of Practice 1.0, 2016; common practice).
func (sc *Scene) foulbrood(r *reading) Answer {
	var ans Answer
	where := r.yard
	if where == "" {
		where = r.builder
	}
	if where == "" {
		ans.ask(sc.Voice, "foulbrood")
	} else {
		ans.ask(sc.Voice, "foulbrood_at", "Yard", where)
	}
	if left := sc.leftSince(where); len(left) > 0 {
		ans.say(sc.Voice, "foulbrood_left", "Yard", where, "List", wording.JoinList(left))
	}
	return ans
}

// leftSince words what the log has leave a yard or a builder of late: queens caught, cells moved.
func (sc *Scene) leftSince(where string) (out []string) {
	if where == "" {
		return nil
	}
	for _, b := range sc.model.Batches() {
		for _, e := range sc.model.Effective(rules.BatchSubject(b.Number)) {
			caught := e.Step == rules.Catch && (e.Into == where || e.Into == "" && len(b.Yards) == 1 && b.Yards[0] == where)
			moved := e.Step == rules.Move && b.Builder == where
			if e.Action == rules.Did && (caught || moved) && sc.Look.Now.Sub(e.Happened) < leftWithin {
				out = append(out, sc.Voice.Line(e))
			}
		}
	}
	return out
}
