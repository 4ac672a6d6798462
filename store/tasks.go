package store

import (
	"slices"

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
	list, err := t.tasks(`crew_id = ? AND state = 'open'`, crew)
	return slices.DeleteFunc(list, func(k rules.Task) bool { return k.NeedsComb() && !t.Now.Before(k.Earliest) }), err
}

// Tasks of a crew, those already answered among them.
func (t *Tx) Tasks(crew int64) ([]rules.Task, error) { return t.tasks(`crew_id = ?`, crew) }

// SubjectTasks are the tasks of one subject.
func (t *Tx) SubjectTasks(crew int64, s rules.Subject) ([]rules.Task, error) {
	return t.tasks(`crew_id = ? AND subject_kind = ? AND subject_key = ?`, crew, s.Kind, s.Key)
}

// Task reads one task by its key.
func (t *Tx) Task(crew int64, key string) (k rules.Task, found bool, err error) {
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
	was := map[string]string{}
	open := map[string]bool{}
	for _, k := range old {
		was[k.Key], open[k.Key] = toJSON(k), k.State == rules.Open
	}
	for _, k := range tasks {
		before, had := was[k.Key]
		delete(was, k.Key)
		if had && before == toJSON(k) && !all {
			continue
		}
		if open[k.Key] && k.State != rules.Open {
			t.Closed = append(t.Closed, k)
		}
		if !had || before != toJSON(k) {
			if _, err := t.exec(`INSERT OR REPLACE INTO tasks (crew_id, `+taskColumns+`)
				VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
				crew, k.Key, k.Subject.Kind, k.Subject.Key, k.Step, k.Occ, toMS(k.Earliest), toMS(k.Best), toMS(k.Latest), toMS(k.Ideal),
				int(k.Weight), k.Guard, k.State, k.ClaimedBy, toMS(k.Snoozed), k.Reason, toMS(k.Anchor), k.Batch, k.Breeder, k.Count,
				k.From, k.Into, k.Mark, k.Unfit, k.Stake, k.Source); err != nil {
				return err
			}
		}
		if err := t.putPings(crew, k, rules.Pings(k, s)); err != nil {
			return err
		}
	}
	for key := range was {
		if open[key] {
			t.Closed = append(t.Closed, rules.Task{Key: key})
		}
		if _, err := t.exec(`DELETE FROM tasks WHERE crew_id = ? AND key = ?`, crew, key); err != nil {
			return err
		}
		if err := t.putPings(crew, rules.Task{Key: key}, nil); err != nil {
			return err
		}
	}
	return nil
}

// CountOpen is how many tasks of all crews are open.
func (t *Tx) CountOpen() (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM tasks WHERE state = 'open'`, nil, &n)
	return n, err
}
