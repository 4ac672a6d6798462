package store

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"yardbell/rules"
)

const taskColumns = `key, subject_kind, subject_key, step, occ, earliest, best, latest, ideal, weight, guard, state, claimed_by,
	snoozed, reason, anchor, batch, breeder, count, from_place, into_place, mark, unfit, stake, source`

func scanTask(s scanner) (k rules.Task, err error) {
	err = s.Scan(&k.Key, &k.Subject.Kind, &k.Subject.Key, &k.Step, &k.Occ, instant{&k.Earliest}, instant{&k.Best}, instant{&k.Latest}, instant{&k.Ideal},
		&k.Weight, &k.Guard, &k.State, &k.ClaimedBy, instant{&k.Snoozed}, &k.Reason, instant{&k.Anchor}, &k.Batch, &k.Breeder, &k.Count,
		&k.From, &k.Into, &k.Mark, &k.Unfit, &k.Stake, &k.Source)
	return k, err
}

func (t *Tx) tasks(where string, args ...any) ([]rules.Task, error) {
	return all(t, scanTask, `SELECT `+taskColumns+` FROM tasks WHERE `+where+` ORDER BY best, key`, args...)
}

// OpenTasks of a crew, by their best time. A planned step whose turn has come while
// no comb is in for it is not among them.
func (t *Tx) OpenTasks(crew int64) ([]rules.Task, error) {
	list, err := shelved(t, crew, openSlot, func() ([]rules.Task, error) { return t.openRows(crew) })
	return slices.DeleteFunc(list, func(k rules.Task) bool { return k.NeedsComb() && !t.Now.Before(k.Earliest) }), err
}

func (t *Tx) openRows(crew int64) ([]rules.Task, error) {
	return t.tasks(`crew_id = ? AND state = 'open'`, crew)
}

// Tasks of a crew, those already answered among them.
func (t *Tx) Tasks(crew int64) ([]rules.Task, error) { return t.tasks(`crew_id = ?`, crew) }

// SubjectTasks are the tasks of one subject.
func (t *Tx) SubjectTasks(crew int64, s rules.Subject) ([]rules.Task, error) {
	return shelved(t, crew, tasksSlot(s), func() ([]rules.Task, error) {
		return t.tasks(`crew_id = ? AND subject_kind = ? AND subject_key = ?`, crew, s.Kind, s.Key)
	})
}

// Task reads one task by its key.
func (t *Tx) Task(crew int64, key string) (k rules.Task, found bool, err error) {
	open, _ := onShelf[rules.Task](t, crew, openSlot)
	for _, k := range open {
		if k.Key == key {
			return k, true, nil
		}
	}
	list, err := t.tasks(`crew_id = ? AND key = ?`, crew, key)
	if err != nil || len(list) == 0 {
		return k, false, err
	}
	return list[0], true, nil
}

// putTasks replaces the tasks of one subject and brings their queued pings in
// line. Only rows that differ are written; all forces the pings of unchanged
// tasks to be looked at too, as a change of settings asks for.
func (t *Tx) putTasks(crew int64, s *rules.Settings, subject rules.Subject, tasks []rules.Task, all bool) error {
	old, err := t.SubjectTasks(crew, subject)
	if err != nil {
		return err
	}
	was := map[string]rules.Task{}
	for _, k := range old {
		was[k.Key] = k
	}
	changed := false
	now := make([]rules.Task, len(tasks))
	for i, k := range tasks {
		now[i] = stored(k)
		before, had := was[k.Key]
		delete(was, k.Key)
		same := had && sameTask(before, now[i])
		if same && !all {
			continue
		}
		if had && before.State == rules.Open && k.State != rules.Open {
			t.Closed = append(t.Closed, k)
		}
		if !same {
			changed = true
			if err := t.putTask(crew, k); err != nil {
				return err
			}
		}
		if err := t.putPings(crew, k, rules.Pings(k, s)); err != nil {
			return err
		}
	}
	for key, before := range was {
		changed = true
		if before.State == rules.Open {
			t.Closed = append(t.Closed, rules.Task{Key: key})
		}
		if _, err := t.shelvedExec(`DELETE FROM tasks WHERE crew_id = ? AND key = ?`, crew, key); err != nil {
			return err
		}
		if err := t.putPings(crew, rules.Task{Key: key}, nil); err != nil {
			return err
		}
	}
	if changed {
		t.shelveTasks(crew, subject, now)
	}
	return nil
}

// CountOpen is how many tasks of all crews are open.
func (t *Tx) CountOpen() (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM tasks WHERE state = 'open'`, nil, &n)
	return n, err
}

func (t *Tx) putTask(crew int64, k rules.Task) error {
	_, err := t.shelvedExec(`INSERT OR REPLACE INTO tasks (crew_id, `+taskColumns+`)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		crew, k.Key, k.Subject.Kind, k.Subject.Key, k.Step, k.Occ, toMS(k.Earliest), toMS(k.Best), toMS(k.Latest), toMS(k.Ideal),
		int(k.Weight), k.Guard, k.State, k.ClaimedBy, toMS(k.Snoozed), k.Reason, toMS(k.Anchor), k.Batch, k.Breeder, k.Count,
		k.From, k.Into, k.Mark, k.Unfit, k.Stake, k.Source)
	return err
}

// stored is a task as its row will read: the planner's times may be finer and carry
// the crew's zone.
func stored(k rules.Task) rules.Task {
	for _, at := range []*time.Time{&k.Earliest, &k.Best, &k.Latest, &k.Ideal, &k.Snoozed, &k.Anchor} {
		*at = fromMS(toMS(*at))
	}
	return k
}

func sameTask(a, b rules.Task) bool {
	if (a.Count == nil) != (b.Count == nil) || a.Count != nil && *a.Count != *b.Count {
		return false
	}
	a.Count, b.Count = nil, nil
	return a == b
}

// shelveTasks puts the tasks of a subject in the place of those it had, in the order in
// which they are read.
func (t *Tx) shelveTasks(crew int64, subject rules.Subject, now []rules.Task) {
	slices.SortFunc(now, inOrder)
	reshelve(t, crew, tasksSlot(subject), func([]rules.Task) []rules.Task { return slices.Clone(now) })
	reshelve(t, crew, openSlot, func(open []rules.Task) []rules.Task {
		open = slices.DeleteFunc(open, func(k rules.Task) bool { return k.Subject == subject })
		for _, k := range now {
			if k.State == rules.Open {
				i, _ := slices.BinarySearchFunc(open, k, inOrder)
				open = slices.Insert(open, i, k)
			}
		}
		return open
	})
}

func inOrder(a, b rules.Task) int {
	return cmp.Or(cmp.Compare(toMS(a.Best), toMS(b.Best)), strings.Compare(a.Key, b.Key))
}
