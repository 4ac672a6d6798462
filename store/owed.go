package store

import (
	"cmp"
	"slices"
	"strings"

	"yardbell/rules"
)

// owed is a task's row that the transaction has yet to write; a nil task is a row to
// delete. Several lines that are saved together change the same tasks again and again,
// and what is at hand knows them as they are: the file is told once, before it is asked
// about tasks and before the commit.
type owed struct {
	crew int64
	key  string
	task *rules.Task
}

func (t *Tx) owe(crew int64, key string, k *rules.Task) {
	i, had := slices.BinarySearchFunc(t.owes, owed{crew: crew, key: key}, byTask)
	if had {
		t.owes[i].task = k
		return
	}
	t.owes = slices.Insert(t.owes, i, owed{crew, key, k})
}

func byTask(a, b owed) int {
	return cmp.Or(cmp.Compare(a.crew, b.crew), strings.Compare(a.key, b.key))
}

// pay writes all that is owed.
func (t *Tx) pay() error {
	owes := t.owes
	t.owes = nil
	var rows []owed
	for _, o := range owes {
		if o.task != nil {
			rows = append(rows, o)
		} else if _, err := t.shelvedExec(`DELETE FROM tasks WHERE crew_id = 0 + ? AND key = ?`, o.crew, o.key); err != nil {
			return err
		}
	}
	const columns = 26
	return manyRows(rows, columns, func(o owed) []any {
		k := o.task
		return []any{o.crew, k.Key, string(k.Subject.Kind), k.Subject.Key, string(k.Step), k.Occ, toMS(k.Earliest), toMS(k.Best), toMS(k.Latest), toMS(k.Ideal),
			int64(k.Weight), k.Guard, string(k.State), k.ClaimedBy, toMS(k.Snoozed), k.Reason, toMS(k.Anchor), int64(k.Batch), int64(k.Breeder), orNull(k.Count),
			k.From, k.Into, k.Mark, k.Unfit, k.Stake, k.Source}
	}, func(values string, args []any) error {
		_, err := t.shelvedExec(`INSERT OR REPLACE INTO tasks (crew_id, `+taskColumns+`) VALUES `+values, args...)
		return err
	})
}
