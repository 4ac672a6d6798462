package bot

import (
	"yardbell/rules"
)

// What one part of a message says for the others: its batch, its time.

// shareBatch: a batch named at the head holds for what follows, and one named at
// the end for the parts of one deed.
func shareBatch(parts []part) {
	head := parts[0].r
	if last := parts[len(parts)-1]; head.batch == 0 && last.carried && last.r.batch != 0 {
		for i := len(parts) - 2; i >= 0 && parts[i+1].carried && parts[i].r.batch == 0; i-- {
			parts[i].r.batch = last.r.batch // "20 to North and 14 to Creek, batch 1"
		}
		return
	}
	if head.batch == 0 {
		return
	}
	for _, p := range parts[1:] {
		r := p.r
		if r.verb == doStep && r.batch == 0 && r.step != rules.Graft && stepTakes[r.step][rules.BatchKind] && r.step != rules.Feed {
			r.batch = head.batch
		} else if r.batch != 0 {
			return
		}
	}
}

// shareTime: a time said once at the head or the end holds for all, and so does a
// day beside times of their own. It reports false where it stays open which.
func shareTime(parts []part) bool {
	var set, days []int
	for i, p := range parts {
		if p.r.when.set {
			set = append(set, i)
		}
		if p.r.when.hasDay || p.r.when.isAgo {
			days = append(days, i)
		}
	}
	last := len(parts) - 1
	switch {
	case len(set) == 0:
	case len(set) == 1:
		if set[0] != 0 && set[0] != last {
			return false
		}
		for i := range parts {
			parts[i].r.when = parts[set[0]].r.when
		}
	case len(set) < len(parts):
		return false
	case len(days) == 1 && (days[0] == 0 || days[0] == last) && !parts[days[0]].r.when.isAgo:
		for i := range parts {
			w := parts[days[0]].r.when
			if i != days[0] {
				own := parts[i].r.when
				w.hasTime, w.clock, w.half = true, own.clock, own.half
				parts[i].r.when = w
			}
		}
	}
	return true
}
