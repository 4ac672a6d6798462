package conversation

import (
	"strings"

	"yardbell/rules"
	"yardbell/store"
)

// editMany follows a change of a message of which several lines were logged, or of
// which several are to be: each event amends the line it is about, new ones are
// logged, what is gone is taken back. All of it, or none.
func (sc *Scene) editMany(alive []store.Line, list []*reading, was map[int64]*reading) (Answer, error) {
	var now []string
	for _, l := range alive {
		now = append(now, sc.Voice.Line(l.Entry))
	}
	match, ok := matchLines(alive, list, sc.sameSubject)
	if !ok || len(list) == 0 {
		var ans Answer
		ans.ask(sc.Voice, "ask_edit", "What", strings.Join(now, "; "))
		return ans, nil
	}
	ans, all, err := sc.editParts(alive, list, match, was)
	if !all {
		ans.drop(sc)
	}
	return ans, err
}

// editParts brings the lines into the form of the events; false where one of them
// was asked back.
func (sc *Scene) editParts(alive []store.Line, list []*reading, match []int, was map[int64]*reading) (Answer, bool, error) {
	var ans Answer
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
	turn := func(now Answer, err error) (bool, error) {
		if err != nil {
			return false, err
		}
		ans.Lines, ans.Step, ans.Subject = nil, "", rules.Subject{}
		ans.add(now)
		sc = ans.In(sc)
		logged := len(now.Logged) > 0
		if !logged && (ans.Sort() != "reply" || ans.Silent) {
			ans.Silent = false
			if ans.Sort() == "reply" {
				ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", sc.Voice.Say("hint_help"))
			}
			return false, nil
		}
		if logged || len(list)+len(gone) == 1 {
			said = append(said, ans.Lines...)
		}
		return true, nil
	}
	if len(gone) > 0 {
		if ok, err := turn(sc.voidLines(gone, false)); !ok || err != nil {
			return ans, false, err
		}
	}
	for i, r := range list {
		r.addressed = true
		var now Answer
		var err error
		if match[i] >= 0 {
			now, err = sc.rewrite(alive[match[i]], r, was[alive[match[i]].ID])
		} else {
			now, err = sc.act(r)
		}
		if ok, err := turn(now, err); !ok || err != nil {
			return ans, false, err
		}
	}
	if ans.Lines = said; len(said) == 0 {
		var now []string
		for _, l := range alive {
			now = append(now, sc.Voice.Line(l.Entry))
		}
		ans.say(sc.Voice, "e_noted", "What", strings.Join(now, "; "))
	}
	return ans, true, nil
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
