package bot

import (
	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// untold answers what was understood and is no line of the log: work that lies ahead. It
// reports false for all else.
func (t *talk) untold(res rdg.Result) (bool, error) {
	if len(res.Acts) == 0 {
		return false, nil
	}
	switch {
	case has(res.Doubts, rdg.DoubtAhead):
		return t.ahead(res.Acts[0], true), nil
	case has(res.Doubts, rdg.DoubtGoing):
		return t.ahead(res.Acts[0], false), nil
	}
	return false, nil
}

// ahead answers somebody who says to the bot that work lies ahead, or is under way. Under
// its ping they may be on their way; what lies ahead is not offered to be logged.
func (t *talk) ahead(a rdg.Act, ahead bool) bool {
	if !t.addressed && t.replied == nil {
		return false
	}
	if k, ok := t.contextTask(); ok && t.toPing() && k.Step == a.Step && k.State == rules.Open {
		t.askDone(k)
		return true
	}
	if ahead {
		t.fail("r_ahead", "Example", t.example(t.asReading(a)))
	}
	return ahead
}
