package store

import (
	"slices"
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
func (t *Tx) OpenTasks(crew int64) ([]rules.Task, error) { return t.open(crew, time.Time{}) }

// TasksOn are the open tasks that concern a local day: see rules.DueOn. Those that nobody
// answered and that closed long ago are not even read.
func (t *Tx) TasksOn(crew int64, day rules.Date, s *rules.Settings) ([]rules.Task, error) {
	open, err := t.open(crew, t.Now.Add(-rules.StaleAfter))
	return rules.DueOn(open, day, s, t.Now), err
}

// open are the open tasks; of those that closed before a time none need be among them.
func (t *Tx) open(crew int64, closing time.Time) ([]rules.Task, error) {
	m, err := t.atHand(crew)
	var open []rules.Task
	if m != nil {
		open = m.Open()
	} else if err == nil {
		open, err = t.openInFile(crew, closing)
	}
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(open, func(k rules.Task) bool { return k.NeedsComb() && !t.Now.Before(k.Earliest) }), nil
}

// Tasks of a crew, those already answered among them.
func (t *Tx) Tasks(crew int64) ([]rules.Task, error) {
	m, err := t.Model(crew)
	if err != nil {
		return nil, err
	}
	return m.AllTasks(), nil
}

// SubjectTasks are the tasks of one subject, to be looked at only.
func (t *Tx) SubjectTasks(crew int64, s rules.Subject) ([]rules.Task, error) {
	m, err := t.Model(crew)
	if err != nil {
		return nil, err
	}
	return m.Tasks(s), nil
}

// Task is one task by its key.
func (t *Tx) Task(crew int64, key string) (k rules.Task, found bool, err error) {
	m, err := t.atHand(crew)
	if err != nil {
		return k, false, err
	}
	if m != nil {
		k, found = m.Task(key)
		return k, found, nil
	}
	list, err := all(t, scanTask, `SELECT `+taskColumns+` FROM tasks WHERE crew_id = 0 + ? AND key = ?`, crew, key)
	if err != nil || len(list) == 0 {
		return k, false, err
	}
	return list[0], true, nil
}

// subjectRows are the rows of a subject's tasks.
func (t *Tx) subjectRows(crew int64, s rules.Subject) ([]rules.Task, error) {
	// The key of a task begins with its subject and a slash; '0' comes after it.
	return t.tasks(`crew_id = 0 + ? AND key > ? AND key < ? AND subject_kind = '' || ? AND subject_key = '' || ?`, crew, s.String()+"/", s.String()+"0", s.Kind, s.Key)
}

// putTasks brings the rows of a subject's tasks and their queued pings in line with its
// tasks. Only rows that differ are written, and only those looked at that may: of tasks that
// changed or are open. all has every row looked at, and the pings of unchanged tasks too, as
// a change of settings asks for.
func (t *Tx) putTasks(crew int64, m *rules.Crew, p rules.Replanned, all bool) error {
	s, tasks := m.Settings(), m.Tasks(p.Subject)
	var old []rules.Task
	var err error
	if all {
		old, err = t.subjectRows(crew, p.Subject)
	} else {
		now := tasks
		tasks = unsettled(now, p.Before)
		old, err = t.taskRows(crew, keysOf(tasks, unsettled(p.Before, now)))
	}
	if err != nil {
		return err
	}
	before := map[string]*rules.Task{}
	for i := range old {
		before[old[i].Key] = &old[i]
	}
	var changed []*rules.Task
	var plans []pingPlan
	for i := range tasks {
		k := &tasks[i]
		was := before[k.Key]
		delete(before, k.Key)
		same := was != nil && sameTask(was, k)
		if same && !all {
			continue
		}
		if was != nil && was.State == rules.Open && k.State != rules.Open {
			t.Closed = append(t.Closed, *k)
		}
		if !same {
			changed = append(changed, k)
		}
		// Most changes of a task, a count that came in, leave its pings as they are.
		if all || was == nil || !rules.SamePings(was, k) {
			plan := planPings(k, s)
			if all || was == nil || !slices.Equal(plan.rows, planPings(was, s).rows) {
				plans = append(plans, plan)
			}
		}
	}
	for i := range old {
		was := &old[i]
		if before[was.Key] == nil {
			continue
		}
		if was.State == rules.Open {
			t.Closed = append(t.Closed, rules.Task{Key: was.Key})
		}
		if _, err := t.exec(`DELETE FROM tasks WHERE crew_id = 0 + ? AND key = ?`, crew, was.Key); err != nil {
			return err
		}
		plans = append(plans, pingPlan{task: &rules.Task{Key: was.Key}})
	}
	if err := t.writeTasks(crew, changed); err != nil {
		return err
	}
	return t.putPings(crew, plans)
}

// unsettled are those of the tasks that are open, or not the same among others.
func unsettled(tasks, others []rules.Task) (out []rules.Task) {
	at := map[string]*rules.Task{}
	for i := range others {
		at[others[i].Key] = &others[i]
	}
	for i := range tasks {
		k := &tasks[i]
		if o := at[k.Key]; k.State == rules.Open || o == nil || !sameTask(o, k) {
			out = append(out, *k)
		}
	}
	return out
}

// keysOf are the keys of tasks, sorted, each once.
func keysOf(lists ...[]rules.Task) (keys []string) {
	for _, list := range lists {
		for _, k := range list {
			keys = append(keys, k.Key)
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// taskRows are the rows of tasks by their keys.
func (t *Tx) taskRows(crew int64, keys []string) (list []rules.Task, err error) {
	err = manyRows(keys, 1, func(k string) []any { return []any{k} }, func(values string, args []any) error {
		more, err := all(t, scanTask, `SELECT `+taskColumns+` FROM tasks WHERE crew_id = 0 + ? AND key IN (VALUES `+values+`)`, append([]any{crew}, args...)...)
		list = append(list, more...)
		return err
	})
	return list, err
}

func (t *Tx) writeTasks(crew int64, tasks []*rules.Task) error {
	const columns = 26
	return manyRows(tasks, columns, func(k *rules.Task) []any {
		return []any{crew, k.Key, string(k.Subject.Kind), k.Subject.Key, string(k.Step), k.Occ, toMS(k.Earliest), toMS(k.Best), toMS(k.Latest), toMS(k.Ideal),
			int64(k.Weight), k.Guard, string(k.State), k.ClaimedBy, toMS(k.Snoozed), k.Reason, toMS(k.Anchor), int64(k.Batch), int64(k.Breeder), orNull(k.Count),
			k.From, k.Into, k.Mark, k.Unfit, k.Stake, k.Source}
	}, func(values string, args []any) error {
		_, err := t.exec(`INSERT OR REPLACE INTO tasks (crew_id, `+taskColumns+`) VALUES `+values, args...)
		return err
	})
}

// CountOpen is how many tasks of all crews are open.
func (t *Tx) CountOpen() (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM tasks WHERE state = 'open'`, nil, &n)
	return n, err
}

func sameTask(a, b *rules.Task) bool {
	if (a.Count == nil) != (b.Count == nil) || a.Count != nil && *a.Count != *b.Count {
		return false
	}
	x := *a
	x.Count = b.Count
	return x == *b
}
