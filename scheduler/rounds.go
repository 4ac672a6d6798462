package scheduler

import (
	"slices"
	"strings"

	"yardbell/rules"
	"yardbell/store"
)

// This file makes one message of the pings of a round's bars: six bars grafted on a day are
// one piece of work to who does it, and six messages would only bury what is urgent. Rows
// and keys stay per task: what is merged is decided when it goes.

// group is pings that go as one message, of which round their bars are.
type group struct {
	pings []due
	round rules.Subject
}

// byRound parts pings by what goes as one message, in the order in which they came; the
// first of each part is the one that closes first. An eve ping takes along those of the
// bars that are done on the same errand, though theirs would come later; pings about a close
// go each at its own time, and are one message where that is the same.
func byRound(tx *store.Tx, base store.Outgoing, pings []due) (groups []group, err error) {
	if !slices.ContainsFunc(pings, func(d due) bool { return d.task.Batch != 0 }) {
		for _, d := range pings {
			groups = append(groups, group{[]due{d}, rules.Subject{}})
		}
		return groups, nil
	}
	crew, err := tx.Model(base.Crew.ID)
	if err != nil {
		return nil, err
	}
	rounds := crew.Rounds()
	if pings, err = withEves(tx, base, pings, crew.Open(), rounds); err != nil {
		return nil, err
	}
	type sort struct {
		ping rules.PingKind
		late bool
	}
	var sorts []sort
	by := map[sort][]due{}
	for _, d := range pings {
		k := sort{d.m.Ping, d.late}
		if by[k] == nil {
			sorts = append(sorts, k)
		}
		by[k] = append(by[k], d)
	}
	for _, k := range sorts {
		tasks := make([]rules.Task, len(by[k]))
		at := map[string]due{}
		for i, d := range by[k] {
			tasks[i], at[d.task.Key] = d.task, d
		}
		for _, part := range rules.Together(tasks, rounds) {
			g := group{pings: make([]due, len(part))}
			for i, t := range part {
				g.pings[i] = at[t.Key]
			}
			if r, found := rules.RoundWith(rounds, part[0].Batch); found {
				g.round = r.Subject()
			}
			groups = append(groups, g)
		}
	}
	return groups, nil
}

// withEves adds to eve pings that are in time those of the bars told of together with them.
// One that somebody put off, or that does not go for another reason, stays where it is.
func withEves(tx *store.Tx, base store.Outgoing, pings []due, open []rules.Task, rounds []rules.GraftRound) ([]due, error) {
	have, heads := map[string]bool{}, map[string]bool{}
	for _, d := range pings {
		have[d.task.Key] = true
		heads[d.task.Key] = d.m.Ping == rules.Eve && !d.late && d.task.Batch != 0
	}
	var more []string
	for _, part := range rules.Together(open, rounds) {
		if len(part) < 2 || !slices.ContainsFunc(part, func(t rules.Task) bool { return heads[t.Key] }) {
			continue
		}
		for _, t := range part {
			if v := rules.Decide(rules.Eve, base.Now, t, true, false, base.Settings, base.Now); !have[t.Key] && v.Do == rules.SendIt {
				more = append(more, t.Key)
			}
		}
	}
	claimed, err := tx.ClaimEves(base.Crew.ID, more)
	if err != nil {
		return nil, err
	}
	for _, m := range claimed {
		i := slices.IndexFunc(open, func(t rules.Task) bool { return t.Key == m.TaskKey })
		if have[m.TaskKey] || i < 0 { // a second of one task: it has its own day
			if err := tx.Reschedule(m, m.Fire, true, "not yet"); err != nil {
				return nil, err
			}
			continue
		}
		have[m.TaskKey] = true
		pings = append(pings, due{m: m, task: open[i]})
	}
	return pings, nil
}

// message is what goes for a group of pings.
func (g group) message(tx *store.Tx, base store.Outgoing) (out store.Outgoing, err error) {
	out = base
	task := g.pings[0].task
	out.Task = &task
	for _, d := range g.pings {
		out.Messages = append(out.Messages, d.m)
		if d.late && (out.Late.IsZero() || d.m.Fire.Before(out.Late)) {
			out.Late = d.m.Fire
		}
		if len(g.pings) > 1 {
			out.Bars, out.Round = append(out.Bars, d.task), g.round
		}
		if d.task.Step != rules.Laying {
			continue
		}
		crew, err := tx.Model(base.Crew.ID)
		if err != nil {
			return out, err
		}
		if b, _ := crew.Batch(d.task.Batch); b.Counts.Laying != nil {
			if out.Laying == nil {
				out.Laying = map[string]int{}
			}
			out.Laying[d.task.Key] = *b.Counts.Laying
		}
	}
	return out, nil
}

// merged says in a row what its message is about beside its own task.
func merged(out store.Outgoing) string {
	keys := make([]string, len(out.Bars))
	for i, t := range out.Bars {
		keys[i] = t.Key
	}
	return "one message for " + out.Round.String() + ": " + strings.Join(keys, ", ")
}
