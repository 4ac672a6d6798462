package scheduler

import (
	"cmp"
	"slices"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// mostLate is how many late pings go out one by one; more collapse into a list.
const mostLate = 5

// due is a claimed message with what it is about.
type due struct {
	m    store.Message
	task rules.Task
	late bool
}

// arrange decides on what was claimed of one chat and merges what belongs together.
// Holds and drops are recorded here; what is to be sent comes back, in that order.
func arrange(tx *store.Tx, claimed []store.Message, now time.Time) (send []store.Outgoing, err error) {
	id := claimed[0].Crew
	crew, err := tx.CrewByID(id)
	if err != nil {
		return nil, err
	}
	if crew.Standing != "open" {
		if claimed, err = shut(tx, crew, claimed, now); err != nil || len(claimed) == 0 {
			return nil, err
		}
	}
	s, err := tx.Settings(id)
	if err != nil {
		return nil, err
	}
	today := rules.DateOf(now, s.Zone)
	hadDigest, err := tx.DigestSent(id, today, s.Zone)
	if err != nil {
		return nil, err
	}
	digestToday := hadDigest
	for _, m := range claimed {
		digestToday = digestToday || (m.Ping == rules.Digest && m.Edits == 0 && coversToday(m, s, now))
	}
	base := store.Outgoing{Crew: crew, Settings: s, Now: now}
	if len(claimed) > 1 && claimed[0].Priority > store.DigestPing {
		return together(tx, base, claimed)
	}
	var pings []due
	var digests, edits []store.Outgoing
	for _, m := range claimed {
		switch {
		case m.Ping == store.Pin && (m.Day != today.String() || !s.Pin || !crew.MayPin()):
			if err := tx.Finish(m, "dropped", "not to be pinned any more"); err != nil {
				return nil, err
			}
		case m.Signs():
			out, ok, err := sign(tx, base, m)
			if err != nil {
				return nil, err
			}
			if ok {
				edits = append(edits, out)
			}
		case m.Ping == store.Seen:
			out, ok, err := unlogged(tx, base, m)
			if err != nil {
				return nil, err
			}
			if ok {
				digests = append(digests, out)
			}
		case m.Edits != 0: // a change of what stands in the chat already
			out := base
			out.Messages = []store.Message{m}
			if m.Ping == rules.Digest {
				if out.Items, err = tx.TasksOn(id, today, s); err != nil {
					return nil, err
				}
				model, err := tx.Model(id)
				if err != nil {
					return nil, err
				}
				out.Rounds, out.Drive = model.Rounds(), model.Drive()
			}
			edits = append(edits, out)
		case m.Ping == "": // an answer: goes as it is
			out := base
			out.Messages = []store.Message{m}
			send = append(send, out)
		case m.Ping == rules.Digest:
			out, ok, err := digest(tx, base, m, hadDigest || slices.ContainsFunc(digests, isDigest))
			if err != nil {
				return nil, err
			}
			if ok {
				digests = append(digests, out)
			}
			if err := tx.EnsureDigest(id); err != nil {
				return nil, err
			}
		default:
			d, ok, err := decide(tx, m, s, digestToday, now)
			if err != nil {
				return nil, err
			}
			if ok {
				pings = append(pings, d)
			}
		}
	}
	merged, err := merge(tx, base, pings)
	// A missed window costs more than an answer that comes a second later.
	return slices.Concat(merged, digests, send, edits), err
}

// mutedWait is how long messages wait for a chat that lets the bot read only.
const mutedWait = 5 * time.Minute

// shut deals with messages for a group where the bot may not write: muted, they
// wait; put out of the group, they are parked and shown by `check`. Those for
// private chats come back.
func shut(tx *store.Tx, crew store.Crew, claimed []store.Message, now time.Time) (private []store.Message, err error) {
	for _, m := range claimed {
		if m.Chat != 0 {
			private = append(private, m)
			continue
		}
		if m.Aside() {
			err = tx.Finish(m, "dropped", "the group cannot be written")
		} else if crew.Standing == "muted" {
			err = tx.Reschedule(m, now.Add(mutedWait), true, "the bot may not write in the group")
		} else {
			err = tx.Finish(m, "failed", "the bot is not in the group any more")
		}
		if err == nil && m.Ping == rules.Digest {
			err = tx.EnsureDigest(crew.ID)
		}
		if err != nil {
			return nil, err
		}
	}
	return private, nil
}

func decide(tx *store.Tx, m store.Message, s *rules.Settings, digestToday bool, now time.Time) (due, bool, error) {
	task, found, err := tx.Task(m.Crew, m.TaskKey)
	if err != nil {
		return due{}, false, err
	}
	v := rules.Decide(m.Ping, m.Fire, task, found, digestToday, s, now)
	switch v.Do {
	case rules.DropIt:
		return due{}, false, tx.Finish(m, "dropped", v.Reason)
	case rules.HoldIt:
		return due{}, false, tx.Reschedule(m, v.Until, true, v.Reason)
	}
	return due{m, task, now.Sub(m.Fire) > rules.LateAfter}, true, nil
}

// soon is how close two pings of one task are that are one message.
const soon = time.Minute

// onePerTask keeps of several pings of one task the last, where one of them is late: while
// the service was away the eve and the close of a window may both have come, and the later
// says how things stand. The task's next is taken along that would follow within a minute.
func onePerTask(tx *store.Tx, pings []due, s *rules.Settings, now time.Time) (out []due, err error) {
	late := map[string]bool{}
	for _, d := range pings {
		if key := d.task.Key; d.late && !late[key] {
			late[key] = true
			next, err := tx.ClaimAbout(d.m.Crew, key, now.Add(soon))
			if err != nil {
				return nil, err
			}
			for _, m := range next {
				n, ok, err := decide(tx, m, s, false, now)
				if err != nil {
					return nil, err
				}
				if ok {
					pings = append(pings, n)
				}
			}
		}
	}
	at := map[string]int{}
	for _, d := range pings {
		had, known := at[d.task.Key]
		if !known || !late[d.task.Key] {
			at[d.task.Key] = len(out)
			out = append(out, d)
			continue
		}
		if d.m.Fire.After(out[had].m.Fire) {
			out[had], d = d, out[had]
		}
		if err := tx.Finish(d.m, "dropped", "one message with a later ping of the task"); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// merge collapses a flood of late pings into one list, joins routine pings of the same
// minute, and makes one message of those about the bars of a round; every other ping goes
// by itself, what is critical first.
func merge(tx *store.Tx, base store.Outgoing, pings []due) (send []store.Outgoing, err error) {
	if pings, err = onePerTask(tx, pings, base.Settings, base.Now); err != nil || len(pings) == 0 {
		return nil, err
	}
	if base.Builders, base.Yards, err = tx.Names(base.Crew.ID); err != nil {
		return nil, err
	}
	groups, err := byRound(tx, base, pings)
	if err != nil {
		return nil, err
	}
	var late, single []group
	var lateOnes, routine []due
	for _, g := range groups {
		switch d := g.pings[0]; {
		case d.task.Step == rules.Remind: // its words are the crew's own
			single = append(single, g)
		case d.late:
			late, lateOnes = append(late, g), append(lateOnes, g.pings...)
		case d.task.Weight == rules.Routine:
			routine = append(routine, g.pings...)
		default:
			single = append(single, g)
		}
	}
	if len(late) > mostLate {
		out := list(base, lateOnes)
		out.Late = slices.MinFunc(lateOnes, func(a, b due) int { return a.m.Fire.Compare(b.m.Fire) }).m.Fire
		send = append(send, out)
	} else {
		single = append(late, single...)
	}
	if len(routine) == 1 {
		single = append(single, group{pings: routine})
	}
	slices.SortStableFunc(single, func(a, b group) int { return cmp.Compare(a.pings[0].m.Priority, b.pings[0].m.Priority) })
	for _, g := range single {
		out, err := g.message(tx, base)
		if err != nil {
			return nil, err
		}
		send = append(send, out)
	}
	if len(routine) > 1 {
		send = append(send, list(base, routine))
	}
	return send, nil
}

func list(base store.Outgoing, ds []due) store.Outgoing {
	out := base
	seen := map[string]bool{}
	for _, d := range ds {
		out.Messages = append(out.Messages, d.m)
		if !seen[d.task.Key] {
			seen[d.task.Key] = true
			out.Items = append(out.Items, d.task)
		}
	}
	return out
}

// coversToday says whether a digest that is due stands for today: its own day, or
// a missed one of a day before once today's hour has come, of which only one goes.
func coversToday(m store.Message, s *rules.Settings, now time.Time) bool {
	today := rules.DateOf(now, s.Zone)
	return m.Day == today.String() || !now.Before(rules.At(today, s.Morning, s.Zone))
}

// digest gathers the open tasks of today. One whose day is over is dropped, and
// so is one with nothing in it; had says that the crew has today's already.
func digest(tx *store.Tx, out store.Outgoing, m store.Message, had bool) (store.Outgoing, bool, error) {
	s, today := out.Settings, rules.DateOf(out.Now, out.Settings.Zone)
	// One that could not be sent may come to be due beside the next.
	if had {
		return out, false, tx.Finish(m, "dropped", "today's went out already")
	}
	if !coversToday(m, s, out.Now) {
		return out, false, tx.Finish(m, "dropped", "its day is over")
	}
	if _, to, quiet := s.Quiet(out.Now); quiet {
		return out, false, tx.Reschedule(m, to, true, "quiet hours")
	}
	var err error
	if out.Items, err = tx.TasksOn(m.Crew, today, s); err != nil {
		return out, false, err
	}
	if !rules.WorthTelling(out.Items, today, s) {
		return out, false, tx.Finish(m, "dropped", "nothing is open today")
	}
	crew, err := tx.Model(m.Crew)
	if err != nil {
		return out, false, err
	}
	out.Rounds, out.Drive = crew.Rounds(), crew.Drive()
	out.Messages = []store.Message{m}
	if fire := rules.At(today, s.Morning, s.Zone); out.Now.Sub(fire) > rules.LateAfter {
		out.Late = fire
	}
	return out, true, nil
}

func isDigest(out store.Outgoing) bool { return out.Messages[0].Ping == rules.Digest }

// sign drops the sign on a message that was logged, or changed, since.
func sign(tx *store.Tx, out store.Outgoing, m store.Message) (store.Outgoing, bool, error) {
	out.Messages = []store.Message{m}
	if m.Ping == store.Unsign {
		return out, true, nil
	}
	u, found, err := tx.UpdateRow(m.Update)
	if err != nil {
		return out, false, err
	}
	if !found || u.Outcome != store.Notice {
		return out, false, tx.Finish(m, "dropped", "no sign any more")
	}
	return out, true, nil
}

// unlogged gathers what of the day carries the sign and was not logged since. With
// nothing left it is dropped.
func unlogged(tx *store.Tx, out store.Outgoing, m store.Message) (store.Outgoing, bool, error) {
	if _, to, quiet := out.Settings.Quiet(out.Now); quiet {
		return out, false, tx.Reschedule(m, to, true, "quiet hours")
	}
	list, err := tx.Unlogged(m.Crew, m.Day)
	if err != nil {
		return out, false, err
	}
	if len(list) == 0 {
		return out, false, tx.Finish(m, "dropped", "nothing is left of it")
	}
	for _, u := range list {
		who, err := tx.MemberByID(u.Member)
		if err != nil {
			return out, false, err
		}
		out.Unlogged = append(out.Unlogged, store.Unlogged{Name: who.Name, Update: u})
	}
	out.Messages = []store.Message{m}
	return out, true, nil
}
