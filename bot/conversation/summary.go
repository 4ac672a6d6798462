package conversation

import (
	"yardbell/rules"
	"yardbell/store"
)

// This file answers together what one member wrote while much of it waited: one message
// that says what was logged and what was not, in place of many that nobody reads. What
// needs an answer, or warns, is never in it: see place.

// Place is where the answer of a message stands among those that wait. An echo may be
// summed up with others; so that nothing is lost by that, it only says what its lines say,
// or that there are none.
func (a *Answer) Place() int {
	for _, e := range a.Logged {
		if e.Action == rules.Did && e.Step == rules.Virgin {
			return store.CriticalPing // the others read it in this answer
		}
	}
	switch {
	case len(a.Buttons) > 0 || a.Attach.Kind != "" || len(a.Later) > 0 || a.Warned || a.Kind == "ask":
		return store.Answer
	case a.Kind == "error":
		return store.Echo
	case len(a.Logged) == 0:
		return store.Answer
	}
	for _, e := range a.Logged {
		if e.Action == rules.Void || e.Action == rules.Amend {
			return store.Answer // it tells of two lines
		}
	}
	return store.Echo
}
