package conversation

import (
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// builderLine logs that a builder's queen was taken out, or that brood or bees went into it.
func (sc *Scene) builderLine(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	e.Subject, e.Count, e.Into = rules.BuilderSubject(r.builder), nil, ""
	ans.Step, ans.Subject = e.Step, e.Subject
	sc, done, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	kv := []any{"Builder", r.builder, "When", e.Happened}
	if e.Step == rules.Brood {
		k := sc.broodSearch(done[0])
		ans.say(sc.Voice, "e_brood", append(kv, "Open", k.Earliest, "Best", k.Best, "Close", k.Latest)...)
		return ans, nil
	}
	ans.say(sc.Voice, "e_queenless", append(kv, "Open", e.Happened.Add(rules.QueenlessLeast), "Close", e.Happened.Add(rules.QueenlessMost))...)
	return ans, nil
}

// broodSearch is the search that brood in a builder asks for.
func (sc *Scene) broodSearch(e rules.Entry) rules.Task {
	for _, k := range sc.model.Tasks(e.Subject) {
		if k.Step == rules.Rogue && k.Batch == 0 && k.Anchor.Equal(e.Happened) {
			return k
		}
	}
	return rules.Task{}
}

// builderOf is a builder by its name, as the log has it.
func (sc *Scene) builderOf(name string) rules.Builder {
	for _, b := range sc.model.Builders() {
		if b.Name == name {
			return b
		}
	}
	return rules.Builder{Name: name}
}

// echoBuilder says what is known of a builder now that a line told more of it.
func (sc *Scene) echoBuilder(e rules.Entry) Answer {
	var ans Answer
	switch d := e.Detail; {
	case d.Both != nil && *d.Both:
		ans.say(sc.Voice, "e_both", "Builder", e.Subject.Key)
	case d.Both != nil:
		ans.say(sc.Voice, "e_both_not", "Builder", e.Subject.Key)
	case d.Rests != nil && *d.Rests:
		ans.say(sc.Voice, "e_rests", "Builder", e.Subject.Key)
	case d.Rests != nil:
		ans.say(sc.Voice, "e_rests_not", "Builder", e.Subject.Key)
	case e.Count != nil:
		ans.say(sc.Voice, "e_room", "Builder", e.Subject.Key, "Count", *e.Count)
	}
	return ans
}

// sameSession is how long the bars that go into one builder together may be grafted apart.
const sameSession = 12 * time.Hour

// warnBuilder says of a graft into a builder what speaks against it: it holds other cells,
// more than it takes, or rests.
func (sc *Scene) warnBuilder(e rules.Entry) Answer {
	var ans Answer
	if e.Into == "" {
		return ans
	}
	var others []string
	held := wording.Deref(e.Count)
	for _, b := range sc.model.Batches() {
		if b.Ended || b.Number == e.Subject.Number() || e.Happened.After(b.Emerges) {
			continue
		}
		older := e.Happened.Sub(b.Grafted) > sameSession // bars of one day hang beside each other
		for _, l := range b.Account.Lots {
			if l.Place != e.Into {
				continue
			}
			held += wording.Deref(l.Count)
			name := sc.Voice.Subject(rules.BatchSubject(b.Number))
			if l.Count != nil {
				name = sc.Voice.Say("s_where_batch", "Batch", name, "Cells", sc.Voice.Say("cells_some", "Count", *l.Count))
			}
			if older {
				others = append(others, name)
			}
		}
	}
	b := sc.builderOf(e.Into)
	if len(others) > 0 {
		ans.say(sc.Voice, "w_builder_holds", "Builder", e.Into, "List", wording.JoinList(others))
	}
	if b.Room > 0 && held > b.Room {
		ans.say(sc.Voice, "w_builder_full", "Builder", e.Into, "Room", b.Room, "Count", held)
	}
	if b.Rests {
		ans.say(sc.Voice, "w_builder_rests", "Builder", e.Into)
	}
	return ans
}

// showBuilderIs tells what is known of a builder beside the cells in it.
func (sc *Scene) showBuilderIs(b rules.Builder) Answer {
	var ans Answer
	if b.Room > 0 {
		ans.say(sc.Voice, "s_builder_room", "Count", b.Room)
	}
	if b.Both {
		ans.say(sc.Voice, "s_builder_both")
	}
	if b.Rests {
		ans.say(sc.Voice, "s_builder_rests")
	}
	if !b.Queenless.IsZero() {
		ans.say(sc.Voice, "s_builder_queenless", "When", b.Queenless)
	}
	if n := len(b.Brood); n > 0 {
		ans.say(sc.Voice, "s_builder_brood", "When", b.Brood[n-1])
	}
	return ans
}
