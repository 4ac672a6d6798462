package store

import (
	"slices"
	"strconv"
	"strings"

	"yardbell/rules"
)

// pingPlan is what a task's pings are meant to be.
type pingPlan struct {
	task *rules.Task
	rows []pingRow
}

// pingRow is one of them as the outbox has it.
type pingRow struct {
	key, kind string
	ping      rules.PingKind
	day       string
	fire      int64
	priority  int
}

func planPings(k *rules.Task, s *rules.Settings) pingPlan {
	priority := OtherPing
	if k.Weight == rules.Critical {
		priority = CriticalPing
	}
	pings := rules.Pings(*k, s)
	plan := pingPlan{task: k, rows: make([]pingRow, len(pings))}
	for i, p := range pings {
		kind := "ping"
		if p.Kind == rules.NoAnswer || p.Kind == rules.Again {
			kind = "ask"
		}
		plan.rows[i] = pingRow{key: pingKey(k, p), kind: kind, ping: p.Kind, day: p.Day.String(), fire: toMS(p.Fire), priority: priority}
	}
	return plan
}

func pingKey(k *rules.Task, p rules.Ping) string {
	when := p.Day.String()
	if p.Kind == rules.Again || p.Kind == rules.Reminded {
		// Somebody may ask to be told again several times a day, or put a reminder that came
		// to another hour.
		when = strconv.FormatInt(p.Fire.UnixMilli(), 10)
	}
	return k.Key + "/" + string(p.Kind) + "/" + when
}

// putPings brings the queued pings of tasks in line with those planned. One
// whose time has passed is not begun: the answer that caused it says it all. One
// that is queued already stays, however late, and keeps its time where a new plan
// would move it into the past: better at the old hour than not at all.
func (t *Tx) putPings(crew int64, plans []pingPlan) error {
	had, err := t.queuedPings(crew, plans)
	if err != nil {
		return err
	}
	type fresh struct {
		task *rules.Task
		row  pingRow
	}
	var begin []fresh
	for _, plan := range plans {
		for _, p := range plan.rows {
			m, known := had[p.key]
			delete(had, p.key)
			ahead := fromMS(p.fire).After(t.Since)
			switch {
			case !known && ahead:
				begin = append(begin, fresh{plan.task, p})
			case known && ahead && (m.state == "cancelled" || m.state == "queued" && m.fire != p.fire):
				if _, err := t.exec(`UPDATE outbox SET state = 'queued', fire_at = ?, due_at = ?, priority = ?, attempt = 0, reason = '' WHERE id = ?`,
					p.fire, p.fire, p.priority, m.id); err != nil {
					return err
				}
			}
		}
	}
	var end []int64
	for _, m := range had {
		if m.state == "queued" {
			end = append(end, m.id)
		}
	}
	slices.Sort(end)
	if err := manyRows(end, 1, func(id int64) []any { return []any{id} }, func(values string, args []any) error {
		_, err := t.exec(`UPDATE outbox SET state = 'cancelled', reason = 'replanned' WHERE id IN (VALUES `+values+`) AND state = 'queued'`, args...)
		return err
	}); err != nil {
		return err
	}
	const columns = 12
	return manyRows(begin, columns, func(f fresh) []any {
		k, p := f.task, f.row
		return []any{crew, p.key, p.kind, string(p.ping), k.Key, string(k.Step), k.Subject.String(), p.day, p.fire, p.fire, p.priority, "queued"}
	}, func(values string, args []any) error {
		_, err := t.exec(`INSERT INTO outbox (crew_id, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state) VALUES `+values+` ON CONFLICT DO NOTHING`, args...)
		return err
	})
}

// aboutTasks joins the keys of tasks with the messages o of a crew about them, whose own
// keys begin with that of the task and a slash; '0' comes after it.
func aboutTasks(keys string) string {
	return `(SELECT column1 AS task FROM (VALUES ` + keys + `)) k CROSS JOIN outbox o
	ON o.crew_id = 0 + ? AND o.key > k.task || '/' AND o.key < k.task || '0' AND o.task_key = k.task`
}

// crewTask is a task by its key: those of one crew are named as those of another, and a
// transaction may be about several.
type crewTask struct {
	crew int64
	key  string
}

// noteUnshown remembers tasks none of whose messages was sent, so that nothing has to be
// sought that stands in the chat about them. Within a transaction that plans, nothing is.
func (t *Tx) noteUnshown(crew int64, keys []string, list []queuedPing) {
	if t.unshown == nil {
		t.unshown = map[crewTask]bool{}
	}
	for _, k := range keys {
		sent := slices.ContainsFunc(list, func(m queuedPing) bool {
			return m.state != "queued" && m.state != "cancelled" && strings.HasPrefix(m.key, k+"/")
		})
		t.unshown[crewTask{crew, k}] = !sent
	}
}

// queuedPing is a message about a task that the outbox has, whatever became of it.
type queuedPing struct {
	id         int64
	key, state string
	fire       int64
}

// queuedPings are the pings that the outbox has of tasks, by key.
func (t *Tx) queuedPings(crew int64, plans []pingPlan) (map[string]queuedPing, error) {
	if len(plans) == 0 {
		return nil, nil
	}
	keys := make([]string, len(plans))
	for i, p := range plans {
		keys[i] = p.task.Key
	}
	var list []queuedPing
	err := manyRows(keys, 1, func(k string) []any { return []any{k} }, func(values string, args []any) error {
		more, err := all(t, func(s scanner) (m queuedPing, err error) {
			err = s.Scan(&m.id, &m.key, &m.state, &m.fire)
			return m, err
		}, `SELECT o.id, o.key, o.state, o.fire_at FROM `+aboutTasks(values), append(args, crew)...)
		list = append(list, more...)
		return err
	})
	byKey := make(map[string]queuedPing, len(list))
	for _, m := range list {
		byKey[m.key] = m
	}
	t.noteUnshown(crew, keys, list)
	return byKey, err
}
