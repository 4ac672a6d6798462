package bot

import (
	rdg "yardbell/bot/reading"
)

// untold answers what was understood and is no line of the log: work that lies ahead. It
// reports false for all else.
func (t *talk) untold(res rdg.Result) (bool, error) {
	if len(res.Acts) == 0 {
		return false, nil
	}
	r := t.asReading(res.Acts[0])
	r.addressed = t.addressed || t.replied != nil
	if has(res.Doubts, rdg.DoubtAhead) {
		r.ahead = true
		return t.ahead(r), nil
	}
	if has(res.Doubts, rdg.DoubtGoing) {
		r.going = true
		return t.ahead(r), nil
	}
	return false, nil
}
