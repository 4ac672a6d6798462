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

// EachOpen shows every open task of a crew, those of a planned step whose turn has come
// among them. see must not write.
func (t *Tx) EachOpen(crew int64, see func(*rules.Task)) error {
	list, err := lookAt(t, crew, openSlot, func() ([]rules.Task, error) { return t.openRows(crew) })
	for i := range list {
		see(&list[i])
	}
	return err
}

func (t *Tx) openRows(crew int64) ([]rules.Task, error) {
	return t.tasks(`crew_id = 0 + ? AND state = 'open'`, crew)
}

// Tasks of a crew, those already answered among them.
func (t *Tx) Tasks(crew int64) ([]rules.Task, error) { return t.tasks(`crew_id = 0 + ?`, crew) }

// SubjectTasks are the tasks of one subject.
func (t *Tx) SubjectTasks(crew int64, s rules.Subject) ([]rules.Task, error) {
	return shelved(t, crew, tasksSlot(s), func() ([]rules.Task, error) { return t.subjectRows(crew, s) })
}

func (t *Tx) subjectRows(crew int64, s rules.Subject) ([]rules.Task, error) {
	// The key of a task begins with its subject and a slash; '0' comes after it.
	return t.tasks(`crew_id = 0 + ? AND key > ? AND key < ? AND subject_kind = '' || ? AND subject_key = '' || ?`, crew, s.String()+"/", s.String()+"0", s.Kind, s.Key)
}

// SubjectTask is one task of a subject by its key.
func (t *Tx) SubjectTask(crew int64, s rules.Subject, key string) (k rules.Task, found bool, err error) {
	list, atHand := onShelf[rules.Task](t, crew, tasksSlot(s))
	if !atHand {
		return t.Task(crew, key)
	}
	return taskOf(list, key)
}

func taskOf(list []rules.Task, key string) (k rules.Task, found bool, err error) {
	i := slices.IndexFunc(list, func(k rules.Task) bool { return k.Key == key })
	if i < 0 {
		return k, false, nil
	}
	return list[i], true, nil
}

// Task reads one task by its key.
func (t *Tx) Task(crew int64, key string) (k rules.Task, found bool, err error) {
	open, _ := onShelf[rules.Task](t, crew, openSlot)
	if k, found, _ := taskOf(open, key); found {
		return k, true, nil
	}
	list, err := t.tasks(`crew_id = 0 + ? AND key = ?`, crew, key)
	if err != nil {
		return k, false, err
	}
	return taskOf(list, key)
}

// putTasks replaces the tasks of one subject, a list that becomes its own, and brings
// their queued pings in line. Only rows that differ are written; all forces the pings of
// unchanged tasks to be looked at too, as a change of settings asks for.
func (t *Tx) putTasks(crew int64, s *rules.Settings, subject rules.Subject, tasks []rules.Task, all bool) error {
	old, err := lookAt(t, crew, tasksSlot(subject), func() ([]rules.Task, error) { return t.subjectRows(crew, subject) })
	if err != nil {
		return err
	}
	for i := range tasks {
		asStored(&tasks[i])
	}
	slices.SortFunc(tasks, inOrder) // most stand where they stood
	kept := make([]bool, len(old))
	changed := false
	var plans []pingPlan
	for i := range tasks {
		k := &tasks[i]
		var before *rules.Task
		if at := seek(old, i, func(o *rules.Task) bool { return o.Key == k.Key }); at >= 0 {
			before, kept[at] = &old[at], true
		}
		same := before != nil && sameTask(before, k)
		if same && !all {
			continue
		}
		if before != nil && before.State == rules.Open && k.State != rules.Open {
			t.Closed = append(t.Closed, *k)
		}
		if !same {
			changed = true
			t.owe(crew, k.Key, k)
		}
		// Most changes of a task, a count that came in, leave its pings as they are.
		if all || before == nil || !rules.SamePings(before, k) {
			plan := planPings(k, s)
			if all || before == nil || !slices.Equal(plan.rows, planPings(before, s).rows) {
				plans = append(plans, plan)
			}
		}
	}
	for i := range old {
		before := &old[i]
		if kept[i] {
			continue
		}
		if before.State == rules.Open {
			t.Closed = append(t.Closed, rules.Task{Key: before.Key})
		}
		changed = true
		t.owe(crew, before.Key, nil)
		plans = append(plans, pingPlan{task: &rules.Task{Key: before.Key}})
	}
	if err := t.putPings(crew, plans); err != nil {
		return err
	}
	if changed {
		t.shelveTasks(crew, subject, tasks)
	}
	return nil
}

// CountOpen is how many tasks of all crews are open.
func (t *Tx) CountOpen() (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM tasks WHERE state = 'open'`, nil, &n)
	return n, err
}

// asStored makes a task as its row will read: the planner's times may be finer and carry
// the crew's zone.
func asStored(k *rules.Task) {
	for _, at := range []*time.Time{&k.Earliest, &k.Best, &k.Latest, &k.Ideal, &k.Snoozed, &k.Anchor} {
		*at = fromMS(toMS(*at))
	}
}

func sameTask(a, b *rules.Task) bool {
	if !sameValue(a.Count, b.Count) {
		return false
	}
	x := *a
	x.Count = b.Count
	return x == *b
}

// shelveTasks puts the tasks of a subject, in the order in which they are read, in the
// place of those it had.
func (t *Tx) shelveTasks(crew int64, subject rules.Subject, now []rules.Task) {
	reshelve(t, crew, tasksSlot(subject), func([]rules.Task) []rules.Task { return now })
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
