package bot

import (
	"strings"

	"yardbell/rules"
	"yardbell/store"
)

// editMany follows a change of a message of which several lines were logged, or of
// which several are to be: each event amends the line it is about, new ones are
// logged, what is gone is taken back. All of it, or none.
func (t *talk) editMany(alive []store.Line, list []*reading, was map[int64]*reading) error {
	var now []string
	for _, l := range alive {
		now = append(now, t.v.Line(l.Entry))
	}
	match, ok := matchLines(alive, list, t.sameSubject)
	if !ok || len(list) == 0 {
		t.ask("ask_edit", "What", strings.Join(now, "; "))
		return nil
	}
	return t.tx.Nested(func() (bool, error) {
		keep, err := t.editParts(alive, list, match, was)
		if !keep {
			t.logged = nil
		}
		return keep, err
	})
}

// editParts brings the lines into the form of the events; false where one of them
// was asked back.
func (t *talk) editParts(alive []store.Line, list []*reading, match []int, was map[int64]*reading) (bool, error) {
	used := map[int]bool{}
	for _, i := range match {
		used[i] = true
	}
	var gone []int64
	for i, l := range alive {
		if !used[i] {
			gone = append(gone, l.ID)
		}
	}
	var said []string
	turn := func(do func() error) (bool, error) {
		n := len(t.logged)
		t.lines, t.step, t.subject = nil, "", rules.Subject{}
		if err := do(); err != nil {
			return false, err
		}
		logged := len(t.logged) > n
		if !logged && (t.kind != "reply" || t.silent) {
			t.silent = false
			if t.kind == "reply" {
				t.fail("r_unread", "Understood", "", "Hint", t.v.Say("hint_help"))
			}
			return false, nil
		}
		if logged || len(list)+len(gone) == 1 {
			said = append(said, t.lines...)
		}
		return true, nil
	}
	if len(gone) > 0 {
		if ok, err := turn(func() error { return t.voidLines(gone, false) }); !ok || err != nil {
			return false, err
		}
	}
	for i, r := range list {
		r.addressed = true
		ok, err := turn(func() error {
			if match[i] >= 0 {
				return t.rewrite(alive[match[i]], r, was[alive[match[i]].ID])
			}
			return t.act(r)
		})
		if !ok || err != nil {
			return false, err
		}
	}
	if t.lines = said; len(said) == 0 {
		var now []string
		for _, l := range alive {
			now = append(now, t.v.Line(l.Entry))
		}
		t.say("e_noted", "What", strings.Join(now, "; "))
	}
	return true, nil
}

// matchLines finds the line that each event is about, -1 for a new one: of the
// same step and subject, of the same place first.
func matchLines(alive []store.Line, list []*reading, same func(*reading, rules.Entry) bool) (match []int, ok bool) {
	used := map[int]bool{}
	match = make([]int, len(list))
	for i, r := range list {
		match[i] = -1
		if r.verb == doDone && i < len(alive) && alive[i].Action == rules.Did {
			r.verb, r.step = doStep, alive[i].Step
		}
		if r.verb != doStep {
			return nil, false
		}
	}
	for _, sharp := range []bool{true, false} {
		for i, r := range list {
			for k, l := range alive {
				place := r.yard == l.Into || r.builder != "" && r.builder == l.Into
				if match[i] < 0 && !used[k] && l.Action == rules.Did && l.Step == r.step && same(r, l.Entry) && (place || !sharp) {
					match[i], used[k] = k, true
				}
			}
		}
	}
	return match, true
}
